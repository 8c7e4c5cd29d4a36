#include "report/tags.h"
#include "report/words.h"
#include "report/words_inside.h"

#include <string.h>

const char *
years_figure(const struct years_page *page, int64_t minor, char buffer[MONEY_WORDS_SIZE])
{
	const char *words = money_words(minor, page->style->currency, buffer);
	const char *blank = strchr(words, ' ');
	return blank == NULL ? words : blank + 1;
}

static void
add_money(const struct years_page *page, int64_t minor, struct text *out)
{
	char money[MONEY_WORDS_SIZE];
	text_add(out, money_words(minor, page->style->currency, money));
}

void
add_years_verdict(
    const struct years_page *page, const struct outlook_total *total, struct text *out)
{
	bool known = total->unknowns == 0 && total->unpriced == 0;
	text_add(out, total->gaps == 0
			  ? "Cheapest plan in which nothing lapses in a season: "
			  : "Cheapest plan of those in which least lapses in a season: ");
	add_money(page, total->minor, out);
	if (total->proven) {
		text_add(out, known
				  ? ", proven: no plan costs less."
				  : ", proven for the prices known: no plan costs less.");
	} else {
		text_add(out, ", not proven to be the cheapest: ");
		text_add(out, known ? "" : "for the prices known ");
		text_add(out, "no plan costs less than ");
		add_money(page, total->bound, out);
		text_add(out, ".");
	}
	if (total->when_due_minor < total->minor) {
		return; /* it would cost less only because it lets something lapse */
	}
	text_add(out, " Doing each thing only when it falls due would cost ");
	add_money(page, total->when_due_minor, out);
	if (total->when_due_minor > total->minor) {
		text_add(out, ", ");
		add_money(page, total->when_due_minor - total->minor, out);
		text_add(out, " more");
	}
	text_add(out, ".");
}

void
add_years_gaps(
    const struct years_page *page, const struct outlook *plan, struct text *out)
{
	const struct item *items = page->view->inventory->items;
	if (plan->gap_count == 0) {
		return;
	}
	text_add(
	    out, "No plan keeps these in date in the season after the winter named: ");
	for (size_t i = 0; i < plan->gap_count; i++) {
		const struct outlook_gap *gap = &plan->gaps[i];
		text_add_format(out, "%s%s (%s, %d)", i > 0 ? ", " : "",
		    items[gap->item].tag, task_noun(gap->task),
		    plan->first_year + (int)gap->winter);
	}
	text_add(out, ".");
}

static bool
same_work(const struct outlook_step *a, const struct outlook_step *b)
{
	return a->station == b->station && a->task == b->task &&
	       strcmp(a->kind, b->kind) == 0;
}

/* Adds "service of liferaft in a canister at Loft EUR 450.00, from 10 years old EUR
 * 620.00", one step at a time. */
static void
add_step(const struct years_page *page, const struct outlook *plan, size_t at,
    struct text *out)
{
	const struct outlook_step *step = &plan->steps[at];
	bool first = at == 0 || !same_work(step, step - 1);
	if (first) {
		text_add_format(out, "%s%s of %s at %s", at == 0 ? "" : "; ",
		    task_noun(step->task), kind_name(page->kinds, step->kind),
		    step->station == NO_STATION
			? "an approved station"
			: page->view->stations[step->station].name);
	}
	text_add(out, first ? " " : ", ");
	if (step->from_years > 0) {
		add_from_age(step->from_years, out);
		text_add_byte(out, ' ');
	}
	if (step->minor < 0) {
		text_add(out, "no price");
	} else {
		add_money(page, step->minor, out);
	}
}

/* Adds the things whose age is not known although a price depends on it. */
static void
add_ages_missed(
    const struct years_page *page, const struct outlook *plan, struct text *out)
{
	const struct item *items = page->view->inventory->items;
	SCOPED_TEXT tags = {0};
	struct tag_list list = {.out = &tags};
	for (size_t i = 0; i < plan->ageless_count; i++) {
		tag_list_add(&list, items[plan->ageless[i]].tag);
	}
	tag_list_end(&list);
	if (plan->ageless_count > 0) {
		text_add_format(out,
		    " The age of %s is not known: the dearest price is taken; enter when %s "
		    "made.",
		    text_string(&tags),
		    plan->ageless_count == 1 ? "it was" : "they were");
	}
}

