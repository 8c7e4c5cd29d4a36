/* The answers as JSON: the fixed keys, and what stands in them. Read back with jansson. */
#include "exchange/answers.h"

#include "base/spool.h"
#include "becket_test.h"
#include "exchange/json_object.h"
#include "report/report.h"

#include <jansson.h>
#include <string.h>

/* 2026-11-25, read off a calendar: 20782 days after 1970-01-01 (56 years of 365 days, 14
 * leap days from 1972 to 2024, and 328 days before 25 November). */
enum { DAY = 20782 };

static const struct vessel VESSELS[] = {{.name = "Quillfish", .base = ""}};

static const struct record RECORDS[] = {{
    .task = TASK_SERVICE,
    .on = {.year = 2024, .month = 11, .precision = STAMP_MONTH},
    .station = "Loft",
    .certificate = "",
    .price_minor = -1,
}};

static const struct event EVENTS[] = {{.kind = EVENT_FIRED, .on = DAY}};

static const struct extension EXTENSIONS[] = {
    {.task = TASK_SERVICE, .until = DAY, .paper = "P-1"}};

static const struct item ITEMS[] = {
    {
	.tag = "LR-1",
	.kind = "liferaft-canister",
	.description = "six \"persons\"",
	.serial = "",
	.place = "cradle",
	.notes = "two\nlines",
	.quantity = 1,
	.price_minor = 215000,
	.made = {.year = 2018, .month = 6, .precision = STAMP_MONTH},
	.expires = {.year = 2027,
	    .month = 6,
	    .precision = STAMP_MONTH,
	    .wording = WORDING_BEFORE},
	.parent = ITEM_NO_PARENT,
	.records = RECORDS,
	.record_count = 1,
	.events = EVENTS,
	.event_count = 1,
	.extensions = EXTENSIONS,
	.extension_count = 1,
    },
    {.tag = "RC-1", .kind = "raft-contents", .quantity = 1, .price_minor = -1},
};

static const struct inventory BOOK = {VESSELS, 1, ITEMS, 2, "EUR"};

static const struct shore_line LINE = {
    .task = TASK_SERVICE,
    .due = DAY,
    .not_before = DAY_NONE,
    .not_after = DAY,
    .due_again = DAY_NONE,
    .carries = true,
    .price_minor = 31000,
    .what = "hand in, \"please\"",
    .why = "",
    .first_possible = DAY_NONE,
};

/* Reads one answer back. */
static json_t *
parsed(const struct text *out)
{
	json_error_t error;
	json_t *value = json_loads(text_string(out), JSON_REJECT_DUPLICATES, &error);
	if (value == NULL) {
		fail_msg("%s in: %s", error.text, text_string(out));
	}
	assert_int_equal(out->bytes[out->length - 1], '\n');
	return value;
}

static const char *
string_at(const json_t *object, const char *key)
{
	const json_t *value = json_object_get(object, key);
	if (!json_is_string(value)) {
		fail_msg("%s is no string", key);
	}
	return json_string_value(value);
}

static json_int_t
number_at(const json_t *object, const char *key)
{
	const json_t *value = json_object_get(object, key);
	if (!json_is_integer(value)) {
		fail_msg("%s is no number", key);
	}
	return json_integer_value(value);
}

static void
assert_null_at(const json_t *object, const char *key)
{
	if (!json_is_null(json_object_get(object, key))) {
		fail_msg("%s is not null", key);
	}
}

static const json_t *
first_of(const json_t *object, const char *key)
{
	const json_t *array = json_object_get(object, key);
	if (json_array_size(array) != 1) {
		fail_msg("%s has %zu elements", key, json_array_size(array));
	}
	return json_array_get(array, 0);
}

/* What is due, kept and written in one run. */
static void
write_due(const struct agenda_row *rows, size_t count, struct text *out)
{
	SCOPED_RUNS kept = {0};
	struct fault fault = {0};
	answer_due_keep(&BOOK, rows, count, &kept);
	assert_true(answer_kept(&kept, out, &fault));
}

