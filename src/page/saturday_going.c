/* Which boats go out, what cures those that stay, what comes back and what lapses
 * next. */
#include "life/whereabouts.h"
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

/* How many days ahead are listed, for what comes back and for what lapses. */
enum { BACK_DAYS = 7, NEXT_DAYS = 14, LAPSES_TOLD = 3 };

static void
new_line(struct markup *markup)
{
	markup_begin(markup, "br");
	markup_end(markup);
}

/* The link to the form of a booking. */
static void
write_change(const struct saturday *day, const struct vessel *vessel,
    const struct booking *booking)
{
	struct markup *markup = day->visit->markup;
	SCOPED_TEXT path = {0};
	char iso[DAY_ISO_SIZE];
	text_add(&path, "/booking?vessel=");
	form_escape(vessel->name, &path);
	text_add_format(&path, "&first=%s", day_iso(booking->days.first, iso));
	if (!page_may(day->visit, "GET", text_string(&path))) {
		return;
	}
	new_line(markup);
	MARKUP_BEGIN(markup, "a", "go", "href", text_string(&path));
	markup_text(markup, "Change the booking");
	markup_element_format(markup, "span", "vh", " of %s", vessel->name);
	markup_end(markup);
}

/* The booking on which she is out, or the next one. */
static void
write_next(const struct saturday *day, const struct saturday_boat *boat)
{
	struct markup *markup = day->visit->markup;
	const struct booking *next =
	    booking_next(boat->vessel->bookings, boat->vessel->booking_count, day->on);
	if (next == NULL) {
		markup_text(markup, "not let yet");
		return;
	}
	bool out = next->days.first <= day->on;
	markup_text(markup, out ? "out until " : "in until ");
	shell_weekday(day->visit, out ? next->days.last : next->days.first);
	write_change(day, boat->vessel, next);
}

static void
write_boat(const struct saturday *day, const struct saturday_boat *boat)
{
	struct markup *markup = day->visit->markup;
	const struct booking *booking = boat->booked.booking;
	markup_begin(markup, "div");
	markup_element(markup, "b", "big", boat->vessel->name);
	new_line(markup);
	markup_begin_class(markup, "span", "small soft");
	if (booking == NULL) {
		write_next(day, boat);
	} else {
		if (booking->persons > 0) {
			markup_text_format(markup, "%d person%s", booking->persons,
			    booking->persons == 1 ? "" : "s");
			new_line(markup);
		}
		markup_text(markup, "back ");
		shell_weekday(day->visit, booking->days.last);
		if (booking->note[0] != '\0') {
			new_line(markup);
			markup_text(markup, booking->note);
		}
		write_change(day, boat->vessel, booking);
	}
	markup_ends(markup, 2);
}

/* What lapses before she is back, even when she may sail. */
static void
write_lapses(const struct saturday *day, const struct booked *booked)
{
	const struct inventory *inventory = &day->visit->desk.contents.inventory;
	struct markup *markup = day->visit->markup;
	size_t count = booked->booking == NULL ? 0 : booked_lapses(booked);
	SCOPED_TEXT words = {0};
	if (count == 0) {
		text_add(&words, booked->booking == NULL
				     ? "nothing short on this day"
				     : "nothing lapses before she is back");
	}
	for (size_t i = 0; i < count && i < LAPSES_TOLD; i++) {
		text_add_format(&words, "%s%s",
		    i == 0 ? "lapses before she is back: " : ", ",
		    inventory->items[booked->muster.lapses[i].item].tag);
	}
	if (count > LAPSES_TOLD) {
		text_add_format(&words, " and %zu more", count - LAPSES_TOLD);
	}
	markup_element(markup, "span", "small soft", text_string(&words));
}

