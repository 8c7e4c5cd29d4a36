/* Rules and carriage lines in words. */
#include "report/sheet_words.h"

#include "report/words.h"

#include <string.h>

static void
add_anchors(const struct clock_rule *clock, struct text *out)
{
	for (size_t i = 0; i < clock->anchor_count; i++) {
		text_add(out, i == 0 ? "" : ", else ");
		switch (clock->anchors[i]) {
		case ANCHOR_LAST:
			text_add(out, "the last time done");
			break;
		case ANCHOR_MARKED:
			text_add(out, "the marked expiry");
			break;
		case ANCHOR_EVENT:
			text_add(out, "its use");
			break;
		case ANCHOR_CERTIFICATE:
			text_add(out, "the paper's next date");
			break;
		case ANCHOR_CONTENTS:
			text_add(out, "the earliest dated part inside");
			break;
		case ANCHOR_HIRE:
			text_add(out, "the last day of its hire");
			break;
		case ANCHOR_MADE:
		case ANCHOR_PACKED:
		case ANCHOR_BOUGHT:
		case ANCHOR_FITTED:
			text_add_format(out, "%s", anchor_word(clock->anchors[i]));
			break;
		}
	}
}

/* Adds how often the task must have been done for the clock to hold: "first", "again". */
static void
add_times(const struct clock_rule *clock, struct text *out)
{
	if (clock->done_from == 0 && clock->done_until == 0) {
		text_add(out, "first: ");
	} else if (clock->done_from == 1 && clock->done_until == INT_MAX) {
		text_add(out, "again: ");
	} else if (clock->done_from > 0 && clock->done_until == INT_MAX) {
		text_add_format(out, "once done %d times: ", clock->done_from);
	} else if (clock->done_from > 0 || clock->done_until < INT_MAX) {
		text_add_format(out, "once done %d to %d times: ", clock->done_from,
		    clock->done_until);
	}
}

void
sheet_add_clock(const struct clock_rule *clock, struct text *out)
{
	int number = clock->days > 0 ? clock->days : clock->months;
	add_times(clock, out);
	if (clock->by_maker) {
		text_add(out, "the maker's interval from ");
	} else if (number != 0) {
		text_add_format(out, "%d %s%s from ", number,
		    clock->days > 0 ? "day" : "month", number == 1 ? "" : "s");
	} else {
		text_add(out, "at ");
	}
	add_anchors(clock, out);
	switch (clock->through) {
	case THROUGH_DAY:
		break;
	case THROUGH_MONTH_END:
		text_add(out, ", to the end of the month");
		break;
	case THROUGH_YEAR_END:
		text_add(out, ", to the end of the year");
		break;
	}
	text_add(out, clock->before ? ", strictly before that day" : "");
	text_add(out, clock->stamp_end ? ", a coarse date counting from its end" : "");
}

static void
add_range(const char *what, int from, int until, struct text *out)
{
	if (from != 0 && until != 0) {
		text_add_format(out, "; %s from %d to %d", what, from, until);
	} else if (from != 0) {
		text_add_format(out, "; %s from %d", what, from);
	} else if (until != 0) {
		text_add_format(out, "; %s up to %d", what, until);
	}
}

static void
add_uses(unsigned uses, struct text *out)
{
	bool private_use = (uses & 1U << USE_PRIVATE) != 0;
	bool commercial = (uses & 1U << USE_COMMERCIAL) != 0;
	if (private_use != commercial) {
		text_add_format(out, "; %s use only",
		    use_word(private_use ? USE_PRIVATE : USE_COMMERCIAL));
	}
}

static void
add_ages(const struct conditions *when, struct text *out)
{
	if (when->age_from_months != 0) {
		text_add_format(out, "; from an age of %d months", when->age_from_months);
	}
	if (when->age_until_months != 0) {
		text_add_format(
		    out, "; below an age of %d months", when->age_until_months);
	}
	if (when->made_from != DAY_NONE) {
		text_add(out, "; made on or after ");
		add_day(when->made_from, "", out);
	}
	if (when->made_until != DAY_NONE) {
		text_add(out, "; made on or before ");
		add_day(when->made_until, "", out);
	}
}

static void
add_length(const char *words, int centimetres, struct text *out)
{
	if (centimetres != 0) {
		text_add_format(
		    out, "; %s %d.%02d m", words, centimetres / 100, centimetres % 100);
	}
}

static void
add_seasons(const struct conditions *when, struct text *out)
{
	if (when->season_months_below != 0) {
		text_add_format(out, "; in use in fewer than %d months a year",
		    when->season_months_below);
	}
	if (when->above_freezing != 0) {
		text_add(
		    out, when->above_freezing > 0
			     ? "; only in months with a mean daily minimum above 0 C"
			     : "; also in months without a mean daily minimum above 0 C");
	}
	if (when->dry_storage != 0) {
		text_add(out, when->dry_storage > 0 ? "; dry storage out of season"
						    : "; no dry storage out of season");
	}
	if (when->test_valid_months != 0) {
		text_add_format(out,
		    "; the gas cylinder's test good for %d months from the last service",
		    when->test_valid_months);
	}
}

