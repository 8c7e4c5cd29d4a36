/* The reminders of all boats, made base by base. */
#include "desk/inside.h"
#include "desk/reminding.h"

struct making_by_bases {
	const struct reminding_taker *taker;
	struct arena *arena;
	struct reminding_basis *basis;
	bool read;
};

static bool
make_some(struct desk *desk, const size_t *places, void *of, struct fault *fault)
{
	struct making_by_bases *by = of;
	if (!by->read && !reminding_read(desk, by->arena, by->basis, fault)) {
		return false;
	}
	by->read = true;
	struct reminders_made made = {.basis = by->basis, .events = by->taker->events};
	return reminding_make(desk, &made, fault) &&
	       by->taker->take(desk, &made, places, by->taker->context, fault);
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
    const struct reminding_taker *taker, struct arena *arena,
    struct reminding_basis *basis, struct fault *fault)
{
	struct making_by_bases by = {taker, arena, basis, false};
	return ask_together(desk, left,
	    &(struct together_asked){.answer = make_some,
		.then = make_then,
		.question = &by,
		.plans = true,
		.vessel = taker->vessel},
	    fault);
}

/* ---- a list of them ---- */

struct listing {
	const struct scope *scope;
	reminder_rows_taker *take;
	void *context;
};

static bool
list_some(struct desk *desk, struct reminders_made *made, const size_t *places, void *of,
    struct fault *fault)
{
	static const struct plans_wish EVERYONE = {0};
	const struct listing *listing = of;
	struct reminders_seen seen = {0};
	struct reminder_row *rows = NULL;
	(void)places;
	if (!reminding_see(desk, &EVERYONE, made, &seen, fault)) {
		return false;
	}
	reminders_narrow(&seen.reminders, &desk->contents.inventory, listing->scope);
	size_t count = desk_reminder_rows(desk, &seen, &rows);
	listing->take(rows, count, listing->context);
	return true;
}

bool
desk_reminders_by_bases(struct desk *desk, const struct scope *scope,
    reminder_rows_taker *take, void *context, struct arena *arena,
    struct reminder_choices *choices_out, struct fault *fault)
{
	struct listing listing = {scope, take, context};
	struct reminding_basis basis = {0};
	if (!reminding_by_bases(desk, LEFT_ASHORE,
		&(struct reminding_taker){
		    .take = list_some, .context = &listing, .events = true},
		arena, &basis, fault)) {
		return false;
	}
	*choices_out = basis.choices;
	return true;
}
