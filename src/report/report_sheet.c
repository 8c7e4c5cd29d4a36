#include "report/report.h"
#include "report/sheet_words.h"
#include "report/words.h"

#include <string.h>

static const struct table_column SHEETS_COLUMNS[] = {
    {"Sheet", 24, ALIGN_LEFT, false},
    {"Rules", 0, ALIGN_RIGHT, false},
    {"Compiled", 0, ALIGN_LEFT, false},
    {"What it is", 0, ALIGN_LEFT, true},
};

void
report_sheets(const struct report_style *style, const struct sheet *const *sheets,
    size_t count, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, SHEETS_COLUMNS,
	    sizeof SHEETS_COLUMNS / sizeof SHEETS_COLUMNS[0], 0, style->colour);
	for (size_t i = 0; i < count; i++) {
		table_add(&table, HUE_STRONG, sheets[i]->name);
		text_reset(&words);
		text_add_format(&words, "%zu", sheets[i]->rule_count);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		add_day(sheets[i]->compiled, "not said", &words);
		table_add(&table, HUE_NONE, text_string(&words));
		table_add(&table, HUE_NONE, sheets[i]->title);
	}
	if (count == 0) {
		text_add(out, "No rule sheets to show.\n");
	}
	table_write(&table, out);
}

static const struct table_column RULE_COLUMNS[] = {
    {"", 8, ALIGN_LEFT, false},
    {"", 0, ALIGN_LEFT, true},
};

/* Adds where something in a sheet that extends another comes from. */
static void
add_descent(const char *sheet, const char *origin, const char *replaces, struct text *out)
{
	if (replaces[0] != '\0') {
		text_add_format(out, "; replaces that of %s", replaces);
	} else if (strcmp(sheet, origin) != 0) {
		text_add_format(out, "; taken over from %s", origin);
	}
}

/* One rule: its name, what it is for, its figures and where they come from. */
static void
write_rule(const struct report_style *style, const struct rule *rule, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, RULE_COLUMNS, 2, 2, style->colour);
	text_add_format(&words, "%s: %s, by %s, grade %s; when passed: %s", rule->id,
	    task_word(rule->task), doer_word(rule->doer), grade_word(rule->grade),
	    state_word(rule->lapse));
	add_descent(rule->sheet, rule->origin, rule->replaces, &words);
	text_add_byte(out, '\n');
	paragraph(text_string(&words), 0, 2, out);
	text_reset(&words);
	sheet_add_list(rule->kinds, rule->kind_count, &words);
	table_add(&table, HUE_NONE, "For");
	table_add(&table, HUE_NONE, text_string(&words));
	if (rule->what[0] != '\0') {
		table_add(&table, HUE_NONE, "To do");
		table_add(&table, HUE_NONE, rule->what);
	}
	text_reset(&words);
	for (size_t i = 0; i < rule->clock_count; i++) {
		text_add(&words, i == 0 ? "" : "; ");
		sheet_add_clock(&rule->clocks[i], &words);
	}
	table_add(&table, HUE_NONE, "Due");
	table_add(&table, HUE_NONE, text_string(&words));
	text_reset(&words);
	sheet_add_conditions(&rule->when, &words);
	sheet_add_extras(rule, &words);
	if (words.length > 0) {
		table_add(&table, HUE_NONE, "Holds");
		table_add(&table, HUE_NONE, text_string(&words) + 2);
	}
	text_reset(&words);
	add_source(rule->source, rule->standing, &words);
	table_add(&table, HUE_NONE, "Source");
	table_add(&table, HUE_NONE, text_string(&words));
	table_write(&table, out);
}

/* One carriage line, as a rule is written. */
static void
write_carriage(
    const struct report_style *style, const struct carriage *line, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, RULE_COLUMNS, 2, 2, style->colour);
	text_add_format(&words, "%s: to be carried: %s", line->id, line->title);
	add_descent(line->sheet, line->origin, line->replaces, &words);
	text_add_byte(out, '\n');
	paragraph(text_string(&words), 0, 2, out);
	text_reset(&words);
	sheet_add_need(line, &words);
	table_add(&table, HUE_NONE, "Needs");
	table_add(&table, HUE_NONE, text_string(&words));
	for (size_t i = 0; i < line->serve_count; i++) {
		const struct serving *serving = &line->serves[i];
		text_reset(&words);
		sheet_add_serving(serving, &words);
		table_add(&table, HUE_NONE, i == 0 ? "Met by" : "");
		table_add(&table, HUE_NONE, text_string(&words));
	}
	text_reset(&words);
	sheet_add_conditions(&line->when, &words);
	if (words.length > 0) {
		table_add(&table, HUE_NONE, "Holds");
		table_add(&table, HUE_NONE, text_string(&words) + 2);
	}
	text_reset(&words);
	add_source(line->source, line->standing, &words);
	table_add(&table, HUE_NONE, "Source");
	table_add(&table, HUE_NONE, text_string(&words));
	table_write(&table, out);
}

