/* The part of a shore list about trips to stations. */
#include "base/memory.h"
#include "base/numbers.h"
#include "gear/money.h"
#include "report/parts_inside.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

static const struct part_shape TRIP_SHAPE = {.task = true, .due = true};

/* Marks the hazards of the kinds of some lines. */
static void
mark_hazards(const struct shore_page *page, const struct shore_lines *lines,
    bool only_service, bool seen[HAZARD_COUNT])
{
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		const struct item *item = &page->inventory->items[line->item];
		const struct kind *kind = kinds_find(page->kinds, item->kind);
		if (kind == NULL || (only_service && !(kind->service_ashore &&
							 line->task == TASK_SERVICE))) {
			continue;
		}
		seen[kind->hazard] = true;
	}
}

/* Writes a caution; its words say what it is about. */
static void
write_caution(const struct shore_page *page, const char *caution)
{
	SCOPED_TEXT words = {0};
	if (caution[0] != '\0') {
		text_add_format(&words, "!%c%s", GLUE, caution);
		reply_words(page->reply, VOICE_CARE, false, 2, text_string(&words));
	}
}

/* Adds "Mon 2 Nov", and the year when it is not this winter's. */
static void
add_trip_day(const struct shore_page *page, day_t day, struct text *words)
{
	struct span only = {day, day};
	text_add_format(words, "%.3s%c", weekday_name(day_of_week(day)), GLUE);
	add_day_of(day, !page_in_winter(page, only), words);
}

/* Narrows the days to those, still to come, on which all lines of a trip can be handed in
 * together. */
static struct span
narrow_window(const struct shore_page *page, const struct trip *trip, struct span all)
{
	for (size_t i = 0; i < trip->lines.count; i++) {
		struct span window = page_window(page, &trip->lines.items[i]);
		if (window.first != DAY_NONE) {
			all.first = day_max(all.first, window.first);
		}
		if (window.last != DAY_NONE) {
			all.last = all.last == DAY_NONE ? window.last
							: day_min(all.last, window.last);
		}
	}
	return all;
}

/* Adds when it is fetched: "; collect Mon 14 Dec", "about 14 Dec (ask)" where the
 * turn-round is assumed, and "with the next hand-in" where it waits for that. */
static void
add_collect(const struct shore_page *page, const struct trip *trip, struct text *words)
{
	if (trip->collect == DAY_NONE || trip->collect == DAY_NEVER) {
		return;
	}
	if (trip->assumed) {
		struct span only = {trip->collect, trip->collect};
		text_add(words, "; collect about ");
		add_day_of(trip->collect, !page_in_winter(page, only), words);
		text_add(words, " (ask)");
	} else {
		text_add(words, "; collect ");
		add_trip_day(page, trip->collect, words);
	}
	if (trip->collect > trip->ready) {
		text_add(words, " with the next hand-in");
	}
}

/* "Hand in Mon 2 Nov (by 13 Dec) at Kaap Service; collect Mon 14 Dec"; "from Mon 2 Nov"
 * when it can't be earlier. */
static void
add_trip_heading(const struct shore_page *page, const struct trip *trip,
    struct span possible, struct text *words)
{
	bool not_before = possible.first != DAY_NONE && possible.first == trip->hand_in;
	text_add(words, not_before ? "Hand in from " : "Hand in ");
	add_trip_day(page, trip->hand_in, words);
	if (not_before) {
		possible.first = DAY_NONE;
	}
	if (possible.first != DAY_NONE || possible.last != DAY_NONE) {
		text_add(words, " (");
		add_window_words(possible, !page_in_winter(page, possible), words);
		text_add_byte(words, ')');
	}
	text_add_format(
	    words, " at %s", trip->name[0] == '\0' ? "an approved station" : trip->name);
	add_collect(page, trip, words);
}

