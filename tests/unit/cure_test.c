/* What lapses next, what is short when, and the spares that cure it. */
#include "becket_test.h"
#include "draw.h"
#include "muster/muster.h"
#include "scene.h"

#include <string.h>

/* Two lines of tethers and jackstays, a group of alternatives; a tether lasts 12 months. */
static const char SHEET[] =
    "  - id: a\n    kinds: [tether, jackstay, danbuoy-inflatable]\n    task: renew\n"
    "    doer: owner\n    grade: law\n    clocks:\n      - from: [made]\n"
    "        months: 12\n    source: invented\n    standing: memory\n"
    "carriage:\n"
    "  - id: t\n    title: Tethers\n    need: {points: 3}\n    serves:\n"
    "      - {kinds: [tether], points: 1}\n      - {kinds: [jackstay], points: 2}\n"
    "    source: invented\n    standing: memory\n"
    "  - id: j\n    title: Jackstays\n    need: {points: 1}\n    serves:\n"
    "      - {kinds: [jackstay], points: 1}\n    any-of: g\n"
    "    source: invented\n    standing: memory\n"
    "  - id: d\n    title: Danbuoy\n    need: {points: 1}\n    serves:\n"
    "      - {kinds: [danbuoy-inflatable], points: 1}\n    any-of: g\n"
    "    source: invented\n    standing: memory\n";

/* What does not simply add up: rafts of which the largest may be lost, and jackstays of which
 * no more than two points count; either may be the first of what is short. */
#define LIMITS_RULES                                                                     \
	"  - id: a\n    kinds: [tether, jackstay, liferaft-canister]\n    task: renew\n" \
	"    doer: owner\n    grade: law\n    clocks:\n      - from: [made]\n"           \
	"        months: 12\n    source: invented\n    standing: memory\n"               \
	"carriage:\n"
#define LIMITS_RAFTS                                                                     \
	"  - id: r\n    title: Rafts\n    need: {points: 8, without-largest: yes}\n"     \
	"    serves:\n      - {kinds: [liferaft-canister], points: capacity}\n"          \
	"    source: invented\n    standing: memory\n"
#define LIMITS_TETHERS                                                                   \
	"  - id: t\n    title: Tethers\n    need: {points: 4}\n    serves:\n"            \
	"      - {kinds: [tether], points: 1}\n"                                         \
	"      - {kinds: [jackstay], points: 2, at-most: 2}\n"                           \
	"    source: invented\n    standing: memory\n"
static const char *const LIMITS[] = {
    LIMITS_RULES LIMITS_RAFTS LIMITS_TETHERS, LIMITS_RULES LIMITS_TETHERS LIMITS_RAFTS};

enum { BOAT, STORE, ELSEWHERE, VESSELS };

/* A boat, the store of her base and that of another. */
struct base {
	struct scene scene;
	struct vessel vessels[VESSELS];
	const struct rulebook *rulebooks[VESSELS];
};

static void
open_base_of(struct base *base, const char *sheet)
{
	static const char *const NAMES[] = {"Boat", "Spares", "Spares elsewhere"};
	static const char *const BASES[] = {"Holm Quay", "Holm Quay", "Elsewhere"};
	scene_open(&base->scene, sheet);
	for (int i = 0; i < VESSELS; i++) {
		base->vessels[i] = base->scene.vessel;
		base->vessels[i].name = NAMES[i];
		base->vessels[i].base = BASES[i];
		base->vessels[i].store = i != BOAT;
		base->rulebooks[i] = base->scene.rulebook;
	}
	base->scene.inventory.vessels = base->vessels;
	base->scene.inventory.vessel_count = VESSELS;
}

static void
open_base(struct base *base)
{
	open_base_of(base, SHEET);
}

/* Items must come in the order of the vessels. */
static struct item *
add(struct base *base, size_t vessel, const char *kind, int quantity, const char *made)
{
	struct item *item = scene_item(&base->scene, kind);
	item->vessel = vessel;
	item->quantity = quantity;
	item->made = stamp_of(made);
	return item;
}

