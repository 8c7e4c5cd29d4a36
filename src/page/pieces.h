/* Inside the page room: gear as rows and as a card, forms about one piece and about other
 * things, and what saving them would change. */
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
	bool any; /* something falls due, or would but its day is not known */
	enum task task;
	enum state state;
	day_t due; /* DAY_NONE when not known */
};

struct locker_row {
	size_t item;
	size_t root;       /* the outermost thing it is part of; itself for none */
	const char *group; /* the place or kind under which it is listed */
	struct first_due first;
	enum part_trouble trouble; /* for which it does not work, if not PART_FINE */
	size_t part;               /* its part of which that is true */
};

/* Which gear of the locker is asked for. */
struct locker_asked {
	const char *boat;  /* its name */
	const char *words; /* words to search for; "" for all */
	/* "kind", "wrong" for what is not in date or does not work, else by place */
	const char *by;
	bool any; /* of any boat: `boat` is "" */
};

struct locker_rows {
	const struct locker_row *items; /* by group, then whole, then tag; in the arena */
	size_t count;
};

/* The rows asked for, from an engine that is ready: without words, the boat's gear in
 * use; with words, what they match on this boat or on any. */
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
	struct working working;
};

MUST_CHECK bool locker_piece(
    struct desk *desk, size_t item, struct locker_piece *out, struct fault *fault);

/* The card of a piece: the reason in one sentence, acts, facts, clocks, the reason in
 * full, what was written about it, its papers. `back` is the address that closes it. */
MUST_CHECK bool draw_card(struct visit *visit, const struct locker_piece *piece,
    const char *back, struct fault *fault);

/* The item of a piece; the currency of the book. */
const struct item *locker_item(
    const struct visit *visit, const struct locker_piece *piece);
const char *locker_currency(const struct visit *visit);

/* Parts of the card: records, events and movements as a table; papers, with the form for
 * one more; the last lines of the journal about it. */
void draw_written(struct visit *visit, const struct locker_piece *piece);
void draw_papers(struct visit *visit, const struct locker_piece *piece);
MUST_CHECK bool draw_journal(
    struct visit *visit, const struct locker_piece *piece, struct fault *fault);

/* The clocks of a piece and of its parts, drawn and in words. */
void draw_piece_clocks(struct visit *visit, const struct locker_piece *piece);

/* Adds the sentence that says why its first thing due is due then. */
void add_why_sentence(const struct locker_piece *piece, day_t today, struct text *out);

/* A state with its mark, and the day: "overdue 18 Nov 2026"; for gear in date only the
 * day. */
void draw_state(struct visit *visit, enum state state, day_t due);

/* The forms about one piece, and what saving them would change. An act is first tried on
 * a copy of the book; what it would change is shown, and it is written only if that is
 * still the same. */

struct piece_form;

/* One sort of form. */
struct piece_act {
	const char *path; /* "/done/": the tag follows; "/new" of what is not there yet */
	const char *title;  /* of the form: "Something was done" */
	const char *saving; /* on the button, after "Save: " */
	/* Does it on a desk, with what was typed; sets the tags of the pieces
	 * concerned. */
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
	const char *wrong;     /* the field with a wrong value; "" for none of them */
	const char *why;       /* what is wrong with it; NULL for nothing */
	struct text said;      /* what saving changes, a line each */
	struct text notes;     /* remarks, a line each */
	const char *question;  /* to be answered before saving; NULL for none */
	const char *no;        /* what happens after a no */
	bool sent;             /* it was sent, and tried */
	int64_t last_change;   /* the journal's last entry about the piece; 0 none */
	struct text
	    meanwhile; /* what others changed since it was first seen, a line each */
};

/* What was typed, if the form was sent; else `otherwise`. */
const char *form_typed(
    const struct piece_form *form, const char *name, const char *otherwise);

/* A field of the form with its label; what is wrong with it is shown there. */
void form_field(
    struct piece_form *form, const char *name, const char *label, const char *otherwise);

/* A choice from a list of words. NULL ends both lists. */
void form_choice(struct piece_form *form, const char *name, const char *label,
    const char *const *values, const char *const *words);

/* Reads a field's typed value into the struct it belongs to. The fault names the
 * field. */
