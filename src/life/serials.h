/* Serial numbers that can't be right, or that a person should look at twice. Pure. */
#ifndef BECKET_LIFE_SERIALS_H
#define BECKET_LIFE_SERIALS_H

#include "base/memory.h"
#include "base/text.h"
#include "gear/item.h"

/* Why a serial number is asked about. */
enum serial_doubt {
	SERIAL_FINE,
	SERIAL_SAME, /* another item of the kind has it */
	SERIAL_NEAR, /* another item of the kind has one that differs in one character */
	SERIAL_CONDEMNED, /* the thing with this number was condemned, whatever its kind */
};

/* What was found. */
struct serial_finding {
	enum serial_doubt doubt;
	size_t item;        /* the other one; index in what was searched */
	const char *serial; /* its number; borrowed */
	day_t on;           /* condemned: when; DAY_NONE when not known */
};

/* The fewest characters of a number that is compared for slips: shorter ones are house
 * numbers, "1" to "8", and are all near one another. */
enum { SERIAL_LEAST = 4 };

/* True when two serial numbers are one to a reader: capitals, blanks and hyphens
 * aside. */
bool serial_same(const char *a, const char *b);

/* True when they are not the same, both have SERIAL_LEAST characters at least, and one
 * character put in, left out, changed, or swapped with its neighbour makes them so. */
bool serial_near(const char *a, const char *b);

/* The first other item that has the same serial number because both are pieces of one lot
 * that was split; ITEM_NO_PARENT when there is none. Such a number identifies neither. */
size_t serial_shared_with(const struct inventory *inventory, size_t item);

/* Adds, for an item that has one, "B7 is the number of FL-2 too, of the same lot: it
 * doesn't tell the one from the other"; nothing for others. */
void serial_shared_words(
    const struct inventory *inventory, size_t item, struct text *out);

/* Adds what is wrong and which option says that it is right: "serial \"C18\" is that of
 * LJ-1 on Quillfish already; ...". `other` is where the other number stands; nothing when
 * all is fine. */
void serial_words(const struct serial_finding *finding, const char *serial,
    const char *other, struct text *out);

/* One serial to be entered, of many. */
struct serial_entry {
	const char *kind;
	const char *serial;
	size_t item; /* the item in the book it belongs to, or ITEM_NO_PARENT */
	bool fresh;  /* new to the book, or changed: to be looked at */
};

/* Looks at serials, the gravest doubt of each winning. A blank one is fine. Condemned is
 * what was withdrawn for that and has not been brought back since, also where another
 * thing was put in its place under its tag after that. Each fresh one is compared with
 * the book and with the entries before it, `findings[i].item` being an index in the
 * inventory, or item_count and more for the entry item_count less. A number that follows
 * just on the entry of its kind before it, "C-101" on "C-100", is taken for the next of a
 * batch and not near. `findings` has `count` elements. */
void serial_look_all(const struct inventory *inventory,
    const struct serial_entry *entries, size_t count, struct serial_finding *findings);

/* ---- the same of entries that are not all in memory ---- */

/* An entry that is asked about. What is borrowed is the looking's. */
struct serial_found {
	size_t entry;       /* its index */
	size_t key;         /* what serial_look_at was given with it */
	const char *serial; /* its number */
	size_t other_key;   /* of the other one, where that is an entry */
	struct serial_finding finding;
};

/* A look at many serials: of those that nothing is alike it keeps some bytes each. */
struct serial_looking;

/* Begins one of about so many entries; end it with serial_look_end. The inventory is
 * borrowed. */
struct serial_looking *serial_look_begin(const struct inventory *inventory, size_t count);

/* Shows the next entry, which is borrowed until this returns, with a number of the
 * caller's own. All are shown in their order, and all of them again as long as
 * serial_look_again, called behind the last, is true. */
void serial_look_at(
    struct serial_looking *looking, const struct serial_entry *entry, size_t key);
MUST_CHECK bool serial_look_again(struct serial_looking *looking);

/* Those that are asked about, by their index, `*count_out` of them; until the end. */
const struct serial_found *serial_look_found(
    const struct serial_looking *looking, size_t *count_out);
void serial_look_end(struct serial_looking *looking);

#endif
