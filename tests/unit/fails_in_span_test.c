/* Whether a task fails within a span of days, by readings made by hand. Days are bare numbers. */
#include "becket_test.h"
#include "due/due.h"

#define ALWAYS                                                                           \
	{                                                                                \
		DAY_NONE, DAY_NEVER                                                      \
	}

/* A reading of the law, in force on the days of one span and surely so. */
struct made {
	enum reading_state state;
	day_t good_through; /* DAY_NONE when it can't start */
	struct span force;
	enum grade grade;
	enum anchor anchor;
	bool wants_maker;
};

/* Whether an obligation with these readings fails in a span. */
static bool
fails(const struct made *made, size_t count, bool asks, struct span span)
{
	struct reading readings[4] = {0};
	for (size_t i = 0; i < count; i++) {
		struct spans force = {&made[i].force, 1};
		readings[i] = (struct reading){.state = made[i].state,
		    .due = made[i].good_through,
		    .good_through = made[i].good_through,
		    .in_force = force,
		    .sure = force,
		    .grade = made[i].grade,
		    .anchor = made[i].anchor,
		    .wants_maker = made[i].wants_maker,
		    .asks = ""};
	}
	struct obligation obligation = {
	    .readings = readings, .reading_count = count, .asks = asks};
	return obligation_fails_in(&obligation, span, GRADE_LAW);
}

static void
check_rows(const struct made *made, size_t count, const struct span *spans,
    const bool *expected, size_t rows)
{
	for (size_t i = 0; i < rows; i++) {
		if (fails(made, count, true, spans[i]) != expected[i]) {
			fail_msg("days %d to %d: %s", (int)spans[i].first,
			    (int)spans[i].last,
			    expected[i] ? "should fail" : "should hold");
		}
	}
}

/* Good through day 100. */
TEST(it_fails_from_the_day_after_its_last_good_one)
{
	static const struct made CLOCK = {READING_RUNS, 100, ALWAYS, GRADE_LAW, 0, false};
	static const struct span SPANS[] = {{50, 100}, {50, 101}, {100, 100}, {101, 120}};
	static const bool FAILS[] = {false, true, false, true};
	check_rows(&CLOCK, 1, SPANS, FAILS, 4);
}

TEST(any_of_its_clocks_fails_it)
{
	static const struct made CLOCKS[] = {
	    {READING_RUNS, 900, ALWAYS, GRADE_LAW, 0, false},
	    {READING_RUNS, 800, ALWAYS, GRADE_LAW, 0, false},
	    {READING_RUNS, 100, ALWAYS, GRADE_LAW, 0, false}};
	static const struct span SPAN = {50, 150};
	assert_true(fails(CLOCKS, 3, false, SPAN));
	assert_false(fails(CLOCKS, 2, false, SPAN));
}

TEST(a_rule_fails_it_only_while_in_force)
{
	static const struct made LATER = {
	    READING_RUNS, 100, {110, DAY_NEVER}, GRADE_LAW, 0, false};
	static const struct span TO_THEN[] = {{90, 109}, {90, 110}};
	static const bool FAILS[] = {false, true};
	check_rows(&LATER, 1, TO_THEN, FAILS, 2);
	static const struct span SPAN = {50, 150};
	static const bool YES = true;
	static const bool NO = false;
	static const struct made ENDS_GOOD = {
	    READING_RUNS, 100, {0, 100}, GRADE_LAW, 0, false};
	check_rows(&ENDS_GOOD, 1, &SPAN, &NO, 1);
	static const struct made A_DAY_MORE = {
	    READING_RUNS, 100, {0, 101}, GRADE_LAW, 0, false};
	check_rows(&A_DAY_MORE, 1, &SPAN, &YES, 1);
	static const struct span BEHIND = {102, 150};
	check_rows(&A_DAY_MORE, 1, &BEHIND, &NO, 1);
}

TEST(less_binding_than_asked_does_not_fail_it)
{
	static const struct made CLOCK = {
	    READING_RUNS, 100, ALWAYS, GRADE_PRACTICE, 0, false};
	static const struct made UNTOLD = {
	    READING_NOT_KNOWN, DAY_NONE, ALWAYS, GRADE_PRACTICE, 0, false};
	static const struct span SPAN = {50, 150};
	assert_false(fails(&CLOCK, 1, true, SPAN));
	assert_false(fails(&UNTOLD, 1, true, SPAN));
}

#define STUCK(from, to)                                                                  \
	{                                                                                \
		READING_NOT_KNOWN, DAY_NONE, {from, to}, GRADE_LAW, 0, false             \
	}
