#include "exchange/returns_csv.h"

#include "exchange/csv_names.h"
#include "exchange/list_scan.h"
#include "gear/money.h"

#include <ctype.h>
#include <stdlib.h>
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
	const struct homecoming *common;
	enum date_order order;
	const struct inventory *inventory;
	struct complaints complaints;
	struct csv_notes notes;
	bool has_header;
	bool usable;           /* nothing is wrong with the header; else no row is read */
	const size_t *columns; /* of each cell, enum return_column, in the arena */
	size_t column_count;
	struct homecoming_row *items; /* owned */
	size_t count;
	size_t capacity;
};

/* A copy without blanks around it. */
static char *
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
	char *copy = arena_alloc(arena, length + 1);
	if (copy != NULL) {
		memcpy(copy, text, length);
	}
	return copy;
}

static void
read_header(struct returns_reader *reader, const struct csv_cells *cells)
{
	static const struct csv_names NAMES = {COLUMN_NAMES, RETURN_COLUMNS, 1};
	reader->has_header = true;
	reader->columns = csv_names_read(cells, &NAMES, &reader->complaints);
	reader->column_count = cells->count;
	reader->usable = reader->complaints.count == 0;
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
		const char *piece = trimmed(reader->complaints.arena, words, length);
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
	struct arena *arena = reader->complaints.arena;
	struct renewed_part *parts =
	    arena_alloc(arena, (home->renewed_count + 1) * sizeof *parts);
	if (home->renewed_count > 0) {
		memcpy(parts, home->renewed, home->renewed_count * sizeof *parts);
	}
	if (!renewed_parse(
		arena, piece, reader->order, &parts[home->renewed_count], fault)) {
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
	const char **kept =
	    arena_alloc(reader->complaints.arena, (home->kept_count + 1) * sizeof *kept);
	if (home->kept_count > 0) {
		memcpy(kept, home->kept, home->kept_count * sizeof *kept);
	}
	kept[home->kept_count++] = piece;
	home->kept = kept;
	return true;
}

static bool
read_done(const struct returns_reader *reader, const char *word, day_t *out,
    struct fault *fault)
{
	struct stamp stamp = {0};
	if (!stamp_parse(word, reader->order, &stamp, fault)) {
		return false;
	}
	if (stamp.precision != STAMP_DAY || stamp.wording != WORDING_PLAIN) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no day; expected one as 2026-12-09", word);
	}
	*out = stamp_first(stamp);
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
		return read_done(reader, word, &home->done, fault);
	case RETURN_NEXT:
		return homecoming_next_parse(word, reader->order, home, fault);
	case RETURN_BY:
		home->by = word;
		return true;
	case RETURN_CERTIFICATE:
		home->certificate = word;
		return true;
	case RETURN_PRICE:
		return money_parse(
		    word, reader->inventory->currency, &home->price_minor, fault);
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
	SCOPED_TEXT words = {0};
	text_add_format(&words, "column %s", COLUMN_NAMES[column]);
	return arena_string(arena, text_string(&words));
}

static void
take_cell(struct returns_reader *reader, const struct csv_cells *cells, size_t index,
    struct homecoming *home)
{
	struct arena *arena = reader->complaints.arena;
	enum return_column column = (enum return_column)reader->columns[index];
	const struct csv_cell *cell = &cells->items[index];
	struct fault wrong = {0};
	const char *bad = bad_bytes(cell);
	const char *word = trimmed(arena, cell->text, strlen(cell->text));
	if (bad != NULL) {
		(void)fault_set(&wrong, FAULT_INPUT, "%s", bad);
	} else if (*word == '\0' || read_cell(reader, column, word, home, &wrong)) {
		return;
	}
	complain(&reader->complaints, cells->line, cell_words(arena, column), "%s",
	    wrong.text);
}

