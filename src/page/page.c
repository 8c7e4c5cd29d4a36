#include "page/page.h"

#include <stdarg.h>

const char *
page_value(const struct visit *visit, const char *name)
{
	const char *value = form_value(&visit->sent, name);
	value = value == NULL ? form_value(&visit->asked, name) : value;
	return value == NULL ? "" : value;
}

bool
page_has(const struct visit *visit, const char *name)
{
	return form_value(&visit->sent, name) != NULL;
}

void
page_go(struct visit *visit, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	visit->answer->status = 303;
	visit->answer->is_page = true;
	text_reset(&visit->answer->location);
	text_add_arguments(&visit->answer->location, format, arguments);
	va_end(arguments);
}

void
page_trial(struct visit *visit, struct desk *out)
{
	visit->site->desk(visit->site->context, NULL, out);
	out->mode = BOOK_TRIAL;
}
