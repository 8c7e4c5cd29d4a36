/* What came back, gathered: from tags and options, from a file, or by asking. */
#include "cli/command.h"
#include "cli/list_options.h"
#include "cli/ranges.h"
#include "cli/returning.h"
#include "desk/files.h"
#include "exchange/returns_csv.h"
#include "life/family.h"

#include <string.h>

/* The renewed parts of all that is named, each given to the item it is inside of. */
static void
share_renewed(struct context *context, const struct homecoming *common,
    const size_t *items, struct bag *bag)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < bag->count; i++) {
		struct homecoming *home = &bag->items[i];
		struct renewed_part *own = arena_alloc(
		    &context->desk.arena, (common->renewed_count + 1) * sizeof *own);
		home->renewed = own;
		home->renewed_count = 0;
		for (size_t j = 0; j < common->renewed_count; j++) {
			size_t part = homecoming_find(inventory, common->renewed[j].tag);
			if (part != ITEM_NO_PARENT &&
			    family_has(inventory, items[i], part)) {
				own[home->renewed_count++] = common->renewed[j];
			}
		}
	}
}

/* The kept parts, so, too. */
static void
share_kept(struct context *context, const struct homecoming *common, const size_t *items,
    struct bag *bag)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < bag->count; i++) {
		struct homecoming *home = &bag->items[i];
		const char **own = arena_alloc(
		    &context->desk.arena, (common->kept_count + 1) * sizeof *own);
		home->kept = own;
		home->kept_count = 0;
		for (size_t j = 0; j < common->kept_count; j++) {
			size_t part = homecoming_find(inventory, common->kept[j]);
			if (part != ITEM_NO_PARENT &&
			    family_has(inventory, items[i], part)) {
				own[home->kept_count++] = common->kept[j];
			}
		}
	}
}

/* Every part that was named must be inside something that was. */
static bool
check_parts(struct context *context, const struct homecoming *common, const size_t *items,
    size_t count, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t j = 0; j < common->renewed_count + common->kept_count; j++) {
		bool renewed = j < common->renewed_count;
		const char *tag = renewed ? common->renewed[j].tag
					  : common->kept[j - common->renewed_count];
		size_t part = homecoming_find(inventory, tag);
		bool inside = false;
		for (size_t i = 0; part != ITEM_NO_PARENT && i < count; i++) {
			inside = inside || family_has(inventory, items[i], part);
		}
		if (!inside) {
			return fault_set(fault, FAULT_INPUT,
			    "--%s: %s is no part of what is named",
			    renewed ? "renewed" : "keep", tag);
		}
	}
	return true;
}

bool
bag_of_tags(struct context *context, const struct homecoming *common, struct bag *bag,
    struct fault *fault)
{
	size_t *items = NULL;
	size_t count = 0;
	if (!range_items(context, 0, &items, &count, fault) ||
	    !check_parts(context, common, items, count, fault)) {
		return false;
	}
	bag->items = arena_alloc(&context->desk.arena, (count + 1) * sizeof *bag->items);
	for (size_t i = 0; i < count; i++) {
		bag->items[i] = *common;
		/* A copy: the book is read again once it is written. */
		bag->items[i].tag = arena_string(&context->desk.arena,
		    context->desk.contents.inventory.items[items[i]].tag);
	}
	bag->count = count;
	share_renewed(context, common, items, bag);
	share_kept(context, common, items, bag);
	return true;
}

bool
bag_of_file(struct context *context, const struct homecoming *common, struct bag *bag,
    struct fault *fault)
{
	const char *path = options_value(context->given, "from-csv");
	const char *name = strcmp(path, "-") == 0 ? "standard input" : path;
	SCOPED_TEXT bytes = {0};
	if (!file_read(path, &bytes, fault)) {
		return false;
	}
	const struct csv_source source = {name, text_string(&bytes), bytes.length};
	const enum date_order order = list_order_given(context->given);
	const struct list_how how = list_how_given(context->given);
	return csv_read_returns(&source, &how, common, order,
	    &context->desk.contents.inventory, &context->desk.arena, &bag->items,
	    &bag->count, &context->desk.notes, fault);
}

/* The items that are ashore in their own right, of those named or of all. */
static bool
find_ashore(struct context *context, const struct homecoming *common, size_t **items_out,
    size_t *count_out, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (context->given->words.count > 0) {
		return range_items(context, 0, items_out, count_out, fault);
	}
	size_t *items = arena_alloc(
	    &context->desk.arena, (inventory->item_count + 1) * sizeof *items);
	size_t count = 0;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		bool with_whole = item->parent != ITEM_NO_PARENT &&
				  inventory->items[item->parent].state == PLACE_LANDED;
		bool there =
		    common->by[0] == '\0' || strcmp(item->landed_to, common->by) == 0;
		if (item->state == PLACE_LANDED && !with_whole && there) {
			items[count++] = i;
		}
	}
	if (count == 0) {
		return fault_set(fault, FAULT_INPUT, "nothing is ashore%s%s",
		    common->by[0] == '\0' ? "" : " at ", common->by);
	}
	*items_out = items;
	*count_out = count;
	return true;
}

bool
bag_of_answers(struct context *context, const struct homecoming *common, struct bag *bag,
    struct fault *fault)
{
	size_t *items = NULL;
	size_t count = 0;
	return desk_load(&context->desk, NULL, true, fault) &&
	       find_ashore(context, common, &items, &count, fault) &&
	       ask_homecomings(
		   context, common, items, count, &bag->items, &bag->count, fault);
}
