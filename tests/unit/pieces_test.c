/* On which days one piece counts in a muster: by its dates, and by what it is inside of. */
#include "becket_test.h"
#include "muster/leave.h"
#include "muster/muster.h"
#include "scene.h"

#define SOURCE "    source: invented\n    standing: common practice\n"
#define LINE(kind)                                                                       \
	"carriage:\n  - id: l\n    title: T\n    need: {points: 1}\n    serves:\n"       \
	"      - {kinds: [" kind "], points: 1}\n" SOURCE

static struct muster_line
line_on(struct scene *scene, const char *day)
{
	struct muster muster = {0};
	struct span days = {day_of(day), day_of(day)};
	scene_engine(scene);
	muster_vessel(&scene->engine, 0, days, &scene->arena, &muster);
	assert_int_equal(muster.line_count, 1);
	return muster.lines[0];
}

#define MONTHLY                                                                          \
	"  - id: look\n    kinds: [jackstay]\n    task: inspect\n    doer: owner\n"      \
	"    grade: law\n    clocks:\n      - {from: [last, fitted], months: 1}\n" SOURCE

/* A monthly look long past takes a thing out only where the book has such looks of it. */
TEST(a_routine_counts_where_it_is_kept_in_the_book)
{
	static const enum task TASKS[] = {TASK_INSPECT, TASK_SERVICE};

	static const int HAVE[] = {0, 1};
	for (size_t i = 0; i < 2; i++) {
		SCENE(scene, MONTHLY LINE("jackstay"));
		struct item *jackstay = scene_item(&scene, "jackstay");
		jackstay->fitted = stamp_of("2020-01-01");
		assert_int_equal(line_on(&scene, "2026-11-25").have, 1);
		scene_record(&scene, jackstay, TASKS[i], "2026-01-10", NULL);
		assert_int_equal(line_on(&scene, "2026-11-25").have, HAVE[i]);
	}
}

/* What is inside something that is set aside or ashore is not there, however deep inside it is. */
TEST(what_is_inside_something_that_is_away_is_away)
{
	static const enum place_state WHERE[] = {
	    PLACE_ABOARD, PLACE_STAND_IN, PLACE_RESERVE, PLACE_LANDED, PLACE_WITHDRAWN};

	for (size_t i = 0; i < sizeof WHERE / sizeof WHERE[0]; i++) {
		SCENE(scene, MONTHLY LINE("jackstay"));
		scene_item(&scene, "tether")->state = WHERE[i];
		scene_item(&scene, "lifebuoy")->parent = 0;
		scene_item(&scene, "jackstay")->parent = 1;
		assert_int_equal(line_on(&scene, "2026-11-25").have, i < 2 ? 1 : 0);
	}
}

#define HIRED                                                                            \
	"  - id: hired\n    kinds: [flare-red-hand]\n    when: {use: commercial}\n"      \
	"    task: renew\n    doer: owner\n    grade: law\n    clocks:\n"                \
	"      - {from: [made], months: 48}\n" SOURCE

/* What burns counts only on days on which something dates it: here in hire, for 48 months from its
 * making, and the last of them is one. */
TEST(what_burns_counts_on_the_days_on_which_it_is_dated)
{
	static const struct {
		const char *day;
		int have;
		size_t unknown;
		size_t lapsed;
	} ROWS[] = {{"2026-11-30", 0, 1, 0}, {"2026-12-01", 1, 0, 0},
	    {"2029-01-10", 1, 0, 0}, {"2029-01-11", 0, 0, 1}};

	SCENE(scene, HIRED LINE("flare-red-hand"));
	scene.periods[1] = scene.periods[0];
	scene.periods[1].from = day_of("2026-12-01");
	scene.periods[1].use = USE_COMMERCIAL;
	scene.vessel.period_count = 2;
	scene_item(&scene, "flare-red-hand")->made = stamp_of("2025-01-10");
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct muster_line line = line_on(&scene, ROWS[i].day);
		assert_int_equal(line.have, ROWS[i].have);
		assert_int_equal(line.unknown.count, ROWS[i].unknown);
		assert_int_equal(line.lapsed.count, ROWS[i].lapsed);
	}
}

#define TWO_GRADES                                                                       \
	"  - id: law\n    kinds: [jackstay]\n    task: renew\n    doer: owner\n"         \
	"    grade: law\n    clocks:\n      - {from: [made], months: 60}\n" SOURCE       \
	"  - id: habit\n    kinds: [jackstay]\n    task: inspect\n    doer: owner\n"     \
	"    grade: practice\n    clocks:\n      - {from: [made], months: 24}\n"         \
	"    window: {late: 1}\n" SOURCE

/* A lapse of practice is a remark from the day after its window, one of law takes the
 * thing out from the day after its own. */
TEST(practice_is_a_remark_until_the_law_takes_it_out)
{
	static const struct {
		const char *day;
		int have;
		size_t remarks;
	} ROWS[] = {{"2026-02-10", 1, 0}, {"2026-02-11", 1, 1}, {"2029-01-10", 1, 1},
	    {"2029-01-11", 0, 0}};

	SCENE(scene, TWO_GRADES LINE("jackstay"));
	scene_item(&scene, "jackstay")->made = stamp_of("2024-01-10");
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct muster_line line = line_on(&scene, ROWS[i].day);
		assert_int_equal(line.have, ROWS[i].have);
		assert_int_equal(line.remarks.count, ROWS[i].remarks);
	}
}

/* The raft is serviced with the flare inside it, which is renewed at 30 months and at
 * most 12 later by a rule that holds up to its third year alone: the flare never lapses,
 * and the raft counts. */
