/* Which stations a thing may go to, and between which days; and what is to be done where none
 * will do. */
#include "base/text.h"
#include "winter/prices.h"
#include "winter/settled.h"

#include <assert.h>
#include <string.h>

const struct station ASSUMED_STATION = {
    .name = "", .base = "", .turn_round_days = ASSUMED_TURN_ROUND_DAYS};

/* The first day on which anything may be handed in. */
static day_t
first_day(const struct planning *planning)
{
	return day_max(planning->list->winter.lay_up, planning->today);
}

/* Boats in use all year have no fitting-out by which gear is to be back: so far ahead is looked. */
enum { MONTHS_OPEN = 24 };

void
ready_stations(struct planning *planning)
{
	size_t room = planning->station_count + 1;
	planning->back_by =
	    planning->list->has_winter
		? planning->list->winter.fitting_out - planning->vessel->margin_days
		: day_add_months(planning->today, MONTHS_OPEN);
	planning->first_open = ARENA_MANY(planning->passing, day_t, room);
	planning->last_hand_in = ARENA_MANY(planning->passing, day_t, room);
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		planning->first_open[i] = station_next_open(
		    station, day_max(first_day(planning), station->not_before));
		planning->last_hand_in[i] =
		    station_last_hand_in(station, planning->back_by);
	}
}

/* The station an item went to last; "" when none is on record, or when it is not to be used. */
static const char *
last_station(const struct station *stations, size_t count, const struct item *item)
{
	const char *name = "";
	for (size_t i = item->record_count; i > 0 && name[0] == '\0'; i--) {
		name = item->records[i - 1].station;
	}
	for (size_t i = 0; i < count; i++) {
		if (stations[i].left_out && strcmp(stations[i].name, name) == 0) {
			return "";
		}
	}
	return name;
}

static const struct item *
item_of(const struct planning *planning, const struct shore_line *line)
{
	return &planning->engine->inventory->items[line->item];
}

bool
station_in_reach(const struct station *stations, size_t count, size_t station,
    const struct vessel *vessel, const struct item *item)
{
	const struct station *asked = &stations[station];
	return !asked->left_out &&
	       (asked->base[0] == '\0' || strcmp(asked->base, vessel->base) == 0 ||
		   strcmp(asked->name, last_station(stations, count, item)) == 0);
}

static bool
in_reach(const struct planning *planning, const struct station *station,
    const struct item *item)
{
	return station_in_reach(planning->stations, planning->station_count,
	    (size_t)(station - planning->stations), planning->vessel, item);
}

static bool
is_eligible(const struct planning *planning, const struct station *station,
    const struct item *item)
{
	return in_reach(planning, station, item) &&
	       station_fit(station, item->kind, item->make) == FIT_YES;
}

struct way_price
way_price(const struct planning *planning, const struct shore_line *line,
    const struct way *way, day_t hand_in)
{
	const struct item *item = item_of(planning, line);
	if (way->station == NO_STATION) {
		return (struct way_price){.minor = -1};
	}
	const struct station *station = &planning->stations[way->station];
	int age = item_age(item, hand_in);
	struct asked_price price = price_asked(station, item, line->task, age);
	return (struct way_price){
	    .minor = price.minor,
	    .from_years = price.from_years,
	    .age_missed = age == AGE_NOT_KNOWN &&
			  station_price_varies(station, item->kind, line->task),
	};
}

day_t
way_price_changes(const struct planning *planning, const struct shore_line *line,
    const struct way *way, day_t after)
{
	const struct item *item = item_of(planning, line);
	day_t born = item_born(item);
	if (way->station == NO_STATION || born == DAY_NONE) {
		return DAY_NEVER;
	}
	int age = station_next_age(
	    &planning->stations[way->station], item->kind, item_age(item, after));
	return age == AGE_NOT_KNOWN ? DAY_NEVER : day_add_months(born, 12 * age);
}

static int
strangeness_of(const struct planning *planning, const struct station *station,
    const struct item *item)
{
	if (strcmp(station->name,
		last_station(planning->stations, planning->station_count, item)) == 0) {
		return 0;
	}
	return station->base[0] == '\0' ? 2 : 1;
}

/* The ways of an item, whatever the days; one to an assumed station where no station of the
 * book will do. */
