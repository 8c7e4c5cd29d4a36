/* The answers of the reading commands as JSON, through jansson. The keys are fixed: programs
 * rely on them. Each function adds one JSON value and a newline to `out`. */
#ifndef BECKET_EXCHANGE_ANSWERS_H
#define BECKET_EXCHANGE_ANSWERS_H

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
#include "winter/dockets.h"
#include "winter/winter.h"
#include "years/outlook.h"

/* An array of objects with the keys of KEYS_OF_DUE. */
void answer_due(const struct inventory *inventory, const struct agenda_row *rows,
    size_t count, struct text *out);

/* {"today","from","supposed":{"use","area","persons","sheets"},"tasks":[{"vessel","tag","kind",
 * "task","routine","reserve","now","then","changes","on_the_day","must","cannot","printed",
 * "not_before","by"}]}; now and then are {"due","state","good_through","grade","rule",
 * "missing"}, or null where there is no such task. */
void answer_suppose(const struct inventory *inventory, day_t today,
    const struct supposed *supposed, const struct change_rows *rows, struct text *out);

/* {"tag","kind","tasks":[{"task","due","state","binds","clocks":[{"rule","anchor","from",
 * "interval","due","binds","grade","source"}]}],"not_stated":[{"subject","ask","sheet"}]};
 * interval is in words, "24 months". `today` decides which subjects concern the vessel. */
MUST_CHECK bool answer_why(const struct due_engine *engine, day_t today, size_t item,
    const struct obligation *obligations, size_t count, struct text *out,
    struct fault *fault);

/* An array of objects with the keys of KEYS_OF_WINTER. */
void answer_winter(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, const char *currency, struct text *out);

/* [{"station","hand_in","collect","assumed","landed","pieces":[{"vessel","tag","kind",
 * "serial","made","last_service","tasks":[{"tag","task","due","due_again"}]}]}]: what goes
 * ashore or is there, by station and day, all vessels together. */
void answer_dockets(
    const struct inventory *inventory, const struct dockets *dockets, struct text *out);
/* An object with the keys of KEYS_OF_YEARS: all plans together. Money that is known nowhere is null, and
 * counted as 0. */
void answer_years(const struct outlook_view *view, struct text *out);

/* {"as_is":{...},"changed":{...},"difference"}: two of the above, and what the change saves
 * (negative) or costs. */
void answer_years_compared(const struct outlook_view *as_is,
    const struct outlook_view *changed, struct text *out);

/* An object with the keys of KEYS_OF_ROTA. */
void answer_rota(const struct rota_view *view, struct text *out);

/* Items with their own columns, and for one item its records, events, extensions and papers. */
void answer_list(const struct inventory *inventory, const size_t *items, size_t count,
    struct text *out);
void answer_show(const struct inventory *inventory, size_t item,
    const struct paper *papers, size_t paper_count, struct text *out);

/* [{"number","tag","name","type","size","added","sha256","note","record"}]; "type" is the
 * media type, "record" null or {"task","on","certificate"}. */
void answer_papers(const struct paper *papers, size_t count, struct text *out);
void answer_vessels(const struct inventory *inventory, struct text *out);
void answer_stations(const struct station *stations, size_t count, struct text *out);

/* An object with the keys of KEYS_OF_MUSTER. */
void answer_muster(const struct inventory *inventory,
    const struct muster_question *question, const struct muster *musters, size_t count,
    struct text *out);

/* An array of objects with the keys of KEYS_OF_REMIND. */
void answer_remind(const struct reminder_row *rows, size_t count, struct text *out);

/* An array of objects with the keys of KEYS_OF_BOOKINGS. */
void answer_bookings(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out);

/* {"bookings":[...]}: each as answer_bookings has it, then "answer" ("fine", "cured", "not-told" or
 * "short"), "cured_by_others", "lapses" (the tags of what lapses before she returns) and "muster",
 * an object as answer_muster has one of a vessel. */
void answer_booked(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out);

/* {"vessel","on","line","title","sheet","holds","asks","need","have","short","any_of","sum":
 * {"points","per_person","persons","percent","plus"},"source","standing","pieces":[{"tag",
 * "kind","quantity","worth","counts","reason","task","rule","due","missing","last_day"}]}.
 * Need, have and short are null where the line does not hold or is not told. The reasons:
 * counts, remarked, lapsed, not-known, untold, unfit, reserve, landed, withdrawn. */
void answer_line(
    const struct inventory *inventory, const struct line_why *why, struct text *out);

/* [{"number","at","told","who","command","undoes","undone_by","lines":[{"about","name",
 * "kind","serial","act","field","was","became"}]}]; `at` is in seconds since 1970, UTC, and
 * the start of a day when `told`. */
void answer_journal(const struct journal *journal, struct text *out);

/* {"kept","rule_sheets","meanings":[words],"moved":[{"vessel","tag","kind","task","seen","was","is"}],
 * "not_told":[vessels],"entry"}; was and is are {"due","good_through","state","rule","sheet"}, or null
 * where the task was not asked for. `kept` is false for a book in which no dates were kept before. */
void answer_upgrade(const struct upgrade *upgrade, struct text *out);

/* [{"name","right"}], of pairs of those. */
void answer_people(const char *const (*people)[2], size_t count, struct text *out);

/* {"ok","checked":[{"rule","holds","found"}],"findings":[{"rule","what","to_do"}]} */
void answer_check(const struct check_result *result, struct text *out);

/* [{"sheet","title","for","compiled","extends","rules","carriage"}], the last two as numbers. */
void answer_sheets(const struct sheet *const *sheets, size_t count, struct text *out);

/* One sheet whole, in the keys its file has: "rules":[{"rule","kinds","when","task",...}],
 * "carriage":[{"line","title","when",...}], "not_stated":[{"id","subject","ask",...}]. */
void answer_sheet(const struct sheet *sheet, struct text *out);

/* [{"file","ok","title","findings":[{"line","about","what","todo"}]}]. */
void answer_sheet_check(
    const struct checked_sheet *files, size_t count, struct text *out);

/* {"a","b","tasks":[{"vessel","tag","kind","task","routine","same","a","b"}]}; a side is
 * {"due","state","good_through","grade","rule","missing"}, or null where nothing is asked. */
void answer_compare_gear(const struct inventory *inventory, const char *const names[2],
    const struct change_rows *rows, struct text *out);

/* {"a","b","tasks":[{"kind","task","same","a":[rules],"b":[rules]}],"carriage":{"a":[lines],
 * "b":[lines]}}, rules and lines as in answer_sheet. */
void answer_compare_rules(const char *const names[2], const struct comparison *comparison,
    const struct line_list lines[2], struct text *out);

#endif
