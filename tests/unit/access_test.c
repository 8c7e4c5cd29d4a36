/* People who log in to the page: what each may ask, how a session ends, how tries are
 * slowed. What a cookie by https is called and has is RFC 6265bis section 4.1.3; what is
 * slowed and when a session is over are the OWASP cheat sheets on authentication and
 * sessions (all from memory). */
#include "becket_test.h"
#include "page/shell.h"
#include "page/site.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PORT = 4711, MIDSUMMER = 20627 /* 23 June 2026 */, NOON = 50000 };

#define PASSWORD "four grey geese"

struct house {
	struct site site;
	char folder[64];
	char path[96];
	int64_t seconds;
	const char *client;
	bool https;
};

/* A desk without a book: what is refused is refused before the book is asked. */
static void
no_book(void *context, struct desk *out)
{
	(void)context;
	*out = (struct desk){.book_path = "/nowhere/book.db",
	    .book_named = true,
	    .shelf = {.folder = "/nowhere/sheets"},
	    .today = MIDSUMMER};
}

static void
add(const struct house *house, const char *name, enum right right)
{
	const struct person_change change = {name, right, PASSWORD};
	struct fault fault = {0};
	assert_true(people_add(house->path, &change, &fault));
}

/* A site called `at` with three people. */
static struct house *
begin_at(const char *at)
{
	struct house *house = calloc(1, sizeof *house);
	struct fault fault = {0};
	assert_non_null(house);
	(void)snprintf(house->folder, sizeof house->folder, "/tmp/becket-access-XXXXXX");
	assert_non_null(mkdtemp(house->folder));
	(void)snprintf(
	    house->path, sizeof house->path, "%s/book.db.people", house->folder);
	add(house, "Orla Finch", RIGHT_MANAGE);
	add(house, "Bo Tern", RIGHT_RECORD);
	add(house, "Una Swift", RIGHT_LOOK);
	house->site.desk = no_book;
	house->seconds = NOON;
	house->client = "192.0.2.1";
	assert_true(access_begin(PORT, at, house->path, &house->site.access, &fault));
	return house;
}

static int
begin(void **state)
{
	*state = begin_at(NULL);
	return 0;
}

static int
begin_by_https(void **state)
{
	*state = begin_at("https://becket.example");
	return 0;
}

static int
end(void **state)
{
	struct house *house = *state;
	access_end(&house->site.access);
	(void)unlink(house->path);
	(void)rmdir(house->folder);
	free(house);
	return 0;
}

#define PREPARED_TEST(name) TEST_OF(struct house, house, name, begin, end)

#define SCOPED_ANSWER __attribute__((cleanup(web_answer_clear))) struct web_answer

static struct web_answer
ask(struct house *house, struct web_request request, const char *body)
{
	struct web_answer answer = {0};
	struct fault fault = {0};
	SCOPED_TEXT sent = {0};
	text_add(&sent, body);
	request.method = request.method == NULL ? "GET" : request.method;
	request.query = request.query == NULL ? "" : request.query;
	request.host = request.host == NULL ? "127.0.0.1:4711" : request.host;
	request.client = house->client;
	request.seconds = house->seconds;
	request.https = house->https;
	request.body = &sent;
	(void)site_answer(&house->site, &request, &answer, &fault);
	return answer;
}

/* Somebody who has logged in: the session, and the cookie as it is sent. */
static struct session *
come_in(struct house *house, const char *name, char cookie[128])
{
	struct session *session = NULL;
	struct fault fault = {0};
	const struct web_request request = {.seconds = house->seconds};
	assert_true(access_log_in(&house->site.access, &request, name, &session, &fault));
	assert_non_null(session);
	(void)snprintf(cookie, 128, "becket-4711=%s", session->cookie);
	return session;
}

/* The status of the form to log in with these. */
static int
log_in(struct house *house, const char *name, const char *password)
{
	char body[256];
	(void)snprintf(body, sizeof body, "token=%s&name=%s&password=%s",
	    house->site.access.form, name, password);
	SCOPED_ANSWER answer = ask(house,
	    (struct web_request){.method = "POST",
		.path = "/log-in",
		.origin = "http://127.0.0.1:4711",
		.content_type = "application/x-www-form-urlencoded"},
	    body);
	assert_int_equal(answer.status == 303, answer.set_cookie.length > 0);
	return answer.status;
}

