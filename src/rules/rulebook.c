#include "base/memory.h"
#include "rules/sheet.h"

#include <stdlib.h>
#include <string.h>

/* One rule under one of its kinds. */
struct rule_entry {
	const char *kind;
	const struct rule *rule;
	size_t order; /* the rule's place among all, to keep sheet order */
};

struct rulebook {
	struct rule_entry *entries; /* owned, by kind and order */
	const struct rule **rules;  /* owned, the entries' rules in the same order */
	size_t count;
	size_t capacity;
	const struct carriage **lines; /* owned */
	size_t line_count;
	size_t line_capacity;
	const struct not_stated **subjects; /* owned */
	size_t subject_count;
	size_t subject_capacity;
	bool times; /* its sheets are not all followed on the same days */
};

static int
compare_entries(const void *a, const void *b)
{
	const struct rule_entry *one = a;
	const struct rule_entry *other = b;
	int by_kind = strcmp(one->kind, other->kind);
	if (by_kind != 0) {
		return by_kind;
	}
	return one->order < other->order ? -1 : one->order > other->order;
}

static void
add_rule(struct rulebook *book, const struct rule *rule, size_t order)
{
	array_reserve(&book->entries, &book->capacity, sizeof *book->entries,
	    book->count + rule->kind_count);
	for (size_t i = 0; i < rule->kind_count; i++) {
		book->entries[book->count] = (struct rule_entry){
		    .kind = rule->kinds[i], .rule = rule, .order = order};
		book->count++;
	}
}

/* It is one sheet, or one extends the other, or both extend a third. */
static bool
both_inherit(const char *one, const char *other, const char *origin, const char *id,
    struct fault *fault)
{
	if (strcmp(one, other) == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "sheet %.60s is named twice; expected each sheet once: leave it out "
		    "the second time",
		    one);
	}
	return fault_set(fault, FAULT_INPUT,
	    "sheets %.60s and %.60s both hold \"%.60s\" of sheet %.60s; expected a sheet to be "
	    "followed instead of the one it extends, not beside it",
	    one, other, id, origin);
}

/* Ids must differ among the sheets of one vessel, or "instead of" and `why` would speak of
 * two rules at once. */
static bool
check_ids(const struct sheet *const *sheets, size_t index, const struct rule *rule,
    struct fault *fault)
{
	for (size_t i = 0; i < index; i++) {
		for (size_t j = 0; j < sheets[i]->rule_count; j++) {
			if (strcmp(sheets[i]->rules[j].id, rule->id) != 0) {
				continue;
			}
			if (strcmp(sheets[i]->rules[j].origin, rule->origin) == 0) {
				return both_inherit(sheets[i]->name, rule->sheet,
				    rule->origin, rule->id, fault);
			}
			return fault_set(fault, FAULT_INPUT,
			    "rule \"%.60s\" is in sheet %.60s and in sheet %.60s; expected "
			    "each rule in one of the sheets a vessel follows",
			    rule->id, sheets[i]->name, rule->sheet);
		}
	}
	return true;
}

/* A line's id must be in no other sheet of the vessel. `lines` are those before it. */
static bool
check_line(const struct carriage *const *lines, size_t count, const struct carriage *line,
    struct fault *fault)
{
	for (size_t i = 0; i < count; i++) {
		if (strcmp(lines[i]->id, line->id) != 0) {
			continue;
		}
		if (strcmp(lines[i]->origin, line->origin) == 0) {
			return both_inherit(
			    lines[i]->sheet, line->sheet, line->origin, line->id, fault);
		}
		return fault_set(fault, FAULT_INPUT,
		    "carriage line \"%.60s\" is in sheet %.60s and in sheet "
		    "%.60s; expected each line in one of the sheets a vessel "
		    "follows",
		    line->id, lines[i]->sheet, line->sheet);
	}
	return true;
}

static bool
gather_lines(struct rulebook *book, const struct sheet *const *sheets, size_t sheet_count,
    struct fault *fault)
{
	for (size_t i = 0; i < sheet_count; i++) {
		for (size_t j = 0; j < sheets[i]->carriage_count; j++) {
			const struct carriage *line = &sheets[i]->carriage[j];
			if ((!book->times && !check_line(book->lines, book->line_count,
						 line, fault))) {
				return false;
			}
			array_reserve(&book->lines, &book->line_capacity,
			    sizeof(const struct carriage *), book->line_count + 1);
			book->lines[book->line_count++] = line;
		}
	}
	return true;
}

