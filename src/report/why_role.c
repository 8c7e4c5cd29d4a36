#include "report/why.h"
#include "report/words.h"

enum clock_role
clock_role_of(const struct reading *reading)
{
	if (reading->began) {
		return ROLE_BEGAN;
	}
	if (reading->binds) {
		return ROLE_BINDS; /* also when it is not known whether the rule holds */
	}
	switch (reading->state) {
	case READING_RUNS:
		return ROLE_LOSES;
	case READING_NOT_KNOWN:
	case READING_ASKS:
		return ROLE_UNKNOWN;
	case READING_REPLACED:
		return ROLE_ASIDE;
	case READING_NOT_IN_FORCE:
	case READING_DONE:
		return ROLE_IDLE;
	}
	return ROLE_IDLE;
}

const char *
clock_role_word(enum clock_role role)
{
	switch (role) {
	case ROLE_BINDS:
		return "Binds";
	case ROLE_BEGAN:
		return "Lapsed then";
	case ROLE_LOSES:
		return "Also runs";
	case ROLE_UNKNOWN:
		return "Not known";
	case ROLE_ASIDE:
		return "Set aside";
	case ROLE_IDLE:
		return "";
	}
	return "";
}

static bool
was_begun(const struct obligation *obligation)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		if (obligation->readings[i].began) {
			return true;
		}
	}
	return false;
}

/* What a clock that can't start means when the day is known without it: it changes
 * nothing, or makes the date unknown as soon as its rule holds. */
static void
add_undecided(const struct obligation *obligation, const struct reading *reading,
    day_t today, struct text *words)
{
	const struct span *force = spans_from(reading->in_force, today);
	if (clock_role_of(reading) != ROLE_UNKNOWN ||
	    obligation->state == STATE_DATE_UNKNOWN) {
		return;
	}
	if (force != NULL && force->first > today &&
	    obligation_unknown_on(obligation, force->first)) {
		text_add(words, " Until that is known its date is unknown while the rule "
				"holds.");
		return;
	}
	text_add(words, " Until that is known it decides nothing here.");
}

const char *
obligation_missing(const struct obligation *obligation)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		if (clock_role_of(reading) == ROLE_UNKNOWN && reading->asks[0] != '\0') {
			return reading->asks;
		}
	}
	return "";
}

void
add_clock_in_full(const struct obligation *obligation, const struct reading *reading,
    day_t today, struct text *out)
{
	enum clock_role role = clock_role_of(reading);
	add_clock_words(reading, obligation->task, today, out);
	/* where another rule began the lapse, its days are what ended it */
	bool ends = role == ROLE_BEGAN || (role == ROLE_BINDS && !was_begun(obligation));
	if (ends && reading->due != obligation->due) {
		text_add(out, " The rule holds only then, so it is good through ");
		add_day(obligation->good_through, "", out);
		text_add_byte(out, '.');
	}
	add_undecided(obligation, reading, today, out);
	add_clock_effects(reading, out);
	add_clock_source(reading, out);
}