TEST(what_never_lapses_inside_takes_nothing_out)
{
	SCENE(scene,
	    "  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: law\n    contents-bind: yes\n    clocks:\n"
	    "      - {from: [packed], months: 600}\n" SOURCE
	    "  - id: flare\n    kinds: [flare-red-hand]\n    task: renew\n"
	    "    doer: owner\n    grade: law\n    when: {age-until: 36}\n"
	    "    window: {late: 12}\n    clocks:\n"
	    "      - {from: [made], months: 30}\n" SOURCE LINE("liferaft-canister"));
	scene_item(&scene, "liferaft-canister")->packed = stamp_of("2024-01-01");
	struct item *flare = scene_item(&scene, "flare-red-hand");
	flare->parent = 0;
	flare->made = stamp_of("2024-01-01");
	assert_int_equal(line_on(&scene, "2026-06-01").have, 1);
	assert_int_equal(line_on(&scene, "2026-12-01").have, 1);
}

/* A look at the light each month that was forgotten is no remark on its jacket; a yearly one is. */
TEST(a_routine_of_a_part_is_no_remark)
{
	static const char *const RULES[] = {
	    "  - id: look\n    kinds: [lifejacket-light]\n    task: inspect\n"
	    "    doer: owner\n    grade: law\n    clocks:\n"
	    "      - {from: [last], months: 1}\n" SOURCE LINE("lifejacket-auto"),
	    "  - id: look\n    kinds: [lifejacket-light]\n    task: inspect\n"
	    "    doer: owner\n    grade: law\n    clocks:\n"
	    "      - {from: [last], months: 12}\n" SOURCE LINE("lifejacket-auto")};
	for (size_t i = 0; i < 2; i++) {
		SCENE(scene, RULES[i]);
		(void)scene_item(&scene, "lifejacket-auto");
		struct item *light = scene_item(&scene, "lifejacket-light");
		light->parent = 0;
		scene_record(&scene, light, TASK_INSPECT, "2024-01-01", NULL);
		struct muster_line line = line_on(&scene, "2026-06-01");
		assert_int_equal(line.have, 1);
		assert_int_equal(line.parts.count + line.remarks.count, i);
	}
}

/* A book may hold a kind that the catalogue no longer has: no rule knows it, and it
 * counts for ever. */
TEST(of_an_unknown_kind_nothing_is_known_to_burn)
{
	CLOSES_SCENE struct scene scene;
	day_t last = 0;
	scene_open(&scene, MONTHLY LINE("jackstay"));
	scene_item(&scene, "jackstay")->kind = "no-such-kind";
	(void)line_on(&scene, "2026-06-01");
	muster_counts_through(
	    &scene.engine, 0, 0, day_of("2026-06-01"), &scene.arena, &last);
	assert_int_equal(last, DAY_NEVER);
}

/* Each is part of the other, as in a damaged book: neither is anywhere. */
TEST(what_is_inside_of_itself_is_not_there)
{
	struct scene scene;
	scene_open(&scene, MONTHLY LINE("jackstay"));
	scene_item(&scene, "jackstay")->parent = 1;
	scene_item(&scene, "tether")->parent = 0;
	assert_int_equal(line_on(&scene, "2026-11-25").have, 0);
	scene_close(&scene);
}

#define OF_MAKER                                                                         \
	"  - id: yearly\n    kinds: [jackstay]\n    task: inspect\n    doer: owner\n"    \
	"    grade: law\n    clocks:\n      - {from: [last], months: 12}\n" SOURCE       \
	"  - id: maker\n    kinds: [jackstay]\n    task: inspect\n    doer: owner\n"     \
	"    grade: maker\n    clocks:\n      - {from: [last], interval: maker}\n" SOURCE

/* Looked at in June, in date by the one rule for a year; the other asks for the maker's interval,
 * which nobody has entered, so that its date is not known, unless its paper states a day. */
TEST(until_the_makers_interval_is_known_its_paper_alone_dates_a_thing)
{
	static const struct {
		const char *next;
		const char *day;
		int have;
		size_t unknown;
		size_t lapsed;
	} ROWS[] = {{NULL, "2026-11-25", 0, 1, 0}, {"2027-03-01", "2026-11-25", 1, 0, 0},
	    {"2027-03-01", "2027-03-01", 1, 0, 0}, {"2027-03-01", "2027-03-02", 0, 0, 1}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct scene scene;
		scene_open(&scene, OF_MAKER LINE("jackstay"));
		struct item *jackstay = scene_item(&scene, "jackstay");
		scene_record(&scene, jackstay, TASK_INSPECT, "2026-06-01", ROWS[i].next);
		struct muster_line line = line_on(&scene, ROWS[i].day);
		assert_int_equal(line.have, ROWS[i].have);
		assert_int_equal(line.unknown.count, ROWS[i].unknown);
		assert_int_equal(line.lapsed.count, ROWS[i].lapsed);
		scene_close(&scene);
	}
}

/* Five years old on 10 January 2026: she is short on the first day asked about as on the last. */
TEST(a_shortage_that_began_before_is_one_from_the_first_day_on)
{
	struct scene scene;
	struct spans spans = {0};
	const struct span days = {day_of("2026-11-25"), day_of("2027-11-24")};
	scene_open(&scene, TWO_GRADES LINE("jackstay"));
	scene_item(&scene, "jackstay")->made = stamp_of("2021-01-10");
	scene_engine(&scene);
	muster_short_days(&scene.engine, 0, days, &scene.arena, &spans);
	assert_int_equal(spans.count, 1);
	assert_int_equal(spans.items[0].first, days.first);
	assert_int_equal(spans.items[0].last, days.last);
	scene_close(&scene);
}

RUN_TESTS(NULL, NULL)
