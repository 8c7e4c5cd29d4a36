/* What `becket help` says of subjects that are no command's own. */
#ifndef BECKET_CLI_TOPICS_H
#define BECKET_CLI_TOPICS_H

#include <stddef.h>

struct topic {
	const char *name;    /* as it is asked for, of the letters a to z */
	const char *summary; /* one line: lower case, no full stop */
	const char *words;   /* a paragraph a line */
};

extern const struct topic TOPICS[];
extern const size_t TOPIC_COUNT;

/* The topic of that name, or NULL. */
const struct topic *topic_find(const char *name);

#endif
