/* What the due engine says of an item after some tasks were done to it. */
#include "base/text.h"
#include "years/outlook_inside.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* Lives of things bought new, shared by items of one vessel that are alike. */
struct lives_shelf {
	struct lives_shelf *next;
	struct lives lives;
};

int
printed_life_months(const char *kind)
{
	static const char *const BEACONS[] = {
	    "epirb", "plb", "ais-beacon", "sart", "beacon-battery"};
	return words_have(BEACONS, sizeof BEACONS / sizeof BEACONS[0], kind) ? 60 : 36;
}

/* How long after its last refit an item's printed date is, in days; 0 when there is none
 * to be learnt from. Which refit the date is of is not known of an item of whose refits
 * none is on record: it is learnt from its dates only where that is no more than what
 * would be assumed. */
static int
refitted_days_of(const struct item *item, day_t today, int from_new)
{
	day_t printed = stamp_good_through(item->expires);
	size_t i = item->record_count;
	while (i > 0 && !(item->records[i - 1].refit &&
			    stamp_first(item->records[i - 1].on) <= today)) {
		i--;
	}
	if (i > 0) {
		day_t on = stamp_good_through(item->records[i - 1].on);
		return printed == DAY_NONE || printed <= on ? 0 : printed - on;
	}
	int months = printed_life_months(item->kind);
	return from_new <= day_add_months(today, months) - today ? from_new : 0;
}

/* How long after its oldest other date an item's printed date is, in days; 0 when
 * there is none to be learnt from. */
static int
printed_days_of(const struct item *item)
{
	const day_t dates[] = {stamp_first(item->made), stamp_first(item->packed),
	    stamp_first(item->bought), stamp_first(item->fitted)};
	day_t printed = stamp_good_through(item->expires);
	day_t oldest = DAY_NEVER;
	for (size_t i = 0; i < sizeof dates / sizeof dates[0]; i++) {
		oldest = dates[i] == DAY_NONE ? oldest : day_min(oldest, dates[i]);
	}
	return printed == DAY_NONE || oldest == DAY_NEVER || printed <= oldest
		   ? 0
		   : printed - oldest;
}

/* Finds how far the rules of a kind depend on how often something was done. */
static void
read_rules(struct lives *lives)
{
	const struct due_engine *engine = lives->make->ask->engine;
	size_t count = 0;
	const struct rule *const *rules =
	    rulebook_for(engine->rulebooks[lives->base.vessel], lives->base.kind, &count);
	for (size_t i = 0; i < count; i++) {
		lives->every_time =
		    lives->every_time || rules[i]->window.next != NEXT_FROM_DONE;
		for (size_t j = 0; j < rules[i]->clock_count; j++) {
			const struct clock_rule *clock = &rules[i]->clocks[j];
			int until =
			    clock->done_until == INT_MAX ? 0 : clock->done_until + 1;
			until = GREATER(clock->done_from, until);
			lives->times = GREATER(until, lives->times);
		}
	}
}

void
lives_open(struct outlook_make *make, size_t item, const day_t *work, enum grade least,
    bool heirs, struct arena *arena, struct lives *out)
{
	const struct item *gear = &make->ask->engine->inventory->items[item];
	struct lives lives = {.make = make,
	    .arena = arena,
	    .item = item,
	    .base = *gear,
	    .work = work,
	    .years = year_at(make, make->place, 0),
	    .least = least};
	read_rules(&lives);
	lives.printed_days = printed_days_of(gear);
	if (due_refits(make->ask->engine, gear)) {
		lives.printed_days =
		    refitted_days_of(gear, make->ask->today, lives.printed_days);
	}
	if (heirs) {
		struct item *base = &lives.base;
		base->made = base->packed = base->bought = base->fitted = base->expires =
		    (struct stamp){0};
		base->record_count = base->event_count = base->extension_count = 0;
	}
	*out = lives;
}

void
lives_clear(struct lives *lives)
{
	free(lives->items);
	lives->items = NULL;
	lives->count = lives->capacity = 0;
}

void
shelf_clear_lives(struct lives_shelf *shelf)
{
	for (; shelf != NULL; shelf = shelf->next) {
		lives_clear(&shelf->lives);
	}
}

/* True when the maker wants the same of two items. */
static bool
same_intervals(const struct item *a, const struct item *b)
{
	bool same = a->interval_count == b->interval_count;
	for (size_t i = 0; i < a->interval_count && same; i++) {
		const struct interval *one = &a->intervals[i];
		const struct interval *other = &b->intervals[i];
		same = one->task == other->task && one->months == other->months &&
		       one->first_months == other->first_months &&
		       one->from == other->from && one->from_said == other->from_said;
	}
	return same;
}