TEST(due_has_its_keys_and_null_for_what_is_not_known)
{
	const struct agenda_row rows[] = {
	    {.task = TASK_SERVICE,
		.state = STATE_OVERDUE,
		.due = DAY,
		.good_through = DAY,
		.grade = GRADE_MAKER,
		.doer = DOER_STATION,
		.rule = "raft-service",
		.sheet = "practice",
		.clock = ANCHOR_LAST,
		.winter = 2026,
		.missing = ""},
	    {.item = 1,
		.task = TASK_RENEW,
		.state = STATE_DATE_UNKNOWN,
		.due = DAY_NONE,
		.good_through = DAY_NONE,
		.rule = "",
		.sheet = "",
		.routine = true,
		.missing = "made"},
	};
	SCOPED_TEXT out = {0};
	write_due(rows, 2, &out);
	json_t *value = parsed(&out);
	assert_int_equal(json_array_size(value), 2);
	const json_t *row = json_array_get(value, 0);
	assert_string_equal(string_at(row, "vessel"), "Quillfish");
	assert_string_equal(string_at(row, "tag"), "LR-1");
	assert_string_equal(string_at(row, "kind"), "liferaft-canister");
	assert_string_equal(string_at(row, "task"), "service");
	assert_string_equal(string_at(row, "due"), "2026-11-25");
	assert_string_equal(string_at(row, "state"), "overdue");
	assert_string_equal(string_at(row, "grade"), "maker");
	assert_string_equal(string_at(row, "doer"), "station");
	assert_string_equal(string_at(row, "rule"), "raft-service");
	assert_string_equal(string_at(row, "clock"), "last");
	assert_int_equal(number_at(row, "winter"), 2026);
	assert_true(json_is_false(json_object_get(row, "routine")));
	row = json_array_get(value, 1);
	assert_null_at(row, "due");
	assert_null_at(row, "rule");
	assert_null_at(row, "clock");
	assert_null_at(row, "winter");
	assert_null_at(row, "sheet");
	assert_string_equal(string_at(row, "missing"), "made");
	assert_true(json_is_true(json_object_get(row, "routine")));
	json_decref(value);
}

TEST(no_rows_are_an_empty_array)
{
	SCOPED_TEXT out = {0};
	write_due(NULL, 0, &out);
	assert_string_equal(text_string(&out), "[]\n");
}

TEST(why_has_every_clock_with_its_interval_in_words)
{
	const struct rule rule = {.sheet = "practice"};
	const struct reading readings[] = {
	    {.rule = &rule,
		.rule_id = "raft-service",
		.anchor = ANCHOR_LAST,
		.from = DAY - 10,
		.months = 24,
		.due = DAY,
		.good_through = DAY,
		.binds = true,
		.source = "common practice",
		.asks = ""},
	    {.rule_id = "label",
		.state = READING_NOT_KNOWN,
		.anchor = ANCHOR_MARKED,
		.from = DAY_NONE,
		.days = 1,
		.due = DAY_NONE,
		.good_through = DAY_NONE,
		.source = "",
		.asks = "expires"},
	};
	const struct obligation obligation = {.task = TASK_SERVICE,
	    .due = DAY,
	    .good_through = DAY_NEVER,
	    .binding = &readings[0],
	    .readings = readings,
	    .reading_count = 2};
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	struct rulebook *book = NULL;
	assert_true(rulebook_new(NULL, 0, &book, &fault));
	const struct rulebook *books[] = {book};
	const struct due_engine engine = {.inventory = &BOOK, .rulebooks = books};
	answer_why(&engine, DAY, 0, &obligation, 1, &out);
	rulebook_free(book);
	json_t *value = parsed(&out);
	assert_string_equal(string_at(value, "tag"), "LR-1");
	const json_t *task = first_of(value, "tasks");
	assert_string_equal(string_at(task, "binds"), "raft-service");
	assert_string_equal(string_at(task, "state"), "in-date");
	assert_null_at(task, "good_through");
	const json_t *clocks = json_object_get(task, "clocks");
	assert_int_equal(json_array_size(clocks), 2);
	const json_t *clock = json_array_get(clocks, 0);
	assert_string_equal(string_at(clock, "rule"), "raft-service");
	assert_string_equal(string_at(clock, "anchor"), "last");
	assert_string_equal(string_at(clock, "from"), "2026-11-15");
	assert_string_equal(string_at(clock, "interval"), "24 months");
	assert_string_equal(string_at(clock, "due"), "2026-11-25");
	assert_true(json_is_true(json_object_get(clock, "binds")));
	assert_string_equal(string_at(clock, "grade"), "law");
	assert_string_equal(string_at(clock, "source"), "common practice");
	assert_string_equal(string_at(clock, "sheet"), "practice");
	clock = json_array_get(clocks, 1);
	assert_string_equal(string_at(clock, "interval"), "1 day");
	assert_string_equal(string_at(clock, "state"), "not-known");
	assert_string_equal(string_at(clock, "missing"), "expires");
	assert_null_at(clock, "from");
	json_decref(value);
}