static void
write_verdict(const struct saturday *day, const struct saturday_boat *boat)
{
	struct markup *markup = day->visit->markup;
	enum booked_rank rank = booked_rank(&boat->booked);
	SCOPED_TEXT shortages = {0};
	SCOPED_TEXT anchor = {0};
	form_escape(boat->vessel->name, &anchor);
	markup_begin(markup, "div");
	markup_begin_class(
	    markup, "span", rank == BOOKED_FINE ? "verdict" : "verdict no");
	draw_mark(markup, rank == BOOKED_FINE       ? MARK_SAIL
			  : rank == BOOKED_NOT_TOLD ? MARK_DATE_UNKNOWN
						    : MARK_SHORT);
	add_shortages(&boat->booked.muster, &shortages);
	if (rank == BOOKED_FINE) {
		markup_text(markup, "may sail");
	} else {
		markup_text_format(markup, "%s%s",
		    rank == BOOKED_NOT_TOLD ? "can't be told: " : "stays: short of ",
		    text_string(&shortages));
	}
	markup_end(markup);
	new_line(markup);
	if (rank == BOOKED_FINE) {
		write_lapses(day, &boat->booked);
	} else if (rank == BOOKED_NOT_TOLD) {
		SCOPED_TEXT path = {0};
		text_add(&path, "/locker?boat=");
		text_add(&path, text_string(&anchor));
		shell_link(day->visit, "go", "See her gear", "%s", text_string(&path));
	} else if (rank == BOOKED_SHORT && boat->booked.muster.cure.count == 0) {
		markup_element(markup, "span", "small soft", "no spare helps her");
	} else {
		shell_link(day->visit, "go",
		    rank == BOOKED_CURED ? "Cure it" : "No spare makes her whole",
		    "#cure-%s", text_string(&anchor));
	}
	markup_end(markup);
}

static void
write_row(const struct saturday *day, const struct saturday_boat *boat)
{
	struct markup *markup = day->visit->markup;
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_element(markup, "b", NULL, boat->base[0] != '\0' ? boat->base : "no base");
	markup_end(markup);
	markup_begin_class(markup, "div", "w book3");
	write_boat(day, boat);
	write_verdict(day, boat);
	draw_boat_strip(markup, day->axis, day->on, boat->bookings, boat->lapses);
	markup_ends(markup, 2);
}

static void
write_axis_row(const struct saturday *day)
{
	struct markup *markup = day->visit->markup;
	MARKUP_BEGIN(markup, "li", "row axisrow", "aria-hidden", "true");
	markup_begin_class(markup, "div", "k");
	markup_end(markup);
	markup_begin_class(markup, "div", "w book3");
	markup_element(markup, "span", NULL, "");
	markup_element(markup, "span", NULL, "");
	draw_boat_weeks(markup, day->axis, day->on);
	markup_ends(markup, 2);
}

void
write_going(const struct saturday *day)
{
	struct markup *markup = day->visit->markup;
	size_t rows = day->going > 0 ? day->going : day->count;
	if (rows == 0) {
		return;
	}
	shell_rows(day->visit, day->going > 0 ? "by base" : "not let",
	    day->going > 0 ? "Going out" : "Lying ready");
	write_axis_row(day);
	for (size_t i = 0; i < rows; i++) {
		write_row(day, &day->boats[i]);
	}
	markup_ends(markup, 2);
}

