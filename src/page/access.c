#include "page/access.h"

#include "base/fold.h"
#include "base/numbers.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { SECRET_BYTES = 32, NAME_TRIES = 5, CLIENT_TRIES = 20 };

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

void
session_put_list_away(struct session *session)
{
	text_clear(&session->list);
	free(session->list_name);
	session->list_name = NULL;
}

void
session_hold_list(
    struct session *session, const char *name, const char *bytes, size_t length)
{
	session_put_list_away(session);
	session->list_name = memory_string(name);
	text_add_bytes(&session->list, bytes, length);
}

static void
session_free(struct session *session)
{
	session_put_list_away(session);
	text_clear(&session->copy);
	text_clear(&session->said);
	free(session->who);
	free(session->digest);
	sodium_memzero(session, sizeof *session);
	free(session);
}

void
access_log_out(struct access *access, struct session *session)
{
	for (size_t i = 0; i < access->session_count; i++) {
		if (access->sessions[i] == session) {
			access->sessions[i] = access->sessions[--access->session_count];
			session_free(session);
			return;
		}
	}
}

/* Makes room for one more: the one that was idle longest ends. */
static void
make_room(struct access *access)
{
	struct session *idle = NULL;
	for (size_t i = 0; i < access->session_count; i++) {
		struct session *session = access->sessions[i];
		idle = idle == NULL || session->seen < idle->seen ? session : idle;
	}
	if (access->session_count == SESSIONS_MOST) {
		access_log_out(access, idle);
	}
}

/* Begins the session of a person, or of the one person where it is NULL. */
static struct session *
begin_session(struct access *access, const struct person *person, int64_t now)
{
	struct session *session = memory_zeroed(1, sizeof *session);
	draw(session->cookie);
	draw(session->form);
	session->who = person == NULL ? NULL : memory_string(person->name);
	session->digest = person == NULL ? NULL : memory_string(person->digest);
	session->begun = now;
	session->seen = now;
	make_room(access);
	access->sessions[access->session_count++] = session;
	return session;
}

bool
access_begin(
    int port, const char *at, const char *people, struct access *out, struct fault *fault)
{
	if (sodium_init() < 0) {
		return fault_set(fault, FAULT_FILE, "the machine gives no random bytes");
	}
	draw(out->key);
	draw(out->form);
	out->port = port;
	out->at = at;
	out->people = people;
	login_tries_begin(NAME_TRIES, &out->names);
	login_tries_begin(CLIENT_TRIES, &out->clients);
	if (people == NULL) {
		(void)begin_session(out, NULL, 0);
	}
	return true;
}

void
access_end(struct access *access)
{
	while (access->session_count > 0) {
		access_log_out(access, access->sessions[0]);
	}
}

/* Compares two secrets in constant time. */
static bool
is_secret(const char *secret, const char *given, size_t length)
{
	return length == strlen(secret) && sodium_memcmp(secret, given, length) == 0;
}

static bool
is_by_https(const struct access *access)
{
	return access->at != NULL && strncmp(access->at, "https://", 8) == 0;
}

