#include "book/putting.h"
#include "desk/at_station.h"
#include "desk/inside.h"
#include "desk/ranges.h"
#include "gear/going.h"
#include "life/family.h"
#include "winter/asked.h"

/* What is being landed. */
struct landing {
	const struct land_request *request;
	struct land_outcome *out;
	const struct station *station; /* NULL when it is not in the book */
	struct life_planning planning;
	const bool *stays; /* parts that stay aboard */
	/* of each vessel of the book, made when first asked for; NULL before */
	struct shore_list **lists;
	struct arena scratch; /* owned */
};

static bool
check_state(const struct item *item, struct fault *fault)
{
	char since[DAY_WORDS_SIZE];
	switch (item->state) {
	case PLACE_ABOARD:
	case PLACE_RESERVE:
	case PLACE_STAND_IN:
		return true;
	case PLACE_LANDED:
		return fault_set(fault, FAULT_INPUT,
		    "%s is ashore already%s%s%s%s; \"becket return\" brings it back",
		    item->tag, item->landed_to[0] == '\0' ? "" : ", at ", item->landed_to,
		    item->landed_on == DAY_NONE ? "" : " since ",
		    day_words(item->landed_on, since));
	case PLACE_WITHDRAWN:
		return planning_withdrawn(item, fault);
	}
	return false;
}

/* The shore list of a vessel by herself: the trips that boats share change nothing of what is
 * asked. */
static const struct shore_list *
list_of(struct desk *desk, struct landing *landing, size_t vessel)
{
	const struct book_contents *contents = &desk->contents;
	if (landing->lists == NULL) {
		landing->lists = ARENA_MANY(
		    &desk->arena, struct shore_list *, contents->inventory.vessel_count);
	}
	struct shore_list **list = &landing->lists[vessel];
	if (*list == NULL) {
		*list = arena_alloc(&desk->arena, sizeof **list);
		const struct winter_request request = {.engine = &desk->engine,
		    .stations = contents->stations,
		    .station_count = contents->station_count,
		    .today = landing->request->on};
		winter_plan_fleet(&request, &vessel, 1, &desk->arena, *list);
	}
	return *list;
}

/* What is asked of the station: as told of the item itself, else as the list has it. */
static bool
find_asked(struct desk *desk, struct landing *landing, size_t index, bool inside,
    unsigned *out, struct fault *fault)
{
	struct at_counter piece = {
	    .item = index, .inside = inside, .today = landing->request->on};
	if (landing->request->asked != 0) {
		*out = inside ? 0 : landing->request->asked;
		return true;
	}
	arena_reset(&landing->scratch);
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	piece.list = list_of(desk, landing, desk->contents.inventory.items[index].vessel);
	asked_of_station(&desk->engine, &piece, &landing->scratch, out);
	return true;
}

static bool
land_one(struct desk *desk, struct landing *landing, size_t index, bool inside,
    struct fault *fault)
{
	struct life_row row = {.item = index, .moves = true};
	row.movement =
	    life_movement(MOVE_LANDED, landing->request->on, landing->request->note);
	row.movement.station = landing->request->to;
	if (!find_asked(desk, landing, index, inside, &row.movement.asked, fault)) {
		return false;
	}
	row.change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON,
	    .state = PLACE_LANDED,
	    .landed_to = landing->request->to,
	    .landed_on = landing->request->on,
	};
	planning_add(&landing->planning, &row);
	return true;
}

/* The item and those of its parts that are aboard with it. */
static bool
land_family(struct desk *desk, struct landing *landing, size_t index, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct family family = {0};
	if (!check_state(&inventory->items[index], fault)) {
		return false;
	}
	family_of(inventory, index, &desk->arena, &family);
	note_station(desk, landing->station, index);
	for (size_t i = 0; i < family.count; i++) {
		size_t at = family.items[i];
		bool goes = i == 0 || (inventory->items[at].state == PLACE_ABOARD &&
					  !landing->stays[at]);
		if (goes && !planning_has(&landing->planning, at) &&
		    !land_one(desk, landing, at, i > 0, fault)) {
			return false;
		}
	}
	return true;
}

static bool
land_all(struct desk *desk, struct landing *landing, struct fault *fault)
{
	for (size_t i = 0; i < landing->out->gear.count; i++) {
		if (!land_family(desk, landing, landing->out->gear.items[i], fault)) {
			return false;
		}
	}
	return true;
}

/* The first day on which it can be collected. */
static day_t
collect_day(const struct desk *desk, const struct landing *landing)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct station taken = {
	    .name = "", .turn_round_days = ASSUMED_TURN_ROUND_DAYS};
	size_t first = landing->out->gear.items[0];
	struct going going =
	    going_of(inventory, inventory->items[first].vessel, landing->request->on);
	return going_collect(&going, landing->station == NULL ? &taken : landing->station,
	    landing->request->on);
}

static bool
plan(struct desk *desk, void *act, struct fault *fault)
{
	struct landing *landing = act;
	const struct land_request *request = landing->request;
	bool *stays = NULL;
	landing->station = NULL;
	landing->lists = NULL;
	desk_note_future(desk, "on", stamp_of_day(request->on));
	if (!gear_find(
		desk, &request->tags, &landing->out->gear, &landing->planning, fault) ||
	    !gear_parts(
		desk, "without", &request->without, &landing->out->gear, &stays, fault) ||
	    !station_by_name(desk, request->to, &landing->station, fault)) {
		return false;
	}
	landing->stays = stays;
	if (!land_all(desk, landing, fault)) {
		return false;
	}
	if (landing->station != NULL &&
	    station_said_closed(landing->station, request->on)) {
		desk_note(desk, "%s is closed on that day", request->to);
	}
	landing->out->collect = collect_day(desk, landing);
	return true;
}

/* What was handed in is no longer packed. */
static bool
unpack(struct desk *desk, const struct gear_outcome *gear, struct fault *fault)
{
	for (size_t i = 0; i < gear->count; i++) {
		if (!book_put_packed(desk->book, gear->tags[i], DAY_NONE, fault)) {
			return false;
		}
	}
	return true;
}

static bool
write(struct desk *desk, void *act, struct fault *fault)
{
	const struct landing *landing = act;
	const struct gear_outcome *gear = &landing->out->gear;
	return settling_landed(
		   desk, landing->request->to, gear->items, gear->count, fault) &&
	       plan_write(desk, &gear->plan, fault) && unpack(desk, gear, fault);
}

bool
desk_land(struct desk *desk, const struct land_request *request, struct land_outcome *out,
    struct fault *fault)
{
	struct landing landing = {.request = request, .out = out};
	if (request->to[0] == '\0') {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "station: expected a station, found nothing");
	}
	bool landed = act_run_about(desk, range_part(desk, &request->tags, NULL),
	    "landing", plan, write, &landing, fault);
	arena_clear(&landing.scratch);
	return landed;
}
