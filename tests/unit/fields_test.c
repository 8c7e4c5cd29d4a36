#include "gear/fields.h"

#include "becket_test.h"
#include "gear/fleet_change.h"
#include "gear/item.h"
#include "in_words.h"

#include <string.h>

/* Calls a function for each row. */
static void
each_row(void (*row)(const struct field *field))
{
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		row(&ITEM_FIELDS[i]);
	}
	for (size_t i = 0; i < RECORD_FIELD_COUNT; i++) {
		row(&RECORD_FIELDS[i]);
	}
}

/* Letters, digits and, between words, one kind of sign. */
static void
assert_spelt(const char *words, char between)
{
	for (const char *at = words; *at != '\0'; at++) {
		bool letter = (*at >= 'a' && *at <= 'z') || (*at >= '0' && *at <= '9');
		bool sign =
		    *at == between && at != words && at[1] != between && at[1] != '\0';
		if (!letter && !sign) {
			fail_msg("\"%s\" is spelt otherwise at \"%s\"", words, at);
		}
	}
}

static void
check_spelling(const struct field *field)
{
	assert_spelt(field->name, '_');
	assert_spelt(field->synonyms, ' ');
	if (field->option != NULL) {
		assert_spelt(field->option, '-');
		assert_int_equal(strlen(field->option), strlen(field->name));
	}
}

TEST(names_options_and_headers_are_spelt_as_they_are_compared)
{
	each_row(check_spelling);
}

TEST(no_two_fields_have_one_name_or_one_place_in_what_is_shown)
{
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		for (size_t j = 0; j < i; j++) {
			assert_string_not_equal(ITEM_FIELDS[i].name, ITEM_FIELDS[j].name);
			assert_true(ITEM_FIELDS[i].shown == 0 ||
				    ITEM_FIELDS[i].shown != ITEM_FIELDS[j].shown);
		}
	}
}

static void
assert_options_differ(const struct field *fields, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		assert_spelt(fields[i].option, '-');
		for (size_t j = 0; j < i; j++) {
			assert_string_not_equal(fields[i].option, fields[j].option);
		}
	}
}

TEST(no_two_fields_of_a_vessel_or_a_station_have_one_option)
{
	assert_options_differ(VESSEL_FIELDS, VESSEL_FIELD_COUNT);
	assert_options_differ(STATION_FIELDS, STATION_FIELD_COUNT);
}

/* A private boat with nothing else told, and one of which all is. */
TEST(a_field_of_a_vessel_is_empty_until_it_is_told)
{
	const struct vessel_change nothing = {.area = ""};
	const struct vessel_change all = {.area = "coastal",
	    .length_cm = 1045,
	    .persons = 6,
	    .season_months = 7,
	    .above_freezing = -1,
	    .dry_storage = 1,
	    .built = 1998,
	    .most_trips = 4,
	    .margin_days = 7};
	for (size_t i = 0; i < VESSEL_FIELD_COUNT; i++) {
		const struct field *field = &VESSEL_FIELDS[i];
		if (!field->part && field->type != VALUE_USE &&
		    field->type != VALUE_FLAG) {
			assert_true(field_is_empty(field, &nothing));
			assert_false(field_is_empty(field, &all));
			assert_false(field_same(field, &nothing, &all));
		}
	}
}

/* An empty one differs in no field from another, and has nothing to write but its state. */
TEST(a_blank_change_writes_nothing)
{
	struct item_change change = blank_change();
	assert_int_equal(change.set, 0);
	assert_null(change.tag);
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		SCOPED_TEXT cell = {0};
		field_add(&ITEM_FIELDS[i], &change, "EUR", &cell);
		assert_string_equal(text_string(&cell), i == FIELD_STATE      ? "aboard"
							: i == FIELD_QUANTITY ? "1"
									      : "");
	}
}

