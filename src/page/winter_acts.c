/* This winter: what its forms do. */
#include "desk/acts.h"
#include "desk/giving_out.h"
#include "desk/packing.h"
#include "page/pieces.h"
#include "page/planning.h"
#include "page/shell.h"

#include <stdio.h>
#include <string.h>

/* The docket whose form was sent; NULL when there is none any more. */
static const struct docket *
sent_docket(const struct winter_page *page)
{
	const struct dockets *going = &page->answer.going;
	char day[DAY_ISO_SIZE];
	for (size_t i = 0; i < going->count; i++) {
		const struct docket *docket = &going->items[i];
		if (strcmp(docket->station, page_value(page->visit, "station")) == 0 &&
		    strcmp(day_iso(docket->hand_in, day),
			page_value(page->visit, "hand-in")) == 0) {
			return docket;
		}
	}
	return NULL;
}

/* The trip whose form was sent; NULL as above. */
static const struct trip *
sent_trip(const struct winter_page *page)
{
	const struct trips *trips = &page->list->hand_in;
	char day[DAY_ISO_SIZE];
	for (size_t i = 0; i < trips->count; i++) {
		const struct trip *trip = &trips->items[i];
		if (strcmp(trip->name, page_value(page->visit, "station")) == 0 &&
		    strcmp(day_iso(trip->hand_in, day),
			page_value(page->visit, "hand-in")) == 0) {
			return trip;
		}
	}
	return NULL;
}

/* The ticks of a bag's form. */
struct bag_ticks {
	struct word_list ticked;
	struct pack_request
	    changed; /* differs from what was in the book when the form was seen */
};

/* True when the form says of this tag that it was ticked. */
static bool
was_sent(const struct visit *visit, const char *tag)
{
	for (size_t i = 0; i < visit->sent.count; i++) {
		if (strcmp(visit->sent.items[i].name, "was") == 0 &&
		    strcmp(visit->sent.items[i].value, tag) == 0) {
			return true;
		}
	}
	return false;
}

/* True for a piece of the bag. */
static bool
is_in_bag(const struct winter_page *page, const struct docket *docket, const char *tag)
{
	const struct item *items = page->visit->desk.contents.inventory.items;
	for (size_t i = 0; i < docket->piece_count; i++) {
		if (strcmp(items[docket->pieces[i].item].tag, tag) == 0) {
			return true;
		}
	}
	return false;
}

/* Refuses a tick on a piece that is no longer in the bag, and says who changed that: the
 * tick must not count as done. */
static bool
all_in_bag(struct winter_page *page, const struct docket *docket, struct fault *fault)
{
	struct visit *visit = page->visit;
	SCOPED_TEXT who = {0};
	for (size_t i = 0; i < visit->sent.count; i++) {
		const char *tag = form_rest(&visit->sent.items[i], "packed.");
		if (tag == NULL || is_in_bag(page, docket, tag)) {
			continue;
		}
		return meanwhile_last(&visit->desk, tag, &who, fault) &&
		       fault_set(fault, FAULT_INPUT,
			   "%s is not in this bag any more: %s. The bag is shown as it is "
			   "now: look, and send it again.",
			   tag, text_string(&who));
	}
	return true;
}

/* The page shows the ticks as they were sent. */
static void
show_ticks(struct winter_page *page, const struct bag_ticks *ticks)
{
	struct visit *visit = page->visit;
	const struct word_list *in = &ticks->changed.in;
	const struct word_list *out = &ticks->changed.out;
	struct word_list shown = {0};
	for (size_t i = 0; i < page->packed_count; i++) {
		const char *tag = page->packed[i];
		if (!words_have(out->items, out->count, tag)) {
			ARENA_ADD(&visit->arena, &shown, tag);
		}
	}
	for (size_t i = 0; i < in->count; i++) {
		ARENA_ADD(&visit->arena, &shown, in->items[i]);
	}
	page->packed = shown.items;
	page->packed_count = shown.count;
}

