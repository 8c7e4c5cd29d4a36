/* The way in, the first page, and the files that the pages fetch. */
#include "page/shell.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

bool
page_first(struct visit *visit, struct fault *fault)
{
	(void)fault;
	page_go(visit, visit->session->list_name != NULL ? "/list" : "/winter");
	return true;
}

bool
page_enter(struct visit *visit, struct fault *fault)
{
	struct access *access = &visit->site->access;
	(void)fault;
	if (visit->session != NULL) {
		page_go(visit, "/"); /* this browser has come in already */
		return true;
	}
	if (!access_opens(access, visit->rest)) {
		shell_words(visit, 403, "The book is closed to this window",
		    "The address is of an earlier time. Open the book again from the menu, or "
		    "with \"becket page\".");
		return true;
	}
	visit->site->entered(visit->site->context);
	access_set_cookie(access, access->sessions[0], &visit->answer->set_cookie);
	page_go(visit, "/");
	return true;
}

/* A digest of the file, for its ETag. */
static void
digest(const struct embedded_file *file, char out[33])
{
	unsigned char bytes[16];
	(void)crypto_generichash(bytes, sizeof bytes, (const unsigned char *)file->bytes,
	    file->length, NULL, 0);
	(void)sodium_bin2hex(out, 33, bytes, sizeof bytes);
}

static const char *
type_of(const char *name)
{
	const char *end = strrchr(name, '.');
	return strcmp(end, ".css") == 0   ? "text/css; charset=utf-8"
	       : strcmp(end, ".svg") == 0 ? "image/svg+xml"
					  : "text/javascript; charset=utf-8";
}

bool
page_asset(struct visit *visit, struct fault *fault)
{
	struct web_answer *answer = visit->answer;
	(void)fault;
	for (size_t i = 0; i < PAGE_ASSETS_COUNT; i++) {
		const struct embedded_file *file = &PAGE_ASSETS[i];
		char etag[33];
		if (strcmp(file->name, visit->rest) != 0) {
			continue;
		}
		digest(file, etag);
		(void)snprintf(answer->etag, sizeof answer->etag, "\"%s\"", etag);
		const char *has = visit->request->if_none_match;
		answer->status = has != NULL && web_has_etag(has, etag) ? 304 : 200;
		answer->content_type = type_of(file->name);
		text_add_bytes(&answer->body, file->bytes, file->length);
		return true;
	}
	shell_words(visit, 404, "There is no such page", "The address leads nowhere.");
	return true;
}
