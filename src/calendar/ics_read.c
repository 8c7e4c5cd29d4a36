#include "calendar/ics_read.h"

#include "base/memory.h"
#include "calendar/ical_scope.h"
#include "calendar/reminders_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { DEEPEST = 8 };

/* What is read into. */
struct ics_reading {
	struct arena *arena;
	struct ics_found *items; /* in the arena */
	size_t count;
	size_t capacity;
	struct text text; /* working room */
};

static void
reading_clear(struct ics_reading *reading)
{
	text_clear(&reading->text);
}

/* Adds the content lines without their folds, each ended by "\n", whatever line ends there
 * were. */
static void
unfold(const char *bytes, size_t length, struct text *out)
{
	for (size_t i = 0; i < length; i++) {
		bool crlf = bytes[i] == '\r' && i + 1 < length && bytes[i + 1] == '\n';
		size_t next = i + (crlf ? 2 : 1);
		if (!crlf && bytes[i] != '\n' && bytes[i] != '\r') {
			text_add_byte(out, bytes[i]);
			continue;
		}
		bool folded =
		    next < length && (bytes[next] == ' ' || bytes[next] == '\t');
		if (folded) {
			i = next;
			continue;
		}
		text_add_byte(out, '\n');
		i = next - 1;
	}
	text_add_byte(out, '\n');
}

static bool
line_starts(const char *line, const char *word)
{
	size_t i = 0;
	while (word[i] != '\0' && text_lower(line[i]) == text_lower(word[i])) {
		i++;
	}
	return word[i] == '\0';
}

/* libical frees components by calling itself, so how deep they lie is limited before it
 * sees them. */
static bool
check_depth(const char *lines, struct fault *fault)
{
	int depth = 0;
	bool any = false;
	for (const char *line = lines; *line != '\0'; line += strcspn(line, "\n") + 1) {
		line += strspn(line, " \t");
		depth += line_starts(line, "BEGIN") ? 1 : 0;
		depth -= line_starts(line, "END") && depth > 0 ? 1 : 0;
		any = any || line_starts(line, "BEGIN:VCALENDAR");
		if (depth > DEEPEST) {
			return fault_set(fault, FAULT_INPUT,
			    "its components lie more than %d deep", DEEPEST);
		}
	}
	return any || fault_set(fault, FAULT_INPUT, "there is no calendar in it");
}

/* A property's text, tidied, in the arena; "" when there is none. */
static bool
take_text(struct ics_reading *reading, icalcomponent *component, icalproperty_kind kind,
    enum tidy_shape shape, const char **out, struct fault *fault)
{
	icalproperty *property = icalcomponent_get_first_property(component, kind);
	icalvalue *value = property == NULL ? NULL : icalproperty_get_value(property);
	const char *string = value == NULL ? NULL : icalvalue_get_text(value);
	text_reset(&reading->text);
	if (string != NULL && !tidy_text(string, shape, &reading->text, fault)) {
		return false;
	}
	*out = arena_string(reading->arena, text_string(&reading->text));
	return true;
}

/* The day of a time, DAY_NONE for one that does not exist. */
static day_t
day_of(struct icaltimetype time)
{
	bool exists = !icaltime_is_null_time(time) && time.year >= 1900 &&
		      time.year <= 2199 && time.month >= 1 && time.month <= 12 &&
		      time.day >= 1 && time.day <= days_in_month(time.year, time.month);
	return exists ? day_from_civil(time.year, time.month, time.day) : DAY_NONE;
}

/* Adds a property's value as it is written, with its time zone, and a blank. */
static void
add_written(icalproperty *property, struct text *out)
{
	if (property == NULL) {
		return;
	}
	SCOPED_STRING *written = memory_held(icalproperty_as_ical_string_r(property));
	text_add_bytes(out, written, strcspn(written, "\r\n"));
	text_add_byte(out, ' ');
}

