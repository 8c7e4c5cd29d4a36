/* What files of the desk share: how an act is carried out, a question asked, hand-ins kept. Not
 * for other rooms. */
#ifndef BECKET_DESK_INSIDE_H
#define BECKET_DESK_INSIDE_H

#include "desk/acts.h"
#include "desk/acts_fleet.h"
#include "desk/desk.h"
#include "desk/questions.h"
#include "desk/remind.h"
#include "exchange/inventory_csv.h"
#include "winter/winter.h"

/* ---- an act: worked out from a book that was read, then written at once ---- */

/* A part of an act, which is what `act` points to. */
typedef bool act_part(struct desk *desk, void *act, struct fault *fault);

/* Loads the book whole, has `plan` work out from it what the act comes to (which must write
 * nothing, and set anew all that it says came of the act), and has `write` write that in one
 * transaction. Where the book has moved on between reading and writing it begins again, five
 * times at most. What is being done (desk->doing), which `plan` may set,
 * leads a fault in writing.
 * Remarks of a run that came to nothing are dropped. */
MUST_CHECK bool act_run(struct desk *desk, const char *doing, act_part *plan,
    act_part *write, void *act, struct fault *fault);

/* The same with no more of the book than a part of it, NULL for all, and all of the book where
 * planning fails with that: for acts that come to the same either way. */
MUST_CHECK bool act_run_about(struct desk *desk, const struct book_part *about,
    const char *doing, act_part *plan, act_part *write, void *act, struct fault *fault);

/* The gear that a request names, and a plan that is still empty. */
MUST_CHECK bool gear_find(struct desk *desk, const struct word_list *tags,
    struct gear_outcome *out, struct life_planning *planning_out, struct fault *fault);

/* An act on gear of which all that is written is the plan of its outcome: its `act` for act_run, and
 * the part that writes. */
struct gear_act {
	const void *request; /* of its own type */
	struct gear_outcome *out;
};

MUST_CHECK bool gear_write(struct desk *desk, void *gear_act, struct fault *fault);

/* A mark an item of the inventory for each of these tags; one that is not inside one of the
 * named items is FAULT_INPUT about the field of this name. */
MUST_CHECK bool gear_parts(struct desk *desk, const char *field,
    const struct word_list *tags, const struct gear_outcome *named, bool **marks_out,
    struct fault *fault);

/* Writes a plan in the transaction that is open. */
MUST_CHECK bool plan_write(
    struct desk *desk, const struct life_plan *plan, struct fault *fault);

/* The part of the book that entering is about, and what it stands in for; NULL for all of
 * it, and for nothing. */
const struct book_part *enter_part(
    struct desk *desk, const struct enter_request *request, const char *stands_for);

/* Works out what entering comes to, except for whether its vessel takes it; writes it. */
MUST_CHECK bool enter_plan(struct desk *desk, const struct enter_request *request,
    struct enter_outcome *out, struct fault *fault);
MUST_CHECK bool enter_write(struct desk *desk, const struct enter_request *request,
    const struct enter_outcome *out, struct fault *fault);

/* ---- what the questions share ---- */

/* Loads the book anew for a question, so that it is as it was written last and no earlier question
 * has changed what is seen of it. `vessel` as desk_load has it. */
MUST_CHECK bool ask_load(struct desk *desk, const char *vessel, enum left_gear left,
    bool with_withdrawn, struct fault *fault);

/* Loads anew what a question is about, withdrawn gear too; NULL for all of the book. */
MUST_CHECK bool ask_about(struct desk *desk, const struct book_part *about,
    enum left_gear left, struct fault *fault);

/* The same, and withdrawn gear only where it is wanted. */
MUST_CHECK bool ask_part(struct desk *desk, const struct book_part *about,
    enum left_gear left, bool with_withdrawn, struct fault *fault);

/* Loads the gear of the vessel that a wish names, or of the vessels of its base, and what
 * belongs together with it, or all. A part that is gone may stand on a vessel that its whole
 * has left since. */
MUST_CHECK bool ask_gear(struct desk *desk, const struct gear_wish *wish,
    enum left_gear left, bool with_withdrawn, struct fault *fault);

/* The same as ask_about for what depends on plans of hand-ins: all of the book where a
 * station takes only so much a week, which ties all vessels to each other. */
MUST_CHECK bool ask_planned(struct desk *desk, const struct book_part *about,
    enum left_gear left, struct fault *fault);

/* The same as ask_load, and makes the engine ready. */
MUST_CHECK bool ask_engine(
    struct desk *desk, const char *vessel, enum left_gear left, struct fault *fault);

/* Loads the book some boats at a time, with what hangs together with their gear, and has each load
 * answered by `answer`; `boats` are their names, in the order in which an inventory has them, and NULL
 * where all of the book is loaded at once, for it is small. All loads see the same book. */
typedef bool ask_boats(struct desk *desk, const struct word_list *boats, void *question,
    struct fault *fault);
MUST_CHECK bool ask_by_boats(struct desk *desk, enum left_gear left, bool with_withdrawn,
    ask_boats *answer, void *question, struct fault *fault);

/* FAULT_USAGE where days end before they begin. */
MUST_CHECK bool ask_in_order(struct span days, struct fault *fault);

