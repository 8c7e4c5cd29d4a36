/* The shore papers of dockets that come some boats at a time: rows are kept in runs, and put into
 * the papers once all dockets are there. */
#include "report/words_inside.h"

#include <string.h>

enum { TAGS_ON_A_SHEET = 8 };

/* ---- kept ---- */

/* The pieces of the vessel of a docket's piece, from that on. */
static struct span_of_pieces
pieces_of_vessel(
    const struct shore_papers *papers, const struct docket *docket, size_t first)
{
	size_t end = first + 1;
	while (end < docket->piece_count && !starts_vessel(papers, docket, end)) {
		end++;
	}
	return (struct span_of_pieces){first, end};
}

/* Keeps a docket's rows in a paper. */
static void
keep_rows(struct runs *rows, const struct shore_papers *papers, enum shore_paper paper,
    const struct docket *docket, const size_t *places, struct markup *markup,
    size_t columns)
{
	SCOPED_TEXT words = {.columns = columns};
	SCOPED_TEXT by = {0};
	struct span_of_pieces hers = {0, 0};
	while (hers.end < docket->piece_count) {
		hers = pieces_of_vessel(papers, docket, hers.end);
		size_t vessel = piece_item(papers, &docket->pieces[hers.first])->vessel;
		text_reset(&words);
		text_reset(&by);
		if (markup != NULL) {
			docket_page_rows(papers, paper, docket, hers, markup, &words);
		} else {
			docket_text_rows(papers, paper, docket, hers, &words);
		}
		docket_word(docket, places == NULL ? vessel : places[vessel], &by);
		runs_add(rows, &(struct run_piece){docket_key(docket),
				   text_string(&words), words.length, text_string(&by)});
	}
}

/* Keeps what a paper has of some dockets. */
static void
keep_paper(struct shore_kept *kept, const struct shore_papers *papers,
    enum shore_paper paper, enum shore_form form, const size_t *places)
{
	struct runs *rows = &kept->rows[paper][form];
	struct markup *markup = NULL;
	SCOPED_TEXT head = {0};
	if (form == SHORE_PAGE) {
		docket_page_open(paper, &markup);
		markup_take(markup, &head);
	}
	for (size_t i = 0; i < papers->dockets->count; i++) {
		const struct docket *docket = &papers->dockets->items[i];
		if (!docket->landed || paper == SHORE_RETURN_LIST) {
			keep_rows(
			    rows, papers, paper, docket, places, markup, kept->columns);
		}
	}
	markup_free(markup);
	runs_end(rows);
}

void
shore_papers_keep(
    struct shore_kept *kept, const struct shore_papers *papers, const size_t *places)
{
	kept->kinds = papers->kinds;
	for (size_t i = 0; i < papers->dockets->count; i++) {
		struct docket docket = papers->dockets->items[i];
		docket.hazards = docket_hazards(papers, &docket);
		docket_heads_add(&kept->heads, &docket);
		kept->count++;
		kept->going += docket.landed ? 0 : 1;
	}
	for (int paper = 0; paper < SHORE_PAPER_COUNT; paper++) {
		for (int form = 0; form < SHORE_FORM_COUNT; form++) {
			if (kept->wanted[paper][form]) {
				keep_paper(kept, papers, (enum shore_paper)paper,
				    (enum shore_form)form, places);
			}
		}
	}
}

void
shore_kept_clear(struct shore_kept *kept)
{
	struct shore_kept anew = {.columns = kept->columns};
	docket_heads_clear(&kept->heads);
	for (int paper = 0; paper < SHORE_PAPER_COUNT; paper++) {
		for (int form = 0; form < SHORE_FORM_COUNT; form++) {
			runs_clear(&kept->rows[paper][form]);
			anew.wanted[paper][form] = kept->wanted[paper][form];
		}
	}
	*kept = anew;
}

/* ---- written ---- */

/* A paper being written. */
struct paper_written {
	struct shore_kept *kept;
	enum shore_paper paper;
	struct spool *out;
	struct text words;     /* owned; what is not in `out` yet */
	struct markup *markup; /* NULL for text */
	const struct docket
	    *docket; /* whose rows are being written; NULL before the first */
	size_t tags;
};

