/* The prices that the outlook uses for work and for new things: by what is listed,
 * what is supposed, and how old a thing is by then. */
#include "years/outlook_inside.h"

#include <string.h>

/* The supposed price that holds for a task at an age: the one with the greatest
 * `from_years` not above that age; of several such, the last one given. NULL when
 * there is none. */
static const struct outlook_price *
supposed_at(const struct outlook_ask *ask, const char *kind, enum task task, int age)
{
	const struct outlook_price *found = NULL;
	for (size_t i = 0; i < ask->price_count; i++) {
		const struct outlook_price *price = &ask->prices[i];
		if (price->task == task && price->from_years <= age &&
		    strcmp(price->kind, kind) == 0 &&
		    (found == NULL || price->from_years >= found->from_years)) {
			found = price;
		}
	}
	return found;
}

/* A station's price for one piece at a known age: the supposed price if there is
 * one, else the listed one. */
static struct asked_price
listed_at(const struct outlook_ask *ask, const struct item *gear, size_t station,
    enum task task, int age)
{
	const struct outlook_price *supposed = supposed_at(ask, gear->kind, task, age);
	const struct station_price *listed = NULL;
	if (supposed == NULL && station < ask->station_count) {
		listed = station_price(&ask->stations[station], gear->kind, task, age);
	}
	if (listed != NULL) {
		return (struct asked_price){listed->minor, listed->from_years};
	}
	return supposed == NULL
		   ? (struct asked_price){-1, 0}
		   : (struct asked_price){supposed->minor, supposed->from_years};
}

/* The lesser of `next` and the next age above `age` from which a supposed price
 * holds. */
static int
next_supposed_age(const struct outlook_ask *ask, const char *kind, int age, int next)
{
	for (size_t i = 0; i < ask->price_count; i++) {
		const struct outlook_price *price = &ask->prices[i];
		if (price->from_years > age &&
		    (next == AGE_NOT_KNOWN || price->from_years < next) &&
		    strcmp(price->kind, kind) == 0) {
			next = price->from_years;
		}
	}
	return next;
}

/* The least age above one at which what a station lists for work on an item, or what is
 * supposed, may change; AGE_NOT_KNOWN when there is none. */
static int
next_listed_age(const struct outlook_make *make, size_t item, size_t station, int age)
{
	const struct outlook_ask *ask = make->ask;
	const char *kind = ask->engine->inventory->items[item].kind;
	int next = station < ask->station_count
		       ? station_next_age(&ask->stations[station], kind, age)
		       : AGE_NOT_KNOWN;
	return next_supposed_age(ask, kind, age, next);
}

int
next_counted_age(const struct outlook_make *make, size_t item, int age)
{
	int next = next_listed_age(make, item, 0, age);
	for (size_t i = 1; i < make->ask->station_count; i++) {
		int other = next_listed_age(make, item, i, age);
		next = next == AGE_NOT_KNOWN || (other != AGE_NOT_KNOWN && other < next)
			   ? other
			   : next;
	}
	return next;
}

/* The same as listed_at for any age: the dearest where it is not known. */
static struct asked_price
listed_price(const struct outlook_make *make, size_t item, size_t station, enum task task,
    int age_years)
{
	const struct outlook_ask *ask = make->ask;
	const struct item *gear = &ask->engine->inventory->items[item];
	struct asked_price dearest = {-1, 0};
	if (age_years != AGE_NOT_KNOWN) {
		return listed_at(ask, gear, station, task, age_years);
	}
	for (int age = 0; age != AGE_NOT_KNOWN;
	     age = next_listed_age(make, item, station, age)) {
		struct asked_price price = listed_at(ask, gear, station, task, age);
		dearest = price.minor > dearest.minor ? price : dearest;
	}
	return dearest;
}

struct asked_price
task_price(const struct outlook_make *make, size_t item, size_t station, enum task task,
    int age_years)
{
	const struct outlook_ask *ask = make->ask;
	const struct item *gear = &ask->engine->inventory->items[item];
	struct asked_price price = listed_price(make, item, station, task, age_years);
	if (price.minor >= 0) {
		price.minor *= gear->quantity;
	} else if (station < ask->station_count) {
		price = price_asked(&ask->stations[station], gear, task, age_years);
	}
	return price;
}

