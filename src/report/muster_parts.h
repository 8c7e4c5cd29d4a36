/* Parts of the muster's report. Inside the report room only. */
#ifndef BECKET_REPORT_MUSTER_PARTS_H
#define BECKET_REPORT_MUSTER_PARTS_H

#include "base/text.h"
#include "muster/muster.h"
#include "report/reply.h"
#include "rules/kinds.h"

/* Adds the rows for a spreadsheet. */
void muster_add_rows(const struct muster_view *view, struct reply *reply);

/* The points a line is short of on the day that is shown. */
int muster_missing(const struct muster *muster, const struct carriage *line);

/* Adds what falls short, or shorter, later in the days asked about. */
void muster_add_later(const struct muster *muster, struct reply *reply);

/* Adds what she is short of on the day that is shown, what can't be told and what is remarked
 * on (where `remarks`), a paragraph a line, and what falls short later. */
void muster_add_lines(const struct inventory *inventory, const struct muster *muster,
    bool remarks, struct reply *reply);

/* Adds what of the carriage the sheets have no figure for; each once, whoever follows them. */
void muster_add_subjects(const struct muster *musters, size_t count, struct reply *reply);

/* Adds what the stores of her base could do about it, with the command that does. */
void muster_add_spares(const struct kinds *kinds, const struct inventory *inventory,
    const struct muster *muster, struct reply *reply);

/* Adds, for boats told the same at once, the subjects no line of hers is of, with whom to
 * ask: a boat may lack all of that and be short of nothing. */
void muster_add_silences(const struct inventory *inventory, const struct muster *musters,
    size_t count, struct reply *reply);

/* Adds the same words of one boat, "No line is of these, so they are not
 * counted: tethers (ask ...).", to
 * `words`; nothing where a line is of every subject. */
void muster_add_silence_words(const struct muster *muster, struct text *words);

#endif
