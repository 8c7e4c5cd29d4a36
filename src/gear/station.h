/* A station: where gear is handed in. Plain values; whoever fills them owns the
 * memory. */
#ifndef BECKET_GEAR_STATION_H
#define BECKET_GEAR_STATION_H

#include "dates/weekdays.h"
#include "dates/yearly.h"
#include "gear/item.h"
#include "gear/words.h"

#include <stdint.h>

/* A make of one kind that a station is approved for. */
struct station_make {
	const char *kind; /* id of the kind */
	const char *make; /* as on the label: not blank */
};

/* The greatest age from which a price may hold, in years. */
enum { STATION_AGE_MOST = 100 };

/* What a station asks for one piece, from an age on until the next price for the same
 * kind and task holds: a step. */
struct station_price {
	const char *kind; /* id of the kind */
	bool every_task;  /* true: whatever the task, where none of its own is listed */
	enum task task;   /* where not every_task */
	int64_t minor;    /* 0 or more */
	int from_years;   /* the age in whole years from which it holds: 0 from new, up to
			   * STATION_AGE_MOST */
};

/* Months with a turn-round of their own. */
struct station_pace {
	int first_month; /* 1 to 12 */
	int last_month;  /* 1 to 12; across New Year when before first_month */
	int turn_round_days;
};

struct station {
	int64_t id;
	const char *name;
	STATION_VALUES; /* gear/fleet_fields.h */
	/* other turn-rounds, by the month of the hand-in; the first that has the
	 * month counts */
	const struct station_pace *paces;
	size_t pace_count;
	const struct yearly *closed; /* closed weeks that come back every year */
	size_t closed_count;
	const struct span *shut; /* closed days of one year alone */
	size_t shut_count;
	/* it takes gear in and gives it out on these, as weekdays.h; 0 not known:
	 * STATION_WEEKDAYS_SUPPOSED */
	unsigned weekdays;
	/* the days of the week on which those go whose gear is planned; 0 any. Not the
	 * station's own: a plan sets it, as the next */
	unsigned goes;
	const struct span *away; /* days on which they do not go */
	size_t away_count;
	/* days for which it confirmed that it takes theirs in, whatever its own are */
	const struct span *confirmed;
	size_t confirmed_count;
	/* ids of the kinds it may service; none listed: every kind */
	const char *const *kinds;
	size_t kind_count;
	/* a kind listed here: those makes of it alone */
	const struct station_make *makes;
	size_t make_count;
	const struct station_price *prices;
	size_t price_count;
	bool left_out; /* not to be used: a plan of "what if it were not there" */
};

/* The station of that name, borrowed; NULL when there is none. */
const struct station *station_named(
    const struct station *stations, size_t count, const char *name);

/* Monday to Friday: when a station takes gear in whose weekdays are not known. */
enum { STATION_WEEKDAYS_SUPPOSED = 0x1f };

/* The days of the week on which gear is handed in and fetched there: the station's own,
 * those of them on which the people go. Where its own are only supposed, theirs win;
 * where the two share no day, the station's are taken. */
unsigned station_weekdays(const struct station *station);

/* True when gear is handed in and fetched there on the day: one that it confirmed, or one
 * of its weekdays in no closed period; and they go. */
bool station_open(const struct station *station, day_t day);

/* True on a day on which it is known not to take gear in: what is only supposed of its
 * weekdays does not count. */
bool station_said_closed(const struct station *station, day_t day);

/* Whether it may service a piece of gear. */
enum station_fit {
	FIT_NO,         /* not this kind */
	FIT_OTHER_MAKE, /* this kind, but it lists makes and this one is not among them */
	FIT_ASK, /* this kind, but it lists makes and the make is not known: approval is
			 * never assumed */
	FIT_YES,
};

/* The fit of a kind and a make ("" not known); makes are compared without regard to
 * letter case. */
enum station_fit station_fit(
    const struct station *station, const char *kind, const char *make);

/* What it asks for a task on one piece of a kind at an age in whole years (item_age): of the
 * prices listed for the task that hold by then, the one from the greatest age; where none of
 * them does, the same of those for every task; where none of those does either, NULL. So a
 * price for the task goes before one for every task as soon as it holds, however old the
 * other: with 450.00 for service and 620.00 for every task from ten years, a service is
 * 450.00 at any age.
 *
 * For an age that is not known, the dearest of what it asks at any age. Of two listed alike
 * the first counts. Borrowed from the station. */
const struct station_price *station_price(
    const struct station *station, const char *kind, enum task task, int age_years);

/* The least age above `age_years` from which it lists a price for the kind; AGE_NOT_KNOWN
 * when there is none. Its prices for the kind change at no other age. */
int station_next_age(const struct station *station, const char *kind, int age_years);

/* True when what it asks for the task is not the same at every age. */
bool station_price_varies(
    const struct station *station, const char *kind, enum task task);

/* Days from hand-in to collect where no station in the book takes the kind: 42, the
 * longest in common practice (rafts 21 to 42 in spring; no published source). */
enum { ASSUMED_TURN_ROUND_DAYS = 42 };

/* How many days gear handed in on this day is worked on, that day counted in. */
int station_turn_round(const struct station *station, day_t hand_in);

/* The day gear handed in on an open day can be fetched: the first open day after as many
 * days as the turn-round of its month, the day of the hand-in being the first of them and
 * days in closed periods left out. With 35 days, closed from 20 December to 31 January,
 * what is handed in on Friday 11 December 2026 is ready after 26 February and fetched on
 * Monday 1 March. DAY_NEVER when the station is shut for more than a year on end. A later
 * hand-in may well be back sooner: February's turn-round may be longer than March's. */
day_t station_collect(const struct station *station, day_t hand_in);

/* The last open day on which gear can be handed in so that it can be fetched on or before
 * `back_by`; DAY_NONE when there is none in the 800 days before. Days before it need not
 * do: see above. */
day_t station_last_hand_in(const struct station *station, day_t back_by);

/* The first open day on or after `day`; DAY_NEVER as above. */
day_t station_next_open(const struct station *station, day_t day);

#endif
