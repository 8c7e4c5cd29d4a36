#include "calendar/reminders_inside.h"

#include <stdlib.h>
#include <string.h>

static const char CATEGORY[] = "becket";

void
making_clear(struct making *making)
{
	text_clear(&making->key);
	text_clear(&making->summary);
	text_clear(&making->description);
}

const char *
making_vessel(const struct making *making)
{
	return making->wording.inventory->vessels[making->list->vessel].name;
}

const char *
making_base(const struct making *making, const struct shore_list *list)
{
	return making->wording.inventory->vessels[list->vessel].base;
}

bool
making_is_here(const struct making *making, const struct shore_list *list, day_t day)
{
	return vessel_is_here(&making->wording.inventory->vessels[list->vessel], day);
}

void
making_start(struct making *making)
{
	text_reset(&making->key);
	text_reset(&making->summary);
	text_reset(&making->description);
}

void
making_key_name(struct making *making, const char *name)
{
	text_add_byte(&making->key, '|');
	for (; *name != '\0'; name++) {
		if (*name == '|' || *name == '\\') {
			text_add_byte(&making->key, '\\');
		}
		text_add_byte(&making->key, *name);
	}
}

void
making_key_start(struct making *making, const char *word)
{
	text_add(&making->key, word);
	making_key_name(making, making_vessel(making));
	text_add_format(&making->key, "|%d",
	    making->list->has_winter ? making->list->winter.year : 0);
}

/* The vessel of the list at hand, for as long as the arena. */
static const size_t *
own_vessel(struct making *making)
{
	size_t *vessel = arena_alloc(making->arena, sizeof *vessel);
	*vessel = making->list->vessel;
	return vessel;
}

const char *
making_last_key(const struct making *making)
{
	return making->last_key == NULL ? "" : making->last_key;
}

const struct book_reminder *
making_stored(const struct making *making)
{
	const struct given_before *given = &making->source->given;
	const struct book_reminder *found =
	    given->find == NULL ? NULL
				: given->find(text_string(&making->key), given->of);
	return found == NULL || found->shape[0] == '\0' ? NULL : found;
}

void
making_on(struct making *making, day_t day)
{
	making->day = day;
	making->aim = day;
	making->wording.day = day;
}

void
making_aim_else(struct making *making, day_t aim, day_t otherwise)
{
	const struct reminder_choices *choices = making->source->choices;
	const struct book_reminder *stored = making_stored(making);
	day_t day = choices_planned(choices, text_string(&making->key), making->today);
	if (day == DAY_NONE && stored != NULL && stored->day >= making->today &&
	    stored->aim == aim) {
		day = stored->day;
	}
	if (day == DAY_NONE && aim != DAY_NONE && aim >= making->today) {
		day = aim;
	}
	making_on(making, day == DAY_NONE ? otherwise : day);
	making->aim = aim;
}

void
making_aim(struct making *making, day_t aim, day_t last)
{
	day_t day =
	    choices_weekday_from(making->source->choices, making->today + LEAD_DAYS);
	making_aim_else(making, aim, last >= making->today ? day_min(day, last) : day);
}

void
making_note_too_late(struct making *making, day_t last)
{
	const char *key = text_string(&making->key);
	if (making->day > last &&
	    choices_planned(making->source->choices, key, making->today) != DAY_NONE) {
		wording_too_late(last, &making->description);
	}
}

/* The number of the last entry that may have changed what a reminder says. */
static int64_t
last_entry(const struct making *making, const struct made_as *as)
{
	const struct reminder_source *source = making->source;
	size_t count = as->vessels == NULL ? 1 : as->vessel_count;
	const size_t *vessels = as->vessels == NULL ? &making->list->vessel : as->vessels;
	int64_t last = source->entry;
	for (size_t i = 0; i < count && source->entries != NULL; i++) {
		int64_t own = source->entries[vessels[i]];
		last = own > last ? own : last;
	}
	return last;
}

/* What was given out under the key in the working room and still holds; NULL for nothing. */
static const struct book_reminder *
still_says(const struct making *making, const struct made_as *as)
{
	const struct book_reminder *stored = making_stored(making);
	bool holds = stored != NULL && stored->day == making->day &&
		     stored->day >= making->today && stored->summary != NULL &&
		     stored->summary[0] != '\0' &&
		     stored->entry >= last_entry(making, as);
	return holds ? stored : NULL;
}

