/* Tables and their rows, for the journal. */
#include "base/memory.h"
#include "book/journal_inside.h"

#include <string.h>

void
wording_clear(struct row_wording *wording)
{
	arena_clear(&wording->kept);
	arena_clear(&wording->passing);
	text_clear(&wording->vessel_name);
	*wording = (struct row_wording){0};
}

const struct table_shape *
shape_find(struct row_wording *wording, const char *table)
{
	const struct table_shape *known = shape_known(table);
	if (known != NULL) {
		return known;
	}
	struct table_shape *gone = arena_alloc(&wording->kept, sizeof *gone);
	*gone = (struct table_shape){
	    .name = arena_string(&wording->kept, table), .numbered = NUMBERED_ENTRY};
	return gone;
}

/* Most are called as they are told. */
void
add_column_label(const char *name, struct text *out)
{
	static const char *const DROPPED[] = {"_day", "_id", "_minor"};
	const char *tail = strrchr(name, '_');
	const char *end = name + strlen(name);
	for (size_t i = 0; tail != NULL && i < sizeof DROPPED / sizeof DROPPED[0]; i++) {
		end = strcmp(tail, DROPPED[i]) == 0 ? tail : end;
	}
	for (const char *at = name; at < end;) {
		const char *blank = memchr(at, '_', (size_t)(end - at));
		const char *stop = blank == NULL ? end : blank;
		text_add_bytes(out, at, (size_t)(stop - at));
		text_add(out, blank == NULL ? "" : " ");
		at = stop + (blank == NULL ? 0 : 1);
	}
	if (tail != NULL && strcmp(tail, "_minor") == 0) {
		text_add(out, " (minor units)");
	}
}
