#include "calendar/caldav_inside.h"
#include "calendar/ics.h"
#include "calendar/ics_read.h"

#include <stdlib.h>
#include <string.h>

/* What is looked for while the calendar is read. */
struct event_survey {
	const struct caldav_push *push;
	struct arena *arena;
	struct caldav_ours *ours;
	const struct book_pushed *before;
	size_t before_count;
	const struct book_pushed **by_url; /* what was pushed before, by address */
	const char **uids;                 /* of what is wanted or was pushed, sorted */
	size_t uid_count;
	struct caldav_theirs *theirs;
	size_t their_count;
	const char **fetch; /* addresses to be fetched at once */
	size_t fetch_count;
	const char **rest; /* addresses of what is likely somebody's own */
	size_t rest_count;
};

static int
compare_urls(const void *a, const void *b)
{
	const struct book_pushed *const *left = a;
	const struct book_pushed *const *right = b;
	return strcmp((*left)->url, (*right)->url);
}

static const struct book_pushed *
find_url(const struct event_survey *survey, const char *url)
{
	const struct book_pushed wanted = {.url = url};
	const struct book_pushed *key = &wanted;
	const struct book_pushed **found = bsearch(
	    &key, survey->by_url, survey->before_count, sizeof(void *), compare_urls);
	return found == NULL ? NULL : *found;
}

/* True for one of this book's. */
static bool
is_own(struct event_survey *survey, const char *uid, bool *out, struct fault *fault)
{
	*out = bsearch(&uid, survey->uids, survey->uid_count, sizeof(void *),
		   text_order) != NULL;
	return *out || book_has_uid(survey->push->book, uid, out, fault);
}

/* A reminder as a person will see it: what is written, read back. */
static bool
take_ours(struct event_survey *survey, const struct reminder *reminder,
    struct caldav_ours *out, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT ics = {0};
	SCOPED_TEXT rest = {0};
	struct ics_found *found = NULL;
	size_t count = 0;
	if (!ics_write_resource(reminder, &ics, fault) ||
	    !ics_read(ics.bytes, ics.length, &arena, &found, &count, fault)) {
		return false;
	}
	ics_digest(&found[0], &rest);
	*out = (struct caldav_ours){
	    .uid = reminder->uid,
	    .summary = arena_string(survey->arena, found[0].summary),
	    .day = found[0].day,
	    .rest = arena_string(survey->arena, text_string(&rest)),
	    .fixed = reminder->last_chance,
	};
	return true;
}

void
caldav_read_resource(const struct caldav_resource *resource, const char *uid,
    struct arena *arena, struct caldav_theirs *out)
{
	SCOPED_TEXT rest = {0};
	struct fault unread = {0};
	struct ics_found *found = NULL;
	size_t count = 0;
	struct caldav_theirs theirs = {.uid = uid,
	    .url = resource->url,
	    .etag = resource->etag,
	    .summary = "",
	    .status = "",
	    .day = DAY_NONE,
	    .done_on = DAY_NONE,
	    .rest = "unreadable"};
	bool read = ics_read(
	    resource->data, strlen(resource->data), arena, &found, &count, &unread);
	if (read && count > 0) {
		found[0].repeats = found[0].repeats || count > 1;
		ics_digest(&found[0], &rest);
		theirs.uid = found[0].uid;
		theirs.summary = found[0].summary;
		theirs.status = found[0].status;
		theirs.day = found[0].day;
		theirs.done_on = found[0].completed;
		theirs.sequence = found[0].sequence;
		theirs.rest = arena_string(arena, text_string(&rest));
	}
	*out = theirs;
}

static void
gather_uids(struct event_survey *survey)
{
	const struct caldav_push *push = survey->push;
	size_t most = push->count + survey->before_count;
	survey->uids = arena_alloc(survey->arena, (most + 1) * sizeof(void *));
	for (size_t i = 0; i < push->count; i++) {
		survey->uids[survey->uid_count++] = push->reminders[i].uid;
	}
	for (size_t i = 0; i < survey->before_count; i++) {
		survey->uids[survey->uid_count++] = survey->before[i].uid;
	}
	qsort(survey->uids, survey->uid_count, sizeof(void *), text_order);
}

static bool
gather_own(struct event_survey *survey, struct fault *fault)
{
	const struct caldav_push *push = survey->push;
	if (!book_load_pushed(push->book, push->calendar, survey->arena, &survey->before,
		&survey->before_count, fault)) {
		return false;
	}
	survey->ours =
	    arena_alloc(survey->arena, (push->count + 1) * sizeof *survey->ours);
	survey->by_url =
	    arena_alloc(survey->arena, (survey->before_count + 1) * sizeof(void *));
	for (size_t i = 0; i < push->count; i++) {
		if (!take_ours(survey, &push->reminders[i], &survey->ours[i], fault)) {
			return false;
		}
	}
	for (size_t i = 0; i < survey->before_count; i++) {
		survey->by_url[i] = &survey->before[i];
	}
	qsort(survey->by_url, survey->before_count, sizeof(void *), compare_urls);
	gather_uids(survey);
	return true;
}

