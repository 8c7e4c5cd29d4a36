/* The reminders of all boats, made base by base. */
#include "base/numbers.h"
#include "desk/inside.h"
#include "desk/reminding.h"

#include <string.h>

/* What was given out before, read once. */
struct making_by_bases {
	const struct reminding_taker *taker;
	struct arena arena;
	const struct book_reminder *stored;
	size_t stored_count;
	bool stored_read;
};

static bool
make_some(struct desk *desk, const size_t *places, void *of, struct fault *fault)
{
	struct making_by_bases *by = of;
	/* what was given out as to-dos is the most of it, and no event hangs on that */
	if (!by->stored_read && !book_load_reminders_but(desk->book, TODO_KEY, &by->arena,
				    &by->stored, &by->stored_count, fault)) {
		return false;
	}
	by->stored_read = true;
	struct reminders_made made = {
	    .stored = by->stored, .stored_count = by->stored_count, .stored_read = true};
	if (!reminding_make(desk, &made, fault)) {
		return false;
	}
	reminders_keep_form(&made.reminders, false);
	return by->taker->take(desk, &made, places, by->taker->context, fault);
}

static bool
make_then(struct desk *desk, void *of, struct fault *fault)
{
	const struct making_by_bases *by = of;
	return by->taker->then == NULL ||
	       by->taker->then(desk, by->taker->context, fault);
}

bool
reminding_by_bases(struct desk *desk, enum left_gear left,
    const struct reminding_taker *taker, struct fault *fault)
{
	struct making_by_bases by = {.taker = taker};
	bool done = ask_together(desk, left,
	    &(struct together_asked){
		.answer = make_some, .then = make_then, .question = &by, .plans = true},
	    fault);
	arena_clear(&by.arena);
	return done;
}

/* ---- a list of them ---- */

/* A row, and what it is sorted by. */
struct listed {
	struct reminder_row row;
	const char *key;
};

struct listing {
	struct arena *arena;
	const struct scope *scope;
	struct reminders_listed *out;
	struct listed *items;
	size_t count;
	size_t capacity;
};

/* By day, then key; behind them what was given up, by key. */
static int
compare_listed(const void *left, const void *right)
{
	const struct listed *a = left;
	const struct listed *b = right;
	int order = ORDER(a->row.given_up != NULL, b->row.given_up != NULL);
	if (a->row.given_up == NULL) {
		order = ORDER_THEN(order, a->row.day, b->row.day);
	}
	return order != 0 ? order : strcmp(a->key, b->key);
}

/* Keeps a row when the boats that it is about are no longer loaded. */
static void
keep_row(struct listing *listing, const struct reminder_row *row, const char *key)
{
	ARENA_ADD(listing->arena, listing,
	    (struct listed){*row, arena_string(listing->arena, key)});
	struct listed *kept = &listing->items[listing->count - 1];
	kept->row.uid = arena_string(listing->arena, row->uid);
	kept->row.summary = arena_string(listing->arena, row->summary);
	kept->row.description = arena_string(listing->arena, row->description);
	kept->row.station = arena_string(listing->arena, row->station);
	kept->row.given_up = arena_string(listing->arena, row->given_up);
}

static bool
list_some(struct desk *desk, struct reminders_made *made, const size_t *places, void *of,
    struct fault *fault)
{
	static const struct plans_wish EVERYONE = {0};
	struct listing *listing = of;
	struct reminders_seen seen = {0};
	struct reminder_row *rows = NULL;
	(void)places;
	if (!reminding_see(desk, &EVERYONE, made, &seen, fault)) {
		return false;
	}
	reminders_narrow(&seen.reminders, &desk->contents.inventory, listing->scope);
	size_t count = desk_reminder_rows(desk, &seen, &rows);
	size_t reminders = seen.reminders.count;
	for (size_t i = 0; i < count; i++) {
		keep_row(listing, &rows[i],
		    i < reminders ? seen.reminders.items[i].key
				  : seen.given_up[i - reminders].of.key);
	}
	return true;
}

/* In the same state of the book. */
static bool
list_choices(struct desk *desk, void *of, struct fault *fault)
{
	struct listing *listing = of;
	return book_load_choices(
	    desk->book, listing->arena, &listing->out->choices, fault);
}

bool
desk_reminders_by_bases(struct desk *desk, const struct scope *scope, struct arena *arena,
    struct reminders_listed *out, struct fault *fault)
{
	struct listing listing = {.arena = arena, .scope = scope, .out = out};
	*out = (struct reminders_listed){0};
	if (!reminding_by_bases(desk, LEFT_ASHORE,
		&(struct reminding_taker){list_some, list_choices, &listing}, fault)) {
		return false;
	}
	ARRAY_SORT(listing.items, listing.count, compare_listed);
	out->rows = ARENA_MANY(arena, struct reminder_row, listing.count);
	for (size_t i = 0; i < listing.count; i++) {
		out->rows[i] = listing.items[i].row;
	}
	out->count = listing.count;
	return true;
}
