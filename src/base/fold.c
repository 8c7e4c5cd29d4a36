#include "base/fold.h"

#include <stdlib.h>
#include <string.h>
#include <unicase.h>
#include <unictype.h>
#include <uninorm.h>
#include <unistr.h>

/* Letters that Unicode does not take apart into a plain one and a mark. After folding:
 * small. */
static const struct {
	ucs4_t letter;
	const char *plain;
} GROWN_IN[] = {
    {0x00e6, "ae"}, /* æ */
    {0x00f0, "d"},  /* ð */
    {0x00f8, "o"},  /* ø */
    {0x00fe, "th"}, /* þ */
    {0x0111, "d"},  /* đ */
    {0x0127, "h"},  /* ħ */
    {0x0131, "i"},  /* ı */
    {0x0142, "l"},  /* ł */
    {0x0153, "oe"}, /* œ */
};

/* The folded text, taken apart into letters and marks; freed by the caller. NULL when
 * memory ran out or the string is no UTF-8. */
static uint8_t *
folded(const char *string, uninorm_t form, size_t *length_out)
{
	return u8_casefold(
	    (const uint8_t *)string, strlen(string), "", form, NULL, length_out);
}

/* What is ASCII alone, as most words are: Unicode's tables only make its letters
 * small. */
static bool
fold_plain(const char *string, struct text *out)
{
	size_t length = 0;
	while (string[length] != '\0' && (unsigned char)string[length] < 0x80) {
		length++;
	}
	if (string[length] != '\0') {
		return false;
	}
	size_t first = out->length;
	text_add_bytes(out, string, length);
	for (size_t i = first; i < out->length; i++) {
		out->bytes[i] = (char)text_lower(out->bytes[i]);
	}
	return true;
}

void
fold_case(const char *string, struct text *out)
{
	if (fold_plain(string, out)) {
		return;
	}
	size_t length = 0;
	uint8_t *bytes = folded(string, UNINORM_NFD, &length);
	text_add_bytes(out, bytes == NULL ? string : (const char *)bytes,
	    bytes == NULL ? strlen(string) : length);
	free(bytes);
}

/* A mark that people leave out when they type in a hurry. */
static bool
is_accent(ucs4_t letter)
{
	int class = uc_combining_class(letter);
	return uc_is_general_category(letter, UC_CATEGORY_Mn) && class != 0 &&
	       (class < UC_CCC_NK || class > UC_CCC_VR);
}

static const char *
plain_letter(ucs4_t letter)
{
	for (size_t i = 0; i < sizeof GROWN_IN / sizeof GROWN_IN[0]; i++) {
		if (GROWN_IN[i].letter == letter) {
			return GROWN_IN[i].plain;
		}
	}
	return NULL;
}

void
fold_accents(const char *string, struct text *out)
{
	if (fold_plain(string, out)) {
		return;
	}
	size_t length = 0;
	uint8_t *bytes = folded(string, UNINORM_NFKD, &length);
	for (size_t at = 0; bytes != NULL && at < length;) {
		ucs4_t letter = 0;
		int size = u8_mbtouc(&letter, bytes + at, length - at);
		const char *plain = plain_letter(letter);
		if (plain != NULL) {
			text_add(out, plain);
		} else if (!is_accent(letter)) {
			text_add_bytes(out, (const char *)bytes + at, (size_t)size);
		}
		at += (size_t)size;
	}
	free(bytes);
}
