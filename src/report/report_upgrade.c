/* Which dates a newer program, or other rule sheets, moved. */
#include "report/reply.h"
#include "report/words.h"

/* "15 Jun 2027, in date (jacket-service of practice)" */
static void
add_date(const struct reckoned *date, struct text *out)
{
	if (date->state == STATE_DATE_UNKNOWN) {
		text_add(out, "date unknown");
	} else {
		add_day(date->due, "no day", out);
		text_add_format(out, ", %s",
		    date->state == STATE_IN_DATE ? "in date" : state_word(date->state));
	}
	if (date->good_through != date->due && date->good_through != DAY_NONE) {
		text_add(out, ", window to ");
		add_day(date->good_through, "", out);
	}
	if (date->rule[0] != '\0') {
		text_add_format(out, " (%s%s%s)", date->rule,
		    date->sheet[0] != '\0' ? " of " : "", date->sheet);
	}
}

static void
add_moved_words(const struct moved_date *moved, struct text *out)
{
	text_add_format(out, "%s on %s, %s: ", moved->is.tag, moved->is.vessel,
	    task_noun(moved->is.task));
	if (!moved->was_asked) {
		text_add(out, "was not asked for, now ");
		add_date(&moved->is, out);
		return;
	}
	text_add(out, "was ");
	add_date(&moved->was, out);
	text_add(out, ", now ");
	if (moved->is_asked) {
		add_date(&moved->is, out);
	} else {
		text_add(out, "not asked for any more");
	}
}

static void
add_upgrade_words(const struct upgrade *upgrade, struct text *out)
{
	if (!upgrade->kept) {
		text_add(out,
		    "this book is of a becket that kept no dates, so which of them have "
		    "moved can't be told: look through \"becket due\" once. Figures of "
		    "rule sheets may be others (\"becket sheet show NAME\")");
	} else if (upgrade->moved_count == 0) {
		text_add(out, "no date that was kept has moved");
	} else {
		bool one = upgrade->moved_count == 1;
		text_add_format(out,
		    "%zu date%s moved, with nothing done, because %s%s%s",
		    upgrade->moved_count, one ? " has" : "s have",
		    upgrade->figures ? "rule sheets are others" : "",
		    upgrade->figures && upgrade->meaning_count > 0 ? " and " : "",
		    upgrade->meaning_count > 0 ? "this becket reads otherwise" : "");
	}
}

static void
add_not_told_words(const struct upgrade *upgrade, struct text *out)
{
	text_add(out,
	    "which dates moved can't be told of the gear of these, of which something "
	    "was written since dates were last kept:");
	for (size_t i = 0; i < upgrade->not_told_count; i++) {
		text_add_format(out, "%s %s", i > 0 ? "," : "", upgrade->not_told[i]);
	}
}

/* A paragraph of words that begins with a capital. */
static void
add_sentence(struct text *words, struct reply *reply)
{
	SCOPED_TEXT sentence = {0};
	text_add_capital(&sentence, text_string(words));
	reply_say(reply, false, &sentence);
	text_reset(words);
}

void
report_upgrade(const struct upgrade *upgrade, struct text *out)
{
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	add_upgrade_words(upgrade, &words);
	text_add(&words, upgrade->moved_count > 0 ? ":" : ".");
	add_sentence(&words, &reply);
	for (size_t i = 0; i < upgrade->moved_count; i++) {
		add_moved_words(&upgrade->moved[i], &words);
		reply_remark(&reply, VOICE_PLAIN, 2, text_string(&words));
		text_reset(&words);
	}
	if (upgrade->meaning_count > 0) {
		text_add(&words, "Since then it is read otherwise:");
	}
	reply_say(&reply, false, &words);
	for (size_t i = 0; i < upgrade->meaning_count; i++) {
		reply_remark(&reply, VOICE_PLAIN, 2, upgrade->meanings[i]);
	}
	if (upgrade->not_told_count > 0) {
		add_not_told_words(upgrade, &words);
		add_sentence(&words, &reply);
	}
	if (upgrade->entry != 0) {
		text_add_format(&words, "The journal keeps this as entry %lld.",
		    (long long)upgrade->entry);
	}
	reply_say(&reply, false, &words);
	reply_text(&reply, false, out);
}

/* Adds a line of words, with blanks in place of GLUE. */
static void
add_remark(struct text *words, struct text *out)
{
	for (const char *at = text_string(words); *at != '\0'; at++) {
		text_add_byte(out, (char)(*at == GLUE ? ' ' : *at));
	}
	text_add(out, "\n");
	text_reset(words);
}

void
report_upgrade_remarks(const struct upgrade *upgrade, size_t most, struct text *out)
{
	SCOPED_TEXT words = {0};
	if (upgrade->moved_count > 0 || !upgrade->kept) {
		add_upgrade_words(upgrade, &words);
		add_remark(&words, out);
	}
	for (size_t i = 0; i < upgrade->moved_count && i < most; i++) {
		add_moved_words(&upgrade->moved[i], &words);
		add_remark(&words, out);
	}
	for (size_t i = 0; i < upgrade->meaning_count; i++) {
		text_add_format(out, "read otherwise since: %s\n", upgrade->meanings[i]);
	}
	if (upgrade->not_told_count > 0) {
		add_not_told_words(upgrade, &words);
		add_remark(&words, out);
	}
	text_add_format(out, "\"becket book journal --number %lld\" shows all of this\n",
	    (long long)upgrade->entry);
}
