#include "calendar/ics.h"

#include "calendar/ical_scope.h"
#include "calendar/tidy.h"

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
	for (const char *at = written; *at != '\0';) {
		if (at[0] == '\r' && at[1] == '\n' && at[2] == ' ') {
			at += 3;
			continue;
		}
		text_add_byte(line, *at++);
	}
	const char *start = text_string(line);
	const char *end = NULL;
	while ((end = strstr(start, "\r\n")) != NULL) {
		ics_fold(start, (size_t)(end - start), out);
		start = end + 2;
	}
}

/* Gives a property to a component, which then owns it. */
static bool
give(icalcomponent *component, icalproperty *property, struct fault *fault)
{
	if (property == NULL) {
		return fault_memory(fault);
	}
	icalcomponent_add_property(component, property);
	return true;
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
static bool
give_alarm(icalcomponent *to, struct icaldurationtype before, bool from_end,
    const char *summary, struct fault *fault)
{
	icalcomponent *alarm = icalcomponent_new_valarm();
	if (alarm == NULL) {
		return fault_memory(fault);
	}
	icalcomponent_add_component(to, alarm);
	struct icaltriggertype trigger = {
	    .time = icaltime_null_time(), .duration = before};
	icalproperty *when = icalproperty_new_trigger(trigger);
	if (when != NULL && from_end) {
		icalproperty_add_parameter(
		    when, icalparameter_new_related(ICAL_RELATED_END));
	}
	return give(alarm, icalproperty_new_action(ICAL_ACTION_DISPLAY), fault) &&
	       give(alarm, when, fault) &&
	       give(alarm, icalproperty_new_description(summary), fault);
}

static bool
give_alarms(
    icalcomponent *event, bool last_chance, const char *summary, struct fault *fault)
{
	const struct icaldurationtype *alarms = last_chance ? LAST_ALARMS : ALARMS;
	size_t count = last_chance ? sizeof LAST_ALARMS / sizeof LAST_ALARMS[0]
				   : sizeof ALARMS / sizeof ALARMS[0];
	for (size_t i = 0; i < count; i++) {
		if (!give_alarm(event, alarms[i], false, summary, fault)) {
			return false;
		}
	}
	return true;
}

/* What identifies an event and its version. */
static bool
give_identity(icalcomponent *event, const struct reminder *reminder, struct fault *fault)
{
	struct icaltimetype modified = icaltime_from_timet_with_zone(
	    (time_t)reminder->modified, 0, icaltimezone_get_utc_timezone());
	return give(event, icalproperty_new_uid(reminder->uid), fault) &&
	       give(event, icalproperty_new_dtstamp(modified), fault) &&
	       give(event, icalproperty_new_lastmodified(modified), fault) &&
	       give(event, icalproperty_new_sequence(reminder->sequence), fault);
}

/* The rest, in the order that every event has. */
static bool
give_contents(icalcomponent *event, const struct reminder *reminder, const char *summary,
    const char *description, struct fault *fault)
{
	if (!give(event, icalproperty_new_dtstart(date_of(reminder->day)), fault) ||
	    !give(event, icalproperty_new_dtend(date_of(reminder->day + 1)), fault) ||
	    !give(event, icalproperty_new_summary(summary), fault)) {
		return false;
	}
	if (description[0] != '\0' &&
	    !give(event, icalproperty_new_description(description), fault)) {
		return false;
	}
	return give(event, icalproperty_new_categories(reminder->category), fault) &&
	       give(event, icalproperty_new_status(ICAL_STATUS_CONFIRMED), fault) &&
	       give(event, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT), fault) &&
	       give(event, named("X-MICROSOFT-CDO-BUSYSTATUS", "FREE"), fault) &&
	       give_alarms(event, reminder->last_chance, summary, fault);
}

/* The same of a to-do: no start, and one alarm, the day before. */
static bool
give_task(icalcomponent *todo, const struct reminder *reminder, const char *summary,
    const char *description, struct fault *fault)
{
	bool linked = reminder->about_uid != NULL && reminder->about_uid[0] != '\0';
	return give(todo, icalproperty_new_due(date_of(reminder->day)), fault) &&
	       give(todo, icalproperty_new_summary(summary), fault) &&
	       (description[0] == '\0' ||
		   give(todo, icalproperty_new_description(description), fault)) &&
	       give(todo, icalproperty_new_categories(reminder->category), fault) &&
	       give(todo, icalproperty_new_status(ICAL_STATUS_NEEDSACTION), fault) &&
	       (!linked ||
		   give(todo, icalproperty_new_relatedto(reminder->about_uid), fault)) &&
	       give_alarm(todo, ALARMS[1], true, summary, fault);
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
	SCOPED_COMPONENT *event =
	    reminder->todo ? icalcomponent_new_vtodo() : icalcomponent_new_vevent();
	if (event == NULL) {
		return fault_memory(fault);
	}
	const char *words = text_string(&summary);
	const char *more = text_string(&description);
	if (!give_identity(event, reminder, fault) ||
	    !(reminder->todo ? give_task(event, reminder, words, more, fault)
			     : give_contents(event, reminder, words, more, fault))) {
		return false;
	}
	SCOPED_STRING *written = icalcomponent_as_ical_string_r(event);
	if (written == NULL) {
		return fault_memory(fault);
	}
	add_refolded(written, line, out);
	return text_check(line, fault);
}

