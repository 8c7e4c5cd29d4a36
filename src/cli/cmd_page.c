/* becket page */
#include "cli/command.h"
#include "cli/page_place.h"
#include "cli/values.h"
#include "desk/files.h"
#include "page/serve.h"
#include "page/site.h"

#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>

enum {
	USUAL_PORT = 0, /* any that is free: nobody has to know it */
	CONNECTIONS_EACH = 32,
	BODY_MOST = 32 * 1024 * 1024, /* pictures of papers come by the page too */
};

static const struct word_spec WORDS[] = {
    {.name = "FILE", .help = "a list to bring, .csv, .xlsx or .ods: it is opened there"},
};

static const struct option_spec OPTIONS[] = {
    {.name = "port",
	.argument = "N",
	.help = "listen at this port of this machine; any that is free when not told"},
    {.name = "no-browser", .help = "only say the address, and open no browser"},
};

/* The site while it runs. */
struct hosting {
	struct context *context;
	struct site site;
	struct page_place place;
};

/* The desk of one request: as the command line would begin one. */
static void
make_desk(void *context, struct desk *out)
{
	struct hosting *hosting = context;
	struct context again = {0};
	context_again(hosting->context, &again);
	*out = again.desk;
}

static void
add_address(const struct site *site, struct text *out)
{
	text_add_format(
	    out, "http://127.0.0.1:%d/enter/%s", site->access.port, site->access.key);
}

/* Writes down the address by which the next browser comes in. */
static void
keep_address(void *context)
{
	struct hosting *hosting = context;
	struct fault fault = {0};
	SCOPED_TEXT address = {0};
	add_address(&hosting->site, &address);
	if (!page_place_write(&hosting->place, text_string(&address), &fault)) {
		(void)fprintf(stderr, "becket: %s\n", fault.text);
	}
}

extern char **environ;

/* Opens the person's browser; where that can't be done, the address is there to be read. */
static void
open_browser(const char *address)
{
	char program[] = "xdg-open";
	SCOPED_TEXT copy = {0};
	pid_t child = 0;
	text_add(&copy, address);
	char *const words[] = {program, copy.bytes, NULL};
	if (posix_spawnp(&child, program, NULL, NULL, words, environ) != 0) {
		(void)fprintf(stderr,
		    "note: no browser could be opened; type the address "
		    "into one\n");
	}
}

/* Tells the address, and opens it. */
static void
show(const struct context *context, const char *address, const char *ending)
{
	(void)printf("The book is open at\n  %s\n%s", address, ending);
	(void)fflush(stdout);
	if (!options_has(context->given, "no-browser")) {
		open_browser(address);
	}
}

static void
log_fault(void *context, const char *words)
{
	(void)context;
	(void)fprintf(stderr, "becket: %s\n", words);
}

/* A book of an older program is brought up to date once, as by any command that writes. */
static bool
bring_up_to_date(struct hosting *hosting, struct fault *fault)
{
	struct desk desk = {0};
	make_desk(hosting, &desk);
	bool done = !desk_has_book(&desk) || desk_open(&desk, BOOK_WRITE, fault);
	desk_clear(&desk);
	return done;
}

static bool
host(struct hosting *hosting, int port, struct fault *fault)
{
	sigset_t ends;
	int signal_number = 0;
	struct server *server = NULL;
	const struct web_source source = {site_answer, &hosting->site};
	const struct server_options options = {.listen = "127.0.0.1",
	    .port = port,
	    .each = CONNECTIONS_EACH,
	    .most = BODY_MOST,
	    .log = log_fault};
	(void)sigemptyset(&ends);
	(void)sigaddset(&ends, SIGINT);
	(void)sigaddset(&ends, SIGTERM);
	if (pthread_sigmask(SIG_BLOCK, &ends, NULL) != 0) {
		return fault_set(fault, FAULT_FILE, "can't wait for signals");
	}
	if (!access_begin(port, &hosting->site.access, fault) ||
	    !server_start(&options, &source, &server, fault)) {
		return false;
	}
	hosting->site.access.port = server_port(server);
	SCOPED_TEXT address = {0};
	add_address(&hosting->site, &address);
	keep_address(hosting);
	show(hosting->context, text_string(&address), "Ctrl-C closes it.\n");
	(void)sigwait(&ends, &signal_number);
	server_stop(server);
	return true;
}

/* The list that was named, if one was. */
static bool
hold_list(struct hosting *hosting, struct fault *fault)
{
	const char *path = options_word(hosting->context->given, 0);
	SCOPED_TEXT bytes = {0};
	if (path == NULL) {
		return true;
	}
	if (!file_read(path, &bytes, fault)) {
		return false;
	}
	const char *slash = strrchr(path, '/');
	site_hold_list(&hosting->site, slash == NULL ? path : slash + 1,
	    text_string(&bytes), bytes.length);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	int port = USUAL_PORT;
	SCOPED_TEXT address = {0};
	struct hosting hosting = {
	    .context = context, .site = {.desk = make_desk, .entered = keep_address}};
	hosting.site.context = &hosting;
	if (!value_number(
		context->given, "port", (struct range){0, 65535}, &port, NULL, fault) ||
	    !page_place_take(context->desk.book_path, &hosting.place, &address, fault)) {
		return false;
	}
	bool done = hold_list(&hosting, fault);
	if (!done) {
		page_place_leave(&hosting.place);
		return false;
	}
	if (address.length > 0 && hosting.site.list_name != NULL) {
		desk_note(&context->desk,
		    "the page is open already: bring the list there, under Bring a list");
	}
	if (address.length > 0) {
		show(context, text_string(&address), "");
	} else {
		done = bring_up_to_date(&hosting, fault) && host(&hosting, port, fault);
	}
	text_clear(&hosting.site.said);
	site_put_list_away(&hosting.site);
	page_place_leave(&hosting.place);
	return done;
}

const struct command COMMAND_PAGE = {
    .name = "page",
    .summary = "open the book in a browser on this machine",
    .details =
	"The winter, what came back and all else without a terminal. Only programs on this "
	"machine reach the page, and only a browser that was opened by the address: it serves "
	"once, and a second \"becket page\" opens the same page with another. What is changed "
	"there stands in the journal as what is changed here does.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_NOTHING,
    .run = run,
};
