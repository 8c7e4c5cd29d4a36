/* The choices there are in one state of a unit. */
#include "years/moves_inside.h"

#include <string.h>

/* The lives that a reference points into. */
static const struct lives *
lives_of(const struct member *member, uint32_t ref)
{
	return (ref & 1U) != 0 ? member->heirs : &member->own;
}

unsigned
member_fails(const struct member *member, uint32_t ref, size_t winter)
{
	return lives_of(member, ref)->items[ref >> 1].fails[winter] &
	       (member->tasks | RENEW_BIT);
}

uint32_t
member_after(struct member *member, uint32_t ref, size_t winter, unsigned acts)
{
	if ((acts & ANOTHER_BIT) != 0) {
		return (uint32_t)lives_begin(member->heirs, (int)winter) << 1 | 1U;
	}
	struct lives *lives = (ref & 1U) != 0 ? member->heirs : &member->own;
	size_t next = lives_after(lives, ref >> 1, winter, acts);
	return (uint32_t)next << 1 | (ref & 1U);
}

unsigned
owners_refit(const struct member *member)
{
	bool owners = member->refits && !member->renew_ashore && !member->inside;
	return owners ? RENEW_BIT : 0;
}

unsigned
member_needs(const struct member *member, uint32_t ref, size_t winter, size_t until)
{
	unsigned tasks = 0;
	unsigned waits = 0;
	for (size_t season = winter; season < until; season++) {
		tasks |= member_fails(member, ref, season) & ~waits;
		waits = owners_refit(member);
	}
	return (tasks & RENEW_BIT) != 0 && !member->refits ? ANOTHER_BIT : tasks;
}

/* True when a member is bought new in a move, and not with the whole. */
static bool
is_bought(const struct laying *laying, size_t index)
{
	return (laying->act[index] & ANOTHER_BIT) != 0 &&
	       (index == 0 || (laying->act[0] & ANOTHER_BIT) == 0);
}

/* How much work a move is, to choose among ways that cost the same: first the fewest
 * renewals and refits, then the latest ones (what is new later lasts longer beyond the
 * last winter); then the least work at stations, a test being more than a service; then
 * the latest. */
