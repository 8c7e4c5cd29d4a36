/* What a piece is worth in a carriage line: ratings, capacity, places, limits, ways. */
#include "becket_test.h"
#include "muster/inside.h"
#include "scene.h"

#include <string.h>

#define CARRIAGE(id, more)                                                               \
	"  - id: " id "\n    title: T\n" more                                            \
	"    source: invented\n    standing: memory\n"
#define RULES                                                                            \
	"  - id: a\n    kinds: [tether]\n    task: renew\n    doer: owner\n"             \
	"    grade: law\n    clocks:\n      - {from: [made], months: 12}\n"              \
	"    source: invented\n    standing: memory\ncarriage:\n"

static struct muster
muster_now(struct scene *scene)
{
	struct muster muster = {0};
	day_t day = day_of("2026-11-25");
	scene_engine(scene);
	muster_vessel(&scene->engine, 0, (struct span){day, day}, &scene->arena, &muster);
	return muster;
}

static const struct muster_line *
line_of(const struct muster *muster, const char *id)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (strcmp(muster->lines[i].line->id, id) == 0) {
			return &muster->lines[i];
		}
	}
	fail_msg("no line %s", id);
	return NULL;
}

static struct item *
add(struct scene *scene, const char *kind, const char *rating, int quantity)
{
	struct item *item = scene_item(scene, kind);
	item->rating = rating;
	item->quantity = quantity;
	return item;
}

/* 33 CFR 175.320(a)(1), note 1: one 20-B for two 5-B, a 10-B for one. 30 feet need two. */
TEST(one_20_b_stands_for_two_5_b_and_a_10_b_for_one)
{
	static const struct {
		const char *rating;
		int have;
		bool asks;
	} ROWS[] = {{"5-B", 1, false}, {"10-B", 1, false}, {"20-B", 2, false},
	    {"40-B:C", 2, false}, {"1-A:10-B:C", 1, false}, {"2-B", 0, false},
	    {"1-A", 0, false}, {"", 0, true}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "us-recreational.yaml");
		scene.vessel.length_cm = 914;
		struct item *item =
		    add(&scene, "extinguisher-disposable", ROWS[i].rating, 1);
		item->made = stamp_of("2024-05");
		struct muster muster = muster_now(&scene);
		const struct muster_line *line = line_of(&muster, "us-extinguishers-26");
		assert_int_equal(line->need, 2);
		assert_int_equal(line->have, ROWS[i].have);
		assert_int_equal(line->untold_count, ROWS[i].asks ? 1 : 0);
		if (ROWS[i].asks) {
			assert_string_equal(line->untold[0].asks, "rating");
		}
	}
}

/* The table's second column: what a fixed system leaves to be carried, by length in feet; a
 * second system takes no more off. */
TEST(a_fixed_system_takes_one_5_b_off_the_need)
{
	static const struct {
		int length_cm;
		const char *id;
		int need;
		int portables; /* beside the system */
	} ROWS[] = {{700, "us-extinguishers-under-26", 1, 0},
	    {914, "us-extinguishers-26", 2, 1}, {1500, "us-extinguishers-40", 3, 2}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		for (int portables = 0; portables < 4; portables++) {
			SCENE(scene, "us-recreational.yaml");
			scene.vessel.length_cm = ROWS[i].length_cm;
			add(&scene, "extinguisher-fixed", "", 2);
			if (portables > 0) {
				add(&scene, "extinguisher-disposable", "5-B", portables)
				    ->made = stamp_of("2024-05");
			}
			struct muster muster = muster_now(&scene);
			const struct muster_line *line = line_of(&muster, ROWS[i].id);
			assert_int_equal(line->need, ROWS[i].need);
			assert_int_equal(line->have, portables + 1);
			assert_int_equal(
			    line->missing > 0, portables < ROWS[i].portables);
		}
	}
}

#define RAFTS                                                                            \
	"    serves:\n      - {kinds: [jackstay], points: capacity, capacity-from: 4}\n"

