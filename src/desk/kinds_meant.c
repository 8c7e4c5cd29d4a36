/* The kinds that a person's words mean. */
#include "desk/desk.h"

#include <string.h>

bool
desk_kinds(struct desk *desk, const struct kinds **out, struct fault *fault)
{
	return shelf_kinds(&desk->shelf, out, fault);
}

bool
desk_kind(
    struct desk *desk, const char *words, const struct kind **out, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (!desk_kinds(desk, &kinds, fault)) {
		return false;
	}
	const struct kind *kind = kinds_find(kinds, words);
	if (kind == NULL) {
		kind = kinds_tell(kinds, words, fault);
		if (kind == NULL) {
			return false;
		}
		desk_note(desk, "\"%s\" is read as %s", words, kind->id);
	}
	*out = kind;
	return true;
}

/* Adds a kind, once. */
static void
add_kind(struct desk *desk, const struct kind *kind, struct word_list *out)
{
	for (size_t i = 0; i < out->count; i++) {
		if (out->items[i] == kind->id) {
			return;
		}
	}
	ARENA_ADD(&desk->arena, out, kind->id);
}

static void
add_group(struct desk *desk, const struct kinds *kinds, const char *group,
    struct word_list *out)
{
	for (size_t i = 0; i < kinds_count(kinds); i++) {
		const struct kind *kind = kinds_at(kinds, i);
		if (strcmp(kind->group, group) == 0) {
			add_kind(desk, kind, out);
		}
	}
}

/* Adds all kinds that fit, one of them where the words are its id. */
static bool
add_fitting(struct desk *desk, const struct kinds *kinds, const char *words,
    struct word_list *out, struct fault *fault)
{
	SCOPED_TEXT read = {0};
	const struct kind *fits[KINDS_FIT_MOST];
	size_t count = kinds_fitting(kinds, words, fits);
	if (count == 0) {
		return kinds_tell(kinds, words, fault) != NULL;
	}
	for (size_t i = 0; i < count; i++) {
		add_kind(desk, fits[i], out);
		text_add_format(&read, "%s%s", i == 0 ? "" : ", ", fits[i]->id);
	}
	if (strcmp(words, text_string(&read)) != 0) {
		desk_note(desk, "\"%s\" is read as %s", words, text_string(&read));
	}
	return true;
}

bool
desk_kinds_meant(
    struct desk *desk, const char *words, struct word_list *out, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (!desk_kinds(desk, &kinds, fault)) {
		return false;
	}
	const char *group =
	    kinds_find(kinds, words) == NULL ? kinds_group(kinds, words) : NULL;
	if (group == NULL) {
		return add_fitting(desk, kinds, words, out, fault);
	}
	add_group(desk, kinds, group, out);
	return true;
}
