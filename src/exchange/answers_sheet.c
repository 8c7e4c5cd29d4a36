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
put_list(struct answer *answer, json_t *object, const char *key, const char *const *words,
    size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(answer, array, json_string(words[i]));
	}
	json_put(answer, object, key, array);
}

/* A key only where the list has something. */
static void
put_some(struct answer *answer, json_t *object, const char *key, const char *const *words,
    size_t count)
{
	if (count > 0) {
		put_list(answer, object, key, words, count);
	}
}

/* A key only where the number is set. */
static void
put_set(struct answer *answer, json_t *object, const char *key, int number)
{
	if (number != 0) {
		json_put(answer, object, key, json_integer(number));
	}
}

static void
put_either(struct answer *answer, json_t *object, const char *key, int either)
{
	if (either != 0) {
		json_put_bool(answer, object, key, either > 0);
	}
}

/* Conditions under the keys a sheet has for them, lengths in centimetres. */
static json_t *
when_object(struct answer *answer, const struct conditions *when)
{
	json_t *object = json_object();
	if (when->uses != 0) {
		json_put_string(answer, object, "use",
		    use_word(
			when->uses == 1U << USE_PRIVATE ? USE_PRIVATE : USE_COMMERCIAL));
	}
	put_set(answer, object, "age_from", when->age_from_months);
	put_set(answer, object, "age_until", when->age_until_months);
	put_either(answer, object, "marked", when->marked);
	put_set(answer, object, "length_from_cm", when->length_from_cm);
	put_set(answer, object, "length_below_cm", when->length_below_cm);
	put_set(answer, object, "persons_from", when->persons_from);
	put_set(answer, object, "persons_until", when->persons_until);
	put_set(answer, object, "built_from", when->built_from);
	put_set(answer, object, "built_until", when->built_until);
	if (when->made_from != DAY_NONE) {
		json_put_day(answer, object, "made_from", when->made_from);
	}
	if (when->made_until != DAY_NONE) {
		json_put_day(answer, object, "made_until", when->made_until);
	}
	put_some(answer, object, "areas", when->areas, when->area_count);
	put_some(
	    answer, object, "areas_except", when->areas_except, when->area_except_count);
	put_set(answer, object, "season_months_below", when->season_months_below);
	put_either(answer, object, "above_freezing", when->above_freezing);
	put_either(answer, object, "dry_storage", when->dry_storage);
	put_set(answer, object, "test_valid", when->test_valid_months);
	put_some(answer, object, "ratings", when->ratings, when->rating_count);
	return object;
}

static json_t *
clock_object(struct answer *answer, const struct clock_rule *clock)
{
	json_t *object = json_object();
	json_t *from = json_array();
	for (size_t i = 0; i < clock->anchor_count; i++) {
		json_push(answer, from, json_string(anchor_word(clock->anchors[i])));
	}
	json_put(answer, object, "from", from);
	json_put_number(answer, object, "days", clock->days, 0);
	json_put_number(answer, object, "months",
	    clock->days > 0 || clock->by_maker ? -1 : clock->months, -1);
	json_put_words(answer, object, "interval", clock->by_maker ? "maker" : "");
	json_put(answer, object, "done_from", json_integer(clock->done_from));
	json_put_number(answer, object, "done_until", clock->done_until, INT_MAX);
	json_put_string(answer, object, "through", THROUGH[clock->through]);
	json_put_bool(answer, object, "before", clock->before);
	return object;
}

