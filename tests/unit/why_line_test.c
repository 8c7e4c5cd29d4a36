/* A carriage line explained piece by piece: what keeps each from counting. All days are
 * worked by hand. */
#include "becket_test.h"
#include "muster/muster.h"
#include "scene.h"

#define SOURCE "    source: invented\n    standing: memory\n"

/* A jacket is serviced yearly by law, looked over yearly by practice, hydrostatically
 * weighed by law and looked at each month; a flare goes by its mark; a raft is serviced
 * at its maker's interval, and renewed at ten years. */
static const char SHEET[] =
    "  - id: service\n    kinds: [lifejacket-auto]\n    task: service\n"
    "    doer: station\n    grade: law\n    clocks:\n"
    "      - {from: [last], months: 12}\n      - {from: [fitted], months: 99}\n" SOURCE
    "  - id: weigh\n    kinds: [lifejacket-auto]\n    task: weigh\n"
    "    doer: owner\n    grade: law\n    clocks:\n"
    "      - {from: [made], months: 60}\n" SOURCE
    "  - id: look\n    kinds: [lifejacket-auto]\n    task: inspect\n"
    "    doer: owner\n    grade: practice\n    clocks:\n"
    "      - {from: [bought], months: 12}\n" SOURCE
    "  - id: monthly\n    kinds: [lifejacket-auto]\n    task: test\n"
    "    doer: owner\n    grade: law\n    clocks:\n"
    "      - {from: [fitted], months: 1}\n" SOURCE
    "  - id: raft\n    kinds: [liferaft-valise]\n    task: service\n"
    "    doer: station\n    grade: law\n    clocks:\n"
    "      - {from: [packed], interval: maker}\n" SOURCE
    "  - id: raft-life\n    kinds: [liferaft-valise]\n    task: renew\n"
    "    doer: owner\n    grade: maker\n    clocks:\n"
    "      - {from: [made], months: 120}\n" SOURCE "carriage:\n"
    "  - id: jackets\n    title: Jackets\n    need: {points: 2}\n    serves:\n"
    "      - {kinds: [lifejacket-auto], points: 1}\n" SOURCE
    "  - id: rafts\n    title: Rafts\n    need: {points: 4}\n    serves:\n"
    "      - {kinds: [liferaft-valise], points: capacity, capacity-from: 4}\n" SOURCE
    "  - id: flares\n    title: Flares\n    when: {use: commercial}\n"
    "    need: {points: 3}\n    serves:\n"
    "      - {kinds: [flare-red-hand], points: 1}\n" SOURCE;

static const char DAY[] = "2026-11-25";

static struct line_why
why(struct scene *scene, const char *line)
{
	struct line_why out = {0};
	struct fault fault = {0};
	scene_engine(scene);
	if (!muster_why(
		&scene->engine, 0, line, day_of(DAY), &scene->arena, &out, &fault)) {
		fail_msg("%s", fault.text);
	}
	return out;
}

/* All of it in date: serviced on 1 October, made in May, bought in October. */
static struct item *
add_jacket(struct scene *scene)
{
	struct item *jacket = scene_item(scene, "lifejacket-auto");
	jacket->made = stamp_of("2026-05-01");
	jacket->bought = stamp_of("2026-10-01");
	scene_record(scene, jacket, TASK_SERVICE, "2026-10-01", NULL);
	return jacket;
}

static void
expect(const struct piece_why *piece, enum piece_reason reason, int worth,
    const char *rule, const char *last)
{
	assert_int_equal(piece->reason, reason);
	assert_int_equal(piece->worth, worth);
	assert_string_equal(piece->reading == NULL ? "" : piece->reading->rule_id, rule);
	assert_day(piece->last, last);
}

TEST(a_piece_counts_to_the_last_day_of_what_binds_it)
{
	SCENE(scene, SHEET);
	add_jacket(&scene)->quantity = 2;
	/* a month after it was fitted it is to be tested: a routine that is nowhere recorded */
	add_jacket(&scene)->fitted = stamp_of("2026-01-10");
	struct line_why told = why(&scene, "jackets");
	assert_true(told.holds);
	assert_int_equal(told.count, 2);
	assert_int_equal(told.told.have, 3);
	expect(&told.pieces[0], PIECE_COUNTS, 2, "", "2027-10-01");
	expect(&told.pieces[1], PIECE_COUNTS, 1, "", "2027-10-01");
}

/* Of two clocks that have run out the one that did first is told, of those that bind the
 * count; of a remark those that do not. The look was due on 1 October 2025, the service
 * on 1 October 2026 or 1 March 2026, the weighing five years after it was made. */
