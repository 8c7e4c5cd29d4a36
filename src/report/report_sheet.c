#include "report/reply.h"
#include "report/sheet_words.h"
#include "report/words.h"

#include <string.h>

void
report_sheets(const struct report_style *style, const struct sheet *const *sheets,
    size_t count, struct text *out)
{
	static const struct reply_column COLUMNS[] = {{.heading = "Sheet", .most = 24},
	    {.heading = "Rules", .type = CELL_NUMBER},
	    {.heading = "Compiled", .type = CELL_DAY},
	    {.heading = "What it is", .flexible = true}};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < count; i++) {
		reply_cell(table, HUE_STRONG, sheets[i]->name);
		reply_number(table, HUE_NONE, (int64_t)sheets[i]->rule_count, "");
		reply_day(table, HUE_NONE, sheets[i]->compiled, "not said");
		reply_cell(table, HUE_NONE, sheets[i]->title);
	}
	reply_words(
	    &reply, VOICE_PLAIN, false, 0, count == 0 ? "No rule sheets to show." : "");
	reply_write(&reply, style, out);
}

static const struct reply_column RULE_COLUMNS[] = {
    {.heading = "", .most = 8}, {.heading = "", .flexible = true}};

/* Adds a fact from `skip` bytes of its words on, and empties them, unless there is nothing to
 * say. */
static void
add_fact(struct reply_table *table, const char *name, size_t skip, struct text *words)
{
	if (words->length > skip) {
		reply_cell(table, HUE_NONE, name);
		reply_cell(table, HUE_NONE, text_string(words) + skip);
	}
	text_reset(words);
}

/* How conditions begin, and are cut off where they stand alone. */
static const size_t BETWEEN = sizeof "; " - 1;

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
add_rule(const struct rule *rule, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: %s, by %s, grade %s; when passed: %s", rule->id,
	    task_word(rule->task), doer_word(rule->doer), grade_word(rule->grade),
	    state_word(rule->lapse));
	add_descent(rule->sheet, rule->origin, rule->replaces, &words);
	reply_say(reply, true, &words);
	struct reply_table *table = REPLY_TABLE(reply, RULE_COLUMNS, LOOK_BARE);
	sheet_add_list(rule->kinds, rule->kind_count, &words);
	add_fact(table, "For", 0, &words);
	text_add(&words, rule->what);
	add_fact(table, "To do", 0, &words);
	for (size_t i = 0; i < rule->clock_count; i++) {
		text_add(&words, i == 0 ? "" : "; ");
		sheet_add_clock(&rule->clocks[i], &words);
	}
	add_fact(table, "Due", 0, &words);
	sheet_add_conditions(&rule->when, &words);
	sheet_add_extras(rule, &words);
	add_fact(table, "Holds", BETWEEN, &words);
	add_source(rule->source, rule->standing, &words);
	add_fact(table, "Source", 0, &words);
}

/* One carriage line, as a rule is told. */
static void
add_carriage(const struct carriage *line, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: to be carried: %s", line->id, line->title);
	add_descent(line->sheet, line->origin, line->replaces, &words);
	reply_say(reply, true, &words);
	struct reply_table *table = REPLY_TABLE(reply, RULE_COLUMNS, LOOK_BARE);
	sheet_add_need(line, &words);
	add_fact(table, "Needs", 0, &words);
	for (size_t i = 0; i < line->serve_count; i++) {
		sheet_add_serving(&line->serves[i], &words);
		add_fact(table, i == 0 ? "Met by" : "", 0, &words);
	}
	sheet_add_conditions(&line->when, &words);
	add_fact(table, "Holds", BETWEEN, &words);
	add_source(line->source, line->standing, &words);
	add_fact(table, "Source", 0, &words);
}

/* What the sheet carries no figure for. */
static void
add_subject(const struct not_stated *subject, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: not stated here: %s; ask %s", subject->id,
	    subject->subject, subject->ask);
	add_descent(subject->sheet, subject->origin, subject->replaces, &words);
	text_add_byte(&words, '.');
	reply_say(reply, true, &words);
	if (subject->kind_count > 0) {
		text_add(&words, "For: ");
		sheet_add_list(subject->kinds, subject->kind_count, &words);
	}
	reply_remark(reply, VOICE_PLAIN, 2, text_string(&words));
	text_reset(&words);
	for (unsigned i = 0; i < GEAR_SUBJECT_COUNT; i++) {
		if ((subject->about & 1U << i) != 0) {
			text_add_format(&words, "%s%s",
			    words.length == 0 ? "Whom to ask where no line is of: "
					      : ", ",
			    subject_name((enum carriage_subject)i));
		}
	}
	text_add(&words, words.length > 0 ? "." : "");
	reply_remark(reply, VOICE_PLAIN, 2, text_string(&words));
	text_reset(&words);
	sheet_add_conditions(&subject->when, &words);
	if (words.length > 0) {
		text_add_byte(&words, '.');
		reply_remark(reply, VOICE_PLAIN, 2, text_string(&words) + BETWEEN);
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
	SCOPED_REPLY(reply);
	text_add_format(&words, "%s: %s.", sheet->name, sheet->title);
	if (sheet->audience[0] != '\0') {
		text_add_format(&words, " For %s.", sheet->audience);
	}
	text_add(&words, " Compiled ");
	add_day(sheet->compiled, "on no day that is said", &words);
	text_add_byte(&words, '.');
	add_extends(sheet, &words);
	reply_say(&reply, false, &words);
	for (size_t i = 0; i < sheet->caution_count; i++) {
		reply_words(&reply, VOICE_PLAIN, false, 2, sheet->cautions[i]);
	}
	for (size_t i = 0; i < sheet->rule_count; i++) {
		add_rule(&sheet->rules[i], &reply);
	}
	for (size_t i = 0; i < sheet->carriage_count; i++) {
		add_carriage(&sheet->carriage[i], &reply);
	}
	for (size_t i = 0; i < sheet->not_stated_count; i++) {
		add_subject(&sheet->not_stated[i], &reply);
	}
	reply_caution(&reply);
	reply_write(&reply, style, out);
}

static void
add_checked(const struct checked_sheet *file, struct reply *reply)
{
	const struct sheet *sheet = file->sheet;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < file->findings.count; i++) {
		const struct sheet_finding *finding = &file->findings.items[i];
		text_add_format(
		    &words, "%s%s", file->path, finding->remark ? ": remark" : "");
		if (finding->line > 0) {
			text_add_format(&words, ": line %lu", finding->line);
		}
		text_add_format(&words, "%s%s: %s; %s.",
		    finding->about[0] == '\0' ? "" : ", ", finding->about, finding->what,
		    finding->todo);
		reply_say(reply, false, &words);
	}
	if (sheet_findings_wrong(&file->findings) > 0) {
		return;
	}
	text_add_format(&words, "%s is in order: %s, %zu rule%s", file->path,
	    sheet->title, sheet->rule_count, sheet->rule_count == 1 ? "" : "s");
	if (sheet->carriage_count > 0) {
		text_add_format(&words, ", %zu carriage line%s", sheet->carriage_count,
		    sheet->carriage_count == 1 ? "" : "s");
	}
	if (sheet->extends[0] != '\0') {
		text_add_format(&words, ", extends %s", sheet->extends);
	}
	reply_say(reply, false, &words);
}

void
report_sheet_check(const struct checked_sheet *files, size_t count, struct text *out)
{
	SCOPED_REPLY(reply);
	for (size_t i = 0; i < count; i++) {
		add_checked(&files[i], &reply);
	}
	reply_text(&reply, false, out);
}
