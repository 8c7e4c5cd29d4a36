/* The papers that go ashore, over small dockets built by hand; the expected text is laid out
 * by hand. */
#include "report/shore_papers.h"

#include "becket_test.h"

#include <stdlib.h>
#include <string.h>

static const char CATALOGUE[] = "hazards:\n"
				"  - hazard: gas\n"
				"    carry: By hand only.\n"
				"    dispose: Ask the station.\n"
				"kinds:\n"
				"  - id: liferaft-canister\n"
				"    name: canister liferaft\n"
				"    group: Liferafts\n"
				"    hazard: gas\n"
				"  - id: hydrostatic-release\n"
				"    name: hydrostatic release\n"
				"    group: Liferafts\n";

#define CAUTION                                                                          \
	"Advice only. The label on the gear, the maker's manual, the station's\n"        \
	"certificate, the local authority and the surveyor decide.\n"

#define CUT                                                                              \
	"- - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - - "   \
	"- -\n"

enum { RAFT, RELEASE, ITEM_COUNT };

/* One raft that goes to one station with its release. */
struct scene {
	struct kinds *kinds;
	struct vessel vessel;
	struct item items[ITEM_COUNT];
	struct record record;
	struct inventory inventory;
	struct shore_line service;
	struct shore_line renewal;
	const struct shore_line *lines[2];
	struct docket_piece piece;
	struct docket docket;
	struct dockets dockets;
	struct report_style style;
	struct shore_papers papers;
};

static struct item
item_of(const char *tag, const char *kind, size_t parent)
{
	return (struct item){.tag = tag,
	    .kind = kind,
	    .description = "",
	    .make = "",
	    .serial = "",
	    .place = "",
	    .notes = "",
	    .rating = "",
	    .quantity = 1,
	    .parent = parent};
}

static int
scene_begin(void **state)
{
	struct scene *scene = calloc(1, sizeof *scene);
	struct fault fault = {0};
	assert_non_null(scene);
	assert_true(
	    kinds_read("kinds", CATALOGUE, sizeof CATALOGUE - 1, &scene->kinds, &fault));
	scene->vessel = (struct vessel){.name = "Meltemi"};
	scene->items[RAFT] = item_of("LR-1", "liferaft-canister", ITEM_NO_PARENT);
	scene->items[RELEASE] = item_of("HR-1", "hydrostatic-release", RAFT);
	scene->items[RAFT].serial = "Q-17";
	scene->items[RAFT].place = "aft deck";
	scene->items[RAFT].made =
	    (struct stamp){.year = 2020, .month = 3, .precision = STAMP_MONTH};
	scene->record = (struct record){.task = TASK_SERVICE,
	    .on = stamp_of_day(day_from_civil(2023, 11, 18)),
	    .station = "",
	    .certificate = ""};
	scene->items[RAFT].records = &scene->record;
	scene->items[RAFT].record_count = 1;
	scene->inventory =
	    (struct inventory){&scene->vessel, 1, scene->items, ITEM_COUNT, "EUR"};
	scene->service = (struct shore_line){.item = RAFT,
	    .task = TASK_SERVICE,
	    .due = day_from_civil(2026, 11, 18),
	    .due_again = day_from_civil(2029, 11, 25),
	    .carries = true};
	scene->renewal = (struct shore_line){.item = RELEASE,
	    .task = TASK_RENEW,
	    .due = day_from_civil(2027, 4, 12),
	    .due_again = DAY_NONE,
	    .with_parent = true};
	scene->lines[0] = &scene->service;
	scene->lines[1] = &scene->renewal;
	scene->piece = (struct docket_piece){RAFT, scene->lines, 2, 1};
	scene->docket = (struct docket){.station = "Raft Loft",
	    .hand_in = day_from_civil(2026, 11, 25), /* a Wednesday */
	    .collect = day_from_civil(2027, 2, 11),  /* a Thursday */
	    .pieces = &scene->piece,
	    .piece_count = 1,
	    .count = 2, /* the raft, and a part inside it */
	    .inside = 1,
	    .vessel_count = 1};
	scene->dockets = (struct dockets){&scene->docket, 1};
	scene->papers = (struct shore_papers){.style = &scene->style,
	    .kinds = scene->kinds,
	    .inventory = &scene->inventory,
	    .dockets = &scene->dockets};
	*state = scene;
	return 0;
}

