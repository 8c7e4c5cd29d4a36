/* The rule sheets: the list of them, and of one its figures with their sources, how
 * binding they are, and the pieces of this book to which they apply. */
#include "desk/questions.h"
#include "page/planning.h"
#include "page/shell.h"
#include "report/sheet_words.h"
#include "report/words.h"

#include <string.h>

/* How many tags, and boats, are named. */
enum { TAGS_SHOWN = 12, BOATS_SHOWN = 8 };

struct sheet_page {
	struct visit *visit;
	struct base_choice choice;
	struct sheet_answer answer;
};

static void
add_kind_names(const struct sheet_page *page, const char *const *kinds, size_t count,
    struct text *out)
{
	for (size_t i = 0; i < count; i++) {
		text_add_format(out, "%s%s", i == 0 ? "" : ", ",
		    kind_name(page->visit->desk.engine.kinds, kinds[i]));
	}
}

/* A paragraph whose first word is bold; nothing when there are no words. */
static void
write_fact(struct markup *markup, const char *name, const char *words)
{
	if (words[0] == '\0') {
		return;
	}
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, name);
	markup_text_format(markup, ": %s", words);
	markup_end(markup);
}

/* The conditions, and what else is said of when it applies; the words begin with "; ". */
static void
write_holds(struct markup *markup, const struct text *words)
{
	const char *said = text_string(words);
	write_fact(markup, "Holds", words->length > 2 ? said + 2 : "");
}

static void
write_source(struct markup *markup, const char *source, enum standing standing)
{
	SCOPED_TEXT words = {0};
	add_source(source, standing, &words);
	write_fact(markup, "Source", text_string(&words));
}

/* Which sheet a rule or line comes from, when its sheet extends another. */
static void
write_descent(const struct sheet_page *page, const char *origin, const char *replaces)
{
	struct markup *markup = page->visit->markup;
	bool own = strcmp(page->answer.sheet->name, origin) == 0;
	if (own && replaces[0] == '\0') {
		return;
	}
	markup_begin_class(markup, "p", "small soft");
	markup_text(
	    markup, replaces[0] != '\0' ? "In place of that of " : "Taken over from ");
	shell_link(page->visit, NULL, replaces[0] != '\0' ? replaces : origin,
	    "/sheet/%s", replaces[0] != '\0' ? replaces : origin);
	markup_text(markup, ".");
	markup_end(markup);
}

static void
write_tag(const struct sheet_page *page, const char *tag)
{
	SCOPED_TEXT path = {0};
	form_escape(tag, &path);
	shell_link(page->visit, "tag", tag, "/locker/%s", text_string(&path));
}

/* The pieces of this book to which it applies: the first ones, and the rest folded. */
static void
write_pieces(const struct sheet_page *page, const struct word_list *tags)
{
	struct markup *markup = page->visit->markup;
	if (tags->count == 0) {
		return;
	}
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, "In this book");
	markup_text(markup, ": ");
	for (size_t i = 0; i < tags->count && i < TAGS_SHOWN; i++) {
		markup_text(markup, i == 0 ? "" : ", ");
		write_tag(page, tags->items[i]);
	}
	markup_end(markup);
	if (tags->count <= TAGS_SHOWN) {
		return;
	}
	markup_begin(markup, "details");
	markup_element_format(
	    markup, "summary", NULL, "and %zu more", tags->count - TAGS_SHOWN);
	markup_begin(markup, "p");
	for (size_t i = TAGS_SHOWN; i < tags->count; i++) {
		markup_text(markup, i == TAGS_SHOWN ? "" : ", ");
		write_tag(page, tags->items[i]);
	}
	markup_ends(markup, 2);
}

/* Begins the row of a thing that has a name in the sheet; that name is the row's id on
 * the page. */
static void
begin_row(struct markup *markup, const char *of, const char *id)
{
	markup_begin_class(markup, "li", "row");
	markup_attribute_format(markup, "id", "%s.%s", of, id);
	markup_begin_class(markup, "div", "k");
}

/* One rule: what must be done to which gear, when and by whom, how binding that is, and
 * its source. */
