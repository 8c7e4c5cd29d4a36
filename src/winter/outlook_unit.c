/* An item with its parts: every state they can be in together, winter by winter. */
#include "winter/outlook_make.h"

#include <stdlib.h>
#include <string.h>

/* Most states of one layer; what goes beyond is left out, and the plan says so. */
enum { STATES_MOST = 4000 };

/* The states of one layer: for each the lives of all members, twice the index and one more
 * for an heir's; and the winter it has been decided to go ashore in next, or to renew the
 * whole in (0 while nothing is decided, the number of winters for never). */
struct layer {
	uint32_t *refs; /* states x members and one more */
	size_t count;
	size_t capacity; /* states there is room for */
	uint32_t *slots; /* state + 1 by digest; 0 open */
	size_t mask;
};

/* What is done in each move. */
struct acts {
	uint8_t *items; /* moves x members */
	size_t count;
	size_t capacity;
};

/* A unit being laid out. */
struct laying {
	struct unit *unit;
	struct arena *arena; /* for the laying alone */
	size_t winter;
	const uint32_t *from; /* the state gone out from */
	size_t from_index;
	struct layer *next;
	struct course_moves *moves;
	struct acts *acts;
	uint8_t *act;        /* room for one move's acts */
	uint32_t *to;        /* and for the state it leads to */
	bool commits;        /* it is decided beforehand when the next visit is */
	uint32_t next_visit; /* and that is, after the move in hand */
	size_t first_move;   /* of this state */
};

/* The lives a reference is one of. */
static struct lives *
lives_of(struct member *member, uint32_t ref)
{
	return (ref & 1U) != 0 ? member->heirs : &member->own;
}

/* What fails of a member in a season, of the work that is planned. */
static unsigned
fails(const struct member *member, uint32_t ref, size_t winter)
{
	const struct lives *lives = (ref & 1U) != 0 ? member->heirs : &member->own;
	return lives->items[ref >> 1].fails[winter] & (member->tasks | RENEW_BIT);
}

/* The life a member leads after tasks were done; renewed, the first of an heir. */
static bool
member_after(struct member *member, uint32_t ref, size_t winter, unsigned tasks,
    uint32_t *out, struct fault *fault)
{
	size_t next = 0;
	if ((tasks & RENEW_BIT) != 0) {
		if (!lives_begin(member->heirs, (int)winter, &next, fault)) {
			return false;
		}
		*out = (uint32_t)next << 1 | 1U;
		return true;
	}
	if (!lives_after(lives_of(member, ref), ref >> 1, winter, tasks, &next, fault)) {
		return false;
	}
	*out = (uint32_t)next << 1 | (ref & 1U);
	return true;
}

/* What must be done to a member so that it lasts through the seasons up to but not `until`. */
static unsigned
needs(const struct member *member, uint32_t ref, size_t winter, size_t until)
{
	unsigned tasks = 0;
	for (size_t season = winter; season < until; season++) {
		tasks |= fails(member, ref, season);
	}
	return (tasks & RENEW_BIT) != 0 ? RENEW_BIT : tasks;
}

static uint32_t
state_digest(const uint32_t *refs, size_t count)
{
	uint32_t digest = 2166136261U;
	for (size_t i = 0; i < count; i++) {
		digest = (digest ^ refs[i]) * 16777619U;
	}
	return digest ^ digest >> 15;
}

static bool
layer_open(struct arena *arena, size_t members, struct layer *out, struct fault *fault)
{
	*out = (struct layer){.capacity = 64, .mask = 255};
	out->refs = arena_alloc(arena, out->capacity * members * sizeof *out->refs);
	out->slots = arena_alloc(arena, (out->mask + 1) * sizeof *out->slots);
	return out->refs != NULL && out->slots != NULL ? true : fault_memory(fault);
}

