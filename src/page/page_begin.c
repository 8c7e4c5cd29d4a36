/* First start: there is no book yet; it begins with a boat, her winter and her
 * stations. */
#include "desk/acts_fleet.h"
#include "page/shell.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { STATION_ROWS = 3 };

/* What is wrong with the form, field by field. */
struct beginning {
	struct visit *visit;
	const char *wrong_name; /* of the first field that is wrong; NULL for none */
	const char *wrong;
	bool sent; /* the form was sent: what stands in it was typed */
};

/* The value that a field shows: what was typed, else its initial value. */
static const char *
value_of(const struct beginning *form, const char *name, const char *first)
{
	return form->sent ? page_value(form->visit, name) : first;
}

static void
write_field(const struct beginning *form, const char *name, const char *label,
    const char *first, const char *mode)
{
	bool wrong = form->wrong_name != NULL && strcmp(form->wrong_name, name) == 0;
	SHELL_FIELD(form->visit, .name = name, .label = label,
	    .value = value_of(form, name, first), .wrong = wrong ? form->wrong : NULL,
	    .mode = mode);
}

static void
write_month(const struct beginning *form, const char *name, const char *label, int first)
{
	struct markup *markup = form->visit->markup;
	char number[16];
	char start[16];
	(void)snprintf(start, sizeof start, "%d", first);
	const char *chosen = value_of(form, name, start);
	shell_choice(form->visit, name, label);
	for (int month = 1; month <= 12; month++) {
		(void)snprintf(number, sizeof number, "%d", month);
		shell_option(
		    form->visit, number, month_name(month), strcmp(number, chosen) == 0);
	}
	markup_ends(markup, 2);
}

/* The choice of rules that she follows besides common practice, from the sheets there
 * are. */
static void
write_sheets(const struct beginning *form)
{
	struct visit *visit = form->visit;
	struct markup *markup = visit->markup;
	const char *chosen = value_of(form, "sheet", "practice");
	const char *const *names = NULL;
	size_t count = 0;
	shelf_names(&visit->desk.shelf, &visit->desk.arena, &names, &count);
	shell_choice(visit, "sheet", "Rules beside common practice");
	shell_option(visit, "practice", "none", strcmp("practice", chosen) == 0);
	for (size_t i = 0; i < count; i++) {
		const struct sheet *sheet = NULL;
		struct fault bad = {0};
		SCOPED_TEXT notes = {0};
		/* a sheet of the user's own that can't be read can't be followed
		 * either */
		if (strcmp(names[i], "practice") != 0 &&
		    shelf_sheet(&visit->desk.shelf, names[i], &notes, &sheet, &bad)) {
			shell_option(
			    visit, names[i], sheet->title, strcmp(names[i], chosen) == 0);
		}
	}
	markup_ends(markup, 2);
}

static void
write_box(const struct beginning *form, const char *name, const char *words)
{
	shell_tick(form->visit, "checkbox", name, "yes",
	    form->sent && page_has(form->visit, name), words);
}

static void
write_boat(const struct beginning *form)
{
	struct visit *visit = form->visit;
	shell_section(visit, NULL, NULL, "The boat");
	markup_begin_class(visit->markup, "div", "fields");
	write_field(form, "boat", "Her name", "", NULL);
	write_field(form, "base", "Where she lies (may be left out)", "", NULL);
	write_sheets(form);
	markup_end(visit->markup);
	markup_begin_class(visit->markup, "div", "choice");
	write_box(form, "commercial", "She is let, or run for money");
	markup_ends(visit->markup, 3);
}

static void
write_winter(const struct beginning *form)
{
	struct visit *visit = form->visit;
	shell_section(visit, NULL, NULL, "Her winter");
	markup_begin_class(visit->markup, "div", "fields");
	write_field(form, "from-day", "Laid up from, day", "1", "numeric");
	write_month(form, "from-month", "Laid up from, month", 11);
	write_field(form, "to-day", "Ready again by, day", "31", "numeric");
	write_month(form, "to-month", "Ready again by, month", 3);
	markup_end(visit->markup);
	markup_begin_class(visit->markup, "div", "choice");
	write_box(form, "all-year", "She is in use all year and has no winter");
	markup_ends(visit->markup, 3);
}

