#include "due/suppose.h"

#include "becket_test.h"
#include "draw.h"
#include "scene.h"

/* The scene's boat as she would be, with an engine over her. */
struct supposed_scene {
	struct vessel vessel;
	struct inventory inventory;
	struct due_engine then;
	struct what_if what_if;
};

static void
suppose(struct scene *scene, struct supposed_scene *out, const struct supposition *words,
    const char *today)
{
	scene_engine(scene);
	vessel_suppose(&scene->vessel, words, &scene->arena, &out->vessel);
	out->inventory = scene->inventory;
	out->inventory.vessels = &out->vessel;
	out->then = scene->engine;
	out->then.inventory = &out->inventory;
	out->what_if = (struct what_if){.now = &scene->engine,
	    .then = &out->then,
	    .from = words->from,
	    .today = day_of(today)};
}

static struct supposition
commercial_from(const char *day)
{
	return (struct supposition){
	    .from = day_of(day), .says = SAYS_USE, .use = USE_COMMERCIAL};
}

/* The change of a task of an item, under commercial use from a day on. */
static struct change
change_of(struct scene *scene, const struct item *item, enum task task, const char *from,
    const char *today)
{
	struct supposed_scene supposed = {0};
	struct changes changes = {0};
	struct supposition words = commercial_from(from);
	suppose(scene, &supposed, &words, today);
	changes_of_item(
	    &supposed.what_if, (size_t)(item - scene->items), &scene->arena, &changes);
	for (size_t i = 0; i < changes.count; i++) {
		if (changes.items[i].task == task && !changes.items[i].routine) {
			return changes.items[i];
		}
	}
	fail_msg("%s has no task %s", item->tag, task_word(task));
	return (struct change){0};
}

/* A period begins where something is supposed, and says that alone; one that begins on
 * that day has it said too. */
TEST(what_is_supposed_is_said_for_its_day_and_holds_until_something_else_is)
{
	CLOSES_SCENE struct scene scene;
	struct vessel supposed = {0};
	scene_open(&scene, "practice.yaml");
	const unsigned all = SAYS_USE | SAYS_AREA | SAYS_PERSONS | SAYS_BASE;
	scene.periods[0].says = all;
	scene.periods[0].persons = 2;
	scene.periods[1] = scene.periods[0];
	scene.periods[1].from = day_of("2027-06-01");
	scene.periods[1].says = SAYS_USE;
	scene.periods[2] = scene.periods[1];
	scene.periods[2].from = day_of("2027-09-01");
	scene.periods[2].says = SAYS_PERSONS;
	scene.periods[2].persons = 3;
	scene.vessel.period_count = 3;
	struct supposition words = {
	    .from = day_of("2027-01-01"), .says = SAYS_PERSONS, .persons = 9};
	vessel_suppose(&scene.vessel, &words, &scene.arena, &supposed);
	static const unsigned SAYS[] = {0, SAYS_PERSONS, SAYS_USE, SAYS_PERSONS};
	static const int PERSONS[] = {2, 9, 9, 3};
	assert_int_equal(supposed.period_count, 4);
	for (size_t i = 0; i < 4; i++) {
		assert_int_equal(supposed.periods[i].says, i == 0 ? all : SAYS[i]);
		assert_int_equal(supposed.periods[i].persons, PERSONS[i]);
	}
	words.from = day_of("2027-06-01");
	vessel_suppose(&scene.vessel, &words, &scene.arena, &supposed);
	assert_int_equal(supposed.period_count, 3);
	assert_int_equal(supposed.periods[1].says, SAYS_USE | SAYS_PERSONS);
	assert_int_equal(supposed.periods[1].persons, 9);
	assert_int_equal(supposed.periods[2].persons, 3);
}

