#include "exchange/csv_columns.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

const char *const CSV_COLUMNS[] = {
    [COLUMN_VESSEL] = "vessel",
    [COLUMN_TAG] = "tag",
    [COLUMN_KIND] = "kind",
    [COLUMN_DESCRIPTION] = "description",
    [COLUMN_SERIAL] = "serial",
    [COLUMN_QUANTITY] = "quantity",
    [COLUMN_PLACE] = "place",
    [COLUMN_MADE] = "made",
    [COLUMN_PACKED] = "packed",
    [COLUMN_BOUGHT] = "bought",
    [COLUMN_FITTED] = "fitted",
    [COLUMN_EXPIRES] = "expires",
    [COLUMN_SERVED] = "served",
    [COLUMN_TASK] = "task",
    [COLUMN_NEXT] = "next",
    [COLUMN_STATION] = "station",
    [COLUMN_CERTIFICATE] = "certificate",
    [COLUMN_PART_OF] = "part_of",
    [COLUMN_PRICE] = "price",
    [COLUMN_NOTES] = "notes",
    [COLUMN_STATE] = "state",
    [COLUMN_PAID] = "paid",
    [COLUMN_MAKE] = "make",
    [COLUMN_CAPACITY] = "capacity",
    [COLUMN_RATING] = "rating",
    [COLUMN_LANDED_TO] = "landed_to",
    [COLUMN_LANDED_ON] = "landed_on",
    [COLUMN_HIRED_UNTIL] = "hired_until",
    [COLUMN_BECAUSE] = "because",
    [COLUMN_STANDS_FOR] = "stands_for",
};

const size_t CSV_COLUMN_COUNT = COLUMN_COUNT;

static const struct {
	enum csv_shape shape;
	int field;
} COLUMN_FACTS[COLUMN_COUNT] = {
    [COLUMN_VESSEL] = {SHAPE_NAME, FIELD_VESSEL},
    [COLUMN_TAG] = {SHAPE_NAME, NO_FIELD},
    [COLUMN_KIND] = {SHAPE_KIND, FIELD_KIND},
    [COLUMN_DESCRIPTION] = {SHAPE_TEXT, FIELD_DESCRIPTION},
    [COLUMN_SERIAL] = {SHAPE_TEXT, FIELD_SERIAL},
    [COLUMN_QUANTITY] = {SHAPE_NUMBER, FIELD_QUANTITY},
    [COLUMN_PLACE] = {SHAPE_TEXT, FIELD_PLACE},
    [COLUMN_MADE] = {SHAPE_STAMP, FIELD_MADE},
    [COLUMN_PACKED] = {SHAPE_STAMP, FIELD_PACKED},
    [COLUMN_BOUGHT] = {SHAPE_STAMP, FIELD_BOUGHT},
    [COLUMN_FITTED] = {SHAPE_STAMP, FIELD_FITTED},
    [COLUMN_EXPIRES] = {SHAPE_STAMP, FIELD_EXPIRES},
    [COLUMN_SERVED] = {SHAPE_STAMP, NO_FIELD},
    [COLUMN_TASK] = {SHAPE_TASK, NO_FIELD},
    [COLUMN_NEXT] = {SHAPE_STAMP, NO_FIELD},
    [COLUMN_STATION] = {SHAPE_TEXT, NO_FIELD},
    [COLUMN_CERTIFICATE] = {SHAPE_TEXT, NO_FIELD},
    [COLUMN_PART_OF] = {SHAPE_NAME, FIELD_PART_OF},
    [COLUMN_PRICE] = {SHAPE_PRICE, FIELD_PRICE},
    [COLUMN_NOTES] = {SHAPE_TEXT, FIELD_NOTES},
    [COLUMN_STATE] = {SHAPE_STATE, FIELD_STATE},
    [COLUMN_PAID] = {SHAPE_PRICE, NO_FIELD},
    [COLUMN_MAKE] = {SHAPE_TEXT, FIELD_MAKE},
    [COLUMN_CAPACITY] = {SHAPE_NUMBER, FIELD_CAPACITY},
    [COLUMN_RATING] = {SHAPE_TEXT, FIELD_RATING},
    [COLUMN_LANDED_TO] = {SHAPE_NAME, FIELD_LANDED_TO},
    [COLUMN_LANDED_ON] = {SHAPE_DAY, FIELD_LANDED_ON},
    [COLUMN_HIRED_UNTIL] = {SHAPE_DAY, FIELD_HIRED_UNTIL},
    [COLUMN_BECAUSE] = {SHAPE_BECAUSE, FIELD_BECAUSE},
    [COLUMN_STANDS_FOR] = {SHAPE_NAME, FIELD_STANDS_FOR},
};