static void
write_rule(const struct sheet_page *page, size_t at)
{
	struct markup *markup = page->visit->markup;
	const struct rule *rule = &page->answer.sheet->rules[at];
	SCOPED_TEXT words = {0};
	begin_row(markup, "rule", rule->id);
	markup_element(markup, "b", NULL, task_noun(rule->task));
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	add_kind_names(page, rule->kinds, rule->kind_count, &words);
	markup_element(markup, "h3", NULL, text_string(&words));
	write_fact(markup, "To do", rule->what);
	text_reset(&words);
	for (size_t i = 0; i < rule->clock_count; i++) {
		text_add(&words, i == 0 ? "" : "; ");
		sheet_add_clock(&rule->clocks[i], &words);
	}
	write_fact(markup, "Due", text_string(&words));
	text_reset(&words);
	sheet_add_conditions(&rule->when, &words);
	sheet_add_extras(rule, &words);
	write_holds(markup, &words);
	text_reset(&words);
	text_add_format(&words, "%s, by %s; when passed: %s", grade_word(rule->grade),
	    doer_word(rule->doer), state_word(rule->lapse));
	write_fact(markup, "Grade", text_string(&words));
	write_source(markup, rule->source, rule->standing);
	write_pieces(page, &page->answer.pieces[at]);
	write_descent(page, rule->origin, rule->replaces);
	markup_ends(markup, 2);
}

/* How many rules apply to something in the book. */
static size_t
count_here(const struct sheet_page *page)
{
	size_t count = 0;
	for (size_t i = 0; i < page->answer.sheet->rule_count; i++) {
		count += page->answer.pieces[i].count > 0 ? 1 : 0;
	}
	return count;
}

/* Writes the rules that do, or with `here` false those that apply to nothing. */
static void
write_rules(const struct sheet_page *page, bool here)
{
	for (size_t i = 0; i < page->answer.sheet->rule_count; i++) {
		if ((page->answer.pieces[i].count > 0) == here) {
			write_rule(page, i);
		}
	}
}

static void
write_all_rules(const struct sheet_page *page)
{
	struct visit *visit = page->visit;
	size_t all = page->answer.sheet->rule_count;
	size_t here = count_here(page);
	size_t others = all - here;
	SCOPED_TEXT margin = {0};
	if (all == 0) {
		return;
	}
	text_add_format(&margin, "%zu of %zu", here, all);
	shell_section(visit, text_string(&margin), "hold for something here",
	    "Rules for gear in this book");
	if (here == 0) {
		markup_element(visit->markup, "p", NULL,
		    "None of its rules holds for a piece here.");
	}
	markup_end(visit->markup);
	markup_begin_class(visit->markup, "ul", "rows");
	write_rules(page, true);
	markup_ends(visit->markup, 2);
	if (others == 0) {
		return;
	}
	shell_section(visit, NULL, NULL, "Rules for other gear");
	markup_begin(visit->markup, "details");
	markup_element_format(visit->markup, "summary", NULL,
	    "%zu that hold for no piece of this book today", others);
	markup_begin_class(visit->markup, "ul", "rows");
	write_rules(page, false);
	markup_ends(visit->markup, 4);
}

static void
write_line(const struct sheet_page *page, const struct carriage *line)
{
	struct markup *markup = page->visit->markup;
	SCOPED_TEXT words = {0};
	begin_row(markup, "line", line->id);
	sheet_add_need(line, &words);
	markup_element(markup, "b", NULL, text_string(&words));
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	markup_element(markup, "h3", NULL, line->title);
	for (size_t i = 0; i < line->serve_count; i++) {
		const struct serving *serving = &line->serves[i];
		text_reset(&words);
		add_kind_names(page, serving->kinds, serving->kind_count, &words);
		sheet_add_worth(serving, &words);
		write_fact(markup, i == 0 ? "Met by" : "or by", text_string(&words));
	}
	text_reset(&words);
	sheet_add_conditions(&line->when, &words);
	write_holds(markup, &words);
	write_source(markup, line->source, line->standing);
	write_descent(page, line->origin, line->replaces);
	markup_ends(markup, 2);
}

static void
write_carriage(const struct sheet_page *page)
{
	const struct sheet *sheet = page->answer.sheet;
	if (sheet->carriage_count == 0) {
		return;
	}
	shell_rows(page->visit, NULL, "To be carried");
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		write_line(page, &sheet->carriage[i]);
	}
	markup_ends(page->visit->markup, 2);
}

/* The subjects for which the sheet has no figure, and whom to ask. */
static void
write_not_stated(const struct sheet_page *page)
{
	const struct sheet *sheet = page->answer.sheet;
	struct markup *markup = page->visit->markup;
	if (sheet->not_stated_count == 0) {
		return;
	}
	shell_section(page->visit, NULL, NULL, "Not stated here");
	markup_begin(markup, "ul");
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		const struct not_stated *one = &sheet->not_stated[i];
		SCOPED_TEXT words = {0};
		text_add_format(&words, "%s: ask %s", one->subject, one->ask);
		sheet_add_conditions(&one->when, &words);
		markup_element(markup, "li", NULL, text_string(&words));
	}
	markup_ends(markup, 3);
}

