/* What falls short later, and the spares that would cure it. */
#include "report/parts_inside.h"
#include "report/words.h"

#include <string.h>

int
muster_missing(const struct muster *muster, const struct carriage *line)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (muster->lines[i].line == line) {
			return muster->lines[i].missing;
		}
	}
	return 0;
}

void
muster_add_later(const struct muster *muster, struct reply *reply)
{
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		int missing = muster_missing(muster, shortage->line);
		if (shortage->most <= missing) {
			continue;
		}
		SCOPED_TEXT words = {0};
		if (missing > 0) {
			text_add(&words, "and later");
		} else {
			text_add(&words, "and from ");
			add_day(shortage->from, "", &words);
		}
		text_add_format(
		    &words, " short of %d: %s.", shortage->most, shortage->line->title);
		reply_remark(reply, VOICE_CARE, 2, text_string(&words));
	}
}

static bool
has_store(const struct inventory *inventory, const char *base)
{
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (base[0] != '\0' && inventory->vessels[i].store &&
		    strcmp(inventory->vessels[i].base, base) == 0) {
			return true;
		}
	}
	return false;
}

/* The words that move what moves as a whole; none when nothing does. */
static void
add_whole_moves(
    const struct inventory *inventory, const struct muster *muster, struct reply *reply)
{
	const struct muster_cure *cure = &muster->cure;
	SCOPED_TEXT words = {0};
	size_t count = 0;
	text_add(&words, "becket move");
	for (size_t i = 0; i < cure->count; i++) {
		const struct item *item = &inventory->items[cure->moves[i].item];
		if (cure->moves[i].quantity == item->quantity) {
			text_add_byte(&words, ' ');
			text_add_shell_word(&words, item->tag);
			count++;
		}
	}
	text_add(&words, " --vessel ");
	text_add_shell_word(&words, inventory->vessels[muster->vessel].name);
	if (count > 0) {
		reply_remark(reply, VOICE_PLAIN, 4, text_string(&words));
	}
}

/* The words that move a part of a lot, a line each. */
static void
add_lot_moves(
    const struct inventory *inventory, const struct muster *muster, struct reply *reply)
{
	const struct muster_cure *cure = &muster->cure;
	for (size_t i = 0; i < cure->count; i++) {
		const struct item *item = &inventory->items[cure->moves[i].item];
		if (cure->moves[i].quantity < item->quantity) {
			SCOPED_TEXT words = {0};
			muster_move_words(
			    inventory, &cure->moves[i], muster->vessel, &words);
			reply_remark(reply, VOICE_PLAIN, 4, text_string(&words));
		}
	}
}

/* "spares at Holm Quay that would cure it: LJ-9 (...). To move them:" */
static void
add_cure_words(const struct kinds *kinds, const struct inventory *inventory,
    const struct muster *muster, struct text *words)
{
	const struct muster_cure *cure = &muster->cure;
	text_add_format(words,
	    "spares at %s that would %s: ", inventory->vessels[muster->vessel].base,
	    cure->cures ? "cure it" : "cure part of it");
	for (size_t i = 0; i < cure->count; i++) {
		const struct muster_move *move = &cure->moves[i];
		const struct item *item = &inventory->items[move->item];
		text_add(words, i == 0 ? "" : ", ");
		bool all = move->quantity == item->quantity;
		if (!all) {
			text_add_format(words, "%d of ", move->quantity);
		}
		text_add_format(words, all ? "%s " : "%s (", item->tag);
		add_item_name(kinds, inventory, move->item, words);
		text_add(words, all ? "" : ")");
	}
	text_add(words, cure->fewest ? "." : "; fewer may do.");
	text_add(words, " To move them:");
}

void
muster_add_spares(const struct kinds *kinds, const struct inventory *inventory,
    const struct muster *muster, struct reply *reply)
{
	const struct vessel *vessel = &inventory->vessels[muster->vessel];
	SCOPED_TEXT words = {0};
	if (muster->shortage_count == 0 || !has_store(inventory, vessel->base)) {
		return;
	}
	if (muster->cure.count == 0) {
		text_add_format(
		    &words, "no spare at %s that is free would cure it.", vessel->base);
		reply_remark(reply, VOICE_CARE, 2, text_string(&words));
		return;
	}
	add_cure_words(kinds, inventory, muster, &words);
	reply_remark(reply, VOICE_PLAIN, 2, text_string(&words));
	add_whole_moves(inventory, muster, reply);
	add_lot_moves(inventory, muster, reply);
}
