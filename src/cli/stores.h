/* Gear carried from vessel to vessel, and the spares at a base, which are a vessel of their
 * own. */
#ifndef BECKET_CLI_STORES_H
#define BECKET_CLI_STORES_H

#include "cli/life_plan.h"

/* FAULT_INPUT with the nearest name when the loaded book has no vessel of that name, and when
 * she has left. */
MUST_CHECK bool vessel_check(
    const struct context *context, const char *name, struct fault *fault);

/* The name of the vessel that is the spares of a base; made when there is none, inside the
 * transaction that is open. FAULT_INPUT when nothing is known to lie at that base. */
MUST_CHECK bool store_need(struct context *context, const char *base,
    const char **vessel_out, struct fault *fault);

/* FAULT_INPUT when an item, or one to be, would stand on another vessel than `whole`, which
 * it is to be part of: a part comes ashore and is looked for with its whole. */
MUST_CHECK bool whole_check(const struct context *context, const char *tag,
    const char *vessel, const struct item *whole, struct fault *fault);

/* How things are carried. */
struct carrying {
	const char *to; /* the vessel's name */
	day_t on;
	const char *place; /* where aboard it is kept there; NULL when not told */
	const char *note;
	bool alone;      /* a part may go without its whole */
	const char *say; /* what is said for that: "--alone" */
	bool with_whole; /* this one's whole goes too */
};

/* Plans the move of an item and all its parts. FAULT_INPUT when it is there already, is
 * withdrawn, or is a part that would leave its whole behind without `alone`. A part whose
 * whole is there already stays its part. */
MUST_CHECK bool carry(struct context *context, const struct carrying *carrying,
    size_t item, struct life_plan *plan, struct fault *fault);

#endif
