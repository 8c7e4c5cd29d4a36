/* This winter: another day for a bag, tried on a copy of the book. */
#include "desk/remind.h"
#include "gear/money.h"
#include "page/planning.h"

#include <string.h>

/* Adds "Holm Quay Safety Service: hand in 2 Dec 2026 in place of 25 Nov 2026". */
static void
compare_trip(const struct trip *before, const struct trip *after, struct text *out)
{
	char was[DAY_WORDS_SIZE];
	char becomes[DAY_WORDS_SIZE];
	const char *name = station_words(after->name);
	if (before->hand_in != after->hand_in) {
		text_add_format(out, "%s: hand in %s in place of %s.\n", name,
		    day_words(after->hand_in, becomes), day_words(before->hand_in, was));
	}
	if (before->collect != after->collect && after->collect != DAY_NEVER) {
		text_add_format(out, "%s: collect %s in place of %s.\n", name,
		    day_words(after->collect, becomes), day_words(before->collect, was));
	}
	if (after->misfit != DAY_SERVES && after->misfit != before->misfit) {
		text_add_format(out, "%s: that day does not serve: %s.\n", name,
		    day_misfit_word(after->misfit));
	}
	if (before->lines.count != after->lines.count) {
		text_add_format(out, "%s: %zu in place of %zu lines of work.\n", name,
		    after->lines.count, before->lines.count);
	}
}

/* The same trip in the other list; NULL for none. */
static const struct trip *
same_trip(const struct trips *trips, const struct trip *trip)
{
	for (size_t i = 0; i < trips->count; i++) {
		const struct trip *other = &trips->items[i];
		if (strcmp(other->name, trip->name) == 0 && other->year == trip->year &&
		    other->number == trip->number) {
			return other;
		}
	}
	return NULL;
}

/* The differences between two lists of one winter, a line each. */
static void
compare_lists(const struct shore_list *before, const struct shore_list *after,
    const char *currency, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	for (size_t i = 0; i < after->hand_in.count; i++) {
		const struct trip *trip = &after->hand_in.items[i];
		const struct trip *was = same_trip(&before->hand_in, trip);
		if (was != NULL) {
			compare_trip(was, trip, out);
		} else {
			text_add_format(out, "%s: one more bag, handed in %s.\n",
			    station_words(trip->name), day_words(trip->hand_in, day));
		}
	}
	for (size_t i = 0; i < before->hand_in.count; i++) {
		const struct trip *trip = &before->hand_in.items[i];
		if (same_trip(&after->hand_in, trip) == NULL) {
			text_add_format(out, "%s: no bag goes there on %s any more.\n",
			    station_words(trip->name), day_words(trip->hand_in, day));
		}
	}
	if (after->cannot.count != before->cannot.count) {
		text_add_format(out, "%zu in place of %zu can’t be done in time.\n",
		    after->cannot.count, before->cannot.count);
	}
	if (after->cost_minor != before->cost_minor) {
		text_add(out, "The winter costs ");
		text_add(out, currency);
		text_add_byte(out, ' ');
		money_add(after->cost_minor, currency, out);
		text_add(out, " in place of ");
		money_add(before->cost_minor, currency, out);
		text_add(out, ".\n");
	}
	if (out->length == 0) {
		text_add(out,
		    "Nothing moves: it is the day planned. It becomes yours and stays.\n");
	}
}

bool
winter_plan_day(struct desk *desk, const struct trip *trip, const char *owner, day_t day,
    struct fault *fault)
{
	const char *uid = NULL;
	struct said_day said = {.what = SAID_PLAN, .day = day};
	const struct remind_request request = {.days = &said, .day_count = 1};
	const struct hand_in_named named = {owner, trip->name, trip->year, trip->number};
	if (!desk_hand_in_uid(desk, &named, &uid, fault)) {
		return false;
	}
	said.of = uid;
	return desk_remind(desk, &request, fault);
}

bool
winter_try_day(struct winter_page *page, const struct trip *trip, day_t day,
    struct text *out, struct fault *fault)
{
	SCOPED_DESK trial = {0};
	struct winter_answer after = {0};
	const struct plans_wish wish = {.vessel = page->vessel->name};
	page_try(page->visit, &trial);
	bool done = winter_plan_day(&trial, trip, trip_owner(page, trip), day, fault) &&
		    desk_winter(&trial, &wish, &after, fault);
	if (done) {
		compare_lists(page->list, after.lists,
		    page->visit->desk.contents.inventory.currency, out);
	}
	return done;
}
