/* Lets another program check the date arithmetic. Each line of input is a date and a number
 * of months, `2024 1 31 1`; each line of output is the date's day number, then the date so
 * many months later: `19753 2024 2 29`. */
#include "dates/day.h"

#include <stdio.h>

int
main(void)
{
	int year = 0;
	int month = 0;
	int day = 0;
	int months = 0;
	char line[80];
	while (fgets(line, sizeof line, stdin) != NULL) {
		/* NOLINTNEXTLINE(cert-err34-c): the input is our own test's */
		if (sscanf(line, "%d %d %d %d", &year, &month, &day, &months) != 4) {
			(void)fprintf(
			    stderr, "months_driver: no date and months: %s", line);
			return 2;
		}
		day_t from = day_from_civil(year, month, day);
		struct civil to = day_to_civil(day_add_months(from, months));
		(void)printf("%d %d %d %d\n", from, to.year, to.month, to.day);
	}
	return 0;
}
