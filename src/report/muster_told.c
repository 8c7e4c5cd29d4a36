/* What a muster tells of a boat, kept until all boats are there. */
#include "report/parts_inside.h"
#include "report/words.h"

#include <string.h>

static bool
has_shortage(const struct muster *muster)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (muster->lines[i].missing > 0) {
			return true;
		}
	}
	return false;
}

static const char *
answer_words(const struct muster *muster)
{
	if (muster->line_count == 0) {
		return "not counted";
	}
	if (muster->ok) {
		return "nothing short";
	}
	return has_shortage(muster) ? "short" : "not told";
}

/* "21 Mar to 31 Oct 2027", with both years where they differ. */
static void
add_season(struct span days, struct text *out)
{
	bool one_year = day_year_end(days.first) == day_year_end(days.last);
	add_day_of(days.first, !one_year, out);
	text_add(out, " to ");
	add_day_of(days.last, true, out);
}

static void
add_first_lapse(
    const struct inventory *inventory, const struct muster *muster, struct text *out)
{
	if (muster->lapse_count > 0) {
		add_day_of(muster->lapses[0].last, true, out);
		text_add_format(out, " %s", inventory->items[muster->lapses[0].item].tag);
	}
}

/* "short from 1 May 2027" */
static void
add_answer(const struct muster *muster, struct text *words)
{
	text_add(words, answer_words(muster));
	if (!muster->ok && muster->good_through != DAY_NONE) {
		text_add(words, " from ");
		add_day(muster->first_short, "", words);
	}
}

/* The most lines of carriage named in a row. */
enum { LINES_NAMED = 2 };

/* "from 1 May 2027: short of a lifejacket for each person (has 8 of 10); and 3 more". */
static void
add_what_is_short(const struct muster *muster, struct text *words)
{
	size_t named = 0;
	bool any = false;
	if (muster->line_count == 0) {
		text_add(words, "nothing to count against");
		return;
	}
	if (muster->first_short != DAY_NONE && muster->first_short > muster->days.first) {
		text_add(words, "from ");
		add_day(muster->first_short, "", words);
		text_add(words, ": ");
	}
	for (size_t i = 0; i < muster->line_count; i++) {
		const struct muster_line *line = &muster->lines[i];
		bool short_of = line->missing > 0;
		if ((!short_of && line->asks[0] == '\0') || named++ >= LINES_NAMED) {
			continue;
		}
		text_add(words, named > 1 ? "; " : "");
		if (short_of) {
			text_add_format(words, "%s%s (has %d of %d)",
			    any ? "" : "short of ", line->line->title, line->have,
			    line->need);
			any = true;
		} else {
			text_add_format(words, "not told: %s", line->line->title);
		}
	}
	if (named > LINES_NAMED) {
		text_add_format(
		    words, "; and%c%zu%cmore", GLUE, named - LINES_NAMED, GLUE);
	}
}

/* True when there is a word to say under her name. */
static bool
says_something(const struct muster *muster, bool remarks)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (muster->lines[i].untold_count > 0) {
			return true;
		}
	}
	return !muster->ok || (remarks && muster_has_remarks(muster));
}

/* What there is to say under her name. */
static void
add_vessel(const struct muster_view *view, const struct muster *muster, bool remarks,
    struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (muster->line_count == 0 || !says_something(muster, remarks)) {
		return;
	}
	text_add_format(&words, "%s, on ", view->inventory->vessels[muster->vessel].name);
	add_day(muster->on, "", &words);
	text_add_byte(&words, ':');
	reply_words(reply, VOICE_PLAIN, true, 2, text_string(&words));
	muster_add_lines(view->inventory, muster, remarks, reply);
	muster_add_spares(view->kinds, view->inventory, muster, reply);
}

/* What of a single boat lapses next. */
static void
add_lapses(const struct kinds *kinds, const struct inventory *inventory,
    const struct muster *muster, struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Next to lapse", .type = CELL_TAG, .most = 16},
	    {.heading = "What", .flexible = true},
	    {.heading = "Last day", .type = CELL_DAY}, {.heading = "Then"}};
	struct reply_table *table = REPLY_TABLE(reply, COLUMNS, LOOK_FLUSH | LOOK_APART);
	for (size_t i = 0; i < muster->lapse_count; i++) {
		const struct muster_lapse *lapse = &muster->lapses[i];
		reply_cell(table, HUE_STRONG, inventory->items[lapse->item].tag);
		reply_item(table, kinds, inventory, lapse->item, "");
		reply_day(table, HUE_NONE, lapse->last, "");
		reply_cell(table, lapse->makes_short ? HUE_BAD : HUE_NONE,
		    lapse->makes_short ? "short"
		    : lapse->counted   ? "enough without"
				       : "not counted");
	}
}

