#include "rules/sheet_check.h"

#include "base/text.h"
#include "rules/meets.h"
#include "rules/rating.h"
#include "rules/yaml_inside.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void
sheet_findings_clear(struct sheet_findings *findings)
{
	free(findings->items);
	*findings = (struct sheet_findings){0};
}

size_t
sheet_findings_wrong(const struct sheet_findings *findings)
{
	size_t wrong = 0;
	for (size_t i = 0; i < findings->count; i++) {
		wrong += findings->items[i].remark ? 0 : 1;
	}
	return wrong;
}

/* A sheet being checked. All borrowed. */
struct checking {
	const struct sheet *sheet;
	struct yaml_source source;
	struct arena *arena;
	struct sheet_findings *out;
};

/* Where something stands in the file, and what it is called. */
struct spot {
	const char *list; /* "rules" */
	unsigned entry;
	const char *id;
};

static struct spot
rule_spot(const struct rule *rule)
{
	return (struct spot){"rules", rule->entry, rule->id};
}

static struct spot
line_spot(const struct carriage *line)
{
	return (struct spot){"carriage", line->entry, line->id};
}

static void found(const struct checking *checking, struct spot spot, const char *todo,
    const char *format, ...) FORMAT_LIKE(4, 5);

static void
found(const struct checking *checking, struct spot spot, const char *todo,
    const char *format, ...)
{
	char path[YAML_PATH_SIZE];
	char what[512];
	va_list args;
	va_start(args, format);
	int length = vsnprintf(what, sizeof what, format, args);
	va_end(args);
	(void)snprintf(path, sizeof path, "%s/%u", spot.list, spot.entry);
	assert(length >= 0 && "a format of ours that the C library can't write");
	ARRAY_ROOM(checking->out);
	char *kept = arena_alloc(checking->arena, sizeof what);
	(void)snprintf(kept, sizeof what, "%s", what);
	checking->out->items[checking->out->count++] = (struct sheet_finding){
	    spot.entry == 0 ? 0 : yaml_where_find(&checking->source, path, 1).line,
	    spot.id, kept, todo, false};
}

/* The first kind both are for; NULL when there is none. */
static const char *
shared_kind(const struct rule *a, const struct rule *b)
{
	for (size_t i = 0; i < a->kind_count; i++) {
		if (words_have(b->kinds, b->kind_count, a->kinds[i])) {
			return a->kinds[i];
		}
	}
	return NULL;
}

static bool
names(const struct rule *rule, const struct rule *other)
{
	return words_have(rule->instead_of, rule->instead_of_count, other->id) ||
	       words_have(rule->beside, rule->beside_count, other->id);
}

static bool
is_interval(const struct clock_rule *clock)
{
	return !clock->by_maker && clock->anchors[0] != ANCHOR_MARKED &&
	       clock->anchors[0] != ANCHOR_EVENT &&
	       clock->anchors[0] != ANCHOR_CERTIFICATE;
}

/* True for two intervals from the same anchor, for the same times done, that differ. */
static bool
clocks_differ(const struct clock_rule *a, const struct clock_rule *b)
{
	bool meet = a->done_from <= b->done_until && b->done_from <= a->done_until;
	if (!is_interval(a) || !is_interval(b) || !meet ||
	    a->anchors[0] != b->anchors[0]) {
		return false;
	}
	return a->months != b->months || a->days != b->days || a->through != b->through ||
	       a->before != b->before;
}

static bool
figures_differ(const struct rule *a, const struct rule *b)
{
	for (size_t i = 0; i < a->clock_count; i++) {
		for (size_t j = 0; j < b->clock_count; j++) {
			if (clocks_differ(&a->clocks[i], &b->clocks[j])) {
				return true;
			}
		}
	}
	return false;
}

/* Two rules that say different figures for the same thing. Told once, at the later of
 * those that stand in this file. */
static void
check_contradictions(const struct checking *checking, const struct rule *rule)
{
	const struct sheet *sheet = checking->sheet;
	for (size_t i = 0; i < sheet->rule_count; i++) {
		const struct rule *other = &sheet->rules[i];
		const char *kind = shared_kind(rule, other);
		if (other->entry >= rule->entry || kind == NULL ||
		    rule->task != other->task || names(rule, other) ||
		    names(other, rule) || !figures_differ(rule, other) ||
		    !conditions_same(&rule->when, &other->when)) {
			continue;
		}
		found(checking, rule_spot(rule),
		    "name the other one in instead-of, or in beside if the earlier "
		    "day is meant to win",
		    "its figures contradict those of %s: %s, %s, under the same "
		    "conditions",
		    other->id, kind, task_word(rule->task));
	}
}

