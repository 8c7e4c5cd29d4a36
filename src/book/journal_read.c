/* Reading the journal. */
#include "base/numbers.h"
#include "book/journal_inside.h"
#include "book/rows.h"

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

static struct journal_line
take_line(struct call *call, struct arena *arena)
{
	struct journal_line line = {0};
	line.about = take_text(call, arena);
	line.name = take_text(call, arena);
	line.kind = take_text(call, arena);
	line.serial = take_text(call, arena);
	line.act = line_act(take_text(call, arena));
	line.field = take_text(call, arena);
	line.was = take_text(call, arena);
	line.became = take_text(call, arena);
	return line;
}

static bool
is_text(const struct value *value, const char *text)
{
	size_t length = strlen(text);
	return value->length == length && memcmp(value->bytes, text, length) == 0;
}

/* A kind and a serial number that the item asked about had under its tag. */
struct serial_had {
	const char *kind, *serial;
};

/* Which lines are wanted: those about a name; NULL for all. */
struct lines_wanted {
	const char *about;
	struct serial_had *items; /* in an arena */
	size_t count;
	size_t capacity;
};

/* Entries with lines that can't be read, in an arena. */
struct entries_damaged {
	int64_t *items;
	size_t count;
	size_t capacity;
};

/* Each once: they come in order, and what is about a name was all looked at before
 * (find_serials). */
static void
add_damaged(struct entries_damaged *damaged, int64_t number, struct arena *arena)
{
	if (damaged->count == 0 || damaged->items[damaged->count - 1] < number) {
		ARENA_ADD(arena, damaged, number);
	}
}

static bool
has_serial(const struct lines_wanted *wanted, const struct value *kind,
    const struct value *serial)
{
	size_t i = 0;
	while (i < wanted->count && !(is_text(kind, wanted->items[i].kind) &&
					is_text(serial, wanted->items[i].serial))) {
		i++;
	}
	return i < wanted->count;
}

static void
add_serial(struct lines_wanted *wanted, const struct value *kind,
    const struct value *serial, struct arena *arena)
{
	if (serial->length > 0 && !has_serial(wanted, kind, serial)) {
		ARENA_ADD(arena, wanted,
		    (struct serial_had){
			value_text(kind, arena), value_text(serial, arena)});
	}
}

/* What JOURNAL_LINES asks of a line that is a row of its own. */
static bool
is_wanted(const struct lines_wanted *wanted, const struct value texts[LINE_TEXTS])
{
	const char *about = wanted->about;
	return about == NULL || is_text(&texts[LINE_NAME], about) ||
	       is_text(&texts[LINE_SERIAL], about) ||
	       (is_text(&texts[LINE_FIELD], "serial") &&
		   (is_text(&texts[LINE_WAS], about) ||
		       is_text(&texts[LINE_BECAME], about))) ||
	       has_serial(wanted, &texts[LINE_KIND], &texts[LINE_SERIAL]);
}

/* Takes them from a page's lines; false where one is damaged, those before it are taken. */
static bool
page_serials(const struct value *bytes, struct arena *arena, struct lines_wanted *wanted)
{
	struct page_reading page = {0};
	struct fault damaged = {0};
	bool found = true;
	if (!lines_page_open(bytes, &page, &damaged)) {
		return false;
	}
	while (lines_page_next(&page, &found, &damaged) && found) {
		if (is_text(&page.texts[LINE_NAME], wanted->about)) {
			add_serial(wanted, &page.texts[LINE_KIND],
			    &page.texts[LINE_SERIAL], arena);
		}
	}
	return !found;
}

/* Finds the serial numbers that the item asked about had. Where a page is damaged it may have had
 * others: its entry is named, whichever were asked for. */
static bool
find_serials(struct book *book, struct arena *arena, struct lines_wanted *wanted,
    struct entries_damaged *damaged, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = wanted->about != NULL;
	if (!row) {
		return true;
	}
	if (!call_open(book, JOURNAL_SERIALS, &call, fault)) {
		return false;
	}
	give_text(&call, wanted->about);
	while (call_row(&call, &row, fault) && row) {
		const struct value bytes = take_value(&call);
		const struct value kind = take_value(&call);
		const struct value serial = take_value(&call);
		int64_t number = take_int(&call);
		add_serial(wanted, &kind, &serial, arena);
		if (bytes.held != HELD_NOTHING && !page_serials(&bytes, arena, wanted)) {
			add_damaged(damaged, number, arena);
		}
	}
	return !row;
}