void
sheet_add_conditions(const struct conditions *when, struct text *out)
{
	add_uses(when->uses, out);
	add_ages(when, out);
	if (when->marked != 0) {
		text_add(out, when->marked > 0 ? "; only with a marked expiry"
					       : "; only without a marked expiry");
	}
	add_length("length at least", when->length_from_cm, out);
	add_length("length below", when->length_below_cm, out);
	add_range("persons", when->persons_from, when->persons_until, out);
	add_range("vessel built", when->built_from, when->built_until, out);
	for (size_t i = 0; i < when->area_count; i++) {
		text_add_format(out, "%s%s", i == 0 ? "; area " : " or ", when->areas[i]);
	}
	for (size_t i = 0; i < when->area_except_count; i++) {
		text_add_format(out, "%s%s", i == 0 ? "; any area but " : " or ",
		    when->areas_except[i]);
	}
	add_seasons(when, out);
	for (size_t i = 0; i < when->rating_count; i++) {
		text_add_format(
		    out, "%s%s", i == 0 ? "; rating " : " or ", when->ratings[i]);
	}
}

void
sheet_add_extras(const struct rule *rule, struct text *out)
{
	static const char *const NEXT[] = {
	    [NEXT_FROM_DONE] = "",
	    [NEXT_FROM_DUE] = ", keeps the anniversary",
	    [NEXT_FROM_DUE_EVEN_LATE] = ", keeps the anniversary even when late",
	};
	if (rule->window.early_months != 0 || rule->window.late_months != 0) {
		text_add_format(out, "; window %d months early, %d late%s",
		    rule->window.early_months, rule->window.late_months,
		    NEXT[rule->window.next]);
	}
	if (rule->extension_months != 0) {
		text_add_format(
		    out, "; may be extended by %d months", rule->extension_months);
	}
	text_add(out, rule->contents_bind ? "; no later than its earliest part" : "");
	for (size_t i = 0; i < rule->instead_of_count; i++) {
		text_add_format(
		    out, "%s%s", i == 0 ? "; instead of " : ", ", rule->instead_of[i]);
	}
	for (size_t i = 0; i < rule->beside_count; i++) {
		text_add_format(
		    out, "%s%s", i == 0 ? "; beside " : ", ", rule->beside[i]);
	}
}

void
sheet_add_list(const char *const *words, size_t count, struct text *out)
{
	for (size_t i = 0; i < count; i++) {
		text_add_format(out, "%s%s", i == 0 ? "" : ", ", words[i]);
	}
}

static void
add_needed(const struct carriage *line, struct text *out)
{
	bool by_persons = line->per_person > 0 || line->percent > 0;
	if (line->per_person > 0) {
		text_add_format(out, "%d for each person", line->per_person);
	} else if (!by_persons) {
		text_add_format(out, "%d", line->points);
	}
	if (line->percent > 0) {
		text_add_format(out,
		    line->per_person > 0 ? " and %d per cent on top, rounded up"
					 : "%d per cent of the persons, rounded up",
		    line->percent);
	}
	if (line->plus > 0) {
		text_add_format(out, ", and %d more", line->plus);
	}
}

void
sheet_add_need(const struct carriage *line, struct text *out)
{
	add_needed(line, out);
	if (line->without_largest) {
		text_add(out, ", with the largest piece lost");
	}
	for (size_t i = 0; i < line->place_count; i++) {
		text_add_format(
		    out, "%s%s", i == 0 ? "; placed at: " : " or ", line->places[i]);
	}
	if (line->any_of[0] != '\0' && strcmp(line->way, line->id) != 0) {
		text_add_format(
		    out, "; together with way %s of %s", line->way, line->any_of);
	}
	if (line->any_of[0] != '\0') {
		text_add_format(out, "; one way of %s is enough", line->any_of);
	}
}

void
sheet_add_serving(const struct serving *serving, struct text *out)
{
	sheet_add_list(serving->kinds, serving->kind_count, out);
	sheet_add_worth(serving, out);
}

void
sheet_add_worth(const struct serving *serving, struct text *out)
{
	if (serving->rating[0] != '\0') {
		text_add_format(out, ", rated %s or more", serving->rating);
	}
	if (serving->capacity_from > 0) {
		text_add_format(out, ", for %d persons or more", serving->capacity_from);
	}
	if (serving->by_capacity) {
		text_add(out, ": the persons each is for");
	} else {
		text_add_format(out, ": %d each", serving->points);
	}
	if (serving->at_most > 0) {
		text_add_format(out, ", at most %d together", serving->at_most);
	}
}