static uint32_t *
layer_slot(const struct layer *layer, const uint32_t *refs, size_t members)
{
	size_t at = state_digest(refs, members) & layer->mask;
	while (layer->slots[at] != 0 &&
	       memcmp(&layer->refs[(layer->slots[at] - 1) * members], refs,
		   members * sizeof *refs) != 0) {
		at = (at + 1) & layer->mask;
	}
	return &layer->slots[at];
}

/* Makes room for one more state. */
static bool
layer_room(struct arena *arena, size_t members, struct layer *layer, struct fault *fault)
{
	if (layer->count < layer->capacity) {
		return true;
	}
	struct layer grown = {.count = layer->count,
	    .capacity = layer->capacity * 4,
	    .mask = layer->mask * 4 + 3};
	grown.refs = arena_alloc(arena, grown.capacity * members * sizeof *grown.refs);
	grown.slots = arena_alloc(arena, (grown.mask + 1) * sizeof *grown.slots);
	if (grown.refs == NULL || grown.slots == NULL) {
		return fault_memory(fault);
	}
	memcpy(grown.refs, layer->refs, layer->count * members * sizeof *grown.refs);
	for (size_t i = 0; i < grown.count; i++) {
		*layer_slot(&grown, &grown.refs[i * members], members) = (uint32_t)i + 1;
	}
	*layer = grown;
	return true;
}

/* The index of a state in the next layer; UINT32_MAX when there is no room for more. */
static bool
layer_find(struct laying *laying, uint32_t *out, struct fault *fault)
{
	struct layer *layer = laying->next;
	size_t members = laying->unit->count + 1;
	if (!layer_room(laying->arena, members, layer, fault)) {
		return false;
	}
	uint32_t *slot = layer_slot(layer, laying->to, members);
	if (*slot == 0 && layer->count == STATES_MOST) {
		laying->unit->cut = true;
		*out = UINT32_MAX;
		return true;
	}
	if (*slot == 0) {
		memcpy(&layer->refs[layer->count * members], laying->to,
		    members * sizeof *laying->to);
		*slot = (uint32_t)++layer->count;
	}
	*out = *slot - 1;
	return true;
}

/* How much work a move is, to choose among ways that cost the same: fewest renewals, then the
 * latest (what is bought later lasts longer beyond the last winter); then least work at
 * stations, a test being more than a service; then the latest. */
static uint32_t
work_of(const struct laying *laying)
{
	static const uint32_t WEIGHTS[TASK_COUNT] = {
	    [TASK_SERVICE] = 2, [TASK_INSPECT] = 1, [TASK_WEIGH] = 1, [TASK_TEST] = 5};
	uint32_t winter = (uint32_t)laying->winter;
	uint32_t sum = 0;
	for (size_t i = 0; i < laying->unit->count; i++) {
		bool with_whole = i > 0 && (laying->act[0] & RENEW_BIT) != 0;
		if ((laying->act[i] & RENEW_BIT) != 0 && !with_whole) {
			sum += 6400 * (2 * OUTLOOK_WINTERS_MOST + 1 - winter);
		}
		for (unsigned task = 0; task < TASK_COUNT; task++) {
			bool done = (laying->act[i] & TASK_BIT(task)) != 0;
			sum +=
			    done && WEIGHTS[task] > 0 ? 64 * WEIGHTS[task] - winter : 0;
		}
	}
	return sum;
}

static bool
any_rides(const struct unit *unit)
{
	bool rides = false;
	for (size_t i = 1; i < unit->count; i++) {
		rides = rides || unit->members[i].rides;
	}
	return rides;
}

/* What the acts of a move cost beside the station's work. */
static int64_t
own_cost(const struct laying *laying)
{
	const struct unit *unit = laying->unit;
	int64_t sum = 0;
	for (size_t i = 0; i < unit->count; i++) {
		bool with_whole = i > 0 && (laying->act[0] & RENEW_BIT) != 0;
		if ((laying->act[i] & RENEW_BIT) != 0 && !with_whole &&
		    unit->members[i].new_minor > 0) {
			sum += unit->members[i].new_minor;
		}
	}
	return sum;
}

