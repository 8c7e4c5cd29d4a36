#include "base/memory.h"
#include "base/numbers.h"
#include "exchange/csv_inside.h"

#include <csv.h>
#include <stdlib.h>
#include <string.h>

/* So much text of rows that were taken is kept, for the next ones may have the same. */
enum { PASSING = 16 * 1024 };

struct scan {
	struct csv_cells row; /* the row being gathered */
	size_t widest;        /* how many of its cells there were in some row before */
	size_t line;          /* the line being parsed */
	size_t cell_line;     /* where the cell being parsed starts */
	struct arena *arena;
	struct arena passing; /* the arena, where the rows' text does not last */
	size_t passed;        /* bytes of text in it */
	struct csv_taker taker;
	struct fault *fault;
	bool failed;
	bool open; /* the row goes on: a line ended in quotes */
	unsigned char separator;
};

static void
take_cell(struct scan *scan, const char *bytes, size_t length)
{
	if (scan->failed) {
		return;
	}
	ARRAY_ROOM(&scan->row);
	struct csv_cell *cell = &scan->row.items[scan->row.count++];
	if (scan->row.count > scan->widest) {
		*cell = (struct csv_cell){"", 0};
		scan->widest = scan->row.count;
	}
	/* the text of the row before is still there, and a list repeats a boat's name row
	 * by row */
	if (cell->length != length ||
	    (length > 0 && memcmp(cell->text, bytes, length) != 0)) {
		char *copy = arena_alloc(scan->arena, length + 1);
		scan->passed += length;
		*cell = (struct csv_cell){
		    length > 0 ? memcpy(copy, bytes, length) : "", length};
	}
	scan->cell_line = scan->line;
}

static void
on_cell(void *bytes, size_t length, void *context)
{
	take_cell(context, bytes, length);
}

static void
on_row_end(int terminator, void *context)
{
	(void)terminator;
	struct scan *scan = context;
	if (!scan->failed && scan->row.count > 0) {
		scan->failed =
		    !scan->taker.row(&scan->row, scan->taker.context, scan->fault);
	}
	scan->row.count = 0;
	scan->open = false;
	if (scan->arena == &scan->passing && scan->passed > PASSING) {
		arena_reset(&scan->passing);
		scan->passed = 0;
		scan->widest = 0;
	}
	scan->row.line = scan->line + 1;
	scan->cell_line = scan->line + 1;
}

/* Blanks belong to the cell (RFC 4180, section 2.4); libcsv would drop them. */
static int
no_space(unsigned char byte)
{
	(void)byte;
	return 0;
}

/* How many bytes the next line has, its end included: LF, CR LF or CR. */
static size_t
line_length(const char *bytes, size_t length)
{
	enum { SEEN_AT_ONCE = 256 };

	for (size_t at = 0; at < length; at += SEEN_AT_ONCE) {
		size_t seen = LESSER(length - at, (size_t)SEEN_AT_ONCE);
		const char *feed = memchr(bytes + at, '\n', seen);
		const char *back = memchr(bytes + at, '\r',
		    feed == NULL ? seen : (size_t)(feed - (bytes + at)));
		if (back != NULL) {
			size_t size = (size_t)(back + 1 - bytes);
			return size < length && bytes[size] == '\n' ? size + 1 : size;
		}
		if (feed != NULL) {
			return (size_t)(feed + 1 - bytes);
		}
	}
	return length;
}

/* How often each candidate stands in the lines at the head of a file, outside quotes. */
struct separators {
	size_t lines[4]; /* lines that have it */
	size_t total[4];
};

static const char SEPARATORS[4] = {',', ';', '\t', '|'};

/* The separator is what most of the first lines have, and of two such what they have more of;
 * the comma wins a tie. The first line alone would not do: it may be a title. */
static unsigned char
find_separator(const char *bytes, size_t length)
{
	enum { LINES_SEEN = 20 };
	struct separators seen = {{0}, {0}};
	size_t in_line[4] = {0};
	size_t lines = 0;
	bool quoted = false;
	for (size_t i = 0; i < length && lines < LINES_SEEN; i++) {
		bool last = i + 1 == length;
		quoted = quoted != (bytes[i] == '"');
		for (size_t c = 0; c < 4; c++) {
			in_line[c] += !quoted && bytes[i] == SEPARATORS[c];
		}
		if (!last && (quoted || (bytes[i] != '\n' && bytes[i] != '\r'))) {
			continue;
		}
		for (size_t c = 0; c < 4; c++) {
			seen.lines[c] += in_line[c] > 0;
			seen.total[c] += in_line[c];
			in_line[c] = 0;
		}
		lines++;
	}
	size_t best = 0;
	for (size_t c = 1; c < 4; c++) {
		bool more = seen.lines[c] > seen.lines[best] ||
			    (seen.lines[c] == seen.lines[best] &&
				seen.total[c] > seen.total[best]);
		best = more ? c : best;
	}
	return (unsigned char)SEPARATORS[best];
}

