#include "calendar/caldav_push.h"

#include "calendar/caldav_inside.h"
#include "calendar/ics.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* A push on its way. */
struct pushing {
	const struct caldav_push *push;
	struct arena *arena;
	struct caldav_sides sides;
	struct caldav_report report;
};

static const struct reminder *
reminder_of(const struct pushing *pushing, const struct caldav_deed *deed)
{
	return &pushing->push->reminders[deed->ours - pushing->sides.ours];
}

static struct caldav_row
row_of(const struct pushing *pushing, const struct caldav_deed *deed)
{
	const char *summary = deed->theirs != NULL   ? deed->theirs->summary
			      : deed->before != NULL ? deed->before->summary
						     : "";
	return (struct caldav_row){
	    .act = deed->act,
	    .finding = deed->finding,
	    .outdated = deed->outdated,
	    .both = deed->both,
	    .fixed = deed->ours != NULL && deed->ours->fixed,
	    .uid = deed->uid,
	    .key = deed->ours == NULL ? "" : reminder_of(pushing, deed)->key,
	    .summary = deed->ours != NULL     ? deed->ours->summary
		       : deed->before != NULL ? deed->before->summary
					      : summary,
	    .their_summary = deed->theirs == NULL ? "" : deed->theirs->summary,
	    .their_status = deed->theirs == NULL ? "" : deed->theirs->status,
	    .why = "",
	    .our_day = deed->ours == NULL ? DAY_NONE : deed->ours->day,
	    .their_day = deed->theirs == NULL ? DAY_NONE : deed->theirs->day,
	    .done_on = deed->theirs == NULL ? DAY_NONE : deed->theirs->done_on,
	};
}

/* What is remembered of a deed whose two sides stand as they now do. */
static struct book_pushed
remember(const struct caldav_deed *deed)
{
	const struct caldav_ours *ours = deed->ours;
	const struct caldav_theirs *theirs = deed->theirs;
	const struct book_pushed *before = deed->before;
	return (struct book_pushed){
	    .uid = deed->uid,
	    .url = theirs == NULL ? "" : theirs->url,
	    .etag = theirs == NULL ? "" : theirs->etag,
	    .summary = ours != NULL     ? ours->summary
		       : before != NULL ? before->summary
		       : theirs != NULL ? theirs->summary
					: "",
	    .our_day = ours == NULL ? DAY_NONE : ours->day,
	    .our_rest = ours == NULL ? "" : ours->rest,
	    .their_day = theirs != NULL   ? theirs->day
			 : before != NULL ? before->their_day
					  : DAY_NONE,
	    .their_rest = theirs != NULL   ? theirs->rest
			  : before != NULL ? before->their_rest
					   : "",
	};
}

/* Agreement keeps no mark of a person's change; a change that was accepted keeps its own. */
static bool
note(const struct pushing *pushing, const struct caldav_deed *deed, struct fault *fault)
{
	struct book_pushed pushed = remember(deed);
	pushed.kept =
	    deed->act == CALDAV_ACCEPT || (deed->finding != CALDAV_FOUND_NOTHING &&
					      deed->before != NULL && deed->before->kept);
	return book_put_pushed(
	    pushing->push->book, pushing->push->calendar, &pushed, fault);
}

/* Stores the day that a person moved a reminder to. What is remembered is as if it had been
 * pushed for that day, so that the plan and the calendar agree. */
static bool
store_plan(
    const struct pushing *pushing, const struct caldav_deed *deed, struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	const struct reminder *reminder = reminder_of(pushing, deed);
	const struct planned_day planned = {
	    .key = reminder->key, .day = deed->theirs->day, .summary = reminder->summary};
	const struct choices_change change = {.planned = &planned, .planned_count = 1};
	struct book_pushed pushed = remember(deed);
	pushed.our_day = deed->theirs->day;
	pushed.our_rest = deed->before->our_rest;
	pushed.kept = deed->before->kept;
	bool stored = book_begin(push->book, fault) &&
		      book_put_choices(push->book, &change, fault) &&
		      book_put_pushed(push->book, push->calendar, &pushed, fault) &&
		      book_commit(push->book, fault);
	if (!stored) {
		book_rollback(push->book);
	}
	return stored;
}

