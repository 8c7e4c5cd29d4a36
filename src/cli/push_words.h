/* What a push or a pull did, for people and for programs. */
#ifndef BECKET_CLI_PUSH_WORDS_H
#define BECKET_CLI_PUSH_WORDS_H

#include "calendar/caldav_push.h"

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

#endif
