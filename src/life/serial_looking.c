/* Looking at serials in rounds: which variants are shared, whose they are, and then those
 * against one another. */
#include "base/numbers.h"
#include "base/text.h"
#include "life/serials_inside.h"

#include <stdlib.h>
#include <string.h>

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

/* A number that others share a variant with, or a condemned one. In the looking's arena.
 * */
struct kept {
	size_t owner;              /* index in the inventory, then in the entries */
	struct serial_entry entry; /* of the inventory's: only kind, serial and item */
	size_t batch;
	size_t key;
	const struct kept *other; /* what it was found with, where that is one of these */
	struct serial_finding finding;
};

struct kept_one {
	struct kept *one;
};

/* A variant of a number that is kept, to be sorted. */
struct variant {
	struct kept *of;
	char text[SERIAL_PLAIN_SIZE];
};

/* The latest entry of a kind that has a number. Owned. */
struct latest {
	char *kind;
	struct text serial;
	size_t batch;
};

/* Each of these goes over all entries. */
enum looking_round { MARKS, GATHERS, KEEPS };

struct serial_looking {
	const struct inventory *inventory; /* borrowed */
	enum looking_round round;
	size_t entry; /* the next one's index */
	size_t next;  /* of the shared variants: the first whose owner is not kept yet */
	struct sharing sharing;
	struct arena arena;

	struct kept_list {
		struct kept_one *items; /* owned; by their owners */
		size_t count;
		size_t capacity;
	} kept;

	struct variant_list {
		struct variant *items; /* owned */
		size_t count;
		size_t capacity;
	} variants;

	struct condemned_list condemned;

	struct latest_list {
		struct latest *items; /* owned */
		size_t count;
		size_t capacity;
	} latest;

	struct found_list {
		struct serial_found *items; /* owned */
		size_t count;
		size_t capacity;
	} found;
};

static int
compare_variants(const void *a, const void *b)
{
	const struct variant *x = a;
	const struct variant *y = b;
	int order = strcmp(x->text, y->text);
	if (order == 0) {
		order = strcmp(x->of->entry.kind, y->of->entry.kind);
	}
	return ORDER_THEN(order, x->of->owner, y->of->owner);
}

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

/* The latest entry of a kind; made where there is none. */
static struct latest *
latest_of(struct serial_looking *looking, const char *kind)
{
	struct latest_list *all = &looking->latest;
	for (size_t i = 0; i < all->count; i++) {
		if (strcmp(all->items[i].kind, kind) == 0) {
			return &all->items[i];
		}
	}
	ARRAY_ADD(all, (struct latest){.kind = memory_string(kind)});
	return &all->items[all->count - 1];
}

/* The number of an entry's batch: one that counts on from the one of its kind before it
 * is of the same. */
static size_t
batch_of(struct serial_looking *looking, const struct serial_entry *entry)
{
	if (entry->serial[0] == '\0') {
		return looking->entry;
	}
	struct latest *latest = latest_of(looking, entry->kind);
	if (!follows(entry->serial, text_string(&latest->serial))) {
		latest->batch = looking->entry;
	}
	text_reset(&latest->serial);
	text_add(&latest->serial, entry->serial);
	return latest->batch;
}

/* Keeps an owner's number and its shared variants. */
static struct kept *
keep(struct serial_looking *looking, size_t owner, const struct serial_entry *entry)
{
	const struct sharing *sharing = &looking->sharing;
	struct arena *arena = &looking->arena;
	struct kept *kept = arena_alloc(arena, sizeof *kept);
	*kept = (struct kept){.owner = owner,
	    .entry = *entry,
	    .finding = {SERIAL_FINE, ITEM_NO_PARENT, "", DAY_NONE}};
	kept->entry.kind = arena_string(arena, entry->kind);
	kept->entry.serial = arena_string(arena, entry->serial);
	ARRAY_ADD(&looking->kept, (struct kept_one){kept});
	for (; looking->next < sharing->count &&
	       sharing->items[looking->next].where / SERIAL_PLAIN_SIZE == owner;
	     looking->next++) {
		ARRAY_ADD(&looking->variants, (struct variant){.of = kept});
		sharing_variant(sharing->items[looking->next], entry->serial,
		    looking->variants.items[looking->variants.count - 1].text);
	}
	return kept;
}