/* True when a rule stands instead of the other wherever that one could hold. */
static bool
always_displaces(const struct rule *rule, const struct rule *other, const char *kind)
{
	return words_have(rule->instead_of, rule->instead_of_count, other->id) &&
	       words_have(rule->kinds, rule->kind_count, kind) &&
	       (conditions_none(&rule->when) ||
		   conditions_same(&rule->when, &other->when));
}

/* A rule that another stands instead of for each of its kinds, always. */
static void
check_displaced(const struct checking *checking, const struct rule *rule)
{
	const struct sheet *sheet = checking->sheet;
	const char *by = "";
	for (size_t k = 0; k < rule->kind_count; k++) {
		size_t i = 0;
		while (i < sheet->rule_count &&
		       !always_displaces(&sheet->rules[i], rule, rule->kinds[k])) {
			i++;
		}
		if (i == sheet->rule_count) {
			return;
		}
		by = sheet->rules[i].id;
	}
	found(checking, rule_spot(rule),
	    "take this rule out, or give the other one conditions",
	    "it never holds: %s always stands instead of it", by);
}

/* A rule that names another it shares no kind or no task with changes nothing, or too
 * much. */
static void
check_named(const struct checking *checking, const struct rule *rule)
{
	const struct sheet *sheet = checking->sheet;
	for (size_t i = 0; i < sheet->rule_count; i++) {
		const struct rule *other = &sheet->rules[i];
		if (!words_have(rule->instead_of, rule->instead_of_count, other->id)) {
			continue;
		}
		if (shared_kind(rule, other) == NULL) {
			found(checking, rule_spot(rule),
			    "name a rule of the same kinds, or none",
			    "it stands instead of %s, but they share no kind", other->id);
		}
		if (shared_kind(rule, other) != NULL) {
			if (rule->task != other->task) {
				found(checking, rule_spot(rule),
				    "name a rule of the same task",
				    "it stands instead of %s, which is another task (%s)",
				    other->id, task_word(other->task));
			}
		}
	}
}

/* Each area it is for is one it is not for. */
static bool
no_area_is_left(const struct conditions *when)
{
	for (size_t i = 0; i < when->area_count; i++) {
		if (!words_have(
			when->areas_except, when->area_except_count, when->areas[i])) {
			return false;
		}
	}
	return when->area_count > 0;
}

static bool
only_marks(const struct rule *rule)
{
	for (size_t i = 0; i < rule->clock_count; i++) {
		if (rule->clocks[i].anchors[0] != ANCHOR_MARKED) {
			return false;
		}
	}
	return true;
}

static bool
never_gives_a_day(const struct rule *rule)
{
	const struct conditions *when = &rule->when;
	return no_area_is_left(when) || (when->marked == -1 && only_marks(rule));
}

/* An interval of 0 is due on the day it begins: a mistake, unless the task is to register
 * at once. */
static void
check_intervals(const struct checking *checking, const struct rule *rule)
{
	for (size_t i = 0; i < rule->clock_count; i++) {
		const struct clock_rule *clock = &rule->clocks[i];
		if (is_interval(clock) && clock->months == 0 && clock->days == 0 &&
		    rule->task != TASK_REGISTER) {
			found(checking, rule_spot(rule), "give it months or days",
			    "its interval is 0 months, so it is due on the day it begins; "
			    "only what is registered at once has that");
			return;
		}
	}
}

static void
check_rating(const struct checking *checking, struct spot spot, const char *rating)
{
	if (!rating_is_known(rating)) {
		found(checking, spot,
		    "write it as labels have it: 5-B, 13A/113B, 150 N, SOLAS A, ISO 9650, "
		    "Category 1",
		    "no piece can be told to have the rating \"%s\"", rating);
	}
}

static void
check_rule_ratings(const struct checking *checking, const struct rule *rule)
{
	for (size_t i = 0; i < rule->when.rating_count; i++) {
		check_rating(checking, rule_spot(rule), rule->when.ratings[i]);
	}
}

