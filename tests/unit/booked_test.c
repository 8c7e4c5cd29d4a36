/* The muster over bookings, and who gets the spares. All worked by hand. */
#include "muster/booked.h"

#include "becket_test.h"
#include "scene.h"

/* A rocket for each person; they lapse by their mark. */
static const char SHEET[] =
    "  - id: m\n    kinds: [flare-red-parachute]\n"
    "    task: renew\n    doer: owner\n    grade: law\n"
    "    clocks:\n      - from: [marked]\n    source: invented\n    standing: memory\n"
    "carriage:\n"
    "  - id: r\n    title: Rockets\n    need: {per-person: 1}\n    serves:\n"
    "      - {kinds: [flare-red-parachute], points: 1}\n"
    "    source: invented\n    standing: memory\n";

enum { BOATS = 2, STORE = BOATS, VESSELS, BOOKED_MOST = 8 };

/* Two boats and the store of their base; each boat is entered for two persons. */
struct fleet {
	struct scene scene;
	struct period use[VESSELS][2];
	struct vessel vessels[VESSELS];
	const struct rulebook *rulebooks[VESSELS];
	struct booking bookings[BOATS][BOOKED_MOST];
	struct booked booked[BOATS * BOOKED_MOST];
	size_t count;
};

static void
open_fleet(struct fleet *fleet)
{
	static const char *const NAMES[] = {"Avocet", "Bittern", "Loft"};
	*fleet = (struct fleet){0};
	scene_open(&fleet->scene, SHEET);
	for (int i = 0; i < VESSELS; i++) {
		fleet->vessels[i] = fleet->scene.vessel;
		fleet->use[i][0] = fleet->scene.periods[0];
		fleet->use[i][0].persons = 2;
		fleet->vessels[i].periods = fleet->use[i];
		fleet->vessels[i].period_count = 1;
		fleet->vessels[i].name = NAMES[i];
		fleet->vessels[i].base = "Holm Quay";
		fleet->vessels[i].store = i == STORE;
		fleet->rulebooks[i] = fleet->scene.rulebook;
	}
	fleet->scene.inventory.vessels = fleet->vessels;
	fleet->scene.inventory.vessel_count = VESSELS;
}

/* Items must come in the order of the vessels. */
static size_t
add_rockets(struct fleet *fleet, size_t vessel, int quantity, const char *expires)
{
	struct item *item = scene_item(&fleet->scene, "flare-red-parachute");
	item->vessel = vessel;
	item->quantity = quantity;
	item->expires = stamp_of(expires);
	return fleet->scene.item_count - 1;
}

/* Bookings of a boat must come by day. */
static void
book(struct fleet *fleet, size_t boat, const char *first, const char *last, int persons)
{
	struct vessel *vessel = &fleet->vessels[boat];
	fleet->bookings[boat][vessel->booking_count++] =
	    (struct booking){{day_of(first), day_of(last)}, persons, 0, ""};
	vessel->bookings = fleet->bookings[boat];
}

/* As asked on 25 November 2026 for all that is to come. */
static void
muster(struct fleet *fleet)
{
	struct scene *scene = &fleet->scene;
	day_t today = day_of("2026-11-25");
	scene_engine(scene);
	scene->engine.rulebooks = fleet->rulebooks;
	for (size_t i = 0; i < VESSELS; i++) {
		fleet->count += booked_of_vessel(&scene->inventory, i,
		    (struct span){today, DAY_NEVER}, today, &fleet->booked[fleet->count]);
	}
	fleet->count = booked_while_here(&scene->inventory, fleet->booked, fleet->count);
	muster_bookings(&scene->engine, fleet->booked, fleet->count, &scene->arena);
}

static int
need_of(const struct booked *booked)
{
	assert_int_equal(booked->muster.line_count, 1);
	return booked->muster.lines[0].need;
}

/* So many pieces move for a booking. */
static int
moved(const struct booked *booked)
{
	int sum = 0;
	for (size_t i = 0; i < booked->muster.cure.count; i++) {
		sum += booked->muster.cure.moves[i].quantity;
	}
	return sum;
}

/* Four rockets, good for years; entered for two persons, from 10 June on for nine. A party of four
 * has enough on all its days, whoever else she may carry; one of five lacks one. Where nobody
 * said how many come, she is full: two in May, nine in July. */
