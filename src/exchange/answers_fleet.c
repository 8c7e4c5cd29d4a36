#include "dates/weekdays.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"
#include "gear/fleet_change.h"

/* The nth field of a vessel, of those that always hold or of those that hold from a day
 * on. */
static const struct field *
vessel_field(size_t nth, bool timed)
{
	for (size_t i = 0; i < VESSEL_FIELD_COUNT; i++) {
		const struct field *field = &VESSEL_FIELDS[i];
		if (!field->part && field->timed == timed && nth-- == 0) {
			return field;
		}
	}
	return NULL;
}

static const struct field *
own_field(size_t nth)
{
	return vessel_field(nth, false);
}

static const struct field *
timed_field(size_t nth)
{
	return vessel_field(nth, true);
}

static const struct field *
station_field(size_t nth)
{
	for (size_t i = 0; i < STATION_FIELD_COUNT; i++) {
		if (!STATION_FIELDS[i].part && nth-- == 0) {
			return &STATION_FIELDS[i];
		}
	}
	return NULL;
}

static ANSWER_FIELDS(VESSEL_KEYS, "a vessel", own_field, "vessel", "base",
    "store: no boat, but the spares kept at her base", "left: the first day without her",
    "periods: what holds from a day on", "length_cm", "built", "margin_days",
    "goes: the days of the week on which her gear is taken to a station",
    "not: days on which it is not", "trips: at most in one winter; null for any number",
    "lay_up: every year", "winters: those with days of their own", "sheets",
    KEYS_OF_FIELDS);

static ANSWER_FIELDS(PERIOD_KEYS, "a period", timed_field, "from", KEYS_OF_FIELDS, "base",
    "lay_up", "sheets");

static ANSWER_KEYS(AWAY_KEYS, "a time away", "from", "to");

static ANSWER_KEYS(
    WINTER_KEYS, "a winter", "winter: the year it begins in", "lay_up", "fitting_out");

const struct answer_keys *const KEYS_OF_VESSELS[] = {
    &VESSEL_KEYS, &PERIOD_KEYS, &AWAY_KEYS, &WINTER_KEYS, NULL};

static struct json
yearly(bool told, struct yearly yearly, char buffer[YEARLY_TEXT_SIZE])
{
	bool some = told && yearly.first_month != 0;
	return json_words(some ? yearly_text(yearly, buffer) : NULL);
}

static struct json
periods(const struct vessel *vessel)
{
	struct json array = json_list();
	for (size_t i = 0; i < vessel->period_count; i++) {
		const struct period *period = &vessel->periods[i];
		const struct vessel_change values = {.timed = period->timed};
		bool own = period->sheet_count > 0;
		char lay_up[YEARLY_TEXT_SIZE];
		struct json object = JSON_PUT(
		    json_begun(), &PERIOD_KEYS, JSON_NEXT, json_day(period->from));
		json_put_fields(object, &PERIOD_KEYS, &values);
		json_push(array,
		    JSON_PUT(object, &PERIOD_KEYS, JSON_LAST, json_words(period->base),
			yearly(period->laid_up, period->lay_up, lay_up),
			own ? json_strings(period->sheets, period->sheet_count)
			    : json_strings(vessel->sheets, vessel->sheet_count)));
	}
	return array;
}

static struct json
odd_winters(const struct vessel *vessel)
{
	struct json array = json_list();
	for (size_t i = 0; i < vessel->odd_winter_count; i++) {
		const struct odd_winter *odd = &vessel->odd_winters[i];
		json_push(
		    array, JSON_OF(&WINTER_KEYS, json_whole(odd->year),
			       json_day(odd->span.first), json_day(odd->span.last)));
	}
	return array;
}

/* Days on which nobody goes to a station with her gear. */
static struct json
away(const struct vessel *vessel)
{
	struct json array = json_list();
	for (size_t i = 0; i < vessel->away_count; i++) {
		json_push(array, JSON_OF(&AWAY_KEYS, json_day(vessel->away[i].first),
				     json_day(vessel->away[i].last)));
	}
	return array;
}

static struct json
vessel_object(const struct vessel *vessel)
{
	const struct vessel_change values = {.own = vessel->own};
	char goes[WEEKDAYS_TEXT_SIZE];
	char lay_up[YEARLY_TEXT_SIZE];
	struct json object = JSON_PUT(json_begun(), &VESSEL_KEYS, JSON_NEXT,
	    json_text(vessel->name), json_words(vessel->base),
	    json_field(&VESSEL_FIELDS[VESSEL_STORE], &values),
	    json_day(vessel->leaves ? vessel->left : DAY_NONE), periods(vessel),
	    json_field(&VESSEL_FIELDS[VESSEL_LENGTH], &values),
	    json_field(&VESSEL_FIELDS[VESSEL_BUILT], &values),
	    json_field(&VESSEL_FIELDS[VESSEL_MARGIN], &values),
	    json_words(vessel->goes == 0 ? "" : weekdays_text(vessel->goes, goes)),
	    away(vessel), json_field(&VESSEL_FIELDS[VESSEL_TRIPS], &values),
	    yearly(vessel->laid_up, vessel->lay_up, lay_up), odd_winters(vessel),
	    json_strings(vessel->sheets, vessel->sheet_count));
	return json_put_fields(object, &VESSEL_KEYS, &values);
}

