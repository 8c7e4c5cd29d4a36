/* What is done to a piece of a rota, and what is inside it. All days are worked by hand: the
 * loft takes ten days, the rota is from 25 November 2026 to 24 November 2027. */
#include "rota_scene.h"

static void
ask_boat(struct base *base)
{
	static const size_t BOATS[] = {BOAT};
	base->ask.vessels = BOATS;
	base->ask.vessel_count = 1;
}

/* A beacon's battery lasts as printed and is renewed by a station, which checks it every year. */
static const char BEACONS[] =
    "  - id: battery\n    kinds: [epirb]\n    task: renew\n    doer: station\n"
    "    grade: maker\n    clocks:\n      - from: [marked]\n    source: invented\n"
    "    standing: memory\n"
    "  - id: check\n    kinds: [epirb]\n    task: inspect\n    doer: station\n"
    "    grade: law\n    clocks:\n      - from: [last]\n        months: 12\n"
    "    source: invented\n    standing: memory\n";

/* Of two works the one that is not in date comes first, and of two alike in that the one
 * due sooner. */
TEST(a_line_tells_of_the_work_that_is_due_first)
{
	static const struct {
		const char *expires;
		const char *checked;
		enum state state;
		const char *due;
		const char *due_last;
		const char *good_through; /* NULL: nothing is in date */
	} ROWS[] = {
	    {"2027-06", "2026-03-10", STATE_IN_DATE, "2027-03-10", "2027-06-30",
		"2027-03-10"},
	    {"2027-02", "2026-03-10", STATE_IN_DATE, "2027-02-28", "2027-03-10",
		"2027-02-28"},
	    {"2027-06", "2025-03-10", STATE_OVERDUE, "2026-03-10", "2027-06-30",
		"2027-06-30"},
	    {"2026-06", "2026-03-10", STATE_EXPIRED, "2026-06-30", "2027-03-10",
		"2027-03-10"},
	    {"2026-06", "2025-03-10", STATE_OVERDUE, "2026-03-10", "2026-06-30", NULL},
	    {"2025-12", "2025-03-10", STATE_EXPIRED, "2025-12-31", "2026-03-10", NULL},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct base base;
		base_open_of(&base, BEACONS);
		ask_boat(&base);
		struct item *beacon = scene_item(&base.scene, "epirb");
		beacon->vessel = BOAT;
		beacon->expires = stamp_of(ROWS[i].expires);
		scene_record(&base.scene, beacon, TASK_INSPECT, ROWS[i].checked, NULL);
		struct rota rota = base_rota(&base);
		assert_int_equal(rota.group_count, 1);
		const struct rota_line *line = &rota.groups[0].lines[0];
		assert_int_equal(line->tasks, 1U << TASK_RENEW | 1U << TASK_INSPECT);
		assert_int_equal(line->state, ROWS[i].state);
		assert_day(line->due, ROWS[i].due);
		assert_day(line->due_last, ROWS[i].due_last);
		if (ROWS[i].good_through == NULL) {
			assert_int_equal(line->good_through, DAY_NONE);
		} else {
			assert_day(line->good_through, ROWS[i].good_through);
		}
	}
}

#define SERVICED(clock)                                                                  \
	"  - id: jacket\n    kinds: [lifejacket-auto]\n    task: service\n"              \
	"    doer: station\n    grade: law\n    clocks:\n      - " clock                 \
	"\n    source: invented\n    standing: memory\n"

/* Made in March 2023. Once serviced it is never due again, where only the first is asked
 * for; nor is it a piece of the rota then. What is counted from its making alone has
 * lapsed however often it is serviced: no day is known for it again, and the rota is not
 * said to hold for less. */