static void
write_days(const struct beginning *form)
{
	struct visit *visit = form->visit;
	shell_section(visit, NULL, NULL, "Days on which you go to a station");
	markup_element(visit->markup, "p", "small soft",
	    "None ticked is any day. Bags are planned for the days ticked, where the station is "
	    "open on them.");
	markup_begin_class(visit->markup, "div", "choice");
	for (int day = 0; day < 7; day++) {
		char name[32];
		(void)snprintf(name, sizeof name, "goes-%d", day);
		write_box(form, name, weekday_name(day));
	}
	markup_ends(visit->markup, 3);
}

static void
write_stations(const struct beginning *form)
{
	struct visit *visit = form->visit;
	shell_section(visit, NULL, NULL, "Stations you hand gear in at");
	markup_element(visit->markup, "p", "small soft",
	    "They may be left out: bags then go to \"an approved station\", and how long it keeps "
	    "them is supposed.");
	static const char *const LABELS[STATION_ROWS][2] = {
	    {"First station", "Days the first keeps gear"},
	    {"Second station", "Days the second keeps gear"},
	    {"Third station", "Days the third keeps gear"},
	};
	for (int i = 0; i < STATION_ROWS; i++) {
		char name[24];
		char days[24];
		(void)snprintf(name, sizeof name, "station-%d", i);
		(void)snprintf(days, sizeof days, "days-%d", i);
		markup_begin_class(visit->markup, "div", "fields");
		write_field(form, name, LABELS[i][0], "", NULL);
		write_field(form, days, LABELS[i][1], "14", "numeric");
		markup_end(visit->markup);
	}
	markup_ends(visit->markup, 2);
}

/* A book that was kept on another machine. */
static void
write_copy(struct visit *visit)
{
	struct markup *markup = visit->markup;
	shell_section(visit, NULL, NULL, "Or bring a book you have");
	markup_element(markup, "p", "small soft",
	    "A copy saved under Safe-keeping on another machine; what is in it is told first.");
	page_restore_form(visit);
	markup_ends(markup, 2);
}

static void
write_page(const struct beginning *form)
{
	struct visit *visit = form->visit;
	SHELL_OPEN(visit, .title = "A book for your boat",
	    .say =
		form->wrong != NULL
		    ? "One thing is wanting: look for what stands under its field. Nothing "
		      "is written."
		    : "There is no book yet. This begins one: her name and her winter are "
		      "enough, and all can be changed later.",
	    .status = form->wrong != NULL ? 400 : 0);
	if (form->wrong != NULL && form->wrong_name == NULL) {
		shell_note(visit, true, form->wrong);
	}
	shell_form(visit, "/begin", "begin");
	write_boat(form);
	write_winter(form);
	write_days(form);
	write_stations(form);
	shell_entry(visit);
	markup_begin_class(visit->markup, "div", "acts");
	shell_button(visit, true, NULL, NULL, "Begin the book");
	markup_ends(visit->markup, 4);
	write_copy(visit);
	shell_close(visit);
}

bool
page_begin(struct visit *visit, struct fault *fault)
{
	const struct beginning form = {.visit = visit};
	(void)fault;
	if (desk_has_book(&visit->desk)) {
		page_go(visit, "/");
		return true;
	}
	write_page(&form);
	return true;
}

/* Notes what is wrong with a field; returns false. */
static bool
is_wrong(struct beginning *form, const char *name, const char *words)
{
	SCOPED_TEXT clean = {0};
	page_words(words, &clean);
	form->wrong_name = name == NULL ? NULL : arena_string(&form->visit->arena, name);
	form->wrong = arena_string(&form->visit->arena, text_string(&clean));
	return false;
}

/* A whole number that was typed; -1 for none. */
static int
read_number(const char *typed)
{
	size_t length = strlen(typed);
	bool digits = length > 0 && length < 4 && strspn(typed, "0123456789") == length;
	return digits ? (int)strtol(typed, NULL, 10) : -1;
}

/* Her lay-up, from four fields. */
static bool
read_lay_up(struct beginning *form, struct vessel_change *change)
{
	struct visit *visit = form->visit;
	struct fault fault = {0};
	char words[40];
	change->laid_up = !page_has(visit, "all-year");
	if (!change->laid_up) {
		return true;
	}
	(void)snprintf(words, sizeof words, "%02d-%02d..%02d-%02d",
	    read_number(page_value(visit, "from-month")),
	    read_number(page_value(visit, "from-day")),
	    read_number(page_value(visit, "to-month")),
	    read_number(page_value(visit, "to-day")));
	return yearly_parse(words, &change->lay_up, &fault) ||
	       is_wrong(form, "from-day",
		   "That is no winter: expected a day and a month to begin and to end it.");
}

