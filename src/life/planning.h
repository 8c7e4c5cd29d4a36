/* An act on gear, worked out before anything is written: what happens to each item. Pure. */
#ifndef BECKET_LIFE_PLANNING_H
#define BECKET_LIFE_PLANNING_H

#include "base/memory.h"
#include "base/text.h"
#include "gear/item.h"

/* What happens to one item, in this order; what is not there is not done. */
struct life_row {
	size_t item;     /* index in the inventory */
	const char *tag; /* of a piece that is split off it; NULL: its own */
	bool moves;
	struct movement movement;
	const struct record *records;
	size_t record_count;
	struct item_change change;  /* `set` is 0 for none; its tag is left out */
	struct item_change renewed; /* the new thing's dates, after a renewal */
};

/* Starts as `{ 0 }`; lives in the arena of the planning. */
struct life_plan {
	struct life_row *items;
	size_t count;
	size_t capacity;
};

/* What a plan is made from, and the plan. All of it is borrowed. */
struct life_planning {
	const struct inventory *inventory;
	struct arena *arena;
	struct text *notes; /* remarks, a line each, are added */
	struct life_plan *plan;
};

void planning_add(struct life_planning *planning, const struct life_row *row);

/* True when a row of the plan is about the item. */
bool planning_has(const struct life_planning *planning, size_t item);

/* Adds a remark. */
void planning_note(struct life_planning *planning, const char *format, ...)
    FORMAT_LIKE(2, 3);

/* An empty movement of a day, with a note ("" for none). */
struct movement life_movement(enum move move, day_t on, const char *note);

/* The movement that a change of an item's state amounts to; false when it changes none. */
MUST_CHECK bool life_state_move(
    const struct item *item, const struct item_change *change, enum move *out);

/* What a row records as done, a bit 1 << enum task for each. */
unsigned life_recorded(const struct life_row *row);

/* Completes a change of state: what was landed and is no longer is nowhere ashore, what was
 * withdrawn and is no longer has no reason for it. */
void life_settle_state(struct item_change *change);

/* Refuses an act on what is withdrawn, saying what for. */
MUST_CHECK bool planning_withdrawn(const struct item *item, struct fault *fault);

/* ---- Gear carried from vessel to vessel. Pure ---- */

/* How things are carried. */
struct carrying {
	const char *to; /* the vessel's name */
	day_t on;
	const char *place; /* where aboard it is kept there; NULL when not told */
	const char *note;
	bool alone;      /* a part may go without its whole */
	const char *say; /* what is said for that, in a request: FIELD "alone" */
	bool with_whole; /* this one's whole goes too */
};

/* Plans the move of an item and all its parts. FAULT_INPUT when it is there already, is
 * withdrawn, or is a part that would leave its whole behind without `alone`. A part whose
 * whole is there already stays its part. */
MUST_CHECK bool carry(struct life_planning *planning, const struct carrying *carrying,
    size_t item, struct fault *fault);

/* ---- Gear that goes for good, with its parts. Pure ---- */

struct withdrawing {
	enum because because;
	day_t on;
	const char *certificate; /* the paper that says so; NULL or "" for none */
	const char *note;
	const char *station; /* who said so; NULL or "" for none */
	enum result result;  /* condemned at a station: that */
	int64_t price_minor; /* what finding it out cost; -1 when not known */
	const bool *kept;    /* parts that stay, one mark an item of the inventory */
};

/* Plans the withdrawal of an item and its parts. A part that is kept leaves the item: it
 * stands aboard, or in reserve if it did, and is part of nothing. FAULT_INPUT when the item
 * is withdrawn already. */
MUST_CHECK bool withdraw(struct life_planning *planning, const struct withdrawing *how,
    size_t item, struct fault *fault);

/* Remarks on hired gear that stands in for this item. */
void note_stand_ins(struct life_planning *planning, size_t item, bool back);

#endif
