#include "report/report.h"
#include "report/words.h"

#include <string.h>

static const struct table_column SHEETS_COLUMNS[] = {
    {"Sheet", 24, ALIGN_LEFT, false},
    {"Rules", 0, ALIGN_RIGHT, false},
    {"Compiled", 0, ALIGN_LEFT, false},
    {"What it is", 0, ALIGN_LEFT, true},
};

bool
report_sheets(const struct report_style *style, const struct sheet *const *sheets,
    size_t count, struct text *out, struct fault *fault)
{
	SCOPED_TABLE table;
	SCOPED_TEXT words = {0};
	table_init(&table, SHEETS_COLUMNS,
	    sizeof SHEETS_COLUMNS / sizeof SHEETS_COLUMNS[0], 0, style->colour);
	for (size_t i = 0; i < count; i++) {
		table_add(&table, HUE_STRONG, sheets[i]->name);
		text_reset(&words);
		text_add_format(&words, "%zu", sheets[i]->rule_count);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		add_day(sheets[i]->compiled, "not said", &words);
		table_add(&table, HUE_NONE, text_string(&words));
		table_add(&table, HUE_NONE, sheets[i]->title);
	}
	if (count == 0) {
		text_add(out, "No rule sheets to show.\n");
	}
	return text_check(&words, fault) && table_write(&table, out, fault);
}

static const struct table_column RULE_COLUMNS[] = {
    {"", 8, ALIGN_LEFT, false},
    {"", 0, ALIGN_LEFT, true},
};

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
		case ANCHOR_MADE:
		case ANCHOR_PACKED:
		case ANCHOR_BOUGHT:
		case ANCHOR_FITTED:
			text_add_format(out, "%s", anchor_word(clock->anchors[i]));
			break;
		}
	}
}

/* Adds when a clock holds, by how often the task was done. */
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