static struct muster
muster_of(struct base *base, const char *from, const char *to)
{
	struct muster muster = {0};
	struct scene *scene = &base->scene;
	scene_engine(scene);
	scene->engine.rulebooks = base->rulebooks;
	muster_vessel(&scene->engine, BOAT, (struct span){day_of(from), day_of(to)},
	    &scene->arena, &muster);
	muster_cure(&scene->engine, &muster, 1, &scene->arena);
	return muster;
}

/* Tethers made 10 Jan, 10 Mar and 10 May 2026 and a danbuoy of 10 Feb: each is good for
 * twelve months. Three tethers are just enough, so that the first one missing makes her short. */
TEST(what_lapses_next_is_told_in_order_and_whether_it_makes_her_short)
{
	CLOSES_SCENE struct base base;
	open_base(&base);
	add(&base, BOAT, "tether", 1, "2026-05-10");
	add(&base, BOAT, "tether", 1, "2026-01-10");
	add(&base, BOAT, "danbuoy-inflatable", 1, "2026-02-10");
	add(&base, BOAT, "tether", 2, "2026-03-10");
	add(&base, BOAT, "jackstay", 1, "2025-01-10"); /* lapsed already */
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");

	static const struct {
		size_t item;
		const char *last;
		bool makes_short;
	} ROWS[] = {{1, "2027-01-10", false}, {2, "2027-02-10", true},
	    {3, "2027-03-10", true}, {0, "2027-05-10", true}};

	assert_true(muster.ok);
	assert_int_equal(muster.good_through, day_of("2027-02-10"));
	assert_int_equal(muster.lapse_count, sizeof ROWS / sizeof ROWS[0]);
	for (size_t i = 0; i < muster.lapse_count; i++) {
		assert_int_equal(muster.lapses[i].item, ROWS[i].item);
		assert_int_equal(muster.lapses[i].last, day_of(ROWS[i].last));
		assert_int_equal(muster.lapses[i].makes_short, ROWS[i].makes_short);
	}
}

/* The same boat over a season: the group from 11 Feb, the tethers of which 2 are left from
 * 11 Jan (4 less 1 is 3, enough), 1 from 11 Mar, none from 11 May. */
TEST(every_line_that_falls_short_is_told_with_its_first_day_and_its_most)
{
	CLOSES_SCENE struct base base;
	open_base(&base);
	add(&base, BOAT, "tether", 1, "2026-05-10");
	add(&base, BOAT, "tether", 1, "2026-01-10");
	add(&base, BOAT, "danbuoy-inflatable", 1, "2026-02-10");
	add(&base, BOAT, "tether", 2, "2026-03-10");
	struct muster muster = muster_of(&base, "2026-11-25", "2027-04-30");
	assert_false(muster.ok);
	assert_int_equal(muster.first_short, day_of("2027-02-11"));
	assert_int_equal(muster.shortage_count, 3);

	static const struct {
		const char *line;
		const char *from;
		int most;
	} ROWS[] = {
	    {"j", "2027-02-11", 1}, {"d", "2027-02-11", 1}, {"t", "2027-03-11", 2}};

	for (size_t i = 0; i < 3; i++) {
		assert_string_equal(muster.shortages[i].line->id, ROWS[i].line);
		assert_int_equal(muster.shortages[i].from, day_of(ROWS[i].from));
		assert_int_equal(muster.shortages[i].most, ROWS[i].most);
	}
	/* One day more than the last tether: short of all three. */
	muster = muster_of(&base, "2026-11-25", "2027-05-11");
	assert_int_equal(muster.shortages[2].most, 3);
}

/* One tether privately, two in charter; she has one. Charter from 1 June to the end of
 * September: counted on every day around both switches, and over spans that touch them. */
