#include "report/parts_inside.h"
#include "report/survey.h"
#include "report/tags.h"
#include "report/words.h"

#include <string.h>

/* Adds a fact to the words about the boat: "Base Holm Quay. "; nothing where there is
 * nothing to say. */
static void
add_fact(struct text *words, const char *name, const char *value)
{
	if (value[0] != '\0') {
		text_add_format(words, "%s: %s. ", name, value);
	}
}

static const struct vessel *
vessel_of(const struct survey_page *page)
{
	return &page->inventory->vessels[page->survey->muster->vessel];
}

static void
add_number(struct text *words, const char *name, int number)
{
	if (number > 0) {
		text_add_format(words, "%s: %d. ", name, number);
	}
}

static void
add_vessel(struct survey_page *page)
{
	const struct vessel *vessel = vessel_of(page);
	const struct survey *survey = page->survey;
	const struct period *period = vessel_period_on(vessel, survey->muster->on);
	struct text *words = page->words;
	text_reset(words);
	add_fact(words, "Base", vessel->base);
	add_fact(words, "Use", use_word(period->use));
	add_fact(words, "Area", period->area);
	add_number(words, "Persons", period->persons);
	if (vessel->length_cm > 0) {
		text_add_format(words, "Length: %d.%02d m. ", vessel->length_cm / 100,
		    vessel->length_cm % 100);
	}
	add_number(words, "Built", vessel->built);
	for (size_t i = 0; i < survey->sheet_count; i++) {
		text_add_format(words, "%s%s (%s), compiled ",
		    i == 0 ? "Rules of: " : "; ", survey->sheets[i]->title,
		    survey->sheets[i]->name);
		add_day(survey->sheets[i]->compiled, "on a day not said", words);
	}
	text_add(words, survey->sheet_count > 0 ? "." : "");
	markup_element(page->markup, "p", NULL, text_string(words));
}

static bool
is_short(const struct muster *muster)
{
	return muster->shortage_count > 0;
}

/* The answer in one sentence. */
static void
add_answer(struct survey_page *page)
{
	const struct muster *muster = page->survey->muster;
	struct text *words = page->words;
	text_reset(words);
	if (muster->line_count == 0) {
		text_add(words,
		    "Nothing to count against: no carriage line of these rules "
		    "holds for her.");
	} else if (muster->ok) {
		text_add(words, "Nothing is short");
		if (muster->days.first != muster->days.last) {
			text_add(words, " on any of these days");
		}
		if (muster->good_through == DAY_NEVER) {
			text_add(words, ", and nothing that counts has a last day.");
		} else {
			text_add(words, ". Good through ");
			add_day(muster->good_through, "", words);
			text_add(words, ", as far as what is in the book goes.");
		}
	} else {
		text_add(words, is_short(muster) ? "Short from " : "Not told from ");
		add_day(muster->first_short, "", words);
		text_add(words, " on. See the table.");
	}
	markup_element(page->markup, "p", "care", text_string(words));
	text_reset(words);
	muster_add_silence_words(muster, words);
	if (words->length > 0) {
		markup_element(page->markup, "p", NULL, text_string(words));
	}
	markup_element(page->markup, "p", "quiet", REPORT_CAUTION);
}

static void
add_items(struct survey_page *page, const char *what, const struct muster_items *items)
{
	struct text *words = page->words;
	struct tag_list list = {.out = words};
	if (items->count == 0) {
		return;
	}
	text_add_format(words, "%s%s", words->length == 0 ? "" : "; ", what);
	for (size_t i = 0; i < items->count; i++) {
		tag_list_add(&list, page->inventory->items[items->items[i]].tag);
	}
	tag_list_end(&list);
}

/* Pieces that don't count because more must be known of them. */
static void
add_untold(struct survey_page *page, const struct muster_line *line)
{
	struct text *words = page->words;
	for (size_t i = 0; i < line->untold_count; i++) {
		const struct muster_untold *untold = &line->untold[i];
		text_add_format(words, "%s%s not known: %s",
		    words->length == 0 ? "" : "; ", untold->asks,
		    page->inventory->items[untold->item].tag);
	}
}

