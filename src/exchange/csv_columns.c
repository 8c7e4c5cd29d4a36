#include "base/fold.h"
#include "exchange/csv_read.h"

#include <ctype.h>
#include <string.h>

/* Two rows of one place do not compile, and a gap would leave a place of this array empty. */
#define COLUMN_ITEM(id, ...) [COLUMN_##id] = &ITEM_FIELDS[FIELD_##id],
#define COLUMN_RECORD(id, ...) [COLUMN_##id] = &RECORD_FIELDS[RECORD_##id],
static const struct field *const ROWS[COLUMN_COUNT] = {
    INVENTORY_FIELDS(COLUMN_ITEM, COLUMN_ITEM, COLUMN_RECORD)};

#define COLUMN_NAME(id, member, type, place, name, ...) [COLUMN_##id] = (name),
const char *const CSV_COLUMNS[] = {
    INVENTORY_FIELDS(COLUMN_NAME, COLUMN_NAME, COLUMN_NAME)};

const size_t CSV_COLUMN_COUNT = COLUMN_COUNT;

const struct field *
csv_column_row(enum csv_column column)
{
	return ROWS[column];
}

int
csv_column_field(enum csv_column column)
{
	const struct field *row = ROWS[column];
	return row->record ? NO_FIELD : (int)(row - ITEM_FIELDS);
}

void
csv_fold_header(const char *header, char folded[CSV_FOLDED_SIZE])
{
	SCOPED_TEXT plain = {0};
	size_t used = 0;
	fold_accents(header, &plain);
	for (const char *at = text_string(&plain);
	     *at != '\0' && used < CSV_FOLDED_SIZE - 1; at++) {
		unsigned char byte = (unsigned char)*at;
		/* The small o of "N°", in UTF-8. */
		if (strncmp(at, "\xC2\xB0", 2) == 0) {
			at++;
			continue;
		}
		if (isalnum(byte) || byte >= 0x80) {
			folded[used++] = *at;
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

/* True when a word is among those of a list with blanks between. */
static bool
has_word(const char *list, const char *word)
{
	size_t length = strlen(word);
	for (const char *at = list; *at != '\0';) {
		size_t this_one = strcspn(at, " ");
		if (this_one == length && memcmp(at, word, length) == 0) {
			return true;
		}
		at += this_one + (at[this_one] == ' ' ? 1 : 0);
	}
	return false;
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
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		if (has_word(ROWS[i]->synonyms, folded)) {
			*out = (enum csv_column)i;
			return true;
		}
	}
	return false;
}

const char *
csv_column_meant(const char *header)
{
	enum csv_column column = COLUMN_UNNAMED;
	return csv_column_of_header(header, &column) ? CSV_COLUMNS[column] : NULL;
}

bool
csv_column_of_mapping(const char *word, enum csv_column *out)
{
	if (strcmp(word, "ignore") == 0) {
		*out = COLUMN_IGNORED;
		return true;
	}
	return csv_column_of_header(word, out);
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