/* Who is let in where, typed a second time: what stands in routes.c and not here, or otherwise,
 * fails. */
static const struct {
	const char *method;
	const char *path;
	enum right least;
} WHO_MAY[] = {
    {"GET", "/", RIGHT_LOOK},
    {"GET", "/enter/*", RIGHT_NONE},
    {"GET", "/log-in", RIGHT_NONE},
    {"POST", "/log-in", RIGHT_NONE},
    {"GET", "/you", RIGHT_LOOK},
    {"POST", "/you", RIGHT_LOOK},
    {"GET", "/page/*", RIGHT_NONE},
    {"GET", "/begin", RIGHT_LOOK},
    {"POST", "/begin", RIGHT_MANAGE},
    {"GET", "/winter", RIGHT_LOOK},
    {"POST", "/winter", RIGHT_RECORD},
    {"GET", "/back", RIGHT_LOOK},
    {"POST", "/back", RIGHT_RECORD},
    {"GET", "/list", RIGHT_MANAGE},
    {"POST", "/list", RIGHT_MANAGE},
    {"GET", "/shore-papers/*", RIGHT_LOOK},
    {"GET", "/locker", RIGHT_LOOK},
    {"GET", "/locker/*", RIGHT_LOOK},
    {"GET", "/saturday", RIGHT_LOOK},
    {"GET", "/years", RIGHT_LOOK},
    {"GET", "/reminders", RIGHT_LOOK},
    {"POST", "/reminders", RIGHT_RECORD},
    {"GET", "/sheets", RIGHT_LOOK},
    {"GET", "/sheet/*", RIGHT_LOOK},
    {"GET", "/reminders/choices", RIGHT_MANAGE},
    {"POST", "/reminders/choices", RIGHT_MANAGE},
    {"GET", "/reminders/day/*", RIGHT_RECORD},
    {"POST", "/reminders/day/*", RIGHT_RECORD},
    {"POST", "/reminders/addresses", RIGHT_MANAGE},
    {"GET", "/safe", RIGHT_LOOK},
    {"GET", "/safe/*", RIGHT_RECORD},
    {"POST", "/safe/*", RIGHT_RECORD},
    {"POST", "/copy", RIGHT_MANAGE},
    {"POST", "/restore", RIGHT_MANAGE},
    {"GET", "/survey/*", RIGHT_LOOK},
    {"GET", "/paper/*", RIGHT_LOOK},
    {"GET", "/done/*", RIGHT_RECORD},
    {"POST", "/done/*", RIGHT_RECORD},
    {"GET", "/mend/*", RIGHT_MANAGE},
    {"POST", "/mend/*", RIGHT_MANAGE},
    {"GET", "/move/*", RIGHT_RECORD},
    {"POST", "/move/*", RIGHT_RECORD},
    {"GET", "/gone/*", RIGHT_MANAGE},
    {"POST", "/gone/*", RIGHT_MANAGE},
    {"GET", "/extra/*", RIGHT_RECORD},
    {"POST", "/extra/*", RIGHT_RECORD},
    {"GET", "/booking", RIGHT_RECORD},
    {"POST", "/booking", RIGHT_RECORD},
    {"GET", "/buy/*", RIGHT_RECORD},
    {"POST", "/buy/*", RIGHT_RECORD},
    {"POST", "/attach/*", RIGHT_RECORD},
    {"GET", "/new", RIGHT_MANAGE},
    {"POST", "/new", RIGHT_MANAGE},
};

/* Whether a route lets whoever has this cookie in: a page of the book leads on to where one begins
 * it, since there is none here; what needs no right says 404 or 403 in words of its own. */
static bool
lets_in(struct house *house, const struct route *route, const char *cookie)
{
	static const char *const REFUSED[] = {"This is not yours to do",
	    "You are not logged in any more", "The book is closed to this window"};
	SCOPED_ANSWER answer = ask(house,
	    (struct web_request){
		.method = route->method, .path = route->path, .cookie = cookie},
	    "");
	for (size_t i = 0; i < sizeof REFUSED / sizeof REFUSED[0]; i++) {
		if (answer.status == 403 &&
		    strstr(text_string(&answer.body), REFUSED[i]) != NULL) {
			return false;
		}
	}
	return strncmp(text_string(&answer.location), "/log-in?to=", 11) != 0;
}