/* What is asked of the years of some vessels as the book has it. `copy` as outlook_ask has it, made
 * with items_copy. */
struct outlook_ask ask_outlook(
    const struct desk *desk, struct item *copy, const size_t *vessels, size_t count);

/* A copy of all items that are loaded, for plans to be made with; in the desk's arena. */
struct item *items_copy(struct desk *desk);

/* A wish for gear with its kinds found. */
struct gear_sieve {
	const char *base;       /* NULL for any */
	struct word_list kinds; /* ids; none for any */
};

/* FAULT_INPUT where no kind is meant. */
MUST_CHECK bool gear_sieve(struct desk *desk, const struct gear_wish *wish,
    struct gear_sieve *out, struct fault *fault);

/* True for an item that passes, of those of the vessel that was loaded. */
bool gear_passes(const struct gear_sieve *sieve, const struct inventory *inventory,
    const struct item *item);

/* ---- hand-ins given out: read for a plan, and kept once a calendar or a paper has them ---- */

/* Loads what was given out, each with the day a person has chosen for it since, or why it was
 * given up; one that was
 * chosen and never given out, too. In the desk's arena. */
MUST_CHECK bool settling_load(struct desk *desk, struct settled_hand_in **out,
    size_t *count_out, struct fault *fault);

/* Has the loaded rows of boats in use all year as their shore lists have them now: on the day that is
 * kept, or to which it has moved, with the pieces that are on it. */
void settling_as_listed(struct desk *desk, const struct shore_list *lists, size_t count,
    struct settled_hand_in *rows, size_t row_count);

/* Which hand-ins are given out, all of them with all NULL, and by what. */
struct settling_which {
	const char *key;    /* only the one with this reminder's key */
	const char *vessel; /* only those with gear of this vessel */
	const char *base;   /* only those with gear of a vessel of this base */
	enum given_by by;   /* by what */
	bool rotas; /* only those of boats in use all year that were given out before */
};

/* Keeps the hand-ins of the whole fleet's shore lists as given out, what has not changed
 * and what is given out from a later day on, excepted. The book must be open for writing. */
MUST_CHECK bool settling_keep(struct desk *desk, const struct shore_list *lists,
    size_t count, const struct settling_which *which, struct fault *fault);

/* Takes back the hand-ins to a station that were given up with any of some gear on them, which is
 * landed there now, and notes it. The book must be open for writing. */
MUST_CHECK bool settling_landed(struct desk *desk, const char *station,
    const size_t *items, size_t count, struct fault *fault);

/* ---- hand-ins that a person gave up for their winter ---- */

/* Finds what was given up by its station or by how its identity begins, to take it back;
 * `*found_out` false where none is meant. More than one is FAULT_INPUT. */
MUST_CHECK bool given_up_find(struct desk *desk, const char *name,
    struct planned_day *out, bool *found_out, struct fault *fault);

/* Lists what was given up for a winter that is not over, of the vessels wished for, in the desk's arena. */
MUST_CHECK bool given_up_list(struct desk *desk, const struct plans_wish *whose,
    const struct reminder_choices *choices, struct given_up **out, size_t *count_out,
    struct fault *fault);

/* ---- what is doubtful in a list that is imported ---- */

/* What is doubtful in a file that is imported, though each row can be read: days that are
 * still to come or can't be, and names that are those of the book except for a letter. */

/* Remarks, with the line, on days after today, work done before a thing was made and marks that
 * end before it was: at most twenty, then how many more. */
void import_remarks(struct desk *desk, const struct csv_rows *rows);

/* Asks about a new boat whose name is a known one's except for capitals or one letter,
 * and a new tag that is a known one's except for capitals, or of the same kind and except
 * for one letter: a typing mistake would make a second one beside it. FAULT_INPUT, and
 * the desk's question, unless the request says that they are right. `rows` have their
 * tags. */
MUST_CHECK bool import_names(struct desk *desk, const struct import_request *request,
    const struct csv_rows *rows, struct fault *fault);

/* ---- the words sheets have for areas ---- */

/* A remark when the sheets of a vessel speak of areas, but not of hers: what they ask in an
 * area would not be asked of her. `area` is the one just entered. */
MUST_CHECK bool areas_note(struct desk *desk, const struct vessel *vessel,
    const char *area, struct fault *fault);

/* Puts a typed area as the sheets of a vessel have it, found as naming_among finds names; as it was
 * typed where none of them has it. */
MUST_CHECK bool areas_settle(struct desk *desk, const struct vessel *vessel,
    const char **area, struct fault *fault);

/* ---- from which day something said of a vessel holds ---- */

/* From which day something said of a vessel holds, where no day was given: what was never told
 * is told since ever; what is told otherwise than before is a correction or a change, and that
 * is asked. The past stays as it was unless the person says that it was wrong. */

/* The changes to be written one after the other, in the desk's arena; those that have no day come
 * first. `known` is the vessel as the book has her, NULL for a new one. Where a change may be a
 * correction and the request says neither, that is the desk's question. */
MUST_CHECK bool vessel_times(struct desk *desk, const struct vessel *known,
    const struct vessel_request *request, const struct vessel_change **out,
    size_t *count_out, struct fault *fault);

#endif
