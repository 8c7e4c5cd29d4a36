/* The lines of an entry of many rows, in pages. */
#include "book/check_inside.h"
#include "book/rows.h"

#include <string.h>

/* A page is written once its lines have so many bytes. */
enum { PAGE_SIZE = 1 << 16 };

/* What the bytes of a page begin with: the number of their format. */
enum { PAGE_FORMAT = 1 };

/* ---- a line ---- */

static const char *const ACTS[] = {
    [JOURNAL_ADDED] = "added",
    [JOURNAL_CHANGED] = "changed",
    [JOURNAL_REMOVED] = "removed",
};

enum journal_act
line_act(const char *word)
{
	return strcmp(word, ACTS[JOURNAL_ADDED]) == 0     ? JOURNAL_ADDED
	       : strcmp(word, ACTS[JOURNAL_REMOVED]) == 0 ? JOURNAL_REMOVED
							  : JOURNAL_CHANGED;
}

void
line_texts(const struct journal_line *line, const char *out[LINE_TEXTS])
{
	const char *const texts[LINE_TEXTS] = {line->about, line->name, line->kind,
	    line->serial, ACTS[line->act], line->field, line->was, line->became};
	memcpy(out, texts, sizeof texts);
}

/* ---- writing ---- */

void
lines_page_clear(struct line_page *page)
{
	text_clear(&page->items);
	text_clear(&page->others);
	text_clear(&page->lines);
	for (size_t i = 0; i < LINE_TEXTS; i++) {
		text_clear(&page->before[i]);
	}
}

static void
page_begin(struct line_page *page)
{
	text_reset(&page->items);
	text_reset(&page->others);
	text_reset(&page->lines);
	for (size_t i = 0; i < LINE_TEXTS; i++) {
		text_reset(&page->before[i]);
	}
	page->told = false;
	text_add_byte(&page->items, '[');
	text_add_byte(&page->others, '[');
	text_add_byte(&page->lines, PAGE_FORMAT);
}

static void
add_comma(struct text *list)
{
	if (list->length > 1) {
		text_add_byte(list, ',');
	}
}

/* Adds what questions are asked about: an item once for lines that follow one another,
 * but for which boat it is on; any other line with its field. */
static void
add_told(struct line_page *page, const char *const texts[LINE_TEXTS], bool same_name)
{
	bool item = strcmp(texts[LINE_ABOUT], "item") == 0 &&
		    strcmp(texts[LINE_FIELD], "vessel") != 0;
	if (item && !(page->told && same_name)) {
		add_comma(&page->items);
		text_add_json(&page->items, texts[LINE_NAME]);
	} else if (!item) {
		add_comma(&page->others);
		text_add_byte(&page->others, '[');
		text_add_json(&page->others, texts[LINE_ABOUT]);
		text_add_byte(&page->others, ',');
		text_add_json(&page->others, texts[LINE_NAME]);
		text_add_byte(&page->others, ',');
		text_add_json(&page->others, texts[LINE_FIELD]);
		text_add_byte(&page->others, ']');
	}
	page->told = item;
}

bool
lines_page_add(
    struct entry_lines *lines, const struct journal_line *line, struct fault *fault)
{
	struct line_page *page = &lines->page;
	const char *texts[LINE_TEXTS];
	struct value values[LINE_TEXTS] = {0}; /* nothing for what the line before has */
	bool same_name = true;
	line_texts(line, texts);
	if (page->lines.length == 0) {
		page_begin(page);
	}
	for (size_t i = 0; i < LINE_TEXTS; i++) {
		struct text *before = &page->before[i];
		if (strcmp(text_string(before), texts[i]) != 0) {
			size_t length = strlen(texts[i]);
			if (!utf8_valid(texts[i], length)) {
				return fault_set(
				    fault, FAULT_INPUT, "a text is not valid UTF-8");
			}
			values[i] = (struct value){
			    .held = HELD_TEXT, .bytes = texts[i], .length = length};
			same_name = same_name && i != LINE_NAME;
			text_reset(before);
			text_add_bytes(before, texts[i], length);
		}
	}
	values_add(&page->lines, values, LINE_TEXTS);
	add_told(page, texts, same_name);
	return page->lines.length < PAGE_SIZE || lines_page_write(lines, fault);
}

