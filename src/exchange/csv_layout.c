/* The header row of a list: which cell of a row is which column. */
#include "base/csv_line.h"
#include "base/text.h"
#include "exchange/csv_read.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

/* A header being turned into a layout. */
struct layout_making {
	const struct csv_options *options;
	struct complaints *complaints;
	struct text *notes;
	size_t line;
	const struct csv_cells *header;
	bool price; /* a header that means the price of a new one is there */
	bool served;
	bool plain_kind; /* a header that can only mean the kind is there */
	bool loose_kind; /* one that may mean it is there */
	bool tag;
	size_t name; /* the first cell that is_name; the count of cells where none is */
	size_t where[COLUMN_COUNT]; /* the cell that is this column, when it is present */
};

static bool
is_folded_as(const char *header, const char *const *words, size_t count)
{
	char folded[CSV_FOLDED_SIZE];
	csv_fold_header(header, folded);
	return words_have(words, count, folded);
}

/* Headers that mean the kind where no other header does, else the description. */
static bool
is_loose(const char *header)
{
	static const char *const WORDS[] = {"item", "equipment", "gear", "what", "was"};
	return is_folded_as(header, WORDS, sizeof WORDS / sizeof WORDS[0]);
}

/* Headers that mean what a thing is called: its kind in a list that has no other column for it. */
static bool
is_name(const char *header)
{
	static const char *const WORDS[] = {"name", "description", "beschreibung",
	    "bezeichnung", "designation", "beskrivelse", "benevnelse"};
	return is_folded_as(header, WORDS, sizeof WORDS / sizeof WORDS[0]);
}

/* How the caller has mapped a header; NULL when not. */
static const struct csv_mapping *
mapping_of(const struct layout_making *making, const char *header)
{
	for (size_t i = 0; i < making->options->mapping_count; i++) {
		if (csv_same_header(making->options->mappings[i].theirs, header)) {
			return &making->options->mappings[i];
		}
	}
	return NULL;
}

/* True, with its column, for a header that the caller has mapped. */
static bool
mapped_column(
    const struct layout_making *making, const char *header, enum csv_column *out)
{
	const struct csv_mapping *mapping = mapping_of(making, header);
	if (mapping == NULL) {
		return false;
	}
	/* A mapping to no column of ours is told by check_mappings. */
	if (!csv_column_of_mapping(mapping->ours, out)) {
		*out = COLUMN_IGNORED;
	}
	if (mapping->kept && making->notes != NULL) {
		text_add_format(making->notes,
		    "column \"%s\" taken as %s, as answered for an earlier "
		    "list; --ask-again asks anew\n",
		    header, mapping->ours);
	}
	return true;
}

/* Looks over the whole header for what decides how a loose one is read. */
static void
look_over(struct layout_making *making, const struct csv_cells *header)
{
	making->name = header->count;
	for (size_t i = 0; i < header->count; i++) {
		const char *text = header->items[i].text;
		enum csv_column column = COLUMN_UNNAMED;
		bool mapped = mapped_column(making, text, &column);
		if (!mapped && making->name == header->count && is_name(text)) {
			making->name = i;
		}
		if (!mapped && !csv_column_of_header(text, &column)) {
			continue;
		}
		bool loose = !mapped && is_loose(text);
		making->loose_kind = making->loose_kind || loose;
		making->plain_kind =
		    making->plain_kind || (column == COLUMN_KIND && !loose);
		making->tag = making->tag || column == COLUMN_TAG;
		making->price = making->price || column == COLUMN_PRICE;
		making->served = making->served || column == COLUMN_SERVED;
	}
}

/* True when the header of a cell means when it was bought. */
static bool
is_bought(const struct layout_making *making, size_t cell)
{
	enum csv_column column = COLUMN_UNNAMED;
	return cell < making->header->count &&
	       (mapped_column(making, making->header->items[cell].text, &column) ||
		   csv_column_of_header(making->header->items[cell].text, &column)) &&
	       column == COLUMN_BOUGHT;
}

/* True for a header that means what the last task cost, by its spelling alone, where it is what
 * the thing was bought for: beside the day it was bought, or where no day of a task is, and in a
 * list without another price. */
static bool
is_paid_for_it(const struct layout_making *making, size_t cell)
{
	bool beside =
	    (cell > 0 && is_bought(making, cell - 1)) || is_bought(making, cell + 1);
	return !making->price && (beside || !making->served);
}

