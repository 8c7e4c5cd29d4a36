/* What changes vessels and stations. */
#include "book/statements_inside.h"

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
    CHANGES(ROWS_ONE, WINTER_PUT,
	"INSERT INTO vessel_winter (vessel_id, year, first_day, last_day) "
	"VALUES ($1, $2, $3, $4) ON CONFLICT (vessel_id, year) DO UPDATE "
	"SET first_day = excluded.first_day, last_day = excluded.last_day"),
    CHANGES(ROWS_ANY, AWAY_DROP, "DELETE FROM vessel_away WHERE vessel_id = $1"),
    CHANGES(ROWS_ONE, AWAY_ADD,
	"INSERT INTO vessel_away "
	"(vessel_id, position, first_day, last_day) VALUES ($1, $2, $3, $4)"),
    CHANGES(ROWS_ONE, BOOKING_ADD,
	"INSERT INTO booking (id, vessel_id, first_day, last_day, persons, "
	"children, note) VALUES ($1, $2, $3, $4, $5, $6, $7)"),
    CHANGES(ROWS_ONE_AT_MOST, BOOKING_CHANGE,
	"UPDATE booking SET first_day = $1, last_day = $2, persons = $3, children = $4, "
	"note = $5 WHERE vessel_id = $6 AND first_day = $7"),
    CHANGES(ROWS_ONE_AT_MOST, BOOKING_DROP,
	"DELETE FROM booking WHERE vessel_id = $1 AND first_day = $2"),
    CHANGES(ROWS_ANY, SHEETS_DROP, "DELETE FROM vessel_sheet WHERE vessel_id = $1"),
    CHANGES(ROWS_ANY, PERIOD_SHEETS_DROP,
	"DELETE FROM vessel_period_sheet WHERE vessel_id = $1 AND from_day = $2"),
    CHANGES(ROWS_ONE, PERIOD_SHEET_ADD,
	"INSERT INTO vessel_period_sheet (vessel_id, from_day, position, "
	"sheet) VALUES ($1, $2, $3, $4)"),
    CHANGES(ROWS_ONE, SHEET_ADD,
	"INSERT INTO vessel_sheet (vessel_id, position, sheet) VALUES ($1, $2, $3)"),

    READS(STATION_FIND, "SELECT id FROM station WHERE name = $1"),
    CHANGES(ROWS_ONE, STATION_ADD, "INSERT INTO station (id, name) VALUES ($1, $2)"),
    CHANGES(ROWS_ONE, STATION_CHANGE,
	"UPDATE station SET weekdays = COALESCE($weekdays, weekdays), "
	"weekdays_known = CASE WHEN $weekdays IS NULL THEN weekdays_known "
	"ELSE 1 END" STATION_OWN_ROWS(FLEET_SET) " WHERE id = $id"),
    CHANGES(ROWS_ANY, CLOSURES_DROP, "DELETE FROM station_closure WHERE station_id = $1"),
    CHANGES(ROWS_ONE, CLOSURE_ADD,
	"INSERT INTO station_closure "
	"(station_id, position, first_day, last_day) VALUES ($1, $2, $3, $4)"),
    CHANGES(
	ROWS_ANY, STATION_KINDS_DROP, "DELETE FROM station_kind WHERE station_id = $1"),
    CHANGES(ROWS_ONE, STATION_KIND_ADD,
	"INSERT INTO station_kind (station_id, position, kind) VALUES ($1, $2, $3)"),
    CHANGES(ROWS_ANY, SHUT_DROP, "DELETE FROM station_shut WHERE station_id = $1"),
    CHANGES(ROWS_ONE, SHUT_ADD,
	"INSERT INTO station_shut "
	"(station_id, position, first_day, last_day) VALUES ($1, $2, $3, $4)"),
    CHANGES(ROWS_ANY, PACES_DROP, "DELETE FROM station_pace WHERE station_id = $1"),
    CHANGES(ROWS_ONE, PACE_ADD,
	"INSERT INTO station_pace "
	"(station_id, position, first_month, last_month, turn_round_days) "
	"VALUES ($1, $2, $3, $4, $5)"),
    CHANGES(ROWS_ANY, MAKES_DROP,
	"DELETE FROM station_make WHERE station_id = $1 AND kind = $2"),
    CHANGES(ROWS_ONE_AT_MOST, MAKE_ADD,
	"INSERT INTO station_make (station_id, kind, make) "
	"VALUES ($1, $2, $3) ON CONFLICT (station_id, kind, make) DO NOTHING"),
    CHANGES(ROWS_ANY, PRICES_DROP, "DELETE FROM station_price WHERE station_id = $1"),
    CHANGES(ROWS_ONE, PRICE_PUT,
	"INSERT INTO station_price (station_id, kind, task, price_minor) "
	"VALUES ($1, $2, $3, $4) ON CONFLICT (station_id, kind, task) "
	"DO UPDATE SET price_minor = excluded.price_minor"),
    CHANGES(ROWS_ONE_AT_MOST, PRICE_DROP,
	"DELETE FROM station_price WHERE station_id = $1 AND kind = $2 AND task = $3"),
    CHANGES(ROWS_ANY, STEPS_DROP, "DELETE FROM station_price_step WHERE station_id = $1"),
    CHANGES(ROWS_ANY, STEPS_DROP_OF,
	"DELETE FROM station_price_step "
	"WHERE station_id = $1 AND kind = $2 AND task = $3"),
    CHANGES(ROWS_ONE, STEP_PUT,
	"INSERT INTO station_price_step "
	"(station_id, kind, task, from_years, price_minor) VALUES ($1, $2, $3, $4, $5) "
	"ON CONFLICT (station_id, kind, task, from_years) "
	"DO UPDATE SET price_minor = excluded.price_minor"),
    CHANGES(ROWS_ONE_AT_MOST, STEP_DROP,
	"DELETE FROM station_price_step "
	"WHERE station_id = $1 AND kind = $2 AND task = $3 AND from_years = $4"),
};
