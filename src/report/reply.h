/* An answer composed once, for whoever writes it: headings, sentences, tables of typed cells and
 * drawings, in their order. As text and as a page it has the same words, and a row of a table has a
 * cell for each of its columns or the program stops.
 *
 * Compose: reply_heading, reply_words, reply_table with reply_cell for each cell, row by row, and
 * reply_drawing. Write: reply_text or reply_page. What is given is copied into the arena, but for
 * columns and headings of columns, which outlive the reply. */
#ifndef BECKET_REPORT_REPLY_H
#define BECKET_REPORT_REPLY_H

#include "base/memory.h"
#include "report/markup.h"
#include "report/table.h"

/* What the cells of a column are: a page sets their class by it, text their side. */
enum cell_type {
	CELL_WORDS,
	CELL_TAG, /* as the next two, never broken on a page */
	CELL_DAY,
	CELL_STATE,
	CELL_NUMBER, /* to the right, as the next */
	CELL_PRICE,
};

struct reply_column {
	const char *heading;
	enum cell_type type;
	size_t most; /* as struct table_column has it, as the next */
	bool flexible;
};

/* How a sentence is meant; a page has a class for each but the first. */
enum voice {
	VOICE_PLAIN,
	VOICE_CARE,    /* a remark to act on */
	VOICE_QUIET,   /* what is taken for granted */
	VOICE_CAUTION, /* what goes under every answer someone could act on */
};

struct reply_cell {
	enum hue hue; /* of text */
	const char *words;
};

struct reply_table {
	struct arena *arena;
	const struct reply_column *columns;
	size_t column_count;
	bool bare; /* no row of headings in text */
	struct reply_cell *items;
	size_t count;
	size_t capacity;
};

/* What a drawing is of lives as long as the reply. */
typedef void reply_draw(const void *of, struct markup *markup);

struct reply_part {
	enum { PART_HEADING, PART_WORDS, PART_TABLE, PART_DRAWING } is;

	int level;        /* of a heading: 2 or 3 */
	enum voice voice; /* of words, as the next two */
	size_t rest;      /* blanks before lines after the first, in text */
	bool apart;       /* after a blank line, in text */
	const char *words;
	struct reply_table table;
	reply_draw *draw;
	const void *of;
};

/* Starts as `{ .arena = arena }`. */
struct reply {
	struct arena *arena;
	struct reply_part **items;
	size_t count;
	size_t capacity;
};

/* A heading without its full stop. In text one of level 2 is a sentence, one of level 3 a line after
 * a blank one. */
void reply_heading(struct reply *reply, int level, const char *words);

/* A paragraph; nothing for empty words. `apart` and `rest` are for text. */
void reply_words(
    struct reply *reply, enum voice voice, bool apart, size_t rest, const char *words);

/* A table; one without rows writes nothing but, on a page, its headings. */
struct reply_table *reply_table(
    struct reply *reply, const struct reply_column *columns, size_t count, bool bare);
void reply_cell(struct reply_table *table, enum hue hue, const char *words);

/* A drawing, on a page alone. */
void reply_drawing(struct reply *reply, reply_draw *draw, const void *of);

/* Writes it for a terminal or a printer; tables two blanks in. */
void reply_text(const struct reply *reply, bool colour, struct text *out);

/* Adds it to an open page. */
void reply_page(const struct reply *reply, struct markup *markup);

#endif
