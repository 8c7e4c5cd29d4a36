/* Objects that more than one answer holds, and their keys. */
#ifndef BECKET_EXCHANGE_ANSWER_PARTS_H
#define BECKET_EXCHANGE_ANSWER_PARTS_H

#include "exchange/json_object.h"
#include "gear/item.h"
#include "gear/journal.h"
#include "muster/muster.h"
#include "winter/winter.h"

extern const struct answer_keys RECORD_KEYS;
json_t *record_object(const struct record *record);

extern const struct answer_keys EVENT_KEYS;
json_t *event_object(const struct event *event);

extern const struct answer_keys MOVEMENT_KEYS;
json_t *movement_object(const struct movement *movement);

extern const struct answer_keys ENTRY_KEYS;
extern const struct answer_keys ENTRY_LINE_KEYS; /* of a line of it */
json_t *entry_object(const struct journal_entry *entry);

/* What a sheet has no figure for. */
extern const struct answer_keys NOT_STATED_KEYS;
json_t *not_stated_object(const struct not_stated *subject);

/* A muster of one vessel. */
extern const struct answer_keys MUSTER_KEYS;
json_t *muster_object(const struct inventory *inventory, const struct muster *muster);

/* What the shore list does with a thing this winter, and the plan of the coming ones instead. */
extern const struct answer_keys CLASH_KEYS;
json_t *clashes_array(
    const struct inventory *inventory, const struct winter_clashes *clashes);

#endif