struct asked_price
counted_price(const struct outlook_make *make, size_t item, size_t station,
    enum task task, int age_years)
{
	const struct outlook_ask *ask = make->ask;
	struct asked_price price = task_price(make, item, station, task, age_years);
	if (price.minor < 0) {
		price.minor = price_highest(ask->stations, ask->station_count,
		    &ask->engine->inventory->items[item], task, age_years);
	}
	return price;
}

bool
member_price_varies(const struct unit *unit, const struct member *member)
{
	const struct outlook_make *make = unit->make;
	size_t item = member->item;
	for (int age = next_counted_age(make, item, 0); age != AGE_NOT_KNOWN;
	     age = next_counted_age(make, item, age)) {
		for (size_t i = 0; i < unit->station_count * TASK_COUNT; i++) {
			size_t station = unit->stations[i / TASK_COUNT];
			enum task task = (enum task)(i % TASK_COUNT);
			if ((member->tasks & TASK_BIT(task)) != 0 &&
			    counted_price(make, item, station, task, age).minor !=
				counted_price(make, item, station, task, 0).minor) {
				return true;
			}
		}
	}
	return false;
}

int64_t
work_price(const struct outlook_make *make, size_t item, size_t station, unsigned tasks,
    int age_years)
{
	int64_t sum = 0;
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		int64_t minor =
		    (tasks & TASK_BIT(task)) == 0
			? 0
			: counted_price(make, item, station, (enum task)task, age_years)
			      .minor;
		sum += GREATER(minor, 0);
	}
	return sum;
}

int64_t
carriage_price(const struct outlook_make *make, size_t item, size_t station)
{
	const struct outlook_ask *ask = make->ask;
	const struct item *gear = &ask->engine->inventory->items[item];
	return station < ask->station_count
		   ? ask->stations[station].carriage_minor * gear->quantity
		   : 0;
}

int64_t
new_price(const struct outlook_make *make, size_t item, bool refit)
{
	const struct item *gear = &make->ask->engine->inventory->items[item];
	const struct outlook_price *supposed =
	    due_refits(make->ask->engine, gear) == refit
		? supposed_at(make->ask, gear->kind, TASK_RENEW, 0)
		: NULL;
	int64_t own = refit ? -1 : gear->price_minor;
	int64_t each = supposed != NULL ? supposed->minor : own;
	return each < 0 ? -1 : each * gear->quantity;
}

/* Adds all prices of a station for a task on an item, each with the age from which it
 * holds. */
static void
add_steps(const struct outlook_make *make, size_t item, size_t station, enum task task,
    struct outlook_steps *steps)
{
	const struct item *gear = &make->ask->engine->inventory->items[item];
	size_t named = station < make->ask->station_count ? station : NO_STATION;
	struct asked_price before = {-2, 0};
	for (size_t i = 0; i < steps->count; i++) {
		const struct outlook_step *step = &steps->items[i];
		if (step->station == named && step->task == task &&
		    strcmp(step->kind, gear->kind) == 0) {
			return; /* they are there already */
		}
	}
	for (int age = 0; age != AGE_NOT_KNOWN;
	     age = next_listed_age(make, item, station, age)) {
		struct asked_price price = listed_price(make, item, station, task, age);
		if (price.minor == before.minor) {
			continue;
		}
		const struct outlook_step step = {
		    named, gear->kind, task, age, price.minor};
		ARENA_ADD(make->keep, steps, step);
		before = price;
	}
}

/* The least age at which a station's price for a task differs from that when new;
 * AGE_NOT_KNOWN for none. */
static int
first_step(const struct outlook_make *make, size_t item, size_t station, enum task task)
{
	int64_t new_minor = listed_price(make, item, station, task, 0).minor;
	int age = next_listed_age(make, item, station, 0);
	while (age != AGE_NOT_KNOWN &&
	       listed_price(make, item, station, task, age).minor == new_minor) {
		age = next_listed_age(make, item, station, age);
	}
	return age;
}

