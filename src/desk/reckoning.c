#include "desk/reckoning.h"

#include "base/spool.h"
#include "due/meanings.h"

#include <stdlib.h>
#include <string.h>

/* Up to FEW_VESSELS are an act's, and much of them may be loaded already; of more,
 * VESSELS_AT_ONCE are loaded at a time. */
enum { FEW_VESSELS = 20, VESSELS_AT_ONCE = 250 };

bool
reckoning_figures(const struct desk *desk, const struct reckoned_by *by,
    struct arena *arena, const char **out, struct fault *fault)
{
	SCOPED_TEXT digest = {0};
	if (!shelf_digest(&desk->shelf, by->sheets, by->sheet_count, &digest, fault)) {
		return false;
	}
	*out = arena_string(arena, text_string(&digest));
	return true;
}

/* Loads a part of the book, NULL for all of it, and keeps what is asked for. */
static bool
load_and_put(struct desk *desk, const struct book_part *part,
    struct reckoned_change *change, struct fault *fault)
{
	struct desk loaded = {0};
	if (part != NULL && part->vessel_count == 0) {
		return reckoning_put_loaded(desk, NULL, change, fault);
	}
	bool done = reckoning_desk(desk, part, &loaded, fault) &&
		    reckoning_put_loaded(desk, &loaded, change, fault);
	reckoning_desk_clear(&loaded, desk);
	return done;
}

/* Puts those of the vessels that are in the book into a part of it, which has room for
 * them all. */
static void
narrow(const struct reckoned_change *change, const char **names, struct book_part *part)
{
	part->vessels = names;
	part->vessel_count = 0;
	for (size_t i = 0; i < change->vessel_count; i++) {
		if (change->vessels[i].there) {
			names[part->vessel_count++] = change->vessels[i].name;
		}
	}
}

/* All vessels of the book as those to be kept. */
static bool
every_vessel(struct desk *desk, struct arena *arena, struct reckoned_change *change,
    struct fault *fault)
{
	struct word_list names = {0};
	if (!book_names(desk->book, BOOK_VESSELS, arena, &names, fault)) {
		return false;
	}
	struct touched_vessel *vessels =
	    arena_alloc(arena, (names.count + 1) * sizeof *vessels);
	for (size_t i = 0; i < names.count; i++) {
		vessels[i] = (struct touched_vessel){names.items[i], true};
	}
	change->vessels = vessels;
	change->vessel_count = names.count;
	return true;
}

/* Keeps what is asked of many vessels, some of them at a time, so that memory does not
 * grow with the fleet. By what it was reckoned is noted with the last of them. */
static bool
put_in_parts(struct desk *desk, const struct reckoned_change *whole, struct fault *fault)
{
	const char *names[VESSELS_AT_ONCE];
	SCOPED_RUNS waiting = {0};
	struct book_part part = {.without_stations = true};
	struct reckoned_change change = *whole;
	size_t left = whole->vessel_count;
	bool done = true;
	change.waiting = &waiting;
	do {
		change.vessel_count = left < VESSELS_AT_ONCE ? left : VESSELS_AT_ONCE;
		left -= change.vessel_count;
		change.figures = left == 0 ? whole->figures : NULL;
		narrow(&change, names, &part);
		/* loading all at once is half the work of loading the same as a part */
		bool at_once = change.all && left == 0;
		done = load_and_put(desk, at_once ? NULL : &part, &change, fault);
		change.none_kept = change.none_kept || change.all;
		change.all = false;
		change.gone_count = 0;
		change.vessels += change.vessel_count;
	} while (done && left > 0);
	return done;
}

/* True when an act has loaded all these vessels after it wrote the last of what it
 * writes. */
static bool
act_has_loaded(const struct desk *desk, const struct book_part *part)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t found = 0;
	for (size_t i = 0; i < part->vessel_count; i++) {
		for (size_t j = 0; j < inventory->vessel_count; j++) {
			found +=
			    strcmp(inventory->vessels[j].name, part->vessels[i]) == 0;
		}
	}
	return desk->as_written && found == part->vessel_count;
}

/* Keeps the dates of gear that was just written by what was written; false where it must be read
 * back. */
static bool
put_rows(struct desk *desk, const struct reckoned_change *change)
{
	struct fault ignored = {0};
	return reckoning_put_rows(desk, change, &ignored);
}

bool
reckoning_put(struct desk *desk, const struct reckoned_by *by, bool all,
    const struct touched_vessel *vessels, size_t count, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	const char *there[FEW_VESSELS];
	struct book_part part = {.without_stations = true, .before = &desk->contents};
	struct reckoned_change change = {
	    .meanings = (int)DUE_MEANING_COUNT,
	    .all = all,
	    .vessels = vessels,
	    .vessel_count = count,
	    .gone = by->gone,
	    .gone_count = by->gone_count,
	    .seen = desk->today,
	};
	if (!reckoning_figures(desk, by, &arena, &change.figures, fault)) {
		return false;
	}
	if (all && !every_vessel(desk, &arena, &change, fault)) {
		return false;
	}
	if (desk->written != NULL && put_rows(desk, &change)) {
		return true;
	}
	if (all || count > FEW_VESSELS) {
		return put_in_parts(desk, &change, fault);
	}
	narrow(&change, there, &part);
	return part.vessel_count > 0 && act_has_loaded(desk, &part)
		   ? engine_of_open_book(desk, NULL, fault) &&
			 reckoning_put_loaded(desk, desk, &change, fault)
		   : load_and_put(desk, &part, &change, fault);
}

/* Keeps the dates of what was touched since they were last kept. */
static bool
keep(struct desk *desk, const struct reckoned_by *by, struct fault *fault)
{
	return reckoning_put(
	    desk, by, by->figures == NULL, by->touched, by->touched_count, fault);
}

bool
reckoning_keep_within(struct desk *desk)
{
	SCOPED_ARENA arena = {0};
	struct reckoned_by by = {0};
	struct fault ignored = {0};
	if (desk->behind || !book_load_reckoned_by(desk->book, &arena, &by, &ignored)) {
		return false;
	}
	return !by.news || keep(desk, &by, &ignored);
}

void
reckoning_keep(struct desk *desk)
{
	SCOPED_ARENA arena = {0};
	struct reckoned_by by = {0};
	struct fault ignored = {0};
	if (!desk->writing || desk->behind ||
	    (desk->kept_with > 0 && desk->kept_with == book_entries_made(desk->book)) ||
	    !book_load_reckoned_by(desk->book, &arena, &by, &ignored) || !by.news ||
	    !book_begin(desk->book, &ignored)) {
		return;
	}
	/* by now another program may have written */
	if (!book_load_reckoned_by(desk->book, &arena, &by, &ignored) ||
	    !keep(desk, &by, &ignored) || !book_commit(desk->book, &ignored)) {
		book_rollback(desk->book);
	}
}
