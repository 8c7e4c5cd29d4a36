#include "desk/inside.h"
#include "desk/naming.h"

/* Adds those of some conditions, each once. */
static void
add_areas(struct arena *arena, const struct conditions *when, struct word_list *out)
{
	for (size_t i = 0; i < when->area_count + when->area_except_count; i++) {
		const char *word = i < when->area_count
				       ? when->areas[i]
				       : when->areas_except[i - when->area_count];
		if (!words_have(out->items, out->count, word)) {
			ARENA_ADD(arena, out, word);
		}
	}
}

static void
add_sheet(struct arena *arena, const struct sheet *sheet, struct word_list *out)
{
	for (size_t i = 0; i < sheet->rule_count; i++) {
		add_areas(arena, &sheet->rules[i].when, out);
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		add_areas(arena, &sheet->carriage[i].when, out);
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		add_areas(arena, &sheet->not_stated[i].when, out);
	}
}

/* The areas of which the sheets of a vessel speak, in the desk's arena. */
static bool
gather(struct desk *desk, const struct vessel *vessel, struct word_list *out,
    struct fault *fault)
{
	for (size_t i = 0; i < vessel->sheet_count; i++) {
		const struct sheet *sheet = NULL;
		if (!shelf_sheet(
			&desk->shelf, vessel->sheets[i], &desk->notes, &sheet, fault)) {
			return false;
		}
		add_sheet(&desk->arena, sheet, out);
	}
	return true;
}

bool
areas_note(
    struct desk *desk, const struct vessel *vessel, const char *area, struct fault *fault)
{
	SCOPED_TEXT list = {0};
	struct word_list words = {0};
	if (!gather(desk, vessel, &words, fault)) {
		return false;
	}
	for (size_t i = 0; i < words.count; i++) {
		text_add_format(&list, "%s\"%s\"", i == 0 ? "" : ", ", words.items[i]);
	}
	if (words.count > 0 && !words_have(words.items, words.count, area)) {
		desk_note(desk,
		    "no sheet of hers speaks of the area \"%s\", and what they ask by area "
		    "is not asked of her there; they speak of %s",
		    area, text_string(&list));
	}
	return true;
}

bool
areas_settle(struct desk *desk, const struct vessel *vessel, const char **area,
    struct fault *fault)
{
	struct word_list words = {0};
	size_t found = 0;
	if (!gather(desk, vessel, &words, fault) ||
	    !naming_among(
		desk, NAMED_AREA, *area, words.items, words.count, &found, fault)) {
		return false;
	}
	*area = found < words.count ? words.items[found] : *area;
	return true;
}
