/* What a book says of itself: its journal, and what a check of it found. Plain values;
 * the book fills them. */
#ifndef BECKET_GEAR_JOURNAL_H
#define BECKET_GEAR_JOURNAL_H

#include "dates/day.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum journal_act { JOURNAL_ADDED, JOURNAL_CHANGED, JOURNAL_REMOVED };

/* One thing that changed. */
struct journal_line {
	const char *about;  /* "item", "vessel", "station"; "book" and others */
	const char *name;   /* its tag or name at that time; "" for the book */
	const char *kind;   /* an item's, else "" */
	const char *serial; /* an item's, else "" */
	enum journal_act act;
	/* what of it: "place", "record certificate"; for what was added or removed
	 * "" when it is the thing itself, else "record" */
	const char *field;
	const char *was;    /* "" for none; all that was known of what was removed */
	const char *became; /* "" for none; all that was known of what was added */
};

struct journal_entry {
	int64_t number; /* from 1, without gaps */
	int64_t at;     /* seconds since 1970, UTC */
	bool told;
	const char *who;
	const char *act;
	int64_t undoes;    /* the entry it takes back; 0 for none */
	int64_t undone_by; /* the entry that took it back and stands; 0 for none */
	const struct journal_line
	    *lines;        /* the first ones, where not all were asked for */
	size_t line_count; /* of all */
};

struct journal {
	const struct journal_entry *entries; /* the newest last */
	size_t count;
	/* numbers of entries of which not every line could be read, for the file is
	 * damaged: what they tell may be missing above. Where it was asked about a name also
	 * of those not asked for: they may tell of another number that it had */
	const int64_t *damaged;
	size_t damaged_count;
};

/* A rule that a book must keep, and how often it is broken. */
struct held {
	const char *rule;  /* a short word for it: "part-loop" */
	const char *holds; /* the rule in words: "no part is a part of itself" */
	size_t found;      /* how often it is broken; 0 is as it must be */
};

/* Something in a book that is not as it must be. */
struct finding {
	const char *rule;
	/* a sentence without its full stop: what was found, and where */
	const char *what;
	const char *to_do; /* another: what to do about it */
};

/* What a check of a book found. */
struct check_result {
	const struct held *rules;
	size_t rule_count;

	struct finding *items; /* the findings; owned */
	size_t count;
	size_t capacity;
};

#endif
