/* What must hold in a book, one rule a row. */
#include "book/check_inside.h"

const struct check_rule CHECK_RULES[] = {
    {"file", "the file is sound", CHECK_FILE, ASKED_NO_ONE, ": ", "",
	"restore a backup with \"becket book restore FILE\"; a damaged file is best not "
	"written to any more"},
    {"reference", "every row refers to what is there", CHECK_REFERENCES, ASKED_NO_ONE,
	" has a row that refers to a missing ", "",
	"restore a backup with \"becket book restore FILE\", or enter what is missing"},
    {"part-loop", "no part is inside itself, or more than 31 deep", CHECK_LOOPS,
	ASKED_NO_ONE, " is a part of itself, through others", "",
	"say with \"becket amend TAG --part-of\" what it is inside; \"\" for nothing"},
    {"part-apart", "every part is on the vessel of what it is inside", CHECK_PARTS_APART,
	ASKED_NO_ONE, " is a part of ", ", which is on another vessel",
	"correct one of them with \"becket amend TAG --vessel\" or \"--part-of\""},
    {"part-left", "nothing withdrawn has parts in service", CHECK_PARTS_LEFT,
	ASKED_NO_ONE, " is a part of ", ", which was withdrawn",
	"withdraw it too, or say with \"becket amend TAG --part-of\" where it is now"},
    {"landed", "only gear that is ashore is at a station", CHECK_LANDED, ASKED_NO_ONE,
	" is said to be at ", ", but not to be ashore",
	"say with \"becket land\" or \"becket return\" where it is"},
    {"stand-in", "gear stands in for gear that there is", CHECK_STAND_INS, ASKED_NO_ONE,
	" stands in for ", ", which is not in the book",
	"say with \"becket stand-in\" what it stands in for"},
    {"next-day", "no record's next date is before its day", CHECK_NEXT_DAYS, ASKED_NO_ONE,
	": the next date of its ", " is before the day it was done",
	"look at the certificate; take the record back with \"becket book undo\" and "
	"record it again"},
    {"kind", "every kind is in the catalogue", CHECK_KINDS, ASKED_KIND,
	": there is no kind ", "",
	"give it a kind of \"becket help kinds\", or use the program that knows this one"},
    {"sheet", "every rule sheet is there", CHECK_SHEETS, ASKED_SHEET,
	" follows the sheet ", ", which is not to be found",
	"put the sheet beside the book, or give her others with \"becket vessel --sheet\""},
    {"vessel", "of every vessel use, area and persons are told", CHECK_VESSELS,
	ASKED_NO_ONE, " has no use, area and persons to begin with", "",
	"say them with \"becket vessel NAME --use --area --persons\""},
    {"journal", "the journal's entries are numbered without a gap", CHECK_JOURNAL,
	ASKED_NO_ONE, "'s last number is ", ", which is not how many entries there are",
	"someone has changed the file with another program; compare it with a backup"},
};

const size_t CHECK_RULE_COUNT = sizeof CHECK_RULES / sizeof CHECK_RULES[0];

bool
check_open(struct book *book, const struct check_rule *rule, int64_t first, int64_t last,
    struct call *call_out, struct fault *fault)
{
	if (!call_open(book, rule->statement, call_out, fault)) {
		return false;
	}
	if (call_out->prepared->count == 2) {
		give_int(call_out, first);
		give_int(call_out, last);
	}
	return true;
}

void
check_words(
    const struct check_rule *rule, const char *name, const char *detail, struct text *out)
{
	text_add_format(out, "%s%s%s%s", name, rule->middle, detail, rule->end);
}
