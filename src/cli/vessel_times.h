/* From which day something said of a vessel holds, where no day was given: what was never told
 * is told since ever; what is told otherwise than before is a correction or a change, and that
 * is asked. The past stays as it was unless the person says that it was wrong. */
#ifndef BECKET_CLI_VESSEL_TIMES_H
#define BECKET_CLI_VESSEL_TIMES_H

#include "cli/context.h"

/* What was said with the words of the command. */
struct vessel_words {
	struct vessel_change change; /* what is not set is not said; `from` counts with
				      * from_given alone */
	bool from_given;
	bool correction; /* what it replaces was wrong: it holds since that did */
};

/* The changes to be written one after the other, in the context's arena; those of `words` that
 * have no day come first. `known` is the vessel as the book has her, NULL for a new one. Asks,
 * once, where a change may be a correction and there is a terminal; without one it is from
 * today, with a remark. What is as it was already is left out. */
MUST_CHECK bool vessel_times(struct context *context, const struct vessel *known,
    const struct vessel_words *words, const struct vessel_change **out, size_t *count_out,
    struct fault *fault);

#endif
