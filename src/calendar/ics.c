#include "calendar/ics.h"

#include "base/memory.h"
#include "calendar/ical_scope.h"
#include "calendar/reminders_inside.h"

#include <string.h>

static const char PRODUCT[] = "-//becket//reminders//EN";
static const char REFRESH[] = "PT12H";
static const char COLOUR[] = "teal"; /* a CSS3 name, RFC 7986 section 5.9 */

/* 09:00 a week before, then 09:00 the day before: counted back from the first midnight. */
static const struct icaldurationtype ALARMS[] = {
    {.is_neg = 1, .days = 6, .hours = 15},
    {.is_neg = 1, .hours = 15},
};

/* Of a last day: two weeks, three days and a day before. */
static const struct icaldurationtype LAST_ALARMS[] = {
    {.is_neg = 1, .days = 13, .hours = 15},
    {.is_neg = 1, .days = 2, .hours = 15},
    {.is_neg = 1, .hours = 15},
};

/* Adds content lines as libical wrote them, unfolded and folded again. Unfolding takes every
 * CR LF blank away, which also mends the lines that libical 3.0.16 folds between the final
 * CR and LF when 73 or 74 octets have no blank. */
static void
add_refolded(const char *written, struct text *line, struct text *out)
{
	text_reset(line);
	for (const char *fold = strstr(written, "\r\n "); fold != NULL;
	     fold = strstr(written, "\r\n ")) {
		text_add_bytes(line, written, (size_t)(fold - written));
		written = fold + 3;
	}
	text_add(line, written);
	const char *start = text_string(line);
	const char *end = NULL;
	while ((end = strstr(start, "\r\n")) != NULL) {
		ics_fold(start, (size_t)(end - start), out);
		start = end + 2;
	}
}

/* Gives a property to a component, which then owns it. */
static void
give(icalcomponent *component, icalproperty *property)
{
	icalcomponent_add_property(component, memory_held(property));
}

/* A property that libical has no name for. Its value is written as it stands. */
static icalproperty *
named(const char *name, const char *value)
{
	icalproperty *property = icalproperty_new_x(value);
	if (property != NULL) {
		icalproperty_set_x_name(property, name);
	}
	return property;
}

static struct icaltimetype
date_of(day_t day)
{
	struct civil civil = day_to_civil(day);
	struct icaltimetype date = icaltime_null_date();
	date.year = civil.year;
	date.month = civil.month;
	date.day = civil.day;
	return date;
}

/* An alarm; `from_end` counts back from a to-do's due day, which has no start. */
static void
give_alarm(
    icalcomponent *to, struct icaldurationtype before, bool from_end, const char *summary)
{
	icalcomponent *alarm = memory_held(icalcomponent_new_valarm());
	icalcomponent_add_component(to, alarm);
	struct icaltriggertype trigger = {
	    .time = icaltime_null_time(), .duration = before};
	icalproperty *when = icalproperty_new_trigger(trigger);
	if (when != NULL && from_end) {
		icalproperty_add_parameter(
		    when, icalparameter_new_related(ICAL_RELATED_END));
	}
	give(alarm, icalproperty_new_action(ICAL_ACTION_DISPLAY));
	give(alarm, when);
	give(alarm, icalproperty_new_description(summary));
}

static void
give_alarms(icalcomponent *event, bool last_chance, const char *summary)
{
	const struct icaldurationtype *alarms = last_chance ? LAST_ALARMS : ALARMS;
	size_t count = last_chance ? sizeof LAST_ALARMS / sizeof LAST_ALARMS[0]
				   : sizeof ALARMS / sizeof ALARMS[0];
	for (size_t i = 0; i < count; i++) {
		give_alarm(event, alarms[i], false, summary);
	}
}

/* What identifies an event and its version. */
static void
give_identity(icalcomponent *event, const struct reminder *reminder)
{
	struct icaltimetype modified = icaltime_from_timet_with_zone(
	    (time_t)reminder->modified, 0, icaltimezone_get_utc_timezone());
	give(event, icalproperty_new_uid(reminder->uid));
	give(event, icalproperty_new_dtstamp(modified));
	give(event, icalproperty_new_lastmodified(modified));
	give(event, icalproperty_new_sequence(reminder->sequence));
}

