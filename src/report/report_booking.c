#include "report/parts_inside.h"
#include "report/report.h"
#include "report/words.h"

/* A number of persons as a cell has it: none was told where it is 0. */
static int
number_told(int number)
{
	return number > 0 ? number : -1;
}

void
report_bookings(const struct report_style *style, const struct inventory *inventory,
    const struct booked *bookings, size_t count, struct text *out)
{
	static const struct reply_column COLUMNS[] = {{.heading = "Boat"},
	    {.heading = "From", .type = CELL_DAY}, {.heading = "To", .type = CELL_DAY},
	    {.heading = "Persons", .type = CELL_NUMBER},
	    {.heading = "Children", .type = CELL_NUMBER},
	    {.heading = "Note", .flexible = true}};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < count; i++) {
		const struct booking *booking = bookings[i].booking;
		reply_cell(
		    table, HUE_STRONG, inventory->vessels[bookings[i].vessel].name);
		reply_day(table, HUE_NONE, booking->days.first, "");
		reply_day(table, HUE_NONE, booking->days.last, "");
		reply_number(table, HUE_NONE, number_told(booking->persons), "hers");
		reply_number(table, HUE_NONE, number_told(booking->children), "");
		reply_cell(table, HUE_NONE, booking->note);
	}
	reply_words(&reply, VOICE_PLAIN, false, 0, count == 0 ? "No bookings." : "");
	reply_write(&reply, style, out);
}

/* ---- mustered ---- */

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

/* The lines she is short of on some of the days, "2 of sc-jackets; 1 of sc-flares". */
static void
add_shortages(const struct muster *muster, struct text *out)
{
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		text_add_format(out, "%s%d of %s", i == 0 ? "" : "; ", shortage->most,
		    shortage->line->id);
	}
}

/* The tags of what lapses before she returns, separated by blanks. */
static void
add_lapsing_tags(
    const struct inventory *inventory, const struct booked *booked, struct text *out)
{
	for (size_t i = 0; i < booked_lapses(booked); i++) {
		text_add_format(out, "%s%s", i == 0 ? "" : " ",
		    inventory->items[booked->muster.lapses[i].item].tag);
	}
}

/* The spares that go to her, "1 of LJ-9". */
static void
add_moves(
    const struct inventory *inventory, const struct muster *muster, struct text *out)
{
	for (size_t i = 0; i < muster->cure.count; i++) {
		const struct muster_move *move = &muster->cure.moves[i];
		text_add_format(out, "%s%d of %s", i == 0 ? "" : "; ", move->quantity,
		    inventory->items[move->item].tag);
	}
}

static void
add_row(const struct inventory *inventory, const struct booked *booked,
    struct reply_table *table)
{
	const struct muster *muster = &booked->muster;
	const struct booking *booking = booked->booking;
	SCOPED_TEXT answer = {0};
	SCOPED_TEXT shortages = {0};
	SCOPED_TEXT lapses = {0};
	SCOPED_TEXT moves = {0};
	add_answer(booked, &answer);
	add_shortages(muster, &shortages);
	add_lapsing_tags(inventory, booked, &lapses);
	add_moves(inventory, muster, &moves);
	reply_cell(table, HUE_STRONG, inventory->vessels[booked->vessel].name);
	reply_day(table, HUE_NONE, booking->days.first, "");
	reply_day(table, HUE_NONE, booking->days.last, "");
	reply_number(table, HUE_NONE, number_told(booking->persons), "hers");
	reply_number(table, HUE_NONE, number_told(booking->children), "");
	reply_cell(table, HUE_NONE, booking->note);
	reply_coded(table, rank_hue(booked_rank(booked)), text_string(&answer),
	    booked_word(booked_rank(booked)));
	reply_day(table, HUE_NONE, muster->first_short, "");
	reply_day(table, HUE_NONE, muster->good_through, "");
	reply_cell(table, HUE_NONE, text_string(&shortages));
	reply_cell(table, HUE_NONE, text_string(&lapses));
	reply_cell(table, HUE_NONE, text_string(&moves));
}

/* A row a booking. */
static void
add_rows(const struct inventory *inventory, const struct booked *bookings, size_t count,
    struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Boat", .key = "vessel", .flexible = true},
	    {.heading = "From", .key = "from", .type = CELL_DAY},
	    {.heading = "To", .key = "to", .type = CELL_DAY},
	    {.heading = "Persons", .key = "persons", .type = CELL_NUMBER},
	    {.key = "children", .type = CELL_NUMBER}, {.key = "note"},
	    {.heading = "Answer", .key = "answer", .type = CELL_STATE},
	    {.key = "first_short", .type = CELL_DAY},
	    {.key = "good_through", .type = CELL_DAY}, {.key = "short"},
	    {.key = "lapses"}, {.key = "spares"}};
	struct reply_table *table = REPLY_TABLE(reply, COLUMNS, LOOK_FLUSH | LOOK_APART);
	for (size_t i = 0; i < count; i++) {
		add_row(inventory, &bookings[i], table);
	}
}