/* Twelve months in commercial use, three years in private, as in the example of the design. */
#define RAFTS                                                                            \
	"  - id: p\n    kinds: [liferaft-canister]\n    when: {use: private}\n"          \
	"    task: service\n    doer: station\n    grade: law\n    clocks:\n"            \
	"      - from: [last]\n        months: 36\n"                                     \
	"    source: invented\n    standing: memory\n"                                   \
	"  - id: c\n    kinds: [liferaft-canister]\n    when: {use: commercial}\n"       \
	"    task: service\n    doer: station\n    grade: law\n    clocks:\n"            \
	"      - from: [last]\n        months: 12\n"                                     \
	"    source: invented\n    standing: memory\n"

/* Serviced on 2026-05-20, good for three years. In commercial use from 2027-06-01 on it
 * lapses on that day. A service on d carries it when d and twelve months is not before
 * 2027-06-01: from 2026-06-01 on. */
TEST(a_raft_is_serviced_between_a_year_before_the_switch_and_the_day_before_it)
{
	SCENE(scene, RAFTS);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	struct change change =
	    change_of(&scene, raft, TASK_SERVICE, "2027-06-01", "2026-05-25");
	assert_day(change.now.due, "2029-05-20");
	assert_day(change.then.due, "2027-05-31");
	assert_int_equal(change.then.state, STATE_IN_DATE);
	assert_int_equal(change.on_the_day, STATE_OVERDUE);
	assert_true(change.must);
	assert_false(change.cannot);
	assert_day(change.not_before, "2026-06-01");
	assert_day(change.by, "2027-05-31");
	assert_true(change_matters(&change));
	/* Seen from later on, the first day is today. */
	change = change_of(&scene, raft, TASK_SERVICE, "2027-06-01", "2027-03-01");
	assert_day(change.not_before, "2027-03-01");
	/* Serviced late enough there is nothing to do before the switch. */
	scene_record(&scene, raft, TASK_SERVICE, "2026-06-01", NULL);
	change = change_of(&scene, raft, TASK_SERVICE, "2027-06-01", "2026-06-02");
	assert_false(change.must);
	assert_day(change.by, "");
	assert_day(change.then.due, "2027-06-01");
}

TEST(a_switch_that_is_today_leaves_today_to_do_it)
{
	SCENE(scene, RAFTS);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	scene_record(&scene, raft, TASK_SERVICE, "2025-05-20", NULL);
	struct change change =
	    change_of(&scene, raft, TASK_SERVICE, "2026-11-25", "2026-11-25");
	assert_int_equal(change.then.state, STATE_OVERDUE);
	assert_true(change.must);
	assert_day(change.not_before, "2026-11-25");
	assert_day(change.by, "2026-11-25");
}

/* A limit of age is mended by no service: only a new one helps. */
TEST(what_no_work_can_mend_is_said_to_be_so)
{
	SCENE(scene, "  - id: a\n    kinds: [tether]\n    when: {use: commercial}\n"
		     "    task: inspect\n    doer: owner\n    grade: law\n    clocks:\n"
		     "      - from: [made]\n        months: 12\n"
		     "    source: invented\n    standing: memory\n"
		     "  - id: b\n    kinds: [tether]\n    when: {use: commercial}\n"
		     "    task: renew\n    doer: owner\n    grade: law\n    clocks:\n"
		     "      - from: [made, fitted]\n        months: 12\n"
		     "    source: invented\n    standing: memory\n");
	struct item *tether = scene_item(&scene, "tether");
	tether->made = stamp_of("2025-01-10");
	struct change change =
	    change_of(&scene, tether, TASK_INSPECT, "2027-06-01", "2026-11-25");
	assert_false(change.now.there);
	assert_true(change.must);
	assert_true(change.cannot);
	assert_day(change.by, "");
	change = change_of(&scene, tether, TASK_RENEW, "2027-06-01", "2026-11-25");
	assert_true(change.must);
	assert_false(change.cannot);
	assert_day(change.not_before, "2026-11-25");
	assert_day(change.by, "2027-05-31");
}

