/* Dockets from shore lists built by hand: two boats, two stations. */
#include "becket_test.h"
#include "winter/docket_heads.h"

#include <string.h>

enum { A_RAFT, A_RELEASE, A_JACKET, B_RAFT, B_HEAD, ITEM_COUNT };

/* Boat 0 has a raft with its release and a jacket, boat 1 a raft with a firing head. */
static const struct item ITEMS[ITEM_COUNT] = {
    [A_RAFT] = {.vessel = 0, .tag = "A-LR", .parent = ITEM_NO_PARENT, .quantity = 1},
    [A_RELEASE] = {.vessel = 0, .tag = "A-LR-HR", .parent = A_RAFT, .quantity = 1},
    [A_JACKET] = {.vessel = 0, .tag = "A-LJ", .parent = ITEM_NO_PARENT, .quantity = 1},
    [B_RAFT] = {.vessel = 1, .tag = "B-LR", .parent = ITEM_NO_PARENT, .quantity = 1},
    [B_HEAD] = {.vessel = 1, .tag = "B-FH", .parent = A_JACKET, .quantity = 1},
};
static const struct vessel VESSELS[2] = {{.name = "Amber Tern"}, {.name = "Brill"}};
static const struct inventory INVENTORY = {VESSELS, 2, ITEMS, ITEM_COUNT, "EUR"};

static struct shore_line
line_of(size_t item, enum task task, bool with_parent)
{
	return (struct shore_line){
	    .item = item, .task = task, .with_parent = with_parent};
}

static struct trip
trip_of(const char *name, day_t hand_in, day_t collect, struct shore_line *lines,
    size_t count)
{
	return (struct trip){.name = name,
	    .hand_in = hand_in,
	    .collect = collect,
	    .lines = {.items = lines, .count = count}};
}

TEST(all_vessels_at_one_station_and_day_share_a_docket)
{
	SCOPED_ARENA arena = {0};
	struct dockets dockets = {0};
	struct shore_line of_a[] = {line_of(A_JACKET, TASK_SERVICE, false)};
	struct shore_line more_of_a[] = {line_of(A_RAFT, TASK_SERVICE, false)};
	struct shore_line of_b[] = {line_of(B_RAFT, TASK_SERVICE, false)};
	struct trip trips_of_a[] = {
	    trip_of("Loft", 100, 140, more_of_a, 1), trip_of("Depot", 100, 110, of_a, 1)};
	struct trip trips_of_b[] = {trip_of("Loft", 100, 150, of_b, 1)};
	const struct shore_list lists[] = {
	    {.vessel = 0, .hand_in = {.items = trips_of_a, .count = 2}},
	    {.vessel = 1, .hand_in = {.items = trips_of_b, .count = 1}},
	};
	dockets_make(&INVENTORY, lists, 2, &arena, &dockets);
	assert_int_equal(dockets.count, 2);
	assert_string_equal(dockets.items[0].station, "Depot");
	assert_int_equal(dockets.items[0].piece_count, 1);
	assert_int_equal(dockets.items[0].vessel_count, 1);
	const struct docket *loft = &dockets.items[1];
	assert_string_equal(loft->station, "Loft");
	assert_int_equal(loft->piece_count, 2);
	assert_int_equal(loft->vessel_count, 2);
	/* all of it can be fetched when the last can */
	assert_int_equal(loft->collect, 150);
	assert_int_equal(loft->pieces[0].item, A_RAFT);
	assert_int_equal(loft->pieces[1].item, B_RAFT);
}

TEST(another_day_is_another_docket_and_the_earlier_comes_first)
{
	SCOPED_ARENA arena = {0};
	struct dockets dockets = {0};
	struct shore_line late[] = {line_of(A_RAFT, TASK_SERVICE, false)};
	struct shore_line early[] = {line_of(B_RAFT, TASK_SERVICE, false)};
	struct trip trips_of_a[] = {trip_of("Loft", 101, 141, late, 1)};
	struct trip trips_of_b[] = {trip_of("Loft", 100, 140, early, 1)};
	const struct shore_list lists[] = {
	    {.vessel = 0, .hand_in = {.items = trips_of_a, .count = 1}},
	    {.vessel = 1, .hand_in = {.items = trips_of_b, .count = 1}},
	};
	dockets_make(&INVENTORY, lists, 2, &arena, &dockets);
	assert_int_equal(dockets.count, 2);
	assert_int_equal(dockets.items[0].pieces[0].item, B_RAFT);
	assert_int_equal(dockets.items[1].pieces[0].item, A_RAFT);
}

