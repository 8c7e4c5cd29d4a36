/* What a push to a calendar server did, as JSON. Knows nothing of servers. */
#ifndef BECKET_EXCHANGE_ANSWER_PUSH_H
#define BECKET_EXCHANGE_ANSWER_PUSH_H

#include "base/text.h"
#include "dates/day.h"

struct pushed_row {
	const char *uid;
	const char *summary;
	/* nothing, note, create, change, remove, forget, plan, accept, leave */
	const char *act;
	const char *found; /* moved, edited, removed, strange, twice; "" for nothing */
	bool outdated;     /* the reminder no longer applies */
	bool both;         /* its day was changed on both sides */
	day_t day;
	day_t their_day;
	day_t done_on; /* a to-do ticked there: the day */
	const char *their_summary;
	const char *their_status;
	const char *why; /* the server's refusal in words; "" for none */
};

/* How many of each. */
struct pushed_counts {
	size_t created, changed, removed, planned, accepted, left, unchanged;
};

struct pushed_answer {
	const char *calendar; /* its name */
	const char *url;
	const char *mode; /* "push" or "pull" */
	bool trying;      /* nothing was done */
	struct pushed_counts counts;
	const struct pushed_row *rows;
	size_t count;
};

/* An object with the keys of KEYS_OF_PUSH; what there is none of is null. */
void answer_push(const struct pushed_answer *push, struct text *out);

#endif
