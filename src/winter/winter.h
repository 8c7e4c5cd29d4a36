/* The winter: what comes ashore, to whom, by when, and what can wait. Pure.
 *
 * What is ashore already is not handed in again: the work it is there for is named
 * with the day it can be fetched.
 *
 * Which winter: an obligation belongs to the last winter that starts on or before its
 * first lapsed day. Not before: the first day on which doing it carries her through
 * the last day of the coming season. Not after: back by fitting-out less her margin,
 * the station's turn-round counted in days on which it is not closed. */
#ifndef BECKET_WINTER_WINTER_H
#define BECKET_WINTER_WINTER_H

#include "due/due.h"
#include "gear/settled.h"
#include "gear/station.h"

/* One winter of one vessel. */
struct winter {
	int year;          /* the year it starts in, which names it */
	day_t lay_up;      /* its first day */
	day_t fitting_out; /* its last day: she must be ready */
	/* the first day of the next winter; the season ends the day before */
	day_t next_lay_up;
};

/* The winter of a year, odd winters included. False for a vessel in use all year. */
bool winter_of_year(const struct vessel *vessel, int year, struct winter *out);

/* The winter she is in on `day`, or else the next. False for a vessel in use all year. */
bool winter_at(const struct vessel *vessel, day_t day, struct winter *out);

/* The last winter that starts on or before `day`. False as above. */
bool winter_before(const struct vessel *vessel, day_t day, struct winter *out);

/* The season that starts in a year: the days from one winter to the next; for a vessel
 * in use all year, the calendar year. False when none starts in it. */
bool season_of_year(const struct vessel *vessel, int year, struct span *out);

/* What is left on `day` of the season she is in, or else the next season; for a vessel
 * in use all year, what is left of the calendar year, up to the day before her first
 * winter starts. False when there is none. */
bool season_at(const struct vessel *vessel, day_t day, struct span *out);

/* The year of the winter an obligation belongs to, seen from `today`; 0 when it is to be
 * done now, when she has no winter, or none by then, or when nothing will lapse. */
int winter_of_obligation(
    const struct vessel *vessel, const struct obligation *obligation, day_t today);

/* The parts of a list that a person sees to without a station. */
enum own_part {
	PART_NONE,
	PART_SELF,
	PART_BUY,
	PART_PAPERWORK,
};

/* One line of a shore list. */
struct shore_line {
	size_t item; /* index in the inventory */
	enum task task;
	enum state state;
	day_t due;        /* DAY_NONE when unknown */
	day_t not_before; /* first day on which doing it carries her through the season;
			   * DAY_NONE when that does not apply */
	day_t not_after;  /* last hand-in day, or last day to do it; DAY_NONE when none */
	/* if done on the hand-in day; DAY_NEVER when nothing will lapse, DAY_NONE when that is
	 * not known */
	day_t due_again;
	/* false: on whatever day of this winter it is done, it lapses in the season,
	 * on the day after due_again */
	bool carries;
	bool with_parent; /* a part that is renewed because its parent is opened */
	bool gone;        /* a working part that was withdrawn, with none in its place */
	bool give_back;   /* hired, and to be given back by its due day */
	bool
	    wanted; /* put on the list to buy by a person: no task is due, and `what` is what
		      * of it, in their words */
	/* -1 when not known; what the chosen station asks, where it has a price of
	 * its own */
	int64_t price_minor;
	int price_from_years;  /* that price holds from this age on; 0 from new, or not by
			       * age */
	bool price_age_missed; /* that price depends on the age, which is not known: it is
				* the dearest */
	int later_years;  /* when handed in late in its window, it has reached this age,
			  * from which it costs `later_minor`; 0 when its price is the
			  * same on every day that serves */
	day_t later_from; /* the first day of that */
	int64_t later_minor;
	/* a record of `counted_by`, which is done to the item at the same hand-in,
	 * counts as this task: nothing is charged for it */
	bool counted;
	enum task counted_by;
	unsigned
	    counts; /* bit 1 << enum task for each task whose record counts as this one */
	enum grade grade;
	const char *what; /* the rule's words; "" when none. Borrowed from the rule */
	int winter; /* for what waits: the winter it waits for; 0 otherwise, and where
			   * she has none by then */
	const char *why; /* for what can't be done: the reason; "" otherwise */
	enum own_part
	    own; /* for what can't be done: the part it was in; PART_NONE otherwise */
	/* for what can't be done: why a person gave its hand-in up; NULL otherwise */
	const char *given_up;
	day_t first_possible; /* for what can't be done: the first day it could be back;
			       * DAY_NONE otherwise */
	/* for what can't be done: what would help; NULL or "" otherwise */
	const char *cure;
	const char *note; /* what must be known before it goes; NULL or "" for nothing */
	/* for what waits for a station's work, of a boat in use all year: where it may go, and the
	 * last day to hand it in there so that it is back by its due day and, where that can still
	 * be, she is not let meanwhile; NULL otherwise, as where it is due in years. Lives as long
	 * as the list and the stations it was made of */
	const struct station *station;
	day_t hand_in_by;
};

