/* Trips on her own days, with days that are pinned and at most so many of them, against every
 * set of days: what serves, what is least and what stays behind is reckoned here anew, from what
 * the plan is meant to be, with no function of the winter's. */
#include "becket_test.h"
#include "dates/weekdays.h"
#include "draw.h"
#include "scene.h"

#include <string.h>

enum { PLACES = 2, THINGS = 5, PAIRS = 60, MOST = 3 };

/* The third kind never binds more than common practice. */
#define RULE(kind, months, grade)                                                        \
	"  - id: " kind "-rule\n    kinds: [" kind "]\n"                                 \
	"    task: service\n    doer: station\n    grade: " grade "\n    clocks:\n"      \
	"      - { from: [last], months: " months " }\n    source: test\n"               \
	"    standing: common practice\n"

static const char *const KINDS[THINGS] = {"lifejacket-auto", "danbuoy-inflatable",
    "liferaft-valise", "extinguisher-co2", "recovery-module"};
static const int MONTHS[THINGS] = {12, 24, 12, 12, 24};
static const bool BINDING[THINGS] = {true, false, false, true, true};

/* One drawn case. */
struct drawn {
	struct scene *scene;
	struct station stations[PLACES];
	struct span shut[PLACES];
	const char *kinds[PLACES][THINGS];
	struct station_price prices[PLACES][THINGS];
	struct span away;
	size_t place_count;
	size_t thing_count;
	day_t today;
	day_t back_by;
	day_t season_end; /* the last day before her next lay-up */
	int most;         /* trips; 0 any */
	bool pinned;
	struct settled_hand_in pin;
	const char *pin_tags[THINGS];

	/* which day of which station serves which thing */
	struct pair {
		size_t place;
		day_t day;
		bool serves[THINGS];
	} pairs[PAIRS];

	size_t pair_count;
	bool waits[THINGS]; /* to be planned: neither impossible nor on the pinned day */
};

/* What a plan is judged by, the most important first. */
struct judged {
	int64_t binding;
	int64_t other;
	int64_t minor;
	int64_t trips;
	int64_t days;
};

static bool
judged_below(const struct judged *a, const struct judged *b)
{
	const int64_t left[] = {a->binding, a->other, a->minor, a->trips, a->days};
	const int64_t right[] = {b->binding, b->other, b->minor, b->trips, b->days};
	for (size_t i = 0; i < sizeof left / sizeof left[0]; i++) {
		if (left[i] != right[i]) {
			return left[i] < right[i];
		}
	}
	return false;
}

/* ---- what serves, from the meaning of the words ---- */

static bool
closed(const struct drawn *drawn, size_t place, day_t day)
{
	return day >= drawn->shut[place].first && day <= drawn->shut[place].last;
}

/* Gear goes in and out where the station is open and they go: Monday to Friday where its days are
 * not known, but then theirs win; its own where the two share none. */
static bool
goes_on(const struct drawn *drawn, size_t place, day_t day)
{
	unsigned known = drawn->stations[place].weekdays;
	unsigned theirs = drawn->scene->vessel.goes;
	unsigned days = known == 0 ? 0x1fU : known;
	if (theirs != 0 && (known == 0 || (known & theirs) != 0)) {
		days = known == 0 ? theirs : known & theirs;
	}
	bool away = day >= drawn->away.first && day <= drawn->away.last;
	/* 5 January 1970 was a Monday */
	int weekday = (int)(((day - 4) % 7 + 7) % 7);
	return (days >> weekday & 1U) != 0 && !closed(drawn, place, day) && !away;
}

/* The first day it can be fetched, the day of the hand-in being the first that counts. */
static day_t
fetched(const struct drawn *drawn, size_t place, day_t day)
{
	for (int left = drawn->stations[place].turn_round_days; left > 0; day++) {
		left -= closed(drawn, place, day) ? 0 : 1;
	}
	while (!goes_on(drawn, place, day)) {
		day++;
	}
	return day;
}

static bool
takes(const struct drawn *drawn, size_t place, size_t thing)
{
	bool found = false;
	for (size_t k = 0; k < drawn->stations[place].kind_count; k++) {
		found = found || strcmp(drawn->kinds[place][k], KINDS[thing]) == 0;
	}
	return found;
}

static int64_t
price(const struct drawn *drawn, size_t place, size_t thing)
{
	return drawn->prices[place][thing].minor;
}

/* True when a day serves a thing; `carrying`: and it is good through the season then. */
static bool
serves(const struct drawn *drawn, size_t place, size_t thing, day_t day, bool carrying)
{
	return takes(drawn, place, thing) && day >= drawn->today &&
	       day >= drawn->stations[place].not_before && goes_on(drawn, place, day) &&
	       fetched(drawn, place, day) <= drawn->back_by &&
	       (!carrying || day_add_months(day, MONTHS[thing]) >= drawn->season_end);
}

