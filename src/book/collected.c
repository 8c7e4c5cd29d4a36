/* What has come of the rows that were touched: told one by one, and as the bytes of an entry. */
#include "book/journal_inside.h"

static bool
is_changed(const struct collected_row *row)
{
	return !bytes_same(row->was, row->is);
}

/* A table's changes, as they are told one after the other. */
struct telling {
	size_t count; /* columns of the table */
	struct row_change change;
	struct value *was, *is; /* in the arena */
	const size_t *columns;  /* those that are told, in order; NULL: all */
};

static struct telling
telling_of(const struct collected_table *table, struct arena *arena)
{
	size_t count = table->shape->count;
	return (struct telling){
	    .count = count,
	    .change = {.table = table->shape->name,
		.count = count,
		.names = table->names,
		.key = table->key},
	    .was = arena_alloc(arena, count * sizeof(struct value)),
	    .is = arena_alloc(arena, count * sizeof(struct value)),
	};
}

/* Moves those that are told to the front. */
static void
narrow(const struct telling *telling, struct value *values)
{
	for (size_t i = 0; telling->columns != NULL && i < telling->change.count; i++) {
		values[i] = values[telling->columns[i]];
	}
}

static void
tell(struct telling *telling, const struct collected_row *row)
{
	struct row_change *change = &telling->change;
	change->act = row->was.at == NULL  ? JOURNAL_ADDED
		      : row->is.at == NULL ? JOURNAL_REMOVED
					   : JOURNAL_CHANGED;
	change->was = row->was.at == NULL ? NULL : telling->was;
	change->is = row->is.at == NULL ? NULL : telling->is;
	if (change->was != NULL) {
		values_take(row->was, telling->count, telling->was);
		narrow(telling, telling->was);
	}
	if (change->is != NULL) {
		values_take(row->is, telling->count, telling->is);
		narrow(telling, telling->is);
	}
}

bool
collected_each(const struct collected *collected, struct arena *passing,
    change_visitor *each, void *context, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		struct telling telling = telling_of(table, &arena);
		for (const struct collected_row *row = table->first; row != NULL;
		     row = row->next) {
			if (!is_changed(row)) {
				continue;
			}
			tell(&telling, row);
			if (!each(&telling.change, context, fault)) {
				return false;
			}
			arena_reset(passing);
		}
	}
	return true;
}

static size_t
changed_rows(const struct collected_table *table)
{
	size_t count = 0;
	for (const struct collected_row *row = table->first; row != NULL;
	     row = row->next) {
		count += is_changed(row) ? 1 : 0;
	}
	return count;
}

/* Marks the columns that are told of a table in an entry: its key, and what is another in any row; where rows
 * came or went, all. */
static void
mark_told(const struct collected_table *table, struct telling *telling, bool *told)
{
	const struct row_change *change = &telling->change;
	bool all = false;
	for (const struct collected_row *row = table->first; row != NULL && !all;
	     row = row->next) {
		if (!is_changed(row)) {
			continue;
		}
		tell(telling, row);
		all = change->act != JOURNAL_CHANGED;
		for (size_t i = 0; i < change->count; i++) {
			told[i] = told[i] || all || change->key[i] != 0 ||
				  !value_same(&change->was[i], &change->is[i]);
		}
	}
}

/* As an entry tells of a table. */
static struct telling
short_telling_of(const struct collected_table *table, struct arena *arena)
{
	struct telling telling = telling_of(table, arena);
	struct row_change *change = &telling.change;
	bool *told = arena_alloc(arena, telling.count * sizeof *told);
	size_t *columns = arena_alloc(arena, telling.count * sizeof *columns);
	const char **names = arena_alloc(arena, telling.count * sizeof *names);
	unsigned char *key = arena_alloc(arena, telling.count);
	size_t count = 0;
	mark_told(table, &telling, told);
	for (size_t i = 0; i < telling.count; i++) {
		if (told[i]) {
			names[count] = table->names[i];
			key[count] = table->key[i];
			columns[count++] = i;
		}
	}
	change->names = names;
	change->key = key;
	change->count = count;
	telling.columns = columns;
	return telling;
}

static void
add_table(const struct collected_table *table, size_t rows, struct text *out)
{
	SCOPED_ARENA arena = {0};
	struct telling telling = short_telling_of(table, &arena);
	changes_add_table(out, &telling.change, rows);
	for (const struct collected_row *row = table->first; row != NULL;
	     row = row->next) {
		if (!is_changed(row)) {
			continue;
		}
		if (row->was.at == NULL) {
			changes_add_whole(out, JOURNAL_ADDED, row->is);
		} else if (row->is.at == NULL) {
			changes_add_whole(out, JOURNAL_REMOVED, row->was);
		} else {
			tell(&telling, row);
			changes_add_changed(out, &telling.change);
		}
	}
}

void
collected_add(const struct collected *collected, struct text *out)
{
	size_t tables = 0;
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		tables += changed_rows(table) > 0 ? 1 : 0;
	}
	if (tables == 0) {
		return;
	}
	changes_add_head(out, tables);
	for (const struct collected_table *table = collected->first; table != NULL;
	     table = table->next) {
		size_t rows = changed_rows(table);
		if (rows > 0) {
			add_table(table, rows, out);
		}
	}
}