/* True when things bought in the place of either lead the same lives: all that the due
 * engine reads of a new one is the same. */
static bool
same_heirs(const struct lives *a, const struct lives *b, size_t winters)
{
	return strcmp(a->base.kind, b->base.kind) == 0 &&
	       strcmp(a->base.rating, b->base.rating) == 0 && a->least == b->least &&
	       a->printed_days == b->printed_days && same_intervals(&a->base, &b->base) &&
	       memcmp(a->work, b->work, winters * sizeof *a->work) == 0;
}

struct lives *
lives_of_heirs(
    struct outlook_make *make, size_t item, const day_t *work, enum grade least)
{
	struct lives lives = {0};
	lives_open(make, item, work, least, true, make->arena, &lives);
	struct lives_shelf *shelf = make->shelf;
	/* the newest are in front, and vessels come one by one */
	for (; shelf != NULL && shelf->lives.base.vessel == lives.base.vessel;
	     shelf = shelf->next) {
		if (same_heirs(&shelf->lives, &lives, make->ask->winters)) {
			return &shelf->lives;
		}
	}
	shelf = arena_alloc(make->arena, sizeof *shelf);
	*shelf = (struct lives_shelf){.next = make->shelf, .lives = lives};
	make->shelf = shelf;
	return &shelf->lives;
}

/* Adds the records of a life after those of the item, by day. What was bought new has its
 * renewal on record, as in the book. */
static void
add_records(const struct lives *lives, const struct life *life, struct arena *arena,
    struct item *item)
{
	size_t winters = lives->make->ask->winters;
	size_t most = item->record_count + 1 + winters * TASK_COUNT;
	struct record *records = ARENA_MANY(arena, struct record, most);
	size_t count = 0;
	/* A record of a day still to come is of something not done yet; the plan does
	 * not count on it. */
	for (; count < item->record_count &&
	       stamp_first(item->records[count].on) <= lives->make->ask->today;
	     count++) {
		records[count] = item->records[count];
	}
	if (life->born >= 0) {
		records[count++] = due_record(TASK_RENEW, lives->work[life->born]);
	}
	for (size_t winter = 0; winter < winters; winter++) {
		for (unsigned task = 0; task < TASK_COUNT; task++) {
			if ((life->done[task] >> winter & 1U) != 0) {
				records[count] =
				    due_record((enum task)task, lives->work[winter]);
				records[count++].refit = task == TASK_RENEW;
			}
		}
	}
	item->records = records;
	item->record_count = count;
}

int
lives_age(const struct lives *lives, const struct life *life, day_t day)
{
	return life->born >= 0 ? day_years_between(lives->work[life->born], day)
			       : item_age(&lives->base, day);
}

/* The last of some winters; -1 for none. */
static int
last_of(uint32_t winters)
{
	return winters == 0 ? -1 : 31 - __builtin_clz(winters);
}

/* The winter of the last refit, or else of when it was new; -1 for neither. */
static int
last_renewed(const struct life *life)
{
	return GREATER(last_of(life->done[TASK_RENEW]), life->born);
}

/* The date printed on what is new on a day; none where that is not known. */
static struct stamp
printed_on(const struct lives *lives, day_t day)
{
	if (lives->print_assumed) {
		int months = printed_life_months(lives->base.kind);
		return stamp_of_day(day_add_months(day, months));
	}
	return lives->printed_days == 0 ? (struct stamp){0}
					: stamp_of_day(day + lives->printed_days);
}

void
lives_item(const struct lives *lives, const struct life *life, struct arena *arena,
    struct item *out)
{
	struct item item = lives->base;
	int last = last_renewed(life);
	if (life->born >= 0) {
		item.made = stamp_of_day(lives->work[life->born]);
		item.fitted = item.made;
	}
	if (last >= 0) {
		item.expires = printed_on(lives, lives->work[last]);
	}
	add_records(lives, life, arena, &item);
	*out = item;
}

/* The last winter in which something was done in a life; -1 when nothing was. */
static int
last_winter(const struct life *life)
{
	uint32_t done = 0;
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		done |= life->done[task];
	}
	return GREATER(last_of(done), life->born);
}

/* Notes in which seasons an obligation fails, and whether it is a station's work. */
static void
take_obligation(
    struct lives *lives, struct life *life, const struct obligation *obligation, int from)
{
	unsigned bit = TASK_BIT(obligation->task);
	size_t winters = lives->make->ask->winters;
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		if (!station_does(reading->doer, obligation->task) ||
		    reading->state == READING_NOT_IN_FORCE) {
			continue;
		}
		if (obligation->task == TASK_RENEW) {
			lives->renew_ashore = true;
		} else {
			lives->station_tasks |= bit;
		}
	}
	for (size_t winter = from < 0 ? 0 : (size_t)from; winter < winters; winter++) {
		const struct outlook_year *year = &lives->years[winter];
		if (year->there &&
		    obligation_fails_in(obligation, year->season, lives->least)) {
			life->fails[winter] |= (uint8_t)bit;
		}
	}
}

