/* Which of the differences account for the difference of the sum. */
#include "book/check_inside.h"

#include <stdlib.h>

static int
whole_last(const void *a, const void *b)
{
	const struct differing_value *left = a;
	const struct differing_value *right = b;
	return (int)left->whole - (int)right->whole;
}

/* Keeps those whose bit is set. */
static void
keep(struct differing *all, uint64_t chosen)
{
	size_t count = 0;
	for (size_t i = 0; i < DIFFERING_FEW; i++) {
		if ((chosen >> i & 1) != 0) {
			all->items[count++] = all->items[i];
		}
	}
	all->count = count;
}

static bool
choose_of_few(struct differing *all, size_t count, uint64_t off)
{
	for (uint64_t chosen = 1; chosen < UINT64_C(1) << count; chosen++) {
		uint64_t sum = 0;
		for (size_t i = 0; i < count; i++) {
			sum += (chosen >> i & 1) != 0 ? all->items[i].sum : 0;
		}
		if (sums_equal(sum, off)) {
			keep(all, chosen);
			return true;
		}
	}
	return false;
}

static bool
choose_one_or_all(struct differing *all, uint64_t off)
{
	uint64_t sum = 0;
	for (size_t i = 0; i < all->count; i++) {
		if (sums_equal(all->items[i].sum, off)) {
			all->items[0] = all->items[i];
			all->count = 1;
			return true;
		}
		sum += all->items[i].sum;
	}
	return sums_equal(sum, off);
}

static bool
choose(struct differing *all, uint64_t off)
{
	if (all->count == 0) {
		return false;
	}
	qsort(all->items, all->count, sizeof *all->items, whole_last);
	size_t few = all->count < DIFFERING_FEW ? all->count : DIFFERING_FEW;
	return choose_of_few(all, few, off) || choose_one_or_all(all, off);
}

bool
differing_find(struct book *book, uint64_t off, struct arena *arena,
    struct differing *out, struct fault *fault)
{
	*out = (struct differing){0};
	if (!differing_by_journal(book, arena, out, fault)) {
		return false;
	}
	if (choose(out, off)) {
		return true;
	}
	out->count = 0;
	return differing_by_bit(book, off, arena, out, fault);
}
