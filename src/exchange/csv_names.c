#include "base/text.h"
#include "exchange/csv_inside.h"
#include "exchange/csv_read.h"

/* The index of a column; the count where there is none. */
static size_t
find(const struct csv_names *names, const char *word)
{
	size_t i = 0;
	char folded[CSV_FOLDED_SIZE];
	csv_fold_header(word, folded);
	while (i < names->count && !text_same_letters(word, names->items[i]) &&
	       (names->synonyms == NULL || !csv_has_word(names->synonyms[i], folded))) {
		i++;
	}
	return i;
}

static void
complain_of_unknown(const struct csv_cells *header, const struct csv_names *names,
    const char *word, struct complaints *complaints)
{
	SCOPED_TEXT all = {0};
	for (size_t i = 0; i < names->count; i++) {
		text_add_format(&all, "%s%s", i == 0 ? "" : ", ", names->items[i]);
	}
	complain(complaints, header->line, "", "\"%.40s\" is no column; expected %s",
	    word, text_string(&all));
}

const size_t *
csv_names_read(const struct csv_cells *header, const struct csv_names *names,
    struct complaints *complaints)
{
	bool seen[CSV_NAMES_MOST + 1] = {false};
	size_t *columns =
	    arena_alloc(complaints->arena, (header->count + 1) * sizeof *columns);
	for (size_t i = 0; i < header->count; i++) {
		const char *word = csv_trimmed(complaints->arena, header->items[i].text);
		columns[i] = find(names, word);
		if (columns[i] == names->count) {
			complain_of_unknown(header, names, word, complaints);
		} else if (seen[columns[i]]) {
			complain(complaints, header->line, "",
			    "the column %s is there twice", word);
		}
		seen[columns[i]] = true;
	}
	for (size_t i = 0; i < names->needed; i++) {
		if (!seen[i]) {
			complain(complaints, header->line, "",
			    "there is no column %s; the first row must hold the column "
			    "names",
			    names->items[i]);
		}
	}
	return columns;
}
