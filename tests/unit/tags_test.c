/* Lists of tags: nothing left out, nothing made up. */
#include "report/tags.h"

#include "becket_test.h"

/* Lists up to four tags and compares. */
static void
assert_listed(const char *const tags[4], const char *expected)
{
	SCOPED_TEXT out = {0};
	struct tag_list list = {.out = &out};
	for (size_t i = 0; i < 4 && tags[i] != NULL; i++) {
		tag_list_add(&list, tags[i]);
	}
	tag_list_end(&list);
	assert_string_equal(text_string(&out), expected);
}

TEST(tags_are_listed_with_runs_of_three_or_more_drawn_together)
{
	static const struct {
		const char *const tags[4];
		const char *listed;
		const char *note;
	} ROWS[] = {
	    {{NULL}, "", "none"},
	    {{"FE-1"}, "FE-1", "one"},
	    {{"FE-1", "FE-2"}, "FE-1, FE-2", "two stay two"},
	    {{"FE-1", "FE-2", "FE-3"}, "FE-1 to FE-3", "a run"},
	    {{"FE-8", "FE-9", "FE-10", "FE-11"}, "FE-8 to FE-11", "across ten"},
	    {{"FE-1", "FE-2", "FE-4", "FE-5"}, "FE-1, FE-2, FE-4, FE-5", "a gap"},
	    {{"FE-3", "FE-2", "FE-1"}, "FE-3, FE-2, FE-1", "backwards is no run"},
	    {{"FE-1", "FL-2", "FL-3"}, "FE-1, FL-2, FL-3", "another prefix"},
	    {{"FE-1", "FE-2", "FE-3", "PL-1"}, "FE-1 to FE-3, PL-1", "after a run"},
	    {{"FE-01", "FE-02", "FE-03"}, "FE-01, FE-02, FE-03", "noughts in front"},
	    {{"A", "B", "C"}, "A, B, C", "no numbers"},
	    {{"1", "2", "3"}, "1 to 3", "nothing but numbers"},
	    {{"X9999998", "X9999999"}, "X9999998, X9999999", "too long a number"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_listed(ROWS[i].tags, ROWS[i].listed);
	}
}

RUN_TESTS(NULL, NULL)
