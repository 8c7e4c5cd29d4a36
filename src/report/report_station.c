#include "gear/money.h"
#include "report/reply.h"
#include "report/words.h"

#include <string.h>

static void
add_station(const struct report_style *style, const struct station *station,
    struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	char money[MONEY_WORDS_SIZE];
	reply_cell(table, HUE_STRONG, station->name);
	reply_cell(table, HUE_NONE, station->base[0] == '\0' ? "any" : station->base);
	reply_number(table, HUE_NONE, station->turn_round_days, "");
	for (size_t i = 0; i < station->closed_count; i++) {
		text_add(&words, i == 0 ? "" : ", ");
		add_yearly(station->closed[i], &words);
	}
	reply_take(table, HUE_NONE, &words);
	int64_t trip = station->trip_minor == 0 ? -1 : station->trip_minor;
	reply_cell(table, HUE_NONE, money_words(trip, style->currency, money));
	for (size_t i = 0; i < station->kind_count; i++) {
		text_add_format(&words, "%s%s", i == 0 ? "" : ", ", station->kinds[i]);
	}
	text_add(&words, station->kind_count == 0 ? "every kind" : "");
	reply_take(table, HUE_NONE, &words);
}

/* Adds when it is open and how long it takes, where that is out of the ordinary. */
static void
add_times(const struct station *station, day_t today, struct text *words)
{
	char buffer[WEEKDAYS_TEXT_SIZE];
	char last[DAY_WORDS_SIZE];
	char first[DAY_WORDS_SIZE];
	if (station->weekdays == 0) {
		text_add(words, "; weekdays not known, Monday to Friday supposed");
	} else if (station->weekdays != WEEKDAYS_ALL) {
		text_add_format(
		    words, "; open %s", weekdays_text(station->weekdays, buffer));
	}
	for (size_t i = 0; i < station->pace_count; i++) {
		const struct station_pace *pace = &station->paces[i];
		text_add_format(words, "; %d days in %s", pace->turn_round_days,
		    month_short_name(pace->first_month));
		if (pace->last_month != pace->first_month) {
			text_add_format(
			    words, " to %s", month_short_name(pace->last_month));
		}
	}
	for (size_t i = 0; i < station->shut_count; i++) {
		text_add_format(words, "; closed %s to %s",
		    day_words(station->shut[i].first, first),
		    day_words(station->shut[i].last, last));
	}
	if (station->not_before > today) {
		char day[DAY_WORDS_SIZE];
		text_add_format(words, "; said nothing before %s",
		    day_words(station->not_before, day));
	}
	if (station->weekly_pieces > 0) {
		text_add_format(
		    words, "; at most %d pieces a week", station->weekly_pieces);
	}
}

/* Adds the makes it is approved for, kind by kind. */
static void
add_makes(const struct station *station, struct text *words)
{
	for (size_t i = 0; i < station->make_count; i++) {
		const struct station_make *make = &station->makes[i];
		bool same = i > 0 && strcmp(make->kind, make[-1].kind) == 0;
		if (same) {
			text_add_format(words, ", %s", make->make);
		} else {
			text_add_format(words, "; of %s only %s", make->kind, make->make);
		}
	}
}

/* True when two prices are for the same work, at different ages. */
static bool
same_work(const struct station_price *a, const struct station_price *b)
{
	return strcmp(a->kind, b->kind) == 0 && a->every_task == b->every_task &&
	       (a->every_task || a->task == b->task);
}

/* Adds what it asks for. */
static void
add_prices(
    const struct report_style *style, const struct station *station, struct text *words)
{
	char money[MONEY_WORDS_SIZE];
	if (station->carriage_minor > 0) {
		text_add_format(words, "; carriage %s a piece",
		    money_words(station->carriage_minor, style->currency, money));
	}
	for (size_t i = 0; i < station->price_count; i++) {
		const struct station_price *price = &station->prices[i];
		bool step = i > 0 && same_work(price, price - 1);
		text_add_format(words, "%s%s%s%s", step ? "," : "; ",
		    step ? "" : price->kind, step || price->every_task ? "" : " ",
		    step || price->every_task ? "" : task_word(price->task));
		if (price->from_years > 0) {
			text_add_byte(words, ' ');
			add_from_age(price->from_years, words);
		}
		text_add_format(
		    words, " %s", money_words(price->minor, style->currency, money));
	}
}

/* Tells what the table has no column for, for a station with any of it. */
static void
add_terms(const struct report_style *style, const struct station *station,
    struct text *words, struct reply *reply)
{
	text_reset(words);
	add_times(station, style->today, words);
	add_makes(station, words);
	add_prices(style, station, words);
	if (words->length == 0) {
		return;
	}
	SCOPED_TEXT line = {0};
	text_add_format(&line, "%s: %s.", station->name, text_string(words) + 2);
	reply_say(reply, false, &line);
}

void
report_stations(const struct report_style *style, const struct station *stations,
    size_t count, struct text *out)
{
	static const struct reply_column COLUMNS[] = {{.heading = "Station", .most = 20},
	    {.heading = "Base", .most = 14}, {.heading = "Days", .type = CELL_NUMBER},
	    {.heading = "Closed", .most = 18},
	    {.heading = "Trip", .type = CELL_PRICE, .most = 14},
	    {.heading = "Services", .flexible = true}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < count; i++) {
		add_station(style, &stations[i], table);
	}
	reply_words(
	    &reply, VOICE_PLAIN, false, 0, count == 0 ? "No stations to show." : "");
	for (size_t i = 0; i < count; i++) {
		add_terms(style, &stations[i], &words, &reply);
	}
	reply_write(&reply, style, out);
}
