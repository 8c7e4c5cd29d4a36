/* Names that may be another one's, mistyped. */
#include "life/names.h"

#include "becket_test.h"
#include "blank_item.h"

TEST(a_letter_more_less_or_other_is_one_letter_apart_and_a_digit_is_not)
{
	static const struct {
		const char *a;
		const char *b;
		bool apart;
	} ROWS[] = {
	    {"Sandeel", "Sandell", true},  /* another */
	    {"Sandeel", "Bandeel", true},  /* another at the beginning */
	    {"Sandeel", "Sandeels", true}, /* one more */
	    {"Sandeel", "sandel", true},   /* one less, whatever its case */
	    {"Sandeel", "Sandeel", false}, /* the same */
	    {"Sandeel", "Sandlee", false}, /* two */
	    {"Sandeel 1", "Sandeel 2", false},
	    {"LJ-1", "LJ-11", false},
	    {"LJ-1", "LI-1", true},
	    {"A-1", "B-1", false}, /* the letter alone tells them apart */
	    {"FA", "FL", false},
	    {"LJ1X", "LJXX", false}, /* a figure for a letter */
	    {"Ada", "Ida", true},    /* three letters are enough, two are not */
	    {"", "", false},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_int_equal(
		    name_one_letter_apart(ROWS[i].a, ROWS[i].b), ROWS[i].apart);
		assert_int_equal(
		    name_one_letter_apart(ROWS[i].b, ROWS[i].a), ROWS[i].apart);
	}
}

TEST(a_known_name_is_near_no_other)
{
	const struct vessel vessels[] = {{.name = "Sandeel"}, {.name = "Sandeels"}};
	const struct inventory inventory = {.vessels = vessels, .vessel_count = 2};
	assert_null(vessel_name_near(&inventory, "Sandeel"));
	assert_string_equal(vessel_name_near(&inventory, "SANDEEL"), "Sandeel");
	assert_null(vessel_name_near(&inventory, "Quillfish"));
	const struct station stations[] = {{.name = "Loft"}};
	assert_string_equal(station_name_near(stations, 1, "loft"), "Loft");
	assert_null(station_name_near(stations, 1, "Loft"));
	assert_null(station_name_near(stations, 0, "Loft"));
}

TEST(any_of_the_known_names_may_be_near)
{
	const struct vessel vessels[] = {
	    {.name = "Quillfish"}, {.name = "Sandeel"}, {.name = "Whimbrel"}};
	const struct station stations[] = {{.name = "Depot"}, {.name = "Loft"}};
	const struct item items[] = {
	    blank_item("FL-1", "lifejacket-auto"), blank_item("LJ-1", "lifejacket-auto")};
	const struct inventory inventory = {
	    .vessels = vessels, .vessel_count = 3, .items = items, .item_count = 2};
	assert_string_equal(vessel_name_near(&inventory, "Sandell"), "Sandeel");
	assert_string_equal(vessel_name_near(&inventory, "whimbrel"), "Whimbrel");
	assert_null(vessel_name_near(&inventory, "Whimbrel"));
	assert_string_equal(station_name_near(stations, 2, "Lofd"), "Loft");
	assert_null(station_name_near(stations, 2, "Loft"));
	assert_string_equal(tag_near(&inventory, "LI-1", "lifejacket-auto"), "LJ-1");
	assert_null(tag_near(&inventory, "LJ-1", "lifejacket-auto"));
}

TEST(a_tag_a_letter_away_is_near_among_its_kind_alone)
{
	const struct item items[] = {blank_item("LJ-1", "lifejacket-auto")};
	const struct inventory inventory = {.items = items, .item_count = 1};
	assert_string_equal(tag_near(&inventory, "LI-1", "lifejacket-auto"), "LJ-1");
	assert_null(tag_near(&inventory, "LI-1", "lifebuoy"));
	assert_string_equal(tag_near(&inventory, "lj-1", "lifebuoy"), "LJ-1");
	assert_null(tag_near(&inventory, "LJ-1", "lifebuoy"));
	assert_null(tag_near(&inventory, "LJ-2", "lifejacket-auto"));
}

RUN_TESTS(NULL, NULL)