/* "Kestrel, 12 Jun 2027 to 19 Jun 2027, 6 persons, 2 of them children; as on 12 Jun 2027:" */
static void
add_heading(
    const struct inventory *inventory, const struct booked *booked, struct reply *reply)
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
	reply_words(reply, VOICE_PLAIN, true, 2, text_string(&words));
}

/* Adds what lapses before she returns, with the last day of each. */
static void
add_lapses(
    const struct inventory *inventory, const struct booked *booked, struct reply *reply)
{
	size_t count = booked_lapses(booked);
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < count; i++) {
		const struct muster_lapse *lapse = &booked->muster.lapses[i];
		text_add_format(&words, "%s%s, last day ",
		    i == 0 ? "lapses before she returns: " : "; ",
		    inventory->items[lapse->item].tag);
		add_day(lapse->last, "", &words);
		text_add(&words, lapse->makes_short ? ", then short" : "");
	}
	if (count > 0) {
		text_add(&words, count == MUSTER_LAPSES_MOST ? "; perhaps more." : ".");
		reply_remark(reply, VOICE_CARE, 2, text_string(&words));
	}
}

/* Where there is nothing to count against. */
static void
add_nothing(const struct muster *muster, struct reply *reply)
{
	if (muster->line_count == 0) {
		reply_remark(reply, VOICE_CARE, 2,
		    muster->has_lines
			? "none of the carriage lines in her sheets holds: nothing to "
			  "count against."
			: "no carriage lines in her sheets: nothing to count against.");
	}
}

static void
add_booking(const struct kinds *kinds, const struct inventory *inventory,
    const struct booked *booked, struct reply *reply)
{
	if (booked->muster.ok && booked_lapses(booked) == 0 &&
	    booked->booking->children == 0) {
		return;
	}
	add_heading(inventory, booked, reply);
	add_nothing(&booked->muster, reply);
	if (!booked->muster.ok) {
		muster_add_lines(inventory, &booked->muster, true, reply);
	}
	add_lapses(inventory, booked, reply);
	if (booked->cured_by_others) {
		reply_remark(reply, VOICE_PLAIN, 2,
		    "cured by the spares that are to be moved to her for another "
		    "booking of hers.");
	} else {
		muster_add_spares(kinds, inventory, &booked->muster, reply);
	}
	if (booked->booking->children > 0) {
		reply_remark(reply, VOICE_PLAIN, 2,
		    "children are counted as persons; no line is told how many there "
		    "are: see that jackets of their sizes are among those aboard.");
	}
}

/* "5 bookings, the worst first: 2 short, 1 not told, 1 short but cured by spares, ..." */
static void
add_sum(const struct booked *bookings, size_t count, struct text *words)
{
	size_t ranks[BOOKED_FINE + 1] = {0};
	for (size_t i = 0; i < count; i++) {
		ranks[booked_rank(&bookings[i])]++;
	}
	text_add_format(words,
	    "%zu booking%s, the worst first: %zu short, %zu not told, %zu short but cured "
	    "by spares, %zu with nothing short",
	    count, count == 1 ? "" : "s", ranks[BOOKED_SHORT], ranks[BOOKED_NOT_TOLD],
	    ranks[BOOKED_CURED], ranks[BOOKED_FINE]);
}

/* What is told of all musters at once: subjects without a figure or a line. */
static void
add_silences(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct reply *reply)
{
	struct muster *musters = ARENA_MANY(reply->arena, struct muster, count);
	const char **names = ARENA_MANY(reply->arena, const char *, count);
	for (size_t i = 0; i < count; i++) {
		musters[i] = bookings[i].muster;
		names[i] = inventory->vessels[musters[i].vessel].name;
	}
	muster_add_subjects(musters, count, reply);
	muster_add_silences(names, musters, count, reply);
}

void
report_booked(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct booked *bookings, size_t count,
    struct text *out)
{
	SCOPED_TEXT sum = {0};
	SCOPED_REPLY(reply);
	if (count > 0) {
		add_sum(bookings, count, &sum);
		reply_heading(&reply, 2, text_string(&sum));
	} else {
		reply_words(&reply, VOICE_PLAIN, false, 0, "No bookings to muster.");
	}
	add_rows(inventory, bookings, count, &reply);
	for (size_t i = 0; i < count; i++) {
		add_booking(kinds, inventory, &bookings[i], &reply);
	}
	if (count > 0) {
		add_silences(inventory, bookings, count, &reply);
		reply_caution(&reply);
	}
	reply_write(&reply, style, out);
}
