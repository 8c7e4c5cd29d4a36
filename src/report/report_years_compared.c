/* Two plans of the years ahead, side by side. */
#include "report/reply.h"
#include "report/tags.h"
#include "report/words.h"
#include "report/words_inside.h"

#include <stdlib.h>

/* ---- counted ---- */

/* What is spent in a year, which is added where it is not known yet. */
static struct year_spent *
spent_in(struct years_compared *compared, int year)
{
	size_t at = 0;
	while (at < compared->count && compared->items[at].year != year) {
		at++;
	}
	if (at == compared->count) {
		ARRAY_ADD(compared, (struct year_spent){.year = year});
	}
	return &compared->items[at];
}

/* Adds what is spent in each year of a plan, as it is or `changed`. */
static void
add_spent(struct years_compared *compared, const struct outlook *plan, bool changed)
{
	for (size_t winter = 0; winter < plan->winters; winter++) {
		const struct outlook_sum sum = outlook_sum_of(plan, winter);
		struct year_spent *spent =
		    spent_in(compared, plan->first_year + (int)winter);
		*(changed ? &spent->changed : &spent->as_is) +=
		    sum.trips + sum.work + sum.new_gear;
	}
}

static void
count_plan(struct years_counted *counts, const struct outlook *plan)
{
	counts->trips += plan->trip_count;
	counts->gaps += plan->gap_count;
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		bool work = outlook_is_work(line);
		counts->renewals += line->task == TASK_RENEW && !work ? 1 : 0;
		counts->works += work ? 1 : 0;
	}
}

static void
count_view(struct years_compared *compared, const struct outlook_view *view, bool changed)
{
	struct years_counted *counts = changed ? &compared->changed : &compared->as_is;
	outlook_total_add(&counts->total, view->plans, view->count);
	for (size_t i = 0; i < view->count; i++) {
		add_spent(compared, &view->plans[i].plan, changed);
		count_plan(counts, &view->plans[i].plan);
	}
}

/* Adds an amount without its currency; with its sign when it is a `difference`. */
static void
add_amount(const struct report_style *style, int64_t minor, bool difference,
    struct reply_table *table)
{
	const struct years_page page = {.style = style};
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT cell = {0};
	if (difference && minor != 0) {
		text_add(&cell, minor < 0 ? "-" : "+");
	}
	text_add(&cell, years_figure(&page, minor < 0 ? -minor : minor, money));
	reply_cell(table, HUE_NONE, text_string(&cell));
}

static void
add_row(const struct report_style *style, const char *name, int64_t as_is,
    int64_t changed, struct reply_table *table)
{
	reply_cell(table, HUE_NONE, name);
	add_amount(style, as_is, false, table);
	add_amount(style, changed, false, table);
	add_amount(style, changed - as_is, true, table);
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
add_rows(struct years_compared *compared, const struct report_style *style,
    struct reply_table *table)
{
	const struct years_counted *before = &compared->as_is;
	const struct years_counted *after = &compared->changed;
	for (int year = before->total.first_year; year <= before->total.last_year;
	     year++) {
		const struct year_spent *spent = spent_in(compared, year);
		SCOPED_TEXT name = {0};
		text_add_format(&name, "winter %d", year);
		add_row(style, text_string(&name), spent->as_is, spent->changed, table);
	}
	add_row(style, "all winters", before->total.minor, after->total.minor, table);
	add_row(style, "no plan costs less than", before->total.bound, after->total.bound,
	    table);
	add_count_row("trips", before->trips, after->trips, table);
	add_count_row("things done at stations", before->works, after->works, table);
	add_count_row("renewals", before->renewals, after->renewals, table);
	add_count_row("lapses in a season", before->gaps, after->gaps, table);
}

/* ---- what moves ---- */

/* One of the two views, beside the other. */
struct side {
	const struct outlook_view *own;
	const struct outlook_view *other;
	const char *words; /* the words for what only this view has */
};

/* The table of what moves, and for each of its rows the place of its plan. */
struct moves_told {
	struct reply_table *table;
	int64_t place;
	struct run_piece *items; /* in the table's arena */
	size_t count;
	size_t capacity;
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
	SCOPED_TEXT winter = {0};
	if (tags[0] == '\0') {
		return;
	}
	text_add_format(&winter, "%d", year);
	ARENA_ADD(moves->table->arena, moves, (struct run_piece){.key = moves->place});
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
void
report_years_compare_some(struct years_compared *compared,
    const struct outlook_view *as_is, const struct outlook_view *changed,
    const size_t *places)
{
	static const struct reply_column COLUMNS[] = {{.heading = "Winter"},
	    {.heading = ""}, {.heading = "What"}, {.heading = "Gear", .flexible = true},
	    {.heading = "Where", .most = 28}};
	const struct side sides[] = {
	    {as_is, changed, "no more"}, {changed, as_is, "new"}};
	SCOPED_REPLY(reply);
	struct moves_told moves = {.table = REPLY_TABLE(&reply, COLUMNS, 0)};
	count_view(compared, as_is, false);
	count_view(compared, changed, true);
	for (size_t i = 0; i < as_is->count; i++) {
		size_t winters = as_is->plans[i].plan.winters;
		moves.place = (int64_t)(places == NULL ? i : places[i]);
		for (int winter = 0; winter < (int)winters; winter++) {
			add_side(&sides[0], i, winter, &moves);
			add_side(&sides[1], i, winter, &moves);
		}
	}
	reply_rows_keep(&compared->moves, moves.table, moves.items);
	text_reset(&compared->currency);
	text_add(&compared->currency, as_is->currency);
}

/* ---- written ---- */

/* How the change affects the cost. */
static void
add_difference(int64_t minor, const struct report_style *style, struct reply *reply)
{
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	text_add_format(&words, "With the change the cheapest plan costs %s%s",
	    minor == 0 ? "the same"
		       : money_words(minor < 0 ? -minor : minor, style->currency, money),
	    minor == 0  ? "."
	    : minor < 0 ? " less."
			: " more.");
	reply_words(reply, VOICE_PLAIN, false, 0, text_string(&words));
}

bool
report_years_compare_end(
    struct years_compared *compared, struct text *out, struct fault *fault)
{
	static const struct reply_column COLUMNS[] = {{.heading = "", .flexible = true},
	    {.heading = "As it is", .type = CELL_NUMBER},
	    {.heading = "Changed", .type = CELL_NUMBER},
	    {.heading = "Difference", .type = CELL_NUMBER}};
	struct report_style style = *compared->style;
	SCOPED_REPLY(reply);
	SCOPED_REPLY(end);
	SCOPED_TEXT words = {0};
	style.currency = text_string(&compared->currency);
	add_difference(
	    compared->changed.total.minor - compared->as_is.total.minor, &style, &reply);
	text_add_format(&words, "In %s", style.currency);
	reply_heading(&reply, 3, text_string(&words));
	add_rows(compared, &style, REPLY_TABLE(&reply, COLUMNS, 0));
	if (compared->moves.count > 0) {
		reply_heading(&reply, 3, "What moves");
	}
	reply_text(&reply, style.colour, out);
	if (!reply_rows_text(&compared->moves, style.colour, out, fault)) {
		return false;
	}
	reply_caution(&end);
	reply_text(&end, style.colour, out);
	return true;
}

void
years_compared_clear(struct years_compared *compared)
{
	kept_rows_clear(&compared->moves);
	text_clear(&compared->currency);
	free(compared->items);
	*compared = (struct years_compared){.style = compared->style};
}
