#include "winter/docket_heads.h"

#include "base/numbers.h"

#include <stdlib.h>
#include <string.h>

/* What ends a station's name in a word; nothing in a name sorts before it. */
enum { NAME_END = 1 };

void
docket_heads_clear(struct docket_heads *heads)
{
	free(heads->items);
	arena_clear(&heads->arena);
	*heads = (struct docket_heads){0};
}

void
docket_heads_add(struct docket_heads *heads, const struct docket *docket)
{
	ARRAY_ADD(heads, *docket);
	struct docket *head = &heads->items[heads->count - 1];
	head->station = arena_string(&heads->arena, docket->station);
	head->pieces = NULL;
	head->piece_count = 0;
}

int64_t
docket_key(const struct docket *docket)
{
	return ((int64_t)(docket->landed ? 0 : 1) << 33) +
	       ((int64_t)docket->hand_in - INT32_MIN);
}

void
docket_word(const struct docket *docket, size_t place, struct text *out)
{
	text_add_format(out, "%s%c%020zu", docket->station, NAME_END, place);
}

static int
compare_heads(const void *left, const void *right)
{
	const struct docket *a = left;
	const struct docket *b = right;
	int order = ORDER(docket_key(a), docket_key(b));
	return order != 0 ? order : strcmp(a->station, b->station);
}

void
docket_heads_join(struct docket_heads *heads)
{
	size_t kept = 0;
	ARRAY_SORT(heads->items, heads->count, compare_heads);
	for (size_t i = 0; i < heads->count; i++) {
		const struct docket *more = &heads->items[i];
		if (kept == 0 || compare_heads(&heads->items[kept - 1], more) != 0) {
			heads->items[kept++] = *more;
			continue;
		}
		struct docket *head = &heads->items[kept - 1];
		head->assumed = head->assumed || more->assumed;
		head->collect = day_max(head->collect, more->collect);
		head->count += more->count;
		head->inside += more->inside;
		head->vessel_count += more->vessel_count;
		head->hazards |= more->hazards;
	}
	heads->count = kept;
	heads->last = 0;
}

static bool
is_of(const struct docket *docket, int64_t key, const char *word)
{
	size_t length = strlen(docket->station);
	const char *end =
	    strrchr(word, NAME_END); /* a careless book's name may have one, too */
	return docket_key(docket) == key && (size_t)(end - word) == length &&
	       memcmp(word, docket->station, length) == 0;
}

const struct docket *
docket_heads_of(struct docket_heads *heads, int64_t key, const char *word)
{
	/* pieces come in the dockets' order */
	while (!is_of(&heads->items[heads->last], key, word)) {
		heads->last = (heads->last + 1) % heads->count;
	}
	return &heads->items[heads->last];
}
