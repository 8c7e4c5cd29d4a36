/* The fields of vessels and stations, a row each, as gear/fields.h has those of an
 * item. */
#ifndef BECKET_GEAR_FLEET_FIELDS_H
#define BECKET_GEAR_FLEET_FIELDS_H

#include "gear/fields.h"

/* OWN(...) is a vessel's own value, TIMED(...) holds from a day on and stands in a period; both
 * have
 *
 *     id, member, type, column in the book,
 *     FIELD_OPTION(option, what is expected, help), the rest of the struct field
 *
 * PART(id, option) is a list, or a value of more parts than one, which code of its own reads,
 * writes and loads; ASIDE(id, option) is no field, but says how the others are meant. Theirs is
 * FIELD_WORD(...) with the same three, FIELD_WORDS(...) for one that may come again, or
 * FIELD_FLAG(option, help). All in the order in which the options are listed. */
// clang-format off
#define VESSEL_ROWS(OWN, TIMED, PART, ASIDE) \
	TIMED(USE, use, USE, "use", \
	    FIELD_OPTION("use", "private|commercial", "what she is used for"), .least = 0) \
	ASIDE(FROM, FIELD_WORD("from", "DATE", \
	    "the day from which use, area, persons, season, base, lay-up and sheets hold")) \
	ASIDE(CORRECTION, FIELD_FLAG("correction", "what the book has was wrong: it was so for as long")) \
	/* the day, and why */ \
	PART(LEFT, FIELD_WORD("left", "DATE", \
	    "she leaves the fleet: the first day without her")) \
	ASIDE(BECAUSE, FIELD_WORD("because", "sold|lost|condemned|given-back", "why she leaves")) \
	ASIDE(GEAR, FIELD_WORD("gear", "with-her|spares|withdrawn", \
	    "what becomes of her gear when she leaves")) \
	ASIDE(BACK, FIELD_FLAG("back", "she did not leave, or is back")) \
	PART(LAY_UP, FIELD_WORD("lay-up", "MM-DD..MM-DD|none", \
	    "out of use every year; none for all year afloat")) \
	PART(WINTERS, FIELD_WORDS("winter", "YEAR=DATE..DATE", \
	    "a single winter with days of its own")) \
	PART(SHEETS, FIELD_WORDS("sheet", "NAME", \
	    "a rule sheet she follows; those given replace the ones before")) \
	/* "" when not known */ \
	TIMED(AREA, area, TEXT, "area", \
	    FIELD_OPTION("area", "AREA", "where she sails, as sheets name it"), .least = 0, .null = true) \
	/* 0 when not known; the next one likewise */ \
	OWN(LENGTH, length_cm, LENGTH, "length_cm", \
	    FIELD_OPTION("length", "METRES", "her length, as 10.45"), .least = 0, .null = true) \
	TIMED(PERSONS, persons, COUNT, "persons", \
	    FIELD_OPTION("persons", "N", "persons aboard"), .most = 10000, .null = true) \
	/* months a year in which she is in use */ \
	TIMED(SEASON, season_months, COUNT, "season_months", \
	    FIELD_OPTION("season-months", "N", "in how many months a year she is in use"), \
	    .least = 1, .most = 12, .null = true) \
	/* those months all have a mean daily minimum above 0 C: 1 yes, -1 no */ \
	TIMED(FREEZING, above_freezing, EITHER, "above_freezing", \
	    FIELD_OPTION("above-freezing", "yes|no", \
		"only in months with a mean daily minimum above 0 C"), .least = 0) \
	/* her gear lies dry out of season: likewise */ \
	TIMED(DRY, dry_storage, EITHER, "dry_storage", \
	    FIELD_OPTION("dry-storage", "yes|no", "her gear lies dry out of season"), .least = 0) \
	/* year */ \
	OWN(BUILT, built, COUNT, "built", \
	    FIELD_OPTION("built", "YEAR", "the year she was built"), .least = 1800, .most = 2199, .null = true) \
	PART(BASE, FIELD_WORD("base", "PLACE", "where she lies")) \
	/* spares at a base: no boat, never mustered */ \
	OWN(STORE, store, FLAG, "store", \
	    FIELD_OPTION("store", "yes|no", \
		"no boat: the spares kept at her base, never mustered"), .least = 0) \
	PART(GOES, FIELD_WORD("goes", "DAYS", \
	    "the days of the week on which her gear is taken to a station, as sat,sun; or all")) \
	PART(AWAY, FIELD_WORDS("not", "DATE..DATE|none", \
	    "days on which it is not; those given replace the ones before")) \
	/* to stations in one winter, at most; 0 any number */ \
	OWN(TRIPS, most_trips, COUNT, "most_trips", \
	    FIELD_OPTION("trips", "N|any", \
		"most trips to stations in one winter; any for any number"), \
	    .least = 1, .most = TRIPS_MOST, .none = "any", .key = "trips", .null = true) \
	/* gear must be back this long before fitting-out */ \
	OWN(MARGIN, margin_days, COUNT, "margin_days", \
	    FIELD_OPTION("margin", "DAYS", "gear is to be back this long before fitting-out"), \
	    .most = 365)

/* The same of a station. Its weekdays are a part, for the book keeps beside them whether
 * they are known. */
