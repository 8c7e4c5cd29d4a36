/* Sorted runs of pieces, merged through a heap of their first ones. */
#include "base/memory.h"
#include "base/numbers.h"
#include "base/spool.h"

#include <stdlib.h>
#include <string.h>

/* What stands before the word of a piece, which its bytes follow. */
struct piece_head {
	int64_t key;
	size_t word; /* its length, with the zero at its end */
	size_t length;
};

/* So many bytes of a run are read at once. */
enum { RUN_READ = 8 * 1024 };

void
runs_clear(struct runs *runs)
{
	spool_clear(&runs->spool);
	free(runs->items);
	*runs = (struct runs){0};
}

void
runs_add(struct runs *runs, const struct run_piece *piece)
{
	const char *word = piece->word == NULL ? "" : piece->word;
	const struct piece_head head = {piece->key, strlen(word) + 1, piece->length};
	spool_add(&runs->spool, (const char *)&head, sizeof head);
	spool_add(&runs->spool, word, head.word);
	spool_add(&runs->spool, piece->bytes, piece->length);
}

void
runs_add_long(struct runs *runs, const struct run_piece *piece)
{
	for (size_t at = 0; at < piece->length; at += RUN_READ) {
		runs_add(runs, &(struct run_piece){piece->key, piece->bytes + at,
				   LESSER(piece->length - at, RUN_READ), piece->word});
	}
}

void
runs_end(struct runs *runs)
{
	ARRAY_ADD(runs, runs->spool.length);
}

/* A run being read. */
struct run_reader {
	size_t next; /* where in the spool what is not read yet begins */
	size_t end;
	struct text held; /* read, from `at` on not handed out */
	size_t at;
	size_t run;
	struct piece_head head; /* of its first piece, which is held whole */
};

/* The word of its first piece. */
static const char *
word_of(const struct run_reader *reader)
{
	return reader->held.bytes + reader->at + sizeof reader->head;
}

/* How many bytes its first piece takes. */
static size_t
size_of(const struct run_reader *reader)
{
	return sizeof reader->head + reader->head.word + reader->head.length;
}

/* Has so many bytes held from `at` on. */
static bool
hold(const struct spool *spool, struct run_reader *reader, size_t length,
    struct fault *fault)
{
	size_t held = reader->held.length - reader->at;
	if (held >= length) {
		return true;
	}
	size_t left = reader->end - reader->next;
	size_t more = LESSER(GREATER(length - held, RUN_READ), left);
	if (held > 0) {
		memmove(reader->held.bytes, reader->held.bytes + reader->at, held);
	}
	reader->held.length = held;
	reader->at = 0;
	char *out = text_grow(&reader->held, more);
	reader->next += more;
	return spool_read(spool, reader->next - more, out, more, fault);
}

/* Has the next piece of a run held whole; *there_out false at its end. */
static bool
read_piece(const struct spool *spool, struct run_reader *reader, bool *there_out,
    struct fault *fault)
{
	*there_out = reader->next < reader->end || reader->at < reader->held.length;
	if (!*there_out) {
		return true;
	}
	if (!hold(spool, reader, sizeof reader->head, fault)) {
		return false;
	}
	memcpy(&reader->head, reader->held.bytes + reader->at, sizeof reader->head);
	return hold(spool, reader, size_of(reader), fault);
}

static bool
is_before(const struct run_reader *a, const struct run_reader *b)
{
	int order = ORDER(a->head.key, b->head.key);
	order = order != 0 ? order : strcmp(word_of(a), word_of(b));
	return ORDER_THEN(order, a->run, b->run) < 0;
}

/* Moves the first of a heap down to where it belongs. */
static void
sift(struct run_reader **heap, size_t count, size_t at)
{
	struct run_reader *moved = heap[at];
	for (size_t child = 2 * at + 1; child < count; child = 2 * at + 1) {
		if (child + 1 < count && is_before(heap[child + 1], heap[child])) {
			child++;
		}
		if (!is_before(heap[child], moved)) {
			break;
		}
		heap[at] = heap[child];
		at = child;
	}
	heap[at] = moved;
}

/* Begins to read each run, and makes a heap of those that have a piece. */
static bool
open_readers(const struct runs *runs, struct run_reader *readers,
    struct run_reader **heap, size_t *count_out, struct fault *fault)
{
	for (size_t i = 0; i < runs->count; i++) {
		bool there = false;
		readers[i].next = i == 0 ? 0 : runs->items[i - 1];
		readers[i].end = runs->items[i];
		readers[i].run = i;
		if (!read_piece(&runs->spool, &readers[i], &there, fault)) {
			return false;
		}
		if (there) {
			heap[(*count_out)++] = &readers[i];
		}
	}
	for (size_t i = *count_out / 2; i > 0; i--) {
		sift(heap, *count_out, i - 1);
	}
	return true;
}

static bool
merge(const struct runs *runs, struct run_reader *readers, struct run_reader **heap,
    void (*take)(const struct run_piece *piece, void *context), void *context,
    struct fault *fault)
{
	size_t count = 0;
	if (!open_readers(runs, readers, heap, &count, fault)) {
		return false;
	}
	while (count > 0) {
		struct run_reader *first = heap[0];
		bool there = false;
		const char *word = word_of(first);
		take(&(struct run_piece){first->head.key, word + first->head.word,
			 first->head.length, word},
		    context);
		first->at += size_of(first);
		if (!read_piece(&runs->spool, first, &there, fault)) {
			return false;
		}
		if (!there) {
			text_clear(&first->held);
			heap[0] = heap[--count];
		}
		if (count > 0) {
			sift(heap, count, 0);
		}
	}
	return true;
}

bool
runs_merge(const struct runs *runs,
    void (*take)(const struct run_piece *piece, void *context), void *context,
    struct fault *fault)
{
	struct arena arena = {0};
	struct run_reader *readers = ARENA_MANY(&arena, struct run_reader, runs->count);
	struct run_reader **heap = ARENA_MANY(&arena, struct run_reader *, runs->count);
	bool done = merge(runs, readers, heap, take, context, fault);
	for (size_t i = 0; i < runs->count; i++) {
		text_clear(&readers[i].held);
	}
	arena_clear(&arena);
	return done;
}
