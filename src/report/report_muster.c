#include "report/parts_inside.h"
#include "report/report.h"
#include "report/tags.h"
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
add_answer_cell(const struct muster *muster, struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	text_add(&words, answer_words(muster));
	if (!muster->ok && muster->good_through != DAY_NONE) {
		text_add(&words, " from ");
		add_day(muster->first_short, "", &words);
	}
	reply_cell(table, muster->ok ? HUE_GOOD : HUE_BAD, text_string(&words));
}

/* A row a boat. */
static void
add_boats(const struct muster_view *view, struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Boat", .flexible = true}, {.heading = "Season"},
	    {.heading = "Answer", .type = CELL_STATE},
	    {.heading = "Good through", .type = CELL_DAY},
	    {.heading = "First to lapse", .most = 22}};
	struct reply_table *table = REPLY_TABLE(reply, COLUMNS, LOOK_FLUSH | LOOK_APART);
	for (size_t i = 0; i < view->count; i++) {
		const struct muster *muster = &view->musters[i];
		SCOPED_TEXT season = {0};
		SCOPED_TEXT lapse = {0};
		if (view->question->season) {
			add_season(muster->days, &season);
		} else {
			add_first_lapse(view->inventory, muster, &lapse);
		}
		reply_cell(
		    table, HUE_STRONG, view->inventory->vessels[muster->vessel].name);
		reply_cell(table, HUE_NONE, text_string(&season));
		add_answer_cell(muster, table);
		reply_day(table, HUE_NONE, muster->good_through,
		    muster->good_through == DAY_NEVER ? "nothing lapses" : "-");
		reply_cell(table, HUE_NONE, text_string(&lapse));
	}
	if (view->count == 0) {
		reply_words(reply, VOICE_PLAIN, true, 0, "No boats to muster.");
	}
}

/* Adds "; lapsed: FL-1 to FL-3"; nothing for an empty list. */
static void
add_tags(const char *what, const struct inventory *inventory,
    const struct muster_items *items, struct text *words)
{
	struct tag_list list = {.out = words};
	if (items->count == 0) {
		return;
	}
	text_add_format(words, "; %s: ", what);
	for (size_t i = 0; i < items->count; i++) {
		tag_list_add(&list, inventory->items[items->items[i]].tag);
	}
	tag_list_end(&list);
}

/* Adds "; not counted until its rating is known: EX-1" for each thing that is asked. */
static void
add_untold_pieces(
    const struct inventory *inventory, const struct muster_line *line, struct text *words)
{
	static const char *const ASKS[] = {"rating", "capacity", "place"};
	for (size_t i = 0; i < sizeof ASKS / sizeof ASKS[0]; i++) {
		struct tag_list list = {.out = words};
		bool any = false;
		for (size_t j = 0; j < line->untold_count; j++) {
			if (strcmp(line->untold[j].asks, ASKS[i]) != 0) {
				continue;
			}
			if (!any) {
				text_add_format(words,
				    "; not counted until the %s is entered (becket amend "
				    "TAG --%s): ",
				    ASKS[i], ASKS[i]);
			}
			any = true;
			tag_list_add(&list, inventory->items[line->untold[j].item].tag);
		}
		tag_list_end(&list);
	}
}

static void
add_shortage(const struct inventory *inventory, const struct muster_line *line,
    struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "short of %d: %s (%s); needs %d, has %d", line->missing,
	    line->line->title, line->line->id, line->need, line->have);
	if (line->line->any_of[0] != '\0') {
		text_add_format(
		    &words, "; or another way to meet %s", line->line->any_of);
	}
	add_tags("counted", inventory, &line->counted, &words);
	add_tags("lapsed", inventory, &line->lapsed, &words);
	add_tags("date not known", inventory, &line->unknown, &words);
	add_untold_pieces(inventory, line, &words);
	text_add_byte(&words, '.');
	reply_remark(reply, VOICE_CARE, 2, text_string(&words));
}

static void
add_untold(const struct muster_line *line, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	/* The year she was built is an option of the vessel, not a column of an item. */
	text_add_format(&words, "not told: %s; enter the vessel's %s.", line->line->title,
	    line->asks[0] == 'b' ? "year built" : line->asks);
	reply_remark(reply, VOICE_CARE, 2, text_string(&words));
}

