#include "cli/list_options.h"

#include <string.h>

struct list_how
list_how_given(const struct given_options *given)
{
	return (struct list_how){
	    options_value(given, "encoding"), options_value(given, "worksheet")};
}

enum date_order
list_order_given(const struct given_options *given)
{
	const char *dates = options_value(given, "dates");
	if (dates == NULL) {
		return ORDER_ISO;
	}
	return strcmp(dates, "day-first") == 0 ? ORDER_DAY_FIRST : ORDER_MONTH_FIRST;
}
