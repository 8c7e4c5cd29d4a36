/* What a person says about reminders and hand-ins, and which reminders there are. The
 * rules for acts are those of desk/acts.h. */
#ifndef BECKET_DESK_REMIND_H
#define BECKET_DESK_REMIND_H

#include "calendar/reminders.h"
#include "desk/plans.h"

/* What may be said of one reminder's day. */
enum day_said {
	SAID_PLAN, /* it is put on this day, or with DAY_NONE back where it would be */
	SAID_CONFIRMED, /* the same of a hand-in, which the station confirmed for this day */
	SAID_GIVE_UP, /* the hand-in is given up for its winter */
};

struct said_day {
	enum day_said what;
	/* how its identity begins; or the station of the one hand-in to come there, or,
	 * for SAID_PLAN, of the one that was given up there, which takes that back */
	const char *of;
	day_t day;       /* today or later, or DAY_NONE */
	const char *why; /* SAID_GIVE_UP: the reason; "" where none was said */
};

/* What is not set stays as it is. */
struct remind_request {
	bool set_weekday, set_routines, set_singles;
	int weekday; /* 0 Monday to 6 Sunday */
	bool routines;
	bool singles;
	const struct notice *notices; /* fewer than 0 days take one back */
	size_t notice_count;
	const struct said_day *days;
	size_t day_count;
	/* whose reminders `days` are about, by its vessel, base and boats, so that only
	 * these are reckoned; NULL for any */
	const struct plans_wish *whose;
};

/* Keeps what was chosen. A hand-in that is put on a day is settled by that: what is on it
 * stays together. FAULT_INPUT for a day gone by, for what names no reminder or more than
 * one, for the last day that serves, which can't be put off, and for giving up a hand-in
 * of a boat in use all year, who has no winter to give it up for; the field is "plan",
 * "confirmed" or "give-up". */
MUST_CHECK bool desk_remind(
    struct desk *desk, const struct remind_request *request, struct fault *fault);

/* Which hand-in is meant: a trip of a shore list. */
struct hand_in_named {
	const char *owner; /* the boat, or the base where its boats share their trips */
	const char *station;
	int year;      /* of its winter */
	size_t number; /* of the owner's to that station in that winter */
};

/* Finds the identity by which the hand-in is put on another day. In the desk's arena.
 * FAULT_INPUT when there is none of it to come. */
MUST_CHECK bool desk_hand_in_uid(struct desk *desk, const struct hand_in_named *named,
    const char **uid_out, struct fault *fault);

/* A hand-in given up for a winter that is not over. */
struct given_up {
	const char *uid; /* its identity */
	struct planned_day of;
};

struct reminders_seen {
	struct reminders reminders; /* events alone */
	struct reminder_choices choices;
	struct given_up *given_up;
	size_t given_up_count;
};

/* The reminders as of desk->today, and what was chosen. Nothing is written. `whose` tells
 * by its vessel, base and boats (a winter's, as plans.h has them) whose reminders are
 * wanted; NULL for the whole fleet's. Only those boats, and what their reminders depend
 * on, are reckoned, except where a station's weekly limit ties all boats together. Each
 * reminder, and each hand-in given up, is of one base. */
MUST_CHECK bool desk_reminders(struct desk *desk, const struct plans_wish *whose,
    struct reminders_seen *out, struct fault *fault);

/* Takes rows to show, sorted by day, then key, and after them what was given up, by key;
 * they hold until it returns. */
typedef void reminder_rows_taker(
    const struct reminder_row *rows, size_t count, void *context);

/* Hands out those of all boats, or of a scope of a station. They are made base by base, so
 * that only the boats that have to do with each other are loaded at a time, except where a
 * station's weekly limit ties all boats together; there is no answer before this returns
 * true. What was chosen is put in `arena`. */
MUST_CHECK bool desk_reminders_by_bases(struct desk *desk, const struct scope *scope,
    reminder_rows_taker *take, void *context, struct arena *arena,
    struct reminder_choices *choices_out, struct fault *fault);

/* The reminders seen as rows to show, what was given up last, in the desk's arena; returns how
 * many. */
size_t desk_reminder_rows(
    struct desk *desk, const struct reminders_seen *seen, struct reminder_row **rows_out);

#endif
