/* Gear that is carried to another boat, goes for good or is ashore: what is planned for
 * each piece, before anything is written. */
#include "becket_test.h"
#include "life/homecoming.h"
#include "life/planning.h"
#include "life/whereabouts.h"
#include "scene.h"

#include <string.h>

static const char RULES[] =
    "  - id: yearly\n    kinds: [lifejacket-auto]\n    task: service\n    doer: station\n"
    "    grade: maker\n    clocks:\n      - { from: [last], months: 12 }\n"
    "    source: test\n    standing: common practice\n";

enum { JACKET, HEAD, CYLINDER, RAFT, ITEMS };

/* Boats Brambling and Egret; on the first a jacket LJ-1 with a head FH-1, and a cylinder
 * CY-1 in that, and a raft LR-1. */
struct acts {
	struct scene scene;
	struct vessel vessels[2];
	struct text notes;
	struct life_plan plan;
	struct life_planning planning;
	struct fault fault;
	bool kept[ITEMS];
};

static void
open_acts(struct acts *acts)
{
	memset(acts, 0, sizeof *acts);
	struct scene *scene = &acts->scene;
	scene_open(scene, RULES);
	acts->vessels[0] = scene->vessel;
	acts->vessels[0].name = "Brambling";
	acts->vessels[1] = scene->vessel;
	acts->vessels[1].name = "Egret";
	scene->inventory.vessels = acts->vessels;
	scene->inventory.vessel_count = 2;
	scene_item(scene, "lifejacket-auto")->tag = "LJ-1";
	scene_item(scene, "firing-head")->tag = "FH-1";
	scene_item(scene, "gas-cylinder")->tag = "CY-1";
	scene_item(scene, "liferaft-valise")->tag = "LR-1";
	scene->items[HEAD].parent = JACKET;
	scene->items[CYLINDER].parent = HEAD;
	acts->planning = (struct life_planning){.inventory = &scene->inventory,
	    .arena = &scene->arena,
	    .notes = &acts->notes,
	    .plan = &acts->plan};
}

static void
close_acts(struct acts *acts)
{
	text_clear(&acts->notes);
	scene_close(&acts->scene);
}

/* Takes back what is planned. */
static void
begin_again(struct acts *acts)
{
	acts->plan.count = 0;
	text_reset(&acts->notes);
	acts->fault = (struct fault){0};
}

/* ---- carried ---- */

static const struct carrying TO_EGRET = {
    .to = "Egret", .note = "for the season", .say = "--alone"};

TEST(what_is_carried_takes_its_parts_along_and_has_its_own_place_there)
{
	struct acts acts;
	struct carrying carrying = TO_EGRET;
	open_acts(&acts);
	carrying.on = day_of("2026-11-25");
	carrying.place = "locker";
	assert_true(carry(&acts.planning, &carrying, JACKET, &acts.fault));
	assert_int_equal(acts.plan.count, 3);
	for (size_t i = 0; i < 3; i++) {
		const struct life_row *row = &acts.plan.items[i];
		assert_int_equal(row->item, i);
		assert_true(row->moves);
		assert_int_equal(row->movement.move, MOVE_CARRIED);
		assert_int_equal(row->movement.on, day_of("2026-11-25"));
		assert_int_equal(row->movement.price_minor, -1);
		assert_string_equal(row->movement.vessel, "Egret");
		assert_string_equal(row->movement.note, "for the season");
		assert_string_equal(row->change.vessel, "Egret");
		/* a part is where its whole is, and stays its part */
		assert_int_equal(row->change.set,
		    1U << FIELD_VESSEL | (i == JACKET ? 1U << FIELD_PLACE : 0U));
	}
	assert_string_equal(acts.plan.items[JACKET].change.place, "locker");
	/* what is in the plan is not carried twice */
	assert_true(carry(&acts.planning, &carrying, HEAD, &acts.fault));
	assert_int_equal(acts.plan.count, 3);
	close_acts(&acts);
}

TEST(where_no_place_is_told_it_has_none_there)
{
	struct acts acts;
	open_acts(&acts);
	assert_true(carry(&acts.planning, &TO_EGRET, RAFT, &acts.fault));
	assert_int_equal(acts.plan.count, 1);
	assert_int_equal(
	    acts.plan.items[0].change.set, 1U << FIELD_VESSEL | 1U << FIELD_PLACE);
	assert_string_equal(acts.plan.items[0].change.place, "");
	close_acts(&acts);
}