/* Reads the ticks of a bag. */
static void
read_ticks(struct winter_page *page, const struct docket *docket, struct bag_ticks *out)
{
	struct visit *visit = page->visit;
	const struct item *items = visit->desk.contents.inventory.items;
	for (size_t i = 0; i < docket->piece_count; i++) {
		const char *tag = items[docket->pieces[i].item].tag;
		char name[128];
		(void)snprintf(name, sizeof name, "packed.%s", tag);
		bool ticked = page_has(visit, name);
		bool was = was_sent(visit, tag);
		struct word_list *changed = ticked ? &out->changed.in : &out->changed.out;
		if (ticked) {
			ARENA_ADD(&visit->arena, &out->ticked, tag);
		}
		if (ticked != was) {
			ARENA_ADD(&visit->arena, changed, tag);
		}
	}
	show_ticks(page, out);
}

static bool
keep_ticks(
    struct winter_page *page, const struct pack_request *request, struct fault *fault)
{
	struct desk desk = {0};
	page_write(page->visit, &desk, "packed for %s",
	    station_words(page_value(page->visit, "station")));
	if (!desk_pack(&desk, request, fault)) {
		desk_clear(&desk);
		return winter_is_told(page, fault);
	}
	page_say(page->visit, "The ticks are kept.");
	page_done(page->visit, &desk);
	return winter_go_back(page);
}

/* Where the bag went: the station for which it was planned, or the one that was typed. */
static const char *
where_to(const struct winter_page *page)
{
	char name[64];
	const char *station = page_value(page->visit, "station");
	(void)snprintf(name, sizeof name, "to-%s", page_value(page->visit, "bag"));
	return station[0] == '\0' ? page_value(page->visit, name) : station;
}

static bool
hand_in(struct winter_page *page, const struct bag_ticks *ticks, struct fault *fault)
{
	struct visit *visit = page->visit;
	struct desk desk = {0};
	struct land_outcome out = {0};
	SCOPED_TEXT words = {0};
	const struct land_request request = {.tags = ticks->ticked,
	    .to = where_to(page),
	    .on = visit->desk.today,
	    .note = ""};
	if (ticks->ticked.count == 0) {
		(void)fault_set(fault, FAULT_INPUT,
		    "No piece is ticked: tick what was handed in, or what is packed.");
		return winter_is_told(page, fault);
	}
	if (request.to[0] == '\0') {
		(void)fault_set(fault, FAULT_INPUT,
		    "Say which station it went to: none is chosen for this bag.");
		return winter_is_told(page, fault);
	}
	page_write(visit, &desk, "handed in at %s", request.to);
	if (!desk_land(&desk, &request, &out, fault)) {
		desk_clear(&desk);
		return winter_is_told(page, fault);
	}
	add_count(out.gear.count, "piece is", "pieces are", &words);
	page_say(visit,
	    "%s ashore at %s from today. When it is back, say so under It came back.",
	    text_string(&words), request.to);
	page_done(visit, &desk);
	return winter_go_back(page);
}

static bool
keep_day(
    struct winter_page *page, const struct trip *trip, day_t day, struct fault *fault)
{
	struct desk desk = {0};
	char words[DAY_WORDS_SIZE];
	page_write(page->visit, &desk, "the bag for %s put on %s",
	    station_words(trip->name), day_words(day, words));
	if (!winter_plan_day(&desk, trip, trip_owner(page, trip), day, fault)) {
		desk_clear(&desk);
		return winter_is_told(page, fault);
	}
	page_say(page->visit,
	    "The bag for %s is handed in on %s %s: the day is yours, and stays.",
	    station_words(trip->name), weekday_name(day_of_week(day)), words);
	page_done(page->visit, &desk);
	return winter_go_back(page);
}

/* Another day for a bag: its effect is shown first, and it is kept only if the effect is
 * still the same. */
