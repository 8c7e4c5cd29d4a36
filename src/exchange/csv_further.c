#include "base/memory.h"
#include "base/numbers.h"
#include "exchange/csv_read.h"

#include <stdlib.h>
#include <string.h>

/* A row that brings a further record of what an earlier one is about. */
struct later {
	size_t at;
	size_t first; /* where the earlier one stands */
};

struct further_settling {
	struct complaints *complaints;

	struct later_list {
		struct later *items; /* owned */
		size_t count;
		size_t capacity;
	} later;

	/* while the rows are written anew */
	const struct csv_rows *rows;
	struct csv_rows *out;
	size_t next; /* of the later ones */
};

static int
by_tag_then_place(const void *a, const void *b)
{
	const struct csv_row *x = a;
	const struct csv_row *y = b;
	return ORDER_THEN(strcmp(x->change.tag, y->change.tag), x->at, y->at);
}

static int
by_place(const void *a, const void *b)
{
	const struct later *x = a;
	const struct later *y = b;
	return ORDER(x->at, y->at);
}

/* The first column in which a later row says something else than the first; FIELD_COUNT
 * when there is none. */
static size_t
contradiction(const struct csv_row *first, const struct csv_row *later)
{
	for (size_t field = 0; field < FIELD_COUNT; field++) {
		if ((later->given & 1U << field) != 0 &&
		    !field_same(&ITEM_FIELDS[field], &first->change, &later->change)) {
			return field;
		}
	}
	return FIELD_COUNT;
}

/* Checks one later row against those with its tag before it, `group[0]` to `group[at - 1]`. */
static void
settle_later(const struct csv_row *group, size_t at, struct further_settling *settling)
{
	const struct csv_row *first = &group[0];
	const struct csv_row *row = &group[at];
	size_t field = contradiction(first, row);
	if (!row->has_record || field != FIELD_COUNT) {
		complain(settling->complaints, row->line, "column tag",
		    "%.60s is in line %zu already%s%s; a further row may only bring a "
		    "further record",
		    row->change.tag, first->line,
		    field == FIELD_COUNT ? "" : ", and there says otherwise in ",
		    field == FIELD_COUNT ? "" : ITEM_FIELDS[field].name);
		return;
	}
	for (size_t i = 0; i < at; i++) {
		const struct csv_row *before = &group[i];
		if (before->has_record && record_same(&before->record, &row->record)) {
			complain(settling->complaints, row->line, "column tag",
			    "%.60s is in line %zu already with the same record",
			    row->change.tag, before->line);
			return;
		}
	}
	ARRAY_ADD(&settling->later, (struct later){row->at, first->at});
}

static void
settle_alike(struct csv_row *rows, size_t count, void *context)
{
	size_t first = 0;
	ARRAY_SORT(rows, count, by_tag_then_place);
	for (size_t i = 1; i < count; i++) {
		if (strcmp(rows[i].change.tag, rows[first].change.tag) != 0) {
			first = i;
		} else {
			settle_later(rows + first, i - first, context);
		}
	}
}

/* Adds the row; of a later one no more than its tag and its record, with vessel and kind
 * as the first has them. */
static bool
write_anew(struct csv_row *row, void *context, struct fault *fault)
{
	struct further_settling *settling = context;
	const struct later_list *later = &settling->later;
	if (settling->next < later->count && later->items[settling->next].at == row->at) {
		SCOPED_ARENA arena = {0};
		struct csv_row first;
		if (!csv_rows_at(settling->rows, later->items[settling->next++].first,
			&arena, &first, fault)) {
			return false;
		}
		const char *tag = row->change.tag;
		row->further = true;
		row->change = blank_change();
		row->change.set =
		    first.change.set & (1U << FIELD_VESSEL | 1U << FIELD_KIND);
		row->change.tag = tag;
		row->change.vessel = first.change.vessel;
		row->change.kind = first.change.kind;
		csv_rows_add(settling->out, row);
		return true;
	}
	csv_rows_add(settling->out, row);
	return true;
}

/* Writes all rows anew, where some are later ones. */
static bool
write_all(struct csv_rows *rows, struct further_settling *settling, struct fault *fault)
{
	SCOPED_ROWS anew = {0};
	if (settling->later.count == 0) {
		return true;
	}
	ARRAY_SORT(settling->later.items, settling->later.count, by_place);
	settling->rows = rows;
	settling->out = &anew;
	if (!csv_rows_each(rows, write_anew, settling, fault)) {
		return false;
	}
	csv_rows_clear(rows);
	*rows = anew;
	anew = (struct csv_rows){0};
	return true;
}

bool
csv_settle_further(
    struct csv_rows *rows, struct complaints *complaints, struct fault *fault)
{
	struct further_settling settling = {.complaints = complaints};
	bool done = csv_rows_alike(rows, &rows->tags, settle_alike, &settling, fault) &&
		    write_all(rows, &settling, fault);
	free(settling.later.items);
	return done;
}
