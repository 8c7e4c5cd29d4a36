/* What a person at a terminal sees. */
#ifndef BECKET_CLI_OUTPUT_H
#define BECKET_CLI_OUTPUT_H

#include "base/text.h"

/* Writes bytes to standard output, all of them. FAULT_FILE, also when the reader is gone. */
MUST_CHECK bool output_write(const char *bytes, size_t length, struct fault *fault);

/* Adds words that may quote what was typed or read: control characters that a terminal would obey
 * become "?", but for the ends of lines and tabs. A field that they name (FIELD in desk/desk.h) is
 * shown as its option. */
void add_shown(struct text *out, const char *words, size_t length);

/* Writes "becket: ", a label and words, shown so, as a line to standard error. */
void remark_write(const char *label, const char *words, size_t length);

/* Adds words with an option in place of each field that they name (FIELD in base/fault.h). */
void add_typed(struct text *out, const char *words);

#endif
