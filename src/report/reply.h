/* An answer composed once, for whoever writes it: headings, sentences, tables of typed cells and
 * drawings, in their order. As text and as a page it has the same words, and a row of a table has a
 * cell of the right type for each of its columns or the program stops. As CSV it is the rows of its
 * tables with days, prices and words of our own as programs read them; a column says by its heading
 * and its key whether it is for people, for programs or for both.
 *
 * Compose: reply_heading, reply_words, reply_remark, reply_caution, reply_drawing, and
 * REPLY_TABLE with a cell for each column, row by row. Write: reply_text, reply_page or
 * reply_csv. What is given is copied into the arena, except for columns and their names,
 * which outlive the reply. */
#ifndef BECKET_REPORT_REPLY_H
#define BECKET_REPORT_REPLY_H

#include "base/memory.h"
#include "dates/day.h"
#include "report/markup.h"
#include "report/report.h"
#include "report/table.h"

#include <stdint.h>

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
	const char *heading; /* NULL where people are not shown it */
	const char *key;     /* its name in CSV; NULL where it is not in it */
	enum cell_type type;
	size_t most; /* as struct table_column has it, as the next */
	bool flexible;
};

/* How a table stands in text, as bits. */
enum table_look {
	LOOK_BARE = 1,  /* without its row of headings */
	LOOK_FLUSH = 2, /* from the first column on; else two blanks in */
	LOOK_APART = 4, /* after a blank line, where it has rows */
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
	const char *extra; /* follows them where there is room */
	const char *code;  /* in CSV */
};

struct reply_table {
	struct arena *arena;
	const struct reply_column *columns;
	size_t column_count;
	unsigned look; /* bits of enum table_look */
	size_t cell_count;
	struct reply_cell **items; /* in blocks, which stay where they are */
	size_t count;
	size_t capacity;
};

/* What a drawing is of lives as long as the reply. */
typedef void reply_draw(const void *of, struct markup *markup);

struct reply_part {
	enum { PART_HEADING, PART_WORDS, PART_TABLE, PART_DRAWING } is;

	int level;        /* of a heading: 1 to 3 */
	enum voice voice; /* of words, as the next two */
	size_t first;     /* blanks before the first line, in text */
	size_t rest;      /* and before those after it */
	bool apart;       /* of both: after a blank line, in text */
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

/* One in the scope of a function, with an arena of its own. */
/* NOLINTBEGIN(bugprone-macro-parentheses): what is declared stands in none */
#define SCOPED_REPLY(name)                                                               \
	SCOPED_ARENA name##_arena = {0};                                                 \
	struct reply name = {.arena = &name##_arena}
/* NOLINTEND(bugprone-macro-parentheses) */

/* A heading without its full stop. In text one of level 1 is a line and one of level 2 a sentence,
 * after a blank line where they are not the first of the answer; one of level 3 is a line after a
 * blank one. */
void reply_heading(struct reply *reply, int level, const char *words);

/* A paragraph; nothing for empty words. `apart` and `rest` are for text. */
void reply_words(
    struct reply *reply, enum voice voice, bool apart, size_t rest, const char *words);

/* A plain paragraph of words, which are emptied. */
void reply_say(struct reply *reply, bool apart, struct text *words);

/* A paragraph of its own sort below another: in text `depth` blanks in, and further lines two
 * more. Nothing for empty words. */
void reply_remark(struct reply *reply, enum voice voice, size_t depth, const char *words);

/* A paragraph below another, in text all of it `depth` blanks in. Nothing for empty words. */
void reply_block(struct reply *reply, size_t depth, const char *words);

/* REPORT_CAUTION, apart. */
void reply_caution(struct reply *reply);

/* A table; one without rows writes nothing but, on a page and in CSV, its headings. */
struct reply_table *reply_table(
    struct reply *reply, const struct reply_column *columns, size_t count, unsigned look);
#define REPLY_TABLE(reply, columns, look)                                                \
	reply_table((reply), (columns), sizeof(columns) / sizeof(columns)[0], (look))

/* The next cell of a table. Words, the same for people and in CSV: */
void reply_cell(struct reply_table *table, enum hue hue, const char *words);

/* The same, and empties the words. */
void reply_take(struct reply_table *table, enum hue hue, struct text *words);

/* What people read, and what CSV has instead. */
void reply_coded(
    struct reply_table *table, enum hue hue, const char *words, const char *code);

/* Words with an ending that text leaves out where there is no room; CSV has none of it. */
void reply_extra(
    struct reply_table *table, enum hue hue, const char *words, const char *extra);

/* A day of a column of days, with the month's name for people, as ISO has it in CSV. For DAY_NONE
 * and DAY_NEVER people read `otherwise`, and CSV is blank. */
void reply_day(struct reply_table *table, enum hue hue, day_t day, const char *otherwise);

/* A number of a column of numbers; `otherwise`, and blank in CSV, where it is negative: not
 * known. */
void reply_number(
    struct reply_table *table, enum hue hue, int64_t number, const char *otherwise);

/* A price of a column of prices, "249.00"; blank where it is negative: not known. */
void reply_price(struct reply_table *table, int64_t minor, const char *currency);

/* The cell at a place, counted from 0 row by row. */
struct reply_cell *reply_cell_at(const struct reply_table *table, size_t index);

/* Leaves the rest of a row blank. */
void reply_row_end(struct reply_table *table);

/* Adds what another has; that lives as long as this one. */
void reply_join(struct reply *reply, const struct reply *other);

/* A drawing, on a page alone. */
void reply_drawing(struct reply *reply, reply_draw *draw, const void *of);

/* Writes it for a terminal or a printer. */
void reply_text(const struct reply *reply, bool colour, struct text *out);

/* Adds it to an open page. */
void reply_page(const struct reply *reply, struct markup *markup);

/* Writes the rows of its tables as CSV (RFC 4180), of those columns that have keys, below a row of
 * these; once for tables of the same keys that follow each other. Tables without keys, and all
 * that is no table, are left out. */
void reply_csv(const struct reply *reply, struct text *out);

/* Keeps the rows of a table, which is like those before. `places` has for each of them by
 * what it is sorted, and they are so; NULL where rows stand as they come. */
void reply_rows_keep(struct kept_rows *rows, const struct reply_table *from,
    const struct run_piece *places);

/* Writes them, once all are kept, below their headings. FAULT_FILE where they can't be read back,
 * then behind some of them. */
MUST_CHECK bool reply_rows_text(
    struct kept_rows *rows, bool colour, struct text *out, struct fault *fault);

/* Writes it as the style says: as CSV or as text. */
void reply_write(
    const struct reply *reply, const struct report_style *style, struct text *out);

#endif