/* What a station asks for the acts of a move. */
static int64_t
station_cost(const struct laying *laying, size_t station)
{
	const struct unit *unit = laying->unit;
	int64_t sum = 0;
	for (size_t i = 0; i < unit->count; i++) {
		unsigned tasks = laying->act[i] & unit->members[i].tasks;
		sum +=
		    work_price(unit->make, unit->members[i].item, station, tasks, i == 0);
	}
	return sum;
}

static bool
add_move(struct laying *laying, const struct course_move *move, struct fault *fault)
{
	struct acts *acts = laying->acts;
	size_t members = laying->unit->count;
	if (!ARRAY_ROOM(laying->moves, fault) ||
	    !array_reserve(
		&acts->items, &acts->capacity, 1, acts->count + members, fault)) {
		return false;
	}
	struct course_move *added = &laying->moves->items[laying->moves->count++];
	*added = *move;
	added->acts = (uint32_t)(acts->count / members);
	memcpy(&acts->items[acts->count], laying->act, members);
	acts->count += members;
	return true;
}

/* Which seasons a move answers for: the whole and what rides along up to the next visit, other
 * parts the coming one alone. Counts what lapses in them. */
static uint32_t
lapses_until(const struct laying *laying, size_t member, size_t until)
{
	const struct member *own = &laying->unit->members[member];
	bool waits = member == 0 || own->rides;
	uint32_t lapses = 0;
	size_t end = waits ? until : laying->winter + 1;
	for (size_t season = laying->winter; season < end; season++) {
		lapses += (uint32_t)bits_in(fails(own, laying->to[member], season));
	}
	return lapses;
}

/* Adds the moves for the acts in hand: one for each station they may be done at, or one
 * without a trip. */
static bool
add_moves(struct laying *laying, bool ashore, size_t until, struct fault *fault)
{
	struct unit *unit = laying->unit;
	size_t winters = unit->make->ask->winters;
	struct course_move move = {
	    .from = (uint32_t)laying->from_index, .station = ARC_NO_TRIP};
	for (size_t i = 0; i < unit->count; i++) {
		if (!member_after(&unit->members[i], laying->from[i], laying->winter,
			laying->act[i], &laying->to[i], fault)) {
			return false;
		}
		move.lapses += lapses_until(laying, i, until);
	}
	laying->to[unit->count] = laying->next_visit;
	if (!layer_find(laying, &move.to, fault)) {
		return false;
	}
	int64_t own = own_cost(laying);
	move.work = work_of(laying);
	if (move.to == UINT32_MAX) {
		return true;
	}
	if (!ashore) {
		move.minor = own;
		return add_move(laying, &move, fault);
	}
	for (size_t i = 0; i < unit->station_count; i++) {
		if (!unit->open[i * winters + laying->winter]) {
			continue;
		}
		move.station = (int)unit->stations[i];
		move.minor = own + station_cost(laying, unit->stations[i]);
		if (!add_move(laying, &move, fault)) {
			return false;
		}
	}
	return true;
}

/* Sets what becomes of the parts when the whole has `whole` done to it, ashore or not; those
 * that ride along get what they need to last up to `until`. */
static void
fill_parts(struct laying *laying, unsigned whole, bool ashore, size_t until)
{
	const struct unit *unit = laying->unit;
	size_t winter = laying->winter;
	laying->act[0] = (uint8_t)whole;
	for (size_t i = 1; i < unit->count; i++) {
		const struct member *member = &unit->members[i];
		unsigned tasks = 0;
		if ((laying->act[member->parent] & RENEW_BIT) != 0) {
			tasks = RENEW_BIT; /* a new one brings new parts */
		} else if (!member->rides) {
			tasks = needs(member, laying->from[i], winter, winter + 1);
		} else if (ashore && (!member->inside || whole != 0)) {
			tasks = needs(member, laying->from[i], winter, until);
		}
		bool at_once = winter == laying->unit->make->first_there[unit->place] &&
			       member->item == unit->make->ask->renew_now;
		laying->act[i] = (uint8_t)(at_once ? RENEW_BIT : tasks);
	}
}

