/* A piece serviced as planned: what is done to it and inside it, and when it is due
 * again. */
#include "rota/inside.h"
#include "years/outlook.h"

static bool
is_listed(const struct rota_piece *piece, struct rota_work work)
{
	bool listed = false;
	for (size_t i = 0; i < piece->works.count && !listed; i++) {
		const struct rota_work *other = &piece->works.items[i];
		listed = other->item == work.item && other->task == work.task;
	}
	return listed;
}

/* What is done to a thing on a day. Renewed, a part is new. A whole that a station renews
 * by its printed date is refitted, as a beacon with a battery, like what the sheets say
 * is: it stays fitted when it was, as a refit on record leaves it, so that no clock runs
 * later here than it will in the book. A date yet to be printed is taken to be as far
 * ahead as where the years ahead know none. */
static void
do_work(const struct rota_making *making, const struct rota_piece *piece,
    struct rota_work work, day_t day, struct arena *arena)
{
	struct item *item = &making->items[work.item];
	bool printed = work.task == TASK_RENEW && item->expires.precision != STAMP_NONE;
	bool refit = due_refits(making->ask->engine, item) ||
		     (printed && work.item == piece->item);
	struct item after = {0};
	due_item_after(item, work.task, day, refit, arena, &after);
	if (printed) {
		after.expires =
		    stamp_of_day(day_add_months(day, printed_life_months(item->kind)));
	}
	*item = after;
}

day_t
rota_again(const struct rota_making *making, const struct rota_piece *piece,
    struct rota_work work, day_t day)
{
	const struct rota_work renewal = {work.item, TASK_RENEW};
	struct item before = making->items[work.item];
	struct obligation again = {0};
	arena_reset(making->scratch);
	if (work.task != TASK_RENEW && is_listed(piece, renewal)) {
		do_work(making, piece, renewal, day, making->scratch);
	}
	due_if_done(&making->apart, work.item, work.task, day, making->scratch, &again);
	making->items[work.item] = before;
	bool printed = work.task == TASK_RENEW && again.state == STATE_DATE_UNKNOWN;
	bool in_date = again.state == STATE_IN_DATE;
	bool never = printed || (in_date && again.due == DAY_NONE);
	return never ? DAY_NEVER : in_date ? again.due : DAY_NONE;
}

/* Renews at this service what is inside and would lapse before the next. */
static void
do_inside(
    struct rota_making *making, const struct rota_piece *piece, size_t part, day_t again)
{
	struct obligation *obligations = NULL;
	size_t count = 0;
	arena_reset(making->scratch);
	due_of_item(making->ask->engine, part, making->ask->days.first, making->scratch,
	    &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		const struct obligation *obligation = &obligations[i];
		struct rota_work work = {part, obligation->task};
		bool lapses = obligation->state != STATE_IN_DATE ||
			      (obligation->due != DAY_NONE && obligation->due <= again);
		if (!obligation->routine && lapses && !is_listed(piece, work)) {
			do_work(making, piece, work, piece->line.hand_in, making->arena);
		}
	}
}

static void
do_parts(
    struct rota_making *making, const struct rota_piece *piece, size_t item, day_t again)
{
	const struct due_engine *engine = making->ask->engine;
	size_t part =
	    engine->first_part == NULL ? ITEM_NO_PARENT : engine->first_part[item];
	for (; part != ITEM_NO_PARENT; part = engine->next_part[part]) {
		const struct kind *kind =
		    kinds_find(engine->kinds, engine->inventory->items[part].kind);
		bool inside = kind != NULL && kind->inside;
		if (inside) {
			do_inside(making, piece, part, again);
		}
		do_parts(making, piece, part, again);
	}
}

void
rota_service(struct rota_making *making, struct rota_piece *piece)
{
	struct rota_line *line = &piece->line;
	line->again = DAY_NEVER;
	for (size_t i = 0; i < piece->works.count; i++) {
		day_t again =
		    rota_again(making, piece, piece->works.items[i], line->hand_in);
		line->again = day_min(line->again, again);
	}
	for (size_t i = 0; i < piece->works.count; i++) {
		do_work(
		    making, piece, piece->works.items[i], line->hand_in, making->arena);
	}
	do_parts(making, piece, piece->item, line->again);
}
