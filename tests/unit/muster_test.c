#include "muster/muster.h"

#include "becket_test.h"
#include "draw.h"
#include "scene.h"

#include <string.h>

/* A boat of a length, with the shipped sheet for the United States. */
static void
open_us(struct scene *scene, int length_cm, int persons)
{
	scene_open(scene, "us-recreational.yaml");
	scene->vessel.length_cm = length_cm;
	scene->periods[0].persons = persons;
}

static struct item *
add(struct scene *scene, const char *kind, int quantity, const char *expires)
{
	struct item *item = scene_item(scene, kind);
	item->quantity = quantity;
	item->expires = stamp_of(expires);
	return item;
}

static struct muster
muster_of(struct scene *scene, day_t from, day_t to)
{
	struct muster muster = {0};
	scene_engine(scene);
	muster_vessel(&scene->engine, 0, (struct span){from, to}, &scene->arena, &muster);
	return muster;
}

static struct muster
muster_on(struct scene *scene, const char *day)
{
	return muster_of(scene, day_of(day), day_of(day));
}

/* The line with this id, or NULL when it does not hold. */
static const struct muster_line *
line_of(const struct muster *muster, const char *id)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (strcmp(muster->lines[i].line->id, id) == 0) {
			return &muster->lines[i];
		}
	}
	return NULL;
}

static void
expect(const struct muster *muster, const char *id, int need, int have)
{
	const struct muster_line *line = line_of(muster, id);
	if (line == NULL || line->need != need || line->have != have ||
	    line->missing != (need > have ? need - have : 0)) {
		fail_msg("%s: need %d, have %d, short %d", id, line ? line->need : -1,
		    line ? line->have : -1, line ? line->missing : -1);
	}
}

/* 33 CFR 175.130(b): the two combinations it gives. */
TEST(two_hand_flares_and_a_parachute_flare_meet_day_and_night)
{
	CLOSES_SCENE struct scene scene;
	open_us(&scene, 700, 1);
	add(&scene, "flare-red-hand", 2, "2028-06");
	add(&scene, "flare-red-parachute", 1, "2027-06");
	struct muster muster = muster_on(&scene, "2026-11-25");
	expect(&muster, "us-day-signals", 3, 3);
	expect(&muster, "us-night-signals", 3, 3);
	/* The parachute flare is good to the end of its month. */
	muster = muster_on(&scene, "2027-06-30");
	expect(&muster, "us-day-signals", 3, 3);
	muster = muster_on(&scene, "2027-07-01");
	expect(&muster, "us-day-signals", 3, 2);
	expect(&muster, "us-night-signals", 3, 2);
}

TEST(three_smokes_and_an_electric_light_meet_day_and_night)
{
	CLOSES_SCENE struct scene scene;
	open_us(&scene, 700, 1);
	add(&scene, "smoke-orange-hand", 3, "2028-06");
	struct muster muster = muster_on(&scene, "2026-11-25");
	expect(&muster, "us-day-signals", 3, 3);
	expect(&muster, "us-night-signals", 3, 0);
	add(&scene, "electric-distress-light", 1, "");
	muster = muster_on(&scene, "2026-11-25");
	expect(&muster, "us-night-signals", 3, 3);
}

/* 33 CFR 175.320(a)(1), with 26, 40 and 65 feet at 30.48 cm; whole centimetres. */
TEST(extinguishers_go_by_length)
{
	static const struct {
		int length_cm;
		int need; /* 0 for no line */
	} ROWS[] = {{300, 1}, {488, 1}, {791, 1}, {793, 2}, {1000, 2}, {1218, 2},
	    {1220, 3}, {1981, 3}, {1982, 0}, /* 26 and 40 feet in whole centimetres */
	    {792, 2}, {1219, 3}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		open_us(&scene, ROWS[i].length_cm, 1);
		struct muster muster = muster_on(&scene, "2026-11-25");
		int need = 0;
		size_t held = 0;
		for (size_t j = 0; j < muster.line_count; j++) {
			if (strstr(muster.lines[j].line->id, "extinguishers") != NULL) {
				need = muster.lines[j].need;
				held++;
			}
		}
		assert_int_equal(held, ROWS[i].need == 0 ? 0 : 1);
		assert_int_equal(need, ROWS[i].need);
		bool over_16 = line_of(&muster, "us-throwable") != NULL;
		assert_int_equal(over_16, ROWS[i].length_cm >= 488);
	}
}

