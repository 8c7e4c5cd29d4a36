/* Objects that more than one answer holds, and their keys. */
#ifndef BECKET_EXCHANGE_ANSWER_PARTS_H
#define BECKET_EXCHANGE_ANSWER_PARTS_H

#include "exchange/json_object.h"
#include "gear/item.h"
#include "gear/journal.h"
#include "muster/muster.h"
#include "winter/winter.h"

extern const struct answer_keys RECORD_KEYS;
struct json record_object(const struct record *record);

extern const struct answer_keys EVENT_KEYS;
struct json event_object(const struct event *event);

extern const struct answer_keys MOVEMENT_KEYS;
struct json movement_object(const struct movement *movement);

extern const struct answer_keys ENTRY_KEYS;
extern const struct answer_keys ENTRY_LINE_KEYS; /* of a line of it */
struct json entry_object(const struct journal_entry *entry);

/* What a sheet has no figure for. */
extern const struct answer_keys NOT_STATED_KEYS;
struct json not_stated_object(const struct not_stated *subject);

/* A muster of one vessel. */
extern const struct answer_keys MUSTER_KEYS;
struct json muster_object(const struct inventory *inventory, const struct muster *muster);

/* What the shore list does with a thing this winter, and the plan of the coming ones instead. */
extern const struct answer_keys CLASH_KEYS;
struct json clashes_array(
    const struct inventory *inventory, const struct winter_clashes *clashes);

#endif
