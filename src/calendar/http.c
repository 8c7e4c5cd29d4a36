/* Requests, by curl: the one file that goes out to the network. */
#include "calendar/http.h"

#include "base/memory.h"
#include "calendar/curl_calls.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { MOST_BYTES = 32 * 1024 * 1024, MOST_REDIRECTS = 5, MOST_HEADER = 4096 };

struct http {
	CURL *curl;         /* owned */
	struct text origin; /* "https://host:443" */
};

/* Where an answer's bytes go while they come in. */
struct incoming {
	struct http_answer *answer;
	bool too_long;
};

static void
headers_clear(struct curl_slist **headers)
{
	curl_slist_free_all(*headers);
}

#define SCOPED_HEADERS __attribute__((cleanup(headers_clear))) struct curl_slist

void
http_answer_clear(struct http_answer *answer)
{
	text_clear(&answer->url);
	text_clear(&answer->etag);
	text_clear(&answer->content_type);
	text_clear(&answer->location);
	text_clear(&answer->body);
}

static void
answer_reset(struct http_answer *answer)
{
	answer->status = 0;
	text_reset(&answer->url);
	text_reset(&answer->etag);
	text_reset(&answer->content_type);
	text_reset(&answer->location);
	text_reset(&answer->body);
}

static size_t
take_body(char *bytes, size_t size, size_t count, void *context)
{
	struct incoming *incoming = context;
	struct text *body = &incoming->answer->body;
	size_t length = size * count;
	if (length > MOST_BYTES || body->length > MOST_BYTES - length) {
		incoming->too_long = true;
		return 0;
	}
	text_add_bytes(body, bytes, length);
	return length;
}

/* Keeps a header's value when it is the one of that name. */
static void
keep_header(const char *line, size_t length, const char *name, struct text *out)
{
	size_t name_length = strlen(name);
	if (length <= name_length || length > MOST_HEADER || line[name_length] != ':' ||
	    strncasecmp(line, name, name_length) != 0) {
		return;
	}
	const char *value = line + name_length + 1;
	length -= name_length + 1;
	while (length > 0 && (*value == ' ' || *value == '\t')) {
		value++;
		length--;
	}
	while (length > 0 && strchr("\r\n \t", value[length - 1]) != NULL) {
		length--;
	}
	text_reset(out);
	text_add_bytes(out, value, length);
}

static size_t
take_header(char *line, size_t size, size_t count, void *context)
{
	struct incoming *incoming = context;
	struct http_answer *answer = incoming->answer;
	size_t length = size * count;
	if (length >= 5 && memcmp(line, "HTTP/", 5) == 0) { /* another answer begins */
		text_reset(&answer->etag);
		text_reset(&answer->content_type);
		text_reset(&answer->location);
	}
	if (memchr(line, '\0', length) == NULL) {
		keep_header(line, length, "ETag", &answer->etag);
		keep_header(line, length, "Content-Type", &answer->content_type);
		keep_header(line, length, "Location", &answer->location);
	}
	return length;
}

static bool
set_up(struct http *http, const struct http_settings *settings)
{
	CURL *curl = http->curl;
	bool set =
	    curl_easy_setopt(curl, CURLOPT_PROTOCOLS_STR, "http,https") == CURLE_OK &&
	    curl_easy_setopt(curl, CURLOPT_NOSIGNAL, 1L) == CURLE_OK &&
	    curl_easy_setopt(curl, CURLOPT_USERAGENT, "becket") == CURLE_OK &&
	    curl_easy_setopt(curl, CURLOPT_CONNECTTIMEOUT,
		(long)settings->timeout_seconds) == CURLE_OK &&
	    curl_easy_setopt(curl, CURLOPT_TIMEOUT, (long)settings->timeout_seconds) ==
		CURLE_OK &&
	    curl_easy_setopt(curl, CURLOPT_WRITEFUNCTION, take_body) == CURLE_OK &&
	    curl_easy_setopt(curl, CURLOPT_HEADERFUNCTION, take_header) == CURLE_OK;
	if (set && settings->user[0] != '\0') {
		set = curl_easy_setopt(curl, CURLOPT_HTTPAUTH, (long)CURLAUTH_BASIC) ==
			  CURLE_OK &&
		      curl_easy_setopt(curl, CURLOPT_USERNAME, settings->user) ==
			  CURLE_OK &&
		      curl_easy_setopt(curl, CURLOPT_PASSWORD, settings->password) ==
			  CURLE_OK;
	}
	if (set && settings->ca_file[0] != '\0') {
		set =
		    curl_easy_setopt(curl, CURLOPT_CAINFO, settings->ca_file) == CURLE_OK;
	}
	/* what is not encrypted goes through no proxy: it is for this machine, or was
	 * allowed */
	if (set && strncasecmp(settings->url, "http:", 5) == 0) {
		set = curl_easy_setopt(curl, CURLOPT_PROXY, "") == CURLE_OK;
	}
	return set;
}

