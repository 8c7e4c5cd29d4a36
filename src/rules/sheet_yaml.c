#include "rules/sheet_inside.h"
#include "rules/yaml_inside.h"

static const cyaml_schema_value_t WORD = YAML_WORD_ENTRY;

static const cyaml_schema_field_t CLOCK_FIELDS[] = {
    YAML_WORDS(
	"from", CYAML_FLAG_DEFAULT, struct yaml_clock, from.items, from.count, &WORD),
    YAML_MAY("months", struct yaml_clock, months),
    YAML_MAY("days", struct yaml_clock, days),
    YAML_MAY("interval", struct yaml_clock, interval),
    YAML_MAY("holds", struct yaml_clock, holds),
    YAML_MAY("done-from", struct yaml_clock, done_from),
    YAML_MAY("done-until", struct yaml_clock, done_until),
    YAML_MAY("through", struct yaml_clock, through),
    YAML_MAY("before", struct yaml_clock, before),
    YAML_MAY("stamp", struct yaml_clock, stamp),
    YAML_WORDS("events", CYAML_FLAG_OPTIONAL, struct yaml_clock, events.items,
	events.count, &WORD),
    CYAML_FIELD_END,
};

static const cyaml_schema_value_t CLOCK = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_DEFAULT, struct yaml_clock, CLOCK_FIELDS),
};

static const cyaml_schema_field_t WHEN_FIELDS[] = {
    YAML_MAY("use", struct yaml_when, use),
    YAML_MAY("age-from", struct yaml_when, age_from),
    YAML_MAY("age-until", struct yaml_when, age_until),
    YAML_MAY("marked", struct yaml_when, marked),
    YAML_MAY("length-from", struct yaml_when, length_from),
    YAML_MAY("length-below", struct yaml_when, length_below),
    YAML_MAY("persons-from", struct yaml_when, persons_from),
    YAML_MAY("persons-until", struct yaml_when, persons_until),
    YAML_MAY("built-from", struct yaml_when, built_from),
    YAML_MAY("built-until", struct yaml_when, built_until),
    YAML_MAY("made-from", struct yaml_when, made_from),
    YAML_MAY("made-until", struct yaml_when, made_until),
    YAML_WORDS(
	"areas", CYAML_FLAG_OPTIONAL, struct yaml_when, areas.items, areas.count, &WORD),
    YAML_WORDS("areas-except", CYAML_FLAG_OPTIONAL, struct yaml_when, areas_except.items,
	areas_except.count, &WORD),
    YAML_MAY("season-months-below", struct yaml_when, season_months_below),
    YAML_MAY("above-freezing", struct yaml_when, above_freezing),
    YAML_MAY("dry-storage", struct yaml_when, dry_storage),
    YAML_MAY("test-valid", struct yaml_when, test_valid),
    YAML_WORDS("ratings", CYAML_FLAG_OPTIONAL, struct yaml_when, ratings.items,
	ratings.count, &WORD),
    CYAML_FIELD_END,
};

static const cyaml_schema_field_t WINDOW_FIELDS[] = {
    YAML_MAY("early", struct yaml_window, early),
    YAML_MAY("late", struct yaml_window, late),
    YAML_MAY("next", struct yaml_window, next),
    CYAML_FIELD_END,
};

static const cyaml_schema_field_t RULE_FIELDS[] = {
    YAML_MUST("id", struct yaml_rule, id),
    YAML_WORDS(
	"kinds", CYAML_FLAG_DEFAULT, struct yaml_rule, kinds.items, kinds.count, &WORD),
    CYAML_FIELD_MAPPING_PTR("when", CYAML_FLAG_POINTER | CYAML_FLAG_OPTIONAL,
	struct yaml_rule, when, WHEN_FIELDS),
    YAML_MUST("task", struct yaml_rule, task),
    YAML_WORDS("counts", CYAML_FLAG_OPTIONAL, struct yaml_rule, counts.items,
	counts.count, &WORD),
    YAML_MUST("doer", struct yaml_rule, doer),
    YAML_MUST("grade", struct yaml_rule, grade),
    YAML_MAY("lapse", struct yaml_rule, lapse),
    CYAML_FIELD_SEQUENCE("clocks", CYAML_FLAG_POINTER, struct yaml_rule, clocks, &CLOCK,
	0, CYAML_UNLIMITED),
    CYAML_FIELD_MAPPING_PTR("window", CYAML_FLAG_POINTER | CYAML_FLAG_OPTIONAL,
	struct yaml_rule, window, WINDOW_FIELDS),
    YAML_MAY("contents-bind", struct yaml_rule, contents_bind),
    YAML_MAY("refit", struct yaml_rule, refit),
    YAML_MAY("extension", struct yaml_rule, extension),
    YAML_WORDS("instead-of", CYAML_FLAG_OPTIONAL, struct yaml_rule, instead_of.items,
	instead_of.count, &WORD),
    YAML_WORDS("beside", CYAML_FLAG_OPTIONAL, struct yaml_rule, beside.items,
	beside.count, &WORD),
    YAML_MAY("what", struct yaml_rule, what),
    YAML_MUST("source", struct yaml_rule, source),
    YAML_MUST("standing", struct yaml_rule, standing),
    CYAML_FIELD_END,
};

