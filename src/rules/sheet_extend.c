/* A sheet laid over the one it extends. */
#include "base/text.h"
#include "rules/sheet_inside.h"

#include <assert.h>
#include <stddef.h>
#include <string.h>

/* Rules, carriage lines and subjects not stated, each of which starts with its id. */
struct list {
	const void *items;
	size_t count;
	size_t size; /* of one, and where in it these members are */
	size_t sheet, replaces, entry;
};

#define LIST_OF(type, items, count)                                                      \
	((struct list){(items), (count), sizeof(type), offsetof(type, sheet),            \
	    offsetof(type, replaces), offsetof(type, entry)})

static_assert(offsetof(struct rule, id) == 0, "an id comes first");
static_assert(offsetof(struct carriage, id) == 0, "an id comes first");
static_assert(offsetof(struct not_stated, id) == 0, "an id comes first");

static const void *
entry_of(const struct list *list, size_t index)
{
	return (const char *)list->items + index * list->size;
}

static const char *
id_of(const struct list *list, size_t index)
{
	return *(const char *const *)entry_of(list, index);
}

/* The place of an id in a list; its count when it is not there. */
static size_t
place_of(const struct list *list, const char *id)
{
	size_t i = 0;
	while (i < list->count && strcmp(id_of(list, i), id) != 0) {
		i++;
	}
	return i;
}

static bool
is_in(const struct list *list, const char *id)
{
	return place_of(list, id) < list->count;
}

/* The base's entries in their order, those replaced by the sheet's own, then what is new.
 * The new array is in the arena. */
static void *
lay_over(const struct sheet *sheet, const struct list *base, const struct list *own,
    struct arena *arena, size_t *count_out)
{
	size_t count = 0;
	char *out = arena_alloc(arena, (base->count + own->count + 1) * base->size);
	for (size_t i = 0; i < base->count; i++) {
		const char *id = id_of(base, i);
		size_t at = place_of(own, id);
		if (words_have(sheet->strikes, sheet->strike_count, id)) {
			continue;
		}
		const void *entry =
		    at < own->count ? entry_of(own, at) : entry_of(base, i);
		memcpy(out + count++ * base->size, entry, base->size);
	}
	for (size_t i = 0; i < own->count; i++) {
		if (!is_in(base, id_of(own, i))) {
			memcpy(out + count++ * base->size, entry_of(own, i), base->size);
		}
	}
	*count_out = count;
	return out;
}

static struct list
rules_of(const struct sheet *sheet)
{
	return LIST_OF(struct rule, sheet->rules, sheet->rule_count);
}

static struct list
lines_of(const struct sheet *sheet)
{
	return LIST_OF(struct carriage, sheet->carriage, sheet->carriage_count);
}

static struct list
subjects_of(const struct sheet *sheet)
{
	return LIST_OF(struct not_stated, sheet->not_stated, sheet->not_stated_count);
}

/* What is struck out must be there to be struck, and not said anew. */
static bool
check_strikes(const struct yaml_spot *top, const struct sheet *base,
    const struct sheet *sheet, struct fault *fault)
{
	const struct list theirs[] = {rules_of(base), lines_of(base), subjects_of(base)};
	const struct list own[] = {rules_of(sheet), lines_of(sheet), subjects_of(sheet)};
	for (size_t i = 0; i < sheet->strike_count; i++) {
		const char *id = sheet->strikes[i];
		bool there = false;
		bool anew = false;
		for (size_t j = 0; j < sizeof own / sizeof own[0]; j++) {
			there = there || is_in(&theirs[j], id);
			anew = anew || is_in(&own[j], id);
		}
		if (!there || anew) {
			return yaml_entry_bad(top, "strikes", i, id,
			    anew ? "an id that is not in this sheet: one that is here "
				   "replaces the other without being struck out"
				 : "the id of something in the sheet it extends",
			    fault);
		}
	}
	return true;
}

/* The same, each entry with what is known of where it is from. */
static void *
extend(const struct sheet *base, const struct sheet *sheet,
    struct list (*list_of)(const struct sheet *), struct arena *arena, size_t *count_out)
{
	const struct list theirs = list_of(base);
	const struct list own = list_of(sheet);
	char *out = lay_over(sheet, &theirs, &own, arena, count_out);
	for (size_t i = 0; i < *count_out; i++) {
		char *at = out + i * own.size;
		const char *id = *(const char *const *)at;
		bool here = is_in(&own, id);
		if (!here) {
			*(unsigned *)(at + own.entry) = 0;
		}
		*(const char **)(at + own.sheet) = sheet->name;
		*(const char **)(at + own.replaces) =
		    here && is_in(&theirs, id) ? base->name : "";
	}
	return out;
}

static void
extend_cautions(const struct sheet *base, struct sheet *sheet, struct arena *arena)
{
	size_t count = base->caution_count + sheet->caution_count;
	const char **cautions = arena_alloc(arena, (count + 1) * sizeof *cautions);
	for (size_t i = 0; i < count; i++) {
		cautions[i] = i < base->caution_count
				  ? base->cautions[i]
				  : sheet->cautions[i - base->caution_count];
	}
	sheet->cautions = cautions;
	sheet->caution_count = count;
}

bool
sheet_extend(const struct yaml_spot *top, const struct sheet *base, struct sheet *sheet,
    struct arena *arena, struct fault *fault)
{
	if (!check_strikes(top, base, sheet, fault)) {
		return false;
	}
	sheet->rules = extend(base, sheet, rules_of, arena, &sheet->rule_count);
	sheet->carriage = extend(base, sheet, lines_of, arena, &sheet->carriage_count);
	sheet->not_stated =
	    extend(base, sheet, subjects_of, arena, &sheet->not_stated_count);
	extend_cautions(base, sheet, arena);
	return true;
}
