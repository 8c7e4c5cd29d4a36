#include "base/numbers.h"
#include "report/parts_inside.h"
#include "report/words.h"

#include <stdlib.h>

/* A row a boat. */
static void
add_boats(const struct muster_report *report, const struct muster_question *question,
    struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Boat", .flexible = true}, {.heading = "Season"},
	    {.heading = "Answer", .type = CELL_STATE},
	    {.heading = "Good through", .type = CELL_DAY},
	    {.heading = "First to lapse", .most = 22}};
	struct reply_table *table = REPLY_TABLE(reply, COLUMNS, LOOK_FLUSH | LOOK_APART);
	for (size_t i = 0; i < report->count; i++) {
		const struct boat_told *told = &report->items[i];
		reply_cell(table, HUE_STRONG, told->name);
		reply_cell(table, HUE_NONE, question->season ? told->days : "");
		reply_cell(table, told->ok ? HUE_GOOD : HUE_BAD, told->answer);
		reply_day(table, HUE_NONE, told->good_through,
		    told->good_through == DAY_NEVER ? "nothing lapses" : "-");
		reply_cell(table, HUE_NONE, question->season ? "" : told->days);
	}
	if (report->count == 0) {
		reply_words(reply, VOICE_PLAIN, true, 0, "No boats to muster.");
	}
}

/* The boats there is nothing to count against: those without carriage lines, or those for
 * which none of theirs holds. */
static void
add_nothings(const struct muster_report *report, bool has_lines, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < report->count; i++) {
		const struct boat_told *told = &report->items[i];
		if (!told->counted && told->has_lines == has_lines) {
			text_add_format(
			    &words, "%s%s", words.length == 0 ? "" : ", ", told->name);
		}
	}
	if (words.length == 0) {
		return;
	}
	text_add(&words, has_lines
			     ? ": none of the carriage lines in her sheets holds: "
			       "nothing to count against."
			     : ": no carriage lines in her sheets: nothing to count "
			       "against.");
	reply_words(reply, VOICE_CARE, true, 2, text_string(&words));
}

/* "..., on 25 Nov 2026" */
static void
add_question(const struct muster_question *question, struct text *out)
{
	struct span days = question->days;
	text_add(out, "What is aboard against what must be carried, ");
	if (question->season) {
		text_add(out, "each boat over her season");
		return;
	}
	text_add(out, days.first == days.last ? "on " : "from ");
	add_day(days.first, "", out);
	if (days.first != days.last) {
		text_add(out, " to ");
		add_day(days.last, "", out);
	}
}

/* Which boats of several are not all right and what is short, before all else. */
static void
add_not_to_go(const struct muster_report *report, struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Boat"}, {.heading = "Short of", .flexible = true}};
	SCOPED_TEXT words = {0};
	size_t boats = 0;
	for (size_t i = 0; i < report->count; i++) {
		boats += report->items[i].ok ? 0 : 1;
	}
	if (report->count <= 1 || boats == 0) {
		return;
	}
	text_add_format(
	    &words, "Not to go as they are, %zu of %zu boats:", boats, report->count);
	reply_words(reply, VOICE_CARE, true, 0, text_string(&words));
	struct reply_table *table = REPLY_TABLE(reply, COLUMNS, LOOK_BARE);
	for (size_t i = 0; i < report->count; i++) {
		const struct boat_told *told = &report->items[i];
		if (!told->ok) {
			reply_cell(table, HUE_STRONG, told->name);
			reply_cell(table, HUE_BAD, told->short_of);
		}
	}
}

/* On how many boats a remark was left out. */
static void
add_remarked(const struct muster_report *report, struct reply *reply)
{
	size_t boats = 0;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < report->count; i++) {
		boats += report->items[i].remarked ? 1 : 0;
	}
	if (boats == 0 || report->remarks) {
		return;
	}
	text_add_format(&words,
	    "Counted though common practice or a part has lapsed: on %zu %s; --remarks "
	    "names them.",
	    boats, boats == 1 ? "boat" : "boats");
	reply_words(reply, VOICE_PLAIN, true, 2, text_string(&words));
}

/* Subjects without a figure or a line. */
static void
add_silences(const struct muster_report *report, struct reply *reply)
{
	struct muster *silent = ARENA_MANY(reply->arena, struct muster, report->count);
	const char **names = ARENA_MANY(reply->arena, const char *, report->count);
	for (size_t i = 0; i < report->count; i++) {
		silent[i] = report->items[i].silent;
		silent[i].vessel = report->items[i].place;
		names[i] = report->items[i].name;
	}
	muster_add_subjects(silent, report->count, reply);
	muster_add_silences(names, silent, report->count, reply);
}

static void
add_text(const struct muster_report *report, const struct muster_question *question,
    struct reply *reply)
{
	SCOPED_TEXT asked = {0};
	add_question(question, &asked);
	reply_heading(reply, 2, text_string(&asked));
	add_not_to_go(report, reply);
	add_boats(report, question, reply);
	add_nothings(report, false, reply);
	add_nothings(report, true, reply);
	for (size_t i = 0; i < report->count; i++) {
		reply_join(reply, &report->items[i].under);
	}
	add_remarked(report, reply);
	add_silences(report, reply);
	if (report->count == 1) {
		reply_join(reply, report->lapses);
	}
	reply_caution(reply);
}

static int
compare_places(const void *left, const void *right)
{
	const struct boat_told *a = left;
	const struct boat_told *b = right;
	return ORDER(a->place, b->place);
}

static void
add_kept(const struct run_piece *piece, void *out)
{
	text_add_bytes(out, piece->bytes, piece->length);
	text_hand_on(out);
}

bool
report_muster_end(struct muster_report *report, const struct muster_question *question,
    struct text *out, struct fault *fault)
{
	SCOPED_REPLY(reply);
	if (report->style->csv) {
		(void)muster_table(&reply);
		reply_csv(&reply, out);
		return runs_merge(&report->rows, add_kept, out, fault);
	}
	ARRAY_SORT(report->items, report->count, compare_places);
	add_text(report, question, &reply);
	reply_write(&reply, report->style, out);
	return true;
}

void
muster_report_clear(struct muster_report *report)
{
	arena_clear(&report->arena);
	runs_clear(&report->rows);
	free(report->items);
	*report = (struct muster_report){0};
}
