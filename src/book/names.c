/* Names that the book holds. */
#include "book/call.h"
#include "book/rows.h"

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
	    [BOOK_LANDED] = NAMES_OF_LANDED,
	    [BOOK_SPLIT] = NAMES_OF_SPLIT,
	    [BOOK_UNWINTERED] = NAMES_OF_UNWINTERED,
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
book_lots(struct book *book, const char *const *tags, size_t count, struct arena *arena,
    struct word_list *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	*out = (struct word_list){0};
	if (!call_open(book, NAMES_OF_LOTS, &call, fault)) {
		return false;
	}
	give_words(&call, tags, count);
	return call_rows(&call, arena, take_name, sizeof *out->items, &out->items,
		   &out->count, fault) ||
	       fault_prefix(fault, "reading the lots in the book");
}

static void
take_tie(struct call *call, struct arena *arena, void *out)
{
	struct book_tie *tie = out;
	tie->vessel = take_text(call, arena);
	tie->to = take_text(call, arena);
	tie->by_gear = take_int(call) != 0;
}

bool
book_ties(struct book *book, struct arena *arena, const struct book_tie **out,
    size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct book_tie *ties = NULL;
	if (!call_open(book, TIES, &call, fault) ||
	    !call_rows(&call, arena, take_tie, sizeof *ties, &ties, count_out, fault)) {
		return fault_prefix(
		    fault, "reading which boats have to do with each other");
	}
	*out = ties;
	return true;
}

/* Passes on all rows of a statement. */
static bool
tell_marks(struct book *book, enum statement statement, book_mark_taker *take,
    void *context, struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_TEXT tag = {0};
	SCOPED_TEXT kind = {0};
	SCOPED_TEXT serial = {0};
	bool row = false;
	if (!call_open(book, statement, &call, fault) || !call_row(&call, &row, fault)) {
		return false;
	}
	while (row) {
		text_reset(&tag);
		text_reset(&kind);
		text_reset(&serial);
		take_bytes(&call, &tag);
		take_bytes(&call, &kind);
		take_bytes(&call, &serial);
		take(context, &(struct book_mark){text_string(&tag), text_string(&kind),
				  text_string(&serial), statement == PAST_MARKS});
		if (!call_row(&call, &row, fault)) {
			return false;
		}
	}
	return true;
}

bool
book_marks(struct book *book, bool past, book_mark_taker *take, void *context,
    struct fault *fault)
{
	return (tell_marks(book, MARKS, take, context, fault) &&
		   (!past || tell_marks(book, PAST_MARKS, take, context, fault))) ||
	       fault_prefix(fault, "reading the marks of the gear in the book");
}