/* Keeps what is said of her silences once, where the boat before is told the same. */
static void
keep_silent(struct muster_report *report, const struct muster *muster, struct muster *out)
{
	const struct muster *before =
	    report->count == 0 ? NULL : &report->items[report->count - 1].silent;
	struct arena *arena = &report->arena;
	out->silence_count = muster->silence_count;
	out->subject_count = muster->subject_count;
	if (before != NULL && muster_same_silences(before, muster)) {
		out->silences = before->silences;
	} else {
		out->silences =
		    ARENA_MANY(arena, struct muster_silence, muster->silence_count);
		for (size_t i = 0; i < muster->silence_count; i++) {
			const struct muster_silence *silence = &muster->silences[i];
			size_t size = silence->ask_count * sizeof *silence->ask;
			out->silences[i] = *silence;
			out->silences[i].ask = arena_alloc(arena, size + 1);
			memcpy(out->silences[i].ask, silence->ask, size);
		}
	}
	size_t size = muster->subject_count * sizeof(const struct not_stated *);
	if (before != NULL && before->subject_count == muster->subject_count &&
	    memcmp(before->subjects, muster->subjects, size) == 0) {
		out->subjects = before->subjects;
	} else {
		out->subjects = arena_alloc(arena, size + 1);
		memcpy(out->subjects, muster->subjects, size);
	}
}

static void
tell_boat(struct muster_report *report, const struct muster_view *view,
    const struct muster *muster)
{
	struct arena *arena = &report->arena;
	SCOPED_TEXT days = {0};
	SCOPED_TEXT answer = {0};
	SCOPED_TEXT short_of = {0};
	struct boat_told told = {
	    .place = view->places == NULL ? muster->vessel : view->places[muster->vessel],
	    .name = arena_string(arena, view->inventory->vessels[muster->vessel].name),
	    .good_through = muster->good_through,
	    .under = {.arena = arena},
	    .ok = muster->ok,
	    .has_lines = muster->has_lines,
	    .counted = muster->line_count > 0,
	    .remarked = muster_has_remarks(muster)};
	if (view->season) {
		add_season(muster->days, &days);
	} else {
		add_first_lapse(view->inventory, muster, &days);
	}
	add_answer(muster, &answer);
	if (!muster->ok) {
		add_what_is_short(muster, &short_of);
	}
	told.days = arena_string(arena, text_string(&days));
	told.answer = arena_string(arena, text_string(&answer));
	told.short_of = arena_string(arena, text_string(&short_of));
	add_vessel(view, muster, report->remarks, &told.under);
	keep_silent(report, muster, &told.silent);
	if (report->count == 0) {
		report->lapses = arena_alloc(arena, sizeof *report->lapses);
		report->lapses->arena = arena;
		add_lapses(view->kinds, view->inventory, muster, report->lapses);
	}
	ARRAY_ADD(report, told);
}

/* Keeps a boat's rows as CSV, without the row of column names. */
static void
keep_rows(struct muster_report *report, const struct muster_view *view,
    const struct muster *muster)
{
	SCOPED_REPLY(reply);
	SCOPED_TEXT rows = {0};
	struct reply_table *table = muster_table(&reply);
	reply_csv(&reply, &rows);
	size_t names = rows.length;
	text_reset(&rows);
	muster_add_rows(view->inventory, muster, table);
	reply_csv(&reply, &rows);
	size_t place =
	    view->places == NULL ? muster->vessel : view->places[muster->vessel];
	runs_add(
	    &report->rows, &(struct run_piece){(int64_t)place, text_string(&rows) + names,
			       rows.length - names, NULL});
}

void
report_muster_some(struct muster_report *report, const struct muster_view *view)
{
	for (size_t i = 0; i < view->count; i++) {
		if (report->style->csv) {
			keep_rows(report, view, &view->musters[i]);
		} else {
			tell_boat(report, view, &view->musters[i]);
		}
	}
	runs_end(&report->rows);
}