#define STATION_ROWS(OWN, PART) \
	/* the base it serves; "" for every base */ \
	OWN(BASE, base, TEXT, "base", \
	    FIELD_OPTION("base", "PLACE", "the base it serves; every base when not told"), .least = 0, .null = true) \
	/* days from hand-in on, closed periods left out */ \
	OWN(TURN_ROUND, turn_round_days, COUNT, "turn_round_days", \
	    FIELD_OPTION("turn-round", "DAYS", "days from hand-in on, closed periods left out"), \
	    .most = 365) \
	PART(PACES, FIELD_WORDS("turn-round-in", "MM..MM=DAYS|none", \
	    "the same for gear handed in in these months, as 02..04=28; those given replace the " \
	    "ones before")) \
	PART(CLOSED, FIELD_WORDS("closed", "MM-DD..MM-DD|DATE..DATE|none", \
	    "closed every year, or once; those given replace the ones before")) \
	PART(OPEN, FIELD_WORD("open", "DAYS", \
	    "days of the week on which it takes gear in, as mon-fri,sun; or all")) \
	/* this once it takes nothing in before this day; DAY_NONE not said. What is \
	 * there can be fetched all the same */ \
	OWN(NOT_BEFORE, not_before, DAY, "not_before_day", \
	    FIELD_OPTION("not-before", "DAY|none", \
		"it said that it takes nothing in before this day, this once"), .none = "none", .key = "not_before") \
	/* most pieces it takes in from Monday to Sunday; 0 no limit */ \
	OWN(WEEKLY, weekly_pieces, COUNT, "weekly_pieces", \
	    FIELD_OPTION("weekly", "N", \
		"most pieces it takes in from Monday to Sunday; 0 no limit"), .least = 0, .key = "weekly", .null = true) \
	PART(KINDS, FIELD_WORD("kinds", "KIND,KIND|all", \
	    "what it services, as lifejackets,epirb; every kind when not told")) \
	PART(MAKES, FIELD_WORDS("makes", "KIND=MAKE,MAKE|KIND=all", \
	    "the makes of a kind it is approved for; every make when not told")) \
	PART(PRICES, FIELD_WORDS("price", "KIND[:TASK][@Ny]=PRICE|none", \
	    "what it asks for one piece: for one task, or for all that have no price of their own; " \
	    "from an age on, as @10y; none forgets it, or all")) \
	/* what carrying or sending one piece costs on top of a trip, both ways; 0 none */ \
	OWN(CARRIAGE, carriage_minor, PRICE, "carriage_minor", \
	    FIELD_OPTION("carriage", "PRICE", \
		"what carrying or sending one piece costs beside the trip, both ways"), .least = 0, .key = "carriage") \
	/* what one trip, there and back with a boat's or a base's gear and once more to fetch it, \
	 * costs; 0 not known */ \
	OWN(TRIP, trip_minor, PRICE, "trip_minor", \
	    FIELD_OPTION("trip", "PRICE", \
		"what a trip there costs, handing in and collecting"), .least = 0, .key = "trip")
// clang-format on

#define VESSEL_ID(id, ...) VESSEL_##id,
#define STATION_ID(id, ...) STATION_##id,

enum vessel_field {
	VESSEL_ROWS(VESSEL_ID, VESSEL_ID, VESSEL_ID, FIELD_NOTHING) VESSEL_FIELD_COUNT
};

enum station_field { STATION_ROWS(STATION_ID, STATION_ID) STATION_FIELD_COUNT };

/* What a vessel is, and what holds of her from a day on; what a station is. */
struct vessel_values {
	VESSEL_ROWS(FIELD_MEMBER, FIELD_NOTHING, FIELD_NOTHING, FIELD_NOTHING)
};

struct period_values {
	VESSEL_ROWS(FIELD_NOTHING, FIELD_MEMBER, FIELD_NOTHING, FIELD_NOTHING)
};

struct station_values {
	STATION_ROWS(FIELD_MEMBER, FIELD_NOTHING)
};

/* The same members in another struct, one by one and together. */
#define VESSEL_VALUES                                                                    \
	union {                                                                          \
		struct vessel_values own;                                                \
		struct {                                                                 \
			VESSEL_ROWS(                                                     \
			    FIELD_MEMBER, FIELD_NOTHING, FIELD_NOTHING, FIELD_NOTHING)   \
		};                                                                       \
	}
#define PERIOD_VALUES                                                                    \
	union {                                                                          \
		struct period_values timed;                                              \
		struct {                                                                 \
			VESSEL_ROWS(                                                     \
			    FIELD_NOTHING, FIELD_MEMBER, FIELD_NOTHING, FIELD_NOTHING)   \
		};                                                                       \
	}
#define STATION_VALUES                                                                   \
	union {                                                                          \
		struct station_values own;                                               \
		struct {                                                                 \
			STATION_ROWS(FIELD_MEMBER, FIELD_NOTHING)                        \
		};                                                                       \
	}

/* The rows by enum vessel_field and enum station_field, of struct vessel_change and
 * struct station_change. A part has no name and no type. */
extern const struct field VESSEL_FIELDS[VESSEL_FIELD_COUNT];
extern const struct field STATION_FIELDS[STATION_FIELD_COUNT];

#endif
