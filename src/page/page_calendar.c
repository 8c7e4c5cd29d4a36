/* How a calendar comes to show the reminders: a file to save, and addresses. */
#include "desk/feeds.h"
#include "desk/giving_out.h"
#include "page/feed_address.h"
#include "page/shell.h"
#include "report/qr.h"

#include <stdlib.h>
#include <string.h>

/* How an address says whose reminders are wanted: one of these before a name; "" for
 * every boat's. */
static const char OF_BASE[] = "base ";
static const char OF_BOAT[] = "boat ";

/* The field for whose reminders a calendar file has, and the one for an address. */
static const char FILE_OF[] = "whose";
static const char ADDRESS_OF[] = "address_of";

static void
write_names(struct visit *visit, const char *of, const struct word_list *names)
{
	for (size_t i = 0; i < names->count; i++) {
		SCOPED_TEXT value = {0};
		text_add_format(&value, "%s%s", of, names->items[i]);
		shell_option(visit, text_string(&value), names->items[i], false);
	}
}

/* A field of that name for whose reminders are wanted, when there are several boats. */
static bool
write_whose(
    struct visit *visit, const char *field, const char *label, struct fault *fault)
{
	struct word_list bases = {0};
	struct word_list boats = {0};
	struct desk *desk = &visit->desk;
	if (!book_names(desk->book, BOOK_BERTHS, &visit->arena, &bases, fault) ||
	    !book_names(desk->book, BOOK_VESSELS, &visit->arena, &boats, fault)) {
		return false;
	}
	if (boats.count > 1) {
		shell_choice(visit, field, label);
		shell_option(visit, " ", "every boat", true);
		write_names(visit, OF_BASE, &bases);
		write_names(visit, OF_BOAT, &boats);
		markup_ends(visit->markup, 2);
	}
	return true;
}

/* Whose reminders an address gives. */
static const char *
whose_words(const struct scope *scope)
{
	return scope->kind == SCOPE_FLEET ? "every boat" : scope->name;
}

/* One address, with a QR code where a phone can reach it, and the button that ends it. */
static bool
write_feed(struct visit *visit, const struct feed_host *place,
    const struct book_feed *feed, struct fault *fault)
{
	struct markup *markup = visit->markup;
	const char *name = whose_words(&feed->scope);
	SCOPED_TEXT address = {0};
	SCOPED_TEXT label = {0};
	SCOPED_TEXT number = {0};
	feed_address(place, "webcal", feed->secret, &address);
	text_add_format(&label, "QR code of the feed of %s", name);
	text_add_format(&number, "%lld", (long long)feed->number);
	markup_begin(markup, "p");
	markup_text_format(markup, "%s%s: ", name, feed->todos ? ", to-dos" : "");
	markup_element(markup, "b", "tag address", text_string(&address));
	markup_end(markup);
	if (feed_in_reach(place) &&
	    !qr_draw(text_string(&address), text_string(&label), markup, fault)) {
		return false;
	}
	SCOPED_TEXT id = {0};
	text_add_format(&id, "address-%s", text_string(&number));
	text_reset(&label);
	text_add_format(&label, "End the address of %s for good", name);
	shell_form(visit, "/reminders/addresses", text_string(&id));
	shell_hidden(visit, "number", text_string(&number));
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, false, "act", "end", text_string(&label));
	markup_ends(markup, 2);
	return true;
}

static void
explain_feeds(struct visit *visit, const struct feed_host *place, bool served)
{
	markup_element(visit->markup, "p", "small",
	    !served
		? "An address answers while \"becket serve\" runs, or the service becket-feeds."
	    : feed_in_reach(place)
		? "Point a phone at the code, or type the address where the calendar program "
		  "subscribes. Whoever has it can read the reminders."
		: "Only this machine can reach it, so there is no code for a phone: serve with "
		  "--listen and --host for the network at home.");
}

static bool
write_new_feed(struct visit *visit, struct fault *fault)
{
	shell_form(visit, "/reminders/addresses", "address");
	markup_begin_class(visit->markup, "div", "acts");
	if (!write_whose(visit, ADDRESS_OF, "Address for", fault)) {
		return false;
	}
	shell_button(visit, true, "act", "make", "Make an address");
	markup_ends(visit->markup, 2);
	return true;
}

/* The addresses that exist. Whoever has one can read it until it is revoked, even without
 * logging in; so only those who keep the book see them. */
bool
page_feeds_section(struct visit *visit, struct fault *fault)
{
	const struct book_feed *feeds = NULL;
	struct book_feed_host serving = {0};
	size_t count = 0;
	if (visit->right < RIGHT_MANAGE) {
		return true;
	}
	if (!book_load_feeds(visit->desk.book, &visit->arena, &feeds, &count, fault) ||
	    !book_load_feed_host(visit->desk.book, &visit->arena, &serving, fault)) {
		return false;
	}
	const struct feed_host place = feed_host_last(&serving);
	shell_section(visit, NULL, NULL, "Addresses of feeds");
	for (size_t i = 0; i < count; i++) {
		if (!feeds[i].revoked && !write_feed(visit, &place, &feeds[i], fault)) {
			return false;
		}
	}
	explain_feeds(visit, &place, serving.listen != NULL);
	if (!write_new_feed(visit, fault)) {
		return false;
	}
	markup_ends(visit->markup, 2);
	return true;
}

