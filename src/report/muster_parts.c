/* What falls short later, and the spares that would cure it. */
#include "report/muster_parts.h"

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
muster_add_later(const struct muster *muster, struct text *out, struct text *words)
{
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		int missing = muster_missing(muster, shortage->line);
		if (shortage->most <= missing) {
			continue;
		}
		text_reset(words);
		if (missing > 0) {
			text_add(words, "and later");
		} else {
			text_add(words, "and from ");
			add_day(shortage->from, "", words);
		}
		text_add_format(
		    words, " short of %d: %s.", shortage->most, shortage->line->title);
		paragraph(text_string(words), 2, 4, out);
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

/* A word as a shell takes it whole. */
static void
add_shell_word(const char *word, struct text *out)
{
	bool plain =
	    word[0] != '\0' &&
	    word[strspn(word, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
			      "0123456789._-")] == '\0';
	if (plain) {
		text_add(out, word);
		return;
	}
	text_add_byte(out, '\'');
	for (const char *at = word; *at != '\0'; at++) {
		if (*at == '\'') {
			text_add(out, "'\\'");
		}
		text_add_byte(out, *at);
	}
	text_add_byte(out, '\'');
}

void
muster_add_spares(const struct kinds *kinds, const struct inventory *inventory,
    const struct muster *muster, struct text *out, struct text *words)
{
	const struct vessel *vessel = &inventory->vessels[muster->vessel];
	const struct muster_cure *cure = &muster->cure;
	if (muster->shortage_count == 0 || !has_store(inventory, vessel->base)) {
		return;
	}
	text_reset(words);
	if (cure->count == 0) {
		text_add_format(
		    words, "no spare at %s that is free would cure it.", vessel->base);
		paragraph(text_string(words), 2, 4, out);
		return;
	}
	text_add_format(words, "spares at %s that would %s: ", vessel->base,
	    cure->cures ? "cure it" : "cure part of it");
	for (size_t i = 0; i < cure->count; i++) {
		text_add_format(words, "%s%s ", i == 0 ? "" : ", ",
		    inventory->items[cure->items[i]].tag);
		add_item_name(kinds, inventory, cure->items[i], words);
	}
	text_add(words, cure->fewest ? "." : "; fewer may do.");
	text_add(words, " To move them: becket move");
	for (size_t i = 0; i < cure->count; i++) {
		text_add_byte(words, ' ');
		add_shell_word(inventory->items[cure->items[i]].tag, words);
	}
	text_add(words, " --vessel ");
	add_shell_word(vessel->name, words);
	paragraph(text_string(words), 2, 4, out);
}