TEST(a_part_goes_with_its_whole_or_is_said_to_go_alone)
{
	struct acts acts;
	struct carrying carrying = TO_EGRET;
	open_acts(&acts);
	assert_false(carry(&acts.planning, &carrying, HEAD, &acts.fault));
	assert_string_equal(acts.fault.text,
	    "FH-1 is part of LJ-1: move LJ-1 and it goes along, or say --alone and it is no "
	    "part of it after that");
	begin_again(&acts);
	carrying.alone = true;
	assert_true(carry(&acts.planning, &carrying, HEAD, &acts.fault));
	assert_int_equal(acts.plan.count, 2);
	assert_int_equal(acts.plan.items[0].change.set,
	    1U << FIELD_VESSEL | 1U << FIELD_PLACE | 1U << FIELD_PART_OF);
	assert_string_equal(acts.plan.items[0].change.part_of, "");
	assert_int_equal(acts.plan.items[1].change.set, 1U << FIELD_VESSEL);
	begin_again(&acts);
	carrying.alone = false;
	carrying.with_whole = true;
	assert_true(carry(&acts.planning, &carrying, HEAD, &acts.fault));
	assert_int_equal(acts.plan.items[0].change.set, 1U << FIELD_VESSEL);
	close_acts(&acts);
}

TEST(what_is_there_or_gone_is_not_carried)
{
	struct acts acts;
	open_acts(&acts);
	acts.scene.items[RAFT].vessel = 1;
	assert_false(carry(&acts.planning, &TO_EGRET, RAFT, &acts.fault));
	assert_string_equal(acts.fault.text, "LR-1 is on Egret already");
	begin_again(&acts);
	acts.scene.items[RAFT].state = PLACE_WITHDRAWN;
	assert_false(carry(&acts.planning, &TO_EGRET, RAFT, &acts.fault));
	assert_non_null(strstr(acts.fault.text, "LR-1 is withdrawn; "));
	begin_again(&acts);
	/* its head is there before it: that is not carried, its cylinder is */
	acts.scene.items[HEAD].vessel = 1;
	assert_true(carry(&acts.planning, &TO_EGRET, JACKET, &acts.fault));
	assert_int_equal(acts.plan.count, 2);
	assert_int_equal(acts.plan.items[1].item, CYLINDER);
	close_acts(&acts);
}

/* ---- gone for good ---- */

static struct withdrawing
condemned(const struct acts *acts)
{
	return (struct withdrawing){.because = BECAUSE_CONDEMNED,
	    .on = day_of("2026-12-08"),
	    .certificate = "C-9",
	    .note = "torn",
	    .station = "Loft",
	    .result = RESULT_CONDEMNED,
	    .price_minor = 1000,
	    .kept = acts->kept};
}

TEST(what_goes_for_good_takes_its_parts_and_has_the_paper_itself)
{
	struct acts acts;
	open_acts(&acts);
	const struct withdrawing how = condemned(&acts);
	assert_true(withdraw(&acts.planning, &how, JACKET, &acts.fault));
	assert_int_equal(acts.plan.count, 3);
	for (size_t i = 0; i < 3; i++) {
		const struct life_row *row = &acts.plan.items[i];
		bool named = i == JACKET;
		assert_true(row->moves);
		assert_int_equal(row->movement.move, MOVE_WITHDRAWN);
		assert_int_equal(row->movement.because, BECAUSE_CONDEMNED);
		assert_int_equal(
		    row->movement.result, named ? RESULT_CONDEMNED : RESULT_NOT_SAID);
		assert_int_equal(row->movement.price_minor, named ? 1000 : -1);
		assert_int_equal(row->movement.certificate != NULL, named);
		assert_string_equal(row->movement.station, "Loft");
		assert_string_equal(row->movement.note, "torn");
		assert_int_equal(row->change.state, PLACE_WITHDRAWN);
		assert_int_equal(row->change.because, BECAUSE_CONDEMNED);
		assert_int_equal(
		    row->change.set, 1U << FIELD_STATE | 1U << FIELD_BECAUSE |
					 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON);
		assert_string_equal(row->change.landed_to, "");
		assert_int_equal(row->change.landed_on, DAY_NONE);
	}
	/* what is planned is not gone twice */
	assert_true(withdraw(&acts.planning, &how, CYLINDER, &acts.fault));
	assert_int_equal(acts.plan.count, 3);
	close_acts(&acts);
}

