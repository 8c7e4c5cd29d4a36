/* Numbers that share a variant, found by digests of all variants: a variant whose digest
 * no other has is no one else's. */
#include "base/numbers.h"
#include "life/serials_inside.h"

#include <stdlib.h>
#include <string.h>

static const uint64_t BASE = UINT64_C(0x9E3779B97F4A7C15);

/* Spreads a sum over all bits; Steele, Lea and Flood 2014, "Fast splittable pseudorandom
 * number generators", figure 16, its constants from memory. */
static inline uint64_t
spread(uint64_t sum)
{
	sum = (sum ^ sum >> 30) * UINT64_C(0xBF58476D1CE4E5B9);
	sum = (sum ^ sum >> 27) * UINT64_C(0x94D049BB133111EB);
	return sum ^ sum >> 31;
}

static uint64_t
sum_of(const char *text)
{
	uint64_t sum = 0;
	for (const char *at = text; *at != '\0'; at++) {
		sum = sum * BASE + (unsigned char)*at;
	}
	return sum;
}

/* The sum of a text without one character is that of what stands before it, moved up by
 * as many places as stand behind it, and that of what stands behind it. Of equal
 * neighbours one is left out: without the other the text is the same. */
void
digest_variants(
    const char *of_kind, const char *serial, size_t least, struct digests *out)
{
	char plain[SERIAL_PLAIN_SIZE];
	size_t length = serial_plain(serial, plain);
	out->count = 0;
	if (length == 0) {
		return;
	}
	uint64_t kind = spread(sum_of(of_kind));
	uint64_t before[SERIAL_PLAIN_SIZE + 1];
	before[0] = 0;
	for (size_t i = 0; i < length; i++) {
		before[i + 1] = before[i] * BASE + (unsigned char)plain[i];
	}
	out->of[0] = spread(before[length] + kind);
	out->left_out[0] = (unsigned char)length;
	out->count = 1;
	uint64_t behind = 0;
	uint64_t place = 1; /* of the character at hand */
	for (size_t i = length; i-- > 0 && length >= least;) {
		if (plain[i + 1] != plain[i]) {
			out->of[out->count] = spread(before[i] * place + behind + kind);
			out->left_out[out->count++] = (unsigned char)i;
		}
		behind += place * (unsigned char)plain[i];
		place *= BASE;
	}
}

/* The bits that are noted: some eighty a variant, as long as that takes no more than 4 MiB. So
 * many are needed for a list of different numbers to be told as such at once. */
static unsigned
bits_for(size_t numbers)
{
	enum { LEAST = 12, MOST = 25, BITS_A_NUMBER = 1000 };

	unsigned bits = LEAST;
	while (bits < MOST && (size_t)1 << bits < numbers * BITS_A_NUMBER) {
		bits++;
	}
	return bits;
}

void
sharing_begin(struct sharing *sharing, size_t numbers)
{
	unsigned bits = bits_for(numbers);
	*sharing = (struct sharing){
	    .once = memory_zeroed((size_t)1 << bits >> 3, 1),
	    .again = memory_zeroed((size_t)1 << bits >> 3, 1),
	    .mask = ((uint64_t)1 << bits) - 1,
	};
}

void
sharing_clear(struct sharing *sharing)
{
	free(sharing->once);
	free(sharing->again);
	free(sharing->items);
	*sharing = (struct sharing){0};
}

/* A digest is noted by so many bits, all of which are seldom others'. */
enum { BITS_A_DIGEST = 4 };

/* Notes a digest; true where all its bits were there. */
static bool
note(const struct sharing *sharing, unsigned char *bits, uint64_t digest)
{
	uint64_t step = digest >> 32 | 1;
	bool there = true;
	for (int i = 0; i < BITS_A_DIGEST; i++, digest += step) {
		size_t at = (size_t)(digest & sharing->mask);
		unsigned char bit = (unsigned char)(1U << at % 8);
		there = there && (bits[at / 8] & bit) != 0;
		bits[at / 8] |= bit;
	}
	return there;
}

/* True where it may have been noted. */
static bool
is_noted(const struct sharing *sharing, const unsigned char *bits, uint64_t digest)
{
	uint64_t step = digest >> 32 | 1;
	bool there = true;
	for (int i = 0; there && i < BITS_A_DIGEST; i++, digest += step) {
		size_t at = (size_t)(digest & sharing->mask);
		there = (bits[at / 8] & 1U << at % 8) != 0;
	}
	return there;
}

void
sharing_mark(struct sharing *sharing, const char *kind, const char *serial)
{
	struct digests digests;
	digest_variants(kind, serial, SERIAL_LEAST, &digests);
	for (size_t i = 0; i < digests.count; i++) {
		if (note(sharing, sharing->once, digests.of[i])) {
			(void)note(sharing, sharing->again, digests.of[i]);
			sharing->met = true;
		}
	}
}

void
sharing_gather(
    struct sharing *sharing, const char *kind, const char *serial, size_t owner)
{
	struct digests digests;
	digest_variants(kind, serial, SERIAL_LEAST, &digests);
	for (size_t i = 0; i < digests.count; i++) {
		if (is_noted(sharing, sharing->again, digests.of[i])) {
			ARRAY_ADD(sharing,
			    (struct suspect){digests.of[i],
				owner * SERIAL_PLAIN_SIZE + digests.left_out[i]});
		}
	}
}

static int
by_digest(const void *a, const void *b)
{
	const struct suspect *x = a;
	const struct suspect *y = b;
	return ORDER(x->digest, y->digest);
}

static int
by_owner(const void *a, const void *b)
{
	const struct suspect *x = a;
	const struct suspect *y = b;
	return ORDER(x->where, y->where);
}

void
sharing_settle(struct sharing *sharing)
{
	struct suspect *items = sharing->items;
	size_t left = 0;
	uint64_t before = 0;
	ARRAY_SORT(items, sharing->count, by_digest);
	for (size_t i = 0; i < sharing->count; i++) {
		uint64_t digest = items[i].digest;
		bool shared = (i > 0 && before == digest) ||
			      (i + 1 < sharing->count && items[i + 1].digest == digest);
		before = digest;
		if (shared) {
			items[left++] = items[i];
		}
	}
	sharing->count = left;
	ARRAY_SORT(items, left, by_owner);
	free(sharing->once);
	free(sharing->again);
	sharing->once = NULL;
	sharing->again = NULL;
}

void
sharing_variant(
    struct suspect suspect, const char *serial, char variant[SERIAL_PLAIN_SIZE])
{
	size_t left_out = suspect.where % SERIAL_PLAIN_SIZE;
	size_t length = serial_plain(serial, variant);
	if (left_out < length) {
		memmove(variant + left_out, variant + left_out + 1, length - left_out);
	}
}
