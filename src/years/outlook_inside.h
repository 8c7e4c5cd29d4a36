/* Inside the years: what the files of the outlook share. Not for other rooms. */
#ifndef BECKET_YEARS_OUTLOOK_INSIDE_H
#define BECKET_YEARS_OUTLOOK_INSIDE_H

#include "base/numbers.h"
#include "winter/prices.h"
#include "years/outlook.h"

/* A task as a bit, and renewal among them: as an act it is a refit, which leaves the thing.
 * As an act alone: another thing takes its place. */
#define TASK_BIT(task) (1U << (task))
#define RENEW_BIT TASK_BIT(TASK_RENEW)
#define ANOTHER_BIT TASK_BIT(TASK_COUNT)

/* How many bits are set. */
static inline int
bits_in(uint32_t bits)
{
	int count = 0;
	for (; bits != 0; bits &= bits - 1) {
		count++;
	}
	return count;
}

/* One year of a vessel: a winter and the season after it. */
struct outlook_year {
	bool there;         /* false: before her first winter, so nothing is done in it */
	day_t first;        /* from this day on gear may be handed in */
	day_t back_by;      /* the day by which it must be back */
	struct span season; /* in which nothing may lapse */
	bool all_year;      /* she is in use all through it */
};

/* The making of one outlook. */
struct outlook_make {
	const struct outlook_ask *ask;
	struct item *items;         /* the ask's copy, changed to ask what would be */
	struct inventory inventory; /* with those items */
	struct due_engine apart;    /* over those items, each judged by itself */
	struct due_engine together; /* over those items, contents binding their parents */
	int first_year;             /* of winter 0 */
	size_t *first_there;        /* by vessel of the ask: her first winter */
	struct outlook_year *years; /* by vessel of the ask x winters */
	day_t *
	    last_hand_in; /* by vessel of the ask x station x winters; DAY_NONE for none */
	size_t place;     /* the vessel at hand, as the ask counts them */
	/* the futures found so far, each once; NULL before the first */
	struct futures *futures;
	struct unit_type *types;   /* units whose heirs are alike */
	struct lives_shelf *shelf; /* lives of things bought new, shared by like ones */
	struct arena *arena;       /* lives as long as the making */
	struct arena *keep;        /* lives as long as the plan */
	struct arena *scratch;     /* emptied after every question to the engine */
	size_t assumed;
	const char
	    *too_many; /* the tag of an item with more lives than are looked at; NULL */
};

/* One state an item can be in: what was done to it up to some winter, and what
 * lapses in every season if nothing more is done. */
struct life {
	uint64_t digest; /* hash, to find it by */
	int born;        /* the winter it was new in; -1 for the item as it is */
	uint32_t done[TASK_COUNT]; /* a bit for each winter it was done in; a renewal
				    * is a refit */
	uint8_t
	    fails[OUTLOOK_WINTERS_MOST]; /* by winter: tasks that lapse in its season */
	int16_t *after; /* by winter x tasks done together: the life that follows; -1 when
			 * that was not asked yet */
};

/* All lives of an item, or of those that take its place. */
struct lives {
	struct outlook_make *make;
	struct arena *arena; /* where what follows what is kept */
	size_t item;
	struct item base;   /* as it is; of an heir the make-up alone */
	int printed_days;   /* so long after its first day, or after a refit, a new
				      * printed date is, as learnt from the old one; 0 not */
	bool print_assumed; /* true when printed_life_months gives it instead */
	const day_t *work;  /* by winter: the day things are done */
	const struct outlook_year *years;
	enum grade least;
	bool every_time; /* every time a task was done matters, not only the last */
	int times;       /* more times done than this make no difference to the rules */
	unsigned station_tasks; /* tasks a station does, as far as was seen */
	bool renew_ashore;      /* a station renews it */
	struct life *items;     /* owned */
	size_t count;
	size_t capacity;
};

/* Opens the lives of an item as it is, or where `heirs` of things bought in its
 * place. The `after` arrays are kept in `arena`. Free with lives_clear; items may be
 * asked about again. */
void lives_open(struct outlook_make *make, size_t item, const day_t *work,
    enum grade least, bool heirs, struct arena *arena, struct lives *out);
void lives_clear(struct lives *lives);
void shelf_clear_lives(struct lives_shelf *shelf);

/* The shared lives of things bought in the place of an item. */
struct lives *lives_of_heirs(
    struct outlook_make *make, size_t item, const day_t *work, enum grade least);

/* The index of the first life: of the item as it is, or of one new in winter `born`.
 * Where there are too many lives it is 0, and the making notes it; the same holds
 * for lives_after. */
size_t lives_begin(struct lives *lives, int born);

/* The index of the life that follows when tasks (bits; renewal only as a refit) are done
 * in a winter. */
size_t lives_after(struct lives *lives, size_t life, size_t winter, unsigned tasks);

/* The age in whole years, on a day, of the thing that has such a life; AGE_NOT_KNOWN
 * when the item's age is not known. */
int lives_age(const struct lives *lives, const struct life *life, day_t day);

/* The item as it would be after such a life. Its records are in `arena`. */
void lives_item(const struct lives *lives, const struct life *life, struct arena *arena,
    struct item *out);

