/* Clocks turned into due days, and the reasons for them.
 *
 * A rule is in force on the days its conditions hold and no rule that is "instead of" it is
 * in force. Each of its clocks that can start gives a last good day; the item is lapsed on
 * every later day on which the rule is in force. An obligation is one task on one item: it
 * is lapsed whenever any of its clocks is. From that set of days everything else is read:
 *
 *   - the due day seen from day n is the day before the first lapsed day after n, or, when
 *     it is lapsed on n, the day before the current lapse began;
 *   - the earliest clock wins without being asked to, and a change of use or of age moves
 *     the due day on the day it takes effect, and back again;
 *   - a certificate's next date is one more clock, so it binds when it is the earlier. It is
 *     of the one task it was stated for, and ends with the next record of that task or of one
 *     that counts as it.
 *
 * A printed expiry is a clock of grade maker on every day. A rule in force that reads the mark
 * stands in its place, in its own shape and grade; one of common practice neither lowers the
 * grade nor makes the day later. So with a paper's next date and with use: what the thing says
 * of itself is never of grade practice, here, in the years and in the muster alike.
 *
 * The maker's interval for one piece is a clock of grade maker. It takes the place of rules of
 * common practice for its task; beside a law's the earlier wins. A rule may leave its interval
 * to the maker (`interval: maker`): then it runs with that one, in its own window and grade.
 * While it is not in the book, or what it counts from is not, the task is of unknown date,
 * whatever else runs, except for the next date that a paper states; a clock that has run out still
 * makes it lapsed.
 *
 * A renewal puts another thing in the place of the one before, of which nothing counts any more
 * (whoever loads an item leaves it out). One that is a refit renews what is in the thing, as a
 * beacon's battery or a light's cells: its mark is the new one's, the clocks of renewals that count
 * from the last one start anew, and what had put the thing out until a renewal has ended. The
 * thing is the same: its age and every clock that counts from its own dates, limits of age, its
 * other tasks with their papers and extensions, and the maker's intervals go on as they were.
 * A rule of another task that counts renewals does not count a refit. In a rule of refits
 * `fitted` is the day of the last one.
 *
 * A record, or an event, of a later day than the one asked about has not happened yet and does
 * not count. An event puts the thing out from the day before it until the task its rule names
 * has followed it, and the first that nothing followed decides.
 *
 * Where the contents bind, a dated part makes a known day earlier; it never stands in for a
 * date of the thing's own.
 *
 * A hired item is to be given back: the day after the last of its hire its renewal is lapsed,
 * whatever else is known of it.
 *
 * With a window, due is the nominal day and `good_through` the window's last. Each is
 * read by itself: due is the earliest nominal day of the clocks that will lapse, even
 * where another's last good day comes before the end of its window. What was done inside
 * a window may keep its day as the anniversary: see rule_anniversary in due/inside.h.
 *
 * A rule of which it can't be told whether it holds counts beside the others, now and in the
 * past; but where nothing that surely holds tells a day, the date is unknown until it has lapsed.
 *
 * Pure: no clock is read, the day is an argument. */
#ifndef BECKET_DUE_DUE_H
#define BECKET_DUE_DUE_H

#include "dates/spans.h"
#include "gear/item.h"
#include "rules/sheet.h"

/* Why a clock counts or does not. */
enum reading_state {
	READING_RUNS,         /* it has a due day */
	READING_NOT_KNOWN,    /* none of its anchors is known */
	READING_ASKS,         /* a condition of its rule can't be told; see `asks` */
	READING_NOT_IN_FORCE, /* its rule's conditions never hold from the day asked on */
	READING_DONE,         /* it held only for more or fewer times done */
	READING_REPLACED, /* common practice, in whose place the maker's interval is */
};

