/* What the files of the serial numbers share. Not for others. */
#ifndef BECKET_LIFE_SERIALS_INSIDE_H
#define BECKET_LIFE_SERIALS_INSIDE_H

#include "life/serials.h"

/* Room for a serial number as it is compared; of a longer one its beginning is. */
enum { SERIAL_PLAIN_SIZE = 64 };

/* Writes a serial number as it is compared: small ASCII letters, without what people
 * leave out or change as they please (blanks, hyphens, points and slashes). Returns its
 * length. */
size_t serial_plain(const char *serial, char plain[SERIAL_PLAIN_SIZE]);

/* A number, or one with a character left out, to be sorted: numbers that are near share
 * one, and so do numbers that are the same. */
struct variant {
	const char *kind;
	char text[SERIAL_PLAIN_SIZE];
	size_t owner; /* index in the inventory, then in the entries */
};

/* Starts as `{ 0 }`. */
struct variants {
	struct variant *items; /* owned */
	size_t count;
	size_t capacity;
};

/* Numbers among which some are looked for: the inventory's, and then those of so many
 * entries. Borrowed. */
struct serial_numbers {
	const struct inventory *inventory;
	const struct serial_entry *entries;
	size_t count; /* of the entries */
};

/* The kind and the number of an owner; borrowed from what it is of. */
struct serial_owner {
	const char *kind;
	const char *serial;
};

struct serial_owner serial_owner_of(const struct serial_numbers *numbers, size_t owner);

/* Adds the variants of numbers that another owner of the same kind has too, in no order,
 * and perhaps some few that none has. Most numbers share none: of each variant no more
 * than two bits are kept until it is met again. */
void variants_shared(const struct serial_numbers *numbers, struct variants *out);

#endif
