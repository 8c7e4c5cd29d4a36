/* Inside the page room: the forms about one piece, and what saving them would change. An act is
 * tried on a copy of the book first; what would differ there is told, and written only when it is
 * still what was told. */
#ifndef BECKET_PAGE_PIECE_FORM_H
#define BECKET_PAGE_PIECE_FORM_H

#include "desk/acts.h"
#include "page/page.h"

struct piece_form;

/* One sort of form. */
struct piece_act {
	const char *path; /* "/done/": the tag follows; "/new" of what is not there yet */
	const char *title;  /* of the form: "Something was done" */
	const char *saving; /* on the button, behind "Save: " */
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

#endif