/* The UID that an address is named after, when it is one of this book's; else NULL. */
static bool
uid_in_url(
    struct event_survey *survey, const char *url, const char **out, struct fault *fault)
{
	bool own = false;
	const char *slash = strrchr(url, '/');
	const char *start = slash == NULL ? url : slash + 1;
	size_t length = strlen(start);
	*out = NULL;
	if (length > 4 && strcmp(start + length - 4, ".ics") == 0) {
		const char *name = arena_bytes(survey->arena, start, length - 4);
		if (!is_own(survey, name, &own, fault)) {
			return false;
		}
		*out = own ? name : NULL;
	}
	return true;
}

/* What was not touched since it is known needs no fetching. */
static void
take_unchanged(struct event_survey *survey, const struct book_pushed *before)
{
	survey->theirs[survey->their_count++] = (struct caldav_theirs){
	    .uid = before->uid,
	    .url = before->url,
	    .etag = before->etag,
	    .summary = before->summary,
	    .status = "",
	    .day = before->their_day,
	    .done_on = DAY_NONE,
	    .rest = before->their_rest,
	};
}

/* Sorts what is listed into what is known, what is to be fetched, and the rest. */
static bool
sort_listed(struct event_survey *survey, const struct caldav_resources *listed,
    struct fault *fault)
{
	size_t room = (listed->count + 1) * sizeof(void *);
	survey->theirs =
	    arena_alloc(survey->arena, (listed->count + 1) * sizeof *survey->theirs);
	survey->fetch = arena_alloc(survey->arena, room);
	survey->rest = arena_alloc(survey->arena, room);
	for (size_t i = 0; i < listed->count; i++) {
		const struct caldav_resource *resource = &listed->items[i];
		const struct book_pushed *before = find_url(survey, resource->url);
		const char *uid = NULL;
		if (before == NULL && !uid_in_url(survey, resource->url, &uid, fault)) {
			return false;
		}
		if (before != NULL && strcmp(before->etag, resource->etag) == 0) {
			take_unchanged(survey, before);
		} else if (before != NULL || uid != NULL) {
			survey->fetch[survey->fetch_count++] = resource->url;
		} else {
			survey->rest[survey->rest_count++] = resource->url;
		}
	}
	return true;
}

/* Fetches, and keeps what has one of this book's UIDs. */
static bool
fetch(struct event_survey *survey, const char *const *urls, size_t count,
    struct fault *fault)
{
	const struct caldav_push *push = survey->push;
	struct caldav_resources got = {0};
	if (count == 0) {
		return true;
	}
	if (!caldav_fetch(
		push->http, push->calendar, urls, count, survey->arena, &got, fault)) {
		return false;
	}
	for (size_t i = 0; i < got.count; i++) {
		const struct book_pushed *before = find_url(survey, got.items[i].url);
		const char *uid = before == NULL ? NULL : before->uid;
		struct caldav_theirs theirs = {0};
		bool own = false;
		if (uid == NULL && !uid_in_url(survey, got.items[i].url, &uid, fault)) {
			return false;
		}
		caldav_read_resource(
		    &got.items[i], uid == NULL ? "" : uid, survey->arena, &theirs);
		if (!is_own(survey, theirs.uid, &own, fault)) {
			return false;
		}
		if (own) {
			survey->theirs[survey->their_count++] = theirs;
		}
	}
	return true;
}

/* True when a reminder that is wanted, or was pushed, is not among what is found. */
static void
misses_any(const struct event_survey *survey, bool *out)
{
	size_t count = survey->their_count;
	const char **found = arena_alloc(survey->arena, (count + 1) * sizeof(void *));
	for (size_t i = 0; i < count; i++) {
		found[i] = survey->theirs[i].uid;
	}
	qsort(found, count, sizeof(void *), text_order);
	/* one that a person removed, and was allowed to, is not missed */
	bool missing = false;
	size_t removed = 0;
	for (size_t i = 0; i < survey->before_count; i++) {
		const struct book_pushed *before = &survey->before[i];
		bool there = bsearch(&before->uid, found, count, sizeof(void *),
				 text_order) != NULL;
		removed += before->url[0] == '\0' && !there ? 1 : 0;
		missing = missing || (before->url[0] != '\0' && !there);
	}
	size_t absent = 0;
	for (size_t i = 0; i < survey->push->count; i++) {
		absent += bsearch(&survey->ours[i].uid, found, count, sizeof(void *),
			      text_order) == NULL
			      ? 1
			      : 0;
	}
	*out = missing || absent > removed;
}

bool
caldav_survey(const struct caldav_push *push, struct arena *arena,
    struct caldav_sides *out, struct fault *fault)
{
	struct event_survey survey = {.push = push, .arena = arena};
	struct caldav_resources listed = {0};
	bool missing = false;
	if (!gather_own(&survey, fault) ||
	    !caldav_list(push->http, push->calendar, arena, &listed, fault)) {
		return false;
	}
	if (!sort_listed(&survey, &listed, fault) ||
	    !fetch(&survey, survey.fetch, survey.fetch_count, fault)) {
		return false;
	}
	misses_any(&survey, &missing);
	if (missing && !fetch(&survey, survey.rest, survey.rest_count, fault)) {
		return false;
	}
	*out = (struct caldav_sides){
	    .ours = survey.ours,
	    .our_count = push->count,
	    .before = survey.before,
	    .before_count = survey.before_count,
	    .theirs = survey.theirs,
	    .their_count = survey.their_count,
	    .today = push->today,
	    .choices = push->choices,
	    .choice_count = push->choice_count,
	    .given = push->given,
	    .given_count = push->given_count,
	};
	return true;
}
