#include "rules/sheet_inside.h"

#include <stdint.h>
#include <string.h>

static const char *const LAPSE_WORDS[] = {"overdue", "expired", "life-expired"};
static const char *const NEXT_WORDS[] = {
    [NEXT_FROM_DONE] = "from-done",
    [NEXT_FROM_DUE] = "from-due",
    [NEXT_FROM_DUE_EVEN_LATE] = "from-due-even-late",
};

static const struct yaml_words TASKS = {TASK_WORDS, TASK_COUNT};

/* Words that name a rule: letters, digits and hyphens, so they can stand in any output. */
bool
sheet_id_read(const struct yaml_spot *spot, const char *key, const char *value,
    struct arena *arena, const char **out, struct fault *fault)
{
	static const char LETTERS[] = "abcdefghijklmnopqrstuvwxyz0123456789-";
	if (value[0] == '\0' || value[strspn(value, LETTERS)] != '\0') {
		return yaml_spot_bad(
		    spot, key, value, "small letters, digits and hyphens", fault);
	}
	return yaml_read_text(spot, key, value, arena, out, fault);
}

bool
sheet_kinds_read(const struct yaml_spot *spot, const struct yaml_list *list,
    const struct kinds *kinds, struct arena *arena, const char *const **out,
    struct fault *fault)
{
	if (list->count == 0) {
		return yaml_spot_bad(spot, "kinds", NULL, "at least one kind", fault);
	}
	for (size_t i = 0; i < list->count; i++) {
		if (kinds_find(kinds, list->items[i]) == NULL) {
			return yaml_entry_bad(spot, "kinds", i, list->items[i],
			    "a kind of the kinds catalogue", fault);
		}
		for (size_t j = 0; j < i; j++) {
			if (strcmp(list->items[i], list->items[j]) == 0) {
				return yaml_entry_bad(spot, "kinds", i, list->items[i],
				    "each kind once", fault);
			}
		}
	}
	return yaml_read_texts(spot, "kinds", list, arena, out, fault);
}

/* Upper bounds below lower ones would make a rule that never holds. */
static bool
check_order(const struct yaml_spot *spot, const struct yaml_when *yaml,
    const struct conditions *when, struct fault *fault)
{
	const struct {
		const char *key;
		const char *value;
		int from;
		int until;
	} pairs[] = {
	    {"age-until", yaml->age_until, when->age_from_months + 1,
		when->age_until_months},
	    {"length-below", yaml->length_below, when->length_from_cm + 1,
		when->length_below_cm},
	    {"persons-until", yaml->persons_until, when->persons_from,
		when->persons_until},
	    {"built-until", yaml->built_until, when->built_from, when->built_until},
	    {"made-until", yaml->made_until, when->made_from, when->made_until},
	};

	for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
		if (pairs[i].value != NULL && pairs[i].until < pairs[i].from) {
			return yaml_spot_bad(spot, pairs[i].key, pairs[i].value,
			    "an end after its beginning", fault);
		}
	}
	return true;
}

static bool
read_when_numbers(const struct yaml_spot *spot, const struct yaml_when *yaml,
    struct conditions *when, struct fault *fault)
{
	const struct {
		const char *key;
		const char *value;
		struct yaml_range range;
		int *out;
	} numbers[] = {
	    {"age-from", yaml->age_from, {1, 1200, "months"}, &when->age_from_months},
	    {"age-until", yaml->age_until, {1, 1200, "months"}, &when->age_until_months},
	    {"persons-from", yaml->persons_from, {1, 999, "persons"},
		&when->persons_from},
	    {"persons-until", yaml->persons_until, {1, 999, "persons"},
		&when->persons_until},
	    {"built-from", yaml->built_from, {1800, 2199, "years"}, &when->built_from},
	    {"built-until", yaml->built_until, {1800, 2199, "years"}, &when->built_until},
	    {"season-months-below", yaml->season_months_below, {2, 12, "months"},
		&when->season_months_below},
	    {"test-valid", yaml->test_valid, {1, 600, "months"},
		&when->test_valid_months},
	};

	for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
		if (!yaml_read_int(spot, numbers[i].key, numbers[i].value,
			numbers[i].range, numbers[i].out, fault)) {
			return false;
		}
	}
	return yaml_read_metres(spot, "length-from", yaml->length_from,
		   &when->length_from_cm, fault) &&
	       yaml_read_metres(spot, "length-below", yaml->length_below,
		   &when->length_below_cm, fault);
}

/* `yes` or `no` as 1 or -1; 0 where neither is given. */
static bool
read_either(const struct yaml_spot *spot, const char *key, const char *value, int *out,
    struct fault *fault)
{
	bool yes = false;
	if (!yaml_read_bool(spot, key, value, &yes, fault)) {
		return false;
	}
	*out = value == NULL ? 0 : yes ? 1 : -1;
	return true;
}