/* Hands on what was written so far. */
static void
hand_on(struct paper_written *writing)
{
	if (writing->markup != NULL) {
		markup_take(writing->markup, &writing->words);
	}
	spool_add(writing->out, text_string(&writing->words), writing->words.length);
	text_reset(&writing->words);
}

static void
add_tag(struct paper_written *writing, const struct tag_halves *tag)
{
	size_t number = writing->tags++;
	if (writing->markup == NULL) {
		docket_text_tag(writing->docket, tag, &writing->words);
		return;
	}
	if (number % TAGS_ON_A_SHEET == 0) {
		if (number > 0) {
			docket_page_sheet_end(writing->markup);
		}
		docket_page_sheet(writing->markup);
	}
	hand_on(writing);
	text_add(&writing->words, tag->above);
	docket_page_tag(writing->docket, writing->markup);
	hand_on(writing);
	text_add(&writing->words, tag->below);
}

static void
end_docket(struct paper_written *writing)
{
	if (writing->docket == NULL) {
		return;
	}
	if (writing->markup == NULL) {
		docket_text_end(writing->kept->kinds, writing->paper, writing->docket,
		    &writing->words);
	} else if (writing->paper != SHORE_TAGS) {
		docket_page_end(writing->paper, writing->docket, writing->markup);
	}
}

static void
begin_docket(struct paper_written *writing, const struct docket *docket)
{
	bool first = writing->docket == NULL;
	end_docket(writing);
	writing->docket = docket;
	if (writing->markup == NULL) {
		docket_text_begin(writing->paper, docket, first, &writing->words);
	} else if (writing->paper != SHORE_TAGS) {
		docket_page_begin(
		    writing->kept->kinds, writing->paper, docket, writing->markup);
	}
}

static void
add_rows(const struct run_piece *piece, void *of)
{
	struct paper_written *writing = of;
	const struct docket *docket =
	    docket_heads_of(&writing->kept->heads, piece->key, piece->word);
	if (docket != writing->docket) {
		begin_docket(writing, docket);
	}
	if (writing->paper != SHORE_TAGS) {
		hand_on(writing);
		spool_add(writing->out, piece->bytes, piece->length);
		return;
	}
	const char *end = piece->bytes + piece->length;
	for (const char *at = piece->bytes; at < end;) {
		struct tag_halves tag = {.above = at};
		tag.below = tag.above + strlen(tag.above) + 1;
		at = tag.below + strlen(tag.below) + 1;
		add_tag(writing, &tag);
	}
}

/* Ends the last docket, and the paper. */
static void
close_paper(struct paper_written *writing)
{
	end_docket(writing);
	if (writing->markup == NULL) {
		docket_text_close(writing->paper, &writing->words);
	} else {
		if (writing->paper == SHORE_TAGS) {
			docket_page_sheet_end(writing->markup);
		}
		markup_close(writing->markup, &writing->words);
		writing->markup = NULL;
	}
	hand_on(writing);
}

bool
shore_paper_write(struct shore_kept *kept, enum shore_paper paper, enum shore_form form,
    struct spool *out, struct fault *fault)
{
	struct paper_written writing = {
	    .kept = kept, .paper = paper, .out = out, .words.columns = kept->columns};
	docket_heads_join(&kept->heads);
	if (form == SHORE_PAGE) {
		docket_page_open(paper, &writing.markup);
	}
	bool done = runs_merge(&kept->rows[paper][form], add_rows, &writing, fault);
	if (done) {
		close_paper(&writing);
	}
	markup_free(writing.markup);
	text_clear(&writing.words);
	return done;
}

bool
shore_paper_whole(const struct shore_papers *papers, enum shore_paper paper,
    enum shore_form form, struct text *out, struct fault *fault)
{
	SCOPED_SPOOL spool = {0};
	struct shore_kept kept = {.columns = out->columns};
	kept.wanted[paper][form] = true;
	shore_papers_keep(&kept, papers, NULL);
	bool done = shore_paper_write(&kept, paper, form, &spool, fault) &&
		    spool_read_all(&spool, out, fault);
	shore_kept_clear(&kept);
	return done;
}
