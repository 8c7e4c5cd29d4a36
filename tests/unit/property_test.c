/* What must hold for any gear on any boat: random items under the sheet of common practice. */
#include "becket_test.h"
#include "draw_item.h"

#include <string.h>

enum { ROUNDS = 3000 };

static const char *const KINDS[] = {"liferaft-canister", "liferaft-valise",
    "lifejacket-auto", "flare-red-hand", "extinguisher-powder", "extinguisher-co2",
    "epirb", "hydrostatic-release", "tether", "danbuoy-inflatable", "gas-hose",
    "co-alarm", "first-aid-kit"};

/* An item, its history up to today, and a boat that may change her use twice. */
static struct item *
draw_case(struct scene *scene, unsigned *seed)
{
	struct item *item = draw_item(scene, seed, KINDS, sizeof KINDS / sizeof KINDS[0]);
	day_t on = day_from_civil(2019, 1, 1);
	for (unsigned i = draw(seed, 4); i > 0; i--) {
		on += (day_t)draw(seed, 900);
		char words[DAY_ISO_SIZE];
		scene_record(scene, item, (enum task)draw(seed, TASK_RENEW),
		    day_iso(day_min(on, day_of("2026-11-20")), words), NULL);
	}
	draw_uses(scene, seed, 3, 2024);
	return item;
}

/* Every obligation of the scene's one item. */
static size_t
obligations_on(struct scene *scene, day_t today, struct obligation **out)
{
	size_t count = 0;
	scene_engine(scene);
	due_of_item(&scene->engine, 0, today, &scene->arena, out, &count);
	return count;
}

static struct obligation
same_obligation(struct scene *scene, const struct obligation *wanted, day_t today)
{
	struct obligation *all = NULL;
	size_t count = obligations_on(scene, today, &all);
	for (size_t i = 0; i < count; i++) {
		if (all[i].task == wanted->task && all[i].routine == wanted->routine) {
			return all[i];
		}
	}
	return (struct obligation){.state = STATE_DATE_UNKNOWN};
}

TEST(an_item_is_in_date_on_its_last_good_day_and_lapsed_on_the_next)
{
	CLOSES_SCENE struct scene scene;
	unsigned seed = 1;
	int looked_at = 0;
	scene_open(&scene, "practice.yaml");
	for (int round = 0; round < scaled(ROUNDS); round++) {
		struct obligation *all = NULL;
		(void)draw_case(&scene, &seed);
		size_t count = obligations_on(&scene, day_of("2026-11-25"), &all);
		for (size_t i = 0; i < count; i++) {
			day_t last = all[i].good_through;
			if (all[i].state != STATE_IN_DATE || last == DAY_NEVER) {
				continue;
			}
			looked_at++;
			assert_int_equal(
			    obligation_state_on(&all[i], last), STATE_IN_DATE);
			assert_int_not_equal(
			    obligation_state_on(&all[i], last + 1), STATE_IN_DATE);
			struct obligation then = same_obligation(&scene, &all[i], last);
			struct obligation next =
			    same_obligation(&scene, &all[i], last + 1);
			assert_int_equal(then.state, STATE_IN_DATE);
			assert_int_not_equal(next.state, STATE_IN_DATE);
			assert_int_equal(next.good_through, last);
		}
		arena_reset(&scene.arena);
	}
	assert_true(looked_at > scaled(ROUNDS) / 2);
}

TEST(a_lapsed_item_was_in_date_on_its_due_day_and_not_since)
{
	CLOSES_SCENE struct scene scene;
	unsigned seed = 2;
	int looked_at = 0;
	scene_open(&scene, "practice.yaml");
	for (int round = 0; round < scaled(ROUNDS); round++) {
		struct obligation *all = NULL;
		(void)draw_case(&scene, &seed);
		day_t today = day_of("2026-11-25");
		size_t count = obligations_on(&scene, today, &all);
		for (size_t i = 0; i < count; i++) {
			if (all[i].state == STATE_IN_DATE ||
			    all[i].state == STATE_DATE_UNKNOWN) {
				continue;
			}
			looked_at++;
			day_t due = all[i].good_through;
			assert_true(due < today);
			assert_int_equal(
			    obligation_state_on(&all[i], due), STATE_IN_DATE);
			for (day_t day = due + 1; day <= today; day += 31) {
				assert_int_not_equal(
				    obligation_state_on(&all[i], day), STATE_IN_DATE);
			}
		}
		arena_reset(&scene.arena);
	}
	assert_true(looked_at > scaled(ROUNDS) / 2);
}

