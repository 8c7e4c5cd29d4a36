/* The worked cases of published rules. Each test names its source and how the text was seen;
 * the day expected follows from the rule's own figures. The sheets are small ones made for
 * the case, since most of these rules are in no sheet yet. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"

/* Spain, Orden FOM/1144/2003 (relayed; repealed 2021): first service one year after entering
 * service, and in any case before two years from manufacture. */
#define SPAIN_2003                                                                       \
	"  - id: spain-first\n    kinds: [liferaft-canister]\n    task: service\n"       \
	"    doer: station\n    grade: law\n    clocks:\n"                               \
	"      - { from: [fitted], months: 12, holds: first }\n"                         \
	"      - { from: [made], months: 24, holds: first, before: yes }\n"              \
	"      - { from: [last], months: 12, holds: again }\n" SOURCE

TEST(a_spanish_raft_is_first_due_a_year_after_entering_service)
{
	SCENE(scene, SPAIN_2003);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	raft->made = stamp_of("2005-03-10");
	raft->fitted = stamp_of("2006-01-20");
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2006-02-01"), "2007-01-20");
}

TEST(a_spanish_raft_in_service_late_is_due_strictly_before_two_years_of_age)
{
	SCENE(scene, SPAIN_2003);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	raft->made = stamp_of("2005-03-10");
	raft->fitted = stamp_of("2006-06-01");
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2006-07-01"), "2007-03-09");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2007-03-10"), "overdue");
}

/* Offshore racing rules, 2008 edition, 4.20.5 (relayed): three years from commissioning, then
 * two years, then yearly. */
TEST(a_racing_raft_goes_after_three_years_then_two_then_yearly)
{
	SCENE(scene, "  - id: racing\n    kinds: [liferaft-canister]\n    task: service\n"
		     "    doer: station\n    grade: law\n    clocks:\n"
		     "      - { from: [fitted], months: 36, holds: first }\n"
		     "      - { from: [last], months: 24, done-from: 1, done-until: 1 }\n"
		     "      - { from: [last], months: 12, done-from: 2 }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	raft->fitted = stamp_of("2020-05-01");
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2020-06-01"), "2023-05-01");
	scene_record(&scene, raft, TASK_SERVICE, "2023-05-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2023-06-01"), "2025-05-01");
	scene_record(&scene, raft, TASK_SERVICE, "2025-05-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2025-06-01"), "2026-05-01");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-06-01"), "2027-05-01");
}

/* MGN 553 (relayed): within one month either side of the due date. Due 2027-03-15, on time
 * from 2027-02-15 through 2027-04-15. */
#define MGN_553                                                                          \
	"  - id: mgn-553\n    kinds: [lifejacket-auto]\n    task: service\n"             \
	"    doer: station\n    grade: law\n    clocks:\n"                               \
	"      - { from: [last], months: 12 }\n"                                         \
	"    window: { early: 1, late: 1, next: from-due }\n" SOURCE

TEST(a_jacket_is_on_time_through_one_month_after_its_due_day)
{
	SCENE(scene, MGN_553);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-15", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-11-25"), "2027-03-15");
	assert_string_equal(
	    scene_state(&scene, jacket, TASK_SERVICE, "2027-04-15"), "in-date");
	assert_string_equal(
	    scene_state(&scene, jacket, TASK_SERVICE, "2027-04-16"), "overdue");
}