static void
add_remarks(const struct inventory *inventory, const struct muster_line *line,
    struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (line->remarks.count == 0 && line->parts.count == 0) {
		return;
	}
	text_add_format(&words, "remark: %s", line->line->title);
	add_tags("counted though lapsed by common practice", inventory, &line->remarks,
	    &words);
	add_tags("counted though a part has lapsed", inventory, &line->parts, &words);
	text_add_byte(&words, '.');
	reply_remark(reply, VOICE_PLAIN, 2, text_string(&words));
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

/* The boats there is nothing to count against: those without carriage lines, or those for
 * which none of theirs holds. */
static void
add_nothings(const struct muster_view *view, bool has_lines, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < view->count; i++) {
		const struct muster *muster = &view->musters[i];
		if (muster->line_count == 0 && muster->has_lines == has_lines) {
			text_add_format(&words, "%s%s", words.length == 0 ? "" : ", ",
			    view->inventory->vessels[muster->vessel].name);
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

void
muster_add_lines(const struct inventory *inventory, const struct muster *muster,
    bool remarks, struct reply *reply)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		const struct muster_line *line = &muster->lines[i];
		if (line->missing > 0) {
			add_shortage(inventory, line, reply);
		} else if (line->asks[0] != '\0') {
			add_untold(line, reply);
		}
		if (remarks) {
			add_remarks(inventory, line, reply);
		}
	}
	muster_add_later(muster, reply);
}

static bool
has_remarks(const struct muster *muster)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (muster->lines[i].remarks.count > 0 ||
		    muster->lines[i].parts.count > 0) {
			return true;
		}
	}
	return false;
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
	return !muster->ok || (remarks && has_remarks(muster));
}

static void
add_vessel(const struct kinds *kinds, const struct muster_view *view,
    const struct muster *muster, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (muster->line_count == 0 || !says_something(muster, view->remarks)) {
		return;
	}
	text_add_format(&words, "%s, on ", view->inventory->vessels[muster->vessel].name);
	add_day(muster->on, "", &words);
	text_add_byte(&words, ':');
	reply_words(reply, VOICE_PLAIN, true, 2, text_string(&words));
	muster_add_lines(view->inventory, muster, view->remarks, reply);
	muster_add_spares(kinds, view->inventory, muster, reply);
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

/* Which boats of several are not all right and what is short, before all else. */
static void
add_not_to_go(const struct muster_view *view, struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Boat"}, {.heading = "Short of", .flexible = true}};
	SCOPED_TEXT words = {0};
	size_t boats = 0;
	for (size_t i = 0; i < view->count; i++) {
		boats += view->musters[i].ok ? 0 : 1;
	}
	if (view->count <= 1 || boats == 0) {
		return;
	}
	text_add_format(
	    &words, "Not to go as they are, %zu of %zu boats:", boats, view->count);
	reply_words(reply, VOICE_CARE, true, 0, text_string(&words));
	struct reply_table *table = REPLY_TABLE(reply, COLUMNS, LOOK_BARE);
	for (size_t i = 0; i < view->count; i++) {
		const struct muster *muster = &view->musters[i];
		if (!muster->ok) {
			text_reset(&words);
			add_what_is_short(muster, &words);
			reply_cell(table, HUE_STRONG,
			    view->inventory->vessels[muster->vessel].name);
			reply_cell(table, HUE_BAD, text_string(&words));
		}
	}
}

/* On how many boats a remark was left out. */
static void
add_remarked(const struct muster_view *view, struct reply *reply)
{
	size_t boats = 0;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < view->count; i++) {
		boats += has_remarks(&view->musters[i]) ? 1 : 0;
	}
	if (boats == 0 || view->remarks) {
		return;
	}
	text_add_format(&words,
	    "Counted though common practice or a part has lapsed: on %zu %s; --remarks "
	    "names them.",
	    boats, boats == 1 ? "boat" : "boats");
	reply_words(reply, VOICE_PLAIN, true, 2, text_string(&words));
}

static void
add_text(const struct kinds *kinds, const struct muster_view *view, struct reply *reply)
{
	SCOPED_TEXT question = {0};
	add_question(view->question, &question);
	reply_heading(reply, 2, text_string(&question));
	add_not_to_go(view, reply);
	add_boats(view, reply);
	add_nothings(view, false, reply);
	add_nothings(view, true, reply);
	for (size_t i = 0; i < view->count; i++) {
		add_vessel(kinds, view, &view->musters[i], reply);
	}
	add_remarked(view, reply);
	muster_add_subjects(view->musters, view->count, reply);
	muster_add_silences(view->inventory, view->musters, view->count, reply);
	if (view->count == 1) {
		add_lapses(kinds, view->inventory, &view->musters[0], reply);
	}
	reply_caution(reply);
}

void
report_muster(const struct report_style *style, const struct kinds *kinds,
    const struct muster_view *view, struct text *out)
{
	SCOPED_REPLY(reply);
	if (style->csv) {
		muster_add_rows(view, &reply);
	} else {
		add_text(kinds, view, &reply);
	}
	reply_write(&reply, style, out);
}
