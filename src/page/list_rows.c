/* Bring a list: the page. */
#include "exchange/inventory_csv.h"
#include "page/draw.h"
#include "page/shell.h"
#include "page/taking_in.h"

#include <string.h>

/* A choice between two answers. */
static void
write_two(struct list_page *page, const char *name, const char *label,
    const char *const values[4])
{
	const char *chosen = page_value(page->visit, name);
	shell_choice(page->visit, name, label);
	shell_option(page->visit, " ", "choose", false);
	shell_option(page->visit, values[0], values[1], strcmp(values[0], chosen) == 0);
	shell_option(page->visit, values[2], values[3], strcmp(values[2], chosen) == 0);
	markup_ends(page->visit->markup, 2);
}

static void
write_columns(struct list_page *page, const struct csv_doubt *doubt)
{
	SCOPED_TEXT name = {0};
	text_add_format(&name, "map.%s", doubt->theirs);
	shell_choice(page->visit, text_string(&name), "This column is");
	shell_option(page->visit, "notes", "notes: its words are kept", true);
	shell_option(page->visit, "ignore", "nothing: left aside", false);
	for (size_t i = 0; i < CSV_COLUMN_COUNT; i++) {
		if (strcmp(CSV_COLUMNS[i], "notes") != 0) {
			shell_option(page->visit, CSV_COLUMNS[i],
			    list_column_words(CSV_COLUMNS[i]), false);
		}
	}
	markup_ends(page->visit->markup, 2);
}

static void
write_kinds(struct list_page *page, const struct csv_doubt *doubt)
{
	const struct kinds *kinds = NULL;
	struct fault none = {0};
	SCOPED_TEXT name = {0};
	const struct kind *near[KINDS_FIT_MOST];
	if (!desk_kinds(&page->visit->desk, &kinds, &none)) {
		return;
	}
	size_t count = kinds_fitting(kinds, doubt->theirs, near);
	count = count > 0 ? count : kinds_nearest(kinds, doubt->theirs, near);
	text_add_format(&name, "means.%s", doubt->theirs);
	shell_choice(page->visit, text_string(&name), "These words mean");
	shell_option(page->visit, " ", "choose", false);
	for (size_t i = 0; i < count; i++) {
		shell_option(page->visit, near[i]->id, near[i]->name, false);
	}
	list_kind_options(page);
	markup_ends(page->visit->markup, 2);
}

/* A tick for each row that may be passed over. */
static void
write_lines(struct list_page *page, const struct csv_doubt *doubt)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "div", "choice");
	for (size_t i = 0; i < doubt->lines.count; i++) {
		const char *line = doubt->lines.items[i];
		struct arena *arena = &page->visit->arena;
		shell_tick(page->visit, "checkbox", arena_format(arena, "leave.%s", line),
		    "yes", false, arena_format(arena, "leave line %s out", line));
	}
	markup_end(markup);
}

/* What is not clear, in one sentence. */
static void
add_question(const struct csv_doubt *doubt, struct text *out)
{
	static const char *const ASKED[] = {
	    [DOUBT_HEADER] = "The column is none that is known.",
	    [DOUBT_KIND] = "That is no kind that is known.",
	    [DOUBT_NO_GEAR] = "That seems to be a heading or a sum.",
	    [DOUBT_NO_KIND] = "These rows say no kind of thing.",
	    [DOUBT_QUANTITIES] =
		"It seems to say how many there are, and no column does.",
	    [DOUBT_NEXT_ALONE] =
		"A next date counts from the day the work was done, which is not told.",
	    [DOUBT_ORDER] = "The day and the month could be either.",
	    [DOUBT_TWO_DIGITS] = "The year has two digits: 00 to 68 are 2000 to 2068.",
	    [DOUBT_DECIMALS] = "The mark could part decimals or thousands.",
	    [DOUBT_VESSEL] = "The list does not say whose gear it is.",
	};
	static const char *const EXAMPLES[] = {
	    [DOUBT_HEADER] = " In it:",
	    [DOUBT_KIND] = " Beside it:",
	    [DOUBT_NO_GEAR] = " Beside it:",
	    [DOUBT_NO_KIND] = " Beside it:",
	    [DOUBT_NEXT_ALONE] = " Under the heading",
	    [DOUBT_TWO_DIGITS] = " Read so:",
	    [DOUBT_VESSEL] = NULL, /* it and those left out have none */
	};
	text_add(out, ASKED[doubt->about]);
	for (size_t i = 0; i < doubt->example_count; i++) {
		text_add_format(out, "%s \"%.40s\"",
		    i == 0 ? EXAMPLES[doubt->about] : ",", doubt->examples[i]);
	}
	if (doubt->hint[0] != '\0') {
		text_add_format(out, " (%s)", doubt->hint);
	}
}