TEST(what_is_due_once_and_what_no_service_keeps_in_date)
{
	static const struct {
		const char *rules;
		bool served;
		size_t groups;
		day_t again;
	} ROWS[] = {
	    {SERVICED("{from: [made], months: 48, holds: first}"), false, 1, DAY_NEVER},
	    {SERVICED("{from: [made], months: 48, holds: first}"), true, 0, DAY_NONE},
	    {SERVICED("{from: [made], months: 36}"), true, 1, DAY_NONE},
	    /* a routine */
	    {SERVICED("{from: [last], months: 6}"), true, 0, DAY_NONE},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct base base;
		base_open_of(&base, ROWS[i].rules);
		ask_boat(&base);
		struct item *jacket =
		    base_add(&base, BOAT, "lifejacket-auto", "2026-03-10");
		jacket->record_count = ROWS[i].served ? 1 : 0;
		base.ask.stand_ins = 1;
		struct rota rota = base_rota(&base);
		assert_int_equal(rota.group_count, ROWS[i].groups);
		if (rota.group_count > 0) {
			assert_true(rota.groups[0].lines[0].planned);
			assert_int_equal(rota.groups[0].lines[0].again, ROWS[i].again);
		}
		assert_day(rota.holds_through, "2027-11-24");
	}
}

/* A beacon bought new every ten years, without a date on it: due on 1 March 2027 by age,
 * and on that day the station gives a new one, whose making is yet to be told and ends
 * nothing. */
TEST(what_is_renewed_by_age_has_no_date_printed_on_it)
{
	CLOSES_SCENE struct base base;
	base_open_of(&base,
	    "  - id: life\n    kinds: [epirb]\n    task: renew\n    doer: station\n"
	    "    grade: maker\n    clocks:\n      - {from: [made], months: 120}\n"
	    "    source: invented\n    standing: memory\n");
	ask_boat(&base);
	struct item *beacon = scene_item(&base.scene, "epirb");
	beacon->vessel = BOAT;
	beacon->made = stamp_of("2017-03-01");
	struct item *spare = scene_item(&base.scene, "epirb");
	spare->vessel = STORE;
	spare->made = stamp_of("2026-03-01");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 1);
	assert_day(rota.groups[0].lines[0].hand_in, "2027-03-01");
	assert_int_equal(rota.groups[0].lines[0].again, DAY_NEVER);
}

/* Cells renewed every year by a station, on 10 March, and looked at every two: so are
 * they next year, which is before the end of a rota to June 2028. No day carries so far,
 * and it may go on any. */
TEST(where_no_day_carries_to_the_end_it_may_go_on_any)
{
	CLOSES_SCENE struct base base;
	base_open_of(&base,
	    "  - id: cells\n    kinds: [epirb]\n    task: renew\n    doer: station\n"
	    "    grade: maker\n    clocks:\n      - {from: [last], months: 12}\n"
	    "    refit: yes\n    source: invented\n    standing: memory\n"
	    "  - id: check\n    kinds: [epirb]\n    task: service\n    doer: station\n"
	    "    grade: law\n    clocks:\n      - {from: [last], months: 12}\n"
	    "    source: invented\n    standing: memory\n");
	ask_boat(&base);
	base.ask.stand_ins = 1;
	base.ask.days.last = day_of("2028-06-30");
	struct item *beacon = base_add(&base, BOAT, "epirb", "2026-03-10");
	scene_record(&base.scene, beacon, TASK_RENEW, "2026-03-10", NULL);
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 1);
	const struct rota_line *line = &rota.groups[0].lines[0];
	assert_day(line->first, "2026-11-25");
	assert_day(line->hand_in, "2027-03-10");
	assert_day(line->again, "2028-03-10");
	assert_day(rota.holds_through, "2028-03-10");
}

#define RAFT_AND(more)                                                                   \
	"  - id: raft\n    kinds: [liferaft-valise]\n    task: service\n"                \
	"    doer: station\n    grade: law\n    contents-bind: yes\n    clocks:\n"       \
	"      - from: [last, packed]\n        months: 12\n    source: invented\n"       \
	"    standing: memory\n" more "carriage:\n"                                      \
	"  - id: rafts\n    title: Rafts\n    need: {per-person: 1}\n    serves:\n"      \
	"      - {kinds: [liferaft-valise], points: capacity}\n"                         \
	"    source: invented\n    standing: memory\n"

/* What is asked of the water besides: a station looks at it every year, an owner shakes
 * it every month, and it was tested once for good. */
