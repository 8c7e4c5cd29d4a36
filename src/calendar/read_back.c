#include "calendar/read_back.h"

#include "base/numbers.h"
#include "calendar/reminders_inside.h"

#include <stdlib.h>
#include <string.h>

/* Everything being compared. All memory is the arena's. */
struct comparing {
	const struct read_back_sides *sides;
	const struct reminder **by_uid;
	size_t reminder_count;
	const char **known; /* UIDs, sorted */
	size_t known_count;
	day_t today;
	struct arena *arena;
	struct read_back back;
};

static int
compare_uids(const void *a, const void *b)
{
	const struct reminder *const *left = a;
	const struct reminder *const *right = b;
	return strcmp((*left)->uid, (*right)->uid);
}

static int
compare_proposals(const void *a, const void *b)
{
	const struct proposal *left = a;
	const struct proposal *right = b;
	int order = ORDER(left->day, right->day);
	return order != 0 ? order : strcmp(left->reminder->key, right->reminder->key);
}

static const struct reminder *
find_reminder(const struct comparing *comparing, const char *uid)
{
	const struct reminder wanted = {.uid = uid};
	const struct reminder *key = &wanted;
	const struct reminder *const *found = bsearch(&key, comparing->by_uid,
	    comparing->reminder_count, sizeof(void *), compare_uids);
	return found == NULL ? NULL : *found;
}

static bool
is_known(const struct comparing *comparing, const char *uid)
{
	return bsearch(&uid, comparing->known, comparing->known_count, sizeof(void *),
		   text_order) != NULL;
}

static bool
is_ticked(const struct ics_found *found)
{
	return found->todo && strcmp(found->status, "COMPLETED") == 0;
}

static void
add_tick(struct comparing *comparing, const struct ics_found *found,
    const struct reminder *reminder)
{
	struct proposal proposal = {.kind = PROPOSAL_DONE, .reminder = reminder};
	bool is_todo = false;
	todo_of_key(reminder->key, comparing->arena, &proposal.todo, &is_todo);
	if (!is_todo) {
		comparing->back.odd++;
		return;
	}
	bool told = found->completed != DAY_NONE && found->completed <= comparing->today;
	proposal.day = told ? found->completed : comparing->today;
	proposal.day_assumed = !told;
	comparing->back.proposals[comparing->back.count++] = proposal;
}

/* True for one that can be planned as it stands. */
static bool
has_plain_day(const struct comparing *comparing, const struct ics_found *found)
{
	return found->day != DAY_NONE && found->day >= comparing->today &&
	       !found->repeats && strcmp(found->status, "CANCELLED") != 0;
}

/* Compares the day of one that is still wanted. */
static void
take_day(struct comparing *comparing, const struct ics_found *found,
    const struct reminder *reminder)
{
	struct read_back *back = &comparing->back;
	const struct given_list list = {
	    comparing->sides->given, comparing->sides->given_count};
	const struct book_given *given = given_find(&list, found->uid, found->sequence);
	bool old = given == NULL
		       ? found->sequence < reminder->sequence
		       : given->day == found->day && given_is_older(&list, given);
	day_t base = given == NULL ? reminder->day : given->day;
	bool plain = !found->repeats && strcmp(found->status, "CANCELLED") != 0;
	bool same = found->day == reminder->day || (!old && found->day == base);
	if (plain && same) {
		back->same++;
	} else if (plain && old) {
		back->older++;
	} else if (!has_plain_day(comparing, found) || reminder->last_chance) {
		back->odd++;
	} else {
		back->proposals[back->count++] = (struct proposal){.kind = PROPOSAL_MOVED,
		    .reminder = reminder,
		    .day = found->day,
		    .given = base,
		    .both = given_both_moved(base, reminder->day, found->day)};
	}
}

static void
take(struct comparing *comparing, const struct ics_found *found)
{
	const struct reminder *reminder = find_reminder(comparing, found->uid);
	if (reminder == NULL) {
		is_known(comparing, found->uid) ? comparing->back.old++
						: comparing->back.foreign++;
		return;
	}
	if (is_ticked(found)) {
		add_tick(comparing, found, reminder);
		return;
	}
	take_day(comparing, found, reminder);
}

static void
comparing_make(struct comparing *comparing, const struct read_back_sides *sides)
{
	const struct reminders *reminders = sides->reminders;
	struct arena *arena = comparing->arena;
	comparing->by_uid = arena_alloc(arena, (reminders->count + 1) * sizeof(void *));
	comparing->known = arena_alloc(arena, (sides->known_count + 1) * sizeof(void *));
	comparing->back.proposals = arena_alloc(
	    arena, (sides->found_count + 1) * sizeof *comparing->back.proposals);
	for (size_t i = 0; i < reminders->count; i++) {
		comparing->by_uid[i] = &reminders->items[i];
	}
	for (size_t i = 0; i < sides->known_count; i++) {
		comparing->known[i] = sides->known[i].uid;
	}
	comparing->reminder_count = reminders->count;
	comparing->known_count = sides->known_count;
	qsort(comparing->by_uid, reminders->count, sizeof(void *), compare_uids);
	qsort(comparing->known, sides->known_count, sizeof(void *), text_order);
}

/* A file may hold one thing twice: the first counts. */
static void
drop_repeats(struct comparing *comparing)
{
	size_t kept = 0;
	for (size_t i = 0; i < comparing->back.count; i++) {
		const struct proposal *proposal = &comparing->back.proposals[i];
		bool again = kept > 0 && comparing->back.proposals[kept - 1].reminder ==
					     proposal->reminder;
		if (!again) {
			comparing->back.proposals[kept++] = *proposal;
		}
	}
	comparing->back.count = kept;
}

static int
compare_reminders(const void *a, const void *b)
{
	const struct proposal *left = a;
	const struct proposal *right = b;
	int order = strcmp(left->reminder->key, right->reminder->key);
	return ORDER_THEN(order, left->day, right->day);
}

void
read_back(const struct read_back_sides *sides, struct arena *arena, struct read_back *out)
{
	struct comparing comparing = {
	    .sides = sides, .today = sides->today, .arena = arena};
	struct read_back *back = &comparing.back;
	comparing_make(&comparing, sides);
	for (size_t i = 0; i < sides->found_count; i++) {
		take(&comparing, &sides->found[i]);
	}
	qsort(back->proposals, back->count, sizeof *back->proposals, compare_reminders);
	drop_repeats(&comparing);
	qsort(back->proposals, back->count, sizeof *back->proposals, compare_proposals);
	*out = *back;
}

const struct book_given *
given_find(const struct given_list *list, const char *uid, int sequence)
{
	size_t low = 0;
	size_t high = list->count;
	while (low < high) { /* the first that comes after it */
		size_t middle = low + (high - low) / 2;
		const struct book_given *given = &list->items[middle];
		int order = strcmp(given->uid, uid);
		bool after = order > 0 || (order == 0 && given->sequence > sequence);
		low = after ? low : middle + 1;
		high = after ? middle : high;
	}
	const struct book_given *last = low == 0 ? NULL : &list->items[low - 1];
	return last != NULL && strcmp(last->uid, uid) == 0 ? last : NULL;
}

bool
given_is_older(const struct given_list *list, const struct book_given *given)
{
	const struct book_given *next = given + 1;
	return next < list->items + list->count && strcmp(next->uid, given->uid) == 0;
}

bool
given_both_moved(day_t given, day_t ours, day_t theirs)
{
	return given != ours && given != theirs && ours != theirs;
}