/* Whom it is for, how old it is, and which boats follow it. */
static void
add_answer(const struct sheet_page *page, struct text *out)
{
	const struct sheet *sheet = page->answer.sheet;
	const struct word_list *boats = &page->answer.followed_by;
	size_t audience = strlen(sheet->audience);
	if (audience > 0) {
		text_add_format(out, "For %s%s ", sheet->audience,
		    sheet->audience[audience - 1] == '.' ? "" : ".");
	}
	sheet_add_list(
	    boats->items, boats->count < BOATS_SHOWN ? boats->count : BOATS_SHOWN, out);
	if (boats->count > BOATS_SHOWN) {
		text_add_format(out, " and %zu more", boats->count - BOATS_SHOWN);
	}
	text_add(out, boats->count == 0   ? "No boat here follows it."
		      : boats->count == 1 ? " follows it."
					  : " follow it.");
}

static void
write_cautions(const struct sheet_page *page)
{
	struct visit *visit = page->visit;
	const struct sheet *sheet = page->answer.sheet;
	shell_entry(visit);
	for (size_t i = 0; i < sheet->caution_count; i++) {
		markup_element(visit->markup, "p", NULL, sheet->cautions[i]);
	}
	markup_begin(visit->markup, "p");
	shell_link(visit, "go", "All rule sheets", "/sheets");
	markup_ends(visit->markup, 3);
}

bool
page_sheet(struct visit *visit, struct fault *fault)
{
	struct sheet_page page = {.visit = visit};
	SCOPED_TEXT say = {0};
	SCOPED_TEXT path = {0};
	char day[DAY_WORDS_SIZE];
	if (!base_choice_read(visit, &page.choice, fault)) {
		return false;
	}
	const struct sheet_asked asked = {
	    .name = visit->rest, .base = page.choice.base, .boats = page.choice.boats};
	if (!desk_sheet(&visit->desk, &asked, &page.answer, fault)) {
		return false;
	}
	const struct sheet *sheet = page.answer.sheet;
	add_answer(&page, &say);
	const struct head_box boxes[] = {{"Figures of",
	    sheet->compiled == DAY_NONE ? NULL : day_words(sheet->compiled, day)}};
	SHELL_OPEN(visit, .title = sheet->title, .margin = "rule sheet",
	    .under = sheet->name, .say = text_string(&say), .boxes = boxes,
	    .box_count = sheet->compiled == DAY_NONE ? 0 : 1);
	write_cautions(&page);
	text_add_format(&path, "/sheet/%s", sheet->name);
	base_choice_form(visit, &page.choice, text_string(&path), "Look at these boats");
	write_all_rules(&page);
	write_carriage(&page);
	write_not_stated(&page);
	shell_close(visit);
	return true;
}

bool
page_sheets(struct visit *visit, struct fault *fault)
{
	struct sheet_list all = {0};
	struct markup *markup = NULL;
	char day[DAY_WORDS_SIZE];
	if (!desk_book(&visit->desk, fault)) {
		return false;
	}
	desk_sheets(&visit->desk, &all);
	SHELL_OPEN(visit, .title = "Rule sheets",
	    .say =
		"Each has the rules of one place or custom, with their sources. Which a boat "
		"follows is said where she is entered.");
	markup = visit->markup;
	shell_rows(visit, NULL, "All there are");
	for (size_t i = 0; i < all.count; i++) {
		const struct sheet *sheet = all.sheets[i];
		SCOPED_TEXT path = {0};
		form_escape(sheet->name, &path);
		markup_begin_class(markup, "li", "row");
		markup_element(markup, "div", "k",
		    sheet->compiled == DAY_NONE ? "" : day_words(sheet->compiled, day));
		markup_begin_class(markup, "div", "t");
		markup_begin(markup, "p");
		shell_link(visit, NULL, sheet->title, "/sheet/%s", text_string(&path));
		if (sheet->rule_count > 0) {
			markup_text_format(markup, ": %zu rule%s", sheet->rule_count,
			    sheet->rule_count == 1 ? "" : "s");
		}
		if (sheet->carriage_count > 0) {
			markup_text_format(markup, "%s %zu to be carried",
			    sheet->rule_count > 0 ? "," : ":", sheet->carriage_count);
		}
		markup_ends(markup, 3);
	}
	markup_ends(markup, 2);
	if (visit->desk.notes.length > 0) {
		shell_note(visit, true, text_string(&visit->desk.notes));
	}
	shell_close(visit);
	return true;
}
