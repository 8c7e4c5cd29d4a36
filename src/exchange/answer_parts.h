/* Objects that more than one answer holds. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_ANSWER_PARTS_H
#define BECKET_EXCHANGE_ANSWER_PARTS_H

#include "exchange/json_object.h"
#include "gear/item.h"
#include "gear/journal.h"
#include "muster/muster.h"
#include "winter/winter.h"

/* A field under its key, as what it holds is told in JSON; `of` is the struct its offset is in. */
void answer_put_field(json_t *object, const struct field *field, const void *of);

json_t *record_object(const struct record *record);
json_t *event_object(const struct event *event);
json_t *entry_object(const struct journal_entry *entry);
json_t *movement_object(const struct movement *movement);
json_t *answer_muster_object(
    const struct inventory *inventory, const struct muster *muster);

/* What the shore list does with a thing this winter, and the plan of the coming ones instead. */
json_t *clashes_array(
    const struct inventory *inventory, const struct winter_clashes *clashes);

#endif
