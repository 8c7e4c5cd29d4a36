/* What doing each thing only when it is due would come to. */
#include "years/moves_inside.h"

/* What is done to the whole when nothing is done before it must be: what would lapse
 * in the coming season, and its service where a part inside it would. */
static unsigned
due_of_whole(const struct laying *laying)
{
	const struct unit *unit = laying->unit;
	const struct member *whole = &unit->members[0];
	size_t winter = laying->winter;
	unsigned tasks = member_needs(whole, laying->from[0], winter, winter + 1) &
			 ~owners_refit(whole);
	for (size_t i = 1; i < unit->count && tasks == 0; i++) {
		const struct member *part = &unit->members[i];
		if (part->inside &&
		    member_needs(part, laying->from[i], winter, winter + 1) != 0) {
			unsigned service = whole->tasks & TASK_BIT(TASK_SERVICE);
			tasks = service != 0 ? service : whole->tasks;
		}
	}
	return tasks;
}

/* The season in which the whole lapses next when `whole` is done to it. */
static size_t
next_due(struct laying *laying, unsigned whole)
{
	struct unit *unit = laying->unit;
	uint32_t after = member_after(&unit->members[0], laying->from[0], laying->winter,
	    with_refit(laying, 0, whole));
	size_t until = laying->winter + 1;
	while (until < unit->make->ask->winters &&
	       member_fails(&unit->members[0], after, until) == 0) {
		until++;
	}
	return until;
}

/* One winter of that: what is done, where, and what it costs. */
static void
when_due_winter(struct laying *laying)
{
	struct unit *unit = laying->unit;
	const struct member *whole = &unit->members[0];
	size_t winters = unit->make->ask->winters;
	size_t at = 0;
	while (at < unit->station_count && !unit->open[at * winters + laying->winter]) {
		at++;
	}
	bool open = at < unit->station_count;
	unsigned tasks = due_of_whole(laying);
	bool ashore = (tasks & whole->tasks) != 0 ||
		      ((tasks & ANOTHER_BIT) != 0 && whole->renew_ashore);
	if (ashore && !open) {
		tasks = 0;
		ashore = false;
	}
	fill_parts(laying, tasks, open, next_due(laying, tasks));
	for (size_t i = 1; i < unit->count && open; i++) {
		const struct member *part = &unit->members[i];
		bool own = (laying->act[part->parent] & ANOTHER_BIT) == 0;
		bool asks = (laying->act[i] & ~owners_refit(part)) != 0;
		ashore = ashore || (own && part->rides && asks);
	}
	unit->when_due[laying->winter] = ashore ? unit->stations[at] : NO_STATION;
	unit->when_due_minor +=
	    own_cost(laying) + (ashore ? station_cost(laying, unit->stations[at]) : 0);
	for (size_t i = 0; i < unit->count; i++) {
		laying->to[i] = member_after(
		    &unit->members[i], laying->from[i], laying->winter, laying->act[i]);
	}
}

void
unit_when_due(struct unit *unit, struct arena *arena)
{
	const struct outlook_make *make = unit->make;
	size_t winters = make->ask->winters;
	struct laying laying;
	unit->when_due = ARENA_MANY(make->arena, size_t, winters);
	laying_open(unit, arena, 0, NULL, &laying);
	laying.from =
	    laying.to; /* all as they are; then always where the last winter led */
	for (; laying.winter < winters; laying.winter++) {
		unit->when_due[laying.winter] = NO_STATION;
		if (year_at(make, unit->place, laying.winter)->there) {
			when_due_winter(&laying);
		}
	}
}