static bool
read_boat(struct beginning *form, struct vessel_change *change)
{
	struct visit *visit = form->visit;
	*change = (struct vessel_change){.name = page_value(visit, "boat"),
	    .set = SAYS_LAY_UP,
	    .base = page_value(visit, "base"),
	    .left = DAY_NONE};
	if (change->name[0] == '\0') {
		return is_wrong(form, "boat", "Her name is wanted here.");
	}
	change->set |= change->base[0] != '\0' ? SAYS_BASE : 0U;
	if (page_has(visit, "commercial")) {
		change->set |= SAYS_USE;
		change->use = USE_COMMERCIAL;
	}
	const char *sheet = page_value(visit, "sheet");
	if (sheet[0] != '\0' && strcmp(sheet, "practice") != 0) {
		const char **sheets = arena_alloc(&visit->arena, 2 * sizeof *sheets);
		sheets[0] = "practice";
		sheets[1] = sheet;
		change->set |= SAYS_SHEETS;
		change->sheets = sheets;
		change->sheet_count = 2;
	}
	for (int day = 0; day < 7; day++) {
		char name[32];
		(void)snprintf(name, sizeof name, "goes-%d", day);
		change->goes |= page_has(visit, name) ? 1U << day : 0U;
	}
	change->set |= change->goes != 0 ? 1U << VESSEL_GOES : 0U;
	return read_lay_up(form, change);
}

/* The stations that were named; their count, or -1 where one is wrong. */
static int
read_stations(struct beginning *form, struct station_change changes[STATION_ROWS])
{
	struct visit *visit = form->visit;
	int count = 0;
	for (int i = 0; i < STATION_ROWS; i++) {
		char field[24];
		(void)snprintf(field, sizeof field, "station-%d", i);
		const char *name = page_value(visit, field);
		(void)snprintf(field, sizeof field, "days-%d", i);
		int days = read_number(page_value(visit, field));
		if (name[0] == '\0') {
			continue;
		}
		if (days < 1) {
			(void)is_wrong(form, field, "A number of days is wanted here.");
			return -1;
		}
		changes[count++] = (struct station_change){.name = name,
		    .set = 1U << STATION_TURN_ROUND,
		    .turn_round_days = days};
	}
	return count;
}

static bool
write_all(struct desk *desk, const struct vessel_change *boat,
    const struct station_change *stations, int count, struct fault *fault)
{
	const struct vessel_request request = {
	    .change = *boat, .otherwise = OTHERWISE_WRONG};
	bool done = desk_vessel(desk, &request, fault);
	for (int i = 0; i < count && done; i++) {
		done = desk_station(desk, &stations[i], fault);
	}
	return done;
}

/* Writes all or nothing: each part is a separate act, so all are tried first. */
static bool
write_book(struct beginning *form, const struct vessel_change *boat,
    const struct station_change *stations, int count, struct fault *fault)
{
	struct desk trial = {0};
	SCOPED_DESK desk = {0};
	page_try(form->visit, &trial);
	bool can = write_all(&trial, boat, stations, count, fault);
	desk_clear(&trial);
	if (!can) {
		return false;
	}
	page_write(form->visit, &desk, "began the book");
	desk.mode = BOOK_CREATE;
	if (!write_all(&desk, boat, stations, count, fault)) {
		return false;
	}
	page_say(form->visit, "The book of %s is begun. It is kept at %s.", boat->name,
	    desk.book_path);
	page_done(form->visit, &desk);
	return true;
}

bool
page_begin_sent(struct visit *visit, struct fault *fault)
{
	struct beginning form = {.visit = visit, .sent = true};
	struct vessel_change boat;
	struct station_change stations[STATION_ROWS];
	if (desk_has_book(&visit->desk)) {
		page_say(visit, "There is a book already: nothing was written.");
		page_go(visit, "/");
		return true;
	}
	bool read = read_boat(&form, &boat);
	int count = read ? read_stations(&form, stations) : -1;
	if (count >= 0 && write_book(&form, &boat, stations, count, fault)) {
		page_go(visit, "/winter");
		return true;
	}
	if (fault->kind == FAULT_BOOK || fault->kind == FAULT_FILE) {
		return false;
	}
	if (fault->kind != FAULT_NONE) {
		(void)is_wrong(&form, NULL, fault->text);
		*fault = (struct fault){0};
	}
	write_page(&form);
	return true;
}