TEST(the_persons_of_the_booking_decide_and_else_her_own)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	fleet.use[0][1] = fleet.use[0][0];
	fleet.use[0][1].from = day_of("2027-06-10");
	fleet.use[0][1].persons = 9;
	fleet.use[0][1].says = SAYS_PERSONS;
	fleet.vessels[0].period_count = 2;
	(void)add_rockets(&fleet, 0, 4, "2030");
	book(&fleet, 0, "2027-05-01", "2027-05-08", 0);
	book(&fleet, 0, "2027-06-05", "2027-06-12", 4);
	book(&fleet, 0, "2027-06-12", "2027-06-19", 5);
	book(&fleet, 0, "2027-07-03", "2027-07-10", 0);
	muster(&fleet);
	static const int NEEDS[] = {2, 4, 5, 9};
	static const int LACKS[] = {0, 0, 1, 5};
	for (size_t i = 0; i < 4; i++) {
		const struct muster *told = &fleet.booked[i].muster;
		assert_int_equal(need_of(&fleet.booked[i]), NEEDS[i]);
		assert_int_equal(told->lines[0].missing, LACKS[i]);
		assert_int_equal(told->ok, LACKS[i] == 0);
		assert_int_equal(told->shortage_count, LACKS[i] > 0);
	}
}

/* Avocet is out in August, Bittern in June; both lack two, and two are in store. */
TEST(the_booking_that_begins_first_is_served_first)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	(void)add_rockets(&fleet, STORE, 2, "2030");
	book(&fleet, 0, "2027-08-07", "2027-08-14", 2);
	book(&fleet, 1, "2027-06-05", "2027-06-12", 2);
	muster(&fleet);
	assert_int_equal(moved(&fleet.booked[0]), 0);
	assert_false(fleet.booked[0].muster.cure.cures);
	assert_int_equal(moved(&fleet.booked[1]), 2);
	assert_true(fleet.booked[1].muster.cure.cures);
}

/* Two go to Avocet for June. They are aboard in July, so that nothing more is needed for two
 * persons then, and for the four in August two more are. Three of the seven are left, for
 * Bittern in September. */
TEST(what_is_moved_for_one_booking_is_aboard_in_her_others)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	(void)add_rockets(&fleet, STORE, 7, "2030");
	book(&fleet, 0, "2027-06-05", "2027-06-12", 2);
	book(&fleet, 0, "2027-07-03", "2027-07-10", 2);
	book(&fleet, 0, "2027-08-07", "2027-08-14", 4);
	book(&fleet, 1, "2027-09-04", "2027-09-11", 3);
	muster(&fleet);
	static const int MOVED[] = {2, 0, 2, 3};
	for (size_t i = 0; i < 4; i++) {
		assert_int_equal(moved(&fleet.booked[i]), MOVED[i]);
		assert_true(fleet.booked[i].muster.cure.cures);
		assert_true(fleet.booked[i].muster.cure.fewest);
		assert_int_equal(fleet.booked[i].cured_by_others, i == 1);
		assert_int_equal(booked_rank(&fleet.booked[i]), BOOKED_CURED);
	}
}

/* Two go to Bittern for June, then two to Avocet for July, which are aboard in her August. */
TEST(what_was_moved_to_another_before_does_not_hide_what_was_moved_to_her)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	(void)add_rockets(&fleet, STORE, 6, "2030");
	book(&fleet, 0, "2027-07-03", "2027-07-10", 2);
	book(&fleet, 0, "2027-08-07", "2027-08-14", 2);
	book(&fleet, 1, "2027-06-05", "2027-06-12", 2);
	muster(&fleet);
	static const int MOVED[] = {2, 0, 2};
	for (size_t i = 0; i < 3; i++) {
		assert_int_equal(moved(&fleet.booked[i]), MOVED[i]);
		assert_int_equal(fleet.booked[i].cured_by_others, i == 1);
	}
}

/* Three in store. Avocet's four in June can't all have one, Bittern's two in August can: those
 * first, and the one that is left goes to Avocet. */
