/* What the first word tells of: expected values by hand from its header. */
#include "becket_test.h"
#include "in_words.h"
#include "winter/agenda.h"

enum { COMING_MOST = 8 };

/* Divides what is on these days, as seen from 25 November 2026. */
static struct first_word
divided(const char *const *days, size_t count, struct coming coming[COMING_MOST])
{
	struct first_word word = {.today = day_of("2026-11-25")};
	for (size_t i = 0; i < count; i++) {
		coming[i] = (struct coming){.day = day_of(days[i]), .summary = ""};
	}
	first_word_divide(coming, count, &word);
	return word;
}

/* 25 November and seven days are 2 December. */
TEST(a_week_ends_seven_days_from_today_and_holds_what_was_missed)
{
	static const char *const DAYS[] = {
	    "2026-11-20", "2026-11-25", "2026-12-02", "2026-12-03"};
	struct coming coming[COMING_MOST];
	struct first_word word = divided(DAYS, 4, coming);
	assert_int_equal(word.week_count, 3);
	assert_int_equal(word.next_count, 1);
	assert_ptr_equal(word.next, &coming[3]);
}

TEST(three_days_come_next_with_all_that_is_on_them)
{
	static const char *const DAYS[] = {"2026-12-04", "2026-12-04", "2026-12-05",
	    "2027-01-29", "2027-01-29", "2027-02-01"};
	struct coming coming[COMING_MOST];
	struct first_word word = divided(DAYS, 6, coming);
	assert_int_equal(word.week_count, 0);
	assert_int_equal(word.next_count, 5);
}

TEST(nothing_that_comes_is_nothing_told)
{
	struct coming coming[COMING_MOST];
	struct first_word word = divided(NULL, 0, coming);
	assert_int_equal(word.week_count, 0);
	assert_int_equal(word.next_count, 0);
}

/* Kept: the overdue one and the unknown one of the boat that is named. Left out: what is in
 * date, a routine, gear in reserve, another boat's. */
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
	    {.item = 2, .state = STATE_EXPIRED}};
	const struct agenda agenda = {.items = rows, .count = 6};
	struct first_word word = {.vessel = "Quillfish"};
	struct arena arena = {0};
	first_word_not_in_date(&inventory, &agenda, &arena, &word);
	assert_int_equal(word.row_count, 2);
	assert_int_equal(word.rows[0].state, STATE_DATE_UNKNOWN);
	assert_int_equal(word.rows[1].state, STATE_OVERDUE);
	word.vessel = NULL;
	first_word_not_in_date(&inventory, &agenda, &arena, &word);
	assert_int_equal(word.row_count, 3);
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