TEST(a_need_follows_the_use_on_every_day_around_both_switches)
{
	static const char LINES[] =
	    "  - id: a\n    kinds: [tether]\n    task: renew\n    doer: owner\n"
	    "    grade: law\n    clocks:\n      - from: [made]\n        months: 120\n"
	    "    source: invented\n    standing: memory\n"
	    "carriage:\n"
	    "  - id: p\n    title: P\n    when: {use: private}\n"
	    "    need: {points: 1}\n    serves:\n      - {kinds: [tether], points: 1}\n"
	    "    source: invented\n    standing: memory\n"
	    "  - id: c\n    title: C\n    when: {use: commercial}\n"
	    "    need: {points: 2}\n    serves:\n      - {kinds: [tether], points: 1}\n"
	    "    source: invented\n    standing: memory\n";

	static const struct {
		const char *from;
		const char *to;
		const char *first_short; /* NULL when she is all right */
		const char *line;        /* the one that holds on the day that is shown */
	} ROWS[] = {
	    {"2027-05-31", "2027-05-31", NULL, "p"},
	    {"2027-06-01", "2027-06-01", "2027-06-01", "c"},
	    {"2027-06-02", "2027-06-02", "2027-06-02", "c"},
	    {"2027-09-29", "2027-09-29", "2027-09-29", "c"},
	    {"2027-09-30", "2027-09-30", "2027-09-30", "c"},
	    {"2027-10-01", "2027-10-01", NULL, "p"},
	    {"2027-05-01", "2027-05-31", NULL, "p"},
	    {"2027-05-01", "2027-06-01", "2027-06-01", "c"},
	    {"2027-09-30", "2027-10-31", "2027-09-30", "c"},
	    {"2027-10-01", "2028-10-31", NULL, "p"},
	};

	CLOSES_SCENE struct base base;
	open_base(&base);
	struct scene *scene = &base.scene;
	scene_close(scene);
	scene_open(scene, LINES);
	scene->periods[1] = (struct period){.from = day_of("2027-06-01"),
	    .use = USE_COMMERCIAL,
	    .area = "",
	    .says = SAYS_USE};
	scene->periods[2] = (struct period){.from = day_of("2027-10-01"),
	    .use = USE_PRIVATE,
	    .area = "",
	    .says = SAYS_USE};
	scene->vessel.period_count = 3;
	for (int i = 0; i < VESSELS; i++) {
		base.vessels[i].periods = scene->periods;
		base.vessels[i].period_count = 3;
		base.rulebooks[i] = scene->rulebook;
	}
	scene->inventory.vessels = base.vessels;
	scene->inventory.vessel_count = VESSELS;
	add(&base, BOAT, "tether", 1, "2026-05");
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct muster muster = muster_of(&base, ROWS[i].from, ROWS[i].to);
		assert_int_equal(muster.ok, ROWS[i].first_short == NULL);
		assert_int_equal(muster.first_short,
		    ROWS[i].first_short == NULL ? DAY_NONE : day_of(ROWS[i].first_short));
		assert_int_equal(muster.line_count, 1);
		assert_string_equal(muster.lines[0].line->id, ROWS[i].line);
	}
	/* Seen from before, she is good through the eve of the switch. */
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_int_equal(muster.good_through, day_of("2027-05-31"));
}

/* Short of three tethers and of the group. A jackstay is worth 2 tethers and meets the group:
 * with one tether that is two pieces; no single piece does. */
TEST(the_fewest_spares_are_found_and_not_the_first_ones)
{
	CLOSES_SCENE struct base base;
	open_base(&base);
	add(&base, STORE, "tether", 1, "2026-06");
	add(&base, STORE, "tether", 1, "2026-06");
	add(&base, STORE, "tether", 1, "2026-06");
	add(&base, STORE, "danbuoy-inflatable", 1, "2026-06");
	add(&base, STORE, "jackstay", 1, "2026-06");
	add(&base, ELSEWHERE, "jackstay", 3, "2026-06");
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_true(muster.cure.cures);
	assert_true(muster.cure.fewest);
	assert_int_equal(muster.cure.count, 2);
	assert_int_equal(muster.cure.moves[0].item, 0);
	assert_int_equal(muster.cure.moves[1].item, 4);
	assert_int_equal(muster.cure.moves[0].quantity, 1);
	assert_int_equal(muster.cure.moves[1].quantity, 1);
}

