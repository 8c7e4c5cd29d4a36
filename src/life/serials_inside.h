/* What the files of the serial numbers share. Not for others. */
#ifndef BECKET_LIFE_SERIALS_INSIDE_H
#define BECKET_LIFE_SERIALS_INSIDE_H

#include "base/memory.h"
#include "life/serials.h"

#include <stdint.h>

/* Room for a serial number as it is compared; of a longer one its beginning is. */
enum { SERIAL_PLAIN_SIZE = 64 };

/* Writes a serial number as it is compared: small ASCII letters, without what people
 * leave out or change as they please (blanks, hyphens, points and slashes). Returns its
 * length. */
size_t serial_plain(const char *serial, char plain[SERIAL_PLAIN_SIZE]);

/* A number under which a thing was condemned. */
struct condemned {
	const char *plain;
	size_t item; /* index in the inventory */
	day_t on;    /* DAY_NONE when not known */
};

/* Starts as `{ 0 }`. */
struct condemned_list {
	struct condemned *items; /* owned; by their numbers, then items */
	size_t count;
	size_t capacity;
};

/* Gathers all of an inventory; the numbers live in the arena. */
void condemned_gather(
    const struct inventory *inventory, struct arena *arena, struct condemned_list *out);

/* The first thing that was condemned under this number; NULL for none. */
const struct condemned *condemned_find(
    const struct condemned_list *list, const char *serial);

/* A number as one of its variants: whole, or with one character left out. Numbers that
 * are near have a variant in common, and so have numbers that are the same. */
struct suspect {
	uint64_t digest;
	/* its owner times SERIAL_PLAIN_SIZE, and the place that is left out, the length
	 * for none */
	size_t where;
};

/* The digests of a number's variants: those of the number itself, and without one
 * character each. */
struct digests {
	uint64_t of[SERIAL_PLAIN_SIZE];
	unsigned char left_out[SERIAL_PLAIN_SIZE]; /* which place; the length: none */
	size_t count;
};

/* Fills in the digests of a number's variants, other ones for each word `of`; a number of
 * fewer than `least` characters has only itself, a blank one none. */
void digest_variants(
    const char *of, const char *serial, size_t least, struct digests *out);

/* Finds variants that two numbers of one kind have in common, by digests: all numbers are
 * marked, then, where a variant may have been met twice, all gathered. Most numbers share none:
 * of each variant no more than some bits are kept until it is met again. */
struct sharing {
	unsigned char *once, *again; /* owned; some bits for each digest */
	uint64_t mask;               /* of the place of a bit */
	bool met;                    /* a variant may be two numbers' */
	struct suspect *items;       /* owned; those that may be shared */
	size_t count;
	size_t capacity;
};

/* Begins with about so many numbers; free with sharing_clear. */
void sharing_begin(struct sharing *sharing, size_t numbers);
void sharing_clear(struct sharing *sharing);

void sharing_mark(struct sharing *sharing, const char *kind, const char *serial);
void sharing_gather(
    struct sharing *sharing, const char *kind, const char *serial, size_t owner);

/* Leaves those whose whole digest another has too, by their owners: few are in truth of
 * different variants. */
void sharing_settle(struct sharing *sharing);

/* Writes the variant of its owner's number. */
void sharing_variant(
    struct suspect suspect, const char *serial, char variant[SERIAL_PLAIN_SIZE]);

#endif
