#include "exchange/winter_csv.h"

#include "exchange/csv_quote.h"

#include <stdio.h>

static const char *const WINTER_COLUMNS[] = {"vessel", "winter", "part", "station",
    "hand_in", "collect", "tag", "kind", "task", "due", "not_before", "not_after",
    "price", "why", "standing", "earliest"};

struct shore_writing {
	const struct inventory *inventory;
	const struct shore_list *list;
	struct text *out;
};

static void
write_year(struct csv_line *line, int year)
{
	char buffer[16] = "";
	if (year != 0) {
		(void)snprintf(buffer, sizeof buffer, "%d", year);
	}
	csv_line_cell(line, buffer);
}

/* How the day of a hand-in stands: "new" where it was not given out yet, "later" where it is only
 * once the base's boats have all fitted out, "settled", "chosen" by a person, or what is wrong with a chosen one. */
static const char *
hand_in_word(const struct trip *trip)
{
	if (trip->misfit != DAY_SERVES) {
		return day_misfit_word(trip->misfit);
	}
	return trip->chosen      ? "chosen"
	       : trip->settled   ? "settled"
	       : trip->held_back ? "later"
				 : "new";
}

/* One row. `trip` is NULL for what goes to no station. */
static void
write_line(const struct shore_writing *writing, const char *part, const struct trip *trip,
    const struct shore_line *shore)
{
	const struct shore_list *list = writing->list;
	const struct item *item = &writing->inventory->items[shore->item];
	struct csv_line line = {.out = writing->out,
	    .columns = sizeof WINTER_COLUMNS / sizeof WINTER_COLUMNS[0]};
	csv_line_cell(&line, writing->inventory->vessels[list->vessel].name);
	int year = list->has_winter ? list->winter.year : 0;
	write_year(&line, shore->winter != 0 ? shore->winter : year);
	csv_line_cell(&line, part);
	csv_line_cell(&line, trip == NULL ? "" : trip->name);
	csv_line_day(&line, trip == NULL ? DAY_NONE : trip->hand_in);
	csv_line_day(&line, trip == NULL ? DAY_NONE : trip->collect);
	csv_line_cell(&line, item->tag);
	csv_line_cell(&line, item->kind);
	csv_line_cell(&line, task_word(shore->task));
	csv_line_day(&line, shore->due);
	csv_line_day(&line, shore->not_before);
	csv_line_day(&line, shore->not_after);
	csv_line_price(&line, writing->inventory->currency, shore->price_minor);
	bool refused = shore->why != NULL && *shore->why != '\0';
	const char *what = shore->what == NULL ? "" : shore->what;
	csv_line_cell(&line, refused ? shore->why : what);
	csv_line_cell(&line, trip == NULL ? "" : hand_in_word(trip));
	csv_line_day(&line, trip == NULL ? DAY_NONE : trip->earliest);
	csv_line_end(&line);
}

static void
write_part(const struct shore_writing *writing, const char *part, const struct trip *trip,
    const struct shore_lines *lines)
{
	for (size_t i = 0; i < lines->count; i++) {
		write_line(writing, part, trip, &lines->items[i]);
	}
}

static void
write_list(const struct shore_writing *writing)
{
	const struct shore_list *list = writing->list;
	for (size_t i = 0; i < list->hand_in.count; i++) {
		const struct trip *trip = &list->hand_in.items[i];
		write_part(writing, "hand-in", trip, &trip->lines);
	}
	write_part(writing, "self", NULL, &list->self);
	write_part(writing, "buy", NULL, &list->buy);
	write_part(writing, "paperwork", NULL, &list->paperwork);
	write_part(writing, "dispose", NULL, &list->dispose);
	write_part(writing, "waits", NULL, &list->waits);
	write_part(writing, "cannot", NULL, &list->cannot);
	write_part(writing, "now", NULL, &list->now);
}

void
csv_write_winter(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct text *out)
{
	csv_header(WINTER_COLUMNS, sizeof WINTER_COLUMNS / sizeof WINTER_COLUMNS[0], out);
	for (size_t i = 0; i < count; i++) {
		struct shore_writing writing = {inventory, &lists[i], out};
		write_list(&writing);
	}
}
