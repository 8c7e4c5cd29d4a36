/* Digests of what rows say, sorted, most of them in a file. */
#include "base/memory.h"
#include "base/numbers.h"
#include "exchange/csv_rows.h"

#include <stdlib.h>
#include <string.h>

/* So many digests are held. */
enum { DIGESTS_HELD = 16 * 1024 };

void
csv_digests_clear(struct csv_digests *digests)
{
	free(digests->items);
	runs_clear(&digests->runs);
	*digests = (struct csv_digests){0};
}

static int64_t
digest_of(const char *const *words, size_t count)
{
	uint64_t digest = DIGEST_START;
	for (size_t i = 0; i < count; i++) {
		for (const char *at = words[i]; *at != '\0'; at++) {
			digest = digest_mix(digest, (unsigned char)*at);
		}
		digest = digest_mix(digest, 0);
	}
	int64_t key = 0;
	memcpy(&key, &digest, sizeof key);
	return key;
}

static int
by_digest(const void *a, const void *b)
{
	const struct csv_digest *x = a;
	const struct csv_digest *y = b;
	return ORDER_THEN(ORDER(x->digest, y->digest), x->at, y->at);
}

/* Puts what is held into a run. */
static void
end_run(struct csv_digests *digests)
{
	if (digests->count == 0) {
		return;
	}
	ARRAY_SORT(digests->items, digests->count, by_digest);
	for (size_t i = 0; i < digests->count; i++) {
		const struct csv_digest *one = &digests->items[i];
		runs_add(&digests->runs, &(struct run_piece){one->digest,
					     (const char *)one, sizeof *one, NULL});
	}
	runs_end(&digests->runs);
	digests->count = 0;
}

void
csv_digests_add(struct csv_digests *digests, const char *const *words, size_t count,
    size_t at, bool asks)
{
	if (digests->count == DIGESTS_HELD) {
		end_run(digests);
	}
	ARRAY_ADD(
	    digests, (struct csv_digest){digest_of(words, count), at, asks ? 1 : 0});
}

/* What each digest is handed to. */
struct digest_taker {
	csv_digest_take *take;
	void *context;
};

static void
take_piece(const struct run_piece *piece, void *context)
{
	const struct digest_taker *taker = context;
	struct csv_digest one;
	memcpy(&one, piece->bytes, sizeof one);
	taker->take(&one, taker->context);
}

bool
csv_digests_each(struct csv_digests *digests, csv_digest_take *take, void *context,
    struct fault *fault)
{
	struct digest_taker taker = {take, context};
	if (digests->runs.count > 0) {
		end_run(digests);
		return runs_merge(&digests->runs, take_piece, &taker, fault);
	}
	ARRAY_SORT(digests->items, digests->count, by_digest);
	for (size_t i = 0; i < digests->count; i++) {
		take(&digests->items[i], context);
	}
	return true;
}
