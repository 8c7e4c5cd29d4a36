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
	struct serial_looking *looking;
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

static bool
look_at(struct csv_row *row, void *context, struct fault *fault)
{
	const struct serials_checking *checking = context;
	const struct serial_entry entry = entry_of(checking, row);
	(void)fault;
	serial_look_at(checking->looking, &entry, row->at);
	return true;
}

/* Adds where the other number stands: "LJ-1 on Quillfish", "LJ-2 in line 7". */
static bool
add_other(const struct serials_checking *checking, const struct serial_found *found,
    struct text *words, struct fault *fault)
{
	const struct inventory *inventory = checking->inventory;
	if (found->finding.item < inventory->item_count) {
		const struct item *item = &inventory->items[found->finding.item];
		text_add_format(words, "%s on %s%s", item->tag,
		    inventory->vessels[item->vessel].name,
		    item->state == PLACE_WITHDRAWN ? ", withdrawn" : "");
		return true;
	}
	SCOPED_ARENA arena = {0};
	struct csv_row row;
	if (!csv_rows_at(checking->rows, found->other_key, &arena, &row, fault)) {
		return false;
	}
	text_add_format(words, "%s in line %zu", row.change.tag, row.line);
	return true;
}

static bool
complain_of(struct serials_checking *checking, const struct serial_found *found,
    struct serial_answers answers, struct fault *fault)
{
	SCOPED_TEXT words = {0};
	SCOPED_TEXT other = {0};
	SCOPED_ARENA arena = {0};
	struct csv_row row;
	switch (found->finding.doubt) {
	case SERIAL_FINE:
		return true;
	case SERIAL_SAME:
	case SERIAL_NEAR:
		if (answers.right) {
			return true;
		}
		break;
	case SERIAL_CONDEMNED:
		if (answers.again) {
			return true;
		}
		break;
	}
	if (!add_other(checking, found, &other, fault) ||
	    !csv_rows_at(checking->rows, found->key, &arena, &row, fault)) {
		return false;
	}
	serial_words(&found->finding, found->serial, text_string(&other), &words);
	complain(
	    &checking->complaints, row.line, "column serial", "%s", text_string(&words));
	return true;
}

static bool
check_all(
    struct serials_checking *checking, struct serial_answers answers, struct fault *fault)
{
	size_t count = 0;
	do {
		if (!csv_rows_each(checking->rows, look_at, checking, fault)) {
			return false;
		}
	} while (serial_look_again(checking->looking));
	const struct serial_found *found = serial_look_found(checking->looking, &count);
	for (size_t i = 0; i < count; i++) {
		if (!complain_of(checking, &found[i], answers, fault)) {
			return false;
		}
	}
	return true;
}

bool
csv_check_serials(const char *name, const struct csv_rows *rows,
    const struct inventory *inventory, struct serial_answers answers, struct arena *arena,
    struct fault *fault)
{
	struct serials_checking checking = {
	    .rows = rows,
	    .inventory = inventory,
	    .complaints = {.arena = arena, .all = rows->complaints},
	    .looking = serial_look_begin(inventory, rows->count),
	};
	tag_index_make(inventory, &checking.index);
	bool done = check_all(&checking, answers, fault) &&
		    complaints_none(&checking.complaints, name, fault);
	serial_look_end(checking.looking);
	tag_index_clear(&checking.index);
	complaints_clear(&checking.complaints);
	return done;
}
