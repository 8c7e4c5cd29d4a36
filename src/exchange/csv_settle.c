/* What a row's cells make together: its kind, how many, its record, what it writes. */
#include "exchange/csv_inside.h"
#include "exchange/csv_read.h"

#include <string.h>

static const char *
column_name(const struct csv_settling *settling, enum csv_column column)
{
	for (size_t i = 0; i < settling->layout->count; i++) {
		if (settling->layout->items[i] == column) {
			return csv_cell_name(settling->layout, i, settling->words);
		}
	}
	return "";
}

/* A column's header as the list has it. */
static const char *
header_of(const struct csv_settling *settling, enum csv_column column)
{
	for (size_t i = 0; i < settling->layout->count; i++) {
		if (settling->layout->items[i] == column) {
			return settling->layout->headers[i];
		}
	}
	return "";
}

/* A next date without the day the work was done, which no clock can count from. */
static void
settle_next_alone(const struct csv_settling *settling, struct csv_row *row)
{
	char next[STAMP_TEXT_SIZE];
	struct item_change *change = &row->change;
	const char *header = header_of(settling, COLUMN_NEXT);
	(void)stamp_words(row->record.next, next);
	if (settling->options->next_alone == NEXT_ALONE_NOTES) {
		change->notes = arena_format(settling->words, "%s%s%s: %s", change->notes,
		    *change->notes == '\0' ? "" : "; ", header, next);
		change->set |= 1U << FIELD_NOTES;
		csv_note_once(settling->notes, row->line,
		    "%.60s is kept in the notes where the day of the work is not told; it "
		    "counts for nothing there",
		    header);
		return;
	}
	complain_doubt(settling->complaints, DOUBT_NEXT_ALONE, next, row->line, header);
	complain(settling->complaints, row->line, column_name(settling, COLUMN_NEXT),
	    "a next date belongs to a record, so it needs the day the work was done in "
	    "column served; --next-alone notes keeps it as words, --map \"%s=ignore\" "
	    "leaves the column out",
	    header);
}

/* Keeps the record when the row has the day it was done. What stands in the record's
 * columns without that day is refused where it carries a date, told otherwise. */
static void
settle_record(const struct csv_settling *settling, struct csv_row *row, uint64_t columns)
{
	static const enum csv_column PAPERS[] = {
	    COLUMN_TASK, COLUMN_STATION, COLUMN_CERTIFICATE, COLUMN_PAID, COLUMN_REFIT};

	row->has_record = (columns & COLUMN_BIT << COLUMN_SERVED) != 0;
	if (row->has_record) {
		row->implied = (columns & COLUMN_BIT << COLUMN_TASK) == 0;
		if (row->record.refit && row->record.task != TASK_RENEW) {
			complain(settling->complaints, row->line,
			    column_name(settling, COLUMN_REFIT),
			    "only a renewal can be a refit; expected \"renew\" in column task");
		}
		return;
	}
	if ((columns & COLUMN_BIT << COLUMN_NEXT) != 0) {
		settle_next_alone(settling, row);
	}
	for (size_t i = 0; i < sizeof PAPERS / sizeof PAPERS[0]; i++) {
		if ((columns & COLUMN_BIT << PAPERS[i]) != 0) {
			text_add_format(&settling->notes->text,
			    "line %zu: %s not kept: there is no day in column served\n",
			    row->line, CSV_COLUMNS[PAPERS[i]]);
		}
	}
	row->record =
	    (struct record){.station = "", .certificate = "", .price_minor = -1};
}

/* What may say more of words for a kind: where they do not come from it, the description; else
 * where the thing is kept. */
static const char *
beside_kind(const struct item_change *change, const char *words)
{
	bool told = *change->description != '\0' && change->description != words;
	return told ? change->description : change->place;
}

/* No kind can be told from `seen`: it is asked about without how many there are, so that one answer
 * is for "Flares (6)" and "Flares (4)". */
