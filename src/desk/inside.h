/* What files of the desk share: how an act is carried out, a question asked, hand-ins
 * kept. Not for other rooms. */
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

/* Loads the whole book, has `plan` work out from it what the act comes to (`plan` writes
 * nothing, and sets anew all that it says of the outcome), and has `write` write that in
 * one transaction. Where the book has changed between reading and writing it begins
 * again, five times at most. desk->doing, which `plan` may set, leads a fault in writing.
 * Remarks of a run that came to nothing are dropped. */
MUST_CHECK bool act_run(struct desk *desk, const char *doing, act_part *plan,
    act_part *write, void *act, struct fault *fault);

/* The same with only a part of the book loaded, NULL for all; where planning fails with
 * the part, and that is not `sufficient`, all of the book is loaded and it is tried
 * again. For acts that come to the same either way. */
MUST_CHECK bool act_run_about(struct desk *desk, const struct book_part *about,
    const char *doing, act_part *plan, act_part *write, void *act, struct fault *fault);

/* Loads and plans alone, as act_run_about does before it writes. */
MUST_CHECK bool act_plan_about(struct desk *desk, const struct book_part *about,
    act_part *plan, void *act, struct fault *fault);

/* Finds the gear that a request names, and makes a plan that is still empty. */
MUST_CHECK bool gear_find(struct desk *desk, const struct word_list *tags,
    struct gear_outcome *out, struct life_planning *planning_out, struct fault *fault);

/* An act on gear that writes nothing but the plan of its outcome: the `act` for act_run,
 * and the part that writes. */
struct gear_act {
	const void *request; /* of its own type */
	struct gear_outcome *out;
};

MUST_CHECK bool gear_write(struct desk *desk, void *gear_act, struct fault *fault);

/* Sets one mark per item of the inventory, true for these tags; one that is not inside
 * one of the named items is FAULT_INPUT about the field of this name. */
MUST_CHECK bool gear_parts(struct desk *desk, const char *field,
    const struct word_list *tags, const struct gear_outcome *named, bool **marks_out,
    struct fault *fault);

/* Writes a plan in the transaction that is open. */
MUST_CHECK bool plan_write(
    struct desk *desk, const struct life_plan *plan, struct fault *fault);

/* The part of the book that entering needs, with what the new gear stands in for (NULL
 * for nothing); NULL for all of the book. */
const struct book_part *enter_part(
    struct desk *desk, const struct enter_request *request, const char *stands_for);

/* enter_plan works out what entering comes to, but not whether the vessel takes it;
 * enter_write writes it. */
MUST_CHECK bool enter_plan(struct desk *desk, const struct enter_request *request,
    struct enter_outcome *out, struct fault *fault);
MUST_CHECK bool enter_write(struct desk *desk, const struct enter_request *request,
    const struct enter_outcome *out, struct fault *fault);

/* ---- a renewal: another thing in the old one's place, or what is in it ---- */

/* True in *out for gear of this kind, of a vessel with this index, of which a renewal may be of
 * what is in it: a station services it, or a rule that she follows says so of its renewals.
 * Her rules are asked last: a sheet may be missing. Of a new one, whose index is the count of
 * vessels, they are not asked. */
MUST_CHECK bool may_be_refitted(
    struct desk *desk, const char *kind, size_t vessel, bool *out, struct fault *fault);

/* FAULT_INPUT where no new mark was told of what was refitted, and that of what was in it before
 * would go on counting; `field` gives the new one. */
MUST_CHECK bool refit_check_mark(
    const struct item *item, bool told, const char *field, struct fault *fault);

/* FAULT_INPUT where the book has a refit of that day and this is another one, or the other way
 * round: one day has either. A refit with the very paper of the other is that one, told again;
 * with another paper both would stand, and the whole would go on counting. */
MUST_CHECK bool renewal_check_day(
    const struct record *renewal, const struct item *item, struct fault *fault);

/* Checks what the request says of that for all the gear it names, as desk_record has it,
 * and remarks on what becomes of a registration. Nothing where no renewal is recorded. */
MUST_CHECK bool renewal_check(struct desk *desk, const struct record_request *request,
    const struct gear_outcome *named, struct fault *fault);

