/* The choices there are in one state of a unit. */
#include "years/moves_inside.h"

#include <string.h>

/* The lives a reference is one of. */
static struct lives *
lives_of(struct member *member, uint32_t ref)
{
	return (ref & 1U) != 0 ? member->heirs : &member->own;
}

/* What fails of a member in a season, of the work that is planned. */
unsigned
member_fails(const struct member *member, uint32_t ref, size_t winter)
{
	const struct lives *lives = (ref & 1U) != 0 ? member->heirs : &member->own;
	return lives->items[ref >> 1].fails[winter] & (member->tasks | RENEW_BIT);
}

/* The life a member leads after tasks were done; renewed, the first of an heir. */
bool
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
unsigned
member_needs(const struct member *member, uint32_t ref, size_t winter, size_t until)
{
	unsigned tasks = 0;
	for (size_t season = winter; season < until; season++) {
		tasks |= member_fails(member, ref, season);
	}
	return (tasks & RENEW_BIT) != 0 ? RENEW_BIT : tasks;
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
int64_t
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

/* How old a member is on the day the winter's work is done, before it. */
static int
age_in_hand(const struct laying *laying, size_t index)
{
	const struct member *member = &laying->unit->members[index];
	uint32_t ref = laying->from[index];
	const struct lives *lives = (ref & 1U) != 0 ? member->heirs : &member->own;
	return lives_age(
	    lives, &lives->items[ref >> 1], laying->unit->work[laying->winter]);
}

/* What counts for the acts of a move at a station. */
int64_t
station_cost(const struct laying *laying, size_t station)
{
	const struct unit *unit = laying->unit;
	int64_t sum = 0;
	for (size_t i = 0; i < unit->count; i++) {
		unsigned tasks = laying->act[i] & unit->members[i].tasks;
		if (tasks != 0) {
			sum += work_price(unit->make, unit->members[i].item, station,
			    tasks, age_in_hand(laying, i));
		}
	}
	return sum + carriage_price(unit->make, unit->members[0].item, station);
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
		lapses +=
		    (uint32_t)bits_in(member_fails(own, laying->to[member], season));
	}
	return lapses;
}

static void
add_move(struct laying *laying, const struct course_move *move)
{
	ARRAY_ROOM(&laying->moves);
	laying->moves.items[laying->moves.count++] = *move;
}

/* Copies the state and the acts in hand for the moves that have them. */
static void
keep_hand(const struct laying *laying, struct course_move *move)
{
	size_t members = laying->unit->count;
	uint32_t *to = arena_alloc(laying->arena, (members + 1) * sizeof *to);
	uint8_t *acts = arena_alloc(laying->arena, members);
	memcpy(to, laying->to, (members + 1) * sizeof *to);
	memcpy(acts, laying->act, members);
	move->to = to;
	move->acts = acts;
}

/* Adds the moves for the acts in hand: one for each station they may be done at, or one
 * without a trip. */
static bool
add_moves(struct laying *laying, bool ashore, size_t until, struct fault *fault)
{
	struct unit *unit = laying->unit;
	size_t winters = unit->make->ask->winters;
	struct course_move move = {.station = ARC_NO_TRIP, .work = work_of(laying)};
	for (size_t i = 0; i < unit->count; i++) {
		if (!member_after(&unit->members[i], laying->from[i], laying->winter,
			laying->act[i], &laying->to[i], fault)) {
			return false;
		}
		move.lapses += lapses_until(laying, i, until);
	}
	laying->to[unit->count] = laying->next_visit;
	keep_hand(laying, &move);
	int64_t own = own_cost(laying);
	if (!ashore) {
		move.minor = own;
		add_move(laying, &move);
		return true;
	}
	for (size_t i = 0; i < unit->station_count; i++) {
		if (!unit->open[i * winters + laying->winter]) {
			continue;
		}
		move.station = (int)unit->stations[i];
		move.minor = own + station_cost(laying, unit->stations[i]);
		add_move(laying, &move);
	}
	return true;
}

