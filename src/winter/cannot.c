/* Why something can't be done in time, and what would help. */
#include "base/text.h"
#include "winter/settled.h"

/* A text in the arena. */
static const char *
kept(const struct planning *planning, const struct text *words)
{
	return arena_string(planning->arena, text_string(words));
}

void
note_make(const struct planning *planning, struct shore_line *line)
{
	const struct item *item = planning_item(planning, line->item);
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		enum station_fit fit = station_fit(station, item->kind, item->make);
		if (station_in_reach(station, planning->vessel->base, item) &&
		    (fit == FIT_ASK || fit == FIT_OTHER_MAKE)) {
			text_add_format(
			    &words, "%s%s", words.length == 0 ? "" : ", ", station->name);
		}
	}
	if (words.length == 0) {
		return;
	}
	text_add(
	    &words, item->make[0] == '\0'
			? ": approved for some makes only, and its make is not known; "
			  "enter the make, or ask"
			: ": not approved for its make; ask which station is");
	line->note = kept(planning, &words);
}

/* Adds one thing that would help to a list of them. */
static void add_cure(struct text *words, const char *format, ...) FORMAT_LIKE(2, 3);

static void
add_cure(struct text *words, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	text_add(words, words->length == 0 ? "" : "; ");
	text_add_arguments(words, format, arguments);
	va_end(arguments);
}

/* Stations that could have it back in time, if their bases or makes did not exclude
 * it. */
static void
add_other_stations(
    const struct planning *planning, const struct item *item, struct text *words)
{
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		enum station_fit fit = station_fit(station, item->kind, item->make);
		if (planning->last_hand_in[i] == DAY_NONE || station->left_out ||
		    planning->first_open[i] > planning->last_hand_in[i]) {
			continue;
		}
		if (fit == FIT_YES &&
		    !station_in_reach(station, planning->vessel->base, item)) {
			add_cure(words, "%s at %s could have it back in time",
			    station->name, station->base);
		} else if (fit == FIT_ASK) {
			add_cure(words,
			    "%s could have it back in time if it is approved for its make",
			    station->name);
		}
	}
}

/* The day by which it should have been handed in, or may still be handed in before
 * lay-up. */
static void
add_earlier(
    const struct planning *planning, const struct hand_in *hand_in, struct text *words)
{
	char buffer[DAY_WORDS_SIZE];
	day_t last = DAY_NONE;
	for (size_t i = 0; i < hand_in->way_count; i++) {
		last = day_max(last, hand_in->ways[i].last);
	}
	if (last != DAY_NONE && last < planning->first_day) {
		bool ahead = last >= planning->today;
		add_cure(words, "%s%s",
		    ahead ? "hand it in before lay-up, by "
			  : "the last day to hand it in was ",
		    day_words(last, buffer));
	}
}

/* A station that could have it back in time, if it had not said that it takes nothing
 * in so early. */
static void
add_said(
    const struct planning *planning, const struct hand_in *hand_in, struct text *words)
{
	char buffer[DAY_WORDS_SIZE];
	for (size_t i = 0; i < hand_in->way_count; i++) {
		const struct way *way = &hand_in->ways[i];
		const struct station *station = way_station(planning, way);
		if (station->not_before > planning->first_day &&
		    station_next_open(station, planning->first_day) <= way->last) {
			add_cure(words,
			    "%s said that it takes nothing in before %s: ask it again",
			    station->name, day_words(station->not_before, buffer));
		}
	}
}

/* A day on which those who share trips do not go, where a station could have it back
 * in time if they did. */
static void
add_their_days(
    const struct planning *planning, const struct hand_in *hand_in, struct text *words)
{
	for (size_t i = 0; i < hand_in->way_count; i++) {
		struct station station = *way_station(planning, &hand_in->ways[i]);
		bool theirs = station.goes != 0 || station.away_count > 0;
		station.goes = 0;
		station.away_count = 0;
		if (theirs && station_next_open(&station, planning->first_day) <=
				  station_last_hand_in(&station, planning->back_by)) {
			add_cure(words, "taken there on a day on which you do not go, it "
					"could be back in time");
			return;
		}
	}
}

/* Adds the last day on which it could still go to each station; `what` begins the
 * words. */