/* The head outlives its jacket, and its cylinder with it: that stays as it is, in the
 * head. Where the jacket was ashore the head is back aboard that day; in reserve it stays
 * so. */
TEST(a_part_that_is_kept_stands_aboard_with_what_is_in_it)
{
	static const enum place_state STATES[] = {PLACE_LANDED, PLACE_RESERVE};
	struct acts acts;
	open_acts(&acts);
	for (size_t i = 0; i < 2; i++) {
		begin_again(&acts);
		acts.scene.items[HEAD].state = STATES[i];
		acts.scene.items[HEAD].landed_to = i == 0 ? "Depot" : "";
		acts.kept[HEAD] = true;
		const struct withdrawing how = condemned(&acts);
		assert_true(withdraw(&acts.planning, &how, JACKET, &acts.fault));
		assert_int_equal(acts.plan.count, 2);
		const struct life_row *head = &acts.plan.items[1];
		assert_int_equal(head->item, HEAD);
		assert_int_equal(head->moves, i == 0);
		assert_string_equal(head->change.part_of, "");
		unsigned back =
		    1U << FIELD_STATE | 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON;
		assert_int_equal(
		    head->change.set, 1U << FIELD_PART_OF | (i == 0 ? back : 0U));
		if (i == 0) {
			assert_int_equal(head->change.state, PLACE_ABOARD);
			assert_int_equal(head->change.landed_on, DAY_NONE);
			assert_string_equal(head->change.landed_to, "");
			assert_int_equal(head->movement.move, MOVE_RETURNED);
			assert_int_equal(head->movement.on, day_of("2026-12-08"));
			assert_string_equal(head->movement.station, "Depot");
		}
	}
	close_acts(&acts);
}

TEST(what_is_gone_or_not_hired_is_not_given_back)
{
	struct acts acts;
	open_acts(&acts);
	struct withdrawing how = condemned(&acts);
	how.because = BECAUSE_GIVEN_BACK;
	assert_false(withdraw(&acts.planning, &how, RAFT, &acts.fault));
	assert_string_equal(acts.fault.text,
	    "LR-1 is not hired, so it can't be given back; expected another reason");
	acts.scene.items[RAFT].hired_until = day_of("2027-03-01");
	assert_true(withdraw(&acts.planning, &how, RAFT, &acts.fault));
	begin_again(&acts);
	acts.scene.items[RAFT].hired_until = DAY_NONE;
	acts.scene.items[RAFT].state = PLACE_STAND_IN;
	assert_true(withdraw(&acts.planning, &how, RAFT, &acts.fault));
	begin_again(&acts);
	acts.scene.items[RAFT].state = PLACE_WITHDRAWN;
	assert_false(withdraw(&acts.planning, &how, RAFT, &acts.fault));
	assert_string_equal(acts.fault.text, "LR-1 is withdrawn already");
	acts.scene.items[RAFT].because = BECAUSE_SOLD;
	assert_false(withdraw(&acts.planning, &how, RAFT, &acts.fault));
	assert_string_equal(acts.fault.text, "LR-1 is withdrawn already: sold");
	close_acts(&acts);
}

TEST(what_stood_in_for_it_is_told_of)
{
	struct acts acts;
	open_acts(&acts);
	acts.scene.items[RAFT].stands_for = "LJ-1";
	note_stand_ins(&acts.planning, JACKET, false);
	assert_string_equal(text_string(&acts.notes), "");
	acts.scene.items[RAFT].state = PLACE_STAND_IN;
	note_stand_ins(&acts.planning, HEAD, false);
	assert_string_equal(text_string(&acts.notes), "");
	note_stand_ins(&acts.planning, JACKET, false);
	assert_non_null(strstr(text_string(&acts.notes),
	    "LR-1 stands in for LJ-1, which is gone for good; "));
	begin_again(&acts);
	acts.scene.items[RAFT].hired_until = day_of("2027-03-01");
	note_stand_ins(&acts.planning, JACKET, true);
	assert_non_null(strstr(text_string(&acts.notes),
	    "LR-1 stands in for LJ-1, which is back: it is no longer needed, and is hired until "
	    "1 Mar 2027; "));
	close_acts(&acts);
}

