#include "calendar/caldav.h"

#include "calendar/caldav_inside.h"

#include <string.h>

enum { BATCH = 50 };

bool
dav_ask(struct http *http, const struct dav_question *question, struct arena *arena,
    struct dav_reply *out, struct fault *fault)
{
	SCOPED_ANSWER answer = {0};
	struct dav_reply reply = {0};
	const struct http_request request = {
	    .method = question->method,
	    .url = question->url,
	    .depth = question->depth,
	    .content_type = "application/xml; charset=utf-8",
	    .body = question->body,
	    .length = strlen(question->body),
	};
	if (!http_ask(http, &request, &answer, fault)) {
		return false;
	}
	reply.status = answer.status;
	reply.url = arena_string(arena, text_string(&answer.url));
	if (answer.status != 207) {
		*out = reply;
		return true;
	}
	if (strstr(text_string(&answer.content_type), "xml") == NULL) {
		return fault_set(fault, FAULT_FILE,
		    "%.300s: expected XML, found \"%.100s\"", question->url,
		    text_string(&answer.content_type));
	}
	if (!dav_read(
		answer.body.bytes, answer.body.length, arena, &reply.answer, fault)) {
		return fault_prefix(fault, "%.300s", question->url);
	}
	*out = reply;
	return true;
}

bool
dav_unexpected(int status, const char *url, struct fault *fault)
{
	return fault_set(fault, FAULT_FILE,
	    "%.300s: the server answered with status %d, and no calendar was read", url,
	    status);
}

/* The resources that an answer tells of, their addresses made whole. */
static bool
take_resources(const struct dav_reply *reply, struct arena *arena,
    struct caldav_resources *out, struct fault *fault)
{
	for (size_t i = 0; i < reply->answer.count; i++) {
		const struct dav_said *said = &reply->answer.items[i];
		SCOPED_TEXT url = {0};
		if (said->status != 200 || said->is_collection || said->etag[0] == '\0') {
			continue;
		}
		if (!http_resolve(reply->url, said->href, &url, fault)) {
			return fault_prefix(fault, "what the server lists");
		}
		const char *kept = arena_string(arena, text_string(&url));
		out->items[out->count++] = (struct caldav_resource){
		    .url = kept, .etag = said->etag, .data = said->data};
	}
	return true;
}

bool
caldav_list(struct http *http, const char *calendar, struct arena *arena,
    struct caldav_resources *out, struct fault *fault)
{
	const struct dav_question question = {
	    .method = "PROPFIND", .url = calendar, .depth = "1", .body = DAV_ASK_ETAGS};
	struct dav_reply reply = {0};
	struct caldav_resources listed = {0};
	if (!dav_ask(http, &question, arena, &reply, fault)) {
		return false;
	}
	if (reply.status == 404 || reply.status == 410) {
		return fault_set(fault, FAULT_FILE,
		    "%.300s: the calendar is there no more (status %d); name another with "
		    "--calendar, or make it again with --create as well",
		    calendar, reply.status);
	}
	if (reply.status != 207) {
		return dav_unexpected(reply.status, calendar, fault);
	}
	listed.items =
	    arena_alloc(arena, (reply.answer.count + 1) * sizeof *listed.items);
	if (!take_resources(&reply, arena, &listed, fault)) {
		return false;
	}
	*out = listed;
	return true;
}

/* An address without scheme and host, as a report names it. */
static const char *
path_of(const char *url)
{
	const char *host = strstr(url, "://");
	const char *path = host == NULL ? NULL : strchr(host + 3, '/');
	return path == NULL ? url : path;
}

/* Drops what came without data: the report's answer for what is not there. */
static void
drop_empty(struct caldav_resources *resources)
{
	size_t kept = 0;
	for (size_t i = 0; i < resources->count; i++) {
		if (resources->items[i].data[0] != '\0') {
			resources->items[kept++] = resources->items[i];
		}
	}
	resources->count = kept;
}

/* Fetches one batch and adds it. A server may answer for more than it was asked, but not for
 * more than there is room for. */
