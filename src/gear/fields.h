/* The fields of gear and of what was done to it, a row each, and what can be done with any of
 * them. One row makes the member of the struct, the column of the inventory, the option, the
 * key of the JSON answer, the column of the book and the words that show it; DEVELOPERS.md says
 * how to add one. */
#ifndef BECKET_GEAR_FIELDS_H
#define BECKET_GEAR_FIELDS_H

#include "base/text.h"
#include "dates/stamp.h"
#include "gear/movement.h"
#include "gear/words.h"

#include <stdint.h>

/* What a field holds. Its C type is named below; what is not known is "", STAMP_NONE, DAY_NONE,
 * a number's `blank`. */
enum value_type {
	VALUE_TEXT,  /* words as they are */
	VALUE_NAME,  /* words on one line, without blanks around them */
	VALUE_KIND,  /* an id in the kinds catalogue */
	VALUE_STAMP, /* a date as a label has it */
	VALUE_DAY,   /* a day, to the day */
	VALUE_COUNT, /* a whole number */
	VALUE_PRICE, /* minor units */
	VALUE_STATE,
	VALUE_BECAUSE,
	VALUE_TASK,
	VALUE_USE,
	VALUE_LENGTH, /* centimetres */
	VALUE_FLAG,   /* yes; no is told by nothing */
	VALUE_EITHER, /* yes 1, no -1, 0 not known */
};

#define FIELD_C_TEXT const char *
#define FIELD_C_NAME const char *
#define FIELD_C_KIND const char *
#define FIELD_C_STAMP struct stamp
#define FIELD_C_DAY day_t
#define FIELD_C_COUNT int
#define FIELD_C_PRICE int64_t
#define FIELD_C_STATE enum place_state
#define FIELD_C_BECAUSE enum because
#define FIELD_C_TASK enum task
#define FIELD_C_USE enum use
#define FIELD_C_LENGTH int
#define FIELD_C_FLAG bool
#define FIELD_C_EITHER int

enum { FIELD_NUMBER_MOST = 100000 }; /* the largest count that is taken */

/* One row of the table, beside its member and its type. */
struct field {
	/* its column in the inventory and its key in JSON: "part_of"; an option is spelt with
	 * hyphens */
	const char *name;
	const char *key;    /* in JSON, where that is not its name; or NULL */
	const char *option; /* NULL for none that `enter` and `amend` share */
	/* other headers met in people's lists, in English, German, French and Norwegian: small
	 * letters without accents, blanks and punctuation, with a blank between two */
	const char *synonyms;
	const char *label; /* what `show` calls it; NULL for its name */
	const char *unit;  /* what a count counts: "person"; NULL for nothing */
	const char *none; /* what is typed to take it away; NULL for "" where that does */
	enum value_type type;
	size_t
	    offset; /* in struct item_change, struct record, _vessel_ or _station_change */
	int least;  /* a count that is told is that or more, */
	int most;   /* and this or less; 0 for FIELD_NUMBER_MOST */
	int blank;  /* a number that is not told: 0, 1 for a quantity, -1 for a price */
	int shown; /* where `show` tells it, ascending; 0 when it has words of its own there */
	bool record; /* belongs to what was done, struct record, and not to the item */
	bool link;   /* names another thing: the item itself, its vessel, its whole */
	bool
	    mark; /* a date that ends: good through its last day, not from its first on */
	bool needed; /* a new item needs it, and it can't be emptied */
	bool timed;  /* holds of a vessel from a day on */
	bool part;   /* of a vessel or a station: has code of its own, and no type here */
	bool null;   /* JSON says null, and not "" or 0, when there is nothing */
};

/* The rows. LINK(...) names another thing and has a place of its own in the structs, ITEM(...) is
 * a value of the item, RECORD(...) belongs to what was done to it. Each has
 *
 *     id, member, type, place in the inventory's columns from 0 without gaps, name,
 *     FIELD_OPTION(option, what is expected, help), FIELD_OPTION_MORE(the same, more of its struct
 *     option_spec) or FIELD_NO_OPTION, the rest of its struct field
 *
 * in the order in which options are listed. The book's column is called as the member; a stamp
 * has two more, made_wording and made_estimated, and in a record its first is on_day. */
