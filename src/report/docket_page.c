/* The shore papers as pages for print. */
#include "report/markup.h"
#include "report/qr.h"
#include "report/words.h"
#include "report/words_inside.h"

enum { COLUMN_COUNT = 7 };

struct page;

/* A list of a docket's pieces. */
struct piece_list {
	const char *title;

	struct {
		const char *heading;
		const char
		    *width; /* class that gives it in page.css; "" for what is left */
	} columns[COLUMN_COUNT];

	void (*put_above)(struct page *page, const struct docket *docket);
	void (*put_rows)(struct page *page, const struct docket_piece *piece);
};

/* A page being written. */
struct page {
	const struct shore_papers *papers; /* of the rows */
	const struct kinds *kinds;
	struct markup *markup;
	struct text words; /* owned; for one text at a time */
	const struct piece_list *list;
	size_t column; /* of the row being written */
};

/* An element with the words gathered so far, which are then forgotten. */
static void
put_words(struct page *page, const char *name, const char *class_name)
{
	markup_element(page->markup, name, class_name, text_string(&page->words));
	text_reset(&page->words);
}

static void
begin(struct page *page, const char *name, const char *class_name)
{
	markup_begin_class(page->markup, name, class_name);
}

static void
begin_row(struct page *page, const char *class_name)
{
	begin(page, "tr", class_name);
	page->column = 0;
}

/* The row's next cell. On a phone, where the cells stand one below the other, page.css tells its
 * heading before it. */
static void
begin_cell(struct page *page, const char *class_name)
{
	begin(page, "td", class_name);
	markup_attribute(
	    page->markup, "data-head", page->list->columns[page->column++].heading);
}

/* The same with the words gathered so far. */
static void
put_cell(struct page *page, const char *class_name)
{
	begin_cell(page, class_name);
	markup_text(page->markup, text_string(&page->words));
	text_reset(&page->words);
	markup_end(page->markup);
}

/* ---- tags ---- */

/* The code that opens the piece on a phone. Where the address is too long for a code there is none:
 * the tag says all that is needed. */
static void
put_code(struct page *page, const struct item *item)
{
	const struct shore_papers *papers = page->papers;
	struct fault too_long = {0};
	SCOPED_TEXT address = {0};
	SCOPED_TEXT label = {0};
	if (papers->address == NULL) {
		return;
	}
	papers->address(papers->address_context, item->tag, &address);
	text_add_format(&label, "QR code that opens %s", item->tag);
	bool drawn =
	    qr_draw(text_string(&address), text_string(&label), page->markup, &too_long);
	(void)drawn;
}

/* Up to the station's days, and what stands below them. */
static void
put_tag(struct page *page, const struct docket_piece *piece, struct text *out)
{
	const struct item *item = piece_item(page->papers, piece);
	begin(page, "div", "tie");
	markup_element(page->markup, "div", "hole", "");
	put_code(page, item);
	markup_element(page->markup, "div", "tag", item->tag);
	markup_element(
	    page->markup, "div", "care", piece_vessel(page->papers, piece)->name);
	add_piece_words(page->papers, piece, &page->words);
	put_words(page, "div", NULL);
	if (item->serial[0] != '\0') {
		text_add_format(&page->words, "Serial %s", item->serial);
		put_words(page, "div", NULL);
	}
	text_add(&page->words, "For ");
	add_work(page->papers, piece, &page->words);
	put_words(page, "div", NULL);
	markup_take(page->markup, out);
	text_add_byte(out, TAG_CUT);
	if (item->place[0] != '\0') {
		text_add_format(&page->words, "Goes back to: %s", item->place);
		put_words(page, "div", "quiet");
	}
	markup_end(page->markup);
	markup_take(page->markup, out);
	text_add_byte(out, TAG_CUT);
}

void
docket_page_sheet(struct markup *markup)
{
	markup_begin_class(markup, "section", "sheet");
	markup_begin_class(markup, "div", "ties");
}

void
docket_page_sheet_end(struct markup *markup)
{
	markup_end(markup);
	markup_element(markup, "p", "quiet", REPORT_CAUTION);
	markup_end(markup);
}

void
docket_page_tag(const struct docket *docket, struct markup *markup)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "At %s: ", docket_station(docket));
	add_docket_days(docket, &words);
	markup_element(markup, "div", NULL, text_string(&words));
}