/* Sets what becomes of the parts when the whole has `whole` done to it, ashore or not; those
 * that ride along get what they need to last up to `until`. */
void
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
			tasks = member_needs(member, laying->from[i], winter, winter + 1);
		} else if (ashore && (!member->inside || whole != 0)) {
			tasks = member_needs(member, laying->from[i], winter, until);
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
 * where there is one station alone, and no price changes with age, it costs no more then. */
static bool
can_wait(
    struct laying *laying, unsigned tasks, size_t until, bool *out, struct fault *fault)
{
	uint32_t all = 0;
	uint32_t some = 0;
	*out = false;
	if (!laying->commits || laying->unit->station_count != 1 ||
	    (tasks & RENEW_BIT) != 0 || tasks == 0 ||
	    laying->unit->members[0].price_varies) {
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

/* True when a part that goes along with the whole may have more done than it needs: its price
 * changes with age, so that it may cost more later. */
static bool
may_be_early(const struct laying *laying, size_t index, bool ashore)
{
	const struct unit *unit = laying->unit;
	const struct member *member = &unit->members[index];
	bool worked_on = ashore && member->rides &&
			 (!member->inside || laying->act[0] != 0) &&
			 (laying->act[index] & RENEW_BIT) == 0;
	return worked_on && member->price_varies;
}

/* The moves for the acts in hand, and for all with more of what parts from `index` on may have
 * done early. As deep as there are such parts. */
static bool
add_early_moves(
    struct laying *laying, size_t index, bool ashore, size_t until, struct fault *fault)
{
	const struct unit *unit = laying->unit;
	while (index < unit->count && !may_be_early(laying, index, ashore)) {
		index++;
	}
	if (index == unit->count) {
		return add_moves(laying, ashore, until, fault);
	}
	unsigned needed = laying->act[index];
	unsigned more = unit->members[index].tasks & ~(needed | RENEW_BIT);
	unsigned early = more;
	bool added = true;
	for (bool last = false; added && !last; early = (early - 1) & more) {
		last = early == 0;
		laying->act[index] = (uint8_t)(needed | early);
		added = add_early_moves(laying, index + 1, ashore, until, fault);
	}
	laying->act[index] = (uint8_t)needed;
	return added;
}

/* One choice for the whole; where the next visit is decided beforehand, with every choice of
 * that. Parts that ride along get just what they need to last until then, to do more sooner
 * saving nothing, but for those whose price changes with age. */
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
		if (!add_early_moves(laying, 1, ashore, until, fault)) {
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
	bool must =
	    (member_fails(whole, laying->from[0], laying->winter) & RENEW_BIT) != 0;
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
	struct course_moves *moves = &laying->moves;
	bool clean = false;
	for (size_t i = 0; i < moves->count; i++) {
		clean = clean || moves->items[i].lapses == 0;
	}
	size_t kept = 0;
	for (size_t i = 0; i < moves->count; i++) {
		if (!clean || moves->items[i].lapses == 0) {
			moves->items[kept++] = moves->items[i];
		}
	}
	moves->count = kept;
}

void
laying_open(struct unit *unit, struct arena *arena, size_t winter, const uint32_t *from,
    struct laying *out)
{
	*out = (struct laying){
	    .unit = unit,
	    .arena = arena,
	    .winter = winter,
	    .from = from,
	    .act = arena_alloc(arena, unit->count),
	    .to = arena_alloc(arena, (unit->count + 1) * sizeof *out->to),
	    .commits = any_rides(unit) || bits_in(unit->members[0].tasks) > 1,
	};
}

bool
laying_moves(struct laying *laying, struct fault *fault)
{
	const struct unit *unit = laying->unit;
	bool there = year_at(unit->make, unit->place, laying->winter)->there;
	if (!(there ? choose_whole(laying, fault) : wait_for_visit(laying, 0, fault))) {
		return false;
	}
	keep_best_moves(laying);
	return true;
}
