/* The engine against a slow, obvious evaluator that asks, day by day and rule by rule,
 * whether the item is lapsed: no sets of days, no binding clocks, no looking ahead. */
#include "becket_test.h"
#include "draw_item.h"

#include <stdlib.h>
#include <string.h>

enum { ITEMS = 10000, FIRST_YEAR = 2024, YEARS = 15, SAMPLES = 12 };

static const char *const KINDS[] = {"liferaft-canister", "liferaft-valise",
    "lifejacket-auto", "lifejacket-manual", "flare-red-hand", "extinguisher-powder",
    "extinguisher-co2", "epirb", "plb", "hydrostatic-release", "tether", "jackstay",
    "danbuoy-inflatable", "recovery-module", "gas-hose", "gas-regulator", "co-alarm",
    "smoke-alarm", "first-aid-kit", "lifebuoy-light", "firing-head", "lifejacket-light"};

/* An item, its history, a boat that may change her use four times, and their engine. */
static struct item *
draw_case(struct scene *scene, unsigned *seed)
{
	struct item *item = draw_item(scene, seed, KINDS, sizeof KINDS / sizeof KINDS[0]);
	day_t on = day_from_civil(2016, 1, 1);
	for (unsigned i = draw(seed, 5); i > 0; i--) {
		on += 1 + (day_t)draw(seed, 900);
		char words[DAY_ISO_SIZE];
		scene_record(scene, item, (enum task)draw(seed, TASK_COUNT),
		    day_iso(on, words), NULL);
	}
	draw_uses(scene, seed, 5, FIRST_YEAR);
	scene_engine(scene);
	return item;
}

static bool
counts_for(const struct rule *rule, enum task task)
{
	return task == rule->task || ((rule->counts >> task) & 1U) == 1U;
}

/* The day a clock of the sheet counts from, by looking; DAY_NONE when it can't start. */
static day_t
start_of(const struct item *item, const struct rule *rule, enum anchor anchor)
{
	day_t last = DAY_NONE;
	switch (anchor) {
	case ANCHOR_MADE:
		return stamp_first(item->made);
	case ANCHOR_PACKED:
		return stamp_first(item->packed);
	case ANCHOR_BOUGHT:
		return stamp_first(item->bought);
	case ANCHOR_FITTED:
		return stamp_first(item->fitted);
	case ANCHOR_MARKED:
		return stamp_last(item->expires);
	case ANCHOR_LAST:
		for (size_t i = 0; i < item->record_count; i++) {
			if (counts_for(rule, item->records[i].task)) {
				last = day_max(last, stamp_first(item->records[i].on));
			}
		}
		return last;
	case ANCHOR_EVENT:
	case ANCHOR_CERTIFICATE:
	case ANCHOR_CONTENTS:
	case ANCHOR_HIRE:
		break;
	}
	return DAY_NONE;
}

/* The last good day a clock gives; DAY_NONE when it does not run. None of the sheet's clocks
 * ends a period late or early, which the test checks first. */
static day_t
good_through(
    const struct item *item, const struct rule *rule, const struct clock_rule *clock)
{
	int done = 0;
	for (size_t i = 0; i < item->record_count; i++) {
		done += counts_for(rule, item->records[i].task) ? 1 : 0;
	}
	if (done < clock->done_from || done > clock->done_until) {
		return DAY_NONE;
	}
	for (size_t i = 0; i < clock->anchor_count; i++) {
		day_t start = start_of(item, rule, clock->anchors[i]);
		if (start != DAY_NONE) {
			return clock->days > 0 ? start + clock->days
					       : day_add_months(start, clock->months);
		}
	}
	return DAY_NONE;
}

/* 1 the rule holds on the day, 0 it does not, -1 its item's age is not known. */
static int
holds_on(const struct scene *scene, const struct item *item, const struct rule *rule,
    day_t day)
{
	enum use use = USE_PRIVATE;
	for (size_t i = 0; i < scene->vessel.period_count; i++) {
		if (scene->periods[i].from <= day) {
			use = scene->periods[i].use;
		}
	}
	if (rule->when.uses != 0 && (rule->when.uses >> use & 1U) == 0) {
		return 0;
	}
	bool marked = item->expires.precision != STAMP_NONE;
	if (rule->when.marked != 0 && marked != (rule->when.marked > 0)) {
		return 0;
	}
	if (rule->when.age_from_months == 0) {
		return 1;
	}
	day_t born =
	    stamp_first(item->made.precision != STAMP_NONE ? item->made : item->packed);
	if (born == DAY_NONE) {
		return -1;
	}
	return day >= day_add_months(born, rule->when.age_from_months) ? 1 : 0;
}