static void
list_ways(const struct planning *planning, const struct item *item, struct way **ways_out,
    size_t *count_out)
{
	size_t room = 1;
	for (size_t i = 0; i < planning->station_count; i++) {
		room += is_eligible(planning, &planning->stations[i], item);
	}
	struct way *ways = ARENA_MANY(planning->passing, struct way, room);
	size_t count = 0;
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		if (is_eligible(planning, station, item)) {
			ways[count++] = (struct way){i, station->name,
			    planning->first_open[i], planning->last_hand_in[i],
			    strangeness_of(planning, station, item)};
		}
	}
	if (count == 0) {
		ways[count++] = (struct way){NO_STATION,
		    last_station(planning->stations, planning->station_count, item),
		    first_day(planning),
		    station_last_hand_in(planning->assumed, planning->back_by), 0};
	}
	*ways_out = ways;
	*count_out = count;
}

static const struct station *
station_of(const struct planning *planning, const struct way *way)
{
	return way->station == NO_STATION ? planning->assumed
					  : &planning->stations[way->station];
}

/* ---- what is said of it ---- */

/* A text in the arena. */
static const char *
kept(const struct planning *planning, const struct text *words)
{
	return arena_string(planning->arena, text_string(words));
}

/* Says why no station of the book is approved for the item, where it is its make that keeps
 * it from one. */