/* Adds since when the day of a hand-in is settled, and by what it was given out. */
static void
add_given(const struct trip *trip, struct text *words)
{
	static const char *const BY[] = {[GIVEN_BY_UNKNOWN] = "",
	    [GIVEN_BY_FILE] = " by a calendar file",
	    [GIVEN_BY_FEED] = " by the feed",
	    [GIVEN_BY_PUSH] = " by a push to the calendar server",
	    [GIVEN_BY_PAPERS] = " by shore papers",
	    [GIVEN_BY_ROTA] = " by a rota",
	    [GIVEN_BY_PERSON] = ", when you saw to its day"};
	char day[DAY_WORDS_SIZE];
	if (trip->given_by == GIVEN_BY_UNKNOWN) {
		return;
	}
	text_add(words, trip->chosen   ? " on "
			: trip->missed ? ", given out anew on "
				       : ", given out on ");
	text_add(words, day_words(trip->given_on, day));
	text_add(words, trip->chosen ? "" : BY[trip->given_by]);
}

/* Adds why a settled day does not serve. */
static void
add_misfit(const struct shore_page *page, const struct trip *trip, struct span possible,
    struct text *words)
{
	if (trip->misfit == DAY_CLOSED) {
		text_add(words, ", but nothing is taken in there on it");
	} else if (trip->misfit == DAY_NOT_THEIRS) {
		text_add(words, ", which is not one of those on which you go");
	} else if (trip->misfit == DAY_BOOKED) {
		text_add(words, ", but a boat is booked before it can be collected");
	} else if (trip->year < page->list->winter.year &&
		   possible.first > trip->hand_in) {
		text_add(words, ", behind the winter it was meant for");
	} else {
		text_add_format(words, ", but that is %s for some of it",
		    day_misfit_word(trip->misfit));
	}
}

/* "* Settled, given out on 25 Nov 2026 by a calendar file; could be as early as Wed 25
 * Nov." A day that a person chose and that does not serve is marked with the reason.
 * `possible` are the days on which all of it could go. */
static void
write_standing(
    const struct shore_page *page, const struct trip *trip, struct span possible)
{
	const bool misfit = trip->misfit != DAY_SERVES;
	SCOPED_TEXT words = {0};
	if (!trip->settled && trip->earliest == DAY_NONE) {
		return;
	}
	text_add_format(&words, "%c%c", misfit ? '!' : '*', GLUE);
	text_add(&words, trip->missed && !trip->chosen ? "Missed on its earlier day"
			 : trip->chosen                ? "Settled on a day you chose"
			 : trip->settled               ? "Settled"
						       : "");
	add_given(trip, &words);
	text_add(&words, trip->confirmed ? ", confirmed by the station" : "");
	if (misfit) {
		add_misfit(page, trip, possible, &words);
	}
	if (misfit && possible.last != DAY_NONE && possible.last < trip->hand_in) {
		text_add(&words, "; the last day for all of it is ");
		add_trip_day(page, possible.last, &words);
	} else if (misfit && possible.first != DAY_NONE &&
		   possible.first > trip->hand_in) {
		text_add(&words, "; the first day for all of it is ");
		add_trip_day(page, possible.first, &words);
	} else if (trip->earliest != DAY_NONE) {
		text_add(&words,
		    trip->settled ? "; could be as early as " : "Could be as early as ");
		add_trip_day(page, trip->earliest, &words);
	}
	text_add_byte(&words, '.');
	shore_words(page, &words);
}

/* "* Moved from Wed 2 Dec 2026: closed." */
static void
write_moved(const struct shore_page *page, const struct trip *trip)
{
	SCOPED_TEXT words = {0};
	if (trip->moved_why == DAY_SERVES) {
		return;
	}
	text_add(&words, "* Moved from ");
	add_trip_day(page, trip->moved_from, &words);
	text_add_format(
	    &words, ", which serves no more: %s.", day_misfit_word(trip->moved_why));
	shore_words(page, &words);
}