TEST(a_spare_cures_only_when_it_counts_on_all_the_days)
{
	CLOSES_SCENE struct base base;
	open_base(&base);
	add(&base, BOAT, "danbuoy-inflatable", 1, "2026-06");
	/* good to 10 Jan 2027; lapsed; date not known; in reserve; landed; a part; one day
	 * longer than is asked */
	add(&base, STORE, "jackstay", 2, "2026-01-10");
	add(&base, STORE, "jackstay", 2, "2025-01-10");
	add(&base, STORE, "jackstay", 2, "");
	add(&base, STORE, "jackstay", 2, "2026-06")->state = PLACE_RESERVE;
	add(&base, STORE, "jackstay", 2, "2026-06")->state = PLACE_LANDED;
	add(&base, STORE, "jackstay", 2, "2026-06")->parent = 1;
	struct muster muster = muster_of(&base, "2026-11-25", "2027-01-11");
	assert_int_equal(muster.cure.count, 0);
	assert_false(muster.cure.cures);
	assert_true(muster.cure.fewest);
	muster = muster_of(&base, "2026-11-25", "2027-01-10");
	assert_true(muster.cure.cures);
	assert_int_equal(muster.cure.count, 1);
	assert_int_equal(muster.cure.moves[0].item, 1);
	/* three points at two each */
	assert_int_equal(muster.cure.moves[0].quantity, 2);
}

TEST(a_boat_that_is_not_short_needs_no_spare)
{
	CLOSES_SCENE struct base base;
	open_base(&base);
	add(&base, BOAT, "jackstay", 2, "2026-06");
	add(&base, STORE, "jackstay", 2, "2026-06");
	struct muster muster = muster_of(&base, "2026-11-25", "2026-12-24");
	assert_true(muster.ok);
	assert_int_equal(muster.cure.count, 0);
	assert_int_equal(muster.shortage_count, 0);
}

enum { SPARES = 7 };

/* A choice: so many pieces of each spare. */
struct choice {
	int pieces[SPARES];
	int count;
};

/* The next choice of those there are, as one counts; false after the last. */
static bool
next_choice(const struct base *base, size_t own, struct choice *choice)
{
	for (size_t i = 0; i < SPARES; i++) {
		if (choice->pieces[i] < base->scene.items[own + i].quantity) {
			choice->pieces[i]++;
			choice->count++;
			return true;
		}
		choice->count -= choice->pieces[i];
		choice->pieces[i] = 0;
	}
	return false;
}

/* Moves these pieces aboard and musters: what the cure promises, by doing it. */
static bool
is_ok_with(struct base *base, size_t own, const struct choice *choice, const char *day)
{
	struct base moved = *base;
	struct item *kept = moved.scene.items;
	size_t count = own;
	for (size_t i = 0; i < SPARES; i++) {
		if (choice->pieces[i] > 0) {
			kept[count] = base->scene.items[own + i];
			kept[count].vessel = BOAT;
			kept[count++].quantity = choice->pieces[i];
		}
	}
	moved.scene.inventory.items = moved.scene.items;
	moved.scene.inventory.item_count = count;
	moved.scene.inventory.vessels = moved.vessels;
	moved.scene.arena = (struct arena){0};
	bool ok = muster_of(&moved, day, day).ok;
	arena_clear(&moved.scene.arena);
	return ok;
}

/* How many boats were cured, and with more than one piece. */
struct cured {
	int boats;
	int several;
};

/* The answer for one base against trying every choice of pieces there is. */
static void
expect_the_best(struct base *base, size_t own, struct cured *cured)
{
	enum { NONE = 1000 };

	const char *day = "2026-11-25";
	struct muster muster = muster_of(base, day, day);
	struct choice choice = {0};
	int best = NONE;
	do {
		if (choice.count < best && is_ok_with(base, own, &choice, day)) {
			best = choice.count;
		}
	} while (next_choice(base, own, &choice));
	if (muster.ok) {
		assert_int_equal(best, 0);
		return;
	}
	assert_int_equal(muster.cure.cures, best < NONE);
	if (!muster.cure.cures) {
		return;
	}
	struct choice moved = {0};
	for (size_t i = 0; i < muster.cure.count; i++) {
		const struct muster_move *move = &muster.cure.moves[i];
		moved.pieces[move->item - own] += move->quantity;
		moved.count += move->quantity;
		assert_in_range(
		    move->quantity, 1, base->scene.items[move->item].quantity);
	}
	assert_true(muster.cure.fewest);
	assert_int_equal(moved.count, best);
	assert_true(is_ok_with(base, own, &moved, day));
	cured->boats++;
	cured->several += best > 1 ? 1 : 0;
}