/* Nine persons; a raft for 8 counts 8 of them, one whose size is not known none. */
TEST(a_raft_counts_the_persons_it_is_for)
{
	static const struct {
		int capacities[3];
		int have;
		size_t asks;
	} ROWS[] = {{{8, 0, 0}, 8, 2}, {{8, 4, 6}, 18, 0}, {{8, 3, 3}, 8, 0}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		scene_open(
		    &scene, RULES CARRIAGE("l", "    need: {per-person: 1}\n" RAFTS));
		scene.periods[0].persons = 9;
		for (size_t j = 0; j < 3; j++) {
			add(&scene, "jackstay", "", 1)->capacity = ROWS[i].capacities[j];
		}
		struct muster muster = muster_now(&scene);
		const struct muster_line *line = line_of(&muster, "l");
		assert_int_equal(line->need, 9);
		assert_int_equal(line->have, ROWS[i].have);
		assert_int_equal(line->untold_count, ROWS[i].asks);
		if (ROWS[i].asks > 0) {
			assert_string_equal(line->untold[0].asks, "capacity");
		}
	}
}

/* One for four or more counts one, a smaller none, and one whose size is not known is asked
 * about. */
TEST(a_piece_may_have_to_be_of_a_size)
{
	static const struct {
		int capacity;
		int have;
		size_t asks;
	} ROWS[] = {{3, 0, 0}, {4, 1, 0}, {5, 1, 0}, {0, 0, 1}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		scene_open(
		    &scene, RULES CARRIAGE("l", "    need: {points: 1}\n    serves:\n"
						"      - {kinds: [jackstay], points: 1,\n"
						"         capacity-from: 4}\n"));
		add(&scene, "jackstay", "", 1)->capacity = ROWS[i].capacity;
		struct muster muster = muster_now(&scene);
		const struct muster_line *line = line_of(&muster, "l");
		assert_int_equal(line->have, ROWS[i].have);
		assert_int_equal(line->untold_count, ROWS[i].asks);
	}
}

/* The largest of them lost, what is left must do; one of a lot is one. */
TEST(the_largest_piece_may_be_lost)
{
	static const struct {
		int capacity;
		int quantity;
		int have;
	} ROWS[] = {{10, 1, 8}, {10, 2, 18}, {6, 1, 6}, {8, 1, 8}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene,
		    RULES CARRIAGE(
			"l", "    need: {per-person: 1, without-largest: yes}\n" RAFTS));
		scene.periods[0].persons = 8;
		add(&scene, "jackstay", "", 1)->capacity = 8;
		add(&scene, "jackstay", "", ROWS[i].quantity)->capacity =
		    ROWS[i].capacity;
		struct muster muster = muster_now(&scene);
		assert_int_equal(line_of(&muster, "l")->have, ROWS[i].have);
	}
}

/* Without a raft there is none to lose. */
TEST(of_nothing_nothing_is_lost)
{
	CLOSES_SCENE struct scene scene;
	scene_open(
	    &scene, RULES CARRIAGE(
			"l", "    need: {per-person: 1, without-largest: yes}\n" RAFTS));
	scene.periods[0].persons = 8;
	struct muster muster = muster_now(&scene);
	const struct muster_line *line = line_of(&muster, "l");
	assert_int_equal(line->have, 0);
	assert_int_equal(line->missing, 8);
}

/* Words of a place, whole and in any case; a place not known is asked for. */
TEST(a_line_may_name_a_place)
{
	static const struct {
		const char *place;
		int have;
		size_t asks;
	} ROWS[] = {{"galley", 1, 0}, {"Galley, port side", 1, 0}, {"saloon", 0, 0},
	    {"engine room", 1, 0}, {"by the ENGINE", 1, 0}, {"galleys", 0, 0},
	    {"galley: port", 1, 0}, {"galley~", 1, 0}, {"the gall", 0, 0},
	    {"engine 9", 1, 0}, {"engine9", 0, 0}, {"0galley", 0, 0}, {"galleya", 0, 0},
	    {"zgalley", 0, 0}, {"aft", 0, 0}, {"", 0, 1}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene,
		    RULES CARRIAGE("l", "    need: {points: 1}\n"
					"    places: [galley, engine]\n    serves:\n"
					"      - {kinds: [jackstay], points: 1}\n"));
		add(&scene, "jackstay", "", 1)->place = ROWS[i].place;
		struct muster muster = muster_now(&scene);
		const struct muster_line *line = line_of(&muster, "l");
		assert_int_equal(line->have, ROWS[i].have);
		assert_int_equal(line->untold_count, ROWS[i].asks);
		if (ROWS[i].asks > 0) {
			assert_string_equal(line->untold[0].asks, "place");
		}
	}
}

