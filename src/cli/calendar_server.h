/* The calendar server that the command line and the book name, and a session with it. */
#ifndef BECKET_CLI_CALENDAR_SERVER_H
#define BECKET_CLI_CALENDAR_SERVER_H

#include "book/caldav.h"
#include "calendar/http.h"
#include "cli/calendar_acts.h"

/* Starts with the first two filled in; free with calendar_server_clear. */
struct calendar_server {
	struct context *context; /* borrowed; its book is open */
	/* borrowed; in a dry run nothing may be changed anywhere */
	const struct calendar_said *said;
	struct book_account account;
	struct http *http; /* owned; NULL before it is connected */
};

/* The account that is remembered, with what the command line says otherwise. Another URL is
 * another account: nothing of the old one goes there. To-dos begin where the events go, but
 * in no calendar yet. FAULT_USAGE when no server is known. */
MUST_CHECK bool calendar_server_account(
    struct calendar_server *server, struct fault *fault);

/* Checks the address, asks for the password where there is a user, and readies a session. */
MUST_CHECK bool calendar_server_connect(
    struct calendar_server *server, struct fault *fault);

/* Finds the calendar, unless its address is remembered, and makes it where --create says so.
 * When nothing may be changed, and it would have to be made, its address stays "". */
MUST_CHECK bool calendar_server_find(struct calendar_server *server, struct fault *fault);

void calendar_server_clear(struct calendar_server *server);

#endif
