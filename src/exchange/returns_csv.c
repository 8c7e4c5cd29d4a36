#include "exchange/returns_csv.h"

#include "exchange/list_inside.h"
#include "gear/money.h"

#include <ctype.h>
#include <string.h>

enum return_column {
	RETURN_TAG,
	RETURN_RESULT,
	RETURN_TASK,
	RETURN_DONE,
	RETURN_NEXT,
	RETURN_BY,
	RETURN_CERTIFICATE,
	RETURN_PRICE,
	RETURN_RENEWED,
	RETURN_KEEP,
	RETURN_NOTE,
};

enum { RETURN_COLUMNS = RETURN_NOTE + 1 };

static const char *const COLUMN_NAMES[] = {
    [RETURN_TAG] = "tag",
    [RETURN_RESULT] = "result",
    [RETURN_TASK] = "task",
    [RETURN_DONE] = "done",
    [RETURN_NEXT] = "next",
    [RETURN_BY] = "by",
    [RETURN_CERTIFICATE] = "certificate",
    [RETURN_PRICE] = "price",
    [RETURN_RENEWED] = "renewed",
    [RETURN_KEEP] = "keep",
    [RETURN_NOTE] = "note",
};

/* One row, with where it stands. */
struct homecoming_row {
	struct homecoming home;
	size_t line;
};

