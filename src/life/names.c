#include "life/names.h"

#include "base/alike.h"
#include "base/text.h"

#include <ctype.h>
#include <string.h>

/* A letter, of any script: what no digit, blank or mark is. */
static bool
is_letter(char byte)
{
	unsigned char unsigned_byte = (unsigned char)byte;
	return unsigned_byte >= 0x80 || isalpha(unsigned_byte) != 0;
}

enum { LEAST = 3 };

/* True when nothing would tell the word but the letter at `at`, as in B-1 beside A-1: that was
 * chosen on purpose. */
static bool
is_bare(const char *word, size_t at)
{
	size_t letters = 0;
	for (size_t i = 0; word[i] != '\0'; i++) {
		letters += i != at && is_letter(word[i]) ? 1 : 0;
	}
	return letters == 0 || strlen(word) < LEAST;
}

bool
name_one_letter_apart(const char *a, const char *b)
{
	size_t same = 0;
	size_t a_length = strlen(a);
	size_t b_length = strlen(b);
	if (a_length > b_length) {
		return name_one_letter_apart(b, a);
	}
	while (same < a_length && text_lower(a[same]) == text_lower(b[same])) {
		same++;
	}
	if (b_length - a_length > 1 || !is_letter(b[same]) || is_bare(b, same)) {
		return false;
	}
	bool longer = b_length > a_length;
	return (longer || is_letter(a[same])) &&
	       text_same_letters(a + same + (longer ? 0 : 1), b + same + 1);
}

/* The nearer of a known name and the one found before: the same letters go before one apart. */
static const char *
nearer(const char *near, const char *known, const char *name)
{
	bool same = names_alike(known, name) != ALIKE_NOT;
	bool apart = near == NULL && name_one_letter_apart(known, name);
	return same || apart ? known : near;
}

bool
vessel_names_near(const char *known, const char *name)
{
	return strcmp(known, name) == 0 || nearer(NULL, known, name) != NULL;
}

const char *
vessel_name_near(const struct inventory *inventory, const char *name)
{
	const char *near = NULL;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const char *known = inventory->vessels[i].name;
		if (strcmp(known, name) == 0) {
			return NULL;
		}
		near = nearer(near, known, name);
	}
	return near;
}

const char *
station_name_near(const struct station *stations, size_t count, const char *name)
{
	const char *near = NULL;
	for (size_t i = 0; i < count; i++) {
		if (strcmp(stations[i].name, name) == 0) {
			return NULL;
		}
		near = nearer(near, stations[i].name, name);
	}
	return near;
}

const char *
tag_near(const struct inventory *inventory, const char *tag, const char *kind)
{
	const char *near = NULL;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if (strcmp(item->tag, tag) == 0) {
			return NULL;
		}
		bool same_kind = strcmp(item->kind, kind) == 0;
		if (same_kind || names_alike(item->tag, tag) != ALIKE_NOT) {
			near = nearer(near, item->tag, tag);
		}
	}
	return near;
}