/* Adds "first: 36 months from packed, else made, to the end of the month". */
static void
add_clock(const struct clock_rule *clock, struct text *out)
{
	int number = clock->days > 0 ? clock->days : clock->months;
	add_times(clock, out);
	if (number != 0) {
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
add_range(const char *what, int from, int until, const char *unit, struct text *out)
{
	if (from != 0 && until != 0) {
		text_add_format(out, "; %s from %d to %d%s", what, from, until, unit);
	} else if (from != 0) {
		text_add_format(out, "; %s from %d%s", what, from, unit);
	} else if (until != 0) {
		text_add_format(out, "; %s up to %d%s", what, until, unit);
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

/* Adds the conditions, each after "; ". */
static void
add_conditions(const struct conditions *when, struct text *out)
{
	add_uses(when->uses, out);
	add_ages(when, out);
	if (when->marked != 0) {
		text_add(out, when->marked > 0 ? "; only with a marked expiry"
					       : "; only without a marked expiry");
	}
	add_length("length at least", when->length_from_cm, out);
	add_length("length below", when->length_below_cm, out);
	add_range("persons", when->persons_from, when->persons_until, "", out);
	add_range("vessel built", when->built_from, when->built_until, "", out);
	for (size_t i = 0; i < when->area_count; i++) {
		text_add_format(out, "%s%s", i == 0 ? "; area " : " or ", when->areas[i]);
	}
	add_seasons(when, out);
	for (size_t i = 0; i < when->rating_count; i++) {
		text_add_format(
		    out, "%s%s", i == 0 ? "; rating " : " or ", when->ratings[i]);
	}
}

static void
add_extras(const struct rule *rule, struct text *out)
{
	if (rule->window.early_months != 0 || rule->window.late_months != 0) {
		text_add_format(out, "; window %d months early, %d late%s",
		    rule->window.early_months, rule->window.late_months,
		    rule->window.from_due ? ", keeps the anniversary" : "");
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
}

static void
add_list(const char *const *words, size_t count, struct text *out)
{
	for (size_t i = 0; i < count; i++) {
		text_add_format(out, "%s%s", i == 0 ? "" : ", ", words[i]);
	}
}

/* Adds where something in a sheet that extends another comes from. */
static void
add_descent(const char *sheet, const char *origin, const char *replaces, struct text *out)
{
	if (replaces[0] != '\0') {
		text_add_format(out, "; replaces that of %s", replaces);
	} else if (strcmp(sheet, origin) != 0) {
		text_add_format(out, "; taken over from %s", origin);
	}
}

/* One rule: its name, what it is for, its figures and where they come from. */
static bool
write_rule(const struct report_style *style, const struct rule *rule, struct text *out,
    struct fault *fault)
{
	SCOPED_TABLE table;
	SCOPED_TEXT words = {0};
	table_init(&table, RULE_COLUMNS, 2, 2, style->colour);
	text_add_format(&words, "%s: %s, by %s, grade %s; when passed: %s", rule->id,
	    task_word(rule->task), doer_word(rule->doer), grade_word(rule->grade),
	    state_word(rule->lapse));
	add_descent(rule->sheet, rule->origin, rule->replaces, &words);
	text_add_byte(out, '\n');
	paragraph(text_string(&words), 0, 2, out);
	text_reset(&words);
	add_list(rule->kinds, rule->kind_count, &words);
	table_add(&table, HUE_NONE, "For");
	table_add(&table, HUE_NONE, text_string(&words));
	if (rule->what[0] != '\0') {
		table_add(&table, HUE_NONE, "To do");
		table_add(&table, HUE_NONE, rule->what);
	}
	text_reset(&words);
	for (size_t i = 0; i < rule->clock_count; i++) {
		text_add(&words, i == 0 ? "" : "; ");
		add_clock(&rule->clocks[i], &words);
	}
	table_add(&table, HUE_NONE, "Due");
	table_add(&table, HUE_NONE, text_string(&words));
	text_reset(&words);
	add_conditions(&rule->when, &words);
	add_extras(rule, &words);
	if (words.length > 0) {
		table_add(&table, HUE_NONE, "Holds");
		table_add(&table, HUE_NONE, text_string(&words) + 2);
	}
	text_reset(&words);
	add_source(rule->source, rule->standing, &words);
	table_add(&table, HUE_NONE, "Source");
	table_add(&table, HUE_NONE, text_string(&words));
	return text_check(&words, fault) && table_write(&table, out, fault);
}

/* Adds what a line needs: "1 for each person and 10 per cent on top, and 2 more". */
static void
add_need(const struct carriage *line, struct text *out)
{
	if (line->per_person > 0) {
		text_add_format(out, "%d for each person", line->per_person);
	} else {
		text_add_format(out, "%d", line->points);
	}
	if (line->percent > 0) {
		text_add_format(
		    out, " and %d per cent on top, rounded up", line->percent);
	}
	if (line->plus > 0) {
		text_add_format(out, ", and %d more", line->plus);
	}
	if (line->any_of[0] != '\0') {
		text_add_format(out, "; one line of %s is enough", line->any_of);
	}
}

/* One carriage line, as a rule is written. */
static bool
write_carriage(const struct report_style *style, const struct carriage *line,
    struct text *out, struct fault *fault)
{
	SCOPED_TABLE table;
	SCOPED_TEXT words = {0};
	table_init(&table, RULE_COLUMNS, 2, 2, style->colour);
	text_add_format(&words, "%s: to be carried: %s", line->id, line->title);
	add_descent(line->sheet, line->origin, line->replaces, &words);
	text_add_byte(out, '\n');
	paragraph(text_string(&words), 0, 2, out);
	text_reset(&words);
	add_need(line, &words);
	table_add(&table, HUE_NONE, "Needs");
	table_add(&table, HUE_NONE, text_string(&words));
	for (size_t i = 0; i < line->serve_count; i++) {
		const struct serving *serving = &line->serves[i];
		text_reset(&words);
		add_list(serving->kinds, serving->kind_count, &words);
		text_add_format(&words, ": %d each", serving->points);
		table_add(&table, HUE_NONE, i == 0 ? "Met by" : "");
		table_add(&table, HUE_NONE, text_string(&words));
	}
	text_reset(&words);
	add_conditions(&line->when, &words);
	if (words.length > 0) {
		table_add(&table, HUE_NONE, "Holds");
		table_add(&table, HUE_NONE, text_string(&words) + 2);
	}
	text_reset(&words);
	add_source(line->source, line->standing, &words);
	table_add(&table, HUE_NONE, "Source");
	table_add(&table, HUE_NONE, text_string(&words));
	return text_check(&words, fault) && table_write(&table, out, fault);
}

/* What the sheet carries no figure for. */
static void
write_subject(const struct not_stated *subject, struct text *words, struct text *out)
{
	text_reset(words);
	text_add_format(words, "%s: not stated here: %s; ask %s", subject->id,
	    subject->subject, subject->ask);
	add_descent(subject->sheet, subject->origin, subject->replaces, words);
	text_add_byte(words, '.');
	text_add_byte(out, '\n');
	paragraph(text_string(words), 0, 2, out);
	text_reset(words);
	if (subject->kind_count > 0) {
		text_add(words, "For: ");
		add_list(subject->kinds, subject->kind_count, words);
		paragraph(text_string(words), 2, 4, out);
	}
	text_reset(words);
	add_conditions(&subject->when, words);
	if (words->length > 0) {
		text_add_byte(words, '.');
		paragraph(text_string(words) + 2, 2, 4, out);
	}
}

/* "Extends practice, without gas-hose." */
static void
add_extends(const struct sheet *sheet, struct text *out)
{
	if (sheet->extends[0] == '\0') {
		return;
	}
	text_add_format(out, " Extends %s", sheet->extends);
	text_add(out, sheet->strike_count == 0 ? "" : ", without ");
	add_list(sheet->strikes, sheet->strike_count, out);
	text_add_byte(out, '.');
}

bool
report_sheet(const struct report_style *style, const struct sheet *sheet,
    struct text *out, struct fault *fault)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: %s.", sheet->name, sheet->title);
	if (sheet->audience[0] != '\0') {
		text_add_format(&words, " For %s.", sheet->audience);
	}
	text_add(&words, " Compiled ");
	add_day(sheet->compiled, "on no day that is said", &words);
	text_add_byte(&words, '.');
	add_extends(sheet, &words);
	paragraph(text_string(&words), 0, 2, out);
	for (size_t i = 0; i < sheet->caution_count; i++) {
		paragraph(sheet->cautions[i], 0, 2, out);
	}
	for (size_t i = 0; i < sheet->rule_count; i++) {
		if (!write_rule(style, &sheet->rules[i], out, fault)) {
			return false;
		}
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		if (!write_carriage(style, &sheet->carriage[i], out, fault)) {
			return false;
		}
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		write_subject(&sheet->not_stated[i], &words, out);
	}
	add_caution(out);
	return text_check(&words, fault) && text_check(out, fault);
}
