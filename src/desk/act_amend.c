#include "desk/inside.h"
#include "desk/ranges.h"
#include "desk/stores.h"
#include "life/planning.h"

#include <string.h>

/* True where the change may bring withdrawn gear back. */
static bool
may_bring_back(const struct item_change *change)
{
	return (change->set & 1U << FIELD_STATE) != 0 && change->state != PLACE_WITHDRAWN;
}

/* A serial number is checked when it changes, or the kind it belongs to does. */
static bool
check_serial(struct desk *desk, const struct amend_request *request, size_t index,
    struct fault *fault)
{
	const struct item_change *change = &request->change;
	const struct item *item = &desk->contents.inventory.items[index];
	bool serial = (change->set & 1U << FIELD_SERIAL) != 0;
	bool kind = (change->set & 1U << FIELD_KIND) != 0;
	struct serial_entry entry = {
	    .kind = kind ? change->kind : item->kind,
	    .serial = serial ? change->serial : item->serial,
	    .item = index,
	};
	bool back = item->because == BECAUSE_CONDEMNED && may_bring_back(change);
	entry.fresh = (serial && strcmp(entry.serial, item->serial) != 0) ||
		      (kind && strcmp(entry.kind, item->kind) != 0) || back;
	return serials_check(desk, &entry, 1, request->said, fault);
}

/* The vessel the item is on after the change. */
static const char *
vessel_then(const struct desk *desk, const struct item_change *change, size_t index)
{
	const struct inventory *inventory = &desk->contents.inventory;
	return (change->set & 1U << FIELD_VESSEL) != 0
		   ? change->vessel
		   : inventory->vessels[inventory->items[index].vessel].name;
}

/* What the item is part of after the change; ITEM_NO_PARENT for nothing. */
static bool
find_whole(struct desk *desk, const struct item_change *change, size_t index, size_t *out,
    struct fault *fault)
{
	*out = desk->contents.inventory.items[index].parent;
	if ((change->set & 1U << FIELD_PART_OF) == 0) {
		return true;
	}
	*out = ITEM_NO_PARENT;
	return change->part_of[0] == '\0' ||
	       desk_find_tag(desk, change->part_of, out, fault) ||
	       fault_prefix(fault, FIELD "part-of");
}

/* A part that is put inside something, or comes back to it, is put where that is. */
static bool
check_whole(struct desk *desk, const struct item_change *change, size_t index,
    size_t whole, struct fault *fault)
{
	const struct item *item = &desk->contents.inventory.items[index];
	bool told = (change->set & 1U << FIELD_STATE) != 0;
	bool gone = (told ? change->state : item->state) == PLACE_WITHDRAWN;
	bool put =
	    (change->set & 1U << FIELD_PART_OF) != 0 || item->state == PLACE_WITHDRAWN;
	return whole == ITEM_NO_PARENT || gone || !put ||
	       whole_check(desk, item->tag, vessel_then(desk, change, index),
		   &desk->contents.inventory.items[whole], fault);
}

/* Parts go where their whole goes. */
static bool
plan_vessel(struct desk *desk, const struct item_change *change, size_t index,
    size_t whole, struct life_planning *planning, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct item *item = &inventory->items[index];
	const char *to = vessel_then(desk, change, index);
	const struct carrying carrying = {
	    .to = to,
	    .on = desk->today,
	    .place = item->place,
	    .note = "",
	    .alone = (change->set & 1U << FIELD_PART_OF) != 0,
	    .say = FIELD "part-of \"\"",
	    .with_whole =
		whole != ITEM_NO_PARENT &&
		strcmp(inventory->vessels[inventory->items[whole].vessel].name, to) == 0,
	};
	if (strcmp(inventory->vessels[item->vessel].name, to) == 0 ||
	    item->state == PLACE_WITHDRAWN || planning_has(planning, index)) {
		return true;
	}
	return vessel_check(desk, to, fault) && carry(planning, &carrying, index, fault);
}

