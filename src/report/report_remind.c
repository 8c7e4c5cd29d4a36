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
add_given_up(const struct reminder_row *row, struct text *words)
{
	char day[DAY_WORDS_SIZE];
	text_add_format(words,
	    "Given up for its winter: %s, planned for %s: %s. Taken back with "
	    "--plan %.*s=DATE, or =none for a day that is found for it.",
	    row->summary, day_words(row->given_up_day, day), row->given_up, SHORT_ID,
	    row->uid);
}

void
report_remind_some(
    struct remind_report *report, const struct reminder_row *rows, size_t count)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Day", .type = CELL_DAY}, {.heading = ""},
	    {.heading = "Reminder", .flexible = true}, {.heading = "Identity"}};
	SCOPED_REPLY(reply);
	SCOPED_TEXT words = {0};
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	struct run_piece *places = ARENA_MANY(reply.arena, struct run_piece, count);
	size_t shown = 0;
	for (size_t i = 0; i < count; i++) {
		if (rows[i].given_up == NULL) {
			add_row(&rows[i], table);
			places[shown++] =
			    (struct run_piece){.key = rows[i].day, .word = rows[i].key};
			continue;
		}
		text_reset(&words);
		add_given_up(&rows[i], &words);
		runs_add(&report->given_up, &(struct run_piece){0, text_string(&words),
						words.length, rows[i].key});
	}
	runs_end(&report->given_up);
	reply_rows_keep(&report->rows, table, places);
}

static void
write_given_up(const struct run_piece *piece, void *of)
{
	struct text *out = of;
	SCOPED_TEXT words = {0};
	text_add_bytes(&words, piece->bytes, piece->length);
	text_add(out, "\n");
	paragraph(text_string(&words), 0, 0, out);
	text_hand_on(out);
}

bool
report_remind_end(struct remind_report *report, const struct report_style *style,
    const struct reminder_choices *choices, struct text *out, struct fault *fault)
{
	SCOPED_REPLY(reply);
	reply_words(&reply, VOICE_PLAIN, false, 0,
	    report->rows.count == 0 ? "Nothing to be reminded of." : "");
	add_choices(choices, &reply);
	if (!reply_rows_text(&report->rows, style->colour, out, fault)) {
		return false;
	}
	reply_write(&reply, style, out);
	return runs_merge(&report->given_up, write_given_up, out, fault);
}

void
remind_report_clear(struct remind_report *report)
{
	kept_rows_clear(&report->rows);
	runs_clear(&report->given_up);
}
