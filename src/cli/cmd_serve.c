/* becket serve */
#include "cli/command.h"
#include "cli/serving.h"
#include "cli/values.h"
#include "desk/feeds.h"
#include "page/feed.h"
#include "page/feed_address.h"
#include "page/serve.h"
#include "report/qr.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

static const char WHO[] = "becket serve";

enum { USUAL_EACH = 8 };

static const struct word_spec WORDS[] = {
    {.name = "WHAT",
	.choices = "new|list|show|revoke",
	.help = "new: make an address; list: the addresses; show: one with its QR code; "
		"revoke: one for good. Without a word: serve until interrupted"},
    {.name = "NUMBER", .help = "the address's number, for show and revoke"},
};

struct serve_said {
	struct scope_said scope;
	bool todos;
	const char *listen;
	const char *host;
	int port; /* -1 when not told */
	int each;
};

static const struct option_spec OPTIONS[] = {
    SCOPE_OPTIONS(struct serve_said, scope, "new", "new: "),
    FLAG_OPTION("to-dos", struct serve_said, todos, "new: to-dos instead of events",
	.acts = "new"),
    OPTION("listen", "ADDRESS", WORDS, struct serve_said, listen,
	"listen there; as the last time, or 127.0.0.1, this machine only, when not "
	"told"),
    OPTION("port", "N", COUNT, struct serve_said, port,
	"listen at this port; as the last time, or 7461, when not told", .most = 65535),
    OPTION("each", "N", COUNT, struct serve_said, each,
	"take N connections at once from one address, 8 when not told; more for "
	"those that a proxy passes on",
	.least = 1, .most = 1000),
    OPTION("host", "NAME", WORDS, struct serve_said, host,
	"the name by which others reach this machine, to show addresses with"),
};

/* As the options say, else as the feeds were served last, so that known addresses go on working. */
static bool
read_where(struct context *context, const struct serve_said *said, struct feed_host *out,
    struct fault *fault)
{
	const char *listen = said->listen;
	const char *host = said->host;
	struct book_feed_host last = {0};
	if (!book_load_feed_host(
		context->desk.book, &context->desk.arena, &last, fault)) {
		return false;
	}
	struct feed_host where = feed_host_last(&last);
	where.listen = listen != NULL ? listen : where.listen;
	where.host = host != NULL ? host : listen != NULL ? "" : where.host;
	if (host != NULL && (host[0] == '\0' || strpbrk(host, "/ \t\r\n?#@") != NULL)) {
		return fault_set(fault, FAULT_INPUT,
		    "--host: expected a machine's name, found \"%s\"", host);
	}
	where.port = said->port >= 0 ? said->port : where.port;
	*out = where;
	return true;
}

static const char *
scope_words(const struct scope *scope)
{
	switch (scope->kind) {
	case SCOPE_FLEET:
		return "every vessel";
	case SCOPE_VESSEL:
		return "vessel ";
	case SCOPE_BASE:
		return "base ";
	case SCOPE_STATION:
		return "station ";
	}
	return "";
}

static void
add_feed(const struct feed_host *where, const struct book_feed *feed, struct text *out)
{
	text_add_format(out, "%lld  %s%s%s%s\n", (long long)feed->number,
	    scope_words(&feed->scope), feed->scope.name, feed->todos ? ", to-dos" : "",
	    feed->revoked ? ", revoked" : "");
	if (!feed->revoked) {
		text_add(out, "   ");
		feed_address(where, "http", feed->secret, out);
		text_add(out, "\n   ");
		feed_address(where, "webcal", feed->secret, out);
		text_add(out, "\n");
	}
}

static const char WHAT_A_FEED_CAN_DO[] =
    "Subscribe to it in the calendar program (\"new calendar from the network\", \"subscribe "
    "by\nURL\"): it then moves and removes reminders by itself, when it looks again. Anyone who\n"
    "has the address can read the reminders; \"becket serve revoke NUMBER\" ends it.\n";
static const char ONLY_HERE[] =
    "The address works on this machine only, while \"becket serve\" runs. For a phone at home\n"
    "serve with --listen and --host; calendars that are kept by a company's own servers can't\n"
    "reach a machine at home and need a file or a push.\n";

static const char NO_NAME[] =
    "No other machine can find this one by that address: give its name with --host.\n";

static void
explain(const struct feed_host *where, struct text *out)
{
	text_add(out, WHAT_A_FEED_CAN_DO);
	if (address_is_loopback(where->listen)) {
		text_add(out, ONLY_HERE);
	} else if (!feed_in_reach(where)) {
		text_add(out, NO_NAME);
	}
}

static bool
make_new(struct context *context, const struct serve_said *said,
    const struct feed_host *where, struct fault *fault)
{
	struct scope scope = {0};
	struct book_feed feed = {0};
	if (!scope_of(context, &said->scope, &scope, fault) ||
	    !desk_new_feed(&context->desk, &scope, said->todos, &feed, fault)) {
		return false;
	}
	add_feed(where, &feed, &context->out);
	explain(where, &context->out);
	return true;
}

