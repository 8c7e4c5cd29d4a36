#include "report/reply.h"

#include <assert.h>

enum { TABLE_INDENT = 2 };

static struct reply_part *
add_part(struct reply *reply)
{
	ARENA_ROOM(reply->arena, reply);
	struct reply_part *part = arena_alloc(reply->arena, sizeof *part);
	reply->items[reply->count++] = part;
	return part;
}

void
reply_heading(struct reply *reply, int level, const char *words)
{
	struct reply_part *part = add_part(reply);
	part->is = PART_HEADING;
	part->level = level;
	part->words = arena_string(reply->arena, words);
}

void
reply_words(
    struct reply *reply, enum voice voice, bool apart, size_t rest, const char *words)
{
	if (words[0] == '\0') {
		return;
	}
	struct reply_part *part = add_part(reply);
	part->is = PART_WORDS;
	part->voice = voice;
	part->apart = apart;
	part->rest = rest;
	part->words = arena_string(reply->arena, words);
}

struct reply_table *
reply_table(
    struct reply *reply, const struct reply_column *columns, size_t count, bool bare)
{
	struct reply_part *part = add_part(reply);
	part->is = PART_TABLE;
	part->table = (struct reply_table){.arena = reply->arena,
	    .columns = columns,
	    .column_count = count,
	    .bare = bare};
	return &part->table;
}

void
reply_cell(struct reply_table *table, enum hue hue, const char *words)
{
	ARENA_ROOM(table->arena, table);
	table->items[table->count++] =
	    (struct reply_cell){hue, arena_string(table->arena, words)};
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

static void
text_table(const struct reply_table *from, bool colour, struct text *out)
{
	struct table_column columns[TABLE_COLUMNS_MAX];
	SCOPED_TABLE table = {0};
	assert(from->column_count <= TABLE_COLUMNS_MAX);
	assert(from->count % from->column_count == 0);
	for (size_t i = 0; i < from->column_count; i++) {
		const struct reply_column *column = &from->columns[i];
		columns[i] =
		    (struct table_column){.heading = from->bare ? "" : column->heading,
			.most = column->most,
			.align = is_figure(column->type) ? ALIGN_RIGHT : ALIGN_LEFT,
			.flexible = column->flexible};
	}
	table_init(&table, columns, from->column_count, TABLE_INDENT, colour);
	for (size_t i = 0; i < from->count; i++) {
		table_add(&table, from->items[i].hue, from->items[i].words);
	}
	table_write(&table, out);
}

static void
text_part(const struct reply_part *part, bool colour, struct text *out)
{
	switch (part->is) {
	case PART_HEADING:
		if (part->level == 2) {
			SCOPED_TEXT sentence = {0};
			text_add_format(&sentence, "%s.", part->words);
			paragraph(text_string(&sentence), 0, 2, out);
		} else {
			text_add_format(out, "\n%s\n", part->words);
		}
		break;
	case PART_WORDS:
		text_add(out, part->apart ? "\n" : "");
		paragraph(part->words, 0, part->rest, out);
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
		bool next = reply->items[i]->is == PART_HEADING &&
			    reply->items[i]->level == 2 && i > 0;
		text_add(out, next ? "\n" : "");
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
page_table(const struct reply_table *table, struct markup *markup)
{
	assert(table->count % table->column_count == 0);
	markup_begin(markup, "table");
	markup_begin(markup, "thead");
	markup_begin(markup, "tr");
	for (size_t i = 0; i < table->column_count; i++) {
		markup_element(markup, "th", cell_class(table->columns[i].type),
		    table->columns[i].heading);
	}
	markup_end(markup);
	markup_end(markup);
	for (size_t i = 0; i < table->count; i++) {
		size_t column = i % table->column_count;
		if (column == 0) {
			markup_begin(markup, "tr");
		}
		markup_element(markup, "td", cell_class(table->columns[column].type),
		    table->items[i].words);
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
	switch (part->is) {
	case PART_HEADING:
		markup_element(markup, part->level == 2 ? "h2" : "h3", NULL, part->words);
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
