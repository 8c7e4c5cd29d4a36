/* What was worked by hand for one sheet, in each sheet that has such rules. */
#include "becket_test.h"
#include "scene.h"

static const char *const SHEETS[] = {"australia.yaml", "canada-private.yaml",
    "france-private.yaml", "germany-private.yaml", "italy-private.yaml",
    "offshore-racing.yaml", "practice.yaml", "solas-convention.yaml",
    "spain-recreational.yaml", "uk-private.yaml", "uk-small-commercial.yaml",
    "us-recreational.yaml", "us-small-passenger.yaml", "us-uninspected-passenger.yaml"};

/* All obligations of one item, seen from a day. */
static size_t
all_due(struct scene *scene, const struct item *item, const char *today,
    struct obligation **out)
{
	size_t count = 0;
	scene_engine(scene);
	due_of_item(&scene->engine, (size_t)(item - scene->items), day_of(today),
	    &scene->arena, out, &count);
	return count;
}

/* True when some task of the item is lapsed on the day by a use, and since this day. */
static bool
is_out_by_use_since(
    struct scene *scene, const struct item *item, const char *today, const char *since)
{
	struct obligation *all = NULL;
	size_t count = all_due(scene, item, today, &all);
	for (size_t i = 0; i < count; i++) {
		const struct reading *binds = all[i].binding;
		if (binds != NULL && binds->anchor == ANCHOR_EVENT &&
		    all[i].state != STATE_IN_DATE && all[i].due == day_of(since) - 1 &&
		    all[i].grade != GRADE_PRACTICE) {
			return true;
		}
	}
	return false;
}

/* Served on 10 February 2026, used on 1 March and again on 1 August: out from 1 March, and on
 * 1 May because of the first alone. Served between the two it is in on 1 July and out from
 * August. */
TEST(in_every_sheet_what_was_used_twice_is_out_from_the_first_use)
{
	static const struct {
		const char *kind;
		enum event_kind event;
	} CASES[] = {
	    {"liferaft-canister", EVENT_FIRED},
	    {"liferaft-valise", EVENT_INFLATED},
	    {"lifejacket-auto", EVENT_INFLATED},
	    {"danbuoy-inflatable", EVENT_FIRED},
	    {"epirb", EVENT_ACTIVATED},
	    {"extinguisher-powder", EVENT_USED},
	};

	for (size_t i = 0; i < 2 * (sizeof SHEETS / sizeof SHEETS[0]); i++) {
		SCENE(scene, SHEETS[i / 2]);
		scene.periods[0].use = i % 2 == 0 ? USE_PRIVATE : USE_COMMERCIAL;
		for (size_t j = 0; j < sizeof CASES / sizeof CASES[0]; j++) {
			const struct event uses[] = {
			    {.kind = CASES[j].event, .on = day_of("2026-03-01")},
			    {.kind = CASES[j].event, .on = day_of("2026-08-01")},
			};
			struct item *item = scene_item(&scene, CASES[j].kind);
			item->made = stamp_of("2026-01-05");
			item->events = uses;
			item->event_count = 2;
			for (int task = 0; task < TASK_RENEW; task++) {
				scene_record(
				    &scene, item, (enum task)task, "2026-02-10", NULL);
			}
			if (!is_out_by_use_since(
				&scene, item, "2026-05-01", "2026-03-01") ||
			    !is_out_by_use_since(
				&scene, item, "2026-10-15", "2026-03-01") ||
			    is_out_by_use_since(
				&scene, item, "2026-02-28", "2026-03-01")) {
				fail_msg("%s in %s", CASES[j].kind, SHEETS[i / 2]);
			}
		}
	}
}

/* A raft without any date, a flare in it marked 2029-03: nothing of the raft is known by
 * that, under whatever sheet asks for a service. Once the flare has passed the raft is no
 * better. */