TEST(who_can_be_made_whole_comes_first_and_others_get_what_is_left)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	(void)add_rockets(&fleet, STORE, 3, "2030");
	book(&fleet, 0, "2027-06-05", "2027-06-12", 4);
	book(&fleet, 1, "2027-08-07", "2027-08-14", 2);
	muster(&fleet);
	assert_int_equal(moved(&fleet.booked[0]), 1);
	assert_int_equal(booked_rank(&fleet.booked[0]), BOOKED_SHORT);
	assert_int_equal(moved(&fleet.booked[1]), 2);
	assert_int_equal(booked_rank(&fleet.booked[1]), BOOKED_CURED);
}

/* Rockets marked to the end of June: on the last day of a booking that ends then nothing lapses
 * before she returns; on one that ends on 3 July two lots do, and she is short from the 1st. */
TEST(what_lapses_before_she_returns_is_counted_from_its_last_day)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	(void)add_rockets(&fleet, 0, 1, "2027-06");
	(void)add_rockets(&fleet, 0, 1, "2027-06");
	book(&fleet, 0, "2027-06-23", "2027-06-30", 2);
	book(&fleet, 0, "2027-06-30", "2027-07-03", 2);
	muster(&fleet);
	assert_true(fleet.booked[0].muster.ok);
	assert_int_equal(booked_lapses(&fleet.booked[0]), 0);
	assert_false(fleet.booked[1].muster.ok);
	assert_int_equal(fleet.booked[1].muster.first_short, day_of("2027-07-01"));
	assert_int_equal(booked_lapses(&fleet.booked[1]), 2);
}

/* Bittern is fine in May; short for good in July and in June; Avocet's persons are not known. */
TEST(the_worst_come_first_and_of_those_the_soonest)
{
	static const enum booked_rank RANKS[] = {
	    BOOKED_SHORT, BOOKED_SHORT, BOOKED_NOT_TOLD, BOOKED_FINE};

	static const char *const FIRSTS[] = {
	    "2027-06-05", "2027-07-03", "2027-04-03", "2027-05-01"};
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	fleet.use[0][0].persons = 0;
	(void)add_rockets(&fleet, 1, 2, "2027-05");
	book(&fleet, 0, "2027-04-03", "2027-04-10", 0);
	book(&fleet, 1, "2027-05-01", "2027-05-08", 2);
	book(&fleet, 1, "2027-06-05", "2027-06-12", 2);
	book(&fleet, 1, "2027-07-03", "2027-07-10", 2);
	muster(&fleet);
	booked_sort(fleet.booked, fleet.count);
	for (size_t i = 0; i < 4; i++) {
		assert_int_equal(booked_rank(&fleet.booked[i]), RANKS[i]);
		assert_int_equal(fleet.booked[i].booking->days.first, day_of(FIRSTS[i]));
	}
}

/* Of one that runs only what is left is asked about; one that is past, and one after she has
 * left, are not; one in which she leaves is to the day before. */
TEST(what_is_past_and_what_comes_after_she_left_is_not_asked_about)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	fleet.vessels[0].leaves = true;
	fleet.vessels[0].left = day_of("2027-06-01");
	book(&fleet, 0, "2026-11-01", "2026-11-24", 2);
	book(&fleet, 0, "2026-11-24", "2026-11-28", 2);
	book(&fleet, 0, "2027-05-28", "2027-06-04", 2);
	book(&fleet, 0, "2027-06-05", "2027-06-12", 2);
	muster(&fleet);
	assert_int_equal(fleet.count, 2);
	assert_int_equal(fleet.booked[0].days.first, day_of("2026-11-25"));
	assert_int_equal(fleet.booked[0].days.last, day_of("2026-11-28"));
	assert_int_equal(fleet.booked[1].days.first, day_of("2027-05-28"));
	assert_int_equal(fleet.booked[1].days.last, day_of("2027-05-31"));
}

/* Both begin on one day, and there are spares for one: the boat that stands first in the
 * book has them. */
TEST(of_bookings_of_one_day_the_first_boats_is_served_first)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	add_rockets(&fleet, STORE, 2, "2029-03");
	book(&fleet, 0, "2027-06-05", "2027-06-12", 2);
	book(&fleet, 1, "2027-06-05", "2027-06-12", 2);
	muster(&fleet);
	assert_int_equal(fleet.count, 2);
	assert_int_equal(moved(&fleet.booked[0]), 2);
	assert_int_equal(moved(&fleet.booked[1]), 0);
}