static int
scene_end(void **state)
{
	struct scene *scene = *state;
	kinds_free(scene->kinds);
	free(scene);
	return 0;
}

#define PREPARED_TEST(name) TEST_OF(struct scene, scene, name, scene_begin, scene_end)

static void
assert_text(const struct scene *scene, enum shore_paper paper, const char *expected)
{
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	assert_true(shore_paper_whole(&scene->papers, paper, SHORE_TEXT, &out, &fault));
	assert_string_equal(text_string(&out), expected);
}

static void
assert_page_has(const struct scene *scene, enum shore_paper paper, const char *expected)
{
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	assert_true(shore_paper_whole(&scene->papers, paper, SHORE_PAGE, &out, &fault));
	if (strstr(text_string(&out), expected) == NULL) {
		fail_msg(
		    "\"%s\" is not in %s", expected, strstr(text_string(&out), "<body>"));
	}
}

PREPARED_TEST(a_tag_says_whose_it_is_what_is_wanted_and_where_it_goes_back)
{
	assert_text(scene, SHORE_TAGS,
	    CUT "LR-1   Meltemi   canister liferaft, serial Q-17\n"
		"    For service; renew with it HR-1\n"
		"    At Raft Loft: hand in Wed 25 Nov 2026; collect Thu 11 Feb 2027\n"
		"    Goes back to: aft deck\n" CUT "\n" CAUTION);
}

PREPARED_TEST(a_docket_says_what_is_handed_in_and_what_is_wanted_with_lines_to_sign)
{
	assert_text(scene, SHORE_DOCKETS,
	    "Hand-in docket: Raft Loft\n"
	    "2 pieces of 1 vessel, 1 inside others: hand in Wed 25 Nov 2026; collect\n"
	    "  Thu 11 Feb 2027.\n"
	    "\n"
	    "Meltemi\n"
	    "[ ] LR-1  canister liferaft\n"
	    "    Serial: Q-17. Made: Mar 2020. Last service: 18 Nov 2023.\n"
	    "    Wanted: service. Next due if done: service 25 Nov 2029.\n"
	    "    Renew with it: HR-1 hydrostatic release (12 Apr 2027).\n"
	    "\n"
	    "! By hand only.\n"
	    "\n"
	    "Owner and telephone  __________________________________________________\n"
	    "\n"
	    "Handed in by         __________________________________________________\n"
	    "\n"
	    "Received by          __________________________________________________\n"
	    "\n"
	    "Date                 __________________________________________________\n"
	    "\n" CAUTION);
}

PREPARED_TEST(the_return_list_has_a_row_for_each_thing_and_each_part)
{
	assert_text(scene, SHORE_RETURN_LIST,
	    "Return list: Raft Loft\n"
	    "2 pieces of 1 vessel, 1 inside others: hand in Wed 25 Nov 2026; collect\n"
	    "  Thu 11 Feb 2027.\n"
	    "\n"
	    "Meltemi\n"
	    "What                        Serial  Back      Result     New date    "
	    "Certificate\n"
	    "--------------------------  ------  --------  ---------  ----------  "
	    "-----------\n"
	    "LR-1 canister liferaft      Q-17    yes / no  _________  __________  "
	    "___________\n"
	    "HR-1 hydrostatic release    -       yes / no  _________  __________  "
	    "___________\n"
	    "(part of LR-1)\n"
	    "\n" CAUTION);
}

PREPARED_TEST(what_is_ashore_already_is_on_the_return_list_with_the_day_it_went)
{
	scene->docket.landed = true;
	scene->docket.count = 1;
	scene->docket.inside = 0;
	scene->docket.station = "";
	scene->docket.hand_in = DAY_NONE;
	scene->docket.collect = DAY_NONE;
	scene->piece.line_count = 0;
	scene->piece.own_count = 0;
	assert_text(scene, SHORE_RETURN_LIST,
	    "Return list: a station that is not told\n"
	    "1 piece of 1 vessel: ashore since a day not known; ask when to collect.\n"
	    "\n"
	    "Meltemi\n"
	    "What                    Serial  Back      Result     New date    "
	    "Certificate\n"
	    "----------------------  ------  --------  ---------  ----------  "
	    "-----------\n"
	    "LR-1 canister liferaft  Q-17    yes / no  _________  __________  "
	    "___________\n"
	    "\n" CAUTION);
}

