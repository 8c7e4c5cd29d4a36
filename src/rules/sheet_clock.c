#include "rules/sheet_inside.h"

static const char *const HOLDS_WORDS[] = {"always", "first", "again"};
static const char *const INTERVAL_WORDS[] = {"maker"};
static const char *const STAMP_WORDS[] = {"start", "end"};
static const char *const THROUGH_WORDS[] = {
    [THROUGH_DAY] = "day",
    [THROUGH_MONTH_END] = "month-end",
    [THROUGH_YEAR_END] = "year-end",
};

static const struct yaml_range MONTHS = {0, 600, "months"};
static const struct yaml_range DAYS = {1, 3660, "days"};
static const struct yaml_range TIMES = {0, 1000, "times done"};

enum { ANCHORS_MAX = sizeof((struct clock_rule *)0)->anchors / sizeof(enum anchor) };

/* True for an anchor that is itself the day; no interval is counted from it. */
static bool
is_the_day(enum anchor anchor)
{
	return anchor == ANCHOR_MARKED || anchor == ANCHOR_EVENT ||
	       anchor == ANCHOR_CERTIFICATE;
}

static bool
read_anchors(const struct yaml_spot *spot, const struct yaml_clock *yaml,
    struct clock_rule *clock, struct fault *fault)
{
	/* `contents` and what follows it in the list are the engine's own. */
	static const struct yaml_words WORDS = {ANCHOR_WORDS, ANCHOR_CONTENTS};
	unsigned indices[ANCHORS_MAX] = {0};
	if (yaml->from.count < 1 || yaml->from.count > ANCHORS_MAX) {
		return yaml_spot_bad(spot, "from",
		    yaml->from.count == 0 ? NULL : yaml->from.items[ANCHORS_MAX],
		    "one to four anchors", fault);
	}
	if (!yaml_read_indices(spot, "from", &yaml->from, WORDS, indices, fault)) {
		return false;
	}
	clock->anchor_count = yaml->from.count;
	for (size_t i = 0; i < clock->anchor_count; i++) {
		clock->anchors[i] = (enum anchor)indices[i];
		if (is_the_day(clock->anchors[i]) && clock->anchor_count > 1) {
			return yaml_entry_bad(spot, "from", i, yaml->from.items[i],
			    "marked, event or certificate to stand alone", fault);
		}
	}
	return true;
}

/* The maker's interval is a figure of each piece, so the clock has none of its own. */
static bool
read_makers(const struct yaml_spot *spot, const struct yaml_clock *yaml,
    struct clock_rule *clock, struct fault *fault)
{
	static const struct yaml_words WORDS = {INTERVAL_WORDS, 1};
	unsigned which = 0;
	if (yaml->months != NULL || yaml->days != NULL) {
		return yaml_spot_bad(spot, "interval", yaml->interval,
		    "months, days or interval, one of them", fault);
	}
	clock->by_maker = true;
	return yaml_read_word(spot, "interval", yaml->interval, WORDS, &which, fault);
}

static bool
read_interval(const struct yaml_spot *spot, const struct yaml_clock *yaml,
    struct clock_rule *clock, struct fault *fault)
{
	const char *key = yaml->months != NULL ? "months"
			  : yaml->days != NULL ? "days"
					       : "interval";
	const char *given = yaml->months != NULL ? yaml->months
			    : yaml->days != NULL ? yaml->days
						 : yaml->interval;
	if (is_the_day(clock->anchors[0])) {
		return given == NULL ||
		       yaml_spot_bad(spot, key, given,
			   "no interval from marked, event or certificate", fault);
	}
	if (given == NULL) {
		return yaml_spot_bad(spot, "months", NULL,
		    "an interval in months or days, or interval: maker", fault);
	}
	if (yaml->interval != NULL) {
		return read_makers(spot, yaml, clock, fault);
	}
	if (yaml->months != NULL && yaml->days != NULL) {
		return yaml_spot_bad(
		    spot, "days", yaml->days, "months or days, not both", fault);
	}
	return yaml_read_int(
		   spot, "months", yaml->months, MONTHS, &clock->months, fault) &&
	       yaml_read_int(spot, "days", yaml->days, DAYS, &clock->days, fault);
}

