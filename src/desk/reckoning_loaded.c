/* Reckoning the dates of gear that is loaded, on a desk of its own, and keeping them. */
#include "desk/reckoning.h"

#include <stdlib.h>
#include <string.h>

struct desk
reckoning_desk_on(const struct desk *desk, const struct book_part *about)
{
	return (struct desk){.book_path = desk->book_path,
	    .book_named = desk->book_named,
	    .mode = desk->mode,
	    .today = desk->today,
	    .today_given = desk->today_given,
	    .now = desk->now,
	    .shelf = {.folder = desk->shelf.folder, .kinds = desk->shelf.kinds},
	    .book = desk->book,
	    .about = about};
}

bool
reckoning_desk(const struct desk *desk, const struct book_part *about, struct desk *out,
    struct fault *fault)
{
	*out = reckoning_desk_on(desk, about);
	return engine_of_open_book(out, NULL, fault);
}

void
reckoning_desk_clear(struct desk *loaded, struct desk *desk)
{
	loaded->book = NULL; /* the other's */
	if (desk->shelf.kinds == NULL || desk->shelf.kinds == loaded->shelf.kinds) {
		desk->shelf.kinds = loaded->shelf.kinds;
		loaded->shelf.kinds = NULL;
	}
	desk_clear(loaded);
}

static day_t
writable(day_t day)
{
	return day < DAY_MIN || day > DAY_MAX ? DAY_NONE : day;
}

void
reckon_item(const struct due_engine *engine, size_t item, day_t seen,
    struct arena *scratch, struct reckoned_rows *rows)
{
	const struct item *gear = &engine->inventory->items[item];
	struct obligation *obligations = NULL;
	size_t count = 0;
	due_of_item(engine, item, seen, scratch, &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		const struct obligation *of = &obligations[i];
		const struct reading *binding = of->binding;
		if (obligation_is_idle(of)) {
			continue;
		}
		ARRAY_ROOM(rows);
		rows->items[rows->count++] = (struct reckoned){
		    .vessel = engine->inventory->vessels[gear->vessel].name,
		    .tag = gear->tag,
		    .task = of->task,
		    .state = of->state,
		    .due = writable(of->due),
		    .good_through = writable(of->good_through),
		    .rule = binding != NULL ? binding->rule_id : "",
		    .sheet = binding != NULL && binding->rule != NULL
				 ? binding->rule->sheet
				 : "",
		};
	}
}

static int
compare_names(const void *key, const void *element)
{
	return strcmp(key, ((const struct touched_vessel *)element)->name);
}

const struct touched_vessel *
touched_find(const struct touched_vessel *vessels, size_t count, const char *name)
{
	return count == 0 ? NULL
			  : bsearch(name, vessels, count, sizeof *vessels, compare_names);
}

/* Adds the rows of all gear loaded that is on one of these vessels; `vessels` are by
 * name. */
static void
reckon_loaded(const struct desk *loaded, bool all, const struct touched_vessel *vessels,
    size_t count, struct reckoned_rows *rows)
{
	const struct inventory *inventory = &loaded->contents.inventory;
	struct arena scratch = {0};
	for (size_t i = 0; i < inventory->item_count; i++) {
		const char *name = inventory->vessels[inventory->items[i].vessel].name;
		if (all || touched_find(vessels, count, name) != NULL) {
			reckon_item(&loaded->engine, i, loaded->today, &scratch, rows);
		}
		arena_reset(&scratch);
	}
	arena_clear(&scratch);
}

bool
reckoning_put_loaded(struct desk *desk, const struct desk *loaded,
    struct reckoned_change *change, struct fault *fault)
{
	struct reckoned_rows rows = {0};
	if (loaded != NULL) {
		reckon_loaded(
		    loaded, change->all, change->vessels, change->vessel_count, &rows);
	}
	change->rows = rows.items;
	change->row_count = rows.count;
	bool done = book_put_reckoned(desk->book, change, fault);
	free(rows.items);
	return done;
}
