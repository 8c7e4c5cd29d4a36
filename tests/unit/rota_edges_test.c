/* The edges of a rota: spares that are no match, what is no piece of it, hand-ins that do
 * not serve, what is ashore already, shortages that it makes worse. All days are worked by hand. */
#include "rota_scene.h"

/* Jackets serviced every twelve months, and manual ones that last as marked; four of
 * either are carried. */
static const char JACKETS[] =
    "  - id: jacket\n    kinds: [lifejacket-auto]\n    task: service\n"
    "    doer: station\n    grade: law\n    clocks:\n      - {from: [last], months: 12}\n"
    "    source: invented\n    standing: memory\n"
    "  - id: manual\n    kinds: [lifejacket-manual]\n    task: renew\n    doer: owner\n"
    "    grade: law\n    clocks:\n      - {from: [marked]}\n"
    "    source: invented\n    standing: memory\n"
    "carriage:\n"
    "  - id: j\n    title: Jackets\n    need: {points: 4}\n    serves:\n"
    "      - {kinds: [lifejacket-auto, lifejacket-manual], points: 1}\n"
    "    source: invented\n    standing: memory\n";

/* One boat alone is asked about. */
static void
ask_boat(struct base *base)
{
	static const size_t BOATS[] = {BOAT};
	base->ask.vessels = BOATS;
	base->ask.vessel_count = 1;
}

/* Three of four jackets are there: she is short of one anyway, and from 11 March 2027,
 * when they have lapsed for want of a spare, of four. That is the rota's doing. */
TEST(a_shortage_that_grows_is_the_rota_s)
{
	CLOSES_SCENE struct base base;
	base_open_of(&base, JACKETS);
	ask_boat(&base);
	base_add_jackets(&base, BOAT, 3, "2026-03-10");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.short_count, 1);
	assert_false(rota.shorts[0].anyway);
	assert_false(rota.holds);
}

/* A manual jacket ends with August 2027, so that she is short anyway from 1 September;
 * but for want of a spare she is from 11 March. */
TEST(a_shortage_that_begins_sooner_is_the_rota_s)
{
	CLOSES_SCENE struct base base;
	base_open_of(&base, JACKETS);
	ask_boat(&base);
	base_add_jackets(&base, BOAT, 3, "2026-03-10");
	base_add(&base, BOAT, "lifejacket-manual", "2026-03-10")->expires =
	    stamp_of("2027-08");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.short_count, 1);
	assert_false(rota.shorts[0].anyway);
	assert_day(rota.shorts[0].from, "2027-03-11");
}

TEST(a_spare_is_of_the_same_rating_and_number_and_lies_in_the_store_itself)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	ask_boat(&base);
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	for (int i = 0; i < 5; i++) {
		(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	}
	base.scene.items[1].rating = "offshore";
	base.scene.items[2].quantity = 2;
	base.scene.items[3].state = PLACE_LANDED;
	base.scene.items[4].parent = 5;
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 1);
	assert_int_equal(rota.groups[0].spare_count, 1);
	assert_int_equal(rota.groups[0].spares[0].item, 5);
	assert_int_equal(rota.groups[0].lines[0].cover, ROTA_SPARE);
	assert_int_equal(rota.groups[0].lines[0].cover_item, 5);
}

/* The first of two in the store lapsed in 2025. */
TEST(the_spare_that_counts_is_named_behind_one_that_does_not)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	ask_boat(&base);
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2024-01-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	struct rota rota = base_rota(&base);
	const struct rota_group *group = &rota.groups[0];
	assert_int_equal(group->spare_count, 2);
	assert_int_equal(group->spares[0].counts_through, DAY_NONE);
	assert_false(group->spares[0].used);
	assert_int_equal(group->lines[0].cover, ROTA_SPARE);
	assert_int_equal(group->lines[0].cover_item, 2);
}

/* What is hired, in reserve or part of another is no piece of a rota. */
TEST(what_is_hired_or_in_reserve_is_not_planned)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	ask_boat(&base);
	base_add_jackets(&base, BOAT, 3, "2026-03-10");
	base.scene.items[0].hired_until = day_of("2027-12-31");
	base.scene.items[1].state = PLACE_RESERVE;
	base.scene.items[2].parent = 1;
	assert_int_equal(base_rota(&base).group_count, 0);
}

/* Nothing to plan: both boats are short of rafts and jackets, and not for the rota's sake. */
TEST(of_no_gear_there_is_a_rota_without_groups)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 0);
	assert_int_equal(rota.boats, 2);
	assert_int_equal(rota.short_count, 2);
	assert_true(rota.shorts[0].anyway && rota.shorts[1].anyway);
	assert_true(rota.holds);
}

