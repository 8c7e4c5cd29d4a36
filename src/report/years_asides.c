/* Notes beside a plan of the coming winters: what depends on how many winters it covers,
 * and where the shore list differs. */
#include "report/tags.h"
#include "report/words_inside.h"

/* Adds a set of numbers of winters: "1 to 4, 11 to 15 or 20". */
static void
add_numbers(unsigned set, struct text *out)
{
	bool any = false;
	for (size_t first = 1; first <= OUTLOOK_WINTERS_MOST; first++) {
		size_t last = first;
		if ((set & WINTERS_BIT(first)) == 0) {
			continue;
		}
		while (
		    last < OUTLOOK_WINTERS_MOST && (set & WINTERS_BIT(last + 1)) != 0) {
			last++;
		}
		last = last == first + 1 ? first : last; /* two are told one by one */
		bool more = last < OUTLOOK_WINTERS_MOST && (set >> last) != 0;
		text_add(out, !any ? "" : more ? ", " : " or ");
		text_add_format(out, "%zu", first);
		if (last > first) {
			text_add_format(out, " to %zu", last);
		}
		any = true;
		first = last;
	}
}

void
add_years_tips(
    const struct years_page *page, const struct named_outlook *named, struct text *out)
{
	const struct item *items = page->view->inventory->items;
	if (named->tips.count == 0) {
		return;
	}
	text_add(out,
	    "Hangs on how many winters are looked at, since what comes after the "
	    "last counts for nothing:");
	for (size_t i = 0; i < named->tips.count; i++) {
		const struct outlook_tip *tip = &named->tips.items[i];
		text_add_format(out, "%s %s is bought new in the first of ",
		    i > 0 ? ";" : "", items[tip->item].tag);
		add_numbers(tip->renewed, out);
		text_add(out, " winters, not of ");
		add_numbers(tip->kept, out);
	}
	text_add(out, ".");
}

/* Adds the tags of the clashes of one sort. False where there are none. */
static bool
add_clashing(const struct item *items, const struct winter_clashes *clashes, bool renewed,
    struct text *out)
{
	struct tag_list tags = {.out = out};
	for (size_t i = 0; i < clashes->count; i++) {
		if (clashes->items[i].renewed == renewed) {
			tag_list_add(&tags, items[clashes->items[i].item].tag);
		}
	}
	tag_list_end(&tags);
	return tags.any;
}

void
add_years_clashes(
    const struct years_page *page, const struct named_outlook *named, struct text *out)
{
	const struct item *items = page->view->inventory->items;
	for (int renewed = 1; renewed >= 0; renewed--) {
		SCOPED_TEXT tags = {0};
		if (!add_clashing(items, &named->clashes, renewed == 1, &tags)) {
			continue;
		}
		text_add_format(out,
		    "%sThe shore list (becket winter), which looks at this winter alone, "
		    "has %s %s; over these winters it is cheaper to %s.",
		    out->length > 0 ? " " : "", text_string(&tags),
		    renewed == 1 ? "serviced" : "bought new",
		    renewed == 1 ? "buy that new now" : "have that serviced");
	}
}

void
add_list_clashes(const struct inventory *inventory, const struct winter_clashes *clashes,
    struct text *out)
{
	for (int renewed = 1; renewed >= 0; renewed--) {
		SCOPED_TEXT tags = {0};
		if (!add_clashing(inventory->items, clashes, renewed == 1, &tags)) {
			continue;
		}
		text_add_format(out,
		    "%sOver %zu winters (becket years %zu) it would be cheaper to %s: %s; "
		    "this list looks at one winter alone.",
		    out->length > 0 ? " " : "", clashes->winters, clashes->winters,
		    renewed == 1 ? "buy new now, and not to have serviced"
				 : "have serviced, and not to buy new",
		    text_string(&tags));
	}
}