/* A shore list with the same line in every part. */
static void
fill_list(struct shore_list *list, struct shore_line *lines, struct trip *trip)
{
	struct shore_lines one = {lines, 1, 1};
	*trip = (struct trip){.name = "Loft",
	    .hand_in = DAY,
	    .earliest = DAY_NONE,
	    .ready = DAY + 5,
	    .collect = DAY + 5,
	    .lines = one};
	*list = (struct shore_list){
	    .has_winter = true,
	    .winter = {.year = 2026, .lay_up = DAY - 24, .fitting_out = DAY + 126},
	    .hand_in = {trip, 1, 1},
	    .self = one,
	    .buy = one,
	    .paperwork = one,
	    .dispose = one,
	    .waits = one,
	    .cannot = one,
	    .now = one,
	    .routines = one,
	    .cost_minor = 62000,
	    .unpriced = 3,
	};
}

static void
write_winter(const struct shore_list *list, struct text *out)
{
	struct inventory book = BOOK;
	struct fault fault = {0};
	SCOPED_RUNS kept = {0};
	book.currency = "EUR";
	answer_winter_keep(&book, NULL, list, 1, &kept);
	assert_true(answer_kept(&kept, out, &fault));
}

TEST(winter_has_its_six_parts_and_what_cannot_be_done)
{
	struct shore_line lines[] = {LINE};
	struct trip trip;
	struct shore_list list;
	fill_list(&list, lines, &trip);
	lines[0].winter = 2027;
	lines[0].why = "shut";
	SCOPED_TEXT out = {0};
	write_winter(&list, &out);
	json_t *value = parsed(&out);
	const json_t *object = json_array_get(value, 0);
	assert_string_equal(string_at(object, "vessel"), "Quillfish");
	assert_int_equal(number_at(object, "winter"), 2026);
	assert_string_equal(string_at(object, "lay_up"), "2026-11-01");
	assert_string_equal(string_at(object, "fitting_out"), "2027-03-31");
	const json_t *handed = first_of(object, "hand_in");
	assert_string_equal(string_at(handed, "station"), "Loft");
	assert_string_equal(string_at(handed, "hand_in"), "2026-11-25");
	assert_string_equal(string_at(handed, "collect"), "2026-11-30");
	const json_t *line = first_of(handed, "items");
	assert_string_equal(string_at(line, "tag"), "LR-1");
	assert_string_equal(string_at(line, "task"), "service");
	assert_string_equal(string_at(line, "due"), "2026-11-25");
	assert_null_at(line, "not_before");
	assert_string_equal(string_at(line, "not_after"), "2026-11-25");
	assert_int_equal(number_at(line, "price"), 31000);
	static const char *const PARTS[] = {
	    "self", "buy", "paperwork", "dispose", "now", "routines"};
	for (size_t i = 0; i < sizeof PARTS / sizeof PARTS[0]; i++) {
		assert_int_equal(number_at(first_of(object, PARTS[i]), "price"), 31000);
	}
	assert_int_equal(number_at(first_of(object, "waits"), "winter"), 2027);
	assert_string_equal(string_at(first_of(object, "cannot"), "why"), "shut");
	assert_null_at(first_of(object, "cannot"), "first_possible");
	const json_t *cost = json_object_get(object, "cost");
	assert_string_equal(string_at(cost, "currency"), "EUR");
	assert_int_equal(number_at(cost, "minor"), 62000);
	json_decref(value);
}

