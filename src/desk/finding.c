/* Finding what is named in what is loaded. */
#include "base/words.h"
#include "desk/naming.h"

#include <string.h>

/* Refuses a name that is none of those; `all` says where they are to be seen. */
static bool
refuse_unknown(const char *what, const char *typed, const char *const *names,
    size_t count, const char *all, struct fault *fault)
{
	const char *nearest = nearest_word(typed, names, count);
	return nearest == NULL
		   ? fault_set(fault, FAULT_INPUT,
			 "there is no %s \"%.80s\"; \"becket %s\" %s", what, typed, all,
			 strcmp(all, "list") == 0 ? "shows them all" : "lists them")
		   : fault_set(fault, FAULT_INPUT,
			 "there is no %s \"%.80s\"; did you mean %s?", what, typed,
			 nearest);
}

bool
desk_find_tag(struct desk *desk, const char *tag, size_t *item_out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t count = inventory->item_count;
	size_t found = inventory_tagged(inventory, tag);
	if (found != ITEM_NO_PARENT) {
		*item_out = found;
		return true;
	}
	const char **tags = arena_alloc(&desk->arena, (count + 1) * sizeof *tags);
	for (size_t i = 0; i < count; i++) {
		tags[i] = inventory->items[i].tag;
	}
	if (!naming_among(desk, NAMED_TAG, tag, tags, count, &found, fault)) {
		return false;
	}
	if (found < count) {
		*item_out = found;
		return true;
	}
	bool list = strchr(tag, ',') != NULL;
	return !list && strstr(tag, "..") == NULL
		   ? refuse_unknown("item with the tag", tag, tags, count, "list", fault)
		   : fault_set(fault, FAULT_INPUT,
			 "\"%.60s\" is a %s, and one tag is expected here", tag,
			 list ? "list" : "range");
}

bool
naming_vessel(struct desk *desk, const char *name, const struct word_list *names,
    size_t *place_out, struct fault *fault)
{
	size_t found = 0;
	if (!naming_among(
		desk, NAMED_VESSEL, name, names->items, names->count, &found, fault)) {
		return false;
	}
	*place_out = found;
	return found < names->count || refuse_unknown("vessel", name, names->items,
					   names->count, "vessel", fault);
}

bool
desk_find_vessel(
    struct desk *desk, const char *name, size_t *vessel_out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct word_list names = {0};
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		ARENA_ADD(&desk->arena, &names, inventory->vessels[i].name);
	}
	return naming_vessel(desk, name, &names, vessel_out, fault);
}