/* What the sheet carries no figure for. */
static void
write_subject(const struct not_stated *subject, struct text *words, struct text *out)
{
	text_reset(words);
	text_add_format(words, "%s: not stated here: %s; ask %s", subject->id,
	    subject->subject, subject->ask);
	add_descent(subject->sheet, subject->origin, subject->replaces, words);
	text_add_byte(words, '.');
	text_add_byte(out, '\n');
	paragraph(text_string(words), 0, 2, out);
	text_reset(words);
	if (subject->kind_count > 0) {
		text_add(words, "For: ");
		sheet_add_list(subject->kinds, subject->kind_count, words);
		paragraph(text_string(words), 2, 4, out);
	}
	text_reset(words);
	for (unsigned i = 0; i < GEAR_SUBJECT_COUNT; i++) {
		if ((subject->about & 1U << i) != 0) {
			text_add_format(words, "%s%s",
			    words->length == 0 ? "Whom to ask where no line is of: "
					       : ", ",
			    subject_name((enum carriage_subject)i));
		}
	}
	if (words->length > 0) {
		text_add_byte(words, '.');
		paragraph(text_string(words), 2, 4, out);
	}
	text_reset(words);
	sheet_add_conditions(&subject->when, words);
	if (words->length > 0) {
		text_add_byte(words, '.');
		paragraph(text_string(words) + 2, 2, 4, out);
	}
}

/* "Extends practice, without gas-hose." */
static void
add_extends(const struct sheet *sheet, struct text *out)
{
	if (sheet->extends[0] == '\0') {
		return;
	}
	text_add_format(out, " Extends %s", sheet->extends);
	text_add(out, sheet->strike_count == 0 ? "" : ", without ");
	sheet_add_list(sheet->strikes, sheet->strike_count, out);
	text_add_byte(out, '.');
}

void
report_sheet(
    const struct report_style *style, const struct sheet *sheet, struct text *out)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: %s.", sheet->name, sheet->title);
	if (sheet->audience[0] != '\0') {
		text_add_format(&words, " For %s.", sheet->audience);
	}
	text_add(&words, " Compiled ");
	add_day(sheet->compiled, "on no day that is said", &words);
	text_add_byte(&words, '.');
	add_extends(sheet, &words);
	paragraph(text_string(&words), 0, 2, out);
	for (size_t i = 0; i < sheet->caution_count; i++) {
		paragraph(sheet->cautions[i], 0, 2, out);
	}
	for (size_t i = 0; i < sheet->rule_count; i++) {
		write_rule(style, &sheet->rules[i], out);
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		write_carriage(style, &sheet->carriage[i], out);
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		write_subject(&sheet->not_stated[i], &words, out);
	}
	add_caution(out);
}

static void
add_checked(const struct checked_sheet *file, struct text *words, struct text *out)
{
	const struct sheet *sheet = file->sheet;
	for (size_t i = 0; i < file->findings.count; i++) {
		const struct sheet_finding *finding = &file->findings.items[i];
		text_reset(words);
		text_add(words, file->path);
		text_add(words, finding->remark ? ": remark" : "");
		if (finding->line > 0) {
			text_add_format(words, ": line %lu", finding->line);
		}
		text_add_format(words, "%s%s: %s; %s.",
		    finding->about[0] == '\0' ? "" : ", ", finding->about, finding->what,
		    finding->todo);
		paragraph(text_string(words), 0, 2, out);
	}
	if (sheet_findings_wrong(&file->findings) > 0) {
		return;
	}
	text_reset(words);
	text_add_format(words, "%s is in order: %s, %zu rule%s", file->path, sheet->title,
	    sheet->rule_count, sheet->rule_count == 1 ? "" : "s");
	if (sheet->carriage_count > 0) {
		text_add_format(words, ", %zu carriage line%s", sheet->carriage_count,
		    sheet->carriage_count == 1 ? "" : "s");
	}
	if (sheet->extends[0] != '\0') {
		text_add_format(words, ", extends %s", sheet->extends);
	}
	paragraph(text_string(words), 0, 2, out);
}

void
report_sheet_check(const struct checked_sheet *files, size_t count, struct text *out)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < count; i++) {
		add_checked(&files[i], &words, out);
	}
}