TEST(a_boat_without_a_winter_has_null_for_it)
{
	const struct shore_list list = {0};
	SCOPED_TEXT out = {0};
	write_winter(&list, &out);
	json_t *value = parsed(&out);
	const json_t *object = json_array_get(value, 0);
	assert_null_at(object, "winter");
	assert_null_at(object, "lay_up");
	assert_null_at(object, "fitting_out");
	assert_int_equal(json_array_size(json_object_get(object, "hand_in")), 0);
	json_decref(value);
}

TEST(show_has_the_item_with_what_is_on_record)
{
	SCOPED_TEXT out = {0};
	answer_show(&BOOK, 0, NULL, 0, &out);
	json_t *value = parsed(&out);
	assert_string_equal(string_at(value, "description"), "six \"persons\"");
	assert_string_equal(string_at(value, "notes"), "two\nlines");
	assert_string_equal(string_at(value, "made"), "2018-06-01");
	assert_string_equal(string_at(value, "made_as_written"), "2018-06");
	assert_string_equal(string_at(value, "expires"), "2027-05-31");
	assert_string_equal(string_at(value, "expires_as_written"), "before 2027-06");
	assert_null_at(value, "packed");
	assert_null_at(value, "part_of");
	assert_string_equal(string_at(first_of(value, "records"), "on"), "2024-11-01");
	assert_string_equal(string_at(first_of(value, "events"), "event"), "fired");
	assert_string_equal(string_at(first_of(value, "extensions"), "paper"), "P-1");
	json_decref(value);
}

TEST(list_has_one_object_an_item_and_names_parents)
{
	struct item items[2] = {ITEMS[0], ITEMS[1]};
	items[1].parent = 0;
	const struct inventory book = {VESSELS, 1, items, 2, "EUR"};
	const size_t which[] = {1, 0};
	SCOPED_TEXT out = {0};
	struct answer answer = {.out = &out};
	answer_list_some(&answer, &book, which, 2);
	answer_end(&answer);
	json_t *value = parsed(&out);
	const json_t *part = json_array_get(value, 0);
	assert_string_equal(string_at(part, "part_of"), "LR-1");
	assert_null_at(part, "price");
	assert_int_equal(number_at(json_array_get(value, 1), "price"), 215000);
	json_decref(value);
}

TEST(boats_and_stations_are_listed_with_their_windows)
{
	const struct period period = {
	    .from = DAY_NONE, .use = USE_COMMERCIAL, .area = "", .persons = 8};
	const char *const sheets[] = {"practice"};
	const struct vessel vessel = {.name = "Amberjay",
	    .base = "",
	    .periods = &period,
	    .period_count = 1,
	    .laid_up = true,
	    .lay_up = {11, 1, 3, 31},
	    .sheets = sheets,
	    .sheet_count = 1};
	const struct inventory book = {.vessels = &vessel, .vessel_count = 1};
	const struct yearly closed = {12, 20, 1, 31};
	const struct station station = {.name = "Loft",
	    .base = "",
	    .turn_round_days = 35,
	    .closed = &closed,
	    .closed_count = 1};
	SCOPED_TEXT out = {0};
	answer_vessels(&book, &out);
	json_t *value = parsed(&out);
	const json_t *object = json_array_get(value, 0);
	assert_string_equal(string_at(object, "lay_up"), "11-01..03-31");
	assert_string_equal(string_at(first_of(object, "periods"), "use"), "commercial");
	assert_null_at(first_of(object, "periods"), "from");
	json_decref(value);
	text_reset(&out);
	answer_stations(&station, 1, &out);
	value = parsed(&out);
	object = json_array_get(value, 0);
	assert_int_equal(number_at(object, "turn_round_days"), 35);
	assert_string_equal(
	    json_string_value(first_of(object, "closed")), "12-20..01-31");
	json_decref(value);
}

/* Every row of the fields' table that is one value has its key, the fields' own but for five that
 * are called otherwise since ever; what was not told is null, and days that are none are 0. */
