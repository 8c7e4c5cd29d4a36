/* Inside the page room: gear as rows and as a card, forms about it and about other things, and what saving
 * them would change. */
#ifndef BECKET_PAGE_PIECES_H
#define BECKET_PAGE_PIECES_H

#include "base/text.h"
#include "desk/acts.h"
#include "desk/questions.h"
#include "desk/remind.h"
#include "life/whereabouts.h"
#include "page/page.h"

/* ---- The gear of the locker as rows, and the card of one piece ---- */

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

/* The item of a piece; the currency of the book. */
const struct item *locker_item(
    const struct visit *visit, const struct locker_piece *piece);
const char *locker_currency(const struct visit *visit);

/* Parts of the card: records, events and movements as a table; papers, with the form for one more; the last
 * lines of the journal about it. */
void draw_written(struct visit *visit, const struct locker_piece *piece);
void draw_papers(struct visit *visit, const struct locker_piece *piece);
MUST_CHECK bool draw_journal(
    struct visit *visit, const struct locker_piece *piece, struct fault *fault);

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

/* The forms about one piece, and what saving them would change. An act is
 * tried on a copy of the book first; what would differ there is told, and written only when it is
 * still what was told. */

struct piece_form;

/* One sort of form. */
struct piece_act {
	const char *path; /* "/done/": the tag follows; "/new" of what is not there yet */
	const char *title;  /* of the form: "Something was done" */
	const char *saving; /* on the button, after "Save: " */
	/* Does it on a desk, with what was typed; sets the tags that it concerns. */
	bool (*run)(struct piece_form *form, struct desk *desk, struct fault *fault);
	void (*fields)(struct piece_form *form);
};

extern const struct piece_act PIECE_DONE;
extern const struct piece_act PIECE_MEND;
extern const struct piece_act PIECE_MOVE;
extern const struct piece_act PIECE_WITHDRAW;
extern const struct piece_act PIECE_SET_ASIDE;
extern const struct piece_act PIECE_BUY;
extern const struct piece_act PIECE_NEW;

struct piece_form {
	struct visit *visit;
	const struct piece_act *act;
	size_t
	    item; /* of the visit's desk as first loaded; ITEM_NO_PARENT of what is new */
	const char *tag;       /* its tag; "" of what is new */
	struct word_list own;  /* that and its parts' */
	struct word_list tags; /* what the act concerns, parts too; in the arena */
	const char *wrong;     /* the field that can't be as it is; "" for none of them */
	const char *why;       /* what is wrong with it; NULL for nothing */
	struct text said;      /* what saving changes, a line each */
	struct text notes;     /* remarks, a line each */
	const char *question;  /* what is to be said before; NULL for nothing */
	const char *no;        /* what a no comes to */
	bool sent;             /* it was sent, and tried */
	int64_t last_change;   /* the journal's last entry about the piece; 0 none */
	struct text
	    meanwhile; /* what others changed since it was first seen, a line each */
};

/* What was typed: of the form as it was sent, else `otherwise`. */
const char *form_typed(
    const struct piece_form *form, const char *name, const char *otherwise);

/* A field of the form with its label; what is wrong with it is told there. */
void form_field(
    struct piece_form *form, const char *name, const char *label, const char *otherwise);

/* A choice of one of some words. NULL ends both lists. */
void form_choice(struct piece_form *form, const char *name, const char *label,
    const char *const *values, const char *const *words);

/* Reads a field's typed value into the struct it belongs to. The fault names the field. */
MUST_CHECK bool form_read_field(struct desk *desk, const struct field *field,
    const char *name, const char *typed, void *of, struct fault *fault);

/* Adds a copy of a tag to one of the form's lists. */
void form_keep_tag(struct piece_form *form, struct word_list *tags, const char *tag);

/* Adds a tag to what the act concerns; the piece itself with its parts. */
void form_concerns(struct piece_form *form, const char *tag);
void form_concerns_it(struct piece_form *form);

/* Adds a line for each thing that differs between two desks whose engines are ready: values, days
 * due, and what is new. */
void add_effect(const struct piece_form *form, struct desk *before, struct desk *after,
    struct text *out);

/* A field's value as it can be typed back: days with their month's name where that is the same. */
void add_typed_value(
    const struct field *field, const void *of, const char *currency, struct text *out);

/* A form about no piece that is tried on a copy of the book first. What it would
 * change is told, with what others wrote about the same meanwhile, and it is written when that is still what
 * was told. */

struct tried {
	struct visit *visit;
	const char *wrong; /* the field that can't be as it is; "" for none of them */
	const char *why;   /* what is wrong; NULL for nothing */
	int64_t last;      /* the journal's last entry about it; 0 none */
	struct text said;  /* what saving changes, a line each; empty: it was not tried */
	struct text notes; /* remarks, a line each */
	struct text meanwhile; /* what others wrote since it was seen, a line each */
};

/* What was typed; `otherwise` where the form was not sent yet. */
const char *tried_typed(
    const struct tried *tried, const char *name, const char *otherwise);

/* What is chosen where `now` stands in the book: what was typed where that is not what stood there when the
 * form was written, else what stands there now, so that what another made of it meanwhile stays. */
const char *tried_chosen(const struct tried *tried, const char *name, const char *now);

/* Sends what stands there now with the form, for tried_chosen. */
void tried_was(const struct tried *tried, const char *name, const char *now);

/* A field with its label, of what stands in the book; both of the above. */
void tried_kept_field(const struct tried *tried, const char *name, const char *label,
    const char *mode, const char *now);

/* A field with its label; what is wrong with it is told there. */
void tried_field(const struct tried *tried, const char *name, const char *label,
    const char *mode, const char *otherwise);

/* Keeps why it can't be written. False for a failure of the book alone, which stays one. */
MUST_CHECK bool tried_refused(struct tried *tried, struct fault *fault);

/* Which lines of the journal a form is about. */
struct tried_about {
	const char *name;  /* a boat's; NULL for whatever name */
	const char *about; /* "vessel" */
	const char *field; /* how the line's field begins */
};

/* Reads what was written about it, and what of that the form as it was sent had not seen yet. All of `count`
 * are about the same name, or none of them has one. */
MUST_CHECK bool tried_look(struct tried *tried, const struct tried_about *about,
    size_t count, struct fault *fault);

/* The box of what saving changes, with its buttons: "Save: " and what that does. The fields above it are in
 * the same form. */
void tried_box(const struct tried *tried, const char *saving);

/* The status of its page: what can't be written, and what others wrote meanwhile, are told so; else 0. */
int tried_status(const struct tried *tried);

/* Ends the entry of its page with the way back, nothing changed, and the page. */
void tried_close(const struct tried *tried, const char *back, const char *path);

/* True when "Save" was pressed below what still holds. */
bool tried_holds(const struct tried *tried);

void tried_clear(struct tried *tried);

/* ---- what another wrote since a person saw it ---- */

/* Adds "changed on 25 Nov 2026 at 10:12 UTC by Anna". */
void meanwhile_entry(const struct journal_entry *entry, struct text *out);

/* The same of the last that was written about a piece; "changed" alone where nothing is known of it. */
MUST_CHECK bool meanwhile_last(
    struct desk *desk, const char *tag, struct text *out, struct fault *fault);

/* ---- what a choice changes about the reminders ---- */

/* Adds a line for each reminder that is on another day, says another thing, comes or goes. */
void reminders_differ(const struct reminders_seen *before,
    const struct reminders_seen *after, struct text *out);

#endif
