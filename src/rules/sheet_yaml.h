/* A rule sheet as it stands in YAML: every value still a string, every absent one NULL. */
#ifndef BECKET_RULES_SHEET_YAML_H
#define BECKET_RULES_SHEET_YAML_H

#include "rules/yaml_value.h"

struct yaml_clock {
	struct yaml_list from;
	char *months;
	char *days;
	char *interval;
	char *holds;
	char *done_from;
	char *done_until;
	char *through;
	char *before;
	char *stamp;
	struct yaml_list events;
};

struct yaml_when {
	char *use;
	char *age_from;
	char *age_until;
	char *marked;
	char *length_from;
	char *length_below;
	char *persons_from;
	char *persons_until;
	char *built_from;
	char *built_until;
	char *made_from;
	char *made_until;
	struct yaml_list areas;
	struct yaml_list areas_except;
	char *season_months_below;
	char *above_freezing;
	char *dry_storage;
	char *test_valid;
	struct yaml_list ratings;
};

struct yaml_window {
	char *early;
	char *late;
	char *next;
};

struct yaml_rule {
	char *id;
	struct yaml_list kinds;
	struct yaml_when *when; /* NULL when absent */
	char *task;
	struct yaml_list counts;
	char *doer;
	char *grade;
	char *lapse;
	struct yaml_clock *clocks;
	unsigned clocks_count;
	struct yaml_window *window; /* NULL when absent */
	char *contents_bind;
	char *refit;
	char *extension;
	struct yaml_list instead_of;
	struct yaml_list beside;
	char *what;
	char *source;
	char *standing;
};

struct yaml_need {
	char *points;
	char *per_person;
	char *percent;
	char *plus;
	char *without_largest;
};

struct yaml_serves {
	struct yaml_list kinds;
	char *points;
	char *capacity_from;
	char *rating;
	char *at_most;
};

struct yaml_carriage {
	char *id;
	char *title;
	struct yaml_when *when; /* NULL when absent */
	struct yaml_need need;
	struct yaml_serves *serves;
	unsigned serves_count;
	struct yaml_list places;
	char *any_of;
	char *way;
	char *source;
	char *standing;
};

struct yaml_not_stated {
	char *id;
	char *subject;
	char *ask;
	struct yaml_when *when; /* NULL when absent */
	struct yaml_list kinds;
	char *carriage;
	struct yaml_list about;
};

struct yaml_sheet {
	char *sheet;
	char *title;
	char *audience;
	char *compiled;
	char *extends;
	struct yaml_list strikes;
	struct yaml_list cautions;
	struct yaml_rule *rules; /* NULL when absent */
	unsigned rules_count;
	struct yaml_carriage *carriage; /* NULL when absent */
	unsigned carriage_count;
	struct yaml_not_stated *not_stated; /* NULL when absent */
	unsigned not_stated_count;
};

/* The schema for a pointer to struct yaml_sheet. */
extern const cyaml_schema_value_t SHEET_SCHEMA;

#endif
