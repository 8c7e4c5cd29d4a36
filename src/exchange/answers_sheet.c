/* Rule sheets as JSON: lists, one whole, what was found in files, two side by side. */
#include "exchange/answers.h"
#include "exchange/json_object.h"

#include <limits.h>

static const char *const THROUGH[] = {
    [THROUGH_DAY] = "day",
    [THROUGH_MONTH_END] = "month-end",
    [THROUGH_YEAR_END] = "year-end",
};

/* A list; null where it is empty. */
static struct json
some(const char *const *words, size_t count)
{
	return count > 0 ? json_strings(words, count) : json_none();
}

/* Yes or no; null where neither was said. */
static struct json
either(int either)
{
	return either != 0 ? json_flag(either > 0) : json_none();
}

static ANSWER_KEYS(WHEN_KEYS, "a condition",
    "use: there where it is set, as all that follow", "age_from: in months, as the next",
    "age_until", "marked: a date is printed on it", "length_from_cm", "length_below_cm",
    "persons_from", "persons_until", "built_from", "built_until", "made_from",
    "made_until", "areas", "areas_except", "season_months_below", "above_freezing",
    "dry_storage", "test_valid: so many months", "ratings");

/* Conditions under the keys a sheet has for them, lengths in centimetres. */
static struct json
when_object(const struct conditions *when)
{
	bool private = when->uses == 1U << USE_PRIVATE;
	const char *use = use_word(private ? USE_PRIVATE : USE_COMMERCIAL);
	return JSON_PUT(json_begun(), &WHEN_KEYS, JSON_SOME,
	    json_words(when->uses != 0 ? use : NULL),
	    json_number(when->age_from_months, 0), json_number(when->age_until_months, 0),
	    either(when->marked), json_number(when->length_from_cm, 0),
	    json_number(when->length_below_cm, 0), json_number(when->persons_from, 0),
	    json_number(when->persons_until, 0), json_number(when->built_from, 0),
	    json_number(when->built_until, 0), json_day(when->made_from),
	    json_day(when->made_until), some(when->areas, when->area_count),
	    some(when->areas_except, when->area_except_count),
	    json_number(when->season_months_below, 0), either(when->above_freezing),
	    either(when->dry_storage), json_number(when->test_valid_months, 0),
	    some(when->ratings, when->rating_count));
}

static ANSWER_KEYS(CLOCK_KEYS, "a clock",
    "from: what it counts from, the earliest of these", "days", "months",
    "interval: maker, where his is asked for",
    "done_from: the task was done so often, as the next", "done_until",
    "through: day, month-end or year-end", "before: the day itself is too late");

static struct json
clock_object(const struct clock_rule *clock)
{
	bool in_months = clock->days <= 0 && !clock->by_maker;
	struct json from = json_list();
	for (size_t i = 0; i < clock->anchor_count; i++) {
		json_push(from, json_text(anchor_word(clock->anchors[i])));
	}
	return JSON_OF(&CLOCK_KEYS, from, json_number(clock->days, 0),
	    json_number(in_months ? clock->months : -1, -1),
	    json_words(clock->by_maker ? "maker" : ""), json_whole(clock->done_from),
	    json_number(clock->done_until, INT_MAX), json_text(THROUGH[clock->through]),
	    json_flag(clock->before));
}

#define ITS_ORIGIN                                                                       \
	"origin: the sheet it stands in itself",                                         \
	    "replaces: the sheet whose own of this id it does"

static ANSWER_KEYS(RULE_KEYS, "a rule", "rule", "sheet", ITS_ORIGIN, "kinds", "when",
    "task", "doer: owner, station or authority",
    "grade: how binding: law, maker or practice", "lapse: the state it leads to",
    "clocks", "instead_of: these rules", "what: in words", "source",
    "standing: how the source was seen");

static struct json
rule_object(const struct rule *rule)
{
	struct json clocks = json_list();
	for (size_t i = 0; i < rule->clock_count; i++) {
		json_push(clocks, clock_object(&rule->clocks[i]));
	}
	return JSON_OF(&RULE_KEYS, json_text(rule->id), json_text(rule->sheet),
	    json_text(rule->origin), json_words(rule->replaces),
	    json_strings(rule->kinds, rule->kind_count), when_object(&rule->when),
	    json_text(task_word(rule->task)), json_text(doer_word(rule->doer)),
	    json_text(grade_word(rule->grade)), json_text(state_word(rule->lapse)),
	    clocks, json_strings(rule->instead_of, rule->instead_of_count),
	    json_words(rule->what), json_text(rule->source),
	    json_text(standing_word(rule->standing)));
}

