#include "report/qr.h"

#include "base/memory.h"

#include <errno.h>
#include <qrencode.h>

enum { QUIET = 4 };

static void
code_clear(QRcode **code)
{
	QRcode_free(*code);
}

/* True for a dark module; all around the code is light. */
static bool
is_dark(const QRcode *code, int row, int column)
{
	bool inside =
	    row >= 0 && row < code->width && column >= 0 && column < code->width;
	return inside && (code->data[row * code->width + column] & 1) != 0;
}

/* The upper and the lower half of a character cell. */
static const char *
cell(bool upper_light, bool lower_light)
{
	if (upper_light) {
		return lower_light ? "█" : "▀";
	}
	return lower_light ? "▄" : " ";
}

bool
qr_add(const char *words, struct text *out, struct fault *fault)
{
	__attribute__((cleanup(code_clear))) QRcode *code =
	    QRcode_encodeString8bit(words, 0, QR_ECLEVEL_M);
	if (code == NULL) {
		if (errno == ENOMEM) {
			memory_ended();
		}
		return fault_set(fault, FAULT_INPUT, "that is too long for a QR code");
	}
	for (int row = -QUIET; row < code->width + QUIET; row += 2) {
		for (int column = -QUIET; column < code->width + QUIET; column++) {
			bool below = row + 1 < code->width + QUIET;
			text_add(out, cell(!is_dark(code, row, column),
					  below && !is_dark(code, row + 1, column)));
		}
		text_add(out, "\n");
	}
	return true;
}