/* A flare's printed date is not known before it is bought. */
TEST(a_new_things_printed_date_is_left_to_whoever_buys_it)
{
	SCENE(scene, "practice.yaml");
	struct item *flare = scene_item(&scene, "flare-red-hand");
	flare->expires = stamp_of("2027-03");
	struct change change =
	    change_of(&scene, flare, TASK_RENEW, "2027-06-01", "2026-11-25");
	assert_true(change.must);
	assert_false(change.cannot);
	assert_true(change.printed);
	assert_day(change.not_before, "");
	assert_day(change.by, "2027-05-31");
}

/* As the book has it: each of the three holds until the next day for which something else
 * is said of it, and goes on past days that speak of the others. */
TEST(a_supposition_holds_until_something_else_is_said_of_the_same)
{
	SCENE(scene, RAFTS);
	struct vessel out = {0};
	scene.periods[0].says = SAYS_USE | SAYS_AREA | SAYS_PERSONS;
	scene.periods[0].persons = 4;
	scene.periods[1] = (struct period){
	    .from = day_of("2027-01-01"), .area = "", .persons = 6, .says = SAYS_PERSONS};
	scene.periods[2] = (struct period){.from = day_of("2028-01-01"),
	    .use = USE_PRIVATE,
	    .area = "",
	    .persons = 6,
	    .says = SAYS_USE};
	scene.vessel.period_count = 3;
	struct supposition words = commercial_from("2026-12-01");
	vessel_suppose(&scene.vessel, &words, &scene.arena, &out);
	assert_int_equal(out.period_count, 4);

	static const struct {
		const char *day;
		enum use use;
		int persons;
	} ROWS[] = {
	    {"2026-11-30", USE_PRIVATE, 4},
	    {"2026-12-01", USE_COMMERCIAL, 4},
	    {"2026-12-31", USE_COMMERCIAL, 4},
	    {"2027-01-01", USE_COMMERCIAL, 6},
	    {"2027-12-31", USE_COMMERCIAL, 6},
	    {"2028-01-01", USE_PRIVATE, 6},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct period *period = vessel_period_on(&out, day_of(ROWS[i].day));
		assert_int_equal(period->use, ROWS[i].use);
		assert_int_equal(period->persons, ROWS[i].persons);
	}
	/* On a day that is there already it changes that one and adds none. */
	words.from = day_of("2028-01-01");
	vessel_suppose(&scene.vessel, &words, &scene.arena, &out);
	assert_int_equal(out.period_count, 3);
	assert_int_equal(
	    vessel_period_on(&out, day_of("2029-01-01"))->use, USE_COMMERCIAL);
	assert_int_equal(vessel_period_on(&out, day_of("2027-12-31"))->use, USE_PRIVATE);
}

/* Each thing that is supposed replaces that thing alone, from its day on. */
TEST(what_is_supposed_replaces_that_and_nothing_else)
{
	static const char *const OWN[] = {"own"};
	static const char *const OTHERS[] = {"other"};

	static const struct {
		struct supposition words;
		enum use use;
		const char *area;
		int persons;
		const char *sheet; /* the first followed */
	} ROWS[] = {
	    {{.says = SAYS_USE, .use = USE_COMMERCIAL}, USE_COMMERCIAL, "coastal", 4, ""},
	    {{.says = SAYS_AREA, .area = "offshore"}, USE_PRIVATE, "offshore", 4, ""},
	    {{.says = SAYS_PERSONS, .persons = 9}, USE_PRIVATE, "coastal", 9, ""},
	    {{.says = SAYS_SHEETS, .sheets = OTHERS, .sheet_count = 1}, USE_PRIVATE,
		"coastal", 4, "other"},
	};

	SCENE(scene, RAFTS);
	scene.periods[0].says = SAYS_USE | SAYS_AREA | SAYS_PERSONS;
	scene.periods[0].area = "coastal";
	scene.periods[0].persons = 4;
	scene.vessel.sheets = OWN;
	scene.vessel.sheet_count = 1;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct supposition words = ROWS[i].words;
		struct vessel out = {0};
		words.from = day_of("2027-06-01");
		vessel_suppose(&scene.vessel, &words, &scene.arena, &out);
		const struct period *before =
		    vessel_period_on(&out, day_of("2027-05-31"));
		const struct period *then = vessel_period_on(&out, words.from);
		assert_int_equal(before->use, USE_PRIVATE);
		assert_string_equal(before->area, "coastal");
		assert_int_equal(before->persons, 4);
		assert_int_equal(then->use, ROWS[i].use);
		assert_string_equal(then->area, ROWS[i].area);
		assert_int_equal(then->persons, ROWS[i].persons);
		assert_string_equal(
		    then->sheet_count == 0 ? "" : then->sheets[0], ROWS[i].sheet);
		if (ROWS[i].sheet[0] != '\0') {
			assert_string_equal(before->sheets[0], "own");
		}
	}
}

