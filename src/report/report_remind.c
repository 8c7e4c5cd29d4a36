/* What there is to be reminded of, and what a person chose about it. */
#include "report/reply.h"

#include <string.h>

/* So much of an identity names a reminder. */
enum { SHORT_ID = 8 };

static void
add_row(const struct reminder_row *row, struct reply_table *table)
{
	char id[SHORT_ID + 1] = "";
	(void)strncat(id, row->uid, SHORT_ID);
	reply_day(table, HUE_NONE, row->day, "");
	reply_cell(table, HUE_NONE, row->planned ? "planned" : "");
	reply_cell(table, HUE_NONE, row->summary);
	reply_cell(table, HUE_NONE, id);
}

static void
add_choices(const struct reminder_choices *choices, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words,
	    "Your day for what is overdue and what you do yourself: %s. Weekly and monthly "
	    "looks: %s. One for each item: %s.",
	    weekday_name(choices->weekday), choices->routines ? "yes" : "no",
	    choices->singles ? "yes" : "no");
	for (size_t i = 0; i < choices->notice_count; i++) {
		const struct notice *notice = &choices->notices[i];
		text_add_format(&words, " %s: %d day%s before.", notice->kind,
		    notice->days, notice->days == 1 ? "" : "s");
	}
	reply_words(reply, VOICE_PLAIN, true, 0, text_string(&words));
}

static void
add_given_up(const struct reminder_row *row, struct reply *reply)
{
	char day[DAY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	text_add_format(&words,
	    "Given up for its winter: %s, planned for %s: %s. Taken back with "
	    "--plan %.*s=DATE, or =none for a day that is found for it.",
	    row->summary, day_words(row->given_up_day, day), row->given_up, SHORT_ID,
	    row->uid);
	reply_words(reply, VOICE_PLAIN, true, 0, text_string(&words));
}

void
report_remind(const struct report_style *style, const struct reminder_choices *choices,
    const struct reminder_row *rows, size_t count, struct text *out)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Day", .type = CELL_DAY}, {.heading = ""},
	    {.heading = "Reminder", .flexible = true}, {.heading = "Identity"}};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < count; i++) {
		if (rows[i].given_up == NULL) {
			add_row(&rows[i], table);
		}
	}
	reply_words(&reply, VOICE_PLAIN, false, 0,
	    table->count == 0 ? "Nothing to be reminded of." : "");
	add_choices(choices, &reply);
	for (size_t i = 0; i < count; i++) {
		if (rows[i].given_up != NULL) {
			add_given_up(&rows[i], &reply);
		}
	}
	reply_write(&reply, style, out);
}
