/* The rows of a list of gear, packed one behind the other in a spool, so that a list of
 * any size needs little memory. */
#ifndef BECKET_EXCHANGE_CSV_ROWS_H
#define BECKET_EXCHANGE_CSV_ROWS_H

#include "base/spool.h"
#include "gear/item.h"

/* One row: what is written about the item, and perhaps one record. A cell that is blank
 * in a column that is there empties the field; a column that is not there leaves it
 * alone. The tag, and for an item with a tag also its vessel and kind, can't be emptied:
 * blank leaves them alone.
 *
 * To import: write all changes, add the records by day with the oldest first, then write
 * the changes again, since a record of a renewal clears the dates of what it replaced. */
struct csv_row {
	size_t line; /* where it starts in the file, the header being line 1 */
	size_t at;   /* where it stands among the rows, for csv_rows_at */
	struct item_change change;
	unsigned given; /* bit 1 << enum item_field for each cell that was not blank */
	bool has_record;
	struct record record; /* from served, task, next, station, certificate */
	/* there is a record, and no column names its task, so that a service is supposed
	 * */
	bool implied;
	bool tag_made; /* the row had no tag: change.tag is NULL until csv_find_tags */
	bool further;  /* one more record of an item that an earlier row is about, with
			* the same tag; its change says no more than vessel and kind */
};

/* A row with nothing in it. */
struct csv_row csv_row_blank(void);

/* A digest of something about a row, and where the row stands. */
struct csv_digest {
	int64_t digest;
	size_t at;
	size_t asks; /* 1 where it only asks whether a row has it, else 0 */
};

/* Digests, all but the latest in sorted runs in a file. Starts as `{ 0 }`; free with
 * csv_digests_clear. */
struct csv_digests {
	struct csv_digest *items; /* owned; the latest */
	size_t count;
	size_t capacity;
	struct runs runs;
};

void csv_digests_clear(struct csv_digests *digests);

/* Adds the digest of some words, none of them NULL, about the row that stands at a place. Each
 * word's end counts, so that "ab", "c" is another than "a", "bc". With `asks` it only asks
 * whether any row has the digest. */
void csv_digests_add(struct csv_digests *digests, const char *const *words, size_t count,
    size_t at, bool asks);

/* Calls `take` for each digest, sorted, those of one digest by their rows, those that
 * only ask perhaps behind. FAULT_FILE, then behind some of them. */
typedef void csv_digest_take(const struct csv_digest *one, void *context);
MUST_CHECK bool csv_digests_each(struct csv_digests *digests, csv_digest_take *take,
    void *context, struct fault *fault);

/* Starts as `{ 0 }`; free with csv_rows_clear. */
struct csv_rows {
	size_t count;
	bool untagged;     /* one has no tag */
	bool renewing;     /* one has a record of a renewal */
	bool implying;     /* one has a service that is supposed */
	bool going_on;     /* one brings a further record */
	bool tells_refits; /* the list has a column of refits */
	/* the column of a record's day, as complaints call it; in the arena of the
	 * reading */
	const char *served_cell;
	/* owned: remarks worth showing, a line each (a header ignored, a kind guessed) */
	struct text notes;
	struct text *complaints; /* as the options had it */
	/* the rest is the rows' own */
	/* those that the list itself gives, until csv_find_tags, which asks for the wholes of
	 * parts among them */
	struct csv_digests tags;
	struct spool packed;
	struct text packing;
	struct csv_row blank; /* once there is a row */
};

void csv_rows_clear(struct csv_rows *rows);

/* Adds a copy of a row. */
void csv_rows_add(struct csv_rows *rows, const struct csv_row *row);

/* Calls `take` for each row in order, until it is false. The row may be changed, without
 * effect on what is kept; its words live until `take` returns. FAULT_FILE, and what
 * `take` says. */
typedef bool csv_row_take(struct csv_row *row, void *context, struct fault *fault);
MUST_CHECK bool csv_rows_each(
    const struct csv_rows *rows, csv_row_take *take, void *context, struct fault *fault);

/* Reads the row that stands at a place; its words live in the arena. FAULT_FILE. */
MUST_CHECK bool csv_rows_at(const struct csv_rows *rows, size_t at, struct arena *arena,
    struct csv_row *out, struct fault *fault);

/* Calls `take` with the rows that may have the same words, two or more, in their order:
 * those of one digest. Their words live until it returns. FAULT_FILE. */
typedef void csv_alike_take(struct csv_row *rows, size_t count, void *context);
MUST_CHECK bool csv_rows_alike(const struct csv_rows *rows, struct csv_digests *digests,
    csv_alike_take *take, void *context, struct fault *fault);

/* Where rows stand, in their order. Starts as `{ 0 }`; free() its items. */
struct csv_places {
	size_t *items; /* owned */
	size_t count;
	size_t capacity;
};

bool csv_places_have(const struct csv_places *places, size_t at);

/* Finds, of the parts that ask among the rows' tags for that of their whole, those of which the
 * list itself gives none, in the order in which they stand. FAULT_FILE. */
MUST_CHECK bool csv_rows_without_whole(
    struct csv_rows *rows, struct csv_places *out, struct fault *fault);

/* Some rows one after the other. Starts as `{ .rows = rows }`; free with csv_batch_clear.
 * */
struct csv_batch {
	const struct csv_rows *rows; /* borrowed */
	struct csv_row *items;       /* owned; their words live until the next are read */
	size_t count;
	size_t at_once; /* so many bytes of the spool are read; 0: as many as is usual */
	size_t cut; /* as long as more follow, only so many rows, or a multiple; 0: any */
	/* the rest is the batch's own */
	size_t capacity;
	size_t next;
	size_t used;
	struct text bytes;
};

void csv_batch_clear(struct csv_batch *batch);

/* Reads the next rows; none are there at the end. FAULT_FILE. */
MUST_CHECK bool csv_batch_next(struct csv_batch *batch, struct fault *fault);

/* A row of the batch as it is packed, so many bytes; until the next are read. */
const char *csv_batch_packed(
    const struct csv_batch *batch, size_t index, size_t *length_out);

/* Unpacks a row, whose words stay in the bytes, and returns how many these are. `blank` is a row
 * with nothing in it. */
size_t csv_row_unpack(
    const char *bytes, const struct csv_row *blank, struct csv_row *out);

#define SCOPED_BATCH __attribute__((cleanup(csv_batch_clear))) struct csv_batch
#define SCOPED_ROWS __attribute__((cleanup(csv_rows_clear))) struct csv_rows
#define SCOPED_DIGESTS __attribute__((cleanup(csv_digests_clear))) struct csv_digests

#endif
