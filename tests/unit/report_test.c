/* Reports over small structs built by hand; the expected text is laid out by hand. */
#include "report/report.h"

#include "becket_test.h"
#include "blank_item.h"
#include "report/table.h"

#include <stdio.h>
#include <string.h>

static const char CATALOGUE[] = "hazards:\n"
				"  - hazard: pyrotechnic\n"
				"    carry: Keep it dry.\n"
				"    dispose: Never bin it.\n"
				"  - hazard: gas\n"
				"    carry: By hand only.\n"
				"    dispose: Ask the station.\n"
				"kinds:\n"
				"  - id: liferaft-canister\n"
				"    name: canister liferaft\n"
				"    group: Liferafts\n"
				"    hazard: gas\n"
				"    service-ashore: yes\n"
				"  - id: flare-red-hand\n"
				"    name: red hand flare\n"
				"    group: Flares\n"
				"    hazard: pyrotechnic\n"
				"  - id: lifejacket-light\n"
				"    name: lifejacket light\n"
				"    group: Lifejackets\n"
				"  - id: extinguisher-powder\n"
				"    name: powder extinguisher\n"
				"    group: Fire\n";

#define CAUTION_LINES "\n" CAUTION_TEXT

#define CAUTION_TEXT                                                                     \
	"Advice only. The label on the gear, the maker's manual, the station's\n"        \
	"certificate, the local authority and the surveyor decide.\n"

enum { RAFT, FLARES, LIGHT, EXTINGUISHER, OLD_FLARE, ITEM_COUNT };

/* One boat with a few things aboard. */
struct scene {
	struct kinds *kinds;
	struct period period;
	struct vessel vessel;
	struct item items[ITEM_COUNT];
	struct record record;
	struct inventory inventory;
	struct rulebook *rulebook; /* of no sheets */
	const struct rulebook *rulebooks[1];
	struct due_engine engine;
	struct report_style style;
};

static int
set_up(void **state)
{
	static struct scene scene;
	struct fault fault = {0};
	scene =
	    (struct scene){.period = {.from = DAY_NONE, .use = USE_PRIVATE, .area = ""},
		.style = {.today = day_from_civil(2026, 11, 25), .currency = "EUR"}};
	assert_true(kinds_read(
	    "catalogue", CATALOGUE, sizeof CATALOGUE - 1, &scene.kinds, &fault));
	scene.vessel = (struct vessel){.name = "Meltemi",
	    .base = "North quay",
	    .periods = &scene.period,
	    .period_count = 1,
	    .laid_up = true,
	    .lay_up = {11, 1, 3, 31}};
	scene.items[RAFT] = blank_item("LR-1", "liferaft-canister");
	scene.items[FLARES] = blank_item("FL-1", "flare-red-hand");
	scene.items[FLARES].quantity = 4;
	scene.items[LIGHT] = blank_item("LL-1", "lifejacket-light");
	scene.items[LIGHT].description = "φωτάκι 救命";
	scene.items[EXTINGUISHER] = blank_item("EX-1", "extinguisher-powder");
	scene.items[OLD_FLARE] = blank_item("FL-9", "flare-red-hand");
	scene.record = (struct record){.task = TASK_SERVICE,
	    .on = stamp_of_day(day_from_civil(2024, 5, 20)),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	scene.items[RAFT].records = &scene.record;
	scene.items[RAFT].record_count = 1;
	scene.inventory =
	    (struct inventory){&scene.vessel, 1, scene.items, ITEM_COUNT, "EUR"};
	assert_true(rulebook_new(NULL, 0, &scene.rulebook, &fault));
	scene.rulebooks[0] = scene.rulebook;
	scene.engine = (struct due_engine){.kinds = scene.kinds,
	    .rulebooks = scene.rulebooks,
	    .inventory = &scene.inventory};
	*state = &scene;
	return 0;
}

static int
tear_down(void **state)
{
	struct scene *scene = *state;
	rulebook_free(scene->rulebook);
	kinds_free(scene->kinds);
	return 0;
}

#define PREPARED_TEST(name) TEST_OF(struct scene, scene, name, set_up, tear_down)

static void
assert_fits_the_page(const char *text)
{
	while (*text != '\0') {
		char line[1024];
		size_t length = strcspn(text, "\n");
		assert_true(length < sizeof line);
		memcpy(line, text, length);
		line[length] = '\0';
		assert_true(utf8_columns(line) <= PAGE_COLUMNS);
		text += length + (text[length] == '\n');
	}
}

static size_t
count_lines(const char *text)
{
	size_t lines = 0;
	for (; *text != '\0'; text++) {
		lines += *text == '\n';
	}
	return lines;
}

/* ---- due ---- */

static struct agenda_row
row_of(size_t item, enum task task, enum state state, day_t due)
{
	return (struct agenda_row){.item = item,
	    .task = task,
	    .state = state,
	    .due = due,
	    .good_through = due,
	    .rule = "",
	    .sheet = "",
	    .missing = ""};
}

/* The whole report of what is due, of rows that are not limited to a day. */
static void
tell_due(struct scene *scene, const struct agenda_row *rows, size_t count, bool routine,
    struct text *out)
{
	struct due_report report = {.style = &scene->style,
	    .kinds = scene->kinds,
	    .routine = routine,
	    .out = out};
	report_due_some(&report, &scene->inventory, rows, count);
	report_due_end(&report, &(struct due_shown){0});
}

PREPARED_TEST(due_is_a_table_a_vessel_in_plain_words)
{
	struct agenda_row rows[4] = {
	    row_of(RAFT, TASK_SERVICE, STATE_OVERDUE, day_from_civil(2026, 5, 20)),
	    row_of(LIGHT, TASK_RENEW, STATE_DATE_UNKNOWN, DAY_NONE),
	    row_of(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 6, 30)),
	    row_of(
		EXTINGUISHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2026, 12, 1))};
	rows[1].missing = "made";
	rows[3].routine = true;
	scene->items[LIGHT].description = "";
	SCOPED_TEXT out = {0};
	tell_due(scene, rows, 4, false, &out);
	assert_string_equal(text_string(&out),
	    "What is due, as seen on 25 Nov 2026.\n"
	    "\n"
	    "Meltemi\n"
	    "Tag   What                Task     Due          State\n"
	    "----  ------------------  -------  -----------  -------------------------\n"
	    "LR-1  canister liferaft   service  20 May 2026  overdue since 21 May 2026\n"
	    "LL-1  lifejacket light    renew    not known    date unknown: enter the\n"
	    "                                                made date\n"
	    "FL-1  4 x red hand flare  renew    30 Jun 2027  in date\n"
	    "\n"
	    "1 overdue, 1 date unknown, 1 in date. 1 routine task not shown.\n" CAUTION_LINES);
}

