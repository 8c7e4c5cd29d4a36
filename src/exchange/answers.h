/* The answers of the reading commands as JSON. Each function adds one JSON value and
 * a newline to `out`: an array of objects, or one, whose keys are the first of the tables
 * that KEYS_OF_ has for the answer (answer_keys.h). */
#ifndef BECKET_EXCHANGE_ANSWERS_H
#define BECKET_EXCHANGE_ANSWERS_H

#include "base/spool.h"
#include "base/text.h"
#include "due/suppose.h"
#include "exchange/answer_keys.h"
#include "gear/choices.h"
#include "gear/journal.h"
#include "gear/paper.h"
#include "gear/reckoned.h"
#include "muster/booked.h"
#include "muster/muster.h"
#include "rota/rota.h"
#include "rules/compare.h"
#include "rules/sheet_check.h"
#include "winter/agenda.h"
#include "winter/docket_heads.h"
#include "winter/winter.h"
#include "years/outlook.h"

/* What is due: agendas of some boats each, one after the other, kept as they come. */
void answer_due_keep(const struct inventory *inventory, const struct agenda_row *rows,
    size_t count, struct runs *kept);

/* The array of what was kept, in the order of one answer about all boats, once all of it is
 * there. FAULT_FILE where it can't be read back. */
MUST_CHECK bool answer_kept(
    const struct runs *kept, struct text *out, struct fault *fault);

/* One object. */
void answer_suppose(const struct inventory *inventory, day_t today,
    const struct supposed *supposed, const struct change_rows *rows, struct text *out);

/* One object. `today` decides which subjects concern the vessel. */
void answer_why(const struct due_engine *engine, day_t today, size_t item,
    const struct obligation *obligations, size_t count, struct text *out);

/* The shore lists of some boats, kept as they come by the places of their boats in the
 * inventory of the whole book (NULL: their indices); all that were kept are then written by
 * answer_kept. */
void answer_winter_keep(const struct inventory *inventory, const size_t *places,
    const struct shore_list *lists, size_t count, struct runs *kept);

/* What goes ashore or is there, by station and day, all vessels together. Dockets come some boats
 * at a time, and those of one station and day become one. Starts as `{ 0 }`; free with
 * dockets_kept_clear. */
struct dockets_kept {
	struct docket_heads heads;
	struct runs pieces;
};

/* Keeps the dockets of some boats, in their order, what is ashore first. `places` has for each
 * vessel of the inventory her place in the whole book; NULL where these are all. */
void answer_dockets_keep(struct dockets_kept *kept, const struct inventory *inventory,
    const struct dockets *dockets, const size_t *places);

/* An array of all that were kept. FAULT_FILE where it can't be read back. */
MUST_CHECK bool answer_dockets_kept(
    struct dockets_kept *kept, struct text *out, struct fault *fault);

void dockets_kept_clear(struct dockets_kept *kept);

/* Plans of the years, which come some at a time, kept as they will be written. Starts as `{ 0 }`;
 * free with years_kept_clear. */
struct years_kept {
	struct outlook_total total;
	/* the rest is of its own room */
	struct runs runs;
	struct text currency;

	struct year_kept {
		int year;
		int64_t minor; /* what all that is done in it costs */
	} * items;

	size_t count;
	size_t capacity;
};

void years_kept_clear(struct years_kept *kept);

/* Keeps plans, by their places among all (NULL: their indices), which ascend. */
void answer_years_keep(
    const struct outlook_view *view, const size_t *places, struct years_kept *kept);

/* One object: all plans that were kept together. Money that is known nowhere is null, and counted
 * as 0. FAULT_FILE where it can't be read back, as the next. */
MUST_CHECK bool answer_years_kept(
    const struct years_kept *kept, struct text *out, struct fault *fault);

/* One object, with the keys of the last table of KEYS_OF_YEARS: two of the above, and
 * what the change saves (negative) or costs. */
MUST_CHECK bool answer_years_compared(const struct years_kept *as_is,
    const struct years_kept *changed, struct text *out, struct fault *fault);

/* One object. */
void answer_rota(const struct rota_view *view, struct text *out);

/* Items with their own columns, as elements of an array that is being written
 * (json_object.h). */
struct answer;
void answer_list_some(struct answer *answer, const struct inventory *inventory,
    const size_t *items, size_t count);

/* One item, its records, events, extensions and papers. */
void answer_show(const struct inventory *inventory, size_t item,
    const struct paper *papers, size_t paper_count, struct text *out);

void answer_papers(const struct paper *papers, size_t count, struct text *out);
void answer_vessels(const struct inventory *inventory, struct text *out);
void answer_stations(const struct station *stations, size_t count, struct text *out);

/* One object with musters by vessel, which come some at a time: of each, kept as it will
 * be written by her place in the inventory of the whole book; NULL where that is her
 * index. Then all that were kept. FAULT_FILE where that can't be read back. */
void answer_muster_keep(const struct inventory *inventory, const size_t *places,
    const struct muster *musters, size_t count, struct runs *kept);
MUST_CHECK bool answer_muster_kept(const struct muster_question *question,
    const struct runs *kept, struct text *out, struct fault *fault);

/* Reminders, some at a time as reminder_rows_taker has them, kept for answer_kept. */
void answer_remind_keep(const struct reminder_row *rows, size_t count, struct runs *kept);

void answer_bookings(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out);

/* One object; each booking with the muster of its vessel, as the last has one. */
void answer_booked(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out);

/* One object. */
void answer_line(
    const struct inventory *inventory, const struct line_why *why, struct text *out);

void answer_journal(const struct journal *journal, struct text *out);

/* One object; `kept` is false for a book in which no dates were kept before. */
void answer_upgrade(const struct upgrade *upgrade, struct text *out);

/* Of pairs of a name and a right. */
void answer_people(const char *const (*people)[2], size_t count, struct text *out);

/* One object. */
void answer_check(const struct check_result *result, struct text *out);

void answer_sheets(const struct sheet *const *sheets, size_t count, struct text *out);

/* One sheet whole, in the keys its file has. */
void answer_sheet(const struct sheet *sheet, struct text *out);

void answer_sheet_check(
    const struct checked_sheet *files, size_t count, struct text *out);

/* One object, as the next. */
void answer_compare_gear(const struct inventory *inventory, const char *const names[2],
    const struct change_rows *rows, struct text *out);

/* Rules and lines as in answer_sheet. */
void answer_compare_rules(const char *const names[2], const struct comparison *comparison,
    const struct line_list lines[2], struct text *out);

#endif
