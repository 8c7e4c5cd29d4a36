/* Money as people write it and read it. Expected values by hand; decimals of currencies are
 * ISO 4217's. */
#include "gear/money.h"

#include "becket_test.h"

#include <string.h>

TEST(prices_are_read_to_minor_units)
{
	static const struct {
		const char *string;
		int64_t minor; /* -1: refused */
	} ROWS[] = {{"249", 24900}, {"249.00", 24900}, {"249.5", 24950}, {"0.07", 7},
	    {"0", 0}, {"45", 4500}, {"45,00", 4500}, {"999999999999.99", 99999999999999},
	    {"1,250.50", 125050}, {"1.250,00", 125000}, {"1 250,5", 125050},
	    {"1'250.00", 125000},
	    {"1\xC2\xA0"
	     "250,00",
		125000},
	    {"1,250,000", 125000000}, {"1 250", 125000}, {"249,00", 24900},
	    {"249,5", 24950}, {"1,250", -1}, /* thousands or decimals */
	    {"1.250", -1}, {"1.250.00", -1}, {"1.250.000.00", -1}, {"1,25,00", -1},
	    {"1250,000", -1}, {"12.345", -1}, {"12.", -1}, {".5", -1}, {"-1", -1},
	    {"", -1}, {",", -1}, {" ", -1}, {"9999999999999", -1},
	    {"9.999.999.999.999,00", -1}, {"1e3", -1}, {"EUR", -1}, {"EUR -5", -1},
	    {"5 EUR EUR", -1}, {"EUR 5 EUR 6", -1}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		int64_t minor = -1;
		bool done = money_parse(ROWS[i].string, "EUR", &minor, &fault);
		if (done != (ROWS[i].minor >= 0) || minor != ROWS[i].minor) {
			fail_msg("\"%s\" is read as %lld, not %lld (%s)", ROWS[i].string,
			    (long long)minor, (long long)ROWS[i].minor, fault.text);
		}
		assert_int_equal(fault.kind, done ? FAULT_NONE : FAULT_INPUT);
	}
}

/* Dinars have three decimals (ISO 4217): one group behind a point is those, and where a
 * comma follows it parts thousands. A currency that is not told has two. */
TEST(three_decimals_are_read_as_they_are_written)
{
	static const struct {
		const char *string;
		int64_t minor; /* -1: refused */
	} ROWS[] = {{"12.345", 12345}, {"12.345,6", 12345600}, {"1.250.000", 1250000000},
	    {"12.3456", -1}, {"12,345", -1}, {"0.5", 500}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		int64_t minor = -1;
		(void)!money_parse(ROWS[i].string, "KWD", &minor, &fault);
		if (minor != ROWS[i].minor) {
			fail_msg("\"%s\" is read as %lld (%s)", ROWS[i].string,
			    (long long)minor, fault.text);
		}
	}
	struct fault fault = {0};
	int64_t minor = -1;
	assert_false(money_parse("12.3456", "KWD", &minor, &fault));
	assert_non_null(strstr(fault.text, "come one to three digits"));
	assert_int_equal(money_decimals(NULL), 2);
}

TEST(a_number_without_end_is_none)
{
	char digits[101];
	struct fault fault = {0};
	int64_t minor = -1;
	memset(digits, '7', sizeof digits - 1);
	digits[sizeof digits - 1] = '\0';
	assert_false(money_parse(digits, "EUR", &minor, &fault));
	assert_int_equal(minor, -1);
	assert_non_null(strstr(fault.text, "there is more than a number"));
	/* 63 bytes and what ends them would leave no room for the nought of "45.-" */
	for (size_t length = 61; length < 66; length++) {
		memset(digits, '7', sizeof digits);
		digits[length] = '\0';
		assert_false(money_parse(digits, "EUR", &minor, &fault));
		assert_non_null(strstr(fault.text,
		    length < 63 ? "too large" : "there is more than a number"));
	}
}

TEST(a_mark_behind_a_number_is_not_taken_for_a_currency)
{
	static const char *const STRINGS[] = {"45-", "45.---", "45?", "45%"};
	for (size_t i = 0; i < sizeof STRINGS / sizeof STRINGS[0]; i++) {
		struct fault fault = {0};
		int64_t minor = -1;
		assert_false(money_parse(STRINGS[i], "EUR", &minor, &fault));
		assert_non_null(strstr(fault.text, "more than a number"));
	}
}