/* Of a line with such a station: the first day from a day on of which the same holds; DAY_NONE when
 * there is none up to its `hand_in_by`. */
day_t waits_hand_in_from(
    const struct vessel *vessel, const struct shore_line *line, day_t from);

/* What a line asks to be done: the task's word, or "give back" at the end of a hire. */
const char *shore_line_word(const struct shore_line *line);

struct shore_lines {
	struct shore_line *items;
	size_t count;
	size_t capacity;
};

/* How many pieces some lines are about: each thing once however much is done to it, a
 * lot as many as it holds, and also the parts that are renewed inside another thing.
 * Calendar, dockets and page all count in this way. */
size_t shore_pieces(const struct inventory *inventory, const struct shore_lines *lines);

/* A line for a task of an item of which nothing more is known yet: no day, no price,
 * no words. */
struct shore_line shore_line_plain(size_t item, enum task task);

/* True when a line is about that item. What is bought new may also be named in other
 * lists. */
bool shore_lines_have(const struct shore_lines *lines, size_t item);

/* Why a station was chosen where there was a choice. */
struct trip_choice {
	/* some of what goes there could have gone elsewhere, and what follows is
	 * proven */
	bool any;
	bool no_room; /* there is no room elsewhere for all of that: no more is said */
	/* for a settled trip: what it would cost elsewhere now was not found, so it
	 * goes where it was sent when it was settled. No more is said */
	bool not_weighed;
	/* for a settled trip: how much less the best plan costs that sends that gear
	 * elsewhere now, all else that is settled staying as it is: 0 or more. When it
	 * is not 0, the trip was the best when it was settled, and no more is said */
	int64_t cheaper_minor;
	int64_t
	    saves_minor; /* what the best plan that sends that elsewhere, and leaves out
			      * the same, costs more: 0 or more */
	int saves_trips; /* and how many trips more it takes; may be less than 0. When
			      * both are 0, the station is the earlier or the usual one */
};

/* Why a day that a person chose does not serve everything that is to go on it. Where
 * there are several reasons, the first counts. */
enum day_misfit {
	DAY_SERVES,
	DAY_CLOSED,     /* nothing is taken in there */
	DAY_NOT_THEIRS, /* those who share trips do not go on it */
	DAY_BOOKED,     /* a boat in use all year is let before it could be collected */
	DAY_TOO_LATE,   /* some of it would not be back in time, or lapses before */
	DAY_TOO_EARLY,  /* some of it may not go yet */
};

/* The word for it, for CSV and JSON: "closed", "not your day", "booked", "too late",
 * "too early"; "" where the day serves. */
const char *day_misfit_word(enum day_misfit misfit);

/* The word for the means by which a hand-in was given out, for JSON: "file", "feed",
 * "push", "papers", "rota", "person"; "" where it is not known. */
const char *given_by_word(enum given_by by);

/* Whether the days on which those who share trips go agree with the station's days. */
enum days_agree {
	DAYS_AGREE,
	DAYS_TO_ASK,     /* the station's days are not known, and theirs are not among
			  * those assumed: the station is to be asked */
	DAYS_NOT_SHARED, /* they have no day in common: the station's are taken */
};

/* One trip to one station: what of one vessel goes there on one day. The vessels of
 * one base share a trip, and each has it in her list with her own lines. */
struct trip {
	size_t station;   /* index in the stations, or NO_STATION */
	const char *name; /* the station's name; "" for "an approved station" */
	bool assumed;     /* turn-round is assumed, the station is not in the book */
	day_t hand_in;
	day_t ready; /* the first day on which it can be fetched */
	/* the day it is fetched: `ready`, or that of a later hand-in there */
	day_t collect;
	struct shore_lines lines;
	bool of_base;        /* her base has other vessels: trips are the base's */
	size_t vessels;      /* with gear on it, this one included: 1 or more */
	int64_t share_minor; /* her part of what the trip costs; 0 when not known */
	int year;            /* the earliest winter of a vessel whose gear goes on it */
	size_t number; /* of the base's, or her, trips to this station in that winter,
			      * from 1 by day: with year and station it names the trip */
	struct trip_choice choice;
	bool settled;   /* it was given out before, or put on a day by a person */
	bool chosen;    /* on its day by a person's choice */
	bool confirmed; /* and the station said that day */
	/* DAY_SERVES, except for a chosen day that does not serve everything on it */
	enum day_misfit misfit;
	enum days_agree days;
	bool missed;            /* a day it was given out for has passed */
	enum given_by given_by; /* by what it was given out for its day, where known, */
	day_t given_on;         /* and when */
	/* the first day from today on that would also serve all of it, within the
	 * station's weekly limit; DAY_NONE when there is none before its own day */
	day_t earliest;
	/* the day ahead it was given out for, when that serves nothing on it any more,
	 * and why; DAY_SERVES where it has not been moved in this way since it was
	 * given out last */
	day_t moved_from;
	enum day_misfit moved_why;
	bool as_given; /* its day and pieces are those it was given out with last */
	/* It is given out, by calendar and papers, from `given_from` on only. A base's
	 * hand-in of a coming winter waits until all of her boats that are laid up now
	 * have fitted out; otherwise it would grow with each of them. Nothing is lost,
	 * because its day is after the last of those days. A settled hand-in does not
	 * wait */
	bool held_back;
	day_t given_from; /* DAY_NONE where it is not */
};

