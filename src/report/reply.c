#include "report/reply.h"

#include "gear/money.h"
#include "report/words.h"

#include <assert.h>

enum { TABLE_INDENT = 2, CELLS_IN_BLOCK = 16 };

static struct reply_part *
add_part(struct reply *reply)
{
	struct reply_part *part = arena_alloc(reply->arena, sizeof *part);
	ARENA_ADD(reply->arena, reply, part);
	return part;
}

void
reply_join(struct reply *reply, const struct reply *other)
{
	for (size_t i = 0; i < other->count; i++) {
		ARENA_ADD(reply->arena, reply, other->items[i]);
	}
}

void
reply_heading(struct reply *reply, int level, const char *words)
{
	struct reply_part *part = add_part(reply);
	part->is = PART_HEADING;
	part->level = level;
	part->apart = level == 3 || reply->count > 1;
	part->words = arena_string(reply->arena, words);
}

static void
add_words(struct reply *reply, const struct reply_part *like, const char *words)
{
	if (words[0] == '\0') {
		return;
	}
	struct reply_part *part = add_part(reply);
	*part = *like;
	part->is = PART_WORDS;
	part->words = arena_string(reply->arena, words);
}

void
reply_words(
    struct reply *reply, enum voice voice, bool apart, size_t rest, const char *words)
{
	add_words(reply,
	    &(struct reply_part){.voice = voice, .apart = apart, .rest = rest}, words);
}

void
reply_say(struct reply *reply, bool apart, struct text *words)
{
	reply_words(reply, VOICE_PLAIN, apart, 2, text_string(words));
	text_reset(words);
}

void
reply_remark(struct reply *reply, enum voice voice, size_t depth, const char *words)
{
	add_words(reply,
	    &(struct reply_part){.voice = voice, .first = depth, .rest = depth + 2},
	    words);
}

void
reply_block(struct reply *reply, size_t depth, const char *words)
{
	add_words(reply,
	    &(struct reply_part){.voice = VOICE_PLAIN, .first = depth, .rest = depth},
	    words);
}

void
reply_caution(struct reply *reply)
{
	reply_words(reply, VOICE_CAUTION, true, 0, REPORT_CAUTION);
}

struct reply_table *
reply_table(
    struct reply *reply, const struct reply_column *columns, size_t count, unsigned look)
{
	struct reply_part *part = add_part(reply);
	part->is = PART_TABLE;
	part->table = (struct reply_table){.arena = reply->arena,
	    .columns = columns,
	    .column_count = count,
	    .look = look};
	return &part->table;
}

static const char *
kept(struct arena *arena, const char *words)
{
	return words[0] == '\0' ? "" : arena_string(arena, words);
}

struct reply_cell *
reply_cell_at(const struct reply_table *table, size_t index)
{
	return &table->items[index / CELLS_IN_BLOCK][index % CELLS_IN_BLOCK];
}

static void
add_cell(struct reply_table *table, enum hue hue, const char *words, const char *extra,
    const char *code)
{
	const char *own = kept(table->arena, words);
	if (table->cell_count % CELLS_IN_BLOCK == 0) {
		ARENA_ADD(table->arena, table,
		    arena_alloc(
			table->arena, CELLS_IN_BLOCK * sizeof(struct reply_cell)));
	}
	*reply_cell_at(table, table->cell_count++) = (struct reply_cell){hue, own,
	    kept(table->arena, extra), code == words ? own : kept(table->arena, code)};
}

void
reply_cell(struct reply_table *table, enum hue hue, const char *words)
{
	add_cell(table, hue, words, "", words);
}

void
reply_take(struct reply_table *table, enum hue hue, struct text *words)
{
	reply_cell(table, hue, text_string(words));
	text_reset(words);
}

void
reply_coded(struct reply_table *table, enum hue hue, const char *words, const char *code)
{
	add_cell(table, hue, words, "", code);
}

void
reply_extra(struct reply_table *table, enum hue hue, const char *words, const char *extra)
{
	add_cell(table, hue, words, extra, words);
}

/* The type of the column that the next cell stands in. */
static enum cell_type
next_type(const struct reply_table *table)
{
	return table->columns[table->cell_count % table->column_count].type;
}

