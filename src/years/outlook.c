/* Makes the outlook: units, their courses, the cheapest plan, and what it says in
 * words of the trade. */
#include "years/outlook_inside.h"

#include <stdlib.h>

/* The units of one outlook. */
struct units {
	struct unit *items; /* owned */
	size_t count;
	size_t capacity;
};

/* A plan being put into words. */
struct outlook_telling {
	struct outlook_make *make;
	const struct courses_answer *answer;
	struct outlook *out;
	struct arena *records; /* of the unit being told */

	/* in the arena of the plan */
	struct outlook_lines {
		struct outlook_line *items;
		size_t count;
		size_t capacity;
	} lines;

	struct outlook_gaps {
		struct outlook_gap *items;
		size_t count;
		size_t capacity;
	} gaps;

	struct outlook_ages ages;
	struct outlook_unknowns unknowns;
};

static bool
make_units(struct outlook_make *make, struct units *units, struct fault *fault)
{
	const struct outlook_ask *ask = make->ask;
	const struct inventory *inventory = ask->engine->inventory;
	SCOPED_ARENA arena = {0};
	bool made = true;
	for (size_t i = 0; i < ask->vessel_count && made; i++) {
		size_t count = 0;
		make->place = i;
		size_t first = inventory_aboard(inventory, ask->vessels[i], &count);
		for (size_t item = first; item < first + count && made; item++) {
			if (!is_whole(inventory, item)) {
				continue;
			}
			ARRAY_ROOM(units);
			made = unit_make(
			    make, item, &arena, &units->items[units->count], fault);
			units->count += made ? 1 : 0;
			arena_reset(&arena);
		}
	}
	return made;
}

/* Solves the units' courses together. */
static bool
solve(struct outlook_make *make, const struct units *units, struct courses_answer *out,
    struct fault *fault)
{
	const struct outlook_ask *ask = make->ask;
	size_t stations = ask->station_count + 1;
	int64_t *trips = ARENA_MANY(make->arena, int64_t, stations);
	struct course *courses = ARENA_MANY(make->arena, struct course, units->count);
	for (size_t i = 0; i < ask->station_count; i++) {
		trips[i] = ask->stations[i].trip_minor;
	}
	for (size_t i = 0; i < units->count; i++) {
		courses[i] = units->items[i].course;
	}
	const struct courses_problem problem = {
	    ask->winters, stations, trips, courses, units->count};
	return courses_solve(&problem, ask->most_looks, make->arena, out, fault);
}

/* What is done to a member in a winter, put on its record; what the owner must do
 * beside it is found by asking the engine. */
struct doing {
	struct unit *unit;
	struct member *member;
	struct lives *lives; /* of the thing it is by now */
	struct life *life;
	size_t winter;
	size_t station;  /* gone to; NO_STATION */
	bool with_whole; /* the whole is renewed, and this with it */
};

static void
add_line(struct outlook_telling *telling, const struct doing *doing, enum task task,
    enum doer doer, struct asked_price price, bool supposed)
{
	const struct outlook_line line = {.item = doing->member->item,
	    .task = task,
	    .refit =
		task == TASK_RENEW && doing->life->done[TASK_RENEW] >> doing->winter != 0,
	    .winter = doing->winter,
	    .station = doer == DOER_STATION ? doing->station : NO_STATION,
	    .doer = doer,
	    .minor = price.minor,
	    .from_years = price.from_years,
	    .supposed = supposed,
	    .by = doing->unit->work[doing->winter]};
	ARENA_ADD(telling->make->keep, &telling->lines, line);
	telling->out->unpriced += price.minor < 0;
	telling->out->supposed += supposed;
}

/* Adds the line of a task a station does, on a thing as old as it is by then. */
static void
add_work_line(struct outlook_telling *telling, const struct doing *doing, enum task task)
{
	const struct outlook_make *make = telling->make;
	size_t item = doing->member->item;
	int age = lives_age(doing->lives, doing->life, doing->unit->work[doing->winter]);
	struct asked_price price = counted_price(make, item, doing->station, task, age);
	bool known = task_price(make, item, doing->station, task, age).minor >= 0;
	add_line(telling, doing, task, DOER_STATION, price, price.minor >= 0 && !known);
}

