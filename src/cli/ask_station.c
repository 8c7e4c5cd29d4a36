/* Asking from which station gear came back. */
#include "base/alike.h"
#include "cli/asking.h"
#include "cli/terminal.h"

#include <string.h>

/* The stations at which gear is ashore, and how many pieces each. */
struct ashore {
	struct word_list stations;
	size_t *pieces;
};

static void
count_pieces(
    struct context *context, const size_t *items, size_t count, struct ashore *out)
{
	struct word_list *stations = &out->stations;
	out->pieces =
	    arena_alloc(&context->desk.arena, (count + 1) * sizeof *out->pieces);
	for (size_t i = 0; i < count; i++) {
		const char *station =
		    context->desk.contents.inventory.items[items[i]].landed_to;
		size_t at = 0;
		while (
		    at < stations->count && strcmp(stations->items[at], station) != 0) {
			at++;
		}
		if (at == stations->count) {
			ARENA_ADD(&context->desk.arena, stations, station);
		}
		out->pieces[at]++;
	}
}

static void
add_question(const struct ashore *ashore, struct text *out)
{
	text_add(out, "Back from which station?\n");
	for (size_t i = 0; i < ashore->stations.count; i++) {
		text_add_format(out, "  %zu  %s: %zu piece%s\n", i + 1,
		    ashore->stations.items[i], ashore->pieces[i],
		    ashore->pieces[i] == 1 ? "" : "s");
	}
	text_add(out, "Its number or its name (empty: all of them): ");
}

/* The station an answer means: "" for all of them, NULL for none. */
static const char *
station_of(const struct word_list *stations, const char *answer)
{
	long number = 0;
	if (answer[0] == '\0') {
		return "";
	}
	if (number_read(answer, 1, (long)stations->count, &number)) {
		return stations->items[number - 1];
	}
	size_t found = word_meant(answer, stations->items, stations->count);
	return found < stations->count ? stations->items[found] : NULL;
}

bool
ask_station(struct context *context, const size_t *items, size_t count,
    const char **station_out, struct fault *fault)
{
	SCOPED_TEXT question = {0};
	SCOPED_TEXT answer = {0};
	struct ashore ashore = {0};
	const char *station = "";
	bool there = false;
	count_pieces(context, items, count, &ashore);
	if (ashore.stations.count < 2) {
		*station_out = "";
		return true;
	}
	add_question(&ashore, &question);
	do {
		if (!ask_line(text_string(&question), &answer, &there, fault)) {
			return false;
		}
		if (!there) {
			return fault_set(fault, FAULT_INPUT,
			    "the answers ended before the last question; nothing is "
			    "written");
		}
		station = station_of(&ashore.stations, text_string(&answer));
	} while (station == NULL);
	/* A copy: the book is read again before it is written. */
	*station_out = arena_string(&context->desk.arena, station);
	return true;
}
