/* Which later entries build on one: they changed the same rows, or refer to what it added. */
#include "base/memory.h"
#include "base/words.h"
#include "book/journal_inside.h"

#include <stdlib.h>

/* Looking for later entries that build on one. */
struct later_search {
	struct row_wording wording; /* its `kept` holds the strings */
	/* rows, each as the table and the values of its primary key in one string: */
	struct word_list rows;  /* those the entry changed */
	struct word_list added; /* those it added, which others may refer to */
	bool found;             /* in the later entry at hand */
};

static const char *
key_words(struct later_search *search, const struct row_change *change)
{
	SCOPED_TEXT key = {0};
	text_add(&key, change->table);
	for (size_t i = 0; i < change->count; i++) {
		if (change->key[i] != 0) {
			text_add_byte(&key, '\n');
			text_add(&key,
			    value_text(&change_row(change)[i], &search->wording.passing));
		}
	}
	return arena_string(&search->wording.kept, text_string(&key));
}

static bool
note_touched(const struct row_change *change, void *context, struct fault *fault)
{
	(void)fault;
	struct later_search *search = context;
	const char *key = key_words(search, change);
	ARRAY_ADD(&search->rows, key);
	if (change->act == JOURNAL_ADDED) {
		ARRAY_ADD(&search->added, key);
	}
	return true;
}

/* True in search->found when a later change refers to a row that the entry added. */
static void
find_reference(struct later_search *search, const struct row_change *change,
    const struct table_shape *shape)
{
	SCOPED_TEXT key = {0};
	for (size_t i = 0; change->is != NULL && i < change->count; i++) {
		size_t column = change_column(change, shape, i);
		const char *refers =
		    column < shape->count ? shape->columns[column].refers : NULL;
		const char *value = value_text(&change->is[i], &search->wording.passing);
		if (refers == NULL || value == NULL) {
			continue;
		}
		text_reset(&key);
		text_add_format(&key, "%s\n%s", refers, value);
		search->found =
		    search->found || words_among(&search->added, text_string(&key));
	}
}

static bool
look_at(const struct row_change *change, void *context, struct fault *fault)
{
	(void)fault;
	struct later_search *search = context;
	if (search->found) {
		return true;
	}
	search->found = words_among(&search->rows, key_words(search, change));
	if (!search->found) {
		find_reference(
		    search, change, shape_find(&search->wording, change->table));
	}
	return true;
}

/* Adds "8, 10 and 11", at most eight of them. */
static void
name_entry(struct text *names, int64_t number, size_t at)
{
	enum { MOST_NAMED = 8 };

	if (at < MOST_NAMED) {
		text_add_format(names, "%s%lld", at > 0 ? ", " : "", (long long)number);
	} else if (at == MOST_NAMED) {
		text_add(names, " and more");
	}
}

/* Names the entries after `number` that stand, and changed the same rows or refer to them. */
static bool
name_later(struct later_search *search, int64_t number, struct text *names,
    size_t *count_out, struct fault *fault)
{
	struct book *book = search->wording.book;
	SCOPED_ENTRIES later = {0};
	const int64_t *undone = NULL;
	int64_t last = 0;
	bool found = false;
	if (!journal_undone(book, &search->wording.kept, &undone, &last, fault) ||
	    !entries_read(book, number, &later, fault)) {
		return false;
	}
	while (entries_next(&later, &found, fault) && found) {
		bool cancelled = later.undoes > number ||
				 (later.number <= last && undone[later.number] != 0);
		search->found = false;
		if (cancelled) {
			continue;
		}
		if (!changes_each(later.changes.bytes, later.changes.length,
			&search->wording.passing, look_at, search, fault)) {
			return false;
		}
		if (search->found) {
			name_entry(names, later.number, (*count_out)++);
		}
	}
	return !found;
}

bool
later_refuse(
    struct book *book, int64_t number, const struct text *changes, struct fault *fault)
{
	struct later_search search = {.wording = {.book = book}};
	SCOPED_TEXT names = {0};
	size_t count = 0;
	bool looked = changes_each(changes->bytes, changes->length,
	    &search.wording.passing, note_touched, &search, fault);
	ARRAY_SORT(search.rows.items, search.rows.count, text_order);
	ARRAY_SORT(search.added.items, search.added.count, text_order);
	looked = looked && name_later(&search, number, &names, &count, fault);
	free(search.rows.items);
	free(search.added.items);
	wording_clear(&search.wording);
	if (!looked) {
		return false;
	}
	if (count == 0) {
		return fault_set(
		    fault, FAULT_INPUT, "what it changed is no longer as it left it");
	}
	return fault_set(fault, FAULT_INPUT,
	    "%s %s came later and %s on it; take %s back first, the newest first",
	    count == 1 ? "entry" : "entries", text_string(&names),
	    count == 1 ? "builds" : "build", count == 1 ? "that" : "those");
}