static bool
same_source(const struct carriage *a, const struct carriage *b)
{
	return a->standing == b->standing && strcmp(a->source, b->source) == 0;
}

/* The number of a line's source: they are counted from 1 in the order of the lines. */
static size_t
source_number(const struct muster *muster, const struct muster_line *line)
{
	size_t number = 0;
	for (const struct muster_line *at = muster->lines; at <= line; at++) {
		bool before = false;
		for (const struct muster_line *old = muster->lines; old < at && !before;
		     old++) {
			before = same_source(old->line, at->line);
		}
		number += before ? 0 : 1;
		if (same_source(at->line, line->line)) {
			return number;
		}
	}
	return number;
}

static void
add_line(struct survey_page *page, const struct muster_line *line)
{
	bool told = line->asks[0] == '\0';
	bool bad = !told || line->missing > 0;
	struct text *words = page->words;
	markup_begin(page->markup, "tr");
	survey_box(page);
	text_reset(words);
	text_add(words, line->line->title);
	if (line->line->any_of[0] != '\0') {
		text_add_format(
		    words, " (one way of several to meet %s)", line->line->any_of);
	}
	survey_cell(page, NULL, text_string(words));
	text_reset(words);
	if (told) {
		text_add_format(words, "%d", line->need);
	} else {
		text_add_format(words, "not told: %s not known",
		    line->asks[0] == 'b' ? "year built" : line->asks);
	}
	survey_cell(page, told ? "number" : "care", text_string(words));
	text_reset(words);
	text_add_format(words, "%d", line->have);
	survey_cell(page, bad ? "number care" : "number", text_string(words));
	text_reset(words);
	if (line->missing > 0) {
		text_add_format(words, "%d", line->missing);
	}
	survey_cell(page, "number care", text_string(words));
	text_reset(words);
	add_items(page, "", &line->counted);
	add_items(page, "though lapsed by common practice: ", &line->remarks);
	add_items(page, "though a part has lapsed: ", &line->parts);
	survey_cell(page, NULL, text_string(words));
	text_reset(words);
	add_items(page, "lapsed: ", &line->lapsed);
	add_items(page, "date not known: ", &line->unknown);
	add_untold(page, line);
	survey_cell(page, NULL, text_string(words));
	text_reset(words);
	text_add_format(words, "%zu", source_number(page->survey->muster, line));
	survey_cell(page, NULL, text_string(words));
	markup_end(page->markup);
}

/* The sources, each once, by the numbers in the table. */
static void
add_sources(struct survey_page *page)
{
	const struct muster *muster = page->survey->muster;
	size_t told = 0;
	markup_begin_class(page->markup, "ol", "fine");
	for (size_t i = 0; i < muster->line_count; i++) {
		size_t number = source_number(muster, &muster->lines[i]);
		if (number > told) {
			const struct carriage *line = muster->lines[i].line;
			told = number;
			text_reset(page->words);
			add_source(line->source, line->standing, page->words);
			markup_element(
			    page->markup, "li", NULL, text_string(page->words));
		}
	}
	markup_end(page->markup);
}

/* What falls short, or shorter, after the day of the table. */
static void
add_later(struct survey_page *page)
{
	const struct muster *muster = page->survey->muster;
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		int missing = muster_missing(muster, shortage->line);
		if (shortage->most <= missing) {
			continue;
		}
		text_reset(page->words);
		if (missing > 0) {
			text_add(page->words, "Later");
		} else {
			text_add(page->words, "From ");
			add_day(shortage->from, "", page->words);
		}
		text_add_format(page->words, " short of %d: %s.", shortage->most,
		    shortage->line->title);
		markup_element(page->markup, "p", "care", text_string(page->words));
	}
}

