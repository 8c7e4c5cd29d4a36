/* Whose reminders are wanted. */
#include "calendar/reminders.h"

#include <string.h>

bool
scope_has_vessel(const struct scope *scope, const struct vessel *vessel)
{
	const char *name = scope->kind == SCOPE_VESSEL ? vessel->name : vessel->base;
	return strcmp(name, scope->name) == 0;
}

static bool
is_of_vessel(const struct reminder *reminder, const struct inventory *inventory,
    const struct scope *scope)
{
	for (size_t i = 0; i < reminder->vessel_count; i++) {
		if (scope_has_vessel(scope, &inventory->vessels[reminder->vessels[i]])) {
			return true;
		}
	}
	return false;
}

static bool
is_wanted(const struct reminder *reminder, const struct inventory *inventory,
    const struct scope *scope)
{
	switch (scope->kind) {
	case SCOPE_FLEET:
		return true;
	case SCOPE_VESSEL:
	case SCOPE_BASE:
		return is_of_vessel(reminder, inventory, scope);
	case SCOPE_STATION:
		return strcmp(reminder->station, scope->name) == 0;
	}
	return false;
}

void
reminders_narrow(struct reminders *reminders, const struct inventory *inventory,
    const struct scope *scope)
{
	size_t kept = 0;
	for (size_t i = 0; i < reminders->count; i++) {
		if (is_wanted(&reminders->items[i], inventory, scope)) {
			reminders->items[kept++] = reminders->items[i];
		}
	}
	reminders->count = kept;
}