static void
check_rule(const struct checking *checking, const struct rule *rule)
{
	static const char PRACTICE[] = "common practice";
	bool says_practice = strncmp(rule->source, PRACTICE, sizeof PRACTICE - 1) == 0;
	if (says_practice) {
		if (rule->standing == STANDING_READ) {
			found(checking, rule_spot(rule),
			    "name the source that was read, or give it the standing common practice",
			    "its source is common practice, but its standing is read");
		}
	}
	if (never_gives_a_day(rule)) {
		found(checking, rule_spot(rule), "mend its conditions",
		    no_area_is_left(&rule->when)
			? "it never holds: each of its areas is excepted too"
			: "it never gives a day: it is only for gear without a mark, and "
			  "counts from the mark alone");
	}
	check_intervals(checking, rule);
	check_rule_ratings(checking, rule);
	check_contradictions(checking, rule);
	check_displaced(checking, rule);
	check_named(checking, rule);
}

/* The most that can ever count where every entry has a limit; 0 for no limit. */
static int
limit_of(const struct carriage *line)
{
	int sum = 0;
	for (size_t i = 0; i < line->serve_count; i++) {
		if (line->serves[i].at_most == 0) {
			return 0;
		}
		sum += line->serves[i].at_most;
	}
	return sum;
}

/* How many ways a line's group has. */
static size_t
ways_of(const struct sheet *sheet, const struct carriage *line)
{
	size_t others = 0;
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		const struct carriage *other = &sheet->carriage[i];
		bool another = strcmp(line->any_of, other->any_of) == 0 &&
			       strcmp(line->way, other->way) != 0;
		others += another ? 1 : 0;
	}
	return others + 1;
}

static void
check_line(const struct checking *checking, const struct carriage *line)
{
	int limit = limit_of(line);
	for (size_t i = 0; i < line->serve_count; i++) {
		if (line->serves[i].rating[0] != '\0') {
			check_rating(checking, line_spot(line), line->serves[i].rating);
		}
	}
	if (limit > 0) {
		if (limit < line->points) {
			found(checking, line_spot(line),
			    "raise a limit, or lower the need",
			    "nothing can meet it: it needs %d, and its kinds count %d at most",
			    line->points, limit);
		}
	}
	if (no_area_is_left(&line->when)) {
		found(checking, line_spot(line), "mend its conditions",
		    "it never holds: each of its areas is excepted too");
	}
	if (line->any_of[0] != '\0') {
		if (ways_of(checking->sheet, line) == 1) {
			found(checking, line_spot(line),
			    "give another line the same any-of, or take this one's out",
			    "it is the only way of the group %s: there is nothing to choose from",
			    line->any_of);
		}
	}
}

/* The subjects a sheet speaks of whatever the vessel, except for her use: one sheet may
 * be for private boats alone. */
static unsigned
always_about(const struct sheet *sheet)
{
	unsigned about = 0;
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		struct conditions when = sheet->carriage[i].when;
		when.uses = 0;
		about |= conditions_none(&when) ? sheet->carriage[i].about : 0;
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		struct conditions when = sheet->not_stated[i].when;
		when.uses = 0;
		about |= conditions_none(&when) ? sheet->not_stated[i].about : 0;
	}
	return about;
}

/* One finding for all the subjects that some boat is told nothing of. */
static void
check_subjects(const struct checking *checking, bool built_in)
{
	SCOPED_TEXT silent = {0};
	unsigned about = always_about(checking->sheet);
	for (unsigned i = 0; i < GEAR_SUBJECT_COUNT; i++) {
		if ((about & 1U << i) == 0) {
			text_add_format(&silent, "%s%s", silent.length == 0 ? "" : ", ",
			    GEAR_SUBJECT_WORDS[i]);
		}
	}
	if (silent.length == 0) {
		return;
	}
	found(checking, (struct spot){.list = "", .id = ""},
	    "name them in the list about of an entry of not-stated, with whom to ask",
	    "not for every boat does it speak of: %s", text_string(&silent));
	checking->out->items[checking->out->count - 1].remark = !built_in;
}

void
sheet_check(const struct sheet *sheet, const struct text *yaml, bool built_in,
    struct arena *arena, struct sheet_findings *out)
{
	const struct checking checking = {.sheet = sheet,
	    .source = {sheet->name, text_string(yaml), yaml->length, NULL, 0},
	    .arena = arena,
	    .out = out};
	for (size_t i = 0; i < sheet->rule_count; i++) {
		if (sheet->rules[i].entry > 0) {
			check_rule(&checking, &sheet->rules[i]);
		}
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		if (sheet->carriage[i].entry > 0) {
			check_line(&checking, &sheet->carriage[i]);
		}
	}
	check_subjects(&checking, built_in);
}
