/* Whether a vessel meets conditions, as far as they are about her and not about an item;
 * and whether two conditions are the same. */
#ifndef BECKET_RULES_MEETS_H
#define BECKET_RULES_MEETS_H

#include "gear/vessel.h"
#include "rules/sheet.h"

/* Whether a period of hers fits: use, area, persons, months in use, frost and dry
 * storage. 1 it does, 0 not, -1 can't be told; then `*asks` names what must be known, as
 * the option of `becket vessel` that takes it. One condition that fails settles it,
 * whatever else is not known. */
int period_meets(
    const struct period *period, const struct conditions *when, const char **asks);

/* The same with her length and the year she was built, on a day. */
int vessel_meets(const struct vessel *vessel, const struct conditions *when, day_t day,
    const char **asks);

/* True for a subject not stated that is about gear of this kind, on this vessel on this
 * day as far as can be told. */
bool subject_concerns(const struct not_stated *subject, const char *kind,
    const struct vessel *vessel, day_t day);

/* True when the two hold on the same items and days. */
bool conditions_same(const struct conditions *a, const struct conditions *b);

/* True when a rule of the same kinds could hold without any condition. */
bool conditions_none(const struct conditions *when);

#endif
