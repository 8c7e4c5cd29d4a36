/* A feed's answers to what calendar programs ask, by RFC 9110 (read: sections 5.6.7, 9.3.2,
 * 12.5.3, 13.1.2, 13.1.3 and 15.4.5 from memory). */
#include "page/feed.h"

#include "becket_test.h"
#include "page/feed_address.h"

#include <string.h>

static const char SECRET[] = "wL3n_Qy7dLxkq2J5rT0aZmVb8cEhUgNs";
static const char BODY[] = "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n";

/* 6 November 1994, 08:49:37 UTC: 9075 days of 86400 s after 1970 and 31777 s, counted by hand:
 * 24 years of 365 days, 6 leap days, 309 days of 1994 before the 6th of November. */
enum { MODIFIED = 784111777 };

/* Gives the one feed there is, and counts how often. */
struct shop {
	int made;
	bool broken;
};

static bool
make(void *context, const char *secret, struct feed *out, bool *found_out,
    struct fault *fault)
{
	struct shop *shop = context;
	shop->made++;
	if (shop->broken) {
		return fault_set(fault, FAULT_BOOK, "the book is locked");
	}
	*found_out = strcmp(secret, SECRET) == 0;
	if (*found_out) {
		text_add(&out->body, BODY);
		strcpy(out->etag,
		    "ab12"); // NOLINT(clang-analyzer-security.insecureAPI.strcpy)
		out->modified = MODIFIED;
	}
	return true;
}

#define FEED_PATH "/feed/wL3n_Qy7dLxkq2J5rT0aZmVb8cEhUgNs.ics"

static struct web_answer
ask(struct web_request request)
{
	struct shop shop = {0};
	struct feed_source source = {make, &shop};
	struct fault fault = {0};
	struct web_answer answer = {0};
	request.method = request.method == NULL ? "GET" : request.method;
	request.path = request.path == NULL ? FEED_PATH : request.path;
	assert_true(feed_answer(&source, &request, &answer, &fault));
	return answer;
}

#define SCOPED_ANSWER __attribute__((cleanup(web_answer_clear))) struct web_answer

TEST(a_get_gives_the_calendar_with_its_etag_and_date)
{
	SCOPED_ANSWER answer = ask((struct web_request){0});
	assert_int_equal(answer.status, 200);
	assert_string_equal(answer.content_type, "text/calendar; charset=utf-8");
	assert_string_equal(text_string(&answer.body), BODY);
	assert_string_equal(answer.etag, "\"ab12\"");
	assert_string_equal(answer.last_modified, "Sun, 06 Nov 1994 08:49:37 GMT");
	assert_false(answer.gzip);
}

TEST(a_head_has_the_headers_of_a_get)
{
	SCOPED_ANSWER answer = ask((struct web_request){.method = "HEAD"});
	assert_int_equal(answer.status, 200);
	assert_int_equal(answer.body.length, sizeof BODY - 1);
}

TEST(the_same_etag_is_told_304)
{
	static const char *const SAME[] = {
	    "\"ab12\"", "W/\"ab12\"", "\"other\", \"ab12\"", "*", "\"ab12-gz\"", "ab12"};
	for (size_t i = 0; i < sizeof SAME / sizeof SAME[0]; i++) {
		SCOPED_ANSWER answer =
		    ask((struct web_request){.if_none_match = SAME[i]});
		assert_int_equal(answer.status, 304);
		assert_int_equal(answer.body.length, sizeof BODY - 1);
		assert_string_equal(
		    answer.last_modified, "Sun, 06 Nov 1994 08:49:37 GMT");
	}
}

TEST(another_etag_is_given_the_calendar)
{
	static const char *const OTHER[] = {
	    "\"ab1\"", "\"ab123\"", "", ",,,", "\"", "W/", "\"ab12-xz\""};
	for (size_t i = 0; i < sizeof OTHER / sizeof OTHER[0]; i++) {
		SCOPED_ANSWER answer =
		    ask((struct web_request){.if_none_match = OTHER[i]});
		assert_int_equal(answer.status, 200);
	}
}

TEST(a_date_counts_only_where_there_is_no_etag)
{
	static const char DATE[] = "Sun, 06 Nov 1994 08:49:37 GMT";
	SCOPED_ANSWER same = ask((struct web_request){.if_modified_since = DATE});
	assert_int_equal(same.status, 304);
	SCOPED_ANSWER older = ask(
	    (struct web_request){.if_modified_since = "Sun, 06 Nov 1994 08:49:36 GMT"});
	assert_int_equal(older.status, 200);
	SCOPED_ANSWER both = ask(
	    (struct web_request){.if_none_match = "\"old\"", .if_modified_since = DATE});
	assert_int_equal(both.status, 200);
}