/* One move that helps: the piece, where it is, and the link to the form that moves it. */
static void
write_move(const struct saturday *day, const struct saturday_boat *boat,
    const struct muster_move *move)
{
	const struct inventory *inventory = &day->visit->desk.contents.inventory;
	const struct item *item = &inventory->items[move->item];
	struct markup *markup = day->visit->markup;
	SCOPED_TEXT path = {0};
	SCOPED_TEXT words = {0};
	bool some = move->quantity < item->quantity;
	text_add(&path, "/move/");
	form_escape(item->tag, &path);
	text_add(&path, "?to=");
	form_escape(boat->vessel->name, &path);
	if (some) {
		text_add_format(&path, "&quantity=%d", move->quantity);
	}
	markup_begin_class(markup, "div", "w cure");
	markup_begin(markup, "div");
	markup_element(markup, "b", "tag", item->tag);
	text_add(&words, ", ");
	if (some) {
		text_add_format(&words, "%d of ", move->quantity);
	}
	add_item_words(day->visit->desk.engine.kinds, inventory, move->item, &words);
	markup_text(markup, text_string(&words));
	new_line(markup);
	text_reset(&words);
	text_add_format(&words, "from %s", inventory->vessels[item->vessel].name);
	markup_element(markup, "span", "soft", text_string(&words));
	markup_end(markup);
	markup_begin_class(markup, "div", "small soft");
	markup_end(markup);
	markup_begin(markup, "div");
	text_reset(&words);
	text_add_format(&words, "Move it to %s", boat->vessel->name);
	shell_link(day->visit, "button", text_string(&words), "%s", text_string(&path));
	markup_ends(markup, 2);
}

static void
write_cure(const struct saturday *day, const struct saturday_boat *boat)
{
	struct markup *markup = day->visit->markup;
	const struct muster_cure *cure = &boat->booked.muster.cure;
	enum booked_rank rank = booked_rank(&boat->booked);
	SCOPED_TEXT shortages = {0};
	SCOPED_TEXT anchor = {0};
	form_escape(boat->vessel->name, &anchor);
	add_shortages(&boat->booked.muster, &shortages);
	markup_begin_class(markup, "li", "row");
	markup_attribute_format(markup, "id", "cure-%s", text_string(&anchor));
	markup_begin_class(markup, "div", "k");
	markup_element(markup, "b", NULL, boat->base);
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	markup_begin(markup, "p");
	markup_element(markup, "b", "big", boat->vessel->name);
	markup_text_format(markup, ", short of %s", text_string(&shortages));
	markup_end(markup);
	for (size_t i = 0; i < cure->count; i++) {
		write_move(day, boat, &cure->moves[i]);
	}
	if (boat->booked.cured_by_others) {
		markup_element(markup, "p", "small soft",
		    "Cured by what is moved to her for another of her bookings.");
	} else if (rank == BOOKED_SHORT) {
		markup_element(markup, "p", "small soft",
		    "With these she is still short: buy what is missing, or she stays.");
	}
	markup_ends(markup, 2);
}

/* True when no spare of her base reduces what is missing. */
static bool
is_past_cure(const struct saturday_boat *boat)
{
	return booked_rank(&boat->booked) == BOOKED_SHORT &&
	       boat->booked.muster.cure.count == 0 && !boat->booked.cured_by_others;
}

/* The boats that no spare helps, in one place: what they are short of is shown above. */
static void
write_past_cure(const struct saturday *day, size_t rows)
{
	struct markup *markup = day->visit->markup;
	SCOPED_TEXT names = {0};
	size_t count = 0;
	for (size_t i = 0; i < rows; i++) {
		if (is_past_cure(&day->boats[i])) {
			text_add_format(&names, "%s%s", count++ == 0 ? "" : ", ",
			    day->boats[i].vessel->name);
		}
	}
	if (count == 0) {
		return;
	}
	markup_begin_class(markup, "li", "row");
	markup_element(markup, "div", "k", "no spare");
	markup_begin_class(markup, "div", "t");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, text_string(&names));
	markup_text(markup, count == 1
				? ": none among the spares of her base helps. Buy "
				  "what is missing, or she stays."
				: ": none among the spares of their bases helps. Buy "
				  "what is missing, or they stay.");
	markup_ends(markup, 3);
}

static bool
wants_cure(const struct saturday_boat *boat)
{
	enum booked_rank rank = booked_rank(&boat->booked);
	return rank == BOOKED_CURED || rank == BOOKED_SHORT;
}