PREPARED_TEST(every_route_lets_in_whom_it_is_for_and_nobody_else)
{
	static const char *const NAMES[] = {
	    [RIGHT_LOOK] = "Una Swift",
	    [RIGHT_RECORD] = "Bo Tern",
	    [RIGHT_MANAGE] = "Orla Finch",
	};
	char cookies[RIGHT_MANAGE + 1][128] = {""};
	for (int right = RIGHT_LOOK; right <= RIGHT_MANAGE; right++) {
		(void)come_in(house, NAMES[right], cookies[right]);
	}
	size_t count = sizeof WHO_MAY / sizeof WHO_MAY[0];
	assert_int_equal(ROUTE_COUNT, count);
	for (size_t i = 0; i < ROUTE_COUNT; i++) {
		const struct route *route = &ROUTES[i];
		size_t at = 0;
		while (
		    at < count && (strcmp(WHO_MAY[at].path, route->path) != 0 ||
				      strcmp(WHO_MAY[at].method, route->method) != 0)) {
			at++;
		}
		if (at == count) {
			fail_msg("%s %s is not in the table of this test", route->method,
			    route->path);
		}
		if (strcmp(route->path, "/enter/*") == 0) {
			continue; /* refuses by its secret: the test of the site */
		}
		for (int right = RIGHT_NONE; right <= RIGHT_MANAGE; right++) {
			bool in = lets_in(house, route, cookies[right]);
			if (in != ((int)WHO_MAY[at].least <= right)) {
				fail_msg("%s %s lets %s in: %d", route->method,
				    route->path, right_word((enum right)right), in);
			}
		}
	}
}

PREPARED_TEST(whoever_is_not_known_is_led_to_log_in_and_from_there_to_what_they_asked)
{
	SCOPED_ANSWER answer = ask(house,
	    (struct web_request){.path = "/locker/LJ-1", .query = "boat=Quillfish"}, "");
	assert_int_equal(answer.status, 303);
	assert_string_equal(text_string(&answer.location),
	    "/log-in?to=%2Flocker%2FLJ-1%3Fboat%3DQuillfish");
}

PREPARED_TEST(the_way_on_after_a_log_in_never_leads_to_another_site)
{
	static const struct {
		const char *to;
		const char *leads;
	} WAYS[] = {{"%2Flocker%2FLJ-1", "/locker/LJ-1"}, {"%2F%2Fevil.example", "/"},
	    {"https%3A%2F%2Fevil.example", "/"}, {"%2F%5Cevil.example", "/"},
	    {"%2Fx%0D%0ASet-Cookie%3A+a", "/"}, {"", "/"}, {"%2Flog-in", "/"}};

	for (size_t i = 0; i < sizeof WAYS / sizeof WAYS[0]; i++) {
		char cookie[128];
		char query[128];
		(void)come_in(house, "Una Swift", cookie);
		(void)snprintf(query, sizeof query, "to=%s", WAYS[i].to);
		SCOPED_ANSWER answer = ask(house,
		    (struct web_request){
			.path = "/log-in", .query = query, .cookie = cookie},
		    "");
		assert_int_equal(answer.status, 303);
		assert_string_equal(text_string(&answer.location), WAYS[i].leads);
	}
}

PREPARED_TEST(a_name_and_its_password_let_in_and_nothing_else)
{
	assert_int_equal(log_in(house, "una+SWIFT", "four+grey+geese"), 303);
	assert_int_equal(log_in(house, "Una+Swift", "four+grey+gees"), 403);
	assert_int_equal(log_in(house, "Nobody", "four+grey+geese"), 403);
	assert_int_equal(log_in(house, "", ""), 403);
}

PREPARED_TEST(the_secret_of_the_one_person_opens_nothing_where_people_log_in)
{
	char path[128];
	(void)snprintf(path, sizeof path, "/enter/%s", house->site.access.key);
	SCOPED_ANSWER answer = ask(house, (struct web_request){.path = path}, "");
	assert_int_equal(answer.status, 403);
	assert_string_equal(text_string(&answer.set_cookie), "");
}

