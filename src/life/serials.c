#include "life/serials.h"

#include "base/numbers.h"
#include "base/text.h"
#include "life/serials_inside.h"

#include <stdlib.h>
#include <string.h>

/* The last thing that was said of the thing with this number under this tag. */
static const struct movement *
last_of_serial(const struct item *item, const char *serial)
{
	const struct movement *last = NULL;
	for (size_t i = 0; i < item->movement_count; i++) {
		const struct movement *movement = &item->movements[i];
		if (movement->move != MOVE_RENEWED &&
		    serial_same(movement->serial, serial)) {
			last = movement;
		}
	}
	return last;
}

/* True when the thing with this number was condemned under this tag. */
static bool
was_condemned(const struct item *item, const char *serial, day_t *on_out)
{
	const struct movement *last = last_of_serial(item, serial);
	*on_out = last == NULL ? DAY_NONE : last->on;
	if (last != NULL) {
		return last->move == MOVE_WITHDRAWN && last->because == BECAUSE_CONDEMNED;
	}
	return item->because == BECAUSE_CONDEMNED && serial_same(item->serial, serial);
}

/* Keeps the graver of two findings, the first of equals. */
static void
keep_graver(struct serial_finding *found, struct serial_finding other)
{
	static const int GRAVITY[] = {[SERIAL_FINE] = 0,
	    [SERIAL_NEAR] = 1,
	    [SERIAL_SAME] = 2,
	    [SERIAL_CONDEMNED] = 3};
	if (GRAVITY[other.doubt] > GRAVITY[found->doubt]) {
		*found = other;
	}
}

static int
compare_variants(const void *a, const void *b)
{
	const struct variant *x = a;
	const struct variant *y = b;
	int order = strcmp(x->text, y->text);
	if (order == 0) {
		order = strcmp(x->kind, y->kind);
	}
	return ORDER_THEN(order, x->owner, y->owner);
}

/* What all the lookings need; borrowed. */
struct serial_looking {
	struct serial_numbers numbers;
	struct serial_finding *findings;
	size_t *batches; /* the number of each entry's batch */
};

/* True when `serial` is `before` counted on by one: "C-0100" after "C-0099". */
static bool
follows(const char *serial, const char *before)
{
	size_t length = strlen(serial);
	if (length != strlen(before)) {
		return false;
	}
	size_t at = length;
	while (at > 0 && serial[at - 1] == '0' && before[at - 1] == '9') {
		at--;
	}
	return at > 0 && before[at - 1] >= '0' && before[at - 1] < '9' &&
	       serial[at - 1] == before[at - 1] + 1 &&
	       strncmp(serial, before, at - 1) == 0;
}

/* The entry of the same kind before this one; the count of them when there is none.
 * Entries without a number are passed over. `last` holds the latest of each kind met so
 * far. */
static size_t
swap_last(const struct serial_looking *looking, size_t *last, size_t *kinds, size_t entry)
{
	const struct serial_entry *entries = looking->numbers.entries;
	for (size_t i = 0; i < *kinds; i++) {
		if (strcmp(entries[last[i]].kind, entries[entry].kind) == 0) {
			size_t before = last[i];
			last[i] = entry;
			return before;
		}
	}
	last[(*kinds)++] = entry;
	return looking->numbers.count;
}

/* Numbers the batches: an entry that counts on from the one of its kind before it is of
 * the same batch. `last` has room for every entry. */
static void
number_batches(const struct serial_looking *looking, size_t *last)
{
	size_t count = looking->numbers.count;
	size_t kinds = 0;
	for (size_t i = 0; i < count; i++) {
		looking->batches[i] = i;
		if (looking->numbers.entries[i].serial[0] == '\0') {
			continue;
		}
		size_t before = swap_last(looking, last, &kinds, i);
		if (before < count && follows(looking->numbers.entries[i].serial,
					  looking->numbers.entries[before].serial)) {
			looking->batches[i] = looking->batches[before];
		}
	}
}

/* Weighs entry `b` against an item of the book or an entry before it. */
static void
weigh(const struct serial_looking *looking, size_t a, size_t b)
{
	size_t items = looking->numbers.inventory->item_count;
	const struct serial_entry *entry = &looking->numbers.entries[b - items];
	if (!entry->fresh || entry->item == a ||
	    (a >= items && looking->numbers.entries[a - items].item == entry->item &&
		entry->item != ITEM_NO_PARENT)) {
		return;
	}
	const char *other = serial_owner_of(&looking->numbers, a).serial;
	enum serial_doubt doubt = serial_same(entry->serial, other)   ? SERIAL_SAME
				  : serial_near(entry->serial, other) ? SERIAL_NEAR
								      : SERIAL_FINE;
	if (doubt == SERIAL_NEAR && a >= items &&
	    looking->batches[a - items] == looking->batches[b - items]) {
		return;
	}
	keep_graver(&looking->findings[b - items],
	    (struct serial_finding){doubt, a, other, DAY_NONE});
}

static void
weigh_group(
    const struct serial_looking *looking, const struct variant *group, size_t count)
{
	size_t items = looking->numbers.inventory->item_count;
	for (size_t j = 1; j < count; j++) {
		if (group[j].owner < items) {
			continue;
		}
		/* Once it is the same as another there is no more to find. */
		const struct serial_finding *found =
		    &looking->findings[group[j].owner - items];
		for (size_t i = 0; i < j && found->doubt != SERIAL_SAME; i++) {
			if (group[i].owner != group[j].owner) {
				weigh(looking, group[i].owner, group[j].owner);
			}
		}
	}
}