/* How often a feed is to be fetched again. */
static bool
give_refresh(icalcomponent *calendar, struct fault *fault)
{
	icalproperty *interval = named("REFRESH-INTERVAL", REFRESH);
	if (interval != NULL) {
		icalproperty_set_parameter_from_string(interval, "VALUE", "DURATION");
	}
	return give(calendar, interval, fault) &&
	       give(calendar, named("X-PUBLISHED-TTL", REFRESH), fault);
}

/* Adds the calendar's first lines, all but its end. A name and a colour are a whole
 * calendar's and go with `name`; NULL leaves them out. */
static bool
add_head(
    const char *name, bool feed, struct text *line, struct text *out, struct fault *fault)
{
	SCOPED_COMPONENT *calendar = icalcomponent_new_vcalendar();
	if (calendar == NULL) {
		return fault_memory(fault);
	}
	if (!give(calendar, icalproperty_new_version("2.0"), fault) ||
	    !give(calendar, icalproperty_new_prodid(PRODUCT), fault) ||
	    !give(calendar, icalproperty_new_calscale("GREGORIAN"), fault)) {
		return false;
	}
	if (name != NULL && (!give(calendar, icalproperty_new_name(name), fault) ||
				!give(calendar, named("X-WR-CALNAME", name), fault) ||
				!give(calendar, icalproperty_new_color(COLOUR), fault))) {
		return false;
	}
	if (feed && !give_refresh(calendar, fault)) {
		return false;
	}
	SCOPED_STRING *written = icalcomponent_as_ical_string_r(calendar);
	if (written == NULL) {
		return fault_memory(fault);
	}
	char *end = strstr(written, "END:VCALENDAR\r\n");
	if (end != NULL) {
		*end = '\0';
	}
	add_refolded(written, line, out);
	return text_check(line, fault);
}

static bool
write_calendar(const char *name, bool feed, const struct reminder *reminders,
    size_t count, struct text *out, struct fault *fault)
{
	SCOPED_TEXT calendar = {0};
	SCOPED_TEXT line = {0};
	SCOPED_TEXT plain_name = {0};
	if (!check_plain("calendar's name", name, fault) ||
	    !tidy_text(name, TIDY_ONE_LINE, &plain_name, fault) ||
	    !add_head(text_string(&plain_name), feed, &line, &calendar, fault)) {
		return fault_prefix(fault, "writing the calendar");
	}
	for (size_t i = 0; i < count; i++) {
		if (!add_event(&reminders[i], &line, &calendar, fault)) {
			return fault_prefix(
			    fault, "writing the reminder \"%.200s\"", reminders[i].key);
		}
	}
	text_add(&calendar, "END:VCALENDAR\r\n");
	if (!text_check(&calendar, fault)) {
		return false;
	}
	text_add_bytes(out, calendar.bytes, calendar.length);
	return text_check(out, fault);
}

bool
ics_write(const char *name, const struct reminder *reminders, size_t count,
    struct text *out, struct fault *fault)
{
	return write_calendar(name, false, reminders, count, out, fault);
}

bool
ics_write_feed(const char *name, const struct reminder *reminders, size_t count,
    struct text *out, struct fault *fault)
{
	return write_calendar(name, true, reminders, count, out, fault);
}

bool
ics_write_resource(const struct reminder *reminder, struct text *out, struct fault *fault)
{
	SCOPED_TEXT resource = {0};
	SCOPED_TEXT line = {0};
	if (!add_head(NULL, false, &line, &resource, fault) ||
	    !add_event(reminder, &line, &resource, fault)) {
		return fault_prefix(
		    fault, "writing the reminder \"%.200s\"", reminder->key);
	}
	text_add(&resource, "END:VCALENDAR\r\n");
	text_add_bytes(out, text_string(&resource), resource.length);
	return text_check(&resource, fault) && text_check(out, fault);
}
