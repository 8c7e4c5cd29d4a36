/* Serial numbers of a file that should be read again. */
#include "exchange/csv_inside.h"
#include "exchange/inventory_csv.h"
#include "exchange/tag_index.h"
#include "life/serials.h"

#include <stdlib.h>
#include <string.h>

/* A file's serials being looked at. */
struct serials_checking {
	const struct csv_rows *rows;
	const struct inventory *inventory;
	struct complaints complaints;
	struct serial_entry *entries; /* in an arena, one a row, as the next */
	struct serial_finding *findings;
	struct tag_index index;
};

/* A number is looked at when the row brings it, and when it brings back what was condemned. */
static struct serial_entry
entry_of(const struct serials_checking *checking, const struct csv_row *row)
{
	const struct item_change *change = &row->change;
	size_t index = tag_index_find(&checking->index, change->tag);
	const struct item *item =
	    index == ITEM_NO_PARENT ? NULL : &checking->inventory->items[index];
	bool says = (change->set & 1U << FIELD_SERIAL) != 0 && !row->further;
	struct serial_entry entry = {
	    .kind = (change->set & 1U << FIELD_KIND) != 0 ? change->kind
		    : item != NULL                        ? item->kind
							  : "",
	    .serial = says ? change->serial : "",
	    .item = index,
	};
	bool same = item != NULL && strcmp(item->serial, entry.serial) == 0 &&
		    strcmp(item->kind, entry.kind) == 0;
	bool back = item != NULL && item->because == BECAUSE_CONDEMNED &&
		    (change->set & 1U << FIELD_STATE) != 0 &&
		    change->state != PLACE_WITHDRAWN;
	entry.fresh = entry.serial[0] != '\0' && (!same || back);
	return entry;
}

/* Where the other number stands: "LJ-1 on Quillfish", "LJ-2 in line 7". */
static const char *
other_words(struct serials_checking *checking, const struct serial_finding *finding)
{
	SCOPED_TEXT words = {0};
	const struct inventory *inventory = checking->inventory;
	if (finding->item < inventory->item_count) {
		const struct item *item = &inventory->items[finding->item];
		text_add_format(&words, "%s on %s%s", item->tag,
		    inventory->vessels[item->vessel].name,
		    item->state == PLACE_WITHDRAWN ? ", withdrawn" : "");
	} else {
		const struct csv_row *row =
		    &checking->rows->items[finding->item - inventory->item_count];
		text_add_format(&words, "%s in line %zu", row->change.tag, row->line);
	}
	return arena_string(checking->complaints.arena, text_string(&words));
}

static void
complain_of(struct serials_checking *checking, size_t row, struct serial_answers answers)
{
	SCOPED_TEXT words = {0};
	const struct serial_finding *finding = &checking->findings[row];
	switch (finding->doubt) {
	case SERIAL_FINE:
		return;
	case SERIAL_SAME:
	case SERIAL_NEAR:
		if (answers.right) {
			return;
		}
		break;
	case SERIAL_CONDEMNED:
		if (answers.again) {
			return;
		}
		break;
	}
	serial_words(finding, checking->entries[row].serial,
	    other_words(checking, finding), &words);
	complain(&checking->complaints, checking->rows->items[row].line, "column serial",
	    "%s", text_string(&words));
}

static void
check_all(struct serials_checking *checking, struct serial_answers answers)
{
	size_t count = checking->rows->count;
	for (size_t i = 0; i < count; i++) {
		checking->entries[i] = entry_of(checking, &checking->rows->items[i]);
	}
	serial_look_all(
	    checking->inventory, checking->entries, count, checking->findings);
	for (size_t i = 0; i < count; i++) {
		complain_of(checking, i, answers);
	}
}

bool
csv_check_serials(const char *name, const struct csv_rows *rows,
    const struct inventory *inventory, struct serial_answers answers, struct arena *arena,
    struct fault *fault)
{
	SCOPED_ARENA scratch = {0};
	struct serials_checking checking = {
	    .rows = rows,
	    .inventory = inventory,
	    .complaints = {.arena = arena, .all = rows->complaints},
	    .entries =
		arena_alloc(&scratch, (rows->count + 1) * sizeof(struct serial_entry)),
	    .findings =
		arena_alloc(&scratch, (rows->count + 1) * sizeof(struct serial_finding)),
	};
	tag_index_make(inventory, &checking.index);
	check_all(&checking, answers);
	bool done = complaints_none(&checking.complaints, name, fault);
	tag_index_clear(&checking.index);
	complaints_clear(&checking.complaints);
	return done;
}
