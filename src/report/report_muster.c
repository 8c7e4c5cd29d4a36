#include "report/muster_parts.h"
#include "report/report.h"
#include "report/tags.h"
#include "report/words.h"

#include <string.h>

static const struct table_column MUSTER_COLUMNS[] = {
    {"Boat", 0, ALIGN_LEFT, true},
    {"Season", 0, ALIGN_LEFT, false},
    {"Answer", 0, ALIGN_LEFT, false},
    {"Good through", 0, ALIGN_LEFT, false},
    {"First to lapse", 22, ALIGN_LEFT, false},
};

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

static void
add_boat(const struct inventory *inventory, const struct muster_question *question,
    const struct muster *muster, struct table *table, struct text *words)
{
	const char *name = inventory->vessels[muster->vessel].name;
	table_add(table, HUE_STRONG, name);
	text_reset(words);
	if (question->season) {
		add_season(muster->days, words);
	}
	table_add(table, HUE_NONE, text_string(words));
	text_reset(words);
	text_add(words, answer_words(muster));
	if (!muster->ok && muster->good_through != DAY_NONE) {
		text_add(words, " from ");
		add_day(muster->first_short, "", words);
	}
	table_add(table, muster->ok ? HUE_GOOD : HUE_BAD, text_string(words));
	text_reset(words);
	add_day(muster->good_through,
	    muster->good_through == DAY_NEVER ? "nothing lapses" : "-", words);
	table_add(table, HUE_NONE, text_string(words));
	text_reset(words);
	if (!question->season) {
		add_first_lapse(inventory, muster, words);
	}
	table_add(table, HUE_NONE, text_string(words));
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
    struct text *out, struct text *words)
{
	text_reset(words);
	text_add_format(words, "short of %d: %s (%s); needs %d, has %d", line->missing,
	    line->line->title, line->line->id, line->need, line->have);
	if (line->line->any_of[0] != '\0') {
		text_add_format(words, "; or another way to meet %s", line->line->any_of);
	}
	add_tags("counted", inventory, &line->counted, words);
	add_tags("lapsed", inventory, &line->lapsed, words);
	add_tags("date not known", inventory, &line->unknown, words);
	add_untold_pieces(inventory, line, words);
	text_add_byte(words, '.');
	paragraph(text_string(words), 2, 4, out);
}

static void
add_untold(const struct muster_line *line, struct text *out, struct text *words)
{
	text_reset(words);
	text_add_format(words, "not told: %s; ", line->line->title);
	/* The year she was built is an option of the vessel, not a column of an item. */
	text_add_format(words, "enter the vessel's %s.",
	    line->asks[0] == 'b' ? "year built" : line->asks);
	paragraph(text_string(words), 2, 4, out);
}

static void
add_remarks(const struct inventory *inventory, const struct muster_line *line,
    struct text *out, struct text *words)
{
	if (line->remarks.count == 0 && line->parts.count == 0) {
		return;
	}
	text_reset(words);
	text_add_format(words, "remark: %s", line->line->title);
	add_tags(
	    "counted though lapsed by common practice", inventory, &line->remarks, words);
	add_tags("counted though a part has lapsed", inventory, &line->parts, words);
	text_add_byte(words, '.');
	paragraph(text_string(words), 2, 4, out);
}

static const struct table_column LAPSE_COLUMNS[] = {
    {"Next to lapse", 16, ALIGN_LEFT, false},
    {"What", 0, ALIGN_LEFT, true},
    {"Last day", 0, ALIGN_LEFT, false},
    {"Then", 0, ALIGN_LEFT, false},
};

static void
write_lapses(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct muster *muster, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, LAPSE_COLUMNS, sizeof LAPSE_COLUMNS / sizeof LAPSE_COLUMNS[0],
	    0, style->colour);
	for (size_t i = 0; i < muster->lapse_count; i++) {
		const struct muster_lapse *lapse = &muster->lapses[i];
		table_add(&table, HUE_STRONG, inventory->items[lapse->item].tag);
		add_item_cell(kinds, inventory, lapse->item, "", &table);
		text_reset(&words);
		add_day(lapse->last, "", &words);
		table_add(&table, HUE_NONE, text_string(&words));
		table_add(&table, lapse->makes_short ? HUE_BAD : HUE_NONE,
		    lapse->makes_short ? "short" : "enough without");
	}
	if (muster->lapse_count > 0) {
		text_add_byte(out, '\n');
	}
	table_write(&table, out);
}

/* The boats there is nothing to count against: those without carriage lines, or those for
 * which none of theirs holds. */
static void
add_nothings(const struct inventory *inventory, const struct muster *musters,
    size_t count, bool has_lines, struct text *out, struct text *words)
{
	text_reset(words);
	for (size_t i = 0; i < count; i++) {
		const struct muster *muster = &musters[i];
		if (muster->line_count == 0 && muster->has_lines == has_lines) {
			text_add_format(words, "%s%s", words->length == 0 ? "" : ", ",
			    inventory->vessels[muster->vessel].name);
		}
	}
	if (words->length == 0) {
		return;
	}
	text_add(words, has_lines ? ": none of the carriage lines in her sheets holds: "
				    "nothing to count against."
				  : ": no carriage lines in her sheets: nothing to count "
				    "against.");
	text_add_byte(out, '\n');
	paragraph(text_string(words), 0, 2, out);
}

