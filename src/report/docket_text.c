/* The shore papers as text. */
#include "report/reply.h"
#include "report/words.h"
#include "report/words_inside.h"

/* ---- tags ---- */

/* What stands on a tag above the station's days, and below them. */
static void
write_tag(const struct shore_papers *papers, const struct docket_piece *piece,
    struct text *words, struct text *out)
{
	const struct item *item = piece_item(papers, piece);
	text_reset(words);
	text_add_format(
	    words, "%s   %s   ", item->tag, piece_vessel(papers, piece)->name);
	add_piece_words(papers, piece, words);
	if (item->serial[0] != '\0') {
		text_add_format(words, ", serial %s", item->serial);
	}
	paragraph(text_string(words), 0, 4, out);
	text_reset(words);
	text_add(words, "For ");
	add_work(papers, piece, words);
	paragraph(text_string(words), 4, 4, out);
	text_add_byte(out, TAG_CUT);
	if (item->place[0] != '\0') {
		text_reset(words);
		text_add_format(words, "Goes back to: %s", item->place);
		paragraph(text_string(words), 4, 4, out);
	}
	text_add_byte(out, TAG_CUT);
}

static void
write_cut(struct text *out)
{
	for (size_t i = 0; i < page_columns(out) / 2; i++) {
		text_add(out, i == 0 ? "-" : " -");
	}
	text_add_byte(out, '\n');
}

void
docket_text_tag(
    const struct docket *docket, const struct tag_halves *tag, struct text *out)
{
	SCOPED_TEXT words = {0};
	write_cut(out);
	text_add(out, tag->above);
	text_add_format(&words, "At %s: ", docket_station(docket));
	add_docket_days(docket, &words);
	paragraph(text_string(&words), 4, 4, out);
	text_add(out, tag->below);
}

/* ---- dockets ---- */

static void
write_head(
    const char *title, const struct docket *docket, struct text *words, struct text *out)
{
	text_reset(words);
	text_add_format(words, "%s: %s", title, docket_station(docket));
	paragraph(text_string(words), 0, 2, out);
	text_reset(words);
	add_docket_line(docket, words);
	paragraph(text_string(words), 0, 2, out);
}

static void
write_vessel(const struct shore_papers *papers, const struct docket *docket, size_t index,
    struct text *out)
{
	if (starts_vessel(papers, docket, index)) {
		text_add_byte(out, '\n');
		paragraph(piece_vessel(papers, &docket->pieces[index])->name, 0, 2, out);
	}
}

/* "service 25 Nov 2027; test 25 Nov 2031": when each of its own tasks is due again when it is
 * done on the hand-in day. */
static void
add_due_again(const struct docket_piece *piece, struct text *out)
{
	for (size_t i = 0; i < piece->own_count; i++) {
		const struct shore_line *line = piece->lines[i];
		text_add_format(
		    out, "%s%s%c", i > 0 ? "; " : "", task_noun(line->task), GLUE);
		add_day(line->due_again, "not known", out);
		text_add(out, lapses_in_season(line) ? ", in the season" : "");
	}
}

static void
write_piece(const struct shore_papers *papers, const struct docket_piece *piece,
    struct text *words, struct text *out)
{
	const struct item *item = piece_item(papers, piece);
	text_reset(words);
	text_add_format(words, "[%c]%c%s  ", GLUE, GLUE, item->tag);
	add_piece_words(papers, piece, words);
	paragraph(text_string(words), 0, 4, out);
	text_reset(words);
	text_add_format(words,
	    "Serial: %s. Made: ", item->serial[0] == '\0' ? "not known" : item->serial);
	add_made(item, words);
	text_add(words, ". Last service: ");
	add_last_service(item, words);
	text_add_byte(words, '.');
	paragraph(text_string(words), 4, 4, out);
	text_reset(words);
	text_add(words, "Wanted: ");
	add_wanted(piece, words);
	text_add(words, ". Next due if done: ");
	add_due_again(piece, words);
	text_add_byte(words, '.');
	paragraph(text_string(words), 4, 4, out);
	if (piece->line_count > piece->own_count) {
		text_reset(words);
		text_add(words, "Renew with it:");
		for (size_t i = piece->own_count; i < piece->line_count; i++) {
			text_add(words, i > piece->own_count ? "; " : " ");
			add_part(papers, piece->lines[i], words);
		}
		text_add_byte(words, '.');
		paragraph(text_string(words), 4, 6, out);
	}
}

