#include "base/text.h"
#include "exchange/csv_read.h"
#include "exchange/inventory_csv.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* The letters of fresh tags, by the start of the kind's id; a longer start stands before a
 * shorter one. A kind that is not here gets the first letters of its words. */
static const struct {
	const char *start;
	const char *letters;
} KIND_LETTERS[] = {
    {"liferaft-", "LR"},
    {"lifejacket-light", "LL"},
    {"lifejacket-", "LJ"},
    {"lifebuoy-light", "BL"},
    {"lifebuoy", "LB"},
    {"raft-contents", "RC"},
    {"hydrostatic-release", "HR"},
    {"gas-cylinder", "CY"},
    {"firing-head", "FH"},
    {"flare-", "FL"},
    {"smoke-orange-", "SM"},
    {"smoke-alarm", "SA"},
    {"electric-distress-light", "DL"},
    {"distress-flag", "DF"},
    {"extinguisher-", "EX"},
    {"epirb", "EP"},
    {"plb", "PL"},
    {"ais-beacon", "AB"},
    {"sart", "ST"},
    {"beacon-battery", "BB"},
    {"danbuoy-", "DB"},
    {"recovery-module", "RM"},
    {"tether", "TE"},
    {"jackstay", "JS"},
    {"first-aid-kit", "FA"},
    {"medicine", "MD"},
    {"gas-hose", "GH"},
    {"gas-regulator", "GR"},
    {"gas-detector", "GD"},
    {"co-alarm", "CO"},
};

/* The capital for an ASCII letter; every other byte as it is. */
static char
capital(char letter)
{
	if (letter >= 'a' && letter <= 'z') {
		return "ABCDEFGHIJKLMNOPQRSTUVWXYZ"[letter - 'a'];
	}
	return letter;
}

static void
letters_of_kind(const char *kind, char letters[LETTERS_SIZE])
{
	for (size_t i = 0; i < sizeof KIND_LETTERS / sizeof KIND_LETTERS[0]; i++) {
		const char *start = KIND_LETTERS[i].start;
		if (strncmp(kind, start, strlen(start)) == 0) {
			memcpy(letters, KIND_LETTERS[i].letters, 3);
			return;
		}
	}
	size_t used = 0;
	bool word_starts = true;
	for (const char *at = kind; *at != '\0' && used < 3; at++) {
		if (word_starts && isalnum((unsigned char)*at)) {
			letters[used++] = capital(*at);
		}
		word_starts = !isalnum((unsigned char)*at);
	}
	if (used == 0) {
		letters[used++] = 'X';
	}
	letters[used] = '\0';
}

void
numbers_clear(struct numbers *numbers)
{
	free(numbers->items);
	*numbers = (struct numbers){0};
}

static struct series *
series_of(struct numbers *numbers, const char *letters)
{
	for (size_t i = 0; i < numbers->count; i++) {
		if (strcmp(numbers->items[i].letters, letters) == 0) {
			return &numbers->items[i];
		}
	}
	ARRAY_ROOM(numbers);
	struct series *series = &numbers->items[numbers->count++];
	*series = (struct series){0};
	memcpy(series->letters, letters, strlen(letters) + 1);
	return series;
}

/* Takes a tag of the shape "LR-12" apart; -1 for any other. */
static long
take_apart(const char *tag, char letters[LETTERS_SIZE])
{
	size_t length = strcspn(tag, "-");
	size_t digits = tag[length] == '-' ? strspn(tag + length + 1, "0123456789") : 0;
	if (length >= LETTERS_SIZE || digits == 0 || digits > 9 ||
	    tag[length + 1 + digits] != '\0') {
		return -1;
	}
	memcpy(letters, tag, length);
	letters[length] = '\0';
	return strtol(tag + length + 1, NULL, 10);
}

void
last_tags_clear(struct last_tags *last)
{
	for (size_t i = 0; i < last->count; i++) {
		text_clear(&last->items[i].tag);
	}
	free(last->items);
	*last = (struct last_tags){0};
}

static struct last_tag *
last_of(const struct last_tags *last, const char *letters)
{
	for (size_t i = 0; i < last->count; i++) {
		if (strcmp(last->items[i].letters, letters) == 0) {
			return &last->items[i];
		}
	}
	return NULL;
}

void
last_tags_want(struct last_tags *last, const char *kind)
{
	struct last_tag one = {.number = -1};
	letters_of_kind(kind, one.letters);
	if (last_of(last, one.letters) == NULL) {
		ARRAY_ADD(last, one);
	}
}

void
last_tags_see(struct last_tags *last, const char *tag)
{
	char letters[LETTERS_SIZE];
	long number = last->count == 0 ? -1 : take_apart(tag, letters);
	struct last_tag *found = number < 0 ? NULL : last_of(last, letters);
	if (found != NULL && number > found->number) {
		found->number = number;
		text_reset(&found->tag);
		text_add(&found->tag, tag);
	}
}

bool
numbers_count(struct numbers *numbers, const char *tag)
{
	char letters[LETTERS_SIZE];
	long number = take_apart(tag, letters);
	if (number < 0) {
		return true;
	}
	struct series *series = series_of(numbers, letters);
	if (series == NULL) {
		return false;
	}
	series->last = number > series->last ? number : series->last;
	return true;
}

bool
numbers_count_book(struct numbers *numbers, const struct inventory *inventory)
{
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (!numbers_count(numbers, inventory->items[i].tag)) {
			return false;
		}
	}
	return true;
}

bool
numbers_next(
    struct numbers *numbers, const char *kind, struct arena *arena, const char **tag_out)
{
	char letters[LETTERS_SIZE];
	letters_of_kind(kind, letters);
	struct series *series = series_of(numbers, letters);
	if (series == NULL) {
		return false;
	}
	const char *tag = arena_format(arena, "%s-%ld", letters, series->last + 1);
	series->last++;
	*tag_out = tag;
	return true;
}

bool
tags_fresh(const char *kind, const struct inventory *inventory, size_t count,
    struct arena *arena, const char ***tags_out)
{
	SCOPED_NUMBERS numbers = {0};
	const char **tags = arena_alloc(arena, (count + 1) * sizeof *tags);
	if (!numbers_count_book(&numbers, inventory)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (!numbers_next(&numbers, kind, arena, &tags[i])) {
			return false;
		}
	}
	*tags_out = tags;
	return true;
}
