/* Growable text, and checks on text that came from outside. */
#ifndef BECKET_BASE_TEXT_H
#define BECKET_BASE_TEXT_H

#include "base/fault.h"

#include <stdarg.h>
#include <stddef.h>

struct arena;
struct text;

/* Where a long text is written piece by piece while it is made. */
struct text_drain {
	void (*take)(const struct text *piece, void *context);
	void *context;
};

/* Bytes that grow. Starts as `{ 0 }`; free with text_clear. */
struct text {
	char *bytes; /* owned; zero-terminated once anything was added */
	size_t length;
	size_t capacity;
	size_t columns; /* width of the page it is laid out for; 0: not told */
	const struct text_drain *drain; /* borrowed; NULL: all of it is held here */
};

/* Frees what the text holds and leaves it empty. Accepts a zeroed text. */
void text_clear(struct text *text);

/* Passes the text to the drain when it is long, and empties it. Only for callers that
 * neither change nor read what they have written. */
void text_hand_on(struct text *text);

/* Empties the text but keeps its memory for reuse. */
void text_reset(struct text *text);

/* Takes away what stands behind the first `length` bytes, if anything does. */
void text_cut(struct text *text, size_t length);

/* Adds a string, `length` bytes, one byte, or formatted words. */
void text_add(struct text *text, const char *string);
void text_add_bytes(struct text *text, const char *bytes, size_t length);
void text_add_byte(struct text *text, char byte);

/* Makes room for so many bytes more, and returns where they go; `text_grow` adds them,
 * and the caller fills them at once. */
char *text_room(struct text *text, size_t more);
char *text_grow(struct text *text, size_t length);

void text_add_format(struct text *text, const char *format, ...) FORMAT_LIKE(2, 3);

/* Adds a word so that a shell takes it as one: in single quotes where it has anything but
 * letters, digits, ".", "_" and "-". */
void text_add_shell_word(struct text *text, const char *word);
void text_add_arguments(struct text *text, const char *format, va_list arguments)
    FORMAT_LIKE(2, 0);

/* What printf would write, as a string in the arena. */
const char *arena_format(struct arena *arena, const char *format, ...) FORMAT_LIKE(2, 3);

/* The text as a string, borrowed until the next addition; "" when empty. */
const char *text_string(const struct text *text);

/* True when the bytes are well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates,
 * nothing above U+10FFFF). */
bool utf8_valid(const char *bytes, size_t length);

/* How many bytes a character of well-formed UTF-8 has that begins with this byte; of a byte
 * with which none begins, any number from 2 to 4. */
static inline size_t
utf8_size(char first)
{
	unsigned char lead = (unsigned char)first;
	return lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
}

/* Puts a question mark for each byte that is no ASCII letter, where what stands from
 * `from` on is no UTF-8. */
void text_mend_utf8(struct text *text, size_t from);

/* How many columns a terminal needs for well-formed UTF-8: combining marks none, wide
 * East Asian letters and emoji two, as the Unicode width classes have it, in a fixed
 * table so that the answer depends on no locale. */
size_t utf8_columns(const char *string);

/* How many characters (code points) well-formed UTF-8 has. */
size_t utf8_count(const char *string);

/* The first character of well-formed UTF-8 that can't be seen or that turns the direction
 * of writing (U+0080 to 9F, AD, 61C, 200B, 200E, 200F, 2028 to 202E, 2060 to 206F, FEFF;
 * the joiners 200C and 200D are left out, for many scripts need them); NULL when there is
 * none. */
const char *utf8_hidden(const char *string);

/* The text itself; "" for NULL. */
static inline const char *
text_or_empty(const char *text)
{
	return text == NULL ? "" : text;
}

/* The small letter for an ASCII capital; every other byte as it is, in any locale. */
static inline int
text_lower(char letter)
{
	return letter >= 'A' && letter <= 'Z' ? letter - 'A' + 'a' : letter;
}

/* Adds words, with a capital where they begin with a small ASCII letter. */
void text_add_capital(struct text *text, const char *words);

/* True when two strings are equal except for the case of ASCII letters. */
bool text_same_letters(const char *a, const char *b);

/* True when one of the words is the same, byte by byte. */
bool words_have(const char *const *words, size_t count, const char *word);

/* Compares two strings byte by byte, given where the strings stand: for qsort and bsearch
 * over arrays of `const char *`. */
int text_order(const void *a, const void *b);

/* Compares as a person sorts tags: runs of digits by value ("LR-2" before "LR-10"), the
 * rest byte by byte. Returns <0, 0 or >0. */
int text_compare_natural(const char *a, const char *b);

#define SCOPED_TEXT __attribute__((cleanup(text_clear))) struct text

#endif