PREPARED_TEST(due_says_so_when_there_is_nothing)
{
	SCOPED_TEXT out = {0};
	tell_due(scene, NULL, 0, true, &out);
	assert_string_equal(text_string(&out),
	    "What is due, as seen on 25 Nov 2026.\nNothing is due.\n" CAUTION_LINES);
}

PREPARED_TEST(past_due_inside_its_window_is_in_date_until_the_windows_end)
{
	struct agenda_row row =
	    row_of(RAFT, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2026, 11, 20));
	row.good_through = day_from_civil(2027, 2, 20);
	SCOPED_TEXT out = {0};
	tell_due(scene, &row, 1, false, &out);
	assert_non_null(strstr(text_string(&out), "in date until 20 Feb 2027\n"));
	row.state = STATE_OVERDUE;
	row.good_through = day_from_civil(2026, 11, 24);
	text_reset(&out);
	tell_due(scene, &row, 1, false, &out);
	assert_non_null(strstr(text_string(&out), "overdue since 25 Nov 2026\n"));
}

PREPARED_TEST(expired_and_life_expired_are_kept_apart_from_overdue)
{
	struct agenda_row rows[2] = {
	    row_of(FLARES, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 6, 30)),
	    row_of(LIGHT, TASK_RENEW, STATE_LIFE_EXPIRED, day_from_civil(2026, 7, 31))};
	SCOPED_TEXT out = {0};
	tell_due(scene, rows, 2, false, &out);
	assert_non_null(strstr(text_string(&out), "30 Jun 2026  expired\n"));
	assert_non_null(strstr(text_string(&out), "31 Jul 2026  life-expired\n"));
	assert_non_null(strstr(text_string(&out), "\n1 expired, 1 life-expired.\n"));
	assert_fits_the_page(text_string(&out));
}

/* What is in date and does not work is not summed as in date. */
PREPARED_TEST(what_does_not_work_is_said_and_counted_apart)
{
	struct agenda_row rows[3] = {
	    row_of(RAFT, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 6, 30)),
	    row_of(FLARES, TASK_RENEW, STATE_IN_DATE, DAY_NONE),
	    row_of(
		EXTINGUISHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 7, 31))};
	for (size_t i = 0; i < 2; i++) {
		rows[i].trouble = i == 0 ? PART_GONE : PART_LANDED;
		rows[i].not_working = "P-1";
	}
	rows[1].no_task = true;
	SCOPED_TEXT out = {0};
	tell_due(scene, rows, 3, false, &out);
	const char *text = text_string(&out);
	assert_non_null(strstr(text, "service  30 Jun 2027  does not work\n"));
	assert_non_null(strstr(text, "         none         does not work\n"));
	assert_non_null(strstr(text, "inspect  31 Jul 2027  in date\n"));
	assert_non_null(strstr(text, "\n1 in date, 2 of what does not work.\n"));
	text_reset(&out);
	tell_due(scene, rows, 2, false, &out);
	assert_non_null(
	    strstr(text_string(&out), "\n2 of what does not work.\n" CAUTION_LINES));
}

PREPARED_TEST(gear_in_reserve_is_marked_and_counted_apart)
{
	struct agenda_row rows[2] = {
	    row_of(OLD_FLARE, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 6, 30)),
	    row_of(FLARES, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 7, 31))};
	scene->items[OLD_FLARE].state = PLACE_RESERVE;
	SCOPED_TEXT out = {0};
	tell_due(scene, rows, 2, false, &out);
	assert_non_null(strstr(text_string(&out), "30 Jun 2026  in reserve; expired\n"));
	assert_non_null(strstr(text_string(&out), "31 Jul 2026  expired\n"));
	assert_non_null(
	    strstr(text_string(&out), "\n1 expired; 1 in reserve, not counted.\n"));
	text_reset(&out);
	tell_due(scene, rows, 1, false, &out);
	assert_non_null(strstr(text_string(&out), "\n1 in reserve, not counted.\n"));
	assert_null(strstr(text_string(&out), "Nothing is due"));
}

/* ---- why ---- */

