/* The answers of the reading commands as JSON, through jansson. The keys are fixed: programs
 * rely on them. Each function adds one JSON value and a newline to `out`. */
#ifndef BECKET_EXCHANGE_ANSWERS_H
#define BECKET_EXCHANGE_ANSWERS_H

#include "base/text.h"
#include "winter/agenda.h"
#include "winter/winter.h"

/* [{"vessel","tag","kind","task","due","state","grade","doer","rule","clock","winter"}], and
 * further keys: "good_through", "sheet", "routine", "missing". */
MUST_CHECK bool answer_due(const struct inventory *inventory,
    const struct agenda_row *rows, size_t count, struct text *out, struct fault *fault);

/* {"tag","kind","tasks":[{"task","due","state","binds","clocks":[{"rule","anchor","from",
 * "interval","due","binds","grade","source"}]}]}; interval is in words, "24 months". */
MUST_CHECK bool answer_why(const struct inventory *inventory, size_t item,
    const struct obligation *obligations, size_t count, struct text *out,
    struct fault *fault);

/* An array, one object a vessel; see the design's section on fixed outputs. */
MUST_CHECK bool answer_winter(const struct inventory *inventory,
    const struct shore_list *lists, size_t count, const char *currency, struct text *out,
    struct fault *fault);

/* Items with their own columns, and for one item its records, events and extensions. */
MUST_CHECK bool answer_list(const struct inventory *inventory, const size_t *items,
    size_t count, struct text *out, struct fault *fault);
MUST_CHECK bool answer_show(const struct inventory *inventory, size_t item,
    struct text *out, struct fault *fault);
MUST_CHECK bool answer_vessels(
    const struct inventory *inventory, struct text *out, struct fault *fault);
MUST_CHECK bool answer_stations(
    const struct station *stations, size_t count, struct text *out, struct fault *fault);

#endif
