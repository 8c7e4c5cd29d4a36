/* Which of many names a typed one is: as it stands, whatever its case, or with accents left out. */
#ifndef BECKET_BASE_ALIKE_H
#define BECKET_BASE_ALIKE_H

#include "base/memory.h"

#include <stddef.h>

enum likeness {
	ALIKE_NOT,
	ALIKE_ACCENTS, /* the same as fold_accents has them */
	ALIKE_CASE,    /* the same as fold_case has them */
	ALIKE_EXACT,
};

/* How alike two names are. */
enum likeness names_alike(const char *a, const char *b);

/* The names that are most alike to `typed`, as indices in the arena, in the order of `names`; one
 * where one is exact. Returns how alike they are: none for ALIKE_NOT. */
enum likeness names_meant(struct arena *arena, const char *typed,
    const char *const *names, size_t count, size_t **found_out, size_t *found_count_out);

/* Which of a few fixed words a typed one is: its index, `count` for none. The words must differ
 * from one another in more than case and accents. */
size_t word_meant(const char *typed, const char *const *words, size_t count);

#endif
