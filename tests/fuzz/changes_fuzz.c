/* Any bytes as an entry's changes, as a hostile book might hold them: refused with words, or
 * read change by change with all that changes.h promises. */
#include "book/changes.h"

#include <sqlite3.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static bool
look(const struct row_change *change, void *context, struct fault *fault)
{
	size_t *seen = context;
	const struct row *row =
	    change->act == JOURNAL_ADDED ? &change->new : &change->old;
	(void)fault;
	if (change->table == NULL || change->count == 0 || row->values == NULL) {
		abort();
	}
	for (size_t i = 0; i < change->count; i++) {
		*seen += change->key[i] != 0 && row->values[i] != NULL
			     ? strlen(row->values[i])
			     : 0;
	}
	return true;
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	SCOPED_CHANGESET changes = {(int)size, sqlite3_malloc64(size + 1)};
	SCOPED_ARENA arena = {0};
	struct fault fault = {0};
	size_t seen = 0;
	if (changes.bytes == NULL) {
		abort();
	}
	memcpy(changes.bytes, data, size);
	if (!changes_each(&changes, &arena, look, &seen, &fault) &&
	    (fault.kind == FAULT_NONE || fault.text[0] == '\0')) {
		abort();
	}
	return 0;
}
