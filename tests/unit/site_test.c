/* Who is let in to the page and what is refused, request by request, without a socket. The cookie's
 * attributes are those of RFC 6265bis section 4.1.2, the Origin that of RFC 6454 section 7, DNS
 * rebinding and cross-site forms as the OWASP cheat sheets describe them (all from memory). */
#include "page/site.h"

#include "becket_test.h"
#include "page/shell.h"

#include <string.h>

enum { PORT = 4711, MIDSUMMER = 20627 /* 23 June 2026 */ };

struct house {
	struct site site;
	int entered;
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
count_entered(void *context)
{
	((struct house *)context)->entered++;
}

static int
begin(void **state)
{
	static struct house house;
	struct fault fault = {0};
	house = (struct house){.site = {.desk = no_book, .entered = count_entered}};
	house.site.context = &house;
	*state = &house;
	return access_begin(PORT, NULL, NULL, &house.site.access, &fault) ? 0 : 1;
}

static int
end(void **state)
{
	struct house *house = *state;
	access_end(&house->site.access);
	return 0;
}

#define PREPARED_TEST(name) TEST_OF(struct house, house, name, begin, end)

#define SCOPED_ANSWER __attribute__((cleanup(web_answer_clear))) struct web_answer

/* Answers a request to the right host, where none is named. */
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
	request.body = &sent;
	(void)site_answer(&house->site, &request, &answer, &fault);
	return answer;
}

/* The cookie of somebody who came in. */
static const char *
cookie(const struct house *house)
{
	static char words[128];
	(void)snprintf(words, sizeof words, "a=b; becket-4711=%s",
	    house->site.access.sessions[0]->cookie);
	return words;
}

static struct web_answer
enter(struct house *house, const char *key)
{
	char path[128];
	(void)snprintf(path, sizeof path, "/enter/%s", key);
	return ask(house, (struct web_request){.path = path}, "");
}

PREPARED_TEST(
    the_address_is_exchanged_for_a_cookie_that_scripts_and_other_sites_do_not_get)
{
	char expected[160];
	SCOPED_ANSWER answer = enter(house, house->site.access.key);
	(void)snprintf(expected, sizeof expected,
	    "becket-4711=%s; Path=/; HttpOnly; SameSite=Strict",
	    house->site.access.sessions[0]->cookie);
	assert_int_equal(answer.status, 303);
	assert_string_equal(text_string(&answer.location), "/");
	assert_string_equal(text_string(&answer.set_cookie), expected);
	assert_int_equal(house->entered, 1);
}

PREPARED_TEST(the_address_serves_once)
{
	char key[ACCESS_SECRET_SIZE];
	memcpy(key, house->site.access.key, sizeof key);
	SCOPED_ANSWER first = enter(house, key);
	SCOPED_ANSWER second = enter(house, key);
	assert_int_equal(first.status, 303);
	assert_int_equal(second.status, 403);
	assert_string_equal(text_string(&second.set_cookie), "");
}

PREPARED_TEST(an_address_that_is_nearly_right_opens_nothing)
{
	char key[ACCESS_SECRET_SIZE];
	memcpy(key, house->site.access.key, sizeof key);
	key[5] = key[5] == 'A' ? 'B' : 'A';
	SCOPED_ANSWER answer = enter(house, key);
	assert_int_equal(answer.status, 403);
	assert_int_equal(house->entered, 0);
}

PREPARED_TEST(without_the_cookie_every_page_of_the_book_is_refused)
{
	for (size_t i = 0; i < ROUTE_COUNT; i++) {
		if (ROUTES[i].right == RIGHT_NONE) {
			continue;
		}
		SCOPED_ANSWER answer = ask(house,
		    (struct web_request){
			.method = ROUTES[i].method, .path = ROUTES[i].path},
		    "");
		assert_int_equal(answer.status, 403);
		assert_null(strstr(
		    text_string(&answer.body), house->site.access.sessions[0]->form));
	}
}

PREPARED_TEST(a_cookie_of_another_port_or_with_a_wrong_end_is_none)
{
	char other[128];
	(void)snprintf(other, sizeof other, "becket-4712=%s",
	    house->site.access.sessions[0]->cookie);
	SCOPED_ANSWER first =
	    ask(house, (struct web_request){.path = "/", .cookie = other}, "");
	assert_int_equal(first.status, 403);
	(void)snprintf(other, sizeof other, "becket-4711=%sx",
	    house->site.access.sessions[0]->cookie);
	SCOPED_ANSWER second =
	    ask(house, (struct web_request){.path = "/", .cookie = other}, "");
	assert_int_equal(second.status, 403);
}

PREPARED_TEST(a_name_that_is_not_this_machines_is_refused_whatever_the_cookie)
{
	static const char *const HOSTS[] = {"evil.example:4711", "127.0.0.1",
	    "127.0.0.1:80", "127.0.0.1:4711.evil.example", "", "evil.example"};
	for (size_t i = 0; i < sizeof HOSTS / sizeof HOSTS[0]; i++) {
		SCOPED_ANSWER answer = ask(house,
		    (struct web_request){
			.path = "/", .host = HOSTS[i], .cookie = cookie(house)},
		    "");
		assert_int_equal(answer.status, 421);
	}
}

