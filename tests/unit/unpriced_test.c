/* One price policy for the winter and the years ahead: where gear goes when some stations' prices
 * are not known, by examples reckoned by hand and beside every way to share gear out among
 * stations. */
#include "becket_test.h"
#include "draw.h"
#include "outlook_scene.h"

#include <string.h>

static const char RAFT[] = "liferaft-canister";
static const char JACKET[] = "lifejacket-auto";

static const char RULES[] =
    "  - id: service\n    kinds: [lifejacket-auto, liferaft-canister]\n"
    "    task: service\n    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last, made], months: 24 }\n" SOURCE;

enum { STATIONS = 4, THINGS = 3 };

/* Stations, and where the winter and the years send gear. */
struct port {
	struct scene scene;
	struct station_price prices[STATIONS][2];
	struct station stations[STATIONS];
	size_t station_count;
	bool shunned[STATIONS];
	struct item copy[SCENE_MOST];
	struct shore_list list;
	struct outlook plan;
};

static void
port_open(struct port *port)
{
	*port = (struct port){.station_count = 0};
	scene_open(&port->scene, RULES);
}

/* Adds a station that takes whatever comes, ten days for each; below 0: no price. */
static void
add_station(
    struct port *port, const char *name, int64_t trip, int64_t raft, int64_t jacket)
{
	size_t at = port->station_count++;
	struct station_price *prices = port->prices[at];
	port->stations[at] = (struct station){.weekdays = WEEKDAYS_ALL,
	    .name = name,
	    .base = "",
	    .turn_round_days = 10,
	    .prices = prices,
	    .trip_minor = trip};
	struct station *station = &port->stations[at];
	if (raft >= 0) {
		prices[station->price_count++] = (struct station_price){
		    .kind = RAFT, .task = TASK_SERVICE, .minor = raft};
	}
	if (jacket >= 0) {
		prices[station->price_count++] = (struct station_price){
		    .kind = JACKET, .task = TASK_SERVICE, .minor = jacket};
	}
}

/* A thing serviced at a place on a day for a price; below 0: that is not on record. */
static struct item *
add_thing(
    struct port *port, const char *kind, const char *served, const char *at, int64_t paid)
{
	struct item *item = scene_item(&port->scene, kind);
	item->price_minor = -1;
	scene_record(&port->scene, item, TASK_SERVICE, served, NULL);
	struct record *record =
	    &port->scene.records[item - port->scene.items][item->record_count - 1];
	record->station = at;
	record->price_minor = paid;
	return item;
}

/* Asks the winter, and the years for as many winters. */
static void
plan_both(struct port *port, size_t winters)
{
	static const size_t VESSEL = 0;
	struct scene *scene = &port->scene;
	struct fault fault = {0};
	(void)scene_due(scene, &scene->items[0], TASK_SERVICE, "2026-11-25");
	for (size_t i = 0; i < port->station_count; i++) {
		port->stations[i].left_out = port->shunned[i];
	}
	const struct winter_request request = {.engine = &scene->engine,
	    .stations = port->stations,
	    .station_count = port->station_count,
	    .today = day_of("2026-11-25")};
	winter_plan_fleet(&request, &VESSEL, 1, &scene->arena, &port->list);
	memcpy(port->copy, scene->items, sizeof port->copy);
	const struct outlook_ask ask = {.engine = &scene->engine,
	    .copy = port->copy,
	    .stations = port->stations,
	    .station_count = port->station_count,
	    .today = day_of("2026-11-25"),
	    .winters = winters,
	    .vessels = &VESSEL,
	    .vessel_count = 1,
	    .least = GRADE_PRACTICE,
	    .shunned = port->shunned,
	    .renew_now = NO_ITEM,
	    .most_looks = YEARS_LOOKS,
	    .most_states = YEARS_STATES};
	if (!outlook_make(&ask, &scene->arena, &port->plan, &fault)) {
		fail_msg("%s", fault.text);
	}
	assert_true(port->plan.proven);
}

/* Where the winter sends an item; the test fails where it sends it nowhere. */
static size_t
winter_station(const struct port *port, size_t item)
{
	for (size_t i = 0; i < port->list.hand_in.count; i++) {
		const struct trip *trip = &port->list.hand_in.items[i];
		for (size_t j = 0; j < trip->lines.count; j++) {
			if (trip->lines.items[j].item == item) {
				return trip->station;
			}
		}
	}
	fail_msg("item %zu is not handed in", item);
	return NO_STATION;
}

