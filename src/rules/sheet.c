#include "rules/sheet.h"

#include "base/memory.h"
#include "rules/sheet_inside.h"

#include <stdlib.h>
#include <string.h>

/* A sheet and the memory everything in it points to. `sheet` comes first, so that the one
 * pointer is the other. */
struct owned_sheet {
	struct sheet sheet;
	struct arena arena;
};

static size_t
rule_index(const struct rule *rules, size_t count, const char *id)
{
	size_t i = 0;
	while (i < count && strcmp(rules[i].id, id) != 0) {
		i++;
	}
	return i;
}

/* The rules a rule names, under a key, must be others of the same sheet. */
static bool
check_others(const struct yaml_spot *top, const struct sheet *sheet, size_t index,
    const char *key, const char *const *ids, size_t count, struct fault *fault)
{
	struct yaml_spot spot = yaml_spot_in(top, "rules", sheet->rules[index].entry - 1);
	for (size_t i = 0; i < count; i++) {
		size_t other = rule_index(sheet->rules, sheet->rule_count, ids[i]);
		if (other == sheet->rule_count || other == index) {
			return yaml_entry_bad(&spot, key, i, ids[i],
			    "the id of another rule of this sheet", fault);
		}
	}
	return true;
}

static bool
check_named(const struct yaml_spot *top, const struct sheet *sheet, struct fault *fault)
{
	for (size_t i = 0; i < sheet->rule_count; i++) {
		const struct rule *rule = &sheet->rules[i];
		/* What is inherited was checked where it was written. */
		if (rule->entry > 0 &&
		    (!check_others(top, sheet, i, "instead-of", rule->instead_of,
			 rule->instead_of_count, fault) ||
			!check_others(top, sheet, i, "beside", rule->beside,
			    rule->beside_count, fault))) {
			return false;
		}
	}
	return true;
}

static bool
convert_rules(const struct yaml_spot *top, const struct yaml_sheet *yaml,
    const struct kinds *kinds, struct owned_sheet *owned, struct fault *fault)
{
	struct rule *rules =
	    arena_alloc(&owned->arena, (yaml->rules_count + 1) * sizeof *rules);
	for (unsigned i = 0; i < yaml->rules_count; i++) {
		struct yaml_spot spot = yaml_spot_in(top, "rules", i);
		if (!sheet_rule_convert(
			&spot, &yaml->rules[i], kinds, &owned->arena, &rules[i], fault)) {
			return false;
		}
		if (rule_index(rules, i, rules[i].id) < i) {
			return yaml_spot_bad(&spot, "id", rules[i].id,
			    "an id that no rule above has", fault);
		}
		rules[i].sheet = owned->sheet.name;
		rules[i].origin = owned->sheet.name;
		rules[i].replaces = "";
		rules[i].entry = i + 1;
	}
	owned->sheet.rules = rules;
	owned->sheet.rule_count = yaml->rules_count;
	return true;
}

static bool
convert_carriage(const struct yaml_spot *top, const struct yaml_sheet *yaml,
    const struct kinds *kinds, struct owned_sheet *owned, struct fault *fault)
{
	unsigned count = yaml->carriage_count;
	struct carriage *lines =
	    arena_alloc(&owned->arena, ((size_t)count + 1) * sizeof *lines);
	for (unsigned i = 0; i < count; i++) {
		struct yaml_spot spot = yaml_spot_in(top, "carriage", i);
		if (!sheet_carriage_convert(&spot, &yaml->carriage[i], kinds,
			&owned->arena, &lines[i], fault)) {
			return false;
		}
		lines[i].sheet = owned->sheet.name;
		lines[i].origin = owned->sheet.name;
		lines[i].replaces = "";
		lines[i].entry = i + 1;
		for (unsigned j = 0; j < i; j++) {
			if (strcmp(lines[j].id, lines[i].id) == 0) {
				return yaml_spot_bad(&spot, "id", lines[i].id,
				    "an id that no carriage line above has", fault);
			}
		}
	}
	owned->sheet.carriage = lines;
	owned->sheet.carriage_count = count;
	return true;
}

static bool
convert_not_stated(const struct yaml_spot *top, const struct yaml_sheet *yaml,
    const struct kinds *kinds, struct owned_sheet *owned, struct fault *fault)
{
	unsigned count = yaml->not_stated_count;
	struct not_stated *entries =
	    arena_alloc(&owned->arena, ((size_t)count + 1) * sizeof *entries);
	for (unsigned i = 0; i < count; i++) {
		struct yaml_spot spot = yaml_spot_in(top, "not-stated", i);
		if (!sheet_not_stated_convert(&spot, &yaml->not_stated[i], kinds,
			&owned->arena, &entries[i], fault)) {
			return false;
		}
		entries[i].sheet = owned->sheet.name;
		entries[i].origin = owned->sheet.name;
		entries[i].replaces = "";
		entries[i].entry = i + 1;
		for (unsigned j = 0; j < i; j++) {
			if (strcmp(entries[j].id, entries[i].id) == 0) {
				return yaml_spot_bad(&spot, "id", entries[i].id,
				    "an id that no subject above has", fault);
			}
		}
	}
	owned->sheet.not_stated = entries;
	owned->sheet.not_stated_count = count;
	return true;
}