/* What a header stands for: its mapping, or else its spelling. */
static bool
settle_column(const struct layout_making *making, size_t cell, enum csv_column *out)
{
	const char *header = making->header->items[cell].text;
	if (mapped_column(making, header, out)) {
		return true;
	}
	if (is_loose(header) && making->plain_kind) {
		*out = COLUMN_DESCRIPTION;
		return true;
	}
	bool no_kind = !making->plain_kind && !making->loose_kind && !making->tag;
	if (cell == making->name && no_kind) {
		*out = COLUMN_KIND;
		return true;
	}
	if (!csv_column_of_header(header, out)) {
		return false;
	}
	if (*out == COLUMN_PAID && is_paid_for_it(making, cell)) {
		*out = COLUMN_PRICE;
		text_add_format(making->notes,
		    "column \"%s\" taken as the price of a new one; --map "
		    "\"%s=paid\" takes it as that of the last task\n",
		    header, header);
	}
	return true;
}

/* True for words with "by" among them: "Replace by", "Use-by date", "ReplaceBy". */
static bool
says_by(const char *words, const char *folded)
{
	size_t length = strlen(folded);
	for (const char *at = words; *at != '\0'; at++) {
		bool begins = at == words || !isalnum((unsigned char)at[-1]);
		if (begins && strncasecmp(at, "by", 2) == 0 &&
		    !isalnum((unsigned char)at[2])) {
			return true;
		}
	}
	return strstr(folded, "useby") != NULL ||
	       (length > 2 && strcmp(folded + length - 2, "by") == 0);
}

/* What the words of a header, or of what it is mapped to, say of the plain dates below it, as a
 * cell's own words would: what is to be used by a month is good to the day before it begins.
 * Where they differ the earlier day stands. */
static void
wording_of_header(const char *header, enum stamp_wording *out)
{
	char folded[CSV_FOLDED_SIZE];
	csv_fold_header(header, folded);
	if (strstr(folded, "before") != NULL) {
		*out = WORDING_BEFORE;
	} else if (*out != WORDING_BEFORE && says_by(header, folded)) {
		*out = WORDING_USE_BY;
	}
}

/* Settles one header cell. */
static enum csv_column
take_header(struct layout_making *making, const struct csv_cell *cell, size_t index,
    struct csv_layout *layout)
{
	struct complaints *complaints = making->complaints;
	char at[40];
	(void)snprintf(at, sizeof at, "column number %zu", index + 1);
	if (strlen(cell->text) != cell->length) {
		complain(
		    complaints, making->line, at, "the header has a zero byte in it");
		return COLUMN_IGNORED;
	}
	if (strspn(cell->text, " \t") == cell->length) {
		return COLUMN_UNNAMED;
	}
	if (strcmp(cell->text, DISARMING) == 0) {
		layout->disarmed = true;
		return COLUMN_UNNAMED;
	}
	enum csv_column column = COLUMN_UNNAMED;
	if (!settle_column(making, index, &column)) {
		complain_doubt(complaints, DOUBT_HEADER, cell->text, making->line, "");
		complain(complaints, making->line, at,
		    "\"%.60s\" is no column this program knows; map it to one of ours "
		    "(becket import --help lists them) or to ignore: --map "
		    "\"%.60s=ignore\"",
		    cell->text, cell->text);
		return COLUMN_IGNORED;
	}
	if (column == COLUMN_IGNORED) {
		text_add_format(making->notes, "column \"%s\" ignored\n", cell->text);
		return column;
	}
	if (layout->present[column] && column != COLUMN_NOTES) {
		SCOPED_TEXT hint = {0};
		text_add_format(
		    &hint, "means %s, and so does another column", CSV_COLUMNS[column]);
		complain_doubt(complaints, DOUBT_HEADER, cell->text, making->line, "");
		csv_doubt_hint(
		    complaints->doubts, DOUBT_HEADER, cell->text, text_string(&hint));
		complain(complaints, making->line, at,
		    "\"%.60s\" means %s, and so does column number %zu; map one of them "
		    "to another column or to ignore: --map \"%.60s=notes\"",
		    cell->text, CSV_COLUMNS[column], making->where[column] + 1,
		    cell->text);
		return COLUMN_IGNORED;
	}
	int field = csv_column_field(column);
	layout->present[column] = true;
	layout->fields |= field == NO_FIELD ? 0 : 1U << field;
	making->where[column] = index;
	if (csv_column_row(column)->mark) {
		const struct csv_mapping *mapping = mapping_of(making, cell->text);
		wording_of_header(cell->text, &layout->wordings[column]);
		wording_of_header(
		    mapping == NULL ? "" : mapping->ours, &layout->wordings[column]);
	}
	return column;
}

