#include "exchange/answer_parts.h"
#include "exchange/answers.h"

#define EVERY_BOOKING                                                                    \
	"vessel", "from", "to", "persons: null where as many as she is entered for",     \
	    "children: how many of them", "note"

static ANSWER_KEYS(BOOKING_KEYS, "a booking", EVERY_BOOKING);

static ANSWER_KEYS(BOOKED_KEYS, "a booking", EVERY_BOOKING,
    "answer: fine, cured, not-told or short",
    "cured_by_others: by spares moved to her for another of hers",
    "lapses: the tags of what does before she returns", "muster: hers");

static ANSWER_KEYS(WHOLE_KEYS, "the answer", "bookings");

const struct answer_keys *const KEYS_OF_BOOKINGS[] = {&BOOKING_KEYS, NULL};
const struct answer_keys *const KEYS_OF_BOOKED[] = {&WHOLE_KEYS, &BOOKED_KEYS, NULL};

static struct json
put_booking(const struct answer_keys *keys, enum json_which which,
    const struct inventory *inventory, const struct booked *booked)
{
	const struct booking *booking = booked->booking;
	return JSON_PUT(json_begun(), keys, which,
	    json_text(inventory->vessels[booked->vessel].name),
	    json_day(booking->days.first), json_day(booking->days.last),
	    json_number(booking->persons, 0), json_whole(booking->children),
	    json_text(booking->note));
}

void
answer_bookings(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		answer_element(&answer,
		    put_booking(&BOOKING_KEYS, JSON_LAST, inventory, &bookings[i]));
	}
	answer_end(&answer);
}

static struct json
booked_object(const struct inventory *inventory, const struct booked *booked)
{
	struct json lapses = json_list();
	for (size_t i = 0; i < booked_lapses(booked); i++) {
		size_t item = booked->muster.lapses[i].item;
		json_push(lapses, json_text(inventory->items[item].tag));
	}
	struct json object = put_booking(&BOOKED_KEYS, JSON_NEXT, inventory, booked);
	return JSON_PUT(object, &BOOKED_KEYS, JSON_LAST,
	    json_text(booked_word(booked_rank(booked))),
	    json_flag(booked->cured_by_others), lapses,
	    muster_object(inventory, &booked->muster));
}

void
answer_booked(const struct inventory *inventory, const struct booked *bookings,
    size_t count, struct text *out)
{
	struct json array = json_list();
	for (size_t i = 0; i < count; i++) {
		json_push(array, booked_object(inventory, &bookings[i]));
	}
	answer_value(out, JSON_OF(&WHOLE_KEYS, array));
}