void
reply_day(struct reply_table *table, enum hue hue, day_t day, const char *otherwise)
{
	char words[DAY_WORDS_SIZE];
	char iso[DAY_ISO_SIZE];
	assert(next_type(table) == CELL_DAY);
	day_glued(day, words);
	add_cell(table, hue, words[0] == '\0' ? otherwise : words, "", day_iso(day, iso));
}

void
reply_number(
    struct reply_table *table, enum hue hue, int64_t number, const char *otherwise)
{
	SCOPED_TEXT words = {0};
	assert(next_type(table) == CELL_NUMBER);
	if (number >= 0) {
		text_add_format(&words, "%lld", (long long)number);
	}
	add_cell(table, hue, number >= 0 ? text_string(&words) : otherwise, "",
	    text_string(&words));
}

void
reply_price(struct reply_table *table, int64_t minor, const char *currency)
{
	SCOPED_TEXT words = {0};
	assert(next_type(table) == CELL_PRICE);
	money_add(minor, currency, &words);
	reply_cell(table, HUE_NONE, text_string(&words));
}

void
reply_row_end(struct reply_table *table)
{
	while (table->cell_count % table->column_count != 0) {
		reply_cell(table, HUE_NONE, "");
	}
}

void
reply_drawing(struct reply *reply, reply_draw *draw, const void *of)
{
	struct reply_part *part = add_part(reply);
	part->is = PART_DRAWING;
	part->draw = draw;
	part->of = of;
}

static bool
is_figure(enum cell_type type)
{
	return type == CELL_NUMBER || type == CELL_PRICE;
}

/* ---- text ---- */

/* The columns that people are shown, as a table of text has them; returns how many. */
static size_t
text_columns(
    const struct reply_table *from, struct table_column columns[TABLE_COLUMNS_MAX])
{
	size_t count = 0;
	for (size_t i = 0; i < from->column_count; i++) {
		const struct reply_column *column = &from->columns[i];
		if (column->heading == NULL) {
			continue;
		}
		assert(count < TABLE_COLUMNS_MAX);
		columns[count++] = (struct table_column){
		    .heading = (from->look & LOOK_BARE) != 0 ? "" : column->heading,
		    .most = column->most,
		    .align = is_figure(column->type) ? ALIGN_RIGHT : ALIGN_LEFT,
		    .flexible = column->flexible};
	}
	return count;
}

/* Adds the cells that people are shown. */
static void
fill_table(const struct reply_table *from, struct table *table)
{
	assert(from->cell_count % from->column_count == 0);
	for (size_t i = 0; i < from->cell_count; i++) {
		const struct reply_cell *cell = reply_cell_at(from, i);
		if (from->columns[i % from->column_count].heading != NULL) {
			table_add(table, cell->hue, cell->words, cell->extra);
		}
	}
}

/* So many blanks stand before each line. */
static size_t
indent_of(const struct reply_table *table)
{
	return (table->look & LOOK_FLUSH) != 0 ? 0 : TABLE_INDENT;
}

static void
text_table(const struct reply_table *from, bool colour, struct text *out)
{
	struct table_column columns[TABLE_COLUMNS_MAX];
	SCOPED_TABLE table = {0};
	size_t count = text_columns(from, columns);
	if (count == 0) {
		return;
	}
	table_init(&table, columns, count, indent_of(from), colour);
	fill_table(from, &table);
	bool apart = (from->look & LOOK_APART) != 0 && from->cell_count > 0;
	text_add(out, apart ? "\n" : "");
	table_write(&table, out);
}

void
reply_rows_keep(struct kept_rows *rows, const struct reply_table *from,
    const struct run_piece *places)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT packed = {0};
	size_t count = text_columns(from, rows->columns);
	if (rows->count == 0) {
		table_init(&rows->table, rows->columns, count, indent_of(from), false);
	}
	table_init(&table, rows->columns, count, 0, false);
	fill_table(from, &table);
	table_widen(&rows->table, &table.widths);
	for (size_t r = 0; r < table_rows(&table); r++) {
		struct run_piece piece =
		    places == NULL ? (struct run_piece){0} : places[r];
		text_reset(&packed);
		table_pack(&table, r, &packed);
		piece.bytes = text_string(&packed);
		piece.length = packed.length;
		runs_add(&rows->packed, &piece);
	}
	runs_end(&rows->packed);
	rows->count += table_rows(&table);
}