static ANSWER_KEYS(SERVING_KEYS, "what serves it", "kinds", "points: of one in date",
    "by_capacity: as many as the persons it is for", "capacity_from", "rating",
    "at_most: points of these");

static struct json
serving_object(const struct serving *serving)
{
	return JSON_OF(&SERVING_KEYS, json_strings(serving->kinds, serving->kind_count),
	    json_number(serving->points, 0), json_flag(serving->by_capacity),
	    json_number(serving->capacity_from, 0), json_words(serving->rating),
	    json_number(serving->at_most, 0));
}

static ANSWER_KEYS(CARRIAGE_KEYS, "a line", "line: its id", "title", "sheet", ITS_ORIGIN,
    "when", "points: that are needed", "per_person", "percent", "plus",
    "without_largest: what is left when that is lost must do", "places",
    "any_of: what other lines meet, too", "way: lines of the same are needed together",
    "serves", "source", "standing: how the source was seen");

static struct json
line_object(const struct carriage *line)
{
	struct json serves = json_list();
	for (size_t i = 0; i < line->serve_count; i++) {
		json_push(serves, serving_object(&line->serves[i]));
	}
	return JSON_OF(&CARRIAGE_KEYS, json_text(line->id), json_text(line->title),
	    json_text(line->sheet), json_text(line->origin), json_words(line->replaces),
	    when_object(&line->when), json_number(line->points, 0),
	    json_number(line->per_person, 0), json_number(line->percent, 0),
	    json_number(line->plus, 0), json_flag(line->without_largest),
	    json_strings(line->places, line->place_count), json_words(line->any_of),
	    json_words(line->any_of[0] == '\0' ? NULL : line->way), serves,
	    json_text(line->source), json_text(standing_word(line->standing)));
}

static ANSWER_KEYS(SUBJECT_KEYS, "what is not stated", "id", "subject", "ask: whom to",
    ITS_ORIGIN, "when", "kinds", "carriage: it is about that", "about: subjects of that");

static struct json
subject_object(const struct not_stated *subject)
{
	struct json about = json_list();
	for (unsigned i = 0; i < GEAR_SUBJECT_COUNT; i++) {
		if ((subject->about & 1U << i) != 0) {
			json_push(about, json_text(GEAR_SUBJECT_WORDS[i]));
		}
	}
	return JSON_OF(&SUBJECT_KEYS, json_text(subject->id), json_text(subject->subject),
	    json_text(subject->ask), json_text(subject->origin),
	    json_words(subject->replaces), when_object(&subject->when),
	    json_strings(subject->kinds, subject->kind_count),
	    json_flag(subject->carriage), about);
}

#define EVERY_SHEET                                                                      \
	"sheet: its name", "title", "for: whom", "compiled: the day",                    \
	    "extends: that sheet"

static ANSWER_KEYS(
    LISTED_KEYS, "a sheet", EVERY_SHEET, "rules: how many, as the next", "carriage");

static ANSWER_KEYS(SHEET_KEYS, "the sheet", EVERY_SHEET,
    "strikes: ids of what it extends", "cautions", "rules", "carriage: lines",
    "not_stated");

const struct answer_keys *const KEYS_OF_SHEETS[] = {&LISTED_KEYS, NULL};

const struct answer_keys *const KEYS_OF_SHEET[] = {&SHEET_KEYS, &RULE_KEYS, &WHEN_KEYS,
    &CLOCK_KEYS, &CARRIAGE_KEYS, &SERVING_KEYS, &SUBJECT_KEYS, NULL};

/* A sheet, begun with what a list says of it. */
static struct json
begun_sheet(const struct answer_keys *keys, const struct sheet *sheet)
{
	return JSON_PUT(json_begun(), keys, JSON_NEXT, json_text(sheet->name),
	    json_text(sheet->title), json_text(sheet->audience),
	    json_day(sheet->compiled), json_words(sheet->extends));
}

