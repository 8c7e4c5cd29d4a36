/* Any bytes as a calendar server's answer: refused with words, or read into whole strings. */
#include "calendar/caldav_inside.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void
check(const struct dav_said *said)
{
	const char *const strings[] = {
	    said->href, said->name, said->etag, said->principal, said->home, said->data};
	for (size_t i = 0; i < sizeof strings / sizeof strings[0]; i++) {
		if (strings[i] == NULL || !utf8_valid(strings[i], strlen(strings[i]))) {
			abort();
		}
	}
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct arena arena = {0};
	struct fault fault = {0};
	struct dav_answer answer = {0};
	SCOPED_TEXT condition = {0};
	dav_read_condition((const char *)data, size, &condition);
	if (dav_read((const char *)data, size, &arena, &answer, &fault)) {
		for (size_t i = 0; i < answer.count; i++) {
			check(&answer.items[i]);
		}
	} else if (fault.kind == FAULT_NONE || fault.text[0] == '\0') {
		abort();
	}
	arena_clear(&arena);
	return 0;
}