/* The field that clears it up. */
static void
write_answer(struct list_page *page, const struct csv_doubt *doubt)
{
	switch (doubt->about) {
	case DOUBT_HEADER:
		write_columns(page, doubt);
		return;
	case DOUBT_KIND:
		write_kinds(page, doubt);
		return;
	case DOUBT_NO_GEAR:
		write_kinds(page, doubt);
		write_lines(page, doubt);
		return;
	case DOUBT_NO_KIND:
		write_lines(page, doubt);
		return;
	case DOUBT_QUANTITIES:
		write_two(page, "quantities", "Such numbers",
		    (const char *const[]){"words", "are quantities", "one",
			"belong to the name: each row is one piece"});
		return;
	case DOUBT_NEXT_ALONE:
		write_two(page, "next", "Such dates",
		    (const char *const[]){"notes", "are kept as words in the notes",
			"notes", "are kept as words in the notes"});
		return;
	case DOUBT_ORDER:
		write_two(page, "order", "In this list",
		    (const char *const[]){
			"day", "the day is first", "month", "the month is first"});
		return;
	case DOUBT_TWO_DIGITS:
		write_two(page, "years", "They are",
		    (const char *const[]){
			"yes", "years, read so", "yes", "years, read so"});
		return;
	case DOUBT_DECIMALS:
		write_two(page, "decimals", "Decimals stand behind",
		    (const char *const[]){"comma", "a comma", "point", "a point"});
		return;
	case DOUBT_VESSEL:
		/* the field for it stands below */
		return;
	}
}

static void
write_doubt(struct list_page *page, const struct csv_doubt *doubt)
{
	struct markup *markup = page->visit->markup;
	SCOPED_TEXT words = {0};
	add_question(doubt, &words);
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k small");
	if (doubt->line > 0) {
		markup_text_format(markup, "line %zu", doubt->line);
	}
	markup_end(markup);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	if (doubt->theirs[0] != '\0') {
		markup_element(markup, "b", NULL, doubt->theirs);
		markup_begin(markup, "br");
		markup_end(markup);
	}
	markup_text(markup, text_string(&words));
	markup_end(markup);
	markup_begin(markup, "div");
	write_answer(page, doubt);
	markup_ends(markup, 3);
}

/* True when a field is asked for on this page, so that it is not also carried along unseen. */
static bool
is_asked(const struct list_page *page, const struct form_field *field)
{
	static const char *const ALONE[] = {[DOUBT_QUANTITIES] = "quantities",
	    [DOUBT_NEXT_ALONE] = "next",
	    [DOUBT_ORDER] = "order",
	    [DOUBT_TWO_DIGITS] = "years",
	    [DOUBT_DECIMALS] = "decimals"};
	const char *header = form_rest(field, "map.");
	bool whole = !page->read && (strcmp(field->name, "vessel") == 0 ||
					strcmp(field->name, "lines") == 0);
	const char *kind = form_rest(field, "means.");
	for (size_t i = 0; !whole && i < page->doubts.count; i++) {
		const struct csv_doubt *doubt = &page->doubts.items[i];
		const char *theirs =
		    doubt->about == DOUBT_HEADER                                  ? header
		    : doubt->about == DOUBT_KIND || doubt->about == DOUBT_NO_GEAR ? kind
										  : NULL;
		const char *alone =
		    doubt->about >= DOUBT_QUANTITIES && doubt->about != DOUBT_VESSEL
			? ALONE[doubt->about]
			: NULL;
		if ((theirs != NULL && strcmp(theirs, doubt->theirs) == 0) ||
		    (alone != NULL && strcmp(alone, field->name) == 0)) {
			return true;
		}
	}
	return whole;
}

/* What was answered before goes along. */
static void
carry_answers(struct list_page *page)
{
	static const char *const CARRIED[] = {"map.", "means.", "leave.", "order",
	    "decimals", "next", "quantities", "years", "vessel", "lines", "said", "fix."};
	const struct form *sent = &page->visit->sent;
	for (size_t i = 0; i < sent->count; i++) {
		const struct form_field *field = &sent->items[i];
		bool carried = false;
		for (size_t k = 0; k < sizeof CARRIED / sizeof CARRIED[0]; k++) {
			carried = carried || form_rest(field, CARRIED[k]) != NULL;
		}
		/* a mended cell may be left empty */
		bool said = form_rest(field, "fix.") != NULL ||
			    (field->value[0] != '\0' && field->value[0] != ' ');
		if (carried && said && field->file_name == NULL &&
		    !is_asked(page, field) && !list_asks_cell(page, field->name)) {
			shell_hidden(page->visit, field->name, field->value);
		}
	}
}

