/* Which winter: the recurring lay-up, odd years, and the winter an obligation belongs
 * to. */
#include "winter/winter.h"

/* An odd winter may start in the year after the one that names it, or before it; three
 * years to either side hold every winter that can touch a day. */
enum { YEARS_AROUND = 3 };

/* The winter of a year under the lay-up of a period, if it starts in that: a winter
 * keeps the lay-up that was in force on the day it started. Where a new lay-up would
 * have started before the day from which it holds, the winter starts on that day. */
static bool
starts_in(const struct vessel *vessel, size_t index, int year, struct span *out)
{
	const struct period *period = &vessel->periods[index];
	bool newest = index + 1 == vessel->period_count;
	day_t end = newest ? DAY_NEVER : vessel->periods[index + 1].from - 1;
	if (!period->laid_up) {
		return false;
	}
	*out = yearly_in(period->lay_up, year);
	out->first = day_max(out->first, period->from);
	return out->first <= out->last && out->first <= end;
}

/* The recurring winter of a year; of two, the one of the earlier period, since she is laid
 * up already when the other would start. False when there is none. */
static bool
recurring(const struct vessel *vessel, int year, struct span *out)
{
	struct span span;
	if (!vessel_changes(vessel, SAYS_LAY_UP)) {
		if (vessel->laid_up) {
			*out = yearly_in(vessel->lay_up, year);
		}
		return vessel->laid_up;
	}
	for (size_t i = 0; i < vessel->period_count; i++) {
		if (starts_in(vessel, i, year, &span)) {
			*out = span;
			return true;
		}
	}
	return false;
}

/* The winter of a year: the year's own days where it has some, unless the vessel has
 * no winter then. */
static bool
lay_up_of_year(const struct vessel *vessel, int year, struct span *out)
{
	for (size_t i = 0; i < vessel->odd_winter_count; i++) {
		const struct odd_winter *odd = &vessel->odd_winters[i];
		if (odd->year != year) {
			continue;
		}
		*out = odd->span;
		return vessel_changes(vessel, SAYS_LAY_UP)
			   ? vessel_period_on(vessel, odd->span.first)->laid_up
			   : vessel->laid_up;
	}
	return recurring(vessel, year, out);
}

/* The day on which the winter after that of a year starts. Where none follows, because
 * she is in use all year from then on, the day on which it would have started:
 * otherwise the season would never end, and nothing could be good through it. */
static day_t
next_after(const struct vessel *vessel, int year, day_t lay_up)
{
	struct span next;
	for (int y = year + 1; y <= year + YEARS_AROUND; y++) {
		if (lay_up_of_year(vessel, y, &next)) {
			return next.first;
		}
	}
	return day_add_months(lay_up, 12);
}

static struct winter
winter_of(const struct vessel *vessel, int year, struct span span)
{
	return (struct winter){
	    .year = year,
	    .lay_up = span.first,
	    .fitting_out = span.last,
	    .next_lay_up = next_after(vessel, year, span.first),
	};
}

bool
winter_of_year(const struct vessel *vessel, int year, struct winter *out)
{
	struct span span;
	if (!lay_up_of_year(vessel, year, &span)) {
		return false;
	}
	*out = winter_of(vessel, year, span);
	return true;
}

bool
winter_at(const struct vessel *vessel, day_t day, struct winter *out)
{
	int year = day_to_civil(day).year;
	struct span span;
	for (int y = year - YEARS_AROUND; y <= year + YEARS_AROUND; y++) {
		if (lay_up_of_year(vessel, y, &span) && span.last >= day) {
			*out = winter_of(vessel, y, span);
			return true;
		}
	}
	return false;
}

bool
winter_before(const struct vessel *vessel, day_t day, struct winter *out)
{
	int year = day_to_civil(day).year;
	struct span span;
	/* a winter that recurs as it is starts in the year that names it */
	bool plain =
	    vessel->odd_winter_count == 0 && !vessel_changes(vessel, SAYS_LAY_UP);
	for (int y = plain ? year : year + YEARS_AROUND; y >= year - YEARS_AROUND; y--) {
		if (lay_up_of_year(vessel, y, &span) && span.first <= day) {
			*out = winter_of(vessel, y, span);
			return true;
		}
	}
	return false;
}

/* The season after a winter; false when the next winter follows at once. */
static bool
season_after(const struct winter *winter, struct span *out)
{
	*out = (struct span){winter->fitting_out + 1, winter->next_lay_up - 1};
	return out->first <= out->last;
}

static struct span
calendar_year(int year)
{
	return (struct span){day_from_civil(year, 1, 1), day_from_civil(year, 12, 31)};
}

bool
season_of_year(const struct vessel *vessel, int year, struct span *out)
{
	struct winter winter;
	if (!vessel->laid_up && !vessel_changes(vessel, SAYS_LAY_UP)) {
		*out = calendar_year(year);
		return true;
	}
	for (int y = year - YEARS_AROUND; y <= year + YEARS_AROUND; y++) {
		if (winter_of_year(vessel, y, &winter) && season_after(&winter, out) &&
		    day_to_civil(out->first).year == year) {
			return true;
		}
	}
	*out = calendar_year(year);
	return !winter_at(vessel, out->first, &winter) || winter.lay_up > out->last;
}

bool
season_at(const struct vessel *vessel, day_t day, struct span *out)
{
	int year = day_to_civil(day).year;
	struct winter winter;
	if (!vessel->laid_up && !winter_at(vessel, day, &winter)) {
		*out = (struct span){day, calendar_year(year).last};
		return true;
	}
	if (!winter_before(vessel, day, &winter)) {
		/* none came lately: she is in use all year until the next, if one comes */
		bool comes = winter_at(vessel, day, &winter);
		day_t last = comes ? winter.lay_up - 1 : DAY_NEVER;
		*out = (struct span){day, day_min(calendar_year(year).last, last)};
		return true;
	}
	for (int y = year - YEARS_AROUND; y <= year + YEARS_AROUND; y++) {
		if (winter_of_year(vessel, y, &winter) && season_after(&winter, out) &&
		    out->last >= day) {
			out->first = day_max(out->first, day);
			return true;
		}
	}
	return false;
}

int
winter_of_obligation(
    const struct vessel *vessel, const struct obligation *obligation, day_t today)
{
	struct winter winter;
	bool out = obligation->state != STATE_IN_DATE;
	if (out) {
		bool laid_up =
		    winter_at(vessel, today, &winter) && winter.lay_up <= today;
		return laid_up ? winter.year : 0;
	}
	/* the nominal day, not its window's last */
	if (obligation->due == DAY_NONE ||
	    !winter_before(vessel, obligation->due + 1, &winter) ||
	    obligation->due + 1 >= winter.next_lay_up) {
		return 0; /* by then she is in use all year */
	}
	return winter.fitting_out >= today ? winter.year : 0;
}