/* How long the first line is where it does no more than name the separator, else 0. */
static size_t
separator_line(const char *bytes, size_t length)
{
	size_t size = line_length(bytes, length);
	bool named = size > 5 && memcmp(bytes, "sep=", 4) == 0 &&
		     strchr(",;|\t", bytes[4]) != NULL &&
		     (bytes[5] == '\n' || bytes[5] == '\r');
	return named ? size : 0;
}

static bool
stopped(const struct scan *scan, size_t line, const char *why, struct csv_stop *stop)
{
	*stop = (struct csv_stop){.why = why, .line = line, .cell = scan->row.count};
	return true;
}

/* Takes a line that is a row without a quotation mark, of which libcsv would look at each
 * byte: its cells are what stands between the separators (RFC 4180, section 2). */
static void
take_plain(struct scan *scan, const char *line, size_t size)
{
	const char *end = line + size;
	while (end > line && (end[-1] == '\n' || end[-1] == '\r')) {
		end--;
	}
	for (const char *at = line; end > line && at <= end;) {
		const char *stop = memchr(at, scan->separator, (size_t)(end - at));
		stop = stop == NULL ? end : stop;
		take_cell(scan, at, (size_t)(stop - at));
		at = stop + 1;
	}
	on_row_end(0, scan);
}

/* Takes the next line; false where it can't be. */
static bool
take_line(struct scan *scan, struct csv_parser *parser, const char *line, size_t size)
{
	if (!scan->open && memchr(line, '"', size) == NULL) {
		take_plain(scan, line, size);
		return true;
	}
	scan->open = true;
	return csv_parse(parser, line, size, on_cell, on_row_end, scan) == size;
}

/* Goes line by line, so that the callbacks know which line they are called for. */
static bool
scan_lines(struct scan *scan, struct csv_parser *parser, const char *bytes, size_t length,
    struct csv_stop *stop)
{
	size_t at = 0;
	while (at < length) {
		size_t size = line_length(bytes + at, length - at);
		bool taken = take_line(scan, parser, bytes + at, size);
		if (scan->failed) {
			return false;
		}
		if (!taken && csv_error(parser) == CSV_EPARSE) {
			return stopped(scan, scan->line,
			    "a quotation mark where none may be; a cell with one in it "
			    "is quoted, without blanks outside the quotes, and the mark "
			    "doubled",
			    stop);
		}
		if (!taken) {
			memory_ended();
		}
		at += size;
		scan->line++;
	}
	size_t started = scan->cell_line;
	if (csv_fini(parser, on_cell, on_row_end, scan) != 0) {
		if (csv_error(parser) == CSV_EPARSE) {
			return stopped(scan, started,
			    "the quotation mark that opens this cell is never closed",
			    stop);
		}
		memory_ended();
	}
	return !scan->failed;
}

bool
csv_scan(const char *bytes, size_t length, struct arena *arena, struct csv_taker taker,
    struct csv_stop *stop_out, struct fault *fault)
{
	struct csv_parser parser;
	size_t told = separator_line(bytes, length);
	unsigned char separator =
	    told > 0 ? (unsigned char)bytes[4] : find_separator(bytes, length);
	if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_REPALL_NL) != 0) {
		memory_ended();
	}
	csv_set_space_func(&parser, no_space);
	csv_set_delim(&parser, separator);
	size_t first = told > 0 ? 2 : 1;
	struct scan scan = {
	    .row = {.line = first},
	    .line = first,
	    .cell_line = first,
	    .arena = arena == NULL ? &scan.passing : arena,
	    .taker = taker,
	    .fault = fault,
	    .separator = separator,
	};
	struct csv_stop stop = {0};
	bool done = scan_lines(&scan, &parser, bytes + told, length - told, &stop);
	csv_free(&parser);
	free(scan.row.items);
	arena_clear(&scan.passing);
	if (done) {
		*stop_out = stop;
	}
	return done;
}