PREPARED_TEST(why_tells_binding_losing_and_unknown_clocks_apart)
{
	struct rule again = {.id = "raft-service",
	    .sheet = "practice",
	    .what = "hand in for service",
	    .source = "common practice",
	    .standing = STANDING_COMMON_PRACTICE};
	struct rule first = again;
	first.id = "raft-first";
	struct reading readings[3] = {
	    {.rule_id = "certificate",
		.state = READING_RUNS,
		.anchor = ANCHOR_CERTIFICATE,
		.stamp = {.year = 2027, .month = 5, .precision = STAMP_MONTH},
		.due = day_from_civil(2027, 5, 31),
		.good_through = day_from_civil(2027, 5, 31),
		.in_force = spans_always(),
		.paper_allows_longer = true,
		.grade = GRADE_MAKER,
		.source = "the paper of the last record",
		.asks = ""},
	    {.rule = &first,
		.rule_id = first.id,
		.state = READING_NOT_KNOWN,
		.anchor = ANCHOR_PACKED,
		.from = DAY_NONE,
		.months = 36,
		.due = DAY_NONE,
		.good_through = DAY_NONE,
		.in_force = spans_always(),
		.grade = GRADE_PRACTICE,
		.source = first.source,
		.asks = "packed"},
	    {.rule = &again,
		.rule_id = again.id,
		.state = READING_RUNS,
		.anchor = ANCHOR_LAST,
		.stamp = scene->record.on,
		.from = day_from_civil(2024, 5, 20),
		.months = 24,
		.due = day_from_civil(2026, 5, 20),
		.good_through = day_from_civil(2026, 5, 20),
		.in_force = spans_always(),
		.binds = true,
		.grade = GRADE_PRACTICE,
		.source = again.source,
		.asks = ""}};
	struct obligation obligation = {.item = RAFT,
	    .task = TASK_SERVICE,
	    .state = STATE_OVERDUE,
	    .due = day_from_civil(2026, 5, 20),
	    .good_through = day_from_civil(2026, 5, 20),
	    .grade = GRADE_PRACTICE,
	    .doer = DOER_STATION,
	    .binding = &readings[2],
	    .readings = readings,
	    .reading_count = 3};
	SCOPED_TEXT out = {0};
	report_why(&scene->style, &scene->engine, RAFT, &obligation, 1, &out);
	assert_string_equal(text_string(&out),
	    "LR-1: canister liferaft, on Meltemi, as seen on 25 Nov 2026.\n"
	    "Known: last service 20 May 2024.\n"
	    "\n"
	    "Service: due 20 May 2026, overdue since 21 May 2026. Who may do it: station. To\n"
	    "  do: hand in for service.\n"
	    "  Binds      24 months from the last service on 20 May 2024 -> 20 May 2026.\n"
	    "             Source: common practice; rule raft-service of sheet practice, grade\n"
	    "             practice.\n"
	    "  Also runs  The next date on the paper of the last service, May 2027 ->\n"
	    "             31 May 2027. The paper allows longer; the rule binds. Source: the\n"
	    "             paper of the last record; grade maker.\n"
	    "  Not known  36 months from packing, which is not known: enter the packed date\n"
	    "             (column packed). Until that is known it decides nothing here.\n"
	    "             Source: common practice; rule raft-first of sheet practice, grade\n"
	    "             practice.\n" CAUTION_LINES);
}

/* The raft of the worked example: 36 months privately, 12 once she is chartered. */
PREPARED_TEST(why_says_when_a_rule_comes_into_force)
{
	struct span charter = {day_from_civil(2027, 6, 1), day_from_civil(2027, 9, 30)};
	struct rule rule = {.id = "raft-charter",
	    .sheet = "practice",
	    .what = "",
	    .source = "a made-up clause 7",
	    .standing = STANDING_RELAYED,
	    .window = {.early_months = 1, .late_months = 0, .next = NEXT_FROM_DUE},
	    .extension_months = 5};
	struct reading reading = {.rule = &rule,
	    .rule_id = rule.id,
	    .state = READING_RUNS,
	    .anchor = ANCHOR_LAST,
	    .stamp = stamp_of_day(day_from_civil(2026, 5, 20)),
	    .from = day_from_civil(2026, 5, 20),
	    .months = 12,
	    .due = day_from_civil(2027, 5, 20),
	    .good_through = day_from_civil(2027, 5, 20),
	    .in_force = {&charter, 1},
	    .binds = true,
	    .source = rule.source,
	    .asks = ""};
	struct obligation obligation = {.item = RAFT,
	    .task = TASK_SERVICE,
	    .due = day_from_civil(2027, 5, 31),
	    .good_through = day_from_civil(2027, 5, 31),
	    .binding = &reading,
	    .readings = &reading,
	    .reading_count = 1};
	SCOPED_TEXT out = {0};
	report_why(&scene->style, &scene->engine, RAFT, &obligation, 1, &out);
	const char *text = text_string(&out);
	assert_non_null(strstr(text, "Service: due 31 May 2027, in date."));
	assert_non_null(strstr(text,
	    "  Binds  12 months from the last service on 20 May 2026 -> 20 May 2027. In force\n"
	    "         from 1 Jun 2027 to 30 Sep 2027. The rule holds only then, so it is good\n"
	    "         through 31 May 2027. It may be done up to 1 month early and keeps its\n"
	    "         anniversary. An authority may extend it by up to 5 months. Source: a\n"
	    "         made-up clause 7 (relayed); rule raft-charter of sheet practice, grade\n"
	    "         law.\n"));
}

