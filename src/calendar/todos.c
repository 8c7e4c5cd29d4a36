/* To-dos: one for each task of a shore list, so that a tick in a calendar program says which
 * task on which item was done. */
#include "calendar/reminders_inside.h"

#include <stdlib.h>
#include <string.h>

/* By when the line is to be done. */
static day_t
day_of_line(const struct shore_line *line)
{
	if (line->not_after != DAY_NONE) {
		return line->not_after;
	}
	return line->due == DAY_NEVER ? DAY_NONE : line->due;
}

static void
add_todo(
    struct making *making, const struct shore_line *line, const char *about, day_t day)
{
	const struct item *item = &making->wording.inventory->items[line->item];
	bool waits = strncmp(about, "now|", 4) != 0 && making->list->has_winter;
	struct shore_line copy = *line;
	const struct shore_lines alone = {.items = &copy, .count = 1, .capacity = 1};
	making_start(making);
	text_add(&making->key, "do");
	making_key_name(making, item->tag);
	/* No task that could be recorded by a tick: what is given back is gone. */
	text_add_format(&making->key, "|%s|%d",
	    line->give_back ? "give-back" : task_word(line->task),
	    waits ? making->list->winter.year : 0);
	making_aim(making, day == DAY_NONE ? day_of_line(line) : day, DAY_NEVER);
	text_add_format(&making->summary, "%s: %s (%s)", item->tag, shore_line_word(line),
	    making_vessel(making));
	wording_list(&making->wording, &alone, &making->description);
	wording_carry(&making->wording, &alone, &making->description);
	making_finish(
	    making, &(struct made_as){.station = "", .todo = true, .about = about});
}

void
todos_add(
    struct making *making, const struct shore_lines *lines, const char *about, day_t day)
{
	for (size_t i = 0; i < lines->count && !making->source->events; i++) {
		add_todo(making, &lines->items[i], about, day);
	}
}

/* Copies one part of a key without its backslashes; `*at` moves past it. */
static const char *
take_part(const char **at, struct arena *arena)
{
	char *part = arena_alloc(arena, strlen(*at) + 1);
	size_t length = 0;
	const char *from = *at;
	for (; *from != '\0' && *from != '|'; from++) {
		from += from[0] == '\\' && from[1] != '\0' ? 1 : 0;
		part[length++] = *from;
	}
	part[length] = '\0';
	*at = *from == '|' ? from + 1 : from;
	return part;
}

void
todo_of_key(const char *key, struct arena *arena, struct todo *out, bool *is_todo_out)
{
	struct fault ignored = {0};
	*is_todo_out = false;
	if (strncmp(key, TODO_KEY, strlen(TODO_KEY)) != 0) {
		return;
	}
	const char *at = key + 3;
	const char *tag = take_part(&at, arena);
	const char *word = take_part(&at, arena);
	struct todo todo = {.tag = tag};
	*is_todo_out = task_parse(word, &todo.task, &ignored);
	if (*is_todo_out) {
		*out = todo;
	}
}

void
hand_in_of_key(
    const char *key, struct arena *arena, struct settled_hand_in *out, bool *is_one_out)
{
	static const char OF_BASE[] = "base-hand-in|";
	static const char OF_VESSEL[] = "hand-in|";
	bool of_base = strncmp(key, OF_BASE, sizeof OF_BASE - 1) == 0;
	*is_one_out = of_base || strncmp(key, OF_VESSEL, sizeof OF_VESSEL - 1) == 0;
	if (!*is_one_out) {
		return;
	}
	const char *at = key + (of_base ? sizeof OF_BASE : sizeof OF_VESSEL) - 1;
	const char *owner = take_part(&at, arena);
	const char *winter = take_part(&at, arena);
	const char *station = take_part(&at, arena);
	const char *number = take_part(&at, arena);
	*out = (struct settled_hand_in){.of_base = of_base,
	    .owner = owner,
	    .winter = (int)strtol(winter, NULL, 10),
	    .station = station,
	    .number = (size_t)strtoul(number, NULL, 10),
	    .day = DAY_NONE,
	    .planned = DAY_NONE};
}

void
reminders_keep_form(struct reminders *reminders, bool todos)
{
	size_t kept = 0;
	for (size_t i = 0; i < reminders->count; i++) {
		if (reminders->items[i].todo == todos) {
			reminders->items[kept++] = reminders->items[i];
		}
	}
	reminders->count = kept;
}