/* The planned acts of a member: its record goes on, or a new thing takes its place. */
static void
do_acts(struct outlook_telling *telling, struct doing *doing, unsigned acts)
{
	struct member *member = doing->member;
	const struct asked_price bought = {.minor = member->new_minor};
	const struct asked_price refitted = {.minor = member->refit_minor};
	if ((acts & ANOTHER_BIT) != 0) {
		bool ashore = member->renew_ashore && !member->refits;
		doing->lives = member->heirs;
		*doing->life = (struct life){.born = (int)doing->winter};
		if (!doing->with_whole) {
			add_line(telling, doing, TASK_RENEW,
			    ashore ? DOER_STATION : DOER_OWNER, bought, false);
		}
		return;
	}
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		bool own = task == TASK_RENEW && !member->renew_ashore;
		if ((acts & TASK_BIT(task)) == 0) {
			continue;
		}
		doing->life->done[task] |= 1U << doing->winter;
		if (own) {
			add_line(telling, doing, TASK_RENEW, DOER_OWNER, refitted, false);
		} else {
			add_work_line(telling, doing, (enum task)task);
		}
	}
}

/* The tasks of a member that fail in the season after a winter, as its record stands;
 * those that are paperwork are in `*paper_out`, too. */
static unsigned
ask_fails(struct outlook_telling *telling, const struct doing *doing, unsigned *paper_out)
{
	struct outlook_make *make = telling->make;
	size_t item = doing->member->item;
	struct span season = year_at(make, doing->unit->place, doing->winter)->season;
	struct obligation *obligations = NULL;
	size_t count = 0;
	unsigned fails = 0;
	lives_item(doing->lives, doing->life, telling->records, &make->items[item]);
	due_of_item(&make->together, item, doing->unit->work[doing->winter],
	    make->scratch, &obligations, &count);
	*paper_out = 0;
	for (size_t i = 0; i < count; i++) {
		const struct obligation *obligation = &obligations[i];
		if (!obligation->routine &&
		    obligation_fails_in(obligation, season, make->ask->least)) {
			unsigned bit = TASK_BIT(obligation->task);
			fails |= bit;
			*paper_out |= obligation->doer == DOER_AUTHORITY ? bit : 0;
		}
	}
	return fails;
}

/* The owner's own work that a winter asks of a member, and what lapses all the same. */
static void
do_own_work(struct outlook_telling *telling, struct doing *doing)
{
	const struct member *member = doing->member;
	const struct asked_price nothing = {0, 0};
	unsigned paper = 0;
	unsigned fails = ask_fails(telling, doing, &paper);
	unsigned own = fails & ~(member->tasks | RENEW_BIT);
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		if ((own & TASK_BIT(task)) != 0) {
			bool papers =
			    (paper & TASK_BIT(task)) != 0 || task == TASK_REGISTER;
			doing->life->done[task] |= 1U << doing->winter;
			add_line(telling, doing, (enum task)task,
			    papers ? DOER_AUTHORITY : DOER_OWNER, nothing, false);
		}
	}
	fails = own == 0 ? fails : ask_fails(telling, doing, &paper);
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		if ((fails & TASK_BIT(task)) != 0) {
			const struct outlook_gap gap = {
			    member->item, (enum task)task, doing->winter};
			ARENA_ADD(telling->make->keep, &telling->gaps, gap);
		}
	}
}

/* Puts what carrying a unit to a station costs on the first line that leads there, of
 * those from `first` on. */
static void
add_carriage(struct outlook_telling *telling, const struct unit *unit, size_t station,
    size_t first)
{
	const struct outlook_make *make = telling->make;
	for (size_t i = first;
	     i < telling->lines.count && station < make->ask->station_count; i++) {
		struct outlook_line *line = &telling->lines.items[i];
		if (line->station == station) {
			line->carriage_minor =
			    carriage_price(make, unit->members[0].item, station);
			return;
		}
	}
}

