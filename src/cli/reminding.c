#include "cli/reminding.h"

#include "desk/plans.h"
#include "desk/settling.h"

#include <string.h>

/* The reminders, with what they were made from and what was given out before. */
struct made {
	struct reminders reminders;
	struct shore_list *lists;
	size_t list_count;
	const struct book_reminder *stored;
	size_t stored_count;
	int64_t entry; /* the journal's last */
	const char *const *gone;
	size_t gone_count;
};

static bool
make(struct context *context, struct made *made, struct fault *fault)
{
	struct reminder_choices choices = {0};
	struct reminder_source source = {.kinds = context->desk.engine.kinds,
	    .inventory = &context->desk.contents.inventory,
	    .stations = context->desk.contents.stations,
	    .station_count = context->desk.contents.station_count,
	    .choices = &choices,
	    .engine = &context->desk.engine,
	    .currency = context->desk.contents.inventory.currency,
	    .today = context->desk.today};
	const struct plans_wish everyone = {0};
	if (!book_load_reminders(context->desk.book, &context->desk.arena, &made->stored,
		&made->stored_count, fault)) {
		return false;
	}
	if (!book_last_entry(context->desk.book, &source.entry, fault)) {
		return false;
	}
	made->entry = source.entry;
	source.stored = made->stored;
	source.stored_count = made->stored_count;
	return plans_make(
		   &context->desk, &everyone, &made->lists, &made->list_count, fault) &&
	       book_load_choices(
		   context->desk.book, &context->desk.arena, &choices, fault) &&
	       falls_find(&context->desk.engine, context->desk.today,
		   &context->desk.arena, &source.falls, &source.fall_count, fault) &&
	       reminders_make(&source, made->lists, made->list_count,
		   &context->desk.arena, &made->reminders, fault);
}

/* What the book is to remember of each. */
static bool
store(struct context *context, const struct made *made, struct fault *fault)
{
	const struct reminders *reminders = &made->reminders;
	struct book_reminder *kept =
	    arena_alloc(&context->desk.arena, (reminders->count + 1) * sizeof *kept);
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		kept[i] = (struct book_reminder){.key = reminder->key,
		    .uid = reminder->uid,
		    .sequence = reminder->sequence,
		    .modified = reminder->modified,
		    .shape = reminder->shape,
		    .day = reminder->day,
		    .aim = reminder->aim,
		    .entry = made->entry,
		    .summary = reminder->summary,
		    .description = reminder->description};
	}
	return book_store_reminders(context->desk.book, kept, reminders->count,
		   made->gone, made->gone_count, fault) &&
	       settling_keep(&context->desk, made->lists, made->list_count,
		   &(struct settling_which){0}, fault);
}

/* What of a vessel that has left is at a station stays to be collected. */
static bool
load(struct context *context, struct fault *fault)
{
	context->desk.left_gear = LEFT_ASHORE;
	return desk_engine(&context->desk, NULL, fault);
}

static bool
settle(struct context *context, struct made *made, struct fault *fault)
{
	return load(context, fault) && make(context, made, fault) &&
	       reminders_settle(&made->reminders, made->stored, made->stored_count,
		   book_identity(context->desk.book), context->desk.now,
		   &context->desk.arena, &made->gone, &made->gone_count, fault);
}

bool
reminding_settled_both(
    struct context *context, struct reminders *out, struct fault *fault)
{
	struct made made = {0};
	if (!settle(context, &made, fault) || !store(context, &made, fault)) {
		return false;
	}
	*out = made.reminders;
	return true;
}

bool
reminding_settled(
    struct context *context, bool todos, struct reminders *out, struct fault *fault)
{
	if (!reminding_settled_both(context, out, fault)) {
		return false;
	}
	reminders_keep_form(out, todos);
	return true;
}

bool
reminding_seen_both(struct context *context, struct reminders *out, struct fault *fault)
{
	struct made made = {0};
	if (!settle(context, &made, fault)) {
		return false;
	}
	*out = made.reminders;
	return true;
}

bool
reminding_seen(struct context *context, struct reminders *out, struct fault *fault)
{
	if (!reminding_seen_both(context, out, fault)) {
		return false;
	}
	reminders_keep_form(out, false);
	return true;
}

bool
reminding_keep_hand_in(struct context *context, const char *key, struct fault *fault)
{
	struct shore_list *lists = NULL;
	size_t count = 0;
	const struct plans_wish everyone = {0};
	return load(context, fault) &&
	       plans_make(&context->desk, &everyone, &lists, &count, fault) &&
	       settling_keep(&context->desk, lists, count,
		   &(struct settling_which){.key = key}, fault);
}

static bool
has_vessel(const struct context *context, const struct scope *scope)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		const char *name =
		    scope->kind == SCOPE_VESSEL ? vessel->name : vessel->base;
		if (strcmp(name, scope->name) == 0) {
			return true;
		}
	}
	return false;
}

static bool
has_station(const struct context *context, const char *name)
{
	return station_named(context->desk.contents.stations,
		   context->desk.contents.station_count, name) != NULL;
}

bool
reminding_check_scope(
    const struct context *context, const struct scope *scope, struct fault *fault)
{
	switch (scope->kind) {
	case SCOPE_FLEET:
		return true;
	case SCOPE_VESSEL:
		return has_vessel(context, scope) ||
		       fault_set(
			   fault, FAULT_INPUT, "there is no vessel \"%s\"", scope->name);
	case SCOPE_BASE:
		return has_vessel(context, scope) ||
		       fault_set(fault, FAULT_INPUT, "no vessel has the base \"%s\"",
			   scope->name);
	case SCOPE_STATION:
		return has_station(context, scope->name) ||
		       fault_set(
			   fault, FAULT_INPUT, "there is no station \"%s\"", scope->name);
	}
	return false;
}

bool
reminding_scope(
    struct context *context, const char *who, struct scope *out, struct fault *fault)
{
	static const struct {
		const char *option;
		enum scope_kind kind;
	} SCOPES[] = {
	    {"vessel", SCOPE_VESSEL}, {"base", SCOPE_BASE}, {"station", SCOPE_STATION}};
	struct scope scope = {SCOPE_FLEET, ""};
	for (size_t i = 0; i < sizeof SCOPES / sizeof SCOPES[0]; i++) {
		const char *name = options_value(context->given, SCOPES[i].option);
		if (name == NULL) {
			continue;
		}
		if (scope.kind != SCOPE_FLEET) {
			return usage_fault(fault, who,
			    "--%s does not go with another of --vessel, --base and "
			    "--station",
			    SCOPES[i].option);
		}
		scope = (struct scope){SCOPES[i].kind, name};
	}
	if (!load(context, fault) || !reminding_check_scope(context, &scope, fault)) {
		return false;
	}
	*out = scope;
	return true;
}

const char *
reminding_calendar_name(const struct scope *scope)
{
	bool fits = scope->name[0] != '\0' && strpbrk(scope->name, ",;\\") == NULL;
	return fits ? scope->name : "becket";
}