#define OWNERS_WATER                                                                     \
	"  - id: inside\n    kinds: [raft-contents]\n    task: renew\n    doer: owner\n" \
	"    grade: law\n    clocks:\n      - from: [marked]\n    source: invented\n"    \
	"    standing: memory\n"                                                         \
	"  - id: look\n    kinds: [raft-contents]\n    task: inspect\n"                  \
	"    doer: station\n    grade: law\n    clocks:\n"                               \
	"      - {from: [last], months: 12}\n    source: invented\n"                     \
	"    standing: memory\n"                                                         \
	"  - id: shake\n    kinds: [raft-contents]\n    task: weigh\n"                   \
	"    doer: owner\n    grade: law\n    clocks:\n"                                 \
	"      - {from: [last], months: 1}\n    source: invented\n"                      \
	"    standing: memory\n"                                                         \
	"  - id: once\n    kinds: [raft-contents]\n    task: test\n    doer: owner\n"    \
	"    grade: law\n    clocks:\n"                                                  \
	"      - {from: [made], months: 24, holds: first}\n    source: invented\n"       \
	"    standing: memory\n"                                                         \
	"  - id: light\n    kinds: [lifebuoy-light]\n    task: renew\n    doer: owner\n" \
	"    grade: law\n    clocks:\n      - from: [marked]\n    source: invented\n"    \
	"    standing: memory\n"

/* Her raft goes on 10 March 2027 and is due again on 10 March 2028; a spare stands in.
 * Its water, which is an owner's to renew and can be reached at a station alone, is
 * renewed then where it would not last to that day, so that she is short for its sake on
 * none; a light at the raft can be reached aboard, lapses in June 2027, and makes her
 * short from July. What no catalogue has is passed over. */
TEST(what_is_inside_is_renewed_with_the_rest_and_what_is_beside_is_not)
{
	static const struct {
		const char *kind;
		const char *expires;
		const char *shorter; /* the day from which she is short; NULL for none */
	} ROWS[] = {{"raft-contents", "2027-06", NULL},
	    {"raft-contents", "2031-06", NULL}, {"raft-contents", "2026-06", NULL},
	    {"lifebuoy-light", "2027-06", "2027-07-01"}, {"no-such-kind", "", NULL}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct base base;
		base_open_of(&base, RAFT_AND(OWNERS_WATER));
		ask_boat(&base);
		(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
		struct item *part = scene_item(&base.scene, ROWS[i].kind);
		part->vessel = BOAT;
		part->parent = 0;
		part->made = stamp_of("2023-03-01");
		part->expires = stamp_of(ROWS[i].expires);
		scene_record(&base.scene, part, TASK_INSPECT, "2026-03-10", NULL);
		scene_record(&base.scene, part, TASK_TEST, "2025-03-10", NULL);
		(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
		struct rota rota = base_rota(&base);
		assert_int_equal(rota.group_count, 1);
		assert_int_equal(rota.groups[0].lines[0].cover, ROTA_SPARE);
		assert_int_equal(rota.short_count, ROWS[i].shorter == NULL ? 0 : 1);
		if (ROWS[i].shorter != NULL) {
			assert_day(rota.shorts[0].from, ROWS[i].shorter);
		}
	}
}

#define RULE(kind, task, doer, grade, clocks)                                            \
	"  - id: " kind "-" task "\n    kinds: [" kind "]\n    task: " task              \
	"\n    doer: " doer "\n    grade: " grade "\n    clocks: [" clocks               \
	"]\n    source: invented\n    standing: memory\n"

/* A raft too old by practice goes at once, and no day is known for it again. Its water is
 * looked at, and is overdue for that, and then renewed. New water is to be looked at first
 * in a year, by 25 November 2027: that the old was looked at that day is no look at the
 * new, of which she is short from the day after, for the light that counts as well lasts
 * to June 2027. */
TEST(what_was_done_to_a_part_before_it_was_renewed_is_not_done_once_more)
{
	CLOSES_SCENE struct base base;
	base_open_of(&base,
	    RULE("liferaft-valise", "weigh", "station", "practice",
		"{from: [made], months: 36}") RULE("raft-contents", "inspect", "station",
		"law",
		"{from: [fitted], months: 12, holds: first}, {from: [last], months: 36}")
		RULE("raft-contents", "renew", "station", "law", "{from: [marked]}") RULE(
		    "lifebuoy-light", "renew", "owner", "law",
		    "{from: [marked]}") "carriage:\n  - id: water\n    title: Water\n    need: {points: 1}\n"
					"    serves:\n      - {kinds: [raft-contents, lifebuoy-light], points: 1}\n"
					"    source: invented\n    standing: memory\n");
	ask_boat(&base);
	base.ask.days.last = day_of("2028-06-30");
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	struct item *water = scene_item(&base.scene, "raft-contents");
	water->vessel = BOAT;
	water->parent = 0;
	water->expires = stamp_of("2027-06");
	scene_record(&base.scene, water, TASK_INSPECT, "2023-03-10", NULL);
	struct item *light = scene_item(&base.scene, "lifebuoy-light");
	light->vessel = BOAT;
	light->expires = stamp_of("2027-06");
	base_add(&base, STORE, "liferaft-valise", "2026-11-20")->made =
	    stamp_of("2026-03-01");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 1);
	assert_day(rota.groups[0].lines[0].hand_in, "2026-11-25");
	assert_int_equal(rota.groups[0].lines[0].again, DAY_NONE);
	assert_int_equal(rota.short_count, 1);
	assert_day(rota.shorts[0].from, "2027-11-26");
}

/* A jacket whose maker's interval nobody has entered, in date until the day that its paper
 * states: serviced then, nobody knows until when. */
TEST(what_its_paper_alone_dates_is_due_again_on_no_known_day)
{
	CLOSES_SCENE struct base base;
	base_open_of(&base, SERVICED("{from: [last], interval: maker}"));
	ask_boat(&base);
	struct item *jacket = scene_item(&base.scene, "lifejacket-auto");
	jacket->vessel = BOAT;
	scene_record(&base.scene, jacket, TASK_SERVICE, "2026-03-10", "2027-03-10");
	base.ask.stand_ins = 1;
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 1);
	assert_day(rota.groups[0].lines[0].hand_in, "2027-03-10");
	assert_int_equal(rota.groups[0].lines[0].again, DAY_NONE);
}