/* The lines of all entries, in one array, while it grows. */
struct lines_read {
	struct journal_line *items; /* in an arena */
	size_t count;
	size_t capacity;
	size_t most;     /* of an entry */
	size_t of_entry; /* that were found of the one at hand */
	struct entries_damaged damaged;
};

/* False where a line is damaged; those before it are taken. */
static bool
take_page(struct call *call, const struct lines_wanted *wanted, struct arena *arena,
    struct lines_read *out)
{
	struct page_reading page = {0};
	struct fault damaged = {0};
	const struct value bytes = take_value(call);
	bool found = true;
	if (!lines_page_open(&bytes, &page, &damaged)) {
		return false;
	}
	while (lines_page_next(&page, &found, &damaged) && found) {
		if (is_wanted(wanted, page.texts) && out->of_entry++ < out->most) {
			ARENA_ADD(arena, out, lines_page_line(&page, arena));
		}
	}
	return !found;
}

/* Takes a row of JOURNAL_LINES behind its number. */
static void
take_lines(struct call *call, const struct lines_wanted *wanted, int64_t number,
    struct arena *arena, struct lines_read *out)
{
	if (!take_null(call)) {
		if (!take_page(call, wanted, arena, out)) {
			add_damaged(&out->damaged, number, arena);
		}
	} else if (out->of_entry++ < out->most) {
		ARENA_ADD(arena, out, take_line(call, arena));
	}
}

static bool
lines_open(struct book *book, const struct journal_query *query,
    const struct lines_wanted *wanted, int64_t since, struct row_list *list,
    struct call *out, struct fault *fault)
{
	if (!call_open(book, JOURNAL_LINES, out, fault)) {
		return false;
	}
	for (size_t i = 0; i < wanted->count; i++) {
		row_list_row(list);
		row_list_text(list, wanted->items[i].kind);
		row_list_text(list, wanted->items[i].serial);
	}
	give_int(out, since);
	give_int(out, query->number);
	give_text(out, query->about == NULL ? "" : query->about);
	give_list(out, list);
	return true;
}

/* An entry's lines are a slice of the array of all: both come by number. A line of an
 * entry that was not asked for is passed over. */
static bool
read_lines(struct book *book, const struct journal_query *query, struct arena *arena,
    struct journal_entry *entries, size_t count, struct entries_damaged *damaged_out,
    struct fault *fault)
{
	SCOPED_ROW_LIST list = {0};
	SCOPED_CALL call = {0};
	struct lines_wanted wanted = {.about = query->about};
	struct lines_read lines = {
	    .most = query->lines_most == 0 ? SIZE_MAX : query->lines_most};
	size_t at = 0;
	bool row = true;
	int64_t since = count > 0 ? entries[0].number : 0;
	if (!find_serials(book, arena, &wanted, &lines.damaged, fault) ||
	    !lines_open(book, query, &wanted, since, &list, &call, fault)) {
		return false;
	}
	while (call_row(&call, &row, fault) && row) {
		int64_t number = take_int(&call);
		while (at < count && entries[at].number < number) {
			at++;
		}
		if (at == count || entries[at].number != number) {
			continue;
		}
		lines.of_entry = entries[at].line_count;
		take_lines(&call, &wanted, number, arena, &lines);
		entries[at].line_count = lines.of_entry;
	}
	for (size_t i = 0, first = 0; i < count; i++) {
		entries[i].lines = entries[i].line_count > 0 ? &lines.items[first] : NULL;
		first += LESSER(entries[i].line_count, lines.most);
	}
	*damaged_out = lines.damaged;
	return !row;
}

static bool
read_journal(struct book *book, const struct journal_query *query, struct arena *arena,
    struct journal *out, struct fault *fault)
{
	struct journal_entry *entries = NULL;
	struct entries_damaged damaged = {0};
	const int64_t *undone = NULL;
	size_t count = 0;
	size_t kept = 0;
	int64_t last = 0;
	if (!journal_undone(book, arena, &undone, &last, fault) ||
	    !read_entries(book, query, arena, &entries, &count, fault) ||
	    !read_lines(book, query, arena, entries, count, &damaged, fault)) {
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
	*out = (struct journal){entries, kept, damaged.items, damaged.count};
	return true;
}

bool
book_journal(struct book *book, const struct journal_query *query, struct arena *arena,
    struct journal *out, struct fault *fault)
{
	return read_journal(book, query, arena, out, fault) ||
	       fault_prefix(fault, "reading the journal");
}