TEST(no_choice_of_spares_does_with_fewer)
{
	static const char *const KINDS[] = {"tether", "jackstay", "danbuoy-inflatable"};
	unsigned seed = 20261125;
	struct cured cured = {0};
	for (int round = 0; round < 120; round++) {
		CLOSES_SCENE struct base base;
		open_base(&base);
		for (unsigned i = draw(&seed, 3); i > 0; i--) {
			add(&base, BOAT, KINDS[draw(&seed, 3)], 1, "2026-06");
		}
		size_t own = base.scene.item_count;
		for (int i = 0; i < SPARES; i++) {
			add(&base, STORE, KINDS[draw(&seed, 3)], 1 + (int)draw(&seed, 2),
			    draw(&seed, 3) == 0 ? "2025-01" : "2026-06");
		}
		expect_the_best(&base, own, &cured);
	}
	assert_true(cured.boats > 30 && cured.several > 10);
}

/* A boat without a raft needs two for eight, for one may be lost. */
TEST(spares_that_do_not_simply_add_up_are_tried)
{
	static const char *const KINDS[] = {"tether", "jackstay", "liferaft-canister"};
	static const int CAPACITIES[] = {4, 6, 8, 12};
	unsigned seed = 20261126;
	struct cured cured = {0};
	for (int round = 0; round < 120; round++) {
		CLOSES_SCENE struct base base;
		open_base_of(&base, LIMITS[round % 2]);
		size_t own = draw(&seed, 3);
		for (size_t i = 0; i < own + SPARES; i++) {
			struct item *item = add(&base, i < own ? BOAT : STORE,
			    KINDS[draw(&seed, 3)], 1 + (int)draw(&seed, 2), "2026-06");
			item->capacity = CAPACITIES[draw(&seed, 4)];
		}
		expect_the_best(&base, own, &cured);
	}
	assert_true(cured.boats > 30 && cured.several > 30);
}

#define MANY_RAFTS                                                                       \
	"  - id: r\n    title: Rafts\n    need: {points: 496}\n    serves:\n"            \
	"      - {kinds: [liferaft-canister], points: capacity}\n"                       \
	"    source: invented\n    standing: memory\n"
#define EITHER                                                                           \
	"  - id: d\n    title: Danbuoy\n    need: {points: 100}\n    any-of: g\n"        \
	"    serves:\n      - {kinds: [danbuoy-inflatable], points: 100}\n"              \
	"    source: invented\n    standing: memory\n"                                   \
	"  - id: e\n    title: Beacons\n    need: {points: 900}\n    any-of: g\n"        \
	"    serves:\n      - {kinds: [epirb], points: capacity}\n"                      \
	"    source: invented\n    standing: memory\n"

/* Forty rafts for 11 to 50 persons, each a capacity of its own, and 496 places needed:
 * the eleven largest make 495, and for the one place that is left the first of the others
 * does. The ways to take some are far more than are looked at, so that the most useful
 * are taken and nobody says they are the fewest. A jackstay and two tethers close the
 * tethers' line of 4; a third tether would be of no use, nor is a harness; and once a
 * danbuoy does for a group, a beacon, the other way of it, is of none. Whichever line
 * comes first. */
TEST(where_there_are_too_many_choices_the_most_useful_spares_are_taken)
{
	static const char *const SHEETS[] = {
	    LIMITS_RULES LIMITS_TETHERS MANY_RAFTS EITHER,
	    LIMITS_RULES MANY_RAFTS EITHER LIMITS_TETHERS};
	for (size_t order = 0; order < 2; order++) {
		CLOSES_SCENE struct base base;
		open_base_of(&base, SHEETS[order]);
		add(&base, STORE, "jackstay", 2, "2026-06");
		for (int i = 0; i < 3; i++) {
			add(&base, STORE, "tether", 1, "2026-06");
		}
		for (int capacity = 11; capacity <= 50; capacity++) {
			add(&base, STORE, "liferaft-canister", 1, "2026-06")->capacity =
			    capacity;
		}
		add(&base, STORE, "harness", 1, "2026-06");
		add(&base, STORE, "epirb", 1, "2026-06")->capacity = 60;
		add(&base, STORE, "danbuoy-inflatable", 1, "2026-06");
		struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
		assert_true(muster.cure.cures);
		assert_false(muster.cure.fewest);
		size_t rafts = 0;
		size_t tethers = 0;
		for (size_t i = 0; i < muster.cure.count; i++) {
			const struct muster_move *move = &muster.cure.moves[i];
			const struct item *item = &base.scene.inventory.items[move->item];
			rafts += strncmp(item->kind, "liferaft", 8) == 0 &&
				 (item->capacity >= 40 || item->capacity == 11);
			tethers += strcmp(item->kind, "tether") == 0;
			assert_string_not_equal(item->kind, "epirb");
		}
		assert_int_equal(rafts, 12);
		assert_int_equal(tethers, 2);
		assert_int_equal(muster.cure.count, 16);
	}
}