/* The steps of one member's tasks at one station. */
static void
member_ages(const struct unit *unit, const struct member *member, size_t station,
    struct outlook_ages *ages)
{
	const struct outlook_make *make = unit->make;
	const struct item *gear = &make->ask->engine->inventory->items[member->item];
	int oldest = item_age(gear, unit->work[make->ask->winters - 1]);
	struct outlook_ageless *ageless = &ages->ageless;
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		bool planned = (member->tasks & TASK_BIT(task)) != 0;
		int age = planned
			      ? first_step(make, member->item, station, (enum task)task)
			      : AGE_NOT_KNOWN;
		if (age == AGE_NOT_KNOWN || (oldest != AGE_NOT_KNOWN && oldest < age)) {
			continue;
		}
		add_steps(make, member->item, station, (enum task)task, &ages->steps);
		bool told = ageless->count > 0 &&
			    ageless->items[ageless->count - 1] == member->item;
		if (oldest == AGE_NOT_KNOWN && !told) {
			ARENA_ADD(make->keep, ageless, member->item);
		}
	}
}

void
unit_ages(const struct unit *unit, struct outlook_ages *ages)
{
	for (size_t i = 0; i < unit->count; i++) {
		for (size_t k = 0; k < unit->station_count; k++) {
			member_ages(unit, &unit->members[i], unit->stations[k], ages);
		}
	}
}

/* True when a station's price for a task on a member is not known at some age it comes
 * to: its own in the winters, and those of one bought new in them. `counts_out` is the
 * dearest that counts for it. */
static bool
price_missed(const struct unit *unit, const struct member *member, size_t station,
    enum task task, int64_t *counts_out)
{
	const struct outlook_make *make = unit->make;
	size_t winters = make->ask->winters;
	const struct item *gear = &make->ask->engine->inventory->items[member->item];
	bool missed = false;
	*counts_out = -1;
	for (size_t i = 0; i < 2 * winters; i++) {
		int age =
		    i < winters ? item_age(gear, unit->work[i]) : (int)(i - winters);
		if (task_price(make, member->item, station, task, age).minor < 0) {
			int64_t minor =
			    counted_price(make, member->item, station, task, age).minor;
			*counts_out = GREATER(minor, *counts_out);
			missed = true;
		}
	}
	return missed;
}

/* True when a unit may be handed in at its station in some winter. */
static bool
ever_open(const struct unit *unit, size_t at)
{
	size_t winters = unit->make->ask->winters;
	return memchr(&unit->open[at * winters], 1, winters) != NULL;
}

/* Adds one unless it is there already. */
static void
add_unknown(struct arena *arena, struct outlook_unknowns *unknowns,
    const struct outlook_unknown *unknown)
{
	for (size_t i = 0; i < unknowns->count; i++) {
		const struct outlook_unknown *other = &unknowns->items[i];
		if (other->station == unknown->station && other->task == unknown->task &&
		    other->refit == unknown->refit &&
		    strcmp(other->kind, unknown->kind) == 0) {
			return;
		}
	}
	ARENA_ADD(arena, unknowns, *unknown);
}

void
unit_unknowns(const struct unit *unit, struct outlook_unknowns *unknowns)
{
	const struct outlook_ask *ask = unit->make->ask;
	struct arena *arena = unit->make->keep;
	const struct item *items = ask->engine->inventory->items;
	const struct member *whole = &unit->members[0];
	struct outlook_unknown bought = {
	    NO_STATION, items[whole->item].kind, TASK_RENEW, false, -1};
	for (size_t i = 0; i < unit->count * unit->station_count * TASK_COUNT; i++) {
		const struct member *member =
		    &unit->members[i / TASK_COUNT / unit->station_count];
		size_t at = i / TASK_COUNT % unit->station_count;
		enum task task = (enum task)(i % TASK_COUNT);
		size_t station = unit->stations[at];
		struct outlook_unknown unknown = {
		    station < ask->station_count ? station : NO_STATION,
		    items[member->item].kind, task, task == TASK_RENEW, -1};
		if ((member->tasks & TASK_BIT(task)) != 0 && ever_open(unit, at) &&
		    price_missed(unit, member, station, task, &unknown.minor)) {
			add_unknown(arena, unknowns, &unknown);
		}
	}
	if (whole->tasks != 0 && whole->new_minor < 0) {
		add_unknown(arena, unknowns, &bought);
	}
}
