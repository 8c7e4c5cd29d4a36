/* The hand-written parts of the manual page, built into the program. */
#ifndef BECKET_CLI_MAN_H
#define BECKET_CLI_MAN_H

#include "base/embedded.h"

extern const struct embedded_file EMBEDDED_MAN[];
extern const size_t EMBEDDED_MAN_COUNT;

#endif