void
write_cures(const struct saturday *day)
{
	struct markup *markup = day->visit->markup;
	size_t rows = day->going > 0 ? day->going : day->count;
	size_t wanted = 0;
	SCOPED_TEXT margin = {0};
	for (size_t i = 0; i < rows; i++) {
		wanted += wants_cure(&day->boats[i]) ? 1 : 0;
	}
	if (wanted == 0) {
		return;
	}
	text_add_format(&margin, "%zu boat%s", wanted, wanted == 1 ? "" : "s");
	shell_rows(day->visit, text_string(&margin), "What cures it");
	for (size_t i = 0; i < rows; i++) {
		if (wants_cure(&day->boats[i]) && !is_past_cure(&day->boats[i])) {
			write_cure(day, &day->boats[i]);
		}
	}
	write_past_cure(day, rows);
	markup_ends(markup, 2);
}

/* A row of a day and a piece. */
static void
write_piece_row(const struct saturday *day, day_t on, size_t item, const char *what)
{
	const struct inventory *inventory = &day->visit->desk.contents.inventory;
	const struct item *it = &inventory->items[item];
	struct markup *markup = day->visit->markup;
	SCOPED_TEXT words = {0};
	SCOPED_TEXT path = {0};
	form_escape(it->tag, &path);
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	if (on == DAY_NONE || on == DAY_NEVER) {
		markup_text(markup, "not known");
	} else {
		markup_begin(markup, "b");
		shell_weekday(day->visit, on);
		markup_end(markup);
	}
	markup_end(markup);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	shell_link(day->visit, "tag", it->tag, "/locker/%s", text_string(&path));
	text_add_byte(&words, ' ');
	add_item_name(day->visit->desk.engine.kinds, inventory, item, &words);
	text_add_format(&words, " of %s", inventory->vessels[it->vessel].name);
	markup_text(markup, text_string(&words));
	markup_end(markup);
	markup_element(markup, "span", NULL, what);
	markup_ends(markup, 2);
}

static void
write_back(const struct saturday *day)
{
	struct desk *desk = &day->visit->desk;
	struct markup *markup = day->visit->markup;
	const struct known_gear known = {&desk->contents.inventory, desk->engine.kinds,
	    desk->contents.stations, desk->contents.station_count};
	struct whereabouts_list list = {0};
	bool begun = false;
	SCOPED_TEXT from = {0};
	whereabouts_ashore(&known, NULL, &desk->arena, &list);
	for (size_t i = 0; i < list.count; i++) {
		const struct whereabouts *where = &list.items[i];
		bool told = where->collect != DAY_NONE && where->collect != DAY_NEVER;
		if (told && where->collect > day->on + BACK_DAYS) {
			continue;
		}
		if (!begun) {
			shell_rows(day->visit, NULL, "Back this week");
			begun = true;
		}
		text_reset(&from);
		text_add_format(&from, "%s%s",
		    where->station[0] != '\0' ? "from " : "where it is, is not written",
		    where->station);
		write_piece_row(day, where->collect, where->item, text_string(&from));
	}
	if (begun) {
		markup_ends(markup, 2);
	}
}

/* The gear of a boat whose last day in date is this one; the first such thing begins the
 * list. */
static void
write_lapsing(
    const struct saturday *day, const struct muster *muster, day_t on, bool *begun)
{
	for (size_t i = 0; i < muster->lapse_count; i++) {
		if (muster->lapses[i].last != on) {
			continue;
		}
		if (!*begun) {
			shell_rows(day->visit, NULL, "Before the next weeks");
			*begun = true;
		}
		write_piece_row(day, on, muster->lapses[i].item,
		    muster->lapses[i].makes_short ? "its last day; then she is short"
						  : "its last day");
	}
}

/* What lapses within two weeks of the day, on boats that are not short already. */
void
write_back_and_next(const struct saturday *day)
{
	bool begun = false;
	write_back(day);
	for (day_t on = day->on; on <= day->on + NEXT_DAYS; on++) {
		for (size_t i = 0; i < day->count; i++) {
			write_lapsing(day, &day->boats[i].on, on, &begun);
		}
	}
	if (begun) {
		markup_ends(day->visit->markup, 2);
	}
}