static void
doubt_kind(const struct csv_settling *settling, const struct csv_row *row,
    const char *seen, const char *why)
{
	SCOPED_TEXT bare = {0};
	csv_without_how_many(seen, &bare);
	const char *asked =
	    arena_string(settling->words, bare.length == 0 ? seen : text_string(&bare));
	complain_doubt(settling->complaints, DOUBT_KIND, asked, row->line,
	    beside_kind(&row->change, seen));
	complain(settling->complaints, row->line, column_name(settling, COLUMN_KIND),
	    "%s (for all such rows: --means \"%.60s=KIND\"; where it is no gear: "
	    "--leave-out %zu)",
	    why, asked, row->line);
}

/* The words as one would answer about them, as above. */
static void
note_words(const struct csv_settling *settling, const char *seen, const char *id)
{
	SCOPED_TEXT bare = {0};
	if (settling->options->doubts == NULL || text_same_letters(seen, id)) {
		return;
	}
	csv_without_how_many(seen, &bare);
	csv_words_are(
	    settling->options->doubts, bare.length == 0 ? seen : text_string(&bare), id);
}

/* Tells the kind from its words and the description's. A row with a tag and no word of a
 * kind leaves the item's alone. In a list without descriptions the words are one, so that
 * "EPIRB 406 GPS" does not become a mere EPIRB. */
static void
settle_kind(const struct csv_settling *settling, struct csv_row *row, uint64_t *columns)
{
	struct item_change *change = &row->change;
	bool tagged = (*columns & COLUMN_BIT << COLUMN_TAG) != 0;
	/* Nothing else stands in the row, not even how many. */
	bool alone = settling->layout->present[COLUMN_QUANTITY] &&
		     (*columns & ~(COLUMN_BIT << COLUMN_KIND |
				     COLUMN_BIT << COLUMN_DESCRIPTION)) == 0;
	if (*change->kind == '\0' && (tagged || *change->description == '\0')) {
		return;
	}
	struct fault wrong;
	const char *words = change->kind;
	const char *id = "";
	*columns |= COLUMN_BIT << COLUMN_KIND;
	change->kind = "";
	fault_begin(&wrong);
	const char *seen = *words == '\0' ? change->description : words;
	const struct csv_mapping *said = csv_told_kind(settling->options, seen);
	const char *told = said == NULL ? seen : said->ours;
	if (said != NULL && said->kept) {
		csv_note_once(settling->notes, row->line,
		    "\"%.60s\" taken as %s, as answered for an earlier list; --ask-again "
		    "asks anew",
		    seen, told);
	}
	if (told == seen && (alone || csv_says_no_gear(seen))) {
		complain_doubt(settling->complaints, DOUBT_NO_GEAR, seen, row->line,
		    beside_kind(change, seen));
		complain(settling->complaints, row->line,
		    column_name(settling, COLUMN_KIND),
		    "\"%.60s\" seems to be a heading or a sum, and no gear; --leave-out "
		    "%zu passes over it, --means \"%.60s=KIND\" takes it as gear",
		    seen, row->line, seen);
		return;
	}
	if (!csv_tell_kind(settling->kinds, told == seen ? words : told,
		change->description, settling->notes, row->line, &id, &wrong)) {
		doubt_kind(settling, row, seen, wrong.text);
		return;
	}
	note_words(settling, seen, id);
	if (!tagged && !settling->layout->present[COLUMN_DESCRIPTION] &&
	    !text_same_letters(words, id)) {
		change->description = words;
		change->set |= 1U << FIELD_DESCRIPTION;
	}
	change->kind = id;
}

/* A number among the words, where no column says how many, is taken or left as was told;
 * without a word on it the row is refused, so that four flares do not become one
 * unnoticed. */