/* Other headers met in people's lists, as `same_header` compares them: any case, without
 * blanks and punctuation. */
static const struct {
	const char *spelling;
	enum csv_column column;
} SYNONYMS[] = {
    {"boat", COLUMN_VESSEL},
    {"boatname", COLUMN_VESSEL},
    {"yacht", COLUMN_VESSEL},
    {"ship", COLUMN_VESSEL},
    {"vesselname", COLUMN_VESSEL},
    {"id", COLUMN_TAG},
    {"itemid", COLUMN_TAG},
    {"itemno", COLUMN_TAG},
    {"label", COLUMN_TAG},
    {"no", COLUMN_TAG},
    {"ref", COLUMN_TAG},
    {"reference", COLUMN_TAG},
    {"mark", COLUMN_TAG},
    {"type", COLUMN_KIND},
    {"item", COLUMN_KIND},
    {"itemtype", COLUMN_KIND},
    {"category", COLUMN_KIND},
    {"equipment", COLUMN_KIND},
    {"gear", COLUMN_KIND},
    {"name", COLUMN_DESCRIPTION},
    {"details", COLUMN_DESCRIPTION},
    {"model", COLUMN_DESCRIPTION},
    {"makeandmodel", COLUMN_DESCRIPTION},
    {"serialno", COLUMN_SERIAL},
    {"serialnumber", COLUMN_SERIAL},
    {"serialnr", COLUMN_SERIAL},
    {"sn", COLUMN_SERIAL},
    {"qty", COLUMN_QUANTITY},
    {"count", COLUMN_QUANTITY},
    {"number", COLUMN_QUANTITY},
    {"howmany", COLUMN_QUANTITY},
    {"location", COLUMN_PLACE},
    {"where", COLUMN_PLACE},
    {"stowage", COLUMN_PLACE},
    {"stowed", COLUMN_PLACE},
    {"locker", COLUMN_PLACE},
    {"manufactured", COLUMN_MADE},
    {"manufacturedate", COLUMN_MADE},
    {"dateofmanufacture", COLUMN_MADE},
    {"datemade", COLUMN_MADE},
    {"mfd", COLUMN_MADE},
    {"dom", COLUMN_MADE},
    {"packedon", COLUMN_PACKED},
    {"datepacked", COLUMN_PACKED},
    {"repacked", COLUMN_PACKED},
    {"purchased", COLUMN_BOUGHT},
    {"purchasedate", COLUMN_BOUGHT},
    {"dateofpurchase", COLUMN_BOUGHT},
    {"datebought", COLUMN_BOUGHT},
    {"boughton", COLUMN_BOUGHT},
    {"installed", COLUMN_FITTED},
    {"dateinstalled", COLUMN_FITTED},
    {"datefitted", COLUMN_FITTED},
    {"fittedon", COLUMN_FITTED},
    {"expiry", COLUMN_EXPIRES},
    {"expirydate", COLUMN_EXPIRES},
    {"dateofexpiry", COLUMN_EXPIRES},
    {"expiration", COLUMN_EXPIRES},
    {"expirationdate", COLUMN_EXPIRES},
    {"expireson", COLUMN_EXPIRES},
    {"exp", COLUMN_EXPIRES},
    {"expdate", COLUMN_EXPIRES},
    {"useby", COLUMN_EXPIRES},
    {"usebydate", COLUMN_EXPIRES},
    {"usebefore", COLUMN_EXPIRES},
    {"lastservice", COLUMN_SERVED},
    {"lastservicedate", COLUMN_SERVED},
    {"lastserviced", COLUMN_SERVED},
    {"serviced", COLUMN_SERVED},
    {"servicedon", COLUMN_SERVED},
    {"lastdone", COLUMN_SERVED},
    {"nextservice", COLUMN_NEXT},
    {"nextservicedate", COLUMN_NEXT},
    {"nextdue", COLUMN_NEXT},
    {"due", COLUMN_NEXT},
    {"duedate", COLUMN_NEXT},
    {"agent", COLUMN_STATION},
    {"serviceagent", COLUMN_STATION},
    {"servicestation", COLUMN_STATION},
    {"servicedby", COLUMN_STATION},
    {"certificateno", COLUMN_CERTIFICATE},
    {"certificatenumber", COLUMN_CERTIFICATE},
    {"certno", COLUMN_CERTIFICATE},
    {"parent", COLUMN_PART_OF},
    {"belongsto", COLUMN_PART_OF},
    {"inside", COLUMN_PART_OF},
    {"cost", COLUMN_PRICE},
    {"comments", COLUMN_NOTES},
    {"comment", COLUMN_NOTES},
    {"remarks", COLUMN_NOTES},
    {"remark", COLUMN_NOTES},
    {"note", COLUMN_NOTES},
    {"status", COLUMN_STATE},
    {"servicecost", COLUMN_PAID},
    {"serviceprice", COLUMN_PAID},
    {"maker", COLUMN_MAKE},
    {"manufacturer", COLUMN_MAKE},
    {"personsfor", COLUMN_CAPACITY},
    {"firerating", COLUMN_RATING},
    {"hireends", COLUMN_HIRED_UNTIL},
};

