/* The years ahead as a page with drawings, of plans that come some at a time. */
#include "report/reply.h"
#include "report/words.h"
#include "report/words_inside.h"

#include <string.h>

enum { BEFORE_PLANS = -1 }; /* where the page's beginning stands among the plans */

/* Begins the page, with all that stands before the first plan. */
static void
begin_page(struct years_drawn *drawn)
{
	static const char TITLE[] = "The years ahead";
	SCOPED_TEXT foot = {0};
	SCOPED_TEXT head = {0};
	text_add_format(&foot, "%s, seen on ", TITLE);
	add_day(drawn->style->today, "", &foot);
	markup_open(TITLE, text_string(&foot), &drawn->markup);
	markup_element(drawn->markup, "h1", NULL, TITLE);
	markup_take(drawn->markup, &head);
	runs_add_long(&drawn->kept,
	    &(struct run_piece){BEFORE_PLANS, text_string(&head), head.length, NULL});
}

/* What names a drawing's filling, and is drawn so for every plan. */
#define STROKES "strokes-0"

/* True where STROKES stands in an attribute of ours: in what a person entered a quote is
 * escaped. */
static bool
is_own(const char *page, const char *strokes)
{
	static const char NAMED[] = "=\"";
	static const char USED[] = "=\"url(#";
	size_t before = (size_t)(strokes - page);
	return (before >= strlen(NAMED) &&
		   memcmp(strokes - strlen(NAMED), NAMED, strlen(NAMED)) == 0) ||
	       (before >= strlen(USED) &&
		   memcmp(strokes - strlen(USED), USED, strlen(USED)) == 0);
}

/* Keeps a plan's part of the page. Its number is known once all plans are there: wherever one goes
 * a piece without bytes stands. */
static void
keep_drawn(struct runs *kept, int64_t place, const struct text *page)
{
	const char *rest = text_string(page);
	const char *at = rest;
	while ((at = strstr(at, STROKES)) != NULL) {
		const char *number = at + strlen(STROKES) - 1;
		if (is_own(text_string(page), at)) {
			runs_add_long(kept, &(struct run_piece){place, rest,
						(size_t)(number - rest), NULL});
			runs_add(kept, &(struct run_piece){place, "", 0, NULL});
			rest = number + 1;
		}
		at = number;
	}
	runs_add_long(kept, &(struct run_piece){place, rest, strlen(rest), NULL});
}

void
page_years_some(struct years_drawn *drawn, const struct kinds *kinds,
    const struct outlook_view *view, const size_t *places)
{
	if (drawn->markup == NULL) {
		begin_page(drawn);
	}
	for (size_t i = 0; i < view->count; i++) {
		SCOPED_REPLY(reply);
		SCOPED_TEXT page = {0};
		compose_years(
		    &(struct years_composing){{drawn->style, kinds, view}, &reply, true},
		    &view->plans[i], 0);
		reply_page(&reply, drawn->markup);
		markup_take(drawn->markup, &page);
		keep_drawn(
		    &drawn->kept, (int64_t)(places == NULL ? i : places[i]), &page);
	}
	runs_end(&drawn->kept);
	outlook_total_add(&drawn->total, view->plans, view->count);
	text_reset(&drawn->currency);
	text_add(&drawn->currency, view->currency);
}

/* A page being written. */
struct page_written {
	struct spool *out;
	int64_t place; /* of the plan that is being written */
	size_t plans;  /* so many are begun */
};

static void
add_drawn(const struct run_piece *piece, void *of)
{
	struct page_written *writing = of;
	SCOPED_TEXT number = {0};
	writing->plans += piece->key == writing->place ? 0 : 1;
	writing->place = piece->key;
	if (piece->length == 0) {
		text_add_format(&number, "%zu", writing->plans - 1);
		spool_add(writing->out, text_string(&number), number.length);
	}
	spool_add(writing->out, piece->bytes, piece->length);
}

bool
page_years_end(struct years_drawn *drawn, struct spool *out, struct fault *fault)
{
	SCOPED_REPLY(reply);
	SCOPED_TEXT end = {0};
	struct report_style style = *drawn->style;
	struct page_written writing = {out, BEFORE_PLANS, 0};
	style.currency = text_string(&drawn->currency);
	compose_years_end(
	    &(struct years_composing){{&style, NULL, NULL}, &reply, true}, &drawn->total);
	reply_page(&reply, drawn->markup);
	markup_close(drawn->markup, &end);
	drawn->markup = NULL;
	if (!runs_merge(&drawn->kept, add_drawn, &writing, fault)) {
		return false;
	}
	spool_add(out, text_string(&end), end.length);
	return true;
}

void
years_drawn_clear(struct years_drawn *drawn)
{
	markup_free(drawn->markup);
	runs_clear(&drawn->kept);
	text_clear(&drawn->currency);
	*drawn = (struct years_drawn){.style = drawn->style};
}
