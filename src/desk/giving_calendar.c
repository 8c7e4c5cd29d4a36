/* A calendar file, made base by base and kept out of memory until it is written. */
#include "calendar/ics.h"
#include "desk/files.h"
#include "desk/giving_out.h"
#include "desk/inside.h"
#include "desk/reminding.h"

#include <string.h>

struct calendar_act {
	const struct calendar_request *request;
	struct calendar_outcome *out;
	struct arena arena;
	struct reminding_basis basis;
	struct runs events; /* those of the file, by day, then key */
	struct runs given;  /* all that is given out with it, by key */
	struct placed_hand_ins settled;
	struct gone_reminders gone;
	struct new_file file;
};

static void
forget_plan(struct calendar_act *act)
{
	arena_clear(&act->arena);
	runs_clear(&act->events);
	runs_clear(&act->given);
	book_gone_clear(&act->gone);
	act->settled = (struct placed_hand_ins){0};
}

/* ---- planned ---- */

static bool
keep_events(struct desk *desk, const struct reminders_made *made,
    struct calendar_act *act, struct fault *fault)
{
	const struct calendar_request *request = act->request;
	const struct reminders wanted =
	    reminding_wanted(desk, made, request->todos, &request->scope);
	SCOPED_TEXT event = {0};
	for (size_t i = 0; i < wanted.count; i++) {
		const struct reminder *reminder = &wanted.items[i];
		text_reset(&event);
		if (!ics_add(reminder, &event, fault)) {
			return false;
		}
		runs_add(
		    &act->events, &(struct run_piece){reminder->day, text_string(&event),
				      event.length, reminder->key});
	}
	runs_end(&act->events);
	act->out->count += wanted.count;
	return true;
}

/* The numbers of a reminder that is given out. */
struct packed_reminder {
	int64_t sequence, modified, day, aim;
};

static int
compare_keys(const void *left, const void *right)
{
	const struct reminder *const *a = left;
	const struct reminder *const *b = right;
	return strcmp((*a)->key, (*b)->key);
}

/* Keeps each as numbers and four strings, each with the zero at its end. */
static void
keep_given(const struct reminders *reminders, struct arena *arena, struct runs *given)
{
	const struct reminder **sorted =
	    ARENA_MANY(arena, const struct reminder *, reminders->count);
	SCOPED_TEXT packed = {0};
	for (size_t i = 0; i < reminders->count; i++) {
		sorted[i] = &reminders->items[i];
	}
	array_sort(sorted, reminders->count, sizeof(struct reminder *), compare_keys);
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *one = sorted[i];
		const struct packed_reminder numbers = {
		    one->sequence, one->modified, one->day, one->aim};
		const char *const strings[] = {
		    one->uid, one->shape, one->summary, one->description};
		text_reset(&packed);
		text_add_bytes(&packed, (const char *)&numbers, sizeof numbers);
		for (size_t k = 0; k < sizeof strings / sizeof strings[0]; k++) {
			text_add_bytes(&packed, strings[k], strlen(strings[k]) + 1);
		}
		runs_add(given, &(struct run_piece){
				    0, text_string(&packed), packed.length, one->key});
	}
	runs_end(given);
}

static bool
keep_part(struct desk *desk, struct reminders_made *made, const size_t *places, void *of,
    struct fault *fault)
{
	struct calendar_act *act = of;
	keep_given(&made->reminders, &desk->arena, &act->given);
	return keep_events(desk, made, act, fault) &&
	       placing_find(desk, made->lists, made->list_count,
		   &(struct settling_which){.by = GIVEN_BY_FILE}, places, &act->arena,
		   &act->settled, fault);
}

/* Something done with each of what was kept; where it fails the rest is passed over. */
struct walking {
	struct calendar_act *act;
	struct desk *desk;
	struct fault *fault;
	bool failed;
	/* reminders that wait to be stored */
	struct arena arena;
	struct book_reminder *items;
	size_t count;
};

static void
find_gone(const struct run_piece *piece, void *of)
{
	struct walking *walking = of;
	walking->failed = walking->failed || !book_gone_before(&walking->act->gone,
						 piece->word, walking->fault);
}

static void
take_event(const struct run_piece *piece, void *of)
{
	struct calendar_act *act = of;
	spool_add(&act->out->ics, piece->bytes, piece->length);
}

