/* The desk's questions: each answers from the book as it was written last, whatever was asked
 * before. Expected values come from what is entered here. */
#include "desk/questions.h"

#include "book_scratch.h"
#include "desk/acts.h"
#include "desk/acts_fleet.h"
#include "desk/ranges.h"
#include "exchange/answers.h"

/* A marked expiry is the last good day: common practice, as with every label. */
static const char GEAR[] = "tag,kind,vessel,expires,serial,state\n"
			   "FL-1,flare-red-hand,Amber Tern,2026-10-31,,reserve\n"
			   "FL-2,flare-red-hand,Amber Tern,2027-06-30,,aboard\n"
			   "FL-3,flare-red-hand,Amber Tern,2029-03-31,,aboard\n"
			   "LR-1,liferaft-valise,Amber Tern,,A1,aboard\n";

struct asking {
	struct desk desk;
	struct fault fault;
	char directory[64];
	char path[96];
};

static void
asking_done(const struct asking *asking, bool done)
{
	if (!done) {
		fail_msg("%s", asking->fault.text);
	}
}

/* Reads a list into the book, as an act of its own. */
static void
import(const char *path, const char *list)
{
	struct desk desk = {.book_path = path,
	    .book_named = true,
	    .mode = BOOK_CREATE,
	    .shelf.folder = "",
	    .signature = {.who = "", .act = "import"},
	    .today = day_of("2026-11-25")};
	SCOPED_TEXT bytes = {0};
	struct import_outcome out = {0};
	struct fault fault = {0};
	text_add(&bytes, list);
	const struct import_request request = {
	    .name = "list.csv", .bytes = &bytes, .options.currency = "EUR"};
	if (!desk_import(&desk, &request, &out, &fault)) {
		fail_msg("%s", fault.text);
	}
	spool_clear(&out.words);
	desk_clear(&desk);
}

static int
begin(void **state)
{
	struct asking *asking = calloc(1, sizeof *asking);
	assert_non_null(asking);
	(void)snprintf(
	    asking->directory, sizeof asking->directory, "/tmp/becket-ask-XXXXXX");
	assert_non_null(mkdtemp(asking->directory));
	(void)snprintf(
	    asking->path, sizeof asking->path, "%s/boats.book", asking->directory);
	import(asking->path, GEAR);
	asking->desk = (struct desk){.book_path = asking->path,
	    .book_named = true,
	    .mode = BOOK_READ,
	    .shelf.folder = "",
	    .today = day_of("2026-11-25")};
	*state = asking;
	return 0;
}

static int
end(void **state)
{
	struct asking *asking = *state;
	static const char *const ENDINGS[] = {"", "-wal", "-shm"};
	desk_clear(&asking->desk);
	for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++) {
		char name[128];
		(void)snprintf(name, sizeof name, "%s%s", asking->path, ENDINGS[i]);
		(void)unlink(name);
	}
	int removed = rmdir(asking->directory);
	free(asking);
	return removed;
}

#define PREPARED_TEST(name) TEST_OF(struct asking, asking, name, begin, end)

static const char *
tag_of(const struct asking *asking, size_t item)
{
	return asking->desk.contents.inventory.items[item].tag;
}

/* Of the tasks that some flares have: to be renewed. */
static size_t
flares_due(struct asking *asking, const char *base, struct due_answer *out)
{
	const struct due_asked asked = {.gear = {.base = base, .kind = "flare-red-hand"},
	    .state = -1,
	    .within_days = -1};
	asking_done(asking, desk_due(&asking->desk, &asked, out, &asking->fault));
	return out->agenda.count;
}

PREPARED_TEST(due_counts_what_a_year_does_not_see_the_end_of)
{
	struct due_answer answer;
	assert_int_equal(flares_due(asking, NULL, &answer), 2);
	assert_string_equal(tag_of(asking, answer.agenda.items[0].item), "FL-1");
	assert_string_equal(tag_of(asking, answer.agenda.items[1].item), "FL-2");
	assert_day(answer.agenda.items[1].due, "2027-06-30");
	assert_int_equal(answer.later, 1);
	assert_day(answer.until, "2027-11-25");
}