/* True when a thing just bought or refitted has no date that could be told, though it has
 * to be renewed: it will have one printed on it. */
static bool
wants_printed_date(const struct lives *lives, const struct life *life,
    const struct obligation *obligation)
{
	return last_renewed(life) >= 0 && lives->printed_days == 0 &&
	       !lives->print_assumed && obligation->task == TASK_RENEW &&
	       obligation->state == STATE_DATE_UNKNOWN;
}

/* Asks the engine about a life. False where a printed date is found to be wanting: to be
 * asked again. */
static bool
ask_engine(struct lives *lives, struct life *life)
{
	struct outlook_make *make = lives->make;
	struct obligation *obligations = NULL;
	size_t count = 0;
	bool asked = true;
	int last = last_winter(life);
	day_t seen = last < 0 ? make->ask->today : lives->work[last];
	struct item kept = make->items[lives->item];
	lives_item(lives, life, make->scratch, &make->items[lives->item]);
	due_of_item(&make->apart, lives->item, seen, make->scratch, &obligations, &count);
	make->items[lives->item] = kept;
	for (size_t i = 0; i < count; i++) {
		if (wants_printed_date(lives, life, &obligations[i])) {
			lives->print_assumed = true;
			asked = false;
			break;
		}
		if (!obligations[i].routine) {
			take_obligation(lives, life, &obligations[i], last);
		}
	}
	arena_reset(make->scratch);
	return asked;
}

/* The figures by which lives are told apart. */
static uint32_t
told_apart(const struct lives *lives, uint32_t done)
{
	if (lives->every_time || done == 0) {
		return done;
	}
	uint32_t end = 32U - (uint32_t)__builtin_clz(done);
	int times = bits_in(done);
	return end | (uint32_t)LESSER(times, lives->times) << 8;
}

/* A hash: the same for lives that are the same. */
static uint64_t
life_digest(const struct lives *lives, const struct life *life)
{
	uint64_t digest = digest_mix(DIGEST_START, (uint64_t)life->born + 1);
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		digest = digest_mix(digest, told_apart(lives, life->done[task]));
	}
	return digest;
}

static bool
same_life(const struct lives *lives, const struct life *a, const struct life *b)
{
	bool same = a->born == b->born;
	for (unsigned task = 0; task < TASK_COUNT && same; task++) {
		same =
		    told_apart(lives, a->done[task]) == told_apart(lives, b->done[task]);
	}
	return same;
}

/* Finds a life, or makes it by asking the engine. Where there are too many lives it
 * returns the first, and the making notes that. */
static size_t
life_find(struct lives *lives, const struct life *wanted)
{
	struct outlook_make *make = lives->make;
	uint64_t digest = life_digest(lives, wanted);
	for (size_t i = 0; i < lives->count; i++) {
		if (lives->items[i].digest == digest &&
		    same_life(lives, &lives->items[i], wanted)) {
			return i;
		}
	}
	if (lives->count == INT16_MAX) {
		make->too_many = lives->base.tag;
		return 0;
	}
	size_t nexts = make->ask->winters << TASK_COUNT;
	struct life life = *wanted;
	life.digest = digest;
	life.after = ARENA_MANY(lives->arena, int16_t, nexts);
	memset(life.after, -1, nexts * sizeof *life.after);
	if (!ask_engine(lives, &life)) {
		(void)ask_engine(lives, &life);
	}
	ARRAY_ADD(lives, life);
	return lives->count - 1;
}

size_t
lives_begin(struct lives *lives, int born)
{
	return life_find(lives, &(struct life){.born = born});
}

size_t
lives_after(struct lives *lives, size_t life, size_t winter, unsigned tasks)
{
	size_t at = winter << TASK_COUNT | tasks;
	const struct life *before = &lives->items[life];
	if (tasks == 0) {
		return life;
	}
	if (before->after[at] >= 0) {
		return (size_t)before->after[at];
	}
	struct life wanted = {.born = before->born};
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		uint32_t bit = (tasks & TASK_BIT(task)) != 0 ? 1U << winter : 0;
		wanted.done[task] = before->done[task] | bit;
	}
	size_t next = life_find(lives, &wanted);
	lives->items[life].after[at] = (int16_t)next;
	return next;
}