enum csv_shape
csv_column_shape(enum csv_column column)
{
	return COLUMN_FACTS[column].shape;
}

int
csv_column_field(enum csv_column column)
{
	return COLUMN_FACTS[column].field;
}

/* Copies a header in small letters, without ASCII blanks and punctuation, cut to size. */
enum { FOLDED_SIZE = 64 };

static void
fold_header(const char *header, char folded[FOLDED_SIZE])
{
	size_t used = 0;
	for (const char *at = header; *at != '\0' && used < FOLDED_SIZE - 1; at++) {
		unsigned char byte = (unsigned char)*at;
		if (isalnum(byte) || byte >= 0x80) {
			folded[used++] = (char)text_lower(*at);
		}
	}
	folded[used] = '\0';
}

static bool
same_header(const char *a, const char *b)
{
	char x[FOLDED_SIZE];
	char y[FOLDED_SIZE];
	fold_header(a, x);
	fold_header(b, y);
	return strcmp(x, y) == 0;
}

/* The column a header means without being mapped; false when it means none. */
static bool
column_of_header(const char *header, enum csv_column *out)
{
	char folded[FOLDED_SIZE];
	fold_header(header, folded);
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		if (same_header(CSV_COLUMNS[i], folded)) {
			*out = (enum csv_column)i;
			return true;
		}
	}
	for (size_t i = 0; i < sizeof SYNONYMS / sizeof SYNONYMS[0]; i++) {
		if (strcmp(SYNONYMS[i].spelling, folded) == 0) {
			*out = SYNONYMS[i].column;
			return true;
		}
	}
	return false;
}

/* The column a mapping names: exactly one of ours, or "ignore". */
static bool
column_of_mapping(const char *word, enum csv_column *out)
{
	if (strcmp(word, "ignore") == 0) {
		*out = COLUMN_IGNORED;
		return true;
	}
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		if (strcmp(CSV_COLUMNS[i], word) == 0) {
			*out = (enum csv_column)i;
			return true;
		}
	}
	return false;
}