static bool
speaks_of(const struct rule *rule, const struct item *item)
{
	for (size_t i = 0; i < rule->kind_count; i++) {
		if (strcmp(rule->kinds[i], item->kind) == 0) {
			return true;
		}
	}
	return false;
}

enum verdict { VERDICT_NONE, VERDICT_IN_DATE, VERDICT_LAPSED, VERDICT_UNKNOWN };

static enum verdict
slow_verdict(
    const struct scene *scene, const struct item *item, enum task task, day_t day)
{
	bool lapsed = false;
	bool runs = false;
	bool unknown = false;
	bool mark_read = false;
	bool marked = item->expires.precision != STAMP_NONE;
	for (size_t r = 0; r < scene->sheet->rule_count; r++) {
		const struct rule *rule = &scene->sheet->rules[r];
		if (rule->task != task || rule_is_routine(rule) ||
		    !speaks_of(rule, item)) {
			continue;
		}
		int holds = holds_on(scene, item, rule, day);
		for (size_t c = 0; c < rule->clock_count; c++) {
			if (rule->clocks[c].anchors[0] == ANCHOR_EVENT) {
				continue; /* nothing happened to these items */
			}
			day_t last = good_through(item, rule, &rule->clocks[c]);
			int done_ok = last != DAY_NONE;
			if (holds == 1 && done_ok) {
				runs = true;
				lapsed = lapsed || day > last;
				mark_read = mark_read ||
					    rule->clocks[c].anchors[0] == ANCHOR_MARKED;
			}
		}
		unknown = unknown || holds != 0;
	}
	if (task == TASK_RENEW && marked && !mark_read) {
		runs = true;
		lapsed = lapsed || day > stamp_last(item->expires);
	}
	if (!runs) {
		return unknown ? VERDICT_UNKNOWN : VERDICT_NONE;
	}
	return lapsed ? VERDICT_LAPSED : VERDICT_IN_DATE;
}

/* The item as it is known on a day: later records have not happened yet. */
static struct item
known_on(const struct item *item, day_t day)
{
	struct item known = *item;
	known.record_count = 0;
	while (known.record_count < item->record_count &&
	       stamp_first(item->records[known.record_count].on) <= day) {
		known.record_count++;
	}
	return known;
}

static struct obligation *
find_task(struct obligation *all, size_t count, enum task task)
{
	for (size_t i = 0; i < count; i++) {
		if (all[i].task == task && !all[i].routine) {
			return &all[i];
		}
	}
	return NULL;
}

/* The due day by walking: from `day` to the first lapsed day after it, or back to where the
 * current lapse began. */
static day_t
slow_good_through(
    const struct scene *scene, const struct item *item, enum task task, day_t day)
{
	const day_t end = day_from_civil(FIRST_YEAR + YEARS + 25, 1, 1);
	day_t at = day;
	if (slow_verdict(scene, item, task, day) == VERDICT_LAPSED) {
		while (slow_verdict(scene, item, task, at) == VERDICT_LAPSED &&
		       at > day_from_civil(1990, 1, 1)) {
			at--;
		}
		return at;
	}
	while (at < end && slow_verdict(scene, item, task, at) != VERDICT_LAPSED) {
		at++;
	}
	return at == end ? DAY_NEVER : at - 1;
}

static void
compare_on(struct scene *scene, const struct item *item, day_t day, int *compared)
{
	struct obligation *all = NULL;
	size_t count = 0;
	const struct item known = known_on(item, day);
	due_of_item(&scene->engine, 0, day, &scene->arena, &all, &count);
	for (int task = 0; task < TASK_COUNT; task++) {
		const struct obligation *found = find_task(all, count, (enum task)task);
		enum verdict verdict = slow_verdict(scene, &known, (enum task)task, day);
		if (found == NULL || found->reading_count == 0 ||
		    verdict == VERDICT_NONE || verdict == VERDICT_UNKNOWN) {
			continue;
		}
		(*compared)++;
		bool lapsed =
		    found->state != STATE_IN_DATE && found->state != STATE_DATE_UNKNOWN;
		char words[DAY_ISO_SIZE];
		if (lapsed != (verdict == VERDICT_LAPSED)) {
			fail_msg("%s %s on %s: the engine says %s", item->kind,
			    task_word((enum task)task), day_iso(day, words),
			    state_word(found->state));
		}
	}
}

