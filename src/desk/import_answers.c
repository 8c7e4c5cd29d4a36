#include "desk/import_answers.h"

#include <string.h>

/* A copy of given mappings with room for `more` after them. */
static struct csv_mapping *
with_room(struct arena *arena, const struct csv_mapping *items, size_t count, size_t more)
{
	struct csv_mapping *copy = arena_alloc(arena, (count + more + 1) * sizeof *copy);
	for (size_t i = 0; i < count; i++) {
		copy[i] = items[i];
	}
	return copy;
}

bool
import_answers_use(struct desk *desk, struct csv_options *options, struct fault *fault)
{
	const struct import_answer *kept = NULL;
	const struct kinds *kinds = NULL;
	size_t count = 0;
	if (!desk_has_book(desk)) {
		return true;
	}
	if (!desk_book(desk, fault) || !desk_kinds(desk, &kinds, fault) ||
	    !book_load_import_answers(desk->book, &desk->arena, &kept, &count, fault)) {
		return false;
	}
	struct csv_mapping *mappings =
	    with_room(&desk->arena, options->mappings, options->mapping_count, count);
	struct csv_mapping *meanings =
	    with_room(&desk->arena, options->meanings, options->meaning_count, count);
	for (size_t i = 0; i < count; i++) {
		const struct csv_mapping one = {kept[i].theirs, kept[i].ours, true};
		if (!kept[i].of_words) {
			mappings[options->mapping_count++] = one;
		} else if (kinds_find(kinds, one.ours) != NULL ||
			   strcmp(one.ours, CSV_NO_GEAR) == 0) {
			meanings[options->meaning_count++] = one;
		}
	}
	options->mappings = mappings;
	options->meanings = meanings;
	return true;
}

bool
import_answers_write(
    struct desk *desk, const struct import_answers *answers, struct fault *fault)
{
	for (size_t i = 0; i < answers->count; i++) {
		if (!book_put_import_answer(desk->book, &answers->items[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
import_answers_keep(
    struct desk *desk, const struct import_answers *answers, struct fault *fault)
{
	if (!desk_book(desk, fault) || !book_begin(desk->book, fault)) {
		return false;
	}
	if (import_answers_write(desk, answers, fault) &&
	    book_commit(desk->book, fault)) {
		return true;
	}
	book_rollback(desk->book);
	return false;
}
