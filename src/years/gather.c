/* What is planned as one: an item with its parts, the lives they may lead, and what doing
 * each thing only when it is due would come to. */
#include "years/outlook_inside.h"

static bool
is_planned(const struct item *item)
{
	switch (item->state) {
	case PLACE_ABOARD:
	case PLACE_LANDED:
		return item->hired_until == DAY_NONE;
	case PLACE_RESERVE:
	case PLACE_STAND_IN:
	case PLACE_WITHDRAWN:
		break;
	}
	return false;
}

bool
is_whole(const struct inventory *inventory, size_t item)
{
	const struct item *gear = &inventory->items[item];
	return is_planned(gear) && (gear->parent == ITEM_NO_PARENT ||
				       !is_planned(&inventory->items[gear->parent]));
}

/* Counts the parts of an item, including parts of parts, and puts them in `members`
 * where that is not NULL; `count` members are there already, and `parent` is one of
 * them. */
static size_t
gather_parts(
    const struct outlook_make *make, struct member *members, size_t item, size_t count)
{
	const size_t *first = make->together.first_part;
	size_t parent = count - 1;
	for (size_t part = first == NULL ? ITEM_NO_PARENT : first[item];
	     part != ITEM_NO_PARENT; part = make->together.next_part[part]) {
		if (!is_planned(&make->ask->engine->inventory->items[part])) {
			continue;
		}
		if (members != NULL) {
			members[count] = (struct member){.item = part, .parent = parent};
		}
		count = gather_parts(make, members, part, count + 1);
	}
	return count;
}

/* How binding the whole's rules make what is inside: where contents bind, a part that
 * lapses makes the whole lapse. */
static enum grade
least_of_parts(const struct unit *unit)
{
	const struct outlook_ask *ask = unit->make->ask;
	const struct item *whole = &ask->engine->inventory->items[unit->members[0].item];
	size_t count = 0;
	const struct rule *const *rules =
	    rulebook_for(ask->engine->rulebooks[whole->vessel], whole->kind, &count);
	for (size_t i = 0; i < count; i++) {
		if (rules[i]->contents_bind && rules[i]->grade <= ask->least) {
			return GRADE_PRACTICE;
		}
	}
	return ask->least;
}

/* Opens the lives of a member: as it is, and new in her first winter. */
static void
open_member(
    struct unit *unit, struct member *member, enum grade least, struct arena *arena)
{
	struct outlook_make *make = unit->make;
	int first = (int)make->first_there[unit->place];
	const struct item *item = &make->ask->engine->inventory->items[member->item];
	const struct kind *kind = kinds_find(make->ask->engine->kinds, item->kind);
	struct lives *own = &member->own;
	lives_open(make, member->item, unit->work, least, false, arena, own);
	member->heirs = lives_of_heirs(make, member->item, unit->work, least);
	(void)lives_begin(own, -1);
	if (first < (int)make->ask->winters) {
		(void)lives_begin(member->heirs, first);
	}
	member->tasks = own->station_tasks | member->heirs->station_tasks;
	member->renew_ashore = own->renew_ashore || member->heirs->renew_ashore;
	member->refits = due_refits(make->ask->engine, item);
	member->tasks |= member->refits && member->renew_ashore ? RENEW_BIT : 0;
	member->new_minor = new_price(make, member->item, false);
	member->refit_minor = member->refits ? new_price(make, member->item, true) : -1;
	member->inside = kind != NULL && kind->inside && unit->members[0].tasks != 0;
	member->rides = member != unit->members &&
			(member->renew_ashore || member->inside || member->tasks != 0);
}

/* Opens all members; true when a station has work to do on one. */
static bool
open_members(struct unit *unit, struct arena *arena)
{
	enum grade least = unit->make->ask->least;
	bool ashore = false;
	for (size_t i = 0; i < unit->count; i++) {
		struct member *member = &unit->members[i];
		open_member(unit, member, least, arena);
		least = i == 0 ? least_of_parts(unit) : least;
		ashore = ashore || member->tasks != 0 || member->renew_ashore;
	}
	return ashore;
}

/* Opens the members, first as if nothing went ashore; where something must, again with
 * the stations it may go to and their days. */
static void
open_where_due(struct unit *unit, struct arena *arena)
{
	unit_stations(unit, false);
	if (!open_members(unit, arena)) {
		return;
	}
	for (size_t i = 0; i < unit->count; i++) {
		lives_clear(&unit->members[i].own);
	}
	unit_stations(unit, true);
	(void)open_members(unit, arena);
}

bool
unit_make(struct outlook_make *make, size_t item, struct arena *arena, struct unit *out,
    struct fault *fault)
{
	size_t count = gather_parts(make, NULL, item, 1);
	struct unit unit = {.make = make,
	    .place = make->place,
	    .count = count,
	    .members = ARENA_MANY(make->arena, struct member, count)};
	unit.members[0] = (struct member){.item = item};
	(void)gather_parts(make, unit.members, item, 1);
	open_where_due(&unit, arena);
	for (size_t i = 0; i < count; i++) {
		unit.members[i].price_varies =
		    member_price_varies(&unit, &unit.members[i]);
	}
	unit_lay(&unit, arena);
	unit_when_due(&unit, arena);
	for (size_t i = 0; i < count; i++) {
		lives_clear(&unit.members[i].own);
		make->assumed += unit.members[i].heirs->print_assumed ||
				 unit.members[i].own.print_assumed;
	}
	if (make->too_many != NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "item %s can stand in more ways than can be looked at; fewer winters "
		    "will do",
		    make->too_many);
	}
	*out = unit;
	return true;
}