PREPARED_TEST(why_shows_an_extension_with_its_paper_and_a_coarse_estimate)
{
	struct extension extension = {.task = TASK_SERVICE,
	    .until = day_from_civil(2027, 6, 1),
	    .paper = "MA 12/26"};
	struct rule rule = {.id = "r",
	    .sheet = "s",
	    .what = "",
	    .source = "x",
	    .standing = STANDING_READ,
	    .extension_months = 5};
	struct reading reading = {.rule = &rule,
	    .rule_id = "r",
	    .state = READING_RUNS,
	    .anchor = ANCHOR_MADE,
	    .stamp = {.year = 2026, .precision = STAMP_YEAR, .estimated = true},
	    .from = day_from_civil(2026, 1, 1),
	    .months = 12,
	    .due = day_from_civil(2027, 1, 1),
	    .good_through = day_from_civil(2027, 6, 1),
	    .in_force = spans_always(),
	    .binds = true,
	    .extension = &extension,
	    .source = "x",
	    .asks = ""};
	struct obligation obligation = {.item = RAFT,
	    .task = TASK_SERVICE,
	    .due = day_from_civil(2027, 1, 1),
	    .good_through = day_from_civil(2027, 6, 1),
	    .binding = &reading,
	    .readings = &reading,
	    .reading_count = 1};
	SCOPED_TEXT out = {0};
	report_why(&scene->style, &scene->engine, RAFT, &obligation, 1, &out);
	assert_non_null(strstr(text_string(&out),
	    "  Binds  12 months from manufacture in 2026 (estimated) (counted from\n"
	    "         1 Jan 2026) -> 1 Jan 2027. Extended by an authority to 1 Jun 2027,\n"
	    "         paper MA 12/26; that makes it good through 1 Jun 2027. Source: x\n"
	    "         (read); rule r of sheet s, grade law.\n"));
}

/* The other clock of a rule that is shown goes unsaid; rules without a clock that counts are
 * named once, whatever the task. */
PREPARED_TEST(why_leaves_out_clocks_that_can_not_count)
{
	struct rule rule = {.id = "raft-private",
	    .sheet = "s",
	    .what = "",
	    .source = "x",
	    .standing = STANDING_READ};
	struct reading readings[5];

	static const struct {
		const char *id;
		enum reading_state state;
	} SHAPES[] = {{"raft-hire", READING_NOT_IN_FORCE}, {"raft-hire", READING_DONE},
	    {"raft-private", READING_DONE}, {"raft-private", READING_RUNS},
	    {"raft-first", READING_DONE}};

	for (size_t i = 0; i < 5; i++) {
		readings[i] = (struct reading){.rule = &rule,
		    .rule_id = SHAPES[i].id,
		    .state = SHAPES[i].state,
		    .anchor = ANCHOR_LAST,
		    .stamp = scene->record.on,
		    .from = day_from_civil(2024, 5, 20),
		    .months = 36,
		    .due = day_from_civil(2027, 5, 20),
		    .good_through = day_from_civil(2027, 5, 20),
		    .in_force = spans_always(),
		    .binds = SHAPES[i].state == READING_RUNS,
		    .source = "x",
		    .asks = ""};
	}
	struct obligation obligations[2] = {
	    {.item = RAFT,
		.task = TASK_SERVICE,
		.due = day_from_civil(2027, 5, 20),
		.good_through = day_from_civil(2027, 5, 20),
		.binding = &readings[3],
		.readings = readings,
		.reading_count = 5},
	    {.item = RAFT,
		.task = TASK_TEST,
		.due = DAY_NEVER,
		.good_through = DAY_NEVER,
		.readings = readings,
		.reading_count = 1}};
	SCOPED_TEXT out = {0};
	report_why(&scene->style, &scene->engine, RAFT, obligations, 2, &out);
	assert_non_null(strstr(text_string(&out),
	    "  Binds  36 months from the last service on 20 May 2024 -> 20 May 2027. Source:\n"
	    "         x (read); rule raft-private of sheet s, grade law.\n"
	    "\n"
	    "Test: no day by which it falls due, in date. Who may do it: owner.\n"
	    "\n"
	    "Other rules that do not apply now: raft-hire, raft-first.\n" CAUTION_LINES));
}

PREPARED_TEST(why_says_so_when_no_rule_asks_anything)
{
	SCOPED_TEXT out = {0};
	report_why(&scene->style, &scene->engine, EXTINGUISHER, NULL, 0, &out);
	assert_string_equal(text_string(&out),
	    "EX-1: powder extinguisher, on Meltemi, as seen on 25 Nov 2026.\n"
	    "No date is known.\n"
	    "No rule asks anything of it.\n" CAUTION_LINES);
}

/* ---- winter ---- */

static struct shore_line
line_of(size_t item, enum task task, enum state state, day_t due)
{
	return (struct shore_line){.item = item,
	    .task = task,
	    .state = state,
	    .due = due,
	    .not_before = DAY_NONE,
	    .not_after = DAY_NONE,
	    .due_again = DAY_NONE,
	    .carries = true,
	    .price_minor = -1,
	    .what = "",
	    .why = "",
	    .first_possible = DAY_NONE};
}

static struct shore_list
empty_list(void)
{
	return (struct shore_list){.has_winter = true,
	    .proof = {.proven = true},
	    .winter = {2026, day_from_civil(2026, 11, 1), day_from_civil(2027, 3, 31),
		day_from_civil(2027, 11, 1)}};
}

#define LINES(array)                                                                     \
	(struct shore_lines)                                                             \
	{                                                                                \
		(array), sizeof(array) / sizeof(array)[0], 0                             \
	}

