/* A server's XML: what it says is read, whatever else it sends is refused. */
#include "becket_test.h"
#include "calendar/caldav_inside.h"

#include <string.h>
#include <unistd.h>

static const char HEAD[] = "<?xml version=\"1.0\"?><d:multistatus xmlns:d=\"DAV:\" "
			   "xmlns:c=\"urn:ietf:params:xml:ns:caldav\">";

struct scene {
	struct arena arena;
	struct dav_answer answer;
	struct fault fault;
};

static void
scene_clear(struct scene *scene)
{
	arena_clear(&scene->arena);
}

#define SCOPED_SCENE __attribute__((cleanup(scene_clear))) struct scene

static const struct dav_said *
read_one(struct scene *scene, const char *inside)
{
	SCOPED_TEXT text = {0};
	text_add_format(
	    &text, "%s<d:response>%s</d:response></d:multistatus>", HEAD, inside);
	assert_true(dav_read(
	    text.bytes, text.length, &scene->arena, &scene->answer, &scene->fault));
	assert_int_equal(scene->answer.count, 1);
	return &scene->answer.items[0];
}

/* As RFC 4791, section 5.2.3, and RFC 4918, section 9.1.3, write them. */
TEST(a_calendar_is_read_with_its_name_and_what_it_takes)
{
	SCOPED_SCENE scene = {0};
	const struct dav_said *said = read_one(&scene,
	    "<d:href> /home/%C3%A5/ </d:href><d:propstat><d:prop>"
	    "<d:resourcetype><d:collection/><c:calendar/></d:resourcetype>"
	    "<d:displayname>Sikkerhet &amp; &#x3a3;\xCF\x89</d:displayname>"
	    "<c:supported-calendar-component-set><c:comp name=\"VEVENT\"/>"
	    "</c:supported-calendar-component-set></d:prop>"
	    "<d:status>HTTP/1.1 200 OK</d:status></d:propstat>"
	    "<d:propstat><d:prop><d:getetag>\"no\"</d:getetag></d:prop>"
	    "<d:status>HTTP/1.1 404 Not Found</d:status></d:propstat>");
	assert_string_equal(said->href, "/home/%C3%A5/");
	assert_true(said->is_calendar);
	assert_true(said->is_collection);
	assert_true(said->tells_components);
	assert_true(said->takes_events);
	assert_false(said->takes_todos);
	assert_string_equal(said->name, "Sikkerhet & \xCE\xA3\xCF\x89");
	assert_string_equal(said->etag, ""); /* it was not found */
	assert_int_equal(said->status, 200);
}

TEST(contents_come_with_their_etag_escaped_or_not)
{
	SCOPED_SCENE scene = {0};
	const struct dav_said *said = read_one(&scene,
	    "<d:href>/a.ics</d:href><d:propstat><d:prop><d:getetag>\"1&amp;2\"</d:getetag>"
	    "<c:calendar-data><![CDATA[BEGIN:VCALENDAR\nX:<&>\n]]></c:calendar-data>"
	    "</d:prop><d:status>HTTP/1.1 200 OK</d:status></d:propstat>");
	assert_string_equal(said->etag, "\"1&2\"");
	assert_string_equal(said->data, "BEGIN:VCALENDAR\nX:<&>");
	said = read_one(
	    &scene, "<d:href>/b.ics</d:href><d:status>HTTP/1.1 404 Not Found</d:status>");
	assert_int_equal(said->status, 404);
	assert_string_equal(said->data, "");
}

/* Elements of the same name in another namespace are other elements. */
TEST(another_namespace_is_not_webdav)
{
	SCOPED_SCENE scene = {0};
	const struct dav_said *said = read_one(&scene,
	    "<d:href>/</d:href><d:propstat><d:prop xmlns:x=\"urn:x\">"
	    "<x:displayname>no</x:displayname><x:resourcetype><c:calendar/>"
	    "</x:resourcetype></d:prop></d:propstat>");
	assert_string_equal(said->name, "");
	assert_false(said->is_calendar);
}

TEST(answers_are_read_one_after_the_other_past_what_is_none)
{
	SCOPED_SCENE scene = {0};
	SCOPED_TEXT text = {0};
	text_add_format(&text,
	    "<!-- before -->%s<d:sync-token>1</d:sync-token>"
	    "<d:response><d:href>/1</d:href></d:response>words<!-- between -->"
	    "<x><d:response><d:href>/inside</d:href></d:response></x>"
	    "<d:response/><d:response><d:href>/2</d:href></d:response>"
	    "</d:multistatus><!-- after -->",
	    strchr(HEAD, '>') + 1);
	assert_true(
	    dav_read(text.bytes, text.length, &scene.arena, &scene.answer, &scene.fault));
	assert_int_equal(scene.answer.count, 3);
	assert_string_equal(scene.answer.items[0].href, "/1");
	assert_string_equal(scene.answer.items[1].href, "");
	assert_string_equal(scene.answer.items[2].href, "/2");
}