/* How often the task was done for the clock to hold: a word, or two numbers. */
static bool
read_holds(const struct yaml_spot *spot, const struct yaml_clock *yaml,
    struct clock_rule *clock, struct fault *fault)
{
	static const struct yaml_words WORDS = {HOLDS_WORDS, 3};
	bool counted = yaml->done_from != NULL || yaml->done_until != NULL;
	unsigned holds = 0;
	clock->done_until = INT_MAX;
	if (yaml->holds != NULL && counted) {
		return yaml_spot_bad(spot, "holds", yaml->holds,
		    "holds, or done-from and done-until, not both", fault);
	}
	if (!yaml_read_word(spot, "holds", yaml->holds, WORDS, &holds, fault) ||
	    !yaml_read_int(
		spot, "done-from", yaml->done_from, TIMES, &clock->done_from, fault) ||
	    !yaml_read_int(
		spot, "done-until", yaml->done_until, TIMES, &clock->done_until, fault)) {
		return false;
	}
	if (holds == 1) {
		clock->done_until = 0;
	} else if (holds == 2) {
		clock->done_from = 1;
	}
	if (clock->done_until < clock->done_from) {
		return yaml_spot_bad(spot, "done-until", yaml->done_until,
		    "no fewer times than done-from", fault);
	}
	return true;
}

/* A clock that counts from the last time and holds only before the first never starts. */
static bool
check_start(const struct yaml_spot *spot, const struct yaml_clock *yaml,
    const struct clock_rule *clock, struct fault *fault)
{
	bool from_last =
	    clock->anchor_count == 1 &&
	    (clock->anchors[0] == ANCHOR_LAST || clock->anchors[0] == ANCHOR_CERTIFICATE);
	if (from_last && clock->done_until == 0) {
		return yaml_spot_bad(spot, "from", yaml->from.items[0],
		    "an anchor that is known before the task was first done", fault);
	}
	if (yaml->events.count > 0 && clock->anchors[0] != ANCHOR_EVENT) {
		return yaml_spot_bad(spot, "events", yaml->events.items[0],
		    "events only where the clock is from event", fault);
	}
	return true;
}

static bool
convert_clock(const struct yaml_spot *spot, const struct yaml_clock *yaml,
    struct clock_rule *clock, struct fault *fault)
{
	unsigned through = THROUGH_DAY;
	unsigned stamp = 0;
	if (!read_anchors(spot, yaml, clock, fault) ||
	    !read_interval(spot, yaml, clock, fault) ||
	    !read_holds(spot, yaml, clock, fault) ||
	    !check_start(spot, yaml, clock, fault) ||
	    !yaml_read_word(spot, "through", yaml->through,
		(struct yaml_words){THROUGH_WORDS, 3}, &through, fault) ||
	    !yaml_read_bool(spot, "before", yaml->before, &clock->before, fault) ||
	    !yaml_read_word(spot, "stamp", yaml->stamp,
		(struct yaml_words){STAMP_WORDS, 2}, &stamp, fault) ||
	    !yaml_read_bits(spot, "events", &yaml->events,
		(struct yaml_words){EVENT_WORDS, EVENT_COUNT}, &clock->events, fault)) {
		return false;
	}
	clock->through = (enum through)through;
	clock->stamp_end = stamp == 1;
	return true;
}

bool
sheet_clocks_convert(const struct yaml_spot *spot, const struct yaml_rule *yaml,
    struct arena *arena, struct rule *rule, struct fault *fault)
{
	if (yaml->clocks_count == 0) {
		return yaml_spot_bad(spot, "clocks", NULL, "at least one clock", fault);
	}
	struct clock_rule *clocks =
	    arena_alloc(arena, yaml->clocks_count * sizeof *clocks);
	for (size_t i = 0; i < yaml->clocks_count; i++) {
		struct yaml_spot inner = yaml_spot_in(spot, "clocks", i);
		if (!convert_clock(&inner, &yaml->clocks[i], &clocks[i], fault)) {
			return false;
		}
		bool figure = clocks[i].months > 0 || clocks[i].days > 0;
		if (figure && rule->standing == STANDING_NOT_VERIFIED) {
			return yaml_spot_bad(&inner,
			    clocks[i].days > 0 ? "days" : "months",
			    clocks[i].days > 0 ? yaml->clocks[i].days
					       : yaml->clocks[i].months,
			    "no figure in a rule that is not verified", fault);
		}
	}
	rule->clocks = clocks;
	rule->clock_count = yaml->clocks_count;
	return true;
}
