/* Saturday: the boats of one day, which may sail, what the others are short of and what
 * cures it. */
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

#include <stdlib.h>

/* Days shown before and after the chosen one; most boats that are named. */
enum { WEEK = 7, DAYS_AHEAD = 49, NAMES_MOST = 6 };

/* Adds the names of the boats of a rank that go out, or of all when none goes out;
 * returns how many. */
static size_t
add_names(const struct saturday *day, enum booked_rank rank, struct text *out)
{
	size_t named = 0;
	size_t of = day->going > 0 ? day->going : day->count;
	size_t all = 0;
	for (size_t i = 0; i < of; i++) {
		all += booked_rank(&day->boats[i].booked) == rank ? 1 : 0;
	}
	for (size_t i = 0; i < of; i++) {
		const struct saturday_boat *boat = &day->boats[i];
		if (booked_rank(&boat->booked) != rank || named == NAMES_MOST) {
			continue;
		}
		named++;
		text_add_format(out, "%s%s",
		    named == 1     ? ""
		    : named == all ? " and "
				   : ", ",
		    boat->vessel->name);
	}
	if (all > named) {
		text_add_format(out, " and %zu more", all - named);
	}
	return all;
}

static void
add_answer(const struct saturday *day, struct text *out)
{
	static const struct {
		enum booked_rank rank;
		const char *one;
		const char *many;
	} RANKS[] = {
	    {BOOKED_FINE, " may sail. ", " may sail. "},
	    {BOOKED_CURED, " may once a spare is moved. ",
		" may once spares are moved. "},
	    {BOOKED_SHORT, " stays: no spare makes her whole. ",
		" stay: no spare makes them whole. "},
	    {BOOKED_NOT_TOLD, " can't be told: see what is asked. ",
		" can't be told: see what is asked. "},
	};

	if (day->going == 0) {
		text_add(out, day->count == 0
				  ? "No boat is in the book on this day."
				  : "No boat goes out on this day. Lying ready: ");
	}
	for (size_t i = 0; i < sizeof RANKS / sizeof RANKS[0]; i++) {
		SCOPED_TEXT names = {0};
		size_t count = add_names(day, RANKS[i].rank, &names);
		if (count > 0) {
			text_add_format(out, "%s%s", text_string(&names),
			    count == 1 ? RANKS[i].one : RANKS[i].many);
		}
	}
}

/* How many boats are short on a day. */
static size_t
short_on(const struct saturday *day, day_t on)
{
	size_t count = 0;
	for (size_t i = 0; i < day->count; i++) {
		count += spans_have(day->boats[i].lapses, on) ? 1 : 0;
	}
	return count;
}

/* The profile of how many boats are short over the days, and its steps in words. */
static void
write_profile(const struct saturday *day)
{
	struct short_from steps[WEEK + DAYS_AHEAD + 1];
	struct short_days days = {day->axis, day->on, steps, 0, day->count};
	SCOPED_TEXT label = {0};
	text_add(&label, "Boats short on each day, if nothing is done: ");
	for (day_t on = day->axis.first; on <= day->axis.last; on++) {
		size_t boats = short_on(day, on);
		if (days.count == 0 || boats != steps[days.count - 1].boats) {
			text_add_format(
			    &label, "%s%zu from ", days.count == 0 ? "" : ", ", boats);
			add_day_of(on, false, &label);
			steps[days.count++] = (struct short_from){on, boats};
		}
	}
	text_add(&label, "; the table below counts them for the day looked at");
	draw_short_days(day->visit->markup, &days, text_string(&label));
}

static void
write_range(const struct saturday *day)
{
	struct markup *markup = day->visit->markup;
	SCOPED_TEXT words = {0};
	char iso[DAY_ISO_SIZE];
	text_add_format(&words, "%s ", weekday_name(day_of_week(day->on)));
	add_day_of(day->on, true, &words);
	shell_hidden(day->visit, "first", day_iso(day->axis.first, iso));
	shell_hidden(day->visit, "was", day_iso(day->on, iso));
	MARKUP_BEGIN(markup, "input", NULL, "type", "range", "name", "ahead",
	    "aria-label", "Day looked at", "min", "0");
	markup_attribute_format(markup, "max", "%d", day->axis.last - day->axis.first);
	markup_attribute_format(markup, "value", "%d", day->on - day->axis.first);
	markup_attribute(markup, "aria-valuetext", text_string(&words));
	markup_end(markup);
}

