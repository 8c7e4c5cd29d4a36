/* Money in lines of the journal. The amounts are divided by hand; the yen has no minor
 * unit (ISO 4217, from memory). */
#include "becket_test.h"
#include "report/words_inside.h"

static void
says(const char *field, const char *value, const char *currency, const char *expected)
{
	SCOPED_TEXT out = {0};
	journal_value_words(field, value, currency, &out);
	assert_string_equal(text_string(&out), expected);
}

TEST(a_price_that_changed_is_in_the_main_unit)
{
	SCOPED_TEXT field = {0};
	journal_field_words("price (minor units)", &field);
	assert_string_equal(text_string(&field), "price");
	says("price (minor units)", "18900", "EUR", "EUR 189.00");
	says("price (minor units)", "12000", "JPY", "JPY 12000");
	says("price (minor units)", "", "EUR", "");
}

TEST(a_price_among_other_words_is_in_the_main_unit_and_they_stay)
{
	says("record", "task service, price (minor units) 4550, note 7 days", "EUR",
	    "task service, price EUR 45.50, note 7 days");
	says("", "kind epirb, quantity 2", "EUR", "kind epirb, quantity 2");
	says("notes", "price (minor units) unknown", "EUR", "price unknown");
}

RUN_TESTS(NULL, NULL)