/* The fresh entries' numbers, whole, to be found among. */
static void
gather_fresh(const struct serial_looking *looking, struct variants *numbers)
{
	for (size_t i = 0; i < looking->numbers.count; i++) {
		struct variant number = {.kind = "", .owner = i};
		if (looking->numbers.entries[i].fresh &&
		    serial_plain(looking->numbers.entries[i].serial, number.text) > 0) {
			ARRAY_ROOM(numbers);
			numbers->items[numbers->count++] = number;
		}
	}
	ARRAY_SORT(numbers->items, numbers->count, compare_variants);
}

/* The first of the numbers that is not before this one. */
static size_t
first_number(const struct variants *numbers, const char *plain)
{
	size_t low = 0;
	size_t high = numbers->count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (strcmp(numbers->items[middle].text, plain) < 0) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	return low;
}

/* Weighs the entries that have a number which was that of a thing under this item's
 * tag. */
static void
weigh_number(const struct serial_looking *looking, const struct variants *numbers,
    size_t index, const char *serial)
{
	const struct item *item = &looking->numbers.inventory->items[index];
	char plain[SERIAL_PLAIN_SIZE];
	serial_plain(serial, plain);
	for (size_t i = first_number(numbers, plain);
	     i < numbers->count && strcmp(numbers->items[i].text, plain) == 0; i++) {
		size_t entry = numbers->items[i].owner;
		const char *own = looking->numbers.entries[entry].serial;
		day_t on = DAY_NONE;
		if (was_condemned(item, own, &on)) {
			keep_graver(&looking->findings[entry],
			    (struct serial_finding){SERIAL_CONDEMNED, index, own, on});
		}
	}
}

static void
weigh_condemned(const struct serial_looking *looking)
{
	const struct inventory *inventory = looking->numbers.inventory;
	struct variants numbers = {0};
	if (inventory->item_count > 0) {
		gather_fresh(looking, &numbers);
	}
	for (size_t i = 0; i < inventory->item_count && numbers.count > 0; i++) {
		const struct item *item = &inventory->items[i];
		for (size_t j = 0; j < item->movement_count; j++) {
			weigh_number(looking, &numbers, i, item->movements[j].serial);
		}
		if (item->because == BECAUSE_CONDEMNED) {
			weigh_number(looking, &numbers, i, item->serial);
		}
	}
	free(numbers.items);
}

/* Compares the numbers that share a variant with one another. */
static void
weigh_all(const struct serial_looking *looking, struct variants *variants)
{
	size_t first = 0;
	ARRAY_SORT(variants->items, variants->count, compare_variants);
	for (size_t i = 1; i <= variants->count; i++) {
		const struct variant *head = &variants->items[first];
		const struct variant *next = &variants->items[i];
		bool same = i < variants->count && strcmp(next->text, head->text) == 0 &&
			    strcmp(next->kind, head->kind) == 0;
		if (!same) {
			weigh_group(looking, head, i - first);
			first = i;
		}
	}
}

/* Looks with memory at hand: `last` and the batches have room for every entry. */
static void
look_with(const struct serial_looking *looking, size_t *last)
{
	struct variants variants = {0};
	variants_shared(&looking->numbers, &variants);
	number_batches(looking, last);
	weigh_all(looking, &variants);
	weigh_condemned(looking);
	free(variants.items);
}

void
serial_look_all(const struct inventory *inventory, const struct serial_entry *entries,
    size_t count, struct serial_finding *findings)
{
	struct arena arena = {0};
	size_t *last = arena_alloc(&arena, (count + 1) * sizeof *last);
	size_t *batches = arena_alloc(&arena, (count + 1) * sizeof *batches);
	const struct serial_looking looking = {
	    {inventory, entries, count}, findings, batches};
	for (size_t i = 0; i < count; i++) {
		findings[i] =
		    (struct serial_finding){SERIAL_FINE, ITEM_NO_PARENT, "", DAY_NONE};
	}
	look_with(&looking, last);
	arena_clear(&arena);
}

void
serial_words(const struct serial_finding *finding, const char *serial, const char *other,
    struct text *out)
{
	char on[DAY_WORDS_SIZE];
	switch (finding->doubt) {
	case SERIAL_FINE:
		break;
	case SERIAL_SAME:
		text_add_format(out,
		    "serial \"%s\" is that of %s already; if they are two, say " FIELD
		    "serials-are-right",
		    serial, other);
		break;
	case SERIAL_NEAR:
		text_add_format(out,
		    "serial \"%s\" is one character from \"%s\" of %s; read both again, "
		    "and if both are right, say " FIELD "serials-are-right",
		    serial, finding->serial, other);
		break;
	case SERIAL_CONDEMNED:
		text_add_format(out,
		    "the one with serial \"%s\" was condemned, as %s%s%s; it does not go "
		    "back aboard unless " FIELD "again says so",
		    serial, other, finding->on == DAY_NONE ? "" : ", on ",
		    day_words(finding->on, on));
		break;
	}
}