TEST(a_stroke_in_the_place_of_decimals_makes_a_round_price)
{
	/* a common way of writing round prices in German, Swiss and Norwegian price lists */
	static const struct {
		const char *string;
		const char *currency;
		int64_t minor; /* -1: refused */
	} ROWS[] = {{"45.-", "CHF", 4500}, {"CHF 45.-", "CHF", 4500},
	    {"45,- \xE2\x82\xAC", "EUR", 4500}, {"45,-- EUR", "EUR", 4500},
	    {"kr 450,-", "NOK", 45000}, {"1'250.-", "CHF", 125000},
	    {"1.250,-", "EUR", 125000}, {"45.\xE2\x80\x93", "CHF", 4500},
	    {"45,\xE2\x80\x94", "EUR", 4500}, {"450,-", "JPY", 450},
	    {"1.250.-", "EUR", -1}, {"45-", "EUR", -1}, {"45.---", "EUR", -1},
	    {"45.-5", "EUR", -1}, {".-", "EUR", -1}, {"45.- USD", "EUR", -1}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		int64_t minor = -1;
		bool done = money_parse(ROWS[i].string, ROWS[i].currency, &minor, &fault);
		if (done != (ROWS[i].minor >= 0) || minor != ROWS[i].minor) {
			fail_msg("\"%s\" is read as %lld, not %lld (%s)", ROWS[i].string,
			    (long long)minor, (long long)ROWS[i].minor, fault.text);
		}
	}
}

TEST(the_books_currency_may_stand_before_or_behind_by_code_or_sign)
{
	static const struct {
		const char *string;
		const char *currency;
		int64_t minor;
	} ROWS[] = {{"EUR 249,00", "EUR", 24900}, {"249 \xE2\x82\xAC", "EUR", 24900},
	    {"\xE2\x82\xAC"
	     "45",
		"EUR", 4500},
	    {"249.00 eur", "EUR", 24900}, {"\xC2\xA3 1,250.00", "GBP", 125000},
	    {"$249", "USD", 24900}, {"45 kr", "NOK", 4500}, {"45\xC2\xA0zl", "PLN", -1},
	    {"45\xC2\xA0z\xC5\x82", "PLN", 4500},
	    {"45\xE2\x80\xAF\xE2\x82\xAC", "EUR", 4500}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		int64_t minor = -1;
		(void)!money_parse(ROWS[i].string, ROWS[i].currency, &minor, &fault);
		if (minor != ROWS[i].minor) {
			fail_msg("\"%s\" is read as %lld (%s)", ROWS[i].string,
			    (long long)minor, fault.text);
		}
	}
}

TEST(another_currency_is_refused_for_that)
{
	static const char *const ROWS[] = {
	    "GBP 249,00", "249 \xC2\xA3", "$249", "249.00 USD", "kr 1 250"};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		int64_t minor = -1;
		assert_false(money_parse(ROWS[i], "EUR", &minor, &fault));
		if (strstr(fault.text, "every price of this book is in EUR") == NULL) {
			fail_msg("%s", fault.text);
		}
	}
}

TEST(the_currency_that_a_price_is_in_is_told_where_it_is_another)
{
	static const struct {
		const char *price;
		const char *code; /* of ISO 4217 */
	} ROWS[] = {{"GBP 249,00", "GBP"}, {"249 \xC2\xA3", "GBP"}, {"$249", "CUR"},
	    {"249.00 USD", "USD"}, {"EUR 249", NULL}, {"249", NULL}, {"1.250", NULL},
	    {"249 cowries", NULL}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const char *found = money_other(ROWS[i].price, "EUR");
		if (ROWS[i].code == NULL) {
			assert_null(found);
		} else {
			assert_string_equal(found, ROWS[i].code);
		}
	}
}

TEST(decimals_are_those_of_the_currency)
{
	static const struct {
		const char *string;
		const char *currency;
		int64_t minor;
	} ROWS[] = {{"12000", "JPY", 12000}, {"12000.00", "JPY", 12000},
	    {"12000.50", "JPY", -1}, {"12 000", "JPY", 12000}, {"12.345", "KWD", 12345},
	    {"12.3", "KWD", 12300}, {"12,345", "KWD", -1}, {"1.234,5", "KWD", 1234500}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		int64_t minor = -1;
		(void)!money_parse(ROWS[i].string, ROWS[i].currency, &minor, &fault);
		if (minor != ROWS[i].minor) {
			fail_msg("%s %s is read as %lld (%s)", ROWS[i].currency,
			    ROWS[i].string, (long long)minor, fault.text);
		}
	}
}

TEST(what_is_printed_can_be_typed_back)
{
	static const char *const CURRENCIES[] = {"EUR", "JPY", "KWD", "NOK"};
	static const int64_t AMOUNTS[] = {
	    0, 1, 99, 100, 1000, 12345, 125000, 1000000, 99999999};
	for (size_t c = 0; c < sizeof CURRENCIES / sizeof CURRENCIES[0]; c++) {
		for (size_t i = 0; i < sizeof AMOUNTS / sizeof AMOUNTS[0]; i++) {
			char words[MONEY_WORDS_SIZE];
			SCOPED_TEXT plain = {0};
			struct fault fault = {0};
			int64_t minor = -1;
			assert_true(
			    money_parse(money_words(AMOUNTS[i], CURRENCIES[c], words),
				CURRENCIES[c], &minor, &fault));
			assert_int_equal(minor, AMOUNTS[i]);
			money_add(AMOUNTS[i], CURRENCIES[c], &plain);
			assert_true(money_parse(
			    text_string(&plain), CURRENCIES[c], &minor, &fault));
			assert_int_equal(minor, AMOUNTS[i]);
		}
	}
}

RUN_TESTS(NULL, NULL)
