/* The terminal an answer goes to: how wide it is, and a pager for what is longer than it. */
#ifndef BECKET_CLI_TERMINAL_H
#define BECKET_CLI_TERMINAL_H

#include "base/text.h"

/* How wide a page for standard output is: as wide as the terminal, between what a report can be
 * laid out for; 0 when it is no terminal, so that files and pipes are the same everywhere. */
size_t terminal_columns(void);

/* Adds an answer in sentences, its lines folded to the page's width where they are wider, what follows
 * two blanks further in. Commands to be typed ("  becket ...") and lines with colours stay whole. */
void terminal_fold(const struct text *answer, struct text *out);

/* Writes an answer to standard output; where that is a terminal with fewer lines, through $PAGER, or
 * else less -FRX. An empty PAGER, or "cat", is no pager; one that can't be started leaves the answer
 * to be written as it is. The reader may leave it early: that is no failure. FAULT_FILE. */
MUST_CHECK bool terminal_write(const struct text *answer, struct fault *fault);

#endif