/* The feed that the second word names; NULL, with the fault set, when there is none. */
static const struct book_feed *
find_feed(struct context *context, struct fault *fault)
{
	const struct book_feed *feeds = NULL;
	size_t count = 0;
	long number = 0;
	const char *word = options_word(context->given, 1);
	if (word == NULL || !number_read(word, 1, 1000000, &number)) {
		(void)usage_fault(fault, WHO,
		    "expected an address's NUMBER, found %s%s%s",
		    word == NULL ? "nothing" : "\"", word == NULL ? "" : word,
		    word == NULL ? "" : "\"");
		return NULL;
	}
	if (!book_load_feeds(
		context->desk.book, &context->desk.arena, &feeds, &count, fault)) {
		return NULL;
	}
	for (size_t i = 0; i < count; i++) {
		if (feeds[i].number == number) {
			return &feeds[i];
		}
	}
	(void)fault_set(fault, FAULT_INPUT,
	    "there is no address number %ld; \"becket serve list\" shows them", number);
	return NULL;
}

static bool
show(struct context *context, const struct feed_host *where, struct fault *fault)
{
	const struct book_feed *feed = find_feed(context, fault);
	SCOPED_TEXT address = {0};
	if (feed == NULL) {
		return false;
	}
	add_feed(where, feed, &context->out);
	if (feed->revoked) {
		return true;
	}
	feed_address(where, "webcal", feed->secret, &address);
	if ((feed_in_reach(where) &&
		!qr_add(text_string(&address), &context->out, fault))) {
		return false;
	}
	explain(where, &context->out);
	return true;
}

static bool
list(struct context *context, const struct feed_host *where, struct fault *fault)
{
	const struct book_feed *feeds = NULL;
	size_t count = 0;
	if (!book_load_feeds(
		context->desk.book, &context->desk.arena, &feeds, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		add_feed(where, &feeds[i], &context->out);
	}
	if (count == 0) {
		text_add(&context->out,
		    "There is no address yet; \"becket serve new\" makes one.\n");
	}
	return true;
}

static bool
revoke(struct context *context, struct fault *fault)
{
	const struct book_feed *feed = find_feed(context, fault);
	if (feed == NULL || !desk_revoke_feed(&context->desk, feed->number, fault)) {
		return false;
	}
	text_add_format(&context->out,
	    "Address %lld is revoked: whoever asks for it is told that there is nothing. What "
	    "calendar programs fetched before, they keep.\n",
	    (long long)feed->number);
	return true;
}

void
serving_log(void *context, const char *words)
{
	(void)context;
	(void)fprintf(stderr, "becket: %s\n", words);
}

/* Waits for the person, or the system, to end it. */
static void
wait_for_end(const sigset_t *ends)
{
	int signal_number = 0;
	(void)sigwait(ends, &signal_number);
}

static bool
serve(
    struct context *context, const struct feed_host *where, int each, struct fault *fault)
{
	sigset_t ends;
	struct server *server = NULL;
	struct feeding feeding = {.context = context};
	struct feed_source feeds = {feeding_make, &feeding};
	const struct web_source source = {feed_answer, &feeds, NULL};
	const struct server_options options = {.listen = where->listen,
	    .port = where->port,
	    .each = each,
	    .log = serving_log};
	(void)sigemptyset(&ends);
	(void)sigaddset(&ends, SIGINT);
	(void)sigaddset(&ends, SIGTERM);
	if (pthread_sigmask(SIG_BLOCK, &ends, NULL) != 0) {
		return fault_set(fault, FAULT_FILE, "can't wait for signals");
	}
	if (!server_start(&options, &source, &server, fault)) {
		return false;
	}
	const struct book_feed_host serving = {
	    where->listen, where->host, server_port(server)};
	if (!desk_keep_feed_host(&context->desk, &serving, fault)) {
		server_stop(server);
		feeding_clear(&feeding);
		return false;
	}
	if (!address_is_loopback(where->listen)) {
		(void)fprintf(stderr,
		    "note: anyone on the network who has an address can read its "
		    "reminders, and they travel unencrypted\n");
	}
	(void)printf("Serving at %s, port %d; \"becket serve list\" shows the addresses. "
		     "Ctrl-C ends.\n",
	    where->listen, server_port(server));
	(void)fflush(stdout);
	wait_for_end(&ends);
	server_stop(server);
	feeding_clear(&feeding);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *what = options_word(context->given, 0);
	struct serve_said said = {.port = -1, .each = USUAL_EACH};
	struct feed_host where = {0};
	if (!options_into(context->given, &said, fault) ||
	    !desk_book(&context->desk, fault) ||
	    !read_where(context, &said, &where, fault)) {
		return false;
	}
	if (what == NULL) {
		return serve(context, &where, said.each, fault);
	}
	if (strcmp(what, "new") == 0) {
		return make_new(context, &said, &where, fault);
	}
	if (strcmp(what, "show") == 0) {
		return show(context, &where, fault);
	}
	return strcmp(what, "list") == 0 ? list(context, &where, fault)
					 : revoke(context, fault);
}

const struct command COMMAND_SERVE = {
    .name = "serve",
    .summary = "serve the reminders as calendar feeds on this machine or network",
    .details =
	"A calendar program that subscribes to a feed moves and removes reminders by itself. "
	"Each feed has an address with a long secret in it: whoever has the address can read "
	"it, and it can be revoked. It is served to this machine only unless --listen says "
	"otherwise, without encryption; where it was last served is kept, so that the addresses "
	"shown are those that answer. A request has 20 seconds in all. Alarms in feeds are ignored by many programs, and "
	"\"changed\" is not \"seen\": they look again every few minutes to once a week.",
    .examples = "serve new --vessel Quillfish\n"
		"an address from which a calendar reads one boat's reminders\n"
		"serve list\n"
		"the addresses there are\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
