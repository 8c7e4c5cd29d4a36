#include "exchange/csv_columns.h"

#include <ctype.h>
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

void
csv_fold_header(const char *header, char folded[CSV_FOLDED_SIZE])
{
	size_t used = 0;
	for (const char *at = header; *at != '\0' && used < CSV_FOLDED_SIZE - 1; at++) {
		unsigned char byte = (unsigned char)*at;
		if (isalnum(byte) || byte >= 0x80) {
			folded[used++] = (char)text_lower(*at);
		}
	}
	folded[used] = '\0';
}

bool
csv_same_header(const char *a, const char *b)
{
	char x[CSV_FOLDED_SIZE];
	char y[CSV_FOLDED_SIZE];
	csv_fold_header(a, x);
	csv_fold_header(b, y);
	return strcmp(x, y) == 0;
}

bool
csv_column_of_header(const char *header, enum csv_column *out)
{
	char folded[CSV_FOLDED_SIZE];
	csv_fold_header(header, folded);
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		if (csv_same_header(CSV_COLUMNS[i], folded)) {
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

bool
csv_column_of_mapping(const char *word, enum csv_column *out)
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
