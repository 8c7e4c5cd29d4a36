/* A password, from where nobody else can read it. */
#ifndef BECKET_CLI_SECRET_H
#define BECKET_CLI_SECRET_H

#include "base/text.h"

/* Adds a password: the first line of `file` where one is named, else the environment variable
 * `variable` where one is named, else what is answered at the terminal. FAULT_INPUT: a file that others may
 * read, a blank or overlong password, no terminal to ask at. */
MUST_CHECK bool secret_read(const char *file, const char *variable, const char *question,
    struct text *out, struct fault *fault);

/* Overwrites and frees it. */
void secret_clear(struct text *secret);

#define SCOPED_SECRET __attribute__((cleanup(secret_clear))) struct text

#endif