static void
write_day(const struct saturday *day, const char *wrong)
{
	struct visit *visit = day->visit;
	struct markup *markup = visit->markup;
	char on[DAY_WORDS_SIZE];
	const char *looked_at = day_words(day->on, on);
	shell_entry(visit);
	shell_asking_form(visit, "/saturday");
	markup_attribute(markup, "class", "slide");
	markup_begin(markup, "p");
	markup_text(markup, "Day looked at: ");
	markup_begin(markup, "b");
	markup_text_format(markup, "%s ", weekday_name(day_of_week(day->on)));
	markup_text(markup, looked_at);
	markup_ends(markup, 2);
	write_profile(day);
	write_range(day);
	markup_element_format(markup, "p", "small soft",
	    "The hatching: how many of %zu %s short on a day, or can't be told of, if nothing is done.",
	    day->count, day->count == 1 ? "boat is" : "boats are");
	markup_begin_class(markup, "div", "acts");
	base_choice_write(visit, &day->choice);
	SHELL_FIELD(visit, .name = "on", .label = "Or a day, typed",
	    .value = wrong != NULL ? page_value(visit, "on") : looked_at, .wrong = wrong);
	shell_button(visit, false, NULL, NULL, "Look at this day");
	markup_ends(markup, 4);
}

/* The day that is asked for: as typed; else where the slider was put; else the coming
 * Saturday, which may be today. */
static bool
read_day(struct visit *visit, day_t *out, struct fault *fault)
{
	const char *typed = page_value(visit, "on");
	const char *ahead = page_value(visit, "ahead");
	struct fault none = {0};
	day_t today = visit->desk.today;
	day_t first = DAY_NONE;
	day_t was = DAY_NONE;
	*out = today + (5 - day_of_week(today) + 7) % 7;
	if (typed[0] != '\0' && !day_typed(typed, today, out, fault)) {
		return false;
	}
	long days = strtol(ahead, NULL, 10);
	bool slid = ahead[0] != '\0' && days >= 0 && days <= WEEK + DAYS_AHEAD &&
		    day_parse(page_value(visit, "first"), &first, &none) &&
		    day_parse(page_value(visit, "was"), &was, &none);
	if (slid && *out == was) {
		*out = first + (day_t)days;
	}
	return true;
}

/* The link to the form of a booking that begins on the day. */
static void
write_enter(const struct saturday *day)
{
	char words[DAY_WORDS_SIZE];
	SCOPED_TEXT from = {0};
	form_escape(day_words(day->on, words), &from);
	shell_entry(day->visit);
	markup_begin_class(day->visit->markup, "div", "acts");
	shell_link(day->visit, "button", "Enter a booking", "/booking?from=%s",
	    text_string(&from));
	markup_ends(day->visit->markup, 3);
}

static bool
write_page(const struct saturday *day, const char *wrong, struct fault *fault)
{
	struct visit *visit = day->visit;
	SCOPED_TEXT say = {0};
	SCOPED_TEXT boats = {0};
	SCOPED_TEXT going = {0};
	SCOPED_TEXT margin = {0};
	text_add_format(&boats, "%zu", day->count);
	if (day->going == 0) {
		text_add(&going, "none goes out");
	} else {
		text_add_format(
		    &going, "%zu %s out", day->going, day->going == 1 ? "goes" : "go");
	}
	text_add_format(&margin, "%.3s ", weekday_name(day_of_week(day->on)));
	add_day_of(day->on, false, &margin);
	add_answer(day, &say);
	const struct head_box boxes[] = {
	    {"Boats", text_string(&boats)}, {"Base", day->choice.base}};
	SHELL_OPEN(visit, .title = "Saturday", .margin = text_string(&margin),
	    .under = text_string(&going), .say = text_string(&say), .boxes = boxes,
	    .box_count = day->choice.base == NULL ? 1 : 2);
	draw_defs(visit->markup);
	write_day(day, wrong);
	write_going(day);
	write_enter(day);
	write_cures(day);
	if (!write_needs(day, fault)) {
		return false;
	}
	write_back_and_next(day);
	if (!write_hand_ins(day, fault)) {
		return false;
	}
	shell_close(visit);
	return true;
}

bool
page_saturday(struct visit *visit, struct fault *fault)
{
	struct saturday day = {.visit = visit};
	struct fault wrong = {0};
	SCOPED_TEXT words = {0};
	if (!base_choice_read(visit, &day.choice, fault)) {
		return false;
	}
	bool read = read_day(visit, &day.on, &wrong);
	if (!read) {
		page_words(wrong.text, &words);
	}
	day_t today = visit->desk.today;
	day.axis.first = day_min(day.on, day_max(today, day.on - WEEK));
	day.axis.last = day.on + DAYS_AHEAD - (day.on - day.axis.first);
	return saturday_reckon(&day, fault) &&
	       write_page(&day, read ? NULL : text_string(&words), fault);
}