static void
sum_page(struct entry_lines *lines)
{
	const struct line_page *page = &lines->page;
	struct row_sum row = row_sum_of("journal_page");
	row_sum_key(&row, 0, lines->number);
	row_sum_key(&row, 1, lines->position);
	row_sum_bytes(&row, 2, page->items.bytes, page->items.length);
	row_sum_bytes(&row, 3, page->others.bytes, page->others.length);
	row_sum_bytes(&row, 4, page->lines.bytes, page->lines.length);
	lines->book->sum += row.seed + row.values;
}

bool
lines_page_write(struct entry_lines *lines, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct line_page *page = &lines->page;
	if (page->lines.length == 0) {
		return true;
	}
	text_add_byte(&page->items, ']');
	text_add_byte(&page->others, ']');
	if (!call_open(lines->book, JOURNAL_PAGE_ADD, &call, fault)) {
		return false;
	}
	give_int(&call, lines->number);
	give_int(&call, lines->position);
	give_text(&call, text_string(&page->items));
	give_text(&call, text_string(&page->others));
	give_bytes(&call, page->lines.bytes, page->lines.length);
	if (!call_run(&call, fault)) {
		return false;
	}
	sum_page(lines);
	lines->position++;
	text_reset(&page->lines);
	return true;
}

/* ---- reading ---- */

static bool
damaged(struct fault *fault)
{
	return fault_set(fault, FAULT_BOOK, "the journal's lines are damaged");
}

bool
lines_page_open(const struct value *bytes, struct page_reading *out, struct fault *fault)
{
	const unsigned char *format = NULL;
	*out = (struct page_reading){
	    .left = {(const unsigned char *)bytes->bytes, bytes->length}};
	for (size_t i = 0; i < LINE_TEXTS; i++) {
		out->texts[i] = (struct value){.held = HELD_TEXT, .bytes = ""};
	}
	return (bytes_take(&out->left, 1, &format) && *format == PAGE_FORMAT) ||
	       damaged(fault);
}

bool
lines_page_next(struct page_reading *reading, bool *found_out, struct fault *fault)
{
	*found_out = reading->left.left > 0;
	for (size_t i = 0; *found_out && i < LINE_TEXTS; i++) {
		struct value value = {0};
		if (!value_take(&reading->left, &value) ||
		    (value.held != HELD_NOTHING && value.held != HELD_TEXT)) {
			return damaged(fault);
		}
		if (value.held == HELD_TEXT) {
			reading->texts[i] = value;
		}
	}
	return true;
}

static const char *
text_of(const struct page_reading *reading, enum line_text which, struct arena *arena)
{
	const struct value *text = &reading->texts[which];
	if (text->length == 0) {
		return "";
	}
	char *copy = arena_alloc(arena, text->length + 1);
	memcpy(copy, text->bytes, text->length);
	return copy;
}

struct journal_line
lines_page_line(const struct page_reading *reading, struct arena *arena)
{
	return (struct journal_line){
	    .about = text_of(reading, LINE_ABOUT, arena),
	    .name = text_of(reading, LINE_NAME, arena),
	    .kind = text_of(reading, LINE_KIND, arena),
	    .serial = text_of(reading, LINE_SERIAL, arena),
	    .act = line_act(text_of(reading, LINE_ACT, arena)),
	    .field = text_of(reading, LINE_FIELD, arena),
	    .was = text_of(reading, LINE_WAS, arena),
	    .became = text_of(reading, LINE_BECAME, arena),
	};
}