PREPARED_TEST(a_shore_list_has_its_parts_in_order)
{
	struct shore_line now[] = {
	    line_of(LIGHT, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 10, 31))};
	struct shore_line cannot[] = {line_of(
	    EXTINGUISHER, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 5, 1))};
	cannot[0].why = "the station is shut";
	cannot[0].first_possible = day_from_civil(2027, 4, 8);
	struct shore_line ashore[] = {
	    line_of(RAFT, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 5, 20))};
	ashore[0].not_before = day_from_civil(2026, 11, 27);
	ashore[0].not_after = day_from_civil(2026, 12, 13);
	struct trip trip = {.name = "Station One",
	    .hand_in = day_from_civil(2026, 11, 30),
	    .earliest = DAY_NONE,
	    .ready = day_from_civil(2027, 1, 11),
	    .collect = day_from_civil(2027, 1, 11),
	    .lines = LINES(ashore)};
	struct shore_line self[] = {line_of(
	    EXTINGUISHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 2, 1))};
	self[0].not_after = day_from_civil(2027, 3, 31);
	struct shore_line buy[] = {
	    line_of(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 6, 30)),
	    now[0]};
	buy[0].price_minor = 6000;
	buy[0].not_after = day_from_civil(2027, 3, 31);
	buy[1].not_after = day_from_civil(2027, 2, 28);
	struct shore_line dispose[] = {
	    line_of(OLD_FLARE, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 6, 30))};
	struct shore_line waits[] = {
	    line_of(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2029, 6, 30)),
	    line_of(RAFT, TASK_TEST, STATE_IN_DATE, day_from_civil(2028, 6, 1)),
	    line_of(OLD_FLARE, TASK_RENEW, STATE_IN_DATE, day_from_civil(2029, 7, 31))};
	waits[0].winter = 2028;
	waits[1].winter = 2027;
	waits[2].winter = 2028;
	struct shore_line habits[] = {line_of(
	    EXTINGUISHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2026, 12, 1))};
	struct shore_list list = empty_list();
	list.now = LINES(now);
	list.cannot = LINES(cannot);
	list.hand_in = (struct trips){&trip, 1, 0};
	list.self = LINES(self);
	list.buy = LINES(buy);
	list.dispose = LINES(dispose);
	list.waits = LINES(waits);
	list.routines = LINES(habits);
	list.cost_minor = 6000;
	list.unpriced = 2;
	SCOPED_TEXT out = {0};
	report_winters(&scene->style, scene->kinds, &scene->inventory, &list, 1, &out);
	assert_string_equal(text_string(&out),
	    "Meltemi: shore list\n"
	    "Winter 2026: laid up 1 Nov 2026 to 31 Mar 2027; seen on 25 Nov 2026.\n"
	    "\n"
	    "Do now\n"
	    "[ ] LL-1  lifejacket light, φωτάκι 救命  renew  31 Oct 2026, expired\n"
	    "\n"
	    "Can't be done in time\n"
	    "EX-1  powder extinguisher  service  the station is shut; first possible\n"
	    "                                    8 Apr 2027\n"
	    "\n"
	    "Hand in Mon 30 Nov (between 27 Nov and 13 Dec) at Station One; collect\n"
	    "  Mon 11 Jan\n"
	    "[ ] LR-1  canister liferaft  service  20 May 2027\n"
	    "! By hand only.\n"
	    "\n"
	    "Do it yourself, by 31 Mar 2027\n"
	    "[ ] EX-1  powder extinguisher  inspect  1 Feb 2027\n"
	    "\n"
	    "Buy and renew\n"
	    "[ ] FL-1  4 x red hand flare          30 Jun 2027           by 31 Mar  EUR 60.00\n"
	    "[ ] LL-1  lifejacket light            31 Oct 2026, expired  by 28 Feb   no price\n"
	    "\n"
	    "Dispose of, once out of date or replaced\n"
	    "[ ] FL-9 red hand flare ! Never bin it.\n"
	    "\n"
	    "Can wait (with the first day something is due)\n"
	    "winter 2027 (1 Jun 2028): test LR-1\n"
	    "winter 2028 (30 Jun 2029): renew FL-1, FL-9\n"
	    "Habits, all the year: inspect EX-1.\n"
	    "\n"
	    "Cost known: EUR 60.00; 2 lines without a price.\n" CAUTION_TEXT);
	assert_fits_the_page(text_string(&out));
}

PREPARED_TEST(a_shore_list_says_plainly_that_nothing_is_to_be_done)
{
	struct shore_list list = empty_list();
	SCOPED_TEXT out = {0};
	report_winters(&scene->style, scene->kinds, &scene->inventory, &list, 1, &out);
	assert_string_equal(text_string(&out),
	    "Meltemi: shore list\n"
	    "Winter 2026: laid up 1 Nov 2026 to 31 Mar 2027; seen on 25 Nov 2026.\n"
	    "\n"
	    "Nothing is to be done this winter.\n" CAUTION_LINES);
	list.has_winter = false;
	text_reset(&out);
	report_winters(&scene->style, scene->kinds, &scene->inventory, &list, 1, &out);
	assert_string_equal(text_string(&out),
	    "Meltemi: shore list\n"
	    "In use all year: a rota (becket rota), no winter; seen on 25 Nov 2026.\n"
	    "\n"
	    "Nothing is to be done now.\n" CAUTION_LINES);
}