TEST(in_every_sheet_contents_do_not_stand_in_for_a_date_that_is_not_known)
{
	static const char *const KINDS[] = {"liferaft-canister", "liferaft-valise"};
	int bound = 0;
	for (size_t i = 0; i < 4 * (sizeof SHEETS / sizeof SHEETS[0]); i++) {
		CLOSES_SCENE struct scene scene;
		struct obligation *all = NULL;
		scene_open(&scene, SHEETS[i / 4]);
		scene.periods[0].use = i % 2 == 0 ? USE_PRIVATE : USE_COMMERCIAL;
		struct item *raft = scene_item(&scene, KINDS[i / 2 % 2]);
		struct item *flare = scene_item(&scene, "flare-red-hand");
		flare->parent = 0;
		flare->expires = stamp_of("2029-03");
		size_t count = all_due(&scene, raft, "2026-10-15", &all);
		for (size_t j = 0; j < count; j++) {
			if (all[j].state == STATE_IN_DATE && all[j].due != DAY_NONE) {
				fail_msg(
				    "a %s in %s is in date", raft->kind, SHEETS[i / 4]);
			}
			for (size_t k = 0; k < all[j].reading_count; k++) {
				const struct reading *reading = &all[j].readings[k];
				bound += reading->anchor == ANCHOR_CONTENTS &&
					 reading->state == READING_RUNS;
			}
		}
	}
	/* valises in uk-small-commercial, both in us-small-passenger: commercial use alone */
	assert_int_equal(bound, 3);
}

/* Where a rule leaves it to the maker: served on 20 May 2026 the date is unknown; with "every 30
 * months" it is 20 November 2028, or what a law of the sheet asks for before that. */
TEST(in_each_sheet_that_leaves_it_to_the_maker_the_interval_is_asked_for)
{
	static const struct {
		const char *sheet;
		const char *kind;
		enum use use;
		const char *due;
		enum grade grade;
	} CASES[] = {
	    {"canada-private.yaml", "lifejacket-auto", USE_PRIVATE, "2028-11-20",
		GRADE_LAW},
	    {"canada-private.yaml", "extinguisher-powder", USE_PRIVATE, "2028-11-20",
		GRADE_LAW},
	    {"italy-private.yaml", "liferaft-valise", USE_PRIVATE, "2028-11-20",
		GRADE_MAKER},
	    {"spain-recreational.yaml", "liferaft-valise", USE_PRIVATE, "2028-11-20",
		GRADE_LAW},
	    /* hire: 24 months at most */
	    {"spain-recreational.yaml", "liferaft-valise", USE_COMMERCIAL, "2028-05-20",
		GRADE_LAW},
	    {"spain-recreational.yaml", "lifejacket-auto", USE_PRIVATE, "2028-11-20",
		GRADE_LAW},
	    {"uk-small-commercial.yaml", "danbuoy-inflatable", USE_COMMERCIAL,
		"2028-11-20", GRADE_MAKER},
	};

	static const struct interval EVERY_30 = {
	    .task = TASK_SERVICE, .months = 30, .paper = "manual"};
	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		SCENE(scene, CASES[i].sheet);
		scene.periods[0].use = CASES[i].use;
		struct item *item = scene_item(&scene, CASES[i].kind);
		item->made = stamp_of("2024-05-01");
		scene_record(&scene, item, TASK_SERVICE, "2026-05-20", NULL);
		struct obligation due =
		    scene_due(&scene, item, TASK_SERVICE, "2026-11-25");
		assert_int_equal(due.state, STATE_DATE_UNKNOWN);
		item->intervals = &EVERY_30;
		item->interval_count = 1;
		due = scene_due(&scene, item, TASK_SERVICE, "2026-11-25");
		if (due.due != day_of(CASES[i].due) || due.grade != CASES[i].grade) {
			char buffer[DAY_ISO_SIZE];
			fail_msg("%s in %s: %s, grade %s", CASES[i].kind, CASES[i].sheet,
			    day_iso(due.due, buffer), grade_word(due.grade));
		}
	}
}

RUN_TESTS(NULL, NULL)
