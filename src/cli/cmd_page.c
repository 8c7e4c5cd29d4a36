/* becket page */
#include "cli/command.h"
#include "cli/serving.h"
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
	CONNECTIONS_PROXY = 256, /* all clients come from its address */
};

static const struct word_spec WORDS[] = {
    {.name = "FILE", .help = "a list to bring, .csv, .xlsx or .ods: it is opened there"},
};

/* Where it is served, and to whom. */
struct where {
	const char *listen;
	const char *at;    /* NULL for this machine's own names */
	const char *proxy; /* NULL for none */
	int port;
	bool people;
	bool no_browser;
	bool from_menu;
};

static const struct option_spec OPTIONS[] = {
    OPTION("port", "N", COUNT, struct where, port,
	"listen at this port; any that is free when not told", .most = 65535),
    FLAG_OPTION("no-browser", struct where, no_browser,
	"only say the address, and open no browser"),
    FLAG_OPTION("from-menu", struct where, from_menu,
	"started without a terminal: why a book can't be opened is shown in the browser"),
    FLAG_OPTION("people", struct where, people,
	"let in those whom \"becket people\" names, each by a password"),
    OPTION("listen", "ADDRESS", WORDS, struct where, listen,
	"listen there; 127.0.0.1, this machine only, when not told", .needs = "people"),
    OPTION("at", "URL", WORDS, struct where, at,
	"how others ask for it, http://NAME:PORT or, behind a proxy, https://NAME",
	.needs = "people"),
    OPTION("proxy", "ADDRESS", WORDS, struct where, proxy,
	"believe the proxy at this address who its clients are, and that they came by "
	"https",
	.needs = "at"),
};

