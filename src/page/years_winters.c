/* Coming years: what each winter asks, by name. */
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

/* A sum has a line of its own when it is at least the largest sum divided by this. */
enum { SINGLY = 40 };

static const struct item *
item_of(const struct years_leaf *leaf, const struct outlook_line *line)
{
	return &leaf->visit->desk.contents.inventory.items[line->item];
}

/* The largest price of a line in the plan. */
static int64_t
largest(const struct outlook *plan)
{
	int64_t most = 0;
	for (size_t i = 0; i < plan->line_count; i++) {
		most = plan->lines[i].minor > most ? plan->lines[i].minor : most;
	}
	return most;
}

static void
add_tag(struct markup *markup, const char *between, const char *tag)
{
	markup_text(markup, between);
	markup_element(markup, "span", "nb", tag);
}

/* Weights of a winter's renewals: those with a line of their own, those that cost little
 * compared with the largest, those without a known price. */
enum weight { LARGE, SMALL, NO_PRICE };

static enum weight
weight_of(const struct outlook_line *line, int64_t most)
{
	return line->minor < 0 ? NO_PRICE : line->minor * SINGLY < most ? SMALL : LARGE;
}

static bool
is_renewal(
    const struct outlook_line *line, size_t winter, enum weight weight, int64_t most)
{
	return line->winter == winter && line->task == TASK_RENEW &&
	       !outlook_is_work(line) && weight_of(line, most) == weight;
}

/* The renewals of one weight together: "4 small things for 92 in all: FL-2, GR-1,
 * ...". */
static void
write_together(
    const struct years_leaf *leaf, size_t winter, enum weight weight, const char *between)
{
	struct markup *markup = leaf->visit->markup;
	const struct outlook *plan = leaf->plan;
	int64_t most = largest(plan);
	int64_t sum = 0;
	size_t count = 0;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < plan->line_count; i++) {
		bool one = is_renewal(&plan->lines[i], winter, weight, most);
		sum += one ? plan->lines[i].minor : 0;
		count += one;
	}
	text_add_format(&words, "%s%zu ", between, count);
	if (weight == NO_PRICE) {
		text_add(&words, "without a known price: ");
	} else {
		text_add_format(&words, "small thing%s for ", count == 1 ? "" : "s");
		years_whole_money(leaf, sum, &words);
		text_add(&words, count == 1 ? ": " : " in all: ");
	}
	const char *next = text_string(&words);
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		if (is_renewal(line, winter, weight, most)) {
			add_tag(markup, next, item_of(leaf, line)->tag);
			next = ", ";
		}
	}
}

static void
write_singly(
    const struct years_leaf *leaf, const struct outlook_line *line, const char *between)
{
	struct markup *markup = leaf->visit->markup;
	SCOPED_TEXT words = {0};
	SCOPED_TEXT money = {0};
	text_add_format(&words, "%s%s ", between,
	    kind_name(leaf->visit->desk.engine.kinds, item_of(leaf, line)->kind));
	add_tag(markup, text_string(&words), item_of(leaf, line)->tag);
	text_add_byte(&money, ' ');
	years_whole_money(leaf, line->minor, &money);
	markup_element(markup, "b", NULL, text_string(&money));
}

/* What is renewed in a winter: large sums by name, small ones in one line, and what has
 * no price. */
static void
write_renewals(const struct years_leaf *leaf, size_t winter)
{
	const struct outlook *plan = leaf->plan;
	int64_t most = largest(plan);
	const char *between = "renew: ";
	markup_begin(leaf->visit->markup, "p");
	for (enum weight weight = LARGE; weight <= NO_PRICE; weight++) {
		for (size_t i = 0; i < plan->line_count; i++) {
			if (!is_renewal(&plan->lines[i], winter, weight, most)) {
				continue;
			}
			if (weight != LARGE) {
				write_together(leaf, winter, weight, between);
				between = "; ";
				break;
			}
			write_singly(leaf, &plan->lines[i], between);
			between = "; ";
		}
	}
	markup_end(leaf->visit->markup);
}

/* What goes to stations in a winter, each tag once. */
static void
write_station_work(const struct years_leaf *leaf, size_t winter)
{
	struct markup *markup = leaf->visit->markup;
	const struct outlook *plan = leaf->plan;
	const char *between = "to stations: ";
	size_t last = NO_ITEM;
	markup_begin(markup, "p");
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		if (line->winter == winter && outlook_is_work(line) &&
		    line->item != last) {
			add_tag(markup, between, item_of(leaf, line)->tag);
			between = ", ";
			last = line->item;
		}
	}
	markup_end(markup);
}

static void
write_winter(const struct years_leaf *leaf, size_t winter)
{
	struct markup *markup = leaf->visit->markup;
	SCOPED_TEXT sum = {0};
	if (!years_priceless(leaf)) {
		text_add_format(
		    &sum, "%s ", leaf->visit->desk.contents.inventory.currency);
		years_money(leaf, outlook_minor_of(leaf->plan, winter), &sum);
	}
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_element_format(markup, "b", NULL, "%s %d",
	    leaf->plan->all_year ? "year" : "winter",
	    leaf->plan->first_year + (int)winter);
	markup_begin(markup, "br");
	markup_end(markup);
	markup_text(markup, text_string(&sum));
	markup_end(markup);
	markup_begin_class(markup, "div", "w yr");
	write_renewals(leaf, winter);
	write_station_work(leaf, winter);
	markup_ends(markup, 2);
}

void
years_winters(const struct years_leaf *leaf)
{
	shell_rows(leaf->visit, "by name", "What each winter asks");
	for (size_t i = 0; i < leaf->plan->winters; i++) {
		write_winter(leaf, i);
	}
	markup_ends(leaf->visit->markup, 2);
}
