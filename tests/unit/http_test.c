/* Addresses: which are taken, and what a relative one means. No socket is opened here. */
#include "calendar/http.h"

#include "becket_test.h"

#include <string.h>

static bool
opens(const char *url, bool allow_plain, struct fault *fault)
{
	const struct http_settings settings = {.url = url,
	    .user = "",
	    .password = "",
	    .ca_file = "",
	    .timeout_seconds = 5,
	    .allow_plain = allow_plain};
	struct http *http = NULL;
	*fault = (struct fault){0};
	bool opened = http_open(&settings, &http, fault);
	http_close(http);
	return opened;
}

TEST(only_https_is_taken_but_for_this_machine)
{
	struct fault fault = {0};
	assert_true(opens("https://calendar.example/", false, &fault));
	assert_true(opens("http://localhost:5232/", false, &fault));
	assert_true(opens("http://127.0.0.1:5232/u/", false, &fault));
	assert_true(opens("http://127.8.0.1/", false, &fault));
	assert_true(opens("http://[::1]:8000/", false, &fault));
	assert_false(opens("http://calendar.example/", false, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_string_equal(fault.text,
	    "\"http://calendar.example/\" is not encrypted: anyone on the way could read the password; expected https");
	assert_true(opens("http://calendar.example/", true, &fault));
	/* names and numbers that only look like this machine's */
	assert_false(opens("http://127.0.0.1.calendar.example/", false, &fault));
	assert_false(opens("http://localhost.calendar.example/", false, &fault));
	assert_false(opens("http://10.127.0.1/", false, &fault));
}

TEST(an_address_with_a_password_a_question_or_another_scheme_is_refused)
{
	static const char *const BAD[] = {"", "calendar", "ftp://calendar.example/",
	    "file:///etc/passwd", "https://u@calendar.example/",
	    "https://u:p@calendar.example/", "https://calendar.example/?a=b",
	    "https://calendar.example/#a", "https://", "https://[::1/",
	    "webcal://a.example/"};
	for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
		struct fault fault = {0};
		if (opens(BAD[i], true, &fault)) {
			fail_msg("%s was taken", BAD[i]);
		}
		assert_int_equal(fault.kind, FAULT_INPUT);
		assert_null(strstr(fault.text, "u:p"));
	}
}

static void
expect(const char *base, const char *reference, const char *expected)
{
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	assert_true(http_resolve(base, reference, &out, &fault));
	assert_string_equal(text_string(&out), expected);
}

TEST(a_relative_address_is_made_whole_and_spelt_in_one_way)
{
	static const char BASE[] = "https://calendar.example:8443/home/safety/";
	expect(BASE, "/home/x/", "https://calendar.example:8443/home/x/");
	expect(BASE, "a.ics", "https://calendar.example:8443/home/safety/a.ics");
	expect(BASE, "../b.ics", "https://calendar.example:8443/home/b.ics");
	expect(BASE, "https://other.example/x", "https://other.example/x");
	/* the same resource, escaped by one server and not by another */
	expect(BASE, "/u%40x/%7Ea/", "https://calendar.example:8443/u%40x/~a/");
	expect(BASE, "/u@x/~a/", "https://calendar.example:8443/u%40x/~a/");
	expect(BASE, "/%c3%a5/", "https://calendar.example:8443/%c3%a5/");
	expect(BASE, "/%C3%A5/", "https://calendar.example:8443/%c3%a5/");
	/* but an escaped slash is no slash */
	expect(BASE, "/a%2Fb/", "https://calendar.example:8443/a%2Fb/");
	SCOPED_TEXT out = {0};
	struct fault fault = {0};
	assert_false(http_resolve(BASE, "", &out, &fault));
	assert_false(http_resolve(BASE, "http://[", &out, &fault));
}

TEST(a_request_to_another_server_is_refused_before_anything_is_sent)
{
	const struct http_settings settings = {.url = "https://calendar.example/",
	    .user = "u",
	    .password = "p",
	    .ca_file = "",
	    .timeout_seconds = 5};
	static const char *const OTHERS[] = {"https://other.example/",
	    "http://calendar.example/", "https://calendar.example:444/",
	    "https://calendar.example.other.example/",
	    "https://calendar.example@other.example/"};
	for (size_t i = 0; i < sizeof OTHERS / sizeof OTHERS[0]; i++) {
		struct http *http = NULL;
		struct fault fault = {0};
		SCOPED_ANSWER answer = {0};
		const struct http_request request = {
		    .method = "PROPFIND", .url = OTHERS[i], .body = ""};
		assert_true(http_open(&settings, &http, &fault));
		assert_false(http_ask(http, &request, &answer, &fault));
		assert_told(fault.text,
		    "the server points to another one, %s, and the password is not sent there; when you trust that address, give it as the URL",
		    OTHERS[i]);
		http_close(http);
	}
}

RUN_TESTS(NULL, NULL)
