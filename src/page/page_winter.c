/* This winter: what goes ashore, where and when; one boat a page. */
#include "desk/packing.h"
#include "page/draw.h"
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

#include <stdio.h>
#include <string.h>

/* The trip whose last day comes first, so that it has the least room. NULL for none. */
static const struct trip *
least_room(const struct shore_list *list)
{
	const struct trip *found = NULL;
	for (size_t i = 0; i < list->hand_in.count; i++) {
		const struct trip *trip = &list->hand_in.items[i];
		day_t day = trip_last_day(trip);
		if (day != DAY_NONE && (found == NULL || day < trip_last_day(found))) {
			found = trip;
		}
	}
	return found;
}

/* "Three bags go ashore." */
static void
say_bags(const struct shore_list *list, struct text *out)
{
	size_t count = list->hand_in.count;
	if (count == 0) {
		text_add(out, list->ashore.count > 0
				  ? "All that goes ashore this winter is there."
				  : "Nothing goes ashore this winter.");
		return;
	}
	text_capital_number(count, out);
	text_add(out, count == 1 ? " bag goes ashore." : " bags go ashore.");
}

/* "Varne Sound has the least room: by Wed 17 Feb it must be there to be back before she
 * goes." */
static void
say_least_room(const struct shore_list *list, struct text *out)
{
	const struct trip *trip = least_room(list);
	if (trip == NULL) {
		return;
	}
	day_t last = trip_last_day(trip);
	text_add_format(out, " %s has the least room: its bag must be there by %s ",
	    station_words(trip->name), weekday_name(day_of_week(last)));
	add_day_of(last, true, out);
	text_add(out, " to be back before she goes out.");
}

static void
say_rest(const struct winter_page *page, struct text *out)
{
	const struct shore_list *list = page->list;
	const struct inventory *inventory = &page->visit->desk.contents.inventory;
	if (list->cannot.count > 0) {
		text_add_byte(out, ' ');
		add_count(shore_pieces(inventory, &list->cannot), "piece can’t",
		    "pieces can’t", out);
		text_add(out, " be done in time.");
	}
	if (list->now.count > 0) {
		text_add_byte(out, ' ');
		add_count(list->now.count, "thing wants", "things want", out);
		text_add(out, " doing now.");
	}
}

static void
add_sentence(const struct winter_page *page, struct text *out)
{
	const struct shore_list *list = page->list;
	if (!list->has_winter) {
		text_add(out,
		    "She is in use all year, so she has no winter: what is due goes "
		    "ashore in its turn.");
		say_rest(page, out);
		return;
	}
	say_bags(list, out);
	say_least_room(list, out);
	say_rest(page, out);
}

/* The days on which a station is closed, within the range of the drawing. */
static struct spans
closed_days(const struct station *station, struct axis axis, struct arena *arena)
{
	size_t years =
	    (size_t)(day_to_civil(axis.last).year - day_to_civil(axis.first).year) + 2;
	size_t most =
	    station == NULL ? 0 : station->closed_count * years + station->shut_count;
	struct span *items = arena_alloc(arena, (most + 1) * sizeof *items);
	struct spans spans = {.items = items};
	for (size_t i = 0; station != NULL && i < station->closed_count; i++) {
		int year = day_to_civil(axis.first).year - 1;
		for (size_t k = 0; k < years; k++) {
			items[spans.count++] =
			    yearly_in(station->closed[i], year + (int)k);
		}
	}
	for (size_t i = 0; station != NULL && i < station->shut_count; i++) {
		items[spans.count++] = station->shut[i];
	}
	size_t kept = 0;
	for (size_t i = 0; i < spans.count; i++) {
		if (items[i].first <= axis.last && items[i].last >= axis.first) {
			items[kept++] = items[i];
		}
	}
	spans.count = kept;
	return spans;
}

static const char *
in_arena(struct visit *visit, const struct text *text)
{
	return arena_string(&visit->arena, text_string(text));
}