TEST(only_what_is_aboard_or_standing_in_counts)
{
	static const int HAVE[PLACE_COUNT] = {[PLACE_ABOARD] = 2, [PLACE_STAND_IN] = 2};
	for (int place = 0; place < PLACE_COUNT; place++) {
		CLOSES_SCENE struct scene scene;
		open_us(&scene, 400, 2);
		add(&scene, "lifejacket-foam", 2, "")->state = (enum place_state)place;
		struct muster muster = muster_on(&scene, "2026-11-25");
		expect(&muster, "us-wearable", 2, HAVE[place]);
	}
}

/* An unmarked hand flare has no rule in this sheet; it is not in date for that. */
TEST(a_flare_without_any_date_never_counts)
{
	CLOSES_SCENE struct scene scene;
	open_us(&scene, 700, 1);
	add(&scene, "flare-red-hand", 3, "");
	struct muster muster = muster_on(&scene, "2026-11-25");
	expect(&muster, "us-day-signals", 3, 0);
	assert_int_equal(line_of(&muster, "us-day-signals")->unknown.count, 1);
}

#define RENEW(grade)                                                                     \
	"  - id: a\n    kinds: [tether]\n    task: renew\n    doer: owner\n"             \
	"    grade: " grade "\n    clocks:\n      - from: [made]\n        months: 12\n"  \
	"    source: invented\n    standing: memory\n"
#define LINE(id, more)                                                                   \
	"  - id: " id "\n    title: T\n" more                                            \
	"    source: invented\n    standing: memory\n"
#define TETHERS "    serves:\n      - {kinds: [tether], points: 1}\n"
#define JACKSTAYS "    serves:\n      - {kinds: [jackstay], points: 1}\n"
#define CARRIAGE "carriage:\n"

TEST(a_lapse_of_common_practice_is_a_remark_and_of_law_a_shortage)
{
	static const struct {
		const char *rules;
		int have;
	} ROWS[] = {
	    {RENEW("practice") CARRIAGE LINE("l", "    need: {points: 1}\n" TETHERS), 1},
	    {RENEW("maker") CARRIAGE LINE("l", "    need: {points: 1}\n" TETHERS), 0},
	    {RENEW("law") CARRIAGE LINE("l", "    need: {points: 1}\n" TETHERS), 0},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, ROWS[i].rules);
		scene_item(&scene, "tether")->made = stamp_of("2025-01-10");
		struct muster muster = muster_on(&scene, "2026-11-25");
		expect(&muster, "l", 1, ROWS[i].have);
		assert_int_equal(muster.lines[0].remarks.count, ROWS[i].have);
		assert_int_equal(muster.lines[0].lapsed.count, 1 - ROWS[i].have);
		muster = muster_on(&scene, "2026-01-10");
		expect(&muster, "l", 1, 1);
		assert_int_equal(muster.lines[0].remarks.count, 0);
		assert_int_equal(muster.good_through,
		    ROWS[i].have == 1 ? DAY_NEVER : day_of("2026-01-10"));
	}
}

/* One is needed of two that run out a day apart: she is short without the second alone. A thing
 * that is worth nothing in the line that falls short takes no part in it, on whatever day. */
