/* Rule sheets as JSON: lists, one whole, what was found in files, two side by side. */
#include "exchange/answers.h"
#include "exchange/json_object.h"

#include <limits.h>

static const char *const THROUGH[] = {
    [THROUGH_DAY] = "day",
    [THROUGH_MONTH_END] = "month-end",
    [THROUGH_YEAR_END] = "year-end",
};

static void
put_list(json_t *object, const char *key, const char *const *words, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(array, json_string(words[i]));
	}
	json_put(object, key, array);
}

/* A key only where the list has something. */
static void
put_some(json_t *object, const char *key, const char *const *words, size_t count)
{
	if (count > 0) {
		put_list(object, key, words, count);
	}
}

/* A key only where the number is set. */
static void
put_set(json_t *object, const char *key, int number)
{
	if (number != 0) {
		json_put(object, key, json_integer(number));
	}
}

static void
put_either(json_t *object, const char *key, int either)
{
	if (either != 0) {
		json_put_bool(object, key, either > 0);
	}
}

/* Conditions under the keys a sheet has for them, lengths in centimetres. */
static json_t *
when_object(const struct conditions *when)
{
	json_t *object = json_object();
	if (when->uses != 0) {
		json_put_string(object, "use",
		    use_word(
			when->uses == 1U << USE_PRIVATE ? USE_PRIVATE : USE_COMMERCIAL));
	}
	put_set(object, "age_from", when->age_from_months);
	put_set(object, "age_until", when->age_until_months);
	put_either(object, "marked", when->marked);
	put_set(object, "length_from_cm", when->length_from_cm);
	put_set(object, "length_below_cm", when->length_below_cm);
	put_set(object, "persons_from", when->persons_from);
	put_set(object, "persons_until", when->persons_until);
	put_set(object, "built_from", when->built_from);
	put_set(object, "built_until", when->built_until);
	if (when->made_from != DAY_NONE) {
		json_put_day(object, "made_from", when->made_from);
	}
	if (when->made_until != DAY_NONE) {
		json_put_day(object, "made_until", when->made_until);
	}
	put_some(object, "areas", when->areas, when->area_count);
	put_some(object, "areas_except", when->areas_except, when->area_except_count);
	put_set(object, "season_months_below", when->season_months_below);
	put_either(object, "above_freezing", when->above_freezing);
	put_either(object, "dry_storage", when->dry_storage);
	put_set(object, "test_valid", when->test_valid_months);
	put_some(object, "ratings", when->ratings, when->rating_count);
	return object;
}

static json_t *
clock_object(const struct clock_rule *clock)
{
	json_t *object = json_object();
	json_t *from = json_array();
	for (size_t i = 0; i < clock->anchor_count; i++) {
		json_push(from, json_string(anchor_word(clock->anchors[i])));
	}
	json_put(object, "from", from);
	json_put_number(object, "days", clock->days, 0);
	json_put_number(object, "months",
	    clock->days > 0 || clock->by_maker ? -1 : clock->months, -1);
	json_put_words(object, "interval", clock->by_maker ? "maker" : "");
	json_put(object, "done_from", json_integer(clock->done_from));
	json_put_number(object, "done_until", clock->done_until, INT_MAX);
	json_put_string(object, "through", THROUGH[clock->through]);
	json_put_bool(object, "before", clock->before);
	return object;
}

static json_t *
rule_object(const struct rule *rule)
{
	json_t *object = json_object();
	json_t *clocks = json_array();
	for (size_t i = 0; i < rule->clock_count; i++) {
		json_push(clocks, clock_object(&rule->clocks[i]));
	}
	json_put_string(object, "rule", rule->id);
	json_put_string(object, "sheet", rule->sheet);
	json_put_string(object, "origin", rule->origin);
	json_put_words(object, "replaces", rule->replaces);
	put_list(object, "kinds", rule->kinds, rule->kind_count);
	json_put(object, "when", when_object(&rule->when));
	json_put_string(object, "task", task_word(rule->task));
	json_put_string(object, "doer", doer_word(rule->doer));
	json_put_string(object, "grade", grade_word(rule->grade));
	json_put_string(object, "lapse", state_word(rule->lapse));
	json_put(object, "clocks", clocks);
	put_list(object, "instead_of", rule->instead_of, rule->instead_of_count);
	json_put_words(object, "what", rule->what);
	json_put_string(object, "source", rule->source);
	json_put_string(object, "standing", standing_word(rule->standing));
	return object;
}

static json_t *
serving_object(const struct serving *serving)
{
	json_t *object = json_object();
	put_list(object, "kinds", serving->kinds, serving->kind_count);
	json_put_number(object, "points", serving->points, 0);
	json_put_bool(object, "by_capacity", serving->by_capacity);
	json_put_number(object, "capacity_from", serving->capacity_from, 0);
	json_put_words(object, "rating", serving->rating);
	json_put_number(object, "at_most", serving->at_most, 0);
	return object;
}

