/* Carriage lines: whether one holds, and how much it needs. */
#include "muster/count.h"

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

/* A number of the vessel, 0 when not known, against limits of which each may be 0 for not
 * set; `most` is the last number that fits. */
static int
fits(int number, int least, int most)
{
	if (least == 0 && most == 0) {
		return 1;
	}
	if (number == 0) {
		return -1;
	}
	return number >= least && (most == 0 || number <= most);
}

int
line_holds(const struct vessel *vessel, const struct carriage *line, day_t day,
    const char **asks)
{
	const struct conditions *when = &line->when;
	const struct period *period = vessel_period_on(vessel, day);
	if (when->uses != 0 && (when->uses & 1U << period->use) == 0) {
		return 0;
	}
	int in_area = 1;
	if (when->area_count > 0) {
		bool known = period->area[0] != '\0';
		in_area =
		    !known ? -1 : has_word(when->areas, when->area_count, period->area);
	}
	int below = when->length_below_cm == 0 ? 0 : when->length_below_cm - 1;

	const struct {
		int holds;
		const char *asks;
	} answers[] = {
	    {in_area, "area"},
	    {fits(vessel->length_cm, when->length_from_cm, below), "length"},
	    {fits(vessel->built, when->built_from, when->built_until), "built"},
	    {fits(period->persons, when->persons_from, when->persons_until), "persons"},
	    {line->per_person > 0 && period->persons == 0 ? -1 : 1, "persons"},
	};

	/* One condition that fails settles it, whatever else is not known. */
	int holds = 1;
	for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++) {
		if (answers[i].holds == 0) {
			return 0;
		}
		if (answers[i].holds == -1 && holds == 1) {
			holds = -1;
			*asks = answers[i].asks;
		}
	}
	return holds;
}

int
line_need(const struct carriage *line, int persons)
{
	int each = line->per_person * persons;
	return line->points + each + (each * line->percent + 99) / 100 + line->plus;
}
