/* Questions to the person at the terminal. They go to standard error, so that standard
 * output holds the answer alone. */
#ifndef BECKET_CLI_ASK_H
#define BECKET_CLI_ASK_H

#include "base/text.h"

/* True when both standard input and standard error are a terminal. */
bool ask_is_possible(void);

/* Asks and reads one line into `out`, without its end and the blanks around it. `*there_out`
 * is false at the end of the input. FAULT_INPUT for a line that is no UTF-8, has control
 * characters or more than 4096 bytes. */
MUST_CHECK bool ask_line(
    const char *question, struct text *out, bool *there_out, struct fault *fault);

/* Asks for yes or no; anything but "y" or "yes" is no, and so is the end of the input. */
MUST_CHECK bool ask_yes(const char *question, bool *yes_out, struct fault *fault);

/* Which of the choices "with-her|spares|withdrawn" an answer means, counted from 0: the whole word
 * or its letter, "hsw" in that order, in any case. -1 for none of them. */
int ask_choice(const char *answer, const char *choices, const char *letters);

/* Asks for a secret, which the terminal does not show. `*there_out` as above. */
MUST_CHECK bool ask_secret(
    const char *question, struct text *out, bool *there_out, struct fault *fault);

#endif