TEST(of_what_has_run_out_the_first_that_binds_is_told)
{
	static const struct {
		const char *made, *bought, *served;
		enum piece_reason reason;
		const char *rule;
		enum task task;
		const char *last;
	} ROWS[] = {
	    {"2026-05-01", "2024-10-01", "2026-10-01", PIECE_REMARKED, "look",
		TASK_INSPECT, "2027-10-01"},
	    {"2026-05-01", "2024-10-01", "2025-10-01", PIECE_LAPSED, "service",
		TASK_SERVICE, ""},
	    {"2021-05-01", "2026-10-01", "2026-10-01", PIECE_LAPSED, "weigh", TASK_WEIGH,
		""},
	    {"2021-05-01", "2024-10-01", "2025-10-01", PIECE_LAPSED, "weigh", TASK_WEIGH,
		""},
	    {"2021-05-01", "2024-10-01", "2025-03-01", PIECE_LAPSED, "service",
		TASK_SERVICE, ""},
	    /* due on the day itself: it counts */
	    {"2026-05-01", "2026-10-01", "2025-11-25", PIECE_COUNTS, "", TASK_SERVICE,
		"2026-11-25"},
	    {"2026-05-01", "2026-10-01", "2025-11-24", PIECE_LAPSED, "service",
		TASK_SERVICE, ""},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, SHEET);
		struct item *jacket = scene_item(&scene, "lifejacket-auto");
		jacket->made = stamp_of(ROWS[i].made);
		jacket->bought = stamp_of(ROWS[i].bought);
		scene_record(&scene, jacket, TASK_SERVICE, ROWS[i].served, NULL);
		struct line_why told = why(&scene, "jackets");
		expect(&told.pieces[0], ROWS[i].reason, 1, ROWS[i].rule, ROWS[i].last);
		if (ROWS[i].reason != PIECE_COUNTS) {
			assert_int_equal(told.pieces[0].task, ROWS[i].task);
		}
		assert_string_equal(told.pieces[0].missing, "");
	}
}

/* Never serviced, without the day it was made, without its maker's interval: the name of
 * what is missing, of the first task that lacks something. A paper that states the next
 * date does for the maker's interval. */
TEST(what_is_not_known_is_named)
{
	SCENE(scene, SHEET);
	struct item *jacket = add_jacket(&scene);
	jacket->record_count = 0;
	struct line_why told = why(&scene, "jackets");
	expect(&told.pieces[0], PIECE_NOT_KNOWN, 1, "", "");
	assert_int_equal(told.pieces[0].task, TASK_SERVICE);
	assert_string_equal(told.pieces[0].missing, "served");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-10-01", NULL);
	jacket->made = (struct stamp){0};
	told = why(&scene, "jackets");
	expect(&told.pieces[0], PIECE_NOT_KNOWN, 1, "", "");
	assert_int_equal(told.pieces[0].task, TASK_WEIGH);
	assert_string_equal(told.pieces[0].missing, "made");

	struct item *raft = scene_item(&scene, "liferaft-valise");
	raft->capacity = 6;
	raft->made = stamp_of("2024-05-01");
	raft->packed = stamp_of("2026-05-01");
	told = why(&scene, "rafts");
	expect(&told.pieces[0], PIECE_NOT_KNOWN, 6, "", "");
	assert_int_equal(told.pieces[0].task, TASK_SERVICE);
	assert_string_not_equal(told.pieces[0].missing, "");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-01", "2028-05-01");
	told = why(&scene, "rafts");
	expect(&told.pieces[0], PIECE_COUNTS, 6, "", "2028-05-01");
}

/* The paper does for the maker's interval, so that of a raft whose day of making is not
 * known that is what is missing. */
TEST(what_a_paper_tells_is_not_missing)
{
	SCENE(scene, SHEET);
	struct item *raft = scene_item(&scene, "liferaft-valise");
	raft->capacity = 6;
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-01", "2028-05-01");
	struct line_why told = why(&scene, "rafts");
	expect(&told.pieces[0], PIECE_NOT_KNOWN, 6, "", "");
	assert_int_equal(told.pieces[0].task, TASK_RENEW);
	assert_string_equal(told.pieces[0].missing, "made");
}