/* "* In the calendar and on papers from Sat 1 May 2027 on, when ...". */
static void
write_given_from(const struct shore_page *page, const struct trip *trip)
{
	SCOPED_TEXT words = {0};
	if (!trip->held_back) {
		return;
	}
	text_add(&words, "* In the calendar and on papers from ");
	add_trip_day(page, trip->given_from, &words);
	text_add(
	    &words, " on, when the boats of this base have all fitted out; it may grow.");
	shore_words(page, &words);
}

/* "* Ask whether gear is taken in there on a Saturday ...", when that is not known. */
static void
write_days(const struct shore_page *page, const struct trip *trip)
{
	SCOPED_TEXT words = {0};
	if (trip->days == DAYS_TO_ASK) {
		text_add_format(&words,
		    "! Ask whether it takes gear in on a %s, your day: its own days are not "
		    "known.",
		    weekday_name(day_of_week(trip->hand_in)));
	} else if (trip->days == DAYS_NOT_SHARED) {
		text_add(&words,
		    "* It takes nothing in on your days: this is one of its own.");
	}
	shore_words(page, &words);
}

/* Says that the station is the one it was settled with, when there is no other reason for
 * it. */
static void
write_as_settled(const struct shore_page *page, const struct trip_choice *choice)
{
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	text_add(&words, "* Sent there as it was settled; elsewhere it would ");
	if (choice->not_weighed) {
		text_add(&words, "cost what was not found.");
	} else {
		text_add_format(&words,
		    "cost %s less now, what else is settled staying "
		    "as it is, as far as prices are known.",
		    money_words(choice->cheaper_minor, page->style->currency, money));
	}
	shore_words(page, &words);
}

/* "* Sent there, since elsewhere it would cost 40 EUR more ...". */
static void
write_sent(const struct shore_page *page, const struct trip *trip)
{
	char money[MONEY_WORDS_SIZE];
	const struct trip_choice *choice = &trip->choice;
	SCOPED_TEXT words = {0};
	text_add(&words, "* Sent there, since elsewhere ");
	text_add(&words, choice->no_room ? "there is no room for all of it" : "it ");
	if (choice->no_room) {
		text_add(
		    &words, page->list->most_trips > 0 ? " in so few trips" : " in time");
	} else if (choice->saves_minor > 0) {
		text_add_format(&words, "would cost %s more",
		    money_words(choice->saves_minor, page->style->currency, money));
	} else if (choice->saves_trips > 0) {
		text_add_format(&words, "would take %d more %s", choice->saves_trips,
		    choice->saves_trips == 1 ? "trip" : "trips");
	} else {
		text_add(&words, "would be no cheaper");
		text_add(&words,
		    trip->settled ? "" : ", and later or not where it went before");
	}
	if (trip->settled) {
		text_add(&words, ", what else is settled staying as it is");
	}
	text_add(&words, choice->no_room ? "." : ", as far as prices are known.");
	shore_words(page, &words);
}

/* "* With the gear of 7 other boats", and why it is sent there, when there was a choice. */
static void
write_remarks(
    const struct shore_page *page, const struct trip *trip, struct span possible)
{
	const struct trip_choice *choice = &trip->choice;
	SCOPED_TEXT words = {0};
	write_standing(page, trip, possible);
	write_moved(page, trip);
	write_given_from(page, trip);
	if (trip->days != DAYS_AGREE) {
		write_days(page, trip);
	}
	if (trip->vessels > 1 && !page->trips_above) {
		text_add_format(&words, "* With the gear of %zu other %s",
		    trip->vessels - 1, trip->vessels == 2 ? "boat." : "boats.");
		shore_words(page, &words);
	}
	if (choice->not_weighed || choice->cheaper_minor > 0) {
		write_as_settled(page, choice);
	} else if (choice->any) {
		write_sent(page, trip);
	}
}

/* Writes one trip of a vessel. If the trip is shown on the page of her base, only says
 * so. */
