#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/csv_quote.h"

static json_t *
booking_object(const struct inventory *inventory, const struct booked *booked)
{
	const struct booking *booking = booked->booking;
	json_t *object = json_object();
	json_put_string(object, "vessel", inventory->vessels[booked->vessel].name);
	json_put_day(object, "from", booking->days.first);
	json_put_day(object, "to", booking->days.last);
	json_put_number(object, "persons", booking->persons, 0);
	json_put(object, "children", json_integer(booking->children));
	json_put_string(object, "note", booking->note);
	return object;
}

void
answer_bookings(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		answer_element(&answer, booking_object(inventory, &bookings[i]));
	}
	answer_end(&answer);
}

static json_t *
booked_object(const struct inventory *inventory, const struct booked *booked)
{
	json_t *object = booking_object(inventory, booked);
	json_t *lapses = json_array();
	for (size_t i = 0; i < booked_lapses(booked); i++) {
		size_t item = booked->muster.lapses[i].item;
		json_push(lapses, json_string(inventory->items[item].tag));
	}
	json_put_string(object, "answer", booked_word(booked_rank(booked)));
	json_put_bool(object, "cured_by_others", booked->cured_by_others);
	json_put(object, "lapses", lapses);
	json_put(object, "muster", answer_muster_object(inventory, &booked->muster));
	return object;
}

void
answer_booked(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out)
{
	json_t *object = json_object();
	json_t *array = json_array();
	for (size_t i = 0; i < count; i++) {
		json_push(array, booked_object(inventory, &bookings[i]));
	}
	json_put(object, "bookings", array);
	answer_value(out, object);
}

static const char *const COLUMNS[] = {"vessel", "from", "to", "persons", "children",
    "note", "answer", "first_short", "good_through", "short", "lapses", "spares"};

static void
put_number(struct csv_line *row, int number, struct text *cell)
{
	text_reset(cell);
	if (number > 0) {
		text_add_format(cell, "%d", number);
	}
	csv_line_cell(row, text_string(cell));
}

/* The lines she is short of on some of the days, "2 of sc-jackets". */
static void
put_shortages(struct csv_line *row, const struct muster *muster, struct text *cell)
{
	text_reset(cell);
	for (size_t i = 0; i < muster->shortage_count; i++) {
		const struct muster_shortage *shortage = &muster->shortages[i];
		text_add_format(cell, "%s%d of %s", i == 0 ? "" : "; ", shortage->most,
		    shortage->line->id);
	}
	csv_line_cell(row, text_string(cell));
}

static void
put_booked(struct csv_line *row, const struct inventory *inventory,
    const struct booked *booked, struct text *cell)
{
	const struct muster *muster = &booked->muster;
	csv_line_cell(row, inventory->vessels[booked->vessel].name);
	csv_line_day(row, booked->booking->days.first);
	csv_line_day(row, booked->booking->days.last);
	put_number(row, booked->booking->persons, cell);
	put_number(row, booked->booking->children, cell);
	csv_line_cell(row, booked->booking->note);
	csv_line_cell(row, booked_word(booked_rank(booked)));
	csv_line_day(row, muster->first_short);
	csv_line_day(row, muster->good_through);
	put_shortages(row, muster, cell);
	text_reset(cell);
	for (size_t i = 0; i < booked_lapses(booked); i++) {
		text_add(cell, i == 0 ? "" : " ");
		text_add(cell, inventory->items[muster->lapses[i].item].tag);
	}
	csv_line_cell(row, text_string(cell));
	text_reset(cell);
	for (size_t i = 0; i < muster->cure.count; i++) {
		const struct muster_move *move = &muster->cure.moves[i];
		text_add_format(cell, "%s%d of %s", i == 0 ? "" : "; ", move->quantity,
		    inventory->items[move->item].tag);
	}
	csv_line_cell(row, text_string(cell));
}

void
csv_write_booked(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out)
{
	SCOPED_TEXT cell = {0};
	csv_header(COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], out);
	for (size_t i = 0; i < count; i++) {
		struct csv_line row = {
		    .out = out, .columns = sizeof COLUMNS / sizeof COLUMNS[0]};
		put_booked(&row, inventory, &bookings[i], &cell);
		csv_line_end(&row);
	}
}
