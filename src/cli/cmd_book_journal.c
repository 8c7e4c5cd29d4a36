/* becket book journal, becket book undo */
#include "book/journal.h"
#include "cli/command.h"
#include "cli/parts.h"
#include "desk/keeping.h"
#include "exchange/answers.h"

#include <limits.h>
#include <string.h>

/* Lines of an entry that are shown among others: an import may have thousands. */
enum { MOST_LINES = 12 };

/* Of what was taken back so many are looked at: what is put on a calendar server is one of few. */
enum { MOST_LOOKED_AT = 1000 };

static bool
write_journal(struct context *context, const struct journal *journal, size_t most,
    struct fault *fault)
{
	const char *currency = NULL;
	if (context->json) {
		answer_journal(journal, &context->out);
		return true;
	}
	if (!desk_currency(&context->desk, &currency, fault)) {
		return false;
	}
	report_journal(journal, most, currency, &context->out);
	return true;
}

/* Says in words that there is nothing to show. */
static void
say_none(struct context *context, const struct journal_query *query)
{
	if (context->json) {
		return;
	}
	if (query->about != NULL) {
		text_add_format(&context->out, "The journal says nothing about %s%s.\n",
		    query->about, query->since != DAY_NONE ? " since that day" : "");
	} else {
		text_add_format(&context->out, "The journal says nothing%s.\n",
		    query->since != DAY_NONE ? " since that day" : " yet");
	}
}

bool
book_act_journal(
    struct context *context, const struct book_said *said, struct fault *fault)
{
	struct journal journal = {0};
	const struct journal_query query = {.about = options_word(context->given, 1),
	    .since = said->since,
	    .number = said->number,
	    .lines_most = context->json || said->number != 0 ? 0 : MOST_LINES};
	if (!desk_open(&context->desk, BOOK_READ, fault) ||
	    !desk_journal(&context->desk, &query, &journal, fault)) {
		return false;
	}
	context->status = journal.damaged_count > 0 ? 1 : 0;
	if (journal.count == 0) {
		say_none(context, &query);
	}
	return write_journal(
	    context, &journal, said->number != 0 ? SIZE_MAX : MOST_LINES, fault);
}

static void
say_undone(struct context *context, const struct journal_entry *entry, int64_t undone)
{
	text_add_format(&context->out, "Entry %lld is taken back, which is entry %lld:\n",
	    (long long)undone, (long long)entry->number);
}

/* Says what a book can't take back: what was put on a calendar server. */
static void
note_server(struct context *context, const struct journal_entry *entry)
{
	for (size_t i = 0; i < entry->line_count && i < MOST_LOOKED_AT; i++) {
		if (strcmp(entry->lines[i].about, "calendar") == 0) {
			desk_note(&context->desk,
			    "what was pushed stays on the calendar server; push again, or "
			    "delete the calendar there");
			return;
		}
	}
}

bool
book_act_undo(struct context *context, const struct book_said *said, struct fault *fault)
{
	(void)said;
	const char *word = options_word(context->given, 1);
	long wanted = 0;
	int64_t undone = 0;
	struct journal_query query = {.since = DAY_NONE, .lines_most = MOST_LOOKED_AT};
	struct journal journal = {0};
	if (word != NULL && !number_read(word, 1, INT_MAX, &wanted)) {
		return usage_fault(fault, "becket book",
		    "\"%s\" is no entry's number; \"becket book journal\" shows them",
		    word);
	}
	if (!desk_undo(&context->desk, wanted, &undone, &query.number, fault) ||
	    !book_journal(
		context->desk.book, &query, &context->desk.arena, &journal, fault)) {
		return false;
	}
	if (journal.count > 0) {
		say_undone(context, &journal.entries[0], undone);
		note_server(context, &journal.entries[0]);
	}
	return write_journal(context, &journal, MOST_LINES, fault);
}