/* ---- back ---- */

/* The jacket and all in it ashore at Depot since 20 November. */
static void
land_jacket(struct acts *acts)
{
	for (size_t i = JACKET; i <= CYLINDER; i++) {
		acts->scene.items[i].state = PLACE_LANDED;
		acts->scene.items[i].landed_to = "Depot";
		acts->scene.items[i].landed_on = day_of("2026-11-20");
	}
}

static struct homecoming
served(void)
{
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	home.tasks = 1U << TASK_SERVICE | 1U << TASK_INSPECT;
	home.next = stamp_of("2027-10");
	home.certificate = "C-1";
	home.note = "new strap";
	home.by = "";
	home.price_minor = 4500;
	return home;
}

/* Serviced and looked at: two records, the price and the next date on the first. Its head
 * was put in new, which is a record and the dates of the new one; its cylinder comes back
 * with it, and nothing is known of work on it. */
TEST(what_comes_back_brings_its_work_and_its_new_parts)
{
	static const struct renewed_part HEAD_NEW = {.tag = "FH-1", .serial = "H-7"};
	struct acts acts;
	open_acts(&acts);
	land_jacket(&acts);
	struct homecoming home = served();
	struct renewed_part renewed = HEAD_NEW;
	renewed.expires = stamp_of("2029-06");
	renewed.made = stamp_of("2026-10");
	home.renewed = &renewed;
	home.renewed_count = 1;
	assert_true(come_back(&acts.planning, &home, JACKET, &acts.fault));
	assert_int_equal(acts.plan.count, 3);
	for (size_t i = 0; i < 3; i++) {
		assert_int_equal(acts.plan.items[i].item, i);
		assert_true(acts.plan.items[i].moves);
		assert_int_equal(acts.plan.items[i].movement.move, MOVE_RETURNED);
		assert_int_equal(acts.plan.items[i].movement.on, day_of("2026-12-09"));
		assert_string_equal(acts.plan.items[i].movement.station, "Depot");
		assert_string_equal(acts.plan.items[i].movement.note, "new strap");
		assert_int_equal(acts.plan.items[i].movement.result,
		    i == JACKET ? RESULT_PASSED : RESULT_NOT_SAID);
		assert_int_equal(
		    acts.plan.items[i].movement.certificate != NULL, i == JACKET);
		/* what it cost is on its work */
		assert_int_equal(acts.plan.items[i].movement.price_minor, -1);
		assert_int_equal(acts.plan.items[i].change.state, PLACE_ABOARD);
		assert_string_equal(acts.plan.items[i].change.landed_to, "");
		assert_int_equal(acts.plan.items[i].change.landed_on, DAY_NONE);
	}
	assert_int_equal(acts.plan.items[JACKET].record_count, 2);
	const struct record *records = acts.plan.items[JACKET].records;
	assert_int_equal(records[0].task, TASK_SERVICE);
	assert_int_equal(stamp_first(records[0].on), day_of("2026-12-09"));
	assert_int_equal(stamp_last(records[0].next), day_of("2027-10-31"));
	assert_string_equal(records[0].station, "Depot");
	assert_string_equal(records[0].certificate, "C-1");
	assert_int_equal(records[0].price_minor, 4500);
	assert_int_equal(records[1].task, TASK_INSPECT);
	assert_int_equal(records[1].next.precision, STAMP_NONE);
	assert_int_equal(records[1].price_minor, -1);
	assert_int_equal(acts.plan.items[HEAD].record_count, 1);
	assert_int_equal(acts.plan.items[HEAD].records[0].task, TASK_RENEW);
	assert_int_equal(acts.plan.items[HEAD].records[0].price_minor, -1);
	assert_int_equal(acts.plan.items[HEAD].renewed.set,
	    1U << FIELD_EXPIRES | 1U << FIELD_MADE | 1U << FIELD_SERIAL);
	assert_string_equal(acts.plan.items[HEAD].renewed.serial, "H-7");
	assert_int_equal(
	    stamp_last(acts.plan.items[HEAD].renewed.expires), day_of("2029-06-30"));
	assert_int_equal(acts.plan.items[CYLINDER].record_count, 0);
	/* what is in the plan does not come back twice */
	assert_true(come_back(&acts.planning, &home, JACKET, &acts.fault));
	assert_int_equal(acts.plan.count, 3);
	close_acts(&acts);
}

