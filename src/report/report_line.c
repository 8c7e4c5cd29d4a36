#include "report/line.h"
#include "report/reply.h"
#include "report/sheet_words.h"
#include "report/words.h"

/* "Line jackets, lifejackets, aboard Quillfish on 25 Nov 2026: short of 2." */
static void
add_heading(
    const struct inventory *inventory, const struct line_why *why, struct text *words)
{
	const struct muster_line *told = &why->told;
	text_add_format(words, "Line %s, %s, aboard %s on ", why->line->id,
	    why->line->title, inventory->vessels[why->vessel].name);
	add_day(why->on, "", words);
	if (!why->holds) {
		text_add(words, ": does not hold for her on that day.");
	} else if (told->asks[0] != '\0') {
		text_add(words, ": not told.");
	} else if (told->missing > 0) {
		text_add_format(words, ": short of %d.", told->missing);
	} else if (told->have < told->need) {
		text_add(words, ": not met, but another way is.");
	} else {
		text_add(words, ": met.");
	}
}

static bool
is_counted(const struct piece_why *piece)
{
	return piece->reason == PIECE_COUNTS || piece->reason == PIECE_REMARKED;
}

/* What the counted pieces are worth one by one. */
static int
worth_of(const struct line_why *why)
{
	int sum = 0;
	for (size_t i = 0; i < why->count; i++) {
		sum += is_counted(&why->pieces[i]) ? why->pieces[i].worth : 0;
	}
	return sum;
}

void
add_line_sum(const struct line_why *why, struct text *words)
{
	const struct carriage *line = why->line;
	const struct muster_line *told = &why->told;
	bool is_told = why->holds && told->asks[0] == '\0';
	bool plain = line->per_person == 0 && line->percent == 0 && line->plus == 0 &&
		     line->any_of[0] == '\0';
	text_add(words, "Needs ");
	if (is_told && !plain) {
		text_add_format(words, "%d: ", told->need);
	}
	sheet_add_need(line, words);
	if (line->per_person > 0 && why->persons > 0) {
		text_add_format(words, "; %d persons", why->persons);
	}
	text_add_byte(words, '.');
	if (is_told) {
		text_add_format(words, " Has %d", told->have);
		text_add(words, told->have == worth_of(why)
				    ? "."
				    : ", for there is a limit on what counts together.");
	} else if (why->holds) {
		text_add(words, " To tell it, ");
		add_missing_words(told->asks, words);
		text_add_byte(words, '.');
	}
}

void
add_line_origin(const struct line_why *why, struct text *words)
{
	SCOPED_TEXT conditions = {0};
	sheet_add_conditions(&why->line->when, &conditions);
	if (conditions.length > 0) {
		text_add_format(words, "Holds: %s. ", text_string(&conditions) + 2);
	}
	text_add(words, "Source: ");
	add_source(why->line->source, why->line->standing, words);
	text_add_format(words, ". Sheet %s.", why->line->sheet);
}

static void
add_lapse(const struct piece_why *piece, struct text *words)
{
	if (piece->reading == NULL) {
		return;
	}
	text_add_format(words, "%s was due ", task_noun(piece->task));
	add_day(piece->reading->due, "", words);
	text_add_format(words, " (%s)", piece->reading->rule_id);
}

void
add_piece_reason(const struct piece_why *piece, struct text *words)
{
	if (piece->trouble != PART_FINE) {
		text_add_format(words, "does not work: its part %s %s", piece->part,
		    part_trouble_words(piece->trouble));
		return;
	}
	switch (piece->reason) {
	case PIECE_COUNTS:
		break;
	case PIECE_REMARKED:
		text_add(words, "though its ");
		add_lapse(piece, words);
		text_add(words, " by common practice; ");
		break;
	case PIECE_LAPSED:
		text_add(words, "lapsed: its ");
		add_lapse(piece, words);
		break;
	case PIECE_NOT_KNOWN:
		text_add(words, "date unknown: ");
		add_missing_words(piece->missing, words);
		break;
	case PIECE_UNTOLD:
		text_add(words, "can't be told: ");
		add_missing_words(piece->missing, words);
		break;
	case PIECE_UNFIT:
		text_add(words, "not of the rating, size or place that is asked for");
		break;
	case PIECE_RESERVE:
		text_add(words, "in reserve, never counted");
		break;
	case PIECE_LANDED:
		text_add(words, "ashore");
		break;
	case PIECE_WITHDRAWN:
		text_add(words, "gone for good");
		break;
	}
	if (piece->last == DAY_NEVER) {
		text_add(words, "counts; no last day");
	} else if (piece->last != DAY_NONE) {
		text_add(words, "counts to ");
		add_day(piece->last, "", words);
	}
}

void
report_line(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct line_why *why, struct text *out)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Tag", .type = CELL_TAG, .most = 14},
	    {.heading = "What", .most = 26}, {.heading = "Counts", .type = CELL_NUMBER},
	    {.heading = "Why", .flexible = true}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	add_heading(inventory, why, &words);
	reply_say(&reply, false, &words);
	add_line_sum(why, &words);
	reply_say(&reply, false, &words);
	add_line_origin(why, &words);
	reply_say(&reply, false, &words);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH | LOOK_APART);
	for (size_t i = 0; i < why->count; i++) {
		const struct piece_why *piece = &why->pieces[i];
		bool counted = is_counted(piece);
		reply_cell(table, HUE_STRONG, inventory->items[piece->item].tag);
		add_item_name(kinds, inventory, piece->item, &words);
		reply_take(table, HUE_NONE, &words);
		reply_number(
		    table, counted ? HUE_GOOD : HUE_BAD, counted ? piece->worth : 0, "");
		add_piece_reason(piece, &words);
		reply_take(table, HUE_NONE, &words);
	}
	reply_words(&reply, VOICE_PLAIN, true, 0,
	    why->count == 0 ? "Nothing of hers in the book would serve it." : "");
	reply_caution(&reply);
	reply_write(&reply, style, out);
}
