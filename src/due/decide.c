/* What the clocks of one task come to: the days on which it is lapsed, and which clock binds. */
#include "due/inside.h"

/* The last good day of a clock: its window's last day, or the nominal day before that. */
static day_t
last_good(const struct reading *reading, bool nominal)
{
	return nominal ? reading->due : reading->good_through;
}

/* The days on which a running clock makes the item lapsed. */
static void
lapse_of(
    struct arena *arena, const struct reading *reading, bool nominal, struct spans *out)
{
	struct spans after = {0};
	spans_after(arena, last_good(reading, nominal), &after);
	spans_both(arena, after, reading->in_force, out);
}

static bool
in_force_on(const struct reading *reading, day_t day)
{
	return spans_have(reading->in_force, day);
}

bool
reading_gives_a_day(const struct reading *reading)
{
	return reading->due != DAY_NONE && reading->state != READING_REPLACED;
}

/* Whether of two clocks the first is the one to name: it ran out first, or on the same day with
 * the more binding grade, or then with the graver state. */
static bool
runs_out_before(const struct reading *a, const struct reading *b, bool nominal)
{
	if (last_good(a, nominal) != last_good(b, nominal)) {
		return last_good(a, nominal) < last_good(b, nominal);
	}
	return a->grade != b->grade ? a->grade < b->grade : a->lapse > b->lapse;
}

/* The reading that makes the item lapsed on `day`. NULL when none does. */
static const struct reading *
reading_that_lapses(const struct reading *readings, size_t count, bool nominal, day_t day)
{
	const struct reading *found = NULL;
	for (size_t i = 0; i < count; i++) {
		const struct reading *reading = &readings[i];
		if (!reading_gives_a_day(reading) || last_good(reading, nominal) >= day ||
		    !in_force_on(reading, day)) {
			continue;
		}
		if (found == NULL || runs_out_before(reading, found, nominal)) {
			found = reading;
		}
	}
	return found;
}

/* The end of a hire and the dates of parts inside say nothing of the thing's own. */
static bool
reading_is_own(const struct reading *reading)
{
	return reading->anchor != ANCHOR_HIRE && reading->anchor != ANCHOR_CONTENTS;
}

bool
reading_tells(const struct reading *reading)
{
	return (reading->state == READING_RUNS || reading->state == READING_ASKS) &&
	       reading->due != DAY_NONE && reading_is_own(reading);
}

bool
reading_is_stuck(const struct reading *reading)
{
	return reading_is_own(reading) &&
	       (reading->state == READING_RUNS || reading->state == READING_NOT_KNOWN ||
		   reading->state == READING_ASKS);
}

static bool
tells_on(const struct reading *reading, day_t day)
{
	return reading_tells(reading) && spans_have(reading->sure, day);
}

static bool
is_stuck_on(const struct reading *reading, day_t day)
{
	return reading_is_stuck(reading) && in_force_on(reading, day) &&
	       !tells_on(reading, day);
}

/* True when the clocks in force on the day can't tell: none of them tells and some can't start,
 * or a rule wants the maker's interval and there is no paper's next date to go by either. */
static bool
can_not_tell(const struct reading *readings, size_t count, day_t day)
{
	bool tells = false;
	bool paper = false;
	bool stuck = false;
	bool wants = false;
	for (size_t i = 0; i < count; i++) {
		const struct reading *reading = &readings[i];
		bool told = tells_on(reading, day);
		tells = tells || told;
		paper = paper || (told && reading->anchor == ANCHOR_CERTIFICATE);
		stuck = stuck || is_stuck_on(reading, day);
		wants = wants || (reading->wants_maker && is_stuck_on(reading, day));
	}
	return (stuck && !tells) || (wants && !paper);
}

const char *
obligation_asks(const struct obligation *obligation)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		if (obligation->readings[i].asks[0] != '\0') {
			return obligation->readings[i].asks;
		}
	}
	return "";
}

bool
obligation_unknown_on(const struct obligation *obligation, day_t day)
{
	return can_not_tell(obligation->readings, obligation->reading_count, day);
}

/* How binding it is that a date is not known: as the most binding of the clocks that can't start,
 * of which there is one. */
static enum grade
grade_of_stuck(const struct reading *readings, size_t count, day_t day)
{
	enum grade grade = GRADE_PRACTICE;
	for (size_t i = 0; i < count; i++) {
		if (is_stuck_on(&readings[i], day) && readings[i].grade < grade) {
			grade = readings[i].grade;
		}
	}
	return grade;
}

/* True when the clocks have no window: they are read alike by their nominal days and by their last
 * good ones. */
static bool
have_no_window(const struct reading *readings, size_t count)
{
	size_t at = 0;
	while (at < count && readings[at].due == readings[at].good_through) {
		at++;
	}
	return at == count;
}

/* All days on which the clocks make the item lapsed, read by their nominal days or by their last
 * good ones. */