TEST(a_piece_has_its_own_tasks_first_and_then_the_parts_that_go_with_it)
{
	SCOPED_ARENA arena = {0};
	struct dockets dockets = {0};
	struct shore_line lines[] = {
	    line_of(A_RELEASE, TASK_RENEW, true),
	    line_of(A_RAFT, TASK_TEST, false),
	    line_of(A_RAFT, TASK_SERVICE, false),
	};
	struct trip trips[] = {trip_of("Loft", 100, 140, lines, 3)};
	const struct shore_list list = {.hand_in = {.items = trips, .count = 1}};
	dockets_make(&INVENTORY, &list, 1, &arena, &dockets);
	assert_int_equal(dockets.count, 1);
	assert_int_equal(dockets.items[0].piece_count, 1);
	const struct docket_piece *raft = &dockets.items[0].pieces[0];
	assert_int_equal(raft->item, A_RAFT);
	assert_int_equal(raft->line_count, 3);
	assert_int_equal(raft->own_count, 2);
	assert_ptr_equal(raft->lines[0], &lines[2]);
	assert_ptr_equal(raft->lines[1], &lines[1]);
	assert_ptr_equal(raft->lines[2], &lines[0]);
}

TEST(what_is_held_back_is_in_no_docket_yet)
{
	SCOPED_ARENA arena = {0};
	struct dockets dockets = {0};
	struct shore_line line = line_of(A_RAFT, TASK_SERVICE, false);
	struct trip trip = trip_of("Loft", 100, 140, &line, 1);
	const struct shore_list list = {.hand_in = {.items = &trip, .count = 1}};
	trip.held_back = true;
	dockets_make(&INVENTORY, &list, 1, &arena, &dockets);
	assert_int_equal(dockets.count, 0);
	trip.held_back = false;
	dockets_make(&INVENTORY, &list, 1, &arena, &dockets);
	assert_int_equal(dockets.count, 1);
}

TEST(a_part_that_is_handed_in_alone_is_a_piece_of_its_own)
{
	SCOPED_ARENA arena = {0};
	struct dockets dockets = {0};
	/* one for its own sake beside its parent; one whose parent is not on the trip */
	struct shore_line lines[] = {
	    line_of(A_RAFT, TASK_SERVICE, false),
	    line_of(A_RELEASE, TASK_TEST, false),
	    line_of(B_HEAD, TASK_RENEW, true),
	};
	struct trip trips[] = {trip_of("Loft", 100, 140, lines, 3)};
	const struct shore_list list = {.hand_in = {.items = trips, .count = 1}};
	dockets_make(&INVENTORY, &list, 1, &arena, &dockets);
	assert_int_equal(dockets.items[0].piece_count, 3);
	assert_int_equal(dockets.items[0].pieces[1].item, A_RELEASE);
	assert_int_equal(dockets.items[0].pieces[1].own_count, 1);
	assert_int_equal(dockets.items[0].pieces[2].item, B_HEAD);
	assert_int_equal(dockets.items[0].pieces[2].own_count, 1);
}

/* By hand: a raft serviced and tested is one piece, its release inside it another, and a lot of
 * three jackets three. */
TEST(pieces_are_counted_once_lots_as_many_as_they_hold_and_parts_inside_too)
{
	SCOPED_ARENA arena = {0};
	struct dockets dockets = {0};
	struct item items[ITEM_COUNT];
	memcpy(items, ITEMS, sizeof items);
	items[A_JACKET].quantity = 3;
	const struct inventory inventory = {VESSELS, 2, items, ITEM_COUNT, "EUR"};
	struct shore_line lines[] = {
	    line_of(A_RAFT, TASK_SERVICE, false),
	    line_of(A_RELEASE, TASK_RENEW, true),
	    line_of(A_JACKET, TASK_SERVICE, false),
	    line_of(A_RAFT, TASK_TEST, false),
	};
	struct trip trips[] = {trip_of("Loft", 100, 140, lines, 4)};
	const struct shore_list list = {.hand_in = {.items = trips, .count = 1}};
	assert_int_equal(shore_pieces(&inventory, &trips[0].lines), 5);
	dockets_make(&inventory, &list, 1, &arena, &dockets);
	assert_int_equal(dockets.items[0].piece_count, 2);
	assert_int_equal(dockets.items[0].count, 5);
	assert_int_equal(dockets.items[0].inside, 1);
}

TEST(what_is_ashore_already_is_gathered_by_station_and_day_too)
{
	SCOPED_ARENA arena = {0};
	struct dockets dockets = {0};
	struct ashore_line of_a[] = {
	    {.item = A_RAFT, .station = "Loft", .since = 90, .collect = 130},
	    {.item = A_JACKET, .station = "", .since = DAY_NONE, .collect = DAY_NONE},
	};
	struct ashore_line of_b[] = {
	    {.item = B_RAFT, .station = "Loft", .since = 90, .collect = 130}};
	const struct shore_list lists[] = {
	    {.vessel = 0, .ashore = {of_a, 2}},
	    {.vessel = 1, .ashore = {of_b, 1}},
	};
	dockets_landed(&INVENTORY, lists, 2, &arena, &dockets);
	assert_int_equal(dockets.count, 2);
	/* the day that is not known comes first: it is the one to ask about */
	assert_int_equal(dockets.items[0].hand_in, DAY_NONE);
	assert_true(dockets.items[0].landed);
	assert_int_equal(dockets.items[1].hand_in, 90);
	assert_int_equal(dockets.items[1].collect, 130);
	assert_int_equal(dockets.items[1].piece_count, 2);
	assert_int_equal(dockets.items[1].vessel_count, 2);
	assert_int_equal(dockets.items[1].pieces[0].line_count, 0);
	/* and nothing of it is to be handed in */
	dockets_make(&INVENTORY, lists, 2, &arena, &dockets);
	assert_int_equal(dockets.count, 0);
}

