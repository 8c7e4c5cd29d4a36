/* What rules and winters need to know of a boat. Plain values; whoever fills them owns
 * the memory they point to. */
#ifndef BECKET_GEAR_VESSEL_H
#define BECKET_GEAR_VESSEL_H

#include "dates/yearly.h"
#include "gear/booking.h"
#include "gear/fleet_fields.h"

#include <stdint.h>

/* What can be said of a vessel from a day on: the bits of its fields. */
enum {
	SAYS_USE = 1U << VESSEL_USE,
	SAYS_AREA = 1U << VESSEL_AREA,
	SAYS_PERSONS = 1U << VESSEL_PERSONS,
	SAYS_SEASON = 1U << VESSEL_SEASON | 1U << VESSEL_FREEZING | 1U << VESSEL_DRY,
	SAYS_BASE = 1U << VESSEL_BASE,
	SAYS_LAY_UP = 1U << VESSEL_LAY_UP,
	SAYS_SHEETS = 1U << VESSEL_SHEETS,
	SAYS_ANYTHING = SAYS_USE | SAYS_AREA | SAYS_PERSONS | SAYS_SEASON | SAYS_BASE |
			SAYS_LAY_UP | SAYS_SHEETS,
};

/* What holds from a day on, until the next period. */
struct period {
	day_t from;    /* DAY_NONE for since ever */
	PERIOD_VALUES; /* what is timed in gear/fleet_fields.h */
	/* Base and lay-up stand here where a later period says another one; what has held
	 * since ever is the vessel's */
	const char *base;     /* where she lies; "" when not known */
	bool laid_up;         /* false: in use all year round */
	struct yearly lay_up; /* where laid_up */
	/* names of the rule sheets she follows, where they change with time; none when
	 * she has followed the vessel's since ever */
	const char *const *sheets;
	size_t sheet_count;
	unsigned says; /* SAYS_ bits of what was said for this day; the rest goes on as
			   * it was before. A vessel's first period says all */
};

/* A winter whose days differ from the recurring ones. */
struct odd_winter {
	int year;         /* the year it is named by */
	struct span span; /* lay-up to fitting-out */
};

/* The most trips in a winter that a limit may name. */
enum { TRIPS_MOST = 99 };

struct vessel {
	int64_t id; /* the book's number for it */
	const char *name;
	/* Base, lay-up and sheets as they are on the day the book was loaded for; what
	 * held and what will is in the periods */
	const char *base;             /* "" when not known */
	const struct period *periods; /* at least one, by day; the first from DAY_NONE */
	size_t period_count;
	VESSEL_VALUES; /* what is her own there */
	unsigned goes; /* days of the week on which someone goes to a station with her
			  * gear, as dates/weekdays.h; 0 any */
	const struct span *away; /* days on which nobody does */
	size_t away_count;
	const struct booking *bookings; /* by day; no two of them clash */
	size_t booking_count;
	bool leaves;  /* sold or given up, already or on a day to come */
	day_t left;   /* where she leaves: first day on which she is not in the fleet */
	bool laid_up; /* false: in use all year round */
	struct yearly lay_up;                 /* where laid_up */
	const struct odd_winter *odd_winters; /* by year */
	size_t odd_winter_count;
	/* names of the rule sheets she follows; at least one */
	const char *const *sheets;
	size_t sheet_count;
};

/* The period in force on a day. Never NULL for a well-formed vessel. */
const struct period *vessel_period_on(const struct vessel *vessel, day_t day);

/* True when she is in the fleet on a day: in no list, muster, plan or cure from the day
 * on which she left. */
bool vessel_is_here(const struct vessel *vessel, day_t day);

/* Where she lies on a day; "" when not known. */
const char *vessel_base_on(const struct vessel *vessel, day_t day);

/* True when something of this SAYS_ bit has been said from a later day than since
 * ever. */
bool vessel_changes(const struct vessel *vessel, unsigned says);

/* True when a rule or line of this sheet, which is in her rulebook, is one she follows in
 * the period. Always, where the sheets she follows do not change. */
bool period_follows(const struct period *period, const char *sheet);

/* Sets base, lay-up and sheets to what they are on a day, as the periods have them. */
void vessel_set_day(struct vessel *vessel, day_t day);

#endif
