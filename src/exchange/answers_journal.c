/* The journal, and what a check found, as JSON. */
#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

ANSWER_KEYS(ENTRY_KEYS, "an entry", "number",
    "at: seconds since 1970, UTC; the start of a day where it was told",
    "told: its day was, and no hour is known", "who", "command", "undoes: that entry",
    "undone_by: that one", "lines");

ANSWER_KEYS(ENTRY_LINE_KEYS, "its line", "about: what kind of thing", "name", "kind",
    "serial", "act: added, changed or removed", "field", "was", "became");

const struct answer_keys *const KEYS_OF_JOURNAL[] = {&ENTRY_KEYS, &ENTRY_LINE_KEYS, NULL};

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

static struct json
line_object(const struct journal_line *line)
{
	return JSON_OF(&ENTRY_LINE_KEYS, json_text(line->about), json_words(line->name),
	    json_words(line->kind), json_words(line->serial),
	    json_text(act_word(line->act)), json_words(line->field),
	    json_words(line->was), json_words(line->became));
}

struct json
entry_object(const struct journal_entry *entry)
{
	struct json lines = json_list();
	for (size_t i = 0; i < entry->line_count; i++) {
		json_push(lines, line_object(&entry->lines[i]));
	}
	return JSON_OF(&ENTRY_KEYS, json_whole(entry->number), json_whole(entry->at),
	    json_flag(entry->told), json_words(entry->who), json_text(entry->act),
	    json_number(entry->undoes, 0), json_number(entry->undone_by, 0), lines);
}

void
answer_journal(const struct journal *journal, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < journal->count; i++) {
		answer_element(&answer, entry_object(&journal->entries[i]));
	}
	answer_end(&answer);
}

static ANSWER_KEYS(
    CHECK_KEYS, "the answer", "ok: nothing was found", "checked", "findings");

static ANSWER_KEYS(CHECKED_KEYS, "a rule that was", "rule", "holds: what is to",
    "found: how often it does not");

static ANSWER_KEYS(FINDING_KEYS, "a finding", "rule", "what", "to_do");

const struct answer_keys *const KEYS_OF_BOOK_CHECK[] = {
    &CHECK_KEYS, &CHECKED_KEYS, &FINDING_KEYS, NULL};

void
answer_check(const struct check_result *result, struct text *out)
{
	struct json checked = json_list();
	struct json findings = json_list();
	for (size_t i = 0; i < result->rule_count; i++) {
		json_push(
		    checked, JSON_OF(&CHECKED_KEYS, json_text(result->rules[i].rule),
				 json_text(result->rules[i].holds),
				 json_count(result->rules[i].found)));
	}
	for (size_t i = 0; i < result->count; i++) {
		json_push(
		    findings, JSON_OF(&FINDING_KEYS, json_text(result->items[i].rule),
				  json_text(result->items[i].what),
				  json_text(result->items[i].to_do)));
	}
	answer_value(
	    out, JSON_OF(&CHECK_KEYS, json_flag(result->count == 0), checked, findings));
}

static ANSWER_KEYS(UPGRADE_KEYS, "the answer", "kept: dates were, before",
    "rule_sheets: figures of theirs changed", "meanings: sentences on what else did",
    "moved: dates", "not_told: the vessels of which it can't be told",
    "entry: of the journal, that keeps it");

static ANSWER_KEYS(MOVED_KEYS, "a moved date", "vessel", "tag", "kind", "task",
    "seen: the day that it was", "was: null where it was not asked for, as the next",
    "is");

static ANSWER_KEYS(
    DATE_KEYS, "what it was and is", "due", "good_through", "state", "rule", "sheet");

const struct answer_keys *const KEYS_OF_UPGRADE[] = {
    &UPGRADE_KEYS, &MOVED_KEYS, &DATE_KEYS, NULL};

static struct json
date_object(bool asked, const struct reckoned *date)
{
	return !asked
		   ? json_none()
		   : JSON_OF(&DATE_KEYS, json_day(date->due),
			 json_day(date->good_through), json_text(state_word(date->state)),
			 json_words(date->rule), json_words(date->sheet));
}

static struct json
moved_object(const struct moved_date *moved)
{
	return JSON_OF(&MOVED_KEYS, json_text(moved->is.vessel), json_text(moved->is.tag),
	    json_text(moved->kind), json_text(task_word(moved->is.task)),
	    json_day(moved->seen), date_object(moved->was_asked, &moved->was),
	    date_object(moved->is_asked, &moved->is));
}

void
answer_upgrade(const struct upgrade *upgrade, struct text *out)
{
	struct json moved = json_list();
	for (size_t i = 0; i < upgrade->moved_count; i++) {
		json_push(moved, moved_object(&upgrade->moved[i]));
	}
	answer_value(out,
	    JSON_OF(&UPGRADE_KEYS, json_flag(upgrade->kept), json_flag(upgrade->figures),
		json_strings(upgrade->meanings, upgrade->meaning_count), moved,
		json_strings(upgrade->not_told, upgrade->not_told_count),
		json_number(upgrade->entry, 0)));
}
