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

/* The code of the words; NULL, with the fault set, when they are too long. */
static QRcode *
code_of(const char *words, struct fault *fault)
{
	QRcode *code = QRcode_encodeString8bit(words, 0, QR_ECLEVEL_M);
	if (code == NULL && errno == ENOMEM) {
		memory_ended();
	}
	if (code == NULL) {
		(void)fault_set(fault, FAULT_INPUT, "that is too long for a QR code");
	}
	return code;
}

bool
qr_draw(const char *words, const char *label, struct markup *markup, struct fault *fault)
{
	__attribute__((cleanup(code_clear))) QRcode *code = code_of(words, fault);
	SCOPED_TEXT dark = {0};
	if (code == NULL) {
		return false;
	}
	int size = code->width + 2 * QUIET;
	for (int row = 0; row < code->width; row++) {
		for (int column = 0; column < code->width; column++) {
			if (is_dark(code, row, column)) {
				text_add_format(
				    &dark, "M%d %dh1v1h-1z", column + QUIET, row + QUIET);
			}
		}
	}
	markup_begin_class(markup, "svg", "qr");
	markup_attribute_format(markup, "viewBox", "0 0 %d %d", size, size);
	markup_attribute(markup, "role", "img");
	markup_attribute(markup, "aria-label", label);
	markup_begin(markup, "rect");
	markup_attribute_format(markup, "width", "%d", size);
	markup_attribute_format(markup, "height", "%d", size);
	markup_attribute(markup, "fill", "#fff");
	markup_end(markup);
	MARKUP_BEGIN(markup, "path", NULL, "d", text_string(&dark), "fill", "#000");
	markup_ends(markup, 2);
	return true;
}

bool
qr_add(const char *words, struct text *out, struct fault *fault)
{
	__attribute__((cleanup(code_clear))) QRcode *code = code_of(words, fault);
	if (code == NULL) {
		return false;
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