static void
write_trip(const struct shore_page *page, const struct trip *trip)
{
	SCOPED_TEXT words = {0};
	const struct span any = {DAY_NONE, DAY_NONE};
	bool above = trip->of_base && page->trips_above;
	const struct span possible = above ? any : narrow_window(page, trip, any);
	add_trip_heading(page, trip, possible, &words);
	if (above) {
		text_add_format(&words, ": see the trips of %s",
		    page->inventory->vessels[page->list->vessel].base);
		reply_heading(page->reply, 3, text_string(&words));
		return;
	}
	write_part(page, text_string(&words), &trip->lines, &TRIP_SHAPE);
	write_remarks(page, trip, possible);
}

static void
write_cautions(const struct shore_page *page, const bool seen[HAZARD_COUNT])
{
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		if (seen[hazard]) {
			write_caution(
			    page, kinds_carry_caution(page->kinds, (enum hazard)hazard));
		}
	}
}

/* A vessel's part of a trip. */
struct trip_part {
	const struct shore_list *list;
	const struct trip *trip;
	size_t order; /* the position in the lists */
};

static int
compare_parts(const void *left, const void *right)
{
	const struct trip_part *a = left;
	const struct trip_part *b = right;
	int order = ORDER(a->trip->hand_in, b->trip->hand_in);
	order = order != 0 ? order : strcmp(a->trip->name, b->trip->name);
	return ORDER_THEN(order, a->order, b->order);
}

/* Writes the parts of one trip, which are next to each other: a heading, then vessel by
 * vessel. */
static void
write_shared_trip(
    const struct shore_page *page, const struct trip_part *parts, size_t count)
{
	struct shore_page of_vessel = *page;
	SCOPED_TEXT words = {0};
	struct span possible = {DAY_NONE, DAY_NONE};
	for (size_t i = 0; i < count; i++) {
		of_vessel.list = parts[i].list;
		possible = narrow_window(&of_vessel, parts[i].trip, possible);
	}
	of_vessel.list = parts[0].list;
	add_trip_heading(&of_vessel, parts[0].trip, possible, &words);
	reply_heading(page->reply, 3, text_string(&words));
	for (size_t i = 0; i < count; i++) {
		of_vessel.list = parts[i].list;
		const char *name = page->inventory->vessels[parts[i].list->vessel].name;
		write_part(&of_vessel, name, &parts[i].trip->lines, &TRIP_SHAPE);
	}
	write_remarks(&of_vessel, parts[0].trip, possible);
}

void
write_base_trips(
    const struct shore_page *page, const struct shore_list *const *lists, size_t count)
{
	SCOPED_ARENA arena = {0};
	bool seen[HAZARD_COUNT] = {false};
	size_t total = 0;
	for (size_t i = 0; i < count; i++) {
		total += lists[i]->hand_in.count;
	}
	struct trip_part *parts = arena_alloc(&arena, (total + 1) * sizeof *parts);
	total = 0;
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < lists[i]->hand_in.count; j++) {
			const struct trip *trip = &lists[i]->hand_in.items[j];
			parts[total] = (struct trip_part){lists[i], trip, i};
			total += trip->of_base;
			mark_hazards(page, &trip->lines, false, seen);
		}
	}
	qsort(parts, total, sizeof *parts, compare_parts);
	for (size_t first = 0; first < total;) {
		size_t end = first + 1;
		while (end < total &&
		       parts[end].trip->hand_in == parts[first].trip->hand_in &&
		       strcmp(parts[end].trip->name, parts[first].trip->name) == 0) {
			end++;
		}
		write_shared_trip(page, &parts[first], end - first);
		first = end;
	}
	write_cautions(page, seen);
}

void
write_hand_in(const struct shore_page *page)
{
	const struct trips *trips = &page->list->hand_in;
	bool seen[HAZARD_COUNT] = {false};
	for (size_t i = 0; i < trips->count; i++) {
		const struct trip *trip = &trips->items[i];
		write_trip(page, trip);
		if (!trip->of_base || !page->trips_above) {
			mark_hazards(page, &trip->lines, false, seen);
		}
	}
	mark_hazards(page, &page->list->now, true, seen);
	write_cautions(page, seen);
}
