#include "page/feed_address.h"

#include "page/feed.h"
#include "page/serve.h"

#include <string.h>

static const char *
host_of(const struct feed_host *place)
{
	return place->host[0] == '\0' ? place->listen : place->host;
}

struct feed_host
feed_host_last(const struct book_feed_host *last)
{
	return last->listen == NULL
		   ? (struct feed_host){"127.0.0.1", "", FEED_USUAL_PORT}
		   : (struct feed_host){last->listen, last->host, last->port};
}

bool
feed_in_reach(const struct feed_host *place)
{
	static const char *const NOWHERE[] = {"localhost", "0.0.0.0", "::"};
	const char *host = host_of(place);
	return !words_have(NOWHERE, sizeof NOWHERE / sizeof NOWHERE[0], host) &&
	       !address_is_loopback(place->listen) && !address_is_loopback(host);
}

bool
origin_in_reach(const char *origin)
{
	const char *name = strstr(origin, "//") + strlen("//");
	bool brackets = *name == '[';
	SCOPED_TEXT host = {0};
	name += brackets ? 1 : 0;
	text_add_bytes(&host, name, strcspn(name, brackets ? "]" : ":"));
	const struct feed_host place = {.listen = text_string(&host), .host = ""};
	return feed_in_reach(&place);
}

void
feed_address(const struct feed_host *place, const char *scheme, const char *secret,
    struct text *out)
{
	bool brackets = strchr(host_of(place), ':') != NULL;
	text_add_format(out, "%s://%s%s%s:%d", scheme, brackets ? "[" : "",
	    host_of(place), brackets ? "]" : "", place->port);
	feed_path(secret, out);
}