/* ---- days that do not serve ---- */

/* Lapsed in March 2026, and the loft shut: to the end of the rota, or to 1 December with
 * the boat booked from then on. It is to go on the first day of the rota, or on the first
 * on which the loft takes it in. */
TEST(where_no_day_is_free_it_is_to_go_on_the_first_that_is_open)
{
	static const char *const OPENS[] = {"2028-01-01", "2026-12-01"};
	static const char *const LAST[] = {"2026-11-25", "2026-12-01"};
	const struct booking booking = {
	    .days = {day_of("2026-11-25"), day_of("2028-06-01")}, .note = ""};
	for (size_t i = 0; i < 2; i++) {
		const struct span shut = {day_of("2026-11-01"), day_of(OPENS[i]) - 1};
		CLOSES_SCENE struct base base;
		base_open(&base);
		ask_boat(&base);
		base.station.shut = &shut;
		base.station.shut_count = 1;
		base.vessels[BOAT].bookings = &booking;
		base.vessels[BOAT].booking_count = i;
		(void)base_add(&base, BOAT, "liferaft-valise", "2025-03-10");
		struct rota rota = base_rota(&base);
		assert_day(rota.groups[0].lines[0].last, LAST[i]);
		assert_true(rota.groups[0].lines[0].late);
		assert_false(rota.groups[0].possible);
	}
}

/* Three rafts no station takes in before 2029, one of a make that another does: that one
 * is planned and told first, the others have no day and are told as the inventory has
 * them. */
