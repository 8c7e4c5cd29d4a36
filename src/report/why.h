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

#endif
