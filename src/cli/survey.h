/* `becket muster --survey`: a page of HTML for each vessel, to print and to sign. */
#ifndef BECKET_CLI_SURVEY_H
#define BECKET_CLI_SURVEY_H

#include "cli/context.h"

/* Writes a file for each muster into a folder, "NAME-survey.html", all or none. What is there
 * is written over only when `over`. Adds a line to the notes. FAULT_FILE. */
MUST_CHECK bool survey_write(struct context *context, const char *path, bool over,
    const struct muster *musters, size_t count, struct fault *fault);

#endif
