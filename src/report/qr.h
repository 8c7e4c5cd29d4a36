/* A QR code (ISO/IEC 18004) for a terminal, through libqrencode. */
#ifndef BECKET_REPORT_QR_H
#define BECKET_REPORT_QR_H

#include "base/text.h"

/* Adds the code of some words, two rows of modules a line, light modules drawn and dark ones
 * left, as a dark terminal shows it right; with the quiet zone of four modules around it.
 * FAULT_INPUT when the words are too long for any code. */
MUST_CHECK bool qr_add(const char *words, struct text *out, struct fault *fault);

#endif
