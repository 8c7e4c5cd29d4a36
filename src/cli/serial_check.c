#include "cli/serial_check.h"

#include "cli/ask.h"

static bool
answered(const struct context *context, enum serial_doubt doubt)
{
	switch (doubt) {
	case SERIAL_FINE:
		return true;
	case SERIAL_SAME:
	case SERIAL_NEAR:
		return options_has(context->given, "serials-are-right");
	case SERIAL_CONDEMNED:
		return options_has(context->given, "again");
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
check_one(struct context *context, const struct serial_entry *entry,
    const struct serial_finding *finding, struct fault *fault)
{
	SCOPED_TEXT other = {0};
	SCOPED_TEXT words = {0};
	bool yes = false;
	if (answered(context, finding->doubt)) {
		return true;
	}
	add_other(&context->desk.contents.inventory, finding, &other);
	serial_words(finding, entry->serial, text_string(&other), &words);
	if (ask_is_possible()) {
		return ask_yes(text_string(&words), &yes, fault) &&
		       (yes ||
			   fault_set(fault, FAULT_INPUT,
			       "nothing is written: serial \"%s\" is to be read again",
			       entry->serial));
	}
	return fault_set(fault, FAULT_INPUT, "%s", text_string(&words));
}

bool
serials_check(struct context *context, const struct serial_entry *entries, size_t count,
    struct fault *fault)
{
	struct serial_finding *findings =
	    arena_alloc(&context->desk.arena, (count + 1) * sizeof *findings);
	serial_look_all(&context->desk.contents.inventory, entries, count, findings);
	for (size_t i = 0; i < count; i++) {
		if (!check_one(context, &entries[i], &findings[i], fault)) {
			return false;
		}
	}
	return true;
}
