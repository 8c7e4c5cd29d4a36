/* How an act is carried out: worked out from a book that was read, then written at once. Only for
 * files of this room. */
#ifndef BECKET_DESK_ACT_H
#define BECKET_DESK_ACT_H

#include "desk/acts.h"

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

/* Works out what entering comes to, but for whether its vessel takes it; writes it. */
MUST_CHECK bool enter_plan(struct desk *desk, const struct enter_request *request,
    struct enter_outcome *out, struct fault *fault);
MUST_CHECK bool enter_write(struct desk *desk, const struct enter_request *request,
    const struct enter_outcome *out, struct fault *fault);

#endif
