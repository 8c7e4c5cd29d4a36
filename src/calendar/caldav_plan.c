#include "calendar/caldav_plan.h"

#include "calendar/read_back.h"
#include "calendar/reminders_inside.h"

#include <stdlib.h>
#include <string.h>

/* Both sides and what was before, each by UID. */
struct push_planning {
	enum caldav_keep keep; /* for the one at hand */
	const struct caldav_sides *sides;
	day_t today;
	const struct caldav_ours **ours;
	const struct book_pushed **before;
	const struct caldav_theirs **theirs;
	size_t our_count, before_count, their_count;
	size_t our_at, before_at, their_at;
	struct caldav_deed *deeds;
	size_t count;
};

static int
compare_ours(const void *a, const void *b)
{
	const struct caldav_ours *const *left = a;
	const struct caldav_ours *const *right = b;
	return strcmp((*left)->uid, (*right)->uid);
}

static int
compare_before(const void *a, const void *b)
{
	const struct book_pushed *const *left = a;
	const struct book_pushed *const *right = b;
	return strcmp((*left)->uid, (*right)->uid);
}

static int
compare_theirs(const void *a, const void *b)
{
	const struct caldav_theirs *const *left = a;
	const struct caldav_theirs *const *right = b;
	int order = strcmp((*left)->uid, (*right)->uid);
	return order != 0 ? order : strcmp((*left)->url, (*right)->url);
}

/* Sorted lists of pointers to the elements. */
static void
sort_sides(
    struct push_planning *planning, const struct caldav_sides *sides, struct arena *arena)
{
	planning->our_count = sides->our_count;
	planning->before_count = sides->before_count;
	planning->their_count = sides->their_count;
	size_t total = sides->our_count + sides->before_count + sides->their_count;
	planning->ours = arena_alloc(arena, (sides->our_count + 1) * sizeof(void *));
	planning->before = arena_alloc(arena, (sides->before_count + 1) * sizeof(void *));
	planning->theirs = arena_alloc(arena, (sides->their_count + 1) * sizeof(void *));
	planning->deeds = arena_alloc(arena, (total + 1) * sizeof *planning->deeds);
	for (size_t i = 0; i < sides->our_count; i++) {
		planning->ours[i] = &sides->ours[i];
	}
	for (size_t i = 0; i < sides->before_count; i++) {
		planning->before[i] = &sides->before[i];
	}
	for (size_t i = 0; i < sides->their_count; i++) {
		planning->theirs[i] = &sides->theirs[i];
	}
	qsort(planning->ours, sides->our_count, sizeof(void *), compare_ours);
	qsort(planning->before, sides->before_count, sizeof(void *), compare_before);
	qsort(planning->theirs, sides->their_count, sizeof(void *), compare_theirs);
}

static bool
same(day_t a_day, const char *a_rest, day_t b_day, const char *b_rest)
{
	return a_day == b_day && strcmp(a_rest, b_rest) == 0;
}

/* A person's change: left, accepted or planned, or undone by `undo`. */
static void
settle_change(const struct push_planning *planning, struct caldav_deed *deed,
    enum caldav_finding finding, enum caldav_act undo)
{
	bool plannable = finding == CALDAV_FOUND_MOVED && deed->ours != NULL &&
			 !deed->ours->fixed && deed->theirs->day >= planning->today;
	deed->finding = finding;
	deed->both =
	    plannable && deed->before != NULL &&
	    given_both_moved(deed->before->our_day, deed->ours->day, deed->theirs->day);
	switch (planning->keep) {
	case CALDAV_ASK:
		deed->act = plannable && !deed->both ? CALDAV_PLAN : CALDAV_LEAVE;
		break;
	case CALDAV_KEEP_THEIRS:
		deed->act = plannable ? CALDAV_PLAN : CALDAV_ACCEPT;
		break;
	case CALDAV_KEEP_OURS:
		deed->act = undo;
		break;
	}
}

/* Moved when nothing but the day differs from what was last known there, or from what is
 * wanted now. */
