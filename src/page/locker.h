/* Inside the page room: the gear of the locker as rows, and the card of one piece. */
#ifndef BECKET_PAGE_LOCKER_H
#define BECKET_PAGE_LOCKER_H

#include "desk/questions.h"
#include "life/whereabouts.h"
#include "page/page.h"

/* The first thing that falls due of a piece, routines left out. */
struct first_due {
	bool any; /* something falls due, or should and is not known */
	enum task task;
	enum state state;
	day_t due; /* DAY_NONE not known */
};

struct locker_row {
	size_t item;
	size_t root;       /* the outermost thing it is part of; itself for none */
	const char *group; /* the place or kind it stands under */
	struct first_due first;
};

/* What is to be seen of the locker. */
struct locker_asked {
	const char *boat;  /* its name */
	const char *words; /* to find by; "" for all */
	const char *by;    /* "kind", "wrong" for what is not in date, else by place */
	bool any;          /* of any boat: `boat` is "" */
};

struct locker_rows {
	const struct locker_row *items; /* by group, then whole, then tag; in the arena */
	size_t count;
};

/* The rows that are asked for, of an engine that is ready: without words those in use of the boat,
 * of words those that they mean on any boat or on this one. */
void locker_find(
    struct desk *desk, const struct locker_asked *asked, struct locker_rows *out);

/* The first thing due of one item. `arena` is used and not reset. */
void locker_first_due(
    struct desk *desk, size_t item, struct arena *arena, struct first_due *out);

/* One piece with all that is known of it. */
struct locker_piece {
	size_t item;
	const struct obligation *obligations;
	size_t obligation_count;
	struct papers_answer papers;
};

MUST_CHECK bool locker_piece(
    struct desk *desk, size_t item, struct locker_piece *out, struct fault *fault);

/* The card of a piece: why in one sentence, acts, facts, clocks, why in full, what was written
 * about it, its papers. `back` is the address that closes it. */
MUST_CHECK bool draw_card(struct visit *visit, const struct locker_piece *piece,
    const char *back, struct fault *fault);

/* The clocks of a piece and of its parts, drawn and in words. */
void draw_piece_clocks(struct visit *visit, const struct locker_piece *piece);

/* Adds the sentence that says why its first thing due is due then. */
void add_why_sentence(const struct locker_piece *piece, day_t today, struct text *out);

/* A state with its mark, and the day: "overdue 18 Nov 2026"; where it is in date the day alone. */
void draw_state(struct visit *visit, enum state state, day_t due);

/* Adds a clock's words without the day they come to: "24 months from the last service on 18 Nov
 * 2024". */
void add_clock_reason(
    const struct reading *reading, enum task task, day_t today, struct text *out);

#endif