void
answer_vessels(const struct inventory *inventory, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		answer_element(&answer, vessel_object(&inventory->vessels[i]));
	}
	answer_end(&answer);
}

static ANSWER_FIELDS(STATION_KEYS, "a station", station_field, "station",
    "base: that it serves; null for all", "turn_round_days", "closed: every year",
    "kinds: that it services; empty for every one", "trip: what one there costs",
    "closed_once", "turn_round_in: certain months",
    "open: the days of the week on which it takes gear in",
    "open_supposed: it did not say", "makes: of a kind that it is approved for", "prices",
    "carriage: what carrying a piece costs beside the trip",
    "weekly: most pieces it takes in a week", KEYS_OF_FIELDS);

static ANSWER_KEYS(SHUT_KEYS, "a closure", "first", "last");

static ANSWER_KEYS(PACE_KEYS, "a turn-round", "first_month", "last_month", "days");

static ANSWER_KEYS(MAKE_KEYS, "a make", "kind", "make");

static ANSWER_KEYS(PRICE_KEYS, "a price", "kind", "task: null for each without its own",
    "minor", "from_years: the age from which it holds");

const struct answer_keys *const KEYS_OF_STATIONS[] = {
    &STATION_KEYS, &SHUT_KEYS, &PACE_KEYS, &MAKE_KEYS, &PRICE_KEYS, NULL};

static struct json
shut_array(const struct station *station)
{
	struct json array = json_list();
	for (size_t i = 0; i < station->shut_count; i++) {
		json_push(array, JSON_OF(&SHUT_KEYS, json_day(station->shut[i].first),
				     json_day(station->shut[i].last)));
	}
	return array;
}

static struct json
paces_array(const struct station *station)
{
	struct json array = json_list();
	for (size_t i = 0; i < station->pace_count; i++) {
		const struct station_pace *pace = &station->paces[i];
		json_push(array,
		    JSON_OF(&PACE_KEYS, json_whole(pace->first_month),
			json_whole(pace->last_month), json_whole(pace->turn_round_days)));
	}
	return array;
}

static struct json
makes_array(const struct station *station)
{
	struct json array = json_list();
	for (size_t i = 0; i < station->make_count; i++) {
		json_push(array, JSON_OF(&MAKE_KEYS, json_text(station->makes[i].kind),
				     json_text(station->makes[i].make)));
	}
	return array;
}

static struct json
prices_array(const struct station *station)
{
	struct json array = json_list();
	for (size_t i = 0; i < station->price_count; i++) {
		const struct station_price *of = &station->prices[i];
		json_push(
		    array, JSON_OF(&PRICE_KEYS, json_text(of->kind),
			       json_words(of->every_task ? NULL : task_word(of->task)),
			       json_whole(of->minor), json_whole(of->from_years)));
	}
	return array;
}

static struct json
station_object(const struct station *station)
{
	const struct station_change values = {.own = station->own};
	char buffer[WEEKDAYS_TEXT_SIZE];
	struct json closed = json_list();
	for (size_t i = 0; i < station->closed_count; i++) {
		char days[YEARLY_TEXT_SIZE];
		json_push(closed, yearly(true, station->closed[i], days));
	}
	struct json object = JSON_PUT(json_begun(), &STATION_KEYS, JSON_NEXT,
	    json_text(station->name), json_field(&STATION_FIELDS[STATION_BASE], &values),
	    json_field(&STATION_FIELDS[STATION_TURN_ROUND], &values), closed,
	    json_strings(station->kinds, station->kind_count),
	    json_field(&STATION_FIELDS[STATION_TRIP], &values), shut_array(station),
	    paces_array(station),
	    json_text(weekdays_text(station_weekdays(station), buffer)),
	    json_flag(station->weekdays == 0), makes_array(station),
	    prices_array(station), json_field(&STATION_FIELDS[STATION_CARRIAGE], &values),
	    json_field(&STATION_FIELDS[STATION_WEEKLY], &values));
	return json_put_fields(object, &STATION_KEYS, &values);
}

void
answer_stations(const struct station *stations, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		answer_element(&answer, station_object(&stations[i]));
	}
	answer_end(&answer);
}

static ANSWER_KEYS(PERSON_KEYS, "a person", "name", "right: look, record or manage");

const struct answer_keys *const KEYS_OF_PEOPLE[] = {&PERSON_KEYS, NULL};

void
answer_people(const char *const (*people)[2], size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		answer_element(&answer, JSON_OF(&PERSON_KEYS, json_text(people[i][0]),
					    json_text(people[i][1])));
	}
	answer_end(&answer);
}
