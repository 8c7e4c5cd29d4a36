/* The calendar file: folds, escapes and the exact bytes of one event. */
#include "calendar/ics.h"

#include "becket_test.h"

#include <string.h>

static void
expect_fold(const char *line, const char *expected)
{
	SCOPED_TEXT out = {0};
	ics_fold(line, strlen(line), &out);
	assert_string_equal(text_string(&out), expected);
}

/* Checks every rule for folded lines, and that unfolding gives the line back. */
static void
check_fold(const char *line)
{
	SCOPED_TEXT folded = {0};
	SCOPED_TEXT unfolded = {0};
	ics_fold(line, strlen(line), &folded);
	const char *at = text_string(&folded);
	while (*at != '\0') {
		const char *end = strstr(at, "\r\n");
		assert_non_null(end);
		size_t length = (size_t)(end - at);
		assert_in_range(length, 1, 75);
		assert_int_not_equal(end[-1], ' ');
		assert_true(utf8_valid(at, length));
		size_t skip = at == folded.bytes ? 0 : 1;
		assert_true(skip == 0 || at[0] == ' ');
		text_add_bytes(&unfolded, at + skip, length - skip);
		size_t backslashes = 0;
		while (backslashes < unfolded.length &&
		       unfolded.bytes[unfolded.length - backslashes - 1] == '\\') {
			backslashes++;
		}
		assert_int_equal(backslashes % 2, 0);
		at = end + 2;
	}
	assert_string_equal(text_string(&unfolded), line);
}

/* `count` letters, then the tail. */
static const char *
led(struct text *text, const char *head, size_t count, const char *tail)
{
	text_reset(text);
	text_add(text, head);
	for (size_t i = 0; i < count; i++) {
		text_add_byte(text, 'm');
	}
	text_add(text, tail);
	return text_string(text);
}

/* RFC 5545, section 3.1: 75 octets are a line, the CR LF not counted. Counted by hand: nine
 * rows of eight letters and three more are 75. */
TEST(seventy_five_octets_stay_one_line)
{
	SCOPED_TEXT line = {0};
	SCOPED_TEXT expected = {0};
	text_add_format(&expected, "%s\r\n", led(&line, "", 75, ""));
	expect_fold(line.bytes, text_string(&expected));
	text_reset(&expected);
	text_add_format(&expected, "%s\r\n m\r\n", line.bytes);
	expect_fold(led(&line, "", 76, ""), text_string(&expected));
}

/* The long line of RFC 5545, section 3.1, which may be broken anywhere: its three pieces there
 * are one line of 66 octets here. */
TEST(the_rfc_example_line_needs_no_fold)
{
	expect_fold("DESCRIPTION:This is a long description that exists on a long line.",
	    "DESCRIPTION:This is a long description that exists on a long line.\r\n");
}

/* A continuation's leading blank counts: 75 + 74 + the rest. */
TEST(the_leading_blank_counts_among_the_octets)
{
	SCOPED_TEXT line = {0};
	SCOPED_TEXT first = {0};
	SCOPED_TEXT expected = {0};
	text_add_format(&expected, "%s\r\n ", led(&first, "", 75, ""));
	text_add_format(&expected, "%s\r\n m\r\n", led(&first, "", 74, ""));
	expect_fold(led(&line, "", 150, ""), text_string(&expected));
}

TEST(a_line_ends_before_a_blank_and_not_after_it)
{
	SCOPED_TEXT line = {0};
	SCOPED_TEXT expected = {0};
	/* The 75th octet is a blank: it starts the next line. */
	text_add_format(&expected, "%s\r\n  ab\r\n", led(&line, "", 74, ""));
	expect_fold(led(&line, "", 74, " ab"), text_string(&expected));
	expect_fold("SUMMARY:a  \t ", "SUMMARY:a\r\n");
}

TEST(no_character_is_split)
{
	SCOPED_TEXT line = {0};
	SCOPED_TEXT expected = {0};
	/* 74 letters leave one octet of the two that a-ring takes. */
	text_add_format(&expected, "%s\r\n \xC3\xA5\r\n", led(&line, "", 74, ""));
	expect_fold(led(&line, "", 74, "\xC3\xA5"), text_string(&expected));
	/* 72 leave three octets of an emoji's four. */
	text_reset(&expected);
	text_add_format(&expected, "%s\r\n \xF0\x9F\x9B\x9F\r\n", led(&line, "", 72, ""));
	expect_fold(led(&line, "", 72, "\xF0\x9F\x9B\x9F"), text_string(&expected));
}