/* Four points of tethers are wanted and there are none; of jackstays, two points each, no
 * more than two count. Of two in the store one makes less missing, and the other nothing:
 * it stays there. With such a limit that no fewer would do is not said. */
TEST(of_spares_that_help_in_part_none_goes_that_does_not)
{
	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct base base;
		open_base_of(&base, LIMITS[i]);
		add(&base, STORE, "jackstay", 2, "2026-10-01");
		struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
		assert_false(muster.ok);
		assert_false(muster.cure.cures);
		assert_int_equal(muster.cure.count, 1);
		assert_int_equal(muster.cure.moves[0].quantity, 1);
		assert_false(muster.cure.fewest);
	}
}

#define LIMITS_DANBUOY                                                                   \
	"  - id: d\n    title: Danbuoy\n    need: {points: 1}\n"                         \
	"    serves:\n      - {kinds: [danbuoy-inflatable], points: 1}\n"                \
	"    source: invented\n    standing: memory\n"

/* No danbuoy is to be had; a jackstay and two tethers close the other line, and fewer would not. */
TEST(what_meets_one_line_is_the_fewest_though_another_can_not_be_met)
{
	CLOSES_SCENE struct base base;
	open_base_of(&base, LIMITS_RULES LIMITS_DANBUOY LIMITS_TETHERS);
	add(&base, STORE, "jackstay", 2, "2026-10-01");
	add(&base, STORE, "tether", 2, "2026-10-01");
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_false(muster.cure.cures);
	assert_true(muster.cure.fewest);
	assert_int_equal(muster.cure.count, 2);
	assert_int_equal(muster.cure.moves[0].quantity, 1);
	assert_int_equal(muster.cure.moves[1].quantity, 2);
}

/* Whichever of the lines that are short has the limit. */
TEST(with_a_limit_on_any_line_the_fewest_are_not_said_of_a_part)
{
	static const char *const SHEETS[] = {LIMITS_RULES LIMITS_DANBUOY LIMITS_TETHERS,
	    LIMITS_RULES LIMITS_TETHERS LIMITS_DANBUOY};
	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct base base;
		open_base_of(&base, SHEETS[i]);
		add(&base, STORE, "jackstay", 2, "2026-10-01");
		struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
		assert_int_equal(muster.shortage_count, 2);
		assert_int_equal(muster.cure.count, 1);
		assert_int_equal(muster.cure.moves[0].quantity, 1);
		assert_false(muster.cure.cures);
		assert_false(muster.cure.fewest);
	}
}

/* A danbuoy, two points of tethers by a jackstay, of which no second one counts, and two
 * tethers: four pieces. Two jackstays would seem to do. The line with the limit is the
 * first or the second of what is short. */
TEST(a_limit_on_any_line_is_found_by_trial)
{
	static const char *const SHEETS[] = {LIMITS_RULES LIMITS_DANBUOY LIMITS_TETHERS,
	    LIMITS_RULES LIMITS_TETHERS LIMITS_DANBUOY};
	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct base base;
		open_base_of(&base, SHEETS[i]);
		add(&base, STORE, "jackstay", 2, "2026-10-01");
		add(&base, STORE, "tether", 2, "2026-10-01");
		add(&base, STORE, "danbuoy-inflatable", 1, "2026-10-01");
		struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
		assert_true(muster.cure.cures && muster.cure.fewest);
		assert_int_equal(muster.cure.count, 3);
		assert_int_equal(muster.cure.moves[0].quantity, 1);
		assert_int_equal(muster.cure.moves[1].quantity, 2);
		assert_int_equal(muster.cure.moves[2].quantity, 1);
	}
}