// clang-format off
#define INVENTORY_FIELDS(LINK, ITEM, RECORD) \
	/* unique in the book */ \
	LINK(TAG, tag, NAME, 1, "tag", FIELD_NO_OPTION, \
	    .synonyms = "id itemid itemno label no ref reference mark kennung " \
			"kurzzeichen") \
	/* the name of the vessel it is on; one that is not there is made, as \
	 * book_put_vessel does */ \
	LINK(VESSEL, vessel, NAME, 0, "vessel", FIELD_NO_OPTION, .needed = true, .shown = 10, \
	    .synonyms = "boat boatname yacht ship vesselname boot bootsname schiff " \
			"bateau navire bat batnavn fartoy") \
	ITEM(KIND, kind, KIND, 2, "kind", FIELD_NO_OPTION, .needed = true, \
	    .synonyms = "type item itemtype category equipment gear what was art gegenstand " \
			"gerat ausrustung materiel equipement utstyr gjenstand") \
	ITEM(DESCRIPTION, description, TEXT, 3, "description", \
	    FIELD_OPTION("description", "WORDS", "make, size, what it is"), \
	    .synonyms = "name details model makeandmodel beschreibung bezeichnung " \
			"modell designation modele beskrivelse") \
	/* who makes it, as its station's approval names them */ \
	ITEM(MAKE, make, TEXT, 22, "make", FIELD_OPTION("make", "MAKER", "who makes it"), \
	    .shown = 90, .synonyms = "maker manufacturer brand hersteller fabricant marque " \
			"produsent merke") \
	ITEM(SERIAL, serial, TEXT, 4, "serial", FIELD_OPTION("serial", "NO", "serial number"), \
	    .shown = 100, .synonyms = "serialno serialnumber serialnr sn seriennummer seriennr " \
			"numerodeserie nodeserie ndeserie serienummer serienr") \
	/* persons it is for; 0 when not known */ \
	ITEM(CAPACITY, capacity, COUNT, 23, "capacity", \
	    FIELD_OPTION("capacity", "PERSONS", "how many it is for"), \
	    .least = 1, .shown = 120, .unit = "person", .null = true, .synonyms = "personsfor") \
	/* as on its label: "5-B" */ \
	ITEM(RATING, rating, TEXT, 24, "rating", \
	    FIELD_OPTION("rating", "WORDS", "as labelled: 5-B"), \
	    .shown = 110, .synonyms = "firerating") \
	ITEM(QUANTITY, quantity, COUNT, 5, "quantity", \
	    FIELD_OPTION("quantity", "N", "identical ones under one tag"), \
	    .least = 1, .blank = 1, .synonyms = "qty count number howmany anzahl menge stuck quantite qte " \
			"nombre antall") \
	ITEM(PLACE, place, TEXT, 6, "place", \
	    FIELD_OPTION("place", "WORDS", "where aboard it is kept"), \
	    .shown = 80, .synonyms = "location where stowage stowed locker ort lagerort platz " \
			"stauort emplacement rangement plassering plass sted") \
	ITEM(MADE, made, STAMP, 7, "made", FIELD_OPTION("made", "DATE", "made"), .shown = 130, \
	    .synonyms = "manufactured manufacturedate dateofmanufacture datemade madeon mfd " \
			"mfddate mfg mfgdate dateofmfg manufacturingdate dom " \
			"yearofmanufacture manufactureyear herstellung " \
			"herstelldatum herstellungsdatum fabrication datedefabrication " \
			"produsert produksjonsdato baujahr herstellungsjahr " \
			"anneedefabrication produksjonsar yearmade") \
	ITEM(PACKED, packed, STAMP, 8, "packed", \
	    FIELD_OPTION("packed", "DATE", "packed or filled"), \
	    .shown = 140, .synonyms = "packedon datepacked repacked") \
	ITEM(BOUGHT, bought, STAMP, 9, "bought", FIELD_OPTION("bought", "DATE", "bought"), \
	    .shown = 150, .synonyms = "purchased purchasedate datepurchased dateofpurchase datebought boughton " \
			"gekauft kaufdatum achat datedachat kjopt kjopsdato") \
	ITEM(FITTED, fitted, STAMP, 10, "fitted", \
	    FIELD_OPTION("fitted", "DATE", "fitted or put into service"), \
	    .shown = 160, .synonyms = "installed dateinstalled datefitted fittedon eingebaut " \
			"einbaudatum monte installele montert") \
	/* as marked */ \
	ITEM(EXPIRES, expires, STAMP, 11, "expires", \
	    FIELD_OPTION("expires", "DATE", \
		"expiry as marked, with its wording: \"before 2027-06\""), \
	    .shown = 170, .label = "marked expiry", .mark = true, \
	    .synonyms = "expiry expirydate dateofexpiry expiration expirationdate " \
			"expireson exp expdate useby usebydate usebefore bestbefore " \
			"ablauf ablaufdatum verfall gultigbis haltbarbis verfallsdatum " \
			"peremption datedeperemption datelimite valablejusquau utloper " \
			"utlopsdato holdbartil gyldigtil validuntil gooduntil") \
	/* the day it was done; may be coarse */ \
	RECORD(SERVED, on, STAMP, 12, "served", \
	    FIELD_OPTION("served", "DATE", "day of the last task"), \
	    .synonyms = "lastservice lastservicedate lastserviced serviced servicedon " \
			"lastdone letztewartung gewartet gewartetam derniererevision " \
			"dernierentretien sisteservice sistservice letzterservice") \
	RECORD(TASK, task, TASK, 13, "task", \
	    FIELD_OPTION_MORE("task", "service|inspect|weigh|test|renew|register", \
		"which task that was; service when not told", .needs = "served"), .synonyms = "") \
	/* the next date its paper states */ \
	RECORD(NEXT, next, STAMP, 14, "next", \
	    FIELD_OPTION_MORE("next", "DATE", "next date its certificate states", .needs = "served"), .mark = true, \
	    .synonyms = "nextservice nextservicedate nextdue due duedate servicedue " \
			"nachstewartung fallig prochainerevision prochainentretien " \
			"echeance nesteservice forfall") \
	RECORD(STATION, station, TEXT, 15, "station", \
	    FIELD_OPTION_MORE("station", "STATION", "who did it", .also = "by", .needs = "served"), \
	    .synonyms = "agent serviceagent servicestation servicedby wartungsstation " \
			"stationderevision servicestasjon") \
	/* the paper's number */ \
	RECORD(CERTIFICATE, certificate, TEXT, 16, "certificate", \
	    FIELD_OPTION_MORE("certificate", "NO", "its certificate", .needs = "served"), \
	    .synonyms = "certificateno certificatenumber certno zertifikat zertifikatnr " \
			"certificat sertifikat") \
	RECORD(PAID, price_minor, PRICE, 21, "paid", \
	    FIELD_OPTION_MORE("paid", "PRICE", "what that task cost", .needs = "served"), .blank = -1, \
	    .synonyms = "servicecost serviceprice servicepreis") \
	/* of a renewal: what is in it is new (battery, cells, gas), and it is the same \
	 * thing still; false for another thing in its place */ \
	RECORD(REFIT, refit, FLAG, 31, "refit", FIELD_NO_OPTION, .synonyms = "") \
	ITEM(STATE, state, STATE, 20, "state", \
	    FIELD_OPTION("state", "aboard|reserve|landed|stand-in|withdrawn", \
		"where it stands"), .shown = 20, .label = "stands", .synonyms = "status") \
	/* a hired item's last day; DAY_NONE for an own one */ \
	ITEM(HIRED_UNTIL, hired_until, DAY, 27, "hired_until", \
	    FIELD_OPTION("hired-until", "DATE", "last day of a hired one"), \
	    .shown = 70, .label = "hired until", .synonyms = "hireends") \
	/* the tag of what it is part of, "" for nothing; that may be written after the \
	 * part, but in the same transaction */ \
	LINK(PART_OF, part_of, NAME, 17, "part_of", \
	    FIELD_OPTION("part-of", "TAG", "the item it is inside or fixed to"), \
	    .null = true, .synonyms = "parent belongsto inside gehortzu teilvon partiede delav") \
	/* what a new one costs */ \
	ITEM(PRICE, price_minor, PRICE, 18, "price", \
	    FIELD_OPTION("price", "PRICE", "of a new one, as 249.00"), \
	    .shown = 180, .blank = -1, .synonyms = "cost unitprice purchaseprice newprice preis neupreis " \
			"kaufpreis prix prixdachat pris innkjopspris") \
	ITEM(NOTES, notes, TEXT, 19, "notes", FIELD_OPTION("notes", "WORDS", "anything else"), \
	    .synonyms = "comments comment remarks remark note bemerkung bemerkungen " \
			"notiz notizen remarque remarques commentaire commentaires " \
			"merknad merknader notat") \
	/* what of it a person put on the list to buy, in their words; "" when it is not
	 * on it. It stays until it is taken off, whatever becomes of the piece; a piece
	 * that is split off a lot leaves it with the lot */ \
	ITEM(TO_BUY, to_buy, NAME, 30, "to_buy", \
	    FIELD_OPTION("to-buy", "WORDS", "put it on the list to buy; \"\" takes it off"), \
	    .shown = 190, .label = "to buy", .null = true, .synonyms = "") \
	/* the station it is ashore at */ \
	ITEM(LANDED_TO, landed_to, NAME, 25, "landed_to", FIELD_NO_OPTION, \
	    .shown = 30, .label = "ashore at", .null = true, .synonyms = "") \
	/* since when; DAY_NONE when it is not ashore */ \
	ITEM(LANDED_ON, landed_on, DAY, 26, "landed_on", FIELD_NO_OPTION, \
	    .shown = 40, .label = "ashore since", .synonyms = "") \
	/* why it was withdrawn */ \
	ITEM(BECAUSE, because, BECAUSE, 28, "because", FIELD_NO_OPTION, \
	    .shown = 50, .null = true, .synonyms = "") \
	/* the tag of the own item in whose place it stands in */ \
	ITEM(STANDS_FOR, stands_for, NAME, 29, "stands_for", FIELD_NO_OPTION, \
	    .shown = 60, .label = "stands in for", .null = true, .synonyms = "")