/* The rest, in the order that every event has. */
static void
give_contents(icalcomponent *event, const struct reminder *reminder, const char *summary,
    const char *description)
{
	give(event, icalproperty_new_dtstart(date_of(reminder->day)));
	give(event, icalproperty_new_dtend(date_of(reminder->day + 1)));
	give(event, icalproperty_new_summary(summary));
	if (description[0] != '\0') {
		give(event, icalproperty_new_description(description));
	}
	give(event, icalproperty_new_categories(reminder->category));
	give(event, icalproperty_new_status(ICAL_STATUS_CONFIRMED));
	give(event, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
	give(event, named("X-MICROSOFT-CDO-BUSYSTATUS", "FREE"));
	give_alarms(event, reminder->last_chance, summary);
}

/* The same of a to-do: no start, and one alarm, the day before. */
static void
give_task(icalcomponent *todo, const struct reminder *reminder, const char *summary,
    const char *description)
{
	bool linked = reminder->about_uid != NULL && reminder->about_uid[0] != '\0';
	give(todo, icalproperty_new_due(date_of(reminder->day)));
	give(todo, icalproperty_new_summary(summary));
	if (description[0] != '\0') {
		give(todo, icalproperty_new_description(description));
	}
	give(todo, icalproperty_new_categories(reminder->category));
	give(todo, icalproperty_new_status(ICAL_STATUS_NEEDSACTION));
	if (linked) {
		give(todo, icalproperty_new_relatedto(reminder->about_uid));
	}
	give_alarm(todo, ALARMS[1], true, summary);
}

/* libical writes a list's commas and an X- value as they stand, so what goes there must need
 * no escape. */
static bool
check_plain(const char *what, const char *string, struct fault *fault)
{
	bool plain = string[0] != '\0' && strpbrk(string, ",;\\") == NULL &&
		     utf8_valid(string, strlen(string));
	for (const char *at = string; *at != '\0' && plain; at++) {
		plain = (unsigned char)*at >= 0x20 && *at != 0x7F;
	}
	if (!plain) {
		return fault_set(fault, FAULT_INPUT,
		    "the %s \"%.60s\" must be words without comma, semicolon, backslash "
		    "or control character",
		    what, string);
	}
	return true;
}

static bool
check_reminder(const struct reminder *reminder, struct fault *fault)
{
	if (reminder->uid == NULL || reminder->uid[0] == '\0') {
		return fault_set(fault, FAULT_INPUT, "it has no UID yet");
	}
	if (reminder->day < DAY_MIN || reminder->day > DAY_MAX) {
		return fault_set(fault, FAULT_INPUT, "it has no day in 1900 to 2199");
	}
	return check_plain("category", reminder->category, fault);
}

/* Adds one event. `line` is lent as working room. */
static bool
add_event(const struct reminder *reminder, struct text *line, struct text *out,
    struct fault *fault)
{
	SCOPED_TEXT summary = {0};
	SCOPED_TEXT description = {0};
	if (!check_reminder(reminder, fault) ||
	    !tidy_text(reminder->summary, TIDY_ONE_LINE, &summary, fault) ||
	    !tidy_text(reminder->description, TIDY_LINES, &description, fault)) {
		return false;
	}
	memory_spare(ICAL_ROOM);
	SCOPED_COMPONENT *event = memory_held(
	    reminder->todo ? icalcomponent_new_vtodo() : icalcomponent_new_vevent());
	const char *words = text_string(&summary);
	const char *more = text_string(&description);
	give_identity(event, reminder);
	if (reminder->todo) {
		give_task(event, reminder, words, more);
	} else {
		give_contents(event, reminder, words, more);
	}
	SCOPED_STRING *written = memory_held(icalcomponent_as_ical_string_r(event));
	add_refolded(written, line, out);
	return true;
}

/* How often a feed is to be fetched again. */
static void
give_refresh(icalcomponent *calendar)
{
	icalproperty *interval = named("REFRESH-INTERVAL", REFRESH);
	if (interval != NULL) {
		icalproperty_set_parameter_from_string(interval, "VALUE", "DURATION");
	}
	give(calendar, interval);
	give(calendar, named("X-PUBLISHED-TTL", REFRESH));
}

/* Adds the calendar's first lines, all but its end. A name and a colour are a whole
 * calendar's and go with `name`; NULL leaves them out. */
static void
add_head(const char *name, bool feed, struct text *line, struct text *out)
{
	memory_spare(ICAL_ROOM);
	SCOPED_COMPONENT *calendar = memory_held(icalcomponent_new_vcalendar());
	give(calendar, icalproperty_new_version("2.0"));
	give(calendar, icalproperty_new_prodid(PRODUCT));
	give(calendar, icalproperty_new_calscale("GREGORIAN"));
	if (name != NULL) {
		give(calendar, icalproperty_new_name(name));
		give(calendar, named("X-WR-CALNAME", name));
		give(calendar, icalproperty_new_color(COLOUR));
	}
	if (feed) {
		give_refresh(calendar);
	}
	SCOPED_STRING *written = memory_held(icalcomponent_as_ical_string_r(calendar));
	char *end = strstr(written, "END:VCALENDAR\r\n");
	if (end != NULL) {
		*end = '\0';
	}
	add_refolded(written, line, out);
}

bool
ics_begin(const char *name, bool feed, struct text *out, struct fault *fault)
{
	SCOPED_TEXT line = {0};
	SCOPED_TEXT plain_name = {0};
	if (!check_plain("calendar's name", name, fault) ||
	    !tidy_text(name, TIDY_ONE_LINE, &plain_name, fault)) {
		return fault_prefix(fault, "writing the calendar");
	}
	add_head(text_string(&plain_name), feed, &line, out);
	return true;
}

bool
ics_add(const struct reminder *reminder, struct text *out, struct fault *fault)
{
	SCOPED_TEXT line = {0};
	return add_event(reminder, &line, out, fault) ||
	       fault_prefix(fault, "writing the reminder \"%.200s\"", reminder->key);
}

void
ics_end(struct text *out)
{
	text_add(out, "END:VCALENDAR\r\n");
}

bool
ics_write(const char *name, const struct reminder *reminders, size_t count,
    struct text *out, struct fault *fault)
{
	const size_t before = out->length;
	bool done = ics_begin(name, false, out, fault);
	for (size_t i = 0; i < count && done; i++) {
		done = ics_add(&reminders[i], out, fault);
	}
	if (!done) {
		text_cut(out, before);
		return false;
	}
	ics_end(out);
	return true;
}

bool
ics_write_resource(const struct reminder *reminder, struct text *out, struct fault *fault)
{
	SCOPED_TEXT resource = {0};
	SCOPED_TEXT line = {0};
	add_head(NULL, false, &line, &resource);
	if (!add_event(reminder, &line, &resource, fault)) {
		return fault_prefix(
		    fault, "writing the reminder \"%.200s\"", reminder->key);
	}
	text_add(&resource, "END:VCALENDAR\r\n");
	text_add_bytes(out, text_string(&resource), resource.length);
	return true;
}