/* True for a refit that is on record as a renewal of the whole: the book learns what it was. */
bool renewal_was_of_the_whole(const struct record *renewal, const struct item *item);

/* Takes the mark out of what a renewal of the whole changes, with a remark, where a refit came
 * after the renewal: the mark in the book is that one's. */
void renewal_keep_later_mark(struct desk *desk, const struct record *renewal,
    const struct item *item, struct item_change *change);

/* Settles what the renewal changes of an item beside its record: `change` holds what was
 * told of the new. FAULT_INPUT for a refit without a mark where the old one is in the book
 * and would go on counting. The mark of a refit that came later stays. */
MUST_CHECK bool renewal_settle(struct desk *desk, const struct record_request *request,
    const struct item *item, struct item_change *change, struct fault *fault);

/* ---- what the questions share ---- */

/* Loads the book anew for a question, so that it is as last written and no earlier
 * question has changed how it is seen. `vessel` as desk_load has it. */
MUST_CHECK bool ask_load(struct desk *desk, const char *vessel, enum left_gear left,
    bool with_withdrawn, struct fault *fault);

/* Loads a part of the book, NULL for all; nothing where something is loaded. What is
 * loaded after it is all of the book. */
MUST_CHECK bool part_load(struct desk *desk, const struct book_part *about,
    bool with_withdrawn, struct fault *fault);

/* Loads anew what a question is about, withdrawn gear too; NULL for all of the book. */
MUST_CHECK bool ask_about(struct desk *desk, const struct book_part *about,
    enum left_gear left, struct fault *fault);

/* The same, and withdrawn gear only where it is wanted. */
MUST_CHECK bool ask_part(struct desk *desk, const struct book_part *about,
    enum left_gear left, bool with_withdrawn, struct fault *fault);

/* Loads the gear of the vessel that a wish names, or of the vessels of its base, and what
 * belongs together with it; or all gear. A part that is gone may still belong to a vessel
 * that its whole has left since. */
MUST_CHECK bool ask_gear(struct desk *desk, const struct gear_wish *wish,
    enum left_gear left, bool with_withdrawn, struct fault *fault);

/* The same as ask_about for what depends on plans of hand-ins: all of the book where a
 * station takes only so much a week, which ties all vessels to each other. */
MUST_CHECK bool ask_planned(struct desk *desk, const struct book_part *about,
    enum left_gear left, struct fault *fault);

/* The same as ask_load, and makes the engine ready. */
MUST_CHECK bool ask_engine(
    struct desk *desk, const char *vessel, enum left_gear left, struct fault *fault);

/* A book of no more boats than this is loaded at once; a larger one about this many at a
 * time, which costs about the same per boat. */
enum { BOATS_AT_A_TIME = 64 };

/* Loads the book some boats at a time, with what hangs together with their gear, and
 * calls `answer` after each load. `boats` are their names in the inventory's order; NULL
 * where all of the book is loaded at once because it is small, or most of it hangs
 * together. All loads see the same
 * state of the book. */
typedef bool ask_boats(struct desk *desk, const struct word_list *boats, void *question,
    struct fault *fault);
MUST_CHECK bool ask_by_boats(struct desk *desk, enum left_gear left, bool with_withdrawn,
    ask_boats *answer, void *question, struct fault *fault);

/* True for gear that is on one of such boats; with NULL for all that is loaded. */
bool ask_is_theirs(
    const struct desk *desk, const struct word_list *boats, const struct item *item);

/* What is asked of the boats that have to do with each other. */
struct together_asked {
	/* answers about what is loaded. For each vessel of the inventory `places` has her
	 * place in that of the whole book */
	bool (*answer)(
	    struct desk *desk, const size_t *places, void *question, struct fault *fault);
	/* afterwards, with the book in the same state; NULL for nothing */
	bool (*then)(struct desk *desk, void *question, struct fault *fault);
	void *question;
	bool plans; /* the answer hangs on plans of hand-ins, so all of the book is loaded
		     * at once where a station's weekly limit ties all boats */
	const char *vessel; /* only those she has to do with; NULL for all boats */
};

