/* Names as they are typed: of gear, boats, stations, places and sheets. An exact match in
 * the book is meant; else the one that differs only in case; else the one that differs in
 * accents, too (base/alike.h). An old book may hold `lj-1` beside `LJ-1`: then LJ-1 is
 * one of them, and Lj-1 is refused with both. */
#ifndef BECKET_DESK_NAMING_H
#define BECKET_DESK_NAMING_H

#include "desk/desk.h"

/* What a name is of; `what` in a message. */
enum named {
	NAMED_TAG,
	NAMED_VESSEL,
	NAMED_STATION,
	NAMED_BASE,
	NAMED_SHEET,
	NAMED_AREA
};

/* Which of the names a typed one means: its index, or `count` for none of them. Where
 * accents alone tell them apart, a desk that changes the book asks (desk_ask), and one
 * that reads says how it was read. FAULT_INPUT with the list where it could be
 * several. */
MUST_CHECK bool naming_among(struct desk *desk, enum named named, const char *typed,
    const char *const *names, size_t count, size_t *index_out, struct fault *fault);

/* The place among these of the vessel that a typed name means. FAULT_INPUT with the nearest name
 * when there is none. The rest as naming_among. */
MUST_CHECK bool naming_vessel(struct desk *desk, const char *name,
    const struct word_list *names, size_t *place_out, struct fault *fault);

/* The name of the rule sheet that a typed one means, one's own or one that comes with the
 * program; as it was typed where there is none. The rest as naming_among. */
MUST_CHECK bool naming_sheet(
    struct desk *desk, const char *typed, const char **name_out, struct fault *fault);

/* The book as names are looked up in it: opened to look at when first asked, beside
 * whatever is open, so that it neither changes the book nor the way it is opened. Starts
 * with its desk alone; end it with naming_close. Where there is no book, or it can't be
 * read, it has no names. */
struct name_book {
	struct desk *desk; /* borrowed */
	struct book *book; /* NULL before, and where there is none */
	bool opened;
};

void naming_close(struct name_book *names);

/* Gives the book to its desk, where that has none open: it is opened once. A desk that
 * changes the book goes on with it once it opens it for writing. */
void naming_hand_over(struct name_book *names);

#define SCOPED_NAME_BOOK __attribute__((cleanup(naming_close))) struct name_book

/* All names of this sort, up to bases, in the desk's arena, each once. A base is where a
 * boat lies, lay or will lie, or what a station serves. */
void naming_all(struct name_book *names, enum named named, struct word_list *out);

/* True when something of this sort is called just so, whatever else is in the book: what
 * is typed mostly is, and a fleet's names need not be read then. */
bool naming_stands(struct name_book *names, enum named named, const char *name);

#endif