/* The form a person reads, with the month's name and the unit. */
TEST(a_value_is_told_in_words)
{
	struct item_change change = blank_change();
	SCOPED_TEXT words = {0};
	change.capacity = 6;
	change.price_minor = 24900;
	change.expires = stamp_of("before 2027-06");
	change.hired_until = day_from_civil(2027, 6, 30);

	static const enum item_field TOLD[] = {FIELD_CAPACITY, FIELD_PRICE, FIELD_EXPIRES,
	    FIELD_HIRED_UNTIL, FIELD_LANDED_ON, FIELD_PACKED, FIELD_RATING};

	for (size_t i = 0; i < sizeof TOLD / sizeof TOLD[0]; i++) {
		field_add_words(&ITEM_FIELDS[TOLD[i]], &change, "EUR", &words);
		text_add(&words, ";");
	}
	change.capacity = 1;
	field_add_words(&ITEM_FIELDS[FIELD_CAPACITY], &change, "EUR", &words);
	assert_string_equal(text_string(&words),
	    "6 persons;EUR 249.00;before Jun 2027;30 Jun 2027;;;;1 person");
}

/* A value of each type. */
struct each {
	const char *text;
	struct stamp stamp;
	day_t day;
	int count, either;
	int64_t price;
	enum place_state state;
	enum because because;
	enum task task;
	enum use use;
	bool flag;
};

TEST(a_value_of_each_type_is_emptied_compared_and_written)
{
#define FIELD_AT(sort, member, none)                                                     \
	{                                                                                \
		.type = VALUE_##sort, .offset = offsetof(struct each, member),           \
		.blank = (none)                                                          \
	}
	static const struct field FIELDS[] = {FIELD_AT(NAME, text, 0),
	    FIELD_AT(STAMP, stamp, 0), FIELD_AT(DAY, day, 0), FIELD_AT(COUNT, count, 1),
	    FIELD_AT(EITHER, either, 0), FIELD_AT(PRICE, price, -1),
	    FIELD_AT(STATE, state, 0), FIELD_AT(BECAUSE, because, 0),
	    FIELD_AT(TASK, task, 0), FIELD_AT(USE, use, 0), FIELD_AT(FLAG, flag, 0)};
	static const char *const WRITTEN[] = {"K-7", "2027-06", "2027-06-30", "6", "no",
	    "249.00", "landed", "sold", "weigh", "commercial", "yes"};
	static const char *const BLANK[] = {
	    "", "", "", "1", "", "", "aboard", "", "service", "private", ""};
	const struct each full = {.text = "K-7",
	    .stamp = stamp_of("2027-06"),
	    .day = day_of("2027-06-30"),
	    .count = 6,
	    .either = -1,
	    .price = 24900,
	    .state = PLACE_LANDED,
	    .because = BECAUSE_SOLD,
	    .task = TASK_WEIGH,
	    .use = USE_COMMERCIAL,
	    .flag = true};
	for (size_t i = 0; i < sizeof FIELDS / sizeof FIELDS[0]; i++) {
		struct each emptied = full;
		SCOPED_TEXT words = {0};
		assert_true(field_same(&FIELDS[i], &full, &emptied));
		field_empty(&FIELDS[i], &emptied);
		for (size_t k = 0; k < sizeof FIELDS / sizeof FIELDS[0]; k++) {
			assert_int_equal(field_same(&FIELDS[k], &full, &emptied), k != i);
		}
		field_add(&FIELDS[i], &full, "EUR", &words);
		assert_string_equal(text_string(&words), WRITTEN[i]);
		text_reset(&words);
		field_add(&FIELDS[i], &emptied, "EUR", &words);
		assert_string_equal(text_string(&words), BLANK[i]);
	}
	const struct each yes = {.either = 1};
	SCOPED_TEXT words = {0};
	field_add(&FIELDS[4], &yes, "EUR", &words);
	assert_string_equal(text_string(&words), "yes");
}

TEST(a_field_is_the_same_only_when_its_own_value_is)
{
	struct item_change a = blank_change();
	struct item_change b = blank_change();
	b.serial = "C-1";
	b.made = stamp_of("2021-04~");
	b.notes = NULL;
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		bool differs = i == FIELD_SERIAL || i == FIELD_MADE;
		assert_int_equal(field_same(&ITEM_FIELDS[i], &a, &b), !differs);
	}
}

RUN_TESTS(NULL, NULL)
