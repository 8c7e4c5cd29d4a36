/* Whose a settled hand-in is, and what it was given out with. */
#include "winter/settled_inside.h"

#include <string.h>

bool
settling_is_hers(const struct planning *planning, const struct settled_hand_in *of)
{
	const struct winter *winter = &planning->list->winter;
	struct winter before;
	if (!of->of_base && strcmp(of->owner, planning->vessel->name) != 0) {
		return false;
	}
	if (!planning->list->has_winter) {
		return of->given_up == NULL; /* that is for a winter */
	}
	if (of->winter == winter->year) {
		return true;
	}
	bool passed = winter_before(planning->vessel, winter->lay_up - 1, &before) &&
		      of->day <= before.fitting_out;
	return of->day != DAY_NONE && !passed && of->day <= winter->fitting_out;
}

bool
settling_is_ours(const struct gathering *gathering, const struct settled_hand_in *of)
{
	bool ours = false;
	for (size_t i = 0; i < gathering->sorting_count && !ours; i++) {
		const struct vessel *vessel = gathering->sortings[i].planning->vessel;
		ours = strcmp(of->owner, of->of_base ? vessel->base : vessel->name) == 0;
	}
	return ours;
}

bool
settling_lists(const struct settled_hand_in *of, const char *tag)
{
	for (size_t i = 0; i < of->tag_count; i++) {
		if (strcmp(of->tags[i], tag) == 0) {
			return true;
		}
	}
	return false;
}

bool
settled_has_work(const struct settled_hand_in *of, const char *tag, day_t due)
{
	for (size_t i = 0; i < of->tag_count; i++) {
		if (strcmp(of->tags[i], tag) == 0) {
			return due == DAY_NONE ? of->dues[i] == DAY_NONE
					       : due <= of->dues[i];
		}
	}
	return false;
}

bool
settled_waits(const struct planning *planning, const char *tag, day_t due)
{
	const struct vessel *vessel = planning->vessel;
	for (size_t i = 0; i < planning->settled_count; i++) {
		const struct settled_hand_in *of = &planning->settled[i];
		if (strcmp(of->owner, of->of_base ? vessel->base : vessel->name) == 0 &&
		    settled_has_work(of, tag, due)) {
			return true;
		}
	}
	return false;
}

const char *
settled_given_up(const struct planning *planning, const char *tag)
{
	for (size_t i = 0; i < planning->settled_count; i++) {
		const struct settled_hand_in *of = &planning->settled[i];
		bool base = strcmp(of->owner, planning->vessel->base) == 0;
		if (of->given_up != NULL && (base || !of->of_base) &&
		    settling_is_hers(planning, of) && settling_lists(of, tag)) {
			return of->given_up;
		}
	}
	return NULL;
}
