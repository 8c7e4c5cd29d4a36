/* The journal of a book, and what a check of it found. */
#include "report/reply.h"
#include "report/words.h"
#include "report/words_inside.h"

#include <string.h>

enum { SECONDS_OF_DAY = 86400 };

/* "25 Nov 2026, 14:02 UTC"; only the day where only a day was told. */
static void
add_time(const struct journal_entry *entry, struct text *out)
{
	int64_t seconds = entry->at % SECONDS_OF_DAY;
	int64_t days = entry->at / SECONDS_OF_DAY - (seconds < 0);
	seconds += seconds < 0 ? SECONDS_OF_DAY : 0;
	if (days < DAY_MIN || days > DAY_MAX) {
		text_add(out, "at a time that makes no sense");
		return;
	}
	add_day((day_t)days, "", out);
	if (!entry->told) {
		text_add_format(out, ", %02d:%02d%cUTC", (int)(seconds / 3600),
		    (int)(seconds / 60 % 60), GLUE);
	}
}

static void
add_quoted(const char *words, struct text *out)
{
	text_add_format(out, "\"%s\"", words);
}

/* A value of the line's field in quotes, its money in the main unit. */
static void
add_value(const struct journal_line *line, const char *value, const char *currency,
    struct text *out)
{
	text_add_byte(out, '"');
	journal_value_words(line->field, value, currency, out);
	text_add_byte(out, '"');
}

static void
add_change(const struct journal_line *line, const char *currency, struct text *out)
{
	text_add_byte(out, ' ');
	journal_field_words(line->field, out);
	if (line->was[0] == '\0') {
		text_add(out, " is now ");
		add_value(line, line->became, currency, out);
	} else if (line->became[0] == '\0') {
		text_add(out, " no longer ");
		add_value(line, line->was, currency, out);
	} else {
		text_add(out, " from ");
		add_value(line, line->was, currency, out);
		text_add(out, " to ");
		add_value(line, line->became, currency, out);
	}
}

/* `reminder "Hand in 2 items at Lorne Rafts" planned on 2026-12-03` */
static void
add_planned(const struct journal_line *line, struct text *out)
{
	/* what has no value before or after was begun or ended with this */
	bool begun = line->act == JOURNAL_ADDED || line->was[0] == '\0';
	bool ended = line->act == JOURNAL_REMOVED || line->became[0] == '\0';
	text_add(out, "reminder ");
	add_quoted(line->name, out);
	if (begun || ended) {
		text_add_format(out, "%s %s %s", begun ? "" : " no longer", line->field,
		    begun ? line->became : line->was);
	} else {
		text_add_format(
		    out, " %s %s instead of %s", line->field, line->became, line->was);
	}
}

/* `LR-1: place from "cabin" to "cockpit"`, `LR-1 added: kind epirb`, `LR-1: record added: ...` */
static void
add_line(const struct journal_line *line, const char *currency, struct text *out)
{
	bool added = line->act == JOURNAL_ADDED;
	const char *all = added ? line->became : line->was;
	if (strcmp(line->about, "reminder") == 0 && line->name[0] != '\0') {
		add_planned(line, out);
		return;
	}
	text_add(out, line->name[0] != '\0' ? line->name : line->about);
	if (line->act == JOURNAL_CHANGED) {
		text_add(out, ":");
		add_change(line, currency, out);
		return;
	}
	text_add_format(out, "%s%s %s", line->field[0] != '\0' ? ": " : "", line->field,
	    added ? "added" : "removed");
	text_add(out, all[0] != '\0' ? ": " : "");
	journal_value_words("", all, currency, out);
}

static void
add_entry(const struct journal_entry *entry, size_t most, const char *currency,
    struct reply *reply)
{
	enum { INDENT = 6 };

	SCOPED_TEXT words = {0};
	text_add_format(&words, "%lld  ", (long long)entry->number);
	add_time(entry, &words);
	text_add_format(&words, ", %s: %s",
	    entry->who[0] != '\0' ? entry->who : "not signed",
	    entry->act[0] != '\0' ? entry->act : "not said how");
	reply_words(reply, VOICE_PLAIN, false, INDENT, text_string(&words));
	for (size_t i = 0; i < entry->line_count && i < most; i++) {
		text_reset(&words);
		add_line(&entry->lines[i], currency, &words);
		reply_remark(reply, VOICE_PLAIN, INDENT, text_string(&words));
	}
	text_reset(&words);
	if (entry->line_count > most) {
		text_add_format(&words, "and %zu more; --number %lld shows them all",
		    entry->line_count - most, (long long)entry->number);
	}
	reply_block(reply, INDENT, text_string(&words));
	text_reset(&words);
	if (entry->undone_by != 0) {
		text_add_format(
		    &words, "taken back by entry %lld", (long long)entry->undone_by);
	}
	reply_block(reply, INDENT, text_string(&words));
}

void
report_journal(
    const struct journal *journal, size_t most, const char *currency, struct text *out)
{
	SCOPED_REPLY(reply);
	for (size_t i = 0; i < journal->count; i++) {
		add_entry(&journal->entries[i], most, currency, &reply);
	}
	reply_text(&reply, false, out);
}

void
report_check(
    const struct report_style *style, const struct check_result *result, struct text *out)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "", .flexible = true}, {.heading = ""}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH | LOOK_BARE);
	for (size_t i = 0; i < result->rule_count; i++) {
		const struct held *held = &result->rules[i];
		bool all_right = held->found == 0;
		text_add(&words, all_right ? "all right" : "");
		if (!all_right) {
			text_add_format(&words, "not so: %zu found", held->found);
		}
		reply_cell(table, HUE_NONE, held->holds);
		reply_take(table, all_right ? HUE_GOOD : HUE_BAD, &words);
	}
	for (size_t i = 0; i < result->count; i++) {
		reply_words(&reply, VOICE_CARE, true, 2, result->items[i].what);
		reply_block(&reply, 2, result->items[i].to_do);
	}
	reply_write(&reply, style, out);
}
