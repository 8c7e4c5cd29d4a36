#include "page/feed.h"

#include "dates/day.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

static const char PREFIX[] = "/feed/";
static const char SUFFIX[] = ".ics";

static const char NOTHING_HERE[] =
    "There is nothing at this address. becket serves calendar feeds, each at an address of "
    "its own; \"becket serve list\" shows them to whoever keeps the book.\n";
static const char ONLY_GET[] = "A feed can be fetched and nothing else: GET or HEAD.\n";
static const char NOT_NOW[] =
    "The book can't be read just now, so the feed stays as it was. Try again later.\n";

static const int64_t DAY_SECONDS = 86400;

void
feed_path(const char *secret, struct text *out)
{
	text_add_format(out, "%s%s%s", PREFIX, secret, SUFFIX);
}

const char *
http_date(int64_t seconds, char buffer[HTTP_DATE_SIZE])
{
	static const char *const WEEKDAYS[] = {
	    "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
	int64_t days = seconds / DAY_SECONDS;
	int rest = (int)(seconds % DAY_SECONDS);
	struct civil civil = day_to_civil((day_t)days);
	(void)snprintf(buffer, HTTP_DATE_SIZE, "%s, %02d %s %04d %02d:%02d:%02d GMT",
	    WEEKDAYS[(days + 3) % 7], civil.day, month_short_name(civil.month),
	    civil.year, rest / 3600, rest / 60 % 60, rest % 60);
	return buffer;
}

/* The month with this three-letter name, not terminated; 0 when there is none. */
static int
month_of(const char *name)
{
	for (int month = 1; month <= 12; month++) {
		if (strncmp(month_short_name(month), name, 3) == 0) {
			return month;
		}
	}
	return 0;
}

/* The number that so many digits make. */
static int
digits(const char *at, int count)
{
	int number = 0;
	for (int i = 0; i < count; i++) {
		number = number * 10 + (at[i] - '0');
	}
	return number;
}

/* True when the words have the form's length, and its digits and signs where it has them. */
static bool
has_form(const char *words, const char *form)
{
	for (; *form != '\0' && *words != '\0'; form++, words++) {
		bool digit = *words >= '0' && *words <= '9';
		bool fits = *form == '0' ? digit : *form == 'a' || *form == *words;
		if (!fits) {
			return false;
		}
	}
	return *form == '\0' && *words == '\0';
}

bool
http_date_read(const char *words, int64_t *seconds_out)
{
	if (!has_form(words, "aaa, 00 aaa 0000 00:00:00 GMT")) {
		return false;
	}
	int day = digits(words + 5, 2);
	int month = month_of(words + 8);
	int year = digits(words + 12, 4);
	int hour = digits(words + 17, 2);
	int minute = digits(words + 20, 2);
	int second = digits(words + 23, 2);
	bool sound = month != 0 && year >= 1970 && day >= 1 && day <= 31 && hour < 24 &&
		     minute < 60 && second <= 60;
	if (sound) {
		int64_t days = (int64_t)day_from_civil(year, month, 1) + day - 1;
		*seconds_out = days * DAY_SECONDS + (int64_t)hour * 3600 +
			       (int64_t)minute * 60 + second;
	}
	return sound;
}

/* True when the client has the feed as it is. An ETag, where there is one, decides alone (RFC
 * 9110 section 13.1.3). */
static bool
has_already(const struct web_request *request, const struct feed *feed)
{
	int64_t since = 0;
	if (request->if_none_match != NULL) {
		return web_has_etag(request->if_none_match, feed->etag);
	}
	return request->if_modified_since != NULL &&
	       http_date_read(request->if_modified_since, &since) &&
	       feed->modified <= since;
}

/* True when the client asks for gzip by name and does not forbid it with a weight of 0. */
static bool
wants_gzip(const char *accepted)
{
	while (accepted != NULL && *accepted != '\0') {
		accepted += strspn(accepted, " \t,");
		size_t length = strcspn(accepted, ",");
		size_t name = strcspn(accepted, " \t;,");
		if (name == 4 && strncasecmp(accepted, "gzip", 4) == 0) {
			char weight[8] = "";
			(void)sscanf(accepted + 4, " ; q = %7[0-9.]", weight);
			return weight[0] == '\0' ||
			       strspn(weight, "0.") != strlen(weight);
		}
		accepted += length;
	}
	return false;
}

/* The secret of a feed's path, copied; false when it is no such path. */
static bool
secret_of(const char *path, struct text *secret)
{
	size_t length = strlen(path);
	size_t fixed = strlen(PREFIX) + strlen(SUFFIX);
	if (length <= fixed || length > 200 ||
	    strncmp(path, PREFIX, strlen(PREFIX)) != 0 ||
	    strcmp(path + length - strlen(SUFFIX), SUFFIX) != 0) {
		return false;
	}
	text_add_bytes(secret, path + strlen(PREFIX), length - fixed);
	return true;
}

/* Puts the feed into the answer. */
static void
give_feed(
    const struct web_request *request, const struct feed *feed, struct web_answer *answer)
{
	bool same = has_already(request, feed);
	answer->status = same ? 304 : 200;
	answer->content_type = same ? "" : "text/calendar; charset=utf-8";
	answer->gzip = wants_gzip(request->accept_encoding);
	(void)snprintf(answer->etag, sizeof answer->etag, "\"%s%s\"", feed->etag,
	    answer->gzip ? "-gz" : "");
	(void)http_date(feed->modified, answer->last_modified);
	if (answer->gzip) {
		gzip_add(text_string(&feed->body), feed->body.length, &answer->body);
		return;
	}
	text_add_bytes(&answer->body, text_string(&feed->body), feed->body.length);
}

static bool
answer_path(const struct web_request *request, const struct feed_source *source,
    struct web_answer *answer, struct fault *fault)
{
	SCOPED_TEXT secret = {0};
	struct feed feed = {0};
	bool found = false;
	if (secret_of(request->path, &secret) &&
	    !source->make(source->context, text_string(&secret), &feed, &found, fault)) {
		text_clear(&feed.body);
		return false;
	}
	if (found) {
		give_feed(request, &feed, answer);
	} else {
		web_say(answer, 404, NOTHING_HERE);
	}
	text_clear(&feed.body);
	return true;
}

bool
feed_answer(void *context, const struct web_request *request, struct web_answer *out,
    struct fault *fault)
{
	const struct feed_source *source = context;
	struct web_answer answer = {.content_type = ""};
	bool done = true;
	if (strcmp(request->method, "HEAD") != 0 && strcmp(request->method, "GET") != 0) {
		answer.allow = "GET, HEAD";
		web_say(&answer, 405, ONLY_GET);
	} else if (!answer_path(request, source, &answer, fault)) {
		answer.etag[0] = '\0';
		answer.last_modified[0] = '\0';
		answer.gzip = false;
		web_say(&answer, 503, NOT_NOW);
		done = false;
	}
	*out = answer;
	return done;
}
