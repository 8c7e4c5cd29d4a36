/* Objects that more than one answer holds, and their keys. */
#ifndef BECKET_EXCHANGE_ANSWER_PARTS_H
#define BECKET_EXCHANGE_ANSWER_PARTS_H

#include "exchange/answers.h"
#include "exchange/json_object.h"
#include "gear/item.h"
#include "gear/journal.h"
#include "life/whereabouts.h"
#include "muster/muster.h"
#include "winter/winter.h"

/* The name of an item's vessel; of a station, null for NO_STATION. */
struct json json_vessel(const struct inventory *inventory, const struct item *item);
struct json json_station(const struct station *stations, size_t station);

extern const struct answer_keys RECORD_KEYS;
struct json record_object(const struct record *record);

extern const struct answer_keys EVENT_KEYS;
struct json event_object(const struct event *event);

extern const struct answer_keys MOVEMENT_KEYS;
struct json movement_object(const struct movement *movement);

extern const struct answer_keys ENTRY_KEYS;
extern const struct answer_keys ENTRY_LINE_KEYS; /* of a line of it */
struct json entry_object(const struct journal_entry *entry);

/* Where a piece is. */
extern const struct answer_keys WHERE_KEYS;
struct json where_object(const struct known_gear *known, const struct whereabouts *where);

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

/* ---- the coming years ---- */

/* The lists of the answer behind its winters, in their order. Before them come two a
 * year, its trips and what is done in it, whose numbers are twice the year and the
 * next. */
enum { YEARS_LISTS = 1 << 15 };

enum years_list {
	YEARS_UNKNOWNS = YEARS_LISTS, /* as the next three, of each plan too */
	YEARS_LAPSES,
	YEARS_AGES,
	YEARS_AGELESS,
	YEARS_PLANS, /* where there are several */
	YEARS_TIPS,  /* where there is one, as the next */
	YEARS_CLASHES
};

/* What a plan adds to one of these lists, as an array. */
struct json years_list(
    const struct outlook_view *view, const struct named_outlook *named, int list);

/* Its trips in a winter, what is done in it, and what both cost. */
struct json years_trips(
    const struct outlook_view *view, const struct outlook *plan, size_t winter);
struct json years_done(
    const struct outlook_view *view, const struct outlook *plan, size_t winter);

/* The answer about all that was kept with its lists empty, and a comparison with both answers
 * so. */
struct json years_frame(const struct years_kept *kept);
struct json years_compared_frame(int64_t difference);

/* What is kept of a year; NULL for nothing yet. */
struct year_kept *years_kept_of(const struct years_kept *kept, int year);

#endif