void
add_years_ages(
    const struct years_page *page, const struct outlook *plan, struct text *out)
{
	if (plan->step_count == 0) {
		return;
	}
	text_add(out, "Prices by age: ");
	for (size_t i = 0; i < plan->step_count; i++) {
		add_step(page, plan, i, out);
	}
	text_add_byte(out, '.');
	add_ages_missed(page, plan, out);
}

/* Adds "service of liferaft in a canister EUR 450.00". */
static void
add_unknown_work(const struct years_page *page, const struct outlook_unknown *unknown,
    struct text *out)
{
	bool bought = unknown->task == TASK_RENEW && !unknown->refit;
	text_add_format(out, "%s%s%s",
	    bought           ? "a new"
	    : unknown->refit ? "refit"
			     : task_noun(unknown->task),
	    bought ? " " : " of ", kind_name(page->kinds, unknown->kind));
	if (unknown->minor >= 0) {
		text_add_byte(out, ' ');
		add_money(page, unknown->minor, out);
	}
}

/* The place of the work, or "" for what is bought. */
static const char *
unknown_place(const struct years_page *page, const struct outlook_unknown *unknown)
{
	if (unknown->task == TASK_RENEW && !unknown->refit) {
		return "";
	}
	return unknown->station == NO_STATION
		   ? "an approved station"
		   : page->view->stations[unknown->station].name;
}

/* Adds the unknown prices of one sort: those with a substitute (`counted`) or those
 * without. The station is named once for those that follow each other. */
static void
add_unknowns(const struct years_page *page, const struct outlook *plan, bool counted,
    struct text *out)
{
	const char *place = "";
	for (size_t i = 0; i < plan->unknown_count; i++) {
		const struct outlook_unknown *unknown = &plan->unknowns[i];
		if ((unknown->minor >= 0) != counted) {
			continue;
		}
		const char *here = unknown_place(page, unknown);
		text_add(out, out->length > 0 ? ", " : " ");
		if (here[0] != '\0' && strcmp(here, place) != 0) {
			text_add_format(out, "at %s ", here);
		}
		place = here;
		add_unknown_work(page, unknown, out);
	}
	text_add(out, out->length > 0 ? "." : "");
}

void
add_years_unknowns(
    const struct years_page *page, const struct outlook *plan, struct text *out)
{
	SCOPED_TEXT counted = {0};
	SCOPED_TEXT nothing = {0};
	add_unknowns(page, plan, true, &counted);
	add_unknowns(page, plan, false, &nothing);
	if (plan->unknown_count == 0) {
		return;
	}
	text_add(out, "Prices not known, any of which could change the plan;");
	if (counted.length > 0) {
		text_add_format(out, " counted as the highest known for the same work:%s",
		    text_string(&counted));
	}
	if (nothing.length > 0) {
		text_add_format(out, "%sknown nowhere, counted as nothing:%s",
		    counted.length > 0 ? " And " : " ", text_string(&nothing));
	}
}

void
add_years_price(
    const struct years_page *page, const struct years_row *row, struct text *out)
{
	char buffer[MONEY_WORDS_SIZE];
	/* a new thing that costs nothing is shown so; own work has no price at all */
	if (row->minor > 0 || (row->task == TASK_RENEW && !row->unpriced)) {
		text_add(out, years_figure(page, row->minor, buffer));
		text_add(out, row->supposed ? " ?" : "");
	} else {
		text_add(out, row->unpriced ? "no price" : "");
	}
}

void
add_years_notes(const struct outlook_total *total, bool all_year, struct text *out)
{
	if (total->unpriced > 0) {
		text_add_format(out, "%zu %s without a price, counted as nothing. ",
		    total->unpriced, total->unpriced == 1 ? "line is" : "lines are");
	}
	if (total->supposed > 0) {
		text_add_format(out,
		    "%zu %s, marked ?, counted at the highest price known for the same "
		    "work. ",
		    total->supposed, total->supposed == 1 ? "line is" : "lines are");
	}
	text_add(out,
	    "Each thing is taken as done on the last day that brings it back for "
	    "fitting-out, and new gear as made on the day it is bought, with a printed date "
	    "as far ahead as the old one's. ");
	if (total->assumed > 0) {
		text_add_format(out,
		    "For %zu %s that is not known: 36 months, 60 for beacons, are taken. ",
		    total->assumed, total->assumed == 1 ? "item" : "items");
	}
	if (all_year) {
		text_add(out,
		    "A vessel in use all year has years from today on in place of winters. ");
	}
	text_add(out, "What comes after the last winter counts for nothing.");
}