TEST(no_backslash_is_split_from_its_letter)
{
	SCOPED_TEXT line = {0};
	SCOPED_TEXT expected = {0};
	text_add_format(&expected, "%s\r\n \\nb\r\n", led(&line, "", 74, ""));
	expect_fold(led(&line, "", 74, "\\nb"), text_string(&expected));
	/* Two backslashes are one letter: after them the line may end. */
	text_reset(&expected);
	text_add_format(&expected, "%s\\\\\r\n nb\r\n", led(&line, "", 73, ""));
	expect_fold(led(&line, "", 73, "\\\\nb"), text_string(&expected));
}

TEST(every_tail_survives_the_fold_edge)
{
	static const char *const TAILS[] = {
	    "x",
	    "\xC3\xA5\xC3\xB8\xC3\xA6 redningsfl\xC3\xA5te",            /* Norwegian */
	    "\xCE\xA3\xCF\x89\xCF\x83\xCE\xAF\xCE\xB2\xCE\xB9\xCE\xBF", /* Greek */
	    "\xE6\x95\x91\xE5\x91\xBD\xE8\x83\xB4\xE8\xA1\xA3",         /* Japanese */
	    "\xF0\x9F\x9B\x9F\xF0\x9F\x87\xB3\xF0\x9F\x87\xB4",         /* emoji */
	    "\\\\\\\\\\,\\;\\n\\\\n",
	    " a b c d  e",
	    "          a",
	    ":;:;=\"",
	};
	SCOPED_TEXT line = {0};
	for (size_t i = 0; i < sizeof TAILS / sizeof TAILS[0]; i++) {
		for (size_t lead = 0; lead < 160; lead++) {
			check_fold(led(&line, "SUMMARY:", lead, TAILS[i]));
		}
	}
}

static const struct reminder PLAIN = {
    .key = "hand-in|Example|2026|Skerry Raft Loft|1",
    .day = 20820, /* 2027-01-02: 57 years of 365 days, 14 leap days, 1 */
    .summary = "Hand in 1 item at Skerry Raft Loft (Example)",
    .description = "- LR-1 valise liferaft: service",
    .category = "becket",
    .uid = "0f0e0d0c-0b0a-8908-8706-050403020100",
    .sequence = 3,
    .modified = 1767225600, /* 2026-01-01 00:00 UTC: 20454 days of 86400 seconds */
    .shape = "",
};

static void
write_one(const struct reminder *reminder, struct text *out)
{
	struct fault fault = {0};
	assert_true(ics_write("Safety gear", reminder, 1, out, &fault));
}

/* Order and spelling as this project's rules for calendars have them. */
TEST(an_event_has_exactly_these_bytes)
{
	SCOPED_TEXT out = {0};
	write_one(&PLAIN, &out);
	assert_string_equal(text_string(&out),
	    "BEGIN:VCALENDAR\r\n"
	    "VERSION:2.0\r\n"
	    "PRODID:-//becket//reminders//EN\r\n"
	    "CALSCALE:GREGORIAN\r\n"
	    "NAME:Safety gear\r\n"
	    "X-WR-CALNAME:Safety gear\r\n"
	    "COLOR:teal\r\n"
	    "BEGIN:VEVENT\r\n"
	    "UID:0f0e0d0c-0b0a-8908-8706-050403020100\r\n"
	    "DTSTAMP:20260101T000000Z\r\n"
	    "LAST-MODIFIED:20260101T000000Z\r\n"
	    "SEQUENCE:3\r\n"
	    "DTSTART;VALUE=DATE:20270102\r\n"
	    "DTEND;VALUE=DATE:20270103\r\n"
	    "SUMMARY:Hand in 1 item at Skerry Raft Loft (Example)\r\n"
	    "DESCRIPTION:- LR-1 valise liferaft: service\r\n"
	    "CATEGORIES:becket\r\n"
	    "STATUS:CONFIRMED\r\n"
	    "TRANSP:TRANSPARENT\r\n"
	    "X-MICROSOFT-CDO-BUSYSTATUS:FREE\r\n"
	    "BEGIN:VALARM\r\n"
	    "ACTION:DISPLAY\r\n"
	    "TRIGGER:-P6DT15H\r\n"
	    "DESCRIPTION:Hand in 1 item at Skerry Raft Loft (Example)\r\n"
	    "END:VALARM\r\n"
	    "BEGIN:VALARM\r\n"
	    "ACTION:DISPLAY\r\n"
	    "TRIGGER:-PT15H\r\n"
	    "DESCRIPTION:Hand in 1 item at Skerry Raft Loft (Example)\r\n"
	    "END:VALARM\r\n"
	    "END:VEVENT\r\n"
	    "END:VCALENDAR\r\n");
}

