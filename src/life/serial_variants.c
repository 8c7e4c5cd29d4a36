/* Numbers that share a variant, found by digests of all variants: a variant whose digest
 * no other has is no one else's. */
#include "base/numbers.h"
#include "life/serials_inside.h"

#include <stdlib.h>
#include <string.h>

struct serial_owner
serial_owner_of(const struct serial_numbers *numbers, size_t owner)
{
	size_t items = numbers->inventory->item_count;
	if (owner < items) {
		const struct item *item = &numbers->inventory->items[owner];
		return (struct serial_owner){item->kind, item->serial};
	}
	const struct serial_entry *entry = &numbers->entries[owner - items];
	return (struct serial_owner){entry->kind, entry->serial};
}

/* The digests of a number's variants: those of the number itself, and without one
 * character each. */
struct digests {
	uint64_t of[SERIAL_PLAIN_SIZE];
	unsigned char left_out[SERIAL_PLAIN_SIZE]; /* which place; the length: none */
	size_t count;
};

/* A variant that may be shared. */
struct suspect {
	uint64_t digest;
	size_t where; /* its owner times SERIAL_PLAIN_SIZE, and the place left out */
};

/* The work on all of them. */
struct sharing {
	const struct serial_numbers *numbers;
	unsigned char *once, *again; /* owned; a bit for each beginning of a digest */
	unsigned bits;               /* of such a beginning */

	struct suspects {
		struct suspect *items; /* owned */
		size_t count;
		size_t capacity;
	} suspects;
};

static const uint64_t BASE = UINT64_C(0x9E3779B97F4A7C15);

/* Spreads a sum over all bits; Steele, Lea and Flood 2014, "Fast splittable pseudorandom
 * number generators", figure 16, its constants from memory. */
static uint64_t
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
static void
digest_variants(struct serial_owner owner, struct digests *out)
{
	char plain[SERIAL_PLAIN_SIZE];
	size_t length = serial_plain(owner.serial, plain);
	out->count = 0;
	if (length == 0) {
		return;
	}
	uint64_t kind = spread(sum_of(owner.kind));
	uint64_t before[SERIAL_PLAIN_SIZE + 1] = {0};
	for (size_t i = 0; i < length; i++) {
		before[i + 1] = before[i] * BASE + (unsigned char)plain[i];
	}
	out->of[0] = spread(before[length] + kind);
	out->left_out[0] = (unsigned char)length;
	out->count = 1;
	uint64_t behind = 0;
	uint64_t place = 1; /* of the character at hand */
	for (size_t i = length; i-- > 0 && length >= SERIAL_LEAST;) {
		if (plain[i + 1] != plain[i]) {
			out->of[out->count] = spread(before[i] * place + behind + kind);
			out->left_out[out->count++] = (unsigned char)i;
		}
		behind += place * (unsigned char)plain[i];
		place *= BASE;
	}
}

/* Notes that a digest was met; its second time with one of the same beginning, in
 * `again`. */
static void
mark(struct sharing *sharing, uint64_t digest)
{
	uint64_t at = digest >> (64 - sharing->bits);
	unsigned char bit = (unsigned char)(1U << at % 8);
	sharing->again[at / 8] |= sharing->once[at / 8] & bit;
	sharing->once[at / 8] |= bit;
}

static bool
is_marked_again(const struct sharing *sharing, uint64_t digest)
{
	uint64_t at = digest >> (64 - sharing->bits);
	return (sharing->again[at / 8] & 1U << at % 8) != 0;
}

static void
gather_suspects(struct sharing *sharing, size_t owners)
{
	struct suspects *suspects = &sharing->suspects;
	struct digests digests;
	for (size_t i = 0; i < owners; i++) {
		digest_variants(serial_owner_of(sharing->numbers, i), &digests);
		for (size_t j = 0; j < digests.count; j++) {
			mark(sharing, digests.of[j]);
		}
	}
	for (size_t i = 0; i < owners; i++) {
		digest_variants(serial_owner_of(sharing->numbers, i), &digests);
		for (size_t j = 0; j < digests.count; j++) {
			if (is_marked_again(sharing, digests.of[j])) {
				ARRAY_ROOM(suspects);
				suspects->items[suspects->count++] =
				    (struct suspect){digests.of[j],
					i * SERIAL_PLAIN_SIZE + digests.left_out[j]};
			}
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

static void
add_variant(
    const struct serial_numbers *numbers, struct suspect suspect, struct variants *out)
{
	size_t index = suspect.where / SERIAL_PLAIN_SIZE;
	size_t left_out = suspect.where % SERIAL_PLAIN_SIZE;
	struct serial_owner owner = serial_owner_of(numbers, index);
	char plain[SERIAL_PLAIN_SIZE];
	size_t length = serial_plain(owner.serial, plain);
	ARRAY_ROOM(out);
	struct variant *variant = &out->items[out->count++];
	*variant = (struct variant){.kind = owner.kind, .owner = index};
	memcpy(variant->text, plain, left_out);
	if (left_out < length) {
		memcpy(variant->text + left_out, plain + left_out + 1, length - left_out);
	}
}

/* Adds those whose whole digest another has too. */
static void
add_shared(const struct sharing *sharing, struct variants *out)
{
	const struct suspects *suspects = &sharing->suspects;
	const struct suspect *items = suspects->items;
	for (size_t i = 0; i < suspects->count; i++) {
		bool shared =
		    (i > 0 && items[i - 1].digest == items[i].digest) ||
		    (i + 1 < suspects->count && items[i + 1].digest == items[i].digest);
		if (shared) {
			add_variant(sharing->numbers, items[i], out);
		}
	}
}

/* The bits of the beginnings that are noted: about eight beginnings a variant, as long as
 * that takes no more than 16 MiB. */
static unsigned
bits_for(size_t owners)
{
	enum { LEAST = 12, MOST = 26, BEGINNINGS_A_NUMBER = 100 };

	unsigned bits = LEAST;
	while (bits < MOST && (size_t)1 << bits < owners * BEGINNINGS_A_NUMBER) {
		bits++;
	}
	return bits;
}

void
variants_shared(const struct serial_numbers *numbers, struct variants *out)
{
	size_t owners = numbers->inventory->item_count + numbers->count;
	unsigned bits = bits_for(owners);
	struct sharing sharing = {.numbers = numbers,
	    .once = memory_zeroed((size_t)1 << bits >> 3, 1),
	    .again = memory_zeroed((size_t)1 << bits >> 3, 1),
	    .bits = bits};
	gather_suspects(&sharing, owners);
	free(sharing.once);
	free(sharing.again);
	ARRAY_SORT(sharing.suspects.items, sharing.suspects.count, by_digest);
	add_shared(&sharing, out);
	free(sharing.suspects.items);
}