/* A character for each day of the axis: "1", from today on, when the station takes gear
 * in. When no station is chosen yet, Monday to Friday. */
static const char *
open_days(const struct winter_page *page, const struct station *station, struct axis axis)
{
	struct visit *visit = page->visit;
	SCOPED_TEXT letters = {0};
	for (day_t day = axis.first; day <= axis.last; day++) {
		bool open =
		    station != NULL ? station_open(station, day) : day_of_week(day) < 5;
		text_add_byte(&letters, open && day >= visit->desk.today ? '1' : '0');
	}
	return in_arena(visit, &letters);
}

/* `number` is the trip's place on the page, from 1. */
static struct strip_lane
lane_of(const struct winter_page *page, const struct trip *trip, struct axis axis,
    size_t number)
{
	struct visit *visit = page->visit;
	const struct book_contents *contents = &visit->desk.contents;
	SCOPED_TEXT detail = {0};
	SCOPED_TEXT bag = {0};
	text_add_format(&bag, "bag-%zu", number);
	const struct docket *docket = docket_of(page, trip);
	add_count(docket == NULL ? shore_pieces(&contents->inventory, &trip->lines)
				 : docket->count,
	    "piece", "pieces", &detail);
	if (docket != NULL && docket->inside > 0) {
		text_add_format(&detail, ", %zu inside", docket->inside);
	}
	const struct station *station =
	    trip->station == NO_STATION ? NULL : &contents->stations[trip->station];
	return (struct strip_lane){.name = station_words(trip->name),
	    .detail = in_arena(visit, &detail),
	    .hand_in = trip->hand_in,
	    .collect = trip->collect,
	    .last_day = trip_last_day(trip),
	    .first_possible = DAY_NONE,
	    .assumed = trip->assumed,
	    .closed = closed_days(station, axis, &visit->arena),
	    .bag = in_arena(visit, &bag),
	    .open = open_days(page, station, axis)};
}

/* The earliest day by which some of the lines must be done; DAY_NONE for none. */
static day_t
done_by(const struct shore_lines *lines, day_t by)
{
	for (size_t i = 0; i < lines->count; i++) {
		day_t day = lines->items[i].not_after;
		by = day != DAY_NONE && (by == DAY_NONE || day < by) ? day : by;
	}
	return by;
}

static void
write_strip(const struct winter_page *page)
{
	struct visit *visit = page->visit;
	const struct shore_list *list = page->list;
	size_t own = list->self.count + list->paperwork.count + list->buy.count;
	struct strip_lane *lanes =
	    arena_alloc(&visit->arena, (list->hand_in.count + 1) * sizeof *lanes);
	struct axis axis = {list->winter.lay_up - 7, list->winter.fitting_out + 7};
	size_t count = 0;
	if (!list->has_winter || list->hand_in.count + own == 0) {
		return;
	}
	for (size_t i = 0; i < list->hand_in.count; i++) {
		lanes[count++] = lane_of(page, &list->hand_in.items[i], axis, i + 1);
	}
	SCOPED_TEXT detail = {0};
	add_count(own, "line", "lines", &detail);
	if (own > 0) {
		day_t by = done_by(&list->self, done_by(&list->buy, DAY_NONE));
		lanes[count++] = (struct strip_lane){.name = "Yourself, and to buy",
		    .detail = in_arena(visit, &detail),
		    .hand_in = DAY_NONE,
		    .collect = DAY_NONE,
		    .first_possible = DAY_NONE,
		    .last_day = done_by(&list->paperwork, by),
		    .own = true};
	}
	const struct strip strip = {list->winter.lay_up, list->winter.fitting_out,
	    visit->desk.today, lanes, count};
	markup_begin_class(visit->markup, "div", "entry strip");
	draw_strip(visit->markup, &strip);
	markup_end(visit->markup);
}