/* A flare that nothing dates lacks what is printed on it. */
TEST(of_a_flare_without_a_date_its_mark_is_missing)
{
	SCENE(scene, SHEET);
	scene.periods[0].use = USE_COMMERCIAL;
	scene_item(&scene, "flare-red-hand")->quantity = 3;
	struct item *marked = scene_item(&scene, "flare-red-hand");
	marked->expires = stamp_of("2028-06");
	struct line_why told = why(&scene, "flares");
	assert_true(told.holds);
	expect(&told.pieces[0], PIECE_NOT_KNOWN, 3, "", "");
	assert_int_equal(told.pieces[0].task, TASK_RENEW);
	assert_string_equal(told.pieces[0].missing, "expires");
	expect(&told.pieces[1], PIECE_COUNTS, 1, "", "2028-06-30");
	/* in private use the line does not hold, and says of each piece the same */
	scene.periods[0].use = USE_PRIVATE;
	told = why(&scene, "flares");
	assert_false(told.holds);
	assert_int_equal(told.count, 2);
	expect(&told.pieces[1], PIECE_COUNTS, 1, "", "2028-06-30");
}

TEST(what_is_not_there_or_not_fit_is_told_so)
{
	static const struct {
		enum place_state state;
		int capacity;
		enum piece_reason reason;
	} ROWS[] = {{PLACE_ABOARD, 6, PIECE_COUNTS}, {PLACE_STAND_IN, 6, PIECE_COUNTS},
	    {PLACE_RESERVE, 6, PIECE_RESERVE}, {PLACE_LANDED, 6, PIECE_LANDED},
	    {PLACE_ABOARD, 3, PIECE_UNFIT}, {PLACE_ABOARD, 0, PIECE_UNTOLD},
	    {PLACE_RESERVE, 3, PIECE_RESERVE}};

	SCENE(scene, SHEET);
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct item *raft = scene_item(&scene, "liferaft-valise");
		raft->state = ROWS[i].state;
		raft->capacity = ROWS[i].capacity;
		raft->made = stamp_of("2024-05-01");
		raft->packed = stamp_of("2026-05-01");
		scene_record(&scene, raft, TASK_SERVICE, "2026-05-01", "2028-05-01");
	}
	/* what is gone for good is not told of, nor what no line like this takes */
	scene_item(&scene, "liferaft-valise")->state = PLACE_WITHDRAWN;
	(void)scene_item(&scene, "lifebuoy");
	struct line_why told = why(&scene, "rafts");
	assert_int_equal(told.count, sizeof ROWS / sizeof ROWS[0]);
	for (size_t i = 0; i < told.count; i++) {
		assert_int_equal(told.pieces[i].item, i);
		assert_int_equal(told.pieces[i].reason, ROWS[i].reason);
		assert_string_equal(told.pieces[i].missing,
		    ROWS[i].reason == PIECE_UNTOLD ? "capacity" : "");
	}
	/* inside something that is gone, a piece is gone */
	scene.items[0].parent = sizeof ROWS / sizeof ROWS[0];
	told = why(&scene, "rafts");
	assert_int_equal(told.pieces[0].reason, PIECE_WITHDRAWN);
}

/* Its gas cylinder is ashore: the jacket does not count, and the cylinder is named. With
 * dates of its own that have run out those are told instead. */
TEST(the_working_part_that_is_out_is_named)
{
	SCENE(scene, SHEET);
	struct item *jacket = add_jacket(&scene);
	struct item *cylinder = scene_item(&scene, "gas-cylinder");
	cylinder->parent = 0;
	cylinder->state = PLACE_LANDED;
	struct line_why told = why(&scene, "jackets");
	expect(&told.pieces[0], PIECE_LAPSED, 1, "", "");
	assert_string_equal(told.pieces[0].part, "gas-cylinder");
	assert_int_equal(told.pieces[0].trouble, PART_LANDED);
	jacket->made = stamp_of("2021-05-01");
	told = why(&scene, "jackets");
	expect(&told.pieces[0], PIECE_LAPSED, 1, "weigh", "");
	assert_string_equal(told.pieces[0].part, "");
	cylinder->state = PLACE_ABOARD;
	jacket->made = stamp_of("2026-05-01");
	told = why(&scene, "jackets");
	expect(&told.pieces[0], PIECE_COUNTS, 1, "", "2027-10-01");
	assert_string_equal(told.pieces[0].part, "");
}

