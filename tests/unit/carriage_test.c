/* What a piece is worth in a carriage line: ratings, capacity, places, limits, ways. */
#include "becket_test.h"
#include "muster/muster.h"
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
	struct fault fault = {0};
	struct muster muster = {0};
	day_t day = day_of("2026-11-25");
	scene->engine = (struct due_engine){.kinds = scene->kinds,
	    .rulebooks = scene->rulebooks,
	    .inventory = &scene->inventory};
	if (!due_index_parts(&scene->inventory, &scene->arena, &scene->engine.first_part,
		&scene->engine.next_part, &fault) ||
	    !muster_vessel(&scene->engine, 0, (struct span){day, day}, &scene->arena,
		&muster, &fault)) {
		fail_msg("%s", fault.text);
	}
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
static void
one_20_b_stands_for_two_5_b_and_a_10_b_for_one(void **state)
{
	static const struct {
		const char *rating;
		int have;
		bool asks;
	} ROWS[] = {{"5-B", 1, false}, {"10-B", 1, false}, {"20-B", 2, false},
	    {"40-B:C", 2, false}, {"1-A:10-B:C", 1, false}, {"2-B", 0, false},
	    {"1-A", 0, false}, {"", 0, true}};

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
		scene_open(&scene, "us-recreational.yaml");
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
		scene_close(&scene);
	}
}

/* The table's second column: what a fixed system leaves to be carried, by length in feet; a
 * second system takes no more off. */
static void
a_fixed_system_takes_one_5_b_off_the_need(void **state)
{
	static const struct {
		int length_cm;
		const char *id;
		int need;
		int portables; /* beside the system */
	} ROWS[] = {{700, "us-extinguishers-under-26", 1, 0},
	    {914, "us-extinguishers-26", 2, 1}, {1500, "us-extinguishers-40", 3, 2}};

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		for (int portables = 0; portables < 4; portables++) {
			struct scene scene;
			scene_open(&scene, "us-recreational.yaml");
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
			scene_close(&scene);
		}
	}
}

#define RAFTS                                                                            \
	"    serves:\n      - {kinds: [jackstay], points: capacity, capacity-from: 4}\n"

/* Nine persons; a raft for 8 counts 8 of them, one whose size is not known none. */
static void
a_raft_counts_the_persons_it_is_for(void **state)
{
	static const struct {
		int capacities[3];
		int have;
		size_t asks;
	} ROWS[] = {{{8, 0, 0}, 8, 2}, {{8, 4, 6}, 18, 0}, {{8, 3, 3}, 8, 0}};

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
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
		scene_close(&scene);
	}
}

/* The largest of them lost, what is left must do; one of a lot is one. */
static void
the_largest_piece_may_be_lost(void **state)
{
	static const struct {
		int capacity;
		int quantity;
		int have;
	} ROWS[] = {{10, 1, 8}, {10, 2, 18}, {6, 1, 6}, {8, 1, 8}};

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
		scene_open(&scene,
		    RULES CARRIAGE(
			"l", "    need: {per-person: 1, without-largest: yes}\n" RAFTS));
		scene.periods[0].persons = 8;
		add(&scene, "jackstay", "", 1)->capacity = 8;
		add(&scene, "jackstay", "", ROWS[i].quantity)->capacity =
		    ROWS[i].capacity;
		struct muster muster = muster_now(&scene);
		assert_int_equal(line_of(&muster, "l")->have, ROWS[i].have);
		scene_close(&scene);
	}
}

/* Words of a place, whole and in any case; a place not known is asked for. */
static void
a_line_may_name_a_place(void **state)
{
	static const struct {
		const char *place;
		int have;
		size_t asks;
	} ROWS[] = {{"galley", 1, 0}, {"Galley, port side", 1, 0}, {"saloon", 0, 0},
	    {"engine room", 1, 0}, {"by the ENGINE", 1, 0}, {"galleys", 0, 0},
	    {"aft", 0, 0}, {"", 0, 1}};

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
		scene_open(&scene,
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
		scene_close(&scene);
	}
}