/* Start and end: the day and how many of them, and for what has times those as well. */
static void
take_time(struct ics_reading *reading, icalcomponent *component, struct ics_found *found)
{
	icalproperty *start = icalcomponent_get_first_property(
	    component, found->todo ? ICAL_DUE_PROPERTY : ICAL_DTSTART_PROPERTY);
	icalproperty *end =
	    icalcomponent_get_first_property(component, ICAL_DTEND_PROPERTY);
	icalproperty *length =
	    icalcomponent_get_first_property(component, ICAL_DURATION_PROPERTY);
	found->time = "";
	found->day = DAY_NONE;
	found->days = 1;
	if (start == NULL) {
		return;
	}
	struct icaltimetype time =
	    found->todo ? icalproperty_get_due(start) : icalproperty_get_dtstart(start);
	found->day = day_of(time);
	if (!time.is_date) {
		text_reset(&reading->text);
		add_written(start, &reading->text);
		add_written(end, &reading->text);
		add_written(length, &reading->text);
		found->time = arena_string(reading->arena, text_string(&reading->text));
		return;
	}
	if (end != NULL && found->day != DAY_NONE) {
		day_t last = day_of(icalproperty_get_dtend(end));
		found->days = last > found->day ? (int)(last - found->day) : 1;
	} else if (length != NULL) {
		struct icaldurationtype lasts = icalproperty_get_duration(length);
		unsigned days = lasts.weeks * 7 + lasts.days;
		found->days = days >= 1 && days < 100000 ? (int)days : 1;
	}
}

/* When a to-do was ticked off. By UTC, as it is written: a tick in the small hours may count for
 * the day before, which makes what follows due sooner and not later. */
static day_t
completed_on(icalcomponent *component)
{
	icalproperty *completed =
	    icalcomponent_get_first_property(component, ICAL_COMPLETED_PROPERTY);
	return completed == NULL ? DAY_NONE
				 : day_of(icalproperty_get_completed(completed));
}

static bool
has(icalcomponent *component, icalproperty_kind kind)
{
	return icalcomponent_get_first_property(component, kind) != NULL;
}

static const char *
status_of(icalcomponent *component)
{
	icalproperty *status =
	    icalcomponent_get_first_property(component, ICAL_STATUS_PROPERTY);
	const char *word = status == NULL ? NULL
					  : icalproperty_status_to_string(
						icalproperty_get_status(status));
	if (word == NULL || word[0] == '\0') {
		return has(component, ICAL_COMPLETED_PROPERTY) ? "COMPLETED" : "";
	}
	return word;
}

static struct ics_found *
find_uid(const struct ics_reading *reading, const char *uid, bool todo)
{
	for (size_t i = reading->count; i-- > 0;) {
		struct ics_found *found = &reading->items[i];
		if (found->todo == todo && strcmp(found->uid, uid) == 0) {
			return found;
		}
	}
	return NULL;
}

static bool
take_component(
    struct ics_reading *reading, icalcomponent *component, bool todo, struct fault *fault)
{
	struct ics_found found = {.todo = todo, .completed = completed_on(component)};
	bool odd_day = has(component, ICAL_RECURRENCEID_PROPERTY);
	if (!take_text(reading, component, ICAL_UID_PROPERTY, TIDY_ONE_LINE, &found.uid,
		fault)) {
		return false;
	}
	struct ics_found *first = odd_day ? find_uid(reading, found.uid, todo) : NULL;
	if (found.uid[0] == '\0' || first != NULL) {
		if (first != NULL) {
			first->repeats = true;
		}
		return true;
	}
	icalproperty *sequence =
	    icalcomponent_get_first_property(component, ICAL_SEQUENCE_PROPERTY);
	found.sequence = sequence == NULL ? 0 : icalproperty_get_sequence(sequence);
	found.repeats = odd_day || has(component, ICAL_RRULE_PROPERTY) ||
			has(component, ICAL_RDATE_PROPERTY);
	found.status = arena_string(reading->arena, status_of(component));
	take_time(reading, component, &found);
	if (!take_text(reading, component, ICAL_SUMMARY_PROPERTY, TIDY_ONE_LINE,
		&found.summary, fault) ||
	    !take_text(reading, component, ICAL_DESCRIPTION_PROPERTY, TIDY_LINES,
		&found.description, fault) ||
	    !take_text(reading, component, ICAL_LOCATION_PROPERTY, TIDY_ONE_LINE,
		&found.location, fault)) {
		return false;
	}
	ARENA_ADD(reading->arena, reading, found);
	return true;
}