/* Loads the book, withdrawn gear too, by boats that have to do with each other: they lie at
 * one base at some time, its stores with them, or gear of one is part of another's, or
 * stands in for it. Calls `answer` after each load, about BOATS_AT_A_TIME boats each time,
 * more where more have to do with each other; for what hangs on no others. All loads see
 * the same state of the book. What is loaded, and what `answer` puts in the desk's arena,
 * is gone when it returns, except where all of the book was loaded at once. */
MUST_CHECK bool ask_together(struct desk *desk, enum left_gear left,
    const struct together_asked *asked, struct fault *fault);

/* Checks days: FAULT_USAGE where they end before they begin. */
MUST_CHECK bool ask_in_order(struct span days, struct fault *fault);

/* What is asked of the years of some vessels as the book has it. `copy` as outlook_ask
 * has it, made with items_copy. */
struct outlook_ask ask_outlook(
    const struct desk *desk, struct item *copy, const size_t *vessels, size_t count);

/* A copy of all items that are loaded, for plans to be made with; in the desk's arena. */
struct item *items_copy(struct desk *desk);

/* Vessels that are planned together. */
struct group {
	const char *name;
	bool shared;     /* a base's vessels; false: one by herself */
	size_t *vessels; /* by index */
	size_t count;
};

/* A question being answered; in the desk's arena. */
struct planning_years {
	struct desk *desk;
	const struct years_asked *asked;
	struct item *copy;
	struct group *groups;
	size_t group_count;
	/* what is supposed: */
	struct outlook_price *prices;
	bool *shunned;
	size_t renew_now;
	struct due_engine engine; /* with the supposed use, if any */
	bool some;                /* other boats of the book may be planned, too */
};

/* Fills what is supposed, of the boats that are loaded. FAULT_INPUT for a kind, station or tag that
 * is not there. */
MUST_CHECK bool years_suppose(struct planning_years *years, struct fault *fault);

/* A wish for gear, its words turned into ids of kinds. */
struct gear_sieve {
	const char *vessel, *base; /* NULL for any */
	struct word_list kinds;    /* ids; none for any */
};

/* Makes the sieve of a wish. FAULT_INPUT where its words mean no kind. */
MUST_CHECK bool gear_sieve(struct desk *desk, const struct gear_wish *wish,
    struct gear_sieve *out, struct fault *fault);

/* True for an item that the wish is for. More may be loaded (ask_gear). */
bool gear_passes(const struct gear_sieve *sieve, const struct inventory *inventory,
    const struct item *item);

/* ---- hand-ins given out: read for a plan, and kept once a calendar or a paper has them ---- */

/* Loads the hand-ins that were given out, each with the day that a person has chosen for
 * it since, or why it was given up; also those that were chosen and never given out. In
 * the desk's arena. */
MUST_CHECK bool settling_load(struct desk *desk, struct settled_hand_in **out,
    size_t *count_out, struct fault *fault);

/* The same of the boats that are loaded and of the bases at which they lie at some time;
 * no other hand-in has to do with their plans. `choices` where they are read already, or
 * NULL. */
MUST_CHECK bool settling_load_theirs(struct desk *desk,
    const struct reminder_choices *choices, struct settled_hand_in **out,
    size_t *count_out, struct fault *fault);

/* Sets the loaded rows of boats in use all year to what their shore lists say now: the
 * day that is kept, or to which it has moved, and the pieces that are on it. */
void settling_as_listed(struct desk *desk, const struct shore_list *lists, size_t count,
    struct settled_hand_in *rows, size_t row_count);

/* Which hand-ins are given out, and by what; with all NULL every one. */
struct settling_which {
	const char *key;    /* only the one with this reminder's key */
	const char *vessel; /* only those with gear of this vessel */
	const char *base;   /* only those with gear of a vessel of this base */
	enum given_by by;   /* by what */
	bool rotas; /* only those of boats in use all year that were given out before */
};

/* Keeps the hand-ins of the whole fleet's shore lists as given out, except those that
 * have not changed and those that are given out only from a later day on. The book must
 * be open for writing. */
MUST_CHECK bool settling_keep(struct desk *desk, const struct shore_list *lists,
    size_t count, const struct settling_which *which, struct fault *fault);

/* Where a hand-in to this station was given up and any of these items, now landed there,
 * was on it, the giving-up is taken back and noted. The book must be open for writing. */
