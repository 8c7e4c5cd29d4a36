/* Which vessels a part of the book is on. */
#include "book/load.h"

/* Notes a vessel by its number; false in *there where that is 0. */
static bool
want(struct book *book, int64_t vessel, bool *there, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (vessel == 0) {
		*there = false;
		return true;
	}
	if (!call_open(book, WANTED_ADD, &call, fault)) {
		return false;
	}
	give_int(&call, vessel);
	return call_run(&call, fault);
}

/* Notes the vessels of a base. */
static bool
want_at(struct book *book, const char *base, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, WANTED_AT_BASE, &call, fault)) {
		return false;
	}
	give_text(&call, base);
	return call_run(&call, fault);
}

/* Those that are named, and those of what is named. */
static bool
want_named(
    struct book *book, const struct book_part *part, bool *there_out, struct fault *fault)
{
	int64_t vessel = 0;
	*there_out = true;
	if (part->vessel != NULL &&
	    (!call_id(book, VESSEL_FIND, part->vessel, &vessel, fault) ||
		!want(book, vessel, there_out, fault))) {
		return false;
	}
	if (part->base != NULL && !want_at(book, part->base, fault)) {
		return false;
	}
	for (size_t i = 0; i < part->tag_count && *there_out; i++) {
		if (!call_id(book, ITEM_VESSEL, part->tags[i], &vessel, fault) ||
		    !want(book, vessel, there_out, fault)) {
			return false;
		}
	}
	return true;
}

/* Those that have to do with them. */
static bool
want_further(struct book *book, enum book_reach reach, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (reach == REACH_STORES || reach == REACH_BASES) {
		if (!call_open(book, WANTED_BASES, &call, fault)) {
			return false;
		}
		give_int(&call, reach == REACH_BASES);
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return reach == REACH_ALONE || call_plain(book, WANTED_FAMILIES, fault);
}

bool
load_want(
    struct book *book, const struct book_part *part, bool *there_out, struct fault *fault)
{
	int before = sqlite3_total_changes(book->db);
	bool done = call_plain(book, WANTED_TABLE, fault) &&
		    call_plain(book, WANTED_CLEAR, fault) &&
		    want_named(book, part, there_out, fault) &&
		    (!*there_out || want_further(book, part->reach, fault));
	/* what is wanted is no change of the book */
	book->total += sqlite3_total_changes(book->db) - before;
	return done;
}