PREPARED_TEST(work_that_lapses_in_the_season_all_the_same_is_marked)
{
	struct shore_line self[] = {line_of(
	    EXTINGUISHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 2, 1))};
	self[0].carries = false;
	self[0].due_again = day_from_civil(2027, 9, 30);
	struct shore_list list = empty_list();
	list.self = LINES(self);
	SCOPED_TEXT out = {0};
	report_winters(&scene->style, scene->kinds, &scene->inventory, &list, 1, &out);
	assert_non_null(strstr(text_string(&out),
	    "Do it yourself\n"
	    "[ ] EX-1  powder extinguisher; lapses in the season, due     inspect  1 Feb 2027\n"
	    "          again 30 Sep 2027\n"));
}

/* Writes the list and asserts that it has the words. */
static void
assert_winter_has(
    const struct scene *scene, const struct shore_list *list, const char *words)
{
	SCOPED_TEXT out = {0};
	report_winters(&scene->style, scene->kinds, &scene->inventory, list, 1, &out);
	assert_fits_the_page(text_string(&out));
	assert_non_null(strstr(text_string(&out), words));
}

PREPARED_TEST(what_waits_on_a_boat_in_use_all_year_is_a_table_for_twelve_months)
{
	struct shore_line waits[] = {
	    line_of(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 3, 31)),
	    line_of(OLD_FLARE, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 3, 31)),
	    line_of(RAFT, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 11, 25)),
	    line_of(LIGHT, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 11, 26)),
	    line_of(EXTINGUISHER, TASK_RENEW, STATE_IN_DATE, day_from_civil(2031, 1, 1))};
	struct shore_list list = empty_list();
	list.has_winter = false;
	list.waits = LINES(waits);
	assert_winter_has(scene, &list,
	    "\n"
	    "Can wait, day by day for twelve months\n"
	    "31 Mar 2027  renew    FL-1, FL-9  red hand flare\n"
	    "25 Nov 2027  service  LR-1        canister liferaft\n"
	    "later (26 Nov 2027): renew LL-1, EX-1\n"
	    "\n"
	    "Advice only.");
}

PREPARED_TEST(a_renewal_without_a_date_says_below_its_part_what_to_do)
{
	struct shore_line self[] = {
	    line_of(RAFT, TASK_SERVICE, STATE_DATE_UNKNOWN, DAY_NONE),
	    line_of(LIGHT, TASK_RENEW, STATE_DATE_UNKNOWN, DAY_NONE),
	    line_of(EXTINGUISHER, TASK_RENEW, STATE_DATE_UNKNOWN, DAY_NONE)};
	self[0].what = "hand it in";
	self[1].what = "find its date";
	self[2].what = "find its date";
	struct shore_list list = empty_list();
	list.self = LINES(self);
	assert_winter_has(scene, &list,
	    "[ ] EX-1  powder extinguisher            renew    date unknown\n"
	    "* LL-1, EX-1: find its date.\n"
	    "\n");
}

PREPARED_TEST(paperwork_stands_with_what_he_does_himself)
{
	struct shore_line self[] = {line_of(
	    EXTINGUISHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 2, 1))};
	struct shore_line paperwork[] = {
	    line_of(RAFT, TASK_REGISTER, STATE_IN_DATE, day_from_civil(2027, 5, 1))};
	self[0].not_after = day_from_civil(2027, 3, 31);
	paperwork[0].not_after = self[0].not_after;
	struct shore_list list = empty_list();
	list.paperwork = LINES(paperwork);
	assert_winter_has(scene, &list,
	    "\n"
	    "Paperwork, by 31 Mar 2027\n"
	    "[ ] LR-1  canister liferaft  register  1 May 2027\n");
	list.self = LINES(self);
	assert_winter_has(scene, &list,
	    "\n"
	    "Do it yourself, and the paperwork, by 31 Mar 2027\n"
	    "[ ] EX-1  powder extinguisher  inspect   1 Feb 2027\n"
	    "[ ] LR-1  canister liferaft    register  1 May 2027\n");
}

PREPARED_TEST(the_days_all_lines_share_are_said_once_in_the_heading)
{
	struct shore_line buy[] = {
	    line_of(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 6, 30)),
	    line_of(EXTINGUISHER, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 7, 1))};
	buy[0].not_after = day_from_civil(2027, 3, 24);
	buy[1].not_after = buy[0].not_after;
	buy[1].not_before = day_from_civil(2026, 12, 4);
	struct shore_list list = empty_list();
	list.buy = LINES(buy);
	assert_winter_has(scene, &list,
	    "Buy and renew, by 24 Mar 2027\n"
	    "[ ] FL-1  4 x red hand flare   30 Jun 2027              no price\n"
	    "[ ] EX-1  powder extinguisher  1 Jul 2027   from 4 Dec  no price\n");
}

PREPARED_TEST(what_is_bought_is_disposed_of_by_its_tag_alone)
{
	struct shore_line buy[] = {
	    line_of(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 6, 30))};
	struct shore_line dispose[] = {buy[0],
	    line_of(OLD_FLARE, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 6, 30)),
	    line_of(RAFT, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 1, 31))};
	struct shore_list list = empty_list();
	list.buy = LINES(buy);
	list.dispose = LINES(dispose);
	assert_winter_has(scene, &list,
	    "[ ] FL-1; [ ] FL-9 red hand flare ! Never bin it.\n"
	    "[ ] LR-1 canister liferaft ! Ask the station.\n");
}

