/* becket book: the acts that are a few lines, and the table of all. */
#include "cli/command.h"
#include "cli/parts.h"
#include "desk/keeping.h"

#include <limits.h>
#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "ACT",
	.choices = "new|currency|check|accept|backup|restore|journal|undo|upgrade",
	.help = "new, currency, check, accept, backup, restore, journal, undo, upgrade",
	.required = true},
    {.name = "WORD",
	.help =
	    "currency: three capital letters, as EUR; backup, restore: the file; "
	    "journal: a tag, a serial number, a vessel or a station; undo: an entry's "
	    "number"},
};

static const struct option_spec OPTIONS[] = {
    OPTION("identity", "HEX", WORDS, struct book_said, identity,
	"new: 32 hexadecimal digits, so that a book can be made again the same",
	.acts = "new"),
    OPTION("currency", "CUR", WORDS, struct book_said, currency,
	"new: the currency of its prices", .acts = "new"),
    FLAG_OPTION("over", struct book_said, over, "backup: write over a file that is there",
	.acts = "backup"),
    OPTION("since", "DATE", DAY, struct book_said, since,
	"journal: from this day on (UTC)", .acts = "journal"),
    OPTION("number", "N", COUNT, struct book_said, number, "journal: this entry, whole",
	.acts = "journal", .least = 1, .most = INT_MAX),
};

static bool
begin_new(struct context *context, const struct book_said *said, struct fault *fault)
{
	if (!desk_begin_book(&context->desk, said->identity, said->currency, fault)) {
		return false;
	}
	text_add_format(
	    &context->out, "A new book is begun at %s\n", context->desk.book_path);
	return true;
}

static bool
set_currency(struct context *context, const struct book_said *said, struct fault *fault)
{
	(void)said;
	const char *currency = options_word(context->given, 1);
	if (!desk_set_currency(&context->desk, currency, fault)) {
		return false;
	}
	text_add_format(&context->out, "Prices are in %s\n", currency);
	return true;
}

/* What an act makes of its second word. */
enum word_use { NO_WORD, WORD_MAY_BE, WORD_MUST_BE };

static const struct book_verb {
	const char *name;
	const char *word; /* what it is called in a fault */
	enum word_use use;
	bool json;
	bool (*run)(
	    struct context *context, const struct book_said *said, struct fault *fault);
} ACTS[] = {
    {"new", "", NO_WORD, false, begin_new},
    {"currency", "CUR", WORD_MUST_BE, false, set_currency},
    {"check", "", NO_WORD, true, book_act_check},
    {"accept", "", NO_WORD, false, book_act_accept},
    {"backup", "FILE", WORD_MUST_BE, false, book_act_backup},
    {"restore", "FILE", WORD_MUST_BE, false, book_act_restore},
    {"journal", "TAG", WORD_MAY_BE, true, book_act_journal},
    {"undo", "NUMBER", WORD_MAY_BE, false, book_act_undo},
    {"upgrade", "", NO_WORD, true, book_act_upgrade},
};

static bool
check_words(
    const struct context *context, const struct book_verb *act, struct fault *fault)
{
	const char *word = options_word(context->given, 1);
	if (word != NULL && act->use == NO_WORD) {
		return usage_fault(fault, "becket book",
		    "\"%s\" is a word too many after %s", word, act->name);
	}
	if (word == NULL && act->use == WORD_MUST_BE) {
		return usage_fault(
		    fault, "becket book", "%s is missing after %s", act->word, act->name);
	}
	if (context->json && !act->json) {
		return usage_fault(
		    fault, "becket book", "--json does not go with %s", act->name);
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct book_said said = {.since = DAY_NONE};
	const char *name = options_word(context->given, 0);
	const struct book_verb *act = ACTS;
	while (strcmp(act->name, name) != 0) {
		act++;
	}
	return check_words(context, act, fault) &&
	       options_into(context->given, &said, fault) &&
	       act->run(context, &said, fault);
}

static const struct told_answer ANSWERS[] = {{"journal", KEYS_OF_JOURNAL},
    {"check", KEYS_OF_BOOK_CHECK}, {"upgrade", KEYS_OF_UPGRADE}, {0}};

const struct command COMMAND_BOOK = {
    .name = "book",
    .summary = "begin, check, back up, restore the book; its journal; undo",
    .details =
	"Other commands that write begin a book by themselves where there is none. Check "
	"says whether the file is sound and what in the book can't be; the status is 1 when "
	"something was found, which may be a value that becket did not write: a fault of the "
	"disk, or another program's. Accept takes the book as it is, where you changed it "
	"yourself. Backup copies the book while others use it, and checks the "
	"copy; restore puts such a copy in its place and keeps what was there beside it. Your own "
	"rule sheets from beside the book go with a copy, and restore puts them back likewise. The "
	"journal says what was changed, from what to what, by whom and when (the login, or "
	"--signed NAME; with --today only the day, as told); it is only ever added to. Asked "
	"for a tag or a serial number, it follows the piece of gear from boat to boat; the status "
	"is 1 when its lines are damaged, so that some may be missing. Undo "
	"takes back the last change, or the entry with that number unless a later one builds "
	"on it; that is an entry too, and can itself be taken back by its number. Upgrade brings a "
	"book of an older becket up to date and says which dates moved because this becket, "
	"or a rule sheet, reckons otherwise than the one before; the next command that writes "
	"does so too, once, and the journal keeps it.",
    .examples = "book backup copy.db\n"
		"a checked copy of all of it\n"
		"book journal LR-1\n"
		"what was changed of the raft, by whom and when\n"
		"book undo\n"
		"the last change is taken back\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_CREATE,
    .answers = ANSWERS,
    .run = run,
};
