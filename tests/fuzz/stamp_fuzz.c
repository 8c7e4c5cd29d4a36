/* Any text as a date: refused with words, or read into a stamp that is written and read back
 * the same, and whose days are in order. */
#include "base/text.h"
#include "dates/stamp.h"
#include "dates/yearly.h"

#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void
check_stamp(const char *string, enum date_order order)
{
	struct fault fault = {0};
	struct stamp stamp = {0};
	struct stamp again = {0};
	char text[STAMP_TEXT_SIZE];
	if (!stamp_parse(string, order, &stamp, &fault)) {
		if (fault.kind != FAULT_INPUT || fault.text[0] == '\0') {
			abort();
		}
		return;
	}
	if (!stamp_parse(stamp_text(stamp, text), ORDER_ISO, &again, &fault) ||
	    !stamp_same(stamp, again) || stamp_first(stamp) > stamp_last(stamp) ||
	    stamp_good_through(stamp) > stamp_last(stamp)) {
		abort();
	}
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct fault fault = {0};
	struct yearly yearly = {0};
	struct span span = {0};
	SCOPED_TEXT text = {0};
	for (size_t i = 0; i < size; i++) {
		text_add_byte(&text, (char)data[i]);
	}
	const char *string = text_string(&text);
	check_stamp(string, ORDER_ISO);
	check_stamp(string, ORDER_DAY_FIRST);
	check_stamp(string, ORDER_MONTH_FIRST);
	if (yearly_parse(string, &yearly, &fault) &&
	    yearly_in(yearly, 2027).last < yearly_in(yearly, 2027).first) {
		abort();
	}
	if (span_parse(string, &span, &fault) && span.last < span.first) {
		abort();
	}
	return 0;
}
