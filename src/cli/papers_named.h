/* Papers for gear that is handed in beside the winters: named, or due now. */
#ifndef BECKET_CLI_PAPERS_NAMED_H
#define BECKET_CLI_PAPERS_NAMED_H

#include "cli/context.h"
#include "winter/winter.h"

/* What the options say. */
struct named_said {
	struct word_list tags; /* the gear; or */
	bool due_now;          /* what is due now */
	const char *station;   /* NULL when not told */
	day_t on;              /* DAY_NONE when not told */
	unsigned tasks;        /* bit 1 << enum task for each; 0 when not told */
};

/* True when such papers are asked for. */
bool papers_are_named(const struct named_said *said);

/* The shore lists of what is asked for, with remarks on the station. `winters` are those of the
 * vessels that are meant. In the context's arena. */
MUST_CHECK bool papers_named(struct context *context, const struct named_said *said,
    const struct shore_list *winters, size_t winter_count, struct shore_list **out,
    size_t *count_out, struct fault *fault);

#endif