/* ---- drawing ---- */

static void
draw_place(unsigned *seed, struct drawn *drawn, size_t place)
{
	static const char *const NAMES[PLACES] = {"Loft", "Depot"};
	struct station *station = &drawn->stations[place];
	day_t shut = day_of("2027-01-04") + (day_t)draw(seed, 30);
	drawn->shut[place] = (struct span){shut, shut + (day_t)draw(seed, 6)};
	*station = (struct station){.name = NAMES[place],
	    .base = "",
	    .turn_round_days = 3 + (int)draw(seed, 18),
	    .weekdays = draw(seed, 3) == 0 ? 0 : 1 + draw(seed, WEEKDAYS_ALL),
	    .shut = &drawn->shut[place],
	    .shut_count = 1,
	    .kinds = drawn->kinds[place],
	    .prices = drawn->prices[place],
	    .price_count = THINGS,
	    .trip_minor = (int64_t)draw(seed, 4) * 10,
	    .not_before = draw(seed, 4) == 0
			      ? day_of("2027-01-04") + (day_t)draw(seed, 20)
			      : DAY_NONE};
	for (size_t i = 0; i < THINGS; i++) {
		drawn->prices[place][i] = (struct station_price){.kind = KINDS[i],
		    .task = TASK_SERVICE,
		    .minor = (int64_t)draw(seed, 4) * 5};
		if (i == place || draw(seed, 3) != 0) {
			drawn->kinds[place][station->kind_count++] = KINDS[i];
		}
	}
}

static void
draw_pin(unsigned *seed, struct drawn *drawn)
{
	size_t place = draw(seed, (unsigned)drawn->place_count);
	drawn->pin = (struct settled_hand_in){.owner = drawn->scene->vessel.name,
	    .winter = 2027,
	    .station = drawn->stations[place].name,
	    .number = 1,
	    .day = DAY_NONE,
	    .planned = drawn->today + (day_t)draw(seed, 25),
	    .tags = drawn->pin_tags};
	for (size_t i = 0; i < drawn->thing_count; i++) {
		if (draw(seed, 2) == 0) {
			drawn->pin_tags[drawn->pin.tag_count++] =
			    drawn->scene->items[i].tag;
		}
	}
	drawn->pinned = draw(seed, 2) == 0 && drawn->pin.tag_count > 0;
}

static void
draw_vessel(unsigned *seed, struct drawn *drawn)
{
	struct vessel *vessel = &drawn->scene->vessel;
	static struct odd_winter winters[2];
	day_t next = day_of("2028-01-05") + (day_t)draw(seed, 27);
	winters[0] =
	    (struct odd_winter){2027, {day_of("2027-01-04"), day_of("2027-02-05")}};
	winters[1] = (struct odd_winter){2028, {next, day_of("2028-03-01")}};
	vessel->lay_up = (struct yearly){1, 4, 2, 5};
	vessel->odd_winters = winters;
	vessel->odd_winter_count = 2;
	vessel->margin_days = (int)draw(seed, 4);
	vessel->goes = draw(seed, 2) == 0 ? 0 : 1 + draw(seed, WEEKDAYS_ALL);
	day_t away = day_of("2027-01-04") + (day_t)draw(seed, 30);
	drawn->away = (struct span){away, away + (day_t)draw(seed, 5)};
	vessel->away = &drawn->away;
	vessel->away_count = 1;
	drawn->most = (int)draw(seed, MOST + 1);
	vessel->most_trips = draw(seed, 2) == 0 ? drawn->most : 0;
	drawn->today = day_of("2027-01-04") + (day_t)draw(seed, 8);
	drawn->back_by = day_of("2027-02-05") - vessel->margin_days;
	drawn->season_end = next - 1;
}

/* True when some day that has the thing back in time carries it through the season. */
static bool
carried(const struct drawn *drawn, size_t thing)
{
	bool any = false;
	for (size_t p = 0; p < drawn->place_count; p++) {
		for (day_t day = drawn->today; day <= drawn->back_by; day++) {
			any = any || serves(drawn, p, thing, day, true);
		}
	}
	return any;
}

/* Lists the days that serve something; a thing that no day carries through the season may go on
 * any that has it back in time. False when they are too many for the slow search. */