/* What lapses of the whole up to the next visit when `tasks` are done to it. */
static bool
whole_lapses(struct laying *laying, unsigned tasks, size_t until, uint32_t *out,
    struct fault *fault)
{
	struct member *whole = &laying->unit->members[0];
	if (!member_after(
		whole, laying->from[0], laying->winter, tasks, &laying->to[0], fault)) {
		return false;
	}
	*out = lapses_until(laying, 0, until);
	return true;
}

/* Whether a part of the tasks does as well up to the next visit. What can wait for that waits:
 * where there is one station alone it costs no more then. */
static bool
can_wait(
    struct laying *laying, unsigned tasks, size_t until, bool *out, struct fault *fault)
{
	uint32_t all = 0;
	uint32_t some = 0;
	*out = false;
	if (!laying->commits || laying->unit->station_count != 1 ||
	    (tasks & RENEW_BIT) != 0 || tasks == 0) {
		return true;
	}
	if (!whole_lapses(laying, tasks, until, &all, fault)) {
		return false;
	}
	for (unsigned part = (tasks - 1) & tasks; part != 0 && !*out;
	     part = (part - 1) & tasks) {
		if (!whole_lapses(laying, part, until, &some, fault)) {
			return false;
		}
		*out = some <= all;
	}
	return true;
}

/* One choice for the whole; where the next visit is decided beforehand, with every choice of
 * that. Parts that ride along get just what they need to last until then: to do more sooner
 * saves nothing. */
static bool
choose_parts(struct laying *laying, unsigned whole, bool ashore, struct fault *fault)
{
	size_t next = laying->winter + 1;
	size_t last = laying->commits ? laying->unit->make->ask->winters : next;
	for (size_t until = next; until <= last; until++) {
		bool waits = false;
		if (!can_wait(laying, whole, until, &waits, fault)) {
			return false;
		}
		if (waits) {
			continue;
		}
		laying->next_visit = laying->commits ? (uint32_t)until : 0;
		fill_parts(laying, whole, ashore, until);
		if (!add_moves(laying, ashore, until, fault)) {
			return false;
		}
	}
	return true;
}

/* A winter before the one decided on: nothing goes ashore. */
static bool
wait_for_visit(struct laying *laying, uint32_t visit, struct fault *fault)
{
	laying->next_visit = visit;
	fill_parts(laying, 0, false, laying->winter);
	return add_moves(laying, false, laying->winter, fault);
}

/* True when the whole may be renewed: it must be, or a new one has a price and there is a
 * station's work to be saved. */
static bool
may_renew(const struct laying *laying)
{
	const struct member *whole = &laying->unit->members[0];
	bool must = (fails(whole, laying->from[0], laying->winter) & RENEW_BIT) != 0;
	return must || (whole->new_minor >= 0 && whole->tasks != 0);
}

static bool
any_station_open(const struct unit *unit, size_t winter)
{
	bool open = false;
	for (size_t i = 0; i < unit->station_count; i++) {
		open = open || unit->open[i * unit->make->ask->winters + winter];
	}
	return open;
}

/* Every choice for the whole in one state. */
static bool
choose_whole(struct laying *laying, struct fault *fault)
{
	const struct unit *unit = laying->unit;
	const struct member *whole = &unit->members[0];
	uint32_t visit = laying->from[unit->count];
	bool open = any_station_open(unit, laying->winter);
	bool now = whole->item == unit->make->ask->renew_now &&
		   laying->winter == unit->make->first_there[unit->place];
	bool renewable = (may_renew(laying) || now) && (open || !whole->renew_ashore);
	bool goes = open && (whole->tasks != 0 || any_rides(unit));
	if (visit > laying->winter) {
		return wait_for_visit(laying, visit, fault);
	}
	bool stays = visit == 0 || !(goes || renewable);
	if (stays && !now && !choose_parts(laying, 0, false, fault)) {
		return false;
	}
	if (goes && !now && any_rides(unit) && !choose_parts(laying, 0, true, fault)) {
		return false;
	}
	for (unsigned tasks = whole->tasks; tasks != 0 && goes && !now;
	     tasks = (tasks - 1) & whole->tasks) {
		if (!choose_parts(laying, tasks, true, fault)) {
			return false;
		}
	}
	return !renewable || choose_parts(laying, RENEW_BIT, whole->renew_ashore, fault);
}

