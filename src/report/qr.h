/* A QR code (ISO/IEC 18004) for a terminal or a page, through libqrencode. */
#ifndef BECKET_REPORT_QR_H
#define BECKET_REPORT_QR_H

#include "base/text.h"
#include "report/markup.h"

/* Adds the code of some words, two rows of modules a line, light modules drawn and dark ones
 * left, as a dark terminal shows it right; with the quiet zone of four modules around it.
 * FAULT_INPUT when the words are too long for any code. */
MUST_CHECK bool qr_add(const char *words, struct text *out, struct fault *fault);

/* The same as a drawing on a page, dark on light whatever the page's colours are, of
 * class "qr" and with the label given for those who do not see it. */
MUST_CHECK bool qr_draw(
    const char *words, const char *label, struct markup *markup, struct fault *fault);

#endif