bool
access_host_is_right(const struct access *access, const struct web_request *request)
{
	static const char *const NAMES[] = {"127.0.0.1", "localhost", "[::1]"};
	if (request->host == NULL) {
		return false;
	}
	if (access->at != NULL) {
		return strcasecmp(strstr(access->at, "//") + 2, request->host) == 0 &&
		       (!is_by_https(access) || request->https);
	}
	for (size_t i = 0; i < sizeof NAMES / sizeof NAMES[0]; i++) {
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
	if (access->at != NULL) {
		return strcasecmp(access->at, request->origin) == 0;
	}
	(void)snprintf(origin, sizeof origin, "http://%s", request->host);
	return strcmp(origin, request->origin) == 0;
}

bool
access_opens(struct access *access, const char *key)
{
	bool opens = access->people == NULL && is_secret(access->key, key, strlen(key));
	if (opens) {
		draw(access->key);
	}
	return opens;
}

bool
access_form_is_right(
    const struct access *access, const struct session *session, const char *token)
{
	return token != NULL && is_secret(session == NULL ? access->form : session->form,
				    token, strlen(token));
}

/* A name with this prefix is taken by a browser by https and for the whole site alone (RFC 6265bis
 * section 4.1.3, from memory). */
static void
cookie_name(const struct access *access, char name[32])
{
	if (is_by_https(access)) {
		(void)snprintf(name, 32, "__Host-becket");
	} else {
		(void)snprintf(name, 32, "becket-%d", access->port);
	}
}

/* The session whose cookie this is; NULL for none. */
static struct session *
find_session(const struct access *access, const char *cookie, size_t length)
{
	for (size_t i = 0; i < access->session_count; i++) {
		if (is_secret(access->sessions[i]->cookie, cookie, length)) {
			return access->sessions[i];
		}
	}
	return NULL;
}

/* The session of a request, by the first cookie that is one's. */
static struct session *
session_of(const struct access *access, const struct web_request *request)
{
	char name[32];
	cookie_name(access, name);
	size_t length = strlen(name);
	/* "name=value; name=value" (RFC 6265 section 4.2.1) */
	for (const char *at = request->cookie; at != NULL && *at != '\0';) {
		size_t size = strcspn(at, ";");
		if (size > length && strncmp(at, name, length) == 0 &&
		    at[length] == '=') {
			struct session *session =
			    find_session(access, at + length + 1, size - length - 1);
			if (session != NULL) {
				return session;
			}
		}
		at += size;
		at += strspn(at, "; ");
	}
	return NULL;
}

bool
access_may_send(const struct access *access, const struct web_request *request)
{
	return session_of(access, request) != NULL;
}

static bool
is_too_old(const struct session *session, int64_t now)
{
	return now - session->seen > SESSION_IDLE_SECONDS ||
	       now - session->begun > SESSION_WHOLE_SECONDS;
}

bool
access_session(struct access *access, const struct web_request *request,
    struct session **out, enum right *right_out, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct people people = {0};
	struct session *session = session_of(access, request);
	*out = NULL;
	*right_out = RIGHT_NONE;
	if (session == NULL || access->people == NULL) {
		*out = session;
		*right_out = session == NULL ? RIGHT_NONE : RIGHT_MANAGE;
		return true;
	}
	if (!people_read(access->people, &arena, &people, fault)) {
		return false;
	}
	const struct person *person = people_find(&people, session->who);
	if (person == NULL || strcmp(person->digest, session->digest) != 0 ||
	    is_too_old(session, request->seconds)) {
		access_log_out(access, session);
		return true;
	}
	session->seen = request->seconds;
	*out = session;
	*right_out = person->right;
	return true;
}

static const char *
client_of(const struct web_request *request)
{
	return request->client == NULL ? "" : request->client;
}

static int64_t
wait_of(const struct access *access, const char *name, const struct web_request *request)
{
	int64_t by_name = login_tries_wait(&access->names, name, request->seconds);
	int64_t by_client =
	    login_tries_wait(&access->clients, client_of(request), request->seconds);
	return GREATER(by_name, by_client);
}

bool
access_knows(struct access *access, const struct web_request *request, const char *name,
    const char *password, bool *knows_out, int64_t *wait_out, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT folded = {0};
	struct people people = {0};
	*knows_out = false;
	fold_case(name, &folded);
	*wait_out = wait_of(access, text_string(&folded), request);
	if (*wait_out > 0) {
		return true;
	}
	if (!people_read(access->people, &arena, &people, fault)) {
		return false;
	}
	*knows_out = person_has_password(people_find(&people, name), password);
	if (*knows_out) {
		/* the client's count stays: else somebody could log in between guesses at
		 * the passwords of other people */
		login_tries_forget(&access->names, text_string(&folded));
	} else {
		login_tries_note(&access->names, text_string(&folded), request->seconds);
		login_tries_note(&access->clients, client_of(request), request->seconds);
	}
	return true;
}

bool
access_log_in(struct access *access, const struct web_request *request, const char *name,
    struct session **out, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct people people = {0};
	*out = NULL;
	if (!people_read(access->people, &arena, &people, fault)) {
		return false;
	}
	const struct person *person = people_find(&people, name);
	if (person != NULL) {
		*out = begin_session(access, person, request->seconds);
	}
	return true;
}

void
access_set_cookie(
    const struct access *access, const struct session *session, struct text *out)
{
	char name[32];
	cookie_name(access, name);
	text_add_format(out, "%s=%s; Path=/; HttpOnly; SameSite=Strict%s%s", name,
	    session == NULL ? "" : session->cookie, is_by_https(access) ? "; Secure" : "",
	    session == NULL ? "; Max-Age=0" : "");
}
