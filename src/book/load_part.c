/* Which vessels a part of the book is on. */
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

bool
load_want(struct loading *loading, const struct book_part *part, bool *there_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_TEXT vessels = {0};
	SCOPED_TEXT tags = {0};
	bool row = false;
	add_list(part->vessels, part->vessel_count, &vessels);
	add_list(part->tags, part->tag_count, &tags);
	if (!call_open(loading->book, WANTED, &call, fault)) {
		return false;
	}
	give_text(&call, text_string(&vessels));
	give_text(&call, part->base);
	give_text(&call, text_string(&tags));
	give_int(&call, part->reach == REACH_BASES    ? 2
			: part->reach == REACH_STORES ? 1
						      : 0);
	give_int(&call, part->reach != REACH_ALONE);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*there_out = row && take_int(&call) != 0;
	loading->wanted = *there_out ? take_text(&call, loading->arena) : NULL;
	return true;
}
