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
reminder_of(const struct pushing *pushing, const struct caldav_deed *step)
{
	return &pushing->push->reminders[step->ours - pushing->sides.ours];
}

static struct caldav_row
row_of(const struct pushing *pushing, const struct caldav_deed *step)
{
	const char *summary = step->theirs != NULL   ? step->theirs->summary
			      : step->before != NULL ? step->before->summary
						     : "";
	return (struct caldav_row){
	    .act = step->act,
	    .finding = step->finding,
	    .outdated = step->outdated,
	    .both = step->both,
	    .fixed = step->ours != NULL && step->ours->fixed,
	    .uid = step->uid,
	    .key = step->ours == NULL ? "" : reminder_of(pushing, step)->key,
	    .summary = step->ours != NULL     ? step->ours->summary
		       : step->before != NULL ? step->before->summary
					      : summary,
	    .their_summary = step->theirs == NULL ? "" : step->theirs->summary,
	    .their_status = step->theirs == NULL ? "" : step->theirs->status,
	    .why = "",
	    .our_day = step->ours == NULL ? DAY_NONE : step->ours->day,
	    .their_day = step->theirs == NULL ? DAY_NONE : step->theirs->day,
	    .done_on = step->theirs == NULL ? DAY_NONE : step->theirs->done_on,
	};
}