/* True where one of the shared variants is this owner's. */
static bool
shares(const struct serial_looking *looking, size_t owner)
{
	return looking->next < looking->sharing.count &&
	       looking->sharing.items[looking->next].where / SERIAL_PLAIN_SIZE == owner;
}

static void
keep_entry(struct serial_looking *looking, const struct serial_entry *entry, size_t key)
{
	size_t owner = looking->inventory->item_count + looking->entry;
	size_t batch = batch_of(looking, entry);
	const struct condemned *condemned =
	    entry->fresh ? condemned_find(&looking->condemned, entry->serial) : NULL;
	if (condemned == NULL && !shares(looking, owner)) {
		return;
	}
	struct kept *kept = keep(looking, owner, entry);
	kept->batch = batch;
	kept->key = key;
	if (condemned != NULL) {
		kept->finding = (struct serial_finding){
		    SERIAL_CONDEMNED, condemned->item, kept->entry.serial, condemned->on};
	}
}

/* Weighs a fresh entry against an item of the book or an entry before it. */
static void
weigh(const struct serial_looking *looking, const struct kept *a, struct kept *b)
{
	bool of_list = a->owner >= looking->inventory->item_count;
	if (a->entry.item == b->entry.item && b->entry.item != ITEM_NO_PARENT) {
		return;
	}
	enum serial_doubt doubt =
	    serial_same(b->entry.serial, a->entry.serial)   ? SERIAL_SAME
	    : serial_near(b->entry.serial, a->entry.serial) ? SERIAL_NEAR
							    : SERIAL_FINE;
	if (doubt == SERIAL_NEAR && of_list && a->batch == b->batch) {
		return;
	}
	enum serial_doubt before = b->finding.doubt;
	keep_graver(&b->finding,
	    (struct serial_finding){doubt, a->owner, a->entry.serial, DAY_NONE});
	if (b->finding.doubt != before) {
		b->other = of_list ? a : NULL;
	}
}

static void
weigh_group(
    const struct serial_looking *looking, const struct variant *group, size_t count)
{
	for (size_t j = 1; j < count; j++) {
		struct kept *entry = group[j].of;
		/* What the book has is not weighed: where a number is on all rows of a list
		 * that is read once more, every pair would be looked at. */
		if (!entry->entry.fresh) {
			continue;
		}
		/* Once it is the same as another there is no more to find. */
		for (size_t i = 0; i < j && entry->finding.doubt != SERIAL_SAME; i++) {
			if (group[i].of != entry) {
				weigh(looking, group[i].of, entry);
			}
		}
	}
}

/* Compares the numbers that share a variant with one another, and lists what was found.
 * */
static void
weigh_all(struct serial_looking *looking)
{
	const struct variant_list *variants = &looking->variants;
	size_t items = looking->inventory->item_count;
	size_t first = 0;
	ARRAY_SORT(variants->items, variants->count, compare_variants);
	for (size_t i = 1; i <= variants->count; i++) {
		const struct variant *head = &variants->items[first];
		const struct variant *next = &variants->items[i];
		bool same = i < variants->count && strcmp(next->text, head->text) == 0 &&
			    strcmp(next->of->entry.kind, head->of->entry.kind) == 0;
		if (!same) {
			weigh_group(looking, head, i - first);
			first = i;
		}
	}
	for (size_t i = 0; i < looking->kept.count; i++) {
		const struct kept *kept = looking->kept.items[i].one;
		if (kept->finding.doubt != SERIAL_FINE) {
			ARRAY_ADD(&looking->found,
			    (struct serial_found){kept->owner - items, kept->key,
				kept->entry.serial,
				kept->other == NULL ? 0 : kept->other->key,
				kept->finding});
		}
	}
}