/* A book without boats: nothing is copied from nowhere, which the sanitizers would tell. */
TEST(without_boats_there_is_nothing_to_muster)
{
	const struct inventory inventory = {0};
	const struct due_engine engine = {.inventory = &inventory};
	struct arena arena = {0};
	struct booked none = {.vessel = 7};
	muster_bookings(&engine, &none, 0, &arena);
	assert_int_equal(booked_while_here(&inventory, &none, 0), 0);
	assert_int_equal(none.vessel, 7);
	assert_null(none.muster.lines);
	arena_clear(&arena);
}

/* The one boat in the book, without a store: three are booked, and for three it is counted. */
TEST(one_boat_alone_is_mustered_for_her_booking)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	fleet.scene.inventory.vessel_count = 1;
	add_rockets(&fleet, 0, 2, "2029-03");
	book(&fleet, 0, "2027-06-05", "2027-06-12", 3);
	muster(&fleet);
	assert_int_equal(fleet.count, 1);
	assert_int_equal(need_of(&fleet.booked[0]), 3);
	assert_false(fleet.booked[0].muster.ok);
}

/* Her second line can't be told. */
TEST(a_booking_of_which_any_line_is_not_told_is_not_told)
{
	static const struct booking JUNE = {.persons = 2, .note = ""};
	struct muster_line lines[] = {{.asks = ""}, {.asks = "persons"}};
	struct booked booked = {.booking = &JUNE,
	    .muster = {.has_lines = true, .lines = lines, .line_count = 2}};
	assert_int_equal(booked_rank(&booked), BOOKED_NOT_TOLD);
	booked.muster.shortage_count = 1;
	booked.muster.cure.cures = true;
	assert_int_equal(booked_rank(&booked), BOOKED_NOT_TOLD);
	lines[1].asks = "";
	assert_int_equal(booked_rank(&booked), BOOKED_CURED);
	booked.muster.cure.cures = false;
	assert_int_equal(booked_rank(&booked), BOOKED_SHORT);
	booked.muster.ok = true;
	booked.muster.shortage_count = 0;
	assert_int_equal(booked_rank(&booked), BOOKED_FINE);
	booked.muster.ok = false;
	booked.muster.has_lines = false;
	booked.muster.line_count = 0;
	assert_int_equal(booked_rank(&booked), BOOKED_NOT_TOLD);
	/* of no line that holds nothing is told, nor of the second when the first asks */
	booked.muster.has_lines = true;
	booked.muster.shortage_count = 1;
	booked.muster.cure.cures = true;
	assert_int_equal(booked_rank(&booked), BOOKED_NOT_TOLD);
	lines[0].asks = "persons";
	booked.muster.line_count = 2;
	assert_int_equal(booked_rank(&booked), BOOKED_NOT_TOLD);
	/* not all right and nothing short */
	lines[0].asks = "";
	booked.muster.shortage_count = 0;
	assert_int_equal(booked_rank(&booked), BOOKED_NOT_TOLD);
}

/* Two lots go to her for June, and both are aboard in July. */
TEST(each_lot_that_was_moved_is_aboard_in_her_next)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	(void)add_rockets(&fleet, STORE, 1, "2030");
	(void)add_rockets(&fleet, STORE, 1, "2031");
	book(&fleet, 0, "2027-06-05", "2027-06-12", 2);
	book(&fleet, 0, "2027-07-03", "2027-07-10", 2);
	muster(&fleet);
	assert_int_equal(moved(&fleet.booked[0]), 2);
	assert_int_equal(moved(&fleet.booked[1]), 0);
	assert_true(fleet.booked[1].cured_by_others);
}

/* Of one day and of one rank the boat that stands first in the book comes first, in
 * whatever order they came. */
TEST(bookings_of_one_day_come_by_boat)
{
	const struct booking june = {
	    {day_of("2027-06-05"), day_of("2027-06-12")}, 2, 0, ""};
	for (size_t turned = 0; turned < 2; turned++) {
		struct booked booked[2] = {{.booking = &june, .vessel = turned},
		    {.booking = &june, .vessel = 1 - turned}};
		booked_sort(booked, 2);
		assert_int_equal(booked[0].vessel, 0);
		assert_int_equal(booked[1].vessel, 1);
	}
}

RUN_TESTS(NULL, NULL)
