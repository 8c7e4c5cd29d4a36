/* The words that the texts and the pages of the shore papers share. All add to `out`; dates
 * are written with GLUE. Inside the report room only. */
#ifndef BECKET_REPORT_DOCKET_WORDS_H
#define BECKET_REPORT_DOCKET_WORDS_H

#include "report/shore_papers.h"

/* The station's name, or what is said where there is none. Borrowed. */
const char *docket_station(const struct docket *docket);

/* "hand in Wed 25 Nov 2026; collect Thu 11 Feb 2027", "ashore since ..."; "collect about 6 Jan 2027 (ask)" where
 * the turn-round is assumed; "ask when to collect" where nothing is known. */
void add_docket_days(const struct docket *docket, struct text *out);

/* "10 pieces of 1 vessel, 2 inside others: hand in ...", as above. */
void add_docket_line(const struct docket *docket, struct text *out);

/* "liferaft in a canister, offshore pack, make Quorl": what it is. */
void add_piece_words(const struct shore_papers *papers, const struct docket_piece *piece,
    struct text *out);

/* The day of its last service; "none on record". */
void add_last_service(const struct item *item, struct text *out);

/* "Mar 2020"; "not known". */
void add_made(const struct item *item, struct text *out);

/* "service, test": the piece's own tasks. */
void add_wanted(const struct docket_piece *piece, struct text *out);

/* The same, and the tags of the parts: "service; renew with it LR-1-BW, LR-1-FL". */
void add_work(const struct shore_papers *papers, const struct docket_piece *piece,
    struct text *out);

/* "LR-1-BW liferaft contents (31 Aug 2027)": a part that is renewed, and the day it is due. */
void add_part(
    const struct shore_papers *papers, const struct shore_line *line, struct text *out);

/* True when a task done on the hand-in day is due again before the next winter. */
bool lapses_in_season(const struct shore_line *line);

/* The cautions for what is in the docket, each once: for one hazard after the other "" or
 * words that are borrowed from the catalogue. */
void docket_cautions(const struct shore_papers *papers, const struct docket *docket,
    const char *cautions[HAZARD_COUNT]);

/* True when the piece at `index` is the first of its vessel in the docket. */
bool starts_vessel(
    const struct shore_papers *papers, const struct docket *docket, size_t index);

/* The vessel of a piece; the item of it. */
const struct vessel *piece_vessel(
    const struct shore_papers *papers, const struct docket_piece *piece);
const struct item *piece_item(
    const struct shore_papers *papers, const struct docket_piece *piece);

/* What is written on a line of the docket to be signed. */
extern const char *const SIGN_LINES[];

enum { SIGN_LINE_COUNT = 4 };

#endif