static void
lapses_of(const struct assess *assess, const struct reading *readings, size_t count,
    bool nominal, struct spans *out)
{
	*out = (struct spans){0};
	for (size_t i = 0; i < count; i++) {
		struct spans lapse = {0};
		if (reading_gives_a_day(&readings[i])) {
			lapse_of(assess->arena, &readings[i], nominal, &lapse);
			spans_either(assess->arena, *out, lapse, out);
		}
	}
}

/* Where the lapse that is on, or else the next one, begins, and the reading that makes it: in
 * force today, even where the lapse began under another rule. NULL when nothing will lapse. */
static const struct reading *
next_lapse(const struct reading *readings, size_t count, struct spans lapsed,
    bool nominal, day_t today, day_t *begins)
{
	const struct span *lapse = spans_from(lapsed, today);
	if (lapse == NULL) {
		return NULL;
	}
	*begins = lapse->first;
	day_t seen = day_max(lapse->first, today);
	return reading_that_lapses(readings, count, nominal, seen);
}

static void
mark_longer_papers(
    struct reading *readings, size_t count, const struct reading *binding, day_t due)
{
	/* beside a printed date, a use or a part inside, the paper allows nothing */
	bool interval = binding->anchor != ANCHOR_MARKED &&
			binding->anchor != ANCHOR_EVENT && reading_is_own(binding);
	for (size_t i = 0; i < count; i++) {
		readings[i].paper_allows_longer =
		    interval && readings[i].anchor == ANCHOR_CERTIFICATE &&
		    readings[i].rule == NULL && !readings[i].binds &&
		    readings[i].due > due;
	}
}

static bool
any_asks(const struct reading *readings, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		if (readings[i].state == READING_NOT_KNOWN ||
		    readings[i].state == READING_ASKS) {
			return true;
		}
	}
	return false;
}

/* Reads the due day from the nominal days and the last good day from the windows' ends. */
static void
decide_days(const struct assess *assess, struct reading *readings, size_t count,
    struct obligation *obligation)
{
	struct spans nominal = obligation->lapsed;
	if (!have_no_window(readings, count)) {
		lapses_of(assess, readings, count, true, &nominal);
	}
	day_t due = DAY_NONE;
	const struct reading *binding =
	    next_lapse(readings, count, nominal, true, assess->today, &due);
	if (binding == NULL) {
		return;
	}
	obligation->due = due - 1;
	day_t good = DAY_NEVER;
	const struct reading *ends =
	    next_lapse(readings, count, obligation->lapsed, false, assess->today, &good);
	obligation->good_through = ends == NULL ? DAY_NEVER : good - 1;
	if (ends != NULL && good <= assess->today) {
		binding = ends;
		obligation->state = binding->lapse;
		const struct reading *began =
		    reading_that_lapses(readings, count, false, good);
		readings[began - readings].began = began != binding;
	}
	readings[binding - readings].binds = true;
	obligation->binding = binding;
	obligation->grade = binding->grade;
	obligation->doer = binding->doer;
	mark_longer_papers(readings, count, binding, obligation->due);
}

void
readings_decide(const struct assess *assess, struct reading *readings, size_t count,
    struct obligation *obligation)
{
	obligation->asks = any_asks(readings, count);
	obligation->due = DAY_NONE;
	obligation->good_through = DAY_NEVER;
	obligation->state = STATE_IN_DATE;
	lapses_of(assess, readings, count, false, &obligation->lapsed);
	if (!spans_have(obligation->lapsed, assess->today) &&
	    can_not_tell(readings, count, assess->today)) {
		obligation->state = STATE_DATE_UNKNOWN;
		obligation->good_through = DAY_NONE;
		obligation->grade = grade_of_stuck(readings, count, assess->today);
		return;
	}
	decide_days(assess, readings, count, obligation);
}

bool
readings_oblige(const struct reading *readings, size_t count, day_t today)
{
	for (size_t i = 0; i < count; i++) {
		bool counts = readings[i].state != READING_NOT_IN_FORCE;
		if (counts && spans_from(readings[i].in_force, today) != NULL) {
			return true;
		}
	}
	return false;
}

bool
obligation_never_falls_due(const struct obligation *obligation)
{
	return obligation->due == DAY_NONE && obligation->good_through == DAY_NEVER;
}

bool
obligation_is_idle(const struct obligation *obligation)
{
	return obligation_never_falls_due(obligation) && !obligation->asks;
}

enum state
obligation_state_on(const struct obligation *obligation, day_t day)
{
	const struct span *lapse = spans_from(obligation->lapsed, day);
	if (obligation->state == STATE_DATE_UNKNOWN) {
		return STATE_DATE_UNKNOWN;
	}
	if (lapse == NULL || lapse->first > day) {
		return STATE_IN_DATE;
	}
	const struct reading *reading = reading_that_lapses(
	    obligation->readings, obligation->reading_count, false, day);
	return reading == NULL ? STATE_OVERDUE : reading->lapse;
}