bool
sheet_when_read(const struct yaml_spot *spot, const struct yaml_when *yaml,
    struct arena *arena, struct conditions *when, struct fault *fault)
{
	when->made_from = DAY_NONE;
	when->made_until = DAY_NONE;
	if (yaml == NULL) {
		return true;
	}
	struct yaml_spot inner = yaml_spot_in(spot, "when", SIZE_MAX);
	unsigned use = 0;
	if (!yaml_read_word(&inner, "use", yaml->use, (struct yaml_words){USE_WORDS, 2},
		&use, fault) ||
	    !read_either(&inner, "marked", yaml->marked, &when->marked, fault) ||
	    !read_either(&inner, "above-freezing", yaml->above_freezing,
		&when->above_freezing, fault) ||
	    !read_either(
		&inner, "dry-storage", yaml->dry_storage, &when->dry_storage, fault) ||
	    !read_when_numbers(&inner, yaml, when, fault) ||
	    !yaml_read_day(
		&inner, "made-from", yaml->made_from, &when->made_from, fault) ||
	    !yaml_read_day(
		&inner, "made-until", yaml->made_until, &when->made_until, fault) ||
	    !yaml_read_texts(&inner, "areas", &yaml->areas, arena, &when->areas, fault) ||
	    !yaml_read_texts(&inner, "areas-except", &yaml->areas_except, arena,
		&when->areas_except, fault) ||
	    !yaml_read_texts(
		&inner, "ratings", &yaml->ratings, arena, &when->ratings, fault)) {
		return false;
	}
	when->uses = yaml->use == NULL ? 0 : 1U << use;
	when->area_count = yaml->areas.count;
	when->area_except_count = yaml->areas_except.count;
	when->rating_count = yaml->ratings.count;
	return check_order(&inner, yaml, when, fault);
}

static bool
read_window(const struct yaml_spot *spot, const struct yaml_window *yaml,
    struct window *window, struct fault *fault)
{
	static const struct yaml_range MONTHS = {0, 24, "months"};
	if (yaml == NULL) {
		return true;
	}
	struct yaml_spot inner = yaml_spot_in(spot, "window", SIZE_MAX);
	unsigned next = 0;
	if (!yaml_read_int(
		&inner, "early", yaml->early, MONTHS, &window->early_months, fault) ||
	    !yaml_read_int(
		&inner, "late", yaml->late, MONTHS, &window->late_months, fault) ||
	    !yaml_read_word(&inner, "next", yaml->next,
		(struct yaml_words){NEXT_WORDS, NEXT_FROM_DUE_EVEN_LATE + 1}, &next,
		fault)) {
		return false;
	}
	window->next = (enum window_next)next;
	return true;
}

/* The words of fixed lists: task, doer, grade, standing, lapse. */
static bool
read_words(const struct yaml_spot *spot, const struct yaml_rule *yaml, struct rule *rule,
    struct fault *fault)
{
	static const struct yaml_words DOERS = {DOER_WORDS, DOER_AUTHORITY + 1};
	static const struct yaml_words GRADES = {GRADE_WORDS, GRADE_PRACTICE + 1};
	static const struct yaml_words STANDINGS = {
	    STANDING_WORDS, STANDING_NOT_VERIFIED + 1};
	static const struct yaml_words LAPSES = {LAPSE_WORDS, 3};
	unsigned task = 0;
	unsigned doer = 0;
	unsigned grade = 0;
	unsigned standing = 0;
	if (!yaml_read_word(spot, "task", yaml->task, TASKS, &task, fault) ||
	    !yaml_read_word(spot, "doer", yaml->doer, DOERS, &doer, fault) ||
	    !yaml_read_word(spot, "grade", yaml->grade, GRADES, &grade, fault) ||
	    !yaml_read_word(
		spot, "standing", yaml->standing, STANDINGS, &standing, fault)) {
		return false;
	}
	/* What is renewed expires; everything else is overdue. */
	unsigned lapse = task == TASK_RENEW ? 1 : 0;
	if (!yaml_read_word(spot, "lapse", yaml->lapse, LAPSES, &lapse, fault)) {
		return false;
	}
	rule->task = (enum task)task;
	rule->doer = (enum doer)doer;
	rule->grade = (enum grade)grade;
	rule->standing = (enum standing)standing;
	rule->lapse = lapse == 0   ? STATE_OVERDUE
		      : lapse == 1 ? STATE_EXPIRED
				   : STATE_LIFE_EXPIRED;
	return true;
}

bool
sheet_rule_convert(const struct yaml_spot *spot, const struct yaml_rule *yaml,
    const struct kinds *kinds, struct arena *arena, struct rule *rule_out,
    struct fault *fault)
{
	static const struct yaml_range EXTENSION = {0, 60, "months"};
	struct rule rule = {0};
	if (!sheet_id_read(spot, "id", yaml->id, arena, &rule.id, fault) ||
	    !sheet_kinds_read(spot, &yaml->kinds, kinds, arena, &rule.kinds, fault) ||
	    !sheet_when_read(spot, yaml->when, arena, &rule.when, fault) ||
	    !read_words(spot, yaml, &rule, fault) ||
	    !yaml_read_bits(spot, "counts", &yaml->counts, TASKS, &rule.counts, fault) ||
	    !sheet_clocks_convert(spot, yaml, arena, &rule, fault) ||
	    !read_window(spot, yaml->window, &rule.window, fault) ||
	    !yaml_read_bool(
		spot, "contents-bind", yaml->contents_bind, &rule.contents_bind, fault) ||
	    !yaml_read_bool(spot, "refit", yaml->refit, &rule.refit, fault) ||
	    !yaml_read_int(spot, "extension", yaml->extension, EXTENSION,
		&rule.extension_months, fault) ||
	    !yaml_read_texts(
		spot, "instead-of", &yaml->instead_of, arena, &rule.instead_of, fault) ||
	    !yaml_read_texts(spot, "beside", &yaml->beside, arena, &rule.beside, fault)) {
		return false;
	}
	yaml_read_optional_text(yaml->what, arena, &rule.what);
	if (!yaml_read_text(spot, "source", yaml->source, arena, &rule.source, fault)) {
		return false;
	}
	rule.kind_count = yaml->kinds.count;
	rule.instead_of_count = yaml->instead_of.count;
	rule.beside_count = yaml->beside.count;
	*rule_out = rule;
	return true;
}
