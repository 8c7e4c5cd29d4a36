/* What a load begins with: the vessels of a part of the book, and how many rows there are. */
#include "book/rows.h"

/* Gives what makes up a part: its vessels, base and tags, how far it reaches, and whether its gear
 * is wanted. */
static bool
open_of_part(struct book *book, const struct book_part *part, struct call *call,
    struct fault *fault)
{
	if (!call_open(book, LOAD_COUNTS_OF, call, fault)) {
		return false;
	}
	give_words(call, part->vessels, part->vessel_count);
	give_text(call, part->base);
	give_words(call, part->tags, part->tag_count);
	give_int(call, part->reach == REACH_BASES    ? 2
		       : part->reach == REACH_STORES ? 1
						     : 0);
	give_int(call, part->reach != REACH_ALONE);
	give_int(call, !part->without_gear);
	return true;
}

/* What the statement for one vessel gives instead of 1 when a part of her gear is on
 * another vessel. */
enum { PARTS_ELSEWHERE = 2 };

/* True for a part that is one vessel and no more. Most questions are about one, and a
 * statement of its own, which takes a third of the work to prepare, counts her rows. */
static bool
is_one(const struct book_part *part)
{
	return part->vessel_count == 1 && part->base == NULL && part->tag_count == 0 &&
	       part->reach == REACH_ALONE;
}

static bool
open_of_one(struct book *book, const struct book_part *part, struct call *call,
    struct fault *fault)
{
	if (!call_open(book, LOAD_COUNTS_OF_ONE, call, fault)) {
		return false;
	}
	give_text(call, part->vessels[0]);
	return true;
}

static void
take_counts(struct call *call, struct loading *loading)
{
	struct counts *counts = &loading->counts;
	size_t *const in_order[] = {&counts->vessels, &counts->periods, &counts->winters,
	    &counts->away, &counts->bookings, &counts->sheets, &counts->stations,
	    &counts->closures, &counts->kinds, &counts->shut, &counts->paces,
	    &counts->makes, &counts->prices, &counts->items, &counts->records,
	    &counts->events, &counts->extensions, &counts->movements, &counts->intervals};
	loading->revision = take_int(call);
	for (size_t i = 0; i < sizeof in_order / sizeof in_order[0]; i++) {
		*in_order[i] = (size_t)take_int(call);
	}
}

bool
load_counts(struct loading *loading, const struct book_part *part, bool *there_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	bool opened = part == NULL   ? call_open(loading->book, LOAD_COUNTS, &call, fault)
		      : is_one(part) ? open_of_one(loading->book, part, &call, fault)
				     : open_of_part(loading->book, part, &call, fault);
	if (!opened || !call_row(&call, &row, fault)) {
		return false;
	}
	if (!row) {
		*there_out = false;
		return true;
	}
	int64_t there = part == NULL ? 1 : take_int(&call);
	*there_out = there != 0;
	loading->parts_elsewhere = there == PARTS_ELSEWHERE;
	loading->wanted = part == NULL ? NULL : take_text(&call, loading->arena);
	take_counts(&call, loading);
	return true;
}