void
answer_sheets(const struct sheet *const *sheets, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		answer_element(
		    &answer, JSON_PUT(begun_sheet(&LISTED_KEYS, sheets[i]), &LISTED_KEYS,
				 JSON_LAST, json_count(sheets[i]->rule_count),
				 json_count(sheets[i]->carriage_count)));
	}
	answer_end(&answer);
}

void
answer_sheet(const struct sheet *sheet, struct text *out)
{
	struct json rules = json_list();
	struct json lines = json_list();
	struct json subjects = json_list();
	for (size_t i = 0; i < sheet->rule_count; i++) {
		json_push(rules, rule_object(&sheet->rules[i]));
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		json_push(lines, line_object(&sheet->carriage[i]));
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		json_push(subjects, subject_object(&sheet->not_stated[i]));
	}
	answer_value(
	    out, JSON_PUT(begun_sheet(&SHEET_KEYS, sheet), &SHEET_KEYS, JSON_LAST,
		     json_strings(sheet->strikes, sheet->strike_count),
		     json_strings(sheet->cautions, sheet->caution_count), rules, lines,
		     subjects));
}

static ANSWER_KEYS(FILE_KEYS, "a file", "file", "ok: nothing but remarks was found",
    "title", "findings");

static ANSWER_KEYS(FOUND_KEYS, "a finding", "line: its number in the file", "about",
    "what", "todo", "remark: it need not be mended");

const struct answer_keys *const KEYS_OF_SHEET_CHECK[] = {&FILE_KEYS, &FOUND_KEYS, NULL};

void
answer_sheet_check(const struct checked_sheet *files, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		const struct sheet_findings *findings = &files[i].findings;
		const struct sheet *sheet = files[i].sheet;
		struct json array = json_list();
		for (size_t j = 0; j < findings->count; j++) {
			const struct sheet_finding *finding = &findings->items[j];
			json_push(array,
			    JSON_OF(&FOUND_KEYS, json_number((int64_t)finding->line, 0),
				json_words(finding->about), json_text(finding->what),
				json_text(finding->todo), json_flag(finding->remark)));
		}
		answer_element(
		    &answer, JSON_OF(&FILE_KEYS, json_text(files[i].path),
				 json_flag(sheet_findings_wrong(findings) == 0),
				 json_words(sheet == NULL ? NULL : sheet->title), array));
	}
	answer_end(&answer);
}

static struct json
rules_array(const struct rule_list *rules)
{
	struct json array = json_list();
	for (size_t i = 0; i < rules->count; i++) {
		json_push(array, rule_object(rules->items[i]));
	}
	return array;
}

static struct json
lines_array(const struct line_list *lines)
{
	struct json array = json_list();
	for (size_t i = 0; i < lines->count; i++) {
		json_push(array, line_object(lines->items[i]));
	}
	return array;
}

static ANSWER_KEYS(COMPARE_KEYS, "the answer", "a: the one", "b: the other",
    "tasks: what each has", "carriage");

static ANSWER_KEYS(
    COMPARED_KEYS, "a task", "kind", "task", "same", "a: rules", "b: rules");

static ANSWER_KEYS(SIDES_KEYS, "carriage", "a: lines", "b: lines");

const struct answer_keys *const KEYS_OF_COMPARED_RULES[] = {
    &COMPARE_KEYS, &COMPARED_KEYS, &SIDES_KEYS, NULL};

void
answer_compare_rules(const char *const names[2], const struct comparison *comparison,
    const struct line_list lines[2], struct text *out)
{
	struct json tasks = json_list();
	for (size_t i = 0; i < comparison->count; i++) {
		const struct task_compared *compared = &comparison->items[i];
		json_push(tasks,
		    JSON_OF(&COMPARED_KEYS, json_text(compared->kind),
			json_text(task_word(compared->task)), json_flag(compared->same),
			rules_array(&compared->sides[0]),
			rules_array(&compared->sides[1])));
	}
	answer_value(out,
	    JSON_OF(&COMPARE_KEYS, json_text(names[0]), json_text(names[1]), tasks,
		JSON_OF(&SIDES_KEYS, lines_array(&lines[0]), lines_array(&lines[1]))));
}