/* Rows being written. */
struct rows_writing {
	struct table *table;
	size_t widths[TABLE_COLUMNS_MAX];
	struct text *out;
};

static void
write_kept(const struct run_piece *piece, void *of)
{
	const struct rows_writing *writing = of;
	table_unpack(writing->table, piece->bytes);
	table_write_rows(writing->table, writing->widths, writing->out);
	text_hand_on(writing->out);
}

bool
reply_rows_text(
    struct kept_rows *rows, bool colour, struct text *out, struct fault *fault)
{
	struct rows_writing writing = {.table = &rows->table, .out = out};
	if (rows->count == 0) {
		return true;
	}
	rows->table.colour = colour;
	table_write_head(&rows->table, writing.widths, out);
	return runs_merge(&rows->packed, write_kept, &writing, fault);
}

static void
text_heading(const struct reply_part *part, struct text *out)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s%s", part->words, part->level == 2 ? "." : "");
	text_add(out, part->apart ? "\n" : "");
	paragraph(text_string(&words), 0, 2, out);
}

static void
text_part(const struct reply_part *part, bool colour, struct text *out)
{
	switch (part->is) {
	case PART_HEADING:
		text_heading(part, out);
		break;
	case PART_WORDS:
		text_add(out, part->apart ? "\n" : "");
		paragraph(part->words, part->first, part->rest, out);
		break;
	case PART_TABLE:
		text_table(&part->table, colour, out);
		break;
	case PART_DRAWING:
		break;
	}
}

void
reply_text(const struct reply *reply, bool colour, struct text *out)
{
	for (size_t i = 0; i < reply->count; i++) {
		text_part(reply->items[i], colour, out);
	}
}

/* ---- a page ---- */

/* The class of a column's cells, and of its heading; NULL for none. */
static const char *
cell_class(enum cell_type type)
{
	switch (type) {
	case CELL_WORDS:
		return NULL;
	case CELL_TAG:
	case CELL_DAY:
	case CELL_STATE:
		return "word";
	case CELL_NUMBER:
	case CELL_PRICE:
		return "number word";
	}
	return NULL;
}

static void
page_cell(const struct reply_column *column, const struct reply_cell *cell,
    struct markup *markup)
{
	SCOPED_TEXT words = {0};
	if (column->heading != NULL) {
		text_add_format(&words, "%s%s", cell->words, cell->extra);
		markup_element(
		    markup, "td", cell_class(column->type), text_string(&words));
	}
}

static void
page_table(const struct reply_table *table, struct markup *markup)
{
	assert(table->cell_count % table->column_count == 0);
	markup_begin(markup, "table");
	markup_begin(markup, "thead");
	markup_begin(markup, "tr");
	for (size_t i = 0; i < table->column_count; i++) {
		if (table->columns[i].heading != NULL) {
			markup_element(markup, "th", cell_class(table->columns[i].type),
			    table->columns[i].heading);
		}
	}
	markup_ends(markup, 2);
	for (size_t i = 0; i < table->cell_count; i++) {
		size_t column = i % table->column_count;
		if (column == 0) {
			markup_begin(markup, "tr");
		}
		page_cell(&table->columns[column], reply_cell_at(table, i), markup);
		if (column + 1 == table->column_count) {
			markup_end(markup);
		}
	}
	markup_end(markup);
}

static void
page_part(const struct reply_part *part, struct markup *markup)
{
	static const char *const CLASSES[] = {[VOICE_PLAIN] = NULL,
	    [VOICE_CARE] = "care",
	    [VOICE_QUIET] = "quiet",
	    [VOICE_CAUTION] = "caution"};
	static const char *const HEADINGS[] = {"", "h1", "h2", "h3"};
	switch (part->is) {
	case PART_HEADING:
		markup_element(markup, HEADINGS[part->level], NULL, part->words);
		break;
	case PART_WORDS:
		markup_element(markup, "p", CLASSES[part->voice], part->words);
		break;
	case PART_TABLE:
		page_table(&part->table, markup);
		break;
	case PART_DRAWING:
		part->draw(part->of, markup);
		break;
	}
}

void
reply_page(const struct reply *reply, struct markup *markup)
{
	for (size_t i = 0; i < reply->count; i++) {
		page_part(reply->items[i], markup);
	}
}