/* On the very day of a period that is there already, and the day after it. */
TEST(an_area_is_supposed_until_another_is_said)
{
	static const struct {
		const char *day;
		const char *area;
	} ROWS[] = {{"2026-12-31", "coastal"}, {"2027-01-01", "offshore"},
	    {"2027-12-31", "offshore"}, {"2028-01-01", "inland"}};

	SCENE(scene, RAFTS);
	struct vessel out = {0};
	scene.periods[0].says = SAYS_USE | SAYS_AREA | SAYS_PERSONS;
	scene.periods[0].area = "coastal";
	scene.periods[1] = scene.periods[0];
	scene.periods[1].from = day_of("2027-01-01");
	scene.periods[1].says = SAYS_PERSONS;
	scene.periods[2] = scene.periods[0];
	scene.periods[2].from = day_of("2028-01-01");
	scene.periods[2].area = "inland";
	scene.periods[2].says = SAYS_AREA;
	scene.vessel.period_count = 3;
	const struct supposition words = {
	    .says = SAYS_AREA, .area = "offshore", .from = day_of("2027-01-01")};
	vessel_suppose(&scene.vessel, &words, &scene.arena, &out);
	assert_int_equal(out.period_count, 3);
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_string_equal(
		    vessel_period_on(&out, day_of(ROWS[i].day))->area, ROWS[i].area);
	}
}

/* By the long way: on which days, of all from today to the switch, does doing it help? */
static void
slowly_expect_days(struct scene *scene, const struct supposed_scene *supposed,
    const struct change *change)
{
	day_t first = DAY_NONE;
	const struct what_if *what_if = &supposed->what_if;
	for (day_t day = what_if->today; day < what_if->from; day++) {
		struct obligation after = {0};
		due_if_done_seen(&supposed->then, change->item,
		    (struct task_done){change->task, day, what_if->from}, &scene->arena,
		    &after);
		bool helps = after.state == STATE_IN_DATE;
		if (helps && first == DAY_NONE) {
			first = day;
		}
		assert_true(first == DAY_NONE || helps);
	}
	assert_int_equal(change->cannot, first == DAY_NONE && !change->printed);
	if (!change->printed) {
		assert_int_equal(change->not_before, first);
	}
}