TEST(a_jacket_serviced_on_the_first_day_of_its_window_keeps_its_anniversary)
{
	SCENE(scene, MGN_553);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-15", NULL);
	scene_record(&scene, jacket, TASK_SERVICE, "2027-02-15", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2027-05-01"), "2028-03-15");
}

/* Harmonised survey system (read): renewed before the window, the clock restarts. */
TEST(a_jacket_serviced_the_day_before_its_window_restarts_its_clock)
{
	SCENE(scene, MGN_553);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-15", NULL);
	scene_record(&scene, jacket, TASK_SERVICE, "2027-02-14", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2027-05-01"), "2028-02-14");
}

/* The notice says nothing of a service after the window: it starts anew. */
TEST(a_jacket_serviced_after_its_window_restarts_its_clock)
{
	SCENE(scene, MGN_553);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-15", NULL);
	scene_record(&scene, jacket, TASK_SERVICE, "2027-06-20", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2027-07-01"), "2028-06-20");
}

/* Harmonised survey system (read): renewed after the window, the old expiry day is kept. */
TEST(a_survey_held_after_its_window_keeps_the_old_anniversary)
{
	SCENE(scene,
	    "  - id: survey\n    kinds: [epirb]\n    task: inspect\n    doer: authority\n"
	    "    grade: law\n    clocks:\n      - { from: [last], months: 12 }\n"
	    "    window: { early: 3, late: 3, next: from-due-even-late }\n" SOURCE);
	struct item *beacon = scene_item(&scene, "epirb");
	scene_record(&scene, beacon, TASK_INSPECT, "2026-04-15", NULL);
	scene_record(&scene, beacon, TASK_INSPECT, "2027-08-20", NULL);
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_INSPECT, "2027-09-01"), "2028-04-15");
}

/* Survey windows (relayed): anniversary 15 April with three months either side runs from
 * 16 January to 15 July. Ours opens on 15 January, one day more generous at the early end,
 * where it only decides that the anniversary is kept; the late end is the same. */
TEST(a_survey_window_of_three_months_ends_on_15_july)
{
	SCENE(scene,
	    "  - id: survey\n    kinds: [epirb]\n    task: inspect\n    doer: authority\n"
	    "    grade: law\n    clocks:\n      - { from: [last], months: 12 }\n"
	    "    window: { early: 3, late: 3, next: from-due }\n" SOURCE);
	struct item *beacon = scene_item(&scene, "epirb");
	scene_record(&scene, beacon, TASK_INSPECT, "2026-04-15", NULL);
	assert_string_equal(
	    scene_state(&scene, beacon, TASK_INSPECT, "2027-07-15"), "in-date");
	assert_string_equal(
	    scene_state(&scene, beacon, TASK_INSPECT, "2027-07-16"), "overdue");
}

/* One maker's beacon manual (read): two years from fitting or four from manufacture. */
#define RELEASE                                                                                 \
	"  - id: release\n    kinds: [hydrostatic-release]\n    task: renew\n    doer: owner\n" \
	"    grade: maker\n    clocks:\n      - { from: [fitted], months: 24 }\n"               \
	"      - { from: [made], months: 48 }\n" SOURCE

TEST(a_release_fitted_fresh_counts_from_its_fitting)
{
	SCENE(scene, RELEASE);
	struct item *release = scene_item(&scene, "hydrostatic-release");
	release->made = stamp_of("2008-08");
	release->fitted = stamp_of("2009-08-01");
	assert_string_equal(
	    scene_due_day(&scene, release, TASK_RENEW, "2010-01-01"), "2011-08-01");
}

TEST(a_release_fitted_from_old_stock_counts_from_its_manufacture)
{
	SCENE(scene, RELEASE);
	struct item *release = scene_item(&scene, "hydrostatic-release");
	release->made = stamp_of("2008-08");
	release->fitted = stamp_of("2011-03-01");
	assert_string_equal(
	    scene_due_day(&scene, release, TASK_RENEW, "2011-06-01"), "2012-08-01");
}

/* 46 CFR 160.024-5 (read): not over 42 months from manufacture. Made March 2024: September
 * 2027; as a month stamp the limit counts to the month's end. */
TEST(a_flare_made_in_march_2024_is_good_through_september_2027)
{
	SCENE(scene, "  - id: flare\n    kinds: [flare-red-parachute]\n    task: renew\n"
		     "    doer: owner\n    grade: law\n    lapse: expired\n    clocks:\n"
		     "      - { from: [made], months: 42, through: month-end }\n" SOURCE);
	struct item *flare = scene_item(&scene, "flare-red-parachute");
	flare->made = stamp_of("2024-03");
	assert_string_equal(
	    scene_due_day(&scene, flare, TASK_RENEW, "2026-11-25"), "2027-09-30");
	assert_string_equal(
	    scene_state(&scene, flare, TASK_RENEW, "2027-10-01"), "expired");
}

/* 46 CFR 160.046-9 (read): rations expire five years from the month packed. 2/2024: 2/2029. */
TEST(rations_packed_in_february_2024_are_good_through_february_2029)
{
	SCENE(scene,
	    "  - id: rations\n    kinds: [raft-contents]\n    task: renew\n    doer: station\n"
	    "    grade: law\n    clocks:\n"
	    "      - { from: [packed], months: 60, through: month-end }\n" SOURCE);
	struct item *rations = scene_item(&scene, "raft-contents");
	rations->packed = stamp_of("2024-02");
	assert_string_equal(
	    scene_due_day(&scene, rations, TASK_RENEW, "2026-11-25"), "2029-02-28");
}

/* 46 CFR 131.585 (read): within 12 months of manufacture, then of each service; at most five
 * months more, only to reach the next vessel inspection. */
#define OSV_RELEASE                                                                             \
	"  - id: osv\n    kinds: [hydrostatic-release]\n    task: service\n    doer: station\n" \
	"    grade: law\n    extension: 5\n    clocks:\n"                                       \
	"      - { from: [made], months: 12, holds: first }\n"                                  \
	"      - { from: [last], months: 12, holds: again }\n" SOURCE

TEST(a_serviceable_release_is_first_due_a_year_after_manufacture)
{
	SCENE(scene, OSV_RELEASE);
	struct item *release = scene_item(&scene, "hydrostatic-release");
	release->made = stamp_of("2025-08-31");
	assert_string_equal(
	    scene_due_day(&scene, release, TASK_SERVICE, "2025-12-01"), "2026-08-31");
}

TEST(an_extension_reaches_no_further_than_the_rule_allows)
{
	SCENE(scene, OSV_RELEASE);
	struct item *release = scene_item(&scene, "hydrostatic-release");
	struct extension extension = {
	    .task = TASK_SERVICE, .until = day_of("2027-04-30"), .paper = "X-1"};
	release->made = stamp_of("2025-08-31");
	release->extensions = &extension;
	release->extension_count = 1;
	/* five months after 31 August 2026 is 31 January 2027 */
	assert_string_equal(
	    scene_state(&scene, release, TASK_SERVICE, "2027-01-31"), "in-date");
	assert_string_equal(
	    scene_state(&scene, release, TASK_SERVICE, "2027-02-01"), "overdue");
}

/* 46 CFR 25.26-50(c) (read): strictly before the marked date. */
TEST(a_beacon_battery_is_due_strictly_before_its_marked_month)
{
	SCENE(scene,
	    "  - id: battery\n    kinds: [epirb]\n    task: renew\n    doer: station\n"
	    "    grade: law\n    clocks:\n      - { from: [marked], before: yes }\n" SOURCE);
	struct item *beacon = scene_item(&scene, "epirb");
	beacon->expires = stamp_of("2027-06");
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-11-25"), "2027-05-31");
}

/* 46 CFR 25.25-13(d) (read): on or before the marked date. */
TEST(a_jacket_light_is_good_on_its_marked_day)
{
	SCENE(scene,
	    "  - id: light\n    kinds: [lifejacket-light]\n    task: renew\n    doer: owner\n"
	    "    grade: law\n    clocks:\n      - { from: [marked] }\n" SOURCE);
	struct item *light = scene_item(&scene, "lifejacket-light");
	light->expires = stamp_of("2027-06-15");
	assert_string_equal(
	    scene_state(&scene, light, TASK_RENEW, "2027-06-15"), "in-date");
	assert_string_equal(
	    scene_state(&scene, light, TASK_RENEW, "2027-06-16"), "expired");
}

/* 33 CFR 175.310 (relayed): out when older than 12 years; a year stamp of 2014 commonly read
 * as good through 31 December 2026. */
TEST(an_extinguisher_stamped_2014_is_good_through_the_end_of_2026_where_the_year_counts)
{
	SCENE(scene,
	    "  - id: disposable\n    kinds: [extinguisher-disposable]\n    task: renew\n"
	    "    doer: owner\n    grade: law\n    lapse: life-expired\n    clocks:\n"
	    "      - { from: [made], months: 144, through: year-end }\n" SOURCE);
	struct item *extinguisher = scene_item(&scene, "extinguisher-disposable");
	extinguisher->made = stamp_of("2014");
	assert_string_equal(
	    scene_due_day(&scene, extinguisher, TASK_RENEW, "2026-11-25"), "2026-12-31");
	assert_string_equal(
	    scene_state(&scene, extinguisher, TASK_RENEW, "2027-01-01"), "life-expired");
}

/* DVGW G 608 (relayed): in time if done by the end of the due month. */
TEST(a_gas_check_is_in_time_through_the_end_of_its_month)
{
	SCENE(scene,
	    "  - id: gas\n    kinds: [gas-regulator]\n    task: inspect\n    doer: station\n"
	    "    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 24, through: month-end }\n" SOURCE);
	struct item *regulator = scene_item(&scene, "gas-regulator");
	scene_record(&scene, regulator, TASK_INSPECT, "2025-04-07", NULL);
	assert_string_equal(
	    scene_due_day(&scene, regulator, TASK_INSPECT, "2026-11-25"), "2027-04-30");
}

/* UK medicine markings (relayed): an expiry month is usable through its last day; "use by" or
 * "use before" a month through the last day of the month before. */
TEST(a_medicine_marked_use_before_june_is_good_through_may)
{
	SCENE(scene,
	    "  - id: medicine\n    kinds: [medicine]\n    task: renew\n    doer: owner\n"
	    "    grade: maker\n    clocks:\n      - { from: [marked] }\n" SOURCE);
	struct item *medicine = scene_item(&scene, "medicine");
	medicine->expires = stamp_of("EXP 06/2027");
	assert_string_equal(
	    scene_due_day(&scene, medicine, TASK_RENEW, "2026-11-25"), "2027-06-30");
	medicine->expires = stamp_of("use before 06/2027");
	assert_string_equal(
	    scene_due_day(&scene, medicine, TASK_RENEW, "2026-11-25"), "2027-05-31");
	medicine->expires = stamp_of("use by 06/2027");
	assert_string_equal(
	    scene_due_day(&scene, medicine, TASK_RENEW, "2026-11-25"), "2027-05-31");
}

/* MSC.1/Circ.1328 6.1.5 (read): a raft serviced in April 2027 and next due in April 2028, its
 * flares marked 01/2028: renew them in April 2027. */
TEST(raft_flares_that_lapse_before_the_next_service_are_renewed_at_this_one)
{
	SCENE(scene,
	    "  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
	    "    doer: station\n    grade: law\n    clocks:\n      - { from: [marked] }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *flares = scene_item(&scene, "raft-contents");
	flares->parent = 0;
	flares->expires = stamp_of("2028-01");
	scene_record(&scene, raft, TASK_SERVICE, "2026-04-20", NULL);
	scene.vessel.lay_up = (struct yearly){12, 1, 5, 31};
	struct station loft = {.name = "Loft", .base = "", .turn_round_days = 10};
	struct shore_list list;
	(void)scene_due(&scene, raft, TASK_SERVICE, "2027-04-20");
	const struct winter_request request = {.engine = &scene.engine,
	    .stations = &loft,
	    .station_count = 1,
	    .today = day_of("2027-04-20")};
	winter_plan_fleet(&request, &(size_t){0}, 1, &scene.arena, &list);
	assert_int_equal(list.hand_in.count, 1);
	assert_int_equal(list.hand_in.items[0].hand_in, day_of("2027-04-20"));
	assert_int_equal(list.hand_in.items[0].lines.count, 2);
	assert_int_equal(list.hand_in.items[0].lines.items[1].item, 1);
	assert_true(list.hand_in.items[0].lines.items[1].with_parent);
}

/* 29 CFR 1910.157(e)(4) (relayed): emptied and maintained inside every six years; the clock
 * starts again at any recharge or pressure test, which is recorded as a test. */
TEST(the_inside_check_counts_again_from_a_recharge)
{
	SCENE(scene, "us-small-passenger.yaml");
	scene.periods[0].use = USE_COMMERCIAL;
	struct item *powder = scene_item(&scene, "extinguisher-powder");
	powder->made = stamp_of("2020-05-10");
	assert_string_equal(
	    scene_due_day(&scene, powder, TASK_TEST, "2024-06-01"), "2026-05-10");
	scene_record(&scene, powder, TASK_TEST, "2024-06-15", NULL);
	assert_string_equal(
	    scene_due_day(&scene, powder, TASK_TEST, "2024-07-01"), "2030-06-15");
}

/* Queensland's regulation of 2016, s. 25 (read): without a legible date it counts as not
 * carried, which is more than not known; with one it is good through it. */
TEST(a_flare_without_a_date_is_of_unknown_date_in_queensland)
{
	SCENE(scene, "australia.yaml");
	scene.periods[0].area = "queensland-open";
	struct item *flare = scene_item(&scene, "flare-red-hand");
	assert_string_equal(
	    scene_state(&scene, flare, TASK_RENEW, "2026-11-25"), "date-unknown");
	flare->expires = stamp_of("2026-12");
	assert_string_equal(
	    scene_due_day(&scene, flare, TASK_RENEW, "2026-11-25"), "2026-12-31");
}

RUN_TESTS(NULL, NULL)