TEST(dates_go_out_and_come_back)
{
	char words[HTTP_DATE_SIZE];
	int64_t back = 0;
	static const int64_t SECONDS[] = {
	    0, 951782399, 951782400, 1798761599, 4102444800};
	for (size_t i = 0; i < sizeof SECONDS / sizeof SECONDS[0]; i++) {
		assert_true(http_date_read(http_date(SECONDS[i], words), &back));
		assert_int_equal(back, SECONDS[i]);
	}
	assert_string_equal(http_date(0, words), "Thu, 01 Jan 1970 00:00:00 GMT");
	assert_string_equal(http_date(951782400, words), "Tue, 29 Feb 2000 00:00:00 GMT");
	assert_false(http_date_read("Sunday, 06-Nov-94 08:49:37 GMT", &back));
	assert_false(http_date_read("Sun, 06 Nov 1994 08:49:37 GMT; x", &back));
	assert_false(http_date_read("", &back));
}

TEST(gzip_is_given_only_when_asked_for)
{
	static const struct {
		const char *accepted;
		bool gzip;
	} CASES[] = {{"gzip", true}, {"deflate, gzip;q=0.5", true}, {"GZIP", true},
	    {"identity", false}, {"gzip;q=0", false}, {"gzip; q=0.000", false},
	    {"x-gzip", false}, {"*", false}, {"", false}};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		SCOPED_ANSWER answer =
		    ask((struct web_request){.accept_encoding = CASES[i].accepted});
		assert_int_equal(answer.gzip, CASES[i].gzip);
		assert_string_equal(
		    answer.etag, CASES[i].gzip ? "\"ab12-gz\"" : "\"ab12\"");
		/* a gzip member begins with 1f 8b 08 (RFC 1952 section 2.3.1) */
		assert_int_equal(
		    memcmp(text_string(&answer.body), "\x1f\x8b\x08", 3) == 0,
		    CASES[i].gzip);
	}
}

TEST(any_other_address_is_not_found)
{
	static const char *const PATHS[] = {"/", "/feed/", "/feed/.ics", "/feed/x.ics",
	    "/feed/wL3n_Qy7dLxkq2J5rT0aZmVb8cEhUgNs",
	    "/feed/wL3n_Qy7dLxkq2J5rT0aZmVb8cEhUgNt.ics", "/../etc/passwd", "",
	    "/feed/wL3n_Qy7dLxkq2J5rT0aZmVb8cEhUgNs.ics/"};
	for (size_t i = 0; i < sizeof PATHS / sizeof PATHS[0]; i++) {
		SCOPED_ANSWER answer = ask((struct web_request){.path = PATHS[i]});
		assert_int_equal(answer.status, 404);
		assert_string_equal(answer.etag, "");
	}
}

TEST(no_method_but_get_and_head_is_answered)
{
	SCOPED_ANSWER answer = ask((struct web_request){.method = "PUT"});
	assert_int_equal(answer.status, 405);
	assert_string_equal(answer.allow, "GET, HEAD");
}

TEST(a_book_that_cannot_be_read_gives_503_and_the_fault)
{
	struct shop shop = {.broken = true};
	struct feed_source source = {make, &shop};
	struct fault fault = {0};
	struct web_answer answer = {0};
	const struct web_request request = {.method = "GET", .path = FEED_PATH};
	assert_false(feed_answer(&source, &request, &answer, &fault));
	assert_int_equal(answer.status, 503);
	assert_string_equal(fault.text, "the book is locked");
	assert_null(strstr(text_string(&answer.body), "locked"));
	web_answer_clear(&answer);
}

TEST(an_origin_by_a_name_or_address_of_this_machine_alone_is_out_of_reach)
{
	static const char *const NEAR[] = {"http://localhost:7462",
	    "http://127.0.0.1:7462", "http://[::1]:7462", "https://127.9.9.9"};
	static const char *const FAR[] = {"https://becket.example",
	    "http://quay.example:7462", "http://192.0.2.7:7462", "http://[2001:db8::7]"};
	for (size_t i = 0; i < 4; i++) {
		assert_false(origin_in_reach(NEAR[i]));
		assert_true(origin_in_reach(FAR[i]));
	}
}

RUN_TESTS(NULL, NULL)