/* The jackets, which come first, are all needed and have no spare; the raft has one. */
TEST(a_rota_does_not_hold_where_the_first_group_is_not_possible)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	ask_boat(&base);
	base_add_jackets(&base, BOAT, 4, "2026-03-10");
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 2);
	assert_false(rota.groups[0].possible);
	assert_true(rota.groups[1].possible);
	assert_false(rota.holds);
}

/* An engine without an index of parts plans the wholes. */
TEST(without_an_index_of_parts_the_wholes_are_planned)
{
	CLOSES_SCENE struct base base;
	struct rota rota = {0};
	base_open(&base);
	ask_boat(&base);
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	rota_make(&base.ask, &base.scene.arena, &rota);
	assert_int_equal(rota.group_count, 1);
	assert_true(rota.groups[0].possible);
	assert_true(rota.groups[0].lines[0].planned);
}

/* Due on 10 March 2027. Given out for the 5th, when the loft is shut, it stays there, in
 * time and with nothing in its place; given out for a day before the rota, or at a
 * station that is not hers, it is planned as any other. */
TEST(a_hand_in_that_was_given_out_is_kept_where_it_lies_ahead_and_is_hers)
{
	static const char *const TAGS[] = {"LR-1"};
	static const char *const DAYS[] = {"2027-03-05", "2026-11-20", "2027-03-01"};
	const day_t dues[] = {day_of("2027-03-10")};
	const struct span shut = {day_of("2027-03-05"), day_of("2027-03-05")};
	for (size_t i = 0; i < 3; i++) {
		const struct settled_hand_in settled = {.of_base = true,
		    .owner = "Holm Quay",
		    .winter = 2027,
		    .station = i == 2 ? "Elsewhere" : "Loft",
		    .day = day_of(DAYS[i]),
		    .planned = DAY_NONE,
		    .tags = TAGS,
		    .dues = dues,
		    .tag_count = 1};
		CLOSES_SCENE struct base base;
		base_open(&base);
		ask_boat(&base);
		base.station.shut = &shut;
		base.station.shut_count = 1;
		base_add(&base, BOAT, "liferaft-valise", "2026-03-10")->tag = TAGS[0];
		(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
		base.ask.settled = &settled;
		base.ask.settled_count = 1;
		struct rota rota = base_rota(&base);
		const struct rota_line *line = &rota.groups[0].lines[0];
		assert_true(line->planned);
		assert_false(line->late);
		assert_int_equal(rota.groups[0].possible, i != 0);
		assert_int_equal(line->cover, i == 0 ? ROTA_NOT : ROTA_SPARE);
		if (i == 0) {
			assert_day(line->hand_in, "2027-03-05");
		}
	}
}

TEST(a_failed_line_fails_on_the_day_it_goes_or_has_lapsed)
{
	const struct rota rota = {.days = {100, 465}};

	const struct {
		struct rota_line line;
		day_t fails;
	} ROWS[] = {
	    {{.planned = true, .cover = ROTA_NOT, .hand_in = 130}, 130},
	    {{.planned = true, .cover = ROTA_BARE, .hand_in = 130, .good_through = 120},
		121},
	    {{.cover = ROTA_NOT, .good_through = 120}, 121},
	    {{.cover = ROTA_NOT, .good_through = 90}, 100},
	    {{.cover = ROTA_NOT, .state = STATE_OVERDUE, .good_through = 120}, 100},
	    /* the rule ends before its window does: at the latest it goes when it is due */
	    {{.cover = ROTA_NOT, .due = 110, .good_through = DAY_NEVER}, 111},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_int_equal(rota_fails_on(&rota, &ROWS[i].line), ROWS[i].fails);
	}
}

/* Cells renewed every year by a station, counted from when they were fitted or last renewed:
 * due on 10 March 2027, and again a year on, which is a day that is known. Renewed, the beacon
 * that she has to carry is in date, also one whose shell is good until 2034. */
TEST(what_is_renewed_every_year_is_due_again_in_a_year)
{
	static const char *const FROM[] = {"fitted", "last", "last, fitted"};
	for (size_t i = 0; i < sizeof FROM / sizeof FROM[0] * 2; i++) {
		char rules[768];
		bool printed = i % 2 == 1;
		(void)snprintf(rules, sizeof rules,
		    "  - id: cells\n    kinds: [epirb]\n    task: renew\n"
		    "    doer: station\n    grade: maker\n    clocks:\n"
		    "      - {from: [%s], months: 12}\n    refit: yes\n"
		    "    source: invented\n    standing: memory\n"
		    "carriage:\n  - id: b\n    title: Beacon\n    need: {points: 1}\n"
		    "    serves:\n      - {kinds: [epirb], points: 1}\n"
		    "    source: invented\n    standing: memory\n",
		    FROM[i / 2]);
		CLOSES_SCENE struct base base;
		base_open_of(&base, rules);
		ask_boat(&base);
		base.ask.stand_ins = 1;
		struct item *beacon = base_add(&base, BOAT, "epirb", "2026-03-10");
		beacon->fitted = stamp_of("2026-03-10");
		beacon->expires = stamp_of(printed ? "2034-01" : "");
		scene_record(&base.scene, beacon, TASK_RENEW, "2026-03-10", NULL);
		struct rota rota = base_rota(&base);
		assert_int_equal(rota.group_count, 1);
		assert_day(rota.groups[0].lines[0].hand_in, "2027-03-10");
		assert_day(rota.groups[0].lines[0].again, "2028-03-10");
		assert_int_equal(rota.short_count, 0);
	}
}

/* A beacon fitted on 10 June 2026 whose battery, good through March 2027 as printed, a
 * station renews, and which is looked at within a year of being fitted. With its new battery
 * it is the same beacon, fitted when it was, as a refit on record leaves it: the look is due
 * on 10 June 2027, whoever's it is, and not on 31 March 2028. She is short of it from the day
 * after. */
TEST(what_is_counted_from_the_fitting_of_a_whole_is_not_counted_from_its_refit)
{
	static const struct {
		const char *doer;
		const char *again; /* NULL: of what is an owner's the rota knows none */
		const char *last;
		size_t shorts;
	} ROWS[] = {{"station", "2027-06-10", "2027-11-24", 1},
	    {"owner", NULL, "2027-06-10", 0}, {"owner", NULL, "2027-06-11", 1},
	    {"owner", NULL, "2027-11-24", 1}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		char rules[768];
		(void)snprintf(rules, sizeof rules,
		    "  - id: battery\n    kinds: [epirb]\n    task: renew\n"
		    "    doer: station\n    grade: maker\n    clocks: [{from: [marked]}]\n"
		    "    source: invented\n    standing: memory\n"
		    "  - id: look\n    kinds: [epirb]\n    task: inspect\n    doer: %s\n"
		    "    grade: law\n    clocks: [{from: [fitted], months: 12}]\n"
		    "    source: invented\n    standing: memory\n"
		    "carriage:\n  - id: b\n    title: Beacon\n    need: {points: 1}\n"
		    "    serves:\n      - {kinds: [epirb], points: 1}\n"
		    "    source: invented\n    standing: memory\n",
		    ROWS[i].doer);
		CLOSES_SCENE struct base base;
		base_open_of(&base, rules);
		ask_boat(&base);
		base.ask.days.last = day_of(ROWS[i].last);
		base.ask.stand_ins = 1;
		struct item *beacon = scene_item(&base.scene, "epirb");
		beacon->vessel = BOAT;
		beacon->made = stamp_of("2022-03");
		beacon->fitted = stamp_of("2026-06-10");
		beacon->expires = stamp_of("2027-03");
		struct rota rota = base_rota(&base);
		assert_int_equal(rota.group_count, 1);
		const struct rota_line *line = &rota.groups[0].lines[0];
		assert_day(line->hand_in, "2027-03-31");
		assert_int_equal(line->again,
		    ROWS[i].again == NULL ? DAY_NEVER : day_of(ROWS[i].again));
		assert_int_equal(rota.short_count, ROWS[i].shorts);
		if (rota.short_count > 0) {
			assert_day(rota.shorts[0].from, "2027-06-11");
		}
	}
}

/* A raft due on 28 November and a spare for it. Another is ashore, of which one may be at
 * a time, until 30 November at the loft, or for six weeks at a place that nobody has
 * entered; or it is not known since when, which holds nothing up. Where the loft takes
 * one a week instead, and has taken that one in on the 25th, it has no room; what is
 * elsewhere takes none there. */
TEST(what_is_ashore_takes_its_place_for_as_long_as_is_known)
{
	static const struct {
		const char *to;
		const char *on;
		bool weekly;
		bool possible;
	} ROWS[] = {{"Loft", "2026-11-20", false, false},
	    {"Elsewhere", "2026-11-20", false, false}, {"Loft", "", false, true},
	    {"Loft", "2026-11-25", true, false}, {"Elsewhere", "2026-11-25", true, true}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct base base;
		base_open(&base);
		ask_boat(&base);
		base.ask.most_away = ROWS[i].weekly ? 0 : 1;
		base.station.weekly_pieces = ROWS[i].weekly ? 1 : 0;
		(void)base_add(&base, BOAT, "liferaft-valise", "2025-11-28");
		struct item *ashore =
		    base_add(&base, BOAT, "liferaft-valise", "2025-11-28");
		ashore->state = PLACE_LANDED;
		ashore->landed_to = ROWS[i].to;
		ashore->landed_on = ROWS[i].on[0] == '\0' ? DAY_NONE : day_of(ROWS[i].on);
		(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
		struct rota rota = base_rota(&base);
		assert_int_equal(rota.group_count, 1);
		assert_int_equal(rota.groups[0].line_count, 1);
		assert_int_equal(rota.groups[0].possible, ROWS[i].possible);
	}
}

RUN_TESTS(NULL, NULL)
