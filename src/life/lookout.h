/* Tags and serial numbers that are looked out for among all others: what may be mistaken
 * for one of them. For a list of gear, beside more gear than is held. Pure. */
#ifndef BECKET_LIFE_LOOKOUT_H
#define BECKET_LIFE_LOOKOUT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Starts as `{ 0 }`; free with lookout_clear. */
struct lookout {
	struct looked_for {
		bool tag; /* else a serial number */
		bool near;
		const char *word; /* borrowed */
		const char *kind; /* borrowed */
	} * items;                /* owned */

	size_t count;
	size_t capacity;

	/* the digests of their variants (serials_inside.h) */
	struct looked_variants {
		struct looked_variant {
			uint64_t digest;
			size_t of; /* which of the items */
		} * items;         /* owned; by digest, once lookout_begin was called */

		size_t count;
		size_t capacity;
	} variants;

	unsigned char *bits; /* owned: which digests may be there, by their last bits */
	unsigned bit_count;
};

void lookout_clear(struct lookout *lookout);

/* Adds a tag: met by the same letters in any case and, by gear of the same kind ("" for
 * none), by a tag that is one letter apart (life/names.h). Words are borrowed. */
void lookout_tag(struct lookout *lookout, const char *kind, const char *tag);

/* Adds a serial number: met by the same one (serial_same) and, where `near`, by one near
 * it of gear of the same kind. */
void lookout_serial(
    struct lookout *lookout, const char *kind, const char *serial, bool near);

/* Called once all are added. */
void lookout_begin(struct lookout *lookout);

/* True where a piece's tag, or its serial number, meets one of them. */
bool lookout_meets_tag(const struct lookout *lookout, const char *kind, const char *tag);
bool lookout_meets_serial(
    const struct lookout *lookout, const char *kind, const char *serial);

#define SCOPED_LOOKOUT __attribute__((cleanup(lookout_clear))) struct lookout

#endif