/* One clock as read for one item: the answer to "why that date". */
struct reading {
	const struct rule *rule; /* NULL for what the item's own papers say */
	/* the rule's id, or "maker", "label", "certificate", "event", "contents", "hire" */
	const char *rule_id;
	enum reading_state state;
	/* what it counts from: the first known, else the first named */
	enum anchor anchor;
	struct stamp stamp; /* the anchor as written, coarse or not */
	day_t from;         /* the day it counts from; DAY_NONE when not known */
	/* what it counts from for `last`; for a mark, and for `fitted` by a rule of refits, the
	 * last refit; NULL else */
	const struct record *record;
	const struct event *event; /* likewise for an event */
	const char *part;          /* likewise for contents: the part's tag */
	bool kept;  /* `from` is the anniversary that the last record kept */
	int months; /* interval; 0 with `days`, and for marks and papers */
	int days;
	enum through through; /* its period ends so late */
	bool before;          /* or so early: strictly before the day */
	day_t due;            /* nominal due day; DAY_NONE when the clock can't start */
	day_t good_through;   /* due, or the last day of its window or extension */
	/* when its rule is in force, also if that can't be told: until it is known, the
	 * stricter holds */
	struct spans in_force;
	struct spans sure; /* the days of those on which it surely is */
	bool binds;        /* it decides the obligation's due day */
	bool began;        /* its lapse goes on under the rule that binds; it began it */
	/* the maker's interval that it reads, or would if it were known; see `wants_maker` */
	const struct interval *interval;
	/* its rule leaves the interval to the maker, and that is not in the book, or what it
	 * counts from is not */
	bool wants_maker;
	bool paper_allows_longer; /* a certificate's date that is later than the rule's */
	const struct extension *extension; /* the one that moved it, or NULL */
	enum grade grade;
	enum state lapse;
	enum doer doer;
	const char *source;
	const char *asks; /* for READING_ASKS and READING_NOT_KNOWN: the name of what is
			       * missing, as a column or an option: "made", "area", or
			       * "made-day" where made is too coarse to tell; else "" */
};

/* One task on one item, seen from one day. */
struct obligation {
	size_t item; /* index in the inventory */
	enum task task;
	enum state state;
	day_t due; /* DAY_NONE when unknown or when nothing will lapse */
	/* last day in date; DAY_NEVER when nothing will lapse; DAY_NONE when
	 * unknown. Later than `due` only inside a window */
	day_t good_through;
	enum grade grade;
	enum doer doer;
	bool routine; /* interval under 12 months: kept apart, decides no winter */
	bool asks;    /* some clock could not be told; see why */
	/* NULL when unknown; lives as long as the readings */
	const struct reading *binding;
	const struct reading *readings; /* all clocks of this task */
	size_t reading_count;
	struct spans lapsed; /* every lapsed day */
};

/* What the engine needs, all borrowed. */
struct due_engine {
	const struct kinds *kinds;
	const struct rulebook *const *rulebooks; /* one for each vessel, same index */
	const struct inventory *inventory;
	const size_t *first_part; /* see due_index_parts; NULL when no item has parts */
	const size_t *next_part;
};

/* Builds the two index arrays over parts from the items' parents: first_part[i] is the first
 * part of item i, next_part[j] the next part of the same parent; ITEM_NO_PARENT ends a
 * chain. Both arrays have item_count elements and belong to the arena. */
void due_index_parts(const struct inventory *inventory, struct arena *arena,
    const size_t **first_part_out, const size_t **next_part_out);

/* All obligations of one item as seen from `today`, in task order; none for a withdrawn
 * item. Everything in them lives in `arena` until it is reset. */
void due_of_item(const struct due_engine *engine, size_t item, day_t today,
    struct arena *arena, struct obligation **out, size_t *count_out);

/* An item, and its parts with it, as if it were aboard another vessel, as a spare that may be lent;
 * and the day it is seen from. */
struct item_aboard {
	size_t item;
	size_t vessel;
	day_t today;
};

/* The same of such an item. */
void due_of_item_aboard(const struct due_engine *engine, struct item_aboard aboard,
    struct arena *arena, struct obligation **out, size_t *count_out);

/* What is wrong with a working part. */
enum part_trouble {
	PART_FINE,
	PART_LAPSED,    /* at grade law or maker */
	PART_NOT_KNOWN, /* a rule of such a grade should date it, and can't */
	PART_LANDED,    /* ashore without its parent */
	PART_GONE,      /* withdrawn, and no other of its kind put in */
};

/* Whether an item works, by the working parts that the kinds catalogue names and the book
 * has inside it; a part that was never entered says nothing. */
struct working {
	struct spans
	    lapsed; /* days on which it does not, for a part has lapsed or is away */
	struct spans unknown; /* days on which that can't be told */
	/* what is wrong on the day asked from; the part's index */
	enum part_trouble trouble;
	size_t part;
};

/* Fills it for an item as if aboard a vessel, seen from `today`. Withdrawn parts are seen
 * where the inventory has them. */
void due_working(const struct due_engine *engine, size_t item, size_t vessel, day_t today,
    struct arena *arena, struct working *out);

/* True for a working part that was withdrawn with no other of its kind put in its place, while
 * what it was part of is still in use. */