TEST(only_the_lapse_that_leaves_a_line_short_makes_her_short)
{
	static const struct {
		const char *kind;
		const char *made;
		bool makes_short;
	} ROWS[] = {{"tether", "2025-12-01", false}, {"tether", "2025-12-02", true},
	    {"jackstay", "2025-12-02", false}, {"jackstay", "2026-06-01", true}};

	SCENE(scene,
	    "  - id: a\n    kinds: [tether, jackstay, harness]\n    task: renew\n    doer: owner\n"
	    "    grade: law\n    clocks:\n      - {from: [made], months: 12}\n"
	    "    source: invented\n    standing: memory\n" CARRIAGE LINE(
		"l", "    need: {points: 1}\n" TETHERS)
		LINE("j", "    need: {points: 1}\n    serves:\n"
			  "      - {kinds: [jackstay], points: 1}\n"));
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		scene_item(&scene, ROWS[i].kind)->made = stamp_of(ROWS[i].made);
	}
	scene_item(&scene, "harness")->made = stamp_of("2025-12-05"); /* in no line */
	struct muster muster = muster_on(&scene, "2026-11-25");
	assert_int_equal(muster.lapse_count, 4);
	for (size_t i = 0; i < 4; i++) {
		assert_int_equal(muster.lapses[i].item, i);
		assert_int_equal(muster.lapses[i].makes_short, ROWS[i].makes_short);
	}
}

/* Her only line holds in the bay alone: at sea nothing counts her tether, so that nobody can say
 * there is enough without it. */
TEST(a_lapse_that_no_line_counts_where_she_sails_is_not_called_enough)
{
	static const struct {
		const char *area;
		bool counted;
		bool makes_short;
	} ROWS[] = {{"bay", true, true}, {"sea", false, false}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene,
		    RENEW("law") CARRIAGE LINE("l",
			"    when: {areas: [bay]}\n    need: {points: 1}\n" TETHERS));
		scene_item(&scene, "tether")->made = stamp_of("2026-01-10");
		scene.periods[0].area = ROWS[i].area;
		struct muster muster = muster_on(&scene, "2026-11-25");
		assert_int_equal(muster.lapse_count, 1);
		assert_int_equal(muster.lapses[0].counted, ROWS[i].counted);
		assert_int_equal(muster.lapses[0].makes_short, ROWS[i].makes_short);
	}
}

/* 11 persons: 11 and a tenth of it, rounded up to 2, and 3 more. */
TEST(a_need_may_go_by_persons_with_a_percentage_and_a_fixed_number)
{
	CLOSES_SCENE struct scene scene;
	scene_open(
	    &scene, RENEW("law") CARRIAGE LINE("l",
			"    need: {per-person: 1, percent: 10, plus: 3}\n" TETHERS));
	struct muster muster = muster_on(&scene, "2026-11-25");
	assert_false(muster.ok);
	assert_string_equal(muster.lines[0].asks, "persons");
	assert_int_equal(muster.good_through, DAY_NONE);
	scene.periods[0].persons = 11;
	muster = muster_on(&scene, "2026-11-25");
	expect(&muster, "l", 16, 0);
	scene.periods[0].persons = 10;
	muster = muster_on(&scene, "2026-11-25");
	expect(&muster, "l", 14, 0);
}

/* Made and fitted on 10 January 2025, by a rule for what is under two years old it is to
 * be renewed after twelve months: out from 11 January 2026 on, and no longer from 10
 * January 2027, when it is two years old. By another it is out for good three years after
 * it was made. */
TEST(a_lapse_ends_on_the_day_on_which_its_rule_does)
{
	CLOSES_SCENE struct scene scene;
	struct spans bad_days = {0};
	scene_open(&scene,
	    "  - id: a\n    kinds: [tether]\n    when: {age-until: 24}\n    task: renew\n"
	    "    doer: owner\n    grade: law\n    clocks:\n"
	    "      - {from: [fitted], months: 12}\n    source: invented\n"
	    "    standing: memory\n"
	    "  - id: b\n    kinds: [tether]\n    task: renew\n    doer: owner\n"
	    "    grade: law\n    clocks:\n      - {from: [made], months: 36}\n"
	    "    source: invented\n    standing: memory\n" CARRIAGE LINE(
		"l", "    need: {points: 1}\n" TETHERS));
	struct item *tether = scene_item(&scene, "tether");
	tether->made = stamp_of("2025-01-10");
	tether->fitted = stamp_of("2025-01-10");
	(void)muster_on(&scene, "2026-11-25");
	muster_short_days(&scene.engine, 0,
	    (struct span){day_of("2025-12-01"), day_of("2028-03-01")}, &scene.arena,
	    &bad_days);
	assert_int_equal(bad_days.count, 2);
	assert_int_equal(bad_days.items[0].first, day_of("2026-01-11"));
	assert_int_equal(bad_days.items[0].last, day_of("2027-01-09"));
	assert_int_equal(bad_days.items[1].first, day_of("2028-01-11"));
	assert_int_equal(bad_days.items[1].last, day_of("2028-03-01"));
}