/* The head that was left aboard was put in new all the same: that is recorded, and
 * nothing moves it. */
TEST(a_part_that_stayed_aboard_may_have_been_put_in_new)
{
	const struct renewed_part renewed = {.tag = "FH-1", .serial = "H-7"};
	struct acts acts;
	open_acts(&acts);
	land_jacket(&acts);
	acts.scene.items[HEAD].state = PLACE_ABOARD;
	acts.scene.items[HEAD].landed_to = "";
	struct homecoming home = served();
	home.renewed = &renewed;
	home.renewed_count = 1;
	assert_true(come_back(&acts.planning, &home, JACKET, &acts.fault));
	assert_int_equal(acts.plan.count, 3);
	assert_int_equal(acts.plan.items[HEAD].item, HEAD);
	assert_false(acts.plan.items[HEAD].moves);
	assert_int_equal(acts.plan.items[HEAD].record_count, 1);
	assert_int_equal(acts.plan.items[HEAD].records[0].task, TASK_RENEW);
	close_acts(&acts);
}

/* Its cylinder is at another station and stays there, its head was left aboard; nothing
 * was done, which cost something: that is the movement's. */
TEST(what_went_elsewhere_or_stayed_aboard_does_not_come_back)
{
	struct acts acts;
	open_acts(&acts);
	land_jacket(&acts);
	acts.scene.items[HEAD].state = PLACE_ABOARD;
	acts.scene.items[HEAD].landed_to = "";
	acts.scene.items[CYLINDER].landed_to = "Loft";
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	home.result = RESULT_NOT_DONE;
	home.by = "";
	home.note = "";
	home.certificate = "";
	home.price_minor = 800;
	assert_true(come_back(&acts.planning, &home, JACKET, &acts.fault));
	assert_int_equal(acts.plan.count, 1);
	assert_int_equal(acts.plan.items[0].movement.result, RESULT_NOT_DONE);
	assert_int_equal(acts.plan.items[0].movement.price_minor, 800);
	assert_null(acts.plan.items[0].movement.certificate);
	assert_int_equal(acts.plan.items[0].record_count, 0);
	close_acts(&acts);
}

/* Condemned on the 8th: the jacket and its head are gone since then, the cylinder is kept and
 * back. */
TEST(what_is_condemned_at_a_station_is_gone_since_that_day)
{
	static const char *const KEPT[] = {"CY-1"};
	struct acts acts;
	open_acts(&acts);
	land_jacket(&acts);
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	home.result = RESULT_CONDEMNED;
	home.done = day_of("2026-12-08");
	home.by = "";
	home.note = "";
	home.certificate = "C-9";
	home.price_minor = 1000;
	home.kept = KEPT;
	home.kept_count = 1;
	assert_true(come_back(&acts.planning, &home, JACKET, &acts.fault));
	assert_int_equal(acts.plan.count, 3);
	assert_int_equal(acts.plan.items[0].movement.move, MOVE_WITHDRAWN);
	assert_int_equal(acts.plan.items[0].movement.on, day_of("2026-12-08"));
	assert_int_equal(acts.plan.items[0].movement.because, BECAUSE_CONDEMNED);
	assert_int_equal(acts.plan.items[0].movement.price_minor, 1000);
	assert_string_equal(acts.plan.items[0].movement.certificate, "C-9");
	assert_string_equal(acts.plan.items[0].movement.station, "Depot");
	assert_int_equal(acts.plan.items[1].movement.move, MOVE_WITHDRAWN);
	assert_int_equal(acts.plan.items[2].item, CYLINDER);
	assert_int_equal(acts.plan.items[2].movement.move, MOVE_RETURNED);
	close_acts(&acts);
}

TEST(what_is_aboard_does_not_come_back)
{
	struct acts acts;
	open_acts(&acts);
	const struct homecoming home = served();
	assert_false(come_back(&acts.planning, &home, JACKET, &acts.fault));
	assert_non_null(strstr(acts.fault.text, "LJ-1 is not ashore"));
	assert_int_equal(acts.plan.count, 0);
	close_acts(&acts);
}