/* How each sort of calendar treats the file or the address. */
static void
write_programs(struct visit *visit)
{
	static const struct {
		const char *words;
		const char *what;
	} PROGRAMS[] = {
	    {"A calendar that opens the file",
		" has what is in it as it is today. Put it into a calendar of its own: to "
		"refresh, delete that calendar and open a new file."},
	    {"A calendar that subscribes to a feed",
		" fetches it by itself, moves and removes what changed, and nothing is shown "
		"twice. It can't be changed there. The address is made below."},
	    {"A calendar on a server",
		" is kept up to date by \"becket calendar push\"; what you move there can be "
		"read back."},
	    {"Some programs leave out the bell",
		" of what they opened or subscribe to, or keep one of several. The day stands "
		"there all the same: set a bell of your own."},
	};
	struct markup *markup = visit->markup;
	markup_begin(markup, "ul");
	for (size_t i = 0; i < sizeof PROGRAMS / sizeof PROGRAMS[0]; i++) {
		markup_begin_class(markup, "li", "way");
		markup_element(markup, "b", NULL, PROGRAMS[i].words);
		markup_text(markup, PROGRAMS[i].what);
		markup_end(markup);
	}
	markup_end(markup);
}

/* The way into a calendar, and what each sort of calendar does with it. */
bool
page_calendar_section(struct visit *visit, struct fault *fault)
{
	struct markup *markup = visit->markup;
	shell_section(visit, NULL, NULL, "Into your calendar");
	markup_element(markup, "p", NULL,
	    "Looking at them here gives no day out. What goes into a calendar does: a hand-in in "
	    "it keeps its day from then on.");
	shell_form(visit, "/reminders", "calendar");
	markup_begin_class(markup, "div", "acts");
	if (!write_whose(visit, FILE_OF, "Reminders of", fault)) {
		return false;
	}
	shell_button(visit, true, "save", "yes", "Save a calendar file");
	markup_ends(markup, 2);
	write_programs(visit);
	markup_ends(markup, 2);
	return true;
}

/* False when there is no such boat or base any more. */
static bool
is_there(struct visit *visit, const struct scope *scope, struct fault *fault)
{
	bool boat = scope->kind == SCOPE_VESSEL;
	bool there = scope->kind == SCOPE_FLEET;
	return there ||
	       (desk_book(&visit->desk, fault) &&
		   book_has_name(visit->desk.book, boat ? BOOK_VESSELS : BOOK_BERTHS,
		       scope->name, &there, fault) &&
		   (there || fault_set(fault, FAULT_INPUT, "there is no %s \"%.60s\"",
				 boat ? "boat" : "base", scope->name)));
}

/* Whose reminders were asked for. */
static struct scope
read_whose(struct visit *visit, const char *field)
{
	const char *whose = page_value(visit, field);
	if (strncmp(whose, OF_BASE, strlen(OF_BASE)) == 0) {
		return (struct scope){SCOPE_BASE, whose + strlen(OF_BASE)};
	}
	if (strncmp(whose, OF_BOAT, strlen(OF_BOAT)) == 0) {
		return (struct scope){SCOPE_VESSEL, whose + strlen(OF_BOAT)};
	}
	return (struct scope){SCOPE_FLEET, ""};
}

bool
page_calendar(struct visit *visit, struct fault *fault)
{
	const struct calendar_request request = {.scope = read_whose(visit, FILE_OF)};
	struct calendar_outcome done = {0};
	struct desk desk = {0};
	page_write(visit, &desk, "saved a calendar file");
	bool saved = is_there(visit, &request.scope, fault) &&
		     desk_calendar(&desk, &request, &done, fault);
	if (saved) {
		text_reset(&visit->answer->body);
		saved = spool_read_all(&done.ics, &visit->answer->body, fault);
		web_file(visit->answer, "text/calendar; charset=utf-8",
		    "becket-reminders.ics");
	}
	spool_clear(&done.ics);
	page_done(visit, &desk);
	return saved;
}

static bool
make_address(struct visit *visit, struct desk *desk, struct fault *fault)
{
	struct book_feed made = {0};
	const struct scope scope = read_whose(visit, ADDRESS_OF);
	page_write(
	    visit, desk, "made an address for the reminders of %s", whose_words(&scope));
	if (!is_there(visit, &scope, fault) ||
	    !desk_new_feed(desk, &scope, false, &made, fault)) {
		return false;
	}
	page_say(visit,
	    "There is an address for the reminders of %s. Whoever has it can read them.",
	    whose_words(&scope));
	return true;
}

static bool
end_address(struct visit *visit, struct desk *desk, struct fault *fault)
{
	const char *number = page_value(visit, "number");
	page_write(visit, desk, "ended address %s", number);
	if (!desk_revoke_feed(desk, strtoll(number, NULL, 10), fault)) {
		return false;
	}
	page_say(visit, "Nothing is at that address any more.");
	return true;
}

bool
page_addresses(struct visit *visit, struct fault *fault)
{
	SCOPED_DESK desk = {0};
	bool end = strcmp(page_value(visit, "act"), "end") == 0;
	if (!(end ? end_address : make_address)(visit, &desk, fault)) {
		return false;
	}
	page_done(visit, &desk);
	page_go(visit, "/reminders#address");
	return true;
}
