#include "desk/serial_check.h"

static bool
answered(struct serial_said said, enum serial_doubt doubt)
{
	switch (doubt) {
	case SERIAL_FINE:
		return true;
	case SERIAL_SAME:
	case SERIAL_NEAR:
		return said.right;
	case SERIAL_CONDEMNED:
		return said.again;
	}
	return false;
}

/* Adds where the other number stands. */
static void
add_other(const struct inventory *inventory, const struct serial_finding *finding,
    struct text *out)
{
	if (finding->item >= inventory->item_count) {
		text_add(out, "another of these");
		return;
	}
	const struct item *item = &inventory->items[finding->item];
	text_add_format(out, "%s on %s%s", item->tag,
	    inventory->vessels[item->vessel].name,
	    item->state == PLACE_WITHDRAWN ? ", withdrawn" : "");
}

static bool
check_one(struct desk *desk, const struct serial_entry *entry,
    const struct serial_finding *finding, struct fault *fault)
{
	SCOPED_TEXT other = {0};
	SCOPED_TEXT words = {0};
	SCOPED_TEXT no = {0};
	add_other(&desk->contents.inventory, finding, &other);
	serial_words(finding, entry->serial, text_string(&other), &words);
	text_add_format(
	    &no, "nothing is written: serial \"%s\" is to be read again", entry->serial);
	return desk_ask(
	    desk, text_string(&words), text_string(&words), text_string(&no), fault);
}

bool
serials_check(struct desk *desk, const struct serial_entry *entries, size_t count,
    struct serial_said said, struct fault *fault)
{
	struct serial_finding *findings =
	    arena_alloc(&desk->arena, (count + 1) * sizeof *findings);
	serial_look_all(&desk->contents.inventory, entries, count, findings);
	for (size_t i = 0; i < count; i++) {
		if (!answered(said, findings[i].doubt) &&
		    !check_one(desk, &entries[i], &findings[i], fault)) {
			return false;
		}
	}
	return true;
}
