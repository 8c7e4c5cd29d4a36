#include "base/memory.h"
#include "gear/money.h"
#include "report/parts_inside.h"
#include "report/report.h"
#include "report/words.h"
#include "report/words_inside.h"

#include <string.h>

/* "Winter 2026: laid up 1 Nov 2026 to 31 Mar 2027" under the vessel's name. */
static void
write_head(const struct shore_page *page)
{
	const struct shore_list *list = page->list;
	SCOPED_TEXT words = {0};
	text_add_format(
	    &words, "%s: shore list", page->inventory->vessels[list->vessel].name);
	reply_heading(page->reply, 1, text_string(&words));
	text_reset(&words);
	if (list->has_winter) {
		text_add_format(&words, "Winter %d: laid up ", list->winter.year);
		add_day(list->winter.lay_up, "", &words);
		text_add(&words, " to ");
		add_day(list->winter.fitting_out, "", &words);
	} else {
		text_add(&words, "In use all year: a rota (becket rota), no winter");
	}
	text_add(&words, "; seen on ");
	add_day(page->style->today, "", &words);
	text_add_byte(&words, '.');
	if (list->most_trips > 0) {
		text_add_format(&words, " At most %d %s to stations, as you said.",
		    list->most_trips, list->most_trips == 1 ? "trip" : "trips");
	}
	shore_words(page, &words);
}

static bool
nothing_to_do(const struct shore_list *list)
{
	return list->hand_in.count == 0 && list->ashore.count == 0 &&
	       list->self.count == 0 && list->buy.count == 0 && list->wanted.count == 0 &&
	       list->paperwork.count == 0 && list->dispose.count == 0 &&
	       list->cannot.count == 0 && list->now.count == 0;
}

/* What the owner does alone and the paperwork, under one heading: both are the owner's
 * work. */
static void
write_own_work(const struct shore_page *page)
{
	static const struct part_shape WORK = {.task = true, .due = true, .window = true};
	const struct shore_lines *self = &page->list->self;
	const struct shore_lines *paperwork = &page->list->paperwork;
	if (self->count == 0 || paperwork->count == 0) {
		write_part(page, "Do it yourself", self, &WORK);
		write_part(page, "Paperwork", paperwork, &WORK);
		return;
	}
	SCOPED_ARENA arena = {0};
	struct shore_lines both = {.count = self->count + paperwork->count};
	both.items = arena_alloc(&arena, both.count * sizeof *both.items);
	memcpy(both.items, self->items, self->count * sizeof *both.items);
	memcpy(both.items + self->count, paperwork->items,
	    paperwork->count * sizeof *both.items);
	write_part(page, "Do it yourself, and the paperwork", &both, &WORK);
}

static void
write_parts(const struct shore_page *page)
{
	static const struct part_shape NOW = {.task = true, .due = true};
	static const struct part_shape BUY = {.due = true, .window = true, .price = true};
	const struct shore_list *list = page->list;
	write_part(page, "Do now", &list->now, &NOW);
	write_cannot(page);
	write_ashore(page);
	write_hand_in(page);
	write_own_work(page);
	write_part(page, "Buy and renew", &list->buy, &BUY);
	write_wanted(page);
	write_dispose(page);
	write_waits(page);
	write_habits(page);
}

/* Says so where the search for the best trips was cut short. */
static void
write_unproven(const struct shore_page *page, const struct trips_proof *proof)
{
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	if (proof->proven) {
		return;
	}
	text_add_format(&words,
	    "The search for the best trips was cut short: none can cost less than %s, or "
	    "at that cost be fewer than %zu.",
	    money_words(proof->bound_minor, page->style->currency, money),
	    proof->bound_trips);
	shore_words(page, &words);
}