/* True for lines whose rows are next to each other: the same winter, task, doer and
 * station. */
static bool
same_errand(const struct outlook_line *a, const struct outlook_line *b)
{
	return a->winter == b->winter && a->task == b->task && a->doer == b->doer &&
	       a->station == b->station;
}

/* True for lines that share a row: these are also of one kind. */
static bool
same_row(const struct years_page *page, const struct outlook_line *a,
    const struct outlook_line *b)
{
	const struct item *items = page->view->inventory->items;
	return same_errand(a, b) && strcmp(items[a->item].kind, items[b->item].kind) == 0;
}

/* The row of all lines like the one at `at`, which is the first of them. */
static void
tell_row(const struct years_page *page, const struct outlook *plan, size_t at,
    void (*each)(void *context, const struct years_row *row), void *context)
{
	const struct outlook_line *line = &plan->lines[at];
	const struct item *items = page->view->inventory->items;
	SCOPED_TEXT tags = {0};
	SCOPED_TEXT gear = {0};
	struct tag_list list = {.out = &tags};
	struct years_row row = {.task = line->task, .where = ""};
	int pieces = 0;
	for (size_t i = at; i < plan->line_count; i++) {
		const struct outlook_line *like = &plan->lines[i];
		if (same_row(page, like, line)) {
			tag_list_add(&list, items[like->item].tag);
			pieces += items[like->item].quantity;
			row.minor += like->minor > 0 ? like->minor : 0;
			row.minor += like->carriage_minor;
			row.unpriced = row.unpriced || like->minor < 0;
			row.supposed = row.supposed || like->supposed;
		}
	}
	tag_list_end(&list);
	if (line->station != NO_STATION) {
		row.where = page->view->stations[line->station].name;
	} else if (line->doer == DOER_STATION) {
		row.where = "an approved station";
	}
	if (pieces > 1) {
		text_add_format(&gear, "%d x ", pieces);
	}
	text_add_format(&gear, "%s: %s", kind_name(page->kinds, items[line->item].kind),
	    text_string(&tags));
	row.gear = text_string(&gear);
	each(context, &row);
}

/* True when an earlier line of the same winter is alike: in the same row, or for the same
 * errand. */
static bool
stands_before(
    const struct years_page *page, const struct outlook *plan, size_t at, bool in_row)
{
	const struct outlook_line *line = &plan->lines[at];
	for (size_t i = at; i > 0 && plan->lines[i - 1].winter == line->winter; i--) {
		const struct outlook_line *old = &plan->lines[i - 1];
		if (in_row ? same_row(page, old, line) : same_errand(old, line)) {
			return true;
		}
	}
	return false;
}

/* The section of a line: 0 a station's work, 1 what is bought, 2 the owner's own work. */
static int
part_of(const struct outlook_line *line)
{
	return line->doer == DOER_STATION ? 0 : line->task == TASK_RENEW ? 1 : 2;
}

/* The rows of an errand, whose first line is at `at`. */
static void
tell_errand(const struct years_page *page, const struct outlook *plan, size_t at,
    void (*each)(void *context, const struct years_row *row), void *context)
{
	for (size_t i = at; i < plan->line_count; i++) {
		if (same_errand(&plan->lines[i], &plan->lines[at]) &&
		    !stands_before(page, plan, i, true)) {
			tell_row(page, plan, i, each, context);
		}
	}
}

void
years_rows(const struct years_page *page, const struct outlook *plan, size_t winter,
    void (*each)(void *context, const struct years_row *row), void *context)
{
	for (int part = 0; part < 3; part++) {
		for (size_t i = 0; i < plan->line_count; i++) {
			const struct outlook_line *line = &plan->lines[i];
			if (line->winter == winter && part_of(line) == part &&
			    !stands_before(page, plan, i, false)) {
				tell_errand(page, plan, i, each, context);
			}
		}
	}
}