static enum caldav_finding
name_change(const struct caldav_deed *deed)
{
	bool rest_as_before = strcmp(deed->theirs->rest, deed->before->their_rest) == 0;
	bool rest_as_wanted =
	    deed->ours != NULL && strcmp(deed->theirs->rest, deed->ours->rest) == 0;
	bool moved = deed->theirs->day != DAY_NONE &&
		     (rest_as_wanted || (rest_as_before && deed->theirs->day !=
							       deed->before->their_day));
	return moved ? CALDAV_FOUND_MOVED : CALDAV_FOUND_EDITED;
}

/* Wanted, and not there. */
static void
plan_missing(const struct push_planning *planning, struct caldav_deed *deed)
{
	const struct book_pushed *before = deed->before;
	if (before == NULL) {
		deed->act = CALDAV_CREATE;
		return;
	}
	bool accepted =
	    before->kept && before->url[0] == '\0' && planning->keep != CALDAV_KEEP_OURS;
	if (accepted &&
	    same(deed->ours->day, deed->ours->rest, before->our_day, before->our_rest)) {
		deed->finding = CALDAV_FOUND_REMOVED;
		return;
	}
	settle_change(planning, deed, CALDAV_FOUND_REMOVED, CALDAV_CREATE);
}

/* Wanted, and there, and the book knows nothing of its being there. */
static void
plan_strange(const struct push_planning *planning, struct caldav_deed *deed, bool alike)
{
	if (alike) {
		deed->act = CALDAV_NOTE;
	} else {
		settle_change(planning, deed, CALDAV_FOUND_STRANGE, CALDAV_CHANGE);
	}
}

/* True when nothing but the day was changed there, and to one of an older version. */
static bool
is_older_copy(const struct push_planning *planning, const struct caldav_deed *deed)
{
	const struct caldav_theirs *theirs = deed->theirs;
	const struct given_list list = {
	    planning->sides->given, planning->sides->given_count};
	const struct book_given *given = given_find(&list, theirs->uid, theirs->sequence);
	return given != NULL && given->day == theirs->day &&
	       given_is_older(&list, given) && name_change(deed) == CALDAV_FOUND_MOVED;
}

/* Wanted, and there. */
static void
plan_present(const struct push_planning *planning, struct caldav_deed *deed)
{
	const struct caldav_ours *ours = deed->ours;
	const struct caldav_theirs *theirs = deed->theirs;
	const struct book_pushed *before = deed->before;
	bool alike = same(ours->day, ours->rest, theirs->day, theirs->rest);
	if (before == NULL) {
		plan_strange(planning, deed, alike);
		return;
	}
	bool they_changed =
	    !same(theirs->day, theirs->rest, before->their_day, before->their_rest);
	bool we_changed = !same(ours->day, ours->rest, before->our_day, before->our_rest);
	bool known = strcmp(theirs->url, before->url) == 0 &&
		     strcmp(theirs->etag, before->etag) == 0;
	bool taken_back = before->kept && planning->keep == CALDAV_KEEP_OURS;
	if (alike) {
		bool settled = !they_changed && !we_changed && !before->kept && known;
		deed->act = settled ? CALDAV_NOTHING : CALDAV_NOTE;
	} else if (!they_changed && !we_changed && !taken_back) {
		deed->finding = before->kept ? name_change(deed) : CALDAV_FOUND_NOTHING;
		deed->act = known ? CALDAV_NOTHING : CALDAV_NOTE;
	} else if (!before->kept && (!they_changed || is_older_copy(planning, deed))) {
		deed->act = CALDAV_CHANGE;
	} else {
		settle_change(planning, deed, name_change(deed), CALDAV_CHANGE);
	}
}

static bool
is_ticked(const struct caldav_theirs *theirs)
{
	return strcmp(theirs->status, "COMPLETED") == 0;
}