const char *
csv_cell_name(const struct csv_layout *layout, size_t cell, struct arena *arena)
{
	SCOPED_TEXT name = {0};
	if (cell >= layout->count || layout->items[cell] == COLUMN_UNNAMED) {
		text_add_format(&name, "column number %zu", cell + 1);
	} else if (layout->items[cell] == COLUMN_IGNORED) {
		text_add_format(&name, "column \"%s\"", layout->headers[cell]);
	} else {
		const char *ours = CSV_COLUMNS[layout->items[cell]];
		if (strcmp(layout->headers[cell], ours) == 0) {
			text_add_format(&name, "column %s", ours);
		} else {
			text_add_format(
			    &name, "column \"%s\" (%s)", layout->headers[cell], ours);
		}
	}
	const char *kept = arena_string(arena, text_string(&name));
	return kept == NULL ? "" : kept;
}

/* A header being turned into a layout. */
struct making {
	const struct csv_options *options;
	struct complaints *complaints;
	struct text *notes;
	size_t line;
	bool plain_kind; /* a header that can only mean the kind is there */
	bool loose_kind; /* one that may mean it is there */
	bool tag;
	size_t where[COLUMN_COUNT]; /* the cell that is this column, when it is present */
};

static bool
is_folded_as(const char *header, const char *const *words, size_t count)
{
	char folded[FOLDED_SIZE];
	fold_header(header, folded);
	for (size_t i = 0; i < count; i++) {
		if (strcmp(folded, words[i]) == 0) {
			return true;
		}
	}
	return false;
}

/* Headers that mean the kind where no other header does, else the description. */
static bool
is_loose(const char *header)
{
	static const char *const WORDS[] = {"item", "equipment", "gear"};
	return is_folded_as(header, WORDS, sizeof WORDS / sizeof WORDS[0]);
}

static bool
is_name(const char *header)
{
	static const char *const WORDS[] = {"name"};
	return is_folded_as(header, WORDS, sizeof WORDS / sizeof WORDS[0]);
}

/* True, with its column, for a header that the caller has mapped. */
static bool
mapped_column(const struct making *making, const char *header, enum csv_column *out)
{
	for (size_t i = 0; i < making->options->mapping_count; i++) {
		const struct csv_mapping *mapping = &making->options->mappings[i];
		if (same_header(mapping->header, header)) {
			/* A mapping to no column of ours is told by check_mappings. */
			if (!column_of_mapping(mapping->column, out)) {
				*out = COLUMN_IGNORED;
			}
			return true;
		}
	}
	return false;
}

/* Looks over the whole header for what decides how a loose one is read. */
static void
look_over(struct making *making, const struct csv_cells *header)
{
	for (size_t i = 0; i < header->count; i++) {
		const char *text = header->items[i].text;
		enum csv_column column = COLUMN_UNNAMED;
		bool mapped = mapped_column(making, text, &column);
		if (!mapped && !column_of_header(text, &column)) {
			continue;
		}
		bool loose = !mapped && is_loose(text);
		making->loose_kind = making->loose_kind || loose;
		making->plain_kind =
		    making->plain_kind || (column == COLUMN_KIND && !loose);
		making->tag = making->tag || column == COLUMN_TAG;
	}
}

/* What a header stands for: its mapping, or else its spelling. */
static bool
settle_column(const struct making *making, const char *header, enum csv_column *out)
{
	if (mapped_column(making, header, out)) {
		return true;
	}
	if (is_loose(header) && making->plain_kind) {
		*out = COLUMN_DESCRIPTION;
		return true;
	}
	bool no_kind = !making->plain_kind && !making->loose_kind && !making->tag;
	if (is_name(header) && no_kind) {
		*out = COLUMN_KIND;
		return true;
	}
	return column_of_header(header, out);
}

static void
wording_of_header(const char *header, struct csv_layout *layout)
{
	char folded[FOLDED_SIZE];
	fold_header(header, folded);
	if (strncmp(folded, "useby", 5) == 0) {
		layout->expires_wording = WORDING_USE_BY;
	} else if (strcmp(folded, "usebefore") == 0) {
		layout->expires_wording = WORDING_BEFORE;
	}
}