PREPARED_TEST(what_is_not_known_is_said_and_a_station_to_be_found_is_asked)
{
	scene->items[RAFT].serial = "";
	scene->items[RAFT].made = (struct stamp){0};
	scene->items[RAFT].record_count = 0;
	scene->service.carries = false;
	scene->service.due_again = day_from_civil(2027, 6, 20);
	scene->docket.station = "";
	scene->docket.assumed = true;
	assert_page_has(scene, SHORE_DOCKETS,
	    "<h1>Hand-in docket: an approved station</h1><p>2 pieces of 1 vessel, 1 "
	    "inside others: hand in "
	    "Wed\xC2\xA0"
	    "25\xC2\xA0Nov\xC2\xA0"
	    "2026; collect about 11\xC2\xA0"
	    "Feb\xC2\xA0"
	    "2027 (ask).</p>");
	assert_page_has(scene, SHORE_DOCKETS,
	    "<td data-head=\"Serial\">not known</td><td data-head=\"Made\">not known</td>"
	    "<td data-head=\"Last service\">none on record</td>");
	assert_page_has(scene, SHORE_DOCKETS,
	    "<div>service <span class=\"date\">20\xC2\xA0Jun\xC2\xA0"
	    "2027</span>, in the season</div>");
}

PREPARED_TEST(whatever_a_name_says_a_page_only_shows_it)
{
	scene->vessel.name = "<script>alert(\"x\")</script>";
	scene->items[RAFT].tag = "</td><b>";
	scene->items[RAFT].serial = "\" onload=\"x";
	scene->items[RAFT].description = "Bl\xC3\xA5skjell \xCE\xA3\xCF\x89 "
					 "\xE6\x95\x91\xE5\x91\xBD \xF0\x9F\x9B\x9F";
	scene->docket.station = "A & B <i>";
	for (int paper = 0; paper < SHORE_PAPER_COUNT; paper++) {
		assert_page_has(scene, (enum shore_paper)paper,
		    "&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt;");
		assert_page_has(scene, (enum shore_paper)paper, "&lt;/td&gt;&lt;b&gt;");
		assert_page_has(scene, (enum shore_paper)paper, "A &amp; B &lt;i&gt;");
	}
	assert_page_has(scene, SHORE_TAGS,
	    "canister liferaft, Bl\xC3\xA5skjell \xCE\xA3\xCF\x89 "
	    "\xE6\x95\x91\xE5\x91\xBD \xF0\x9F\x9B\x9F</div>");
	assert_page_has(
	    scene, SHORE_DOCKETS, "<td data-head=\"Serial\">&quot; onload=&quot;x</td>");
}

static size_t
count_of(const char *words, const char *wanted)
{
	size_t count = 0;
	for (const char *at = strstr(words, wanted); at != NULL;
	     at = strstr(at + 1, wanted)) {
		count++;
	}
	return count;
}

PREPARED_TEST(nine_tags_take_two_sheets_and_each_has_the_caution)
{
	struct docket_piece pieces[9];
	struct fault fault = {0};
	SCOPED_TEXT out = {0};
	for (size_t i = 0; i < 9; i++) {
		pieces[i] = scene->piece;
	}
	scene->docket.pieces = pieces;
	scene->docket.piece_count = 8;
	assert_true(
	    shore_paper_whole(&scene->papers, SHORE_TAGS, SHORE_PAGE, &out, &fault));
	assert_int_equal(count_of(text_string(&out), "<section class=\"sheet\">"), 1);
	text_reset(&out);
	scene->docket.piece_count = 9;
	assert_true(
	    shore_paper_whole(&scene->papers, SHORE_TAGS, SHORE_PAGE, &out, &fault));
	assert_int_equal(count_of(text_string(&out), "class=\"tie\""), 9);
	assert_int_equal(count_of(text_string(&out), "<section class=\"sheet\">"), 2);
	assert_int_equal(count_of(text_string(&out), REPORT_CAUTION), 2);
}

RUN_TESTS(NULL, NULL)