/* The status of a page of the book for this cookie. */
static int
look(struct house *house, const char *cookie)
{
	SCOPED_ANSWER answer =
	    ask(house, (struct web_request){.path = "/you", .cookie = cookie}, "");
	return strncmp(text_string(&answer.location), "/log-in", 7) == 0 ? 401
									 : answer.status;
}

PREPARED_TEST(a_session_ends_with_another_password_wherever_it_was_given)
{
	const struct person_change change = {
	    .name = "Bo Tern", .password = "six red kites"};
	struct fault fault = {0};
	char bo[128];
	char una[128];
	(void)come_in(house, "Bo Tern", bo);
	(void)come_in(house, "Una Swift", una);
	assert_int_not_equal(look(house, bo), 401);
	assert_true(people_change(house->path, &change, &fault));
	assert_int_equal(look(house, bo), 401);
	assert_int_not_equal(look(house, una), 401);
}

PREPARED_TEST(a_session_ends_with_its_person_and_a_right_holds_from_the_next_request_on)
{
	const struct person_change more = {"Bo Tern", RIGHT_LOOK, NULL};
	struct fault fault = {0};
	char bo[128];
	(void)come_in(house, "Bo Tern", bo);
	const struct route *route = ROUTES;
	while (strcmp(route->path, "/done/*") != 0) {
		route++;
	}
	assert_true(lets_in(house, route, bo));
	assert_true(people_change(house->path, &more, &fault));
	assert_false(lets_in(house, route, bo));
	assert_int_not_equal(look(house, bo), 401);
	assert_true(people_remove(house->path, "Bo Tern", &fault));
	assert_int_equal(look(house, bo), 401);
}

PREPARED_TEST(a_session_ends_after_eight_idle_hours_and_after_a_day)
{
	char una[128];
	char bo[128];
	(void)come_in(house, "Una Swift", una);
	(void)come_in(house, "Bo Tern", bo);
	for (int hour = 0; hour < 24; hour += 6) {
		assert_int_not_equal(look(house, una), 401);
		house->seconds += 6LL * 3600;
	}
	assert_int_equal(look(house, bo), 401);
	assert_int_not_equal(look(house, una), 401);
	house->seconds += 1;
	assert_int_equal(look(house, una), 401);
}

PREPARED_TEST(a_log_out_ends_the_session_at_the_server_too)
{
	char una[128];
	char body[128];
	struct session *session = come_in(house, "Una Swift", una);
	(void)snprintf(body, sizeof body, "token=%s&act=out", session->form);
	SCOPED_ANSWER answer = ask(house,
	    (struct web_request){.method = "POST",
		.path = "/you",
		.cookie = una,
		.origin = "http://127.0.0.1:4711",
		.content_type = "application/x-www-form-urlencoded"},
	    body);
	assert_int_equal(look(house, una), 401);
	assert_non_null(strstr(text_string(&answer.set_cookie), "Max-Age=0"));
}

PREPARED_TEST(a_form_with_another_sessions_token_is_refused)
{
	char una[128];
	char bo[128];
	char body[128];
	(void)come_in(house, "Una Swift", una);
	const struct session *other = come_in(house, "Bo Tern", bo);
	(void)snprintf(body, sizeof body, "token=%s&act=out", other->form);
	SCOPED_ANSWER answer = ask(house,
	    (struct web_request){.method = "POST",
		.path = "/you",
		.cookie = una,
		.origin = "http://127.0.0.1:4711",
		.content_type = "application/x-www-form-urlencoded"},
	    body);
	assert_int_equal(answer.status, 403);
	assert_int_not_equal(look(house, una), 401);
}

/* After the fifth wrong one 10 s, then 20, 40, ... up to 15 minutes: page/login_tries.h. */
PREPARED_TEST(tries_for_a_name_are_slowed_whether_or_not_there_is_such_a_person)
{
	static const char *const NAMES[] = {"Una+Swift", "Nobody+Here"};
	for (size_t i = 0; i < 2; i++) {
		for (int turn = 0; turn < 5; turn++) {
			house->client = turn % 2 == 0 ? "192.0.2.1" : "198.51.100.2";
			assert_int_equal(log_in(house, NAMES[i], "wrong+one"), 403);
		}
		assert_int_equal(log_in(house, NAMES[i], "wrong+one"), 429);
		assert_int_equal(log_in(house, NAMES[i], "four+grey+geese"), 429);
	}
	house->seconds += 9;
	assert_int_equal(log_in(house, "Una+Swift", "four+grey+geese"), 429);
	house->seconds += 1;
	assert_int_equal(log_in(house, "Una+Swift", "wrong+one"), 403);
	house->seconds += 19;
	assert_int_equal(log_in(house, "Una+Swift", "four+grey+geese"), 429);
	house->seconds += 1;
	assert_int_equal(log_in(house, "Una+Swift", "four+grey+geese"), 303);
	assert_int_equal(log_in(house, "Una+Swift", "wrong+one"), 403);
}