/* The earliest day to which an interval of the obligation's rules runs from a day. */
static day_t
strictest_day(const struct obligation *obligation, day_t done)
{
	day_t strictest = DAY_NEVER;
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		if (reading->rule != NULL && reading->months + reading->days > 0) {
			day_t day = day_add_months(done, reading->months) + reading->days;
			strictest = day_min(strictest, day);
		}
	}
	return strictest;
}

TEST(adding_a_record_makes_nothing_due_earlier_than_the_strictest_rule_says)
{
	CLOSES_SCENE struct scene scene;
	unsigned seed = 3;
	int looked_at = 0;
	scene_open(&scene, "practice.yaml");
	for (int round = 0; round < scaled(ROUNDS); round++) {
		struct obligation *all = NULL;
		struct item *item = draw_case(&scene, &seed);
		day_t today = day_of("2026-11-25");
		day_t done = day_of("2026-11-24");
		size_t count = obligations_on(&scene, today, &all);
		size_t records = item->record_count;
		for (size_t i = 0; i < count; i++) {
			if (all[i].task == TASK_RENEW ||
			    all[i].good_through == DAY_NONE) {
				continue;
			}
			item->record_count = records;
			scene_record(&scene, item, all[i].task, "2026-11-24", NULL);
			struct obligation after = same_obligation(&scene, &all[i], today);
			day_t strictest = strictest_day(&all[i], done);
			looked_at++;
			assert_int_equal(after.state, STATE_IN_DATE);
			assert_true(after.good_through >=
					day_min(all[i].good_through, strictest) ||
				    after.good_through == scene.periods[1].from - 1 ||
				    after.good_through == scene.periods[2].from - 1);
		}
		arena_reset(&scene.arena);
	}
	assert_true(looked_at > scaled(ROUNDS) / 2);
}

/* The sheets whose rules are looked at; the others keep anniversaries. */
static const char *const SHEETS[] = {
    "practice.yaml", "uk-small-commercial.yaml", "solas-convention.yaml"};

/* Whether it is due no sooner than the last day of the season, or asked for no more; the plan reads
 * the due day, not the end of a window. */
static bool
carries(const struct obligation *after, const struct shore_list *list)
{
	bool told = after->state == STATE_IN_DATE;
	bool long_enough =
	    after->due == DAY_NONE || after->due >= list->winter.next_lay_up - 1;
	return after->reading_count == 0 || (told && long_enough);
}

/* Checks one line of a shore list by really writing the record. */
static void
check_line(struct scene *scene, const struct shore_list *list,
    const struct shore_line *line, day_t hand_in)
{
	struct item *item = &scene->items[0];
	size_t records = item->record_count;
	struct obligation wanted = {.task = line->task};
	char words[DAY_ISO_SIZE];
	scene_record(scene, item, line->task, day_iso(hand_in, words), NULL);
	struct obligation after = same_obligation(scene, &wanted, hand_in);
	assert_true(carries(&after, list));
	item->record_count = records;
	if (line->not_before > list->winter.lay_up) {
		scene_record(
		    scene, item, line->task, day_iso(line->not_before - 1, words), NULL);
		after = same_obligation(scene, &wanted, line->not_before - 1);
		assert_false(carries(&after, list));
		item->record_count = records;
	}
}

/* One round: the shore list of a boat drawn at random. How many lines were looked at. */
static int
check_shore_list(struct scene *scene, unsigned *seed)
{
	struct shore_list list;
	struct obligation *all = NULL;
	struct station station = {.name = "Loft", .base = "", .turn_round_days = 21};
	int looked_at = 0;
	(void)draw_case(scene, seed);
	(void)obligations_on(scene, day_of("2026-11-25"), &all);
	const struct winter_request request = {.engine = &scene->engine,
	    .stations = &station,
	    .station_count = 1,
	    .today = day_of("2026-11-25")};
	winter_plan_fleet(&request, &(size_t){0}, 1, &scene->arena, &list);
	for (size_t i = 0; i < list.hand_in.count; i++) {
		const struct trip *trip = &list.hand_in.items[i];
		assert_true(trip->collect <= list.winter.fitting_out);
		for (size_t j = 0; j < trip->lines.count; j++) {
			const struct shore_line *line = &trip->lines.items[j];
			if (line->carries && line->task != TASK_RENEW) {
				looked_at++;
				assert_true(trip->hand_in >= line->not_before);
				assert_true(trip->hand_in <= line->not_after);
				check_line(scene, &list, line, trip->hand_in);
			}
		}
	}
	return looked_at;
}

