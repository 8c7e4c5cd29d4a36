#include "dates/weekdays.h"
#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"
#include "gear/fleet_change.h"

static json_t *
strings(const char *const *items, size_t count)
{
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(array, json_string(items[i]));
	}
	return array;
}

static void
put_yearly(json_t *object, const char *key, struct yearly yearly)
{
	char buffer[YEARLY_TEXT_SIZE];
	json_put_words(
	    object, key, yearly.first_month == 0 ? NULL : yearly_text(yearly, buffer));
}

static json_t *
periods(const struct vessel *vessel)
{
	const struct yearly none = {0};
	json_t *array = json_array();
	for (size_t i = 0; i < vessel->period_count; i++) {
		const struct period *period = &vessel->periods[i];
		json_t *object = json_object();
		json_put_day(object, "from", period->from);
		const struct vessel_change values = {.timed = period->timed};
		for (size_t field = 0; field < VESSEL_FIELD_COUNT; field++) {
			if (VESSEL_FIELDS[field].timed) {
				answer_put_field(object, &VESSEL_FIELDS[field], &values);
			}
		}
		json_put_words(object, "base", period->base);
		put_yearly(object, "lay_up", period->laid_up ? period->lay_up : none);
		json_put(object, "sheets",
		    period->sheet_count > 0
			? strings(period->sheets, period->sheet_count)
			: strings(vessel->sheets, vessel->sheet_count));
		json_push(array, object);
	}
	return array;
}

static json_t *
odd_winters(const struct vessel *vessel)
{
	json_t *array = json_array();
	for (size_t i = 0; i < vessel->odd_winter_count; i++) {
		const struct odd_winter *odd = &vessel->odd_winters[i];
		json_t *object = json_object();
		json_put(object, "winter", json_integer(odd->year));
		json_put_day(object, "lay_up", odd->span.first);
		json_put_day(object, "fitting_out", odd->span.last);
		json_push(array, object);
	}
	return array;
}

/* Days on which nobody goes to a station with her gear. */
static json_t *
away(const struct vessel *vessel)
{
	json_t *array = json_array();
	for (size_t i = 0; i < vessel->away_count; i++) {
		json_t *object = json_object();
		json_put_day(object, "from", vessel->away[i].first);
		json_put_day(object, "to", vessel->away[i].last);
		json_push(array, object);
	}
	return array;
}

/* Those fields of a table that have no place of their own among the keys before. */
static void
put_others(json_t *object, const struct field *fields, size_t count, const void *values)
{
	for (size_t i = 0; i < count; i++) {
		const struct field *field = &fields[i];
		const char *key = field->key == NULL ? field->name : field->key;
		if (!field->part && !field->timed &&
		    json_object_get(object, key) == NULL) {
			answer_put_field(object, field, values);
		}
	}
}

static json_t *
vessel_object(const struct vessel *vessel)
{
	const struct vessel_change values = {.own = vessel->own};
	struct yearly none = {0};
	json_t *object = json_object();
	json_put_string(object, "vessel", vessel->name);
	json_put_words(object, "base", vessel->base);
	answer_put_field(object, &VESSEL_FIELDS[VESSEL_STORE], &values);
	json_put_day(object, "left", vessel->leaves ? vessel->left : DAY_NONE);
	json_put(object, "periods", periods(vessel));
	answer_put_field(object, &VESSEL_FIELDS[VESSEL_LENGTH], &values);
	answer_put_field(object, &VESSEL_FIELDS[VESSEL_BUILT], &values);
	answer_put_field(object, &VESSEL_FIELDS[VESSEL_MARGIN], &values);
	char goes[WEEKDAYS_TEXT_SIZE];
	json_put_words(
	    object, "goes", vessel->goes == 0 ? "" : weekdays_text(vessel->goes, goes));
	json_put(object, "not", away(vessel));
	answer_put_field(object, &VESSEL_FIELDS[VESSEL_TRIPS], &values);
	put_yearly(object, "lay_up", vessel->laid_up ? vessel->lay_up : none);
	json_put(object, "winters", odd_winters(vessel));
	json_put(object, "sheets", strings(vessel->sheets, vessel->sheet_count));
	put_others(object, VESSEL_FIELDS, VESSEL_FIELD_COUNT, &values);
	return object;
}

void
answer_vessels(const struct inventory *inventory, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		json_t *object = vessel_object(&inventory->vessels[i]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

/* The times at which it is shut, or slower. */
static void
put_times(json_t *object, const struct station *station)
{
	char buffer[WEEKDAYS_TEXT_SIZE];
	unsigned weekdays = station_weekdays(station);
	json_t *shut = json_array();
	json_t *paces = json_array();
	for (size_t i = 0; i < station->shut_count; i++) {
		json_t *span = json_object();
		json_put_day(span, "first", station->shut[i].first);
		json_put_day(span, "last", station->shut[i].last);
		json_push(shut, span);
	}
	for (size_t i = 0; i < station->pace_count; i++) {
		const struct station_pace *pace = &station->paces[i];
		json_t *months = json_object();
		json_put(months, "first_month", json_integer(pace->first_month));
		json_put(months, "last_month", json_integer(pace->last_month));
		json_put(months, "days", json_integer(pace->turn_round_days));
		json_push(paces, months);
	}
	json_put(object, "closed_once", shut);
	json_put(object, "turn_round_in", paces);
	json_put_string(object, "open", weekdays_text(weekdays, buffer));
	json_put_bool(object, "open_supposed", station->weekdays == 0);
}

/* What it may do, and for how much. */
static void
put_terms(json_t *object, const struct station *station)
{
	json_t *makes = json_array();
	json_t *prices = json_array();
	for (size_t i = 0; i < station->make_count; i++) {
		json_t *make = json_object();
		json_put_string(make, "kind", station->makes[i].kind);
		json_put_string(make, "make", station->makes[i].make);
		json_push(makes, make);
	}
	for (size_t i = 0; i < station->price_count; i++) {
		const struct station_price *of = &station->prices[i];
		json_t *price = json_object();
		json_put_string(price, "kind", of->kind);
		json_put_words(
		    price, "task", of->every_task ? NULL : task_word(of->task));
		json_put(price, "minor", json_integer((json_int_t)of->minor));
		json_put(price, "from_years", json_integer(of->from_years));
		json_push(prices, price);
	}
	json_put(object, "makes", makes);
	json_put(object, "prices", prices);
}

static json_t *
station_object(const struct station *station)
{
	const struct station_change values = {.own = station->own};
	json_t *object = json_object();
	json_put_string(object, "station", station->name);
	answer_put_field(object, &STATION_FIELDS[STATION_BASE], &values);
	answer_put_field(object, &STATION_FIELDS[STATION_TURN_ROUND], &values);
	json_t *closed = json_array();
	for (size_t i = 0; i < station->closed_count; i++) {
		char buffer[YEARLY_TEXT_SIZE];
		json_push(closed, json_string(yearly_text(station->closed[i], buffer)));
	}
	json_put(object, "closed", closed);
	json_put(object, "kinds", strings(station->kinds, station->kind_count));
	answer_put_field(object, &STATION_FIELDS[STATION_TRIP], &values);
	put_times(object, station);
	put_terms(object, station);
	answer_put_field(object, &STATION_FIELDS[STATION_CARRIAGE], &values);
	answer_put_field(object, &STATION_FIELDS[STATION_WEEKLY], &values);
	put_others(object, STATION_FIELDS, STATION_FIELD_COUNT, &values);
	return object;
}

void
answer_stations(const struct station *stations, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		json_t *object = station_object(&stations[i]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}
