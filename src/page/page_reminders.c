/* Reminders: what there is to be reminded of, and when; and how a calendar comes to show it. */
#include "desk/remind.h"
#include "page/feed_place.h"
#include "page/routes.h"
#include "page/shell.h"
#include "report/qr.h"

#include <stdlib.h>
#include <string.h>

static int
compare_days(const void *left, const void *right)
{
	const struct reminder *a = left;
	const struct reminder *b = right;
	return a->day != b->day ? (a->day < b->day ? -1 : 1) : strcmp(a->key, b->key);
}

/* The description line by line. */
static void
write_description(struct visit *visit, const char *words)
{
	struct markup *markup = visit->markup;
	markup_begin(markup, "details");
	markup_element(markup, "summary", NULL, "What it says");
	markup_begin_class(markup, "ul", "small");
	while (*words != '\0') {
		size_t length = strcspn(words, "\n");
		SCOPED_TEXT line = {0};
		text_add_bytes(&line, words, length);
		if (length > 0) {
			markup_element(markup, "li", NULL, text_string(&line));
		}
		words += length + (words[length] == '\n' ? 1 : 0);
	}
	markup_end(markup);
	markup_end(markup);
}

static void
write_row(struct visit *visit, const struct reminder *reminder)
{
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	shell_day(visit, reminder->day);
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, reminder->summary);
	markup_end(markup);
	if (reminder->description[0] != '\0') {
		write_description(visit, reminder->description);
	}
	markup_end(markup);
	markup_end(markup);
}

static void
write_rows(struct visit *visit, struct reminders *reminders)
{
	qsort(reminders->items, reminders->count, sizeof *reminders->items, compare_days);
	shell_section(visit, NULL, "by day", "What and when");
	markup_end(visit->markup);
	markup_begin_class(visit->markup, "ul", "rows");
	for (size_t i = 0; i < reminders->count; i++) {
		write_row(visit, &reminders->items[i]);
	}
	markup_end(visit->markup);
	markup_end(visit->markup);
}

/* One address, with a QR code where a phone can reach it. */
static bool
write_feed(struct visit *visit, const struct feed_place *place,
    const struct book_feed *feed, struct fault *fault)
{
	struct markup *markup = visit->markup;
	const char *name =
	    feed->scope.kind == SCOPE_FLEET ? "every boat" : feed->scope.name;
	SCOPED_TEXT address = {0};
	SCOPED_TEXT label = {0};
	feed_address(place, "webcal", feed->secret, &address);
	text_add_format(&label, "QR code of the feed of %s", name);
	markup_begin(markup, "p");
	markup_text_format(markup, "%s%s: ", name, feed->todos ? ", to-dos" : "");
	markup_element(markup, "b", "tag", text_string(&address));
	markup_end(markup);
	return !feed_in_reach(place) ||
	       qr_draw(text_string(&address), text_string(&label), markup, fault);
}

/* The addresses that there are. Whoever has one can read it for as long as it is not revoked, logged in
 * or not: so they are for who keeps the book. */
static bool
write_feeds(struct visit *visit, struct fault *fault)
{
	const struct book_feed *feeds = NULL;
	struct book_serving serving = {0};
	size_t count = 0;
	if (visit->right < RIGHT_MANAGE) {
		return true;
	}
	if (!book_load_feeds(visit->desk.book, &visit->arena, &feeds, &count, fault) ||
	    !book_load_serving(visit->desk.book, &visit->arena, &serving, fault)) {
		return false;
	}
	const struct feed_place place = {serving.listen, serving.host, serving.port};
	shell_section(visit, NULL, NULL, "Addresses of feeds");
	size_t shown = 0;
	for (size_t i = 0; serving.listen != NULL && i < count; i++) {
		if (feeds[i].revoked) {
			continue;
		}
		if (!write_feed(visit, &place, &feeds[i], fault)) {
			return false;
		}
		shown++;
	}
	markup_element(visit->markup, "p", "small",
	    shown == 0
		? "There is none that is served. \"becket serve new\" makes one, and "
		  "\"becket serve\" serves it; then it stands here."
	    : feed_in_reach(&place)
		? "Point a phone at the code, or type the address where the calendar program "
		  "subscribes. Whoever has it can read the reminders."
		: "Only this machine can reach it, so there is no code for a phone: serve with "
		  "--listen and --host for the network at home.");
	markup_end(visit->markup);
	markup_end(visit->markup);
	return true;
}

/* The three ways into a calendar, and what each does with a change. */
static void
write_ways(struct visit *visit)
{
	static const struct {
		const char *words;
		const char *what;
	} WAYS[] = {
	    {"becket serve",
		": a feed that a calendar subscribes to; what changes here changes there, by "
		"itself, and nothing is ever shown twice."},
	    {"becket calendar push",
		": puts them on a calendar server; what is moved there can be read back."},
	    {"becket calendar FILE",
		": a file to open once; a later one corrects it, in a calendar that keeps to the "
		"standard."},
	};
	struct markup *markup = visit->markup;
	shell_section(visit, NULL, NULL, "Into your calendar");
	markup_element(markup, "p", NULL,
	    "Looking at them here gives no day out: a day is settled when it goes into a calendar "
	    "by one of these, from a terminal.");
	markup_begin(markup, "ul");
	for (size_t i = 0; i < sizeof WAYS / sizeof WAYS[0]; i++) {
		markup_begin(markup, "li");
		markup_element(markup, "b", "tag", WAYS[i].words);
		markup_text(markup, WAYS[i].what);
		markup_end(markup);
	}
	markup_end(markup);
	markup_end(markup);
	markup_end(markup);
}

bool
page_reminders(struct visit *visit, struct fault *fault)
{
	struct reminders_seen seen = {0};
	SCOPED_TEXT margin = {0};
	if (!desk_reminders(&visit->desk, &seen, fault)) {
		return false;
	}
	text_add_format(&margin, "%zu of them", seen.reminders.count);
	const struct shell shell = {.title = "Reminders",
	    .margin = text_string(&margin),
	    .say =
		seen.reminders.count == 0
		    ? "There is nothing to be reminded of."
		    : "Each rings at nine in the morning, a week and a day ahead; a last day two "
		      "weeks, three days and a day ahead; unless you chose otherwise."};
	shell_open(visit, &shell);
	if (seen.reminders.count > 0) {
		write_rows(visit, &seen.reminders);
	}
	write_ways(visit);
	if (!write_feeds(visit, fault)) {
		return false;
	}
	shell_close(visit);
	return true;
}