/* By one entry its rating is wanted, by another it is worth something without. */
TEST(what_counts_by_one_entry_is_not_asked_about_for_another)
{
	SCENE(scene,
	    RULES CARRIAGE("l", "    need: {points: 2}\n    serves:\n"
				"      - {kinds: [extinguisher-foam], points: 2,\n"
				"         rating: 13-A}\n"
				"      - {kinds: [extinguisher-foam], points: 1}\n"));
	add(&scene, "extinguisher-foam", "", 1);
	struct muster muster = muster_now(&scene);
	const struct muster_line *line = line_of(&muster, "l");
	assert_int_equal(line->have, 1);
	assert_int_equal(line->untold_count, 0);
}

/* SOR/2010-91 s. 205 (read): over 9 m twelve signals of which six may be smoke, so twelve
 * smokes are six; over 6 to 9 m six of which two may be; not over 6 m three of which one may
 * be. 6.00 and 9.00 m are of the shorter class. */
TEST(pieces_of_an_entry_may_count_up_to_a_limit)
{
	static const struct {
		int length_cm;
		const char *id;
		int flares;
		int smokes;
		int need;
		int have;
	} ROWS[] = {{1400, "ca-signals", 0, 12, 12, 6},
	    {1400, "ca-signals", 6, 6, 12, 12}, {1400, "ca-signals", 5, 7, 12, 11},
	    {3000, "ca-signals", 12, 0, 12, 12}, {901, "ca-signals", 9, 3, 12, 12},
	    {900, "ca-signals-6", 4, 3, 6, 6}, {601, "ca-signals-6", 3, 3, 6, 5},
	    {600, "ca-signals-small", 2, 2, 3, 3}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "canada-private.yaml");
		scene.vessel.length_cm = ROWS[i].length_cm;
		scene.periods[0].area = "coastal";
		const char *const kinds[] = {"flare-red-hand", "smoke-orange-hand"};
		const int numbers[] = {ROWS[i].flares, ROWS[i].smokes};
		for (size_t j = 0; j < 2; j++) {
			if (numbers[j] > 0) {
				add(&scene, kinds[j], "", numbers[j])->made =
				    stamp_of("2025-05");
			}
		}
		struct muster muster = muster_now(&scene);
		const struct muster_line *line = line_of(&muster, ROWS[i].id);
		assert_int_equal(line->need, ROWS[i].need);
		assert_int_equal(line->have, ROWS[i].have);
	}
}

/* Four extinguishers, or two and a fire pump; two buckets besides. 13.7 m to under 24 m. */
TEST(one_way_of_a_group_is_enough_when_all_of_it_is_there)
{
	static const struct {
		int extinguishers;
		int pumps;
		bool met;
	} ROWS[] = {{4, 0, true}, {3, 0, false}, {2, 1, true}, {1, 1, false},
	    {3, 1, true}, {0, 1, false}, {2, 0, false}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "uk-private.yaml");
		scene.vessel.length_cm = 1400;
		add(&scene, "fire-bucket", "", 2);
		if (ROWS[i].extinguishers > 0) {
			struct item *item = add(&scene, "extinguisher-foam", "13A/113B",
			    ROWS[i].extinguishers);
			item->made = stamp_of("2024-05");
			scene_record(&scene, item, TASK_SERVICE, "2026-05-01", NULL);
		}
		if (ROWS[i].pumps > 0) {
			add(&scene, "fire-pump", "", ROWS[i].pumps);
		}
		struct muster muster = muster_now(&scene);
		assert_int_equal(muster.ok, ROWS[i].met);
	}
}

/* 46 CFR 180.71: 49 persons, 49 and a tenth of 49, 4.9, rounded up: 54, of them 5 for
 * children. */
TEST(a_tenth_of_the_persons_is_rounded_up)
{
	SCENE(scene, "us-small-passenger.yaml");
	scene.periods[0].use = USE_COMMERCIAL;
	scene.periods[0].persons = 49;
	add(&scene, "lifejacket-foam", "", 50);
	add(&scene, "lifejacket-foam", "child", 4);
	struct muster muster = muster_now(&scene);
	const struct muster_line *all = line_of(&muster, "us-spv-lifejackets");
	const struct muster_line *child = line_of(&muster, "us-spv-lifejackets-child");
	assert_int_equal(all->need, 54);
	assert_int_equal(all->have, 54);
	assert_int_equal(child->need, 5);
	assert_int_equal(child->have, 4);
	assert_int_equal(child->missing, 1);
}