/* What is said once, for the whole list. */
static void
write_whole(struct list_page *page)
{
	struct visit *visit = page->visit;
	shell_section(visit, NULL, NULL, "For the whole list");
	markup_begin_class(visit->markup, "div", "fields");
	SHELL_FIELD(visit, .name = "vessel", .label = "The boat of rows that name none",
	    .value = list_vessel(page));
	SHELL_FIELD(visit, .name = "lines", .label = "Lines to pass over, as 4, 12",
	    .value = page_value(visit, "lines"));
	markup_ends(visit->markup, 3);
}

/* The lines of a fault that a person can only mend in the list. */
static void
write_wrong(struct list_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const char *question = page->trial.question.words;
	const char *rest = page->doubts.rest == NULL ? page->wrong : page->doubts.rest;
	if (page->doubts.count == 0 && question == NULL && rest[0] == '\0') {
		return;
	}
	shell_rows(visit, NULL, "What is not clear, or wrong");
	for (size_t i = 0; i < page->doubts.count; i++) {
		write_doubt(page, &page->doubts.items[i]);
	}
	markup_end(markup);
	markup_begin(markup, "div"); /* below the margin of the rows */
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	if (question != NULL) {
		SCOPED_TEXT words = {0};
		list_words(question, &words);
		text_add(&words, " It is right all the same.");
		markup_begin_class(markup, "div", "choice");
		shell_tick(
		    visit, "checkbox", "said", question, false, text_string(&words));
		markup_end(markup);
	} else if (rest[0] != '\0') {
		SCOPED_TEXT words = {0};
		list_words(rest, &words);
		markup_element(markup, "p", NULL,
		    "This is to be mended in the list itself, or below where it can be said for the whole list.");
		text_lines(markup, text_string(&words));
	}
	markup_ends(markup, 2);
}

/* The field for the file. */
static void
write_upload(struct visit *visit)
{
	struct markup *markup = visit->markup;
	shell_file_form(visit, "/list", "bring");
	shell_section(visit, NULL, NULL, "The list");
	markup_begin_class(markup, "div", "fields");
	shell_file(
	    visit, "list", "A spreadsheet (.xlsx, .ods) or a .csv", ".csv,.xlsx,.ods");
	markup_end(markup);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, true, "act", "read", "Read it");
	markup_ends(markup, 4);
}

static void
open_page(struct list_page *page, const char *say, int status)
{
	struct visit *visit = page->visit;
	const char *name = visit->session->list_name;
	const struct head_box boxes[] = {{"List", name == NULL ? "" : name}};
	SHELL_OPEN(visit, .title = "Bring a list", .about = name, .say = say,
	    .boxes = boxes, .box_count = name == NULL ? 0 : 1, .status = status);
	draw_defs(visit->markup);
}

/* Adds in a sentence how it stands with the list, and how much is still to be done about it. */
static void
add_state(const struct list_page *page, struct text *out)
{
	size_t asked = page->doubts.count;
	size_t cells = page->doubts.cells.count;
	if (page->read) {
		text_add(out,
		    "The list can be read. Look at what it would become; nothing is "
		    "written before you say so.");
		return;
	}
	if (asked > 0) {
		text_add_format(out, "%zu thing%s to be told once for the whole list",
		    asked, asked == 1 ? " is" : "s are");
	}
	if (cells > 0) {
		text_add_format(out, "%s%zu cell%s to be mended",
		    asked > 0 ? ", and " : "", cells, cells == 1 ? " is" : "s are");
	}
	text_add_format(out, "%s Nothing is written; all of it is, or none.",
	    asked + cells > 0 ? "." : "Some of the list is not clear.");
}

void
list_write(struct list_page *page)
{
	struct visit *visit = page->visit;
	if (visit->session->list_name == NULL) {
		open_page(page,
		    "Bring the list you have: how it is read and what it would become is shown "
		    "before anything is written.",
		    0);
		write_upload(visit);
		shell_close(visit);
		return;
	}
	SCOPED_TEXT say = {0};
	add_state(page, &say);
	open_page(page, text_string(&say), page->read ? 0 : 400);
	shell_file_form(visit, "/list", "list");
	if (page->read) {
		list_write_dates(page);
		list_write_columns(page);
		list_write_words(page);
		list_write_remarks(page);
		list_write_changes(page);
	} else {
		write_wrong(page);
		list_write_cells(page);
		list_write_columns(page);
		list_write_words(page);
		write_whole(page);
		shell_entry(visit);
		markup_begin_class(visit->markup, "div", "acts");
		shell_button(visit, true, "act", "read", "Try again with these");
		shell_button(visit, false, "act", "away", "Put the list away");
		markup_ends(visit->markup, 3);
	}
	carry_answers(page);
	markup_end(visit->markup);
	shell_close(visit);
}