#define NO_STATION ((size_t)-1)

/* What is ashore already: nothing is to be handed in, only to be fetched. */
struct ashore_line {
	size_t item; /* index in the inventory; its parts have lines of their own only
			      * where they are ashore elsewhere */
	const char *station; /* where; "" when not known. Borrowed from the item */
	bool assumed;        /* turn-round is assumed, the station is not in the book */
	day_t since;         /* DAY_NONE when not known */
	day_t collect;       /* the day it can be fetched; DAY_NONE when not known */
	unsigned tasks;   /* bit 1 << enum task for each that is due this winter, or has
			      * lapsed, and is the station's to do */
	day_t due;        /* the earliest of those; DAY_NONE when unknown or none */
	enum state state; /* the state of that one */
};

struct ashore_lines {
	struct ashore_line *items;
	size_t count;
};

struct trips {
	struct trip *items;
	size_t count;
	size_t capacity;
};

/* How good the choice of trips is. */
struct trips_proof {
	bool proven;         /* none costs less, nor has fewer trips at that cost */
	int64_t minor;       /* what work, carriage and trips cost, as far as known */
	int64_t bound_minor; /* none costs less than this */
	size_t trips;
	size_t bound_trips; /* none that costs so little has fewer */
};

/* A thing that the cheapest plan of the coming winters (years/outlook.h) buys new in
 * the first of them while the shore list of that winter has it serviced, or the other
 * way round. */
struct winter_clash {
	size_t item;
	bool renewed; /* by the plan */
};

struct winter_clashes {
	struct winter_clash *items; /* in the arena, as the inventory has them */
	size_t count;
	size_t winters; /* how many the plan is for; 0: none was made */
};

/* The shore list of one vessel for one winter. */
struct shore_list {
	size_t vessel;
	bool has_winter; /* false: in use all year; what is not due yet is in `waits` */
	struct winter winter;
	struct trips hand_in;       /* by hand-in day, then station */
	struct ashore_lines ashore; /* by collect day, as the inventory has them */
	struct shore_lines self;
	struct shore_lines buy;
	/* what a person put on the list to buy, in the inventory's order, also for
	 * items gone for good. It has no price: the price of a new piece need not be
	 * the price of what the person's words ask for */
	struct shore_lines wanted;
	struct shore_lines paperwork;
	struct shore_lines dispose;
	struct shore_lines waits;
	struct shore_lines cannot;
	struct shore_lines now; /* lapsed, unknown, or lapsing before the next lay-up */
	struct shore_lines routines; /* named once as habits */
	int64_t cost_minor;          /* what is known of it */
	size_t unpriced;             /* lines in hand_in and buy without a known price */
	struct winter_clashes years; /* none from winter_plan_fleet; see years/tips.h */
	struct trips_proof proof;    /* of her trips, or her base's */
	int most_trips; /* the most they make in this winter; 0 for any number. What was
			 * given out is kept even above that, and counts */
};

/* What shore lists are made from; all borrowed. */
struct winter_request {
	const struct due_engine *engine;
	const struct station *stations;
	size_t station_count;
	int year; /* 0 for the winter each vessel is in, or else her next */
	day_t today;
	/* a hand-in that was not given out yet is planned for a day at least so many
	 * days ahead, or for the last day that serves where that is sooner */
	int lead_days;
	const struct settled_hand_in *settled; /* those that were given out */
	size_t settled_count;
	/* most trips in a winter, whatever the vessels say; 0: as the vessels say, and
	 * for those who share trips the lowest number that one of them says */
	int most_trips;
};

/* How many days ahead, at least, a new hand-in is given out: so its alarm a week
 * before still rings. */
enum { LEAD_DAYS = 7 };

/* Makes the shore lists of vessels (indices in the inventory, each once), in their
 * order. Those of one base (not "") share trips: for each base, and for each other
 * vessel, the stations and days are chosen so that work, carriage and trips cost
 * least; then the trips are fewest; then earliest (errands.h). The cost of parts
 * inside is not weighed in this, and a price that is not known counts as
 * winter/prices.h says.
 *
 * Where they will make only so many trips, what was given out counts first; then as
 * little as possible stays behind: first of the pieces that law or maker bind, then of
 * the others; then the choice is as above. What stays behind is in `cannot`.
 *
 * A station's weekly limit holds over all the vessels, base after base by name. The
 * lists live in `arena`. */
void winter_plan_fleet(const struct winter_request *request, const size_t *vessels,
    size_t count, struct arena *arena, struct shore_list *out);

#endif
