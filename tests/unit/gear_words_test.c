/* The words that a book, a list and an option have for what gear can be: each is read
 * back as what it is, in any case, and any other is refused with all there are. */
#include "becket_test.h"
#include "gear/item.h"
#include "gear/paper.h"
#include "in_words.h"

#include <ctype.h>
#include <string.h>

/* Reads words of one sort as numbers, so that one test does for all. */
typedef bool read_word(const char *word, int *out, struct fault *fault);

#define READER(sort, type)                                                               \
	static bool read_##sort(const char *word, int *out, struct fault *fault)         \
	{                                                                                \
		type value = (type)0;                                                    \
		bool done = sort##_parse(word, &value, fault);                           \
		*out = (int)value;                                                       \
		return done;                                                             \
	}                                                                                \
	static const char *word_of_##sort(int value)                                     \
	{                                                                                \
		return sort##_word((type)value);                                         \
	}

READER(place, enum place_state)
READER(because, enum because)
READER(result, enum result)
READER(task, enum task)
READER(use, enum use)
READER(event, enum event_kind)

static const struct sort {
	read_word *read;
	const char *(*word)(int value);
	int first;
	int last;
	const char *refused; /* what is said of "zebra" */
} SORTS[] = {
    {read_place, word_of_place, PLACE_ABOARD, PLACE_WITHDRAWN, "is no state of an item"},
    {read_because, word_of_because, BECAUSE_CONDEMNED, BECAUSE_GIVEN_BACK,
	"is no reason to withdraw an item"},
    {read_result, word_of_result, RESULT_PASSED, RESULT_NOT_DONE, "is no result"},
    {read_task, word_of_task, TASK_SERVICE, TASK_REGISTER, "task"},
    {read_use, word_of_use, USE_PRIVATE, USE_COMMERCIAL, "use"},
    {read_event, word_of_event, EVENT_FIRED, EVENT_INFLATED, "event"},
};

enum { SORT_COUNT = sizeof SORTS / sizeof SORTS[0] };

TEST(every_word_is_read_as_what_it_is_in_any_case)
{
	for (size_t i = 0; i < SORT_COUNT; i++) {
		for (int value = SORTS[i].first; value <= SORTS[i].last; value++) {
			struct fault fault = {0};
			char loud[40] = "";
			int found = -1;
			const char *word = SORTS[i].word(value);
			for (size_t k = 0; word[k] != '\0' && k + 1 < sizeof loud; k++) {
				loud[k] = (char)toupper((unsigned char)word[k]);
			}
			assert_true(SORTS[i].read(word, &found, &fault));
			assert_int_equal(found, value);
			assert_true(SORTS[i].read(loud, &found, &fault));
			assert_int_equal(found, value);
		}
	}
}

TEST(another_word_is_refused_with_all_there_are)
{
	for (size_t i = 0; i < SORT_COUNT; i++) {
		struct fault fault = {0};
		int found = 0;
		assert_false(SORTS[i].read("zebra", &found, &fault));
		assert_int_equal(fault.kind, FAULT_INPUT);
		assert_non_null(strstr(fault.text, "zebra"));
		assert_non_null(strstr(fault.text, SORTS[i].refused));
		for (int value = SORTS[i].first; value <= SORTS[i].last; value++) {
			assert_non_null(strstr(fault.text, SORTS[i].word(value)));
		}
	}
}

/* "not said" is what stands where nothing was: nobody says it. */
TEST(a_result_is_not_said_by_saying_nothing)
{
	enum result found = RESULT_PASSED;
	struct fault fault = {0};
	assert_false(result_parse(result_word(RESULT_NOT_SAID), &found, &fault));
	assert_int_equal(found, RESULT_PASSED);
}

/* A record is the same by its day, its task, its next date and its certificate. */
TEST(records_that_differ_in_one_thing_are_not_the_same)
{
	const struct record one = {.on = stamp_of("2026-05-20"),
	    .task = TASK_SERVICE,
	    .next = stamp_of("2027-05"),
	    .station = "Loft",
	    .certificate = "C-1"};
	struct record others[] = {one, one, one, one};
	struct record elsewhere = one;
	others[0].on = stamp_of("2026-05-21");
	others[1].task = TASK_TEST;
	others[2].next = stamp_of("2027-06");
	others[3].certificate = "C-2";
	elsewhere.station = "Depot";
	elsewhere.price_minor = 100;
	assert_true(record_same(&one, &elsewhere));
	for (size_t i = 0; i < 4; i++) {
		assert_false(record_same(&one, &others[i]));
	}
}

/* An item as a change sets each of the fields, and nothing that is none. */
TEST(an_item_as_a_change_sets_every_field)
{
	const struct vessel vessel = {.name = "Brambling"};
	struct item items[] = {
	    {.tag = "LJ-1", .parent = ITEM_NO_PARENT}, {.tag = "CY-1", .parent = 0}};
	const struct inventory inventory = {
	    .vessels = &vessel, .vessel_count = 1, .items = items, .item_count = 2};
	const struct item_change whole = item_as_change(&inventory, 0);
	const struct item_change part = item_as_change(&inventory, 1);
	for (unsigned i = 0; i < 32; i++) {
		assert_int_equal(whole.set >> i & 1U, i < FIELD_COUNT);
	}
	assert_string_equal(whole.vessel, "Brambling");
	assert_string_equal(whole.part_of, "");
	assert_string_equal(part.part_of, "LJ-1");
	assert_string_equal(part.tag, "CY-1");
}

/* Of one day the order in which they were entered decides, where both are known to have
 * one and the work is dated to the day. */
TEST(work_follows_what_befell_on_a_later_day_or_was_entered_later)
{
	static const struct {
		const char *done;
		int64_t entered, befell_entered;
		bool follows;
	} ROWS[] = {
	    {"2026-11-24", 9, 1, false}, {"2026-11-26", 1, 9, true},
	    {"2026-11-26", 0, 0, true}, {"2026-11-25", 2, 1, true},
	    {"2026-11-25", 1, 2, false}, {"2026-11-25", 2, 2, false},
	    {"2026-11-25", 2, 0, false}, /* entered before there were such numbers */
	    {"2026-11-25", 0, 1, false},
	    {"2026-11", 2, 1, false}, /* the 1st, and of the 25th in doubt */
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct record record = {
		    .on = stamp_of(ROWS[i].done), .entered = ROWS[i].entered};
		const struct event event = {
		    .on = day_of("2026-11-25"), .entered = ROWS[i].befell_entered};
		assert_int_equal(record_follows(&record, &event), ROWS[i].follows);
	}
	/* a month whose first day is that of the event is no day */
	const struct record month = {.on = stamp_of("2026-11"), .entered = 2};
	const struct event first = {.on = day_of("2026-11-01"), .entered = 1};
	assert_false(record_follows(&month, &first));
}

TEST(a_thing_is_born_when_it_was_made_or_else_packed)
{
	struct item item = {0};
	assert_int_equal(item_born(&item), DAY_NONE);
	item.packed = stamp_of("2021-05");
	assert_int_equal(item_born(&item), day_of("2021-05-01"));
	item.made = stamp_of("2020");
	assert_int_equal(item_born(&item), day_of("2020-01-01"));
}

TEST(what_is_no_type_of_paper_is_found_to_be_none)
{
	assert_string_equal(paper_type_find("text/plain")->words, "plain text");
	assert_null(paper_type_find("text/markdown"));
}

RUN_TESTS(NULL, NULL)