/* One per cent is a need by persons like any other, and so is one for each. */
TEST(a_need_by_persons_is_asked_for_while_they_are_not_known)
{
	static const struct {
		const char *need;
		const char *asks;
	} ROWS[] = {{"{percent: 1}", "persons"}, {"{per-person: 1}", "persons"},
	    {"{points: 1}", ""}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_TEXT sheet = {0};
		text_add_format(&sheet,
		    RENEW("law") CARRIAGE LINE("l", "    need: %s\n" TETHERS),
		    ROWS[i].need);
		SCENE(scene, text_string(&sheet));
		struct muster muster = muster_on(&scene, "2026-11-25");
		assert_string_equal(muster.lines[0].asks, ROWS[i].asks);
	}
}

/* By hand: a tenth of 1, 10, 11, 20 and 21 persons is 1, 1, 2, 2 and 3 when rounded up; of two for
 * each of five, 10, a quarter is 2.5, so that it is 13; and of three for each of four, 12, it is
 * 3. */
TEST(a_percentage_is_of_the_persons_or_of_what_they_need_and_is_rounded_up)
{
	static const struct {
		const char *need;
		int persons;
		int points;
	} ROWS[] = {
	    {"{percent: 10}", 1, 1},
	    {"{percent: 10}", 10, 1},
	    {"{percent: 10}", 11, 2},
	    {"{percent: 10}", 20, 2},
	    {"{percent: 10}", 21, 3},
	    {"{percent: 10, plus: 2}", 20, 4},
	    {"{per-person: 2, percent: 25}", 5, 13},
	    {"{per-person: 3, percent: 25}", 4, 15},
	    {"{per-person: 1}", 7, 7},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_TEXT sheet = {0};
		text_add_format(&sheet,
		    RENEW("law") CARRIAGE LINE("l", "    need: %s\n" TETHERS),
		    ROWS[i].need);
		SCENE(scene, text_string(&sheet));
		scene.periods[0].persons = ROWS[i].persons;
		struct muster muster = muster_on(&scene, "2026-11-25");
		expect(&muster, "l", ROWS[i].points, 0);
	}
}

/* Lines that hold by her length, the year she was built, her area and her persons, at the edges of
 * each and where it is not known: 1 the line holds, 0 not, -1 it is asked for. A length "below" is
 * not in, a year or a number "until" is. */
