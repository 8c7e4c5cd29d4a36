#include "dates/weekdays.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

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

/* true, false, or null where it is not known. */
static void
put_either(json_t *object, const char *key, int known)
{
	json_put(object, key, known == 0 ? json_null() : json_boolean(known > 0));
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
		json_put_string(object, "use", use_word(period->use));
		json_put_words(object, "area", period->area);
		json_put_number(object, "persons", period->persons, 0);
		json_put_number(object, "season_months", period->season_months, 0);
		put_either(object, "above_freezing", period->above_freezing);
		put_either(object, "dry_storage", period->dry_storage);
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

static json_t *
vessel_object(const struct vessel *vessel)
{
	struct yearly none = {0};
	json_t *object = json_object();
	json_put_string(object, "vessel", vessel->name);
	json_put_words(object, "base", vessel->base);
	json_put_bool(object, "store", vessel->store);
	json_put_day(object, "left", vessel->leaves ? vessel->left : DAY_NONE);
	json_put(object, "periods", periods(vessel));
	json_put_number(object, "length_cm", vessel->length_cm, 0);
	json_put_number(object, "built", vessel->built, 0);
	json_put(object, "margin_days", json_integer(vessel->margin_days));
	char goes[WEEKDAYS_TEXT_SIZE];
	json_put_words(
	    object, "goes", vessel->goes == 0 ? "" : weekdays_text(vessel->goes, goes));
	json_put(object, "not", away(vessel));
	json_put_number(object, "trips", vessel->most_trips, 0);
	put_yearly(object, "lay_up", vessel->laid_up ? vessel->lay_up : none);
	json_put(object, "winters", odd_winters(vessel));
	json_put(object, "sheets", strings(vessel->sheets, vessel->sheet_count));
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
	json_put_number(object, "carriage", station->carriage_minor, 0);
	json_put_number(object, "weekly", station->weekly_pieces, 0);
	json_put_day(object, "not_before", station->not_before);
}

static json_t *
station_object(const struct station *station)
{
	json_t *object = json_object();
	json_put_string(object, "station", station->name);
	json_put_words(object, "base", station->base);
	json_put(object, "turn_round_days", json_integer(station->turn_round_days));
	json_t *closed = json_array();
	for (size_t i = 0; i < station->closed_count; i++) {
		char buffer[YEARLY_TEXT_SIZE];
		json_push(closed, json_string(yearly_text(station->closed[i], buffer)));
	}
	json_put(object, "closed", closed);
	json_put(object, "kinds", strings(station->kinds, station->kind_count));
	json_put_number(object, "trip", station->trip_minor, 0);
	put_times(object, station);
	put_terms(object, station);
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
