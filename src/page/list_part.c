/* Bring a list: what is too much for one page is shown part by part. */
#include "page/shell.h"
#include "page/taking_in.h"

enum { FROM_MOST = 999999 };

struct list_part
list_part_of(
    const struct list_page *page, const char *field, size_t at_once, size_t count)
{
	struct list_part part = {.field = field, .at_once = at_once, .count = count};
	int from = 0;
	if (text_figures(page_value(page->visit, field), FROM_MOST, &from) &&
	    (size_t)from < count) {
		part.from = (size_t)from - (size_t)from % at_once;
	}
	part.to = count - part.from < at_once ? count : part.from + at_once;
	return part;
}

static void
write_button(const struct list_page *page, const struct list_part *part, size_t from)
{
	SCOPED_TEXT value = {0};
	SCOPED_TEXT words = {0};
	size_t to =
	    part->count - from < part->at_once ? part->count : from + part->at_once;
	text_add_format(&value, "%zu", from);
	text_add_format(&words, "Show %zu to %zu", from + 1, to);
	shell_button(
	    page->visit, false, part->field, text_string(&value), text_string(&words));
}

void
list_write_part(
    const struct list_page *page, const struct list_part *part, const char *what)
{
	struct markup *markup = page->visit->markup;
	if (part->count <= part->at_once) {
		return;
	}
	markup_element_format(markup, "p", "full", "Shown are %zu to %zu of %zu %s.",
	    part->from + 1, part->to, part->count, what);
	markup_begin_class(markup, "div", "acts");
	if (part->from > 0) {
		write_button(page, part, part->from - part->at_once);
	}
	if (part->to < part->count) {
		write_button(page, part, part->to);
	}
	markup_end(markup);
}
