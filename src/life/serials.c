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

static int
compare_condemned(const void *a, const void *b)
{
	const struct condemned *x = a;
	const struct condemned *y = b;
	int order = strcmp(x->plain, y->plain);
	return ORDER_THEN(order, x->item, y->item);
}

/* Gathers the number that is, or was, that of a thing under this item's tag, where it was
 * condemned. */
static void
gather(const struct inventory *inventory, size_t index, const char *serial,
    struct arena *arena, struct condemned_list *out)
{
	char plain[SERIAL_PLAIN_SIZE];
	day_t on = DAY_NONE;
	if (serial_plain(serial, plain) > 0 &&
	    was_condemned(&inventory->items[index], serial, &on)) {
		ARRAY_ADD(out, (struct condemned){arena_string(arena, plain), index, on});
	}
}

void
condemned_gather(
    const struct inventory *inventory, struct arena *arena, struct condemned_list *out)
{
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		for (size_t j = 0; j < item->movement_count; j++) {
			gather(inventory, i, item->movements[j].serial, arena, out);
		}
		if (item->because == BECAUSE_CONDEMNED) {
			gather(inventory, i, item->serial, arena, out);
		}
	}
	ARRAY_SORT(out->items, out->count, compare_condemned);
}

const struct condemned *
condemned_find(const struct condemned_list *list, const char *serial)
{
	char plain[SERIAL_PLAIN_SIZE];
	size_t low = 0;
	size_t high = list->count;
	if (high == 0 || serial_plain(serial, plain) == 0) {
		return NULL;
	}
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (strcmp(list->items[middle].plain, plain) < 0) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	const struct condemned *found = &list->items[low];
	bool same = low < list->count && strcmp(found->plain, plain) == 0;
	return same ? found : NULL;
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
