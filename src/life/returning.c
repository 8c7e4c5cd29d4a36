#include "life/family.h"
#include "life/homecoming.h"
#include "life/planning.h"

#include <string.h>

/* The records of the work on an item, or on a part inside one; what it cost and the next date
 * are the item's alone, and what it cost is on the first. */
static void
add_records(struct life_planning *planning, const struct homecoming *home,
    const struct item *item, bool inside, struct life_row *row)
{
	unsigned tasks = homecoming_tasks(home, item, inside);
	struct record *records =
	    arena_alloc(planning->arena, (size_t)TASK_COUNT * sizeof *records);
	for (int task = 0; task < TASK_COUNT; task++) {
		if ((tasks & 1U << task) == 0) {
			continue;
		}
		records[row->record_count] = (struct record){
		    .task = (enum task)task,
		    .on = stamp_of_day(homecoming_done(home)),
		    .next = inside ? (struct stamp){0}
				   : homecoming_next(home, tasks, (enum task)task),
		    .station = homecoming_by(home, item),
		    .certificate = home->certificate,
		    .price_minor =
			row->record_count == 0 && !inside ? home->price_minor : -1,
		};
		row->record_count++;
	}
	row->records = records;
}

static void
add_return(const struct homecoming *home, const struct item *item, bool named,
    struct life_row *row)
{
	row->moves = true;
	row->movement = life_movement(MOVE_RETURNED, home->on, home->note);
	row->movement.station = item->landed_to;
	row->movement.result = named ? home->result : RESULT_NOT_SAID;
	if (named && home->certificate[0] != '\0') {
		row->movement.certificate = home->certificate;
	}
	if (named && homecoming_tasks(home, item, false) == 0) {
		row->movement.price_minor = home->price_minor;
	}
	row->change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON,
	    .state = homecoming_state(item),
	    .landed_to = "",
	    .landed_on = DAY_NONE,
	};
}

/* A part that was renewed: another thing under the same tag, or the same one with a new mark. */
static void
add_renewal(struct life_planning *planning, const struct homecoming *home,
    const struct item *whole, const struct renewed_part *part, struct life_row *row)
{
	const unsigned of_new_one = 1U << FIELD_MADE | 1U << FIELD_SERIAL;
	struct record *record = arena_alloc(planning->arena, sizeof *record);
	*record = (struct record){
	    .task = TASK_RENEW,
	    .on = stamp_of_day(homecoming_done(home)),
	    .station = homecoming_by(home, whole),
	    .certificate = home->certificate,
	    .price_minor = -1,
	    .refit = part->refit,
	};
	row->records = record;
	row->record_count = 1;
	row->renewed = (struct item_change){
	    .set = 1U << FIELD_EXPIRES | (part->refit ? 0 : of_new_one),
	    .expires = part->expires,
	    .made = part->made,
	    .serial = part->serial,
	};
}

static const struct renewed_part *
find_renewed(const struct homecoming *home, const char *tag)
{
	for (size_t i = 0; i < home->renewed_count; i++) {
		if (strcmp(home->renewed[i].tag, tag) == 0) {
			return &home->renewed[i];
		}
	}
	return NULL;
}

/* Brings the item and its parts back. A part that went elsewhere stays there. */
static void
bring_back(struct life_planning *planning, const struct homecoming *home, size_t index)
{
	const struct inventory *inventory = planning->inventory;
	const struct item *whole = &inventory->items[index];
	struct family family = {0};
	family_of(inventory, index, planning->arena, &family);
	for (size_t i = 0; i < family.count; i++) {
		size_t at = family.items[i];
		const struct item *item = &inventory->items[at];
		struct life_row row = {.item = at};
		const struct renewed_part *renewed = find_renewed(home, item->tag);
		bool with_it = item->state == PLACE_LANDED &&
			       strcmp(item->landed_to, whole->landed_to) == 0;
		if (planning_has(planning, at)) {
			continue;
		}
		if (with_it) {
			add_return(home, item, i == 0, &row);
		}
		if (renewed != NULL) {
			add_renewal(planning, home, whole, renewed, &row);
		} else if (with_it) {
			add_records(planning, home, item, i > 0, &row);
		}
		if (row.moves || row.record_count > 0) {
			planning_add(planning, &row);
		}
	}
	note_stand_ins(planning, index, true);
}

static bool
condemn(struct life_planning *planning, const struct homecoming *home, size_t index,
    struct fault *fault)
{
	const struct inventory *inventory = planning->inventory;
	bool *kept =
	    arena_alloc(planning->arena, (inventory->item_count + 1) * sizeof *kept);
	for (size_t i = 0; i < home->kept_count; i++) {
		kept[inventory_tagged(inventory, home->kept[i])] = true;
	}
	struct withdrawing how = {
	    .because = BECAUSE_CONDEMNED,
	    .result = RESULT_CONDEMNED,
	    .on = homecoming_done(home),
	    .certificate = home->certificate,
	    .note = home->note,
	    .price_minor = home->price_minor,
	    .kept = kept,
	    .station = homecoming_by(home, &inventory->items[index]),
	};
	return withdraw(planning, &how, index, fault);
}

bool
come_back(struct life_planning *planning, const struct homecoming *home, size_t index,
    struct fault *fault)
{
	if (!homecoming_check(planning->inventory, index, home, fault)) {
		return false;
	}
	if (home->result == RESULT_CONDEMNED) {
		return condemn(planning, home, index, fault);
	}
	bring_back(planning, home, index);
	return true;
}
