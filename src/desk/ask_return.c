/* What is to be asked of gear that comes back. */
#include "desk/inside.h"
#include "desk/ranges.h"
#include "life/family.h"

#include <string.h>

struct return_request
desk_returning(const struct desk *desk, struct word_list tags)
{
	return (struct return_request){
	    .tags = tags, .common = homecoming_on(desk->today)};
}

bool
desk_load_ashore(struct desk *desk, const struct word_list *tags, struct fault *fault)
{
	struct word_list landed = *tags;
	if (!desk_book(desk, fault) ||
	    (tags->count == 0 &&
		!book_names(desk->book, BOOK_LANDED, &desk->arena, &landed, fault))) {
		return false;
	}
	return ask_about(desk, range_part(desk, &landed, NULL), LEFT_ALL, fault);
}

bool
desk_ashore(struct desk *desk, const struct word_list *tags, const char *by,
    size_t **items_out, size_t *count_out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	if (tags->count > 0) {
		return range_items(desk, tags, items_out, count_out, fault);
	}
	size_t *items =
	    arena_alloc(&desk->arena, (inventory->item_count + 1) * sizeof *items);
	size_t count = 0;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		bool with_whole = item->parent != ITEM_NO_PARENT &&
				  inventory->items[item->parent].state == PLACE_LANDED;
		bool there = by[0] == '\0' || strcmp(item->landed_to, by) == 0;
		if (item->state == PLACE_LANDED && !with_whole && there) {
			items[count++] = i;
		}
	}
	if (count == 0) {
		return fault_set(fault, FAULT_INPUT, "nothing is ashore%s%s",
		    by[0] == '\0' ? "" : " at ", by);
	}
	*items_out = items;
	*count_out = count;
	return true;
}

struct return_facts
desk_return_facts(struct desk *desk, size_t item)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct family family = {0};
	family_of(inventory, item, &desk->arena, &family);
	struct return_facts facts = {
	    .asked = homecoming_knows(inventory, item), .has_parts = family.count > 1};
	for (size_t i = 1; i < family.count; i++) {
		const struct item *part = &inventory->items[family.items[i]];
		if (part->state == PLACE_LANDED &&
		    (homecoming_asked(part) & 1U << TASK_RENEW) != 0) {
			ARENA_ADD(&desk->arena, &facts.renew, part->tag);
		}
	}
	return facts;
}

struct return_work
desk_return_work(struct desk *desk, const struct homecoming *home)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t whole = inventory_tagged(inventory, home->tag);
	struct family family = {0};
	family_of(inventory, whole, &desk->arena, &family);
	struct return_work work = {
	    .tasks = homecoming_tasks(home, &inventory->items[whole], false),
	    .parts = arena_alloc(&desk->arena, family.count * sizeof *work.parts)};
	for (size_t i = 1; i < family.count; i++) {
		const struct item *part = &inventory->items[family.items[i]];
		unsigned tasks =
		    part->state == PLACE_LANDED ? homecoming_tasks(home, part, true) : 0;
		if (tasks != 0) {
			work.parts[work.part_count++] =
			    (struct part_work){part->tag, tasks};
		}
	}
	return work;
}

bool
desk_return_check(
    const struct desk *desk, const struct homecoming *home, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	return homecoming_check(
	    inventory, inventory_tagged(inventory, home->tag), home, fault);
}
