#include "cli/calendar_acts.h"
#include "exchange/answer_push.h"
#include "report/reply.h"

#include <string.h>

static const char *
act_word(enum caldav_act act)
{
	switch (act) {
	case CALDAV_NOTHING:
		return "nothing";
	case CALDAV_NOTE:
		return "note";
	case CALDAV_CREATE:
		return "create";
	case CALDAV_CHANGE:
		return "change";
	case CALDAV_REMOVE:
		return "remove";
	case CALDAV_FORGET:
		return "forget";
	case CALDAV_PLAN:
		return "plan";
	case CALDAV_ACCEPT:
		return "accept";
	case CALDAV_LEAVE:
		return "leave";
	}
	return "";
}

static const char *
finding_word(enum caldav_finding finding)
{
	switch (finding) {
	case CALDAV_FOUND_NOTHING:
		return "";
	case CALDAV_FOUND_MOVED:
		return "moved";
	case CALDAV_FOUND_EDITED:
		return "edited";
	case CALDAV_FOUND_REMOVED:
		return "removed";
	case CALDAV_FOUND_STRANGE:
		return "strange";
	case CALDAV_FOUND_TWICE:
		return "twice";
	}
	return "";
}

static struct pushed_counts
count_rows(const struct caldav_report *report)
{
	struct pushed_counts counts = {0};
	for (size_t i = 0; i < report->count; i++) {
		switch (report->rows[i].act) {
		case CALDAV_NOTHING:
		case CALDAV_NOTE:
			counts.unchanged++;
			break;
		case CALDAV_CREATE:
			counts.created++;
			break;
		case CALDAV_CHANGE:
			counts.changed++;
			break;
		case CALDAV_REMOVE:
			counts.removed++;
			break;
		case CALDAV_PLAN:
			counts.planned++;
			break;
		case CALDAV_ACCEPT:
			counts.accepted++;
			break;
		case CALDAV_LEAVE:
			counts.left++;
			break;
		case CALDAV_FORGET:
			break;
		}
	}
	return counts;
}

size_t
push_left(const struct caldav_report *report)
{
	return count_rows(report).left;
}

/* Adds "created 5, changed 1"; counts of zero are left out. */
static void
add_counts(const struct pushed_counts *counts, bool pulling, struct text *out)
{
	const struct {
		const char *word;
		size_t count;
		bool pulled;
	} WORDS[] = {
	    {"created", counts->created, false},
	    {"changed", counts->changed, false},
	    {"removed", counts->removed, false},
	    {"planned as moved there", counts->planned, true},
	    {"accepted as changed there", counts->accepted, true},
	    {"left", counts->left, true},
	    {"unchanged", counts->unchanged, true},
	};

	bool begun = false;
	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		if (WORDS[i].count > 0 && (!pulling || WORDS[i].pulled)) {
			text_add_format(out, "%s%zu %s", begun ? ", " : "",
			    WORDS[i].count, WORDS[i].word);
			begun = true;
		}
	}
	text_add(out, begun ? ".\n" : "nothing there, and nothing to be there.\n");
}

/* What was done, in one word; "" for what is not worth a line. */
static const char *
done_word(enum caldav_act act)
{
	switch (act) {
	case CALDAV_CREATE:
		return "created";
	case CALDAV_CHANGE:
		return "changed";
	case CALDAV_REMOVE:
		return "removed";
	case CALDAV_NOTHING:
	case CALDAV_NOTE:
	case CALDAV_FORGET:
	case CALDAV_PLAN:
	case CALDAV_ACCEPT:
	case CALDAV_LEAVE:
		return "";
	}
	return "";
}

static void
tell_done(const struct push_words *words, struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {{.heading = ""},
	    {.heading = "", .type = CELL_DAY}, {.heading = "", .flexible = true}};
	struct reply_table *table = REPLY_TABLE(reply, COLUMNS, LOOK_FLUSH | LOOK_BARE);
	for (size_t i = 0; i < words->report->count && !words->pulling; i++) {
		const struct caldav_row *row = &words->report->rows[i];
		const char *word = done_word(row->act);
		if (word[0] != '\0') {
			reply_cell(table, HUE_STRONG, word);
			reply_day(table, HUE_NONE,
			    row->our_day != DAY_NONE ? row->our_day : row->their_day, "");
			reply_cell(table, HUE_NONE, row->summary);
		}
	}
}

/* Adds that a reminder was ticked as done on the server, and the command that records
 * it. */
static void
add_tick(const struct caldav_row *row, struct arena *arena, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	char iso[DAY_ISO_SIZE];
	struct todo todo = {0};
	bool is_todo = false;
	todo_of_key(row->key, arena, &todo, &is_todo);
	text_add(out, "ticked there as done");
	if (row->done_on != DAY_NONE) {
		text_add_format(out, " on %s", day_words(row->done_on, day));
	}
	if (is_todo) {
		text_add_format(out, "; enter it: becket record %s %s --on %s",
		    task_word(todo.task), todo.tag,
		    row->done_on == DAY_NONE ? "DATE" : day_iso(row->done_on, iso));
		text_add(out, todo.task == TASK_RENEW ? RENEWAL_REST : "");
	}
}