/* Each mapping must be about a header that is there, and name a column of ours. */
static void
check_mappings(const struct layout_making *making, const struct csv_cells *header)
{
	for (size_t i = 0; i < making->options->mapping_count; i++) {
		const struct csv_mapping *mapping = &making->options->mappings[i];
		enum csv_column column = COLUMN_IGNORED;
		if (!csv_column_of_mapping(mapping->ours, &column)) {
			complain(making->complaints, making->line, "",
			    "\"%.60s\" is mapped to \"%.60s\", which is no column of ours "
			    "(becket import --help lists them)",
			    mapping->theirs, mapping->ours);
		}
		size_t cell = 0;
		while (cell < header->count &&
		       !csv_same_header(mapping->theirs, header->items[cell].text)) {
			cell++;
		}
		if (cell == header->count && !mapping->kept) {
			complain(making->complaints, making->line, "",
			    "no column is headed \"%.60s\", which is to be mapped to %s",
			    mapping->theirs, mapping->ours);
		}
	}
}

/* No column says whose gear it is. A person is asked once it is sure that no bad header means
 * the boat; where nobody can be asked all is told at once. */
static void
miss_vessel(const struct layout_making *making, bool told)
{
	if (told) {
		complain_answered(making->complaints);
	} else {
		complain_doubt(making->complaints, DOUBT_VESSEL, "", making->line, "");
	}
	complain(making->complaints, making->line, "",
	    "no column says whose gear it is; --vessel NAME does for all rows%s",
	    told ? ", or --map \"HEADER=vessel\" where one of those above is the boat"
		 : "");
}

/* A row must say which item it is about: by its tag, or by vessel and kind. Tells what is
 * missing; of a kind not where a bad header, told already, may be why. */
static void
check_missing(const struct layout_making *making, struct csv_layout *layout)
{
	const bool *present = layout->present;
	bool told = making->complaints->count > 0;
	bool vessel = present[COLUMN_VESSEL] || making->options->vessel != NULL;
	layout->usable = present[COLUMN_TAG] || present[COLUMN_KIND];
	if (!layout->usable && !told) {
		complain(making->complaints, making->line, "",
		    "neither a column kind nor a column tag is there; the first row must "
		    "hold the column names");
	}
	if (!present[COLUMN_TAG] && present[COLUMN_KIND] && !vessel) {
		miss_vessel(making, told);
	}
}

size_t
csv_layout_known(const struct csv_cells *row, const struct csv_options *options)
{
	const struct layout_making making = {.options = options};
	size_t known = 0;
	for (size_t i = 0; i < row->count; i++) {
		const char *text = row->items[i].text;
		enum csv_column column = COLUMN_UNNAMED;
		known += *text != '\0' && (mapped_column(&making, text, &column) ||
					      csv_column_of_header(text, &column));
	}
	return known;
}

void
csv_layout_make(const struct csv_cells *header, const struct csv_options *options,
    struct complaints *complaints, struct text *notes, struct csv_layout *out)
{
	struct arena *arena = complaints->arena;
	enum csv_column *items = arena_alloc(arena, header->count * sizeof *items);
	const char **headers = arena_alloc(arena, header->count * sizeof *headers);
	struct layout_making making = {
	    .options = options,
	    .complaints = complaints,
	    .notes = notes,
	    .line = header->line,
	    .header = header,
	};
	look_over(&making, header);
	struct csv_layout layout = {.count = header->count};
	for (size_t i = 0; i < header->count; i++) {
		items[i] = take_header(&making, &header->items[i], i, &layout);
		headers[i] = arena_string(arena, header->items[i].text);
	}
	check_mappings(&making, header);
	check_missing(&making, &layout);
	layout.items = items;
	layout.headers = headers;
	*out = layout;
}