/* ---- ashore ---- */

/* The raft at Depot of ten days since 20 November, the jacket with its parts there since
 * the 18th; and a second jacket at Another Loft, which the book does not know: 42
 * days. */
TEST(what_is_ashore_is_told_by_station_then_by_the_day_it_can_be_fetched)
{
	static const struct station DEPOT = {
	    .name = "Depot", .weekdays = WEEKDAYS_ALL, .turn_round_days = 10};
	struct whereabouts_list list = {0};
	struct acts acts;
	open_acts(&acts);
	struct item *second = scene_item(&acts.scene, "lifejacket-auto");
	struct item *aboard = scene_item(&acts.scene, "lifejacket-auto");
	second->tag = "LJ-2";
	aboard->tag = "LJ-3";
	for (size_t i = 0; i <= ITEMS; i++) {
		struct item *item = &acts.scene.items[i];
		item->state = PLACE_LANDED;
		item->landed_to = i == ITEMS ? "Another Loft" : "Depot";
		item->landed_on = day_of(i == RAFT ? "2026-11-20" : "2026-11-18");
	}
	const struct known_gear known = {.inventory = &acts.scene.inventory,
	    .kinds = acts.scene.kinds,
	    .stations = &DEPOT,
	    .station_count = 1};
	whereabouts_ashore(&known, NULL, &acts.scene.arena, &list);
	assert_int_equal(list.count, 3);
	assert_int_equal(list.items[0].item, ITEMS);
	assert_true(list.items[0].assumed);
	assert_int_equal(list.items[1].item, JACKET);
	assert_int_equal(list.items[1].collect, day_of("2026-11-28"));
	assert_false(list.items[1].assumed);
	assert_int_equal(list.items[2].item, RAFT);
	assert_int_equal(list.items[2].since, day_of("2026-11-20"));
	whereabouts_ashore(&known, "Another Loft", &acts.scene.arena, &list);
	assert_int_equal(list.count, 1);
	assert_int_equal(list.items[0].item, ITEMS);
	acts.scene.items[RAFT].landed_on = day_of("2026-11-18");
	whereabouts_ashore(&known, "Depot", &acts.scene.arena, &list);
	assert_int_equal(list.count, 2);
	assert_int_equal(list.items[0].item, JACKET);
	acts.scene.items[RAFT].landed_on = day_of("2026-11-16");
	whereabouts_ashore(&known, "Depot", &acts.scene.arena, &list);
	assert_int_equal(list.items[0].item, RAFT);
	assert_int_equal(list.items[1].item, JACKET);
	acts.scene.items[RAFT].landed_on = day_of("2026-11-20");
	whereabouts_ashore(&known, "Depot", &acts.scene.arena, &list);
	assert_int_equal(list.items[0].item, JACKET);
	whereabouts_ashore(&known, "Nowhere", &acts.scene.arena, &list);
	assert_int_equal(list.count, 0);
	close_acts(&acts);
}

TEST(what_is_withdrawn_is_so_since_its_last_movement_says)
{
	const struct movement movements[] = {
	    {.move = MOVE_WITHDRAWN, .on = day_of("2025-03-01")},
	    {.move = MOVE_ABOARD, .on = day_of("2025-04-01")},
	    {.move = MOVE_WITHDRAWN, .on = day_of("2026-05-01")},
	    {.move = MOVE_CARRIED, .on = day_of("2026-06-01")}};
	struct acts acts;
	open_acts(&acts);
	const struct known_gear known = {
	    .inventory = &acts.scene.inventory, .kinds = acts.scene.kinds};
	acts.scene.items[RAFT].movements = movements;
	acts.scene.items[RAFT].movement_count = 4;
	assert_int_equal(whereabouts_of(&known, RAFT).since, DAY_NONE);
	acts.scene.items[RAFT].state = PLACE_WITHDRAWN;
	assert_int_equal(whereabouts_of(&known, RAFT).since, day_of("2026-05-01"));
	acts.scene.items[RAFT].movement_count = 0;
	assert_int_equal(whereabouts_of(&known, RAFT).since, DAY_NONE);
	close_acts(&acts);
}

RUN_TESTS(NULL, NULL)
