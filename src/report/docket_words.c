#include "report/words.h"
#include "report/words_inside.h"

const char *const SIGN_LINES[] = {
    "Owner and telephone",
    "Handed in by",
    "Received by",
    "Date",
};

const char *
docket_station(const struct docket *docket)
{
	const char *none =
	    docket->landed ? "a station that is not told" : "an approved station";
	return docket->station[0] == '\0' ? none : docket->station;
}

/* "Wed 25 Nov 2026". */
static void
add_weekday(day_t day, struct text *out)
{
	text_add_format(out, "%.3s%c", weekday_name(day_of_week(day)), GLUE);
	add_day(day, "", out);
}

void
add_docket_days(const struct docket *docket, struct text *out)
{
	text_add(out, docket->landed ? "ashore since " : "hand in ");
	if (docket->hand_in == DAY_NONE) {
		text_add(out, "a day not known");
	} else {
		add_weekday(docket->hand_in, out);
	}
	if (docket->collect == DAY_NONE || docket->collect == DAY_NEVER) {
		text_add(out, "; ask when to collect");
	} else if (docket->assumed) {
		text_add(out, "; collect about ");
		add_day(docket->collect, "", out);
		text_add(out, " (ask)");
	} else {
		text_add(out, "; collect ");
		add_weekday(docket->collect, out);
	}
}

void
add_docket_line(const struct docket *docket, struct text *out)
{
	text_add_format(out, "%zu %s of %zu %s", docket->count,
	    docket->count == 1 ? "piece" : "pieces", docket->vessel_count,
	    docket->vessel_count == 1 ? "vessel" : "vessels");
	if (docket->inside > 0) {
		text_add_format(out, ", %zu inside others", docket->inside);
	}
	text_add(out, ": ");
	add_docket_days(docket, out);
	text_add_byte(out, '.');
}

const struct item *
piece_item(const struct shore_papers *papers, const struct docket_piece *piece)
{
	return &papers->inventory->items[piece->item];
}

const struct vessel *
piece_vessel(const struct shore_papers *papers, const struct docket_piece *piece)
{
	return &papers->inventory->vessels[piece_item(papers, piece)->vessel];
}

bool
starts_vessel(
    const struct shore_papers *papers, const struct docket *docket, size_t index)
{
	return index == 0 || piece_vessel(papers, &docket->pieces[index - 1]) !=
				 piece_vessel(papers, &docket->pieces[index]);
}

void
add_piece_words(
    const struct shore_papers *papers, const struct docket_piece *piece, struct text *out)
{
	const struct item *item = piece_item(papers, piece);
	add_item_words(papers->kinds, papers->inventory, piece->item, out);
	if (item->make[0] != '\0') {
		text_add_format(out, ", make %s", item->make);
	}
}

void
add_last_service(const struct item *item, struct text *out)
{
	for (size_t i = item->record_count; i > 0; i--) {
		const struct record *record = &item->records[i - 1];
		if (record->task == TASK_SERVICE) {
			add_stamp(record->on, out);
			return;
		}
	}
	text_add(out, "none on record");
}

void
add_made(const struct item *item, struct text *out)
{
	if (item->made.precision == STAMP_NONE) {
		text_add(out, "not known");
	} else {
		add_stamp(item->made, out);
	}
}

void
add_wanted(const struct docket_piece *piece, struct text *out)
{
	for (size_t i = 0; i < piece->own_count; i++) {
		text_add_format(
		    out, "%s%s", i > 0 ? ", " : "", task_noun(piece->lines[i]->task));
	}
}

void
add_part(
    const struct shore_papers *papers, const struct shore_line *line, struct text *out)
{
	const struct item *part = &papers->inventory->items[line->item];
	text_add_format(out, "%s ", part->tag);
	add_kind_words(papers->kinds, part, out);
	text_add(out, " (");
	add_day(line->due, "date unknown", out);
	text_add_byte(out, ')');
}

void
add_work(
    const struct shore_papers *papers, const struct docket_piece *piece, struct text *out)
{
	add_wanted(piece, out);
	for (size_t i = piece->own_count; i < piece->line_count; i++) {
		text_add_format(out, "%s %s",
		    i == piece->own_count ? "; renew with it" : ",",
		    papers->inventory->items[piece->lines[i]->item].tag);
	}
}

bool
lapses_in_season(const struct shore_line *line)
{
	return !line->carries && line->due_again != DAY_NONE;
}

unsigned
docket_hazards(const struct shore_papers *papers, const struct docket *docket)
{
	unsigned hazards = 0;
	for (size_t i = 0; i < docket->piece_count; i++) {
		const struct docket_piece *piece = &docket->pieces[i];
		for (size_t j = 0; j < piece->line_count; j++) {
			const struct item *item =
			    &papers->inventory->items[piece->lines[j]->item];
			const struct kind *kind = kinds_find(papers->kinds, item->kind);
			hazards |= kind == NULL ? 0 : 1U << kind->hazard;
		}
	}
	return hazards;
}

void
docket_cautions(const struct kinds *kinds, const struct docket *docket,
    const char *cautions[HAZARD_COUNT])
{
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		bool there = (docket->hazards & 1U << hazard) != 0;
		cautions[hazard] =
		    there ? kinds_carry_caution(kinds, (enum hazard)hazard) : "";
	}
}
