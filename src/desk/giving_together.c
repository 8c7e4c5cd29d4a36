/* Reminders that are given out, made base by base. */
#include "desk/inside.h"
#include "desk/reminding.h"

#include <string.h>

void
giving_clear(struct giving *giving)
{
	arena_clear(&giving->arena);
	runs_clear(&giving->shown);
	runs_clear(&giving->given);
	book_gone_clear(&giving->gone);
	giving->settled = (struct placed_hand_ins){0};
	giving->count = 0;
}

/* ---- out of memory and back ---- */

/* The numbers of a reminder. */
struct packed_reminder {
	int64_t sequence, modified, day, aim, last_chance, todo;
};

/* Keeps it as numbers and strings, each with the zero at its end; `packed` is room for them. */
static void
keep(struct runs *runs, int64_t run_key, const struct reminder *one, struct text *packed)
{
	const struct packed_reminder numbers = {one->sequence, one->modified, one->day,
	    one->aim, one->last_chance, one->todo};
	const char *const strings[] = {one->uid, one->shape, one->summary,
	    one->description, one->category,
	    one->about_uid == NULL ? "" : one->about_uid};
	text_reset(packed);
	text_add_bytes(packed, (const char *)&numbers, sizeof numbers);
	for (size_t i = 0; i < sizeof strings / sizeof strings[0]; i++) {
		text_add_bytes(packed, strings[i], strlen(strings[i]) + 1);
	}
	runs_add(runs,
	    &(struct run_piece){run_key, text_string(packed), packed->length, one->key});
}

/* Its strings are the piece's. */
static struct reminder
unpack(const struct run_piece *piece)
{
	struct packed_reminder numbers;
	const char *strings[6];
	const char *at = piece->bytes + sizeof numbers;
	memcpy(&numbers, piece->bytes, sizeof numbers);
	for (size_t i = 0; i < sizeof strings / sizeof strings[0]; i++) {
		strings[i] = at;
		at += strlen(at) + 1;
	}
	return (struct reminder){.key = piece->word,
	    .uid = strings[0],
	    .shape = strings[1],
	    .summary = strings[2],
	    .description = strings[3],
	    .category = strings[4],
	    .about_uid = strings[5],
	    .station = "",
	    .about = "",
	    .sequence = (int)numbers.sequence,
	    .modified = numbers.modified,
	    .day = (day_t)numbers.day,
	    .aim = (day_t)numbers.aim,
	    .last_chance = numbers.last_chance != 0,
	    .todo = numbers.todo != 0};
}

/* ---- planned ---- */

static void
keep_given(const struct reminders *reminders, struct arena *arena, struct runs *given)
{
	const struct reminder **sorted = reminders_by_key(reminders, arena);
	SCOPED_TEXT packed = {0};
	for (size_t i = 0; i < reminders->count; i++) {
		keep(given, 0, sorted[i], &packed);
	}
	runs_end(given);
}

/* Narrows what was made, which is needed no more. */
static void
keep_shown(const struct desk *desk, struct reminders *made, struct giving *giving)
{
	SCOPED_TEXT packed = {0};
	reminders_keep_form(made, giving->todos);
	reminders_narrow(made, &desk->contents.inventory, &giving->scope);
	for (size_t i = 0; i < made->count; i++) {
		keep(&giving->shown, made->items[i].day, &made->items[i], &packed);
	}
	runs_end(&giving->shown);
	giving->count += made->count;
}

static bool
keep_part(struct desk *desk, struct reminders_made *made, const size_t *places, void *of,
    struct fault *fault)
{
	struct giving *giving = of;
	keep_given(&made->reminders, &desk->arena, &giving->given);
	keep_shown(desk, &made->reminders, giving);
	return placing_find(desk, made->lists, made->list_count,
	    &(struct settling_which){.by = giving->by}, places, &giving->arena,
	    &giving->settled, fault);
}

/* Something done with each of what was kept; where it fails the rest is passed over. */
struct walking {
	struct desk *desk;
	struct giving *giving;
	struct fault *fault;
	bool failed;
	/* those shown */
	giving_taker *take;
	void *context;
	/* reminders that wait to be stored */
	struct arena arena;
	struct book_reminder *items;
	size_t count;
};

static void
find_gone(const struct run_piece *piece, void *of)
{
	struct walking *walking = of;
	walking->failed = walking->failed || !book_gone_before(&walking->giving->gone,
						 piece->word, walking->fault);
}

static bool
end_plan(struct desk *desk, void *of, struct fault *fault)
{
	struct giving *giving = of;
	struct walking walking = {.giving = giving, .fault = fault};
	giving->gone = (struct gone_reminders){.book = desk->book};
	return giving->then(desk, giving->act, fault) &&
	       runs_merge(&giving->given, find_gone, &walking, fault) &&
	       !walking.failed && book_gone_before(&giving->gone, NULL, fault) &&
	       /* it tells of which revision all this is */
	       (desk->loaded || ask_about(desk, &STATIONS_PART, LEFT_ASHORE, fault));
}

bool
giving_plan(struct desk *desk, struct giving *giving, struct fault *fault)
{
	giving_clear(giving);
	return reminding_by_bases(desk, LEFT_ASHORE,
	    &(struct reminding_taker){
		.take = keep_part, .then = end_plan, .context = giving},
	    &giving->arena, &giving->basis, fault);
}

static void
show(const struct run_piece *piece, void *of)
{
	struct walking *walking = of;
	const struct reminder reminder = unpack(piece);
	walking->failed = walking->failed ||
			  !walking->take(&reminder, walking->context, walking->fault);
}

bool
giving_show(
    const struct giving *giving, giving_taker *take, void *context, struct fault *fault)
{
	struct walking walking = {.fault = fault, .take = take, .context = context};
	return runs_merge(&giving->shown, show, &walking, fault) && !walking.failed;
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
store(const struct run_piece *piece, void *of)
{
	struct walking *walking = of;
	struct arena *arena = &walking->arena;
	if (walking->failed) {
		return;
	}
	const struct reminder one = unpack(piece);
	walking->items[walking->count++] =
	    (struct book_reminder){.key = arena_string(arena, one.key),
		.uid = arena_string(arena, one.uid),
		.sequence = one.sequence,
		.modified = one.modified,
		.shape = arena_string(arena, one.shape),
		.day = one.day,
		.aim = one.aim,
		.entry = walking->giving->basis.entry,
		.summary = arena_string(arena, one.summary),
		.description = arena_string(arena, one.description)};
	if (walking->count == STORED_AT_ONCE) {
		store_waiting(walking);
	}
}

bool
giving_keep(struct desk *desk, struct giving *giving, struct fault *fault)
{
	struct book_reminder waiting[STORED_AT_ONCE];
	struct walking walking = {
	    .giving = giving, .desk = desk, .fault = fault, .items = waiting};
	bool done = runs_merge(&giving->given, store, &walking, fault);
	if (done) {
		store_waiting(&walking);
	}
	arena_clear(&walking.arena);
	return done && !walking.failed &&
	       book_store_reminders(
		   desk->book, NULL, 0, giving->gone.items, giving->gone.count, fault) &&
	       placing_write(desk, &giving->settled, fault);
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct giving *giving = of;
	return giving->write(desk, giving->act, fault);
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	return giving_plan(desk, of, fault);
}

bool
giving_run(struct desk *desk, struct giving *giving, struct fault *fault)
{
	desk->left_gear = LEFT_ASHORE;
	return act_run_about(desk, &STATIONS_PART, NULL, plan, write, giving, fault);
}
