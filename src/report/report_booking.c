#include "report/muster_parts.h"
#include "report/report.h"
#include "report/words.h"

#include <string.h>

static const struct table_column LIST_COLUMNS[] = {
    {"Boat", 0, ALIGN_LEFT, false},
    {"From", 0, ALIGN_LEFT, false},
    {"To", 0, ALIGN_LEFT, false},
    {"Persons", 0, ALIGN_RIGHT, false},
    {"Children", 0, ALIGN_RIGHT, false},
    {"Note", 0, ALIGN_LEFT, true},
};

static void
add_number(int number, const char *none, struct table *table, struct text *words)
{
	text_reset(words);
	if (number > 0) {
		text_add_format(words, "%d", number);
	}
	table_add(table, HUE_NONE, number > 0 ? text_string(words) : none);
}

static void
add_day_cell(day_t day, struct table *table, struct text *words)
{
	text_reset(words);
	add_day(day, "", words);
	table_add(table, HUE_NONE, text_string(words));
}

void
report_bookings(const struct report_style *style, const struct inventory *inventory,
    const struct booked *bookings, size_t count, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, LIST_COLUMNS, sizeof LIST_COLUMNS / sizeof LIST_COLUMNS[0], 0,
	    style->colour);
	for (size_t i = 0; i < count; i++) {
		const struct booking *booking = bookings[i].booking;
		table_add(
		    &table, HUE_STRONG, inventory->vessels[bookings[i].vessel].name);
		add_day_cell(booking->days.first, &table, &words);
		add_day_cell(booking->days.last, &table, &words);
		add_number(booking->persons, "hers", &table, &words);
		add_number(booking->children, "", &table, &words);
		table_add(&table, HUE_NONE, booking->note);
	}
	if (count == 0) {
		text_add(out, "No bookings.\n");
	}
	table_write(&table, out);
}

/* ---- mustered ---- */

static const struct table_column MUSTER_COLUMNS[] = {
    {"Boat", 0, ALIGN_LEFT, true},
    {"From", 0, ALIGN_LEFT, false},
    {"To", 0, ALIGN_LEFT, false},
    {"Persons", 0, ALIGN_RIGHT, false},
    {"Answer", 0, ALIGN_LEFT, false},
};

static enum hue
rank_hue(enum booked_rank rank)
{
	switch (rank) {
	case BOOKED_SHORT:
	case BOOKED_NOT_TOLD:
		return HUE_BAD;
	case BOOKED_CURED:
		return HUE_CARE;
	case BOOKED_FINE:
		return HUE_GOOD;
	}
	return HUE_NONE;
}

/* "short", "short, spares cure it", "short from 13 Jun 2027". */
static void
add_answer(const struct booked *booked, struct text *words)
{
	const struct muster *muster = &booked->muster;
	enum booked_rank rank = booked_rank(booked);
	if (rank == BOOKED_FINE) {
		text_add(words, "nothing short");
		return;
	}
	if (rank == BOOKED_NOT_TOLD) {
		text_add(words, muster->line_count == 0 ? "not counted" : "not told");
		return;
	}
	text_add(words, rank == BOOKED_CURED ? "spares cure it" : "short");
	if (muster->first_short > booked->days.first) {
		text_add(words, " from ");
		add_day(muster->first_short, "", words);
	}
}

static void
add_row(const struct inventory *inventory, const struct booked *booked,
    struct table *table, struct text *words)
{
	table_add(table, HUE_STRONG, inventory->vessels[booked->vessel].name);
	add_day_cell(booked->booking->days.first, table, words);
	add_day_cell(booked->booking->days.last, table, words);
	add_number(booked->booking->persons, "hers", table, words);
	text_reset(words);
	add_answer(booked, words);
	table_add(table, rank_hue(booked_rank(booked)), text_string(words));
}

/* "Kestrel, 12 Jun 2027 to 19 Jun 2027, 6 persons, 2 of them children; as on 12 Jun 2027:" */
static void
add_heading(
    const struct inventory *inventory, const struct booked *booked, struct text *out)
{
	SCOPED_TEXT words = {0};
	const struct booking *booking = booked->booking;
	text_add_format(&words, "%s, ", inventory->vessels[booked->vessel].name);
	add_day(booking->days.first, "", &words);
	text_add(&words, " to ");
	add_day(booking->days.last, "", &words);
	if (booking->persons > 0) {
		text_add_format(&words, ", %d person%s", booking->persons,
		    booking->persons == 1 ? "" : "s");
	}
	if (booking->children > 0) {
		text_add_format(&words, "%s%d %s",
		    booking->persons > 0 ? ", of them " : ", with ", booking->children,
		    booking->children == 1 ? "child" : "children");
	}
	if (!booked->muster.ok) {
		text_add(&words, "; as on ");
		add_day(booked->muster.on, "", &words);
	}
	text_add_byte(&words, ':');
	text_add_byte(out, '\n');
	paragraph(text_string(&words), 0, 2, out);
}