static void
refuse(const char *bytes, size_t length)
{
	SCOPED_SCENE scene = {0};
	scene.answer.count = 99;
	assert_false(dav_read(bytes, length, &scene.arena, &scene.answer, &scene.fault));
	assert_int_equal(scene.fault.kind, FAULT_FILE);
	assert_int_equal(scene.answer.count, 99);
}

TEST(what_is_no_multistatus_is_refused)
{
	static const char BOMB[] =
	    "<!DOCTYPE d [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;\">]>"
	    "<d:multistatus xmlns:d=\"DAV:\"><d:response><d:href>&b;</d:href></d:response>"
	    "</d:multistatus>";
	static const char *const BAD[] = {"", "garbage",
	    "<html><body>Welcome</body></html>", "<multistatus/>",
	    "<d:multistatus xmlns:d=\"DAV\"/>",
	    "<d:multistatus xmlns:d=\"DAV:\"><d:response>",
	    "<d:multistatus xmlns:d=\"DAV:\"><d:response/></d:multistatus><more/>",
	    "<d:multistatus xmlns:d=\"DAV:\"><d:response/><d:response></d:multistatus>",
	    BOMB,
	    "<!DOCTYPE d SYSTEM \"file:///etc/hostname\"><d:multistatus xmlns:d=\"DAV:\"/>"};
	for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
		refuse(BAD[i], strlen(BAD[i]));
	}
	SCOPED_TEXT deep = {0};
	text_add(&deep, HEAD);
	for (int i = 0; i < 100000; i++) {
		text_add(&deep, "<d:response>");
	}
	refuse(deep.bytes, deep.length);
}

/* libxml2 reads no text of more than 10,000,000 bytes (XML_MAX_TEXT_LENGTH), and says so on
 * standard error with some of it where nobody listens. */
TEST(nothing_of_what_can_not_be_read_is_repeated)
{
	SCOPED_TEXT huge = {0};
	char blanks[1024];
	memset(blanks, ' ', sizeof blanks);
	text_add(&huge, HEAD);
	for (int i = 0; i < 10000; i++) {
		text_add_bytes(&huge, blanks, sizeof blanks);
	}
	text_add(&huge, "</d:multistatus>");
	FILE *said = tmpfile();
	assert_non_null(said);
	int before = dup(STDERR_FILENO);
	assert_int_equal(dup2(fileno(said), STDERR_FILENO), STDERR_FILENO);
	refuse(huge.bytes, huge.length);
	assert_int_equal(dup2(before, STDERR_FILENO), STDERR_FILENO);
	assert_int_equal(fseek(said, 0, SEEK_END), 0);
	assert_int_equal(ftell(said), 0);
	(void)close(before);
	(void)fclose(said);
}

TEST(what_is_asked_is_escaped)
{
	SCOPED_TEXT out = {0};
	const char *hrefs[] = {"/a&b/<x>.ics", "/two.ics"};
	dav_ask_contents(hrefs, 2, &out);
	assert_string_equal(text_string(&out),
	    "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
	    "<C:calendar-multiget xmlns:D=\"DAV:\" xmlns:C=\"urn:ietf:params:xml:ns:caldav\">"
	    "<D:prop><D:getetag/><C:calendar-data/></D:prop>"
	    "<D:href>/a&amp;b/&lt;x&gt;.ics</D:href><D:href>/two.ics</D:href>"
	    "</C:calendar-multiget>\n");
	text_reset(&out);
	dav_ask_make("Raft & \"Co\" \xE6\x95\x91", true, &out);
	assert_string_equal(text_string(&out),
	    "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
	    "<C:mkcalendar xmlns:D=\"DAV:\" xmlns:C=\"urn:ietf:params:xml:ns:caldav\">"
	    "<D:set><D:prop><D:displayname>Raft &amp; &quot;Co&quot; \xE6\x95\x91"
	    "</D:displayname><C:supported-calendar-component-set><C:comp name=\"VTODO\"/>"
	    "</C:supported-calendar-component-set></D:prop></D:set></C:mkcalendar>\n");
}

TEST(a_refusal_names_its_condition)
{
	SCOPED_TEXT out = {0};
	const char body[] =
	    "<?xml version='1.0'?>\n<D:error xmlns:D='DAV:' "
	    "xmlns:C='urn:ietf:params:xml:ns:caldav'>\n  <C:no-uid-conflict>"
	    "<D:href>/x</D:href></C:no-uid-conflict></D:error>";
	dav_read_condition(body, strlen(body), &out);
	assert_string_equal(text_string(&out), "no-uid-conflict");
	text_reset(&out);
	dav_read_condition("<html/>", 7, &out);
	dav_read_condition(NULL, 0, &out);
	assert_string_equal(text_string(&out), "");
}

RUN_TESTS(NULL, NULL)