/* The site while it runs. */
struct hosting {
	struct context *context;
	struct site site;
	struct page_address place;
	struct where where;
	const char *list_name; /* of a list that is brought at once; NULL for none */
	struct text list;
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

/* The address that lets the one person in, or at which people log in. */
static void
add_address(const struct site *site, struct text *out)
{
	const struct access *access = &site->access;
	if (access->at != NULL) {
		text_add_format(out, "%s/", access->at);
	} else if (access->people != NULL) {
		text_add_format(out, "http://127.0.0.1:%d/", access->port);
	} else {
		text_add_format(
		    out, "http://127.0.0.1:%d/enter/%s", access->port, access->key);
	}
}

/* Writes down the address by which the next browser comes in. */
static void
keep_address(void *context)
{
	struct hosting *hosting = context;
	struct fault fault = {0};
	SCOPED_TEXT address = {0};
	add_address(&hosting->site, &address);
	if (!page_address_write(&hosting->place, text_string(&address), &fault)) {
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
show(const struct where *where, const char *address, const char *ending)
{
	(void)printf("The book is open at\n  %s\n%s", address, ending);
	(void)fflush(stdout);
	if (!where->no_browser) {
		open_browser(address);
	}
}

/* A book of an older program is brought up to date once, as by any command that writes. */
static bool
bring_up_to_date(struct hosting *hosting, struct fault *fault)
{
	struct desk desk = {0};
	make_desk(hosting, &desk);
	bool done = !desk_has_book(&desk) || desk_open(&desk, BOOK_WRITE, fault);
	desk_clear(&desk);
	if (!done && hosting->where.from_menu && fault->kind == FAULT_BOOK) {
		/* nobody reads what is printed: each page says it */
		serving_log(NULL, fault->text);
		*fault = (struct fault){0};
		return true;
	}
	return done;
}

/* Says what a network may do that can't be kept from it here. */
static void
warn(const struct where *where)
{
	if (!address_is_loopback(where->listen) && where->proxy == NULL) {
		(void)fprintf(stderr,
		    "note: passwords and all else travel unencrypted on that network; behind a "
		    "proxy with --at https://NAME and --proxy they would not\n");
	}
}

static bool
host(struct hosting *hosting, struct fault *fault)
{
	sigset_t ends;
	int signal_number = 0;
	struct server *server = NULL;
	const struct where *where = &hosting->where;
	const struct web_source source = {site_answer, &hosting->site, site_may_send};
	SCOPED_TEXT people = {0};
	const struct server_options options = {.listen = where->listen,
	    .port = where->port,
	    .each = where->proxy == NULL ? CONNECTIONS_EACH : CONNECTIONS_PROXY,
	    .most = SITE_BODY_MOST,
	    .too_much =
		"That is more than the page takes, which is 32 MB. At a terminal \"becket book "
		"restore FILE\" puts back a copy of any size, and \"becket import FILE\" brings a "
		"list of up to 512 MB. Nothing was written.\n",
	    .proxy = where->proxy,
	    .log = serving_log};
	people_path(hosting->context->desk.book_path, &people);
	(void)sigemptyset(&ends);
	(void)sigaddset(&ends, SIGINT);
	(void)sigaddset(&ends, SIGTERM);
	if (pthread_sigmask(SIG_BLOCK, &ends, NULL) != 0) {
		return fault_set(fault, FAULT_FILE, "can't wait for signals");
	}
	if (!access_begin(where->port, where->at,
		where->people ? text_string(&people) : NULL, &hosting->site.access,
		fault)) {
		return false;
	}
	if (hosting->list_name != NULL) {
		session_hold_list(hosting->site.access.sessions[0], hosting->list_name,
		    text_string(&hosting->list), hosting->list.length);
	}
	if (!server_start(&options, &source, &server, fault)) {
		access_end(&hosting->site.access);
		return false;
	}
	hosting->site.access.port = server_port(server);
	warn(where);
	SCOPED_TEXT address = {0};
	add_address(&hosting->site, &address);
	keep_address(hosting);
	show(&hosting->where, text_string(&address), "Ctrl-C closes it.\n");
	(void)sigwait(&ends, &signal_number);
	server_stop(server);
	access_end(&hosting->site.access);
	return true;
}

/* The list that was named, if one was. */
static bool
hold_list(struct hosting *hosting, struct fault *fault)
{
	const char *path = options_word(hosting->context->given, 0);
	if (path == NULL) {
		return true;
	}
	if (hosting->where.people) {
		return fault_set(fault, FAULT_USAGE,
		    "a list is brought on the page itself where people log in to it");
	}
	const char *slash = strrchr(path, '/');
	hosting->list_name = slash == NULL ? path : slash + 1;
	return file_read(path, &hosting->list, fault);
}

/* An origin as browsers send it (RFC 6454 section 6.2): scheme and authority, nothing
 * more. */
static bool
read_at(struct context *context, struct where *where, struct fault *fault)
{
	const char *given = where->at;
	if (given == NULL) {
		return true;
	}
	size_t length = strlen(given);
	SCOPED_TEXT origin = {0};
	text_add_bytes(
	    &origin, given, length - (length > 0 && given[length - 1] == '/' ? 1 : 0));
	const char *at = text_string(&origin);
	size_t scheme = strncmp(at, "https://", 8) == 0  ? 8
			: strncmp(at, "http://", 7) == 0 ? 7
							 : 0;
	const char *name = at + scheme;
	if (scheme == 0 || *name == '\0' || strlen(name) > 200 ||
	    strspn(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
			 "0123456789.-:[]") != strlen(name)) {
		return fault_set(fault, FAULT_INPUT,
		    "--at: expected http://NAME:PORT or https://NAME, found \"%.80s\"",
		    given);
	}
	if (scheme == 8 && where->proxy == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "--at: https is spoken by a proxy before becket; say its address with "
		    "--proxy");
	}
	where->at = arena_string(&context->desk.arena, at);
	return true;
}

/* Puts the address of a proxy, NULL for none, in its usual shape. */
static bool
read_proxy(struct context *context, const char **proxy, struct fault *fault)
{
	const char *given = *proxy;
	char usual[ADDRESS_SIZE];
	if (given == NULL) {
		return true;
	}
	if (!address_usual(given, usual)) {
		return fault_set(fault, FAULT_INPUT,
		    "--proxy: expected an address as 127.0.0.1 or ::1, found \"%.60s\"",
		    given);
	}
	*proxy = arena_string(&context->desk.arena, usual);
	return true;
}

/* Beyond this machine it is served to people who log in alone, and there must be one. */
static bool
check_where(struct context *context, const struct where *where, struct fault *fault)
{
	SCOPED_TEXT path = {0};
	struct people people = {0};
	if (!where->people) {
		return true;
	}
	people_path(context->desk.book_path, &path);
	if (!desk_has_book(&context->desk)) {
		return fault_set(fault, FAULT_BOOK,
		    "there is no book at %s yet; begin one before others are let in",
		    context->desk.book_path);
	}
	if (!people_read(text_string(&path), &context->desk.arena, &people, fault)) {
		return false;
	}
	if (people.count == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "nobody is let in yet; begin with \"becket people add NAME --right manage\"");
	}
	return address_is_loopback(where->listen) || where->at != NULL ||
	       fault_set(fault, FAULT_INPUT,
		   "--listen %.60s: say with --at how others ask for it, as "
		   "http://NAME:PORT; no other name is answered",
		   where->listen);
}

static bool
read_where(struct context *context, struct where *out, struct fault *fault)
{
	*out = (struct where){.listen = "127.0.0.1", .port = USUAL_PORT};
	return options_into(context->given, out, fault) && read_at(context, out, fault) &&
	       read_proxy(context, &out->proxy, fault) &&
	       check_where(context, out, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	SCOPED_TEXT address = {0};
	struct hosting hosting = {
	    .context = context, .site = {.desk = make_desk, .entered = keep_address}};
	hosting.site.context = &hosting;
	if (!read_where(context, &hosting.where, fault) ||
	    !page_address_take(
		context->desk.book_path, &hosting.place, &address, fault)) {
		return false;
	}
	bool done = hold_list(&hosting, fault);
	if (!done) {
		page_address_leave(&hosting.place);
		text_clear(&hosting.list);
		return false;
	}
	if (address.length > 0 && hosting.list_name != NULL) {
		desk_note(&context->desk,
		    "the page is open already: bring the list there, under Bring a list");
	}
	if (address.length > 0) {
		show(&hosting.where, text_string(&address), "");
	} else {
		done = bring_up_to_date(&hosting, fault) && host(&hosting, fault);
	}
	text_clear(&hosting.list);
	page_address_leave(&hosting.place);
	return done;
}

const struct command COMMAND_PAGE = {
    .name = "page",
    .summary = "open the book in a browser",
    .details =
	"The winter, what came back and all else without a terminal. Only programs on this "
	"machine reach the page, and only a browser that was opened by the address: it serves "
	"once, and a second \"becket page\" opens the same page with another. What is changed "
	"there stands in the journal as what is changed here does.\n"
	"With --people those whom \"becket people\" names log in, and what each changes stands "
	"in the journal under their name. Others on the network reach it then: best through a "
	"proxy on this machine that speaks https (--at https://NAME --proxy 127.0.0.1; the "
	"manual shows one), else with --listen and --at, unencrypted. It answers to the name in --at alone. After five wrong "
	"passwords for a name, or twenty from a client, each next try waits longer.",
    .examples = "page\n"
		"the book in a browser on this machine\n"
		"page my-list.xlsx\n"
		"a list of your own, to be looked over and taken in there\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_NOTHING,
    .run = run,
};
