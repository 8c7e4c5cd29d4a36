#include "book/statements.h"

#include <stddef.h>

/* Where the statements of each file begin, in the order of the enum. */
static const struct {
	enum statement first;
	const struct statement_text *texts;
} FILES[] = {
    {BOOK_STATEMENTS, STATEMENTS_BOOK},
    {FLEET_STATEMENTS, STATEMENTS_FLEET},
    {GEAR_STATEMENTS, STATEMENTS_GEAR},
    {GIVEN_STATEMENTS, STATEMENTS_GIVEN},
    {JOURNAL_STATEMENTS, STATEMENTS_JOURNAL},
    {LOAD_STATEMENTS, STATEMENTS_LOAD},
};

const struct statement_text *
statement_text(enum statement statement)
{
	size_t file = sizeof FILES / sizeof FILES[0] - 1;
	while (statement < FILES[file].first) {
		file--;
	}
	return &FILES[file].texts[statement - FILES[file].first];
}