static void
note_make(const struct planning *planning, struct shore_line *line)
{
	const struct item *item = item_of(planning, line);
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		enum station_fit fit = station_fit(station, item->kind, item->make);
		bool speaks = in_reach(planning, station, item) &&
			      (fit == FIT_ASK || fit == FIT_OTHER_MAKE);
		if (speaks) {
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
static void
add_cure(struct text *words, const char *format, const char *first, const char *second)
{
	SCOPED_TEXT cure = {0};
	text_add(words, words->length == 0 ? "" : "; ");
	for (const char *at = format; *at != '\0'; at++) {
		if (*at == '@') {
			text_add(&cure, first);
			first = second;
		} else {
			text_add_byte(&cure, *at);
		}
	}
	text_add(words, text_string(&cure));
}

/* Stations that could have it back in time but for their base or their makes. */
static void
add_other_stations(
    const struct planning *planning, const struct item *item, struct text *words)
{
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		enum station_fit fit = station_fit(station, item->kind, item->make);
		bool in_time = planning->last_hand_in[i] != DAY_NONE &&
			       planning->first_open[i] <= planning->last_hand_in[i];
		if (!in_time || station->left_out) {
			continue;
		}
		if (fit == FIT_YES && !in_reach(planning, station, item)) {
			add_cure(words, "@ at @ could have it back in time",
			    station->name, station->base);
		} else if (fit == FIT_ASK) {
			add_cure(words,
			    "@ could have it back in time if it is approved for its make",
			    station->name, "");
		}
	}
}

/* The day by which it should have been handed in, or still may be before lay-up. */
static void
add_earlier(const struct planning *planning, const struct way *ways, size_t count,
    struct text *words)
{
	char buffer[DAY_WORDS_SIZE];
	day_t last = DAY_NONE;
	for (size_t i = 0; i < count; i++) {
		last = day_max(last, ways[i].last);
	}
	if (last == DAY_NONE || last >= first_day(planning)) {
		return;
	}
	add_cure(words,
	    last >= planning->today ? "hand it in before lay-up, by @"
				    : "the last day to hand it in was @",
	    day_words(last, buffer), "");
}

/* A station that could have it back in time, had it not said that it takes nothing in so early. */
static void
add_said(const struct planning *planning, const struct way *ways, size_t count,
    struct text *words)
{
	char buffer[DAY_WORDS_SIZE];
	for (size_t i = 0; i < count; i++) {
		const struct station *station = station_of(planning, &ways[i]);
		if (station->not_before > first_day(planning) &&
		    station_next_open(station, first_day(planning)) <= ways[i].last) {
			add_cure(words,
			    "@ said that it takes nothing in before @: ask it again",
			    station->name, day_words(station->not_before, buffer));
		}
	}
}

/* A day on which they do not go, where a station could have it back in time then. */
static void
add_their_days(const struct planning *planning, const struct way *ways, size_t count,
    struct text *words)
{
	for (size_t i = 0; i < count; i++) {
		struct station station = *station_of(planning, &ways[i]);
		bool theirs = station.goes != 0 || station.away_count > 0;
		station.goes = 0;
		station.away_count = 0;
		if (theirs && station_next_open(&station, first_day(planning)) <=
				  station_last_hand_in(&station, planning->back_by)) {
			add_cure(words,
			    "taken there on a day on which you do not go, it could be "
			    "back in time",
			    "", "");
			return;
		}
	}
}

/* The last day on which it could still go to each station, were it not given up. */
static void
add_after_all(const struct planning *planning, const struct way *ways, size_t count,
    struct text *words)
{
	char by[DAY_WORDS_SIZE];
	for (size_t i = 0; i < count; i++) {
		if (ways[i].last != DAY_NONE && ways[i].last >= first_day(planning)) {
			add_cure(words, "a day for it after all, at @ by @",
			    ways[i].name[0] == '\0' ? "an approved station"
						    : ways[i].name,
			    day_words(ways[i].last, by));
		}
	}
}

static void
find_cure(const struct planning *planning, const struct way *ways, size_t count,
    struct shore_line *line)
{
	SCOPED_TEXT words = {0};
	if (line->given_up != NULL) {
		add_after_all(planning, ways, count, &words);
	}
	add_other_stations(planning, item_of(planning, line), &words);
	add_said(planning, ways, count, &words);
	add_their_days(planning, ways, count, &words);
	add_earlier(planning, ways, count, &words);
	if (line->given_up == NULL && line->first_possible != DAY_NONE &&
	    line->first_possible <= planning->list->winter.fitting_out) {
		add_cure(
		    &words, "it is back by fitting-out, but within her margin", "", "");
	}
	add_cure(&words, "a stand-in until it is back", "", "");
	line->cure = kept(planning, &words);
}

/* The earliest day on which what is handed in from `day` on is back. A later hand-in may be
 * back sooner. */
static day_t
earliest_back(const struct station *station, day_t day)
{
	day_t back = DAY_NEVER;
	for (day = station_next_open(station, day); day < back && day != DAY_NEVER;
	     day = station_next_open(station, day + 1)) {
		back = day_min(back, station_collect(station, day));
	}
	return back;
}

/* The earliest day on which it could be back by any of the ways; DAY_NONE for none. */
static day_t
first_back(const struct planning *planning, const struct way *ways, size_t count)
{
	day_t back = DAY_NEVER;
	for (size_t i = 0; i < count; i++) {
		const struct station *station = station_of(planning, &ways[i]);
		back = day_min(back, earliest_back(station, day_max(first_day(planning),
								station->not_before)));
	}
	return back == DAY_NEVER ? DAY_NONE : back;
}

/* Says that a person gave its hand-in up, where one did. */
static bool
note_given_up(const struct planning *planning, struct shore_line *line)
{
	SCOPED_TEXT words = {0};
	line->given_up = settled_given_up(planning, item_of(planning, line)->tag);
	if (line->given_up != NULL) {
		text_add_format(&words, "given up for this winter: %s", line->given_up);
		line->why = kept(planning, &words);
	}
	return line->given_up != NULL;
}

/* Names the first day the item could be back, why that is too late, and what would help. */
static void
add_cannot(const struct planning *planning, const struct way *ways, size_t count,
    struct shore_line line)
{
	line.first_possible = first_back(planning, ways, count);
	line.why =
	    line.first_possible == DAY_NONE
		? "the station never opens"
		: "even handed in on the station's next open day it is back too late for "
		  "fitting-out";
	(void)note_given_up(planning, &line);
	find_cure(planning, ways, count, &line);
	lines_add(planning->arena, &planning->list->cannot, &line);
}

/* Says what a line needs that no trip is left for: one to a station, and by when. */
static void
add_one_more_trip(const struct planning *planning, const struct hand_in *hand_in,
    struct shore_line *line)
{
	char by[DAY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	day_t back = DAY_NEVER;
	for (size_t i = 0; i < hand_in->way_count; i++) {
		const struct way *way = &hand_in->ways[i];
		add_cure(&words, "one more trip, to @ by @",
		    way->name[0] == '\0' ? "an approved station" : way->name,
		    day_words(way->last, by));
		back =
		    day_min(back, earliest_back(station_of(planning, way), way->first));
	}
	line->why = "it would take more trips than you will make";
	line->first_possible = back == DAY_NEVER ? DAY_NONE : back;
	line->cure = kept(planning, &words);
}

void
add_no_room(const struct planning *planning, const struct hand_in *hand_in, bool trips)
{
	struct shore_line line = hand_in->line;
	line.why =
	    "the station takes so many pieces a week, and the weeks that would do are "
	    "full";
	if (note_given_up(planning, &line)) {
		line.first_possible =
		    first_back(planning, hand_in->ways, hand_in->way_count);
		trips = false;
	}
	if (trips) {
		add_one_more_trip(planning, hand_in, &line);
	} else {
		find_cure(planning, hand_in->ways, hand_in->way_count, &line);
	}
	lines_add(planning->arena, &planning->list->cannot, &line);
}

/* ---- ways ---- */

/* Keeps the ways with a day that does, none of them before `not_before` (DAY_NONE: any).
 * Leaves `ways` as it is when none has. */
static bool
keep_ways(
    const struct planning *planning, day_t not_before, struct way *ways, size_t *count)
{
	size_t kept_count = 0;
	for (size_t i = 0; i < *count; i++) {
		struct way way = ways[i];
		if (not_before != DAY_NONE && not_before > way.first) {
			way.first =
			    station_next_open(station_of(planning, &way), not_before);
		}
		if (way.last != DAY_NONE && way.first <= way.last) {
			ways[kept_count++] = way;
		}
	}
	if (kept_count == 0) {
		return false;
	}
	*count = kept_count;
	return true;
}

/* Keeps the ways to stations where a person's day for it lies ahead, too late as that is. Leaves
 * `ways` as it is when there is none. */
static bool
keep_chosen(const struct planning *planning, const struct shore_line *line,
    struct way *ways, size_t *count)
{
	const char *tag = item_of(planning, line)->tag;
	size_t kept_count = 0;
	for (size_t i = 0; i < *count; i++) {
		if (settled_is_kept_at(planning, tag, ways[i].name)) {
			ways[kept_count++] = ways[i];
		}
	}
	*count = kept_count > 0 ? kept_count : *count;
	return kept_count > 0;
}

static void
add_hand_in(struct arena *arena, struct hand_ins *list, const struct hand_in *hand_in)
{
	ARENA_ROOM(arena, list);
	list->items[list->count++] = *hand_in;
}

/* The last day, up to a given one, on which gear of a boat in use all year may go one way: the station
 * takes it in then, and she is not let until it can be fetched. DAY_NONE when there is none. */
static day_t
last_between_bookings(const struct planning *planning, const struct way *way, day_t last)
{
	const struct station *station = station_of(planning, way);
	const struct vessel *vessel = planning->vessel;
	for (day_t day = last; day >= way->first; day--) {
		if (station_open(station, day) &&
		    !booking_meets(vessel->bookings, vessel->booking_count,
			(struct span){day, station_collect(station, day)})) {
			return day;
		}
	}
	return DAY_NONE;
}

/* A boat in use all year hands in while it is in date, and between her bookings, where a station can
 * be reached so: up to the last day on which that is. Where none can, it goes late. */
static void
keep_in_date(const struct planning *planning, const struct shore_line *line,
    struct way *ways, size_t count)
{
	day_t *lasts = ARENA_MANY(planning->scratch, day_t, count);
	bool any = false;
	for (size_t i = 0; i < count && line->due != DAY_NONE; i++) {
		lasts[i] = last_between_bookings(
		    planning, &ways[i], day_min(ways[i].last, line->due));
		any = any || lasts[i] != DAY_NONE;
	}
	for (size_t i = 0; i < count && any; i++) {
		ways[i].last =
		    lasts[i] != DAY_NONE ? lasts[i] : day_min(ways[i].last, line->due);
	}
}

void
find_ways(
    const struct planning *planning, struct shore_line line, struct hand_ins *hand_ins)
{
	struct way *ways = NULL;
	size_t count = 0;
	list_ways(planning, item_of(planning, &line), &ways, &count);
	assert(ways != NULL);
	day_t last = DAY_NONE;
	for (size_t i = 0; i < count; i++) {
		last = day_max(last, ways[i].last);
	}
	if (!planning->list->has_winter) {
		keep_in_date(planning, &line, ways, count);
	} else {
		find_not_before(planning, line.item, line.task,
		    last == DAY_NONE ? planning->list->winter.lay_up : last,
		    &line.not_before, &line.carries);
	}
	const struct shore_line asked = line;
	bool found = keep_ways(planning, line.not_before, ways, &count);
	if (!found && line.not_before != DAY_NONE) {
		/* It could be back in time, but not done so late that it carries her through:
		 * better serviced and due in the season than not serviced at all. */
		line.carries = false;
		line.not_before = DAY_NONE;
		found = keep_ways(planning, DAY_NONE, ways, &count);
	}
	if (!found) {
		if (!keep_chosen(planning, &line, ways, &count)) {
			add_cannot(planning, ways, count, line);
			return;
		}
		line = asked; /* what it says holds still, too */
	}
	if (ways[0].station == NO_STATION) {
		note_make(planning, &line);
	}
	const struct hand_in hand_in = {line, ways, count};
	add_hand_in(planning->passing, hand_ins, &hand_in);
}
