#include "winter/agenda.h"

#include <string.h>

void
first_word_not_in_date(const struct inventory *inventory, const struct agenda *agenda,
    struct arena *arena, struct first_word *out)
{
	struct agenda_row *rows = ARENA_MANY(arena, struct agenda_row, agenda->count);
	size_t kept = 0;
	for (size_t i = 0; i < agenda->count; i++) {
		const struct agenda_row *row = &agenda->items[i];
		const struct item *item = &inventory->items[row->item];
		bool hers =
		    out->vessel == NULL ||
		    strcmp(inventory->vessels[item->vessel].name, out->vessel) == 0;
		if (hers && row->state != STATE_IN_DATE && !row->routine &&
		    item->state != PLACE_RESERVE) {
			rows[kept++] = *row;
		}
	}
	out->rows = rows;
	out->row_count = kept;
}

void
first_word_divide(const struct coming *coming, size_t count, struct first_word *out)
{
	size_t week = 0;
	while (week < count && coming[week].day <= out->today + FIRST_WORD_WEEK) {
		week++;
	}
	size_t end = week;
	size_t days = 0;
	while (end < count) {
		bool new_day = end == week || coming[end].day != coming[end - 1].day;
		if (new_day && days == FIRST_WORD_DAYS) {
			break;
		}
		days += new_day ? 1 : 0;
		end++;
	}
	out->week = coming;
	out->week_count = week;
	out->next = coming + week;
	out->next_count = end - week;
}