#define TOLD(from, to)                                                                   \
	{                                                                                \
		READING_RUNS, 900, {from, to}, GRADE_LAW, 0, false                       \
	}

/* Asked of days far ahead of the one that the other clock tells. */
TEST(what_can_not_be_told_fails_it_unless_another_clock_tells)
{
	static const struct span SPAN = {50, 150};
	static const struct made ALONE[] = {STUCK(0, DAY_NEVER)};
	static const struct made BEFORE[] = {STUCK(0, DAY_NEVER), TOLD(0, DAY_NEVER)};
	static const struct made BEHIND[] = {TOLD(0, DAY_NEVER), STUCK(0, DAY_NEVER)};
	static const struct made BETWEEN[] = {
	    STUCK(0, DAY_NEVER), TOLD(0, DAY_NEVER), STUCK(0, DAY_NEVER)};
	static const struct made TELLS_ALONE[] = {TOLD(0, DAY_NEVER)};
	assert_true(fails(ALONE, 1, true, SPAN));
	assert_false(fails(ALONE, 1, false, SPAN));
	assert_false(fails(BEFORE, 2, true, SPAN));
	assert_false(fails(BEHIND, 2, true, SPAN));
	assert_false(fails(BETWEEN, 3, true, SPAN));
	assert_false(fails(TELLS_ALONE, 1, true, SPAN));
}

/* It tells on the days from 40 to 60, and then no more. */
TEST(a_clock_that_goes_out_of_force_tells_no_longer)
{
	static const struct made CLOCKS[] = {STUCK(0, DAY_NEVER), TOLD(40, 60)};
	static const struct span SPANS[] = {
	    {50, 60}, {50, 61}, {60, 70}, {61, 61}, {39, 39}, {40, 60}};
	static const bool FAILS[] = {false, true, true, true, true, false};
	check_rows(CLOCKS, 2, SPANS, FAILS, 6);
}

/* It can't be told from day 70 to day 80. */
TEST(what_can_not_be_told_counts_from_the_day_it_is_in_force)
{
	static const struct made CLOCK[] = {STUCK(70, 80)};
	static const struct span SPANS[] = {
	    {50, 69}, {50, 70}, {70, 70}, {80, 90}, {81, 90}};
	static const bool FAILS[] = {false, true, true, true, false};
	check_rows(CLOCK, 1, SPANS, FAILS, 5);
}

/* Its rule leaves the interval to the maker: another rule is no answer, a paper's date is. */
TEST(only_a_paper_stands_for_the_maker_s_interval)
{
	static const struct span SPAN = {50, 150};
	static const struct made RULE[] = {
	    {READING_NOT_KNOWN, DAY_NONE, ALWAYS, GRADE_LAW, 0, true},
	    TOLD(0, DAY_NEVER)};
	static const struct made PAPER[] = {
	    {READING_NOT_KNOWN, DAY_NONE, ALWAYS, GRADE_LAW, 0, true},
	    {READING_RUNS, 900, ALWAYS, GRADE_LAW, ANCHOR_CERTIFICATE, false}};
	assert_true(fails(RULE, 2, true, SPAN));
	assert_false(fails(PAPER, 2, true, SPAN));
}

/* The paper may be read first. */
TEST(a_paper_stands_for_the_maker_s_interval_wherever_it_comes)
{
	static const struct span SPAN = {50, 150};
	static const struct made PAPER[] = {
	    {READING_RUNS, 900, ALWAYS, GRADE_LAW, ANCHOR_CERTIFICATE, false},
	    {READING_NOT_KNOWN, DAY_NONE, ALWAYS, GRADE_LAW, 0, true}};
	assert_false(fails(PAPER, 2, true, SPAN));
}

/* It may hold on every day, and surely does so up to day 60: from the 61st on nothing tells. */
TEST(a_clock_tells_only_on_the_days_on_which_it_surely_holds)
{
	const struct span always = ALWAYS;
	const struct span sure = {0, 60};
	const struct reading reading = {.state = READING_RUNS,
	    .due = 900,
	    .good_through = 900,
	    .in_force = {&always, 1},
	    .sure = {&sure, 1},
	    .grade = GRADE_LAW,
	    .asks = ""};
	const struct obligation obligation = {
	    .readings = &reading, .reading_count = 1, .asks = true};
	assert_false(obligation_fails_in(&obligation, (struct span){50, 60}, GRADE_LAW));
	assert_true(obligation_fails_in(&obligation, (struct span){50, 61}, GRADE_LAW));
}

RUN_TESTS(NULL, NULL)
