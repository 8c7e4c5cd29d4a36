/* What a vessel can do without for a time. */
#include "muster/inside.h"
#include "muster/leave.h"

#include <string.h>

/* How many choices of pieces to be away are looked at. */
enum { CHOICES_MOST = 500 };

/* The question, and her pieces. All borrowed. */
struct sparing {
	const struct due_engine *engine;
	const struct muster_sparing *about;
	bool *away;           /* of what is asked about: away in this trial */
	struct pieces pieces; /* hers, all being there */
	struct piece *trial;  /* the same, less what is away */
	const char *kind;     /* of what is asked about */
	size_t choices;       /* looked at */
};

/* True when an item, or what it is part of, is among some items; `*at_out` is which. */
static bool
is_among(const struct inventory *inventory, const struct muster_items *among, size_t item,
    size_t *at_out)
{
	for (; item != ITEM_NO_PARENT; item = inventory->items[item].parent) {
		for (size_t i = 0; i < among->count; i++) {
			if (among->items[i] == item) {
				*at_out = i;
				return true;
			}
		}
	}
	return false;
}

/* Whether a line that takes the kind is short, or can't be told. */
static bool
is_short(const struct sparing *sparing, const struct muster *muster)
{
	for (size_t i = 0; i < muster->shortage_count; i++) {
		if (line_takes(muster->shortages[i].line, sparing->kind)) {
			return true;
		}
	}
	for (size_t i = 0; i < muster->line_count; i++) {
		if (muster->lines[i].asks[0] != '\0' &&
		    line_takes(muster->lines[i].line, sparing->kind)) {
			return true;
		}
	}
	return !muster->has_lines;
}

/* Whether she can do without what is away. */
static bool
holds(struct sparing *sparing)
{
	const struct inventory *inventory = sparing->engine->inventory;
	SCOPED_ARENA scratch = {0};
	struct muster muster = {0};
	for (size_t i = 0; i < sparing->pieces.count; i++) {
		size_t at = 0;
		sparing->trial[i] = sparing->pieces.items[i];
		if (is_among(inventory, &sparing->about->pieces, sparing->trial[i].item,
			&at) &&
		    sparing->away[at]) {
			sparing->trial[i].lapsed = spans_always();
		}
	}
	struct pieces trial = {sparing->trial, sparing->pieces.count};
	muster_of_pieces(sparing->engine, sparing->about->vessel, sparing->about->days,
	    trial, &scratch, &scratch, &muster);
	sparing->choices++;
	return !is_short(sparing, &muster);
}

/* True when an earlier piece of the same worth stays: then trying without that one was
 * enough. */
static bool
is_twin(const struct sparing *sparing, const bool *needed, size_t at)
{
	const struct item *items = sparing->engine->inventory->items;
	const struct item *item = &items[sparing->about->pieces.items[at]];
	for (size_t i = 0; i < at; i++) {
		const struct item *other = &items[sparing->about->pieces.items[i]];
		if (!needed[i] && !sparing->away[i] &&
		    other->capacity == item->capacity &&
		    other->quantity == item->quantity &&
		    strcmp(other->rating, item->rating) == 0 &&
		    strcmp(other->place, item->place) == 0) {
			return true;
		}
	}
	return false;
}

/* Whether she can do without any `left` more of the pieces from `next` on. */
static bool
all_hold(struct sparing *sparing, const bool *needed, size_t next, size_t left)
{
	if (left == 0) {
		return holds(sparing);
	}
	for (size_t i = next; i < sparing->about->pieces.count; i++) {
		if (needed[i] || is_twin(sparing, needed, i)) {
			continue;
		}
		sparing->away[i] = true;
		bool held = sparing->choices < CHOICES_MOST &&
			    all_hold(sparing, needed, i + 1, left - 1);
		sparing->away[i] = false;
		if (!held) {
			return false;
		}
	}
	return true;
}

/* Her pieces, what is kept being in date. */
static void
read_pieces(struct sparing *sparing, struct arena *scratch)
{
	const struct inventory *inventory = sparing->engine->inventory;
	pieces_gather(sparing->engine, sparing->about->vessel, sparing->about->days.first,
	    scratch, &sparing->pieces);
	for (size_t i = 0; i < sparing->pieces.count; i++) {
		struct piece *piece = &sparing->pieces.items[i];
		size_t at = 0;
		if (is_among(inventory, &sparing->about->kept, piece->item, &at)) {
			*piece = (struct piece){.item = piece->item};
		}
	}
	sparing->kind = inventory->items[sparing->about->pieces.items[0]].kind;
	sparing->away =
	    arena_alloc(scratch, sparing->about->pieces.count * sizeof *sparing->away);
	sparing->trial =
	    arena_alloc(scratch, (sparing->pieces.count + 1) * sizeof *sparing->trial);
}

/* The pieces she needs, then how many of the others she can do without. */
static void
find_spareable(struct sparing *sparing, struct muster_spareable *out)
{
	size_t others = 0;
	for (size_t i = 0; i < sparing->about->pieces.count; i++) {
		sparing->away[i] = true;
		out->needed[i] = !holds(sparing);
		sparing->away[i] = false;
		others += !out->needed[i];
	}
	out->most = others > 0;
	while ((size_t)out->most < others &&
	       all_hold(sparing, out->needed, 0, (size_t)out->most + 1)) {
		out->most++;
	}
}

void
muster_spareable(const struct due_engine *engine, const struct muster_sparing *asked,
    struct arena *arena, struct muster_spareable *out)
{
	struct sparing sparing = {.engine = engine, .about = asked};
	struct muster_spareable spareable = {
	    arena_alloc(arena, (asked->pieces.count + 1) * sizeof(bool)), 0};
	SCOPED_ARENA scratch = {0};
	if (asked->pieces.count > 0) {
		read_pieces(&sparing, &scratch);
		find_spareable(&sparing, &spareable);
	}
	*out = spareable;
}

bool
muster_kinds_meet(
    const struct due_engine *engine, size_t vessel, const char *a, const char *b)
{
	size_t count = 0;
	const struct carriage *const *lines =
	    rulebook_carriage(engine->rulebooks[vessel], &count);
	for (size_t i = 0; i < count; i++) {
		if (line_takes(lines[i], a) && line_takes(lines[i], b)) {
			return true;
		}
	}
	return false;
}

void
muster_counts_through(const struct due_engine *engine, size_t item, size_t vessel,
    day_t day, struct arena *arena, day_t *last_out)
{
	struct piece piece = {0};
	piece_read(engine, item, vessel, day, arena, &piece);
	enum count_state state = piece_on(&piece, day);
	day_t lapses = piece_lapses(&piece, day);
	bool counts = (state == COUNT_YES || state == COUNT_REMARK) &&
		      item_is_there(engine->inventory, item);
	*last_out = !counts ? DAY_NONE : lapses == DAY_NEVER ? DAY_NEVER : lapses - 1;
}
