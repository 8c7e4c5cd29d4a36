#include "report/report.h"
#include "report/tags.h"
#include "report/words.h"

static const struct table_column MUSTER_COLUMNS[] = {
    {"Boat", 0, ALIGN_LEFT, true},
    {"Answer", 0, ALIGN_LEFT, false},
    {"Good through", 0, ALIGN_LEFT, false},
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

static void
add_boat(const struct muster *muster, const char *name, struct table *table,
    struct text *words)
{
	text_reset(words);
	text_add(words, answer_words(muster));
	if (!muster->ok && muster->good_through != DAY_NONE) {
		text_add(words, " from ");
		add_day(muster->first_short, "", words);
	}
	table_add(table, HUE_STRONG, name);
	table_add(table, muster->ok ? HUE_GOOD : HUE_BAD, text_string(words));
	text_reset(words);
	add_day(muster->good_through,
	    muster->good_through == DAY_NEVER ? "nothing lapses" : "-", words);
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

static void
add_shortage(const struct inventory *inventory, const struct muster_line *line,
    struct text *out, struct text *words)
{
	text_reset(words);
	text_add_format(words, "short of %d: %s; needs %d, has %d", line->missing,
	    line->line->title, line->need, line->have);
	if (line->line->any_of[0] != '\0') {
		text_add_format(words, "; or another way to meet %s", line->line->any_of);
	}
	add_tags("counted", inventory, &line->counted, words);
	add_tags("lapsed", inventory, &line->lapsed, words);
	add_tags("date not known", inventory, &line->unknown, words);
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
	if (line->remarks.count == 0) {
		return;
	}
	text_reset(words);
	text_add_format(words, "remark: %s", line->line->title);
	add_tags(
	    "counted though lapsed by common practice", inventory, &line->remarks, words);
	text_add_byte(words, '.');
	paragraph(text_string(words), 2, 4, out);
}

static void
add_nothing(
    const struct muster *muster, const char *name, struct text *out, struct text *words)
{
	text_reset(words);
	text_add_format(words,
	    muster->has_lines ? "%s: none of the carriage lines in her sheets holds for "
				"her: nothing to count against."
			      : "%s: no carriage lines in her sheets: nothing to count "
				"against.",
	    name);
	text_add_byte(out, '\n');
	paragraph(text_string(words), 0, 2, out);
}

/* True when there is a word to say under her name. */
static bool
says_something(const struct muster *muster)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (muster->lines[i].remarks.count > 0) {
			return true;
		}
	}
	return !muster->ok;
}

static void
add_vessel(const struct inventory *inventory, const struct muster *muster,
    struct text *out, struct text *words)
{
	const char *name = inventory->vessels[muster->vessel].name;
	if (muster->line_count == 0) {
		add_nothing(muster, name, out, words);
		return;
	}
	if (!says_something(muster)) {
		return;
	}
	text_reset(words);
	text_add_format(words, "%s, on ", name);
	add_day(muster->on, "", words);
	text_add_byte(words, ':');
	text_add_byte(out, '\n');
	paragraph(text_string(words), 0, 2, out);
	for (size_t i = 0; i < muster->line_count; i++) {
		const struct muster_line *line = &muster->lines[i];
		if (line->missing > 0) {
			add_shortage(inventory, line, out, words);
		} else if (line->asks[0] != '\0') {
			add_untold(line, out, words);
		}
		add_remarks(inventory, line, out, words);
	}
}

bool
report_muster(const struct report_style *style, const struct inventory *inventory,
    struct span days, const struct muster *musters, size_t count, struct text *out,
    struct fault *fault)
{
	SCOPED_TEXT words = {0};
	SCOPED_TABLE table;
	table_init(&table, MUSTER_COLUMNS,
	    sizeof MUSTER_COLUMNS / sizeof MUSTER_COLUMNS[0], 0, style->colour);
	text_add(&words, "What is aboard against what must be carried, ");
	text_add(&words, days.first == days.last ? "on " : "from ");
	add_day(days.first, "", &words);
	if (days.first != days.last) {
		text_add(&words, " to ");
		add_day(days.last, "", &words);
	}
	text_add_byte(&words, '.');
	paragraph(text_string(&words), 0, 2, out);
	text_add_byte(out, '\n');
	for (size_t i = 0; i < count; i++) {
		add_boat(&musters[i], inventory->vessels[musters[i].vessel].name, &table,
		    &words);
	}
	if (count == 0) {
		text_add(out, "No boats to muster.\n");
	}
	if (!table_write(&table, out, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		add_vessel(inventory, &musters[i], out, &words);
	}
	add_caution(out);
	return text_check(&words, fault) && text_check(out, fault);
}
