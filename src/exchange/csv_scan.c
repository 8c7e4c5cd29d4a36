#include "base/memory.h"
#include "exchange/csv_inside.h"
#include "exchange/list_inside.h"

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

/* How often each candidate stands in the lines at the head of a file, outside quotes. */
struct separators {
	size_t lines[4]; /* lines that have it */
	size_t total[4];
	size_t in_line[4]; /* of the line at hand */
	size_t seen;
	bool quoted;
};

enum { LINES_SEEN = 20 };

static const char SEPARATORS[4] = {',', ';', '\t', '|'};

static void
end_line(struct separators *separators)
{
	for (size_t c = 0; c < 4; c++) {
		separators->lines[c] += separators->in_line[c] > 0;
		separators->total[c] += separators->in_line[c];
		separators->in_line[c] = 0;
	}
	separators->seen++;
}

static void
look_at(struct separators *separators, const char *bytes, size_t length)
{
	for (size_t i = 0; i < length && separators->seen < LINES_SEEN; i++) {
		separators->quoted = separators->quoted != (bytes[i] == '"');
		for (size_t c = 0; c < 4; c++) {
			separators->in_line[c] +=
			    !separators->quoted && bytes[i] == SEPARATORS[c];
		}
		if (!separators->quoted && (bytes[i] == '\n' || bytes[i] == '\r')) {
			end_line(separators);
		}
	}
}

/* The separator is what most of the first lines have, and of two such what they have more of;
 * the comma wins a tie. The first line alone would not do: it may be a title. */
static bool
find_separator(const struct csv_source *text, unsigned char *out, struct fault *fault)
{
	SCOPED_FEED feed = {.source = text};
	struct separators separators = {.seen = 0};
	do {
		if (!list_feed_more(&feed, fault)) {
			return false;
		}
		if (feed.left == 0) {
			end_line(&separators);
			break;
		}
		look_at(&separators, feed.at, feed.left);
		list_feed_take(&feed, feed.left);
	} while (separators.seen < LINES_SEEN);
	size_t best = 0;
	for (size_t c = 1; c < 4; c++) {
		bool more = separators.lines[c] > separators.lines[best] ||
			    (separators.lines[c] == separators.lines[best] &&
				separators.total[c] > separators.total[best]);
		best = more ? c : best;
	}
	*out = (unsigned char)SEPARATORS[best];
	return true;
}

/* True for a first line that does no more than name the separator. */
static bool
is_separator_line(const char *line, size_t size)
{
	return size > 5 && memcmp(line, "sep=", 4) == 0 &&
	       strchr(",;|\t", line[4]) != NULL && (line[5] == '\n' || line[5] == '\r');
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
scan_lines(struct scan *scan, struct csv_parser *parser, struct list_feed *feed,
    struct csv_stop *stop)
{
	for (;;) {
		size_t size = 0;
		if (!list_feed_line(feed, &size, scan->fault)) {
			return false;
		}
		if (size == 0) {
			break;
		}
		bool taken = take_line(scan, parser, feed->at, size);
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
		list_feed_take(feed, size);
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

/* Tells the separator, and passes over a first line that names it. */
static bool
tell_separator(struct list_feed *feed, unsigned char *out, size_t *first_line_out,
    struct fault *fault)
{
	size_t size = 0;
	*first_line_out = 1;
	if (!list_feed_line(feed, &size, fault)) {
		return false;
	}
	if (!is_separator_line(feed->at, size)) {
		return find_separator(feed->source, out, fault);
	}
	*out = (unsigned char)feed->at[4];
	*first_line_out = 2;
	list_feed_take(feed, size);
	return true;
}

bool
csv_scan(const struct csv_source *text, struct arena *arena, struct csv_taker taker,
    struct csv_stop *stop_out, struct fault *fault)
{
	SCOPED_FEED feed = {.source = text};
	struct csv_parser parser;
	unsigned char separator = ',';
	size_t first = 1;
	if (!tell_separator(&feed, &separator, &first, fault)) {
		return false;
	}
	if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_REPALL_NL) != 0) {
		memory_ended();
	}
	csv_set_space_func(&parser, no_space);
	csv_set_delim(&parser, separator);
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
	bool done = scan_lines(&scan, &parser, &feed, &stop);
	csv_free(&parser);
	free(scan.row.items);
	arena_clear(&scan.passing);
	if (done) {
		*stop_out = stop;
	}
	return done;
}
