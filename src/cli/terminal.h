/* The person at the terminal: what is shown, and what is asked there. */
#ifndef BECKET_CLI_TERMINAL_H
#define BECKET_CLI_TERMINAL_H

#include "base/text.h"

#include <pthread.h>
#include <stdbool.h>

/* The width of a page for standard output: the terminal's, within the limits of the
 * report's layout; 0 when it is no terminal, so that files and pipes are the same
 * everywhere. */
size_t terminal_columns(void);

/* Adds an answer in sentences. A line wider than the page is folded, its further lines
 * indented by two more blanks. Commands to be typed ("  becket ...") and lines with
 * colours stay whole. */
void terminal_fold(const struct text *answer, struct text *out);

/* Writes an answer to standard output. If that is a terminal with too few lines, it goes
 * through $PAGER, or else less -FRX. An empty PAGER, or "cat", means no pager; if the
 * pager can't be started, the answer is written directly. It is no failure if the reader
 * leaves the pager early. FAULT_FILE. */
MUST_CHECK bool terminal_write(const struct text *answer, struct fault *fault);

/* ---- What a person at a terminal sees ---- */

/* Writes bytes to standard output, all of them. FAULT_FILE, also when the reader is
 * gone. */
MUST_CHECK bool output_write(const char *bytes, size_t length, struct fault *fault);

/* Adds words that may quote what was typed or read: control characters that a terminal
 * would obey become "?", except for line ends and tabs. A field named in them (FIELD in
 * base/fault.h) is shown as its option. */
void add_shown(struct text *out, const char *words, size_t length);

/* Writes "becket: ", a label and words, shown as by add_shown, as a line to standard
 * error. */
void remark_write(const char *label, const char *words, size_t length);

/* Adds words with an option in place of each field that they name (FIELD in
 * base/fault.h). */
void add_typed(struct text *out, const char *words);

/* Questions to the person at the terminal. They go to standard error, so that standard
 * output holds the answer alone. */

/* True when both standard input and standard error are a terminal. */
bool ask_is_possible(void);

/* Asks and reads one line into `out`, without its end and the blanks around it.
 * `*there_out` is false at the end of the input. FAULT_INPUT for a line that is no UTF-8,
 * has control characters or more than 4096 bytes. */
MUST_CHECK bool ask_line(
    const char *question, struct text *out, bool *there_out, struct fault *fault);

/* Asks for yes or no; anything but "y" or "yes" is no, and so is the end of the input. */
MUST_CHECK bool ask_yes(const char *question, bool *yes_out, struct fault *fault);

/* Which of the choices "with-her|spares|withdrawn" an answer means, counted from 0: the
 * whole word or its letter, "hsw" in that order, in any case. -1 for none of them. */
int ask_choice(const char *answer, const char *choices, const char *letters);

/* Asks for a secret, which the terminal does not show. `*there_out` as for ask_line. */
MUST_CHECK bool ask_secret(
    const char *question, struct text *out, bool *there_out, struct fault *fault);

/* ---- A password, read in a way that others can't see ---- */

/* Adds a password: the first line of `file` if one is named, else the environment
 * variable `variable` if one is named, else the answer at the terminal. FAULT_INPUT: a
 * file that others may read, a blank or overlong password, no terminal to ask at. */
MUST_CHECK bool secret_read(const char *file, const char *variable, const char *question,
    struct text *out, struct fault *fault);

/* Overwrites and frees it. */
void secret_clear(struct text *secret);

#define SCOPED_SECRET __attribute__((cleanup(secret_clear))) struct text

/* A message for the person who waits: work that takes longer than a second says so on the
 * terminal. */

struct waiting_word {
	pthread_t thread;
	pthread_mutex_t lock;
	pthread_cond_t changed;
	bool done; /* under the lock */
	bool told; /* a message is shown; only for the thread until it has ended */
	bool begun;
};

/* From now on the seconds are counted on standard error, starting after the first, if it
 * is a terminal and `wanted`. Nothing else may be written there and no question asked
 * until waiting_end, which removes the message. `waiting` must not be moved until
 * then. */
void waiting_begin(struct waiting_word *waiting, bool wanted);
void waiting_end(struct waiting_word *waiting);

#endif
