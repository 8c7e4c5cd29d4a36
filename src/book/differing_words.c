/* What differs in words. */
#include "base/memory.h"
#include "book/check_inside.h"

void
differing_add(struct arena *arena, struct differing *out, struct differing_value value)
{
	value.words = arena_string(arena, value.words);
	ARENA_ADD(arena, out, value);
}

void
differing_add_name(const struct row_subject *subject, struct text *out)
{
	if (subject->name[0] != '\0') {
		text_add(out, subject->name);
	} else {
		add_column_label(subject->about, out);
	}
}

static void
add_words(struct text *out, const char *words)
{
	text_add(out, words[0] == '\0' ? "nothing" : words);
}

bool
differing_value_words(struct row_wording *wording, const struct table_shape *shape,
    const struct value *was, const struct value *is, size_t column, struct text *out,
    struct fault *fault)
{
	struct row_subject subject = {0};
	const char *was_words = "";
	const char *is_words = "";
	SCOPED_TEXT part = {0};
	if (!row_subject(wording, shape, is, &subject, fault) ||
	    !value_words(wording, shape, was, column, &was_words, fault) ||
	    !value_words(wording, shape, is, column, &is_words, fault)) {
		return false;
	}
	add_row_part(shape, &subject, &part);
	differing_add_name(&subject, out);
	text_add_format(out, ": %s%s", text_string(&part), part.length > 0 ? " " : "");
	add_column_label(shape->columns[column].name, out);
	text_add(out, " is ");
	add_words(out, is_words);
	text_add(out, ", not as becket wrote it: ");
	add_words(out, was_words);
	return true;
}
