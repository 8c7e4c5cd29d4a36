/* Whether a task fails within a span of days, for who plans ahead. */
#include "due/due.h"

/* True when a clock makes the item lapsed on some day of the span. */
static bool
lapses_in(const struct reading *reading, struct span span)
{
	if (!reading_gives_a_day(reading) || reading->good_through >= span.last) {
		return false;
	}
	day_t from = day_max(span.first, reading->good_through + 1);
	const struct span *force = spans_from(reading->in_force, from);
	return force != NULL && force->first <= span.last;
}

/* True when none of the clocks in force on the day runs, and one that counts can't be told; or
 * one that counts wants the maker's interval, and no paper's next date runs. */
static bool
untold_on(const struct obligation *obligation, day_t day, enum grade least)
{
	bool tells = false;
	bool paper = false;
	bool untold = false;
	bool wants = false;
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		if (!spans_have(reading->in_force, day)) {
			continue;
		}
		bool told = reading_tells(reading) && spans_have(reading->sure, day);
		bool stuck =
		    reading->grade <= least && reading_is_stuck(reading) && !told;
		tells = tells || told;
		paper = paper || (told && reading->anchor == ANCHOR_CERTIFICATE);
		untold = untold || stuck;
		wants = wants || (stuck && reading->wants_maker);
	}
	return (untold && !tells) || (wants && !paper);
}

/* True when it can't be told on a day of the span on which one of these spans begins, or that
 * follows its end. */
static bool
untold_at_turns(const struct obligation *obligation, struct spans force, struct span span,
    enum grade least)
{
	for (size_t i = 0; i < force.count; i++) {
		day_t begins = force.items[i].first;
		day_t ends = force.items[i].last;
		if (span_has(span, begins) && untold_on(obligation, begins, least)) {
			return true;
		}
		if (span.first <= ends && ends < span.last &&
		    untold_on(obligation, ends + 1, least)) {
			return true;
		}
	}
	return false;
}

/* What can be told changes only where a rule comes into force or goes out of it. */
static bool
untold_in(const struct obligation *obligation, struct span span, enum grade least)
{
	if (untold_on(obligation, span.first, least)) {
		return true;
	}
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		if (untold_at_turns(obligation, reading->in_force, span, least) ||
		    untold_at_turns(obligation, reading->sure, span, least)) {
			return true;
		}
	}
	return false;
}

bool
obligation_fails_in(
    const struct obligation *obligation, struct span span, enum grade least)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		if (reading->grade <= least && lapses_in(reading, span)) {
			return true;
		}
	}
	return obligation->asks && untold_in(obligation, span, least);
}