PREPARED_TEST(this_machines_three_names_are_let_in)
{
	static const char *const HOSTS[] = {
	    "127.0.0.1:4711", "localhost:4711", "[::1]:4711"};
	for (size_t i = 0; i < sizeof HOSTS / sizeof HOSTS[0]; i++) {
		SCOPED_ANSWER answer = ask(house,
		    (struct web_request){
			.path = "/", .host = HOSTS[i], .cookie = cookie(house)},
		    "");
		assert_int_equal(answer.status, 303);
	}
}

/* The first route that takes a form of somebody who came in. */
static const struct route *
form_route(void)
{
	for (size_t i = 0; i < ROUTE_COUNT; i++) {
		if (strcmp(ROUTES[i].method, "POST") == 0 &&
		    ROUTES[i].right > RIGHT_NONE) {
			return &ROUTES[i];
		}
	}
	return NULL;
}

/* Sends the form of that route with these marks of where it comes from. */
static int
send_form(struct house *house, const char *origin, const char *token)
{
	char body[128];
	const struct route *route = form_route();
	(void)snprintf(body, sizeof body, "token=%s", token);
	SCOPED_ANSWER answer = ask(house,
	    (struct web_request){.method = "POST",
		.path = route->path,
		.cookie = cookie(house),
		.origin = origin,
		.content_type = "application/x-www-form-urlencoded"},
	    body);
	return answer.status;
}

PREPARED_TEST(a_form_of_another_site_or_without_its_token_is_refused)
{
	const char *ours = "http://127.0.0.1:4711";
	const char *token = house->site.access.sessions[0]->form;
	assert_non_null(form_route());
	assert_int_equal(send_form(house, "http://evil.example", token), 403);
	assert_int_equal(send_form(house, "null", token), 403);
	assert_int_equal(send_form(house, NULL, token), 403);
	assert_int_equal(send_form(house, "http://localhost:4711", token), 403);
	assert_int_equal(send_form(house, "https://127.0.0.1:4711", token), 403);
	assert_int_equal(send_form(house, ours, ""), 403);
	assert_int_equal(
	    send_form(house, ours, house->site.access.sessions[0]->cookie), 403);
	assert_int_not_equal(send_form(house, ours, token), 403);
}

PREPARED_TEST(an_address_that_leads_nowhere_is_told_so_and_names_nothing_of_the_machine)
{
	static const char *const PATHS[] = {"/winter/", "/../etc/passwd", "//", "/page/",
	    "/page/../page.css", "/page/%2e%2e%2fpage.css", "/enter", "/Winter"};
	for (size_t i = 0; i < sizeof PATHS / sizeof PATHS[0]; i++) {
		SCOPED_ANSWER answer = ask(house,
		    (struct web_request){.path = PATHS[i], .cookie = cookie(house)}, "");
		assert_int_equal(answer.status, 404);
		assert_null(strstr(text_string(&answer.body), "nowhere/book.db"));
	}
}

PREPARED_TEST(a_path_that_is_asked_in_a_way_it_has_not_says_which_ways_it_has)
{
	SCOPED_ANSWER answer = ask(house,
	    (struct web_request){
		.method = "DELETE", .path = "/", .cookie = cookie(house)},
	    "");
	assert_int_equal(answer.status, 405);
	assert_string_equal(answer.allow, "GET, HEAD");
}

/* What a command is named for stands on the page as the place that does it. */
TEST(a_fault_is_told_as_a_sentence_without_commands_that_the_page_does)
{
	SCOPED_TEXT words = {0};
	SCOPED_TEXT sentence = {0};
	page_words("there is no vessel \"X\"; \"becket vessel\" lists them", &words);
	text_sentence(text_string(&words), &sentence);
	assert_string_equal(text_string(&sentence), "There is no vessel \"X\".");
	text_reset(&words);
	text_reset(&sentence);
	page_words("LJ-1 is ashore; \"becket return\" brings it back first", &words);
	text_sentence(text_string(&words), &sentence);
	assert_string_equal(text_string(&sentence),
	    "LJ-1 is ashore; \"It came back\" brings it back first.");
}

PREPARED_TEST(the_style_is_told_unchanged_by_its_etag)
{
	SCOPED_ANSWER first =
	    ask(house, (struct web_request){.path = "/page/page.css"}, "");
	SCOPED_ANSWER second = ask(house,
	    (struct web_request){.path = "/page/page.css", .if_none_match = first.etag},
	    "");
	assert_int_equal(first.status, 200);
	assert_string_equal(first.content_type, "text/css; charset=utf-8");
	assert_int_equal(second.status, 304);
}

PREPARED_TEST(a_pages_words_are_escaped_wherever_they_come_from)
{
	SCOPED_ANSWER answer = ask(house,
	    (struct web_request){.path = "/page/%3Cscript%3Ealert(1)%3C%2Fscript%3E"},
	    "");
	assert_int_equal(answer.status, 404);
	assert_null(strstr(text_string(&answer.body), "<script>alert"));
}

RUN_TESTS(NULL, NULL)