TEST(the_engine_agrees_with_the_slow_evaluator_over_fifteen_years)
{
	CLOSES_SCENE struct scene scene;
	unsigned seed = 20261125;
	int compared = 0;
	scene_open(&scene, "practice.yaml");
	for (int round = 0; round < scaled(ITEMS); round++) {
		const struct item *item = draw_case(&scene, &seed);
		for (int sample = 0; sample < SAMPLES; sample++) {
			day_t day = day_from_civil(FIRST_YEAR, 1, 1) +
				    (day_t)draw(&seed, YEARS * 365);
			compare_on(&scene, item, day, &compared);
		}
		/* the days on which a use changes, and the days before them */
		for (size_t i = 1; i < scene.vessel.period_count; i++) {
			compare_on(&scene, item, scene.periods[i].from, &compared);
			compare_on(&scene, item, scene.periods[i].from - 1, &compared);
		}
		arena_reset(&scene.arena);
	}
	assert_true(compared > scaled(ITEMS) * SAMPLES / 2);
}

/* One view of an item, held to the slow evaluator on each of these days. */
static void
compare_every_day(
    struct scene *scene, const struct item *item, day_t first, day_t last, int *compared)
{
	struct obligation *all = NULL;
	size_t count = 0;
	const struct item known = known_on(item, first);
	due_of_item(&scene->engine, 0, first, &scene->arena, &all, &count);
	for (size_t i = 0; i < count; i++) {
		if (all[i].routine || all[i].state == STATE_DATE_UNKNOWN) {
			continue;
		}
		for (day_t day = first; day <= last; day++) {
			enum verdict verdict =
			    slow_verdict(scene, &known, all[i].task, day);
			bool lapsed = obligation_state_on(&all[i], day) != STATE_IN_DATE;
			if (verdict == VERDICT_UNKNOWN || verdict == VERDICT_NONE) {
				continue;
			}
			(*compared)++;
			if (lapsed != (verdict == VERDICT_LAPSED)) {
				char words[DAY_ISO_SIZE];
				fail_msg("%s %s on %s: the engine says %s", item->kind,
				    task_word(all[i].task), day_iso(day, words),
				    lapsed ? "lapsed" : "in date");
			}
		}
	}
}

/* Every single day, through all changes of use and of age between. */
TEST(one_look_ahead_holds_on_every_day_of_fifteen_years)
{
	enum { ITEMS_EVERY_DAY = 1000 };

	CLOSES_SCENE struct scene scene;
	unsigned seed = 15;
	int compared = 0;
	scene_open(&scene, "practice.yaml");
	for (int round = 0; round < scaled(ITEMS_EVERY_DAY); round++) {
		const struct item *item = draw_case(&scene, &seed);
		day_t first = day_from_civil(FIRST_YEAR, 1, 1);
		day_t last = day_from_civil(FIRST_YEAR + YEARS, 1, 1) - 1;
		compare_every_day(&scene, item, first, last, &compared);
		arena_reset(&scene.arena);
	}
	assert_true(compared > scaled(ITEMS_EVERY_DAY) * YEARS * 365 / 2);
}

TEST(the_last_good_day_is_the_one_found_by_walking)
{
	CLOSES_SCENE struct scene scene;
	unsigned seed = 7;
	int compared = 0;
	scene_open(&scene, "practice.yaml");
	for (int round = 0; round < scaled(400); round++) {
		struct item *item = draw_case(&scene, &seed);
		struct obligation *all = NULL;
		size_t count = 0;
		day_t day = day_of("2026-11-25");
		const struct item known = known_on(item, day);
		due_of_item(&scene.engine, 0, day, &scene.arena, &all, &count);
		for (size_t i = 0; i < count; i++) {
			enum verdict verdict =
			    slow_verdict(&scene, &known, all[i].task, day);
			if (all[i].routine || verdict == VERDICT_UNKNOWN ||
			    verdict == VERDICT_NONE) {
				continue;
			}
			compared++;
			assert_int_equal(all[i].good_through,
			    slow_good_through(&scene, &known, all[i].task, day));
		}
		arena_reset(&scene.arena);
	}
	assert_true(compared > scaled(400));
}

TEST(no_clock_of_the_sheet_needs_more_than_the_slow_evaluator_knows)
{
	SCENE(scene, "practice.yaml");
	for (size_t r = 0; r < scene.sheet->rule_count; r++) {
		const struct rule *rule = &scene.sheet->rules[r];
		assert_int_equal(rule->window.late_months, 0);
		assert_int_equal(rule->window.early_months, 0);
		assert_int_equal(rule->instead_of_count, 0);
		assert_int_equal(rule->when.age_until_months, 0);
		assert_int_equal(rule->when.area_count, 0);
		for (size_t c = 0; c < rule->clock_count; c++) {
			assert_int_equal(rule->clocks[c].through, THROUGH_DAY);
			assert_false(rule->clocks[c].before);
			assert_false(rule->clocks[c].stamp_end);
		}
	}
}

RUN_TESTS(NULL, NULL)
