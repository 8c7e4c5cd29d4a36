/* What changes vessels and stations. */
#include "book/statements.h"
#include "book/tables.h"

#define FIRST FLEET_STATEMENTS

#define FLEET_PARAMETER(id, member, type, name, ...) ", $" name
#define FLEET_SET(id, member, type, name, ...) SET_OF(name)
#define FLEET_LATER(id, member, type, name, ...) LATER_OF(name)
#define LATER_OF(name) ", " name " = COALESCE(excluded." name ", vessel_period." name ")"

const struct statement_text STATEMENTS_FLEET[GEAR_STATEMENTS - FIRST] = {
    READS(VESSEL_FIND, "SELECT id FROM vessel WHERE name = $1"),
    CHANGES(ROWS_ONE, VESSEL_ADD, "INSERT INTO vessel (id, name) VALUES ($1, $2)"),
    CHANGES(ROWS_ONE, VESSEL_CHANGE,
	"UPDATE vessel SET base = COALESCE($base, base)" SET_OF("laid_up")
	    SET_OF("lay_up_first") SET_OF("lay_up_last") SET_OF("left_day")
		SET_OF("left_because") SET_OF("goes_weekdays")
		    VESSEL_OWN_ROWS(FLEET_SET) " WHERE id = $id"),
    CHANGES(ROWS_ONE, PERIOD_PUT,
	"INSERT INTO vessel_period (vessel_id, from_day" TIMED_ROWS(FLEET_COLUMN) ", base, laid_up, lay_up_first, lay_up_last) VALUES ($vessel, $from" TIMED_ROWS(
	    FLEET_PARAMETER) ", $base, $laid_up, $lay_up_first, $lay_up_last) "
			     "ON CONFLICT (vessel_id, from_day) DO UPDATE SET vessel_id = excluded.vessel_id" TIMED_ROWS(
				 FLEET_LATER) LATER_OF("base") LATER_OF("laid_up")
				 LATER_OF("lay_up_first") LATER_OF("lay_up_last")),
    CHANGES(
	ROWS_ONE, WINTER_PUT, INTO(vessel_winter, VESSEL_WINTER) OR_ANEW(VESSEL_WINTER)),
    CHANGES(ROWS_ANY, AWAY_DROP, "DELETE FROM vessel_away WHERE vessel_id = $1"),
    CHANGES(ROWS_ONE, AWAY_ADD, INTO(vessel_away, VESSEL_AWAY)),
    CHANGES(ROWS_ONE, BOOKING_ADD, INTO(booking, BOOKING)),
    CHANGES(ROWS_ONE_AT_MOST, BOOKING_CHANGE,
	"UPDATE booking SET first_day = $1, last_day = $2, persons = $3, children = $4, "
	"note = $5 WHERE vessel_id = $6 AND first_day = $7"),
    CHANGES(ROWS_ONE_AT_MOST, BOOKING_DROP,
	"DELETE FROM booking WHERE vessel_id = $1 AND first_day = $2"),
    CHANGES(ROWS_ANY, SHEETS_DROP, "DELETE FROM vessel_sheet WHERE vessel_id = $1"),
    CHANGES(ROWS_ANY, PERIOD_SHEETS_DROP,
	"DELETE FROM vessel_period_sheet WHERE vessel_id = $1 AND from_day = $2"),
    CHANGES(ROWS_ONE, PERIOD_SHEET_ADD, INTO(vessel_period_sheet, VESSEL_PERIOD_SHEET)),
    CHANGES(ROWS_ONE, SHEET_ADD, INTO(vessel_sheet, VESSEL_SHEET)),

    READS(STATION_FIND, "SELECT id FROM station WHERE name = $1"),
    CHANGES(ROWS_ONE, STATION_ADD, "INSERT INTO station (id, name) VALUES ($1, $2)"),
    CHANGES(ROWS_ONE, STATION_CHANGE,
	"UPDATE station SET weekdays = COALESCE($weekdays, weekdays), "
	"weekdays_known = CASE WHEN $weekdays IS NULL THEN weekdays_known "
	"ELSE 1 END" STATION_OWN_ROWS(FLEET_SET) " WHERE id = $id"),
    CHANGES(ROWS_ANY, CLOSURES_DROP, "DELETE FROM station_closure WHERE station_id = $1"),
    CHANGES(ROWS_ONE, CLOSURE_ADD, INTO(station_closure, STATION_CLOSURE)),
    CHANGES(
	ROWS_ANY, STATION_KINDS_DROP, "DELETE FROM station_kind WHERE station_id = $1"),
    CHANGES(ROWS_ONE, STATION_KIND_ADD, INTO(station_kind, STATION_KIND)),
    CHANGES(ROWS_ANY, SHUT_DROP, "DELETE FROM station_shut WHERE station_id = $1"),
    CHANGES(ROWS_ONE, SHUT_ADD, INTO(station_shut, STATION_SHUT)),
    CHANGES(ROWS_ANY, PACES_DROP, "DELETE FROM station_pace WHERE station_id = $1"),
    CHANGES(ROWS_ONE, PACE_ADD, INTO(station_pace, STATION_PACE)),
    CHANGES(ROWS_ANY, MAKES_DROP,
	"DELETE FROM station_make WHERE station_id = $1 AND kind = $2"),
    CHANGES(ROWS_ONE_AT_MOST, MAKE_ADD,
	INTO(station_make, STATION_MAKE) " ON CONFLICT (" KEY_COLUMNS(
	    STATION_MAKE) ") DO NOTHING"),
    CHANGES(ROWS_ANY, PRICES_DROP, "DELETE FROM station_price WHERE station_id = $1"),
    CHANGES(
	ROWS_ONE, PRICE_PUT, INTO(station_price, STATION_PRICE) OR_ANEW(STATION_PRICE)),
    CHANGES(ROWS_ONE_AT_MOST, PRICE_DROP,
	"DELETE FROM station_price WHERE station_id = $1 AND kind = $2 AND task = $3"),
    CHANGES(ROWS_ANY, STEPS_DROP, "DELETE FROM station_price_step WHERE station_id = $1"),
    CHANGES(ROWS_ANY, STEPS_DROP_OF,
	"DELETE FROM station_price_step "
	"WHERE station_id = $1 AND kind = $2 AND task = $3"),
    CHANGES(ROWS_ONE, STEP_PUT,
	INTO(station_price_step, STATION_PRICE_STEP) OR_ANEW(STATION_PRICE_STEP)),
    CHANGES(ROWS_ONE_AT_MOST, STEP_DROP,
	"DELETE FROM station_price_step "
	"WHERE station_id = $1 AND kind = $2 AND task = $3 AND from_years = $4"),
};