TEST(a_line_that_is_not_hers_is_refused_with_those_that_are)
{
	CLOSES_SCENE struct scene scene;
	struct line_why out = {0};
	struct fault fault = {0};
	scene_open(&scene, SHEET);
	scene.vessel.name = "Quillfish";
	(void)why(&scene, "jackets");
	assert_false(muster_why(
	    &scene.engine, 0, "jacket", day_of(DAY), &scene.arena, &out, &fault));
	assert_string_equal(fault.text,
	    "the sheets of Quillfish have no carriage line \"jacket\"; they have: jackets, "
	    "rafts, flares");
	scene_close(&scene);
	scene_open(&scene,
	    "  - id: a\n    kinds: [tether]\n    task: renew\n    doer: owner\n"
	    "    grade: law\n    clocks:\n      - {from: [made], months: 12}\n" SOURCE);
	scene.vessel.name = "Quillfish";
	scene_engine(&scene);
	fault = (struct fault){0};
	assert_false(
	    muster_why(&scene.engine, 0, "l", day_of(DAY), &scene.arena, &out, &fault));
	assert_string_equal(fault.text,
	    "the sheets of Quillfish have no carriage line \"l\"; they have none at all");
}

#define TETHERS(rules)                                                                   \
	rules "carriage:\n  - id: tethers\n    title: Tethers\n    need: {points: 1}\n"  \
	      "    serves:\n      - {kinds: [tether], points: 1}\n" SOURCE
#define TETHER(id, task, more)                                                           \
	"  - id: " id "\n    kinds: [tether]\n    task: " task "\n    doer: owner\n"     \
	"    grade: law\n" more SOURCE

/* In hire it would have run out in October; she is private, and what ran out in November
 * is the look of her own rule. */
TEST(a_rule_that_does_not_hold_keeps_nothing_from_counting)
{
	CLOSES_SCENE struct scene scene;
	scene_open(
	    &scene, TETHERS(TETHER("hire", "inspect",
			"    when: {use: commercial}\n    clocks:\n"
			"      - {from: [last], months: 12}\n") TETHER("all", "inspect",
			"    clocks:\n      - {from: [last], months: 13}\n")));
	struct item *tether = scene_item(&scene, "tether");
	scene_record(&scene, tether, TASK_INSPECT, "2025-10-01", NULL);
	struct line_why line = why(&scene, "tethers");
	assert_int_equal(line.pieces[0].reason, PIECE_LAPSED);
	assert_string_equal(line.pieces[0].reading->rule_id, "all");
}

/* Nobody asks a private boat for the day of making, as hire would: it is that of packing
 * which is missing. */
TEST(what_a_rule_that_does_not_hold_asks_for_is_not_missing)
{
	CLOSES_SCENE struct scene scene;
	scene_open(
	    &scene, TETHERS(TETHER("hire", "inspect",
			"    when: {use: commercial}\n    clocks:\n"
			"      - {from: [made], months: 12}\n") TETHER("all", "inspect",
			"    clocks:\n      - {from: [packed], months: 36}\n")));
	(void)scene_item(&scene, "tether");
	struct line_why line = why(&scene, "tethers");
	assert_int_equal(line.pieces[0].reason, PIECE_NOT_KNOWN);
	assert_string_equal(line.pieces[0].missing, "packed");
}

/* Fitted in May it would be good for years, if her length were known to ask for it. */
TEST(what_would_tell_whether_a_rule_holds_is_missing)
{
	SCENE(scene, TETHERS(TETHER("long", "inspect",
			 "    when: {length-from: 10}\n    clocks:\n"
			 "      - {from: [fitted], months: 36}\n")));
	scene.vessel.length_cm = 0;
	scene_item(&scene, "tether")->fitted = stamp_of("2026-05-01");
	struct line_why line = why(&scene, "tethers");
	assert_int_equal(line.pieces[0].reason, PIECE_NOT_KNOWN);
	assert_string_equal(line.pieces[0].missing, "length");
}

/* The paper of the look stands for the maker's interval, though it is read first; the
 * monthly looks at its hooks are not kept in the book, and lack nothing. What is missing
 * is the day of making, for the renewal. */
TEST(what_a_paper_tells_first_and_what_is_not_kept_is_not_missing)
{
	SCENE(scene,
	    TETHERS(TETHER("look", "inspect",
		"    clocks:\n      - {from: [certificate]}\n"
		"      - {from: [last], interval: maker}\n") TETHER("hooks", "service",
		"    clocks:\n      - {from: [fitted], months: 1}\n") TETHER("life",
		"renew", "    clocks:\n      - {from: [made], months: 120}\n")));
	struct item *tether = scene_item(&scene, "tether");
	scene_record(&scene, tether, TASK_INSPECT, "2026-05-01", "2027-05-01");
	struct line_why line = why(&scene, "tethers");
	assert_int_equal(line.pieces[0].reason, PIECE_NOT_KNOWN);
	assert_int_equal(line.pieces[0].task, TASK_RENEW);
	assert_string_equal(line.pieces[0].missing, "made");
}

RUN_TESTS(NULL, NULL)
