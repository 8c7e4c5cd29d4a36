#include "dates/weekdays.h"

#include "base/text.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { DAYS = 7, SHORT = 3 };

/* The day of the week whose first three letters stand at `at`; -1 when none does. */
static int
day_at(const char *at)
{
	for (int day = 0; day < DAYS; day++) {
		if (strncasecmp(at, weekday_name(day), SHORT) == 0) {
			return day;
		}
	}
	return -1;
}

bool
weekdays_parse(const char *string, unsigned *weekdays_out, struct fault *fault)
{
	unsigned weekdays = text_same_letters(string, "all") ? WEEKDAYS_ALL : 0;
	const char *at = weekdays == 0 ? string : "";
	bool more = weekdays == 0;
	while (more) {
		int first = day_at(at);
		at += first < 0 ? 0 : SHORT;
		bool run = first >= 0 && *at == '-';
		int last = run ? day_at(at + 1) : first;
		at += run && last >= 0 ? SHORT + 1 : 0;
		more = *at == ',';
		if (first < 0 || last < 0 || (*at != '\0' && !more)) {
			return fault_set(fault, FAULT_INPUT,
			    "\"%.40s\" names no days of the week; expected mon-fri or "
			    "mon,wed,sat or all",
			    string);
		}
		at += more ? 1 : 0;
		weekdays |= 1U << last;
		for (int day = first; day != last; day = (day + 1) % DAYS) {
			weekdays |= 1U << day;
		}
	}
	*weekdays_out = weekdays;
	return true;
}

static bool
has(unsigned weekdays, int day)
{
	return day < DAYS && (weekdays >> day & 1U) != 0;
}

const char *
weekdays_text(unsigned weekdays, char buffer[WEEKDAYS_TEXT_SIZE])
{
	size_t length = 0;
	if ((weekdays & WEEKDAYS_ALL) == WEEKDAYS_ALL) {
		(void)snprintf(buffer, WEEKDAYS_TEXT_SIZE, "all");
		return buffer;
	}
	buffer[0] = '\0';
	for (int day = 0; day < DAYS; day++) {
		bool starts = has(weekdays, day) && (day == 0 || !has(weekdays, day - 1));
		bool ends = has(weekdays, day) && !has(weekdays, day + 1);
		if (!starts && !ends) {
			continue;
		}
		const char *joint = !starts ? "-" : length > 0 ? "," : "";
		length += (size_t)snprintf(buffer + length, WEEKDAYS_TEXT_SIZE - length,
		    "%s%c%.2s", joint, weekday_name(day)[0] + ('a' - 'A'),
		    weekday_name(day) + 1);
	}
	return buffer;
}