bool
http_open(
    const struct http_settings *settings, struct http **http_out, struct fault *fault)
{
	if (!http_check(settings, fault)) {
		return false;
	}
	struct http *http = memory_zeroed(1, sizeof *http);
	http->curl = memory_held(curl_easy_init());
	if (!set_up(http, settings)) {
		memory_ended();
	}
	if (!http_origin(settings->url, &http->origin, fault)) {
		http_close(http);
		return false;
	}
	*http_out = http;
	return true;
}

void
http_close(struct http *http)
{
	if (http != NULL) {
		curl_easy_cleanup(http->curl);
		text_clear(&http->origin);
		free(http);
	}
}

/* True when the address is of the server that the session is for. */
static bool
check_origin(const struct http *http, const char *address, struct fault *fault)
{
	SCOPED_TEXT origin = {0};
	if (!http_origin(address, &origin, fault)) {
		return false;
	}
	if (strcmp(text_string(&origin), text_string(&http->origin)) != 0) {
		return fault_set(fault, FAULT_FILE,
		    "the server points to another one, %.300s, and the password is not "
		    "sent there; when you trust that address, give it as the URL",
		    address);
	}
	return true;
}

/* Adds "Name: value". */
static void
add_header(struct curl_slist **headers, const char *name, const char *value)
{
	SCOPED_TEXT line = {0};
	text_add_format(&line, "%s: %s", name, value);
	*headers = memory_held(curl_slist_append(*headers, text_string(&line)));
}

static void
add_headers(const struct http_request *request, struct curl_slist **headers)
{
	/* curl would wait a second for permission to send a body */
	add_header(headers, "Expect", "");
	if (request->depth != NULL) {
		add_header(headers, "Depth", request->depth);
	}
	if (request->content_type != NULL) {
		add_header(headers, "Content-Type", request->content_type);
	}
	if (request->if_match != NULL) {
		add_header(headers, "If-Match", request->if_match);
	}
	if (request->if_none_match) {
		add_header(headers, "If-None-Match", "*");
	}
}

static bool
prepare(CURL *curl, const struct http_request *request, const char *address,
    struct curl_slist *headers, struct incoming *incoming)
{
	bool body = request->body != NULL;
	return curl_easy_setopt(curl, CURLOPT_URL, address) == CURLE_OK &&
	       curl_easy_setopt(curl, CURLOPT_HTTPGET, 1L) == CURLE_OK &&
	       (!body || (curl_easy_setopt(curl, CURLOPT_POSTFIELDSIZE_LARGE,
			      (curl_off_t)request->length) == CURLE_OK &&
			     curl_easy_setopt(curl, CURLOPT_POSTFIELDS, request->body) ==
				 CURLE_OK)) &&
	       curl_easy_setopt(curl, CURLOPT_CUSTOMREQUEST, request->method) ==
		   CURLE_OK &&
	       curl_easy_setopt(curl, CURLOPT_HTTPHEADER, headers) == CURLE_OK &&
	       curl_easy_setopt(curl, CURLOPT_WRITEDATA, incoming) == CURLE_OK &&
	       curl_easy_setopt(curl, CURLOPT_HEADERDATA, incoming) == CURLE_OK;
}

