/* The catalogue of kinds, once read: kinds found by id, by words, by group. */
#include "rules/kinds.h"

#include "base/memory.h"
#include "base/text.h"
#include "rules/sheet_inside.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

int
kinds_compare_ids(const void *a, const void *b)
{
	const struct kind *const *one = a;
	const struct kind *const *other = b;
	return strcmp((*one)->id, (*other)->id);
}

static int
compare_spellings(const void *a, const void *b)
{
	const struct spelling *one = a;
	const struct spelling *other = b;
	return strcmp(one->words, other->words);
}

static void
add_spelling(struct spellings *spellings, const char *words, const struct kind *kind)
{
	char comparable[SPELLING_SIZE];
	if (kind_words_fold(words, comparable)) { /* as check_spelling had it */
		spellings->items[spellings->count++] = (struct spelling){
		    .words = arena_string(&spellings->arena, comparable), .kind = kind};
	}
}

static struct spellings *
fold_all(const struct kinds *kinds)
{
	struct spellings *spellings = memory_zeroed(1, sizeof *spellings);
	size_t most = 0;
	for (size_t i = 0; i < kinds->count; i++) {
		most += 2 + kinds->items[i].synonym_count;
	}
	spellings->items =
	    arena_alloc(&spellings->arena, most * sizeof *spellings->items);
	for (size_t i = 0; i < kinds->count; i++) {
		const struct kind *kind = &kinds->items[i];
		add_spelling(spellings, kind->id, kind);
		add_spelling(spellings, kind->name, kind);
		for (size_t j = 0; j < kind->synonym_count; j++) {
			add_spelling(spellings, kind->synonyms[j], kind);
		}
	}
	qsort(spellings->items, spellings->count, sizeof *spellings->items,
	    compare_spellings);
	return spellings;
}

static void
free_spellings(struct spellings *spellings)
{
	if (spellings != NULL) {
		arena_clear(&spellings->arena);
		free(spellings);
	}
}

/* Several threads may ask at the same time: the later one frees what it made. */
static const struct spellings *
spellings_of(const struct kinds *kinds)
{
	struct spellings *there = atomic_load(kinds->spellings);
	if (there != NULL) {
		return there;
	}
	struct spellings *folded = fold_all(kinds);
	if (atomic_compare_exchange_strong(kinds->spellings, &there, folded)) {
		return folded;
	}
	free_spellings(folded);
	return there;
}

void
kinds_free(struct kinds *kinds)
{
	if (kinds != NULL) {
		free_spellings(
		    kinds->spellings == NULL ? NULL : atomic_load(kinds->spellings));
		arena_clear(&kinds->arena);
		free(kinds);
	}
}

const struct kind *
kinds_find(const struct kinds *kinds, const char *id)
{
	size_t low = 0;
	size_t high = kinds->count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		int order = strcmp(kinds->by_id[middle]->id, id);
		if (order == 0) {
			return kinds->by_id[middle];
		}
		low = order < 0 ? middle + 1 : low;
		high = order < 0 ? high : middle;
	}
	return NULL;
}

bool
kinds_work_together(const struct kinds *kinds, const char *parent, const char *part)
{
	const struct kind *kind = kinds_find(kinds, parent);
	for (size_t i = 0; kind != NULL && i < kind->working_part_count; i++) {
		if (strcmp(kind->working_parts[i], part) == 0) {
			return true;
		}
	}
	return false;
}

/* What stands before "in", "inside" or "for" says what a thing is, and the rest where it
 * belongs: painkillers in a first-aid kit are medicine. Cuts a folded text there. */
static bool
cut_to_head(char *folded)
{
	static const char *const JOINTS[] = {" in ", " inside ", " for "};
	char *first = NULL;
	for (size_t i = 0; i < sizeof JOINTS / sizeof JOINTS[0]; i++) {
		char *found = strstr(folded, JOINTS[i]);
		first = found != NULL && (first == NULL || found < first) ? found : first;
	}
	if (first != NULL) {
		*first = '\0';
	}
	return first != NULL;
}

/* True for the whole of a spelling, such as "liferaft in a canister". */
static bool
is_spelling(const struct spellings *spellings, const char *folded)
{
	const struct spelling wanted = {.words = folded};
	return bsearch(&wanted, spellings->items, spellings->count,
		   sizeof *spellings->items, compare_spellings) != NULL;
}

