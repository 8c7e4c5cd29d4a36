/* The gear that has new tags and serial numbers already, or ones that may be mistaken for
 * them. */
#include "base/alike.h"
#include "desk/ranges.h"
#include "exchange/inventory_csv.h"
#include "life/names.h"
#include "life/serials.h"

#include <string.h>

/* With more new things than these, or more gear near them, all of the book is
 * compared. */
enum { NEWCOMERS_MOST = 20, NEAR_MOST = 200 };

struct looking {
	struct desk *desk;
	const struct newcomers *newcomers;
	const char *kind;
	struct last_tags last;  /* of the kind; owned */
	struct word_list tags;  /* those that are to be, fresh ones too */
	struct word_list words; /* what the part is made of */
	int64_t as_of;          /* the book's revision before anything was looked for */
};

static void
take_kind(void *context, const struct book_mark *mark)
{
	struct looking *looking = context;
	if (strcmp(mark->tag, looking->newcomers->lot) == 0) {
		looking->kind = arena_string(&looking->desk->arena, mark->kind);
	}
}

static void
take_last(void *context, const struct book_mark *mark)
{
	struct looking *looking = context;
	last_tags_see(&looking->last, mark->tag);
}

static bool
is_near(const struct looking *looking, const struct book_mark *mark)
{
	const struct word_list *tags = &looking->tags;
	const struct word_list *serials = &looking->newcomers->serials;
	bool near = false;
	for (size_t i = 0; i < tags->count && !near && !mark->past; i++) {
		near = names_alike(mark->tag, tags->items[i]) != ALIKE_NOT ||
		       (strcmp(mark->kind, looking->kind) == 0 &&
			   name_one_letter_apart(mark->tag, tags->items[i]));
	}
	for (size_t i = 0; i < serials->count && !near && mark->serial[0] != '\0'; i++) {
		near = serial_same(mark->serial, serials->items[i]) ||
		       serial_near(mark->serial, serials->items[i]);
	}
	return near;
}

static void
take_near(void *context, const struct book_mark *mark)
{
	struct looking *looking = context;
	if (looking->words.count <= NEAR_MOST && is_near(looking, mark)) {
		ARENA_ADD(&looking->desk->arena, &looking->words,
		    arena_string(&looking->desk->arena, mark->tag));
	}
}

/* Finds where the fresh tags go on, and which they are. */
static bool
find_fresh(struct looking *looking)
{
	struct fault ignored = {0};
	struct book *book = looking->desk->book;
	last_tags_want(&looking->last, looking->kind);
	if (!book_marks(book, false, take_last, looking, &ignored)) {
		return false;
	}
	bool any = looking->last.items->number >= 0;
	const struct item last = {.tag = arena_string(&looking->desk->arena,
				      text_string(&looking->last.items->tag))};
	const struct inventory known = {.items = &last, .item_count = any ? 1 : 0};
	if (any) {
		ARENA_ADD(&looking->desk->arena, &looking->words, last.tag);
	}
	const char **tags = NULL;
	size_t count = looking->newcomers->fresh;
	if (!tags_fresh(looking->kind, &known, count, &looking->desk->arena, &tags)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		ARENA_ADD(&looking->desk->arena, &looking->tags, tags[i]);
	}
	return true;
}

/* Finds all that the part is made of; false where it is all of the book. */
static bool
find(struct looking *looking)
{
	const struct newcomers *newcomers = looking->newcomers;
	struct fault ignored = {0};
	struct book *book = looking->desk->book;
	size_t count =
	    newcomers->tags.count + newcomers->fresh + newcomers->serials.count;
	if (count > NEWCOMERS_MOST ||
	    (count > 0 && !book_revision(book, &looking->as_of, &ignored))) {
		return false;
	}
	if (looking->kind == NULL && newcomers->lot != NULL &&
	    !book_marks(book, false, take_kind, looking, &ignored)) {
		return false;
	}
	for (size_t i = 0; i < newcomers->tags.count; i++) {
		ARENA_ADD(
		    &looking->desk->arena, &looking->tags, newcomers->tags.items[i]);
	}
	bool named = looking->kind != NULL || newcomers->fresh == 0;
	if (!named || (newcomers->fresh > 0 && !find_fresh(looking))) {
		return false;
	}
	bool looks = looking->tags.count + newcomers->serials.count > 0;
	return (!looks || book_marks(book, newcomers->serials.count > 0, take_near,
			      looking, &ignored)) &&
	       looking->words.count <= NEAR_MOST;
}

const struct book_part *
newcomers_part(struct desk *desk, const struct newcomers *newcomers)
{
	struct looking looking = {
	    .desk = desk, .newcomers = newcomers, .kind = newcomers->kind};
	struct fault ignored = {0};
	bool found = desk_book(desk, &ignored) && find(&looking);
	last_tags_clear(&looking.last);
	if (!found) {
		return NULL;
	}
	for (size_t i = 0; i < newcomers->with.count; i++) {
		ARENA_ADD(&desk->arena, &looking.words, newcomers->with.items[i]);
	}
	const struct book_part *named =
	    looking.words.count > 0
		? range_part(desk, &looking.words, newcomers->vessel)
		: vessel_part(desk, newcomers->vessel, REACH_FAMILIES);
	if (named == NULL) {
		return NULL;
	}
	struct book_part *part = arena_alloc(&desk->arena, sizeof *part);
	*part = *named;
	part->base = newcomers->base;
	part->as_of = looking.as_of;
	return part;
}