/* Adds what lapses before she returns, with the last day of each. */
static void
add_lapses(const struct inventory *inventory, const struct booked *booked,
    struct text *out, struct text *words)
{
	size_t count = booked_lapses(booked);
	text_reset(words);
	for (size_t i = 0; i < count; i++) {
		const struct muster_lapse *lapse = &booked->muster.lapses[i];
		text_add_format(words, "%s%s, last day ",
		    i == 0 ? "lapses before she returns: " : "; ",
		    inventory->items[lapse->item].tag);
		add_day(lapse->last, "", words);
		text_add(words, lapse->makes_short ? ", then short" : "");
	}
	if (count > 0) {
		text_add(words, count == MUSTER_LAPSES_MOST ? "; perhaps more." : ".");
		paragraph(text_string(words), 2, 4, out);
	}
}

/* Where there is nothing to count against. */
static void
add_nothing(const struct muster *muster, struct text *out)
{
	if (muster->line_count == 0) {
		paragraph(muster->has_lines
			      ? "none of the carriage lines in her sheets holds: nothing "
				"to count against."
			      : "no carriage lines in her sheets: nothing to count "
				"against.",
		    2, 4, out);
	}
}

static void
add_children(const struct booked *booked, struct text *out)
{
	if (booked->booking->children > 0) {
		paragraph("children are counted as persons; no line is told how many "
			  "there are: see that jackets of their sizes are among those "
			  "aboard.",
		    2, 4, out);
	}
}

static void
add_booking(const struct kinds *kinds, const struct inventory *inventory,
    const struct booked *booked, struct text *out, struct text *words)
{
	if (booked->muster.ok && booked_lapses(booked) == 0 &&
	    booked->booking->children == 0) {
		return;
	}
	add_heading(inventory, booked, out);
	add_nothing(&booked->muster, out);
	if (!booked->muster.ok) {
		muster_add_lines(inventory, &booked->muster, true, out, words);
	}
	add_lapses(inventory, booked, out, words);
	if (booked->cured_by_others) {
		paragraph("cured by the spares that are to be moved to her for another "
			  "booking of hers.",
		    2, 4, out);
	} else {
		muster_add_spares(kinds, inventory, &booked->muster, out, words);
	}
	add_children(booked, out);
}

/* "5 bookings, of which 2 are short, 1 is not told and 1 is short but cured by spares." */
static void
add_sum(const struct booked *bookings, size_t count, struct text *words)
{
	size_t ranks[BOOKED_FINE + 1] = {0};
	for (size_t i = 0; i < count; i++) {
		ranks[booked_rank(&bookings[i])]++;
	}
	text_add_format(words,
	    "%zu booking%s, the worst first: %zu short, %zu not told, %zu short but cured "
	    "by spares, %zu with nothing short.",
	    count, count == 1 ? "" : "s", ranks[BOOKED_SHORT], ranks[BOOKED_NOT_TOLD],
	    ranks[BOOKED_CURED], ranks[BOOKED_FINE]);
}

/* What is told of all musters at once: subjects without a figure or a line. */
static void
add_silences(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out, struct text *words)
{
	SCOPED_ARENA arena = {0};
	struct muster *musters = arena_alloc(&arena, (count + 1) * sizeof *musters);
	for (size_t i = 0; i < count; i++) {
		musters[i] = bookings[i].muster;
	}
	muster_add_subjects(musters, count, out, words);
	muster_add_silences(inventory, musters, count, out, words);
}

void
report_booked(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct booked *bookings, size_t count,
    struct text *out)
{
	SCOPED_TEXT words = {0};
	SCOPED_TABLE table = {0};
	if (count == 0) {
		text_add(out, "No bookings to muster.\n");
		return;
	}
	table_init(&table, MUSTER_COLUMNS,
	    sizeof MUSTER_COLUMNS / sizeof MUSTER_COLUMNS[0], 0, style->colour);
	add_sum(bookings, count, &words);
	paragraph(text_string(&words), 0, 2, out);
	text_add_byte(out, '\n');
	for (size_t i = 0; i < count; i++) {
		add_row(inventory, &bookings[i], &table, &words);
	}
	table_write(&table, out);
	for (size_t i = 0; i < count; i++) {
		add_booking(kinds, inventory, &bookings[i], out, &words);
	}
	add_silences(inventory, bookings, count, out, &words);
	add_caution(out);
}
