/* What the outlook reckons with for work and for new things, by what is listed, what is
 * supposed, and how old a thing is by then. */
#include "winter/outlook_make.h"

#include <string.h>

/* The price supposed for a task that holds at an age: that from the greatest age, of those
 * the one given last. NULL when there is none. */
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

/* What a station asks for one piece at an age that is known: what is supposed, else by its
 * list. */
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

int
next_price_age(const struct outlook_make *make, size_t item, size_t station, int age)
{
	const struct outlook_ask *ask = make->ask;
	const struct item *gear = &ask->engine->inventory->items[item];
	int next = station < ask->station_count
		       ? station_next_age(&ask->stations[station], gear->kind, age)
		       : AGE_NOT_KNOWN;
	for (size_t i = 0; i < ask->price_count; i++) {
		const struct outlook_price *price = &ask->prices[i];
		if (price->from_years > age &&
		    (next == AGE_NOT_KNOWN || price->from_years < next) &&
		    strcmp(price->kind, gear->kind) == 0) {
			next = price->from_years;
		}
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
	     age = next_price_age(make, item, station, age)) {
		struct asked_price price = listed_at(ask, gear, station, task, age);
		dearest = price.minor > dearest.minor ? price : dearest;
	}
	return dearest;
}

/* What was paid for a task on an item last; -1 when that is not on record. */
static int64_t
paid_last(const struct item *gear, enum task task)
{
	for (size_t i = gear->record_count; i > 0; i--) {
		const struct record *record = &gear->records[i - 1];
		if (record->task == task && record->price_minor >= 0) {
			return record->price_minor;
		}
	}
	return -1;
}

struct asked_price
task_price(const struct outlook_make *make, size_t item, size_t station, enum task task,
    int age_years)
{
	const struct item *gear = &make->ask->engine->inventory->items[item];
	struct asked_price price = listed_price(make, item, station, task, age_years);
	if (price.minor >= 0) {
		price.minor *= gear->quantity;
		return price;
	}
	return (struct asked_price){paid_last(gear, task), 0};
}

bool
task_price_varies(
    const struct outlook_make *make, size_t item, size_t station, unsigned tasks)
{
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		if ((tasks & TASK_BIT(task)) == 0) {
			continue;
		}
		int64_t first = task_price(make, item, station, (enum task)task, 0).minor;
		for (int age = next_price_age(make, item, station, 0);
		     age != AGE_NOT_KNOWN;
		     age = next_price_age(make, item, station, age)) {
			if (task_price(make, item, station, (enum task)task, age).minor !=
			    first) {
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
		struct asked_price price = {0, 0};
		if ((tasks & TASK_BIT(task)) != 0) {
			price =
			    task_price(make, item, station, (enum task)task, age_years);
		}
		sum += price.minor > 0 ? price.minor : 0;
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
new_price(const struct outlook_make *make, size_t item)
{
	const struct item *gear = &make->ask->engine->inventory->items[item];
	const struct outlook_price *supposed =
	    supposed_at(make->ask, gear->kind, TASK_RENEW, 0);
	int64_t each = supposed != NULL ? supposed->minor : gear->price_minor;
	return each < 0 ? -1 : each * gear->quantity;
}

static bool
has_steps(
    const struct outlook_steps *steps, size_t station, const char *kind, enum task task)
{
	bool has = false;
	for (size_t i = 0; i < steps->count && !has; i++) {
		const struct outlook_step *step = &steps->items[i];
		has = step->station == station && step->task == task &&
		      strcmp(step->kind, kind) == 0;
	}
	return has;
}

/* Adds all prices of a station for a task on an item, each with the age from which it holds. */
static bool
add_steps(const struct outlook_make *make, size_t item, size_t station, enum task task,
    struct outlook_steps *steps, struct fault *fault)
{
	const struct item *gear = &make->ask->engine->inventory->items[item];
	size_t named = station < make->ask->station_count ? station : NO_STATION;
	struct asked_price before = {-2, 0};
	if (has_steps(steps, named, gear->kind, task)) {
		return true;
	}
	for (int age = 0; age != AGE_NOT_KNOWN;
	     age = next_price_age(make, item, station, age)) {
		struct asked_price price = listed_price(make, item, station, task, age);
		if (price.minor == before.minor) {
			continue;
		}
		if (!ARRAY_ROOM(steps, fault)) {
			return false;
		}
		steps->items[steps->count++] =
		    (struct outlook_step){named, gear->kind, task, age, price.minor};
		before = price;
	}
	return true;
}

/* The least age at which a station asks for a task other than when new; AGE_NOT_KNOWN for
 * none. */
static int
first_step(const struct outlook_make *make, size_t item, size_t station, enum task task)
{
	int64_t new_minor = listed_price(make, item, station, task, 0).minor;
	int age = next_price_age(make, item, station, 0);
	while (age != AGE_NOT_KNOWN &&
	       listed_price(make, item, station, task, age).minor == new_minor) {
		age = next_price_age(make, item, station, age);
	}
	return age;
}

/* The steps of one member's tasks at one station. */
static bool
member_ages(const struct unit *unit, const struct member *member, size_t station,
    struct outlook_ages *ages, struct fault *fault)
{
	const struct outlook_make *make = unit->make;
	const struct item *gear = &make->ask->engine->inventory->items[member->item];
	int oldest = item_age(gear, unit->work[make->ask->winters - 1]);
	struct outlook_ageless *ageless = &ages->ageless;
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		bool planned = (member->tasks & ~RENEW_BIT & TASK_BIT(task)) != 0;
		int age = planned
			      ? first_step(make, member->item, station, (enum task)task)
			      : AGE_NOT_KNOWN;
		if (age == AGE_NOT_KNOWN || (oldest != AGE_NOT_KNOWN && oldest < age)) {
			continue;
		}
		if (!add_steps(make, member->item, station, (enum task)task, &ages->steps,
			fault)) {
			return false;
		}
		bool told = ageless->count > 0 &&
			    ageless->items[ageless->count - 1] == member->item;
		if (oldest != AGE_NOT_KNOWN || told) {
			continue;
		}
		if (!ARRAY_ROOM(ageless, fault)) {
			return false;
		}
		ageless->items[ageless->count++] = member->item;
	}
	return true;
}

bool
unit_ages(const struct unit *unit, struct outlook_ages *ages, struct fault *fault)
{
	for (size_t i = 0; i < unit->count; i++) {
		for (size_t k = 0; k < unit->station_count; k++) {
			if (!member_ages(unit, &unit->members[i], unit->stations[k], ages,
				fault)) {
				return false;
			}
		}
	}
	return true;
}