static void
add_carriage(struct survey_page *page)
{
	static const char *const COLUMNS[] = {
	    "Seen", "Need", "Needs", "Has", "Short", "Counted", "Not counted", "Source"};

	const struct muster *muster = page->survey->muster;
	struct text *words = page->words;
	if (muster->line_count == 0) {
		return;
	}
	text_reset(words);
	text_add(words, "What must be carried, counted on ");
	add_day(muster->on, "", words);
	markup_element(page->markup, "h2", NULL, text_string(words));
	markup_begin_class(page->markup, "table", "listing");
	markup_table_head(page->markup, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 0);
	markup_begin(page->markup, "tbody");
	for (size_t i = 0; i < muster->line_count; i++) {
		add_line(page, &muster->lines[i]);
	}
	markup_ends(page->markup, 2);
	add_sources(page);
	add_later(page);
}

/* What must be carried of which these rules have no figure. */
static void
add_subjects(struct survey_page *page)
{
	const struct muster *muster = page->survey->muster;
	for (size_t i = 0; i < muster->subject_count; i++) {
		text_reset(page->words);
		text_add_format(page->words,
		    "Not stated in these rules (%s): %s; ask %s.",
		    muster->subjects[i]->sheet, muster->subjects[i]->subject,
		    muster->subjects[i]->ask);
		markup_element(page->markup, "li", NULL, text_string(page->words));
	}
}

static void
add_cautions(struct survey_page *page)
{
	const struct survey *survey = page->survey;
	markup_element(page->markup, "h2", NULL,
	    "Read this with it, and the rules behind these days");
	markup_begin_class(page->markup, "ul", "fine");
	for (size_t i = 0; i < survey->sheet_count; i++) {
		for (size_t j = 0; j < survey->sheets[i]->caution_count; j++) {
			markup_element(
			    page->markup, "li", NULL, survey->sheets[i]->cautions[j]);
		}
	}
	add_subjects(page);
	markup_element(page->markup, "li", NULL,
	    "This page was written from a book kept by hand. What counts is what is found "
	    "aboard.");
	survey_rules_list(page);
	markup_end(page->markup);
}

/* Room to sign in. */
static void
add_signatures(struct survey_page *page)
{
	static const char *const WHO[] = {"Counted by", "Skipper or owner", "Surveyor"};

	markup_element(page->markup, "h2", NULL, "Signed, with name, place and day");
	markup_begin_class(page->markup, "div", "signs three");
	for (size_t i = 0; i < sizeof WHO / sizeof WHO[0]; i++) {
		markup_element(page->markup, "div", NULL, WHO[i]);
	}
	markup_end(page->markup);
}

static void
add_heading(struct survey_page *page)
{
	const struct muster *muster = page->survey->muster;
	struct text *words = page->words;
	text_reset(words);
	text_add_format(words, "Safety gear of %s", vessel_of(page)->name);
	markup_element(page->markup, "h1", NULL, text_string(words));
	text_reset(words);
	text_add(words, muster->days.first == muster->days.last ? "On " : "From ");
	add_day(muster->days.first, "", words);
	if (muster->days.first != muster->days.last) {
		text_add(words, " to ");
		add_day(muster->days.last, "", words);
	}
	text_add(words, "; written on ");
	add_day(page->style->today, "", words);
	text_add_byte(words, '.');
	markup_element(page->markup, "p", "quiet", text_string(words));
}

void
report_survey(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct survey *survey, struct text *out)
{
	SCOPED_TEXT words = {0};
	SCOPED_TEXT title = {0};
	SCOPED_TEXT foot = {0};
	struct survey_page page = {.style = style,
	    .kinds = kinds,
	    .inventory = inventory,
	    .survey = survey,
	    .words = &words};
	text_add_format(&title, "Safety gear of %s", vessel_of(&page)->name);
	text_add_format(&foot, "%s, ", text_string(&title));
	add_day(survey->muster->days.first, "", &foot);
	markup_open(text_string(&title), text_string(&foot), &page.markup);
	markup_begin_class(page.markup, "div", "small");
	add_heading(&page);
	add_vessel(&page);
	add_answer(&page);
	add_carriage(&page);
	survey_gear_table(&page);
	add_signatures(&page);
	add_cautions(&page);
	/* The page is closed in any case, so that nothing leaks. */
	markup_close(page.markup, out);
}
