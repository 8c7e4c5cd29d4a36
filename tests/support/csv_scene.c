#include "csv_scene.h"

#include <string.h>

static const char CATALOGUE[] = "hazards:\n"
				"  - hazard: pyrotechnic\n"
				"    carry: ask before you carry it\n"
				"    dispose: hand it to who takes it\n"
				"kinds:\n"
				"  - id: liferaft-canister\n"
				"    name: liferaft in a canister\n"
				"    group: Liferafts\n"
				"    synonyms: [canister raft]\n"
				"  - id: raft-contents\n"
				"    name: raft contents\n"
				"    group: Liferafts\n"
				"  - id: lifejacket-auto\n"
				"    name: automatic lifejacket\n"
				"    group: Lifejackets\n"
				"  - id: gas-cylinder\n"
				"    name: gas cylinder\n"
				"    group: Lifejackets\n"
				"  - id: flare-red-hand\n"
				"    name: red hand flare\n"
				"    group: Flares\n"
				"    hazard: pyrotechnic\n"
				"    synonyms: [red flare]\n";

struct kinds *
csv_scene_kinds(void)
{
	struct fault fault = {0};
	struct kinds *kinds = NULL;
	return kinds_read(
		   "small catalogue", CATALOGUE, sizeof CATALOGUE - 1, &kinds, &fault)
		   ? kinds
		   : NULL;
}

/* The index of a name in the vessels so far; `count` when it is not there. */
static size_t
vessel_index(const struct vessel *vessels, size_t count, const char *name)
{
	size_t index = 0;
	while (index < count && strcmp(vessels[index].name, name) != 0) {
		index++;
	}
	return index;
}

static size_t
item_index(const struct item *items, size_t count, const char *tag)
{
	size_t index = 0;
	while (index < count && strcmp(items[index].tag, tag) != 0) {
		index++;
	}
	return index < count ? index : ITEM_NO_PARENT;
}

static struct item
item_of_row(const struct csv_row *row, size_t vessel)
{
	const struct item_change *change = &row->change;
	return (struct item){
	    .vessel = vessel,
	    .tag = change->tag,
	    .values = change->values,
	    .parent = ITEM_NO_PARENT,
	};
}

/* Gathers the records of one tag, oldest first: the rows have the newest first. */
static void
gather_records(const struct csv_batch *rows, struct arena *arena, struct item *item)
{
	struct record *records = arena_alloc(arena, rows->count * sizeof *records);
	for (size_t i = rows->count; i > 0; i--) {
		const struct csv_row *row = &rows->items[i - 1];
		if (row->has_record && strcmp(row->change.tag, item->tag) == 0) {
			records[item->record_count++] = row->record;
		}
	}
	item->records = records;
}

bool
csv_scene_all(const struct csv_rows *rows, struct csv_batch *out, struct fault *fault)
{
	*out = (struct csv_batch){.rows = rows, .at_once = rows->packed.length};
	return csv_batch_next(out, fault);
}

void
csv_scene_inventory(
    const struct csv_batch *rows, struct arena *arena, struct inventory *out)
{
	struct item *items = arena_alloc(arena, rows->count * sizeof *items);
	struct vessel *vessels = arena_alloc(arena, rows->count * sizeof *vessels);
	size_t count = 0;
	size_t vessel_count = 0;
	for (size_t i = 0; i < rows->count; i++) {
		const struct csv_row *row = &rows->items[i];
		if (row->further) {
			continue;
		}
		const char *name = row->change.vessel;
		size_t vessel = vessel_index(vessels, vessel_count, name);
		if (vessel == vessel_count) {
			vessels[vessel_count++].name = name;
		}
		items[count] = item_of_row(row, vessel);
		gather_records(rows, arena, &items[count++]);
	}
	for (size_t i = 0; i < rows->count; i++) {
		const struct item_change *change = &rows->items[i].change;
		if (!rows->items[i].further && *change->part_of != '\0') {
			items[item_index(items, count, change->tag)].parent =
			    item_index(items, count, change->part_of);
		}
	}
	*out = (struct inventory){vessels, vessel_count, items, count, "EUR"};
}

void
csv_scene_write(const struct inventory *inventory, bool for_spreadsheet, struct text *out)
{
	csv_write_names(for_spreadsheet, out);
	for (size_t i = 0; i < inventory->item_count; i++) {
		csv_write_items(inventory, &i, 1, for_spreadsheet, out);
	}
}