PREPARED_TEST(an_assumed_turn_round_and_a_first_day_are_said_in_the_heading)
{
	struct shore_line ashore[] = {
	    line_of(RAFT, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 5, 20))};
	ashore[0].not_before = day_from_civil(2026, 11, 27);
	ashore[0].not_after = day_from_civil(2027, 1, 29);
	struct trip trip = {.name = "",
	    .assumed = true,
	    .hand_in = day_from_civil(2026, 11, 27),
	    .earliest = DAY_NONE,
	    .ready = day_from_civil(2027, 4, 2),
	    .collect = day_from_civil(2027, 4, 2), /* after fitting-out: with its year */
	    .lines = LINES(ashore)};
	struct shore_list list = empty_list();
	list.hand_in = (struct trips){&trip, 1, 0};
	assert_winter_has(scene, &list,
	    "Hand in from Fri 27 Nov (by 29 Jan) at an approved station; collect about\n"
	    "  2 Apr 2027 (ask)\n"
	    "[ ] LR-1  canister liferaft  service  20 May 2027\n");
}

/* Forty-five things: 12 ashore with windows of their own, 10 to do, 8 to buy, 3 to get rid
 * of, 12 that wait. A page holds 60 lines or so. */
PREPARED_TEST(a_boat_with_45_things_fits_one_page)
{
	struct item items[45];
	struct shore_line lines[45];
	char tags[45][8];
	for (int i = 0; i < 45; i++) {
		(void)snprintf(tags[i], sizeof tags[i], "TG-%d", i + 1);
		items[i] = blank_item(tags[i], i < 12   ? "liferaft-canister"
					       : i < 30 ? "lifejacket-light"
							: "flare-red-hand");
		items[i].description = "a rather long description of the thing";
		lines[i] = line_of((size_t)i, i < 12 ? TASK_SERVICE : TASK_RENEW,
		    STATE_IN_DATE, day_from_civil(2027, 5, 1) + i);
		lines[i].not_before =
		    i < 12 ? day_from_civil(2026, 11, 26) + i : DAY_NONE;
		lines[i].not_after =
		    i < 12 ? day_from_civil(2026, 12, 13) : day_from_civil(2027, 3, 31);
		lines[i].winter = i < 33 ? 0 : 2027 + i % 3;
	}
	struct trip trip = {.name = "Station One",
	    .hand_in = day_from_civil(2026, 11, 30),
	    .earliest = DAY_NONE,
	    .ready = day_from_civil(2027, 1, 11),
	    .collect = day_from_civil(2027, 1, 11),
	    .lines = {lines, 12, 0}};
	struct shore_list list = empty_list();
	list.hand_in = (struct trips){&trip, 1, 0};
	list.self = (struct shore_lines){lines + 12, 10, 0};
	list.buy = (struct shore_lines){lines + 22, 8, 0};
	list.dispose = (struct shore_lines){lines + 30, 3, 0};
	list.waits = (struct shore_lines){lines + 33, 12, 0};
	list.routines = (struct shore_lines){lines, 45, 0};
	scene->inventory.items = items;
	scene->inventory.item_count = 45;
	SCOPED_TEXT out = {0};
	report_winters(&scene->style, scene->kinds, &scene->inventory, &list, 1, &out);
	assert_fits_the_page(text_string(&out));
	assert_true(count_lines(text_string(&out)) <= 62);
	/* The last thing ashore may go from 26 Nov + 11 days, so the whole trip not before. */
	assert_non_null(strstr(text_string(&out),
	    "Hand in Mon 30 Nov (between 7 Dec and 13 Dec) at Station One; "));
	assert_non_null(strstr(text_string(&out),
	    "\nlater (5 Jun 2027): renew TG-36, TG-39, TG-42, TG-45\n"
	    "Habits, all the year: service TG-1 to TG-12; renew TG-13 to TG-45.\n"));
}

/* ---- lists and sheets ---- */

PREPARED_TEST(gear_is_listed_and_shown_with_what_is_on_record)
{
	size_t items[] = {RAFT, FLARES};
	scene->items[RAFT].place = "aft deck";
	scene->items[FLARES].state = PLACE_RESERVE;
	SCOPED_TEXT out = {0};
	struct list_report report = {0};
	struct fault fault = {0};
	/* some at a time */
	report_list_some(&report, scene->kinds, &scene->inventory, items, 1);
	report_list_some(&report, scene->kinds, &scene->inventory, items + 1, 1);
	assert_true(report_list_end(&report, &scene->style, &out, &fault));
	list_report_clear(&report);
	assert_string_equal(text_string(&out),
	    "Vessel   Tag   What                Place     Stands\n"
	    "-------  ----  ------------------  --------  -------\n"
	    "Meltemi  LR-1  canister liferaft   aft deck  aboard\n"
	    "Meltemi  FL-1  4 x red hand flare            reserve\n");
	text_reset(&out);
	scene->items[RAFT].price_minor = 125000;
	scene->items[RAFT].made = (struct stamp){
	    .year = 2019, .month = 4, .precision = STAMP_MONTH, .estimated = true};
	scene->record.certificate = "77";
	const struct paper paper = {
	    .number = 12,
	    .name = "label.jpg",
	    .media_type = "image/jpeg",
	    .note = "back of the valise",
	    .size = 1258292, /* 1.2 MiB and a little: never said as less */
	    .added = day_from_civil(2026, 11, 2),
	    .of_record = true,
	    .task = TASK_SERVICE,
	    .on = stamp_of_day(day_from_civil(2024, 5, 20)),
	    .certificate = "77",
	};
	report_show(
	    &scene->style, scene->kinds, &scene->inventory, RAFT, &paper, 1, &out);
	assert_string_equal(text_string(&out),
	    "LR-1     canister liferaft\n"
	    "vessel   Meltemi\n"
	    "stands   aboard\n"
	    "place    aft deck\n"
	    "made     Apr 2019 (estimated)\n"
	    "price    EUR 1250.00\n"
	    "service  20 May 2024, certificate 77 (record 1)\n"
	    "paper    12: label.jpg, JPEG picture, 1.3 MiB, put here on 2 Nov 2026, of the\n"
	    "         service on 20 May 2024 (certificate 77), back of the valise\n");
}