static bool
take_calendar(struct ics_reading *reading, icalcomponent *calendar, struct fault *fault)
{
	icalcompiter at = icalcomponent_begin_component(calendar, ICAL_ANY_COMPONENT);
	for (icalcomponent *component = icalcompiter_deref(&at); component != NULL;
	     component = icalcompiter_next(&at)) {
		icalcomponent_kind kind = icalcomponent_isa(component);
		bool todo = kind == ICAL_VTODO_COMPONENT;
		if ((todo || kind == ICAL_VEVENT_COMPONENT) &&
		    !take_component(reading, component, todo, fault)) {
			return false;
		}
	}
	return true;
}

/* Several calendars in one file come as children of a component of no name. */
static bool
take_all(struct ics_reading *reading, icalcomponent *parsed, struct fault *fault)
{
	if (icalcomponent_isa(parsed) == ICAL_VCALENDAR_COMPONENT) {
		return take_calendar(reading, parsed, fault);
	}
	icalcompiter at = icalcomponent_begin_component(parsed, ICAL_VCALENDAR_COMPONENT);
	for (icalcomponent *calendar = icalcompiter_deref(&at); calendar != NULL;
	     calendar = icalcompiter_next(&at)) {
		if (!take_calendar(reading, calendar, fault)) {
			return false;
		}
	}
	return true;
}

/* Hands the parser what is left, as fgets would. libical's own way of reading a string looks for
 * the line's end in all that follows, once for every 80 bytes: on one long line that grows with
 * its square. */
static char *
next_piece(char *out, size_t size, void *context)
{
	const char **at = context;
	size_t count = 0;
	memory_spare(ICAL_ROOM);
	while (count + 1 < size && (*at)[count] != '\0') {
		out[count] = (*at)[count];
		if (out[count++] == '\n') {
			break;
		}
	}
	out[count] = '\0';
	*at += count;
	return count == 0 ? NULL : out;
}

/* NULL when nothing in it could be read. */
static icalcomponent *
parse(const char *lines)
{
	memory_spare(ICAL_ROOM);
	icalparser *parser = icalparser_new();
	if (parser == NULL) {
		return NULL;
	}
	icalparser_set_gen_data(parser, &lines);
	icalcomponent *parsed = icalparser_parse(parser, next_piece);
	icalparser_free(parser);
	return parsed;
}

/* Some editors put it before UTF-8, where it means nothing. */
static const char BYTE_ORDER_MARK[] = "\xEF\xBB\xBF";

bool
ics_read(const char *bytes, size_t length, struct arena *arena, struct ics_found **out,
    size_t *count_out, struct fault *fault)
{
	__attribute__((cleanup(reading_clear))) struct ics_reading reading = {
	    .arena = arena};
	SCOPED_TEXT lines = {0};
	if (length > 0 && memchr(bytes, '\0', length) != NULL) {
		return fault_set(fault, FAULT_INPUT, "it has a zero byte");
	}
	if (!utf8_valid(bytes, length)) {
		return fault_set(fault, FAULT_INPUT, "it is not well-formed UTF-8");
	}
	size_t mark = length >= 3 && memcmp(bytes, BYTE_ORDER_MARK, 3) == 0 ? 3 : 0;
	unfold(bytes + mark, length - mark, &lines);
	if (!check_depth(text_string(&lines), fault)) {
		return false;
	}
	SCOPED_COMPONENT *parsed = parse(text_string(&lines));
	if (parsed == NULL) {
		return fault_set(fault, FAULT_INPUT, "there is no calendar in it");
	}
	if (!take_all(&reading, parsed, fault)) {
		return false;
	}
	*out = reading.items;
	*count_out = reading.count;
	return true;
}

void
ics_digest(const struct ics_found *found, struct text *out)
{
	char days[32];
	(void)snprintf(days, sizeof days, "%d", found->days);
	bool usual = strcmp(found->status, "CONFIRMED") == 0 ||
		     strcmp(found->status, "NEEDS-ACTION") == 0;
	const char *const strings[] = {found->todo ? "to-do" : "event", days, found->time,
	    found->summary, found->description, found->location,
	    usual ? "" : found->status, found->repeats ? "repeats" : ""};
	digest_add(strings, sizeof strings / sizeof strings[0], out);
}