/* The line of an item's service in the first winter. */
static const struct outlook_line *
years_line(const struct port *port, size_t item)
{
	for (size_t i = 0; i < port->plan.line_count; i++) {
		const struct outlook_line *line = &port->plan.lines[i];
		if (line->item == item && line->task == TASK_SERVICE &&
		    line->winter == 0) {
			return line;
		}
	}
	fail_msg("item %zu is not serviced", item);
	return NULL;
}

TEST(a_station_without_a_price_counts_as_the_dearest)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* What Shed asks is not known: it counts as Yard's 420.00. With the trips: Loft
	 * 400 + 50 = 450, Yard 420 + 50 = 470, Shed 420 + 20 = 440. */
	add_station(&port, "Loft", 5000, 40000, -1);
	add_station(&port, "Shed", 2000, -1, -1);
	add_station(&port, "Yard", 5000, 42000, -1);
	(void)add_thing(&port, RAFT, "2025-03-01", "", -1);
	plan_both(&port, 1);
	assert_int_equal(port.plan.minor, 44000);
	assert_int_equal(port.plan.bound, 44000);
	assert_int_equal(port.plan.when_due_minor, 45000);
	assert_int_equal(years_line(&port, 0)->station, 1);
	assert_int_equal(winter_station(&port, 0), 1);
	/* the line has what counts, and says that it is not what Shed asks */
	assert_int_equal(years_line(&port, 0)->minor, 42000);
	assert_true(years_line(&port, 0)->supposed);
	assert_int_equal(port.plan.supposed, 1);
	assert_int_equal(port.plan.unpriced, 0);
	/* with a trip as dear as Loft's it is not gone to for want of a price */
	port.stations[1].trip_minor = 5000;
	plan_both(&port, 1);
	assert_int_equal(port.plan.minor, 45000);
	assert_int_equal(years_line(&port, 0)->station, 0);
	assert_false(years_line(&port, 0)->supposed);
	assert_int_equal(winter_station(&port, 0), 0);
}

TEST(what_was_paid_holds_for_the_station_that_was_paid)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* Shed was paid 300.00 and lists nothing: that is its price, not Loft's 400.00. What
	 * Yard asks is not known: it counts as 400.00, not as what Shed was paid. */
	add_station(&port, "Loft", 5000, 40000, -1);
	add_station(&port, "Shed", 5000, -1, -1);
	add_station(&port, "Yard", 2000, -1, -1);
	(void)add_thing(&port, RAFT, "2025-03-01", "Shed", 30000);
	plan_both(&port, 1);
	assert_int_equal(port.plan.minor, 35000);
	assert_int_equal(years_line(&port, 0)->station, 1);
	assert_false(years_line(&port, 0)->supposed);
	assert_int_equal(winter_station(&port, 0), 1);
}

TEST(work_that_no_price_is_known_for_adds_nothing_and_is_told)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	add_station(&port, "Loft", 5000, -1, 4000);
	struct item *raft = add_thing(&port, RAFT, "2025-03-01", "", -1);
	raft->price_minor = 140000;
	/* serviced once in the two winters: the trip alone, and it is not bought new for want
	 * of a price */
	plan_both(&port, 2);
	assert_int_equal(port.plan.minor, 5000);
	assert_int_equal(port.plan.unpriced, 1);
	assert_int_equal(port.plan.supposed, 0);
	assert_int_equal(years_line(&port, 0)->minor, -1);
	assert_int_equal(port.plan.unknown_count, 1);
	assert_int_equal(port.plan.unknowns[0].minor, -1);
}

TEST(work_without_a_price_at_its_age_counts_as_the_dearest_of_any)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* Loft lists a raft from ten years on alone. On 21 March 2027 it is nine: 400.00 counts,
	 * and it is not serviced early because that looks free. */
	add_station(&port, "Loft", 5000, 40000, -1);
	port.prices[0][0].from_years = 10;
	add_thing(&port, RAFT, "2025-03-01", "", -1)->made = stamp_of("2017-06-01");
	plan_both(&port, 1);
	assert_int_equal(port.plan.minor, 45000);
	assert_true(years_line(&port, 0)->supposed);
	assert_int_equal(port.list.proof.minor, 45000);
}