PREPARED_TEST(vessels_and_stations_are_one_line_each)
{
	const char *sheets[] = {"practice", "charter"};
	scene->vessel.sheets = sheets;
	scene->vessel.sheet_count = 2;
	struct yearly closed = {12, 20, 1, 31};
	struct station station = {.name = "Station One",
	    .base = "",
	    .turn_round_days = 35,
	    .closed = &closed,
	    .closed_count = 1,
	    .trip_minor = 4000};
	SCOPED_TEXT out = {0};
	report_vessels(&scene->style, &scene->inventory, &out);
	assert_string_equal(text_string(&out),
	    "Vessel   Base        Use      Lay-up           Rule sheets\n"
	    "-------  ----------  -------  ---------------  -----------------\n"
	    "Meltemi  North quay  private  1 Nov to 31 Mar  practice, charter\n");
	text_reset(&out);
	report_stations(&scene->style, &station, 1, &out);
	assert_string_equal(text_string(&out),
	    "Station      Base  Days  Closed                 Trip  Services\n"
	    "-----------  ----  ----  ----------------  ---------  ----------\n"
	    "Station One  any     35  20 Dec to 31 Jan  EUR 40.00  every kind\n"
	    "Station One: weekdays not known, Monday to Friday supposed.\n");
}

PREPARED_TEST(a_boat_that_will_change_use_says_so_under_the_table)
{
	const char *sheets[] = {"practice"};
	struct period periods[] = {{.from = DAY_NONE, .use = USE_PRIVATE, .area = ""},
	    {.from = day_from_civil(2027, 6, 1),
		.use = USE_COMMERCIAL,
		.area = "",
		.says = SAYS_USE}};
	scene->vessel.sheets = sheets;
	scene->vessel.sheet_count = 1;
	scene->vessel.periods = periods;
	scene->vessel.period_count = 2;
	SCOPED_TEXT out = {0};
	report_vessels(&scene->style, &scene->inventory, &out);
	assert_string_equal(text_string(&out),
	    "Vessel   Base        Use      Lay-up           Rule sheets\n"
	    "-------  ----------  -------  ---------------  -----------\n"
	    "Meltemi  North quay  private  1 Nov to 31 Mar  practice\n"
	    "Meltemi: commercial use from 1 Jun 2027.\n");
}

PREPARED_TEST(a_sheet_shows_each_figure_with_its_source_and_standing)
{
	const char *kinds[] = {"liferaft-canister", "liferaft-valise"};
	struct clock_rule clocks[] = {{.anchors = {ANCHOR_PACKED, ANCHOR_MADE},
					  .anchor_count = 2,
					  .months = 36,
					  .done_until = 0},
	    {.anchors = {ANCHOR_LAST},
		.anchor_count = 1,
		.months = 24,
		.done_from = 1,
		.done_until = INT_MAX,
		.through = THROUGH_MONTH_END}};
	struct rule rule = {.id = "raft-service",
	    .sheet = "mine",
	    .origin = "mine",
	    .replaces = "",
	    .kinds = kinds,
	    .kind_count = 2,
	    .when = {.uses = 1U << USE_PRIVATE,
		.made_from = DAY_NONE,
		.made_until = DAY_NONE,
		.length_from_cm = 1370},
	    .task = TASK_SERVICE,
	    .doer = DOER_STATION,
	    .grade = GRADE_PRACTICE,
	    .lapse = STATE_OVERDUE,
	    .clocks = clocks,
	    .clock_count = 2,
	    .what = "hand in for service",
	    .source = "common practice",
	    .standing = STANDING_COMMON_PRACTICE};
	struct sheet sheet = {.name = "mine",
	    .title = "My own",
	    .audience = "",
	    .extends = "",
	    .compiled = day_from_civil(2026, 11, 1),
	    .rules = &rule,
	    .rule_count = 1};
	SCOPED_TEXT out = {0};
	report_sheet(&scene->style, &sheet, &out);
	assert_string_equal(text_string(&out),
	    "mine: My own. Compiled 1 Nov 2026.\n"
	    "\n"
	    "raft-service: service, by station, grade practice; when passed: overdue\n"
	    "  For     liferaft-canister, liferaft-valise\n"
	    "  To do   hand in for service\n"
	    "  Due     first: 36 months from packed, else made; again: 24 months from the\n"
	    "          last time done, to the end of the month\n"
	    "  Holds   private use only; length at least 13.70 m\n"
	    "  Source  common practice\n" CAUTION_LINES);
	const struct sheet *sheets[] = {&sheet};
	text_reset(&out);
	report_sheets(&scene->style, sheets, 1, &out);
	assert_string_equal(text_string(&out), "Sheet  Rules  Compiled    What it is\n"
					       "-----  -----  ----------  ----------\n"
					       "mine       1  1 Nov 2026  My own\n");
}

RUN_TESTS(NULL, NULL)