/* Lays the sheet over the one it extends, where it extends one. */
static bool
extend(const struct yaml_spot *top, const struct yaml_sheet *yaml,
    const struct sheet_library *library, struct owned_sheet *owned, struct fault *fault)
{
	const struct sheet *base = NULL;
	if (yaml->extends == NULL) {
		return yaml->strikes.count == 0 ||
		       yaml_entry_bad(top, "strikes", 0, yaml->strikes.items[0],
			   "strikes only where the sheet extends another", fault);
	}
	if (library == NULL) {
		return yaml_spot_bad(top, "extends", yaml->extends,
		    "a sheet that extends no other", fault);
	}
	if (!library->find(library->context, owned->sheet.extends, &base, fault)) {
		return yaml_spot_prefix(top, "extends", fault);
	}
	return sheet_extend(top, base, &owned->sheet, &owned->arena, fault);
}

static bool
convert_head(const struct yaml_spot *top, const struct yaml_sheet *yaml,
    struct owned_sheet *owned, struct fault *fault)
{
	struct sheet *sheet = &owned->sheet;
	struct arena *arena = &owned->arena;
	sheet->caution_count = yaml->cautions.count;
	sheet->strike_count = yaml->strikes.count;
	sheet->extends = "";
	return yaml_read_text(top, "sheet", yaml->sheet, arena, &sheet->name, fault) &&
	       yaml_read_text(top, "title", yaml->title, arena, &sheet->title, fault) &&
	       yaml_read_text(
		   top, "for", yaml->audience, arena, &sheet->audience, fault) &&
	       yaml_read_day(top, "compiled", yaml->compiled, &sheet->compiled, fault) &&
	       (yaml->extends == NULL || yaml_read_text(top, "extends", yaml->extends,
					     arena, &sheet->extends, fault)) &&
	       yaml_read_texts(
		   top, "strikes", &yaml->strikes, arena, &sheet->strikes, fault) &&
	       yaml_read_texts(
		   top, "cautions", &yaml->cautions, arena, &sheet->cautions, fault);
}

static bool
convert_sheet(const struct yaml_source *source, const struct yaml_sheet *yaml,
    const struct kinds *kinds, const struct sheet_library *library,
    struct owned_sheet *owned, struct fault *fault)
{
	struct yaml_spot top = {.source = source};
	const struct sheet *sheet = &owned->sheet;
	if (!convert_head(&top, yaml, owned, fault) ||
	    !convert_rules(&top, yaml, kinds, owned, fault) ||
	    !convert_carriage(&top, yaml, kinds, owned, fault) ||
	    !convert_not_stated(&top, yaml, kinds, owned, fault) ||
	    !extend(&top, yaml, library, owned, fault)) {
		return false;
	}
	if (sheet->rule_count + sheet->carriage_count + sheet->not_stated_count == 0) {
		return yaml_spot_bad(&top, "rules", NULL, "at least one rule", fault);
	}
	return check_named(&top, sheet, fault);
}

bool
sheet_read(const char *name, const char *yaml, size_t length, const struct kinds *kinds,
    const struct sheet_library *library, struct sheet **sheet_out, struct fault *fault)
{
	const struct packed_file file = {.name = name, .yaml = yaml, .length = length};
	return sheet_read_packed(&file, kinds, library, sheet_out, fault);
}

bool
sheet_read_packed(const struct packed_file *file, const struct kinds *kinds,
    const struct sheet_library *library, struct sheet **sheet_out, struct fault *fault)
{
	struct yaml_source source = yaml_source_of(file);
	struct yaml_loaded loaded = {0};
	if (!yaml_source_load(&source, &SHEET_SCHEMA, &loaded, fault)) {
		return false;
	}
	struct owned_sheet *owned = memory_zeroed(1, sizeof *owned);
	bool done = convert_sheet(&source, loaded.values, kinds, library, owned, fault);
	yaml_loaded_free(&SHEET_SCHEMA, &loaded);
	if (!done) {
		sheet_free(&owned->sheet);
		return false;
	}
	*sheet_out = &owned->sheet;
	return true;
}

void
sheet_free(struct sheet *sheet)
{
	struct owned_sheet *owned = (struct owned_sheet *)sheet;
	if (owned != NULL) {
		arena_clear(&owned->arena);
		free(owned);
	}
}

bool
rule_is_routine(const struct rule *rule)
{
	bool any = false;
	for (size_t i = 0; i < rule->clock_count; i++) {
		const struct clock_rule *clock = &rule->clocks[i];
		if (clock->by_maker) {
			return false;
		}
		if (clock->days == 0 && clock->months == 0) {
			continue;
		}
		bool is_short = clock->days > 0 ? clock->days < 365 : clock->months < 12;
		if (!is_short) {
			return false;
		}
		any = true;
	}
	return any;
}
