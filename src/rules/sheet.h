/* Rule sheets: YAML files of rules for one regime. A sheet is data; src/due turns it into
 * dates. The YAML shape is documented in data/README.md. */
#ifndef BECKET_RULES_SHEET_H
#define BECKET_RULES_SHEET_H

#include "dates/day.h"
#include "gear/words.h"
#include "rules/kinds.h"

#include <limits.h>

/* When a rule holds. Each part that is not set (see the field) holds always. */
struct conditions {
	unsigned uses;        /* bit 1 << enum use for each use it holds for; 0 for any */
	int age_from_months;  /* holds from this age on; 0 not set. Age counts from made,
				* or from packed where that is all that is known */
	int age_until_months; /* holds before this age; 0 not set */
	int marked;          /* 1 only with a marked expiry, -1 only without; 0 not set */
	int length_from_cm;  /* vessel's length at least; 0 not set */
	int length_below_cm; /* vessel's length less than; 0 not set */
	int persons_from;    /* persons aboard at least; 0 not set */
	int persons_until;   /* persons aboard at most; 0 not set */
	int built_from;      /* vessel built in this year or later; 0 not set */
	int built_until;     /* vessel built in this year or earlier; 0 not set */
	day_t made_from;     /* item made on this day or later; DAY_NONE not set */
	day_t made_until;    /* item made on this day or earlier; DAY_NONE not set */
	const char *const *areas;        /* vessel's area is one of these */
	size_t area_count;               /* 0 not set */
	const char *const *areas_except; /* vessel's area is none of these */
	size_t area_except_count;        /* 0 not set */
	int season_months_below; /* vessel in use in fewer months a year; 0 not set */
	int above_freezing; /* 1 only where all those months have a mean daily minimum above
			     * 0 C, -1 only where not; 0 not set */
	int dry_storage; /* 1 only where gear lies dry out of season, -1 only where not; 0
			     * not set */
	int test_valid_months; /* the paper of the last test, of the item or of its gas
				* cylinders, is good for so many months from the last
				* service, or from packed or made before the first; 0 not set */
	/* item's rating is one of these, except for capitals, blanks and hyphens */
	const char *const *ratings;
	size_t rating_count; /* 0 not set */
};

/* Where a period ends. */
enum through {
	THROUGH_DAY,       /* on the day itself */
	THROUGH_MONTH_END, /* a due month counts to its end */
	THROUGH_YEAR_END,  /* a year-stamped limit counts to the year's end */
};

/* One interval counted from an anchor. */
struct clock_rule {
	enum anchor
	    anchors[4];      /* the first of these that is known is what it counts from */
	size_t anchor_count; /* 1 to 4 */
	int months;          /* interval; used when days is 0 */
	int days;            /* interval in days, for weekly routines; 0 for months */
	int done_from;       /* holds once the task was done at least this often */
	int done_until;      /* and at most this often; INT_MAX without limit. "first" is
				 * 0..0, "again" is 1..INT_MAX, "always" is 0..INT_MAX */
	enum through through;
	bool before;    /* must be done strictly before the day: good until the day
				 * before it */
	bool stamp_end; /* a coarse stamp counts from its last day, not its first */
	bool
	    by_maker; /* the interval is the maker's, to be entered for each piece: months and
			* days are 0, and until it is known the task has no day */
	unsigned events; /* for ANCHOR_EVENT: bit 1 << enum event_kind; 0 for any */
};

/* What the next interval counts from after a task was done. */
enum window_next {
	NEXT_FROM_DONE, /* the day it was done */
	/* the day it was due when done inside the window, the anniversary; else the day it
	 * was done */
	NEXT_FROM_DUE,
	NEXT_FROM_DUE_EVEN_LATE, /* the anniversary when done after the window too */
};

/* How far from its due day a task may be done. It never stretches a printed date. */
struct window {
	int early_months; /* 0 none */
	int late_months;  /* past due but inside this counts as in date; 0 none */
	enum window_next next;
};

