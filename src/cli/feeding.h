/* A feed made from the book as it is now. */
#ifndef BECKET_CLI_FEEDING_H
#define BECKET_CLI_FEEDING_H

#include "cli/context.h"
#include "web/feed.h"

/* Makes the feed with this secret: a struct feed_source's `make`, its context a struct context
 * that is only borrowed from. The book is opened anew each time, so that what other programs
 * wrote and the day that has begun since are seen; what changed is stored before it is given
 * out. At most 1,000 reminders, the soonest, are in a feed, as more is refused by some
 * programs (shared calendars' limits, read). */
bool feeding_make(void *context, const char *secret, struct feed *out, bool *found_out,
    struct fault *fault);

#endif
