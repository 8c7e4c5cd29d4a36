/* Which vessel or base a settled hand-in belongs to, and what it was given out with. */
#include "winter/settled_inside.h"

#include <string.h>

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
	/* a day that a person chose counts while it lies ahead, else the day given out */
	day_t day = settled_is_ahead(planning, of) ? of->planned : of->day;
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
		ours = settled_is_of(of, gathering->sortings[i].planning->vessel);
	}
	return ours;
}

/* The index of an item among those that were given out on a hand-in; their number when
 * it is not there. */
static size_t
tag_at(const struct settled_hand_in *of, const char *tag)
{
	size_t at = 0;
	while (at < of->tag_count && strcmp(of->tags[at], tag) != 0) {
		at++;
	}
	return at;
}

bool
settling_lists(const struct settled_hand_in *of, const char *tag)
{
	return tag_at(of, tag) < of->tag_count;
}

bool
settled_has_work(const struct settled_hand_in *of, const char *tag, day_t due)
{
	size_t at = tag_at(of, tag);
	if (at == of->tag_count) {
		return false;
	}
	return due == DAY_NONE ? of->dues[at] == DAY_NONE : due <= of->dues[at];
}

bool
settled_waits(const struct planning *planning, const char *tag, day_t due)
{
	bool waits = false;
	for (size_t i = 0; i < planning->settled_count && !waits; i++) {
		const struct settled_hand_in *of = &planning->settled[i];
		waits =
		    settled_is_of(of, planning->vessel) && settled_has_work(of, tag, due);
	}
	return waits;
}

/* True when an item of a laid-up vessel was given out on a hand-in of her own or her
 * base's. */
static bool
goes_on(
    const struct planning *planning, const struct settled_hand_in *of, const char *tag)
{
	return settled_is_of(of, planning->vessel) && settling_is_hers(planning, of) &&
	       settling_lists(of, tag);
}

bool
settled_is_kept_at(const struct planning *planning, const char *tag, const char *station)
{
	bool kept = false;
	for (size_t i = 0; i < planning->settled_count && !kept; i++) {
		const struct settled_hand_in *of = &planning->settled[i];
		kept = settled_is_ahead(planning, of) &&
		       strcmp(of->station, station) == 0 && goes_on(planning, of, tag);
	}
	return kept;
}

const char *
settled_given_up(const struct planning *planning, const char *tag)
{
	for (size_t i = 0; i < planning->settled_count; i++) {
		const struct settled_hand_in *of = &planning->settled[i];
		if (of->given_up != NULL && goes_on(planning, of, tag)) {
			return of->given_up;
		}
	}
	return NULL;
}
