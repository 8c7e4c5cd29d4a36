/* The papers that go ashore with the gear: tie-on tags, a docket for each station and
 * day, and the list to tick when the gear comes back. As text, and as pages for print
 * (A4). */
#ifndef BECKET_REPORT_SHORE_PAPERS_H
#define BECKET_REPORT_SHORE_PAPERS_H

#include "base/spool.h"
#include "report/report.h"
#include "winter/docket_heads.h"

enum shore_paper {
	SHORE_TAGS,        /* one for each piece, eight on a page */
	SHORE_DOCKETS,     /* what is handed in and what is wanted, with lines to sign */
	SHORE_RETURN_LIST, /* what must come back, with room for what the station says */
};

enum { SHORE_PAPER_COUNT = SHORE_RETURN_LIST + 1 };

/* What the papers are made from; all borrowed. */
struct shore_papers {
	const struct report_style *style;
	const struct kinds *kinds;
	const struct inventory *inventory;
	const struct dockets *dockets; /* of the return list also those that are ashore */
	/* adds the address at which a phone opens the piece of a tag; a printed tag then
	 * has it as a QR code. NULL where no phone can reach a page */
	void (*address)(const void *context, const char *tag, struct text *out);
	const void *address_context;
};

/* A paper as text, or as a whole page in the house style. */
enum shore_form { SHORE_TEXT, SHORE_PAGE };

enum { SHORE_FORM_COUNT = SHORE_PAGE + 1 };

/* Papers whose dockets come some boats at a time; those of one station and day become one. Starts
 * with its first part filled in; free with shore_kept_clear, which also begins it anew. */
struct shore_kept {
	size_t columns;                                   /* of the texts; 0: not told */
	bool wanted[SHORE_PAPER_COUNT][SHORE_FORM_COUNT]; /* which are to be written */
	/* the rest is the papers' own */
	const struct kinds *kinds;
	struct docket_heads heads;
	struct runs rows[SHORE_PAPER_COUNT][SHORE_FORM_COUNT];
	size_t
	    count; /* of dockets as they came, those of one station and day not joined */
	size_t going; /* so many of them are to be handed in, not ashore already */
};

/* Keeps the dockets of some boats, in their order, what is ashore first. `places` has for each
 * vessel of the inventory her place in the whole book; NULL where these are all. */
void shore_papers_keep(
    struct shore_kept *kept, const struct shore_papers *papers, const size_t *places);

/* Adds a paper, of which what is ashore already is on the return list alone. Each has
 * REPORT_CAUTION, a page has it on every printed sheet. FAULT_FILE where what was kept can't
 * be read back. */
MUST_CHECK bool shore_paper_write(struct shore_kept *kept, enum shore_paper paper,
    enum shore_form form, struct spool *out, struct fault *fault);

void shore_kept_clear(struct shore_kept *kept);

/* The same of papers that are all there. */
MUST_CHECK bool shore_paper_whole(const struct shore_papers *papers,
    enum shore_paper paper, enum shore_form form, struct text *out, struct fault *fault);

#endif
