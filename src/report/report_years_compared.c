/* Two plans of the years ahead, side by side. */
#include "report/reply.h"
#include "report/tags.h"
#include "report/words.h"
#include "report/words_inside.h"

struct compared {
	const struct report_style *style;
	const struct outlook_view *as_is;
	const struct outlook_view *changed;
};

/* What all plans of a view spend in one winter. */
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

/* Adds an amount without its currency; with its sign when it is a `difference`. */
static void
add_amount(const struct compared *compared, int64_t minor, bool difference,
    struct reply_table *table)
{
	const struct years_page page = {.style = compared->style};
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT cell = {0};
	if (difference && minor != 0) {
		text_add(&cell, minor < 0 ? "-" : "+");
	}
	text_add(&cell, years_figure(&page, minor < 0 ? -minor : minor, money));
	reply_cell(table, HUE_NONE, text_string(&cell));
}

static void
add_row(const struct compared *compared, const char *name, int64_t as_is, int64_t changed,
    struct reply_table *table)
{
	reply_cell(table, HUE_NONE, name);
	add_amount(compared, as_is, false, table);
	add_amount(compared, changed, false, table);
	add_amount(compared, changed - as_is, true, table);
}

/* How often something is done in all plans: renewals, or work at stations; trips;
 * lapses. */
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
add_count_row(const char *name, size_t as_is, size_t changed, struct reply_table *table)
{
	SCOPED_TEXT cell = {0};
	reply_cell(table, HUE_NONE, name);
	reply_number(table, HUE_NONE, (int64_t)as_is, "");
	reply_number(table, HUE_NONE, (int64_t)changed, "");
	text_add_format(&cell, changed == as_is ? "%lld" : "%+lld",
	    (long long)changed - (long long)as_is);
	reply_cell(table, HUE_NONE, text_string(&cell));
}

static void
add_rows(const struct compared *compared, struct reply_table *table)
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
	const char *words; /* the words for what only this view has */
};

/* The table of what moves; its heading is written with its first row. */
struct moves_told {
	struct reply *reply;
	struct reply_table *table;
};

/* True when the same plan of the other view has this task in the same winter and place,
 * too. */
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
    const char *where, struct moves_told *moves)
{
	static const struct reply_column COLUMNS[] = {{.heading = "Winter"},
	    {.heading = ""}, {.heading = "What"}, {.heading = "Gear", .flexible = true},
	    {.heading = "Where", .most = 28}};
	SCOPED_TEXT winter = {0};
	if (tags[0] == '\0') {
		return;
	}
	text_add_format(&winter, "%d", year);
	if (moves->table == NULL) {
		reply_heading(moves->reply, 3, "What moves");
		moves->table = REPLY_TABLE(moves->reply, COLUMNS, 0);
	}
	reply_cell(moves->table, HUE_NONE, text_string(&winter));
	reply_cell(moves->table, HUE_NONE, side->words);
	reply_cell(moves->table, HUE_NONE, what);
	reply_cell(moves->table, HUE_NONE, tags);
	reply_cell(moves->table, HUE_NONE, where);
}

/* What only one side does in a winter: a task, at a station or by the owner. */
static void
add_work_moved(const struct side *side, size_t plan, int winter, enum task task,
    size_t station, struct moves_told *moves)
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
	    where, moves);
}

/* What lapses only on one side in the season after a winter. */
static void
add_lapses_moved(
    const struct side *side, size_t plan, int winter, struct moves_told *moves)
{
	const struct outlook *own = &side->own->plans[plan].plan;
	for (size_t i = 0; i < own->gap_count; i++) {
		const struct outlook_gap *gap = &own->gaps[i];
		if ((int)gap->winter == winter && !lapses_in_both(side, plan, gap)) {
			add_moved(side, own->first_year + winter, "lapse",
			    side->own->inventory->items[gap->item].tag,
			    task_noun(gap->task), moves);
		}
	}
}

/* Everything that only one side has in a winter of a plan. */
static void
add_side(const struct side *side, size_t plan, int winter, struct moves_told *moves)
{
	size_t stations = side->own->station_count;
	for (int task = 0; task < TASK_COUNT; task++) {
		for (size_t i = 0; i <= stations; i++) {
			add_work_moved(side, plan, winter, (enum task)task,
			    i == stations ? NO_STATION : i, moves);
		}
	}
	add_lapses_moved(side, plan, winter, moves);
}

/* What moves and what lapses, winter by winter. */
static void
add_all_moved(const struct compared *compared, struct reply *reply)
{
	const struct side sides[] = {{compared->as_is, compared->changed, "no more"},
	    {compared->changed, compared->as_is, "new"}};
	struct moves_told moves = {.reply = reply};
	for (size_t i = 0; i < compared->as_is->count; i++) {
		size_t winters = compared->as_is->plans[i].plan.winters;
		for (int winter = 0; winter < (int)winters; winter++) {
			add_side(&sides[0], i, winter, &moves);
			add_side(&sides[1], i, winter, &moves);
		}
	}
}

/* How the change affects the cost. */
static void
add_difference(const struct compared *compared, struct reply *reply)
{
	const struct outlook_view *as_is = compared->as_is;
	const struct outlook_view *changed = compared->changed;
	int64_t minor = outlook_total_of(changed->plans, changed->count).minor -
			outlook_total_of(as_is->plans, as_is->count).minor;
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	text_add_format(&words, "With the change the cheapest plan costs %s%s",
	    minor == 0 ? "the same"
		       : money_words(minor < 0 ? -minor : minor,
			     compared->style->currency, money),
	    minor == 0  ? "."
	    : minor < 0 ? " less."
			: " more.");
	reply_words(reply, VOICE_PLAIN, false, 0, text_string(&words));
}

void
report_years_compared(const struct report_style *style, const struct outlook_view *as_is,
    const struct outlook_view *changed, struct text *out)
{
	static const struct reply_column COLUMNS[] = {{.heading = "", .flexible = true},
	    {.heading = "As it is", .type = CELL_NUMBER},
	    {.heading = "Changed", .type = CELL_NUMBER},
	    {.heading = "Difference", .type = CELL_NUMBER}};
	const struct compared compared = {style, as_is, changed};
	SCOPED_REPLY(reply);
	SCOPED_TEXT words = {0};
	add_difference(&compared, &reply);
	text_add_format(&words, "In %s", style->currency);
	reply_heading(&reply, 3, text_string(&words));
	add_rows(&compared, REPLY_TABLE(&reply, COLUMNS, 0));
	add_all_moved(&compared, &reply);
	reply_caution(&reply);
	reply_text(&reply, style->colour, out);
}