static void
open_page(struct winter_page *page)
{
	struct visit *visit = page->visit;
	const struct shore_list *list = page->list;
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	char under[40] = "";
	char year[16];
	SCOPED_TEXT say = {0};
	add_sentence(page, &say);
	(void)snprintf(year, sizeof year, "%d", list->winter.year);
	if (list->has_winter) {
		(void)snprintf(under, sizeof under, "to %s",
		    day_words(list->winter.fitting_out, last));
	}
	const struct head_box boxes[] = {{"Boat", page->vessel->name}, {"Winter", year}};
	SHELL_OPEN(visit, .title = "This winter", .about = page->vessel->name,
	    .margin =
		list->has_winter ? day_words(list->winter.lay_up, first) : "all year",
	    .under = under, .say = text_string(&say), .boxes = boxes,
	    .box_count = list->has_winter ? 2 : 1,
	    .status = page->wrong != NULL ? 400 : 0);
	draw_defs(visit->markup);
}

/* What to do next in a book without gear. */
static void
write_beginning(const struct winter_page *page)
{
	struct visit *visit = page->visit;
	if (!page->empty) {
		return;
	}
	shell_section(visit, NULL, NULL, "No gear is in the book yet");
	if (page_has_route(visit, "/list")) {
		shell_link(visit, "go", "Bring a list you have", "/list");
	}
	if (page_has_route(visit, "/locker")) {
		shell_link(visit, "go", "Start with a lifejacket", "/locker");
	}
	markup_ends(visit->markup, 2);
}

void
winter_write(struct winter_page *page)
{
	open_page(page);
	if (page->wrong != NULL) {
		shell_note(page->visit, true, page->wrong);
	}
	write_beginning(page);
	write_strip(page);
	winter_now(page);
	winter_cannot(page);
	winter_bags(page);
	winter_ashore(page);
	winter_own_work(page);
	winter_buy(page);
	winter_wanted(page);
	winter_dispose(page);
	winter_waits(page);
	winter_cost(page);
	shell_close(page->visit);
}

bool
winter_load(
    struct visit *visit, struct winter_page *out, bool *found_out, struct fault *fault)
{
	struct desk *desk = &visit->desk;
	const struct inventory *inventory = &desk->contents.inventory;
	struct winter_page page = {.visit = visit};
	const char *name = page_value(visit, "vessel");
	*found_out = false;
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	size_t boats = 0;
	const char *only = "";
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		if (!vessel->store && vessel_is_here(vessel, desk->today)) {
			boats++;
			only = vessel->name;
		}
	}
	name = name[0] == '\0' && boats == 1 ? only : name;
	if (name[0] == '\0') {
		return true;
	}
	const struct plans_wish wish = {.vessel = arena_string(&visit->arena, name)};
	if (!desk_winter(desk, &wish, &page.answer, fault) ||
	    !desk_packed(desk, &page.packed, &page.packed_count, fault)) {
		return false;
	}
	page.in_book = page.packed;
	page.in_book_count = page.packed_count;
	page.several = boats > 1;
	page.empty = inventory->item_count == 0;
	page.list = page.answer.lists;
	page.vessel = &inventory->vessels[page.list->vessel];
	*out = page;
	*found_out = true;
	return true;
}

bool
page_winter(struct visit *visit, struct fault *fault)
{
	struct winter_page page = {0};
	struct base_choice choice = {0};
	bool found = false;
	if (!base_choice_read(visit, &choice, fault)) {
		return false;
	}
	/* a large fleet is certainly no single boat, so it is not loaded to find out */
	if (choice.large && page_value(visit, "vessel")[0] == '\0') {
		return winter_of_fleet(visit, &choice, fault);
	}
	if (!winter_load(visit, &page, &found, fault)) {
		return false;
	}
	if (!found) {
		return winter_of_fleet(visit, &choice, fault);
	}
	if (strcmp(page_value(visit, "only"), "buy") == 0) {
		winter_take_along(&page);
	} else {
		winter_write(&page);
	}
	return true;
}