/* One rule. Strings and arrays are borrowed from its sheet, or from one it extends. */
struct rule {
	const char *id;    /* unique in the sheet: "raft-service"; first of the struct */
	const char *sheet; /* the sheet it is followed in: "practice" */
	/* the sheet that says it: another one where it is inherited */
	const char *origin;
	const char *replaces; /* sheet whose rule of this id it replaces; "" for none */
	unsigned entry;       /* its number in its sheet's file, from 1; 0 inherited */
	const char *const *kinds;
	size_t kind_count;
	struct conditions when;
	enum task task;
	/* bit 1 << enum task for each task whose record counts as this one */
	unsigned counts;
	enum doer doer;
	enum grade grade;
	/* what it is called when passed: overdue, expired, life-expired */
	enum state lapse;
	const struct clock_rule *clocks;
	size_t clock_count;
	struct window window;
	bool
	    refit; /* a renewal of what is in it (cells): no new one is bought, and its price is
		     * not that of a new one */
	bool contents_bind;   /* due no later than the earliest dated part inside */
	int extension_months; /* most that an extension may add; 0 says nothing */
	/* ids of rules that are out of force while this holds */
	const char *const *instead_of;
	size_t instead_of_count;
	/* ids of rules beside which it is meant to hold with other figures; the
	 * earlier day wins, as it does anyway */
	const char *const *beside;
	size_t beside_count;
	const char *what;   /* what to do, in words: "hand in for service"; may be "" */
	const char *source; /* clause and edition, or "common practice" */
	enum standing standing;
};

/* Kinds that serve a carriage line, and what one piece of them is worth in it. Where a kind
 * is in several, the one that is worth most of those the piece meets is meant. */
struct serving {
	const char *const *kinds;
	size_t kind_count;
	int points;         /* 1 or more; 0 with by_capacity */
	bool by_capacity;   /* as many points as the piece is for persons */
	int capacity_from;  /* only pieces for at least so many persons; 0 for any */
	const char *rating; /* only pieces of this rating or a higher one, as
			     * rating_reaches has it; "" for any */
	int at_most;        /* most points all pieces by this entry count; 0 no limit */
};

/* One line of what must be carried. A need is `points` and so many for each person, with
 * `percent` of that on top, rounded up, and `plus`. Without points or per_person, `percent`
 * is of the persons. */
struct carriage {
	const char *id; /* unique in the sheet: "us-day-signals"; first of the struct */
	const char *title; /* "day distress signals" */
	const char *sheet; /* sheet, origin, replaces, entry: as of a rule */
	const char *origin;
	const char *replaces;
	unsigned entry;
	struct conditions when; /* those that are about the vessel alone */
	int points;             /* 0 where it goes by persons */
	int per_person;         /* 0 where it goes by points */
	int percent;            /* 0 none */
	int plus;               /* 0 none */
	bool without_largest;   /* it must be met without its largest piece */
	const struct serving *serves;
	size_t serve_count;        /* 1 or more */
	const char *const *places; /* only pieces whose place has one of these words */
	size_t place_count;        /* 0 for anywhere */
	unsigned about; /* bit 1 << enum carriage_subject for each its kinds are of */
	/* group of lines of this sheet, of which one way is enough; "" */
	const char *any_of;
	const char *way; /* lines of a group that have the same way are needed together;
			     * its id where none is named */
	const char *source;
	enum standing standing;
};

/* A subject on which the sheet carries no figure, and whom to ask. */
struct not_stated {
	const char *id;      /* unique in the sheet; first of the struct */
	const char *subject; /* "service of a raft in a canister" */
	const char *ask;     /* "the maker or an approved service station" */
	const char *sheet;   /* sheet, origin, replaces, entry: as of a rule */
	const char *origin;
	const char *replaces;
	unsigned entry;
	struct conditions when;   /* those that are about the vessel alone */
	const char *const *kinds; /* gear it is about; `why` says so of each */
	size_t kind_count;        /* 0 none */
	bool carriage;            /* about what must be carried; the muster says so */
	/* bit 1 << enum carriage_subject for each of which whom to ask is said, where no carriage
	 * line of hers is of it */
	unsigned about;
};

