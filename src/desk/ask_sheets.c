#include "desk/inside.h"

/* Gathers the sheets of a list with commas; free the rulebook. */
static bool
read_side(
    struct desk *desk, const char *words, struct rulebook **out, struct fault *fault)
{
	struct word_list names = {0};
	struct fault blank = {0};
	if (!words_cut(&desk->arena, words, &names, &blank)) {
		return fault_set(fault, blank.kind,
		    "compare: found \"%.60s\", expected the name of a sheet, or several "
		    "with commas between them",
		    words);
	}
	const struct sheet **sheets =
	    arena_alloc(&desk->arena, names.count * sizeof(const struct sheet *));
	for (size_t i = 0; i < names.count; i++) {
		if (!shelf_sheet(
			&desk->shelf, names.items[i], &desk->notes, &sheets[i], fault)) {
			return false;
		}
	}
	return rulebook_new(sheets, names.count, out, fault);
}

static void
free_sides(struct rulebook *const sides[2])
{
	rulebook_free(sides[0]);
	rulebook_free(sides[1]);
}

/* Every task of the boat's gear, which alone is loaded, under both. */
static bool
gather(struct desk *desk, struct rulebook *const sides[2], struct change_rows *out,
    struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct rulebook *const first[] = {sides[0]};
	const struct rulebook *const second[] = {sides[1]};
	const struct supposition either = {.from = desk->today, .says = SAYS_SHEETS};
	struct due_engine engines[2] = {desk->engine, desk->engine};
	struct vessel seen = {0};
	struct inventory over = *inventory;
	vessel_suppose(&inventory->vessels[0], &either, &desk->arena, &seen);
	over.vessels = &seen;
	engines[0].inventory = &over;
	engines[1].inventory = &over;
	engines[0].rulebooks = first;
	engines[1].rulebooks = second;
	const struct what_if what_if = {.now = &engines[0],
	    .then = &engines[1],
	    .from = desk->today,
	    .today = desk->today};
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (!changes_add(&what_if, i, true, &desk->arena, out, fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_compare_gear(struct desk *desk, const struct compare_asked *asked,
    struct change_rows *out, struct fault *fault)
{
	struct rulebook *sides[2] = {NULL, NULL};
	*out = (struct change_rows){0};
	desk->mode = BOOK_READ;
	bool done = read_side(desk, asked->sides[0], &sides[0], fault) &&
		    read_side(desk, asked->sides[1], &sides[1], fault) &&
		    ask_engine(desk, asked->vessel, LEFT_NONE, fault) &&
		    gather(desk, sides, out, fault);
	free_sides(sides);
	return done;
}

static bool
compare(struct desk *desk, struct rulebook *const sides[2], const char *words,
    struct compare_answer *out, struct fault *fault)
{
	const struct rulebook *const both[2] = {sides[0], sides[1]};
	const struct kinds *kinds = NULL;
	if (!desk_kinds(desk, &kinds, fault)) {
		return false;
	}
	if (words != NULL) {
		const struct kind *meant = kinds_tell(kinds, words, fault);
		if (meant == NULL) {
			return fault_prefix(fault, FIELD "kind");
		}
		out->kind = meant->id;
		lines_for_kind(both[0], out->kind, &desk->arena, &out->lines[0]);
		lines_for_kind(both[1], out->kind, &desk->arena, &out->lines[1]);
	}
	compare_rules(both, kinds, out->kind, &desk->arena, &out->comparison);
	return true;
}

bool
desk_compare_rules(struct desk *desk, const struct compare_asked *asked,
    struct compare_answer *out, struct fault *fault)
{
	struct rulebook *sides[2] = {NULL, NULL};
	*out = (struct compare_answer){0};
	bool done = read_side(desk, asked->sides[0], &sides[0], fault) &&
		    read_side(desk, asked->sides[1], &sides[1], fault) &&
		    compare(desk, sides, asked->kind, out, fault);
	free_sides(sides);
	return done;
}
