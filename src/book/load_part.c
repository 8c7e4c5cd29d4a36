/* What a load begins with: the vessels of a part of the book, and how many rows there are. */
#include "base/text.h"
#include "book/load.h"

/* A list as JSON has it (RFC 8259, 7). */
static void
add_list(const char *const *words, size_t count, struct text *out)
{
	text_add_byte(out, '[');
	for (size_t i = 0; i < count; i++) {
		text_add(out, i == 0 ? "\"" : ",\"");
		for (const char *at = words[i]; *at != '\0'; at++) {
			unsigned char byte = (unsigned char)*at;
			bool told = byte < ' ' || byte == '"' || byte == '\\';
			text_add_format(out, told ? "\\u%04x" : "%c", byte);
		}
		text_add_byte(out, '"');
	}
	text_add_byte(out, ']');
}

/* Gives what makes up a part: its vessels, base and tags, and how far it reaches. */
static bool
open_of_part(struct book *book, const struct book_part *part, struct text *vessels,
    struct text *tags, struct call *call, struct fault *fault)
{
	add_list(part->vessels, part->vessel_count, vessels);
	add_list(part->tags, part->tag_count, tags);
	if (!call_open(book, LOAD_COUNTS_OF, call, fault)) {
		return false;
	}
	give_text(call, text_string(vessels));
	give_text(call, part->base);
	give_text(call, text_string(tags));
	give_int(call, part->reach == REACH_BASES    ? 2
		       : part->reach == REACH_STORES ? 1
						     : 0);
	give_int(call, part->reach != REACH_ALONE);
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
	SCOPED_TEXT vessels = {0};
	SCOPED_TEXT tags = {0};
	bool row = false;
	bool opened = part == NULL ? call_open(loading->book, LOAD_COUNTS, &call, fault)
				   : open_of_part(loading->book, part, &vessels, &tags,
					 &call, fault);
	if (!opened || !call_row(&call, &row, fault)) {
		return false;
	}
	*there_out = part == NULL || take_int(&call) != 0;
	loading->wanted = part == NULL ? NULL : take_text(&call, loading->arena);
	take_counts(&call, loading);
	return true;
}