/* Where some moves out of a state let nothing lapse, drops those that do: doing more never makes
 * anything lapse sooner, so what could be kept in date now is. */
static void
keep_best_moves(struct laying *laying)
{
	struct course_moves *moves = laying->moves;
	bool clean = false;
	for (size_t i = laying->first_move; i < moves->count; i++) {
		clean = clean || moves->items[i].lapses == 0;
	}
	size_t kept = laying->first_move;
	for (size_t i = laying->first_move; i < moves->count; i++) {
		if (!clean || moves->items[i].lapses == 0) {
			moves->items[kept++] = moves->items[i];
		}
	}
	moves->count = kept;
}

/* Lays out one winter: the moves out of every state of a layer, and the layer they lead to. */
static bool
lay_winter(struct laying *laying, const struct layer *layer, struct fault *fault)
{
	const struct unit *unit = laying->unit;
	bool there = year_at(unit->make, unit->place, laying->winter)->there;
	for (size_t i = 0; i < layer->count; i++) {
		laying->from = &layer->refs[i * (unit->count + 1)];
		laying->from_index = i;
		laying->first_move = laying->moves->count;
		memset(laying->act, 0, unit->count);
		bool laid = there ? choose_whole(laying, fault)
				  : wait_for_visit(laying, 0, fault);
		if (!laid) {
			return false;
		}
		keep_best_moves(laying);
	}
	return true;
}

/* Lays out all winters and tidies what comes of it. */
static bool
lay_unit(struct laying *laying, struct fault *fault)
{
	struct unit *unit = laying->unit;
	size_t winters = unit->make->ask->winters;
	size_t *states = arena_alloc(laying->arena, (winters + 1) * sizeof *states);
	size_t *ends = arena_alloc(laying->arena, winters * sizeof *ends);
	struct layer layer = {0};
	laying->act = arena_alloc(laying->arena, unit->count + 1);
	laying->to = arena_alloc(laying->arena, (unit->count + 1) * sizeof *laying->to);
	laying->commits = any_rides(unit) || bits_in(unit->members[0].tasks) > 1;
	if (states == NULL || ends == NULL || laying->act == NULL || laying->to == NULL) {
		return fault_memory(fault);
	}
	if (!layer_open(laying->arena, unit->count + 1, &layer, fault)) {
		return false;
	}
	memset(
	    layer.refs, 0, (unit->count + 1) * sizeof *layer.refs); /* all as they are */
	layer.count = 1;
	for (laying->winter = 0; laying->winter < winters; laying->winter++) {
		struct layer next = {0};
		states[laying->winter] = layer.count;
		laying->next = &next;
		if (!layer_open(laying->arena, unit->count + 1, &next, fault) ||
		    !lay_winter(laying, &layer, fault)) {
			return false;
		}
		ends[laying->winter] = laying->moves->count;
		layer = next;
	}
	states[winters] = layer.count;
	return course_tidy(
	    laying->moves, ends, states, laying->acts->items, unit, laying->arena, fault);
}

bool
unit_lay(struct unit *unit, struct arena *arena, struct fault *fault)
{
	struct course_moves moves = {0};
	struct acts acts = {0};
	struct laying laying = {
	    .unit = unit, .arena = arena, .moves = &moves, .acts = &acts};
	bool laid = lay_unit(&laying, fault);
	free(moves.items);
	free(acts.items);
	return laid;
}