static bool
other_day(
    struct winter_page *page, const struct trip *trip, bool keep, struct fault *fault)
{
	struct visit *visit = page->visit;
	char name[64];
	day_t day = DAY_NONE;
	SCOPED_TEXT changes = {0};
	SCOPED_TEXT words = {0};
	(void)snprintf(name, sizeof name, "day-%s", page_value(visit, "bag"));
	page->trial = (struct bag_trial){.station = trip->name,
	    .hand_in = trip->hand_in,
	    .typed = page_value(visit, name)};
	if (!day_typed(page->trial.typed, visit->desk.today, &day, fault) ||
	    !winter_try_day(page, trip, day, &changes, fault)) {
		if (fault->kind == FAULT_BOOK || fault->kind == FAULT_FILE) {
			return false;
		}
		page_words(fault->text, &words);
		page->trial.wrong = arena_string(&visit->arena, text_string(&words));
		*fault = (struct fault){0};
		winter_write(page);
		return true;
	}
	char digest[PAGE_DIGEST_SIZE];
	const char *shown = page_digest(text_string(&changes), digest);
	if (keep && strcmp(shown, page_value(visit, "seen")) == 0) {
		return keep_day(page, trip, day, fault);
	}
	page->trial.changes = arena_string(&visit->arena, text_string(&changes));
	winter_write(page);
	return true;
}

/* Prints the tags and the docket of a bag, which settles the day. */
static bool
print_bag(struct winter_page *page, const struct pack_request *ticks, struct fault *fault)
{
	struct desk desk = {0};
	SCOPED_TEXT query = {0};
	page_write(page->visit, &desk, "printed tags and docket");
	if (!desk_pack(&desk, ticks, fault) ||
	    !desk_give_hand_ins(&desk, page->vessel->name, NULL, fault)) {
		desk_clear(&desk);
		return winter_is_told(page, fault);
	}
	page_done(page->visit, &desk);
	text_add(&query, "vessel=");
	form_escape(page->vessel->name, &query);
	text_add(&query, "&station=");
	form_escape(page_value(page->visit, "station"), &query);
	page_go(page->visit, "/shore-papers/all?%s&hand-in=%s", text_string(&query),
	    page_value(page->visit, "hand-in"));
	return true;
}

/* A form about a bag. */
static bool
about_bag(struct winter_page *page, const char *act, struct fault *fault)
{
	const struct docket *docket = sent_docket(page);
	const struct trip *trip = sent_trip(page);
	struct bag_ticks ticks = {0};
	if (docket == NULL || trip == NULL) {
		(void)fault_set(fault, FAULT_INPUT,
		    "The bag is not planned so any more: the book has changed meanwhile. Look "
		    "at it as it is now, and say it again.");
		return winter_is_told(page, fault);
	}
	if (strcmp(act, "look") == 0 || strcmp(act, "mine") == 0) {
		return other_day(page, trip, act[0] == 'm', fault);
	}
	if (!all_in_bag(page, docket, fault)) {
		return winter_is_told(page, fault);
	}
	read_ticks(page, docket, &ticks);
	if (strcmp(act, "handed") == 0) {
		return hand_in(page, &ticks, fault);
	}
	if (strcmp(act, "tags") == 0) {
		return print_bag(page, &ticks.changed, fault);
	}
	return keep_ticks(page, &ticks.changed, fault);
}

bool
page_winter_sent(struct visit *visit, struct fault *fault)
{
	struct winter_page page = {0};
	bool found = false;
	const char *act = page_value(visit, "act");
	if (strcmp(act, "papers") == 0) {
		return winter_fleet_papers(visit, fault);
	}
	if (!winter_load(visit, &page, &found, fault)) {
		return false;
	}
	if (!found) {
		page_go(visit, "/winter");
		return true;
	}
	return strcmp(act, "did") == 0      ? winter_record_done(&page, fault)
	       : strcmp(act, "bought") == 0 ? winter_take_off_list(&page, fault)
					    : about_bag(&page, act, fault);
}