struct returns_reader {
	struct named_list list;
	const struct homecoming *common;
	struct homecoming_row *items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* A copy without blanks around it. */
static const char *
trimmed(struct arena *arena, const char *text, size_t length)
{
	static const char BLANKS[] = " \t\r\n";
	while (length > 0 && strchr(BLANKS, text[length - 1]) != NULL) {
		length--;
	}
	while (length > 0 && strchr(BLANKS, *text) != NULL) {
		text++;
		length--;
	}
	return arena_bytes(arena, text, length);
}

/* Takes the pieces of a cell that semicolons part. */
typedef bool take_piece(const struct returns_reader *reader, const char *piece,
    struct homecoming *home, struct fault *fault);

static bool
each_piece(const struct returns_reader *reader, const char *words, take_piece *take,
    struct homecoming *home, struct fault *fault)
{
	while (*words != '\0') {
		size_t length = strcspn(words, ";");
		const char *piece = trimmed(reader->list.complaints.arena, words, length);
		if (*piece != '\0' && !take(reader, piece, home, fault)) {
			return false;
		}
		words += length + (words[length] == ';' ? 1 : 0);
	}
	return true;
}

static bool
take_task(const struct returns_reader *reader, const char *piece, struct homecoming *home,
    struct fault *fault)
{
	enum task task = TASK_SERVICE;
	(void)reader;
	if (strcmp(piece, "as-asked") == 0) {
		home->as_asked = true;
		return true;
	}
	if (!task_parse(piece, &task, fault)) {
		return false;
	}
	home->tasks |= 1U << task;
	return true;
}

static bool
take_renewed(const struct returns_reader *reader, const char *piece,
    struct homecoming *home, struct fault *fault)
{
	struct arena *arena = reader->list.complaints.arena;
	struct renewed_part *parts =
	    arena_alloc(arena, (home->renewed_count + 1) * sizeof *parts);
	if (home->renewed_count > 0) {
		memcpy(parts, home->renewed, home->renewed_count * sizeof *parts);
	}
	if (!renewed_parse(arena, piece, reader->list.source->order,
		&parts[home->renewed_count], fault)) {
		return false;
	}
	home->renewed = parts;
	home->renewed_count++;
	return true;
}

static bool
take_kept(const struct returns_reader *reader, const char *piece, struct homecoming *home,
    struct fault *fault)
{
	(void)fault;
	const char **kept = arena_alloc(
	    reader->list.complaints.arena, (home->kept_count + 1) * sizeof *kept);
	if (home->kept_count > 0) {
		memcpy(kept, home->kept, home->kept_count * sizeof *kept);
	}
	kept[home->kept_count++] = piece;
	home->kept = kept;
	return true;
}

/* Reads a cell that is not blank. */
static bool
read_cell(const struct returns_reader *reader, enum return_column column,
    const char *word, struct homecoming *home, struct fault *fault)
{
	switch (column) {
	case RETURN_TAG:
		home->tag = word;
		return true;
	case RETURN_RESULT:
		return result_parse(word, &home->result, fault);
	case RETURN_TASK:
		home->as_asked = false; /* the row says it itself */
		return each_piece(reader, word, take_task, home, fault);
	case RETURN_DONE:
		return named_list_day(&reader->list, word, &home->done, fault);
	case RETURN_NEXT:
		return homecoming_next_parse(
		    word, reader->list.source->order, home, fault);
	case RETURN_BY:
		home->by = word;
		return true;
	case RETURN_CERTIFICATE:
		home->certificate = word;
		return true;
	case RETURN_PRICE:
		return money_parse(word, reader->list.source->inventory->currency,
		    &home->price_minor, fault);
	case RETURN_RENEWED:
		return each_piece(reader, word, take_renewed, home, fault);
	case RETURN_KEEP:
		return each_piece(reader, word, take_kept, home, fault);
	case RETURN_NOTE:
		home->note = word;
		return true;
	}
	return false;
}

/* What is wrong with the bytes of a cell; NULL when nothing is. */
static const char *
bad_bytes(const struct csv_cell *cell)
{
	if (strlen(cell->text) != cell->length) {
		return "there is a zero byte in it";
	}
	for (size_t i = 0; i < cell->length; i++) {
		if (iscntrl((unsigned char)cell->text[i]) && cell->text[i] != '\t') {
			return "there is a line break or a control character in it";
		}
	}
	return NULL;
}

/* The words for a cell in a complaint: "column done". */
static const char *
cell_words(struct arena *arena, enum return_column column)
{
	return arena_format(arena, "column %s", COLUMN_NAMES[column]);
}

static void
take_cell(struct returns_reader *reader, const struct csv_cells *cells, size_t index,
    struct homecoming *home)
{
	struct arena *arena = reader->list.complaints.arena;
	enum return_column column = (enum return_column)reader->list.columns[index];
	const struct csv_cell *cell = &cells->items[index];
	struct fault wrong = {0};
	const char *bad = bad_bytes(cell);
	const char *word = trimmed(arena, cell->text, strlen(cell->text));
	if (bad != NULL) {
		(void)fault_set(&wrong, FAULT_INPUT, "%s", bad);
	} else if (*word == '\0' || read_cell(reader, column, word, home, &wrong)) {
		return;
	}
	complain(&reader->list.complaints, cells->line, cell_words(arena, column), "%s",
	    wrong.text);
}

/* Checks a row that could be read against the book and the rows before it. */
static void
check_row(struct returns_reader *reader, const struct homecoming *home, size_t line)
{
	struct fault wrong = {0};
	size_t item = ITEM_NO_PARENT;
	if (home->tag == NULL) {
		complain(&reader->list.complaints, line, "column tag", "it is blank");
		return;
	}
	for (size_t i = 0; i < reader->count; i++) {
		if (reader->items[i].home.tag != NULL &&
		    strcmp(reader->items[i].home.tag, home->tag) == 0) {
			complain(&reader->list.complaints, line, "column tag",
			    "%.60s came back in line %zu already", home->tag,
			    reader->items[i].line);
			return;
		}
	}
	item = inventory_tagged(reader->list.source->inventory, home->tag);
	if (item == ITEM_NO_PARENT) {
		complain(&reader->list.complaints, line, "column tag",
		    "there is no item with the tag \"%.60s\"", home->tag);
	} else if (!homecoming_check(
		       reader->list.source->inventory, item, home, &wrong)) {
		complain(&reader->list.complaints, line, "", "%s", wrong.text);
	}
}

static void
take_row(void *context, const struct csv_cells *cells)
{
	struct returns_reader *reader = context;
	struct complaints *complaints = &reader->list.complaints;
	struct homecoming home = *reader->common;
	home.tag = NULL;
	size_t before = complaints->count;
	for (size_t i = 0; i < cells->count; i++) {
		take_cell(reader, cells, i, &home);
	}
	if (complaints->count == before) {
		check_row(reader, &home, cells->line);
	}
	ARENA_ADD(complaints->arena, reader, (struct homecoming_row){home, cells->line});
}

bool
csv_read_returns(const struct list_source *source, const struct homecoming *common,
    struct homecoming **out, size_t *count_out, struct fault *fault)
{
	struct returns_reader reader = {.common = common,
	    .list = {.source = source,
		.names = {COLUMN_NAMES, RETURN_COLUMNS, 1, NULL},
		.nothing = "nothing came back in it; expected a row of column names, and "
			   "a row an item",
		.take = take_row}};
	reader.list.reader = &reader;
	if (!named_list_read(&reader.list, fault)) {
		return false;
	}
	struct homecoming *homes =
	    arena_alloc(source->arena, (reader.count + 1) * sizeof *homes);
	for (size_t i = 0; i < reader.count; i++) {
		homes[i] = reader.items[i].home;
	}
	*out = homes;
	*count_out = reader.count;
	return true;
}