/* The raft of category 1 on either side of sixteen persons; SOLAS A pack; any area else is
 * not told, none holds by it, and in categories 5 and 6 the signals are not stated. */
TEST(the_small_commercial_vessel_goes_by_her_category)
{
	static const struct {
		const char *area;
		int persons;
		const char *raft; /* the line of rafts that holds */
		int have;         /* of two rafts for 16 */
		int parachutes;   /* need; 0 for no such line */
		size_t subjects;  /* not stated of what must be carried */
	} ROWS[] = {{"category-0", 8, "uk-c-rafts-0", 16, 12, 1},
	    {"category-1", 16, "uk-c-rafts-1", 16, 6, 1},
	    {"category-1", 15, "uk-c-rafts-1-few", 32, 6, 1},
	    {"category-2", 16, "uk-c-rafts-2-6", 32, 4, 1},
	    {"category-3", 16, "uk-c-rafts-2-6", 32, 4, 1},
	    {"category-4", 16, "uk-c-rafts-2-6", 32, 0, 1},
	    {"category-6", 16, "uk-c-rafts-2-6", 32, 0, 2}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "uk-small-commercial.yaml");
		scene.periods[0] = (struct period){.from = DAY_NONE,
		    .use = USE_COMMERCIAL,
		    .area = ROWS[i].area,
		    .persons = ROWS[i].persons};
		struct item *raft = add(&scene, "liferaft-canister", "SOLAS A", 2);
		raft->capacity = 16;
		scene_record(&scene, raft, TASK_SERVICE, "2026-05-01", NULL);
		struct muster muster = muster_now(&scene);
		int parachutes = 0;
		size_t rafts = 0;
		for (size_t j = 0; j < muster.line_count; j++) {
			const struct muster_line *line = &muster.lines[j];
			if (strncmp(line->line->id, "uk-c-parachute", 14) == 0) {
				parachutes = line->need;
			}
			rafts += strncmp(line->line->id, "uk-c-rafts", 10) == 0 ? 1 : 0;
		}
		const struct muster_line *line = line_of(&muster, ROWS[i].raft);
		assert_int_equal(rafts, 1);
		assert_int_equal(line->need, ROWS[i].persons);
		assert_int_equal(line->have, ROWS[i].have);
		assert_int_equal(parachutes, ROWS[i].parachutes);
		assert_int_equal(muster.subject_count, ROWS[i].subjects);
	}
}

/* 46 CFR 180.68 (read, edition of 2015): six and six on oceans, coastwise, limited coastwise
 * and the Great Lakes, three and three on other routes. A parachute flare stands for a hand
 * flare; a hand or parachute flare or a floating smoke for a hand smoke, and is then one more. */
TEST(the_signals_of_a_small_passenger_vessel_go_by_route)
{
	static const struct {
		const char *area;
		int hand, parachute, smoke, floating;
		int short_flares, short_both;
	} ROWS[] = {{"limited-coastwise", 6, 0, 6, 0, 0, 0},
	    {"great-lakes", 3, 0, 3, 0, 3, 6}, {"rivers", 3, 0, 3, 0, 0, 0},
	    {"oceans", 6, 0, 0, 0, 0, 6}, {"oceans", 6, 6, 0, 0, 0, 0},
	    {"coastwise", 4, 2, 2, 4, 0, 0}, {"coastwise", 0, 0, 12, 0, 6, 0}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "us-small-passenger.yaml");
		scene.periods[0].use = USE_COMMERCIAL;
		scene.periods[0].area = ROWS[i].area;
		static const char *const KINDS[] = {"flare-red-hand",
		    "flare-red-parachute", "smoke-orange-hand", "smoke-orange-buoyant"};
		const int numbers[] = {
		    ROWS[i].hand, ROWS[i].parachute, ROWS[i].smoke, ROWS[i].floating};
		for (size_t j = 0; j < 4; j++) {
			if (numbers[j] > 0) {
				add(&scene, KINDS[j], "", numbers[j])->expires =
				    stamp_of("2028-06");
			}
		}
		struct muster muster = muster_now(&scene);
		bool wide = strcmp(ROWS[i].area, "rivers") != 0;
		const struct muster_line *flares = line_of(
		    &muster, wide ? "us-spv-hand-flares" : "us-spv-hand-flares-lesser");
		const struct muster_line *both = line_of(
		    &muster, wide ? "us-spv-hand-smokes" : "us-spv-hand-smokes-lesser");
		assert_int_equal(flares->missing, ROWS[i].short_flares);
		assert_int_equal(both->missing, ROWS[i].short_both);
	}
}

