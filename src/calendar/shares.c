/* Reminders of a winter that a person put on a day after its end. */
#include "calendar/reminders_inside.h"

void
making_key_share(struct making *making, const char *word, const struct share *share)
{
	text_add(&making->key, word);
	making_key_name(making, making_vessel(making));
	text_add_format(&making->key, "|%d", share->year);
}

/* True when a person's day for the reminder of a share lies ahead. */
static bool
is_planned(struct making *making, const char *word, const struct share *share)
{
	making_start(making);
	making_key_share(making, word, share);
	return choices_planned(making->source->choices, text_string(&making->key),
		   making->today) != DAY_NONE;
}

/* Moves to the winter before what was not done in it. */
static void
divide(const struct making *making, struct share *before, struct share *now)
{
	const struct shore_lines all = now->lines;
	size_t size = (all.count + 1) * sizeof *all.items;
	before->lines.items = arena_alloc(making->arena, size);
	now->lines = (struct shore_lines){.items = arena_alloc(making->arena, size)};
	for (size_t i = 0; i < all.count; i++) {
		const struct shore_line *line = &all.items[i];
		bool missed = line->state != STATE_IN_DATE ||
			      line->due < making->list->winter.lay_up;
		struct shore_lines *to = missed ? &before->lines : &now->lines;
		to->items[to->count++] = *line;
	}
}

/* Adds what can't be done in time any more and would have been in a part. */
static void
add_missed(const struct making *making, enum own_part part, struct share *now)
{
	const struct shore_lines *cannot = &making->list->cannot;
	const struct shore_lines all = now->lines;
	size_t room = all.count + cannot->count + 1;
	now->lines = (struct shore_lines){
	    .items = arena_alloc(making->arena, room * sizeof *all.items)};
	for (size_t i = 0; i < all.count; i++) {
		now->lines.items[now->lines.count++] = all.items[i];
	}
	for (size_t i = 0; i < cannot->count; i++) {
		if (cannot->items[i].own == part) {
			now->lines.items[now->lines.count++] = cannot->items[i];
		}
	}
}

void
making_shares(struct making *making, const char *word, enum own_part part,
    const struct shore_lines *lines, struct share out[SHARES])
{
	const struct shore_list *list = making->list;
	const struct vessel *vessel = &making->wording.inventory->vessels[list->vessel];
	struct share *before = &out[0];
	struct share *now = &out[1];
	struct winter winter;
	*before = (struct share){.over = true};
	*now = (struct share){
	    .year = list->has_winter ? list->winter.year : 0, .lines = *lines};
	if (!list->has_winter) {
		return;
	}
	if (part != PART_NONE && is_planned(making, word, now)) {
		add_missed(making, part, now);
	}
	if (!winter_before(vessel, list->winter.lay_up - 1, &winter)) {
		return;
	}
	before->year = winter.year;
	if (is_planned(making, word, before)) {
		divide(making, before, now);
	}
}

void
making_note_share(struct making *making, const struct share *share, day_t last)
{
	if (share->over) {
		text_add(&making->description, WINTER_OVER);
	} else {
		making_note_too_late(making, last);
	}
}