static void
settle_quantity(
    const struct csv_settling *settling, struct csv_row *row, uint64_t columns)
{
	struct item_change *change = &row->change;
	size_t by_kind = csv_how_many(change->kind);
	size_t many = by_kind > 0 ? by_kind : csv_how_many(change->description);
	if (many < 2 ||
	    (columns & (COLUMN_BIT << COLUMN_QUANTITY | COLUMN_BIT << COLUMN_TAG)) != 0) {
		return;
	}
	switch (settling->options->quantities) {
	case QUANTITIES_FROM_WORDS:
		change->quantity = (int)many;
		change->set |= 1U << FIELD_QUANTITY;
		break;
	case QUANTITIES_ONE:
		break;
	case QUANTITIES_ASKED:
		complain_doubt(settling->complaints, DOUBT_QUANTITIES,
		    by_kind > 0 ? change->kind : change->description, row->line, "");
		complain(settling->complaints, row->line, "",
		    "\"%.60s\" seems to say %zu of them, and no column does; --quantities "
		    "from-words takes such numbers, --quantities one takes one of each",
		    by_kind > 0 ? change->kind : change->description, many);
		break;
	}
}

/* Which fields the row writes: all whose column is there, except for a blank one that is
 * needed and can't be emptied. */
static void
settle_fields(const struct csv_settling *settling, struct csv_row *row)
{
	struct item_change *change = &row->change;
	change->set |= settling->layout->fields;
	if (*change->vessel == '\0' && settling->options->vessel != NULL) {
		change->vessel = settling->options->vessel;
	}
	change->set &= ~(1U << FIELD_TAG);
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		if (ITEM_FIELDS[i].needed) {
			const char *const *word = field_of(&ITEM_FIELDS[i], change);
			change->set &= ~(1U << i);
			change->set |= **word == '\0' ? 0 : 1U << i;
		}
	}
}

/* A row without a tag must say whose and what it is. */
static void
settle_tag(const struct csv_settling *settling, struct csv_row *row, uint64_t columns)
{
	row->tag_made = (columns & COLUMN_BIT << COLUMN_TAG) == 0;
	if (!row->tag_made) {
		return;
	}
	/* where no row says it, that is told once */
	bool said = settling->layout->present[COLUMN_VESSEL] ||
		    settling->layout->present[COLUMN_TAG];
	if (*row->change.vessel == '\0' && said) {
		/* what is no gear needs no boat */
		if (*row->change.kind != '\0') {
			complain_doubt(
			    settling->complaints, DOUBT_VESSEL, "", row->line, "");
		}
		complain(settling->complaints, row->line,
		    column_name(settling, COLUMN_VESSEL),
		    "it is blank, and no vessel was told; --vessel NAME is for such rows, "
		    "and --leave-out %zu passes over one that is no gear",
		    row->line);
	}
	if ((columns & COLUMN_BIT << COLUMN_KIND) == 0) {
		complain_doubt(settling->complaints, DOUBT_NO_KIND, "", row->line,
		    *row->change.vessel != '\0' ? row->change.vessel : row->change.place);
		complain(settling->complaints, row->line,
		    column_name(settling, COLUMN_KIND),
		    "it is blank, and the row has no tag; where it is no gear: --leave-out "
		    "%zu",
		    row->line);
	}
}

/* True for a row whose words for a kind were said to stand for no gear. */
static bool
is_said_no_gear(const struct csv_settling *settling, const struct csv_row *row)
{
	const struct item_change *change = &row->change;
	const char *seen = *change->kind == '\0' ? change->description : change->kind;
	const struct csv_mapping *said =
	    *seen == '\0' ? NULL : csv_told_kind(settling->options, seen);
	bool no_gear = said != NULL && strcmp(said->ours, CSV_NO_GEAR) == 0;
	if (no_gear && said->kept) {
		csv_note_once(settling->notes, row->line,
		    "rows \"%.60s\" left out, as answered for an earlier list; --ask-again "
		    "asks anew",
		    seen);
	}
	return no_gear;
}

bool
csv_settle_row(const struct csv_settling *settling, struct csv_row *row, uint64_t columns)
{
	if (is_said_no_gear(settling, row)) {
		return false;
	}
	settle_quantity(settling, row, columns);
	settle_kind(settling, row, &columns);
	row->given |= *row->change.kind == '\0' ? 0 : 1U << FIELD_KIND;
	settle_record(settling, row, columns);
	settle_fields(settling, row);
	settle_tag(settling, row, columns);
	return true;
}