TEST(without_its_station_gear_goes_to_the_assumed_one_in_both)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* Loft alone takes rafts. Without it an approved station is still to be found: its
	 * service counts as Loft's 400.00 and its trip as nothing, and nothing is bought new for
	 * 1400.00. */
	add_station(&port, "Loft", 5000, 40000, -1);
	add_thing(&port, RAFT, "2025-03-01", "Loft", -1)->price_minor = 140000;
	port.shunned[0] = true;
	plan_both(&port, 2);
	assert_int_equal(winter_station(&port, 0), NO_STATION);
	assert_int_equal(years_line(&port, 0)->station, NO_STATION);
	assert_int_equal(years_line(&port, 0)->minor, 40000);
	assert_true(years_line(&port, 0)->supposed);
	assert_int_equal(port.plan.minor, 40000);
	assert_int_equal(port.plan.gap_count, 0);
	/* and to another of the book where there is one */
	add_station(&port, "Shed", 3000, 50000, -1);
	plan_both(&port, 2);
	assert_int_equal(winter_station(&port, 0), 1);
	assert_int_equal(years_line(&port, 0)->station, 1);
	assert_int_equal(port.plan.minor, 53000);
}

/* The loft asks 410.00 with its trip, the shed 530.00. Ten days before 31 March 2027 is
 * the last day on which either would do; the loft said that it takes nothing in before
 * the 25th. */
TEST(a_station_that_takes_nothing_in_before_a_day_is_passed_over_in_both)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	add_station(&port, "Loft", 1000, 40000, -1);
	add_station(&port, "Shed", 3000, 50000, -1);
	add_thing(&port, RAFT, "2025-03-01", "Loft", -1)->price_minor = 140000;
	port.stations[0].not_before = day_of("2027-03-25");
	plan_both(&port, 1);
	assert_int_equal(winter_station(&port, 0), 1);
	assert_int_equal(years_line(&port, 0)->station, 1);
	assert_int_equal(port.plan.minor, 53000);
	/* before the 15th it would do */
	port.stations[0].not_before = day_of("2027-03-15");
	plan_both(&port, 1);
	assert_int_equal(winter_station(&port, 0), 0);
	assert_int_equal(years_line(&port, 0)->station, 0);
	assert_int_equal(port.plan.minor, 41000);
}

TEST(gear_of_a_make_that_is_not_known_goes_to_a_station_still_to_be_found_in_both)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* Loft is approved for rafts of Orrin's alone: approval is never assumed of another, nor
	 * where the label is gone. The service counts as Loft's 400.00, its trip as nothing. */
	const struct station_make make = {RAFT, "Orrin"};
	add_station(&port, "Loft", 5000, 40000, -1);
	port.stations[0].makes = &make;
	port.stations[0].make_count = 1;
	struct item *raft = add_thing(&port, RAFT, "2025-03-01", "Loft", -1);
	static const char *const MAKES[] = {"", "Tarn"};
	for (size_t i = 0; i < 2; i++) {
		raft->make = MAKES[i];
		plan_both(&port, 2);
		assert_int_equal(winter_station(&port, 0), NO_STATION);
		assert_int_equal(years_line(&port, 0)->station, NO_STATION);
		assert_int_equal(port.plan.minor, 40000);
	}
	raft->make = "Orrin";
	plan_both(&port, 2);
	assert_int_equal(winter_station(&port, 0), 0);
	assert_int_equal(years_line(&port, 0)->station, 0);
	assert_int_equal(port.plan.minor, 45000);
}

TEST(what_is_not_known_is_named)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	add_station(&port, "Loft", 5000, 40000, 3000);
	add_station(&port, "Shed", 5000, -1, 3500);
	add_thing(&port, RAFT, "2025-03-01", "", -1)->price_minor = 140000;
	struct item *jacket = add_thing(&port, JACKET, "2025-03-01", "", -1);
	jacket->price_minor = 18900;
	plan_both(&port, 2);
	/* though nothing goes to Shed: it could, were it cheaper than 400.00 */
	assert_int_equal(port.plan.supposed, 0);
	assert_int_equal(port.plan.unknown_count, 1);
	assert_int_equal(port.plan.unknowns[0].station, 1);
	assert_string_equal(port.plan.unknowns[0].kind, RAFT);
	assert_int_equal(port.plan.unknowns[0].task, TASK_SERVICE);
	assert_int_equal(port.plan.unknowns[0].minor, 40000);
	/* nor is what a new lifejacket costs, which might save its service */
	jacket->price_minor = -1;
	plan_both(&port, 2);
	assert_int_equal(port.plan.unknown_count, 2);
	assert_string_equal(port.plan.unknowns[1].kind, JACKET);
	assert_int_equal(port.plan.unknowns[1].task, TASK_RENEW);
}

/* --- beside every way to share gear out --- */

/* What counts for a thing at a station, reckoned apart: its list, else what it was paid, else the
 * highest of those of all, stations that are not in the book among them; nothing where none is
 * known. */