TEST(handing_in_between_not_before_and_not_after_carries_her_through_the_season)
{
	for (unsigned s = 0; s < 3; s++) {
		CLOSES_SCENE struct scene scene;
		unsigned seed = 4 + s;
		int looked_at = 0;
		scene_open(&scene, SHEETS[s]);
		struct odd_winter odd = {
		    2026, {day_of("2026-10-05"), day_of("2027-03-31")}};
		scene.vessel.odd_winters = &odd;
		scene.vessel.odd_winter_count = 1;
		for (int round = 0; round < scaled(ROUNDS); round++) {
			looked_at += check_shore_list(&scene, &seed);
			arena_reset(&scene.arena);
		}
		assert_true(looked_at > scaled(ROUNDS) / 20);
	}
}

/* Does a task on ten days, each later than the one before. How many could be told. */
static int
check_later(struct scene *scene, enum task task, day_t done, unsigned *seed)
{
	day_t before = DAY_NONE;
	int told = 0;
	for (int i = 0; i < 10 && task != TASK_RENEW; i++) {
		struct obligation again;
		due_if_done(&scene->engine, 0, task, done, &scene->arena, &again);
		day_t due = again.due == DAY_NONE ? DAY_NEVER : again.due;
		if (again.state == STATE_IN_DATE) {
			assert_true(due >= before);
			before = due;
			told++;
		}
		done += 1 + (day_t)draw(seed, 60);
	}
	return told;
}

/* What find_not_before halves the range by. A day on which it is out of date all the same, by its
 * mark or its age, is passed over. */
TEST(done_later_a_thing_is_due_again_no_sooner)
{
	for (unsigned s = 0; s < 3; s++) {
		CLOSES_SCENE struct scene scene;
		unsigned seed = 60 + s;
		int looked_at = 0;
		scene_open(&scene, SHEETS[s]);
		for (int round = 0; round < scaled(ROUNDS / 3); round++) {
			struct obligation *all = NULL;
			(void)draw_case(&scene, &seed);
			day_t done = day_of("2026-11-25");
			size_t count = obligations_on(&scene, done, &all);
			for (size_t i = 0; i < count; i++) {
				looked_at +=
				    check_later(&scene, all[i].task, done, &seed);
			}
			arena_reset(&scene.arena);
		}
		assert_true(looked_at > scaled(ROUNDS / 3));
	}
}

/* Adds up to two events and an extension, all of days before today. */
static void
draw_more(struct scene *scene, unsigned *seed, struct event events[2],
    struct extension *extension)
{
	struct item *item = &scene->items[0];
	day_t on = day_from_civil(2022, 1, 1);
	item->events = events;
	item->event_count = draw(seed, 3);
	for (size_t i = 0; i < item->event_count; i++) {
		on += (day_t)draw(seed, 800);
		events[i] = (struct event){.kind = (enum event_kind)draw(seed, 4),
		    .on = day_min(on, day_of("2026-11-20"))};
	}
	*extension = (struct extension){.task = (enum task)draw(seed, TASK_COUNT),
	    .given = day_from_civil(2024, 1, 1) + (day_t)draw(seed, 1000),
	    .until = day_from_civil(2026, 6, 1) + (day_t)draw(seed, 900),
	    .paper = ""};
	item->extensions = extension;
	item->extension_count = draw(seed, 2);
}

TEST(a_day_s_answer_is_the_same_whether_asked_for_or_read_from_spans_seen_earlier)
{
	for (unsigned s = 0; s < 3; s++) {
		CLOSES_SCENE struct scene scene;
		unsigned seed = 40 + s;
		int looked_at = 0;
		scene_open(&scene, SHEETS[s]);
		for (int round = 0; round < scaled(ROUNDS); round++) {
			struct obligation *all = NULL;
			struct event events[2];
			struct extension extension;
			(void)draw_case(&scene, &seed);
			draw_more(&scene, &seed, events, &extension);
			day_t today = day_of("2026-11-25");
			size_t count = obligations_on(&scene, today, &all);
			for (size_t i = 0; i < count; i++) {
				day_t day = today + (day_t)draw(&seed, 2500);
				struct obligation then =
				    same_obligation(&scene, &all[i], day);
				if (all[i].state == STATE_DATE_UNKNOWN ||
				    then.state == STATE_DATE_UNKNOWN) {
					continue;
				}
				looked_at++;
				assert_int_equal(
				    obligation_state_on(&all[i], day) == STATE_IN_DATE,
				    then.state == STATE_IN_DATE);
			}
			arena_reset(&scene.arena);
		}
		assert_true(looked_at > scaled(ROUNDS) / 4);
	}
}

