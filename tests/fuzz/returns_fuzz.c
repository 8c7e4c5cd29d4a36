/* Any bytes as a station's list of what came back: refused with words, or read into
 * homecomings that the book does not contradict. */
#include "exchange/returns_csv.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* A jacket that is ashore, a part in it, and another jacket that is not. */
static const struct item ITEMS[] = {
    {.tag = "LJ-1",
	.kind = "lifejacket-auto",
	.state = PLACE_LANDED,
	.landed_to = "Depot",
	.landed_on = 20700,
	.parent = ITEM_NO_PARENT},
    {.tag = "FH-1",
	.kind = "firing-head",
	.state = PLACE_LANDED,
	.landed_to = "Depot",
	.landed_on = 20700,
	.parent = 0},
    {.tag = "LJ-2",
	.kind = "lifejacket-auto",
	.state = PLACE_ABOARD,
	.landed_to = "",
	.landed_on = DAY_NONE,
	.parent = ITEM_NO_PARENT},
};

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	const struct inventory inventory = {.items = ITEMS,
	    .item_count = sizeof ITEMS / sizeof ITEMS[0],
	    .currency = "EUR"};
	const struct csv_source source = {
	    .name = "fuzz", .bytes = (const char *)data, .length = size};
	const struct homecoming common = homecoming_on(20800);
	struct arena arena = {0};
	struct text notes = {0};
	struct fault fault = {0};
	struct homecoming *homes = NULL;
	size_t count = 0;
	const struct list_source list = {.file = &source,
	    .order = ORDER_DAY_FIRST,
	    .inventory = &inventory,
	    .arena = &arena,
	    .notes = &notes};
	bool read = csv_read_returns(&list, &common, &homes, &count, &fault);
	if (read == (fault.kind != FAULT_NONE) || (!read && fault.text[0] == '\0')) {
		abort();
	}
	for (size_t i = 0; read && i < count; i++) {
		size_t item = inventory_tagged(&inventory, homes[i].tag);
		if (item == ITEM_NO_PARENT ||
		    !homecoming_check(&inventory, item, &homes[i], &fault)) {
			abort();
		}
	}
	text_clear(&notes);
	arena_clear(&arena);
	return 0;
}
