/* Inside the page room: a form about no piece that is tried on a copy of the book first. What it would
 * change is told, with what others wrote about the same meanwhile, and it is written when that is still what
 * was told. */
#ifndef BECKET_PAGE_TRIED_H
#define BECKET_PAGE_TRIED_H

#include "page/page.h"

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

#endif
