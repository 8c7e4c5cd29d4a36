/* The shore papers as pages for print. */
#include "report/markup.h"
#include "report/qr.h"
#include "report/words.h"
#include "report/words_inside.h"

enum { TAGS_ON_A_SHEET = 8, COLUMN_COUNT = 7 };

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
	const struct shore_papers *papers;
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

static void
put_tag(struct page *page, const struct docket *docket, const struct docket_piece *piece)
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
	text_add_format(&page->words, "At %s: ", docket_station(docket));
	add_docket_days(docket, &page->words);
	put_words(page, "div", NULL);
	if (item->place[0] != '\0') {
		text_add_format(&page->words, "Goes back to: %s", item->place);
		put_words(page, "div", "quiet");
	}
	markup_end(page->markup);
}

/* Ends a sheet of tags with the caution below them. */
static void
end_tag_sheet(struct page *page)
{
	markup_end(page->markup);
	markup_element(page->markup, "p", "quiet", REPORT_CAUTION);
	markup_end(page->markup);
}

/* Sheets of eight. */
static void
put_tags(struct page *page)
{
	const struct dockets *dockets = page->papers->dockets;
	size_t tags = 0;
	for (size_t i = 0; i < dockets->count; i++) {
		const struct docket *docket = &dockets->items[i];
		for (size_t j = 0; j < docket->piece_count; j++, tags++) {
			if (tags > 0 && tags % TAGS_ON_A_SHEET == 0) {
				end_tag_sheet(page);
			}
			if (tags % TAGS_ON_A_SHEET == 0) {
				begin(page, "section", "sheet");
				begin(page, "div", "ties");
			}
			put_tag(page, docket, &docket->pieces[j]);
		}
	}
	end_tag_sheet(page);
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
	docket_cautions(page->papers, docket, cautions);
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

static void
put_list(struct page *page, const struct piece_list *list, const struct docket *docket)
{
	page->list = list;
	begin(page, "section", "sheet");
	text_add_format(&page->words, "%s: %s", list->title, docket_station(docket));
	put_words(page, "h1", NULL);
	add_docket_line(docket, &page->words);
	put_words(page, "p", NULL);
	list->put_above(page, docket);
	begin(page, "table", "docket");
	put_table_frame(page, list);
	begin(page, "tbody", NULL);
	for (size_t i = 0; i < docket->piece_count; i++) {
		const struct docket_piece *piece = &docket->pieces[i];
		if (starts_vessel(page->papers, docket, i)) {
			text_add(&page->words, piece_vessel(page->papers, piece)->name);
			put_wide_row(page, "group", "care");
		}
		list->put_rows(page, piece);
	}
	markup_end(page->markup);
	put_table_foot(page, list, docket);
	markup_ends(page->markup, 2);
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

static void
put_paper(struct page *page, enum shore_paper paper)
{
	const struct dockets *dockets = page->papers->dockets;
	if (paper == SHORE_TAGS) {
		/* for people who have the page read aloud; on paper only the tags are printed */
		text_add(&page->words, title_of(paper));
		put_words(page, "h1", "unseen");
		put_tags(page);
		return;
	}
	for (size_t i = 0; i < dockets->count; i++) {
		put_list(page, paper == SHORE_DOCKETS ? &HAND_IN : &RETURN,
		    &dockets->items[i]);
	}
}

void
shore_paper_page(
    const struct shore_papers *papers, enum shore_paper paper, struct text *out)
{
	struct page page = {.papers = papers};
	markup_open(title_of(paper), title_of(paper), &page.markup);
	put_paper(&page, paper);
	text_clear(&page.words);
	markup_close(page.markup, out);
}