/* Parts are handled before the whole, because what binds the whole depends on their
 * state by then. */
static void
tell_winter(struct outlook_telling *telling, struct unit *unit, struct lives **lives,
    struct life *life, size_t course, size_t winter)
{
	struct outlook_make *make = telling->make;
	size_t winters = make->ask->winters;
	size_t arc = telling->answer->taken[course * winters + winter];
	const uint8_t *acts = &unit->acts[arc * unit->count];
	int station = unit->course.arcs[arc].station;
	bool there = year_at(make, unit->place, winter)->there;
	size_t first_line = telling->lines.count;
	size_t at = station == ARC_NO_TRIP || (size_t)station == assumed_station(make)
			? NO_STATION
			: (size_t)station;
	for (size_t i = unit->count; i > 0 && there; i--) {
		struct member *member = &unit->members[i - 1];
		struct doing doing = {
		    .unit = unit,
		    .member = member,
		    .lives = lives[i - 1],
		    .life = &life[i - 1],
		    .winter = winter,
		    .station = at,
		    .with_whole = i > 1 && (acts[member->parent] & ANOTHER_BIT) != 0,
		};
		do_acts(telling, &doing, acts[i - 1]);
		do_own_work(telling, &doing);
		lives[i - 1] = doing.lives;
		arena_reset(make->scratch);
	}
	add_carriage(telling, unit, at, first_line);
}

/* Tells one unit's years. Its items are put back as they are in the book. */
static void
tell_unit(struct outlook_telling *telling, struct unit *unit, size_t course)
{
	struct outlook_make *make = telling->make;
	struct arena arena = {0};
	struct lives **lives = arena_alloc(&arena, unit->count * sizeof(struct lives *));
	struct life *life = ARENA_MANY(&arena, struct life, unit->count);
	for (size_t i = 0; i < unit->count; i++) {
		lives[i] = &unit->members[i].own;
		life[i].born = -1;
	}
	telling->records = &arena;
	for (size_t winter = 0; winter < make->ask->winters; winter++) {
		tell_winter(telling, unit, lives, life, course, winter);
	}
	for (size_t i = 0; i < unit->count; i++) {
		size_t item = unit->members[i].item;
		make->items[item] = make->ask->engine->inventory->items[item];
	}
	telling->records = NULL;
	arena_clear(&arena);
}

static int
compare_lines(const void *left, const void *right)
{
	const struct outlook_line *a = left;
	const struct outlook_line *b = right;
	int order = ORDER_THEN(ORDER(a->winter, b->winter), a->item, b->item);
	return ORDER_THEN(order, a->task, b->task);
}

static int
compare_gaps(const void *left, const void *right)
{
	const struct outlook_gap *a = left;
	const struct outlook_gap *b = right;
	int order = ORDER_THEN(ORDER(a->winter, b->winter), a->item, b->item);
	return ORDER_THEN(order, a->task, b->task);
}

/* The trips, by winter and station. */
static void
tell_trips(struct outlook_telling *telling)
{
	const struct outlook_ask *ask = telling->make->ask;
	struct outlook *out = telling->out;
	out->trips = arena_alloc(telling->make->keep,
	    (ask->station_count * ask->winters + 1) * sizeof *out->trips);
	for (size_t winter = 0; winter < ask->winters; winter++) {
		for (size_t i = 0; i < ask->station_count; i++) {
			if (telling->answer->trips[i * ask->winters + winter]) {
				out->trips[out->trip_count++] = (struct outlook_trip){
				    winter, i, ask->stations[i].trip_minor};
			}
		}
	}
}

/* What doing each thing only when it is due would cost: the units' own, and every trip
 * that leads to. */
