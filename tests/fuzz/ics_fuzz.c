/* Any bytes as a calendar from elsewhere: refused with words, or read into what ics_read.h
 * promises. */
#include "base/text.h"
#include "calendar/ics_read.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void
check(const struct ics_found *found)
{
	SCOPED_TEXT digest = {0};
	bool day =
	    found->day == DAY_NONE || (found->day >= DAY_MIN && found->day <= DAY_MAX);
	if (!day || found->days < 1 || found->uid[0] == '\0' ||
	    !utf8_valid(found->summary, strlen(found->summary)) ||
	    !utf8_valid(found->description, strlen(found->description)) ||
	    strchr(found->summary, '\n') != NULL) {
		abort();
	}
	ics_digest(found, &digest);
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct arena arena = {0};
	struct fault fault = {0};
	struct ics_found *found = NULL;
	size_t count = 0;
	if (ics_read((const char *)data, size, &arena, &found, &count, &fault)) {
		for (size_t i = 0; i < count; i++) {
			check(&found[i]);
		}
	} else if (fault.kind == FAULT_NONE || fault.text[0] == '\0') {
		abort();
	}
	arena_clear(&arena);
	return 0;
}