static bool
fetch_batch(struct http *http, const char *calendar, const char *const *urls,
    size_t count, struct arena *arena, struct caldav_resources *all, struct fault *fault)
{
	const char *paths[BATCH];
	SCOPED_TEXT body = {0};
	struct dav_reply reply = {0};
	for (size_t i = 0; i < count; i++) {
		paths[i] = path_of(urls[i]);
	}
	dav_ask_contents(paths, count, &body);
	const struct dav_question question = {.method = "REPORT",
	    .url = calendar,
	    .depth = "1",
	    .body = text_string(&body)};
	if (!dav_ask(http, &question, arena, &reply, fault)) {
		return false;
	}
	if (reply.status != 207) {
		return dav_unexpected(reply.status, calendar, fault);
	}
	if (reply.answer.count > count) {
		return fault_set(fault, FAULT_FILE,
		    "%.300s: the server answers for %zu resources, asked for %zu",
		    calendar, reply.answer.count, count);
	}
	return take_resources(&reply, arena, all, fault);
}

bool
caldav_fetch(struct http *http, const char *calendar, const char *const *urls,
    size_t count, struct arena *arena, struct caldav_resources *out, struct fault *fault)
{
	struct caldav_resources all = {
	    .items = arena_alloc(arena, (count + 1) * sizeof *all.items)};
	for (size_t from = 0; from < count; from += BATCH) {
		size_t some = count - from < BATCH ? count - from : BATCH;
		if (!fetch_batch(http, calendar, urls + from, some, arena, &all, fault)) {
			return false;
		}
	}
	drop_empty(&all);
	*out = all;
	return true;
}

/* What a refusal says, in words. */
static void
word_refusal(
    const struct http_answer *answer, struct arena *arena, struct caldav_reply *reply)
{
	SCOPED_TEXT condition = {0};
	SCOPED_TEXT why = {0};
	dav_read_condition(answer->body.bytes, answer->body.length, &condition);
	const char *named = text_string(&condition);
	if (strcmp(named, "no-uid-conflict") == 0) {
		text_add(&why, "the server has this reminder at another address already");
	} else if (answer->status == 207) {
		text_add(&why, "part of it did not go through (status 207)");
	} else if (answer->status == 403) {
		text_add(&why, "the server lets this user write nothing there");
	} else {
		text_add(&why, "the server does not take it");
	}
	if (answer->status != 207) {
		text_add_format(&why, " (status %d%s%s)", answer->status,
		    named[0] == '\0' ? "" : ", ", named);
	}
	reply->outcome = CALDAV_REFUSED;
	reply->why = arena_string(arena, text_string(&why));
}

/* True for what RFC 9110 and RFC 4918 say of a change that was made. */
static bool
is_done(int status)
{
	return status == 200 || status == 201 || status == 204;
}

/* Sends a change and says how it went. `gone_is_done`: what is not there is as wanted. */
static bool
change(struct http *http, const struct http_request *request, bool gone_is_done,
    struct arena *arena, struct caldav_reply *out, struct fault *fault)
{
	SCOPED_ANSWER answer = {0};
	if (!http_ask(http, request, &answer, fault)) {
		return false;
	}
	struct caldav_reply reply = {
	    .outcome = CALDAV_DONE,
	    .url = arena_string(arena, text_string(&answer.url)),
	    .etag = arena_string(arena, text_string(&answer.etag)),
	    .why = "",
	};
	int status = answer.status;
	bool gone = status == 404 || status == 410;
	if (status >= 500 || status == 429) {
		return fault_set(fault, FAULT_FILE,
		    "%.300s: the server is in trouble (status %d); try again later",
		    request->url, status);
	}
	if (status == 412 || (gone && !gone_is_done && request->if_match != NULL)) {
		reply.outcome = CALDAV_NOT_AS_SEEN;
	} else if (!is_done(status) && !(gone && gone_is_done)) {
		word_refusal(&answer, arena, &reply);
	}
	*out = reply;
	return true;
}

bool
caldav_put(struct http *http, const char *url, const char *etag, const struct text *ics,
    struct arena *arena, struct caldav_reply *out, struct fault *fault)
{
	const struct http_request request = {
	    .method = "PUT",
	    .url = url,
	    .content_type = "text/calendar; charset=utf-8",
	    .if_match = etag,
	    .if_none_match = etag == NULL,
	    .body = text_string(ics),
	    .length = ics->length,
	};
	return change(http, &request, false, arena, out, fault);
}

bool
caldav_remove(struct http *http, const char *url, const char *etag, struct arena *arena,
    struct caldav_reply *out, struct fault *fault)
{
	const struct http_request request = {
	    .method = "DELETE", .url = url, .if_match = etag};
	return change(http, &request, true, arena, out, fault);
}
