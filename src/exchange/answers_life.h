/* Answers about the life of gear as JSON. Each adds to `out`. */
#ifndef BECKET_EXCHANGE_ANSWERS_LIFE_H
#define BECKET_EXCHANGE_ANSWERS_LIFE_H

#include "base/text.h"
#include "gear/journal.h"
#include "life/history.h"
#include "life/spending.h"
#include "life/whereabouts.h"
#include "winter/agenda.h"

/* [{"tag","kind","vessel","state","with","station","since","collect","assumed","place",
 * "because","stands_for","hired_until","serial_shared_with"}], for where and ashore alike; `with` is the tag of
 * what it is inside of and has gone along with. */
void answer_where(
    const struct lookout *lookout, const struct whereabouts_list *list, struct text *out);

/* {"on","vessel","not_in_date":[{"vessel","tag","kind","task","due","state","grade"}],
 * "week":[{"day","summary","station","vessels":[names]}],"next":[the same],"ashore":[as where]};
 * `vessel` is null for the fleet. */
void answer_first_word(const struct lookout *lookout, const struct first_word *word,
    const struct whereabouts_list *ashore, struct text *out);

/* [{"tag","kind","vessel","on","station","result","next","certificate","price","renewed":
 * [tags],"note","different"}], the latest first; only what is different unless `all`. */
void answer_came_back(const struct lookout *lookout, const struct came_back_list *list,
    bool all, struct text *out);

/* {"year","currency","kinds":[{"kind","work","bought","minor"}],"stations":[{"station",
 * "minor"}],"years":[{"year","work","bought","minor"}],"work","bought","minor","unpriced"} */
void answer_spent(
    const struct spending *spending, const char *currency, struct text *out);

/* {"items":[{"tag","kind","vessel","serial","state","because","serial_shared_with"}],"happened":[{"on","tag",
 * "record"|"event"|"movement":{...}}],"journal":[{"number","command","lines":[...]}]} */
void answer_history(const struct inventory *inventory, const struct history *history,
    const struct journal *journal, struct text *out);

#endif