TEST(what_has_no_day_is_told_behind_what_has_one)
{
	static const struct station_make MAKES[] = {
	    {"liferaft-valise", "Tarn"}, {"liferaft-valise", "Orrin"}};
	const struct span shut = {day_of("2026-11-01"), day_of("2028-12-31")};
	struct station stations[2];
	CLOSES_SCENE struct base base;
	base_open(&base);
	ask_boat(&base);
	for (size_t i = 0; i < 2; i++) {
		stations[i] = base.station;
		stations[i].makes = &MAKES[i];
		stations[i].make_count = 1;
	}
	stations[0].shut = &shut;
	stations[0].shut_count = 1;
	for (size_t i = 0; i < 3; i++) {
		base_add(&base, BOAT, "liferaft-valise", "2026-03-10")->make =
		    i == 1 ? "Orrin" : "Tarn";
	}
	base.ask.stations = stations;
	base.ask.station_count = 2;
	struct rota rota = base_rota(&base);
	const struct rota_line *lines = rota.groups[0].lines;
	static const size_t ORDER[] = {1, 0, 2};
	for (size_t i = 0; i < 3; i++) {
		assert_int_equal(lines[i].item, ORDER[i]);
		assert_int_equal(lines[i].planned, i == 0);
	}
}

/* Due on 10 March 2027 and given out for the 20th, when the loft is shut, a raft stays
 * there, late; one that lapsed a year before stays there too, and is no later than it
 * was. Given out for the 5th, which serves, it goes then with the spare, or where she can
 * do without one of two with nothing in its place. */
TEST(what_was_given_out_stays_on_its_day)
{
	static const struct {
		const char *served;
		const char *due;
		const char *day;
		size_t vessel; /* of another raft, in date; VESSELS for none */
		bool late;
		enum rota_cover cover;
	} ROWS[] = {
	    {"2026-03-10", "2027-03-10", "2027-03-20", VESSELS, true, ROTA_NOT},
	    {"2025-03-10", "2026-03-10", "2027-03-20", VESSELS, false, ROTA_NOT},
	    {"2026-03-10", "2027-03-10", "2027-03-05", STORE, false, ROTA_SPARE},
	    {"2026-03-10", "2027-03-10", "2027-03-05", BOAT, false, ROTA_BARE},
	};

	static const char *const TAGS[] = {"LR-1"};
	const struct span shut = {day_of("2027-03-20"), day_of("2027-03-20")};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const day_t dues[] = {day_of(ROWS[i].due)};
		const struct settled_hand_in settled = {.of_base = true,
		    .owner = "Holm Quay",
		    .winter = 2027,
		    .station = "Loft",
		    .day = day_of(ROWS[i].day),
		    .planned = DAY_NONE,
		    .tags = TAGS,
		    .dues = dues,
		    .tag_count = 1};
		CLOSES_SCENE struct base base;
		base_open(&base);
		ask_boat(&base);
		base.station.shut = &shut;
		base.station.shut_count = 1;
		base_add(&base, BOAT, "liferaft-valise", ROWS[i].served)->tag = TAGS[0];
		if (ROWS[i].vessel != VESSELS) {
			(void)base_add(
			    &base, ROWS[i].vessel, "liferaft-valise", "2026-11-20");
		}
		base.ask.settled = &settled;
		base.ask.settled_count = 1;
		struct rota rota = base_rota(&base);
		const struct rota_group *group = &rota.groups[0];
		size_t at = group->lines[0].item == 0 ? 0 : 1;
		assert_int_equal(group->lines[at].late, ROWS[i].late);
		assert_int_equal(group->lines[at].cover, ROWS[i].cover);
		assert_int_equal(group->lines[at].hand_in, settled.day);
	}
}

/* One boat's raft goes on the day all three are due, 10 March 2027. The other boat is
 * booked all of March: her two are back by the end of February, handed in on the 18th at
 * the latest. */
TEST(each_boat_is_planned_by_her_own_bookings)
{
	const struct booking booking = {
	    .days = {day_of("2027-03-01"), day_of("2027-03-31")}, .note = ""};
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.vessels[OTHER].bookings = &booking;
	base.vessels[OTHER].booking_count = 1;
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	(void)base_add(&base, OTHER, "liferaft-valise", "2026-03-10");
	(void)base_add(&base, OTHER, "liferaft-valise", "2026-03-10");
	for (int i = 0; i < 3; i++) {
		(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	}
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 1);
	assert_true(rota.groups[0].possible);
	for (size_t i = 0; i < 3; i++) {
		const struct rota_line *line = &rota.groups[0].lines[i];
		assert_day(line->hand_in, line->item == 0 ? "2027-03-10" : "2027-02-18");
	}
}

RUN_TESTS(NULL, NULL)
