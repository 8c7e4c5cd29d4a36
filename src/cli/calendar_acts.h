/* Parts of `becket calendar`: its acts, a calendar server, and what is kept there of a
 * person's. */
#ifndef BECKET_CLI_CALENDAR_ACTS_H
#define BECKET_CLI_CALENDAR_ACTS_H

#include "book/caldav.h"
#include "calendar/caldav_push.h"
#include "calendar/http.h"
#include "cli/command.h"
#include "cli/values.h"

/* What the command for a renewal that was ticked off needs beside its day: a tick says neither what
 * is printed on the new, nor whether the thing is another. */
#define RENEWAL_REST " --expires DATE (with --refit where only what is in it is new)"

/* The calendar server that the command line and the book name, and a session with it. */

/* Starts with the first two filled in; free with calendar_server_clear. */
struct calendar_server {
	struct context *context; /* borrowed; its book is open */
	/* borrowed; in a dry run nothing may be changed anywhere */
	const struct calendar_said *said;
	struct book_account account;
	struct http *http; /* owned; NULL before it is connected */
};

/* The remembered account, changed by what the command line says. Another URL is
 * another account: nothing of the old one goes there. To-dos begin where the events go,
 * but in no calendar yet. FAULT_USAGE when no server is known. */
MUST_CHECK bool calendar_server_account(
    struct calendar_server *server, struct fault *fault);

/* Checks the address, asks for the password where there is a user, and readies a
 * session. */
MUST_CHECK bool calendar_server_connect(
    struct calendar_server *server, struct fault *fault);

/* Finds the calendar, unless its address is remembered, and makes it where --create says
 * so. When nothing may be changed, and it would have to be made, its address stays "". */
MUST_CHECK bool calendar_server_find(struct calendar_server *server, struct fault *fault);

void calendar_server_clear(struct calendar_server *server);

/* Which side counts where a person changed a calendar: said with --keep, or asked. */

/* What --keep says. All in the context's arena. */
struct calendar_keep {
	enum caldav_keep usual; /* of all that is not named */
	struct caldav_choice *choices;
	size_t count;
};

/* Reads what every --keep says, `words`: "ours" or "theirs" for all, "ours=ID,ID" or
 * "theirs=ID,ID" for the reminders of the book whose identities start so. Looks them up
 * in the book. FAULT_INPUT for an identity that is not one reminder's, or is told both;
 * FAULT_USAGE for another word. */
MUST_CHECK bool calendar_keep_read(struct context *context, const struct word_list *words,
    struct calendar_keep *out, struct fault *fault);

/* Adds one choice. */
MUST_CHECK bool calendar_keep_add(struct context *context, struct calendar_keep *keep,
    const char *uid, enum caldav_keep which, struct fault *fault);

/* Asks at the terminal which day counts for a reminder that was moved on both sides.
 * CALDAV_ASK when it is to be left. */
MUST_CHECK bool calendar_keep_ask(const char *summary, day_t theirs, day_t ours,
    enum caldav_keep *out, struct fault *fault);

/* ---- What a push or a pull did, for people and for programs ---- */

/* What the words are about; all borrowed. */
struct push_words {
	const struct caldav_report *report;
	struct arena *arena; /* working room */
	const char *name;    /* of the calendar */
	const char *url;
	bool pulling; /* only what was found there is of interest */
	bool trying;  /* nothing was done: the words say what would be */
	bool colour;
};

/* How many were left as a person, or the server, has them: what has to be looked at. */
size_t push_left(const struct caldav_report *report);

/* A summary, what was done line by line, then what was found there and what to do. */
void push_report(const struct push_words *words, struct text *out);

/* The same for programs, as exchange/answer_push.h has it. */
void push_answer(const struct push_words *words, struct text *out);

/* What the options say; NULL where one is not there. */
struct calendar_said {
	struct scope_said scope;
	bool todos;
	const char *name; /* of the calendar in a file */
	const char *take;
	const char *url;
	const char *user;
	const char *password_file;
	const char *calendar; /* on the server */
	bool make;
	struct word_list keep; /* as calendar_keep_read has them */
	bool dry_run;
	int timeout_seconds; /* for one request */
	const char *ca_file;
	bool allow_plain;
};

/* cmd_calendar_push.c */
MUST_CHECK bool calendar_act_push(
    struct context *context, const struct calendar_said *said, struct fault *fault);
MUST_CHECK bool calendar_act_pull(
    struct context *context, const struct calendar_said *said, struct fault *fault);
MUST_CHECK bool calendar_act_forget(
    struct context *context, const struct calendar_said *said, struct fault *fault);

/* cmd_calendar_read.c */
extern const struct answer_keys *const KEYS_OF_READ_BACK[]; /* of its answer in JSON */
MUST_CHECK bool calendar_act_read(
    struct context *context, const struct calendar_said *said, struct fault *fault);

#endif