TEST(every_field_of_a_boat_and_a_station_has_a_key)
{
	const struct period period = {.from = DAY_NONE, .area = ""};
	const struct vessel vessel = {
	    .name = "Amberjay", .base = "", .periods = &period, .period_count = 1};
	const struct inventory book = {.vessels = &vessel, .vessel_count = 1};
	const struct station station = {
	    .name = "Loft", .base = "", .not_before = DAY_NONE};
	static const char *const NULLS[][4] = {{"length_cm", "built", "trips", "left"},
	    {"base", "trip", "carriage", "weekly"}};
	SCOPED_TEXT boats = {0};
	SCOPED_TEXT stations = {0};
	answer_vessels(&book, &boats);
	answer_stations(&station, 1, &stations);
	json_t *values[] = {parsed(&boats), parsed(&stations)};
	for (size_t i = 0; i < VESSEL_FIELD_COUNT; i++) {
		const struct field *field = &VESSEL_FIELDS[i];
		const json_t *object = json_array_get(values[0], 0);
		object = field->timed ? first_of(object, "periods") : object;
		assert_true(field->part ||
			    json_object_get(object,
				field->key == NULL ? field->name : field->key) != NULL);
	}
	for (size_t i = 0; i < STATION_FIELD_COUNT; i++) {
		const struct field *field = &STATION_FIELDS[i];
		assert_true(field->part ||
			    json_object_get(json_array_get(values[1], 0),
				field->key == NULL ? field->name : field->key) != NULL);
	}
	for (size_t i = 0; i < 8; i++) {
		assert_null_at(json_array_get(values[i / 4], 0), NULLS[i / 4][i % 4]);
	}
	const json_t *first = first_of(json_array_get(values[0], 0), "periods");
	assert_null_at(first, "persons");
	assert_null_at(first, "above_freezing");
	assert_int_equal(number_at(json_array_get(values[0], 0), "margin_days"), 0);
	assert_int_equal(number_at(json_array_get(values[1], 0), "turn_round_days"), 0);
	json_decref(values[0]);
	json_decref(values[1]);
}

TEST(the_shore_list_is_written_as_csv)
{
	struct shore_line lines[] = {LINE};
	struct trip trip;
	struct shore_list list;
	fill_list(&list, lines, &trip);
	const struct shore_list one_trip = {.has_winter = true,
	    .winter = list.winter,
	    .hand_in = list.hand_in,
	    .cannot = list.cannot};
	SCOPED_TEXT out = {0};
	report_winters_csv(&BOOK, &one_trip, 1, &out);
	assert_string_equal(text_string(&out),
	    "vessel,winter,part,station,hand_in,collect,tag,kind,task,due,not_before,"
	    "not_after,price,why,standing,earliest\r\n"
	    "Quillfish,2026,hand-in,Loft,2026-11-25,2026-11-30,LR-1,liferaft-canister,"
	    "service,2026-11-25,,2026-11-25,310.00,\"hand in, \"\"please\"\"\",new,\r\n"
	    "Quillfish,2026,cannot,,,,LR-1,liferaft-canister,service,2026-11-25,,"
	    "2026-11-25,310.00,\"hand in, \"\"please\"\"\",,\r\n");
}

static ANSWER_KEYS(
    THREE_KEYS, "a thing", "first: with a meaning", "second", "third: another");

TEST(an_object_has_the_keys_of_its_table_in_their_order)
{
	SCOPED_TEXT out = {0};
	struct json object =
	    JSON_PUT(json_begun(), &THREE_KEYS, JSON_NEXT, json_whole(1), json_words(""));
	answer_value(&out, JSON_PUT(object, &THREE_KEYS, JSON_LAST, json_text("c")));
	assert_string_equal(
	    text_string(&out), "{\"first\": 1, \"second\": null, \"third\": \"c\"}\n");
}

TEST(where_it_is_asked_for_a_key_without_a_value_is_left_out)
{
	SCOPED_TEXT out = {0};
	answer_value(&out, JSON_PUT(json_begun(), &THREE_KEYS, JSON_SOME, json_words(""),
			       json_number(0, 0), json_text("c")));
	assert_string_equal(text_string(&out), "{\"third\": \"c\"}\n");
}

RUN_TESTS(NULL, NULL)
