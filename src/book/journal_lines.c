/* Writing the lines of an entry. */
#include "book/check_inside.h"
#include "book/rows.h"

#include <string.h>

/* Adds a line to the sum of the book, and counts it as written. */
static void
sum_line(struct entry_lines *lines, const char *const texts[LINE_TEXTS])
{
	struct row_sum row = row_sum_of("journal_line");
	row_sum_key(&row, 0, lines->number);
	row_sum_key(&row, 1, lines->position);
	for (int i = 0; i < LINE_TEXTS; i++) {
		row_sum_bytes(&row, 2 + i, texts[i], strlen(texts[i]));
	}
	lines->book->sum += row.seed + row.values;
	lines->position++;
}

/* Writes all that may wait, by a statement that has their values as parameters. */
static bool
write_many(struct entry_lines *lines, struct fault *fault)
{
	SCOPED_CALL call = {0};
	const char *texts[LINE_TEXTS];
	if (!call_open_many(lines->book, JOURNAL_LINE_ADD, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < ROWS_MANY; i++) {
		line_texts(&lines->waiting[i], texts);
		give_int(&call, lines->number);
		give_int(&call, lines->position);
		for (int j = 0; j < LINE_TEXTS; j++) {
			give_text(&call, texts[j]);
		}
		sum_line(lines, texts);
	}
	return call_run(&call, fault);
}

static void
forget_waiting(struct entry_lines *lines)
{
	lines->count = 0;
	arena_reset(&lines->words);
}

bool
entry_lines_add(
    struct entry_lines *lines, const struct journal_line *line, struct fault *fault)
{
	struct arena *words = &lines->words;
	if (lines->in_pages) {
		return lines_page_add(lines, line, fault);
	}
	if (lines->count == ROWS_MANY) {
		if (!write_many(lines, fault)) {
			return false;
		}
		forget_waiting(lines);
	}
	lines->waiting[lines->count++] = (struct journal_line){
	    .about = arena_string(words, line->about),
	    .name = arena_string(words, line->name),
	    .kind = arena_string(words, line->kind),
	    .serial = arena_string(words, line->serial),
	    .act = line->act,
	    .field = arena_string(words, line->field),
	    .was = arena_string(words, line->was),
	    .became = arena_string(words, line->became),
	};
	return true;
}

bool
entry_lines_end(struct entry_lines *lines, struct fault *fault)
{
	SCOPED_ROW_LIST list = {0};
	const char *texts[LINE_TEXTS];
	if (lines->in_pages) {
		return lines_page_write(lines, fault);
	}
	for (size_t i = 0; i < lines->count; i++) {
		line_texts(&lines->waiting[i], texts);
		row_list_row(&list);
		row_list_int(&list, lines->number);
		row_list_int(&list, lines->position);
		for (int j = 0; j < LINE_TEXTS; j++) {
			row_list_text(&list, texts[j]);
		}
		sum_line(lines, texts);
	}
	forget_waiting(lines);
	return row_list_run(&list, lines->book, JOURNAL_LINES_ADD, fault);
}

void
entry_lines_clear(struct entry_lines *lines)
{
	arena_clear(&lines->words);
	lines_page_clear(&lines->page);
}