/* What is known of the cost, and how much is not; then the caution under every report. */
static void
write_foot(const struct shore_page *page)
{
	const struct shore_list *list = page->list;
	char money[MONEY_WORDS_SIZE];
	if (list->hand_in.count == 0 && list->ashore.count == 0 && list->buy.count == 0) {
		reply_caution(page->reply);
		return;
	}
	SCOPED_TEXT words = {0};
	add_list_clashes(page->inventory, &list->years, &words);
	reply_words(page->reply, VOICE_PLAIN, true, 2, text_string(&words));
	text_reset(&words);
	text_add_format(&words, "Cost known: %s",
	    money_words(list->cost_minor, page->style->currency, money));
	if (list->unpriced > 0) {
		text_add_format(&words, "; %zu %s without a price", list->unpriced,
		    list->unpriced == 1 ? "line" : "lines");
	}
	text_add_byte(&words, '.');
	reply_words(page->reply, VOICE_PLAIN, true, 0, text_string(&words));
	if (list->hand_in.count > 0 && !page->trips_above) {
		write_unproven(page, &list->proof);
	}
	reply_words(page->reply, VOICE_CAUTION, false, 0, REPORT_CAUTION);
}

static void
write_list(struct shore_page *page)
{
	write_head(page);
	if (nothing_to_do(page->list)) {
		reply_words(page->reply, VOICE_PLAIN, true, 0,
		    page->list->has_winter ? "Nothing is to be done this winter."
					   : "Nothing is to be done now.");
	}
	write_parts(page);
	write_foot(page);
}

/* What the trips of a base cost, and whether that is proven to be the least. */
static void
write_base_foot(const struct shore_page *page, const struct trips_proof *proof)
{
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	text_add_format(
	    &words, "%zu %s", proof->trips, proof->trips == 1 ? "trip" : "trips");
	if (proof->minor > 0) {
		text_add_format(&words, "; known of work, carriage and trips: %s",
		    money_words(proof->minor, page->style->currency, money));
	}
	text_add_byte(&words, '.');
	reply_words(page->reply, VOICE_PLAIN, true, 2, text_string(&words));
	write_unproven(page, proof);
	reply_caution(page->reply);
}

/* The page of one base; `lists` are of the vessels there. */
static void
write_base(struct shore_page *page, const struct shore_list *const *lists, size_t count)
{
	const struct vessel *vessel = &page->inventory->vessels[lists[0]->vessel];
	SCOPED_TEXT words = {0};
	page->list = lists[0];
	text_add_format(&words, "%s: trips of %zu boats, seen on ", vessel->base, count);
	add_day(page->style->today, "", &words);
	reply_heading(page->reply, 2, text_string(&words));
	write_base_trips(page, lists, count);
	write_base_foot(page, &lists[0]->proof);
}

static bool
has_base_trip(const struct shore_list *list)
{
	return list->hand_in.count > 0 && list->hand_in.items[0].of_base;
}

/* Writes the page of the base of the list at `at`, if that is the base's first. */
static void
write_base_once(struct shore_page *page, const struct shore_list *lists, size_t count,
    size_t at, const struct shore_list **together)
{
	const struct vessel *vessels = page->inventory->vessels;
	const char *base = vessels[lists[at].vessel].base;
	size_t found = 0;
	for (size_t i = 0; i < count; i++) {
		bool there = has_base_trip(&lists[i]) &&
			     strcmp(vessels[lists[i].vessel].base, base) == 0;
		if (there && i < at) {
			return;
		}
		if (there) {
			together[found++] = &lists[i];
		}
	}
	if (has_base_trip(&lists[at])) {
		write_base(page, together, found);
	}
}

void
report_winters(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct shore_list *lists, size_t count,
    struct text *out)
{
	SCOPED_REPLY(reply);
	struct shore_page page = {style, kinds, inventory, NULL, &reply, count > 1};
	const struct shore_list **together =
	    arena_alloc(reply.arena, (count + 1) * sizeof(const struct shore_list *));
	for (size_t i = 0; count > 1 && i < count; i++) {
		write_base_once(&page, lists, count, i, together);
	}
	for (size_t i = 0; i < count; i++) {
		page.list = &lists[i];
		write_list(&page);
	}
	reply_text(&reply, style->colour, out);
}