MUST_CHECK bool settling_landed(struct desk *desk, const char *station,
    const size_t *items, size_t count, struct fault *fault);

/* ---- hand-ins that a person gave up for their winter ---- */

/* Finds a given-up hand-in by its station or by how its identity begins, to take that
 * back; `*found_out` is false where none is meant. More than one is FAULT_INPUT. */
MUST_CHECK bool given_up_find(struct desk *desk, const char *name,
    struct planned_day *out, bool *found_out, struct fault *fault);

/* Lists what was given up for a winter that is not over, of the vessels wished for, in
 * the desk's arena. */
MUST_CHECK bool given_up_list(struct desk *desk, const struct plans_wish *whose,
    const struct reminder_choices *choices, struct given_up **out, size_t *count_out,
    struct fault *fault);

/* ---- what is doubtful in a list that is imported ---- */

/* What is doubtful in a file that is imported, though each row can be read: days that are
 * still to come or can't be, and names that are those of the book except for a letter. */

/* Remarks, with the line, on days after today, work done before a thing was made and
 * marks that end before it was: at most twenty, then how many more. And on a list without rows. */
MUST_CHECK bool import_remarks(
    struct desk *desk, const struct csv_rows *rows, struct fault *fault);

/* FAULT_INPUT for a renewal of a day after today, which would move dates. Remarks on gear that may
 * be refitted, of which the list brings a renewal and has no column that says which it was: it is
 * taken for another one; and on a mark that comes with a renewal of before a refit that the book
 * has. `rows` have their tags. */
MUST_CHECK bool import_renewals(struct desk *desk, const struct import_request *request,
    const struct csv_rows *rows, struct fault *fault);

/* Asks about a new boat whose name is a known one's except for capitals or one letter,
 * and a new tag that is a known one's except for capitals, or of the same kind and except
 * for one letter: a typing mistake would make a second one beside it. FAULT_INPUT, and
 * the desk's question, unless the request says that they are right. `rows` have their
 * tags. */
MUST_CHECK bool import_names(struct desk *desk, const struct import_request *request,
    const struct csv_rows *rows, struct fault *fault);

/* The part of the book that rows, as they were read, have to do with: gear with their
 * tags and the lots it is of, wholes of their parts, their boats, boats with names near
 * new ones, gear with a tag or serial number that is new ones' or near, now or in the
 * past, and that which fresh tags follow. Planning and writing find in it what they find
 * in all of the book. For act_run_about; in the desk's arena. NULL, for all of the book,
 * where the rows are many beside it, or much is near them. */
const struct book_part *import_part(
    struct desk *desk, const struct import_request *request, const struct csv_rows *rows);

/* Writes rows, which have their tags, in the transaction that is open; where they are all gear of
 * the book, desk->written is set to them. */
MUST_CHECK bool import_write(
    struct desk *desk, const struct csv_rows *rows, struct fault *fault);

/* ---- the words sheets have for areas ---- */

/* A remark when the sheets of a vessel mention areas, but not hers: what they ask in an
 * area would not be asked of her. `area` is the one just entered. */
MUST_CHECK bool areas_note(struct desk *desk, const struct vessel *vessel,
    const char *area, struct fault *fault);

/* Replaces a typed area by the spelling in the sheets of the vessel, found as
 * naming_among finds names; it stays as typed where none of them has it. */
MUST_CHECK bool areas_settle(struct desk *desk, const struct vessel *vessel,
    const char **area, struct fault *fault);

/* ---- from which day something said of a vessel holds ---- */

/* From which day something said of a vessel holds, where no day was given. What was never
 * told before holds from the beginning. What differs from what was told before is a
 * correction or a change, and that is asked. The past stays as it was unless the person
 * says that it was wrong. */

/* The changes to be written one after the other, in the desk's arena; those that have
 * no day come first. `known` is the vessel as the book has her, NULL for a new one.
 * Where a change may be a correction and the request says neither, that is the desk's
 * question. */
MUST_CHECK bool vessel_times(struct desk *desk, const struct vessel *known,
    const struct vessel_request *request, const struct vessel_change **out,
    size_t *count_out, struct fault *fault);

#endif
