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
line_object(struct answer *answer, const struct journal_line *line)
{
	json_t *object = json_object();
	json_put_string(answer, object, "about", line->about);
	json_put_words(answer, object, "name", line->name);
	json_put_words(answer, object, "kind", line->kind);
	json_put_words(answer, object, "serial", line->serial);
	json_put_string(answer, object, "act", act_word(line->act));
	json_put_words(answer, object, "field", line->field);
	json_put_words(answer, object, "was", line->was);
	json_put_words(answer, object, "became", line->became);
	return object;
}

json_t *
entry_object(struct answer *answer, const struct journal_entry *entry)
{
	json_t *object = json_object();
	json_put(answer, object, "number", json_integer(entry->number));
	json_put(answer, object, "at", json_integer(entry->at));
	json_put_bool(answer, object, "told", entry->told);
	json_put_words(answer, object, "who", entry->who);
	json_put_string(answer, object, "command", entry->act);
	json_put_number(answer, object, "undoes", entry->undoes, 0);
	json_put_number(answer, object, "undone_by", entry->undone_by, 0);
	json_t *lines = json_array();
	for (size_t i = 0; i < entry->line_count; i++) {
		json_push(answer, lines, line_object(answer, &entry->lines[i]));
	}
	json_put(answer, object, "lines", lines);
	return object;
}

void
answer_journal(const struct journal *journal, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < journal->count; i++) {
		json_t *object = entry_object(&answer, &journal->entries[i]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

void
answer_check(const struct check_result *result, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *checked = json_array();
	json_t *findings = json_array();
	for (size_t i = 0; i < result->rule_count; i++) {
		json_t *held = json_object();
		json_put_string(&answer, held, "rule", result->rules[i].rule);
		json_put_string(&answer, held, "holds", result->rules[i].holds);
		json_put(&answer, held, "found",
		    json_integer((json_int_t)result->rules[i].found));
		json_push(&answer, checked, held);
	}
	for (size_t i = 0; i < result->count; i++) {
		json_t *finding = json_object();
		json_put_string(&answer, finding, "rule", result->items[i].rule);
		json_put_string(&answer, finding, "what", result->items[i].what);
		json_put_string(&answer, finding, "to_do", result->items[i].to_do);
		json_push(&answer, findings, finding);
	}
	json_put_bool(&answer, object, "ok", result->count == 0);
	json_put(&answer, object, "checked", checked);
	json_put(&answer, object, "findings", findings);
	answer_value(&answer, object);
}

static json_t *
date_object(struct answer *answer, bool asked, const struct reckoned *date)
{
	if (!asked) {
		return json_null();
	}
	json_t *object = json_object();
	json_put_day(answer, object, "due", date->due);
	json_put_day(answer, object, "good_through", date->good_through);
	json_put_string(answer, object, "state", state_word(date->state));
	json_put_words(answer, object, "rule", date->rule);
	json_put_words(answer, object, "sheet", date->sheet);
	return object;
}

static json_t *
moved_object(struct answer *answer, const struct moved_date *moved)
{
	json_t *object = json_object();
	json_put_string(answer, object, "vessel", moved->is.vessel);
	json_put_string(answer, object, "tag", moved->is.tag);
	json_put_string(answer, object, "kind", moved->kind);
	json_put_string(answer, object, "task", task_word(moved->is.task));
	json_put_day(answer, object, "seen", moved->seen);
	json_put(
	    answer, object, "was", date_object(answer, moved->was_asked, &moved->was));
	json_put(answer, object, "is", date_object(answer, moved->is_asked, &moved->is));
	return object;
}

static json_t *
words_array(struct answer *answer, const char *const *words, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(answer, array, json_string(words[i]));
	}
	return array;
}

void
answer_upgrade(const struct upgrade *upgrade, struct text *out)
{
	struct answer answer = {.out = out};
	json_t *object = json_object();
	json_t *moved = json_array();
	for (size_t i = 0; i < upgrade->moved_count; i++) {
		json_push(&answer, moved, moved_object(&answer, &upgrade->moved[i]));
	}
	json_put_bool(&answer, object, "kept", upgrade->kept);
	json_put_bool(&answer, object, "rule_sheets", upgrade->figures);
	json_put(&answer, object, "meanings",
	    words_array(&answer, upgrade->meanings, upgrade->meaning_count));
	json_put(&answer, object, "moved", moved);
	json_put(&answer, object, "not_told",
	    words_array(&answer, upgrade->not_told, upgrade->not_told_count));
	json_put_number(&answer, object, "entry", (int)upgrade->entry, 0);
	answer_value(&answer, object);
}
