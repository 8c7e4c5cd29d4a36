/* One clock in sentences: what it counts from, how long, to which day, and who says so. */
#ifndef BECKET_REPORT_WHY_H
#define BECKET_REPORT_WHY_H

#include "base/text.h"
#include "due/due.h"

/* Adds the clock as a sentence: "24 months from the last service on 20 May 2024 -> 20 May
 * 2026.", with what is not known and what would answer it. `today` decides which spans of
 * being in force are still worth saying. */
void add_clock_words(
    const struct reading *reading, enum task task, day_t today, struct text *out);

/* Adds what moves the clock's day: window, extension, a paper that allows longer. Each
 * sentence starts with a blank. */
void add_clock_effects(const struct reading *reading, struct text *out);

/* Adds who says so: " Source: common practice. Rule raft-service of sheet practice, grade
 * practice." */
void add_clock_source(const struct reading *reading, struct text *out);

/* What a clock is to the answer, in the order they are shown. */
enum clock_role {
	ROLE_BINDS,
	ROLE_BEGAN, /* began the lapse that goes on under what binds */
	ROLE_LOSES,
	ROLE_UNKNOWN,
	ROLE_ASIDE,
	ROLE_IDLE, /* never counts from today on, or only after what it asks is done: not shown */
};

enum clock_role clock_role_of(const struct reading *reading);

/* "Binds", "Also runs", "Not known"; "" for one that is not shown. */
const char *clock_role_word(enum clock_role role);

/* Adds all that is to be said of one clock of an obligation: the sentence, until when its rule
 * holds where that ends it, what is not decided, what moves its day, and who says so. */
void add_clock_in_full(const struct obligation *obligation, const struct reading *reading,
    day_t today, struct text *out);

/* The name of what is missing where the date is unknown; "" for nothing. */
const char *obligation_missing(const struct obligation *obligation);

#endif
