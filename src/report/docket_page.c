/* The shore papers as pages for print. */
#include "report/docket_words.h"
#include "report/markup.h"
#include "report/words.h"

#include <string.h>

enum { TAGS_ON_A_SHEET = 8, COLUMNS_MOST = 8 };

/* A column of a table: its heading and the class that gives its width, "" for what is left. */
struct column {
	const char *heading;
	const char *width;
};

/* A page being written. */
struct page {
	const struct shore_papers *papers;
	struct markup *markup;
	struct text words; /* owned; for one text at a time */
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
	markup_begin(page->markup, name);
	markup_attribute(page->markup, "class", class_name);
}

/* ---- tags ---- */

static void
put_tag(struct page *page, const struct docket *docket, const struct docket_piece *piece)
{
	const struct item *item = piece_item(page->papers, piece);
	begin(page, "div", "tie");
	markup_element(page->markup, "div", "hole", "");
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

/* ---- what dockets and the return list share ---- */

/* Begins a sheet with its heading. */
static void
put_head(struct page *page, const char *title, const struct docket *docket)
{
	begin(page, "section", "sheet");
	text_add_format(&page->words, "%s: %s", title, docket_station(docket));
	put_words(page, "h1", NULL);
	add_docket_line(docket, &page->words);
	put_words(page, "p", NULL);
}

/* The caution as a table's foot, so that print repeats it on each sheet. */
static void
put_table_foot(struct page *page, size_t columns)
{
	begin(page, "tfoot", NULL);
	begin(page, "tr", NULL);
	begin(page, "td", "quiet");
	markup_attribute_format(page->markup, "colspan", "%zu", columns);
	markup_text(page->markup, REPORT_CAUTION);
	markup_end(page->markup);
	markup_end(page->markup);
	markup_end(page->markup);
}

/* A row with the vessel's name before her first piece. */
static void
put_vessel(struct page *page, const struct docket *docket, size_t index, size_t columns)
{
	if (!starts_vessel(page->papers, docket, index)) {
		return;
	}
	begin(page, "tr", "group");
	begin(page, "td", "care");
	markup_attribute_format(page->markup, "colspan", "%zu", columns);
	markup_text(
	    page->markup, piece_vessel(page->papers, &docket->pieces[index])->name);
	markup_end(page->markup);
	markup_end(page->markup);
}

/* Begins a table whose columns have the widths that page.css gives these classes. */
static void
begin_table(struct page *page, const struct column *columns, size_t count)
{
	begin(page, "table", "docket");
	begin(page, "colgroup", NULL);
	for (size_t i = 0; i < count; i++) {
		begin(page, "col", columns[i].width);
		markup_end(page->markup);
	}
	markup_end(page->markup);
	const char *headings[COLUMNS_MOST];
	for (size_t i = 0; i < count; i++) {
		headings[i] = columns[i].heading;
	}
	markup_table_head(page->markup, headings, count);
	put_table_foot(page, count);
	begin(page, "tbody", NULL);
}

/* Ends what begin_table and put_head have begun. */
static void
end_table(struct page *page)
{
	markup_end(page->markup);
	markup_end(page->markup);
	markup_end(page->markup);
}

/* ---- dockets ---- */

static const struct column DOCKET_COLUMNS[] = {
    {"Tag", "w4"},
    {"What", ""},
    {"Serial", "w3"},
    {"Made", "w2"},
    {"Last service", "w3"},
    {"Wanted", ""},
    {"Next due if done", "w3"},
};

enum { DOCKET_COLUMN_COUNT = sizeof DOCKET_COLUMNS / sizeof DOCKET_COLUMNS[0] };

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
	begin(page, "td", NULL);
	add_wanted(piece, &page->words);
	put_words(page, "div", "care");
	for (size_t i = piece->own_count; i < piece->line_count; i++) {
		text_add(&page->words, "renew ");
		add_part(page->papers, piece->lines[i], &page->words);
		put_words(page, "div", NULL);
	}
	markup_end(page->markup);
	begin(page, "td", NULL);
	for (size_t i = 0; i < piece->own_count; i++) {
		put_due_again(page, piece->lines[i]);
	}
	markup_end(page->markup);
}