static bool
list_pairs(struct drawn *drawn)
{
	bool carrying[THINGS];
	for (size_t i = 0; i < drawn->thing_count; i++) {
		carrying[i] = carried(drawn, i);
	}
	for (size_t p = 0; p < drawn->place_count; p++) {
		for (day_t day = drawn->today; day <= drawn->back_by; day++) {
			struct pair pair = {.place = p, .day = day};
			bool any = false;
			for (size_t i = 0; i < drawn->thing_count; i++) {
				pair.serves[i] = serves(drawn, p, i, day, carrying[i]);
				any = any || pair.serves[i];
				drawn->waits[i] = drawn->waits[i] || pair.serves[i];
			}
			if (any && drawn->pair_count == PAIRS) {
				return false;
			}
			if (any) {
				drawn->pairs[drawn->pair_count++] = pair;
			}
		}
	}
	return true;
}

/* Puts on the pinned day what was put there, and what it serves; the rest waits. What no day serves
 * any more stays where a person put it: that day is kept while it lies ahead. True when anything is
 * on it. */
static bool
pin_things(struct drawn *drawn)
{
	size_t place = 0;
	bool any = false;
	while (strcmp(drawn->stations[place].name, drawn->pin.station) != 0) {
		place++;
	}
	for (size_t i = 0; i < drawn->pin.tag_count; i++) {
		for (size_t k = 0; k < drawn->thing_count; k++) {
			bool there =
			    strcmp(drawn->pin.tags[i], drawn->scene->items[k].tag) == 0 &&
			    takes(drawn, place, k);
			/* a way to the station is wanted, on whatever day, where there is
			 * one at all */
			bool way = !drawn->waits[k];
			for (size_t p = 0; p < drawn->pair_count; p++) {
				way = way || (drawn->pairs[p].place == place &&
						 drawn->pairs[p].serves[k]);
			}
			if (there && way) {
				drawn->waits[k] = false;
				any = true;
			}
		}
	}
	for (size_t p = 0; p < drawn->pair_count && any; p++) {
		const struct pair *pair = &drawn->pairs[p];
		for (size_t k = 0; k < drawn->thing_count; k++) {
			bool joins = pair->place == place &&
				     pair->day == drawn->pin.planned && pair->serves[k];
			drawn->waits[k] = drawn->waits[k] && !joins;
		}
	}
	return any;
}

static bool
draw_case(unsigned *seed, struct drawn *drawn, struct scene *scene)
{
	*drawn = (struct drawn){.scene = scene};
	drawn->place_count = 1 + draw(seed, PLACES);
	drawn->thing_count = 1 + draw(seed, THINGS);
	for (size_t p = 0; p < drawn->place_count; p++) {
		draw_place(seed, drawn, p);
	}
	draw_vessel(seed, drawn);
	draw_pin(seed, drawn);
	for (size_t i = 0; i < drawn->thing_count; i++) {
		bool any = false;
		for (size_t p = 0; p < drawn->place_count; p++) {
			any = any || takes(drawn, p, i);
		}
		if (!any) {
			return false; /* it would go to a station nobody has entered */
		}
	}
	return list_pairs(drawn);
}

/* ---- every set of days ---- */

static void
judge(const struct drawn *drawn, const size_t *taken, size_t count, struct judged *best)
{
	struct judged judged = {.trips = (int64_t)count};
	for (size_t k = 0; k < count; k++) {
		const struct pair *pair = &drawn->pairs[taken[k]];
		judged.minor += drawn->stations[pair->place].trip_minor;
		judged.days += pair->day;
	}
	for (size_t i = 0; i < drawn->thing_count; i++) {
		int64_t least = INT64_MAX;
		for (size_t k = 0; k < count && drawn->waits[i]; k++) {
			const struct pair *pair = &drawn->pairs[taken[k]];
			int64_t minor = price(drawn, pair->place, i);
			least = pair->serves[i] && minor < least ? minor : least;
		}
		judged.minor += least == INT64_MAX ? 0 : least;
		judged.binding += drawn->waits[i] && least == INT64_MAX && BINDING[i];
		judged.other += drawn->waits[i] && least == INT64_MAX && !BINDING[i];
	}
	if (judged_below(&judged, best)) {
		*best = judged;
	}
}

// NOLINTNEXTLINE(misc-no-recursion)
static void
every_set(const struct drawn *drawn, size_t most, size_t from, size_t *taken,
    size_t count, struct judged *best)
{
	judge(drawn, taken, count, best);
	for (size_t k = from; k < drawn->pair_count && count < most; k++) {
		taken[count] = k;
		every_set(drawn, most, k + 1, taken, count + 1, best);
	}
}

/* ---- the plan ---- */

static struct shore_list
plan_of(struct drawn *drawn, struct arena *arena)
{
	struct shore_list list = {0};
	const size_t vessel = 0;
	const struct winter_request request = {.engine = &drawn->scene->engine,
	    .stations = drawn->stations,
	    .station_count = drawn->place_count,
	    .today = drawn->today,
	    .settled = &drawn->pin,
	    .settled_count = drawn->pinned ? 1 : 0,
	    .most_trips = drawn->scene->vessel.most_trips == 0 ? drawn->most : 0};
	winter_plan_fleet(&request, &vessel, 1, arena, &list);
	return list;
}