/* 33 CFR 175.110(a) (read, edition of 2015): day and night signals on an uninspected passenger
 * vessel of any length; 46 CFR 25.26-10: no EPIRB under 100 gross tons, so whom to ask is
 * said. Nothing of tethers stands in her sheet either. */
TEST(an_uninspected_passenger_vessel_needs_signals_at_any_length)
{
	SCENE(scene, "us-uninspected-passenger.yaml");
	scene.periods[0].use = USE_COMMERCIAL;
	scene.periods[0].area = "high-seas";
	scene.periods[0].persons = 1;
	scene.vessel.length_cm = 450;
	add(&scene, "flare-red-hand", "", 2)->expires = stamp_of("2028-06");
	add(&scene, "flare-red-aerial", "", 1)->expires = stamp_of("2028-06");
	struct muster muster = muster_now(&scene);
	assert_int_equal(line_of(&muster, "us-upv-day-signals")->have, 3);
	assert_int_equal(line_of(&muster, "us-upv-night-signals")->have, 3);
	bool beacons = false;
	bool tethers = false;
	bool signals = false;
	for (size_t i = 0; i < muster.silence_count; i++) {
		beacons = beacons || muster.silences[i].subject == GEAR_SUBJECT_BEACONS;
		tethers = tethers || muster.silences[i].subject == GEAR_SUBJECT_TETHERS;
		signals = signals || muster.silences[i].subject == GEAR_SUBJECT_SIGNALS;
		assert_string_equal(muster.silences[i].ask[0], "the Coast Guard");
	}
	assert_true(beacons && tethers && !signals);
}

/* In her category no line of the sheet is of lifejackets: that nothing is short proves nothing
 * of them. On waters B to D there is one (MGN 469). */
TEST(what_no_line_is_of_is_named_with_whom_to_ask)
{
	static const struct {
		const char *area;
		bool silent;
	} ROWS[] = {{"category-2", true}, {"waters-b", false}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "uk-small-commercial.yaml");
		scene.periods[0].use = USE_COMMERCIAL;
		scene.periods[0].area = ROWS[i].area;
		scene.periods[0].persons = 4;
		struct muster muster = muster_now(&scene);
		bool silent = false;
		for (size_t j = 0; j < muster.silence_count; j++) {
			const struct muster_silence *silence = &muster.silences[j];
			if (silence->subject == GEAR_SUBJECT_LIFEJACKETS) {
				silent = true;
				assert_int_equal(silence->ask_count, 1);
				assert_string_equal(
				    silence->ask[0], "the certifying authority");
			}
		}
		assert_int_equal(silent, ROWS[i].silent);
	}
}

/* NWR 1958 r. 52B of Western Australia (read): two red hand flares and two orange hand smokes,
 * or an electric light with a beacon; Queensland's smoke is the hand-held one, s. 25(1)(e). */
TEST(australian_states_ask_for_their_own_signals)
{
	static const struct {
		const char *area;
		const char *kinds[2];
		bool met;
	} ROWS[] = {{"western-australia", {"flare-red-hand", "smoke-orange-hand"}, true},
	    {"western-australia", {"flare-red-hand", "smoke-orange-buoyant"}, false},
	    {"western-australia", {"electric-distress-light", "plb"}, true},
	    {"western-australia", {"electric-distress-light", "flare-red-hand"}, false},
	    {"queensland-partially-smooth", {"flare-red-hand", "smoke-orange-hand"},
		true},
	    {"queensland-partially-smooth", {"flare-red-hand", "smoke-orange-buoyant"},
		false}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "australia.yaml");
		scene.periods[0].area = ROWS[i].area;
		for (size_t j = 0; j < 2; j++) {
			struct item *item = add(&scene, ROWS[i].kinds[j], "", 2);
			item->expires = stamp_of("2028-06");
			scene_record(&scene, item, TASK_REGISTER, "2026-05-01", NULL);
		}
		struct muster muster = muster_now(&scene);
		assert_int_equal(muster.ok, ROWS[i].met);
	}
}