bool due_part_is_missed(const struct due_engine *engine, size_t part);

/* The word for each in JSON: "lapsed", "date-unknown", "landed", "gone"; "" for none. */
const char *part_trouble_word(enum part_trouble trouble);

/* "has lapsed", "is of unknown date", "is ashore", "is gone"; "" for none. */
const char *part_trouble_words(enum part_trouble trouble);

/* True when a renewal of the item that is still to come is taken to be a refit: all rules of its
 * sheets that renew it say that it is what is in it that is renewed, and its maker gave no interval
 * of renewals, which may be of the whole. */
bool due_refits(const struct due_engine *engine, const struct item *item);

/* The same obligation as if the task were done on `done`: the answer to "if I do it then,
 * when is it due again?" A renewal is taken to be fitted new on that day, or to be a refit as
 * due_refits has it; what is printed on a thing not yet bought can't be known, so marks do not
 * count in it. With a service what is inside
 * and dated is renewed, if it would lapse before the next one: a part binds by its date as a new
 * one of that day, then. */
void due_if_done(const struct due_engine *engine, size_t item, enum task task, day_t done,
    struct arena *arena, struct obligation *out);

/* The day a task is due again if it is done on `done`, before any window: DAY_NEVER when nothing
 * will lapse, DAY_NONE when it is not in date even then, or that can't be told. What is reckoned
 * meanwhile lives in the arena. */
day_t due_again(const struct due_engine *engine, size_t item, enum task task, day_t done,
    struct arena *arena);

/* A task taken as done on a day, and the day, not before it, from which that is seen. */
struct task_done {
	enum task task;
	day_t done;
	day_t seen;
};

/* The same, seen from a later day, on which other rules may hold. What is recorded after the task
 * was done counts for nothing. */
void due_if_done_seen(const struct due_engine *engine, size_t item, struct task_done what,
    struct arena *arena, struct obligation *out);

/* What a task that was done on `done` leaves on record, so far as that is known before; a
 * renewal as that of the whole. */
struct record due_record(enum task task, day_t done);

/* A copy of an item as it would be after the task, as due_if_done has it, with that on
 * record: renewed it is another item, or where that is a refit the same without a mark.
 * Records after `done` are left out; what it points to lives in `arena` or where the
 * item's lives. */
void due_item_after(const struct item *item, enum task task, day_t done, bool refit,
    struct arena *arena, struct item *out);

/* True when the clock gives a day that counts, whether its rule is in force from the day
 * asked on or was only before: a lapse may have begun under a rule that no longer
 * holds. */
bool reading_gives_a_day(const struct reading *reading);

/* True for a clock that tells the task's day on its `sure` days, so that one that can't start may
 * be done without: it gives a day, and is not the end of a hire or the date of a part inside, which
 * say nothing of the thing's own dates. */
bool reading_tells(const struct reading *reading);

/* True for a clock of the thing's own that asks for a day while in force: the task is of unknown
 * date on those of its days that neither it nor another tells. */
bool reading_is_stuck(const struct reading *reading);

/* True when it has no day and never lapses. With a window it may have a day that no lapse follows,
 * its rule being over before the window is: that day is told like any other. */
bool obligation_never_falls_due(const struct obligation *obligation);

/* True when besides nothing is asked for: no list names it. */
bool obligation_is_idle(const struct obligation *obligation);

/* True when a station is to do a task that an obligation, or a clock, names a doer for. */
static inline bool
station_does(enum doer doer, enum task task)
{
	return doer == DOER_STATION && task != TASK_REGISTER;
}

/* The state an obligation has on any day, read from its lapsed days. */
enum state obligation_state_on(const struct obligation *obligation, day_t day);

/* True when on that day the clocks in force can't tell whether the task is lapsed: none of them
 * runs and some can't start, or the maker's interval is wanted and not in the book. */
bool obligation_unknown_on(const struct obligation *obligation, day_t day);

/* The first name of what is missing among its clocks, theirs; "" when nothing is. */
const char *obligation_asks(const struct obligation *obligation);

/* True when on some day of the span the task is lapsed, or can't be told, by a clock of this
 * grade or a more binding one; nothing being done after the day the obligation was seen from.
 * The span has two ends and does not begin before that day. */
bool obligation_fails_in(
    const struct obligation *obligation, struct span span, enum grade least);

/* The interval's last day: `months` or `days` after `from`, then to the end of the month or
 * year where the rule says so, then a day earlier for "before". */
day_t clock_due(const struct clock_rule *clock, day_t from);

#endif