void
muster_add_subjects(
    const struct muster *musters, size_t count, struct text *out, struct text *words)
{
	struct arena arena = {0};
	size_t most = 0;
	for (size_t i = 0; i < count; i++) {
		most += musters[i].subject_count;
	}
	const struct not_stated **told =
	    arena_alloc(&arena, (most + 1) * sizeof(const struct not_stated *));
	size_t told_count = 0;
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < musters[i].subject_count; j++) {
			const struct not_stated *subject = musters[i].subjects[j];
			size_t at = 0;
			while (at < told_count && told[at] != subject) {
				at++;
			}
			if (at < told_count) {
				continue;
			}
			told[told_count++] = subject;
			text_reset(words);
			text_add_format(words, "Not stated in the sheet %s: %s; ask %s.",
			    subject->sheet, subject->subject, subject->ask);
			text_add(out, told_count == 1 ? "\n" : "");
			paragraph(text_string(words), 0, 2, out);
		}
	}
	arena_clear(&arena);
}

void
muster_add_lines(const struct inventory *inventory, const struct muster *muster,
    bool remarks, struct text *out, struct text *words)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		const struct muster_line *line = &muster->lines[i];
		if (line->missing > 0) {
			add_shortage(inventory, line, out, words);
		} else if (line->asks[0] != '\0') {
			add_untold(line, out, words);
		}
		if (remarks) {
			add_remarks(inventory, line, out, words);
		}
	}
	muster_add_later(muster, out, words);
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
add_vessel(const struct kinds *kinds, const struct inventory *inventory,
    const struct muster *muster, bool remarks, struct text *out, struct text *words)
{
	const char *name = inventory->vessels[muster->vessel].name;
	if (muster->line_count == 0 || !says_something(muster, remarks)) {
		return;
	}
	text_reset(words);
	text_add_format(words, "%s, on ", name);
	add_day(muster->on, "", words);
	text_add_byte(words, ':');
	text_add_byte(out, '\n');
	paragraph(text_string(words), 0, 2, out);
	muster_add_lines(inventory, muster, remarks, out, words);
	muster_add_spares(kinds, inventory, muster, out, words);
}

/* "..., on 25 Nov 2026." */
static void
add_question(const struct muster_question *question, struct text *out)
{
	struct span days = question->days;
	text_add(out, "What is aboard against what must be carried, ");
	if (question->season) {
		text_add(out, "each boat over her season.");
		return;
	}
	text_add(out, days.first == days.last ? "on " : "from ");
	add_day(days.first, "", out);
	if (days.first != days.last) {
		text_add(out, " to ");
		add_day(days.last, "", out);
	}
	text_add_byte(out, '.');
}

static const struct table_column SHORT_COLUMNS[] = {
    {"", 0, ALIGN_LEFT, false},
    {"", 0, ALIGN_LEFT, true},
};

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
write_not_to_go(const struct report_style *style, const struct inventory *inventory,
    const struct muster *musters, size_t count, struct text *out, struct text *words)
{
	SCOPED_TABLE table = {0};
	table_init(&table, SHORT_COLUMNS, sizeof SHORT_COLUMNS / sizeof SHORT_COLUMNS[0],
	    2, style->colour);
	for (size_t i = 0; i < count; i++) {
		if (!musters[i].ok) {
			table_add(&table, HUE_STRONG,
			    inventory->vessels[musters[i].vessel].name);
			text_reset(words);
			add_what_is_short(&musters[i], words);
			table_add(&table, HUE_BAD, text_string(words));
		}
	}
	if (count > 1 && table_rows(&table) > 0) {
		text_add_format(out, "Not to go as they are, %zu of %zu boats:\n",
		    table_rows(&table), count);
		table_write(&table, out);
		text_add_byte(out, '\n');
	}
}

/* On how many boats a remark was left out. */
static void
add_remarked(const struct muster *musters, size_t count, struct text *out)
{
	size_t boats = 0;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < count; i++) {
		boats += has_remarks(&musters[i]) ? 1 : 0;
	}
	if (boats == 0) {
		return;
	}
	text_add_format(&words,
	    "Counted though common practice or a part has lapsed: on %zu %s; --remarks "
	    "names them.",
	    boats, boats == 1 ? "boat" : "boats");
	text_add_byte(out, '\n');
	paragraph(text_string(&words), 0, 2, out);
}

void
report_muster(const struct report_style *style, const struct kinds *kinds,
    const struct muster_view *view, struct text *out)
{
	const struct inventory *inventory = view->inventory;
	const struct muster *musters = view->musters;
	size_t count = view->count;
	SCOPED_TEXT words = {0};
	SCOPED_TABLE table = {0};
	table_init(&table, MUSTER_COLUMNS,
	    sizeof MUSTER_COLUMNS / sizeof MUSTER_COLUMNS[0], 0, style->colour);
	add_question(view->question, &words);
	paragraph(text_string(&words), 0, 2, out);
	text_add_byte(out, '\n');
	write_not_to_go(style, inventory, musters, count, out, &words);
	for (size_t i = 0; i < count; i++) {
		add_boat(inventory, view->question, &musters[i], &table, &words);
	}
	if (count == 0) {
		text_add(out, "No boats to muster.\n");
	}
	table_write(&table, out);
	add_nothings(inventory, musters, count, false, out, &words);
	add_nothings(inventory, musters, count, true, out, &words);
	for (size_t i = 0; i < count; i++) {
		add_vessel(kinds, inventory, &musters[i], view->remarks, out, &words);
	}
	if (!view->remarks) {
		add_remarked(musters, count, out);
	}
	muster_add_subjects(musters, count, out, &words);
	muster_add_silences(inventory, musters, count, out, &words);
	if (count == 1) {
		write_lapses(style, kinds, inventory, &musters[0], out);
	}
	add_caution(out);
}
