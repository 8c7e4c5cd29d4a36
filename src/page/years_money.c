/* Coming years: money by winter, as bars and as a table. */
#include "gear/money.h"
#include "page/draw.h"
#include "page/planning.h"
#include "page/shell.h"

void
years_money(const struct years_leaf *leaf, int64_t minor, struct text *out)
{
	money_add(minor, leaf->visit->desk.contents.inventory.currency, out);
}

void
years_whole_money(const struct years_leaf *leaf, int64_t minor, struct text *out)
{
	const char *currency = leaf->visit->desk.contents.inventory.currency;
	int64_t unit = 1;
	for (int i = money_decimals(currency); i > 0; i--) {
		unit *= 10;
	}
	text_add_format(out, "%lld", (long long)((minor + unit / 2) / unit));
}

bool
years_priceless(const struct years_leaf *leaf)
{
	return leaf->plan->minor == 0 && leaf->plan->unpriced > 0;
}

void
years_bars(const struct years_leaf *leaf)
{
	struct markup *markup = leaf->visit->markup;
	const struct outlook *plan = leaf->plan;
	struct money_bar bars[OUTLOOK_WINTERS_MOST];
	for (size_t i = 0; i < plan->winters; i++) {
		struct outlook_sum sum = outlook_sum_of(plan, i);
		SCOPED_TEXT words = {0};
		years_whole_money(leaf, outlook_minor_of(plan, i), &words);
		bars[i] = (struct money_bar){plan->first_year + (int)i, sum.new_gear,
		    sum.work, sum.trips,
		    arena_string(&leaf->visit->arena, text_string(&words))};
	}
	markup_begin_class(markup, "div", "entry");
	markup_element(markup, "div", "m", leaf->visit->desk.contents.inventory.currency);
	markup_begin_class(markup, "figure", "t");
	draw_money(markup, bars, plan->winters,
	    "Money by winter; the table below says the same in figures");
	markup_ends(markup, 2);
}

void
years_sums(const struct years_leaf *leaf, const char *head, const int64_t *sums,
    size_t count, bool signed_last)
{
	struct markup *markup = leaf->visit->markup;
	markup_begin(markup, "tr");
	MARKUP_BEGIN(markup, "th", NULL, "scope", "row");
	markup_text(markup, head);
	markup_end(markup);
	for (size_t i = 0; i < count; i++) {
		SCOPED_TEXT words = {0};
		bool sign = signed_last && i + 1 == count;
		text_add(&words, !sign || sums[i] == 0 ? ""
				 : sums[i] > 0         ? "+"
						       : "\u2212");
		years_money(leaf, sums[i] < 0 ? -sums[i] : sums[i], &words);
		markup_element(markup, "td", "num", text_string(&words));
	}
	markup_end(markup);
}

void
years_end_sums(
    const struct years_leaf *leaf, const int64_t *sums, size_t count, bool signed_last)
{
	struct markup *markup = leaf->visit->markup;
	markup_end(markup);
	markup_begin(markup, "tfoot");
	years_sums(leaf, "all", sums, count, signed_last);
	markup_ends(markup, 3);
}

void
years_table(const struct years_leaf *leaf)
{
	static const char *const COLUMNS[] = {
	    "Winter", "Trips", "Stations", "New gear", "Together"};
	static const struct shell_table TABLE = {.label = "Money by winter",
	    .class_name = "money",
	    .columns = COLUMNS,
	    .count = 5,
	    .figures = 4};
	int64_t all[4] = {0};
	SCOPED_TEXT margin = {0};
	text_add_format(&margin, "in %s", leaf->visit->desk.contents.inventory.currency);
	shell_section(leaf->visit, NULL, text_string(&margin), "Money by winter");
	shell_table(leaf->visit, &TABLE);
	markup_begin(leaf->visit->markup, "tbody");
	for (size_t i = 0; i < leaf->plan->winters; i++) {
		struct outlook_sum sum = outlook_sum_of(leaf->plan, i);
		const int64_t sums[] = {
		    sum.trips, sum.work, sum.new_gear, outlook_minor_of(leaf->plan, i)};
		SCOPED_TEXT year = {0};
		for (size_t j = 0; j < 4; j++) {
			all[j] += sums[j];
		}
		text_add_format(&year, "%d", leaf->plan->first_year + (int)i);
		years_sums(leaf, text_string(&year), sums, 4, false);
	}
	years_end_sums(leaf, all, 4, false);
	markup_ends(leaf->visit->markup, 2);
}
