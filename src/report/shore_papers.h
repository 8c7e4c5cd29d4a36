/* The papers that go ashore with the gear: tie-on tags, a docket for each station and
 * day, and the list to tick when the gear comes back. As text, and as pages for print
 * (A4). */
#ifndef BECKET_REPORT_SHORE_PAPERS_H
#define BECKET_REPORT_SHORE_PAPERS_H

#include "report/report.h"
#include "winter/dockets.h"

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

/* Adds a paper as text, or as a whole page in the house style. Each has REPORT_CAUTION, a
 * page has it on every printed sheet. */
void shore_paper_text(
    const struct shore_papers *papers, enum shore_paper paper, struct text *out);
void shore_paper_page(
    const struct shore_papers *papers, enum shore_paper paper, struct text *out);

#endif
