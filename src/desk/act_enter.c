#include "book/putting.h"
#include "desk/inside.h"
#include "desk/ranges.h"
#include "desk/stores.h"
#include "exchange/inventory_csv.h"
#include "life/names.h"

#include <string.h>

/* Finds how many pieces are to be entered: all lists and the count must agree. */
static bool
agree(const struct enter_request *request, size_t *count_out, struct fault *fault)
{
	const struct {
		const char *name;
		size_t count;
	} said[] = {
	    {"tag", request->tags.count},
	    {"serials", request->serials.count},
	    {"count", (size_t)request->count},
	    {"part-of", request->wholes.count > 1 ? request->wholes.count : 0},
	};

	size_t found = (sizeof said / sizeof said[0]);
	for (size_t i = 0; i < (sizeof said / sizeof said[0]); i++) {
		if (said[i].count == 0) {
			continue;
		}
		if (found == (sizeof said / sizeof said[0])) {
			found = i;
		} else if (said[i].count != said[found].count) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD "%s says %zu, and " FIELD
				  "%s says %zu; expected as many of both",
			    said[found].name, said[found].count, said[i].name,
			    said[i].count);
		}
	}
	*count_out = found == (sizeof said / sizeof said[0]) ? 1 : said[found].count;
	return true;
}

/* Refuses tags that are in the book, or there twice. */
static bool
check_tags(
    const struct desk *desk, const struct enter_outcome *batch, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; i < batch->count; i++) {
		const char *tag = batch->items[i].tag;
		if (inventory_tagged(inventory, tag) != ITEM_NO_PARENT) {
			return fault_set(fault, FAULT_INPUT,
			    "%s is in the book already; \"becket amend %s\" changes it",
			    tag, tag);
		}
		for (size_t j = 0; j < i; j++) {
			if (strcmp(batch->items[j].tag, tag) == 0) {
				return fault_set(fault, FAULT_INPUT,
				    FIELD "tag: %s is there twice", tag);
			}
		}
	}
	return true;
}

/* The book itself refuses a whole that it does not know; one that is entered in the same
 * batch is on the same vessel. */
static bool
check_wholes(
    const struct desk *desk, const struct enter_outcome *batch, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; i < batch->count; i++) {
		const struct item_change *item = &batch->items[i];
		const char *whole = item->part_of == NULL ? "" : item->part_of;
		size_t at = inventory_tagged(inventory, whole);
		if (at != ITEM_NO_PARENT && !whole_check(desk, item->tag, item->vessel,
						&inventory->items[at], fault)) {
			return false;
		}
	}
	return true;
}

/* The items, all alike except for tag, serial number and whole. */
static bool
make(struct desk *desk, const struct enter_request *request, struct enter_outcome *out,
    struct fault *fault)
{
	const char **tags = request->tags.items;
	if (!agree(request, &out->count, fault)) {
		return false;
	}
	out->items = arena_alloc(&desk->arena, out->count * sizeof *out->items);
	if (request->tags.count == 0 &&
	    !tags_fresh(request->like.kind, &desk->contents.inventory, out->count,
		&desk->arena, &tags)) {
		return false;
	}
	for (size_t i = 0; i < out->count; i++) {
		struct item_change *item = &out->items[i];
		*item = request->like;
		item->tag = tags[i];
		if (request->serials.count > 0) {
			item->serial = request->serials.items[i];
			item->set |= 1U << FIELD_SERIAL;
		}
		if (request->wholes.count > 1) {
			item->part_of = request->wholes.items[i];
		}
	}
	return check_tags(desk, out, fault);
}

static bool
check_serials(struct desk *desk, const struct enter_request *request,
    const struct enter_outcome *out, struct fault *fault)
{
	struct serial_entry *entries =
	    arena_alloc(&desk->arena, out->count * sizeof *entries);
	for (size_t i = 0; i < out->count; i++) {
		const struct item_change *item = &out->items[i];
		entries[i] = (struct serial_entry){
		    .kind = item->kind,
		    .serial = item->serial == NULL ? "" : item->serial,
		    .item = ITEM_NO_PARENT,
		    .fresh = true,
		};
	}
	return serials_check(desk, entries, out->count, request->said, fault);
}

static void
add_word(struct desk *desk, struct word_list *list, const char *word)
{
	if (word != NULL && word[0] != '\0') {
		ARENA_ADD(&desk->arena, list, word);
	}
}

const struct book_part *
enter_part(struct desk *desk, const struct enter_request *request, const char *stands_for)
{
	struct fault ignored = {0};
	struct newcomers newcomers = {.kind = request->like.kind,
	    .tags = request->tags,
	    .vessel = request->like.vessel};
	size_t count = 0;
	if (!agree(request, &count, &ignored)) {
		return NULL;
	}
	newcomers.fresh = request->tags.count == 0 ? count : 0;
	add_word(desk, &newcomers.serials, request->like.serial);
	for (size_t i = 0; i < request->serials.count; i++) {
		add_word(desk, &newcomers.serials, request->serials.items[i]);
	}
	add_word(desk, &newcomers.with, stands_for);
	add_word(desk, &newcomers.with, request->like.part_of);
	for (size_t i = 0; i < request->wholes.count; i++) {
		add_word(desk, &newcomers.with, request->wholes.items[i]);
	}
	return newcomers_part(desk, &newcomers);
}

bool
enter_plan(struct desk *desk, const struct enter_request *request,
    struct enter_outcome *out, struct fault *fault)
{
	*out = (struct enter_outcome){0};
	if (request->record != NULL &&
	    !desk_check_done(desk, "served", request->record->on, fault)) {
		return false;
	}
	if (!make(desk, request, out, fault) ||
	    !check_serials(desk, request, out, fault)) {
		return false;
	}
	desk->doing = arena_format(&desk->arena, "entering %s%s", out->items[0].tag,
	    out->count > 1 ? " and those after it" : "");
	return check_wholes(desk, out, fault) || fault_prefix(fault, "%s", desk->doing);
}

bool
enter_write(struct desk *desk, const struct enter_request *request,
    const struct enter_outcome *out, struct fault *fault)
{
	bool written = book_put_items(desk->book, out->items, out->count, NULL, fault);
	for (size_t i = 0; written && i < out->count; i++) {
		const char *tag = out->items[i].tag;
		written = (request->record == NULL ||
			      book_add_record(desk->book, tag, request->record, fault)) &&
			  (request->movement == NULL || book_add_movement(desk->book, tag,
							    request->movement, fault));
	}
	return written;
}

struct act {
	const struct enter_request *request;
	struct enter_outcome *out;
};

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	if (!vessel_check(desk, act->request->like.vessel, fault) ||
	    !enter_plan(desk, act->request, act->out, fault)) {
		return false;
	}
	for (size_t i = 0; i < act->out->count; i++) {
		const struct item_change *item = &act->out->items[i];
		desk_note_near(desk, "tag", item->tag,
		    tag_near(&desk->contents.inventory, item->tag, item->kind));
	}
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	return enter_write(desk, act->request, act->out, fault);
}

bool
desk_enter(struct desk *desk, const struct enter_request *request,
    struct enter_outcome *out, struct fault *fault)
{
	struct act act = {request, out};
	return act_run_about(
	    desk, enter_part(desk, request, NULL), NULL, plan, write, &act, fault);
}
