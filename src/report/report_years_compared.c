/* Two plans of the years ahead, side by side. */
#include "gear/money.h"
#include "report/report.h"
#include "report/table.h"
#include "report/words.h"

#include <string.h>

struct compared {
	const struct report_style *style;
	const struct outlook_view *as_is;
	const struct outlook_view *changed;
};

/* What all plans of a view spend in the winter of a year. */
static int64_t
spent_in(const struct outlook_view *view, int year)
{
	int64_t minor = 0;
	for (size_t i = 0; i < view->count; i++) {
		const struct outlook *plan = &view->plans[i].plan;
		int winter = year - plan->first_year;
		if (winter >= 0 && winter < (int)plan->winters) {
			struct outlook_sum sum = outlook_sum_of(plan, (size_t)winter);
			minor += sum.trips + sum.work + sum.new_gear;
		}
	}
	return minor;
}

/* Adds an amount without its currency, with its sign where `difference`. */
static void
add_amount(
    const struct compared *compared, int64_t minor, bool difference, struct table *table)
{
	char money[MONEY_WORDS_SIZE];
	const char *words =
	    money_words(minor < 0 ? -minor : minor, compared->style->currency, money);
	const char *blank = strchr(words, ' ');
	SCOPED_TEXT cell = {0};
	if (difference && minor != 0) {
		text_add(&cell, minor < 0 ? "-" : "+");
	}
	text_add(&cell, blank == NULL ? words : blank + 1);
	table_add(table, HUE_NONE, text_string(&cell));
}

static void
add_row(const struct compared *compared, const char *name, int64_t as_is, int64_t changed,
    struct table *table)
{
	table_add(table, HUE_NONE, name);
	add_amount(compared, as_is, false, table);
	add_amount(compared, changed, false, table);
	add_amount(compared, changed - as_is, true, table);
}

/* How often something is done in all plans: renewals, or work at stations; trips; lapses. */
struct counts {
	size_t trips;
	size_t works;
	size_t renewals;
	size_t gaps;
};

static struct counts
count_all(const struct outlook_view *view)
{
	struct counts counts = {0};
	for (size_t i = 0; i < view->count; i++) {
		const struct outlook *plan = &view->plans[i].plan;
		counts.trips += plan->trip_count;
		counts.gaps += plan->gap_count;
		for (size_t j = 0; j < plan->line_count; j++) {
			const struct outlook_line *line = &plan->lines[j];
			counts.renewals += line->task == TASK_RENEW ? 1 : 0;
			counts.works +=
			    line->task != TASK_RENEW && line->doer == DOER_STATION ? 1
										   : 0;
		}
	}
	return counts;
}

static void
add_count_row(const char *name, size_t as_is, size_t changed, struct table *table)
{
	SCOPED_TEXT cell = {0};
	table_add(table, HUE_NONE, name);
	text_add_format(&cell, "%zu", as_is);
	table_add(table, HUE_NONE, text_string(&cell));
	text_reset(&cell);
	text_add_format(&cell, "%zu", changed);
	table_add(table, HUE_NONE, text_string(&cell));
	text_reset(&cell);
	text_add_format(&cell, changed == as_is ? "%lld" : "%+lld",
	    (long long)changed - (long long)as_is);
	table_add(table, HUE_NONE, text_string(&cell));
}

static void
add_rows(const struct compared *compared, struct table *table)
{
	struct outlook_total as_is =
	    outlook_total_of(compared->as_is->plans, compared->as_is->count);
	struct outlook_total changed =
	    outlook_total_of(compared->changed->plans, compared->changed->count);
	struct counts before = count_all(compared->as_is);
	struct counts after = count_all(compared->changed);
	for (int year = as_is.first_year; year <= as_is.last_year; year++) {
		SCOPED_TEXT name = {0};
		text_add_format(&name, "winter %d", year);
		add_row(compared, text_string(&name), spent_in(compared->as_is, year),
		    spent_in(compared->changed, year), table);
	}
	add_row(compared, "all winters", as_is.minor, changed.minor, table);
	add_row(compared, "no plan costs less than", as_is.bound, changed.bound, table);
	add_count_row("trips", before.trips, after.trips, table);
	add_count_row("things done at stations", before.works, after.works, table);
	add_count_row("renewals", before.renewals, after.renewals, table);
	add_count_row("lapses in a season", before.gaps, after.gaps, table);
}

bool
report_years_compared(const struct report_style *style, const struct outlook_view *as_is,
    const struct outlook_view *changed, struct text *out, struct fault *fault)
{
	static const struct table_column COLUMNS[] = {{.heading = "", .flexible = true},
	    {.heading = "As it is", .align = ALIGN_RIGHT},
	    {.heading = "Changed", .align = ALIGN_RIGHT},
	    {.heading = "Difference", .align = ALIGN_RIGHT}};
	const struct compared compared = {style, as_is, changed};
	int64_t difference = outlook_total_of(changed->plans, changed->count).minor -
			     outlook_total_of(as_is->plans, as_is->count).minor;
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	SCOPED_TABLE table = {0};
	table_init(&table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2, style->colour);
	add_rows(&compared, &table);
	text_add(&words, "With the change the cheapest plan costs ");
	if (difference == 0) {
		text_add(&words, "the same.");
	} else {
		text_add(&words, money_words(difference < 0 ? -difference : difference,
				     style->currency, money));
		text_add(&words, difference < 0 ? " less." : " more.");
	}
	paragraph(text_string(&words), 0, 0, out);
	text_add_format(out, "\nIn %s\n", style->currency);
	out->failed = out->failed || words.failed;
	if (!table_write(&table, out, fault)) {
		return false;
	}
	add_caution(out);
	return text_check(out, fault);
}