/* Twelve of twenty-four tethers, each an item of its own, behind a danbuoy: which twelve
 * is all the same, so that they are no 2,704,156 choices and the fewest are found. */
TEST(twins_need_not_be_the_first_of_the_store)
{
	CLOSES_SCENE struct base base;
	open_base_of(&base, LIMITS_RULES LIMITS_DANBUOY
	    "  - id: t\n    title: Tethers\n    need: {points: 12}\n"
	    "    serves:\n      - {kinds: [tether], points: 1}\n"
	    "    source: invented\n    standing: memory\n");
	add(&base, STORE, "danbuoy-inflatable", 1, "2026-10-01");
	for (int i = 0; i < 24; i++) {
		add(&base, STORE, "tether", 1, "2026-10-01");
	}
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_true(muster.cure.cures && muster.cure.fewest);
	assert_int_equal(muster.cure.count, 13);
}

/* Two jackstays or a danbuoy: with one jackstay there is no way, and half of one is worth
 * no more than none. */
TEST(for_alternatives_of_which_none_can_be_met_nothing_is_moved)
{
	CLOSES_SCENE struct base base;
	open_base_of(&base,
	    LIMITS_RULES "  - id: j\n    title: Jackstays\n    need: {points: 2}\n"
			 "    serves:\n      - {kinds: [jackstay], points: 1}\n"
			 "    any-of: g\n    source: invented\n    standing: memory\n"
			 "  - id: d\n    title: Danbuoy\n    need: {points: 1}\n"
			 "    serves:\n      - {kinds: [danbuoy-inflatable], points: 1}\n"
			 "    any-of: g\n    source: invented\n    standing: memory\n");
	add(&base, STORE, "jackstay", 1, "2026-10-01");
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_false(muster.cure.cures);
	assert_int_equal(muster.cure.count, 0);
}

/* By common practice it should be renewed after a year: it counts, and so it may be lent.
 * An engine without parts has no index of them. */
TEST(a_spare_that_is_remarked_on_may_be_lent)
{
	CLOSES_SCENE struct base base;
	struct muster muster = {0};
	open_base_of(&base,
	    "  - id: a\n    kinds: [jackstay]\n    task: renew\n    doer: owner\n"
	    "    grade: practice\n    clocks:\n      - {from: [made], months: 12}\n"
	    "    source: invented\n    standing: memory\n"
	    "carriage:\n"
	    "  - id: j\n    title: Jackstays\n    need: {points: 1}\n    serves:\n"
	    "      - {kinds: [jackstay], points: 1}\n"
	    "    source: invented\n    standing: memory\n");
	add(&base, STORE, "jackstay", 1, "2020-10-01");
	struct scene *scene = &base.scene;
	scene_engine(scene);
	scene->engine.rulebooks = base.rulebooks;
	day_t day = day_of("2026-11-25");
	muster_vessel(
	    &scene->engine, BOAT, (struct span){day, day}, &scene->arena, &muster);
	muster_cure(&scene->engine, &muster, 1, &scene->arena);
	assert_true(muster.cure.cures);
	assert_int_equal(muster.cure.count, 1);
}

/* A boat that lies nowhere has no store. */
TEST(without_a_base_nothing_is_lent)
{
	CLOSES_SCENE struct base base;
	open_base(&base);
	add(&base, STORE, "jackstay", 2, "2026-06");
	add(&base, STORE, "danbuoy-inflatable", 1, "2026-06");
	base.vessels[BOAT].base = "";
	base.vessels[STORE].base = "";
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_false(muster.cure.cures);
	assert_int_equal(muster.cure.count, 0);
}

/* At the galley one is wanted, and two in all: the one in the saloon does not do for the
 * other, though it is of the same kind. */
TEST(spares_that_differ_in_their_place_are_no_twins)
{
	CLOSES_SCENE struct base base;
	open_base_of(&base,
	    LIMITS_RULES "  - id: g\n    title: Galley\n    need: {points: 1}\n"
			 "    places: [galley]\n"
			 "    serves:\n      - {kinds: [jackstay], points: 1}\n"
			 "    source: invented\n    standing: memory\n"
			 "  - id: a\n    title: All\n    need: {points: 2}\n"
			 "    serves:\n      - {kinds: [jackstay], points: 1}\n"
			 "    source: invented\n    standing: memory\n");
	static const char *const PLACES[] = {"saloon", "saloon", "galley"};
	for (size_t i = 0; i < 3; i++) {
		add(&base, STORE, "jackstay", 1, "2026-06")->place = PLACES[i];
	}
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_true(muster.cure.cures && muster.cure.fewest);
	assert_int_equal(muster.cure.count, 2);
	assert_int_equal(muster.cure.moves[0].item, 0);
	assert_int_equal(muster.cure.moves[1].item, 2);
}

