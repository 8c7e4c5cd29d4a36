/* A book in a directory of its own, for the tests of the book room. */
#ifndef BECKET_BOOK_SCRATCH_H
#define BECKET_BOOK_SCRATCH_H

#include "becket_test.h"
#include "book/contents.h"
#include "book/putting.h"
#include "in_words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct scratch {
	char directory[64];
	char path[96];
	struct book *book;
	struct fault fault;
};

static inline void
scratch_done(const struct scratch *scratch, bool done, const char *call)
{
	if (!done) {
		fail_msg("%s: %s", call, scratch->fault.text);
	}
}

#define assert_done(scratch, call) scratch_done((scratch), (call), #call)

static inline void
assert_says(const struct scratch *scratch, enum fault_kind kind, const char *words)
{
	assert_int_equal(scratch->fault.kind, kind);
	if (strstr(scratch->fault.text, words) == NULL) {
		fail_msg("\"%s\" does not say \"%s\"", scratch->fault.text, words);
	}
}

static inline int
scratch_begin(void **state)
{
	struct scratch *scratch = calloc(1, sizeof *scratch);
	assert_non_null(scratch);
	(void)snprintf(
	    scratch->directory, sizeof scratch->directory, "/tmp/becket-book-XXXXXX");
	assert_non_null(mkdtemp(scratch->directory));
	(void)snprintf(
	    scratch->path, sizeof scratch->path, "%s/boats.book", scratch->directory);
	assert_done(scratch,
	    book_open(scratch->path, BOOK_CREATE, &scratch->book, &scratch->fault));
	*state = scratch;
	return 0;
}

static inline int
scratch_end(void **state)
{
	struct scratch *scratch = *state;
	static const char *const ENDINGS[] = {"", "-wal", "-shm"};
	book_close(scratch->book);
	for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++) {
		char name[128];
		(void)snprintf(name, sizeof name, "%s%s", scratch->path, ENDINGS[i]);
		(void)unlink(name);
	}
	int removed = rmdir(scratch->directory);
	free(scratch);
	return removed;
}

/* A test with a new book of its own, `scratch`. */
#define SCRATCH_TEST(name)                                                               \
	TEST_OF(struct scratch, scratch, name, scratch_begin, scratch_end)

/* Closes the book and opens it again. */
static inline void
scratch_reopen(struct scratch *scratch, enum book_mode mode)
{
	book_close(scratch->book);
	scratch->book = NULL;
	assert_done(
	    scratch, book_open(scratch->path, mode, &scratch->book, &scratch->fault));
}

/* Reads everything; the caller clears it. */
static inline struct book_contents
scratch_load(struct scratch *scratch)
{
	struct book_contents contents = {0};
	assert_done(
	    scratch, book_load(scratch->book, NULL, true, &contents, &scratch->fault));
	return contents;
}

#define SCOPED_CONTENTS __attribute__((cleanup(book_contents_clear))) struct book_contents

/* The item with this tag among those loaded. */
static inline const struct item *
scratch_item(const struct book_contents *contents, const char *tag)
{
	for (size_t i = 0; i < contents->inventory.item_count; i++) {
		if (strcmp(contents->inventory.items[i].tag, tag) == 0) {
			return &contents->inventory.items[i];
		}
	}
	fail_msg("no item %s", tag);
	return NULL;
}

/* A raft on the invented boat "Amber Tern", with the least that a new item needs. */
static inline void
scratch_put(struct scratch *scratch, const char *tag)
{
	const struct item_change change = {
	    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND,
	    .tag = tag,
	    .vessel = "Amber Tern",
	    .kind = "liferaft-canister",
	};
	assert_done(
	    scratch, book_put_items(scratch->book, &change, 1, NULL, &scratch->fault));
}

static inline void
assert_stamp(struct stamp found, const char *expected)
{
	char text[STAMP_TEXT_SIZE];
	assert_string_equal(stamp_text(found, text), expected);
}

#endif
