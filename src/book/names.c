/* Names that the book holds. */
#include "book/call.h"

#include <assert.h>

static void
take_name(struct call *call, struct arena *arena, void *out)
{
	*(const char **)out = take_text(call, arena);
}

bool
book_names(struct book *book, enum book_names names, struct arena *arena,
    struct word_list *out, struct fault *fault)
{
	static const enum statement LISTS[] = {
	    [BOOK_TAGS] = NAMES_OF_ITEMS,
	    [BOOK_VESSELS] = NAMES_OF_VESSELS,
	    [BOOK_STATIONS] = NAMES_OF_STATIONS,
	    [BOOK_BASES] = NAMES_OF_BASES,
	    [BOOK_BERTHS] = NAMES_OF_BERTHS,
	    [BOOK_BASELESS] = NAMES_OF_BASELESS,
	    [BOOK_BOATS] = NAMES_OF_BOATS,
	};

	SCOPED_CALL call = {0};
	*out = (struct word_list){0};
	return (call_open(book, LISTS[names], &call, fault) &&
		   call_rows(&call, arena, take_name, sizeof *out->items, &out->items,
		       &out->count, fault)) ||
	       fault_prefix(fault, "reading the names in the book");
}

bool
book_has_name(struct book *book, enum book_names names, const char *name, bool *out,
    struct fault *fault)
{
	static const enum statement FINDS[] = {
	    [BOOK_TAGS] = ITEM_FIND,
	    [BOOK_VESSELS] = VESSEL_FIND,
	    [BOOK_STATIONS] = STATION_FIND,
	    [BOOK_BASES] = BASE_FIND,
	    [BOOK_BERTHS] = BERTH_FIND,
	};

	int64_t found = 0;
	assert(names < BOOK_BASELESS);
	if (!call_id(book, FINDS[names], name, &found, fault)) {
		return fault_prefix(fault, "looking up a name in the book");
	}
	*out = found != 0;
	return true;
}

bool
book_bearers(struct book *book, const char *words, bool past, struct arena *arena,
    struct word_list *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	*out = (struct word_list){0};
	if (!call_open(book, BEARERS, &call, fault)) {
		return false;
	}
	give_text(&call, words);
	give_int(&call, past);
	return call_rows(&call, arena, take_name, sizeof *out->items, &out->items,
		   &out->count, fault) ||
	       fault_prefix(fault, "looking up a serial number in the book");
}