/* What is remembered of a step whose two sides stand as they now do. */
static struct book_pushed
remember(const struct caldav_deed *step)
{
	const struct caldav_ours *ours = step->ours;
	const struct caldav_theirs *theirs = step->theirs;
	const struct book_pushed *before = step->before;
	return (struct book_pushed){
	    .uid = step->uid,
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
note(const struct pushing *pushing, const struct caldav_deed *step, struct fault *fault)
{
	struct book_pushed pushed = remember(step);
	pushed.kept =
	    step->act == CALDAV_ACCEPT || (step->finding != CALDAV_FOUND_NOTHING &&
					      step->before != NULL && step->before->kept);
	return book_put_pushed(
	    pushing->push->book, pushing->push->calendar, &pushed, fault);
}

/* Stores the day that a person moved a reminder to. What is remembered is as if it had been
 * pushed for that day, so that the plan and the calendar agree. */
static bool
store_plan(
    const struct pushing *pushing, const struct caldav_deed *step, struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	const struct reminder *reminder = reminder_of(pushing, step);
	const struct planned_day planned = {
	    .key = reminder->key, .day = step->theirs->day, .summary = reminder->summary};
	const struct choices_change change = {.planned = &planned, .planned_count = 1};
	struct book_pushed pushed = remember(step);
	pushed.our_day = step->theirs->day;
	pushed.our_rest = step->before->our_rest;
	pushed.kept = step->before->kept;
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
look_after(const struct pushing *pushing, const struct caldav_deed *step,
    struct caldav_reply *reply, struct book_pushed *pushed, struct fault *fault)
{
	const struct caldav_ours *ours = step->ours;
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
	if (!look_again(pushing, reply->url, step->uid, &theirs, fault)) {
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
outdo(const struct pushing *pushing, const struct caldav_deed *step,
    struct reminder *reminder, struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	struct caldav_theirs theirs = {0};
	if (!look_again(pushing, step->theirs->url, step->uid, &theirs, fault)) {
		return false;
	}
	if (theirs.uid == NULL || theirs.sequence < reminder->sequence ||
	    theirs.sequence == INT_MAX) {
		return true;
	}
	reminder->sequence = theirs.sequence + 1;
	reminder->modified =
	    reminder->modified < push->now ? push->now : reminder->modified + 1;
	struct book_reminder stored = {0};
	for (size_t i = 0; i < push->known_count; i++) {
		if (strcmp(push->known[i].key, reminder->key) == 0) {
			stored = push->known[i]; /* it stays as it was given out */
		}
	}
	stored.sequence = reminder->sequence;
	stored.modified = reminder->modified;
	return book_store_reminders(push->book, &stored, 1, NULL, 0, fault);
}

/* Writes a reminder, over what was seen there or as a new one. */
static bool
write(struct pushing *pushing, const struct caldav_deed *step, struct caldav_reply *reply,
    struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	SCOPED_TEXT ics = {0};
	SCOPED_TEXT url = {0};
	const char *etag = NULL;
	struct reminder reminder = *reminder_of(pushing, step);
	bool over_theirs =
	    step->act == CALDAV_CHANGE && step->finding != CALDAV_FOUND_NOTHING;
	if ((over_theirs && !outdo(pushing, step, &reminder, fault)) ||
	    !ics_write_resource(&reminder, &ics, fault)) {
		return false;
	}
	if (step->act == CALDAV_CHANGE) {
		text_add(&url, step->theirs->url);
		etag = step->theirs->etag;
	} else {
		size_t length = strlen(push->calendar);
		text_add(&url, push->calendar);
		text_add(&url, push->calendar[length - 1] == '/' ? "" : "/");
		http_escape(step->uid, &url);
		text_add(&url, ".ics");
	}
	if (!caldav_put(push->http, text_string(&url), etag, &ics, pushing->arena, reply,
		fault)) {
		return false;
	}
	struct book_pushed pushed = remember(step);
	return look_after(pushing, step, reply, &pushed, fault) &&
	       (reply->outcome != CALDAV_DONE ||
		   book_put_pushed(push->book, push->calendar, &pushed, fault));
}

static bool
take_away(const struct pushing *pushing, const struct caldav_deed *step,
    struct caldav_reply *reply, struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	return caldav_remove(push->http, step->theirs->url, step->theirs->etag,
		   pushing->arena, reply, fault) &&
	       (reply->outcome != CALDAV_DONE ||
		   book_drop_pushed(push->book, push->calendar, step->uid, fault));
}

/* Does one step and says what became of it. */
static bool
do_step(struct pushing *pushing, const struct caldav_deed *step, struct caldav_row *row,
    struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	struct caldav_reply reply = {.outcome = CALDAV_DONE, .why = ""};
	bool done = true;
	switch (step->act) {
	case CALDAV_NOTHING:
	case CALDAV_LEAVE:
		break;
	case CALDAV_NOTE:
	case CALDAV_ACCEPT:
		done = note(pushing, step, fault);
		break;
	case CALDAV_PLAN:
		done = store_plan(pushing, step, fault);
		break;
	case CALDAV_FORGET:
		done = book_drop_pushed(push->book, push->calendar, step->uid, fault);
		break;
	case CALDAV_CREATE:
	case CALDAV_CHANGE:
		done = write(pushing, step, &reply, fault);
		break;
	case CALDAV_REMOVE:
		done = take_away(pushing, step, &reply, fault);
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

/* True for a step that is taken in this mode. */
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
do_all(struct pushing *pushing, const struct caldav_deed *steps, size_t count,
    struct fault *fault)
{
	const struct caldav_push *push = pushing->push;
	size_t written = 0;
	for (size_t i = 0; i < count; i++) {
		struct caldav_row *row = &pushing->report.rows[i];
		*row = row_of(pushing, &steps[i]);
		if (is_taken(push->mode, steps[i].act) &&
		    !do_step(pushing, &steps[i], row, fault)) {
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
	struct caldav_deed *steps = NULL;
	size_t count = 0;
	if (!caldav_survey(push, arena, &pushing.sides, fault)) {
		return false;
	}
	caldav_plan(&pushing.sides, push->keep, arena, &steps, &count);
	pushing.report.rows =
	    arena_alloc(arena, (count + 1) * sizeof *pushing.report.rows);
	if (!do_all(&pushing, steps, count, fault)) {
		return false;
	}
	*out = pushing.report;
	return true;
}
