/* Inside the rules: kinds and sheets being read from YAML. Not for other rooms. */
#ifndef BECKET_RULES_SHEET_INSIDE_H
#define BECKET_RULES_SHEET_INSIDE_H

#include "rules/kinds.h"
#include "rules/sheet.h"
#include "rules/yaml_inside.h"

#include <stdatomic.h>

/* A rule sheet as it stands in YAML: every value still a string, every absent one
 * NULL. */

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

/* ---- One rule from its YAML to the struct the engine reads, each value checked on the
 * way ---- */

/* Converts one rule. Everything it points to goes into `arena`; kinds only have to be
 * known. `spot` is where it stands. */
MUST_CHECK bool sheet_rule_convert(const struct yaml_spot *spot,
    const struct yaml_rule *yaml, const struct kinds *kinds, struct arena *arena,
    struct rule *rule_out, struct fault *fault);

/* Converts the pieces rules and carriage lines share: an id; a list of kinds, each known
 * and given once; conditions (`yaml` may be NULL). */
MUST_CHECK bool sheet_id_read(const struct yaml_spot *spot, const char *key,
    const char *value, struct arena *arena, const char **out, struct fault *fault);
MUST_CHECK bool sheet_kinds_read(const struct yaml_spot *spot,
    const struct yaml_list *list, const struct kinds *kinds, struct arena *arena,
    const char *const **out, struct fault *fault);
MUST_CHECK bool sheet_when_read(const struct yaml_spot *spot,
    const struct yaml_when *yaml, struct arena *arena, struct conditions *when,
    struct fault *fault);

/* Converts one carriage line, as sheet_rule_convert does a rule. */
MUST_CHECK bool sheet_carriage_convert(const struct yaml_spot *spot,
    const struct yaml_carriage *yaml, const struct kinds *kinds, struct arena *arena,
    struct carriage *out, struct fault *fault);

/* Converts one subject that carries no figure, likewise. */
MUST_CHECK bool sheet_not_stated_convert(const struct yaml_spot *spot,
    const struct yaml_not_stated *yaml, const struct kinds *kinds, struct arena *arena,
    struct not_stated *out, struct fault *fault);

/* Takes over into `sheet` what `base` says, less what the sheet strikes out and with what
 * it says itself in the place of what has the same id. The sheet's lists are its own
 * alone before, whole afterwards. `top` is the top of its text. */
MUST_CHECK bool sheet_extend(const struct yaml_spot *top, const struct sheet *base,
    struct sheet *sheet, struct arena *arena, struct fault *fault);

/* Converts a rule's clocks into `rule`, whose task is set already. */
MUST_CHECK bool sheet_clocks_convert(const struct yaml_spot *spot,
    const struct yaml_rule *yaml, struct arena *arena, struct rule *rule,
    struct fault *fault);

/* ---- How a person's words for a kind are compared with the catalogue's spellings
 * ---- */

/* One way to write a kind, made comparable. */
struct spelling {
	const char *words;
	const struct kind *kind;
};

enum { SPELLING_SIZE = 128 };

/* Every way to write the kinds, folded: few commands guess at words. */
struct spellings {
	struct arena arena;
	struct spelling *items; /* sorted by words */
	size_t count;
};

/* The catalogue. */
struct kinds {
	struct arena arena;
	struct kind *items;        /* as the file has them */
	const struct kind **by_id; /* the same, sorted by id */
	size_t count;
	struct spellings *_Atomic
	    *spellings; /* in the arena; folded when first asked for */
	const char *carry[HAZARD_COUNT];
	const char *dispose[HAZARD_COUNT];
};

/* The order of `by_id`, for qsort and bsearch over pointers to kinds. */
int kinds_compare_ids(const void *a, const void *b);

/* Makes words comparable: small letters without accents, one blank for any run of blanks,
 * hyphens and other punctuation, "and" for + / and &, no plural -s, numbers apart from
 * the words they are written to ("PLB1", "2kg"). False when they are too long to be a
 * kind. */
bool kind_words_fold(const char *words, char out[SPELLING_SIZE]);

/* The kinds that folded words could mean, as kinds_fitting has it. `spellings` are sorted
 * by their words. */
size_t kind_words_fit(const struct spelling *spellings, size_t count, const char *words,
    const struct kind *fits[KINDS_FIT_MOST]);

/* The kinds with the most alike spellings, as kinds_nearest has it. */
size_t kind_words_near(const struct spelling *spellings, size_t count, const char *words,
    const struct kind *nearest[KINDS_NEAR_MOST]);

#endif
