/* Words are compared only where they have the digest of a variant in common: two that are
 * one letter or character apart have, and two that are the same. */
#include "life/lookout.h"

#include "base/numbers.h"
#include "life/names.h"
#include "life/serials_inside.h"

#include <stdlib.h>

/* Digests of a tag are other ones than those of a serial number. A tag of few characters
 * may be one letter from another, too. */
static const char TAG[] = "tag";

enum { TAG_LEAST = 1 };

void
lookout_clear(struct lookout *lookout)
{
	free(lookout->items);
	free(lookout->variants.items);
	free(lookout->bits);
	*lookout = (struct lookout){0};
}

static void
variants_of(bool tag, const char *word, struct digests *out)
{
	digest_variants(tag ? TAG : "", word, tag ? TAG_LEAST : SERIAL_LEAST, out);
	if (tag && out->count == 0) {
		out->of[out->count++] =
		    0; /* of hyphens alone: it may still be the same */
	}
}

static void
add(struct lookout *lookout, struct looked_for one)
{
	const struct looked_for *last =
	    lookout->count == 0 ? NULL : &lookout->items[lookout->count - 1];
	if (last != NULL && last->tag == one.tag && last->near == one.near &&
	    strcmp(last->word, one.word) == 0 && strcmp(last->kind, one.kind) == 0) {
		return; /* a lot's number stands in many rows, one behind the other */
	}
	struct digests digests;
	variants_of(one.tag, one.word, &digests);
	for (size_t i = 0; i < digests.count; i++) {
		ARRAY_ADD(&lookout->variants,
		    (struct looked_variant){digests.of[i], lookout->count});
	}
	ARRAY_ADD(lookout, one);
}

void
lookout_tag(struct lookout *lookout, const char *kind, const char *tag)
{
	add(lookout, (struct looked_for){true, true, tag, kind});
}

void
lookout_serial(struct lookout *lookout, const char *kind, const char *serial, bool near)
{
	add(lookout, (struct looked_for){false, near, serial, kind});
}

static int
by_digest(const void *a, const void *b)
{
	const struct looked_variant *x = a;
	const struct looked_variant *y = b;
	return ORDER_THEN(ORDER(x->digest, y->digest), x->of, y->of);
}

static size_t
bit_of(const struct lookout *lookout, uint64_t digest)
{
	return (size_t)(digest & (((uint64_t)1 << lookout->bit_count) - 1));
}

void
lookout_begin(struct lookout *lookout)
{
	enum { LEAST = 12, BITS_A_VARIANT = 16 };

	const struct looked_variants *variants = &lookout->variants;
	lookout->bit_count = LEAST;
	while ((size_t)1 << lookout->bit_count < variants->count * BITS_A_VARIANT) {
		lookout->bit_count++;
	}
	lookout->bits = memory_zeroed((size_t)1 << lookout->bit_count >> 3, 1);
	ARRAY_SORT(variants->items, variants->count, by_digest);
	for (size_t i = 0; i < variants->count; i++) {
		size_t bit = bit_of(lookout, variants->items[i].digest);
		lookout->bits[bit / 8] |= (unsigned char)(1U << bit % 8);
	}
}

static bool
is_met(const struct looked_for *one, bool tag, const char *kind, const char *word)
{
	bool of_kind = one->near && strcmp(one->kind, kind) == 0;
	if (one->tag != tag) {
		return false;
	}
	return tag ? text_same_letters(one->word, word) ||
			 (of_kind && name_one_letter_apart(one->word, word))
		   : serial_same(one->word, word) ||
			 (of_kind && serial_near(one->word, word));
}

/* The first of the variants with a digest; the count where there is none. */
static size_t
first_of(const struct looked_variants *variants, uint64_t digest)
{
	size_t low = 0;
	size_t high = variants->count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (variants->items[middle].digest < digest) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	return low;
}

static bool
meets(const struct lookout *lookout, bool tag, const char *kind, const char *word)
{
	const struct looked_variants *variants = &lookout->variants;
	struct digests digests;
	variants_of(tag, word, &digests);
	for (size_t i = 0; i < digests.count; i++) {
		uint64_t digest = digests.of[i];
		size_t bit = bit_of(lookout, digest);
		if ((lookout->bits[bit / 8] & 1U << bit % 8) == 0) {
			continue;
		}
		for (size_t j = first_of(variants, digest);
		     j < variants->count && variants->items[j].digest == digest; j++) {
			if (is_met(&lookout->items[variants->items[j].of], tag, kind,
				word)) {
				return true;
			}
		}
	}
	return false;
}

bool
lookout_meets_tag(const struct lookout *lookout, const char *kind, const char *tag)
{
	return meets(lookout, true, kind, tag);
}

bool
lookout_meets_serial(const struct lookout *lookout, const char *kind, const char *serial)
{
	return meets(lookout, false, kind, serial);
}