/* A sheet. */
struct sheet {
	const char *name;     /* "practice" */
	const char *title;    /* "Common practice" */
	const char *audience; /* who it is for */
	day_t compiled;       /* the day its figures were put together */
	/* name of the sheet it extends; "" for none. What is inherited stands among
	 * its own rules, lines and cautions */
	const char *extends;
	const char *const *strikes; /* ids of what it does not take over */
	size_t strike_count;
	const char *const *cautions;
	size_t caution_count;
	const struct rule *rules;
	size_t rule_count;
	const struct carriage *carriage;
	size_t carriage_count;
	const struct not_stated *not_stated;
	size_t not_stated_count; /* at least one of the three lists has an entry */
};

/* Where a sheet finds the one it extends. `find` gives a sheet that outlives the one being
 * read; it fails, with the words of what was expected, for a name that is not known or may
 * not be extended from there. */
struct sheet_library {
	bool (*find)(void *context, const char *name, const struct sheet **out,
	    struct fault *fault);
	void *context;
};

/* Reads one sheet from YAML text through libcyaml and checks it: known kinds, unique ids,
 * words and figures in range, a source and a standing on every rule, every clock able to
 * start. Takes over what the sheet it extends says, less what it strikes out; what has the
 * id of something inherited stands in its place. `library` may be NULL where no sheet may
 * extend another. On failure the message names file, line and field, what was found and what
 * was expected. Free with sheet_free, before the sheet it extends. */
MUST_CHECK bool sheet_read(const char *name, const char *yaml, size_t length,
    const struct kinds *kinds, const struct sheet_library *library,
    struct sheet **sheet_out, struct fault *fault);
/* The same of a sheet that the program carries, or of another file; all of `file` is
 * borrowed for the call. */
MUST_CHECK bool sheet_read_packed(const struct packed_file *file,
    const struct kinds *kinds, const struct sheet_library *library,
    struct sheet **sheet_out, struct fault *fault);
void sheet_free(struct sheet *sheet);

/* True for a rule with an interval under 12 months on every clock that has one: a routine,
 * kept apart from the dates that decide a winter. An interval of 0 (due at once) is none; the
 * maker's, which the sheet does not know, makes no routine. */
bool rule_is_routine(const struct rule *rule);

/* The rules of some sheets, by kind. */
struct rulebook;

/* Gathers the sheets (borrowed, must outlive the rulebook). An id of a rule or of a carriage
 * line that is in two of them is a failure, so that an id names one; so a sheet is followed
 * instead of the one it extends, not beside it. */
MUST_CHECK bool rulebook_new(const struct sheet *const *sheets, size_t sheet_count,
    struct rulebook **rulebook_out, struct fault *fault);

/* The same for all sheets that one vessel follows at some time: an id may be in several of
 * them, since what is followed on one day was gathered by rulebook_new. */
MUST_CHECK bool rulebook_of_times(const struct sheet *const *sheets, size_t sheet_count,
    struct rulebook **rulebook_out, struct fault *fault);
void rulebook_free(struct rulebook *rulebook);

/* How many rules of renewal a kind has, and how many of them renew what is in it alone. */
struct renewal_rules {
	size_t count;
	size_t refits;
};

struct renewal_rules rulebook_renewals(const struct rulebook *rulebook, const char *kind);

/* The rules for a kind in sheet order; sets *count_out. NULL and 0 when there are none.
 * Borrowed from the rulebook. */
const struct rule *const *rulebook_for(
    const struct rulebook *rulebook, const char *kind, size_t *count_out);

/* All carriage lines in sheet order; sets *count_out. NULL and 0 when there are none.
 * Borrowed from the rulebook. */
const struct carriage *const *rulebook_carriage(
    const struct rulebook *rulebook, size_t *count_out);

/* All subjects of which the sheets carry no figure, in the same way. */
const struct not_stated *const *rulebook_not_stated(
    const struct rulebook *rulebook, size_t *count_out);

#endif