PREPARED_TEST(what_is_in_reserve_makes_nothing_wrong_and_what_is_aboard_does)
{
	struct due_answer answer;
	(void)flares_due(asking, NULL, &answer);
	assert_false(answer.wrong);
	import(asking->path, "tag,kind,vessel,expires,state\n"
			     "FL-1,flare-red-hand,Amber Tern,2026-10-31,aboard\n");
	(void)flares_due(asking, NULL, &answer);
	assert_true(answer.wrong);
}

PREPARED_TEST(a_question_sees_what_was_written_since_the_last_one)
{
	const struct list_asked asked = {.state = -1};
	struct list_answer answer;
	asking_done(asking, desk_list(&asking->desk, &asked, &answer, &asking->fault));
	assert_int_equal(answer.count, 4);
	import(asking->path,
	    "tag,kind,vessel,expires\nFL-4,flare-red-hand,Amber Tern,2029-03-31\n");
	asking_done(asking, desk_list(&asking->desk, &asked, &answer, &asking->fault));
	assert_int_equal(answer.count, 5);
}

/* Her base changes on 1 May 2027, so the winter of 2027 is about another than today is. */
PREPARED_TEST(a_winter_to_come_leaves_the_base_of_today_as_it_is)
{
	struct book *book = NULL;
	const struct vessel_change bases[] = {
	    {.name = "Amber Tern",
		.set = 1U << VESSEL_BASE | 1U << VESSEL_LAY_UP,
		.base = "North loft",
		.laid_up = true,
		.lay_up = {11, 1, 3, 31}},
	    {.name = "Amber Tern",
		.set = 1U << VESSEL_BASE | SET_FROM,
		.from = day_of("2027-05-01"),
		.base = "South loft"}};
	const struct plans_wish wish = {.base = "South loft", .year = 2027};
	struct winter_answer winter;
	struct due_answer due;
	asking_done(asking, book_open(asking->path, BOOK_WRITE, &book, &asking->fault));
	asking_done(asking, book_put_vessel(book, &bases[0], &asking->fault));
	asking_done(asking, book_put_vessel(book, &bases[1], &asking->fault));
	book_close(book);
	asking_done(asking, desk_winter(&asking->desk, &wish, &winter, &asking->fault));
	assert_int_equal(winter.count, 1);
	assert_int_equal(winter.lists[0].winter.year, 2027);
	assert_int_equal(flares_due(asking, "North loft", &due), 2);
	assert_int_equal(flares_due(asking, "South loft", &due), 0);
}

PREPARED_TEST(of_pieces_it_is_found_what_is_wanted)
{
	const char *words[] = {"FL-2..FL-3", "LR-1"};
	struct word_list tags = {.items = words, .count = 2};
	struct pieces_asked asked = {.tags = &tags, .task = -1};
	struct pieces_answer answer;
	asking_done(asking, desk_pieces(&asking->desk, &asked, &answer, &asking->fault));
	assert_int_equal(answer.count, 3);
	assert_string_equal(tag_of(asking, answer.items[2].item), "LR-1");
	assert_int_equal(answer.items[0].obligation_count, 0);

	asked.wants = PIECE_WHY;
	asked.task = TASK_RENEW;
	asking_done(asking, desk_pieces(&asking->desk, &asked, &answer, &asking->fault));
	assert_int_equal(answer.items[0].obligation_count, 1);
	assert_day(answer.items[0].obligations[0].due, "2027-06-30");
}