/* Adds how the reminder on the server now differs. */
static void
add_theirs(const struct caldav_row *row, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	bool cancelled = strcmp(row->their_status, "CANCELLED") == 0;
	text_add(out, cancelled ? "cancelled there" : "changed there");
	if (row->their_day == DAY_NONE) {
		text_add(out, ", with no day that can be read");
	} else if (row->their_day != row->our_day) {
		text_add_format(out, ", on %s", day_words(row->their_day, day));
	}
	if (row->their_summary[0] != '\0' &&
	    strcmp(row->their_summary, row->summary) != 0) {
		text_add_format(out, ", \"%s\"", row->their_summary);
	}
}

static void
add_finding(const struct caldav_row *row, struct arena *arena, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	if (strcmp(row->their_status, "COMPLETED") == 0) {
		add_tick(row, arena, out);
		return;
	}
	switch (row->finding) {
	case CALDAV_FOUND_NOTHING:
		break;
	case CALDAV_FOUND_MOVED:
		text_add_format(out, "moved there to %s%s",
		    day_words(row->their_day, day),
		    row->fixed ? "; it is the last day that serves, and can't be put off"
			       : "");
		break;
	case CALDAV_FOUND_EDITED:
		add_theirs(row, out);
		break;
	case CALDAV_FOUND_REMOVED:
		text_add(out, "removed there");
		break;
	case CALDAV_FOUND_STRANGE:
		add_theirs(row, out);
		text_add(out, "; this book did not put it there so, or has forgotten it");
		break;
	case CALDAV_FOUND_TWICE:
		text_add(out, "stands there twice; remove one in your calendar app");
		break;
	}
	if (row->outdated) {
		text_add(out, "; it no longer applies");
	}
	if (row->why[0] != '\0') {
		text_add_format(out, "%s%s", out->length > 0 ? "; " : "", row->why);
	}
}

/* Adds what was done about it, after what was found. */
static void
add_outcome(const struct caldav_row *row, bool trying, struct text *out)
{
	if (row->act == CALDAV_PLAN) {
		text_add(out, trying ? "; it would be the planned day"
				     : "; it is the planned day now");
	} else if (row->act == CALDAV_ACCEPT) {
		text_add(out, trying ? "; it would be accepted" : "; accepted");
	} else if (row->act == CALDAV_LEAVE && row->both) {
		text_add_format(out,
		    ", and to another day here since both agreed; left until you say which "
		    "holds: --keep theirs=%.8s, or with push --keep ours=%.8s",
		    row->uid, row->uid);
	} else if (row->act == CALDAV_LEAVE) {
		text_add(out, "; left as it is");
	}
}

static bool
is_spoken_of(const struct caldav_row *row)
{
	return row->act == CALDAV_PLAN || row->act == CALDAV_ACCEPT ||
	       row->act == CALDAV_LEAVE;
}

/* One paragraph for each reminder that a person changed or the server refused. */
static void
tell_found(const struct push_words *words, struct reply *reply)
{
	bool begun = false;
	for (size_t i = 0; i < words->report->count; i++) {
		const struct caldav_row *row = &words->report->rows[i];
		SCOPED_TEXT line = {0};
		SCOPED_TEXT found = {0};
		char day[DAY_WORDS_SIZE];
		if (!is_spoken_of(row)) {
			continue;
		}
		add_finding(row, words->arena, &found);
		text_add_format(&line, "%s%s%s: %s", day_words(row->our_day, day),
		    row->our_day == DAY_NONE ? "" : "  ", row->summary,
		    text_string(&found));
		add_outcome(row, words->trying, &line);
		reply_words(reply, VOICE_PLAIN, true, 0, begun ? "" : "Found there:");
		reply_say(reply, false, &line);
		begun = true;
	}
}

static const char WHAT_TO_DO[] =
    "To let what is there be, add --keep theirs; to put it back as becket has it, "
    "--keep ours. A reminder that was removed or ticked in a calendar records nothing: "
    "what was done has to be entered with \"becket record\".";

void
push_report(const struct push_words *words, struct text *out)
{
	struct pushed_counts counts = count_rows(words->report);
	struct reply reply = {.arena = words->arena};
	SCOPED_TEXT head = {0};
	text_add_format(&head, "%s%s: ", words->name,
	    words->trying ? " (dry run, nothing is done)" : "");
	add_counts(&counts, words->pulling, &head);
	reply_say(&reply, false, &head);
	tell_done(words, &reply);
	tell_found(words, &reply);
	reply_words(&reply, VOICE_PLAIN, true, 0, counts.left > 0 ? WHAT_TO_DO : "");
	reply_text(&reply, words->colour, out);
}

void
push_answer(const struct push_words *words, struct text *out)
{
	const struct caldav_report *report = words->report;
	struct pushed_row *rows =
	    arena_alloc(words->arena, (report->count + 1) * sizeof *rows);
	for (size_t i = 0; i < report->count; i++) {
		const struct caldav_row *row = &report->rows[i];
		rows[i] = (struct pushed_row){
		    .uid = row->uid,
		    .summary = row->summary,
		    .act = act_word(row->act),
		    .found = finding_word(row->finding),
		    .outdated = row->outdated,
		    .both = row->both,
		    .day = row->our_day,
		    .their_day = row->their_day,
		    .done_on = row->done_on,
		    .their_summary = row->their_summary,
		    .their_status = row->their_status,
		    .why = row->why,
		};
	}
	const struct pushed_answer answer = {
	    .calendar = words->name,
	    .url = words->url,
	    .mode = words->pulling ? "pull" : "push",
	    .trying = words->trying,
	    .counts = count_rows(report),
	    .rows = rows,
	    .count = report->count,
	};
	answer_push(&answer, out);
}