static json_t *
rule_object(struct answer *answer, const struct rule *rule)
{
	json_t *object = json_object();
	json_t *clocks = json_array();
	for (size_t i = 0; i < rule->clock_count; i++) {
		json_push(answer, clocks, clock_object(answer, &rule->clocks[i]));
	}
	json_put_string(answer, object, "rule", rule->id);
	json_put_string(answer, object, "sheet", rule->sheet);
	json_put_string(answer, object, "origin", rule->origin);
	json_put_words(answer, object, "replaces", rule->replaces);
	put_list(answer, object, "kinds", rule->kinds, rule->kind_count);
	json_put(answer, object, "when", when_object(answer, &rule->when));
	json_put_string(answer, object, "task", task_word(rule->task));
	json_put_string(answer, object, "doer", doer_word(rule->doer));
	json_put_string(answer, object, "grade", grade_word(rule->grade));
	json_put_string(answer, object, "lapse", state_word(rule->lapse));
	json_put(answer, object, "clocks", clocks);
	put_list(answer, object, "instead_of", rule->instead_of, rule->instead_of_count);
	json_put_words(answer, object, "what", rule->what);
	json_put_string(answer, object, "source", rule->source);
	json_put_string(answer, object, "standing", standing_word(rule->standing));
	return object;
}

static json_t *
serving_object(struct answer *answer, const struct serving *serving)
{
	json_t *object = json_object();
	put_list(answer, object, "kinds", serving->kinds, serving->kind_count);
	json_put_number(answer, object, "points", serving->points, 0);
	json_put_bool(answer, object, "by_capacity", serving->by_capacity);
	json_put_number(answer, object, "capacity_from", serving->capacity_from, 0);
	json_put_words(answer, object, "rating", serving->rating);
	json_put_number(answer, object, "at_most", serving->at_most, 0);
	return object;
}

static json_t *
line_object(struct answer *answer, const struct carriage *line)
{
	json_t *object = json_object();
	json_t *serves = json_array();
	for (size_t i = 0; i < line->serve_count; i++) {
		json_push(answer, serves, serving_object(answer, &line->serves[i]));
	}
	json_put_string(answer, object, "line", line->id);
	json_put_string(answer, object, "title", line->title);
	json_put_string(answer, object, "sheet", line->sheet);
	json_put_string(answer, object, "origin", line->origin);
	json_put_words(answer, object, "replaces", line->replaces);
	json_put(answer, object, "when", when_object(answer, &line->when));
	json_put_number(answer, object, "points", line->points, 0);
	json_put_number(answer, object, "per_person", line->per_person, 0);
	json_put_number(answer, object, "percent", line->percent, 0);
	json_put_number(answer, object, "plus", line->plus, 0);
	json_put_bool(answer, object, "without_largest", line->without_largest);
	put_list(answer, object, "places", line->places, line->place_count);
	json_put_words(answer, object, "any_of", line->any_of);
	json_put_words(answer, object, "way", line->any_of[0] == '\0' ? NULL : line->way);
	json_put(answer, object, "serves", serves);
	json_put_string(answer, object, "source", line->source);
	json_put_string(answer, object, "standing", standing_word(line->standing));
	return object;
}

/* The words of the subjects whose bits are set. */
static json_t *
about_array(struct answer *answer, unsigned about)
{
	json_t *array = json_array();
	for (unsigned i = 0; i < GEAR_SUBJECT_COUNT; i++) {
		if ((about & 1U << i) != 0) {
			json_push(answer, array, json_string(GEAR_SUBJECT_WORDS[i]));
		}
	}
	return array;
}

static json_t *
subject_object(struct answer *answer, const struct not_stated *subject)
{
	json_t *object = json_object();
	json_put_string(answer, object, "id", subject->id);
	json_put_string(answer, object, "subject", subject->subject);
	json_put_string(answer, object, "ask", subject->ask);
	json_put_string(answer, object, "origin", subject->origin);
	json_put_words(answer, object, "replaces", subject->replaces);
	json_put(answer, object, "when", when_object(answer, &subject->when));
	put_list(answer, object, "kinds", subject->kinds, subject->kind_count);
	json_put_bool(answer, object, "carriage", subject->carriage);
	json_put(answer, object, "about", about_array(answer, subject->about));
	return object;
}