/* No longer wanted. */
static void
plan_outdated(const struct push_planning *planning, struct caldav_deed *deed)
{
	const struct caldav_theirs *theirs = deed->theirs;
	const struct book_pushed *before = deed->before;
	deed->outdated = true;
	if (theirs == NULL) {
		deed->act = CALDAV_FORGET;
	} else if (before == NULL) {
		settle_change(planning, deed, CALDAV_FOUND_STRANGE, CALDAV_REMOVE);
	} else if (before->kept && before->our_rest[0] == '\0' &&
		   planning->keep != CALDAV_KEEP_OURS) {
		deed->finding = CALDAV_FOUND_EDITED; /* it is theirs now */
	} else if (before->kept || !same(theirs->day, theirs->rest, before->their_day,
				       before->their_rest)) {
		settle_change(planning, deed, name_change(deed), CALDAV_REMOVE);
		bool at_rest = is_ticked(theirs) && deed->act == CALDAV_LEAVE;
		deed->act = at_rest ? CALDAV_ACCEPT : deed->act;
	} else {
		deed->act = CALDAV_REMOVE;
	}
}

/* The least of the three UIDs that come next; NULL at the end. */
static const char *
next_uid(const struct push_planning *planning)
{
	const char *uid = NULL;
	if (planning->our_at < planning->our_count) {
		uid = planning->ours[planning->our_at]->uid;
	}
	if (planning->before_at < planning->before_count) {
		const char *other = planning->before[planning->before_at]->uid;
		uid = uid == NULL || strcmp(other, uid) < 0 ? other : uid;
	}
	if (planning->their_at < planning->their_count) {
		const char *other = planning->theirs[planning->their_at]->uid;
		uid = uid == NULL || strcmp(other, uid) < 0 ? other : uid;
	}
	return uid;
}

/* The resource at the address that is remembered, else the first; the others are spoken of
 * and left alone. */
static const struct caldav_theirs *
take_theirs(struct push_planning *planning, const struct caldav_deed *deed)
{
	size_t first = planning->their_at;
	size_t end = first;
	size_t chosen = first;
	while (end < planning->their_count &&
	       strcmp(planning->theirs[end]->uid, deed->uid) == 0) {
		bool remembered =
		    deed->before != NULL &&
		    strcmp(planning->theirs[end]->url, deed->before->url) == 0;
		chosen = remembered ? end : chosen;
		end++;
	}
	planning->their_at = end;
	for (size_t i = first; i < end; i++) {
		if (i != chosen) {
			planning->deeds[planning->count++] =
			    (struct caldav_deed){.act = CALDAV_LEAVE,
				.finding = CALDAV_FOUND_TWICE,
				.uid = deed->uid,
				.ours = deed->ours,
				.theirs = planning->theirs[i]};
		}
	}
	return end == first ? NULL : planning->theirs[chosen];
}

/* What a person chose for this one, else what holds of all. */
static enum caldav_keep
keep_of(const struct caldav_sides *sides, const char *uid, enum caldav_keep usual)
{
	for (size_t i = 0; i < sides->choice_count; i++) {
		if (strcmp(sides->choices[i].uid, uid) == 0) {
			return sides->choices[i].keep;
		}
	}
	return usual;
}

static void
plan_uid(struct push_planning *planning, const char *uid, enum caldav_keep usual)
{
	struct caldav_deed deed = {.uid = uid};
	planning->keep = keep_of(planning->sides, uid, usual);
	if (planning->our_at < planning->our_count &&
	    strcmp(planning->ours[planning->our_at]->uid, uid) == 0) {
		deed.ours = planning->ours[planning->our_at++];
	}
	if (planning->before_at < planning->before_count &&
	    strcmp(planning->before[planning->before_at]->uid, uid) == 0) {
		deed.before = planning->before[planning->before_at++];
	}
	deed.theirs = take_theirs(planning, &deed);
	if (deed.ours == NULL) {
		plan_outdated(planning, &deed);
	} else if (deed.theirs == NULL) {
		plan_missing(planning, &deed);
	} else {
		plan_present(planning, &deed);
	}
	planning->deeds[planning->count++] = deed;
}

void
caldav_plan(const struct caldav_sides *sides, enum caldav_keep keep, struct arena *arena,
    struct caldav_deed **out, size_t *count_out)
{
	struct push_planning planning = {.sides = sides, .today = sides->today};
	sort_sides(&planning, sides, arena);
	for (const char *uid = next_uid(&planning); uid != NULL;
	     uid = next_uid(&planning)) {
		plan_uid(&planning, uid, keep);
	}
	*out = planning.deeds;
	*count_out = planning.count;
}