/* What stands at an address now; `out->uid` is NULL when nothing does. */
static bool
look_again(const struct pushing *pushing, const char *url, const char *uid,
    struct caldav_theirs *out, struct fault *fault)
{
	struct caldav_resources got = {0};
	*out = (struct caldav_theirs){0};
	if (!caldav_fetch(pushing->push->http, pushing->push->calendar, &url, 1,
		pushing->arena, &got, fault)) {
		return false;
	}
	if (got.count == 1) {
		caldav_read_resource(&got.items[0], uid, pushing->arena, out);
	}
	return true;
}

/* Settles what a reply to a write leaves open. Where the server gave no ETag it is asked for,
 * and so is what the server made of the reminder. Where it found something else than was seen
 * before, it may be this very write that it found: a request whose answer was lost is sent
 * once more by curl. */
static bool
look_after(const struct pushing *pushing, const struct caldav_deed *deed,
    struct caldav_reply *reply, struct book_pushed *pushed, struct fault *fault)
{
	const struct caldav_ours *ours = deed->ours;
	struct caldav_theirs theirs = {0};
	pushed->url = reply->url;
	pushed->etag = reply->etag;
	pushed->their_day = ours->day;
	pushed->their_rest = ours->rest;
	bool open = reply->outcome == CALDAV_NOT_AS_SEEN ||
		    (reply->outcome == CALDAV_DONE && reply->etag[0] == '\0');
	if (!open) {
		return true;
	}
	if (!look_again(pushing, reply->url, deed->uid, &theirs, fault)) {
		return false;
	}
	if (theirs.uid == NULL) {
		return true; /* the next push will see */
	}
	bool ours_is_there = strcmp(theirs.uid, ours->uid) == 0 &&
			     theirs.day == ours->day &&
			     strcmp(theirs.rest, ours->rest) == 0;
	if (reply->outcome == CALDAV_NOT_AS_SEEN && ours_is_there) {
		reply->outcome = CALDAV_DONE;
	}
	pushed->etag = theirs.etag;
	pushed->their_day = theirs.day;
	pushed->their_rest = theirs.rest;
	return true;
}

/* Makes a reminder newer than what a person made of it. */
static bool
outdo(const struct pushing *pushing, const struct caldav_deed *deed,
    struct reminder *reminder, struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	struct caldav_theirs theirs = {0};
	if (!look_again(pushing, deed->theirs->url, deed->uid, &theirs, fault)) {
		return false;
	}
	if (theirs.uid == NULL || theirs.sequence < reminder->sequence ||
	    theirs.sequence == INT_MAX) {
		return true;
	}
	reminder->sequence = theirs.sequence + 1;
	reminder->modified =
	    reminder->modified < push->now ? push->now : reminder->modified + 1;
	const struct book_reminder *found = NULL;
	if (!book_find_reminder(
		push->book, reminder->key, pushing->arena, &found, fault)) {
		return false;
	}
	if (found == NULL) {
		return true;
	}
	struct book_reminder stored = *found; /* it stays as it was given out */
	stored.sequence = reminder->sequence;
	stored.modified = reminder->modified;
	return book_store_reminders(push->book, &stored, 1, NULL, 0, fault);
}

/* Writes a reminder, over what was seen there or as a new one. */
static bool
write(struct pushing *pushing, const struct caldav_deed *deed, struct caldav_reply *reply,
    struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	SCOPED_TEXT ics = {0};
	SCOPED_TEXT url = {0};
	const char *etag = NULL;
	struct reminder reminder = *reminder_of(pushing, deed);
	bool over_theirs =
	    deed->act == CALDAV_CHANGE && deed->finding != CALDAV_FOUND_NOTHING;
	if ((over_theirs && !outdo(pushing, deed, &reminder, fault)) ||
	    !ics_write_resource(&reminder, &ics, fault)) {
		return false;
	}
	if (deed->act == CALDAV_CHANGE) {
		text_add(&url, deed->theirs->url);
		etag = deed->theirs->etag;
	} else {
		size_t length = strlen(push->calendar);
		text_add(&url, push->calendar);
		text_add(&url, push->calendar[length - 1] == '/' ? "" : "/");
		http_escape(deed->uid, &url);
		text_add(&url, ".ics");
	}
	if (!caldav_put(push->http, text_string(&url), etag, &ics, pushing->arena, reply,
		fault)) {
		return false;
	}
	struct book_pushed pushed = remember(deed);
	return look_after(pushing, deed, reply, &pushed, fault) &&
	       (reply->outcome != CALDAV_DONE ||
		   book_put_pushed(push->book, push->calendar, &pushed, fault));
}

