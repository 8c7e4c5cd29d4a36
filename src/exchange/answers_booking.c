#include "exchange/answer_parts.h"
#include "exchange/answers.h"

static const struct answer_key BOOKING_KEYS[] = {{"vessel", NULL}, {"from", NULL},
    {"to", NULL}, {"persons", "null where as many as she is entered for"},
    {"children", "how many of them"}, {"note", NULL}};

const struct answer_keys KEYS_OF_BOOKINGS[] = {KEYS("a booking", BOOKING_KEYS), {0}};

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
	return json_keyed(object, KEYS_OF_BOOKINGS);
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