size_t
kinds_fitting(
    const struct kinds *kinds, const char *words, const struct kind *fits[KINDS_FIT_MOST])
{
	char whole[SPELLING_SIZE];
	char head[SPELLING_SIZE];
	/* most lists have ids, for they were exported from a book */
	fits[0] = kinds_find(kinds, words);
	if (fits[0] != NULL) {
		return 1;
	}
	if (!kind_words_fold(words, whole)) {
		return 0;
	}
	const struct spellings *known = spellings_of(kinds);
	memcpy(head, whole, sizeof head);
	size_t fit = !is_spelling(known, whole) && cut_to_head(head)
			 ? kind_words_fit(known->items, known->count, head, fits)
			 : 0;
	return fit > 0 ? fit : kind_words_fit(known->items, known->count, whole, fits);
}

size_t
kinds_nearest(const struct kinds *kinds, const char *words,
    const struct kind *nearest[KINDS_NEAR_MOST])
{
	char folded[SPELLING_SIZE];
	const struct spellings *known = spellings_of(kinds);
	return kind_words_fold(words, folded)
		   ? kind_words_near(known->items, known->count, folded, nearest)
		   : 0;
}

const struct kind *
kinds_guess(const struct kinds *kinds, const char *words)
{
	const struct kind *fits[KINDS_FIT_MOST];
	return kinds_fitting(kinds, words, fits) == 1 ? fits[0] : NULL;
}

/* "a, b or c". */
static void
add_list(struct text *out, const struct kind *const *kinds, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		const char *joint = i == 0 ? "" : i + 1 < count ? ", " : " or ";
		text_add_format(out, "%s%s", joint, kinds[i]->id);
	}
}

const struct kind *
kinds_tell(const struct kinds *kinds, const char *words, struct fault *fault)
{
	const struct kind *fits[KINDS_FIT_MOST];
	const struct kind *nearest[KINDS_NEAR_MOST];
	size_t fit = kinds_fitting(kinds, words, fits);
	if (fit == 1) {
		return fits[0];
	}
	SCOPED_TEXT said = {0};
	text_add_format(&said, "\"%.60s\" ", words);
	size_t near = fit > 0 ? 0 : kinds_nearest(kinds, words, nearest);
	if (fit > 0) {
		text_add(&said, "could be ");
		add_list(&said, fits, fit);
		text_add(&said, "; say which");
	} else if (near > 0) {
		text_add(&said, "is no kind in the catalogue; did you mean ");
		add_list(&said, nearest, near);
		text_add(&said, "?");
	} else {
		text_add(&said,
		    "is no kind in the catalogue, nor near one; \"becket help kinds\" "
		    "lists them, and other-gear stands for gear no rule speaks of");
	}
	(void)fault_set(fault, FAULT_INPUT, "%s", text_string(&said));
	return NULL;
}

size_t
kinds_count(const struct kinds *kinds)
{
	return kinds->count;
}

const struct kind *
kinds_at(const struct kinds *kinds, size_t index)
{
	return &kinds->items[index];
}

const char *
kinds_carry_caution(const struct kinds *kinds, enum hazard hazard)
{
	return kinds->carry[hazard] == NULL ? "" : kinds->carry[hazard];
}

const char *
kinds_disposal_caution(const struct kinds *kinds, enum hazard hazard)
{
	return kinds->dispose[hazard] == NULL ? "" : kinds->dispose[hazard];
}

/* True when the words are the first ones of a group's name, which is one word long or
 * more. */
static bool
begins_group(const char *group, const char *words)
{
	size_t length = strlen(words);
	return strncasecmp(group, words, length) == 0 && group[length] == ' ' &&
	       strchr(words, ' ') == NULL;
}

const char *
kinds_group(const struct kinds *kinds, const char *words)
{
	const char *found = NULL;
	bool several = false;
	for (size_t i = 0; i < kinds->count; i++) {
		const char *group = kinds->items[i].group;
		if (strcasecmp(group, words) == 0) {
			return group;
		}
		if (begins_group(group, words)) {
			several = several || (found != NULL && strcmp(found, group) != 0);
			found = group;
		}
	}
	return several ? NULL : found;
}
