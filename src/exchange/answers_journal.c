/* The journal, and what a check found, as JSON. */
#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

static const char *
act_word(enum journal_act act)
{
	switch (act) {
	case JOURNAL_ADDED:
		return "added";
	case JOURNAL_CHANGED:
		return "changed";
	case JOURNAL_REMOVED:
		return "removed";
	}
	return "";
}

static json_t *
line_object(const struct journal_line *line)
{
	json_t *object = json_object();
	json_put_string(object, "about", line->about);
	json_put_words(object, "name", line->name);
	json_put_words(object, "kind", line->kind);
	json_put_words(object, "serial", line->serial);
	json_put_string(object, "act", act_word(line->act));
	json_put_words(object, "field", line->field);
	json_put_words(object, "was", line->was);
	json_put_words(object, "became", line->became);
	return object;
}

json_t *
entry_object(const struct journal_entry *entry)
{
	json_t *object = json_object();
	json_put(object, "number", json_integer(entry->number));
	json_put(object, "at", json_integer(entry->at));
	json_put_bool(object, "told", entry->told);
	json_put_words(object, "who", entry->who);
	json_put_string(object, "command", entry->act);
	json_put_number(object, "undoes", entry->undoes, 0);
	json_put_number(object, "undone_by", entry->undone_by, 0);
	json_t *lines = json_array();
	for (size_t i = 0; i < entry->line_count; i++) {
		json_push(lines, line_object(&entry->lines[i]));
	}
	json_put(object, "lines", lines);
	return object;
}

void
answer_journal(const struct journal *journal, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < journal->count; i++) {
		json_t *object = entry_object(&journal->entries[i]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

void
answer_check(const struct check_result *result, struct text *out)
{
	json_t *object = json_object();
	json_t *checked = json_array();
	json_t *findings = json_array();
	for (size_t i = 0; i < result->rule_count; i++) {
		json_t *held = json_object();
		json_put_string(held, "rule", result->rules[i].rule);
		json_put_string(held, "holds", result->rules[i].holds);
		json_put(held, "found", json_integer((json_int_t)result->rules[i].found));
		json_push(checked, held);
	}
	for (size_t i = 0; i < result->count; i++) {
		json_t *finding = json_object();
		json_put_string(finding, "rule", result->items[i].rule);
		json_put_string(finding, "what", result->items[i].what);
		json_put_string(finding, "to_do", result->items[i].to_do);
		json_push(findings, finding);
	}
	json_put_bool(object, "ok", result->count == 0);
	json_put(object, "checked", checked);
	json_put(object, "findings", findings);
	answer_value(out, object);
}

static json_t *
date_object(bool asked, const struct reckoned *date)
{
	if (!asked) {
		return json_null();
	}
	json_t *object = json_object();
	json_put_day(object, "due", date->due);
	json_put_day(object, "good_through", date->good_through);
	json_put_string(object, "state", state_word(date->state));
	json_put_words(object, "rule", date->rule);
	json_put_words(object, "sheet", date->sheet);
	return object;
}

static json_t *
moved_object(const struct moved_date *moved)
{
	json_t *object = json_object();
	json_put_string(object, "vessel", moved->is.vessel);
	json_put_string(object, "tag", moved->is.tag);
	json_put_string(object, "kind", moved->kind);
	json_put_string(object, "task", task_word(moved->is.task));
	json_put_day(object, "seen", moved->seen);
	json_put(object, "was", date_object(moved->was_asked, &moved->was));
	json_put(object, "is", date_object(moved->is_asked, &moved->is));
	return object;
}

static json_t *
words_array(const char *const *words, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(array, json_string(words[i]));
	}
	return array;
}

void
answer_upgrade(const struct upgrade *upgrade, struct text *out)
{
	json_t *object = json_object();
	json_t *moved = json_array();
	for (size_t i = 0; i < upgrade->moved_count; i++) {
		json_push(moved, moved_object(&upgrade->moved[i]));
	}
	json_put_bool(object, "kept", upgrade->kept);
	json_put_bool(object, "rule_sheets", upgrade->figures);
	json_put(
	    object, "meanings", words_array(upgrade->meanings, upgrade->meaning_count));
	json_put(object, "moved", moved);
	json_put(
	    object, "not_told", words_array(upgrade->not_told, upgrade->not_told_count));
	json_put_number(object, "entry", (int)upgrade->entry, 0);
	answer_value(out, object);
}