static bool
take_away(const struct pushing *pushing, const struct caldav_deed *deed,
    struct caldav_reply *reply, struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	return caldav_remove(push->http, deed->theirs->url, deed->theirs->etag,
		   pushing->arena, reply, fault) &&
	       (reply->outcome != CALDAV_DONE ||
		   book_drop_pushed(push->book, push->calendar, deed->uid, fault));
}

/* Does one deed and says what became of it. */
static bool
do_deed(struct pushing *pushing, const struct caldav_deed *deed, struct caldav_row *row,
    struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	struct caldav_reply reply = {.outcome = CALDAV_DONE, .why = ""};
	bool done = true;
	switch (deed->act) {
	case CALDAV_NOTHING:
	case CALDAV_LEAVE:
		break;
	case CALDAV_NOTE:
	case CALDAV_ACCEPT:
		done = note(pushing, deed, fault);
		break;
	case CALDAV_PLAN:
		done = store_plan(pushing, deed, fault);
		break;
	case CALDAV_FORGET:
		done = book_drop_pushed(push->book, push->calendar, deed->uid, fault);
		break;
	case CALDAV_CREATE:
	case CALDAV_CHANGE:
		done = write(pushing, deed, &reply, fault);
		break;
	case CALDAV_REMOVE:
		done = take_away(pushing, deed, &reply, fault);
		break;
	}
	if (done && reply.outcome != CALDAV_DONE) {
		row->act = CALDAV_LEAVE;
		row->why = reply.outcome == CALDAV_REFUSED
			       ? reply.why
			       : "it was changed there in this moment; push again";
	}
	return done;
}

/* True for a deed that is taken in this mode. */
static bool
is_taken(enum caldav_mode mode, enum caldav_act act)
{
	switch (mode) {
	case CALDAV_PUSH:
		return true;
	case CALDAV_PULL:
		return act == CALDAV_PLAN || act == CALDAV_ACCEPT;
	case CALDAV_TRY:
		return false;
	}
	return false;
}

/* The day that a row is about. */
static day_t
day_of(const struct caldav_row *row)
{
	return row->our_day != DAY_NONE ? row->our_day : row->their_day;
}

static int
compare_rows(const void *a, const void *b)
{
	const struct caldav_row *left = a;
	const struct caldav_row *right = b;
	int order = (day_of(left) > day_of(right)) - (day_of(left) < day_of(right));
	return order != 0 ? order : strcmp(left->uid, right->uid);
}

static bool
do_all(struct pushing *pushing, const struct caldav_deed *deeds, size_t count,
    struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	size_t written = 0;
	for (size_t i = 0; i < count; i++) {
		struct caldav_row *row = &pushing->report.rows[i];
		*row = row_of(pushing, &deeds[i]);
		if (is_taken(push->mode, deeds[i].act) &&
		    !do_deed(pushing, &deeds[i], row, fault)) {
			return fault_prefix(fault,
			    "pushing broke off, %zu changed before; push again to go on",
			    written);
		}
		written += row->act == CALDAV_CREATE || row->act == CALDAV_CHANGE ||
				   row->act == CALDAV_REMOVE
			       ? 1
			       : 0;
		if (push->progress != NULL) {
			push->progress(i + 1, count, push->context);
		}
	}
	pushing->report.count = count;
	if (count > 0) {
		qsort(pushing->report.rows, count, sizeof *pushing->report.rows,
		    compare_rows);
	}
	return true;
}

bool
caldav_push(const struct caldav_push *push, struct arena *arena,
    struct caldav_report *out, struct fault *fault)
{
	struct pushing pushing = {.push = push, .arena = arena};
	struct caldav_deed *deeds = NULL;
	size_t count = 0;
	if (!caldav_survey(push, arena, &pushing.sides, fault)) {
		return false;
	}
	caldav_plan(&pushing.sides, push->keep, arena, &deeds, &count);
	pushing.report.rows =
	    arena_alloc(arena, (count + 1) * sizeof *pushing.report.rows);
	if (!do_all(&pushing, deeds, count, fault)) {
		return false;
	}
	*out = pushing.report;
	return true;
}
