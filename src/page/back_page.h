/* What the files of the page "It came back" share. Only for them. */
#ifndef BECKET_PAGE_BACK_PAGE_H
#define BECKET_PAGE_BACK_PAGE_H

#include "desk/acts.h"
#include "page/shell.h"

/* One piece that is ashore, and what is said of it. */
struct back_piece {
	size_t item; /* index in the inventory of visit->desk */
	bool said;   /* what became of it was said */
	bool stays;  /* it stays at the station */
	struct homecoming home;
	const char *then; /* what follows from that; NULL not reckoned */
};

/* What is wrong with a field, by its name. */
struct field_fault {
	const char *name;
	const char *words;
};

struct back_page {
	struct visit *visit;
	const char *station;
	struct back_piece *pieces;
	size_t count;
	day_t on;
	day_t done;
	struct field_fault *items; /* of what is wrong */
	size_t wrong_count;
	size_t wrong_room;
	const char *problem; /* what is wrong with it as a whole; NULL for nothing */
	/* what saving changes, a line each; NULL not reckoned */
	const char *changes;
	size_t back; /* so many come back aboard, go for good and stay */
	size_t gone;
	size_t stay;
};

/* The item of a piece. */
const struct item *back_item(
    const struct back_page *page, const struct back_piece *piece);

/* The name of a piece's field, "n.LJ-1", in the visit's arena. */
const char *piece_field(
    const struct back_page *page, const char *prefix, const char *tag);

/* True for a part inside a piece that went ashore with it and of which a new one was asked. */
bool is_new_part(
    const struct back_page *page, const struct back_piece *piece, size_t part);

/* Notes what is wrong with a field. */
void field_is_wrong(struct back_page *page, const char *name, const char *words);

/* What is wrong with a field; NULL for nothing. */
const char *field_wrong(const struct back_page *page, const char *name);

/* Reads what was typed into the pieces; what is wrong is noted field by field. */
void back_read(struct back_page *page);

/* Works out on a copy of the book what saving would change. A fault of what was typed becomes the
 * page's problem. */
MUST_CHECK bool back_reckon(struct back_page *page, struct fault *fault);

/* Brings the bag back, on a desk of the caller's. */
MUST_CHECK bool back_return(
    const struct back_page *page, struct desk *desk, struct fault *fault);

/* Writes the whole page. */
void back_write(struct back_page *page);

#endif