/* ---- dockets ---- */

/* A line with a task and the day it is due again. */
static void
put_due_again(struct page *page, const struct shore_line *line)
{
	begin(page, "div", NULL);
	markup_text_format(page->markup, "%s ", task_noun(line->task));
	add_day(line->due_again, "not known", &page->words);
	put_words(page, "span", "date");
	markup_text(page->markup, lapses_in_season(line) ? ", in the season" : "");
	markup_end(page->markup);
}

static void
put_work(struct page *page, const struct docket_piece *piece)
{
	begin_cell(page, NULL);
	add_wanted(piece, &page->words);
	put_words(page, "div", "care");
	for (size_t i = piece->own_count; i < piece->line_count; i++) {
		text_add(&page->words, "renew ");
		add_part(page->papers, piece->lines[i], &page->words);
		put_words(page, "div", NULL);
	}
	markup_end(page->markup);
	begin_cell(page, NULL);
	for (size_t i = 0; i < piece->own_count; i++) {
		put_due_again(page, piece->lines[i]);
	}
	markup_end(page->markup);
}

static void
put_docket_rows(struct page *page, const struct docket_piece *piece)
{
	const struct item *item = piece_item(page->papers, piece);
	begin_row(page, NULL);
	begin_cell(page, "tag");
	markup_element(page->markup, "span", "box", "");
	markup_text_format(page->markup, " %s", item->tag);
	markup_end(page->markup);
	add_piece_words(page->papers, piece, &page->words);
	put_cell(page, NULL);
	text_add(&page->words, item->serial[0] == '\0' ? "not known" : item->serial);
	put_cell(page, NULL);
	add_made(item, &page->words);
	put_cell(page, NULL);
	add_last_service(item, &page->words);
	put_cell(page, NULL);
	put_work(page, piece);
	markup_end(page->markup);
}

/* The cautions and the lines to sign stand above the list, so that they are on its first sheet
 * however long it is. */
static void
put_signs(struct page *page, const struct docket *docket)
{
	const char *cautions[HAZARD_COUNT];
	docket_cautions(page->kinds, docket, cautions);
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		if (cautions[hazard][0] != '\0') {
			markup_element(page->markup, "p", "caution", cautions[hazard]);
		}
	}
	begin(page, "div", "signs");
	for (int i = 0; i < SIGN_LINE_COUNT; i++) {
		markup_element(page->markup, "div", NULL, SIGN_LINES[i]);
	}
	markup_end(page->markup);
}

/* ---- the return list ---- */

static void
put_box(struct page *page)
{
	begin_cell(page, NULL);
	markup_element(page->markup, "span", "box", "");
	markup_end(page->markup);
}

static void
put_return_row(struct page *page, size_t index)
{
	const struct item *item = &page->papers->inventory->items[index];
	begin_row(page, "tall");
	begin_cell(page, NULL);
	markup_element(page->markup, "div", "tag", item->tag);
	add_item_name(page->papers->kinds, page->papers->inventory, index, &page->words);
	put_words(page, "div", NULL);
	markup_end(page->markup);
	text_add(&page->words, item->serial);
	put_cell(page, NULL);
	put_box(page);
	put_box(page);
	put_cell(page, "room");
	put_cell(page, "room");
	put_cell(page, "room");
	markup_end(page->markup);
}

/* The piece, and the parts that are renewed with it. */
static void
put_return_rows(struct page *page, const struct docket_piece *piece)
{
	put_return_row(page, piece->item);
	for (size_t i = piece->own_count; i < piece->line_count; i++) {
		put_return_row(page, piece->lines[i]->item);
	}
}

static void
put_question(struct page *page, const struct docket *docket)
{
	(void)docket;
	markup_element(page->markup, "p", NULL, "Did it come back? Tick yes or no.");
}

/* ---- what they share ---- */

static const struct piece_list HAND_IN = {
    .title = "Hand-in docket",
    .columns = {{"Tag", "w4"}, {"What", ""}, {"Serial", "w3"}, {"Made", "w2"},
	{"Last service", "w3"}, {"Wanted", ""}, {"Next due if done", "w3"}},
    .put_above = put_signs,
    .put_rows = put_docket_rows,
};
static const struct piece_list RETURN = {
    .title = "Return list",
    .columns = {{"What", "w6"}, {"Serial", "w4"}, {"Yes", "w1"}, {"No", "w1"},
	{"Result", ""}, {"New date", "w4"}, {"Certificate number", ""}},
    .put_above = put_question,
    .put_rows = put_return_rows,
};