// clang-format on

#define FIELD_NOTHING(...)
#define FIELD_MEMBER(id, member, type, ...) FIELD_C_##type member;
#define FIELD_ID(id, ...) FIELD_##id,
#define FIELD_RECORD_ID(id, ...) RECORD_##id,

enum item_field { INVENTORY_FIELDS(FIELD_ID, FIELD_ID, FIELD_NOTHING) FIELD_COUNT };

enum record_field {
	INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, FIELD_RECORD_ID) RECORD_FIELD_COUNT
};

/* The rows as a table, by enum item_field and enum record_field. */
extern const struct field ITEM_FIELDS[FIELD_COUNT];
extern const struct field RECORD_FIELDS[RECORD_FIELD_COUNT];

/* The field of an item that is told next after the place `shown` (0 before all); NULL at the
 * end. */
const struct field *field_shown_after(int shown);

/* The field's value in the struct it belongs to, borrowed: a pointer to its C type. */
void *field_in(const struct field *field, void *of);
const void *field_of(const struct field *field, const void *of);

/* Makes the value one that is not known. */
void field_empty(const struct field *field, void *of);

/* True when nothing is known of it: its cell is blank. */
bool field_is_empty(const struct field *field, const void *of);

/* True when both hold the same; NULL text is "". */
bool field_same(const struct field *field, const void *a, const void *b);

/* Adds the value as its cell in the inventory has it, not yet quoted; nothing when it is not
 * known. Prices are in `currency`. */
void field_add(
    const struct field *field, const void *of, const char *currency, struct text *out);

/* Adds it as people read it: "30 Jun 2027", "6 persons"; nothing when it is not known. */
void field_add_words(
    const struct field *field, const void *of, const char *currency, struct text *out);

struct item_change;

/* Adds ", made Apr 2021" for each date and price among these fields of an item, a bit each, and for
 * how many it is where that is more than one: what may be meant otherwise than it was read. */
void fields_add_understood(const struct item_change *change, unsigned fields,
    const char *currency, struct text *out);

#endif