/* Four points of tethers: of jackstays, one point each, no more than one counts. Of two
 * jackstays and three tethers in the store one of the first and all of the second do; two
 * jackstays, which come first, would not. */
TEST(a_limit_of_one_is_a_limit)
{
	CLOSES_SCENE struct base base;
	open_base_of(&base,
	    LIMITS_RULES "  - id: t\n    title: Tethers\n    need: {points: 4}\n"
			 "    serves:\n      - {kinds: [tether], points: 1}\n"
			 "      - {kinds: [jackstay], points: 1, at-most: 1}\n"
			 "    source: invented\n    standing: memory\n");
	add(&base, STORE, "jackstay", 2, "2026-10-01");
	add(&base, STORE, "tether", 3, "2026-10-01");
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_true(muster.cure.cures && muster.cure.fewest);
	assert_int_equal(muster.cure.count, 2);
	assert_int_equal(muster.cure.moves[0].quantity, 1);
	assert_int_equal(muster.cure.moves[1].quantity, 3);
}

/* Two of two are wanted; that they are of different ratings does not make the second one
 * less worth. */
TEST(spares_of_different_ratings_are_both_taken)
{
	CLOSES_SCENE struct base base;
	open_base_of(&base,
	    LIMITS_RULES "  - id: e\n    title: Extinguishers\n    need: {points: 2}\n"
			 "    serves:\n      - {kinds: [extinguisher-foam], points: 1}\n"
			 "    source: invented\n    standing: memory\n");
	add(&base, STORE, "extinguisher-foam", 1, "2026-06")->rating = "5-B";
	add(&base, STORE, "extinguisher-foam", 1, "2026-06")->rating = "20-B";
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_true(muster.cure.cures && muster.cure.fewest);
	assert_int_equal(muster.cure.count, 2);
}

/* Forty rafts as above, so that the most useful are taken; a harness is not to be had; of
 * the one way of a group a danbuoy and two lifebuoys are needed together. Twelve rafts,
 * the danbuoy and the lifebuoys. */
TEST(the_most_useful_spares_meet_a_whole_way_and_leave_what_is_hopeless)
{
	CLOSES_SCENE struct base base;
	open_base_of(&base,
	    LIMITS_RULES "  - id: h\n    title: Harnesses\n    need: {points: 1}\n"
			 "    serves:\n      - {kinds: [harness], points: 1}\n"
			 "    source: invented\n    standing: memory\n"
			 "  - id: d\n    title: Danbuoy\n    need: {points: 1}\n"
			 "    any-of: g\n    way: a\n    serves:\n"
			 "      - {kinds: [danbuoy-inflatable], points: 1}\n"
			 "    source: invented\n    standing: memory\n"
			 "  - id: b\n    title: Lifebuoys\n    need: {points: 2}\n"
			 "    any-of: g\n    way: a\n    serves:\n"
			 "      - {kinds: [lifebuoy], points: 1}\n"
			 "    source: invented\n    standing: memory\n" MANY_RAFTS);
	add(&base, STORE, "danbuoy-inflatable", 1, "2026-06");
	add(&base, STORE, "lifebuoy", 2, "2026-06");
	for (int capacity = 11; capacity <= 50; capacity++) {
		add(&base, STORE, "liferaft-canister", 1, "2026-06")->capacity = capacity;
	}
	struct muster muster = muster_of(&base, "2026-11-25", "2026-11-25");
	assert_false(muster.cure.cures);
	assert_false(muster.cure.fewest);
	assert_int_equal(muster.cure.count, 14);
	assert_int_equal(muster.cure.moves[0].item, 0);
	assert_int_equal(muster.cure.moves[1].item, 1);
	assert_int_equal(muster.cure.moves[1].quantity, 2);
}

RUN_TESTS(NULL, NULL)