PREPARED_TEST(nothing_on_record_and_a_tag_named_twice_are_refused)
{
	const char *words[] = {"FL-2", "FL-1..FL-3"};
	struct word_list tags = {.items = words, .count = 2};
	const struct pieces_asked asked = {.tags = &tags, .task = -1};
	struct pieces_answer pieces;
	struct history_answer history;
	assert_false(desk_pieces(&asking->desk, &asked, &pieces, &asking->fault));
	assert_int_equal(asking->fault.kind, FAULT_INPUT);
	assert_false(desk_history(&asking->desk, "Z-99", &history, &asking->fault));
	assert_int_equal(asking->fault.kind, FAULT_INPUT);
}

/* The fault names the field of what was asked, behind its mark. */
static void
assert_about(const struct asking *asking, enum fault_kind kind, const char *words)
{
	assert_int_equal(asking->fault.kind, kind);
	if (strstr(asking->fault.text, words) == NULL) {
		fail_msg("\"%s\" does not say \"%s\"", asking->fault.text, words);
	}
}

PREPARED_TEST(days_the_wrong_way_round_are_refused_by_field)
{
	const struct muster_asked muster = {
	    .from = day_of("2027-06-19"), .to = day_of("2027-06-05")};
	const struct bookings_asked bookings = {.days = {muster.from, muster.to}};
	const struct word_list none = {0};
	const struct rota_asked rota = {
	    .boats = &none, .from = day_of("2026-11-24"), .to = DAY_NONE};
	struct muster_answer mustered;
	struct rota_answer staggered;
	struct booked *booked = NULL;
	size_t count = 0;
	assert_false(desk_muster(&asking->desk, &muster, &mustered, &asking->fault));
	assert_about(asking, FAULT_USAGE, FIELD "to before its " FIELD "from");
	assert_false(
	    bookings_muster(&asking->desk, &bookings, &booked, &count, &asking->fault));
	assert_about(asking, FAULT_USAGE, FIELD "to before its " FIELD "from");
	assert_false(desk_rota(&asking->desk, &rota, &staggered, &asking->fault));
	assert_about(asking, FAULT_USAGE, FIELD "from before today");
}

PREPARED_TEST(years_refuse_a_price_station_or_base_that_is_not_there)
{
	const char *station[] = {"Nowhere"};
	const struct outlook_price price = {.kind = "raft of sorts", .minor = 100};
	struct years_asked asked = {.winters = 1, .least = GRADE_PRACTICE};
	struct years_answer answer;
	asked.base = "Nowhere";
	assert_false(desk_years(&asking->desk, &asked, &answer, &asking->fault));
	assert_about(asking, FAULT_INPUT, FIELD "base");
	asked.prices = &price;
	asked.price_count = 1;
	assert_false(desk_years(&asking->desk, &asked, &answer, &asking->fault));
	assert_about(asking, FAULT_INPUT, FIELD "price");
	asked.price_count = 0;
	asked.without_stations = (struct word_list){.items = station, .count = 1};
	assert_false(desk_years(&asking->desk, &asked, &answer, &asking->fault));
	assert_about(asking, FAULT_INPUT, FIELD "without-station");
}

/* Looking at other numbers of winters is for the book as it is. */
PREPARED_TEST(years_have_asides_of_one_boat_as_she_is_alone)
{
	struct years_asked asked = {
	    .winters = 2, .least = GRADE_PRACTICE, .asides = true};
	struct years_answer answer;
	asking_done(asking, desk_years(&asking->desk, &asked, &answer, &asking->fault));
	assert_int_equal(answer.view.count, 1);
	assert_int_equal(answer.view.plans[0].clashes.winters, 2);
	asked.skip_year = 2027;
	asking_done(asking, desk_years(&asking->desk, &asked, &answer, &asking->fault));
	assert_int_equal(answer.view.plans[0].clashes.winters, 0);
}

/* More boats than are loaded at a time, with a flare and a raft each; of every fifth
 * flare no date is known. */
