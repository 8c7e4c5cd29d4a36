#include "base/alike.h"

#include "base/fold.h"

#include <string.h>

/* A typed name as it is, with its case folded and without accents, so that each is made
 * once. */
struct typed {
	const char *as_is;
	struct text cased;
	struct text plain;
};

static void
typed_init(const char *name, struct typed *out)
{
	*out = (struct typed){.as_is = name};
	fold_case(name, &out->cased);
	fold_accents(name, &out->plain);
}

static void
typed_clear(struct typed *typed)
{
	text_clear(&typed->cased);
	text_clear(&typed->plain);
}

static bool
folds_to(void (*fold)(const char *, struct text *), const char *name,
    const struct text *folded, struct text *room)
{
	text_reset(room);
	fold(name, room);
	return strcmp(text_string(room), text_string(folded)) == 0;
}

static enum likeness
alike(const struct typed *typed, const char *name, struct text *room)
{
	if (strcmp(typed->as_is, name) == 0) {
		return ALIKE_EXACT;
	}
	if (folds_to(fold_case, name, &typed->cased, room)) {
		return ALIKE_CASE;
	}
	return folds_to(fold_accents, name, &typed->plain, room) ? ALIKE_ACCENTS
								 : ALIKE_NOT;
}

static bool
is_ascii(const char *name)
{
	while (*name != '\0' && (unsigned char)*name < 0x80) {
		name++;
	}
	return *name == '\0';
}

enum likeness
names_alike(const char *a, const char *b)
{
	/* most names are ASCII, and an import compares each row with the whole book */
	if (is_ascii(a) && is_ascii(b)) {
		return strcmp(a, b) == 0         ? ALIKE_EXACT
		       : text_same_letters(a, b) ? ALIKE_CASE
						 : ALIKE_NOT;
	}
	SCOPED_TEXT room = {0};
	struct typed typed;
	typed_init(a, &typed);
	enum likeness found = alike(&typed, b, &room);
	typed_clear(&typed);
	return found;
}

enum likeness
names_meant(struct arena *arena, const char *typed, const char *const *names,
    size_t count, size_t **found_out, size_t *found_count_out)
{
	SCOPED_TEXT room = {0};
	enum likeness best = ALIKE_NOT;
	size_t found_count = 0;
	size_t *found = arena_alloc(arena, (count + 1) * sizeof *found);
	struct typed shapes;
	*found_out = found;
	/* mostly it is exact, and folding a fleet's names takes time */
	for (size_t i = 0; i < count; i++) {
		if (strcmp(names[i], typed) == 0) {
			found[0] = i;
			*found_count_out = 1;
			return ALIKE_EXACT;
		}
	}
	typed_init(typed, &shapes);
	for (size_t i = 0; i < count; i++) {
		enum likeness how = alike(&shapes, names[i], &room);
		found_count = how > best ? 0 : found_count;
		best = how > best ? how : best;
		if (how == best && how != ALIKE_NOT) {
			found[found_count++] = i;
		}
	}
	typed_clear(&shapes);
	*found_count_out = found_count;
	return best;
}

size_t
word_meant(const char *typed, const char *const *words, size_t count)
{
	size_t i = 0;
	while (i < count && strcmp(typed, words[i]) != 0) {
		i++;
	}
	/* programs write the words exactly; this is for what people type */
	for (size_t j = 0; i == count && j < count; j++) {
		i = names_alike(typed, words[j]) != ALIKE_NOT ? j : i;
	}
	return i;
}
