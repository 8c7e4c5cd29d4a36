/* Reading the journal. */
#include "book/journal_inside.h"

#include <string.h>

/* By number, the entry that took it back and stands; 0 for none. An entry that takes back
 * stands unless it was itself taken back, by a later one; so the newest come first. */
bool
journal_undone(struct book *book, struct arena *arena, const int64_t **out,
    int64_t *last_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	int64_t last = 0;
	bool row = false;
	if (!call_open(book, JOURNAL_UNDOS, &call, fault) ||
	    !call_row(&call, &row, fault)) {
		return false;
	}
	last = row ? take_int(&call) : 0;
	int64_t *by = arena_alloc(arena, ((size_t)last + 1) * sizeof *by);
	while (row) {
		int64_t number = take_int(&call);
		int64_t undoes = take_int(&call);
		bool sound = number <= last && undoes > 0 && undoes < number;
		if (sound && by[number] == 0) {
			by[undoes] = number;
		}
		if (!call_row(&call, &row, fault)) {
			return false;
		}
		if (row) {
			(void)take_int(&call);
		}
	}
	*out = by;
	*last_out = last;
	return true;
}

static void
take_entry(struct call *call, struct arena *arena, void *out)
{
	struct journal_entry *entry = out;
	entry->number = take_int(call);
	entry->at = take_int(call);
	entry->told = take_int(call) != 0;
	entry->who = take_text(call, arena);
	entry->act = take_text(call, arena);
	entry->undoes = take_int(call);
}

static bool
read_entries(struct book *book, const struct journal_query *query, struct arena *arena,
    struct journal_entry **out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, JOURNAL_ENTRIES, &call, fault)) {
		return false;
	}
	give_int(
	    &call, query->since == DAY_NONE ? INT64_MIN : (int64_t)query->since * 86400);
	give_int(&call, query->number);
	return call_rows(&call, arena, take_entry, sizeof **out, out, count_out, fault);
}

static enum journal_act
act_of(const char *word)
{
	return strcmp(word, "added") == 0     ? JOURNAL_ADDED
	       : strcmp(word, "removed") == 0 ? JOURNAL_REMOVED
					      : JOURNAL_CHANGED;
}

static struct journal_line
take_line(struct call *call, struct arena *arena)
{
	struct journal_line line = {0};
	line.about = take_text(call, arena);
	line.name = take_text(call, arena);
	line.kind = take_text(call, arena);
	line.serial = take_text(call, arena);
	line.act = act_of(take_text(call, arena));
	line.field = take_text(call, arena);
	line.was = take_text(call, arena);
	line.became = take_text(call, arena);
	return line;
}

/* The lines of all entries lie in one array, and an entry's are a slice of it: both come by
 * number. A line of an entry that was not asked for is passed over. */
static bool
read_lines(struct book *book, const struct journal_query *query, struct arena *arena,
    struct journal_entry *entries, size_t count, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct journal_line *lines = NULL;
	size_t at = 0;
	size_t used = 0;
	bool row = false;
	if (!call_open(book, JOURNAL_LINES, &call, fault)) {
		return false;
	}
	give_int(&call, count > 0 ? entries[0].number : 0);
	give_int(&call, query->number);
	give_text(&call, query->about == NULL ? "" : query->about);
	for (;;) {
		if (!call_row(&call, &row, fault) || !row) {
			return !row;
		}
		size_t total = (size_t)take_int(&call);
		int64_t number = take_int(&call);
		if (lines == NULL) {
			lines = arena_alloc(arena, total * sizeof *lines);
		}
		while (at < count && entries[at].number < number) {
			at++;
		}
		if (at == count || entries[at].number != number) {
			continue;
		}
		lines[used] = take_line(&call, arena);
		if (entries[at].line_count++ == 0) {
			entries[at].lines = &lines[used];
		}
		used++;
	}
}

static bool
read_journal(struct book *book, const struct journal_query *query, struct arena *arena,
    struct journal *out, struct fault *fault)
{
	struct journal_entry *entries = NULL;
	const int64_t *undone = NULL;
	size_t count = 0;
	size_t kept = 0;
	int64_t last = 0;
	if (!journal_undone(book, arena, &undone, &last, fault) ||
	    !read_entries(book, query, arena, &entries, &count, fault) ||
	    !read_lines(book, query, arena, entries, count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		int64_t number = entries[i].number;
		entries[i].undone_by =
		    undone != NULL && number <= last ? undone[number] : 0;
		if (query->about == NULL || entries[i].line_count > 0) {
			entries[kept++] = entries[i];
		}
	}
	*out = (struct journal){entries, kept};
	return true;
}

bool
book_journal(struct book *book, const struct journal_query *query, struct arena *arena,
    struct journal *out, struct fault *fault)
{
	return read_journal(book, query, arena, out, fault) ||
	       fault_prefix(fault, "reading the journal");
}