static void
import_fleet(const struct asking *asking)
{
	SCOPED_TEXT list = {0};
	text_add(&list, "tag,kind,vessel,expires\n");
	for (int boat = 0; boat < 150; boat++) {
		text_add_format(&list, "RF-%d,flare-red-hand,Tern %03d,", boat, boat);
		if (boat % 5 > 0) {
			text_add_format(&list, "20%d-%02d-%02d", 25 + boat % 4,
			    1 + boat * 7 % 12, 1 + boat % 28);
		}
		text_add_format(
		    &list, "\nLR-9%d,liferaft-valise,Tern %03d,\n", boat, boat);
	}
	import(asking->path, text_string(&list));
}

struct by_boats {
	struct asking *asking;
	struct runs kept;
	size_t times;
};

static void
keep_some(const struct due_answer *some, void *of)
{
	struct by_boats *all = of;
	answer_due_keep(&all->asking->desk.contents.inventory, some->agenda.items,
	    some->agenda.count, &all->kept);
	all->times++;
}

PREPARED_TEST(due_of_many_boats_is_the_same_some_boats_at_a_time)
{
	struct by_boats all = {.asking = asking};
	const struct due_asked asked = {.state = -1, .within_days = -1};
	struct due_answer whole;
	struct due_answer out;
	SCOPED_RUNS one_run = {0};
	SCOPED_TEXT at_once = {0};
	SCOPED_TEXT by_boats = {0};
	import_fleet(asking);
	asking_done(asking, desk_due(&asking->desk, &asked, &whole, &asking->fault));
	answer_due_keep(&asking->desk.contents.inventory, whole.agenda.items,
	    whole.agenda.count, &one_run);
	asking_done(asking, answer_kept(&one_run, &at_once, &asking->fault));
	asking_done(asking, desk_due_by_boats(&asking->desk, &asked, keep_some, &all,
				&out, &asking->fault));
	asking_done(asking, answer_kept(&all.kept, &by_boats, &asking->fault));
	runs_clear(&all.kept);
	assert_true(all.times > 1);
	assert_true(whole.agenda.count > 150 && whole.later > 0);
	assert_int_equal(out.later, whole.later);
	assert_int_equal(out.wrong, whole.wrong);
	assert_int_equal(strcmp(text_string(&by_boats), text_string(&at_once)), 0);
}

/* Puts every third boat at one of two bases, in turn, so that their names go between. */
static void
berth_fleet(const struct asking *asking)
{
	for (int boat = 0; boat < 150; boat += 3) {
		SCOPED_DESK desk = {.book_path = asking->path,
		    .book_named = true,
		    .mode = BOOK_WRITE,
		    .shelf.folder = "",
		    .signature = {.who = "", .act = "vessel"},
		    .today = day_of("2026-11-25")};
		struct fault fault = {0};
		char name[16];
		(void)snprintf(name, sizeof name, "Tern %03d", boat);
		const struct vessel_request request = {
		    .change = {.name = name,
			.set = SAYS_BASE,
			.base = boat % 2 == 0 ? "Port Marrin" : "Cape Lorne"}};
		if (!desk_vessel(&desk, &request, &fault)) {
			fail_msg("%s", fault.text);
		}
	}
}

static void
keep_musters(const struct muster_answer *some, const size_t *places, void *of)
{
	struct by_boats *all = of;
	answer_muster_keep(&all->asking->desk.contents.inventory, places, some->musters,
	    some->count, &all->kept);
	all->times++;
}

PREPARED_TEST(muster_of_many_boats_is_the_same_base_by_base)
{
	struct by_boats all = {.asking = asking};
	struct by_boats one = {.asking = asking};
	const struct muster_asked asked = {
	    .on = asking->desk.today, .from = DAY_NONE, .to = DAY_NONE};
	struct muster_answer whole;
	struct muster_answer out;
	SCOPED_TEXT at_once = {0};
	SCOPED_TEXT by_bases = {0};
	import_fleet(asking);
	berth_fleet(asking);
	asking_done(asking, desk_muster(&asking->desk, &asked, &whole, &asking->fault));
	keep_musters(&whole, NULL, &one);
	asking_done(asking,
	    answer_muster_kept(&whole.question, &one.kept, &at_once, &asking->fault));
	asking_done(asking, desk_muster_by_bases(&asking->desk, &asked, keep_musters,
				&all, &out, &asking->fault));
	asking_done(asking,
	    answer_muster_kept(&out.question, &all.kept, &by_bases, &asking->fault));
	runs_clear(&all.kept);
	runs_clear(&one.kept);
	/* 25 boats at each base, the others each by herself: 64 at a time, and the rest */
	assert_int_equal(all.times, 3);
	assert_int_equal(out.count, 151);
	assert_int_equal(out.ok, whole.ok);
	assert_int_equal(strcmp(text_string(&by_bases), text_string(&at_once)), 0);
}