TEST(the_days_to_do_it_are_those_found_by_trying_every_day)
{
	static const char *const KINDS[] = {"liferaft-canister", "lifejacket-auto",
	    "extinguisher-powder", "epirb", "hydrostatic-release", "tether"};

	CLOSES_SCENE struct scene scene;
	unsigned seed = 20261125;
	int tried = 0;
	scene_open(&scene, "practice.yaml");
	for (int round = 0; round < 150; round++) {
		scene.item_count = 0;
		struct item *item = scene_item(
		    &scene, KINDS[draw(&seed, sizeof KINDS / sizeof KINDS[0])]);
		item->made = draw_stamp(&seed, 2010, 15);
		item->fitted = draw_stamp(&seed, 2018, 8);
		char words[DAY_ISO_SIZE];
		day_t on = day_of("2024-06-01") + (day_t)draw(&seed, 850);
		scene_record(&scene, item, TASK_SERVICE, day_iso(on, words), NULL);
		struct supposition supposition = commercial_from("2027-06-01");
		supposition.from -= (day_t)draw(&seed, 100);
		struct supposed_scene supposed = {0};
		suppose(&scene, &supposed, &supposition, "2026-11-25");
		struct changes changes = {0};
		changes_of_item(&supposed.what_if, 0, &scene.arena, &changes);
		for (size_t i = 0; i < changes.count; i++) {
			if (changes.items[i].must && !changes.items[i].routine) {
				slowly_expect_days(&scene, &supposed, &changes.items[i]);
				tried++;
			}
		}
		arena_reset(&scene.arena);
	}
	assert_true(tried > 100);
}

/* How many sheets a period follows, and the first of them. */
static void
check_sheets(
    const struct period *period, const char *from, size_t count, const char *first)
{
	assert_int_equal(period->from, from == NULL ? DAY_NONE : day_of(from));
	assert_int_equal(period->sheet_count, count);
	if (count > 0) {
		assert_string_equal(period->sheets[0], first);
	}
}

/* A boat that follows "home" at all times, and "race" besides from 2028; from 2027 on she
 * is supposed to follow two others, which her own days before that and after the next
 * word on sheets do not. */
TEST(supposed_sheets_hold_from_their_day_and_her_own_are_named_before)
{
	static const char *const HOME[] = {"home"};
	static const char *const RACE[] = {"race"};
	static const char *const OTHERS[] = {"far", "near"};
	struct arena arena = {0};
	struct period periods[3] = {
	    {.from = DAY_NONE, .use = USE_PRIVATE, .area = ""},
	    {.from = day_of("2028-01-01"),
		.says = SAYS_SHEETS,
		.area = "",
		.sheets = RACE,
		.sheet_count = 1},
	    {.from = day_of("2029-01-01"), .says = SAYS_USE, .area = ""},
	};
	const struct vessel vessel = {.name = "Skerry",
	    .sheets = HOME,
	    .sheet_count = 1,
	    .periods = periods,
	    .period_count = 3};
	struct vessel out;
	struct supposition words = {.from = day_of("2027-01-01"),
	    .says = SAYS_SHEETS,
	    .sheets = OTHERS,
	    .sheet_count = 2};
	vessel_suppose(&vessel, &words, &arena, &out);
	assert_string_equal(out.name, "Skerry");
	assert_int_equal(out.period_count, 4);
	check_sheets(&out.periods[0], NULL, 1, "home");
	check_sheets(&out.periods[1], "2027-01-01", 2, "far");
	assert_int_equal(out.periods[1].says, SAYS_SHEETS);
	check_sheets(&out.periods[2], "2028-01-01", 1, "race");
	check_sheets(&out.periods[3], "2029-01-01", 1, "home");
	words.sheet_count = 0; /* the rulebook holds them: no period names any */
	vessel_suppose(&vessel, &words, &arena, &out);
	check_sheets(&out.periods[0], NULL, 0, "");
	check_sheets(&out.periods[1], "2027-01-01", 0, "");
	check_sheets(&out.periods[2], "2028-01-01", 0, "");
	check_sheets(&out.periods[3], "2029-01-01", 0, "");
	arena_clear(&arena);
}