TEST(a_condition_holds_up_to_its_edge_and_is_asked_for_when_not_known)
{
	static const struct {
		const char *when;
		int length_cm, built, persons;
		const char *area;
		int holds;
		const char *asks;
	} ROWS[] = {
	    {"{length-from: 8}", 799, 0, 0, "", 0, ""},
	    {"{length-from: 8}", 800, 0, 0, "", 1, ""},
	    {"{length-from: 8}", 0, 0, 0, "", -1, "length"},
	    {"{length-below: 12}", 1199, 0, 0, "", 1, ""},
	    {"{length-below: 12}", 1200, 0, 0, "", 0, ""},
	    {"{length-below: 12}", 0, 0, 0, "", -1, "length"},
	    {"{length-from: 8, length-below: 12}", 1000, 0, 0, "", 1, ""},
	    {"{length-from: 8, length-below: 12}", 0, 0, 0, "", -1, "length"},
	    {"{built-from: 2005}", 0, 2004, 0, "", 0, ""},
	    {"{built-from: 2005}", 0, 2005, 0, "", 1, ""},
	    {"{built-from: 2005}", 0, 0, 0, "", -1, "built"},
	    {"{built-until: 2004}", 0, 2004, 0, "", 1, ""},
	    {"{built-until: 2004}", 0, 2005, 0, "", 0, ""},
	    {"{built-until: 2004}", 0, 0, 0, "", -1, "built"},
	    {"{persons-from: 7}", 0, 0, 6, "", 0, ""},
	    {"{persons-from: 7}", 0, 0, 7, "", 1, ""},
	    {"{persons-from: 7}", 0, 0, 0, "", -1, "persons"},
	    {"{persons-until: 6}", 0, 0, 6, "", 1, ""},
	    {"{persons-until: 6}", 0, 0, 7, "", 0, ""},
	    {"{areas: [bay]}", 0, 0, 0, "bay", 1, ""},
	    {"{areas: [bay]}", 0, 0, 0, "sea", 0, ""},
	    {"{areas: [bay]}", 0, 0, 0, "", -1, "area"},
	    /* what is sure not to hold is not asked about for the rest */
	    {"{length-from: 8, built-from: 2005}", 700, 0, 0, "", 0, ""},
	    {"{length-from: 8, built-from: 2005}", 0, 2004, 0, "", 0, ""},
	    {"{length-from: 8, built-from: 2005}", 0, 2005, 0, "", -1, "length"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_TEXT sheet = {0};
		text_add_format(&sheet,
		    RENEW("law") CARRIAGE LINE(
			"l", "    when: %s\n    need: {points: 1}\n" TETHERS),
		    ROWS[i].when);
		SCENE(scene, text_string(&sheet));
		scene.vessel.length_cm = ROWS[i].length_cm;
		scene.vessel.built = ROWS[i].built;
		scene.periods[0].persons = ROWS[i].persons;
		scene.periods[0].area = ROWS[i].area;
		struct muster muster = muster_on(&scene, "2026-11-25");
		const struct muster_line *line = line_of(&muster, "l");
		if ((line != NULL) != (ROWS[i].holds != 0) ||
		    (line != NULL && strcmp(line->asks, ROWS[i].asks) != 0)) {
			fail_msg("%s with %d, %d, %d, \"%s\": %s", ROWS[i].when,
			    ROWS[i].length_cm, ROWS[i].built, ROWS[i].persons,
			    ROWS[i].area, line == NULL ? "does not hold" : line->asks);
		}
		assert_int_equal(line != NULL && line->missing > 0, ROWS[i].holds == 1);
	}
}

/* Two ways of a group: tethers alone, or a jackstay and a tether together. Half of the second is
 * no way; a line of the group that can't be told is none either. */
TEST(half_of_a_way_is_no_way_and_one_not_told_is_none)
{
	SCENE(scene,
	    RENEW("law") CARRIAGE LINE(
		"l", "    need: {points: 3}\n    any-of: g\n" TETHERS) LINE("m",
		"    need: {points: 1}\n    any-of: g\n    way: w\n" JACKSTAYS)
		LINE("n", "    need: {points: 2}\n    any-of: g\n    way: w\n" TETHERS)
		    LINE("o", "    when: {length-from: 8}\n    need: {points: 1}\n"
			      "    any-of: g\n" TETHERS));
	scene.vessel.length_cm = 0;
	scene_item(&scene, "jackstay");
	struct item *tether = scene_item(&scene, "tether");
	tether->made = stamp_of("2026-10");
	struct muster muster = muster_on(&scene, "2026-11-25");
	assert_false(muster.ok);
	expect(&muster, "l", 3, 1);
	expect(&muster, "m", 1, 1);
	expect(&muster, "n", 2, 1);
	assert_string_equal(line_of(&muster, "o")->asks, "length");
	/* Known to be of eight metres, one tether is a way by itself. */
	scene.vessel.length_cm = 800;
	muster = muster_on(&scene, "2026-11-25");
	assert_true(muster.ok);
	/* Shorter, the second tether makes the second way whole. */
	scene.vessel.length_cm = 700;
	muster = muster_on(&scene, "2026-11-25");
	assert_false(muster.ok);
	tether->quantity = 2;
	muster = muster_on(&scene, "2026-11-25");
	assert_true(muster.ok);
}

TEST(of_a_group_of_alternatives_one_is_enough)
{
	SCENE(scene, RENEW("law") CARRIAGE LINE(
			 "l", "    need: {points: 2}\n    any-of: g\n" TETHERS)
			 LINE("m", "    need: {points: 1}\n    any-of: g\n" JACKSTAYS));
	struct muster muster = muster_on(&scene, "2026-11-25");
	assert_false(muster.ok);
	assert_int_equal(muster.lines[0].missing, 2);
	assert_int_equal(muster.lines[1].missing, 1);
	scene_item(&scene, "jackstay");
	muster = muster_on(&scene, "2026-11-25");
	assert_true(muster.ok);
	assert_int_equal(muster.lines[0].missing, 0);
}

TEST(what_is_not_known_of_the_vessel_is_asked_for_and_not_assumed)
{
	CLOSES_SCENE struct scene scene;
	open_us(&scene, 0, 1);
	add(&scene, "lifejacket-foam", 1, "");
	add(&scene, "lifebuoy", 1, "");
	struct muster muster = muster_on(&scene, "2026-11-25");
	assert_false(muster.ok);
	expect(&muster, "us-wearable", 1, 1);
	assert_string_equal(line_of(&muster, "us-throwable")->asks, "length");
	/* In commercial use none of the lines holds: nothing was counted, so not ok. */
	scene.periods[0].use = USE_COMMERCIAL;
	muster = muster_on(&scene, "2026-11-25");
	assert_int_equal(muster.line_count, 0);
	assert_true(muster.has_lines);
	assert_false(muster.ok);
}

/* The same by the long way: is the item in date for the count on this very day? Asked anew
 * of the engine each day, obligation by obligation. */
static bool
slowly_counts(struct scene *scene, size_t index, day_t day)
{
	struct obligation *obligations = NULL;
	size_t count = 0;
	struct arena arena = {0};
	const struct item *item = &scene->items[index];
	bool counts = item->state == PLACE_ABOARD || item->state == PLACE_STAND_IN;
	bool dated = strncmp(item->kind, "flare", 5) != 0;
	due_of_item(&scene->engine, index, day, &arena, &obligations, &count);
	for (size_t i = 0; i < count && counts; i++) {
		const struct obligation *task = &obligations[i];
		/* No due day is also when it only runs out after she changes to a use
		 * the rule does not hold for. */
		dated = dated || task->task == TASK_RENEW;
		counts = !task->routine && task->state != STATE_DATE_UNKNOWN;
		/* In the sheet used here no task of these kinds has rules of two grades. */
		counts = counts &&
			 (task->state == STATE_IN_DATE || task->grade == GRADE_PRACTICE);
	}
	arena_clear(&arena);
	return counts && dated;
}

static bool
slowly_ok(struct scene *scene, day_t day)
{
	int persons = vessel_period_on(&scene->vessel, day)->persons;
	bool is_private = vessel_period_on(&scene->vessel, day)->use == USE_PRIVATE;
	int jackets = 0;
	int signals = 0;
	int fire = 0;
	int rings = 0;
	for (size_t i = 0; i < scene->item_count; i++) {
		const char *kind = scene->items[i].kind;
		int number = slowly_counts(scene, i, day) ? scene->items[i].quantity : 0;
		jackets += strncmp(kind, "lifejacket", 10) == 0 ? number : 0;
		signals += strncmp(kind, "flare-red", 9) == 0 ? number : 0;
		bool rated = scene->items[i].rating[0] != '\0';
		fire += rated && strncmp(kind, "extinguisher", 12) == 0 ? number : 0;
		rings += strcmp(kind, "lifebuoy") == 0 ? number : 0;
	}
	return is_private && jackets >= persons && signals >= 3 && fire >= 2 &&
	       rings >= 1;
}

/* A boat of 30 feet or so with gear drawn at random, changing use and crew in between. */
static void
draw_boat(struct scene *scene, unsigned *seed)
{
	static const char *const KINDS[] = {"lifejacket-foam", "flare-red-hand",
	    "flare-red-parachute", "extinguisher-powder", "extinguisher-disposable"};
	day_t start = day_of("2026-01-01");
	open_us(scene, 914, 2);
	scene->periods[1] = scene->periods[0];
	scene->periods[1].from = start + (day_t)draw(seed, 700);
	scene->periods[1].persons = 3;
	if (draw(seed, 3) == 0) {
		scene->periods[1].use = USE_COMMERCIAL;
	}
	scene->vessel.period_count = 2;
	add(scene, "lifebuoy", 1, "");
	for (size_t i = 0; i < 14; i++) {
		struct item *item = add(scene, KINDS[i % 5], 1 + (int)draw(seed, 3), "");
		day_t day = start + (day_t)draw(seed, 1000);
		item->state = draw(seed, 8) == 0 ? PLACE_RESERVE : PLACE_ABOARD;
		item->rating = draw(seed, 6) == 0 ? "" : "5-B";
		if (strncmp(item->kind, "flare", 5) == 0 && draw(seed, 6) > 0) {
			item->expires = stamp_of_day(day);
		} else if (strcmp(item->kind, "extinguisher-disposable") == 0) {
			item->made = stamp_of_day(day_add_months(day, -144));
		} else if (strcmp(item->kind, "extinguisher-powder") == 0) {
			item->made = stamp_of_day(day - 2000);
			struct record *record = &scene->records[item - scene->items][0];
			*record = (struct record){.task = TASK_SERVICE,
			    .on = stamp_of_day(day_min(start, day - 365)),
			    .station = "",
			    .certificate = ""};
			item->record_count = draw(seed, 5) == 0 ? 0 : 1;
		}
	}
}

TEST(two_years_of_days_agree_with_a_slow_count_and_a_walk)
{
	enum { BOATS = 12, DAYS = 731 };

	static bool ok[DAYS];
	unsigned seed = 20261125;
	size_t good = 0;
	size_t turns = 0;
	for (int boat = 0; boat < BOATS; boat++) {
		CLOSES_SCENE struct scene scene;
		draw_boat(&scene, &seed);
		day_t start = day_of("2026-01-01");
		for (int i = 0; i < DAYS; i++) {
			ok[i] = muster_of(&scene, start + i, start + i).ok;
			assert_int_equal(ok[i], slowly_ok(&scene, start + i));
			good += ok[i] ? 1 : 0;
		}
		struct spans bad_days = {0};
		struct span all = {start, start + DAYS - 1};
		muster_short_days(&scene.engine, 0, all, &scene.arena, &bad_days);
		for (int i = 0; i < DAYS; i++) {
			assert_int_equal(spans_have(bad_days, start + i), !ok[i]);
		}
		for (size_t i = 0; i < bad_days.count; i++) {
			assert_true(bad_days.items[i].first <= bad_days.items[i].last);
			assert_true(bad_days.items[i].last <= all.last);
		}
		for (int i = 0; i < DAYS; i += 13) {
			int bad = i;
			while (bad < DAYS && ok[bad]) {
				bad++;
			}
			struct muster muster =
			    muster_of(&scene, start + i, start + DAYS - 1);
			assert_int_equal(muster.ok, bad == DAYS);
			turns += bad > i && bad < DAYS ? 1 : 0;
			if (bad == i) {
				assert_int_equal(muster.good_through, DAY_NONE);
			} else if (bad < DAYS) {
				assert_int_equal(muster.good_through, start + bad - 1);
				assert_int_equal(muster.first_short, start + bad);
			} else {
				assert_true(muster.good_through >= start + DAYS - 1);
			}
		}
	}
	/* The draw must have met days of each kind, or it proves nothing. */
	assert_true(good > 500 && good < (size_t)BOATS * DAYS - 500);
	assert_true(turns > 20);
}

RUN_TESTS(NULL, NULL)