PREPARED_TEST(tries_from_a_client_are_slowed_whatever_the_names_and_others_are_not)
{
	struct access *access = &house->site.access;
	/* by a drawn secret two clients share a place now and then, and so a wait */
	memset(access->clients.secret, 0, sizeof access->clients.secret);
	for (int turn = 0; turn < 20; turn++) {
		assert_int_equal(
		    login_tries_wait(&access->clients, "192.0.2.9", NOON), 0);
		login_tries_note(&access->clients, "192.0.2.9", NOON);
	}
	house->client = "192.0.2.9";
	assert_int_equal(log_in(house, "Bo+Tern", "four+grey+geese"), 429);
	house->client = "192.0.2.8";
	assert_int_equal(log_in(house, "Bo+Tern", "four+grey+geese"), 303);
}

TEST(the_longest_wait_is_fifteen_minutes_and_a_day_forgets)
{
	static struct login_tries tries;
	login_tries_begin(5, &tries);
	for (int turn = 0; turn < 40; turn++) {
		login_tries_note(&tries, "x", NOON);
	}
	assert_int_equal(login_tries_wait(&tries, "x", NOON), 900);
	login_tries_note(&tries, "x", NOON + 86401);
	assert_int_equal(login_tries_wait(&tries, "x", NOON + 86401), 0);
}

TEST_BETWEEN(
    by_https_the_cookie_says_so_and_what_came_otherwise_is_refused, begin_by_https, end)
{
	struct house *house = *state;
	char body[256];
	(void)snprintf(body, sizeof body,
	    "token=%s&name=Una+Swift&password=four+grey+geese", house->site.access.form);
	const struct web_request request = {.method = "POST",
	    .path = "/log-in",
	    .host = "becket.example",
	    .origin = "https://becket.example",
	    .content_type = "application/x-www-form-urlencoded"};
	SCOPED_ANSWER plain = ask(house, request, body);
	assert_int_equal(plain.status, 421);
	house->https = true;
	SCOPED_ANSWER answer = ask(house, request, body);
	assert_int_equal(answer.status, 303);
	const char *cookie = text_string(&answer.set_cookie);
	assert_int_equal(strncmp(cookie, "__Host-becket=", 14), 0);
	assert_non_null(strstr(cookie, "; Path=/; HttpOnly; SameSite=Strict; Secure"));
	SCOPED_ANSWER loopback = ask(
	    house, (struct web_request){.path = "/log-in", .host = "127.0.0.1:4711"}, "");
	assert_int_equal(loopback.status, 421);
}

PREPARED_TEST(a_stranger_may_not_send_a_long_body)
{
	char una[128];
	(void)come_in(house, "Una Swift", una);
	assert_false(site_may_send(&house->site, &(struct web_request){.cookie = "x=y"}));
	assert_true(site_may_send(&house->site, &(struct web_request){.cookie = una}));
}

PREPARED_TEST(a_page_shows_only_what_its_reader_may_do)
{
	char una[128];
	(void)come_in(house, "Una Swift", una);
	/* without a book every page leads to where one is begun, which is for who manages */
	SCOPED_ANSWER begins =
	    ask(house, (struct web_request){.path = "/begin", .cookie = una}, "");
	const char *page = text_string(&begins.body);
	assert_int_equal(begins.status, 200);
	assert_null(strstr(page, "<form"));
	assert_null(strstr(page, "<input"));
	assert_null(strstr(page, "<button"));
	assert_null(strstr(page, "\"/list\""));
	assert_non_null(strstr(page, "Una Swift"));
}

RUN_TESTS(NULL, NULL)