/* RD 339/2021 art 15 (read): 34 B, 1 to 15 m, 2 to 20, 3; in hire one more from 10 m. */
TEST(spanish_extinguishers_go_by_length_and_hire)
{
	static const struct {
		int length_cm;
		enum use use;
		const char *id;
		int need;
	} ROWS[] = {{1500, USE_PRIVATE, "es-extinguishers-15", 1},
	    {1501, USE_PRIVATE, "es-extinguishers-20", 2},
	    {2001, USE_PRIVATE, "es-extinguishers-24", 3},
	    {999, USE_COMMERCIAL, "es-extinguishers-hire-10", 1},
	    {1000, USE_COMMERCIAL, "es-extinguishers-hire-15", 2},
	    {2000, USE_COMMERCIAL, "es-extinguishers-hire-20", 3},
	    {2300, USE_COMMERCIAL, "es-extinguishers-hire-24", 4}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "spain-recreational.yaml");
		scene.vessel.length_cm = ROWS[i].length_cm;
		scene.periods[0].use = ROWS[i].use;
		scene.periods[0].area = "zone-7";
		scene.periods[0].persons = 1;
		add(&scene, "extinguisher-powder", "34B", 1);
		add(&scene, "extinguisher-powder", "21B", 1);
		struct muster muster = muster_now(&scene);
		const struct muster_line *line = line_of(&muster, ROWS[i].id);
		assert_int_equal(line->need, ROWS[i].need);
		assert_int_equal(line->have, 1);
		/* one class of length, and a lifejacket of 100 N: nothing else in zone 7 */
		assert_int_equal(muster.line_count, 2);
	}
}

/* The most that may be typed for both would outgrow an int by far. */
TEST(a_great_many_great_rafts_do_not_overflow)
{
	SCENE(scene, RULES CARRIAGE("l", "    need: {per-person: 1}\n" RAFTS));
	scene.periods[0].persons = 10000;
	for (size_t i = 0; i < 30; i++) {
		add(&scene, "jackstay", "", 2000000000)->capacity = 100000;
	}
	struct muster muster = muster_now(&scene);
	const struct muster_line *line = line_of(&muster, "l");
	assert_int_equal(line->need, 10000);
	assert_int_equal(line->have, 100000000);
	assert_int_equal(line->missing, 0);
}

/* An area that is excepted takes the line away; one not known leaves it untold. The mile from
 * shore frees on inland waters alone, SOR/2010-91 s. 213(2) (read). */
TEST(a_line_may_hold_in_any_area_but_some)
{
	static const struct {
		const char *area;
		bool holds;
		const char *asks;
	} ROWS[] = {{"", true, "area"}, {"inland-within-1-nm", false, ""},
	    {"within-1-nm", true, ""}, {"coastal", true, ""}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "canada-private.yaml");
		scene.vessel.length_cm = 1000;
		scene.periods[0].persons = 2;
		scene.periods[0].area = ROWS[i].area;
		struct muster muster = muster_now(&scene);
		bool holds = false;
		for (size_t j = 0; j < muster.line_count; j++) {
			bool signals =
			    strcmp(muster.lines[j].line->id, "ca-signals") == 0;
			holds = holds || signals;
			assert_string_equal(
			    muster.lines[j].asks, signals ? ROWS[i].asks : "");
		}
		assert_int_equal(holds, ROWS[i].holds);
	}
}

/* Each sheet has groups of its own, whatever they are called. */
TEST(lines_of_two_sheets_are_no_alternatives)
{
	const struct carriage one = {.any_of = "g", .way = "", .sheet = "m"};
	struct carriage other = {.any_of = "g", .way = "", .sheet = "m"};
	assert_true(lines_alternate(&one, &other));
	other.sheet = "n";
	assert_false(lines_alternate(&one, &other));
	other.sheet = "m";
	other.any_of = "h";
	assert_false(lines_alternate(&one, &other));
}

RUN_TESTS(NULL, NULL)