static bool
plan_change(struct desk *desk, const struct item_change *change, size_t index,
    const struct record *record, struct life_planning *planning, struct fault *fault)
{
	const struct item *item = &desk->contents.inventory.items[index];
	struct life_row row = {.item = index, .change = *change};
	enum move move = MOVE_ABOARD;
	size_t whole = ITEM_NO_PARENT;
	if (life_state_move(item, change, &move)) {
		row.moves = true;
		row.movement = life_movement(move, desk->today, "");
		row.movement.station = item->landed_to;
		life_settle_state(&row.change);
	}
	row.records = record;
	row.record_count = record == NULL ? 0 : 1;
	if (record != NULL && record_is_new_thing(record)) {
		renewal_keep_later_mark(desk, record, item, &row.change);
	}
	if (!find_whole(desk, change, index, &whole, fault) ||
	    !check_whole(desk, change, index, whole, fault) ||
	    !plan_vessel(desk, change, index, whole, planning, fault)) {
		return false;
	}
	planning_add(planning, &row);
	return true;
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	const struct gear_act *act = of;
	const struct amend_request *request = act->request;
	struct gear_outcome *out = act->out;
	struct life_planning planning = {0};
	if (request->record != NULL &&
	    !desk_check_done(desk, "served", request->record->on, fault)) {
		return false;
	}
	if (!gear_find(desk, &request->tags, out, &planning, fault)) {
		return false;
	}
	if (out->count > 1 && (request->change.set & 1U << FIELD_SERIAL) != 0 &&
	    request->change.serial[0] != '\0') {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "serial: %zu pieces are named, and a serial number is one "
			  "piece's",
		    out->count);
	}
	if (request->record != NULL) {
		const struct record_request told = {
		    .record = *request->record, .renewed = request->change};
		if (!renewal_check(desk, &told, out, fault)) {
			return false;
		}
	}
	for (size_t i = 0; i < out->count; i++) {
		if (!check_serial(desk, request, out->items[i], fault) ||
		    !plan_change(desk, &request->change, out->items[i], request->record,
			&planning, fault)) {
			return false;
		}
	}
	return true;
}

/* Serial numbers of gear with some tags. */
struct own_serials {
	struct arena *arena;
	const struct book_part *of;
	struct word_list serials;
};

static void
take_own(void *context, const struct book_mark *mark)
{
	struct own_serials *own = context;
	if (mark->serial[0] != '\0' &&
	    words_have(own->of->tags, own->of->tag_count, mark->tag)) {
		ARENA_ADD(
		    own->arena, &own->serials, arena_string(own->arena, mark->serial));
	}
}

/* The part of the book that an amendment is about; NULL for all of it. Of another kind, or brought
 * back, its own number is compared with all others; what it goes to may be anywhere. */
static const struct book_part *
amend_part(struct desk *desk, const struct amend_request *request)
{
	const unsigned wide = 1U << FIELD_KIND | 1U << FIELD_VESSEL | 1U << FIELD_PART_OF;
	const struct item_change *change = &request->change;
	const char *serial = change->serial;
	struct newcomers newcomers = {.with = request->tags};
	struct own_serials own = {.arena = &desk->arena};
	struct fault ignored = {0};
	if ((change->set & wide) != 0) {
		return NULL;
	}
	if ((change->set & 1U << FIELD_SERIAL) != 0) {
		newcomers.serials = (struct word_list){.items = &serial, .count = 1};
	} else if (may_bring_back(change)) {
		own.of = range_part(desk, &request->tags, NULL);
		if (own.of == NULL ||
		    !book_marks(desk->book, false, take_own, &own, &ignored)) {
			return NULL;
		}
		newcomers.serials = own.serials;
	}
	return newcomers_part(desk, &newcomers);
}

bool
desk_amend(struct desk *desk, const struct amend_request *request,
    struct gear_outcome *out, struct fault *fault)
{
	struct gear_act act = {request, out};
	SCOPED_TEXT doing = {0};
	for (size_t i = 0; i < request->tags.count; i++) {
		text_add_format(
		    &doing, "%s%s", i == 0 ? "amending " : ", ", request->tags.items[i]);
	}
	return act_run_about(desk, amend_part(desk, request), text_string(&doing), plan,
	    gear_write, &act, fault);
}
