#include "base/memory.h"
#include "exchange/csv_read.h"

#include <stdlib.h>
#include <string.h>

/* A row with a tag, to be sorted by it. */
struct tagged {
	struct csv_row *row;
};

static const char *
tag_of(struct tagged tagged)
{
	return tagged.row->change.tag;
}

static int
by_tag_then_place(const void *a, const void *b)
{
	const struct tagged *x = a;
	const struct tagged *y = b;
	int order = strcmp(tag_of(*x), tag_of(*y));
	return order != 0 ? order : (x->row > y->row) - (x->row < y->row);
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
settle_later(const struct tagged *group, size_t at, struct complaints *complaints)
{
	const struct csv_row *first = group[0].row;
	struct csv_row *row = group[at].row;
	size_t field = contradiction(first, row);
	if (!row->has_record || field != FIELD_COUNT) {
		complain(complaints, row->line, "column tag",
		    "%.60s is in line %zu already%s%s; a further row may only bring a "
		    "further record",
		    row->change.tag, first->line,
		    field == FIELD_COUNT ? "" : ", and there says otherwise in ",
		    field == FIELD_COUNT ? "" : ITEM_FIELDS[field].name);
		return;
	}
	for (size_t i = 0; i < at; i++) {
		const struct csv_row *before = group[i].row;
		if (before->has_record && record_same(&before->record, &row->record)) {
			complain(complaints, row->line, "column tag",
			    "%.60s is in line %zu already with the same record",
			    row->change.tag, before->line);
			return;
		}
	}
	row->further = true;
	const struct item_change *own = &first->change;
	const char *tag = row->change.tag;
	row->change = blank_change();
	row->change.set = own->set & (1U << FIELD_VESSEL | 1U << FIELD_KIND);
	row->change.tag = tag;
	row->change.vessel = own->vessel;
	row->change.kind = own->kind;
}

void
csv_settle_further(struct csv_row *rows, size_t count, struct complaints *complaints)
{
	struct tagged *tagged = memory_zeroed(count + 1, sizeof *tagged);
	size_t used = 0;
	for (size_t i = 0; i < count; i++) {
		if (rows[i].change.tag != NULL) {
			tagged[used++].row = &rows[i];
		}
	}
	qsort(tagged, used, sizeof *tagged, by_tag_then_place);
	size_t first = 0;
	for (size_t i = 1; i < used; i++) {
		if (strcmp(tag_of(tagged[i]), tag_of(tagged[first])) != 0) {
			first = i;
		} else {
			settle_later(tagged + first, i - first, complaints);
		}
	}
	free(tagged);
}
