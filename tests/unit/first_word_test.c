/* What the first word tells of: expected values by hand from its header. */
#include "becket_test.h"
#include "in_words.h"
#include "winter/agenda.h"

/* 25 November and seven days are 2 December. */
TEST(a_week_ends_seven_days_from_today_and_holds_what_was_missed)
{
	static const char *const DAYS[] = {
	    "2026-11-20", "2026-11-25", "2026-12-02", "2026-12-03"};
	const struct first_word word = {.today = day_of("2026-11-25")};
	for (size_t i = 0; i < 4; i++) {
		const struct coming coming = {.day = day_of(DAYS[i])};
		assert_int_equal(coming_this_week(&word, &coming), i < 3);
	}
}

/* What comes in this order, and whether it is among what is told when it is noted: the first three
 * days of all are 4 and 5 December and 29 January, which the 1st of February and of March no
 * more are once the fifth is noted. */
TEST(three_days_come_next_with_all_that_is_on_them_in_any_order)
{
	static const struct {
		const char *day;
		const char *key;
		bool told;
	} NOTED[] = {{"2027-02-01", "b", true}, {"2026-12-04", "n", true},
	    {"2027-03-01", "a", true}, {"2026-12-05", "c", true},
	    {"2027-03-01", "d", false}, {"2027-01-29", "p", true},
	    {"2026-12-04", "m", true}, {"2027-01-29", "q", true},
	    {"2027-02-01", "a", false}, {"2026-12-04", "o", true}};

	static const struct {
		const char *day;
		size_t count;
		const char *key;
	} NEXT[] = {
	    {"2026-12-04", 3, "m"}, {"2026-12-05", 1, "c"}, {"2027-01-29", 2, "p"}};

	SCOPED_ARENA arena = {0};
	struct coming_days days = {0};
	for (size_t i = 0; i < sizeof NOTED / sizeof NOTED[0]; i++) {
		const struct coming coming = {.day = day_of(NOTED[i].day),
		    .key = NOTED[i].key,
		    .summary = NOTED[i].key};
		assert_int_equal(coming_days_note(&days, &coming, &arena), NOTED[i].told);
	}
	assert_int_equal(days.count, 3);
	for (size_t i = 0; i < days.count; i++) {
		assert_int_equal(days.items[i].day, day_of(NEXT[i].day));
		assert_int_equal(days.items[i].count, NEXT[i].count);
		assert_string_equal(days.items[i].key, NEXT[i].key);
		assert_string_equal(days.items[i].summary, NEXT[i].key);
	}
}

/* Kept: the overdue one and the unknown one of the boat that is named, and once what is in date
 * and lacks a part. Left out: what is in date, a routine, gear in reserve, another boat's. */
TEST(not_in_date_leaves_out_routines_the_reserve_and_other_boats)
{
	static const struct vessel VESSELS[] = {{.name = "Quillfish"}, {.name = "Smew"}};
	static const struct item ITEMS[] = {{.vessel = 0, .tag = "LR-1"},
	    {.vessel = 0, .tag = "FL-1", .state = PLACE_RESERVE},
	    {.vessel = 1, .tag = "FL-9"}};
	const struct inventory inventory = {VESSELS, 2, ITEMS, 3, "EUR"};
	struct agenda_row rows[] = {{.item = 0, .state = STATE_DATE_UNKNOWN},
	    {.item = 0, .state = STATE_OVERDUE},
	    {.item = 0, .state = STATE_OVERDUE, .routine = true},
	    {.item = 0, .state = STATE_IN_DATE}, {.item = 1, .state = STATE_EXPIRED},
	    {.item = 2, .state = STATE_EXPIRED},
	    {.item = 0, .state = STATE_IN_DATE, .trouble = PART_GONE, .not_working = "C"},
	    {.item = 0,
		.state = STATE_IN_DATE,
		.trouble = PART_GONE,
		.not_working = "C"}};
	const struct agenda agenda = {.items = rows, .count = 8};
	struct first_word_part part = {0};
	struct arena arena = {0};
	first_word_not_in_date(&inventory, &agenda, "Quillfish", &arena, &part);
	assert_int_equal(part.row_count, 3);
	assert_int_equal(part.rows[2].trouble, PART_GONE);
	assert_int_equal(part.rows[0].state, STATE_DATE_UNKNOWN);
	assert_int_equal(part.rows[1].state, STATE_OVERDUE);
	first_word_not_in_date(&inventory, &agenda, NULL, &arena, &part);
	assert_int_equal(part.row_count, 4);
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