/* An item, or a part of it, as it is planned. */
struct member {
	size_t item;
	size_t parent; /* index in the unit; its own for the first */
	struct lives own;
	struct lives *heirs;
	bool refits;       /* to renew it leaves the thing: as due_refits has it */
	unsigned tasks;    /* station's tasks; its refit too where a station renews it */
	bool renew_ashore; /* a station renews it */
	bool rides;        /* goes to the station when the first member does */
	bool inside;       /* can be reached only when the first member is worked on */
	int64_t new_minor; /* what a new one costs; -1 when not known */
	int64_t refit_minor; /* what an owner's refit costs; likewise */
	bool price_varies;   /* as member_price_varies has it */
};

/* An item with its parts: what is planned as one. */
struct unit {
	struct outlook_make *make;
	size_t place;           /* of her vessel, as the ask counts them */
	struct member *members; /* the whole first, then its parts */
	size_t count;
	const day_t *work;      /* by winter */
	const size_t *stations; /* where it may go; the assumed one may be among them */
	size_t station_count;
	bool *open;       /* station_count x winters: it may be handed in there */
	bool cut;         /* too many states: some were left out */
	size_t *when_due; /* by winter: the station gone to when things are done as they
				* fall due; NO_STATION for none */
	int64_t when_due_minor; /* and what that costs */

	struct course course;
	const uint8_t *acts; /* by arc x members: tasks done, as bits */
};

/* The year of a vessel of the ask. */
static inline const struct outlook_year *
year_at(const struct outlook_make *make, size_t place, size_t winter)
{
	return &make->years[place * make->ask->winters + winter];
}

/* The index the assumed station has beside those of the book. */
static inline size_t
assumed_station(const struct outlook_make *make)
{
	return make->ask->station_count;
}

/* Fills years and hand-in days. */
void outlook_years(struct outlook_make *make);

/* Which stations a unit may go to (none unless `ashore`), in which winters, and the
 * days its work is done on. */
void unit_stations(struct unit *unit, bool ashore);

/* A station's price for a task on an item at an age (AGE_NOT_KNOWN: the dearest of
 * any age): the supposed price if there is one, else as price_asked has it; -1 for
 * the assumed station. */
struct asked_price task_price(const struct outlook_make *make, size_t item,
    size_t station, enum task task, int age_years);

/* The price that counts for that: where it is not known, the highest known for the
 * same work (price_highest); -1 where none is known. */
struct asked_price counted_price(const struct outlook_make *make, size_t item,
    size_t station, enum task task, int age_years);

/* The sum of counted prices for tasks (bits) together; one without a price adds
 * nothing. */
int64_t work_price(const struct outlook_make *make, size_t item, size_t station,
    unsigned tasks, int age_years);

/* Collects prices by age, in the arena of the plan. */
struct outlook_ages {
	struct outlook_steps {
		struct outlook_step *items;
		size_t count;
		size_t capacity;
	} steps;

	struct outlook_ageless {
		size_t *items;
		size_t count;
		size_t capacity;
	} ageless;
};

/* Adds the prices of a unit's work that change with age before the last winter is
 * done, except those that are there already; and its members whose age is not known. */
void unit_ages(const struct unit *unit, struct outlook_ages *ages);

/* Collects prices that are not known, in the arena of the plan. */
struct outlook_unknowns {
	struct outlook_unknown *items;
	size_t count;
	size_t capacity;
};

/* Adds those of a unit's work at every station it may go to in some winter, at any
 * age it comes to, except those that are there already. */
void unit_unknowns(const struct unit *unit, struct outlook_unknowns *unknowns);

/* What carrying an item to a station and back costs. */
int64_t carriage_price(const struct outlook_make *make, size_t item, size_t station);

/* The least age above `age` at which what counts for work on an item may change, at
 * any station; AGE_NOT_KNOWN when there is none. */
int next_counted_age(const struct outlook_make *make, size_t item, int age);

/* True when the price that counts for some work on a member, at a station of the
 * unit, depends on its age. */
bool member_price_varies(const struct unit *unit, const struct member *member);

/* What a renewal costs, all pieces of it: a new one, or where `refit` what an owner puts
 * in. What is supposed for renewals is of what the renewals of its kind are. -1 when not
 * known. */
int64_t new_price(const struct outlook_make *make, size_t item, bool refit);

/* True for an item that is planned and is not a part of another planned item. */
bool is_whole(const struct inventory *inventory, size_t item);

/* Makes the unit of such an item, and its course; `arena` holds what is not needed
 * afterwards. FAULT_INPUT when it has more lives than the limit. */
MUST_CHECK bool unit_make(struct outlook_make *make, size_t item, struct arena *arena,
    struct unit *out, struct fault *fault);

/* Finds every state of a unit whose members and stations are known, and makes its
 * course. */
void unit_lay(struct unit *unit, struct arena *arena);

/* Fills when_due and when_due_minor: the stations gone to, and the cost, when each
 * thing is done in the winter before the season it lapses in. */
void unit_when_due(struct unit *unit, struct arena *arena);

#endif