/* The first of its clocks is told, and the second asks for the day it was made. */
TEST(what_any_of_its_clocks_asks_for_is_told)
{
	SCENE(scene, "  - id: r\n    kinds: [tether]\n    task: renew\n    doer: owner\n"
		     "    grade: law\n    clocks:\n      - {from: [fitted], months: 24}\n"
		     "      - {from: [made], months: 60}\n"
		     "    source: invented\n    standing: memory\n");
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2026-05-01");
	struct change change =
	    change_of(&scene, tether, TASK_RENEW, "2027-01-01", "2026-11-25");
	assert_string_equal(change.now.missing, "made");
	assert_string_equal(change.then.missing, "made");
	assert_string_equal(change.now.rule, "r");
}

/* Another use is supposed: what is said of sheets stays as it was, in every period. */
TEST(a_supposed_use_leaves_the_sheets_as_they_are)
{
	static const char *const HOME[] = {"home"};
	static const char *const RACE[] = {"race"};
	struct arena arena = {0};
	struct period periods[2] = {
	    {.from = DAY_NONE, .use = USE_PRIVATE, .area = ""},
	    {.from = day_of("2026-01-01"),
		.says = SAYS_SHEETS,
		.area = "",
		.sheets = RACE,
		.sheet_count = 1},
	};
	const struct vessel vessel = {
	    .sheets = HOME, .sheet_count = 1, .periods = periods, .period_count = 2};
	struct vessel out;
	const struct supposition words = commercial_from("2027-01-01");
	vessel_suppose(&vessel, &words, &arena, &out);
	assert_int_equal(out.period_count, 3);
	check_sheets(&out.periods[0], NULL, 0, "");
	check_sheets(&out.periods[1], "2026-01-01", 1, "race");
	check_sheets(&out.periods[2], "2027-01-01", 1, "race");
	arena_clear(&arena);
}

/* Once looked at it needs no look any more: there is nothing to tell of, before the
 * switch or after it. */
TEST(what_is_done_for_good_is_no_change)
{
	SCENE(scene,
	    "  - id: once\n    kinds: [tether]\n    task: inspect\n    doer: owner\n"
	    "    grade: law\n    clocks:\n"
	    "      - {from: [fitted], months: 24, holds: first}\n"
	    "    source: invented\n    standing: memory\n");
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2025-05-01");
	scene_record(&scene, tether, TASK_INSPECT, "2026-05-01", NULL);
	struct supposed_scene supposed = {0};
	struct changes changes = {0};
	struct supposition words = commercial_from("2027-01-01");
	suppose(&scene, &supposed, &words, "2026-11-25");
	changes_of_item(&supposed.what_if, 0, &scene.arena, &changes);
	assert_int_equal(changes.count, 0);
}

/* A use that is on record for a day to come has not happened as seen from today; on the
 * day of the switch it has. */
TEST(what_will_be_so_on_the_day_alone_is_told)
{
	const struct event used = {.kind = EVENT_USED, .on = day_of("2026-12-24")};
	SCENE(scene, "  - id: r\n    kinds: [harness]\n    task: renew\n    doer: owner\n"
		     "    grade: law\n    clocks:\n      - {from: [fitted], months: 24}\n"
		     "    source: invented\n    standing: memory\n");
	struct item *tether = scene_item(&scene, "tether");
	tether->events = &used;
	tether->event_count = 1;
	struct change change =
	    change_of(&scene, tether, TASK_SERVICE, "2027-01-01", "2026-11-25");
	assert_false(change.now.there || change.then.there);
	assert_true(change.must);
	assert_int_equal(change.on_the_day, STATE_OVERDUE);
}

TEST(a_change_matters_when_anything_of_it_is_another)
{
	const struct change_side side = {.there = true, .due = 100, .good_through = 100};
	const struct change same = {.now = side, .then = side};
	struct change others[4] = {same, same, same, same};
	others[0].then.there = false;
	others[1].then.state = STATE_OVERDUE;
	others[2].then.due = 99;
	others[3].then.good_through = 130;
	assert_false(change_matters(&same));
	for (size_t i = 0; i < 4; i++) {
		assert_true(change_matters(&others[i]));
	}
}

RUN_TESTS(NULL, NULL)
