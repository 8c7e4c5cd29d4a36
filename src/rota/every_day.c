/* The rota checked by the muster: what a boat needs, and whether every day holds. */
#include "muster/leave.h"
#include "rota/inside.h"

/* The items of some pieces, as the muster takes them. */
static struct muster_items
items_of(const struct rota_making *making, struct rota_slice pieces)
{
	size_t *items = ARENA_MANY(making->scratch, size_t, pieces.count);
	for (size_t i = 0; i < pieces.count; i++) {
		items[i] = pieces.pieces[i].item;
	}
	return (struct muster_items){items, pieces.count};
}

/* All pieces of the rota that are a vessel's, in the scratch. */
static struct rota_slice
pieces_of(const struct rota_making *making, size_t vessel)
{
	size_t aboard = 0;
	size_t first = inventory_aboard(making->ask->engine->inventory, vessel, &aboard);
	struct rota_slice hers = {
	    ARENA_MANY(making->scratch, struct rota_piece, aboard), 0};
	for (size_t item = first; item < first + aboard; item++) {
		size_t at = making->piece_of_item[item];
		if (at > 0) {
			hers.pieces[hers.count++] = making->pieces.items[at - 1];
		}
	}
	return hers;
}

/* Fills `needed` and `bare_most` for the pieces of one boat. */
static void
find_needed_of(const struct rota_making *making, struct rota_slice pieces)
{
	arena_reset(making->scratch);
	size_t vessel = pieces.pieces[0].vessel;
	const struct muster_sparing asked = {.vessel = vessel,
	    .days = making->ask->days,
	    .kept = items_of(making, pieces_of(making, vessel)),
	    .pieces = items_of(making, pieces)};
	struct muster_spareable spareable = {0};
	muster_spareable(making->ask->engine, &asked, making->scratch, &spareable);
	for (size_t i = 0; i < pieces.count; i++) {
		pieces.pieces[i].needed = spareable.needed[i];
		pieces.pieces[i].bare_most = spareable.most;
	}
}

void
rota_find_needed(const struct rota_making *making, struct rota_slice slice)
{
	size_t end = 0;
	for (size_t from = 0; from < slice.count; from = end) {
		end = from;
		while (end < slice.count &&
		       slice.pieces[end].vessel == slice.pieces[from].vessel) {
			end++;
		}
		find_needed_of(
		    making, (struct rota_slice){&slice.pieces[from], end - from});
	}
}

/* ---- every day ---- */

static enum leave_cover
cover_of(const struct rota_line *line)
{
	switch (line->cover) {
	case ROTA_SPARE:
		return LEAVE_SPARE;
	case ROTA_HIRED:
		return LEAVE_HIRED;
	case ROTA_BARE:
	case ROTA_NOT:
		break;
	}
	return LEAVE_BARE;
}

/* The leaves of a vessel's pieces as planned; or, with `kept`, as if all of them were
 * aboard and in date all the time. What has no day stays aboard, and lapses there. */
static void
leaves_of(
    const struct rota_making *making, size_t vessel, bool kept, struct muster_leaves *out)
{
	struct span days = making->ask->days;
	struct rota_slice hers = pieces_of(making, vessel);
	size_t made = 0;
	struct muster_leave *leaves =
	    ARENA_MANY(making->scratch, struct muster_leave, hers.count);
	for (size_t i = 0; i < hers.count; i++) {
		const struct rota_line *line = &hers.pieces[i].line;
		if (kept) {
			leaves[made++] = (struct muster_leave){line->item, days.first,
			    days.last + 1, LEAVE_HIRED, NO_STATION};
		} else if (line->planned) {
			leaves[made++] = (struct muster_leave){line->item, line->hand_in,
			    line->collect, cover_of(line), line->cover_item};
		}
	}
	*out = (struct muster_leaves){vessel, days, leaves, made, &making->done};
}

static void
muster_boat(
    const struct rota_making *making, size_t vessel, bool kept, struct muster *out)
{
	struct muster_leaves leaves = {0};
	leaves_of(making, vessel, kept, &leaves);
	muster_on_leave(making->ask->engine, &leaves, making->scratch, out);
}

/* Whether she would be as short with all gear of the rota aboard and in date. */
static bool
is_anyway(const struct muster_shortage *shortage, const struct muster *kept)
{
	for (size_t i = 0; i < kept->shortage_count; i++) {
		const struct muster_shortage *other = &kept->shortages[i];
		if (other->line == shortage->line && other->from <= shortage->from &&
		    other->most >= shortage->most) {
			return true;
		}
	}
	return false;
}

/* Notes the first shortage the rota makes, or else the first there is anyway. */
static void
note_short(const struct muster *muster, const struct muster *kept, struct rota *rota)
{
	struct rota_short found = {.vessel = muster->vessel, .from = DAY_NEVER};
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		bool anyway = is_anyway(shortage, kept);
		bool first = found.from == DAY_NEVER;
		if (first || (found.anyway && !anyway)) {
			found.from = shortage->from;
			found.line = shortage->line;
			found.anyway = anyway;
		}
	}
	if (found.from != DAY_NEVER) {
		rota->shorts[rota->short_count++] = found;
		rota->holds = rota->holds && found.anyway;
	}
}

static bool
is_untold(const struct muster *muster)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (muster->lines[i].asks[0] != '\0') {
			return true;
		}
	}
	return !muster->has_lines;
}

static int
compare_shorts(const void *left, const void *right)
{
	const struct rota_short *a = left;
	const struct rota_short *b = right;
	return ORDER_THEN(ORDER(a->from, b->from), a->vessel, b->vessel);
}

void
rota_muster(const struct rota_making *making, struct rota *rota)
{
	const struct rota_ask *ask = making->ask;
	rota->shorts = ARENA_MANY(making->arena, struct rota_short, ask->vessel_count);
	for (size_t i = 0; i < ask->vessel_count; i++) {
		struct muster muster = {0};
		struct muster kept = {0};
		arena_reset(making->scratch);
		muster_boat(making, ask->vessels[i], false, &muster);
		rota->boats++;
		rota->untold += is_untold(&muster);
		if (muster.shortage_count == 0) {
			continue;
		}
		muster_boat(making, ask->vessels[i], true, &kept);
		note_short(&muster, &kept, rota);
	}
	rota->holds = rota->holds && rota->untold == 0;
	ARRAY_SORT(rota->shorts, rota->short_count, compare_shorts);
}
