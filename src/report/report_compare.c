/* Two sets of sheets side by side: for the gear of a boat, and for kinds. */
#include "report/reply.h"
#include "report/sheet_words.h"
#include "report/words.h"

#include <string.h>

/* "-" where there is no such task, "not known" with what is asked, else the day. */
static void
add_side(const struct change_side *side, const char *name, struct reply_table *table,
    struct text *words)
{
	bool unknown = side->state == STATE_DATE_UNKNOWN;
	reply_cell(table, HUE_NONE, name);
	reply_day(table, side->there ? state_hue(side->state) : HUE_NONE, side->due,
	    !side->there ? "-"
	    : unknown    ? "not known"
			 : "none");
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
	reply_take(table, HUE_NONE, words);
}

void
report_compare_gear(const struct report_style *style, const struct inventory *inventory,
    const char *const names[2], const struct change_rows *rows, struct text *out)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Tag", .type = CELL_TAG, .most = 12}, {.heading = "Task"},
	    {.heading = "Under", .most = 16}, {.heading = "Due", .type = CELL_DAY},
	    {.heading = "By which rule", .flexible = true}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	size_t same = 0;
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < rows->count; i++) {
		const struct change *row = &rows->items[i];
		if (!change_matters(row) && strcmp(row->now.rule, row->then.rule) == 0) {
			same++;
			continue;
		}
		reply_cell(table, HUE_STRONG, inventory->items[row->item].tag);
		reply_cell(table, HUE_NONE, task_word(row->task));
		add_side(&row->now, names[0], table, &words);
		reply_cell(table, HUE_NONE, "");
		reply_cell(table, HUE_NONE, "");
		add_side(&row->then, names[1], table, &words);
	}
	bool apart = rows->count > same;
	reply_words(&reply, VOICE_PLAIN, false, 0, apart ? "" : "Nothing differs.");
	text_add_format(
	    &words, "%zu task%s the same under both.", same, same == 1 ? " is" : "s are");
	reply_say(&reply, apart, &words);
	reply_caution(&reply);
	reply_write(&reply, style, out);
}

static const struct reply_column RULES_COLUMNS[] = {
    {.heading = "", .most = 20}, {.heading = "", .flexible = true}};

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

/* What one side has: its name beside the first. */
static void
add_named(struct reply_table *table, const char *name, bool first, const char *words)
{
	reply_cell(table, HUE_STRONG, first ? name : "");
	reply_cell(table, HUE_NONE, words);
}

static void
add_compared(
    const char *const names[2], const struct task_compared *compared, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s, %s%s", compared->kind, task_word(compared->task),
	    compared->same ? ": the same" : "");
	reply_say(reply, true, &words);
	struct reply_table *table = REPLY_TABLE(reply, RULES_COLUMNS, LOOK_BARE);
	for (size_t side = 0; side < 2; side++) {
		const struct rule_list *rules = &compared->sides[side];
		for (size_t i = 0; i < rules->count; i++) {
			text_reset(&words);
			add_rule(rules->items[i], &words);
			add_named(table, names[side], i == 0, text_string(&words));
		}
		if (rules->count == 0) {
			add_named(table, names[side], true, "says nothing of it");
		}
	}
}

static void
add_lines(const char *const names[2], const char *kind, const struct line_list lines[2],
    struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (lines[0].count + lines[1].count == 0) {
		return;
	}
	text_add_format(&words, "%s, to be carried", kind);
	reply_say(reply, true, &words);
	struct reply_table *table = REPLY_TABLE(reply, RULES_COLUMNS, LOOK_BARE);
	for (size_t side = 0; side < 2; side++) {
		for (size_t i = 0; i < lines[side].count; i++) {
			text_reset(&words);
			add_line(lines[side].items[i], kind, &words);
			add_named(table, names[side], i == 0, text_string(&words));
		}
		if (lines[side].count == 0) {
			add_named(table, names[side], true, "says nothing of it");
		}
	}
}

void
report_compare_rules(const struct report_style *style, const char *const names[2],
    const struct comparison *comparison, const char *kind,
    const struct line_list lines[2], struct text *out)
{
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	size_t same = 0;
	text_add_format(&words, "%s and %s, side by side.", names[0], names[1]);
	reply_say(&reply, false, &words);
	for (size_t i = 0; i < comparison->count; i++) {
		const struct task_compared *compared = &comparison->items[i];
		if (kind == NULL && compared->same) {
			same++;
		} else {
			add_compared(names, compared, &reply);
		}
	}
	if (kind != NULL) {
		add_lines(names, kind, lines, &reply);
	}
	if (comparison->count == 0) {
		text_add(&words, "Neither has a rule for it.");
	} else if (kind == NULL) {
		text_add_format(&words, "%zu of %zu tasks on kinds are the same.", same,
		    comparison->count);
	}
	reply_say(&reply, true, &words);
	reply_caution(&reply);
	reply_write(&reply, style, out);
}
