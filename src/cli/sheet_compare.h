/* becket sheet compare: two sets of sheets for the gear of a boat, or for kinds. */
#ifndef BECKET_CLI_SHEET_COMPARE_H
#define BECKET_CLI_SHEET_COMPARE_H

#include "cli/command.h"

/* Compares two sheets, or several named with commas between them. */
MUST_CHECK bool sheet_compare(
    struct context *context, const char *a, const char *b, struct fault *fault);

#endif
