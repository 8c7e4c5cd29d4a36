#include "book/check.h"

#include "book/check_rules.h"
#include "book/sums.h"

#include <stdlib.h>

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
	if (sqlite3_bind_parameter_count(call_out->stmt) == 2) {
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

void
book_check_clear(struct check_result *result)
{
	free(result->items);
	*result = (struct check_result){0};
}

static void
add_finding(struct check_result *result, struct arena *arena,
    const struct check_rule *rule, const char *what)
{
	const char *copy = arena_string(arena, what);
	ARRAY_ROOM(result);
	result->items[result->count++] = (struct finding){rule->rule, copy, rule->to_do};
}

static bool
is_known(const struct book_known *known, enum check_asked asked, const char *word)
{
	if (known == NULL) {
		return false;
	}
	switch (asked) {
	case ASKED_NO_ONE:
		return false;
	case ASKED_KIND:
		return known->kind(known->context, word);
	case ASKED_SHEET:
		return known->sheet(known->context, word);
	}
	return false;
}

static bool
check_rule(struct book *book, const struct check_rule *rule,
    const struct book_known *known, struct arena *arena, struct check_result *result,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_TEXT what = {0};
	bool row = true;
	if (!check_open(book, rule, 0, INT64_MAX, &call, fault)) {
		return false;
	}
	for (;;) {
		if (!call_row(&call, &row, fault) || !row) {
			return !row;
		}
		const char *name = take_text(&call, arena);
		const char *detail = take_text(&call, arena);
		if (is_known(known, rule->asked, detail)) {
			continue;
		}
		text_reset(&what);
		check_words(rule, name, detail, &what);
		add_finding(result, arena, rule, text_string(&what));
	}
}

/* What no statement sees: a value that loading refuses. */
static void
check_values(struct book *book, struct arena *arena, struct held *held,
    struct check_result *result)
{
	static const struct check_rule VALUES = {.rule = "value",
	    .holds = "every value makes sense",
	    .to_do =
		"someone has changed the file with another program; restore a backup "
		"with \"becket book restore FILE\""};
	struct book_contents contents = {0};
	struct fault found = {0};
	*held = (struct held){VALUES.rule, VALUES.holds, 0};
	if (book_load(book, NULL, true, &contents, &found)) {
		book_contents_clear(&contents);
		return;
	}
	held->found = 1;
	add_finding(result, arena, &VALUES, found.text);
}

/* A paper's bytes must have the digest they came with, which no statement can work out. */
static bool
check_papers(struct book *book, struct arena *arena, struct held *held,
    struct check_result *result, struct fault *fault)
{
	static const struct check_rule PAPERS = {.rule = "paper",
	    .holds = "every paper is what was put in",
	    .to_do =
		"take it out with \"becket papers TAG --remove\" and attach it again"};
	const struct paper *papers = NULL;
	size_t count = 0;
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT what = {0};
	*held = (struct held){PAPERS.rule, PAPERS.holds, 0};
	if (!book_load_papers(book, NULL, arena, &papers, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		struct fault found = {0};
		if (book_read_paper(book, &papers[i], &bytes, &found)) {
			continue;
		}
		text_reset(&what);
		text_add_format(
		    &what, "%s: %s: %s", papers[i].tag, papers[i].name, found.text);
		held->found++;
		add_finding(result, arena, &PAPERS, text_string(&what));
	}
	return true;
}

/* What neither the schema nor a rule can tell from what was meant: a value that the program did not
 * write. */
static bool
check_contents(struct book *book, struct arena *arena, struct held *held,
    struct check_result *result, struct fault *fault)
{
	static const struct check_rule CONTENTS = {.rule = "contents",
	    .holds = "every value is as becket wrote it",
	    .to_do =
		"a fault of the disk or another program did that: any date may be wrong. "
		"Restore a backup with \"becket book restore FILE\"; where you changed it "
		"yourself, \"becket book accept\" takes it as it is"};
	int64_t found = 0;
	int64_t carried = 0;
	*held = (struct held){CONTENTS.rule, CONTENTS.holds, 0};
	if (!sums_find(book, &found, &carried, fault)) {
		return false;
	}
	if (found != carried) {
		held->found = 1;
		add_finding(result, arena, &CONTENTS,
		    "a value in the book is not as becket wrote it (the sum of all "
		    "differs)");
	}
	return true;
}

/* A file may be so damaged that the check of it breaks off: that is a finding, too. */
static bool
check_file_rule(struct book *book, struct arena *arena, struct check_result *result,
    struct fault *fault)
{
	const struct check_rule *rule = &CHECK_RULES[0];
	size_t before = result->count;
	if (check_rule(book, rule, NULL, arena, result, fault)) {
		return true;
	}
	if (fault->kind != FAULT_BOOK) {
		return false;
	}
	if (result->count <= before) {
		add_finding(result, arena, rule, fault->text);
	}
	return true;
}

static bool
check_all(struct book *book, const struct book_known *known, struct arena *arena,
    struct check_result *result, struct fault *fault)
{
	struct held *rules = arena_alloc(arena, (CHECK_RULE_COUNT + 3) * sizeof *rules);
	result->rules = rules;
	for (size_t i = 0; i < CHECK_RULE_COUNT; i++) {
		size_t before = result->count;
		bool checked = i == 0 ? check_file_rule(book, arena, result, fault)
				      : check_rule(book, &CHECK_RULES[i], known, arena,
					    result, fault);
		if (!checked) {
			return false;
		}
		rules[i] = (struct held){
		    CHECK_RULES[i].rule, CHECK_RULES[i].holds, result->count - before};
		result->rule_count = i + 1;
		/* what a damaged file seems to hold says nothing */
		if (i == 0 && rules[i].found > 0) {
			return true;
		}
	}
	result->rule_count = CHECK_RULE_COUNT + 3;
	if (!check_papers(book, arena, &rules[CHECK_RULE_COUNT], result, fault) ||
	    !check_contents(book, arena, &rules[CHECK_RULE_COUNT + 2], result, fault)) {
		return false;
	}
	check_values(book, arena, &rules[CHECK_RULE_COUNT + 1], result);
	return true;
}

bool
book_check(struct book *book, const struct book_known *known, struct arena *arena,
    struct check_result *out, struct fault *fault)
{
	struct check_result result = {0};
	if (!book_begin(book, fault)) {
		return false;
	}
	bool checked = check_all(book, known, arena, &result, fault);
	book_rollback(book);
	if (!checked) {
		book_check_clear(&result);
		return fault_prefix(fault, "checking the book");
	}
	*out = result;
	return true;
}

bool
book_check_file(struct book *book, struct fault *fault)
{
	struct check_result result = {0};
	struct arena arena = {0};
	bool checked = true;
	for (size_t i = 0; i < 2 && checked; i++) {
		checked = check_rule(book, &CHECK_RULES[i], NULL, &arena, &result, fault);
	}
	if (checked && result.count > 0) {
		checked = fault_set(fault, FAULT_BOOK, "%s", result.items[0].what);
	}
	book_check_clear(&result);
	arena_clear(&arena);
	return checked;
}

bool
book_accept(struct book *book, bool *differed_out, struct fault *fault)
{
	SCOPED_STEP step = {0};
	int64_t found = 0;
	int64_t carried = 0;
	if (!step_begin(book, &step, fault) || !book_check_file(book, fault) ||
	    !sums_find(book, &found, &carried, fault)) {
		return fault_prefix(fault, "accepting the book");
	}
	*differed_out = found != carried;
	/* the entry adds to the sum when the step is kept, as any other */
	return !*differed_out ||
	       (sums_renew(book, fault) && journal_note_too(book, fault) &&
		   step_keep(&step, fault)) ||
	       fault_prefix(fault, "accepting the book");
}