/* Settles one header cell. */
static enum csv_column
take_header(struct making *making, const struct csv_cell *cell, size_t index,
    struct csv_layout *layout)
{
	struct complaints *complaints = making->complaints;
	char at[40];
	(void)snprintf(at, sizeof at, "column number %zu", index + 1);
	if (strlen(cell->text) != cell->length || !utf8_valid(cell->text, cell->length)) {
		complain(complaints, making->line, at,
		    "the header is not UTF-8 text" CSV_HOW_UTF8);
		return COLUMN_IGNORED;
	}
	if (strspn(cell->text, " \t") == cell->length) {
		return COLUMN_UNNAMED;
	}
	enum csv_column column = COLUMN_UNNAMED;
	if (!settle_column(making, cell->text, &column)) {
		complain(complaints, making->line, at,
		    "\"%.60s\" is no column this program knows; rename it, or map it to "
		    "one of ours or to ignore: --map \"%.60s=ignore\"",
		    cell->text, cell->text);
		return COLUMN_IGNORED;
	}
	if (column == COLUMN_IGNORED) {
		text_add_format(making->notes, "column \"%s\" ignored\n", cell->text);
		return column;
	}
	if (layout->present[column]) {
		complain(complaints, making->line, at,
		    "\"%.60s\" means %s, and so does column number %zu; map one of them "
		    "to another column or to ignore: --map \"%.60s=notes\"",
		    cell->text, CSV_COLUMNS[column], making->where[column] + 1,
		    cell->text);
		return COLUMN_IGNORED;
	}
	layout->present[column] = true;
	making->where[column] = index;
	if (column == COLUMN_EXPIRES) {
		wording_of_header(cell->text, layout);
	}
	return column;
}

/* Each mapping must be about a header that is there, and name a column of ours. */
static void
check_mappings(const struct making *making, const struct csv_cells *header)
{
	for (size_t i = 0; i < making->options->mapping_count; i++) {
		const struct csv_mapping *mapping = &making->options->mappings[i];
		enum csv_column column = COLUMN_IGNORED;
		if (!column_of_mapping(mapping->column, &column)) {
			complain(making->complaints, making->line, "",
			    "\"%.60s\" is mapped to \"%.60s\", which is no column of ours",
			    mapping->header, mapping->column);
		}
		size_t cell = 0;
		while (cell < header->count &&
		       !same_header(mapping->header, header->items[cell].text)) {
			cell++;
		}
		if (cell == header->count) {
			complain(making->complaints, making->line, "",
			    "no column is headed \"%.60s\", which is to be mapped to %s",
			    mapping->header, mapping->column);
		}
	}
}

/* A row must say which item it is about: by its tag, or by vessel and kind. Tells what is
 * missing unless a bad header, told already, may be why. */
static void
check_missing(const struct making *making, struct csv_layout *layout)
{
	const bool *present = layout->present;
	bool told = making->complaints->count > 0;
	bool vessel = present[COLUMN_VESSEL] || making->options->vessel != NULL;
	layout->usable = present[COLUMN_TAG] || (present[COLUMN_KIND] && vessel);
	if (layout->usable || told) {
		return;
	}
	if (!present[COLUMN_KIND]) {
		complain(making->complaints, making->line, "",
		    "neither a column kind nor a column tag is there; the first row must "
		    "hold the column names");
	} else {
		complain(making->complaints, making->line, "",
		    "no column vessel is there, and no vessel was told");
	}
}

bool
csv_layout_make(const struct csv_cells *header, const struct csv_options *options,
    struct complaints *complaints, struct text *notes, struct csv_layout *out,
    struct fault *fault)
{
	struct arena *arena = complaints->arena;
	enum csv_column *items = arena_alloc(arena, header->count * sizeof *items);
	const char **headers = arena_alloc(arena, header->count * sizeof *headers);
	if (items == NULL || headers == NULL) {
		return fault_memory(fault);
	}
	struct making making = {
	    .options = options,
	    .complaints = complaints,
	    .notes = notes,
	    .line = header->line,
	};
	look_over(&making, header);
	struct csv_layout layout = {.count = header->count};
	for (size_t i = 0; i < header->count; i++) {
		items[i] = take_header(&making, &header->items[i], i, &layout);
		headers[i] = header->items[i].text;
	}
	check_mappings(&making, header);
	check_missing(&making, &layout);
	layout.items = items;
	layout.headers = headers;
	*out = layout;
	return true;
}