static uint32_t
work_of(const struct laying *laying)
{
	static const uint32_t WEIGHTS[TASK_COUNT] = {
	    [TASK_SERVICE] = 2, [TASK_INSPECT] = 1, [TASK_WEIGH] = 1, [TASK_TEST] = 5};
	uint32_t winter = (uint32_t)laying->winter;
	uint32_t sum = 0;
	for (size_t i = 0; i < laying->unit->count; i++) {
		bool renewed = is_bought(laying, i) || (laying->act[i] & RENEW_BIT) != 0;
		sum += renewed ? 6400 * (2 * OUTLOOK_WINTERS_MOST + 1 - winter) : 0;
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

int64_t
own_cost(const struct laying *laying)
{
	int64_t sum = 0;
	for (size_t i = 0; i < laying->unit->count; i++) {
		const struct member *member = &laying->unit->members[i];
		bool refit = (laying->act[i] & RENEW_BIT) != 0 && !member->renew_ashore;
		sum += is_bought(laying, i) ? GREATER(member->new_minor, 0) : 0;
		sum += refit ? GREATER(member->refit_minor, 0) : 0;
	}
	return sum;
}

int64_t
station_cost(const struct laying *laying, size_t station)
{
	const struct unit *unit = laying->unit;
	int64_t sum = 0;
	for (size_t i = 0; i < unit->count; i++) {
		const struct member *member = &unit->members[i];
		unsigned tasks = laying->act[i] & member->tasks;
		if (tasks != 0) {
			/* its age on the day of the winter's work, before that work */
			const struct lives *lives = lives_of(member, laying->from[i]);
			int age = lives_age(lives, &lives->items[laying->from[i] >> 1],
			    unit->work[laying->winter]);
			sum += work_price(unit->make, member->item, station, tasks, age);
		}
	}
	return sum + carriage_price(unit->make, unit->members[0].item, station);
}

/* Counts what lapses in the seasons for which a move is responsible: for the whole
 * and the parts that ride along those up to the next visit, for other parts the
 * coming one only. */
static uint32_t
lapses_until(const struct laying *laying, size_t member, size_t until)
{
	const struct member *own = &laying->unit->members[member];
	size_t end = member == 0 || own->rides ? until : laying->winter + 1;
	int lapses = 0;
	unsigned waits = 0;
	for (size_t season = laying->winter; season < end; season++) {
		lapses += bits_in(member_fails(own, laying->to[member], season) & ~waits);
		waits = owners_refit(own);
	}
	return (uint32_t)lapses;
}

/* Copies the state and the acts in hand for the moves that are made of them. */
static void
keep_hand(const struct laying *laying, struct course_move *move)
{
	size_t members = laying->unit->count;
	size_t size = members + 1; /* of a state: behind the lives, the next visit */
	uint32_t *to = ARENA_MANY(laying->arena, uint32_t, size);
	uint8_t *acts = arena_alloc(laying->arena, members);
	memcpy(to, laying->to, size * sizeof *to);
	memcpy(acts, laying->act, members);
	move->to = to;
	move->acts = acts;
}

/* Adds the moves for the acts in hand: one for each station they may be done at, or one
 * without a trip. */
static void
add_moves(struct laying *laying, bool ashore, size_t until)
{
	struct unit *unit = laying->unit;
	size_t winters = unit->make->ask->winters;
	struct course_move move = {.station = ARC_NO_TRIP, .work = work_of(laying)};
	for (size_t i = 0; i < unit->count; i++) {
		laying->to[i] = member_after(
		    &unit->members[i], laying->from[i], laying->winter, laying->act[i]);
		move.lapses += lapses_until(laying, i, until);
		move.soon += lapses_until(laying, i, LESSER(until, laying->winter + 1));
	}
	laying->to[unit->count] = laying->next_visit;
	keep_hand(laying, &move);
	move.minor = own_cost(laying);
	if (!ashore) {
		ARRAY_ADD(&laying->moves, move);
		return;
	}
	int64_t own = move.minor;
	for (size_t i = 0; i < unit->station_count; i++) {
		if (unit->open[i * winters + laying->winter]) {
			move.station = (int)unit->stations[i];
			move.minor = own + station_cost(laying, unit->stations[i]);
			ARRAY_ADD(&laying->moves, move);
		}
	}
}

unsigned
with_refit(const struct laying *laying, size_t index, unsigned acts)
{
	const struct member *member = &laying->unit->members[index];
	unsigned due = member_fails(member, laying->from[index], laying->winter);
	return (acts & ANOTHER_BIT) != 0 ? acts : acts | (due & owners_refit(member));
}

void
fill_parts(struct laying *laying, unsigned whole, bool ashore, size_t until)
{
	const struct unit *unit = laying->unit;
	size_t winter = laying->winter;
	laying->act[0] = (uint8_t)with_refit(laying, 0, whole);
	for (size_t i = 1; i < unit->count; i++) {
		const struct member *member = &unit->members[i];
		unsigned tasks = 0;
		if ((laying->act[member->parent] & ANOTHER_BIT) != 0) {
			tasks = ANOTHER_BIT; /* a new one brings new parts */
		} else if (!member->rides) {
			tasks = member_needs(member, laying->from[i], winter, winter + 1);
		} else if (ashore && (!member->inside || whole != 0)) {
			tasks = member_needs(member, laying->from[i], winter, until);
		}
		bool at_once = winter == laying->unit->make->first_there[unit->place] &&
			       member->item == unit->make->ask->renew_now;
		laying->act[i] =
		    (uint8_t)(at_once ? ANOTHER_BIT : with_refit(laying, i, tasks));
	}
}

/* What lapses of the whole up to the next visit when `tasks` are done to it. */
static uint32_t
whole_lapses(struct laying *laying, unsigned tasks, size_t until)
{
	laying->to[0] = member_after(&laying->unit->members[0], laying->from[0],
	    laying->winter, with_refit(laying, 0, tasks));
	return lapses_until(laying, 0, until);
}

/* Whether fewer of the tasks do as well up to the next visit. Then the others wait:
 * where there is only one station, and no price changes with age, they cost no more
 * later. */
static bool
can_wait(struct laying *laying, unsigned tasks, size_t until)
{
	bool waits = false;
	if (!laying->commits || laying->unit->station_count != 1 ||
	    (tasks & ANOTHER_BIT) != 0 || tasks == 0 ||
	    laying->unit->members[0].price_varies) {
		return false;
	}
	uint32_t all = whole_lapses(laying, tasks, until);
	for (unsigned part = (tasks - 1) & tasks; part != 0 && !waits;
	     part = (part - 1) & tasks) {
		waits = whole_lapses(laying, part, until) <= all;
	}
	return waits;
}

/* True when a part that goes along with the whole may have more done than it needs:
 * its price changes with age, so that it may cost more later. */
static bool
may_be_early(const struct laying *laying, size_t index, bool ashore)
{
	const struct member *member = &laying->unit->members[index];
	bool opened = (laying->act[0] & laying->unit->members[0].tasks) != 0;
	return ashore && member->rides && member->price_varies &&
	       (!member->inside || opened) && (laying->act[index] & ANOTHER_BIT) == 0;
}

/* Adds the moves for the acts in hand, and for every choice of more work that parts
 * from `index` on may have done early. The recursion is as deep as there are such
 * parts. */
static void
add_early_moves(struct laying *laying, size_t index, bool ashore, size_t until)
{
	const struct unit *unit = laying->unit;
	while (index < unit->count && !may_be_early(laying, index, ashore)) {
		index++;
	}
	if (index == unit->count) {
		add_moves(laying, ashore, until);
		return;
	}
	unsigned needed = laying->act[index];
	unsigned more = unit->members[index].tasks & ~needed;
	unsigned early = more;
	for (bool last = false; !last; early = (early - 1) & more) {
		last = early == 0;
		laying->act[index] = (uint8_t)(needed | early);
		add_early_moves(laying, index + 1, ashore, until);
	}
	laying->act[index] = (uint8_t)needed;
}

/* Adds the moves of one choice for the whole; where the next visit is decided
 * beforehand, with every choice of that. Parts that ride along get only what they
 * need to last until then, because doing more sooner saves nothing; parts whose
 * price changes with age may get more. */
static void
choose_parts(struct laying *laying, unsigned whole, bool ashore)
{
	size_t next = laying->winter + 1;
	size_t last = laying->commits ? laying->unit->make->ask->winters : next;
	for (size_t until = next; until <= last; until++) {
		if (!can_wait(laying, whole, until)) {
			laying->next_visit = laying->commits ? (uint32_t)until : 0;
			fill_parts(laying, whole, ashore, until);
			add_early_moves(laying, 1, ashore, until);
		}
	}
}

/* A winter before the one decided on: nothing goes ashore. */
static void
wait_for_visit(struct laying *laying, uint32_t visit)
{
	laying->next_visit = visit;
	fill_parts(laying, 0, false, laying->winter);
	add_moves(laying, false, laying->winter);
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
static void
choose_whole(struct laying *laying)
{
	const struct unit *unit = laying->unit;
	const struct member *whole = &unit->members[0];
	uint32_t visit = laying->from[unit->count];
	bool open = any_station_open(unit, laying->winter);
	bool now = whole->item == unit->make->ask->renew_now &&
		   laying->winter == unit->make->first_there[unit->place];
	bool must =
	    (member_fails(whole, laying->from[0], laying->winter) & RENEW_BIT) != 0 &&
	    !whole->refits;
	/* another is also allowed where the price of a new one is known and station
	 * work can be saved */
	bool may = must || (whole->new_minor >= 0 && whole->tasks != 0);
	bool ashore = whole->renew_ashore && !whole->refits;
	bool renewable = (may || now) && (open || !ashore);
	bool goes = open && (whole->tasks != 0 || any_rides(unit));
	if (visit > laying->winter) {
		wait_for_visit(laying, visit);
		return;
	}
	if (!now && (visit == 0 || !(goes || renewable))) {
		choose_parts(laying, 0, false);
	}
	if (goes && !now && any_rides(unit)) {
		choose_parts(laying, 0, true);
	}
	for (unsigned tasks = whole->tasks; tasks != 0 && goes && !now;
	     tasks = (tasks - 1) & whole->tasks) {
		choose_parts(laying, tasks, true);
	}
	if (renewable) {
		choose_parts(laying, ANOTHER_BIT, ashore);
	}
}

/* True when in some later winter no station takes the unit in. */
static bool
shut_later(const struct laying *laying)
{
	const struct unit *unit = laying->unit;
	size_t winter = laying->winter + 1;
	while (winter < unit->make->ask->winters && any_station_open(unit, winter)) {
		winter++;
	}
	return winter < unit->make->ask->winters;
}

/* Where some moves out of a state let nothing lapse, drops those that do: doing more
 * never makes anything lapse sooner, so what could be kept in date now is. What would
 * lapse in a later season counts where it can still be seen to before. */
static void
keep_best_moves(struct laying *laying)
{
	struct course_moves *moves = &laying->moves;
	bool later = !shut_later(laying);
	bool clean = false;
	size_t kept = 0;
	for (size_t i = 0; i < moves->count; i++) {
		const struct course_move *move = &moves->items[i];
		clean = clean || (later ? move->lapses : move->soon) == 0;
	}
	for (size_t i = 0; i < moves->count; i++) {
		const struct course_move *move = &moves->items[i];
		if (!clean || (later ? move->lapses : move->soon) == 0) {
			moves->items[kept++] = *move;
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

void
laying_moves(struct laying *laying)
{
	const struct unit *unit = laying->unit;
	if (year_at(unit->make, unit->place, laying->winter)->there) {
		choose_whole(laying);
	} else {
		wait_for_visit(laying, 0);
	}
	keep_best_moves(laying);
}
