/* Addresses on the web: checked, compared, resolved and escaped; nothing is sent. */
#include "base/memory.h"
#include "calendar/curl_calls.h"
#include "calendar/http.h"

#include <arpa/inet.h>
#include <string.h>
#include <strings.h>

static void
url_clear(CURLU **url)
{
	curl_url_cleanup(*url);
}

static void
part_clear(char **part)
{
	curl_free(*part);
}

#define SCOPED_URL __attribute__((cleanup(url_clear))) CURLU
#define SCOPED_PART __attribute__((cleanup(part_clear))) char

bool
http_origin(const char *address, struct text *out, struct fault *fault)
{
	SCOPED_URL *url = memory_held(curl_url());
	SCOPED_PART *scheme = NULL;
	SCOPED_PART *host = NULL;
	SCOPED_PART *port = NULL;
	if (curl_url_set(url, CURLUPART_URL, address, 0) != CURLUE_OK ||
	    curl_url_get(url, CURLUPART_SCHEME, &scheme, 0) != CURLUE_OK ||
	    curl_url_get(url, CURLUPART_HOST, &host, 0) != CURLUE_OK ||
	    curl_url_get(url, CURLUPART_PORT, &port, CURLU_DEFAULT_PORT) != CURLUE_OK) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.200s\" is no address; expected one such as "
		    "https://calendar.example/",
		    address);
	}
	text_add_format(out, "%s://", scheme);
	for (const char *at = host; *at != '\0'; at++) {
		text_add_byte(out, (char)text_lower(*at));
	}
	text_add_format(out, ":%s", port);
	return true;
}

/* True for this machine itself: by its usual name, or by a number of the loopback net. */
static bool
is_loopback(const char *host)
{
	struct in_addr number = {0};
	if (inet_pton(AF_INET, host, &number) == 1) {
		return ntohl(number.s_addr) >> 24 == 127;
	}
	return strcasecmp(host, "localhost") == 0 || strcmp(host, "[::1]") == 0;
}

static bool
has_part(CURLU *url, CURLUPart which)
{
	SCOPED_PART *part = NULL;
	return curl_url_get(url, which, &part, 0) == CURLUE_OK && part != NULL;
}

bool
http_check(const struct http_settings *settings, struct fault *fault)
{
	SCOPED_URL *url = memory_held(curl_url());
	SCOPED_PART *scheme = NULL;
	SCOPED_PART *host = NULL;
	if (curl_url_set(url, CURLUPART_URL, settings->url, 0) != CURLUE_OK ||
	    curl_url_get(url, CURLUPART_SCHEME, &scheme, 0) != CURLUE_OK ||
	    curl_url_get(url, CURLUPART_HOST, &host, 0) != CURLUE_OK) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.200s\" is no address; expected one such as "
		    "https://calendar.example/",
		    settings->url);
	}
	if (has_part(url, CURLUPART_USER) || has_part(url, CURLUPART_PASSWORD)) {
		return fault_set(fault, FAULT_INPUT,
		    "the address has a user or a password in it, where others can read "
		    "it; give the user apart, and the password by a file, the environment "
		    "or when asked");
	}
	if (has_part(url, CURLUPART_QUERY) || has_part(url, CURLUPART_FRAGMENT)) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.200s\" has a \"?\" or \"#\"; the address of a calendar has none",
		    settings->url);
	}
	bool plain = strcmp(scheme, "http") == 0;
	if (!plain && strcmp(scheme, "https") != 0) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.200s\" is neither https nor http", settings->url);
	}
	if (plain && !settings->allow_plain && !is_loopback(host)) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.200s\" is not encrypted: anyone on the way could read the "
		    "password; expected https",
		    settings->url);
	}
	return true;
}

/* Spells the path in one way: what the server escaped and what it didn't look the same. A
 * path with an escaped slash is left alone, for there the two mean different things. */
static CURLUcode
spell_path(CURLU *url)
{
	SCOPED_PART *written = NULL;
	SCOPED_PART *plain = NULL;
	CURLUcode code = curl_url_get(url, CURLUPART_PATH, &written, 0);
	if (code != CURLUE_OK || strstr(written, "%2F") != NULL ||
	    strstr(written, "%2f") != NULL) {
		return code;
	}
	code = curl_url_get(url, CURLUPART_PATH, &plain, CURLU_URLDECODE);
	return code != CURLUE_OK
		   ? code
		   : curl_url_set(url, CURLUPART_PATH, plain, CURLU_URLENCODE);
}

bool
http_resolve(
    const char *base, const char *reference, struct text *out, struct fault *fault)
{
	SCOPED_URL *url = memory_held(curl_url());
	SCOPED_PART *address = NULL;
	if (reference[0] == '\0' ||
	    curl_url_set(url, CURLUPART_URL, base, 0) != CURLUE_OK ||
	    curl_url_set(url, CURLUPART_URL, reference, 0) != CURLUE_OK ||
	    spell_path(url) != CURLUE_OK ||
	    curl_url_get(url, CURLUPART_URL, &address, 0) != CURLUE_OK) {
		return fault_set(
		    fault, FAULT_INPUT, "\"%.200s\" is no address", reference);
	}
	text_add(out, address);
	return true;
}

void
http_escape(const char *part, struct text *out)
{
	for (const char *at = part; *at != '\0'; at++) {
		unsigned char byte = (unsigned char)*at;
		bool plain = (byte >= 'a' && byte <= 'z') ||
			     (byte >= 'A' && byte <= 'Z') ||
			     (byte >= '0' && byte <= '9') || strchr("-._~", byte) != NULL;
		text_add_format(out, plain ? "%c" : "%%%02X", byte);
	}
}
