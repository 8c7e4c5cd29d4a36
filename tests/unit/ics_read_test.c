/* Reading back: what a person sees of an event, and what nobody should be harmed by. */
#include "calendar/ics_read.h"

#include "base/text.h"
#include "becket_test.h"
#include "calendar/ics.h"

#include <string.h>

/* What was read of one text. */
struct scene {
	struct arena arena;
	struct ics_found *found;
	size_t count;
	struct fault fault;
};

static void
scene_clear(struct scene *scene)
{
	arena_clear(&scene->arena);
}

#define SCOPED_SCENE __attribute__((cleanup(scene_clear))) struct scene

static bool
read_string(struct scene *scene, const char *string)
{
	return ics_read(string, strlen(string), &scene->arena, &scene->found,
	    &scene->count, &scene->fault);
}

/* Reads one event of these lines. */
static const struct ics_found *
read_event(struct scene *scene, const char *lines)
{
	SCOPED_TEXT text = {0};
	text_add_format(&text,
	    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nUID:one\r\n"
	    "%sEND:VEVENT\r\nEND:VCALENDAR\r\n",
	    lines);
	assert_true(read_string(scene, text_string(&text)));
	assert_int_equal(scene->count, 1);
	return scene->found;
}

static const struct reminder PLAIN = {
    .key = "now|LR-1|service",
    .summary = "LR-1: service due; a, b \\ c",
    .description =
	"- line one\n- \xCF\x83\xCF\x89\xCF\x83\xCE\xAF\xCE\xB2\xCE\xB9\xCE\xBF "
	"\xE6\x95\x91\xE5\x91\xBD \xF0\x9F\x9B\x9F",
    .category = "becket",
    .day = 20820, /* 2027-01-02 */
    .sequence = 3,
    .uid = "0f0e0d0c-0b0a-8908-8706-050403020100",
    .modified = 1767225600,
};

TEST(what_was_written_is_read_back)
{
	SCOPED_SCENE scene = {0};
	SCOPED_TEXT out = {0};
	assert_true(ics_write_resource(&PLAIN, &out, &scene.fault));
	assert_null(strstr(text_string(&out), "X-WR-CALNAME"));
	assert_null(strstr(text_string(&out), "COLOR"));
	assert_null(strstr(text_string(&out), "METHOD"));
	assert_true(ics_read(out.bytes, out.length, &scene.arena, &scene.found,
	    &scene.count, &scene.fault));
	assert_int_equal(scene.count, 1);
	assert_string_equal(scene.found->uid, PLAIN.uid);
	assert_string_equal(scene.found->summary, PLAIN.summary);
	assert_string_equal(scene.found->description, PLAIN.description);
	assert_int_equal(scene.found->day, PLAIN.day);
	assert_int_equal(scene.found->days, 1);
	assert_int_equal(scene.found->sequence, 3);
	assert_string_equal(scene.found->time, "");
	assert_string_equal(scene.found->status, "CONFIRMED");
	assert_false(scene.found->todo);
	assert_false(scene.found->repeats);
}

TEST(line_ends_and_folds_of_any_spelling_make_no_difference)
{
	SCOPED_SCENE scene = {0};
	assert_true(read_string(&scene,
	    "BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:o\n\tn\n e\nSUM\n MARY:a\\,\n  b\n"
	    "DTSTART;VALUE=DATE:20270\n 228\nEND:VEVENT\nEND:VCALENDAR"));
	assert_int_equal(scene.count, 1);
	assert_string_equal(scene.found->uid, "one");
	assert_string_equal(scene.found->summary, "a, b");
	assert_int_equal(scene.found->day, day_from_civil(2027, 2, 28));
}

TEST(an_event_of_several_days_and_one_with_times_are_told_from_a_day)
{
	SCOPED_SCENE scene = {0};
	const struct ics_found *found = read_event(
	    &scene, "DTSTART;VALUE=DATE:20270105\r\nDTEND;VALUE=DATE:20270108\r\n");
	assert_int_equal(found->days, 3);
	found = read_event(&scene, "DTSTART;VALUE=DATE:20270105\r\nDURATION:P2D\r\n");
	assert_int_equal(found->days, 2);
	found = read_event(&scene, "DTSTART;VALUE=DATE:20270105\r\n");
	assert_int_equal(found->days, 1);
	found = read_event(&scene,
	    "DTSTART;TZID=Somewhere:20270105T090000\r\nDTEND:20270105T100000Z\r\n");
	assert_int_equal(found->day, day_from_civil(2027, 1, 5));
	assert_non_null(strstr(found->time, "20270105T090000"));
	assert_non_null(strstr(found->time, "20270105T100000Z"));
}

/* RFC 5545, section 3.6.2, has no due date that does not exist; apps do. */
TEST(a_day_that_does_not_exist_is_none)
{
	SCOPED_SCENE scene = {0};
	assert_int_equal(
	    read_event(&scene, "DTSTART;VALUE=DATE:20270231\r\n")->day, DAY_NONE);
	assert_int_equal(
	    read_event(&scene, "DTSTART;VALUE=DATE:18991231\r\n")->day, DAY_NONE);
	assert_int_equal(
	    read_event(&scene, "DTSTART;VALUE=DATE:soon\r\n")->day, DAY_NONE);
	assert_int_equal(read_event(&scene, "")->day, DAY_NONE);
}

TEST(a_ticked_to_do_is_completed)
{
	SCOPED_SCENE scene = {0};
	assert_true(read_string(&scene,
	    "BEGIN:VCALENDAR\r\nBEGIN:VTODO\r\nUID:t\r\nDUE;VALUE=DATE:20270301\r\n"
	    "COMPLETED:20270214T101500Z\r\nEND:VTODO\r\nBEGIN:VJOURNAL\r\nUID:j\r\n"
	    "END:VJOURNAL\r\nEND:VCALENDAR\r\n"));
	assert_int_equal(scene.count, 1);
	assert_true(scene.found->todo);
	assert_int_equal(scene.found->day, day_from_civil(2027, 3, 1));
	assert_string_equal(scene.found->status, "COMPLETED");
}

