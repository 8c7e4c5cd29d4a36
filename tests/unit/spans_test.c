/* Sets of days against a slow one: a row of flags, one a day. */
#include "dates/spans.h"

#include "becket_test.h"

/* The flags stand for days 0 to 63; the first for everything before it too, and the last
 * for everything after, so that open ends can be told. */
enum { DAYS = 64, ROUNDS = 20000 };

struct flags {
	bool on[DAYS];
};

static uint32_t
next_random(uint32_t *seed)
{
	*seed ^= *seed << 13;
	*seed ^= *seed >> 17;
	*seed ^= *seed << 5;
	return *seed;
}

/* The day a flag stands for, as the first or the last of a span. */
static day_t
first_of(int flag)
{
	return flag == 0 ? DAY_NONE : flag;
}

static day_t
last_of(int flag)
{
	return flag == DAYS - 1 ? DAY_NEVER : flag;
}

static struct flags
random_flags(uint32_t *seed)
{
	struct flags flags = {{false}};
	uint32_t stretch = next_random(seed) % 12 + 1; /* long stretches and short ones */
	bool on = next_random(seed) % 2 == 0;
	for (int i = 0; i < DAYS; i++) {
		if (next_random(seed) % stretch == 0) {
			on = !on;
		}
		flags.on[i] = on;
	}
	return flags;
}

/* The set with just these days, built from the flags' runs one union at a time. */
static struct spans
set_of(struct arena *arena, const struct flags *flags)
{
	struct spans set = {0};
	for (int i = 0; i < DAYS; i++) {
		struct spans one = {0};
		if (flags->on[i]) {
			struct span day = {first_of(i), last_of(i)};
			spans_one(arena, day, &one);
			spans_either(arena, set, one, &set);
		}
	}
	return set;
}

/* Asserts that the set holds just the flagged days and is in its normal form. */
static void
assert_set(struct spans set, const struct flags *flags)
{
	for (int i = 0; i < DAYS; i++) {
		assert_int_equal(spans_have(set, i), flags->on[i]);
	}
	assert_int_equal(spans_have(set, DAY_MIN), flags->on[0]);
	assert_int_equal(spans_have(set, DAY_MAX), flags->on[DAYS - 1]);
	for (size_t i = 0; i < set.count; i++) {
		assert_true(set.items[i].first <= set.items[i].last);
		if (i > 0) {
			assert_true(set.items[i - 1].last < set.items[i].first - 1);
		}
	}
}

TEST(random_sets_agree_with_flags)
{
	struct arena arena = {0};
	uint32_t seed = 20261125;
	for (int round = 0; round < ROUNDS; round++) {
		struct flags a = random_flags(&seed);
		struct flags b = random_flags(&seed);
		struct flags both;
		struct flags either;
		struct flags except;
		for (int i = 0; i < DAYS; i++) {
			both.on[i] = a.on[i] && b.on[i];
			either.on[i] = a.on[i] || b.on[i];
			except.on[i] = a.on[i] && !b.on[i];
		}
		struct spans set_a = set_of(&arena, &a);
		struct spans set_b = set_of(&arena, &b);
		struct spans out = {0};
		assert_set(set_a, &a);
		spans_both(&arena, set_a, set_b, &out);
		assert_set(out, &both);
		spans_either(&arena, set_a, set_b, &out);
		assert_set(out, &either);
		spans_except(&arena, set_a, set_b, &out);
		assert_set(out, &except);
		arena_reset(&arena);
	}
	arena_clear(&arena);
}

TEST(the_span_from_a_day_on_is_the_one_that_holds_it_or_the_next)
{
	static const struct span ITEMS[] = {{10, 20}, {30, 30}, {40, DAY_NEVER}};
	const struct spans set = {ITEMS, 3};
	const struct spans first_two = {ITEMS, 2};
	assert_ptr_equal(spans_from(set, 9), &ITEMS[0]);
	assert_ptr_equal(spans_from(set, 10), &ITEMS[0]);
	assert_ptr_equal(spans_from(set, 20), &ITEMS[0]);
	assert_ptr_equal(spans_from(set, 21), &ITEMS[1]);
	assert_ptr_equal(spans_from(set, 31), &ITEMS[2]);
	assert_ptr_equal(spans_from(set, DAY_NEVER), &ITEMS[2]);
	assert_null(spans_from(first_two, 31));
	assert_null(spans_from((struct spans){0}, 5));
}

TEST(after_a_day_come_all_later_ones_and_after_the_last_none)
{
	struct arena arena = {0};
	struct spans out = {0};
	spans_after(&arena, 10, &out);
	assert_int_equal(out.count, 1);
	assert_false(spans_have(out, 10));
	assert_true(spans_have(out, 11));
	assert_true(spans_have(out, DAY_MAX));
	spans_after(&arena, DAY_NEVER, &out);
	assert_int_equal(out.count, 0);
	arena_clear(&arena);
}

TEST(always_holds_every_day_and_nothing_is_left_without_it)
{
	struct arena arena = {0};
	struct spans out = {0};
	assert_true(spans_have(spans_always(), DAY_MIN));
	assert_true(spans_have(spans_always(), DAY_MAX));
	spans_except(&arena, spans_always(), spans_always(), &out);
	assert_int_equal(out.count, 0);
	spans_except(&arena, spans_always(), (struct spans){0}, &out);
	assert_int_equal(out.count, 1);
	assert_int_equal(out.items[0].first, DAY_NONE);
	assert_int_equal(out.items[0].last, DAY_NEVER);
	arena_clear(&arena);
}

TEST(an_empty_span_makes_an_empty_set)
{
	struct arena arena = {0};
	struct spans out = spans_always();
	spans_one(&arena, (struct span){5, 4}, &out);
	assert_int_equal(out.count, 0);
	spans_one(&arena, (struct span){5, 5}, &out);
	assert_int_equal(out.count, 1);
	assert_true(spans_have(out, 5));
	assert_false(spans_have(out, 6));
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