static const cyaml_schema_value_t RULE = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_DEFAULT, struct yaml_rule, RULE_FIELDS),
};

static const cyaml_schema_field_t NEED_FIELDS[] = {
    YAML_MAY("points", struct yaml_need, points),
    YAML_MAY("per-person", struct yaml_need, per_person),
    YAML_MAY("percent", struct yaml_need, percent),
    YAML_MAY("plus", struct yaml_need, plus),
    YAML_MAY("without-largest", struct yaml_need, without_largest),
    CYAML_FIELD_END,
};

static const cyaml_schema_field_t SERVES_FIELDS[] = {
    YAML_WORDS(
	"kinds", CYAML_FLAG_DEFAULT, struct yaml_serves, kinds.items, kinds.count, &WORD),
    YAML_MUST("points", struct yaml_serves, points),
    YAML_MAY("capacity-from", struct yaml_serves, capacity_from),
    YAML_MAY("rating", struct yaml_serves, rating),
    YAML_MAY("at-most", struct yaml_serves, at_most),
    CYAML_FIELD_END,
};

static const cyaml_schema_value_t SERVES = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_DEFAULT, struct yaml_serves, SERVES_FIELDS),
};

static const cyaml_schema_field_t CARRIAGE_FIELDS[] = {
    YAML_MUST("id", struct yaml_carriage, id),
    YAML_MUST("title", struct yaml_carriage, title),
    CYAML_FIELD_MAPPING_PTR("when", CYAML_FLAG_POINTER | CYAML_FLAG_OPTIONAL,
	struct yaml_carriage, when, WHEN_FIELDS),
    CYAML_FIELD_MAPPING(
	"need", CYAML_FLAG_DEFAULT, struct yaml_carriage, need, NEED_FIELDS),
    CYAML_FIELD_SEQUENCE("serves", CYAML_FLAG_POINTER, struct yaml_carriage, serves,
	&SERVES, 0, CYAML_UNLIMITED),
    YAML_WORDS("places", CYAML_FLAG_OPTIONAL, struct yaml_carriage, places.items,
	places.count, &WORD),
    YAML_MAY("any-of", struct yaml_carriage, any_of),
    YAML_MAY("way", struct yaml_carriage, way),
    YAML_MUST("source", struct yaml_carriage, source),
    YAML_MUST("standing", struct yaml_carriage, standing),
    CYAML_FIELD_END,
};

static const cyaml_schema_value_t CARRIAGE = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_DEFAULT, struct yaml_carriage, CARRIAGE_FIELDS),
};

static const cyaml_schema_field_t NOT_STATED_FIELDS[] = {
    YAML_MUST("id", struct yaml_not_stated, id),
    YAML_MUST("subject", struct yaml_not_stated, subject),
    YAML_MUST("ask", struct yaml_not_stated, ask),
    CYAML_FIELD_MAPPING_PTR("when", CYAML_FLAG_POINTER | CYAML_FLAG_OPTIONAL,
	struct yaml_not_stated, when, WHEN_FIELDS),
    YAML_WORDS("kinds", CYAML_FLAG_OPTIONAL, struct yaml_not_stated, kinds.items,
	kinds.count, &WORD),
    YAML_MAY("carriage", struct yaml_not_stated, carriage),
    YAML_WORDS("about", CYAML_FLAG_OPTIONAL, struct yaml_not_stated, about.items,
	about.count, &WORD),
    CYAML_FIELD_END,
};

static const cyaml_schema_value_t NOT_STATED = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_DEFAULT, struct yaml_not_stated, NOT_STATED_FIELDS),
};

static const cyaml_schema_field_t SHEET_FIELDS[] = {
    YAML_MUST("sheet", struct yaml_sheet, sheet),
    YAML_MUST("title", struct yaml_sheet, title),
    YAML_MUST("for", struct yaml_sheet, audience),
    YAML_MUST("compiled", struct yaml_sheet, compiled),
    YAML_MAY("extends", struct yaml_sheet, extends),
    YAML_WORDS("strikes", CYAML_FLAG_OPTIONAL, struct yaml_sheet, strikes.items,
	strikes.count, &WORD),
    YAML_WORDS("cautions", CYAML_FLAG_OPTIONAL, struct yaml_sheet, cautions.items,
	cautions.count, &WORD),
    CYAML_FIELD_SEQUENCE("rules", CYAML_FLAG_POINTER | CYAML_FLAG_OPTIONAL,
	struct yaml_sheet, rules, &RULE, 0, CYAML_UNLIMITED),
    CYAML_FIELD_SEQUENCE("carriage", CYAML_FLAG_POINTER | CYAML_FLAG_OPTIONAL,
	struct yaml_sheet, carriage, &CARRIAGE, 0, CYAML_UNLIMITED),
    CYAML_FIELD_SEQUENCE("not-stated", CYAML_FLAG_POINTER | CYAML_FLAG_OPTIONAL,
	struct yaml_sheet, not_stated, &NOT_STATED, 0, CYAML_UNLIMITED),
    CYAML_FIELD_END,
};

const cyaml_schema_value_t SHEET_SCHEMA = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_POINTER, struct yaml_sheet, SHEET_FIELDS),
};
