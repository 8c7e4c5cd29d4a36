/* The acts of `becket calendar` that are not a few lines, each in the file named. */
#ifndef BECKET_CLI_CALENDAR_ACTS_H
#define BECKET_CLI_CALENDAR_ACTS_H

#include "cli/scope_option.h"

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
MUST_CHECK bool calendar_act_read(
    struct context *context, const struct calendar_said *said, struct fault *fault);

#endif
