/* Any bytes as an inventory CSV: refused with words, or read into rows that are written and
 * read back to as many rows. */
#include "csv_scene.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static bool
read_rows(const char *bytes, size_t length, struct arena *arena, struct csv_rows *rows)
{
	const struct csv_source source = {
	    .name = "fuzz", .bytes = bytes, .length = length};
	const struct csv_options options = {
	    .order = ORDER_DAY_FIRST, .vessel = "Fuzz", .currency = "EUR"};
	const struct inventory empty = {0};
	struct fault fault = {0};
	/* read once: it takes as long as a hundred lists */
	static struct kinds *kinds;
	kinds = kinds == NULL ? csv_scene_kinds() : kinds;
	return csv_read_inventory(&source, kinds, &options, arena, rows, &fault) &&
	       csv_find_tags(source.name, rows, &empty, arena, &fault);
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct arena arena = {0};
	struct csv_rows rows = {0};
	struct csv_rows again = {0};
	struct csv_batch all = {0};
	struct fault fault = {0};
	struct inventory inventory = {0};
	SCOPED_TEXT out = {0};
	if (read_rows((const char *)data, size, &arena, &rows)) {
		if (!csv_scene_all(&rows, &all, &fault) || all.count != rows.count) {
			abort();
		}
		csv_scene_inventory(&all, &arena, &inventory);
		csv_scene_write(&inventory, false, &out);
		if (!read_rows(text_string(&out), out.length, &arena, &again) ||
		    again.count < inventory.item_count) {
			abort();
		}
	}
	csv_batch_clear(&all);
	csv_rows_clear(&rows);
	csv_rows_clear(&again);
	arena_clear(&arena);
	return 0;
}