/* What a list of sheets says of one. */
static json_t *
head_object(struct answer *answer, const struct sheet *sheet)
{
	json_t *object = json_object();
	json_put_string(answer, object, "sheet", sheet->name);
	json_put_string(answer, object, "title", sheet->title);
	json_put_string(answer, object, "for", sheet->audience);
	json_put_day(answer, object, "compiled", sheet->compiled);
	json_put_words(answer, object, "extends", sheet->extends);
	return object;
}

void
answer_sheets(const struct sheet *const *sheets, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		json_t *object = head_object(&answer, sheets[i]);
		json_put(&answer, object, "rules",
		    json_integer((json_int_t)sheets[i]->rule_count));
		json_put(&answer, object, "carriage",
		    json_integer((json_int_t)sheets[i]->carriage_count));
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

void
answer_sheet(const struct sheet *sheet, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = head_object(&answer, sheet);
	json_t *rules = json_array();
	json_t *lines = json_array();
	json_t *subjects = json_array();
	for (size_t i = 0; i < sheet->rule_count; i++) {
		json_push(&answer, rules, rule_object(&answer, &sheet->rules[i]));
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		json_push(&answer, lines, line_object(&answer, &sheet->carriage[i]));
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		json_push(
		    &answer, subjects, subject_object(&answer, &sheet->not_stated[i]));
	}
	put_list(&answer, object, "strikes", sheet->strikes, sheet->strike_count);
	put_list(&answer, object, "cautions", sheet->cautions, sheet->caution_count);
	json_put(&answer, object, "rules", rules);
	json_put(&answer, object, "carriage", lines);
	json_put(&answer, object, "not_stated", subjects);
	answer_value(&answer, object);
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
			json_put_number(
			    &answer, entry, "line", (int64_t)finding->line, 0);
			json_put_words(&answer, entry, "about", finding->about);
			json_put_string(&answer, entry, "what", finding->what);
			json_put_string(&answer, entry, "todo", finding->todo);
			json_put_bool(&answer, entry, "remark", finding->remark);
			json_push(&answer, array, entry);
		}
		json_put_string(&answer, object, "file", files[i].path);
		json_put_bool(&answer, object, "ok", sheet_findings_wrong(findings) == 0);
		json_put_words(&answer, object, "title",
		    files[i].sheet == NULL ? NULL : files[i].sheet->title);
		json_put(&answer, object, "findings", array);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

static json_t *
rules_array(struct answer *answer, const struct rule_list *rules)
{
	json_t *array = json_array();
	for (size_t i = 0; i < rules->count; i++) {
		json_push(answer, array, rule_object(answer, rules->items[i]));
	}
	return array;
}

static json_t *
lines_array(struct answer *answer, const struct line_list *lines)
{
	json_t *array = json_array();
	for (size_t i = 0; i < lines->count; i++) {
		json_push(answer, array, line_object(answer, lines->items[i]));
	}
	return array;
}

void
answer_compare_rules(const char *const names[2], const struct comparison *comparison,
    const struct line_list lines[2], struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *tasks = json_array();
	for (size_t i = 0; i < comparison->count; i++) {
		const struct task_compared *compared = &comparison->items[i];
		json_t *entry = json_object();
		json_put_string(&answer, entry, "kind", compared->kind);
		json_put_string(&answer, entry, "task", task_word(compared->task));
		json_put_bool(&answer, entry, "same", compared->same);
		json_put(&answer, entry, "a", rules_array(&answer, &compared->sides[0]));
		json_put(&answer, entry, "b", rules_array(&answer, &compared->sides[1]));
		json_push(&answer, tasks, entry);
	}
	json_t *carriage = json_object();
	json_put(&answer, carriage, "a", lines_array(&answer, &lines[0]));
	json_put(&answer, carriage, "b", lines_array(&answer, &lines[1]));
	json_put_string(&answer, object, "a", names[0]);
	json_put_string(&answer, object, "b", names[1]);
	json_put(&answer, object, "tasks", tasks);
	json_put(&answer, object, "carriage", carriage);
	answer_value(&answer, object);
}