static void
gather_subjects(
    struct rulebook *book, const struct sheet *const *sheets, size_t sheet_count)
{
	for (size_t i = 0; i < sheet_count; i++) {
		for (size_t j = 0; j < sheets[i]->not_stated_count; j++) {
			array_reserve(&book->subjects, &book->subject_capacity,
			    sizeof(const struct not_stated *), book->subject_count + 1);
			book->subjects[book->subject_count++] = &sheets[i]->not_stated[j];
		}
	}
}

static bool
gather(struct rulebook *book, const struct sheet *const *sheets, size_t sheet_count,
    struct fault *fault)
{
	size_t order = 0;
	for (size_t i = 0; i < sheet_count; i++) {
		for (size_t j = 0; j < sheets[i]->rule_count; j++) {
			const struct rule *rule = &sheets[i]->rules[j];
			if ((!book->times && !check_ids(sheets, i, rule, fault))) {
				return false;
			}
			add_rule(book, rule, order);
			order++;
		}
	}
	if (book->count == 0) {
		return true;
	}
	qsort(book->entries, book->count, sizeof *book->entries, compare_entries);
	book->rules = memory_zeroed(book->count, sizeof(const struct rule *));
	for (size_t i = 0; i < book->count; i++) {
		book->rules[i] = book->entries[i].rule;
	}
	return true;
}

static bool
make(const struct sheet *const *sheets, size_t sheet_count, bool times,
    struct rulebook **rulebook_out, struct fault *fault)
{
	struct rulebook *book = memory_zeroed(1, sizeof *book);
	book->times = times;
	if (!gather(book, sheets, sheet_count, fault) ||
	    !gather_lines(book, sheets, sheet_count, fault)) {
		rulebook_free(book);
		return false;
	}
	gather_subjects(book, sheets, sheet_count);
	*rulebook_out = book;
	return true;
}

bool
rulebook_new(const struct sheet *const *sheets, size_t sheet_count,
    struct rulebook **rulebook_out, struct fault *fault)
{
	return make(sheets, sheet_count, false, rulebook_out, fault);
}

bool
rulebook_of_times(const struct sheet *const *sheets, size_t sheet_count,
    struct rulebook **rulebook_out, struct fault *fault)
{
	return make(sheets, sheet_count, true, rulebook_out, fault);
}

void
rulebook_free(struct rulebook *rulebook)
{
	if (rulebook != NULL) {
		free(rulebook->entries);
		free(rulebook->rules);
		free(rulebook->lines);
		free(rulebook->subjects);
		free(rulebook);
	}
}

const struct rule *const *
rulebook_for(const struct rulebook *rulebook, const char *kind, size_t *count_out)
{
	size_t low = 0;
	size_t high = rulebook->count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (strcmp(rulebook->entries[middle].kind, kind) < 0) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	size_t end = low;
	while (end < rulebook->count && strcmp(rulebook->entries[end].kind, kind) == 0) {
		end++;
	}
	*count_out = end - low;
	return end == low ? NULL : rulebook->rules + low;
}

struct renewal_rules
rulebook_renewals(const struct rulebook *rulebook, const char *kind)
{
	struct renewal_rules renewals = {0};
	size_t count = 0;
	const struct rule *const *rules = rulebook_for(rulebook, kind, &count);
	for (size_t i = 0; i < count; i++) {
		bool renewal = rules[i]->task == TASK_RENEW;
		renewals.count += renewal ? 1 : 0;
		renewals.refits += renewal && rules[i]->refit ? 1 : 0;
	}
	return renewals;
}

const struct carriage *const *
rulebook_carriage(const struct rulebook *rulebook, size_t *count_out)
{
	*count_out = rulebook->line_count;
	return rulebook->line_count == 0 ? NULL : rulebook->lines;
}

const struct not_stated *const *
rulebook_not_stated(const struct rulebook *rulebook, size_t *count_out)
{
	*count_out = rulebook->subject_count;
	return rulebook->subject_count == 0 ? NULL : rulebook->subjects;
}