static bool
put_together(struct calendar_act *act, struct fault *fault)
{
	const struct calendar_request *request = act->request;
	const char *name = request->name != NULL
			       ? request->name
			       : reminding_calendar_name(&request->scope);
	SCOPED_TEXT head = {0};
	SCOPED_TEXT end = {0};
	ics_end(&end);
	if (!ics_begin(name, &head, fault)) {
		return false;
	}
	spool_add(&act->out->ics, text_string(&head), head.length);
	if (!runs_merge(&act->events, take_event, act, fault)) {
		return false;
	}
	spool_add(&act->out->ics, text_string(&end), end.length);
	return true;
}

/* With the book in the same state. */
static bool
end_plan(struct desk *desk, void *of, struct fault *fault)
{
	struct calendar_act *act = of;
	struct walking walking = {.act = act, .desk = desk, .fault = fault};
	act->gone = (struct gone_reminders){.book = desk->book};
	if (!put_together(act, fault) ||
	    !runs_merge(&act->given, find_gone, &walking, fault) || walking.failed ||
	    !book_gone_before(&act->gone, NULL, fault)) {
		return false;
	}
	/* it tells of which revision all this is */
	return desk->loaded || ask_about(desk, &STATIONS_PART, LEFT_ASHORE, fault);
}

static bool
plan_calendar(struct desk *desk, void *of, struct fault *fault)
{
	struct calendar_act *act = of;
	forget_plan(act);
	spool_clear(&act->out->ics);
	act->out->count = 0;
	return reminding_by_bases(desk, LEFT_ASHORE,
	    &(struct reminding_taker){
		.take = keep_part, .then = end_plan, .context = act},
	    &act->arena, &act->basis, fault);
}

/* ---- written ---- */

enum { STORED_AT_ONCE = 256 };

static void
store_waiting(struct walking *walking)
{
	walking->failed =
	    walking->failed || !book_store_reminders(walking->desk->book, walking->items,
				   walking->count, NULL, 0, walking->fault);
	arena_reset(&walking->arena);
	walking->count = 0;
}

static void
take_given(const struct run_piece *piece, void *of)
{
	struct walking *walking = of;
	struct arena *arena = &walking->arena;
	struct packed_reminder numbers;
	const char *strings[4];
	const char *at = piece->bytes + sizeof numbers;
	if (walking->failed) {
		return;
	}
	memcpy(&numbers, piece->bytes, sizeof numbers);
	for (size_t i = 0; i < sizeof strings / sizeof strings[0]; i++) {
		strings[i] = arena_string(arena, at);
		at += strlen(at) + 1;
	}
	walking->items[walking->count++] =
	    (struct book_reminder){.key = arena_string(arena, piece->word),
		.uid = strings[0],
		.sequence = (int)numbers.sequence,
		.modified = numbers.modified,
		.shape = strings[1],
		.day = (day_t)numbers.day,
		.aim = (day_t)numbers.aim,
		.entry = walking->act->basis.entry,
		.summary = strings[2],
		.description = strings[3]};
	if (walking->count == STORED_AT_ONCE) {
		store_waiting(walking);
	}
}

static bool
store_given(struct desk *desk, struct calendar_act *act, struct fault *fault)
{
	struct book_reminder waiting[STORED_AT_ONCE];
	struct walking walking = {
	    .act = act, .desk = desk, .fault = fault, .items = waiting};
	bool done = runs_merge(&act->given, take_given, &walking, fault);
	if (done) {
		store_waiting(&walking);
	}
	arena_clear(&walking.arena);
	return done && !walking.failed &&
	       book_store_reminders(
		   desk->book, NULL, 0, act->gone.items, act->gone.count, fault);
}

static bool
write_calendar(struct desk *desk, void *of, struct fault *fault)
{
	struct calendar_act *act = of;
	const char *path = act->request->path;
	return (path == NULL ||
		   new_file_write_kept(path, &act->out->ics, &act->file, fault)) &&
	       store_given(desk, act, fault) && placing_write(desk, &act->settled, fault);
}

bool
desk_calendar(struct desk *desk, const struct calendar_request *request,
    struct calendar_outcome *out, struct fault *fault)
{
	struct calendar_act act = {.request = request, .out = out};
	desk->left_gear = LEFT_ASHORE;
	bool done = act_run_about(desk, &STATIONS_PART, NULL, plan_calendar,
			write_calendar, &act, fault) &&
		    (request->path == NULL || new_file_keep(&act.file, fault));
	new_file_clear(&act.file);
	forget_plan(&act);
	return done;
}
