/* Two sets of sheets side by side: for the gear of a boat, and for kinds. */
#include "report/report.h"
#include "report/sheet_words.h"
#include "report/words.h"

#include <string.h>

static const struct table_column DAY_COLUMNS[] = {
    {"Tag", 12, ALIGN_LEFT, false},
    {"Task", 0, ALIGN_LEFT, false},
    {"Under", 16, ALIGN_LEFT, false},
    {"Due", 0, ALIGN_LEFT, false},
    {"By which rule", 0, ALIGN_LEFT, true},
};

/* "-" where there is no such task, "not known" with what is asked, else the day. */
static void
add_side(const struct change_side *side, const char *name, struct table *table,
    struct text *words)
{
	bool unknown = side->state == STATE_DATE_UNKNOWN;
	table_add(table, HUE_NONE, name);
	text_reset(words);
	add_day(side->due, !side->there ? "-" : unknown ? "not known" : "none", words);
	table_add(
	    table, side->there ? state_hue(side->state) : HUE_NONE, text_string(words));
	text_reset(words);
	if (!side->there) {
		text_add(words, "nothing is asked");
	} else if (unknown) {
		add_missing_words(side->missing, words);
	} else {
		text_add(words, side->rule);
	}
	if (side->there && !unknown && side->state != STATE_IN_DATE) {
		text_add_format(words, " (%s)", state_word(side->state));
	}
	if (side->there && !unknown && side->missing[0] != '\0') {
		text_add(words, "; ");
		add_missing_words(side->missing, words);
	}
	table_add(table, HUE_NONE, text_string(words));
}

void
report_compare_gear(const struct report_style *style, const struct inventory *inventory,
    const char *const names[2], const struct change_rows *rows, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	size_t same = 0;
	size_t apart = 0;
	table_init(&table, DAY_COLUMNS, sizeof DAY_COLUMNS / sizeof DAY_COLUMNS[0], 0,
	    style->colour);
	for (size_t i = 0; i < rows->count; i++) {
		const struct change *row = &rows->items[i];
		if (!change_matters(row) && strcmp(row->now.rule, row->then.rule) == 0) {
			same++;
			continue;
		}
		apart++;
		table_add(&table, HUE_STRONG, inventory->items[row->item].tag);
		table_add(&table, HUE_NONE, task_word(row->task));
		add_side(&row->now, names[0], &table, &words);
		table_add(&table, HUE_NONE, "");
		table_add(&table, HUE_NONE, "");
		add_side(&row->then, names[1], &table, &words);
	}
	if (apart == 0) {
		text_add(out, "Nothing differs.\n");
	}
	table_write(&table, out);
	text_add_format(out, "%s%zu task%s the same under both.\n", apart > 0 ? "\n" : "",
	    same, same == 1 ? " is" : "s are");
	add_caution(out);
}

static const struct table_column RULES_COLUMNS[] = {
    {"", 20, ALIGN_LEFT, false},
    {"", 0, ALIGN_LEFT, true},
};

/* "raft-service: 12 months from the last time done; private use only. Grade law. Source." */
static void
add_rule(const struct rule *rule, struct text *out)
{
	text_add_format(out, "%s: ", rule->id);
	for (size_t i = 0; i < rule->clock_count; i++) {
		text_add(out, i == 0 ? "" : "; ");
		sheet_add_clock(&rule->clocks[i], out);
	}
	sheet_add_conditions(&rule->when, out);
	sheet_add_extras(rule, out);
	text_add_format(
	    out, ". By %s, grade %s. ", doer_word(rule->doer), grade_word(rule->grade));
	add_source(rule->source, rule->standing, out);
	text_add_byte(out, '.');
}

static void
add_line(const struct carriage *line, const char *kind, struct text *out)
{
	text_add_format(out, "%s: %s; needs ", line->id, line->title);
	sheet_add_need(line, out);
	for (size_t i = 0; i < line->serve_count; i++) {
		struct serving serving = line->serves[i];
		bool takes = words_have(serving.kinds, serving.kind_count, kind);
		serving.kinds = &kind;
		serving.kind_count = 1;
		text_add(out, takes ? "; " : "");
		if (takes) {
			sheet_add_serving(&serving, out);
		}
	}
	sheet_add_conditions(&line->when, out);
	text_add(out, ". ");
	add_source(line->source, line->standing, out);
	text_add_byte(out, '.');
}

static void
add_nothing(const char *name, struct table *table)
{
	table_add(table, HUE_STRONG, name);
	table_add(table, HUE_NONE, "says nothing of it");
}

static void
write_compared(const struct report_style *style, const char *const names[2],
    const struct task_compared *compared, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, RULES_COLUMNS, 2, 2, style->colour);
	text_add_format(out, "\n%s, %s%s\n", compared->kind, task_word(compared->task),
	    compared->same ? ": the same" : "");
	for (size_t side = 0; side < 2; side++) {
		const struct rule_list *rules = &compared->sides[side];
		for (size_t i = 0; i < rules->count; i++) {
			text_reset(&words);
			add_rule(rules->items[i], &words);
			table_add(&table, HUE_STRONG, i == 0 ? names[side] : "");
			table_add(&table, HUE_NONE, text_string(&words));
		}
		if (rules->count == 0) {
			add_nothing(names[side], &table);
		}
	}
	table_write(&table, out);
}

static void
write_lines(const struct report_style *style, const char *const names[2],
    const char *kind, const struct line_list lines[2], struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	if (lines[0].count + lines[1].count == 0) {
		return;
	}
	table_init(&table, RULES_COLUMNS, 2, 2, style->colour);
	text_add_format(out, "\n%s, to be carried\n", kind);
	for (size_t side = 0; side < 2; side++) {
		for (size_t i = 0; i < lines[side].count; i++) {
			text_reset(&words);
			add_line(lines[side].items[i], kind, &words);
			table_add(&table, HUE_STRONG, i == 0 ? names[side] : "");
			table_add(&table, HUE_NONE, text_string(&words));
		}
		if (lines[side].count == 0) {
			add_nothing(names[side], &table);
		}
	}
	table_write(&table, out);
}

void
report_compare_rules(const struct report_style *style, const char *const names[2],
    const struct comparison *comparison, const char *kind,
    const struct line_list lines[2], struct text *out)
{
	size_t same = 0;
	text_add_format(out, "%s and %s, side by side.\n", names[0], names[1]);
	for (size_t i = 0; i < comparison->count; i++) {
		const struct task_compared *compared = &comparison->items[i];
		if (kind == NULL && compared->same) {
			same++;
		} else {
			write_compared(style, names, compared, out);
		}
	}
	if (kind != NULL) {
		write_lines(style, names, kind, lines, out);
	}
	if (comparison->count == 0) {
		text_add(out, "\nNeither has a rule for it.\n");
	} else if (kind == NULL) {
		text_add_format(out, "\n%zu of %zu tasks on kinds are the same.\n", same,
		    comparison->count);
	}
	add_caution(out);
}