/* The common practice has no window that keeps the anniversary. A record that names its day is
 * taken out where a later one of the same task stands. */
TEST(deleting_an_overtaken_record_changes_nothing_where_no_anniversary_is_kept)
{
	CLOSES_SCENE struct scene scene;
	unsigned seed = 6;
	int looked_at = 0;
	scene_open(&scene, "practice.yaml");
	for (int round = 0; round < scaled(10 * ROUNDS); round++) {
		struct obligation *before = NULL;
		struct obligation *after = NULL;
		struct event events[2];
		struct extension extension;
		struct item *item = draw_case(&scene, &seed);
		draw_more(&scene, &seed, events, &extension);
		day_t today = day_of("2026-11-25");
		struct record *records = scene.records[0];
		size_t gone = draw(&seed, 3);
		bool overtaken = false;
		for (size_t i = gone + 1; i < item->record_count; i++) {
			overtaken = overtaken || records[i].task == records[gone].task;
		}
		size_t count = obligations_on(&scene, today, &before);
		if (overtaken) {
			looked_at++;
			for (size_t i = gone; i + 1 < item->record_count; i++) {
				records[i] = records[i + 1];
			}
			item->record_count--;
			assert_int_equal(obligations_on(&scene, today, &after), count);
			for (size_t i = 0; i < count; i++) {
				assert_int_equal(after[i].state, before[i].state);
				assert_int_equal(after[i].due, before[i].due);
				assert_int_equal(
				    after[i].good_through, before[i].good_through);
			}
		}
		arena_reset(&scene.arena);
	}
	assert_true(looked_at > scaled(ROUNDS) / 4);
}

#define RULE_OF(id, from, months)                                                        \
	"  - id: " id "\n    kinds: [liferaft-canister]\n    task: service\n"            \
	"    doer: station\n    grade: law\n    clocks:\n      - { from: [" from         \
	"], months: " months " }\n    source: test\n    standing: common practice\n"

/* With and without one more rule, which counts from the day of fitting; that is known. */
TEST(a_rule_with_a_known_clock_makes_nothing_due_later)
{
	static const char *const FEWER = RULE_OF("a", "last, packed", "30");
	static const char *const MORE =
	    RULE_OF("a", "last, packed", "30") RULE_OF("b", "fitted", "100");
	static const char *const ONE_KIND[] = {"liferaft-canister"};
	CLOSES_SCENE struct scene fewer;
	CLOSES_SCENE struct scene more;
	unsigned seed = 8;
	int looked_at = 0;
	int earlier = 0;
	scene_open(&fewer, FEWER);
	scene_open(&more, MORE);
	for (int round = 0; round < scaled(ROUNDS); round++) {
		struct obligation *all = NULL;
		struct event events[2];
		struct extension extension;
		struct item *item = draw_item(&fewer, &seed, ONE_KIND, 1);
		day_t today = day_of("2026-11-25");
		scene_record(&fewer, item, TASK_SERVICE, "2025-03-01", NULL);
		item->record_count = draw(&seed, 2);
		draw_more(&fewer, &seed, events, &extension);
		more.item_count = 0;
		*scene_item(&more, "liferaft-canister") = *item;
		size_t count = obligations_on(&fewer, today, &all);
		for (size_t i = 0; i < count; i++) {
			struct obligation both = same_obligation(&more, &all[i], today);
			if (item->fitted.precision == STAMP_NONE ||
			    all[i].state == STATE_DATE_UNKNOWN) {
				continue;
			}
			looked_at++;
			earlier += both.good_through < all[i].good_through ? 1 : 0;
			assert_true(both.good_through <= all[i].good_through);
		}
		arena_reset(&fewer.arena);
		arena_reset(&more.arena);
	}
	assert_true(looked_at > scaled(ROUNDS) / 4);
	assert_true(earlier > 0);
}

RUN_TESTS(NULL, NULL)
