/* Which base of a fleet a page is about. */
#include "page/bases.h"

#include "page/shell.h"

#include <string.h>

/* With more boats than this a page looks at them base by base, unless all are asked for: so many stand
 * on no screen, and take longer to reckon than a person waits. */
enum { BOATS_AT_ONCE = 200 };

/* What is sent for all bases. */
static const char ALL_BASES[] = "all";

bool
base_choice_read(struct visit *visit, struct base_choice *out, struct fault *fault)
{
	struct desk *desk = &visit->desk;
	struct word_list boats = {0};
	const char *asked = page_value(visit, "base");
	*out = (struct base_choice){0};
	if (!desk_book(desk, fault) ||
	    !book_names(desk->book, BOOK_BERTHS, &desk->arena, &out->berths, fault) ||
	    !book_names(desk->book, BOOK_VESSELS, &desk->arena, &boats, fault)) {
		return false;
	}
	out->large = boats.count > BOATS_AT_ONCE;
	for (size_t i = 0; i < out->berths.count; i++) {
		if (strcmp(out->berths.items[i], asked) == 0) {
			out->base = out->berths.items[i];
		}
	}
	if (out->base == NULL && strcmp(asked, ALL_BASES) != 0 && out->large &&
	    out->berths.count > 1) {
		out->base = out->berths.items[0];
	}
	return true;
}

void
base_choice_write(struct visit *visit, const struct base_choice *choice)
{
	if (choice->berths.count < 2) {
		return;
	}
	shell_choice(visit, "base", "Boats of");
	shell_option(visit, ALL_BASES, "all bases", choice->base == NULL);
	for (size_t i = 0; i < choice->berths.count; i++) {
		const char *base = choice->berths.items[i];
		shell_option(visit, base, base,
		    choice->base != NULL && strcmp(choice->base, base) == 0);
	}
	markup_end(visit->markup);
	markup_end(visit->markup);
}

void
base_choice_add(const struct base_choice *choice, struct text *out)
{
	if (choice->base != NULL) {
		text_add(out, "&base=");
		form_escape(choice->base, out);
	}
}