/* What is done to the whole when nothing is done before it must be: what would lapse in the
 * coming season, and its service where a part inside it would. */
static unsigned
due_of_whole(const struct laying *laying)
{
	const struct unit *unit = laying->unit;
	const struct member *whole = &unit->members[0];
	size_t winter = laying->winter;
	unsigned tasks = needs(whole, laying->from[0], winter, winter + 1);
	for (size_t i = 1; i < unit->count && tasks == 0; i++) {
		const struct member *part = &unit->members[i];
		if (part->inside &&
		    needs(part, laying->from[i], winter, winter + 1) != 0) {
			unsigned service = whole->tasks & TASK_BIT(TASK_SERVICE);
			tasks = service != 0 ? service : whole->tasks;
		}
	}
	return tasks;
}

/* The season in which the whole lapses next when `whole` is done to it. */
static bool
next_due(struct laying *laying, unsigned whole, size_t *until_out, struct fault *fault)
{
	struct unit *unit = laying->unit;
	uint32_t after = 0;
	if (!member_after(&unit->members[0], laying->from[0], laying->winter, whole,
		&after, fault)) {
		return false;
	}
	size_t until = laying->winter + 1;
	while (until < unit->make->ask->winters &&
	       fails(&unit->members[0], after, until) == 0) {
		until++;
	}
	*until_out = until;
	return true;
}

/* One winter of it: what is done, where, and what that costs. */
static bool
when_due_winter(struct laying *laying, struct fault *fault)
{
	struct unit *unit = laying->unit;
	const struct member *whole = &unit->members[0];
	size_t winters = unit->make->ask->winters;
	size_t until = 0;
	size_t at = 0;
	while (at < unit->station_count && !unit->open[at * winters + laying->winter]) {
		at++;
	}
	bool open = at < unit->station_count;
	unsigned tasks = due_of_whole(laying);
	bool renewed_there = (tasks & RENEW_BIT) != 0 && whole->renew_ashore;
	if (((tasks & whole->tasks) != 0 || renewed_there) && !open) {
		tasks = 0;
	}
	if (!next_due(laying, tasks, &until, fault)) {
		return false;
	}
	fill_parts(laying, tasks, open, until);
	bool ashore = (tasks & whole->tasks) != 0 || (tasks & RENEW_BIT && renewed_there);
	for (size_t i = 1; i < unit->count && open; i++) {
		bool own =
		    (laying->act[laying->unit->members[i].parent] & RENEW_BIT) == 0;
		ashore = ashore || (own && unit->members[i].rides && laying->act[i] != 0);
	}
	unit->when_due[laying->winter] = ashore ? unit->stations[at] : NO_STATION;
	unit->when_due_minor +=
	    own_cost(laying) + (ashore ? station_cost(laying, unit->stations[at]) : 0);
	for (size_t i = 0; i < unit->count; i++) {
		if (!member_after(&unit->members[i], laying->from[i], laying->winter,
			laying->act[i], &laying->to[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
unit_when_due(struct unit *unit, struct arena *arena, struct fault *fault)
{
	const struct outlook_make *make = unit->make;
	size_t winters = make->ask->winters;
	struct laying laying = {
	    .unit = unit,
	    .arena = arena,
	    .act = arena_alloc(arena, unit->count + 1),
	    .to = arena_alloc(arena, (unit->count + 1) * sizeof *laying.to),
	};
	unit->when_due = arena_alloc(make->arena, winters * sizeof *unit->when_due);
	if (laying.act == NULL || laying.to == NULL || unit->when_due == NULL) {
		return fault_memory(fault);
	}
	laying.from = laying.to;
	for (; laying.winter < winters; laying.winter++) {
		unit->when_due[laying.winter] = NO_STATION;
		bool there = year_at(make, unit->place, laying.winter)->there;
		if (there && !when_due_winter(&laying, fault)) {
			return false;
		}
	}
	return true;
}