static bool
word_failure(CURLcode code, bool too_long, const char *address, struct fault *fault)
{
	if (too_long) {
		return fault_set(fault, FAULT_FILE,
		    "%.300s: the answer is longer than 32 MiB, the most that is read",
		    address);
	}
	if (code == CURLE_OPERATION_TIMEDOUT) {
		return fault_set(fault, FAULT_FILE,
		    "%.300s: no answer in time; try again, or allow longer", address);
	}
	if (code == CURLE_PEER_FAILED_VERIFICATION) {
		return fault_set(fault, FAULT_FILE,
		    "%.300s: the server's certificate can't be verified, so nothing was "
		    "sent; a server of your own needs its certificate named",
		    address);
	}
	return fault_set(
	    fault, FAULT_FILE, "%.300s: %s", address, curl_easy_strerror(code));
}

/* One request and its answer, no redirect followed. */
static bool
ask_once(struct http *http, const struct http_request *request, const char *address,
    struct http_answer *answer, struct fault *fault)
{
	struct incoming incoming = {.answer = answer};
	SCOPED_HEADERS *headers = NULL;
	answer_reset(answer);
	if (!check_origin(http, address, fault)) {
		return false;
	}
	add_headers(request, &headers);
	if (!prepare(http->curl, request, address, headers, &incoming)) {
		memory_ended();
	}
	CURLcode code = curl_easy_perform(http->curl);
	/* what was borrowed for this request is not used again */
	(void)curl_easy_setopt(http->curl, CURLOPT_HTTPHEADER, NULL);
	(void)curl_easy_setopt(http->curl, CURLOPT_POSTFIELDS, NULL);
	if (code != CURLE_OK) {
		return word_failure(code, incoming.too_long, address, fault);
	}
	long status = 0;
	(void)curl_easy_getinfo(http->curl, CURLINFO_RESPONSE_CODE, &status);
	answer->status = (int)status;
	text_add(&answer->url, address);
	return true;
}

/* The same, once more by digest where the server takes passwords in that form only. */
static bool
ask_signed(struct http *http, const struct http_request *request, const char *address,
    struct http_answer *answer, struct fault *fault)
{
	long offered = 0;
	if (!ask_once(http, request, address, answer, fault)) {
		return false;
	}
	(void)curl_easy_getinfo(http->curl, CURLINFO_HTTPAUTH_AVAIL, &offered);
	bool digest = answer->status == 401 &&
		      ((unsigned long)offered & CURLAUTH_BASIC) == 0 &&
		      ((unsigned long)offered & CURLAUTH_DIGEST) != 0;
	if (digest) {
		(void)curl_easy_setopt(
		    http->curl, CURLOPT_HTTPAUTH, (long)CURLAUTH_DIGEST);
		if (!ask_once(http, request, address, answer, fault)) {
			return false;
		}
	}
	if (answer->status == 401) {
		return fault_set(fault, FAULT_INPUT,
		    "%.300s: the server does not take this user and password (status 401)",
		    address);
	}
	return true;
}

static bool
is_redirect(int status)
{
	return status == 301 || status == 302 || status == 307 || status == 308;
}

bool
http_ask(struct http *http, const struct http_request *request,
    struct http_answer *answer, struct fault *fault)
{
	SCOPED_TEXT address = {0};
	text_add(&address, request->url);
	for (int hop = 0; hop <= MOST_REDIRECTS; hop++) {
		if (!ask_signed(http, request, text_string(&address), answer, fault)) {
			return false;
		}
		if (!is_redirect(answer->status)) {
			return true;
		}
		SCOPED_TEXT next = {0};
		if (!http_resolve(text_string(&address), text_string(&answer->location),
			&next, fault)) {
			return fault_prefix(fault, "where the server sends on to");
		}
		text_reset(&address);
		text_add(&address, text_string(&next));
	}
	return fault_set(fault, FAULT_FILE, "%.300s: sent on more than %d times",
	    request->url, MOST_REDIRECTS);
}
