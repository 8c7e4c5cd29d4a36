/* Gear, boats and stations: what goes into a book comes out of it. */
#include "book_scratch.h"

SCRATCH_TEST(a_new_book_is_empty_and_counts_in_euro)
{
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.vessel_count, 0);
	assert_int_equal(contents.inventory.item_count, 0);
	assert_int_equal(contents.station_count, 0);
	assert_string_equal(contents.inventory.currency, "EUR");
	assert_int_equal(strspn(book_identity(scratch->book), "0123456789abcdef"), 32);
}

SCRATCH_TEST(a_new_vessel_is_private_follows_practice_and_is_laid_up_from_november)
{
	const struct vessel_change change = {.name = "Amber Tern"};
	assert_done(scratch, book_put_vessel(scratch->book, &change, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.vessel_count, 1);
	const struct vessel *vessel = contents.inventory.vessels;
	char lay_up[YEARLY_TEXT_SIZE];
	assert_string_equal(vessel->name, "Amber Tern");
	assert_string_equal(vessel->base, "");
	assert_int_equal(vessel->period_count, 1);
	assert_int_equal(vessel->periods[0].from, DAY_NONE);
	assert_int_equal(vessel->periods[0].use, USE_PRIVATE);
	assert_int_equal(vessel->sheet_count, 1);
	assert_string_equal(vessel->sheets[0], "practice");
	assert_true(vessel->laid_up);
	assert_string_equal(yearly_text(vessel->lay_up, lay_up), "11-01..03-31");
}

SCRATCH_TEST(every_field_of_a_vessel_comes_back)
{
	const struct odd_winter winters[] = {
	    {2027, {day_of("2027-11-15"), day_of("2028-03-01")}},
	    {2026, {day_of("2026-10-10"), day_of("2027-04-15")}},
	};
	const char *const sheets[] = {"maker", "practice"};
	const struct vessel_change change = {
	    .name = "Sjöstjärnan",
	    .set = 1U << VESSEL_USE | 1U << VESSEL_AREA | 1U << VESSEL_PERSONS |
		   1U << VESSEL_LAY_UP | 1U << VESSEL_LENGTH | 1U << VESSEL_BUILT |
		   1U << VESSEL_BASE | 1U << VESSEL_MARGIN | 1U << VESSEL_STORE |
		   1U << VESSEL_SHEETS | 1U << VESSEL_WINTERS,
	    .use = USE_COMMERCIAL,
	    .area = "coastal",
	    .persons = 8,
	    .laid_up = true,
	    .lay_up = {6, 1, 8, 31},
	    .odd_winters = winters,
	    .odd_winter_count = 2,
	    .sheets = sheets,
	    .sheet_count = 2,
	    .store = true,
	    .length_cm = 1234,
	    .built = 1998,
	    .base = "North Quay",
	    .margin_days = 7,
	};
	assert_done(scratch, book_put_vessel(scratch->book, &change, &scratch->fault));

	scratch_reopen(scratch, BOOK_READ);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct vessel *vessel = contents.inventory.vessels;
	char lay_up[YEARLY_TEXT_SIZE];
	assert_string_equal(vessel->name, "Sjöstjärnan");
	assert_string_equal(vessel->base, "North Quay");
	assert_int_equal(vessel->length_cm, 1234);
	assert_int_equal(vessel->built, 1998);
	assert_int_equal(vessel->margin_days, 7);
	assert_true(vessel->store);
	assert_string_equal(yearly_text(vessel->lay_up, lay_up), "06-01..08-31");
	assert_int_equal(vessel->periods[0].use, USE_COMMERCIAL);
	assert_string_equal(vessel->periods[0].area, "coastal");
	assert_int_equal(vessel->periods[0].persons, 8);
	assert_int_equal(vessel->sheet_count, 2);
	assert_string_equal(vessel->sheets[0], "maker");
	assert_string_equal(vessel->sheets[1], "practice");
	/* Odd winters are by year, whatever the order they were given in. */
	assert_int_equal(vessel->odd_winter_count, 2);
	assert_int_equal(vessel->odd_winters[0].year, 2026);
	assert_day(vessel->odd_winters[0].span.first, "2026-10-10");
	assert_day(vessel->odd_winters[0].span.last, "2027-04-15");
	assert_day(vessel->odd_winters[1].span.last, "2028-03-01");
}

static void
put_use(struct scratch *scratch, enum use use, day_t from)
{
	const struct vessel_change change = {.name = "Amber Tern",
	    .set = 1U << VESSEL_USE | SET_FROM,
	    .use = use,
	    .from = from};
	assert_done(scratch, book_put_vessel(scratch->book, &change, &scratch->fault));
}

SCRATCH_TEST(a_vessel_changes_use_and_back_and_inherits_the_rest)
{
	/* Entered out of order on purpose. */
	put_use(scratch, USE_PRIVATE, day_of("2027-10-01"));
	put_use(scratch, USE_COMMERCIAL, day_of("2027-06-01"));
	const struct vessel_change persons = {
	    .name = "Amber Tern", .set = 1U << VESSEL_PERSONS, .persons = 6};
	assert_done(scratch, book_put_vessel(scratch->book, &persons, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct vessel *vessel = contents.inventory.vessels;
	assert_int_equal(vessel->period_count, 3);
	assert_int_equal(vessel->periods[0].use, USE_PRIVATE);
	assert_int_equal(vessel->periods[1].use, USE_COMMERCIAL);
	assert_day(vessel->periods[1].from, "2027-06-01");
	assert_int_equal(vessel->periods[2].use, USE_PRIVATE);
	assert_day(vessel->periods[2].from, "2027-10-01");
	for (size_t i = 0; i < 3; i++) {
		assert_int_equal(vessel->periods[i].persons, 6);
	}
}

SCRATCH_TEST(base_lay_up_and_sheets_hold_from_a_day_on)
{
	static const char *const SHEETS[] = {"practice", "uk-private"};
	const struct vessel_change ever = {
	    .name = "Amber Tern", .set = 1U << VESSEL_BASE, .base = "North quay"};
	const struct vessel_change later = {.name = "Amber Tern",
	    .set =
		1U << VESSEL_BASE | 1U << VESSEL_LAY_UP | 1U << VESSEL_SHEETS | SET_FROM,
	    .base = "South quay",
	    .laid_up = false,
	    .sheets = SHEETS,
	    .sheet_count = 2,
	    .from = day_of("2027-06-01")};
	assert_done(scratch, book_put_vessel(scratch->book, &later, &scratch->fault));
	assert_done(scratch, book_put_vessel(scratch->book, &ever, &scratch->fault));
	put_use(scratch, USE_COMMERCIAL, day_of("2027-10-01"));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct vessel *vessel = contents.inventory.vessels;
	assert_int_equal(vessel->period_count, 3);
	assert_string_equal(vessel->base, "North quay");
	for (size_t i = 0; i < 3; i++) {
		const struct period *period = &vessel->periods[i];
		assert_string_equal(period->base, i == 0 ? "North quay" : "South quay");
		assert_int_equal(period->laid_up, i == 0);
		assert_int_equal(period->sheet_count, i == 0 ? 1 : 2);
		assert_string_equal(period->sheets[0], "practice");
		assert_int_equal((period->says & SAYS_SHEETS) != 0, i == 1);
	}
}

SCRATCH_TEST(what_is_said_of_a_season_holds_until_it_is_said_otherwise)
{
	const struct vessel_change ever = {.name = "Amber Tern",
	    .set = 1U << VESSEL_SEASON | 1U << VESSEL_FREEZING,
	    .season_months = 6,
	    .above_freezing = 1};
	const struct vessel_change later = {.name = "Amber Tern",
	    .set = 1U << VESSEL_SEASON | 1U << VESSEL_DRY | SET_FROM,
	    .season_months = 9,
	    .dry_storage = -1,
	    .from = day_of("2027-06-01")};
	put_use(scratch, USE_COMMERCIAL, day_of("2027-03-01"));
	assert_done(scratch, book_put_vessel(scratch->book, &ever, &scratch->fault));
	assert_done(scratch, book_put_vessel(scratch->book, &later, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct vessel *vessel = contents.inventory.vessels;
	static const int MONTHS[] = {6, 6, 9};
	static const int DRY[] = {0, 0, -1};
	assert_int_equal(vessel->period_count, 3);
	for (size_t i = 0; i < 3; i++) {
		assert_int_equal(vessel->periods[i].season_months, MONTHS[i]);
		assert_int_equal(vessel->periods[i].above_freezing, 1);
		assert_int_equal(vessel->periods[i].dry_storage, DRY[i]);
		assert_int_equal((vessel->periods[i].says & SAYS_SEASON) != 0, i != 1);
	}
}

SCRATCH_TEST(a_vessel_with_no_lay_up_keeps_only_what_is_told)
{
	const struct vessel_change base = {
	    .name = "Amber Tern", .set = 1U << VESSEL_BASE, .base = "South Pier"};
	const struct vessel_change none = {
	    .name = "Amber Tern", .set = 1U << VESSEL_LAY_UP, .laid_up = false};
	assert_done(scratch, book_put_vessel(scratch->book, &base, &scratch->fault));
	assert_done(scratch, book_put_vessel(scratch->book, &none, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.vessel_count, 1);
	assert_false(contents.inventory.vessels[0].laid_up);
	assert_string_equal(contents.inventory.vessels[0].base, "South Pier");
}

SCRATCH_TEST(every_field_of_a_station_comes_back_and_lists_are_replaced)
{
	const struct yearly closed[] = {{12, 20, 1, 31}, {7, 1, 7, 14}};
	const char *const kinds[] = {"liferaft-valise", "liferaft-canister"};
	struct station_change change = {
	    .name = "Raft Loft",
	    .set = 1U << STATION_BASE | 1U << STATION_TURN_ROUND | 1U << STATION_TRIP |
		   1U << STATION_KINDS | 1U << STATION_CLOSED,
	    .base = "North Quay",
	    .turn_round_days = 35,
	    .trip_minor = 4500,
	    .closed = closed,
	    .closed_count = 2,
	    .kinds = kinds,
	    .kind_count = 2,
	};
	const struct station_change other = {.name = "Bottle Bench"};
	assert_done(scratch, book_put_station(scratch->book, &change, &scratch->fault));
	assert_done(scratch, book_put_station(scratch->book, &other, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.station_count, 2);
	assert_string_equal(contents.stations[0].name, "Bottle Bench");
	assert_int_equal(contents.stations[0].turn_round_days, 14);
	assert_int_equal(contents.stations[0].closed_count, 0);
	const struct station *station = &contents.stations[1];
	char window[YEARLY_TEXT_SIZE];
	assert_string_equal(station->name, "Raft Loft");
	assert_string_equal(station->base, "North Quay");
	assert_int_equal(station->turn_round_days, 35);
	assert_int_equal(station->trip_minor, 4500);
	assert_int_equal(station->closed_count, 2);
	assert_string_equal(yearly_text(station->closed[0], window), "12-20..01-31");
	assert_string_equal(yearly_text(station->closed[1], window), "07-01..07-14");
	assert_int_equal(station->kind_count, 2);
	assert_string_equal(station->kinds[1], "liferaft-canister");

	const struct station_change bare = {
	    .name = "Raft Loft", .set = 1U << STATION_CLOSED | 1U << STATION_KINDS};
	assert_done(scratch, book_put_station(scratch->book, &bare, &scratch->fault));
	SCOPED_CONTENTS after = scratch_load(scratch);
	assert_int_equal(after.stations[1].closed_count, 0);
	assert_int_equal(after.stations[1].kind_count, 0);
	assert_int_equal(after.stations[1].turn_round_days, 35);
}

/* A station with all that can be said of its work. */
static void
put_busy_loft(struct scratch *scratch)
{
	const struct span shut = {day_of("2026-12-24"), day_of("2027-01-06")};
	const struct station_pace paces[] = {{2, 4, 28}, {12, 1, 7}};
	const struct station_make makes[] = {
	    {"liferaft-valise", "Tarn"}, {"liferaft-canister", "Orrin"}};
	const struct station_price prices[] = {
	    {"liferaft-valise", true, TASK_SERVICE, 42000, 0},
	    {"raft-contents", false, TASK_RENEW, 9500, 0}};
	const struct station_change change = {
	    .name = "Busy Loft",
	    .set = 1U << STATION_CARRIAGE | 1U << STATION_WEEKLY | 1U << STATION_OPEN |
		   1U << STATION_PACES | 1U << STATION_CLOSED,
	    .carriage_minor = 500,
	    .weekly_pieces = 12,
	    .weekdays = 0x1f,
	    .shut = &shut,
	    .shut_count = 1,
	    .paces = paces,
	    .pace_count = 2,
	    .makes = makes,
	    .make_count = 2,
	    .prices = prices,
	    .price_count = 2,
	};
	assert_done(scratch, book_put_station(scratch->book, &change, &scratch->fault));
}

SCRATCH_TEST(what_a_station_may_do_when_and_for_how_much_comes_back)
{
	put_busy_loft(scratch);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct station *station = &contents.stations[0];
	assert_int_equal(station->carriage_minor, 500);
	assert_int_equal(station->weekly_pieces, 12);
	assert_int_equal(station->weekdays, 0x1f);
	assert_int_equal(station->shut_count, 1);
	assert_int_equal(station->shut[0].first, day_of("2026-12-24"));
	assert_int_equal(station->shut[0].last, day_of("2027-01-06"));
	assert_int_equal(station->pace_count, 2);
	assert_int_equal(station->paces[1].first_month, 12);
	assert_int_equal(station->paces[1].last_month, 1);
	assert_int_equal(station->paces[1].turn_round_days, 7);
	assert_int_equal(station->make_count, 2);
	assert_string_equal(station->makes[0].kind, "liferaft-canister");
	assert_string_equal(station->makes[0].make, "Orrin");
	assert_int_equal(station->price_count, 2);
	assert_true(station->prices[0].every_task);
	assert_int_equal(station->prices[0].minor, 42000);
	assert_false(station->prices[1].every_task);
	assert_int_equal(station->prices[1].task, TASK_RENEW);
}

/* The prices of a scratch's only station, as "kind task from minor" joined by commas. */
static void
assert_prices(struct scratch *scratch, const char *expected)
{
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct station *station = &contents.stations[0];
	char found[400] = "";
	for (size_t i = 0; i < station->price_count; i++) {
		const struct station_price *price = &station->prices[i];
		size_t length = strlen(found);
		(void)snprintf(found + length, sizeof found - length, "%s%s %d %d %lld",
		    i > 0 ? ", " : "", price->kind,
		    price->every_task ? -1 : (int)price->task, price->from_years,
		    (long long)price->minor);
	}
	assert_string_equal(found, expected);
}

SCRATCH_TEST(prices_from_an_age_on_come_back_by_age_and_go_one_by_one_or_together)
{
	const struct station_price puts[] = {
	    {"liferaft-valise", false, TASK_SERVICE, 90000, 15},
	    {"liferaft-valise", false, TASK_SERVICE, 62000, 9},
	    {"liferaft-valise", false, TASK_SERVICE, 45000, 0},
	    {"liferaft-valise", true, TASK_SERVICE, 40000, 10},
	    {"liferaft-valise", false, TASK_SERVICE, 95000, 15},
	};
	struct station_change change = {.name = "Loft", .prices = puts, .price_count = 5};
	assert_done(scratch, book_put_station(scratch->book, &change, &scratch->fault));
	assert_prices(scratch, "liferaft-valise -1 10 40000, liferaft-valise 0 0 45000, "
			       "liferaft-valise 0 9 62000, liferaft-valise 0 15 95000");
	/* one step; then the price from new, with all that are left of it */
	const struct station_price one = {"liferaft-valise", false, TASK_SERVICE, -1, 9};
	change =
	    (struct station_change){.name = "Loft", .prices = &one, .price_count = 1};
	assert_done(scratch, book_put_station(scratch->book, &change, &scratch->fault));
	assert_prices(scratch, "liferaft-valise -1 10 40000, liferaft-valise 0 0 45000, "
			       "liferaft-valise 0 15 95000");
	const struct station_price own = {"liferaft-valise", false, TASK_SERVICE, -1, 0};
	change.prices = &own;
	assert_done(scratch, book_put_station(scratch->book, &change, &scratch->fault));
	assert_prices(scratch, "liferaft-valise -1 10 40000");
	/* an age that can't be changes nothing */
	const struct station_price bad[] = {{"epirb", true, TASK_SERVICE, 100, 0},
	    {"epirb", true, TASK_SERVICE, 200, 101}};
	change = (struct station_change){.name = "Loft", .prices = bad, .price_count = 2};
	assert_false(book_put_station(scratch->book, &change, &scratch->fault));
	assert_string_equal(scratch->fault.text,
	    "writing station \"Loft\": a price is from an age of 101 years; expected 0 to 100");
	assert_prices(scratch, "liferaft-valise -1 10 40000");
	change = (struct station_change){.name = "Loft", .no_prices = true};
	assert_done(scratch, book_put_station(scratch->book, &change, &scratch->fault));
	assert_prices(scratch, "");
}

SCRATCH_TEST(a_price_is_changed_or_forgotten_and_makes_are_replaced_kind_by_kind)
{
	put_busy_loft(scratch);
	const char *const kinds[] = {"liferaft-valise"};
	const struct station_price prices[] = {
	    {"liferaft-valise", true, TASK_SERVICE, 45000, 0},
	    {"raft-contents", false, TASK_RENEW, -1, 0}};
	const struct station_change change = {
	    .name = "Busy Loft",
	    .set = 1U << STATION_PACES,
	    .make_kinds = kinds,
	    .make_kind_count = 1,
	    .prices = prices,
	    .price_count = 2,
	};
	assert_done(scratch, book_put_station(scratch->book, &change, &scratch->fault));
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct station *station = &contents.stations[0];
	assert_int_equal(station->price_count, 1);
	assert_int_equal(station->prices[0].minor, 45000);
	assert_int_equal(station->make_count, 1);
	assert_string_equal(station->makes[0].kind, "liferaft-canister");
	assert_int_equal(station->pace_count, 0);
	assert_int_equal(station->shut_count, 1);
	assert_int_equal(station->weekdays, 0x1f);
}

SCRATCH_TEST(every_field_of_an_item_comes_back)
{
	const struct item_change change = {
	    .set = (1U << FIELD_COUNT) - 1U,
	    .tag = "FL-1",
	    .vessel = "Amber Tern",
	    .kind = "flare-red-hand",
	    .description = "red, \"hand\" ✓",
	    .serial = "S/00-1",
	    .place = "chart table",
	    .notes = "two lines\nof notes",
	    .part_of = "",
	    .quantity = 4,
	    .price_minor = 1999,
	    .made = stamp_of("2021"),
	    .packed = stamp_of("2021-04"),
	    .bought = stamp_of("2021-05-17~"),
	    .fitted = stamp_of("use by 2021-06"),
	    .expires = stamp_of("before 2025-06"),
	    .state = PLACE_LANDED,
	    .make = "Quorl",
	    .capacity = 8,
	    .rating = "13A/113B",
	    .landed_to = "Raft Loft",
	    .landed_on = day_from_civil(2026, 11, 3),
	    .hired_until = day_from_civil(2027, 3, 31),
	};
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));

	scratch_reopen(scratch, BOOK_READ);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "FL-1");
	assert_int_equal(item->vessel, 0);
	assert_string_equal(item->kind, "flare-red-hand");
	assert_string_equal(item->description, "red, \"hand\" ✓");
	assert_string_equal(item->serial, "S/00-1");
	assert_string_equal(item->place, "chart table");
	assert_string_equal(item->notes, "two lines\nof notes");
	assert_int_equal(item->quantity, 4);
	assert_int_equal(item->price_minor, 1999);
	assert_stamp(item->made, "2021");
	assert_stamp(item->packed, "2021-04");
	assert_stamp(item->bought, "2021-05-17~");
	assert_stamp(item->fitted, "use by 2021-06");
	assert_stamp(item->expires, "before 2025-06");
	assert_int_equal(item->state, PLACE_LANDED);
	assert_string_equal(item->make, "Quorl");
	assert_int_equal(item->capacity, 8);
	assert_string_equal(item->rating, "13A/113B");
	assert_string_equal(item->landed_to, "Raft Loft");
	assert_int_equal(item->landed_on, day_from_civil(2026, 11, 3));
	assert_int_equal(item->hired_until, day_from_civil(2027, 3, 31));
	assert_true(item->parent == ITEM_NO_PARENT);
}

SCRATCH_TEST(a_change_keeps_what_it_does_not_name)
{
	const struct item_change first = {
	    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_MADE |
		   1U << FIELD_PLACE,
	    .tag = "LR-1",
	    .vessel = "Amber Tern",
	    .kind = "liferaft-valise",
	    .made = stamp_of("2020-03"),
	    .place = "locker",
	};
	const struct item_change second = {
	    .set = 1U << FIELD_PLACE, .tag = "LR-1", .place = ""};
	assert_done(
	    scratch, book_put_items(scratch->book, &first, 1, NULL, &scratch->fault));
	assert_done(
	    scratch, book_put_items(scratch->book, &second, 1, NULL, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *item = scratch_item(&contents, "LR-1");
	assert_int_equal(contents.inventory.item_count, 1);
	assert_stamp(item->made, "2020-03");
	assert_string_equal(item->place, "");
	assert_int_equal(item->quantity, 1);
	assert_int_equal(item->price_minor, -1);
	assert_int_equal(item->state, PLACE_ABOARD);
	assert_stamp(item->expires, "");
}

SCRATCH_TEST(items_come_by_vessel_and_then_as_a_person_sorts_tags)
{
	static const struct {
		const char *vessel;
		const char *tag;
	} ROWS[] = {{"Zinnia", "LR-1"}, {"Amber Tern", "LR-10"}, {"Amber Tern", "LR-2"},
	    {"Zinnia", "A-1"}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct item_change change = {
		    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND,
		    .tag = ROWS[i].tag,
		    .vessel = ROWS[i].vessel,
		    .kind = "plb",
		};
		assert_done(scratch,
		    book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
	}
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *items = contents.inventory.items;
	assert_string_equal(items[0].tag, "LR-2");
	assert_string_equal(items[1].tag, "LR-10");
	assert_string_equal(items[2].tag, "A-1");
	assert_string_equal(items[3].tag, "LR-1");
	assert_string_equal(
	    contents.inventory.vessels[items[0].vessel].name, "Amber Tern");
	assert_string_equal(contents.inventory.vessels[items[3].vessel].name, "Zinnia");

	SCOPED_CONTENTS one = {0};
	assert_done(
	    scratch, book_load(scratch->book, "Zinnia", true, &one, &scratch->fault));
	assert_int_equal(one.inventory.vessel_count, 1);
	assert_int_equal(one.inventory.item_count, 2);
	assert_string_equal(one.inventory.items[1].tag, "LR-1");
	assert_int_equal(one.inventory.items[1].vessel, 0);

	SCOPED_CONTENTS none = {0};
	assert_false(book_load(scratch->book, "Nowhere", true, &none, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "no vessel \"Nowhere\"");
}

static struct item_change
part(const char *tag, const char *part_of)
{
	return (struct item_change){
	    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_PART_OF,
	    .tag = tag,
	    .vessel = "Amber Tern",
	    .kind = "gas-cylinder",
	    .part_of = part_of,
	};
}

SCRATCH_TEST(a_part_finds_its_parent_even_when_that_is_written_later)
{
	const struct item_change batch[] = {
	    part("CY-1", "LJ-1"), part("LJ-1", ""), part("CY-2", "LJ-1")};
	assert_done(
	    scratch, book_put_items(scratch->book, batch, 3, NULL, &scratch->fault));

	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item *items = contents.inventory.items;
	assert_string_equal(items[scratch_item(&contents, "CY-1")->parent].tag, "LJ-1");
	assert_string_equal(items[scratch_item(&contents, "CY-2")->parent].tag, "LJ-1");
	assert_true(scratch_item(&contents, "LJ-1")->parent == ITEM_NO_PARENT);
}

SCRATCH_TEST(an_act_that_would_leave_a_part_of_withdrawn_gear_is_refused)
{
	const struct item_change batch[] = {part("LJ-1", ""), part("CY-1", "LJ-1")};
	const struct item_change gone = {
	    .set = 1U << FIELD_STATE, .tag = "LJ-1", .state = PLACE_WITHDRAWN};
	assert_done(
	    scratch, book_put_items(scratch->book, batch, 2, NULL, &scratch->fault));
	assert_false(book_put_items(scratch->book, &gone, 1, NULL, &scratch->fault));
	assert_non_null(
	    strstr(scratch->fault.text, "CY-1 is a part of LJ-1, which was withdrawn"));

	SCOPED_CONTENTS all = scratch_load(scratch);
	assert_int_equal(scratch_item(&all, "LJ-1")->state, PLACE_ABOARD);
	assert_int_equal(scratch_item(&all, "CY-1")->parent, 1);
}

/* Tries a batch that must fail, at the item told, and leave no trace. */
static void
assert_refused(struct scratch *scratch, const struct item_change *batch, size_t count,
    size_t at, const char *words)
{
	size_t index = 99;
	assert_false(
	    book_put_items(scratch->book, batch, count, &index, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, words);
	assert_int_equal(index, at);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.item_count, 0);
	assert_int_equal(contents.inventory.vessel_count, 0);
}

SCRATCH_TEST(a_batch_with_one_bad_item_leaves_nothing_behind)
{
	const struct item_change unknown[] = {part("A", ""), part("B", "NONE")};
	assert_refused(
	    scratch, unknown, 2, 1, "no item in the book has the tag \"NONE\"");
	const struct item_change itself[] = {part("A", ""), part("B", "B")};
	assert_refused(scratch, itself, 2, 1, "the item itself");
	const struct item_change loop[] = {
	    part("A", "C"), part("B", "A"), part("C", "B"), part("D", "")};
	assert_refused(scratch, loop, 4, 0, "loop");
	const struct item_change into_loop[] = {
	    part("D", ""), part("A", "B"), part("B", "C"), part("C", "B")};
	assert_refused(scratch, into_loop, 4, 1, "loop");

	struct item_change bad[] = {part("A", ""), part("B", ""), part("C", "")};
	bad[1].set = 1U << FIELD_KIND;
	assert_refused(scratch, bad, 3, 1, "needs a vessel");
	bad[1].set = 1U << FIELD_VESSEL;
	assert_refused(scratch, bad, 3, 1, "needs a kind");
	bad[1] = part("B", "");
	bad[1].set |= 1U << FIELD_QUANTITY;
	assert_refused(scratch, bad, 3, 1, "quantity is 0");
	bad[1] = part(" ", "");
	assert_refused(scratch, bad, 3, 1, "the tag is blank");
	bad[1] = part("B", "");
	bad[1].set |= 1U << FIELD_NOTES;
	bad[1].notes = "caf\xe9";
	assert_refused(scratch, bad, 3, 1, "not valid UTF-8");
	bad[1] = part("B\nC", "");
	assert_refused(scratch, bad, 3, 1, "control character");
}

SCRATCH_TEST(a_transaction_of_which_a_part_failed_writes_nothing)
{
	const struct item_change bad[] = {part("X", ""), part("Y", "NONE")};
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-1");
	assert_false(book_put_items(scratch->book, bad, 2, NULL, &scratch->fault));
	assert_false(book_commit(scratch->book, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "a part of the change failed");
	book_rollback(scratch->book);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.item_count, 0);
	/* the next one is not held to it */
	scratch_put(scratch, "LR-2");
}

SCRATCH_TEST(a_rolled_back_transaction_never_happened)
{
	char identity[33];
	(void)snprintf(identity, sizeof identity, "%s", book_identity(scratch->book));
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-1");
	assert_done(scratch, book_set_identity(scratch->book,
				 "00112233445566778899aabbccddeeff", &scratch->fault));
	book_rollback(scratch->book);
	assert_string_equal(book_identity(scratch->book), identity);

	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	scratch_put(scratch, "LR-2");
	scratch_reopen(scratch, BOOK_WRITE);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.item_count, 0);
}

SCRATCH_TEST(vessels_and_stations_refuse_what_makes_no_sense)
{
	const struct odd_winter backwards = {
	    2026, {day_of("2027-03-01"), day_of("2026-11-01")}};
	struct vessel_change vessel = {.name = "Amber Tern",
	    .set = 1U << VESSEL_WINTERS,
	    .odd_winters = &backwards,
	    .odd_winter_count = 1};
	assert_false(book_put_vessel(scratch->book, &vessel, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "winter 2026 ends before it starts");
	vessel.odd_winter_count = 0;
	vessel.set = 1U << VESSEL_PERSONS;
	vessel.persons = -1;
	assert_false(book_put_vessel(scratch->book, &vessel, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "persons is -1");
	const struct station_change station = {
	    .name = "Loft", .set = 1U << STATION_TURN_ROUND, .turn_round_days = -3};
	assert_false(book_put_station(scratch->book, &station, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "turn-round is -3");

	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_int_equal(contents.inventory.vessel_count, 0);
	assert_int_equal(contents.station_count, 0);
}

SCRATCH_TEST(the_currency_is_three_capital_letters)
{
	assert_false(book_set_currency(scratch->book, "eur", &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "expected three capital letters");
	assert_done(scratch, book_set_currency(scratch->book, "SEK", &scratch->fault));
	SCOPED_CONTENTS contents = scratch_load(scratch);
	assert_string_equal(contents.inventory.currency, "SEK");
}

RUN_TESTS(NULL, NULL)