struct serial_looking *
serial_look_begin(const struct inventory *inventory, size_t count)
{
	struct serial_looking *looking = memory_zeroed(1, sizeof *looking);
	looking->inventory = inventory;
	sharing_begin(&looking->sharing, inventory->item_count + count);
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		sharing_mark(&looking->sharing, item->kind, item->serial);
	}
	condemned_gather(inventory, &looking->arena, &looking->condemned);
	return looking;
}

void
serial_look_at(
    struct serial_looking *looking, const struct serial_entry *entry, size_t key)
{
	switch (looking->round) {
	case MARKS:
		sharing_mark(&looking->sharing, entry->kind, entry->serial);
		break;
	case GATHERS:
		sharing_gather(&looking->sharing, entry->kind, entry->serial,
		    looking->inventory->item_count + looking->entry);
		break;
	case KEEPS:
		keep_entry(looking, entry, key);
		break;
	}
	looking->entry++;
}

/* Gathers the inventory's variants, settles which are shared, and keeps the inventory's.
 * */
static void
settle(struct serial_looking *looking)
{
	const struct inventory *inventory = looking->inventory;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		sharing_gather(&looking->sharing, item->kind, item->serial, i);
	}
	sharing_settle(&looking->sharing);
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if (shares(looking, i)) {
			(void)keep(looking, i,
			    &(struct serial_entry){item->kind, item->serial, i, false});
		}
	}
}

bool
serial_look_again(struct serial_looking *looking)
{
	looking->entry = 0;
	if (looking->round == MARKS && looking->sharing.met) {
		looking->round = GATHERS;
		return true;
	}
	if (looking->round == KEEPS) {
		weigh_all(looking);
		return false;
	}
	if (looking->round == GATHERS) {
		settle(looking);
	}
	looking->round = KEEPS;
	return looking->next < looking->sharing.count || looking->condemned.count > 0;
}

const struct serial_found *
serial_look_found(const struct serial_looking *looking, size_t *count_out)
{
	*count_out = looking->found.count;
	return looking->found.items;
}

void
serial_look_end(struct serial_looking *looking)
{
	for (size_t i = 0; i < looking->latest.count; i++) {
		free(looking->latest.items[i].kind);
		text_clear(&looking->latest.items[i].serial);
	}
	free(looking->latest.items);
	free(looking->kept.items);
	free(looking->variants.items);
	free(looking->condemned.items);
	free(looking->found.items);
	sharing_clear(&looking->sharing);
	arena_clear(&looking->arena);
	free(looking);
}

void
serial_look_all(const struct inventory *inventory, const struct serial_entry *entries,
    size_t count, struct serial_finding *findings)
{
	struct serial_looking *looking = serial_look_begin(inventory, count);
	size_t found_count = 0;
	do {
		for (size_t i = 0; i < count; i++) {
			serial_look_at(looking, &entries[i], i);
		}
	} while (serial_look_again(looking));
	const struct serial_found *found = serial_look_found(looking, &found_count);
	for (size_t i = 0; i < count; i++) {
		findings[i] =
		    (struct serial_finding){SERIAL_FINE, ITEM_NO_PARENT, "", DAY_NONE};
	}
	for (size_t i = 0; i < found_count; i++) {
		struct serial_finding *finding = &findings[found[i].entry];
		size_t other = found[i].finding.item;
		*finding = found[i].finding;
		/* the looking's own words end with it */
		finding->serial = finding->doubt == SERIAL_CONDEMNED
				      ? entries[found[i].entry].serial
				  : other < inventory->item_count
				      ? inventory->items[other].serial
				      : entries[other - inventory->item_count].serial;
	}
	serial_look_end(looking);
}
