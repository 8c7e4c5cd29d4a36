/* One clock in sentences: what it counts from, how long, to which day, and its source. */
#ifndef BECKET_REPORT_WHY_H
#define BECKET_REPORT_WHY_H

#include "base/text.h"
#include "due/due.h"

/* Adds the clock as a sentence: "24 months from the last service on 20 May 2024 -> 20 May
 * 2026.", with what is not known and what to enter for it. `today` decides which periods
 * of being in force are still worth showing. */
void add_clock_words(
    const struct reading *reading, enum task task, day_t today, struct text *out);

/* Adds what moves the clock's day: window, extension, a paper that allows longer. Each
 * sentence starts with a blank. */
void add_clock_effects(const struct reading *reading, struct text *out);

/* Adds its source: " Source: common practice. Rule raft-service of sheet practice, grade
 * practice." */
void add_clock_source(const struct reading *reading, struct text *out);

/* The role of a clock in the answer, in the order in which they are shown. */
enum clock_role {
	ROLE_BINDS,
	ROLE_BEGAN, /* started the lapse that continues under the binding one */
	ROLE_LOSES,
	ROLE_UNKNOWN,
	ROLE_ASIDE,
	ROLE_IDLE, /* no effect from today on, or only after its task is done: not shown */
};

enum clock_role clock_role_of(const struct reading *reading);

/* "Binds", "Also runs", "Not known"; "" for one that is not shown. */
const char *clock_role_word(enum clock_role role);

/* Adds everything about one clock of an obligation: the sentence, until when its rule
 * holds if that ends it, what is not decided, what moves its day, and its source. */
void add_clock_in_full(const struct obligation *obligation, const struct reading *reading,
    day_t today, struct text *out);

/* The name of the missing fact when the date is unknown; "" for none. */
const char *obligation_missing(const struct obligation *obligation);

#endif
