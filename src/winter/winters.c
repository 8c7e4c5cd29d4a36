/* Which winter: the recurring lay-up, odd years, and the winter of an obligation. */
#include "winter/winter.h"

static struct span
lay_up_of_year(const struct vessel *vessel, int year)
{
	for (size_t i = 0; i < vessel->odd_winter_count; i++) {
		if (vessel->odd_winters[i].year == year) {
			return vessel->odd_winters[i].span;
		}
	}
	return yearly_in(vessel->lay_up, year);
}

bool
winter_of_year(const struct vessel *vessel, int year, struct winter *out)
{
	if (!vessel->laid_up) {
		return false;
	}
	struct span span = lay_up_of_year(vessel, year);
	*out = (struct winter){
	    .year = year,
	    .lay_up = span.first,
	    .fitting_out = span.last,
	    .next_lay_up = lay_up_of_year(vessel, year + 1).first,
	};
	return true;
}

/* An odd winter may start in the year after the one that names it, or before it; three years
 * to either side hold every winter that can touch a day. */
enum { YEARS_AROUND = 3 };

bool
winter_at(const struct vessel *vessel, day_t day, struct winter *out)
{
	int year = day_to_civil(day).year;
	for (int y = year - YEARS_AROUND; y <= year + YEARS_AROUND; y++) {
		if (!winter_of_year(vessel, y, out)) {
			return false;
		}
		if (out->fitting_out >= day) {
			return true;
		}
	}
	return false;
}

bool
winter_before(const struct vessel *vessel, day_t day, struct winter *out)
{
	int year = day_to_civil(day).year;
	for (int y = year + YEARS_AROUND; y >= year - YEARS_AROUND; y--) {
		if (!winter_of_year(vessel, y, out)) {
			return false;
		}
		if (out->lay_up <= day) {
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
	if (!vessel->laid_up) {
		*out = calendar_year(year);
		return true;
	}
	for (int y = year - YEARS_AROUND; y <= year + YEARS_AROUND; y++) {
		if (winter_of_year(vessel, y, &winter) && season_after(&winter, out) &&
		    day_to_civil(out->first).year == year) {
			return true;
		}
	}
	return false;
}

bool
season_at(const struct vessel *vessel, day_t day, struct span *out)
{
	int year = day_to_civil(day).year;
	struct winter winter;
	if (!vessel->laid_up) {
		*out = (struct span){day, calendar_year(year).last};
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
	if (obligation->good_through == DAY_NEVER ||
	    !winter_before(vessel, obligation->good_through + 1, &winter)) {
		return 0;
	}
	return winter.fitting_out >= today ? winter.year : 0;
}
