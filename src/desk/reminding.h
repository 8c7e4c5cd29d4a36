/* The book's reminders, made and given their identity: what a file, a feed and a server
 * all get. */
#ifndef BECKET_DESK_REMINDING_H
#define BECKET_DESK_REMINDING_H

#include "base/spool.h"
#include "calendar/reminders.h"
#include "desk/inside.h"
#include "desk/plans.h"
#include "desk/remind.h"

/* What of a book all its reminders are made with, in an arena. */
struct reminding_basis {
	struct reminder_choices choices;
	int64_t entry;  /* the journal's last that changed anything */
	int64_t oldest; /* the least of what was given out and is still in a calendar */
	bool any_given; /* something was once given out */
	const struct vessel_entry *entries; /* after that, by vessel */
	size_t entry_count;
	bool of_several; /* boats are in the book */
};

MUST_CHECK bool reminding_read(struct desk *desk, struct arena *arena,
    struct reminding_basis *out, struct fault *fault);

/* The reminders of the boats that are loaded, with what they were made from. */
struct reminders_made {
	struct reminders reminders;
	struct shore_list *lists;
	size_t list_count;
	const struct reminding_basis *basis;
	bool events; /* no to-dos are made */
};

/* Makes them as they would be given out today, with their identity, events and to-dos
 * both, unless `events` is set; nothing is stored. Loads the book where nothing is loaded.
 * `basis` is read unless it is set. */
MUST_CHECK bool reminding_make(
    struct desk *desk, struct reminders_made *out, struct fault *fault);

/* The events as they would be given out today, with their identity; nothing is stored, so
 * that looking settles nothing. */
MUST_CHECK bool reminding_seen(
    struct desk *desk, struct reminders *out, struct fault *fault);

/* The same with events and to-dos both. */
MUST_CHECK bool reminding_seen_both(
    struct desk *desk, struct reminders *out, struct fault *fault);

/* Hands out the reminders of all boats by those that have to do with each other, as
 * ask_together loads them, so that little more than these is in memory; all at once where a
 * station's weekly limit ties all boats. `take` gets them each time
 * sorted by day, then key, and for each vessel of the inventory her place in that of the
 * whole book. `then` as together_asked has it. Nothing is stored. The basis is read into
 * `arena`. */
struct reminding_taker {
	bool (*take)(struct desk *desk, struct reminders_made *made, const size_t *places,
	    void *context, struct fault *fault);
	bool (*then)(struct desk *desk, void *context, struct fault *fault);
	void *context;
	bool events;        /* no to-dos */
	const char *vessel; /* only the boats she has to do with; NULL for all */
};

MUST_CHECK bool reminding_by_bases(struct desk *desk, enum left_gear left,
    const struct reminding_taker *taker, struct arena *arena,
    struct reminding_basis *basis, struct fault *fault);

/* What there is to see of reminders that were made: the events of those wished for, and
 * what was given up. */
MUST_CHECK bool reminding_see(struct desk *desk, const struct plans_wish *whose,
    struct reminders_made *made, struct reminders_seen *out, struct fault *fault);

/* The part of the book of which their reminders are reckoned, in the desk's arena; NULL
 * for all of it. It is loaded; all of it is loaded when next asked for. */
MUST_CHECK bool reminding_part(struct desk *desk, const struct plans_wish *whose,
    const struct book_part **part_out, struct fault *fault);

/* The shore lists that they are made from. */
MUST_CHECK bool reminding_plans(struct desk *desk, struct shore_list **lists_out,
    size_t *count_out, struct fault *fault);

/* The hand-ins of some shore lists that settling_keep (inside.h) would keep, in the
 * desk's arena, and for each the first vessel with gear on it. */
struct settled_found {
	struct settled_hand_in *rows;
	size_t *vessels;
	size_t count;
};

MUST_CHECK bool settling_find(struct desk *desk, const struct shore_list *lists,
    size_t count, const struct settling_which *which, struct settled_found *out,
    struct fault *fault);

/* A hand-in, and the place of the first boat with gear on it in the whole book. */
struct placed_hand_in {
	size_t place;
	size_t order; /* of those of one boat */
	struct settled_hand_in of;
};

/* Starts as `{ 0 }`; all of it is in the arena in which it is kept. */
struct placed_hand_ins {
	struct placed_hand_in *items;
	size_t count;
	size_t capacity;
};

/* Adds those that the lists of the boats that are loaded give out. `places` as ask_together has
 * them. */
MUST_CHECK bool placing_find(struct desk *desk, const struct shore_list *lists,
    size_t count, const struct settling_which *which, const size_t *places,
    struct arena *arena, struct placed_hand_ins *out, struct fault *fault);

/* Writes them in the transaction that is open, as the whole fleet's lists would have them; those of
 * one boat as they came. */
MUST_CHECK bool placing_write(
    struct desk *desk, struct placed_hand_ins *placed, struct fault *fault);

/* Keeps the hand-in of a reminder's key as given out, on the day that it is planned for;
 * other reminders' keys are left alone. */
MUST_CHECK bool reminding_keep_hand_in(
    struct desk *desk, const char *key, struct fault *fault);

/* FAULT_INPUT when the book has no vessel, base or station of a scope's name. Opens the book; what
 * of it was loaded is forgotten where a vessel or a base is looked for. */
MUST_CHECK bool reminding_check_scope(
    struct desk *desk, const struct scope *scope, struct fault *fault);

/* What to call the calendar of a scope: the name where it fits into a calendar's (no
 * comma, semicolon or backslash), else "becket". */
const char *reminding_calendar_name(const struct scope *scope);

/* ---- given out ---- */

/* Reminders on their way to a calendar, made base by base and kept out of memory until what shows
 * them is ready. */
struct giving {
	/* set by whoever gives them out, all borrowed: */
	enum given_by by;
	struct scope scope; /* whose are shown */
	bool todos;         /* to-dos are shown; else events */
	act_part *then;     /* all are made; with the book as it was then */
	act_part *write;    /* in the act's transaction; calls giving_keep */
	void *act;          /* for both */
	/* the rest is found by planning; free with giving_clear: */
	size_t count; /* of those shown */
	struct arena arena;
	struct reminding_basis basis;
	struct runs shown; /* by day, then key */
	struct runs given; /* all of the book's, by key */
	struct placed_hand_ins settled;
	struct gone_reminders gone;
};

/* Makes all reminders as they are to be given out today, then calls `then`. Begins anew where it
 * was done before. */
MUST_CHECK bool giving_plan(
    struct desk *desk, struct giving *giving, struct fault *fault);

/* Plans, and has `write` write, as act_run does it. */
MUST_CHECK bool giving_run(struct desk *desk, struct giving *giving, struct fault *fault);

/* Hands out those shown, by day, then key: without vessels and station, their strings lasting
 * until `take` returns. Where one fails the rest is passed over. */
typedef bool giving_taker(
    const struct reminder *reminder, void *context, struct fault *fault);
MUST_CHECK bool giving_show(
    const struct giving *giving, giving_taker *take, void *context, struct fault *fault);

/* Keeps all of them and their hand-ins as given out, in the open transaction, so that nothing is
 * given out that the book does not know of. */
MUST_CHECK bool giving_keep(
    struct desk *desk, struct giving *giving, struct fault *fault);

/* Frees what planning found. */
void giving_clear(struct giving *giving);

#endif