/* The next line of a text that is no "All: ...", does not say why it was moved, which
 * only the first text of the new day does, nor that a chosen day is too late, which it
 * stays; NULL after the last. Of a line of a list only the tag counts. */
static const char *
next_outline(const char *text, size_t *length_out)
{
	while (strncmp(text, "All: ", 5) == 0 || strncmp(text, "Moved from ", 11) == 0 ||
	       strncmp(text, "TOO LATE: ", 10) == 0) {
		text += strcspn(text, "\n");
		text += *text == '\n';
	}
	*length_out = strcspn(text, "\n");
	if (strncmp(text, "- ", 2) == 0) {
		*length_out = 2 + strcspn(text + 2, " \n");
	}
	return *text == '\0' ? NULL : text;
}

/* True when two hand-ins' texts are the same except for the reasons of their pieces. */
static bool
same_outline(const char *a, const char *b)
{
	size_t a_length = 0;
	size_t b_length = 0;
	a = next_outline(a, &a_length);
	b = next_outline(b, &b_length);
	while (a != NULL && b != NULL && a_length == b_length &&
	       memcmp(a, b, a_length) == 0) {
		a += strcspn(a, "\n");
		b += strcspn(b, "\n");
		a = next_outline(a + (*a == '\n'), &a_length);
		b = next_outline(b + (*b == '\n'), &b_length);
	}
	return a == NULL && b == NULL;
}

/* What is said of the reminder in the working room already and stays; NULL for nothing. */
static const struct book_reminder *
keeps_saying(const struct making *making, const struct made_as *as)
{
	const struct book_reminder *said = still_says(making, as);
	if (said == NULL || !as->hand_in) {
		return said;
	}
	bool same = as->as_given &&
		    same_outline(said->description, text_string(&making->description));
	return same ? said : NULL;
}

/* True when all whose reminder it is will have left by its day. */
static bool
is_for_nobody(const struct making *making, const struct made_as *as)
{
	const struct vessel *vessels = making->wording.inventory->vessels;
	bool here =
	    as->vessels == NULL && making_is_here(making, making->list, making->day);
	for (size_t i = 0; as->vessels != NULL && i < as->vessel_count; i++) {
		here = here || vessel_is_here(&vessels[as->vessels[i]], making->day);
	}
	return !here && !as->stays;
}

void
making_finish(struct making *making, const struct made_as *as)
{
	if (is_for_nobody(making, as)) {
		making->last_key = NULL;
		return;
	}
	wording_caution(&making->description);
	ARENA_ROOM(making->arena, &making->made);
	const struct book_reminder *said = keeps_saying(making, as);
	struct reminder reminder = {
	    .key = arena_string(making->arena, text_string(&making->key)),
	    .vessels = as->vessels == NULL ? own_vessel(making) : as->vessels,
	    .vessel_count = as->vessels == NULL ? 1 : as->vessel_count,
	    .station = as->station,
	    .last_chance = as->last_chance,
	    .todo = as->todo,
	    .about = as->about,
	    .day = making->day,
	    .aim = making->aim,
	    .summary = said != NULL
			   ? said->summary
			   : arena_string(making->arena, text_string(&making->summary)),
	    .description = said != NULL ? said->description
					: arena_string(making->arena,
					      text_string(&making->description)),
	    .category = CATEGORY,
	};
	making->made.items[making->made.count++] = reminder;
	making->last_key = reminder.key;
}

day_t
making_last_day(const struct shore_lines *lines)
{
	day_t last = DAY_NEVER;
	for (size_t i = 0; i < lines->count; i++) {
		if (lines->items[i].not_after != DAY_NONE) {
			last = day_min(last, lines->items[i].not_after);
		}
	}
	return last;
}

void
making_finish_here(struct making *making)
{
	making_finish(making, &(struct made_as){.station = "", .about = ""});
}

int
making_notice(const struct making *making, const struct shore_line *line, int otherwise)
{
	const struct item *item = &making->wording.inventory->items[line->item];
	return choices_notice(making->source->choices, item->kind, otherwise);
}
