#include "desk/inside.h"
#include "desk/naming.h"

#include <string.h>

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
static void
gather(struct desk *desk, struct rulebook *const sides[2], struct change_rows *out)
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
		changes_add(&what_if, i, true, &desk->arena, out);
	}
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
		    ask_engine(desk, asked->vessel, LEFT_NONE, fault);
	if (done) {
		gather(desk, sides, out);
	}
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

static bool
follows(const struct vessel *vessel, const char *sheet)
{
	return words_have(vessel->sheets, vessel->sheet_count, sheet);
}

/* The number of a rule in the sheet; the number of its rules where it is none of it. */
static size_t
rule_in(const struct sheet *sheet, const struct rule *rule)
{
	size_t i = 0;
	while (i < sheet->rule_count &&
	       (rule == NULL || strcmp(rule->sheet, sheet->name) != 0 ||
		   strcmp(rule->id, sheet->rules[i].id) != 0)) {
		i++;
	}
	return i;
}

/* Adds the piece to the lists of the rules that are in force for it. */
static void
add_piece(
    struct desk *desk, size_t item, const struct sheet *sheet, struct word_list *pieces)
{
	const char *tag = desk->contents.inventory.items[item].tag;
	struct obligation *all = NULL;
	size_t count = 0;
	due_of_item(&desk->engine, item, desk->today, &desk->arena, &all, &count);
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < all[i].reading_count; j++) {
			const struct reading *reading = &all[i].readings[j];
			size_t at = rule_in(sheet, reading->rule);
			if (at == sheet->rule_count ||
			    !spans_have(reading->in_force, desk->today)) {
				continue;
			}
			struct word_list *list = &pieces[at];
			if (list->count == 0 || list->items[list->count - 1] != tag) {
				ARENA_ADD(&desk->arena, list, tag);
			}
		}
	}
}

bool
desk_sheet(struct desk *desk, const struct sheet_asked *asked, struct sheet_answer *out,
    struct fault *fault)
{
	const struct book_part *about =
	    boats_part(desk, NULL, asked->base, asked->boats, REACH_FAMILIES);
	const char *name = NULL;
	*out = (struct sheet_answer){0};
	if (!naming_sheet(desk, asked->name, &name, fault) ||
	    !shelf_sheet(&desk->shelf, name, &desk->notes, &out->sheet, fault) ||
	    !ask_about(desk, about, LEFT_NONE, fault) ||
	    !desk_engine(desk, NULL, fault)) {
		return false;
	}
	const struct inventory *inventory = &desk->contents.inventory;
	struct word_list *pieces =
	    arena_alloc(&desk->arena, (out->sheet->rule_count + 1) * sizeof *pieces);
	memset(pieces, 0, (out->sheet->rule_count + 1) * sizeof *pieces);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (follows(&inventory->vessels[i], out->sheet->name)) {
			ARENA_ADD(
			    &desk->arena, &out->followed_by, inventory->vessels[i].name);
		}
	}
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct vessel *vessel =
		    &inventory->vessels[inventory->items[i].vessel];
		if (follows(vessel, out->sheet->name)) {
			add_piece(desk, i, out->sheet, pieces);
		}
	}
	out->pieces = pieces;
	return true;
}

void
desk_sheets(struct desk *desk, struct sheet_list *out)
{
	const char *const *names = NULL;
	size_t count = 0;
	shelf_names(&desk->shelf, &desk->arena, &names, &count);
	*out = (struct sheet_list){.sheets = arena_alloc(&desk->arena,
				       (count + 1) * sizeof(const struct sheet *))};
	for (size_t i = 0; i < count; i++) {
		struct fault broken = {0};
		if (shelf_sheet(&desk->shelf, names[i], &desk->notes,
			&out->sheets[out->count], &broken)) {
			out->count++;
		} else {
			desk_note(desk, "left out: %s", broken.text);
		}
	}
}