static void
write_docket_foot(
    const struct kinds *kinds, const struct docket *docket, struct text *out)
{
	const char *cautions[HAZARD_COUNT];
	SCOPED_TEXT words = {0};
	text_add_byte(out, '\n');
	docket_cautions(kinds, docket, cautions);
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		text_reset(&words);
		text_add_format(&words, "!%c%s", GLUE, cautions[hazard]);
		paragraph(
		    cautions[hazard][0] == '\0' ? "" : text_string(&words), 0, 2, out);
	}
	for (int i = 0; i < SIGN_LINE_COUNT; i++) {
		text_add_format(out, "\n%-20s %.*s\n", SIGN_LINES[i],
		    page_columns(out) < PAGE_COLUMNS ? 38 : 50,
		    "__________________________________________________");
	}
	add_caution(out);
}

/* ---- the return list ---- */

static void
add_return_row(const struct shore_papers *papers, size_t index, struct reply_table *table)
{
	const struct item *item = &papers->inventory->items[index];
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s ", item->tag);
	add_item_name(papers->kinds, papers->inventory, index, &words);
	reply_take(table, HUE_STRONG, &words);
	reply_cell(table, HUE_NONE, item->serial[0] == '\0' ? "-" : item->serial);
	reply_cell(table, HUE_NONE, "yes / no");
	reply_cell(table, HUE_NONE, "_________");
	reply_cell(table, HUE_NONE, "__________");
	reply_cell(table, HUE_NONE, "___________");
}

/* One vessel's pieces and the parts renewed with them. */
static void
write_vessel_return(const struct shore_papers *papers, const struct docket *docket,
    struct span_of_pieces hers, struct text *out)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "What", .flexible = true}, {.heading = "Serial", .most = 14},
	    {.heading = "Back"}, {.heading = "Result"}, {.heading = "New date"},
	    {.heading = "Certificate"}};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	write_vessel(papers, docket, hers.first, out);
	for (size_t at = hers.first; at < hers.end; at++) {
		const struct docket_piece *piece = &docket->pieces[at];
		add_return_row(papers, piece->item, table);
		for (size_t i = piece->own_count; i < piece->line_count; i++) {
			add_return_row(papers, piece->lines[i]->item, table);
		}
	}
	reply_write(&reply, papers->style, out);
}

/* ---- what they share ---- */

void
docket_text_rows(const struct shore_papers *papers, enum shore_paper paper,
    const struct docket *docket, struct span_of_pieces hers, struct text *out)
{
	SCOPED_TEXT words = {0};
	if (paper == SHORE_RETURN_LIST) {
		write_vessel_return(papers, docket, hers, out);
		return;
	}
	for (size_t at = hers.first; at < hers.end; at++) {
		if (paper == SHORE_TAGS) {
			write_tag(papers, &docket->pieces[at], &words, out);
		} else {
			write_vessel(papers, docket, at, out);
			write_piece(papers, &docket->pieces[at], &words, out);
		}
	}
}

void
docket_text_begin(
    enum shore_paper paper, const struct docket *docket, bool first, struct text *out)
{
	bool list = paper == SHORE_RETURN_LIST;
	SCOPED_TEXT words = {0};
	if (paper != SHORE_TAGS) {
		text_add(out, first ? "" : list ? "\n" : "\n\n");
		write_head(list ? "Return list" : "Hand-in docket", docket, &words, out);
	}
}

void
docket_text_end(const struct kinds *kinds, enum shore_paper paper,
    const struct docket *docket, struct text *out)
{
	if (paper == SHORE_DOCKETS) {
		write_docket_foot(kinds, docket, out);
	}
}

void
docket_text_close(enum shore_paper paper, struct text *out)
{
	if (paper == SHORE_TAGS) {
		write_cut(out);
	}
	if (paper != SHORE_DOCKETS) {
		add_caution(out);
	}
}