/* The one line of the file that begins with this property's name. */
static void
assert_line(const struct text *file, const char *name, const char *expected)
{
	SCOPED_TEXT start = {0};
	text_add_format(&start, "\r\n%s:", name);
	const char *line = strstr(text_string(file), text_string(&start));
	assert_non_null(line);
	line += 2;
	const char *end = strstr(line, "\r\n");
	assert_non_null(end);
	SCOPED_TEXT found = {0};
	text_add_bytes(&found, line, (size_t)(end - line));
	assert_string_equal(text_string(&found), expected);
	/* the alarm has a description of its own, and nothing else stands twice */
	const char *event_end = strstr(text_string(file), "\r\nBEGIN:VALARM");
	const char *again = strstr(end, text_string(&start));
	assert_true(again == NULL || (event_end != NULL && again > event_end));
}

TEST(an_empty_description_is_left_out_and_the_same_call_gives_the_same_bytes)
{
	struct reminder reminder = PLAIN;
	reminder.description = "";
	SCOPED_TEXT out = {0};
	SCOPED_TEXT again = {0};
	write_one(&reminder, &out);
	write_one(&reminder, &again);
	assert_non_null(strstr(text_string(&out), "(Example)\r\nCATEGORIES:becket\r\n"));
	assert_string_equal(out.bytes, again.bytes);
}

/* RFC 5545, section 3.3.11: its example of a TEXT value with its escapes, and the backslash
 * that must be escaped as well. */
TEST(text_is_escaped_as_the_rfc_has_it)
{
	struct reminder reminder = PLAIN;
	reminder.description = "Project XYZ Final Review\nConference Room - 3B\n"
			       "Come Prepared.";
	reminder.summary = "a\\b;c,d\"e:f";
	SCOPED_TEXT out = {0};
	write_one(&reminder, &out);
	assert_line(&out, "SUMMARY", "SUMMARY:a\\\\b\\;c\\,d\"e:f");
	/* 75 octets: "DESCRIPTION:" 12, the first line 24, \n 2, the second 20, \n 2, and
	 * "Come Prepared." 14, together 74. */
	assert_line(&out, "DESCRIPTION",
	    "DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.");
}

/* Long enough that libical 3.0.16 folds between the last CR and LF, and their neighbours. */
TEST(a_run_without_a_blank_leaves_no_stray_carriage_return)
{
	for (size_t length = 60; length <= 230; length++) {
		SCOPED_TEXT run = {0};
		SCOPED_TEXT out = {0};
		struct reminder reminder = PLAIN;
		reminder.description = led(&run, "", length, "");
		write_one(&reminder, &out);
		SCOPED_TEXT unfolded = {0};
		for (const char *at = out.bytes; *at != '\0';) {
			if (strncmp(at, "\r\n ", 3) == 0) {
				at += 3;
				continue;
			}
			assert_true(*at != '\r' || at[1] == '\n');
			text_add_byte(&unfolded, *at++);
		}
		SCOPED_TEXT wanted = {0};
		text_add_format(&wanted, "\r\nDESCRIPTION:%s\r\nCATEGORIES", run.bytes);
		assert_non_null(strstr(text_string(&unfolded), text_string(&wanted)));
	}
}

TEST(control_characters_and_needless_blanks_do_not_reach_the_file)
{
	struct reminder reminder = PLAIN;
	reminder.summary = " two\x01\x7F  words\r\nand\ttab ";
	/* NEL, LINE SEPARATOR and PARAGRAPH SEPARATOR break lines, as CR LF does; the C1
	 * control U+0091 goes. */
	reminder.description = "a \r\n b\xC2\x85"
			       "c\xE2\x80\xA8"
			       "d\xE2\x80\xA9"
			       "e\xC2\x91"
			       "f\n\n";
	SCOPED_TEXT out = {0};
	write_one(&reminder, &out);
	assert_line(&out, "SUMMARY", "SUMMARY:two words and tab");
	assert_line(&out, "DESCRIPTION", "DESCRIPTION:a\\nb\\nc\\nd\\nef");
}

static void
refuse(const char *name, const struct reminder *reminder)
{
	SCOPED_TEXT out = {0};
	text_add(&out, "before");
	struct fault fault = {0};
	assert_false(ics_write(name, reminder, 1, &out, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_string_equal(text_string(&out), "before");
}

TEST(what_can_not_be_written_rightly_is_refused)
{
	struct reminder reminder = PLAIN;
	refuse("Gear, all of it", &reminder);
	refuse("Gear; all of it", &reminder);
	refuse("", &reminder);
	reminder.category = "a,b";
	refuse("Gear", &reminder);
	reminder = PLAIN;
	reminder.summary = "\xC3";
	refuse("Gear", &reminder);
	reminder = PLAIN;
	reminder.uid = NULL;
	refuse("Gear", &reminder);
	reminder = PLAIN;
	reminder.day = DAY_NONE;
	refuse("Gear", &reminder);
}

RUN_TESTS(NULL, NULL)
