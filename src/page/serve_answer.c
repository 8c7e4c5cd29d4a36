/* An answer as libmicrohttpd sends it. */
#include "page/serve_inside.h"

#include <stdio.h>
#include <sys/stat.h>

static void
add_header(struct MHD_Response *response, const char *name, const char *value)
{
	if (value[0] != '\0') {
		(void)MHD_add_response_header(response, name, value);
	}
}

/* A page may not be cached or framed, runs only our script and fetches nothing from
 * elsewhere (Content Security Policy level 3). The referrer is sent within the site only:
 * without any, a browser would not tell the origin of a form. */
static void
add_page_headers(struct MHD_Response *response, const char *own_style)
{
	char policy[320];
	(void)snprintf(policy, sizeof policy,
	    "default-src 'none'; style-src 'self' %s; script-src 'self'; img-src 'self'; "
	    "connect-src 'self'; form-action 'self'; base-uri 'none'; "
	    "frame-ancestors 'none'",
	    own_style);
	add_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
	add_header(response, "Content-Security-Policy", policy);
	add_header(response, "X-Frame-Options", "DENY");
	add_header(response, "Cross-Origin-Opener-Policy", "same-origin");
	add_header(response, "Cross-Origin-Resource-Policy", "same-origin");
}

/* The header with the name under which a file is to be saved. */
static void
add_file_name(struct MHD_Response *response, const char *name)
{
	char words[160];
	if (name != NULL) {
		(void)snprintf(words, sizeof words, "attachment; filename=\"%s\"", name);
		add_header(response, MHD_HTTP_HEADER_CONTENT_DISPOSITION, words);
	}
}

/* The response: the file, which the library owns from then on, or the bytes. */
static struct MHD_Response *
body_of(struct web_answer *answer)
{
	struct stat status;
	if (answer->file == 0) {
		return MHD_create_response_from_buffer(
		    answer->body.length, answer->body.bytes, MHD_RESPMEM_MUST_COPY);
	}
	if (fstat(answer->file, &status) != 0) {
		return NULL;
	}
	struct MHD_Response *response =
	    MHD_create_response_from_fd64((uint64_t)status.st_size, answer->file);
	answer->file = response == NULL ? answer->file : 0;
	return response;
}

struct MHD_Response *
response_of(struct web_answer *answer)
{
	struct MHD_Response *response = body_of(answer);
	if (response == NULL) {
		return NULL;
	}
	add_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, answer->content_type);
	add_header(response, MHD_HTTP_HEADER_ETAG, answer->etag);
	add_header(response, MHD_HTTP_HEADER_LAST_MODIFIED, answer->last_modified);
	if (answer->etag[0] != '\0') {
		add_header(response, MHD_HTTP_HEADER_VARY, "Accept-Encoding");
		add_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "private, no-cache");
	}
	if (answer->is_page) {
		add_page_headers(response, answer->own_style);
	}
	add_header(response, MHD_HTTP_HEADER_LOCATION, text_string(&answer->location));
	add_header(
	    response, MHD_HTTP_HEADER_SET_COOKIE, text_string(&answer->set_cookie));
	add_file_name(response, answer->file_name);
	if (answer->gzip && answer->status == MHD_HTTP_OK) {
		add_header(response, MHD_HTTP_HEADER_CONTENT_ENCODING, "gzip");
	}
	if (answer->allow != NULL) {
		add_header(response, MHD_HTTP_HEADER_ALLOW, answer->allow);
	}
	add_header(response, "X-Content-Type-Options", "nosniff");
	add_header(
	    response, "Referrer-Policy", answer->is_page ? "same-origin" : "no-referrer");
	return response;
}
