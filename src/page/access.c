#include "page/access.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

enum { SECRET_BYTES = 32 };

_Static_assert(sodium_base64_ENCODED_LEN(SECRET_BYTES,
		   sodium_base64_VARIANT_URLSAFE_NO_PADDING) == ACCESS_SECRET_SIZE,
    "a secret fills its place");

static void
draw(char secret[ACCESS_SECRET_SIZE])
{
	unsigned char bytes[SECRET_BYTES];
	randombytes_buf(bytes, sizeof bytes);
	(void)sodium_bin2base64(secret, ACCESS_SECRET_SIZE, bytes, sizeof bytes,
	    sodium_base64_VARIANT_URLSAFE_NO_PADDING);
}

bool
access_begin(int port, struct access *out, struct fault *fault)
{
	if (sodium_init() < 0) {
		return fault_set(fault, FAULT_FILE, "the machine gives no random bytes");
	}
	draw(out->key);
	draw(out->cookie);
	draw(out->form);
	out->port = port;
	return true;
}

/* The same in the same time, whatever is alike. */
static bool
is_secret(const char *secret, const char *given, size_t length)
{
	return length == strlen(secret) && sodium_memcmp(secret, given, length) == 0;
}

bool
access_host_is_right(const struct access *access, const struct web_request *request)
{
	static const char *const NAMES[] = {"127.0.0.1", "localhost", "[::1]"};
	for (size_t i = 0; request->host != NULL && i < sizeof NAMES / sizeof NAMES[0];
	     i++) {
		char host[64];
		(void)snprintf(host, sizeof host, "%s:%d", NAMES[i], access->port);
		if (strcmp(host, request->host) == 0) {
			return true;
		}
	}
	return false;
}

bool
access_origin_is_right(const struct access *access, const struct web_request *request)
{
	char origin[80];
	if (!access_host_is_right(access, request) || request->origin == NULL) {
		return false;
	}
	(void)snprintf(origin, sizeof origin, "http://%s", request->host);
	return strcmp(origin, request->origin) == 0;
}

bool
access_opens(struct access *access, const char *key)
{
	bool opens = is_secret(access->key, key, strlen(key));
	if (opens) {
		draw(access->key);
	}
	return opens;
}

bool
access_form_is_right(const struct access *access, const char *token)
{
	return token != NULL && is_secret(access->form, token, strlen(token));
}

static void
cookie_name(const struct access *access, char name[32])
{
	(void)snprintf(name, 32, "becket-%d", access->port);
}

enum right
access_right(const struct access *access, const struct web_request *request)
{
	char name[32];
	cookie_name(access, name);
	size_t length = strlen(name);
	/* "name=value; name=value" (RFC 6265 section 4.2.1) */
	for (const char *at = request->cookie; at != NULL && *at != '\0';) {
		size_t size = strcspn(at, ";");
		if (size > length && strncmp(at, name, length) == 0 &&
		    at[length] == '=' &&
		    is_secret(access->cookie, at + length + 1, size - length - 1)) {
			return RIGHT_MANAGE;
		}
		at += size;
		at += strspn(at, "; ");
	}
	return RIGHT_NONE;
}

void
access_set_cookie(const struct access *access, struct text *out)
{
	char name[32];
	cookie_name(access, name);
	text_add_format(
	    out, "%s=%s; Path=/; HttpOnly; SameSite=Strict", name, access->cookie);
}