static void
add_last_days(const struct planning *planning, const struct hand_in *hand_in,
    const char *what, struct text *words)
{
	char by[DAY_WORDS_SIZE];
	for (size_t i = 0; i < hand_in->way_count; i++) {
		const struct way *way = &hand_in->ways[i];
		if (way->last != DAY_NONE && way->last >= planning->first_day) {
			add_cure(words, "%s %s by %s", what,
			    way->name[0] == '\0' ? "an approved station" : way->name,
			    day_words(way->last, by));
		}
	}
}

static void
find_cure(const struct planning *planning, const struct hand_in *hand_in,
    struct shore_line *line)
{
	SCOPED_TEXT words = {0};
	if (line->given_up != NULL) {
		add_last_days(planning, hand_in, "a day for it after all, at", &words);
	}
	add_other_stations(planning, planning_item(planning, line->item), &words);
	add_said(planning, hand_in, &words);
	add_their_days(planning, hand_in, &words);
	add_earlier(planning, hand_in, &words);
	if (line->given_up == NULL && line->first_possible != DAY_NONE &&
	    line->first_possible <= planning->list->winter.fitting_out) {
		add_cure(&words, "it is back by fitting-out, but within her margin");
	}
	add_cure(&words, "a stand-in until it is back");
	line->cure = kept(planning, &words);
}

/* The earliest day on which what is handed in from `day` on is back. A later hand-in may
 * be back sooner. */
static day_t
earliest_back(const struct station *station, day_t day)
{
	day_t back = DAY_NEVER;
	for (day = station_next_open(station, day); day < back;
	     day = station_next_open(station, day + 1)) {
		back = day_min(back, station_collect(station, day));
	}
	return back;
}

/* The earliest day on which it could be back by any of the ways, counted from the
 * first day of each way where `ahead`; DAY_NONE when there is none. */
static day_t
first_back(const struct planning *planning, const struct hand_in *hand_in, bool ahead)
{
	day_t back = DAY_NEVER;
	for (size_t i = 0; i < hand_in->way_count; i++) {
		const struct way *way = &hand_in->ways[i];
		const struct station *station = way_station(planning, way);
		day_t from = ahead ? way->first
				   : day_max(planning->first_day, station->not_before);
		back = day_min(back, earliest_back(station, from));
	}
	return back == DAY_NEVER ? DAY_NONE : back;
}

/* Notes that a person gave its hand-in up, where one did. */
static bool
note_given_up(const struct planning *planning, struct shore_line *line)
{
	SCOPED_TEXT words = {0};
	line->given_up =
	    settled_given_up(planning, planning_item(planning, line->item)->tag);
	if (line->given_up != NULL) {
		text_add_format(&words, "given up for this winter: %s", line->given_up);
		line->why = kept(planning, &words);
	}
	return line->given_up != NULL;
}

void
add_cannot(const struct planning *planning, const struct hand_in *hand_in)
{
	struct shore_line line = hand_in->line;
	line.first_possible = first_back(planning, hand_in, false);
	line.why =
	    line.first_possible == DAY_NONE
		? "the station never opens"
		: "even handed in on the station's next open day it is back too late for "
		  "fitting-out";
	(void)note_given_up(planning, &line);
	find_cure(planning, hand_in, &line);
	ARENA_ADD(planning->arena, &planning->list->cannot, line);
}

void
add_no_room(const struct planning *planning, const struct hand_in *hand_in, bool trips)
{
	struct shore_line line = hand_in->line;
	SCOPED_TEXT words = {0};
	line.why =
	    "the station takes so many pieces a week, and the weeks that would do are "
	    "full";
	if (note_given_up(planning, &line)) {
		line.first_possible = first_back(planning, hand_in, false);
		find_cure(planning, hand_in, &line);
	} else if (!trips) {
		find_cure(planning, hand_in, &line);
	} else {
		add_last_days(planning, hand_in, "one more trip, to", &words);
		line.why = "it would take more trips than you will make";
		line.first_possible = first_back(planning, hand_in, true);
		line.cure = kept(planning, &words);
	}
	ARENA_ADD(planning->arena, &planning->list->cannot, line);
}
