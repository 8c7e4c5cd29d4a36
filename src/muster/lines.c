/* Carriage lines: whether one holds, and how much it needs. */
#include "muster/count.h"
#include "rules/meets.h"

#include <string.h>

static bool
has_word(const char *const *words, size_t count, const char *word)
{
	for (size_t i = 0; i < count; i++) {
		if (strcmp(words[i], word) == 0) {
			return true;
		}
	}
	return false;
}

int
line_points(const struct carriage *line, const char *kind)
{
	for (size_t i = 0; i < line->serve_count; i++) {
		const struct serving *serving = &line->serves[i];
		if (has_word(serving->kinds, serving->kind_count, kind)) {
			return serving->points;
		}
	}
	return 0;
}

int
line_worth(const struct carriage *line, const struct item *item)
{
	return line_points(line, item->kind) * item->quantity;
}

bool
lines_alternate(const struct carriage *a, const struct carriage *b)
{
	return a->any_of[0] != '\0' && strcmp(a->any_of, b->any_of) == 0 &&
	       strcmp(a->sheet, b->sheet) == 0;
}

int
line_holds(const struct vessel *vessel, const struct carriage *line, day_t day,
    const char **asks)
{
	int holds = vessel_meets(vessel, &line->when, day, asks);
	bool by_persons = line->per_person > 0 || line->percent > 0;
	if (holds == 1 && by_persons && vessel_period_on(vessel, day)->persons == 0) {
		*asks = "persons";
		return -1;
	}
	return holds;
}

int
line_need(const struct carriage *line, int persons)
{
	int each = line->per_person * persons;
	return line->points + each + (each * line->percent + 99) / 100 + line->plus;
}