/* True when two trips go to one station: the second may have been put off to the day on which what
 * was on the first is fetched. */
static bool
fetches_on_the_way(const struct shore_list *list)
{
	bool twice = false;
	for (size_t a = 0; a < list->hand_in.count; a++) {
		for (size_t b = 0; b < a; b++) {
			twice = twice || list->hand_in.items[a].station ==
					     list->hand_in.items[b].station;
		}
	}
	return twice;
}

/* Judges the plan, what is on the pinned day left out; fails where a thing goes on a day that does
 * not serve it. */
static struct judged
judge_plan(const struct drawn *drawn, const struct shore_list *list)
{
	struct judged judged = {0};
	for (size_t t = 0; t < list->hand_in.count; t++) {
		const struct trip *trip = &list->hand_in.items[t];
		if (trip->settled) {
			assert_int_equal(trip->hand_in, drawn->pin.planned);
			continue;
		}
		judged.trips++;
		judged.days += trip->hand_in;
		judged.minor += drawn->stations[trip->station].trip_minor;
		for (size_t i = 0; i < trip->lines.count; i++) {
			size_t thing = trip->lines.items[i].item;
			bool does = false;
			for (size_t p = 0; p < drawn->pair_count; p++) {
				const struct pair *pair = &drawn->pairs[p];
				does = does || (pair->place == trip->station &&
						   pair->day == trip->hand_in &&
						   pair->serves[thing]);
			}
			assert_true(does && drawn->waits[thing]);
			judged.minor += price(drawn, trip->station, thing);
		}
	}
	for (size_t i = 0; i < list->cannot.count; i++) {
		const struct shore_line *line = &list->cannot.items[i];
		bool stays =
		    strcmp(line->why, "it would take more trips than you will make") == 0;
		assert_true(!stays || strncmp(line->cure, "one more trip, to ", 18) == 0);
		judged.binding += stays && BINDING[line->item];
		judged.other += stays && !BINDING[line->item];
	}
	return judged;
}

static void
open_scene(struct scene *scene)
{
	scene_open(scene, RULE("lifejacket-auto", "12", "law") RULE("danbuoy-inflatable",
			      "24", "practice") RULE("liferaft-valise", "12", "practice")
			      RULE("extinguisher-co2", "12", "maker")
				  RULE("recovery-module", "24", "law"));
	for (size_t i = 0; i < THINGS; i++) {
		struct item *item = scene_item(scene, KINDS[i]);
		scene_record(scene, item, TASK_SERVICE,
		    MONTHS[i] == 12 ? "2026-03-01" : "2025-03-01", NULL);
	}
	(void)scene_due(scene, &scene->items[0], TASK_SERVICE, "2027-01-04");
}

TEST(no_set_of_days_is_better_than_the_trips_she_makes)
{
	CLOSES_SCENE struct scene scene;
	unsigned seed = 7;
	size_t cases = 0;
	size_t limited = 0;
	size_t pinned = 0;
	open_scene(&scene);
	while (cases < (size_t)scaled(1000)) {
		struct drawn drawn;
		struct arena arena = {0};
		size_t taken[THINGS];
		struct judged best = {.binding = INT64_MAX};
		if (!draw_case(&seed, &drawn, &scene)) {
			continue;
		}
		scene.inventory.item_count = drawn.thing_count;
		bool any = drawn.pinned && pin_things(&drawn);
		size_t most = drawn.most == 0 ? THINGS : (size_t)drawn.most;
		most -= any && drawn.most != 0 ? 1 : 0;
		every_set(&drawn, most > MOST ? MOST : most, 0, taken, 0, &best);
		/* of four or five trips the slow search knows nothing */
		cases++;
		struct shore_list list = plan_of(&drawn, &arena);
		struct judged found = judge_plan(&drawn, &list);
		best.days = fetches_on_the_way(&list) ? found.days : best.days;
		if (drawn.most != 0 || found.trips <= MOST) {
			if (judged_below(&best, &found) || judged_below(&found, &best)) {
				fail_msg("case %zu: %d, %d left, %d for %d trips; should "
					 "be %d, %d, %d for %d",
				    cases, (int)found.binding, (int)found.other,
				    (int)found.minor, (int)found.trips, (int)best.binding,
				    (int)best.other, (int)best.minor, (int)best.trips);
			}
		}
		assert_true(list.proof.proven);
		limited += best.binding + best.other > 0;
		pinned += any;
		arena_clear(&arena);
	}
	/* both were met often */
	assert_true(limited > cases / 20 && pinned > cases / 20);
}

RUN_TESTS(NULL, NULL)
