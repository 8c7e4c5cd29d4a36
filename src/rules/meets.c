#include "rules/meets.h"

#include "base/text.h"

/* One condition's answer. */
struct met {
	int holds; /* 1, 0 or -1 for not told */
	const char *asks;
};

/* A number of the vessel, 0 when not known, against limits of which each may be 0 for not
 * set; `most` is the last number that fits. */
static int
fits(int number, int least, int most)
{
	if (least == 0 && most == 0) {
		return 1;
	}
	if (number == 0) {
		return -1;
	}
	return number >= least && (most == 0 || number <= most);
}

/* What is so of the vessel (1 yes, -1 no, 0 not known) against what must be (0
 * either). */
static int
agrees(int known, int wanted)
{
	if (wanted == 0) {
		return 1;
	}
	return known == 0 ? -1 : known == wanted;
}

static int
in_area(const struct period *period, const struct conditions *when)
{
	const char *area = period->area;
	if (when->area_count == 0 && when->area_except_count == 0) {
		return 1;
	}
	if (area[0] == '\0') {
		return -1;
	}
	return (when->area_count == 0 ||
		   words_have(when->areas, when->area_count, area)) &&
	       !words_have(when->areas_except, when->area_except_count, area);
}

static int
settle(const struct met *answers, size_t count, const char **asks)
{
	int holds = 1;
	for (size_t i = 0; i < count; i++) {
		if (answers[i].holds == 0) {
			return 0;
		}
		if (answers[i].holds == -1 && holds == 1) {
			holds = -1;
			*asks = answers[i].asks;
		}
	}
	return holds;
}

/* The last number under a limit that may not be set. */
static int
under(int limit)
{
	return limit == 0 ? 0 : limit - 1;
}

int
period_meets(
    const struct period *period, const struct conditions *when, const char **asks)
{
	if (when->uses != 0 && (when->uses & 1U << period->use) == 0) {
		return 0;
	}
	const struct met answers[] = {
	    {in_area(period, when), "area"},
	    {fits(period->persons, when->persons_from, when->persons_until), "persons"},
	    {fits(period->season_months, 0, under(when->season_months_below)),
		"season-months"},
	    {agrees(period->above_freezing, when->above_freezing), "above-freezing"},
	    {agrees(period->dry_storage, when->dry_storage), "dry-storage"},
	};
	return settle(answers, sizeof answers / sizeof answers[0], asks);
}

int
vessel_meets(const struct vessel *vessel, const struct conditions *when, day_t day,
    const char **asks)
{
	const char *period_asks = "";
	int below = under(when->length_below_cm);
	int in_period = period_meets(vessel_period_on(vessel, day), when, &period_asks);
	const struct met answers[] = {
	    {in_period, period_asks},
	    {fits(vessel->length_cm, when->length_from_cm, below), "length"},
	    {fits(vessel->built, when->built_from, when->built_until), "built"},
	};
	return settle(answers, sizeof answers / sizeof answers[0], asks);
}

bool
subject_concerns(const struct not_stated *subject, const char *kind,
    const struct vessel *vessel, day_t day)
{
	const char *asks = "";
	return words_have(subject->kinds, subject->kind_count, kind) &&
	       period_follows(vessel_period_on(vessel, day), subject->sheet) &&
	       vessel_meets(vessel, &subject->when, day, &asks) != 0;
}

static bool
same_words(const char *const *a, size_t a_count, const char *const *b, size_t b_count)
{
	for (size_t i = 0; i < a_count; i++) {
		if (!words_have(b, b_count, a[i])) {
			return false;
		}
	}
	return a_count == b_count;
}

bool
conditions_same(const struct conditions *a, const struct conditions *b)
{
	return a->uses == b->uses && a->age_from_months == b->age_from_months &&
	       a->age_until_months == b->age_until_months && a->marked == b->marked &&
	       a->length_from_cm == b->length_from_cm &&
	       a->length_below_cm == b->length_below_cm &&
	       a->persons_from == b->persons_from &&
	       a->persons_until == b->persons_until && a->built_from == b->built_from &&
	       a->built_until == b->built_until && a->made_from == b->made_from &&
	       a->made_until == b->made_until &&
	       a->season_months_below == b->season_months_below &&
	       a->above_freezing == b->above_freezing &&
	       a->dry_storage == b->dry_storage &&
	       a->test_valid_months == b->test_valid_months &&
	       same_words(a->areas, a->area_count, b->areas, b->area_count) &&
	       same_words(a->areas_except, a->area_except_count, b->areas_except,
		   b->area_except_count) &&
	       same_words(a->ratings, a->rating_count, b->ratings, b->rating_count);
}

bool
conditions_none(const struct conditions *when)
{
	const struct conditions none = {.made_from = DAY_NONE, .made_until = DAY_NONE};
	return conditions_same(when, &none);
}