MUST_CHECK bool form_read_field(struct desk *desk, const struct field *field,
    const char *name, const char *typed, void *of, struct fault *fault);

/* Adds a copy of a tag to one of the form's lists. */
void form_keep_tag(struct piece_form *form, struct word_list *tags, const char *tag);

/* Adds a tag to what the act concerns; for the piece itself its parts, too. */
void form_concerns(struct piece_form *form, const char *tag);
void form_concerns_it(struct piece_form *form);

/* Adds a line for each thing that differs between two desks whose engines are ready:
 * values, days due, and what is new. */
void add_effect(const struct piece_form *form, struct desk *before, struct desk *after,
    struct text *out);

/* Adds a field's value as it can be typed again: a day with the month's name if that can
 * be read back as the same day. */
void add_typed_value(
    const struct field *field, const void *of, const char *currency, struct text *out);

/* A form that is not about a piece and is first tried on a copy of the book. What it
 * would change is shown, with what others wrote about the same thing meanwhile, and it is
 * written only if that is still the same. */

struct tried {
	struct visit *visit;
	const char *wrong; /* the field with a wrong value; "" for none of them */
	const char *why;   /* what is wrong; NULL for nothing */
	int64_t last;      /* the journal's last entry about it; 0 none */
	struct text said;  /* what saving changes, a line each; empty: it was not tried */
	struct text notes; /* remarks, a line each */
	struct text meanwhile; /* what others wrote since it was seen, a line each */
};

/* What was typed; `otherwise` when the form was not sent yet. */
const char *tried_typed(
    const struct tried *tried, const char *name, const char *otherwise);

/* The chosen value of a field whose value in the book is `now`: what was typed, if it
 * differs from what the book had when the form was written; else `now`, so that a change
 * by another person stays. */
const char *tried_chosen(const struct tried *tried, const char *name, const char *now);

/* Sends the value in the book with the form, for tried_chosen. */
void tried_was(const struct tried *tried, const char *name, const char *now);

/* A field with its label for a value in the book; does both of the above. */
void tried_kept_field(const struct tried *tried, const char *name, const char *label,
    const char *mode, const char *now);

/* A field with its label; what is wrong with it is shown there. */
void tried_field(const struct tried *tried, const char *name, const char *label,
    const char *mode, const char *otherwise);

/* Keeps the reason why it can't be written. False for a failure of the book itself, which
 * stays a fault. */
MUST_CHECK bool tried_refused(struct tried *tried, struct fault *fault);

/* Which lines of the journal a form is about. */
struct tried_about {
	const char *name;  /* a boat's; NULL for whatever name */
	const char *about; /* "vessel" */
	const char *field; /* how the line's field begins */
};

/* Reads what was written about it, and which of that the sender of the form had not seen
 * yet. All `count` entries of `about` have the same name, or none has one. */
MUST_CHECK bool tried_look(struct tried *tried, const struct tried_about *about,
    size_t count, struct fault *fault);

/* The box of what saving changes, with its buttons: "Save: " and what that does. The
 * fields above it are in the same form. */
void tried_box(const struct tried *tried, const char *saving);

/* The HTTP status of its page: an error when it can't be written or others wrote
 * meanwhile; else 0. */
int tried_status(const struct tried *tried);

/* Ends the entry of its page with the link back, by which nothing changes, and ends the
 * page. */
void tried_close(const struct tried *tried, const char *back, const char *path);

/* True when "Save" was pressed and what was shown is still true. */
bool tried_holds(const struct tried *tried);

void tried_clear(struct tried *tried);

/* ---- what somebody else wrote since a person saw it ---- */

/* Adds "changed on 25 Nov 2026 at 10:12 UTC by Anna". */
void meanwhile_entry(const struct journal_entry *entry, struct text *out);

/* The same for the last entry about a piece; "changed" alone when there is none, or it may
 * be missing. */
MUST_CHECK bool meanwhile_last(
    struct desk *desk, const char *tag, struct text *out, struct fault *fault);

/* ---- what a choice changes in the reminders ---- */

/* Adds a line for each reminder that moves to another day, has other words, is new or is
 * gone. */
void reminders_differ(const struct reminders_seen *before,
    const struct reminders_seen *after, struct text *out);

#endif