static void
sum_when_due(struct outlook_telling *telling, const struct units *units)
{
	const struct outlook_ask *ask = telling->make->ask;
	bool *gone =
	    arena_alloc(telling->make->arena, ask->station_count * ask->winters + 1);
	for (size_t i = 0; i < units->count; i++) {
		const struct unit *unit = &units->items[i];
		telling->out->when_due_minor += unit->when_due_minor;
		for (size_t winter = 0; winter < ask->winters; winter++) {
			size_t station = unit->when_due[winter];
			size_t at = station * ask->winters + winter;
			if (station < ask->station_count && !gone[at]) {
				gone[at] = true;
				telling->out->when_due_minor +=
				    ask->stations[station].trip_minor;
			}
		}
	}
}

/* Puts what was told of the units in order. */
static void
keep_told(struct outlook_telling *telling)
{
	struct outlook *out = telling->out;
	out->lines = telling->lines.items;
	out->line_count = telling->lines.count;
	out->gaps = telling->gaps.items;
	out->gap_count = telling->gaps.count;
	out->steps = telling->ages.steps.items;
	out->step_count = telling->ages.steps.count;
	out->ageless = telling->ages.ageless.items;
	out->ageless_count = telling->ages.ageless.count;
	out->unknowns = telling->unknowns.items;
	out->unknown_count = telling->unknowns.count;
	ARRAY_SORT(out->lines, out->line_count, compare_lines);
	ARRAY_SORT(out->gaps, out->gap_count, compare_gaps);
}

static void
tell(struct outlook_telling *telling, struct units *units)
{
	for (size_t i = 0; i < units->count; i++) {
		telling->out->items += units->items[i].count;
		tell_unit(telling, &units->items[i], i);
		unit_ages(&units->items[i], &telling->ages);
		unit_unknowns(&units->items[i], &telling->unknowns);
	}
	tell_trips(telling);
	sum_when_due(telling, units);
	keep_told(telling);
}

/* The engines over the items that can be changed. */
static void
open_engines(struct outlook_make *make)
{
	make->items = make->ask->copy;
	make->inventory = *make->ask->engine->inventory;
	make->inventory.items = make->items;
	make->together = *make->ask->engine;
	make->together.inventory = &make->inventory;
	make->apart = make->together;
	make->apart.first_part = NULL;
	make->apart.next_part = NULL;
}

/* Lowers what is claimed as proven where states were left out: a unit that was cut
 * may have a cheaper way. */
static void
tell_proof(
    const struct units *units, const struct courses_answer *answer, struct outlook *out)
{
	out->minor = answer->minor;
	out->bound = answer->bound;
	out->proven = answer->proven;
	for (size_t i = 0; i < units->count; i++) {
		const struct unit *unit = &units->items[i];
		for (size_t winter = 0; winter < out->winters && unit->cut; winter++) {
			size_t arc = answer->taken[i * out->winters + winter];
			out->bound -= unit->course.arcs[arc].minor;
		}
		out->proven = out->proven && !unit->cut;
	}
	out->bound = GREATER(out->bound, 0);
}

bool
outlook_make(const struct outlook_ask *ask, struct arena *arena, struct outlook *out,
    struct fault *fault)
{
	SCOPED_ARENA scratch = {0};
	SCOPED_ARENA work = {0};
	struct units units = {0};
	struct courses_answer answer = {0};
	struct outlook outlook = {.winters = ask->winters};
	struct outlook_make make = {
	    .ask = ask, .arena = &work, .keep = arena, .scratch = &scratch};
	struct outlook_telling telling = {
	    .make = &make, .answer = &answer, .out = &outlook};
	open_engines(&make);
	outlook_years(&make);
	bool made =
	    make_units(&make, &units, fault) && solve(&make, &units, &answer, fault);
	if (made) {
		outlook.first_year = make.first_year;
		outlook.assumed = make.assumed;
		tell_proof(&units, &answer, &outlook);
		tell(&telling, &units);
		for (size_t i = 0; i < ask->vessel_count; i++) {
			outlook.all_year =
			    outlook.all_year || make.years[i * ask->winters].all_year;
		}
		*out = outlook;
	}
	shelf_clear_lives(make.shelf);
	free(units.items);
	return made;
}
