/* Writes a calendar of so many invented events, by ours or by libical alone, for ics_bench.py.
 *
 * usage: ics_bench ours|libical COUNT
 *
 * Both have the same texts and alarms. The bare loop makes each event a component and
 * writes what libical makes of it: it mends no fold and tidies no text. */
#include "base/memory.h"
#include "calendar/ics.h"

#include <libical/ical.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char SUMMARY[] = "Hand in 3 items at Skerry Raft Loft, Amberjay";
static const char DESCRIPTION[] =
    "- LR-1 liferaft, canister: service, due 12 Mar 2027 (36 months from the last service)\n"
    "- LJ-1 lifejacket, automatic: service, due 30 Apr 2027; its cylinder is renewed with it\n"
    "- CY-7 gas cylinder: test, due 1 Jun 2027\n"
    "Collect from Monday 1 March 2027.\n"
    "The label, the maker's manual and the station's certificate decide.";

enum { FIRST_DAY = 20800, DAYS = 700, IDENTITY = 48 };

static void
write_ours(size_t count)
{
	struct arena arena = {0};
	struct fault fault = {0};
	SCOPED_TEXT out = {0};
	struct reminder *reminders = arena_alloc(&arena, (count + 1) * sizeof *reminders);
	for (size_t i = 0; i < count; i++) {
		char uid[IDENTITY];
		(void)snprintf(uid, sizeof uid, "%08zx-0000-8000-8000-000000000000", i);
		reminders[i] = (struct reminder){.key = "hand-in",
		    .summary = SUMMARY,
		    .description = DESCRIPTION,
		    .category = "becket",
		    .day = (day_t)(FIRST_DAY + i % DAYS),
		    .uid = arena_string(&arena, uid),
		    .modified = 1795000000};
	}
	if (!ics_write("becket", reminders, count, &out, &fault)) {
		(void)fputs("ics_write failed\n", stderr);
		exit(3);
	}
	(void)fwrite(text_string(&out), 1, out.length, stdout);
	arena_clear(&arena);
}

static void
add_alarm(icalcomponent *event, unsigned days)
{
	icalcomponent *alarm = icalcomponent_new_valarm();
	struct icaltriggertype trigger = {.time = icaltime_null_time(),
	    .duration = {.is_neg = 1, .days = days, .hours = 15}};
	icalcomponent_add_property(alarm, icalproperty_new_action(ICAL_ACTION_DISPLAY));
	icalcomponent_add_property(alarm, icalproperty_new_trigger(trigger));
	icalcomponent_add_property(alarm, icalproperty_new_description(SUMMARY));
	icalcomponent_add_component(event, alarm);
}

static void
write_libical(size_t count)
{
	icaltimezone *utc = icaltimezone_get_utc_timezone();
	icaltimetype modified = icaltime_from_timet_with_zone(1795000000, 0, utc);
	(void)fputs(
	    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//becket//bench//EN\r\n", stdout);
	for (size_t i = 0; i < count; i++) {
		char uid[IDENTITY];
		time_t start = (time_t)(FIRST_DAY + i % DAYS) * 86400;
		icalproperty *busy = icalproperty_new_x("FREE");
		(void)snprintf(uid, sizeof uid, "%08zx-0000-8000-8000-000000000000", i);
		icalproperty_set_x_name(busy, "X-MICROSOFT-CDO-BUSYSTATUS");
		icalcomponent *event = icalcomponent_vanew(ICAL_VEVENT_COMPONENT,
		    icalproperty_new_uid(uid), icalproperty_new_dtstamp(modified),
		    icalproperty_new_lastmodified(modified), icalproperty_new_sequence(0),
		    icalproperty_new_dtstart(
			icaltime_from_timet_with_zone(start, 1, utc)),
		    icalproperty_new_dtend(
			icaltime_from_timet_with_zone(start + 86400, 1, utc)),
		    icalproperty_new_summary(SUMMARY),
		    icalproperty_new_description(DESCRIPTION),
		    icalproperty_new_categories("becket"),
		    icalproperty_new_status(ICAL_STATUS_CONFIRMED),
		    icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT), busy, (void *)0);
		add_alarm(event, 6);
		add_alarm(event, 0);
		char *written = icalcomponent_as_ical_string_r(event);
		(void)fputs(written, stdout);
		free(written);
		icalcomponent_free(event);
	}
	(void)fputs("END:VCALENDAR\r\n", stdout);
}

int
main(int argc, char **argv)
{
	if (argc != 3) {
		(void)fputs("usage: ics_bench ours|libical COUNT\n", stderr);
		return 2;
	}
	size_t count = (size_t)strtoul(argv[2], NULL, 10);
	if (strcmp(argv[1], "ours") == 0) {
		write_ours(count);
	} else {
		write_libical(count);
	}
	return 0;
}
