/* Whose a settled hand-in is, and what it was given out with. */
#include "winter/settled_inside.h"

#include <string.h>

/* The day that counts for whose it is: a person's while it lies ahead, else the one given out. */
static day_t
day_of_it(const struct planning *planning, const struct settled_hand_in *of)
{
	return settled_is_ahead(planning, of) ? of->planned : of->day;
}

bool
settled_is_ahead(const struct planning *planning, const struct settled_hand_in *of)
{
	return of->given_up == NULL && of->planned != DAY_NONE &&
	       of->planned >= planning->today;
}

bool
settling_is_hers(const struct planning *planning, const struct settled_hand_in *of)
{
	const struct winter *winter = &planning->list->winter;
	struct winter other;
	if (!of->of_base && strcmp(of->owner, planning->vessel->name) != 0) {
		return false;
	}
	if (!planning->list->has_winter) {
		return of->given_up == NULL; /* that is for a winter */
	}
	if (of->winter == winter->year) {
		return true;
	}
	day_t day = day_of_it(planning, of);
	bool passed = winter_before(planning->vessel, winter->lay_up - 1, &other) &&
		      day <= other.fitting_out;
	/* a person's day of a winter gone by may lie behind this one, too */
	bool kept = of->winter < winter->year && settled_is_ahead(planning, of) &&
		    winter_at(planning->vessel, planning->today, &other) &&
		    other.year == winter->year;
	return day != DAY_NONE && !passed && (kept || day <= winter->fitting_out);
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

bool
settled_is_kept_at(const struct planning *planning, const char *tag, const char *station)
{
	for (size_t i = 0; i < planning->settled_count; i++) {
		const struct settled_hand_in *of = &planning->settled[i];
		bool base = strcmp(of->owner, planning->vessel->base) == 0;
		if (settled_is_ahead(planning, of) && (base || !of->of_base) &&
		    strcmp(of->station, station) == 0 && settling_is_hers(planning, of) &&
		    settling_lists(of, tag)) {
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