/* Holds a row that could be read against the book and the rows before it. */
static void
check_row(struct returns_reader *reader, const struct homecoming *home, size_t line)
{
	struct fault wrong = {0};
	size_t item = ITEM_NO_PARENT;
	if (home->tag == NULL) {
		complain(&reader->complaints, line, "column tag", "it is blank");
		return;
	}
	for (size_t i = 0; i < reader->count; i++) {
		if (reader->items[i].home.tag != NULL &&
		    strcmp(reader->items[i].home.tag, home->tag) == 0) {
			complain(&reader->complaints, line, "column tag",
			    "%.60s came back in line %zu already", home->tag,
			    reader->items[i].line);
			return;
		}
	}
	item = homecoming_find(reader->inventory, home->tag);
	if (item == ITEM_NO_PARENT) {
		complain(&reader->complaints, line, "column tag",
		    "there is no item with the tag \"%.60s\"", home->tag);
	} else if (!homecoming_check(reader->inventory, item, home, &wrong)) {
		complain(&reader->complaints, line, "", "%s", wrong.text);
	}
}

static bool
take_row(const struct csv_cells *cells, void *context, struct fault *fault)
{
	(void)fault;
	struct returns_reader *reader = context;
	if (!reader->has_header) {
		read_header(reader, cells);
		return true;
	}
	if (!reader->usable) {
		return true;
	}
	if (cells->count > reader->column_count ||
	    (cells->count < reader->column_count && !cells->open_ended)) {
		complain(&reader->complaints, cells->line, "",
		    "it has %zu cell%s, and the header has %zu", cells->count,
		    cells->count == 1 ? "" : "s", reader->column_count);
		return true;
	}
	struct homecoming home = *reader->common;
	home.tag = NULL;
	size_t before = reader->complaints.count;
	for (size_t i = 0; i < cells->count; i++) {
		take_cell(reader, cells, i, &home);
	}
	if (reader->complaints.count == before) {
		check_row(reader, &home, cells->line);
	}
	ARRAY_ROOM(reader);
	reader->items[reader->count++] = (struct homecoming_row){home, cells->line};
	return true;
}

static bool
read_all(struct returns_reader *reader, const struct csv_source *source,
    const struct list_how *how, struct fault *fault)
{
	struct complaints *complaints = &reader->complaints;
	struct csv_stop stop = {0};
	struct csv_taker taker = {take_row, reader};
	if (!list_scan(
		source, how, complaints->arena, taker, &reader->notes, &stop, fault)) {
		return false;
	}
	if (stop.why != NULL) {
		complain(complaints, stop.line, "", "%s; nothing after it could be read",
		    stop.why);
	} else if (reader->count == 0 && complaints->count == 0) {
		complain(complaints, 1, "",
		    "nothing came back in it; expected a row of column names, and a row "
		    "an item");
	}
	return complaints_none(complaints, source->name, fault);
}

/* Hands the rows over without what only the reading needed. */
static void
hand_over(const struct returns_reader *reader, struct homecoming **out, size_t *count_out)
{
	struct homecoming *homes =
	    arena_alloc(reader->complaints.arena, (reader->count + 1) * sizeof *homes);
	for (size_t i = 0; i < reader->count; i++) {
		homes[i] = reader->items[i].home;
	}
	*out = homes;
	*count_out = reader->count;
}

bool
csv_read_returns(const struct csv_source *source, const struct list_how *how,
    const struct homecoming *common, enum date_order order,
    const struct inventory *inventory, struct arena *arena, struct homecoming **out,
    size_t *count_out, struct text *notes, struct fault *fault)
{
	struct returns_reader reader = {.common = common,
	    .order = order,
	    .inventory = inventory,
	    .complaints = {.arena = arena},
	    .notes = {.arena = arena}};
	bool done = read_all(&reader, source, how, fault);
	if (done) {
		hand_over(&reader, out, count_out);
	}
	text_add(notes, text_string(&reader.notes.text));
	csv_notes_clear(&reader.notes);
	complaints_clear(&reader.complaints);
	free(reader.items);
	return done;
}
