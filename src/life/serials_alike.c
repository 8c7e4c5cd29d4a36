/* Serial numbers compared: alike, nearly alike, and shared by the pieces of one lot. */
#include "life/serials_inside.h"

#include <string.h>

size_t
serial_plain(const char *serial, char plain[SERIAL_PLAIN_SIZE])
{
	size_t used = 0;
	for (const char *at = serial; *at != '\0' && used < SERIAL_PLAIN_SIZE - 1; at++) {
		bool loose = *at == ' ' || *at == '\t' || (*at >= '-' && *at <= '/');
		if (!loose) {
			plain[used++] = (char)text_lower(*at);
		}
	}
	plain[used] = '\0';
	return used;
}

bool
serial_same(const char *a, const char *b)
{
	char x[SERIAL_PLAIN_SIZE];
	char y[SERIAL_PLAIN_SIZE];
	return serial_plain(a, x) > 0 && serial_plain(b, y) > 0 && strcmp(x, y) == 0;
}

static bool
is_split(const struct item *item)
{
	return item->split_from != NULL && item->split_from[0] != '\0';
}

/* The lot that an item is of: what it was split from, and so on; its own tag at last. */
static const char *
lot_of(const struct inventory *inventory, const struct item *item)
{
	size_t steps = inventory->item_count;
	while (item->split_from != NULL && item->split_from[0] != '\0' && steps-- > 0) {
		size_t at = inventory_tagged(inventory, item->split_from);
		if (at == ITEM_NO_PARENT) {
			return item->split_from;
		}
		item = &inventory->items[at];
	}
	return item->tag;
}

size_t
serial_shared_with(const struct inventory *inventory, size_t index)
{
	const struct item *item = &inventory->items[index];
	const char *lot = NULL;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *other = &inventory->items[i];
		/* few are split from anything: that is looked at before any words */
		if (i == index || !(is_split(item) || is_split(other)) ||
		    strcmp(other->kind, item->kind) != 0 ||
		    !serial_same(other->serial, item->serial)) {
			continue;
		}
		lot = lot == NULL ? lot_of(inventory, item) : lot;
		if (strcmp(lot_of(inventory, other), lot) == 0) {
			return i;
		}
	}
	return ITEM_NO_PARENT;
}

void
serial_shared_words(const struct inventory *inventory, size_t item, struct text *out)
{
	size_t other = serial_shared_with(inventory, item);
	if (other != ITEM_NO_PARENT) {
		text_add_format(out,
		    "%s is the number of %s too, of the same lot: it doesn't tell the "
		    "one from the other",
		    inventory->items[item].serial, inventory->items[other].tag);
	}
}

/* One edit apart: what is between the common beginning and the common end is at most one
 * character on either side, or two that are swapped. */
static bool
one_edit(const char *x, size_t x_length, const char *y, size_t y_length)
{
	size_t head = 0;
	size_t tail = 0;
	while (head < x_length && head < y_length && x[head] == y[head]) {
		head++;
	}
	while (tail < x_length - head && tail < y_length - head &&
	       x[x_length - 1 - tail] == y[y_length - 1 - tail]) {
		tail++;
	}
	size_t x_rest = x_length - head - tail;
	size_t y_rest = y_length - head - tail;
	bool swapped = x_rest == 2 && y_rest == 2 && x[head] == y[head + 1] &&
		       x[head + 1] == y[head];
	return swapped || (x_rest <= 1 && y_rest <= 1 && x_rest + y_rest > 0);
}

bool
serial_near(const char *a, const char *b)
{
	char x[SERIAL_PLAIN_SIZE];
	char y[SERIAL_PLAIN_SIZE];
	size_t x_length = serial_plain(a, x);
	size_t y_length = serial_plain(b, y);
	return x_length >= SERIAL_LEAST && y_length >= SERIAL_LEAST &&
	       one_edit(x, x_length, y, y_length);
}
