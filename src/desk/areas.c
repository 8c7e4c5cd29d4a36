#include "desk/areas.h"

#include <string.h>

/* Words gathered for a remark. */
struct areas {
	const char *wanted;
	bool found;
	struct text words;
};

/* Adds those of some conditions, each once. */
static void
add_areas(struct areas *areas, const struct conditions *when)
{
	for (size_t i = 0; i < when->area_count + when->area_except_count; i++) {
		const char *word = i < when->area_count
				       ? when->areas[i]
				       : when->areas_except[i - when->area_count];
		SCOPED_TEXT quoted = {0};
		text_add_format(&quoted, "\"%s\"", word);
		areas->found = areas->found || strcmp(word, areas->wanted) == 0;
		if (strstr(text_string(&areas->words), text_string(&quoted)) == NULL) {
			text_add_format(&areas->words, "%s%s",
			    areas->words.length == 0 ? "" : ", ", text_string(&quoted));
		}
	}
}

static void
add_sheet(struct areas *areas, const struct sheet *sheet)
{
	for (size_t i = 0; i < sheet->rule_count; i++) {
		add_areas(areas, &sheet->rules[i].when);
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		add_areas(areas, &sheet->carriage[i].when);
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		add_areas(areas, &sheet->not_stated[i].when);
	}
}

bool
areas_note(
    struct desk *desk, const struct vessel *vessel, const char *area, struct fault *fault)
{
	struct areas areas = {.wanted = area};
	bool done = true;
	for (size_t i = 0; i < vessel->sheet_count && done; i++) {
		const struct sheet *sheet = NULL;
		done = shelf_sheet(
		    &desk->shelf, vessel->sheets[i], &desk->notes, &sheet, fault);
		if (done) {
			add_sheet(&areas, sheet);
		}
	}
	if (done && !areas.found && areas.words.length > 0) {
		desk_note(desk,
		    "no sheet of hers speaks of the area \"%s\", and what they ask by area "
		    "is not asked of her there; they speak of %s",
		    area, text_string(&areas.words));
	}
	text_clear(&areas.words);
	return done;
}