/* Plans kept as they come. */
struct years_taken {
	struct years_kept kept;
	size_t times;
};

static void
keep_years(const struct years_answer *some, const size_t *places, void *of)
{
	struct years_taken *taken = of;
	answer_years_keep(&some->view, places, &taken->kept);
	taken->times++;
}

PREPARED_TEST(years_of_many_boats_are_the_same_base_by_base)
{
	struct years_taken all = {0};
	struct years_taken one = {0};
	const struct years_asked asked = {
	    .winters = 2, .least = GRADE_PRACTICE, .fleet = true, .asides = true};
	struct years_answer whole;
	SCOPED_TEXT at_once = {0};
	SCOPED_TEXT by_bases = {0};
	import_fleet(asking);
	berth_fleet(asking);
	asking_done(asking, desk_years(&asking->desk, &asked, &whole, &asking->fault));
	keep_years(&whole, NULL, &one);
	asking_done(asking, answer_years_kept(&one.kept, &at_once, &asking->fault));
	asking_done(asking,
	    desk_years_by_bases(&asking->desk, &asked, keep_years, &all, &asking->fault));
	asking_done(asking, answer_years_kept(&all.kept, &by_bases, &asking->fault));
	/* two bases, and 101 boats without one */
	assert_int_equal(all.kept.total.plans, 103);
	assert_int_equal(all.times, 3);
	assert_int_equal(strcmp(text_string(&by_bases), text_string(&at_once)), 0);
	years_kept_clear(&all.kept);
	years_kept_clear(&one.kept);
}

PREPARED_TEST(a_part_is_all_of_a_book_that_was_written_since_it_was_made_up)
{
	struct desk *desk = &asking->desk;
	const char *tag = "NO-1";
	import(asking->path, "tag,kind,vessel\nNO-1,tether,Night Owl\n");
	asking_done(asking, desk_load(desk, NULL, true, &asking->fault));
	struct book_part part = {
	    .tags = &tag, .tag_count = 1, .as_of = desk->contents.revision};
	desk_forget(desk);
	desk->about = &part;
	asking_done(asking, desk_load(desk, NULL, true, &asking->fault));
	assert_int_equal(desk->contents.inventory.item_count, 1);
	import(asking->path, "tag,kind,vessel\nNO-2,epirb,Amber Tern\n");
	desk_forget(desk);
	desk->about = &part;
	asking_done(asking, desk_load(desk, NULL, true, &asking->fault));
	assert_int_equal(desk->contents.inventory.item_count, 6);
	desk->about = NULL;
}

PREPARED_TEST(what_another_enters_meanwhile_has_its_tag_before_a_fresh_one_is_given)
{
	struct desk *desk = &asking->desk;
	const struct newcomers newcomers = {
	    .kind = "tether", .fresh = 1, .vessel = "Amber Tern"};
	const struct book_part *part = newcomers_part(desk, &newcomers);
	assert_non_null(part);
	import(asking->path, "tag,kind,vessel\nTE-1,tether,Night Owl\n");
	desk->about = part;
	asking_done(asking, desk_load(desk, NULL, true, &asking->fault));
	desk->about = NULL;
	/* TE-1 is among what a fresh tag is made from */
	assert_int_equal(desk->contents.inventory.item_count, 5);
}

RUN_TESTS(NULL, NULL)