TEST(parts_that_lie_there_with_their_parent_come_back_too)
{
	SCOPED_ARENA arena = {0};
	struct dockets dockets = {0};
	struct item items[ITEM_COUNT];
	memcpy(items, ITEMS, sizeof items);
	items[A_RAFT].state = PLACE_LANDED;
	items[A_RAFT].landed_to = "Loft";
	items[A_RELEASE].state = PLACE_LANDED;
	items[A_RELEASE].landed_to = "Loft";
	const struct inventory inventory = {VESSELS, 2, items, ITEM_COUNT, "EUR"};
	struct ashore_line line = {.item = A_RAFT, .station = "Loft", .since = 90};
	const struct shore_list list = {.ashore = {&line, 1}};
	dockets_landed(&inventory, &list, 1, &arena, &dockets);
	assert_int_equal(dockets.items[0].piece_count, 2);
	assert_int_equal(dockets.items[0].pieces[0].item, A_RAFT);
	assert_int_equal(dockets.items[0].pieces[1].item, A_RELEASE);
	/* one that stayed aboard, and one that went elsewhere, are not there */
	items[A_RELEASE].landed_to = "Depot";
	dockets_landed(&inventory, &list, 1, &arena, &dockets);
	assert_int_equal(dockets.items[0].piece_count, 1);
	items[A_RELEASE].landed_to = "Loft";
	items[A_RELEASE].state = PLACE_ABOARD;
	dockets_landed(&inventory, &list, 1, &arena, &dockets);
	assert_int_equal(dockets.items[0].piece_count, 1);
}

/* Those of one station and day are added up, whichever boats came first; what is ashore
 * already stands before the rest. */
TEST(dockets_of_some_boats_each_become_one)
{
	static const struct docket PARTS[] = {
	    {.station = "Loft",
		.hand_in = 100,
		.collect = 140,
		.count = 3,
		.inside = 1,
		.vessel_count = 1,
		.hazards = 2},
	    {.station = "Depot",
		.hand_in = 100,
		.collect = 110,
		.count = 1,
		.vessel_count = 1},
	    {.station = "Loft",
		.hand_in = 90,
		.collect = 95,
		.landed = true,
		.count = 1,
		.vessel_count = 1},
	    {.station = "Loft",
		.hand_in = 100,
		.collect = 150,
		.assumed = true,
		.count = 4,
		.vessel_count = 2,
		.hazards = 4},
	};
	struct docket_heads heads = {0};
	SCOPED_TEXT early = {0};
	SCOPED_TEXT late = {0};
	SCOPED_TEXT longer = {0};
	for (size_t i = 0; i < sizeof PARTS / sizeof PARTS[0]; i++) {
		docket_heads_add(&heads, &PARTS[i]);
	}
	docket_heads_join(&heads);
	assert_int_equal(heads.count, 3);
	assert_true(heads.items[0].landed);
	assert_string_equal(heads.items[1].station, "Depot");
	const struct docket *loft = &heads.items[2];
	assert_int_equal(loft->collect, 150);
	assert_true(loft->assumed);
	assert_int_equal(loft->count, 7);
	assert_int_equal(loft->inside, 1);
	assert_int_equal(loft->vessel_count, 3);
	assert_int_equal(loft->hazards, 6);
	/* a boat in ninth place stands before one in tenth, and both before a station whose
	 * name goes on */
	docket_word(loft, 9, &early);
	docket_word(loft, 10, &late);
	docket_word(&(struct docket){.station = "Loft East"}, 1, &longer);
	assert_true(strcmp(text_string(&early), text_string(&late)) < 0);
	assert_true(strcmp(text_string(&late), text_string(&longer)) < 0);
	assert_true(docket_key(&PARTS[2]) < docket_key(&PARTS[0]));
	assert_ptr_equal(
	    docket_heads_of(&heads, docket_key(loft), text_string(&late)), loft);
	docket_heads_clear(&heads);
}

/* A name that begins with another and has in it the byte that ends one: no command takes such, but
 * another program may have written it. */
TEST(a_docket_is_found_by_its_whole_name_whatever_is_in_it)
{
	static const struct docket ASHORE[] = {
	    {.station = "A", .landed = true}, {.station = "A\001z", .landed = true}};
	struct docket_heads heads = {0};
	for (size_t i = 0; i < 2; i++) {
		docket_heads_add(&heads, &ASHORE[i]);
	}
	docket_heads_join(&heads);
	for (size_t i = 0; i < 2; i++) {
		SCOPED_TEXT word = {0};
		docket_word(&ASHORE[i], 3, &word);
		heads.last = 0;
		assert_string_equal(
		    docket_heads_of(&heads, docket_key(&ASHORE[i]), text_string(&word))
			->station,
		    ASHORE[i].station);
	}
	docket_heads_clear(&heads);
}

RUN_TESTS(NULL, NULL)