static void
put_piece(struct page *page, const struct docket_piece *piece)
{
	const struct item *item = piece_item(page->papers, piece);
	begin(page, "tr", NULL);
	markup_element(page->markup, "td", "tag", item->tag);
	add_piece_words(page->papers, piece, &page->words);
	put_words(page, "td", NULL);
	markup_element(page->markup, "td", NULL,
	    item->serial[0] == '\0' ? "not known" : item->serial);
	add_made(item, &page->words);
	put_words(page, "td", NULL);
	add_last_service(item, &page->words);
	put_words(page, "td", NULL);
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

static void
put_docket(struct page *page, const struct docket *docket)
{
	put_head(page, "Hand-in docket", docket);
	put_signs(page, docket);
	begin_table(page, DOCKET_COLUMNS, DOCKET_COLUMN_COUNT);
	for (size_t i = 0; i < docket->piece_count; i++) {
		put_vessel(page, docket, i, DOCKET_COLUMN_COUNT);
		put_piece(page, &docket->pieces[i]);
	}
	end_table(page);
}

/* ---- the return list ---- */

static const struct column RETURN_COLUMNS[] = {
    {"Tag", "w5"},
    {"Serial", "w5"},
    {"Yes", "w1"},
    {"No", "w1"},
    {"Result", ""},
    {"New date", "w4"},
    {"Certificate number", ""},
};

enum { RETURN_COLUMN_COUNT = sizeof RETURN_COLUMNS / sizeof RETURN_COLUMNS[0] };

static void
put_box(struct page *page)
{
	begin(page, "td", NULL);
	markup_element(page->markup, "span", "box", "");
	markup_end(page->markup);
}

static void
put_return_row(struct page *page, const struct item *item)
{
	begin(page, "tr", "tall");
	markup_element(page->markup, "td", "tag", item->tag);
	markup_element(page->markup, "td", NULL, item->serial);
	put_box(page);
	put_box(page);
	markup_element(page->markup, "td", "room", "");
	markup_element(page->markup, "td", "room", "");
	markup_element(page->markup, "td", "room", "");
	markup_end(page->markup);
}

static void
put_return_list(struct page *page, const struct docket *docket)
{
	put_head(page, "Return list", docket);
	markup_element(page->markup, "p", NULL, "Did it come back? Tick yes or no.");
	begin_table(page, RETURN_COLUMNS, RETURN_COLUMN_COUNT);
	for (size_t i = 0; i < docket->piece_count; i++) {
		const struct docket_piece *piece = &docket->pieces[i];
		put_vessel(page, docket, i, RETURN_COLUMN_COUNT);
		put_return_row(page, piece_item(page->papers, piece));
		for (size_t j = piece->own_count; j < piece->line_count; j++) {
			size_t part = piece->lines[j]->item;
			put_return_row(page, &page->papers->inventory->items[part]);
		}
	}
	end_table(page);
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
		put_tags(page);
		return;
	}
	for (size_t i = 0; i < dockets->count; i++) {
		if (paper == SHORE_DOCKETS) {
			put_docket(page, &dockets->items[i]);
		} else {
			put_return_list(page, &dockets->items[i]);
		}
	}
}

bool
shore_paper_page(const struct shore_papers *papers, enum shore_paper paper,
    struct text *out, struct fault *fault)
{
	struct page page = {.papers = papers};
	if (!markup_open(title_of(paper), &page.markup, fault)) {
		return false;
	}
	put_paper(&page, paper);
	bool fine = !page.words.failed;
	text_clear(&page.words);
	if (!fine) {
		markup_free(page.markup);
		return fault_memory(fault);
	}
	return markup_close(page.markup, out, fault);
}