static int64_t
slow_price(const struct port *port, const struct item *item, size_t at)
{
	int64_t prices[STATIONS];
	const struct record *record = &item->records[0];
	bool elsewhere = true;
	int64_t highest = 0;
	for (size_t i = 0; i < port->station_count; i++) {
		const struct station *station = &port->stations[i];
		bool there = strcmp(record->station, station->name) == 0;
		prices[i] = there ? record->price_minor : -1;
		elsewhere = elsewhere && !there;
		for (size_t k = 0; k < station->price_count; k++) {
			const struct station_price *price = &station->prices[k];
			bool own = strcmp(price->kind, item->kind) == 0;
			prices[i] = own ? price->minor : prices[i];
		}
		highest = prices[i] > highest ? prices[i] : highest;
	}
	if (elsewhere && record->price_minor > highest) {
		highest = record->price_minor;
	}
	return prices[at] >= 0 ? prices[at] : highest;
}

/* The least that one winter costs, over all ways; `best_out` is the way, and the answer whether
 * there is but one. */
static bool
slow_winter(const struct port *port, int64_t *cost_out, size_t best_out[THINGS])
{
	size_t ways = 1;
	bool alone = false;
	*cost_out = INT64_MAX;
	for (size_t i = 0; i < THINGS; i++) {
		ways *= port->station_count;
	}
	for (size_t way = 0; way < ways; way++) {
		size_t at[THINGS];
		bool gone[STATIONS] = {false};
		int64_t cost = 0;
		size_t left = way;
		for (size_t i = 0; i < THINGS; i++, left /= port->station_count) {
			at[i] = left % port->station_count;
			cost += gone[at[i]] ? 0 : port->stations[at[i]].trip_minor;
			gone[at[i]] = true;
			cost += slow_price(port, &port->scene.items[i], at[i]);
		}
		if (cost <= *cost_out) {
			alone = cost < *cost_out;
			*cost_out = cost;
			memcpy(best_out, at, sizeof at);
		}
	}
	return alone;
}

static int64_t
draw_price(unsigned *seed)
{
	return draw(seed, 3) == 0 ? -1 : 3000 + (int64_t)draw(seed, 9000);
}

/* ---- a task that counts as another ---- */

static const char EXTENDED[] =
    "  - id: yearly\n    kinds: [extinguisher-powder]\n    task: service\n"
    "    counts: [test]\n    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last, made], months: 12 }\n" SOURCE
    "  - id: extended\n    kinds: [extinguisher-powder]\n    task: test\n"
    "    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last, made], months: 60 }\n" SOURCE;

/* An extinguisher serviced in February, of an age for its extended test; 14 and
 * 38 there. */
static struct item *
extended_open(struct port *port)
{
	*port = (struct port){.station_count = 0};
	scene_open(&port->scene, EXTENDED);
	add_station(port, "Depot", 0, -1, -1);
	port->prices[0][0] = (struct station_price){
	    .kind = "extinguisher-powder", .task = TASK_SERVICE, .minor = 1400};
	port->prices[0][1] = (struct station_price){
	    .kind = "extinguisher-powder", .task = TASK_TEST, .minor = 3800};
	port->stations[0].price_count = 2;
	struct item *item = scene_item(&port->scene, "extinguisher-powder");
	item->price_minor = -1;
	item->made = stamp_of("2021-02");
	scene_record(&port->scene, item, TASK_SERVICE, "2026-02-10", NULL);
	return item;
}

TEST(what_a_test_counts_as_is_not_charged_beside_it)
{
	CLOSES_SCENE struct port port;
	(void)extended_open(&port);
	plan_both(&port, 1);
	const struct trip *trip = &port.list.hand_in.items[0];
	assert_int_equal(trip->lines.count, 2);
	assert_int_equal(trip->lines.items[0].task, TASK_SERVICE);
	assert_true(trip->lines.items[0].counted);
	assert_int_equal(trip->lines.items[0].counted_by, TASK_TEST);
	assert_int_equal(trip->lines.items[0].price_minor, 0);
	assert_false(trip->lines.items[1].counted);
	assert_int_equal(trip->lines.items[1].price_minor, 3800);
	assert_int_equal(port.list.cost_minor, 3800);
	assert_int_equal(port.list.unpriced, 0);
	assert_int_equal(port.list.proof.minor, 3800);
	assert_int_equal(port.plan.minor, 3800);
}

