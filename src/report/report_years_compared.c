/* Two plans of the years ahead, side by side. */
#include "gear/money.h"
#include "report/report.h"
#include "report/table.h"
#include "report/tags.h"
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
struct compared_counts {
	size_t trips;
	size_t works;
	size_t renewals;
	size_t gaps;
};

static struct compared_counts
count_all(const struct outlook_view *view)
{
	struct compared_counts counts = {0};
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
	struct compared_counts before = count_all(compared->as_is);
	struct compared_counts after = count_all(compared->changed);
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

/* One of the two views, beside the other. */
struct side {
	const struct outlook_view *own;
	const struct outlook_view *other;
	const char *words; /* what is said of what only this one has */
};

/* True when the other view's same plan does this too, in that winter and place. */
static bool
done_in_both(const struct side *side, size_t plan, const struct outlook_line *line)
{
	const struct outlook *own = &side->own->plans[plan].plan;
	const struct outlook *other = &side->other->plans[plan].plan;
	bool both = false;
	for (size_t i = 0; i < other->line_count && !both; i++) {
		const struct outlook_line *like = &other->lines[i];
		both = like->item == line->item && like->task == line->task &&
		       like->station == line->station && like->doer == line->doer &&
		       other->first_year + (int)like->winter ==
			   own->first_year + (int)line->winter;
	}
	return both;
}

static bool
lapses_in_both(const struct side *side, size_t plan, const struct outlook_gap *gap)
{
	const struct outlook *own = &side->own->plans[plan].plan;
	const struct outlook *other = &side->other->plans[plan].plan;
	bool both = false;
	for (size_t i = 0; i < other->gap_count && !both; i++) {
		const struct outlook_gap *like = &other->gaps[i];
		both = like->item == gap->item && like->task == gap->task &&
		       other->first_year + (int)like->winter ==
			   own->first_year + (int)gap->winter;
	}
	return both;
}

static void
add_moved(const struct side *side, int year, const char *what, const char *tags,
    const char *where, struct table *table)
{
	SCOPED_TEXT winter = {0};
	if (tags[0] == '\0') {
		return;
	}
	text_add_format(&winter, "%d", year);
	table_add(table, HUE_NONE, text_string(&winter));
	table_add(table, HUE_NONE, side->words);
	table_add(table, HUE_NONE, what);
	table_add(table, HUE_NONE, tags);
	table_add(table, HUE_NONE, where);
}

/* What one side alone does in a winter: a task, at a station or by the owner. */
static void
add_work_moved(const struct side *side, size_t plan, int winter, enum task task,
    size_t station, struct table *table)
{
	const struct outlook *own = &side->own->plans[plan].plan;
	const char *where =
	    station == NO_STATION ? "" : side->own->stations[station].name;
	SCOPED_TEXT tags = {0};
	struct tag_list list = {.out = &tags};
	for (size_t i = 0; i < own->line_count; i++) {
		const struct outlook_line *line = &own->lines[i];
		if ((int)line->winter == winter && line->task == task &&
		    line->station == station && !done_in_both(side, plan, line)) {
			bool assumed =
			    station == NO_STATION && line->doer == DOER_STATION;
			where = assumed ? "an approved station" : where;
			tag_list_add(&list, side->own->inventory->items[line->item].tag);
		}
	}
	tag_list_end(&list);
	add_moved(side, own->first_year + winter, task_word(task), text_string(&tags),
	    where, table);
}

/* What lapses on one side alone in the season after a winter. */
static void
add_lapses_moved(const struct side *side, size_t plan, int winter, struct table *table)
{
	const struct outlook *own = &side->own->plans[plan].plan;
	for (size_t i = 0; i < own->gap_count; i++) {
		const struct outlook_gap *gap = &own->gaps[i];
		if ((int)gap->winter == winter && !lapses_in_both(side, plan, gap)) {
			add_moved(side, own->first_year + winter, "lapse",
			    side->own->inventory->items[gap->item].tag,
			    task_noun(gap->task), table);
		}
	}
}

/* All that one side alone has in a winter of a plan. */
static void
add_side(const struct side *side, size_t plan, int winter, struct table *table)
{
	size_t stations = side->own->station_count;
	for (int task = 0; task < TASK_COUNT; task++) {
		for (size_t i = 0; i <= stations; i++) {
			add_work_moved(side, plan, winter, (enum task)task,
			    i == stations ? NO_STATION : i, table);
		}
	}
	add_lapses_moved(side, plan, winter, table);
}

/* What moves and what lapses, winter by winter. */
static void
write_moved(const struct compared *compared, struct text *out)
{
	static const struct table_column COLUMNS[] = {{.heading = "Winter"},
	    {.heading = ""}, {.heading = "What"}, {.heading = "Gear", .flexible = true},
	    {.heading = "Where", .most = 28}};
	const struct side sides[] = {{compared->as_is, compared->changed, "no more"},
	    {compared->changed, compared->as_is, "new"}};
	SCOPED_TABLE table = {0};
	table_init(&table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2,
	    compared->style->colour);
	for (size_t i = 0; i < compared->as_is->count; i++) {
		size_t winters = compared->as_is->plans[i].plan.winters;
		for (int winter = 0; winter < (int)winters; winter++) {
			add_side(&sides[0], i, winter, &table);
			add_side(&sides[1], i, winter, &table);
		}
	}
	if (table.count == 0) {
		return;
	}
	text_add(out, "\nWhat moves\n");
	table_write(&table, out);
}

void
report_years_compared(const struct report_style *style, const struct outlook_view *as_is,
    const struct outlook_view *changed, struct text *out)
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
	table_write(&table, out);
	write_moved(&compared, out);
	add_caution(out);
}