TEST(a_repeating_event_is_one_and_says_so)
{
	SCOPED_SCENE scene = {0};
	assert_true(read_string(&scene,
	    "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:r\r\nDTSTART;VALUE=DATE:20270301\r\n"
	    "END:VEVENT\r\nBEGIN:VEVENT\r\nUID:r\r\nRECURRENCE-ID;VALUE=DATE:20270308\r\n"
	    "DTSTART;VALUE=DATE:20270309\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"));
	assert_int_equal(scene.count, 1);
	assert_true(scene.found->repeats);
	assert_true(read_event(&scene, "RRULE:FREQ=YEARLY\r\n")->repeats);
}

/* Adds the digest of one event. */
static const char *
digest_of(struct text *text, const char *lines)
{
	SCOPED_SCENE scene = {0};
	text_reset(text);
	ics_digest(read_event(&scene, lines), text);
	return text_string(text);
}

TEST(the_digest_knows_what_was_changed_by_hand_from_what_an_app_does_by_itself)
{
	SCOPED_TEXT plain = {0};
	SCOPED_TEXT other = {0};
	digest_of(&plain, "SUMMARY:a\r\nDTSTART;VALUE=DATE:20270105\r\n");
	static const char *const SAME[] = {
	    "DTSTART;VALUE=DATE:20270105\r\nSUMMARY:a\r\n",
	    "SUMMARY:a\r\nDTSTART;VALUE=DATE:20270109\r\n",
	    ("SUMMARY:a\r\nDTSTART;VALUE=DATE:20270105\r\nSTATUS:CONFIRMED\r\nSEQUENCE:7\r\n"
	     "X-APP-SEEN:yes\r\nBEGIN:VALARM\r\nTRIGGER:-PT5M\r\nEND:VALARM\r\n"),
	    "SUMMARY:a\r\nDTSTART;VALUE=DATE:20270105\r\nDTEND;VALUE=DATE:20270106\r\n",
	};
	static const char *const DIFFERS[] = {
	    "SUMMARY:A\r\nDTSTART;VALUE=DATE:20270105\r\n",
	    "SUMMARY:a\r\nDTSTART;VALUE=DATE:20270105\r\nDTEND;VALUE=DATE:20270107\r\n",
	    "SUMMARY:a\r\nDTSTART:20270105T090000\r\n",
	    "SUMMARY:a\r\nDTSTART;VALUE=DATE:20270105\r\nDESCRIPTION:b\r\n",
	    "SUMMARY:a\r\nDTSTART;VALUE=DATE:20270105\r\nLOCATION:b\r\n",
	    "SUMMARY:a\r\nDTSTART;VALUE=DATE:20270105\r\nSTATUS:CANCELLED\r\n",
	    "SUMMARY:a\r\nDTSTART;VALUE=DATE:20270105\r\nRRULE:FREQ=DAILY\r\n",
	};
	for (size_t i = 0; i < sizeof SAME / sizeof SAME[0]; i++) {
		assert_string_equal(digest_of(&other, SAME[i]), plain.bytes);
	}
	for (size_t i = 0; i < sizeof DIFFERS / sizeof DIFFERS[0]; i++) {
		assert_string_not_equal(digest_of(&other, DIFFERS[i]), plain.bytes);
	}
}

static void
refuse(const char *bytes, size_t length, const char *words)
{
	struct arena arena = {0};
	struct fault fault = {0};
	struct ics_found *found = NULL;
	size_t count = 99;
	assert_false(ics_read(bytes, length, &arena, &found, &count, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_non_null(strstr(fault.text, words));
	assert_int_equal(count, 99);
	arena_clear(&arena);
}

TEST(what_is_no_calendar_is_refused_with_words)
{
	refuse("", 0, "no calendar");
	refuse("<html>no</html>", 15, "no calendar");
	refuse("BEGIN:VCALENDAR\0", 16, "zero byte");
	refuse("BEGIN:VCALENDAR\r\nX:\xFF", 20, "UTF-8");
}

/* Each level is a call inside a call when libical frees it. */
TEST(components_in_components_without_end_are_refused)
{
	SCOPED_TEXT deep = {0};
	text_add(&deep, "BEGIN:VCALENDAR\r\n");
	for (int i = 0; i < 200000; i++) {
		text_add(&deep, "BEG\r\n IN:VEVENT\r\n");
	}
	refuse(deep.bytes, deep.length, "deep");
}

/* libical takes lines in pieces of 79 bytes; whatever the length, nothing is lost at an edge. */
TEST(a_line_of_any_length_is_read_whole)
{
	static const size_t LONG[] = {1 << 16, (1 << 20) + 1};
	for (size_t i = 0; i < 400 + 2; i++) {
		size_t length = i < 400 ? i + 1 : LONG[i - 400];
		SCOPED_SCENE scene = {0};
		SCOPED_TEXT words = {0};
		SCOPED_TEXT line = {0};
		for (size_t at = 0; at < length; at++) {
			text_add_byte(&words, (char)('a' + at % 23));
		}
		text_add_format(
		    &line, "SUMMARY:%s\r\nSEQUENCE:7\r\n", text_string(&words));
		const struct ics_found *found = read_event(&scene, text_string(&line));
		assert_string_equal(found->summary, text_string(&words));
		assert_int_equal(found->sequence, 7);
	}
}

RUN_TESTS(NULL, NULL)