static json_t *
line_object(const struct carriage *line)
{
	json_t *object = json_object();
	json_t *serves = json_array();
	for (size_t i = 0; i < line->serve_count; i++) {
		json_push(serves, serving_object(&line->serves[i]));
	}
	json_put_string(object, "line", line->id);
	json_put_string(object, "title", line->title);
	json_put_string(object, "sheet", line->sheet);
	json_put_string(object, "origin", line->origin);
	json_put_words(object, "replaces", line->replaces);
	json_put(object, "when", when_object(&line->when));
	json_put_number(object, "points", line->points, 0);
	json_put_number(object, "per_person", line->per_person, 0);
	json_put_number(object, "percent", line->percent, 0);
	json_put_number(object, "plus", line->plus, 0);
	json_put_bool(object, "without_largest", line->without_largest);
	put_list(object, "places", line->places, line->place_count);
	json_put_words(object, "any_of", line->any_of);
	json_put_words(object, "way", line->any_of[0] == '\0' ? NULL : line->way);
	json_put(object, "serves", serves);
	json_put_string(object, "source", line->source);
	json_put_string(object, "standing", standing_word(line->standing));
	return object;
}

/* The words of the subjects whose bits are set. */
static json_t *
about_array(unsigned about)
{
	json_t *array = json_array();
	for (unsigned i = 0; i < GEAR_SUBJECT_COUNT; i++) {
		if ((about & 1U << i) != 0) {
			json_push(array, json_string(GEAR_SUBJECT_WORDS[i]));
		}
	}
	return array;
}

static json_t *
subject_object(const struct not_stated *subject)
{
	json_t *object = json_object();
	json_put_string(object, "id", subject->id);
	json_put_string(object, "subject", subject->subject);
	json_put_string(object, "ask", subject->ask);
	json_put_string(object, "origin", subject->origin);
	json_put_words(object, "replaces", subject->replaces);
	json_put(object, "when", when_object(&subject->when));
	put_list(object, "kinds", subject->kinds, subject->kind_count);
	json_put_bool(object, "carriage", subject->carriage);
	json_put(object, "about", about_array(subject->about));
	return object;
}

/* What a list of sheets says of one. */
static json_t *
head_object(const struct sheet *sheet)
{
	json_t *object = json_object();
	json_put_string(object, "sheet", sheet->name);
	json_put_string(object, "title", sheet->title);
	json_put_string(object, "for", sheet->audience);
	json_put_day(object, "compiled", sheet->compiled);
	json_put_words(object, "extends", sheet->extends);
	return object;
}

void
answer_sheets(const struct sheet *const *sheets, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		json_t *object = head_object(sheets[i]);
		json_put(
		    object, "rules", json_integer((json_int_t)sheets[i]->rule_count));
		json_put(object, "carriage",
		    json_integer((json_int_t)sheets[i]->carriage_count));
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

void
answer_sheet(const struct sheet *sheet, struct text *out)
{
	json_t *object = head_object(sheet);
	json_t *rules = json_array();
	json_t *lines = json_array();
	json_t *subjects = json_array();
	for (size_t i = 0; i < sheet->rule_count; i++) {
		json_push(rules, rule_object(&sheet->rules[i]));
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		json_push(lines, line_object(&sheet->carriage[i]));
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		json_push(subjects, subject_object(&sheet->not_stated[i]));
	}
	put_list(object, "strikes", sheet->strikes, sheet->strike_count);
	put_list(object, "cautions", sheet->cautions, sheet->caution_count);
	json_put(object, "rules", rules);
	json_put(object, "carriage", lines);
	json_put(object, "not_stated", subjects);
	answer_value(out, object);
}

void
answer_sheet_check(const struct checked_sheet *files, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		const struct sheet_findings *findings = &files[i].findings;
		json_t *object = json_object();
		json_t *array = json_array();
		for (size_t j = 0; j < findings->count; j++) {
			const struct sheet_finding *finding = &findings->items[j];
			json_t *entry = json_object();
			json_put_number(entry, "line", (int64_t)finding->line, 0);
			json_put_words(entry, "about", finding->about);
			json_put_string(entry, "what", finding->what);
			json_put_string(entry, "todo", finding->todo);
			json_put_bool(entry, "remark", finding->remark);
			json_push(array, entry);
		}
		json_put_string(object, "file", files[i].path);
		json_put_bool(object, "ok", sheet_findings_wrong(findings) == 0);
		json_put_words(object, "title",
		    files[i].sheet == NULL ? NULL : files[i].sheet->title);
		json_put(object, "findings", array);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

static json_t *
rules_array(const struct rule_list *rules)
{
	json_t *array = json_array();
	for (size_t i = 0; i < rules->count; i++) {
		json_push(array, rule_object(rules->items[i]));
	}
	return array;
}

static json_t *
lines_array(const struct line_list *lines)
{
	json_t *array = json_array();
	for (size_t i = 0; i < lines->count; i++) {
		json_push(array, line_object(lines->items[i]));
	}
	return array;
}

void
answer_compare_rules(const char *const names[2], const struct comparison *comparison,
    const struct line_list lines[2], struct text *out)
{
	json_t *object = json_object();
	json_t *tasks = json_array();
	for (size_t i = 0; i < comparison->count; i++) {
		const struct task_compared *compared = &comparison->items[i];
		json_t *entry = json_object();
		json_put_string(entry, "kind", compared->kind);
		json_put_string(entry, "task", task_word(compared->task));
		json_put_bool(entry, "same", compared->same);
		json_put(entry, "a", rules_array(&compared->sides[0]));
		json_put(entry, "b", rules_array(&compared->sides[1]));
		json_push(tasks, entry);
	}
	json_t *carriage = json_object();
	json_put(carriage, "a", lines_array(&lines[0]));
	json_put(carriage, "b", lines_array(&lines[1]));
	json_put_string(object, "a", names[0]);
	json_put_string(object, "b", names[1]);
	json_put(object, "tasks", tasks);
	json_put(object, "carriage", carriage);
	answer_value(out, object);
}