/* A row over the whole table with the words gathered so far. */
static void
put_wide_row(struct page *page, const char *row_class, const char *cell_class)
{
	begin(page, "tr", row_class);
	begin(page, "td", cell_class);
	markup_attribute_format(page->markup, "colspan", "%d", COLUMN_COUNT);
	markup_text(page->markup, text_string(&page->words));
	text_reset(&page->words);
	markup_ends(page->markup, 2);
}

/* The table's columns and its head, which print repeats on each sheet. */
static void
put_table_frame(struct page *page, const struct piece_list *list)
{
	const char *headings[COLUMN_COUNT];
	begin(page, "colgroup", NULL);
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		headings[i] = list->columns[i].heading;
		begin(page, "col", list->columns[i].width);
		markup_end(page->markup);
	}
	markup_end(page->markup);
	markup_table_head(page->markup, headings, COLUMN_COUNT, 0);
}

/* Its foot with the list's name and the caution, repeated in the same way. */
static void
put_table_foot(
    struct page *page, const struct piece_list *list, const struct docket *docket)
{
	begin(page, "tfoot", NULL);
	text_add_format(&page->words, "%s: %s, ", list->title, docket_station(docket));
	add_docket_days(docket, &page->words);
	text_add_format(&page->words, ". %s", REPORT_CAUTION);
	put_wide_row(page, NULL, "quiet");
	markup_end(page->markup);
}

static const struct piece_list *
list_of(enum shore_paper paper)
{
	return paper == SHORE_DOCKETS ? &HAND_IN : &RETURN;
}

void
docket_page_rows(const struct shore_papers *papers, enum shore_paper paper,
    const struct docket *docket, struct span_of_pieces hers, struct markup *markup,
    struct text *out)
{
	struct page page = {.papers = papers, .markup = markup, .list = list_of(paper)};
	for (size_t i = hers.first; i < hers.end; i++) {
		const struct docket_piece *piece = &docket->pieces[i];
		if (paper == SHORE_TAGS) {
			put_tag(&page, piece, out);
			continue;
		}
		if (i == hers.first) {
			text_add(&page.words, piece_vessel(papers, piece)->name);
			put_wide_row(&page, "group", "care");
		}
		page.list->put_rows(&page, piece);
	}
	markup_take(markup, out);
	text_clear(&page.words);
}

void
docket_page_begin(const struct kinds *kinds, enum shore_paper paper,
    const struct docket *docket, struct markup *markup)
{
	struct page page = {.kinds = kinds, .markup = markup, .list = list_of(paper)};
	begin(&page, "section", "sheet");
	text_add_format(&page.words, "%s: %s", page.list->title, docket_station(docket));
	put_words(&page, "h1", NULL);
	add_docket_line(docket, &page.words);
	put_words(&page, "p", NULL);
	page.list->put_above(&page, docket);
	begin(&page, "table", "docket");
	put_table_frame(&page, page.list);
	begin(&page, "tbody", NULL);
	text_clear(&page.words);
}

void
docket_page_end(
    enum shore_paper paper, const struct docket *docket, struct markup *markup)
{
	struct page page = {.markup = markup, .list = list_of(paper)};
	markup_end(markup);
	put_table_foot(&page, page.list, docket);
	markup_ends(markup, 2);
	text_clear(&page.words);
}

static const char *
title_of(enum shore_paper paper)
{
	switch (paper) {
	case SHORE_TAGS:
		return "Tie-on tags";
	case SHORE_DOCKETS:
		return "Hand-in dockets";
	case SHORE_RETURN_LIST:
		return "Return list";
	}
	return "";
}

void
docket_page_open(enum shore_paper paper, struct markup **markup_out)
{
	markup_open(title_of(paper), title_of(paper), markup_out);
	if (paper == SHORE_TAGS) {
		/* for people who have the page read aloud; on paper only the tags are printed */
		markup_element(*markup_out, "h1", "unseen", title_of(paper));
	}
}