TEST(nor_once_it_is_ashore)
{
	CLOSES_SCENE struct port port;
	struct item *item = extended_open(&port);
	item->state = PLACE_LANDED;
	item->landed_to = "Depot";
	item->landed_on = day_of("2026-11-20");
	plan_both(&port, 1);
	assert_int_equal(port.list.ashore.count, 1);
	assert_int_equal(port.list.cost_minor, 3800);
}

TEST(the_years_and_the_winter_agree_on_where_unpriced_gear_goes)
{
	static const char *const NAMES[] = {"Loft", "Shed", "Yard", "Barn", "Gone"};
	unsigned seed = 20261128;
	size_t alone = 0;
	size_t unpriced = 0;
	for (int round = 0; round < 1000; round++) {
		CLOSES_SCENE struct port port;
		size_t best[THINGS];
		int64_t cost = 0;
		port_open(&port);
		unsigned stations = 2 + draw(&seed, STATIONS - 1);
		for (unsigned i = 0; i < stations; i++) {
			add_station(&port, NAMES[i], 1 + (int64_t)draw(&seed, 6000),
			    draw_price(&seed), draw_price(&seed));
		}
		for (size_t i = 0; i < THINGS; i++) {
			(void)add_thing(&port, draw(&seed, 2) == 0 ? RAFT : JACKET,
			    "2025-03-01", NAMES[draw(&seed, STATIONS + 1)],
			    draw_price(&seed));
		}
		bool unique = slow_winter(&port, &cost, best);
		plan_both(&port, 1);
		for (size_t i = 0; i < THINGS; i++) {
			const struct outlook_line *line = years_line(&port, i);
			unpriced += line->supposed || line->minor < 0 ? 1 : 0;
			if (unique) {
				assert_int_equal(line->station, best[i]);
				assert_int_equal(winter_station(&port, i), best[i]);
			}
		}
		alone += unique ? 1 : 0;
		assert_int_equal(port.plan.minor, cost);
		assert_int_equal(port.list.proof.minor, cost);
	}
	assert_true(alone > 500);
	assert_true(unpriced > 300);
}

/* Its service has a price at the one station. What a new one costs is not known; or is
 * known to be nothing, as of one given in exchange: that is a price. */
TEST(a_price_of_nothing_is_a_known_price)
{
	for (int known = 0; known < 2; known++) {
		CLOSES_SCENE struct port port;
		port_open(&port);
		add_station(&port, "Depot", 0, -1, 4500);
		add_thing(&port, JACKET, "2025-01-10", "Depot", 4500)->price_minor =
		    known == 1 ? 0 : -1;
		plan_both(&port, 3);
		assert_int_equal(port.plan.unknown_count, known == 1 ? 0 : 1);
		if (known == 0) {
			const struct outlook_unknown *unknown = &port.plan.unknowns[0];
			assert_int_equal(unknown->station, NO_STATION);
			assert_string_equal(unknown->kind, JACKET);
			assert_int_equal(unknown->task, TASK_RENEW);
		}
	}
}

/* Nothing is asked for the service: that is known, and none of what is planned is without
 * a price. Where it is not known, the one service in two winters has none. */
TEST(a_service_for_nothing_has_a_price)
{
	for (int known = 0; known < 2; known++) {
		CLOSES_SCENE struct port port;
		port_open(&port);
		add_station(&port, "Depot", 0, -1, known == 1 ? 0 : -1);
		(void)add_thing(
		    &port, JACKET, "2025-01-10", "Depot", known == 1 ? 0 : -1);
		plan_both(&port, 2);
		assert_int_equal(port.plan.line_count, 1);
		assert_int_equal(port.plan.unpriced, known == 1 ? 0 : 1);
	}
}

/* Good until 10 January 2027; Depot is shut in the first winter, so it goes to Loft for
 * 50 then, and for 45 to Depot in the third: when due, too. */
TEST(what_is_done_when_due_goes_to_a_station_that_is_open)
{
	const struct span shut = {day_of("2026-11-01"), day_of("2027-04-30")};
	CLOSES_SCENE struct port port;
	port_open(&port);
	add_station(&port, "Depot", 0, -1, 4500);
	add_station(&port, "Loft", 0, -1, 5000);
	port.stations[0].shut = &shut;
	port.stations[0].shut_count = 1;
	(void)add_thing(&port, JACKET, "2025-01-10", "Depot", 4500);
	plan_both(&port, 3);
	assert_int_equal(port.plan.when_due_minor, 9500);
	assert_int_equal(port.plan.minor, 9500);
}

RUN_TESTS(NULL, NULL)