/* Canada's twelve flares of which six may be smoke: twelve smokes are six. */
static void
pieces_of_an_entry_may_count_up_to_a_limit(void **state)
{
	static const struct {
		int flares;
		int smokes;
		int have;
	} ROWS[] = {{0, 12, 6}, {6, 6, 12}, {5, 7, 11}, {12, 0, 12}, {9, 3, 12}};

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
		scene_open(&scene, "canada-private.yaml");
		scene.vessel.length_cm = 1400;
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
		const struct muster_line *line = line_of(&muster, "ca-signals-12");
		assert_int_equal(line->need, 12);
		assert_int_equal(line->have, ROWS[i].have);
		scene_close(&scene);
	}
}

/* Four extinguishers, or two and a fire pump; two buckets besides. 13.7 m to under 24 m. */
static void
one_way_of_a_group_is_enough_when_all_of_it_is_there(void **state)
{
	static const struct {
		int extinguishers;
		int pumps;
		bool met;
	} ROWS[] = {{4, 0, true}, {3, 0, false}, {2, 1, true}, {1, 1, false},
	    {3, 1, true}, {0, 1, false}, {2, 0, false}};

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
		scene_open(&scene, "uk-private.yaml");
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
		scene_close(&scene);
	}
}

/* 46 CFR 180.71: 49 persons, 49 and a tenth of 49, 4.9, rounded up: 54, of them 5 for
 * children. */
static void
a_tenth_of_the_persons_is_rounded_up(void **state)
{
	(void)state;
	struct scene scene;
	scene_open(&scene, "us-small-passenger.yaml");
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
	scene_close(&scene);
}

/* The raft of category 1 on either side of sixteen persons; SOLAS A pack; any area else is
 * not told, none holds by it, and in categories 5 and 6 the signals are not stated. */
static void
the_small_commercial_vessel_goes_by_her_category(void **state)
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

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
		scene_open(&scene, "uk-small-commercial.yaml");
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
		scene_close(&scene);
	}
}

/* The most that may be typed for both would outgrow an int by far. */
static void
a_great_many_great_rafts_do_not_overflow(void **state)
{
	(void)state;
	struct scene scene;
	scene_open(&scene, RULES CARRIAGE("l", "    need: {per-person: 1}\n" RAFTS));
	scene.periods[0].persons = 10000;
	for (size_t i = 0; i < 30; i++) {
		add(&scene, "jackstay", "", 2000000000)->capacity = 100000;
	}
	struct muster muster = muster_now(&scene);
	const struct muster_line *line = line_of(&muster, "l");
	assert_int_equal(line->need, 10000);
	assert_int_equal(line->have, 100000000);
	assert_int_equal(line->missing, 0);
	scene_close(&scene);
}

/* An area that is excepted takes the line away; one not known leaves it untold. */
static void
a_line_may_hold_in_any_area_but_some(void **state)
{
	static const struct {
		const char *area;
		size_t lines;
		const char *asks;
	} ROWS[] = {{"", 1, "area"}, {"within-1-nm", 0, ""}, {"coastal", 1, ""}};

	(void)state;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
		scene_open(&scene, "canada-private.yaml");
		scene.vessel.length_cm = 1000;
		scene.periods[0].area = ROWS[i].area;
		struct muster muster = muster_now(&scene);
		assert_int_equal(muster.line_count, ROWS[i].lines);
		for (size_t j = 0; j < muster.line_count; j++) {
			assert_string_equal(muster.lines[j].asks, ROWS[i].asks);
		}
		scene_close(&scene);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
	    cmocka_unit_test(one_20_b_stands_for_two_5_b_and_a_10_b_for_one),
	    cmocka_unit_test(a_fixed_system_takes_one_5_b_off_the_need),
	    cmocka_unit_test(a_raft_counts_the_persons_it_is_for),
	    cmocka_unit_test(the_largest_piece_may_be_lost),
	    cmocka_unit_test(a_line_may_name_a_place),
	    cmocka_unit_test(pieces_of_an_entry_may_count_up_to_a_limit),
	    cmocka_unit_test(one_way_of_a_group_is_enough_when_all_of_it_is_there),
	    cmocka_unit_test(a_tenth_of_the_persons_is_rounded_up),
	    cmocka_unit_test(the_small_commercial_vessel_goes_by_her_category),
	    cmocka_unit_test(a_great_many_great_rafts_do_not_overflow),
	    cmocka_unit_test(a_line_may_hold_in_any_area_but_some),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
