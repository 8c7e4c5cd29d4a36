/* Inside the rota: the search for slots. Not for other rooms. */
#ifndef BECKET_ROTA_SLOTS_INSIDE_H
#define BECKET_ROTA_SLOTS_INSIDE_H

#include "base/numbers.h"
#include "rota/slots.h"

/* Sets of jobs that are interchangeable: alike in all but their last day, their boat
 * and what she can do without. Each set is named by its first job. */
struct slot_like {
	size_t any;     /* of all boats: where spares stand in */
	size_t of_boat; /* of its own boat */
};

/* A search that gives days to jobs. The arrays by day begin on `base`. */
struct slot_search {
	const struct slot_problem *problem;
	size_t *order; /* jobs by last day */
	size_t order_count;
	struct slot *slots; /* one a job; place SLOT_NONE until it has one */
	day_t base;
	size_t days;
	day_t *collects; /* [place * days + day]: DAY_NONE where nothing is handed in */
	int *weekly;     /* [place * days + Monday of the week]: pieces handed in */
	int *trips;      /* [place * days + day]: jobs handed in */
	int *away;       /* [day] */
	int *levels;     /* capacities that jobs ask for, ascending */
	size_t level_count;
	/* [level * days + day]: jobs with a spare that ask for this capacity or more */
	int *covered;
	int *supply; /* [level * days + day]: spares in date, this large or larger */
	bool alike;  /* any spare suits any job on any day, so counting them is enough */
	bool early;  /* once a day has room, a later day never helps another job */
	struct slot_like *likes; /* by job */
	/* By set, the job that was given days last while the search goes on: */
	size_t *last_bare;   /* ... of those away bare, by `of_boat` */
	size_t *last_spared; /* ... of those with a spare, by `any` */
	size_t *last_twin;   /* ... of those that could do without, by `of_boat` */
	size_t most_spares;
	long long looks; /* left */
	bool gave_up;
	bool *held;              /* [spare * days + day]: a job has it */
	size_t *holders;         /* [spare]: how many jobs have it at some time */
	size_t in_use;           /* spares that some job has */
	size_t regives;          /* times left to give all spares out anew for one more */
	struct slot_turn *turns; /* room for all jobs: those with a spare, by hand-in, */
	size_t turn_count;       /* while spares are given out */
	day_t *busy;             /* [spare]: the day it is free again */
	bool *used;              /* [spare] */
	size_t hand_outs;        /* tries left to give out spares */
	size_t *given;           /* [job]: the spare, while they are given out */
	size_t *had;             /* [job]: the one before that */
};

/* A job, waiting for its spare. */
struct slot_turn {
	day_t hand_in;
	size_t job;
};

/* Makes a search over all jobs of a problem; what is taken already is counted. */
void slot_search_make(
    const struct slot_problem *problem, struct arena *arena, struct slot_search *out);

/* The index of a day, on or after `base`, in a row of an array by day. */
static inline size_t
slot_at(const struct slot_search *search, size_t row, day_t day)
{
	return row * search->days + (size_t)(day - search->base);
}

static inline const struct slot_job *
slot_job_of(const struct slot_search *search, size_t job)
{
	return &search->problem->jobs[job];
}

/* The first job of the same boat. */
static inline size_t
slot_head(const struct slot_search *search, size_t job)
{
	const struct slot_job *jobs = search->problem->jobs;
	while (job > 0 && jobs[job - 1].boat == jobs[job].boat) {
		job--;
	}
	return job;
}

/* A way a job may go: without a spare in its place, or with one. */
struct slot_way {
	size_t place;
	day_t day;
	bool bare;
};

/* Whether a job's boat is out on a day from its hand-in to its collect. */
bool slot_is_busy(const struct slot_job *job, day_t hand_in, day_t collect);

/* Counts a job as going a way, for which there must be room; and undoes that. */
void slot_take(struct slot_search *search, size_t job, struct slot_way way);
void slot_leave(struct slot_search *search, size_t job);

/* Whether a job can go a way beside all jobs that have theirs, as far as counting
 * can tell. */
bool slot_has_room(const struct slot_search *search, size_t job, struct slot_way way);

/* Gives a spare to a job that has a day, for as long as it is away; takes it away
 * again, if it has one. */
void slot_hold(struct slot_search *search, size_t job, size_t spare);
void slot_let_go(struct slot_search *search, size_t job);

/* Gives a job that has a day a spare that is free for all that time, preferring one
 * that is in use already. False when there is none. */
bool slot_find_spare(struct slot_search *search, size_t job);

/* Gives a spare to every job that has a day and is not bare, preferring those in use
 * already. False when that can't be done, or was given up; then each job has the
 * spare it had. */
bool slot_give_spares(struct slot_search *search);

/* Clears all days, and looks for new ones for the jobs in `order` with at most so
 * many spares. True when every job has a day, and a spare where it needs one. */
bool slot_search_run(struct slot_search *search, size_t most_spares, size_t most_looks);

/* Gives a job a place and a day, bare or else with a spare, beside all jobs that
 * have theirs; spares are given out too. False when there is no room. */
bool slot_fit_day(struct slot_search *search, size_t job, size_t place, day_t day);

/* Gives a job the first of these days that is possible, beside all jobs that have
 * theirs; spares are given out too. Days are tried from the last one back where
 * `back`. False when none is possible. */
bool slot_fit(struct slot_search *search, size_t job, struct span days, bool back);

/* A lower bound on how many of the first `count` jobs in `order` are away at once on
 * some day, whatever days they have: with `covered` of those that must have a spare, and
 * so on the spares that are needed, else of all. It comes from counting what must begin
 * and end between two days. */
size_t slot_bound(const struct slot_search *search, size_t count, bool covered);

#endif
