#include "dates/yearly.h"

#include <stdio.h>
#include <string.h>

/* Reads the two digits at `at` as a number from 1 to `most`; 0 when they are not. */
static int
two_digits(const char *at, int most)
{
	if (at[0] < '0' || at[0] > '9' || at[1] < '0' || at[1] > '9') {
		return 0;
	}
	int number = (at[0] - '0') * 10 + (at[1] - '0');
	return number <= most ? number : 0;
}

bool
yearly_parse(const char *string, struct yearly *yearly_out, struct fault *fault)
{
	bool shape = strlen(string) == 12 && string[2] == '-' &&
		     memcmp(string + 5, "..", 2) == 0 && string[9] == '-';
	struct yearly yearly = {0};
	if (shape) {
		yearly.first_month = (int8_t)two_digits(string, 12);
		yearly.first_day = (int8_t)two_digits(string + 3, 31);
		yearly.last_month = (int8_t)two_digits(string + 7, 12);
		yearly.last_day = (int8_t)two_digits(string + 10, 31);
	}
	const int leap = 2024; /* any year with a 29 February */
	bool exists = yearly.first_month != 0 && yearly.last_month != 0 &&
		      yearly.first_day != 0 && yearly.last_day != 0 &&
		      yearly.first_day <= days_in_month(leap, yearly.first_month) &&
		      yearly.last_day <= days_in_month(leap, yearly.last_month);
	if (!exists) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no yearly window; expected MM-DD..MM-DD, as in 11-01..03-31",
		    string);
	}
	*yearly_out = yearly;
	return true;
}

const char *
yearly_text(struct yearly yearly, char buffer[YEARLY_TEXT_SIZE])
{
	(void)snprintf(buffer, YEARLY_TEXT_SIZE, "%02d-%02d..%02d-%02d",
	    yearly.first_month, yearly.first_day, yearly.last_month, yearly.last_day);
	return buffer;
}

static day_t
day_in_year(int year, int month, int day)
{
	int last = days_in_month(year, month);
	return day_from_civil(year, month, day < last ? day : last);
}

struct span
yearly_in(struct yearly yearly, int year)
{
	bool crosses = yearly.last_month < yearly.first_month ||
		       (yearly.last_month == yearly.first_month &&
			   yearly.last_day < yearly.first_day);
	return (struct span){
	    day_in_year(year, yearly.first_month, yearly.first_day),
	    day_in_year(crosses ? year + 1 : year, yearly.last_month, yearly.last_day),
	};
}

bool
span_parse(const char *string, struct span *span_out, struct fault *fault)
{
	const char *dots = strstr(string, "..");
	char first[16] = "";
	if (dots == NULL || dots - string >= (long)sizeof first) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s\" is no span of days; expected YYYY-MM-DD..YYYY-MM-DD",
		    string);
	}
	memcpy(first, string, (size_t)(dots - string));
	struct span span = {0};
	if (!day_parse(first, &span.first, fault) ||
	    !day_parse(dots + 2, &span.last, fault)) {
		return false;
	}
	if (span.last < span.first) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s\" ends before it starts; expected the earlier day first",
		    string);
	}
	*span_out = span;
	return true;
}
