/* The part of a shore list about trips to stations. */
#include "report/money.h"
#include "report/shore_parts.h"
#include "report/words.h"

/* Marks the hazards of some lines' kinds. */
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

/* A caution says itself what it is about. */
static void
write_caution(const struct shore_page *page, const char *caution)
{
	SCOPED_TEXT words = {0};
	if (caution[0] != '\0') {
		text_add_format(&words, "!%c%s", GLUE, caution);
		paragraph(text_string(&words), 0, 2, page->out);
	}
	page->out->failed = page->out->failed || words.failed;
}

/* Adds "Mon 2 Nov", and the year where it is not this winter's. */
static void
add_trip_day(const struct shore_page *page, day_t day, struct text *words)
{
	struct span only = {day, day};
	text_add_format(words, "%.3s%c", weekday_name(day_of_week(day)), GLUE);
	add_day_of(day, !page_in_winter(page, only), words);
}

/* The days on which all lines of a trip can be handed in together, as far as they are still
 * to come. */
static struct span
trip_window(const struct shore_page *page, const struct trip *trip)
{
	struct span all = {DAY_NONE, DAY_NONE};
	for (size_t i = 0; i < trip->lines.count; i++) {
		const struct shore_line *line = &trip->lines.items[i];
		struct span window = page_window(page, line);
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

/* Adds when it is fetched: "; collect Mon 14 Dec", "about 14 Dec (ask)" where the turn-round is
 * assumed, and "with the next hand-in" where it waits for that. */
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
 * where not earlier. */
static void
add_trip_heading(
    const struct shore_page *page, const struct trip *trip, struct text *words)
{
	struct span possible = trip_window(page, trip);
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

/* "* Sent there because ...", where there was a choice; "* With the gear of 7 other boats". */
static void
write_remarks(const struct shore_page *page, const struct trip *trip)
{
	char money[MONEY_WORDS_SIZE];
	const struct trip_choice *choice = &trip->choice;
	SCOPED_TEXT words = {0};
	if (trip->vessels > 1) {
		text_add_format(&words, "* With the gear of %zu other %s",
		    trip->vessels - 1, trip->vessels == 2 ? "boat." : "boats.");
		paragraph(text_string(&words), 0, 2, page->out);
		text_reset(&words);
	}
	if (!choice->any) {
		return;
	}
	text_add(&words, "* Sent there, since elsewhere it ");
	if (choice->saves_minor > 0) {
		text_add_format(&words, "would cost %s more",
		    money_words(choice->saves_minor, page->style->currency, money));
	} else if (choice->saves_trips > 0) {
		text_add_format(&words, "would take %d more %s", choice->saves_trips,
		    choice->saves_trips == 1 ? "trip" : "trips");
	} else {
		text_add(
		    &words, "would be no cheaper, and later or not where it went before");
	}
	text_add(&words, ", as far as prices are known.");
	paragraph(text_string(&words), 0, 2, page->out);
	page->out->failed = page->out->failed || words.failed;
}

bool
write_hand_in(const struct shore_page *page, struct fault *fault)
{
	static const struct part_shape SHAPE = {.task = true, .due = true};
	const struct trips *trips = &page->list->hand_in;
	bool seen[HAZARD_COUNT] = {false};
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < trips->count; i++) {
		const struct trip *trip = &trips->items[i];
		text_reset(&words);
		add_trip_heading(page, trip, &words);
		if (!write_part(page, text_string(&words), &trip->lines, &SHAPE, fault)) {
			return false;
		}
		write_remarks(page, trip);
		mark_hazards(page, &trip->lines, false, seen);
	}
	mark_hazards(page, &page->list->now, true, seen);
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		if (seen[hazard]) {
			write_caution(
			    page, kinds_carry_caution(page->kinds, (enum hazard)hazard));
		}
	}
	return text_check(&words, fault);
}
