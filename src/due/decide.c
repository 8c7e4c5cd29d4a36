/* What the clocks of one task come to: the days on which it is lapsed, and which clock binds. */
#include "due/assess.h"

/* The days on which a running clock makes the item lapsed. */
static bool
lapse_of(struct arena *arena, const struct reading *reading, struct spans *out,
    struct fault *fault)
{
	struct spans after = {0};
	struct span past = {reading->good_through + 1, DAY_NEVER};
	return spans_one(arena, past, &after, fault) &&
	       spans_both(arena, after, reading->in_force, out, fault);
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

/* The reading that makes the item lapsed on `day`: the one that ran out first, then the more
 * binding grade. NULL when none does. */
static const struct reading *
reading_that_lapses(const struct reading *readings, size_t count, day_t day)
{
	const struct reading *found = NULL;
	for (size_t i = 0; i < count; i++) {
		const struct reading *reading = &readings[i];
		if (!reading_gives_a_day(reading) || reading->good_through >= day ||
		    !in_force_on(reading, day)) {
			continue;
		}
		if (found == NULL || reading->good_through < found->good_through ||
		    (reading->good_through == found->good_through &&
			reading->grade < found->grade)) {
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
	return reading->state == READING_RUNS && reading_is_own(reading);
}

bool
reading_is_stuck(const struct reading *reading)
{
	return reading_is_own(reading) &&
	       (reading->state == READING_NOT_KNOWN || reading->state == READING_ASKS);
}

/* True when the clocks in force on the day can't tell: none of them runs and some can't start,
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
		if (!in_force_on(reading, day)) {
			continue;
		}
		tells = tells || reading_tells(reading);
		paper = paper ||
			(reading_tells(reading) && reading->anchor == ANCHOR_CERTIFICATE);
		stuck = stuck || reading_is_stuck(reading);
		wants = wants || (reading->wants_maker && reading_is_stuck(reading));
	}
	return (stuck && !tells) || (wants && !paper);
}

bool
obligation_unknown_on(const struct obligation *obligation, day_t day)
{
	return can_not_tell(obligation->readings, obligation->reading_count, day);
}

/* How binding it is that a date is not known: as the most binding clock that can't start. */
static enum grade
grade_of_stuck(
    const struct reading *readings, size_t count, day_t day, enum grade otherwise)
{
	enum grade grade = GRADE_PRACTICE;
	bool found = false;
	for (size_t i = 0; i < count; i++) {
		if (reading_is_stuck(&readings[i]) && in_force_on(&readings[i], day)) {
			grade = readings[i].grade < grade ? readings[i].grade : grade;
			found = true;
		}
	}
	return found ? grade : otherwise;
}

/* Reads the due day from the reading that decides. */
static void
bind(struct obligation *obligation, const struct reading *binding, day_t first_lapsed)
{
	obligation->binding = binding;
	obligation->good_through = first_lapsed - 1;
	bool by_its_own_clock = binding->good_through == first_lapsed - 1;
	obligation->due = by_its_own_clock ? binding->due : first_lapsed - 1;
	obligation->grade = binding->grade;
	obligation->doer = binding->doer;
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
		    !readings[i].binds && readings[i].state == READING_RUNS &&
		    readings[i].due > due;
	}
}

bool
readings_decide(const struct assess *assess, struct reading *readings, size_t count,
    struct obligation *obligation, struct fault *fault)
{
	struct spans lapsed = {0};
	for (size_t i = 0; i < count; i++) {
		struct spans lapse = {0};
		obligation->asks = obligation->asks ||
				   readings[i].state == READING_NOT_KNOWN ||
				   readings[i].state == READING_ASKS;
		if (!reading_gives_a_day(&readings[i])) {
			continue;
		}
		if (!lapse_of(assess->arena, &readings[i], &lapse, fault) ||
		    !spans_either(assess->arena, lapsed, lapse, &lapsed, fault)) {
			return false;
		}
	}
	obligation->lapsed = lapsed;
	obligation->due = DAY_NONE;
	obligation->good_through = DAY_NEVER;
	obligation->state = STATE_IN_DATE;
	if (!spans_have(lapsed, assess->today) &&
	    can_not_tell(readings, count, assess->today)) {
		obligation->state = STATE_DATE_UNKNOWN;
		obligation->good_through = DAY_NONE;
		obligation->grade =
		    grade_of_stuck(readings, count, assess->today, obligation->grade);
		return true;
	}
	const struct span *lapse = spans_from(lapsed, assess->today);
	if (lapse == NULL) {
		return true;
	}
	/* What binds is in force today, even where the lapse began under another rule. */
	day_t seen = day_max(lapse->first, assess->today);
	const struct reading *binding = reading_that_lapses(readings, count, seen);
	readings[binding - readings].binds = true;
	bind(obligation, binding, lapse->first);
	if (lapse->first <= assess->today) {
		obligation->state = binding->lapse;
	}
	const struct reading *began = reading_that_lapses(readings, count, lapse->first);
	readings[began - readings].began = began != binding;
	mark_longer_papers(readings, count, binding, obligation->due);
	return true;
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
	const struct reading *reading =
	    reading_that_lapses(obligation->readings, obligation->reading_count, day);
	return reading == NULL ? STATE_OVERDUE : reading->lapse;
}
