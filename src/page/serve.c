#include "page/serve.h"

#include "base/memory.h"
#include "page/http_calls.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <time.h>

/* Limits on what a client may take up. */
enum {
	CONNECTIONS_OTHERS = 24, /* besides those that one address may have */
	TIMEOUT_SECONDS = 15,
	DEADLINE_SECONDS = 20,
	HEADER_BYTES = 16384,
	STRANGER_BYTES = 16384 /* of a body from somebody who may not send a long one */
};

/* A connection, and when its present request began. */
struct waiting {
	int socket;
	time_t since; /* of a monotonic clock */
};

/* Ends what takes too long. The library's own limit begins anew with every byte. */
struct reaper {
	pthread_t thread;
	pthread_mutex_t lock; /* over all below */
	pthread_cond_t wake;
	bool stop;
	struct waiting *items; /* owned; room for every connection there may be */
	size_t count;
	size_t most;
};

/* What was sent of a request so far. */
struct upload {
	struct text body;
	size_t most; /* bytes that are taken; 0: the body is not kept */
	bool too_long;
};

struct server {
	struct MHD_Daemon *daemon; /* owned */
	size_t most;
	const char *too_much;
	const char *proxy; /* as server_options has it */
	struct web_source source;
	void (*log)(void *context, const char *words);
	void *log_context;
	int port;
	struct reaper reaper;
};

/* An address to listen at, of either family. */
union address {
	struct sockaddr any;
	struct sockaddr_in v4;
	struct sockaddr_in6 v6;
};

static bool
read_address(const char *words, int port, union address *out)
{
	union address address;
	memset(&address, 0, sizeof address);
	if (inet_pton(AF_INET, words, &address.v4.sin_addr) == 1) {
		address.v4.sin_family = AF_INET;
		address.v4.sin_port = htons((uint16_t)port);
	} else if (inet_pton(AF_INET6, words, &address.v6.sin6_addr) == 1) {
		address.v6.sin6_family = AF_INET6;
		address.v6.sin6_port = htons((uint16_t)port);
	} else {
		return false;
	}
	*out = address;
	return true;
}

bool
address_is_loopback(const char *words)
{
	union address address;
	if (!read_address(words, 0, &address)) {
		return false;
	}
	if (address.any.sa_family == AF_INET) {
		return ntohl(address.v4.sin_addr.s_addr) >> 24 == 127;
	}
	return IN6_IS_ADDR_LOOPBACK(&address.v6.sin6_addr) != 0;
}

static void
add_header(struct MHD_Response *response, const char *name, const char *value)
{
	if (value[0] != '\0') {
		(void)MHD_add_response_header(response, name, value);
	}
}

/* A page is kept by nobody, framed by nobody, runs no script but ours and fetches nothing from
 * elsewhere (Content Security Policy level 3). A referrer stays within the site: without any, a
 * browser would not tell the origin of a form. */
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

/* How a file is called that is to be saved. */
static void
add_file_name(struct MHD_Response *response, const char *name)
{
	char words[160];
	if (name != NULL) {
		(void)snprintf(words, sizeof words, "attachment; filename=\"%s\"", name);
		add_header(response, MHD_HTTP_HEADER_CONTENT_DISPOSITION, words);
	}
}

/* What is sent: the file, which is the library's to close from then on, or the bytes. */
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

/* The answer as the library sends it, owning its bytes; NULL when memory ran out. To a HEAD
 * and with a 304 the library sends the length without the body. */
static struct MHD_Response *
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

static time_t
clock_now(void)
{
	struct timespec now = {0};
	(void)clock_gettime(CLOCK_MONOTONIC, &now);
	return now.tv_sec;
}

static const char *
header(struct MHD_Connection *connection, const char *name)
{
	return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

/* Adds a field of the address as it was sent; the library has made blanks of "+". */
static enum MHD_Result
add_query(void *context, enum MHD_ValueKind kind, const char *name, const char *value)
{
	struct text *query = context;
	(void)kind;
	text_add(query, query->length > 0 ? "&" : "");
	text_add(query, name);
	text_add(query, "=");
	text_add(query, value == NULL ? "" : value);
	return MHD_YES;
}

static enum MHD_Result
send_answer(struct MHD_Connection *connection, struct web_answer *answer)
{
	struct MHD_Response *response = response_of(answer);
	enum MHD_Result result = MHD_NO;
	if (response != NULL) {
		result = MHD_queue_response(
		    connection, (unsigned int)answer->status, response);
		MHD_destroy_response(response);
	}
	web_answer_clear(answer);
	return result;
}

/* Writes an address as words: of IPv6 the first half, which is the network of one client, whole where
 * it is compared. */
static void
write_address(const struct sockaddr *address, bool whole, char out[INET6_ADDRSTRLEN])
{
	out[0] = '\0';
	if (address->sa_family == AF_INET) {
		(void)inet_ntop(AF_INET,
		    &((const struct sockaddr_in *)(const void *)address)->sin_addr, out,
		    INET6_ADDRSTRLEN);
	} else if (address->sa_family == AF_INET6) {
		struct in6_addr network =
		    ((const struct sockaddr_in6 *)(const void *)address)->sin6_addr;
		if (!whole) {
			memset(network.s6_addr + 8, 0, 8);
		}
		(void)inet_ntop(AF_INET6, &network, out, INET6_ADDRSTRLEN);
	}
}

_Static_assert((int)ADDRESS_SIZE == (int)INET6_ADDRSTRLEN, "an address fits");

bool
address_usual(const char *words, char out[ADDRESS_SIZE])
{
	union address address;
	if (!read_address(words, 0, &address)) {
		return false;
	}
	write_address(&address.any, true, out);
	return true;
}

/* Takes the last of several headers of a name: the one that the nearest proxy has added. */
static enum MHD_Result
keep_last(void *context, enum MHD_ValueKind kind, const char *name, const char *value)
{
	const char **last = context;
	(void)kind;
	if (strcasecmp(name, "X-Forwarded-For") == 0 && value != NULL) {
		*last = value;
	}
	return MHD_YES;
}

/* The client that the proxy names: the last of its list, the only one that it has seen itself. */
static void
read_forwarded(struct MHD_Connection *connection, char client[INET6_ADDRSTRLEN])
{
	const char *words = NULL;
	union address address;
	char last[INET6_ADDRSTRLEN] = "";
	(void)MHD_get_connection_values(connection, MHD_HEADER_KIND, keep_last, &words);
	const char *comma = words == NULL ? NULL : strrchr(words, ',');
	const char *at = comma == NULL ? words : comma + 1;
	if (at != NULL) {
		at += strspn(at, " \t");
		(void)snprintf(last, sizeof last, "%.*s", (int)strcspn(at, " \t"), at);
	}
	if (read_address(last, 0, &address)) {
		write_address(&address.any, false, client);
	}
}

/* Who asks, and whether by https: what a proxy says of that is believed of the one that was named
 * alone. */
static void
read_client(const struct server *server, struct MHD_Connection *connection,
    struct web_request *request, char client[INET6_ADDRSTRLEN])
{
	const union MHD_ConnectionInfo *info =
	    MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
	client[0] = '\0';
	if (info != NULL && info->client_addr != NULL) {
		char whole[INET6_ADDRSTRLEN];
		write_address(info->client_addr, true, whole);
		write_address(info->client_addr, false, client);
		if (server->proxy != NULL && strcmp(server->proxy, whole) == 0) {
			const char *scheme = header(connection, "X-Forwarded-Proto");
			read_forwarded(connection, client);
			request->https =
			    scheme != NULL && strcasecmp(scheme, "https") == 0;
		}
	}
	request->client = client;
}

/* The headers, and who asks; strings that live as long as the connection and `client`. */
static void
read_headers(const struct server *server, struct MHD_Connection *connection,
    struct web_request *request, char client[INET6_ADDRSTRLEN])
{
	request->host = header(connection, MHD_HTTP_HEADER_HOST);
	request->origin = header(connection, MHD_HTTP_HEADER_ORIGIN);
	request->cookie = header(connection, MHD_HTTP_HEADER_COOKIE);
	request->content_type = header(connection, MHD_HTTP_HEADER_CONTENT_TYPE);
	request->if_none_match = header(connection, MHD_HTTP_HEADER_IF_NONE_MATCH);
	request->if_modified_since =
	    header(connection, MHD_HTTP_HEADER_IF_MODIFIED_SINCE);
	request->accept_encoding = header(connection, MHD_HTTP_HEADER_ACCEPT_ENCODING);
	request->seconds = clock_now();
	read_client(server, connection, request, client);
}

static enum MHD_Result
answer_request(
    struct server *server, struct MHD_Connection *connection, struct web_request *request)
{
	struct web_answer answer = {0};
	struct fault fault = {0};
	SCOPED_TEXT query = {0};
	char client[INET6_ADDRSTRLEN];
	(void)MHD_get_connection_values(
	    connection, MHD_GET_ARGUMENT_KIND, add_query, &query);
	request->query = text_string(&query);
	read_headers(server, connection, request, client);
	if (!server->source.answer(server->source.context, request, &answer, &fault) &&
	    server->log != NULL) {
		server->log(server->log_context, fault.text);
	}
	return send_answer(connection, &answer);
}

/* How long a body may be from whoever sends this. */
static size_t
most_of(const struct server *server, struct MHD_Connection *connection)
{
	struct web_request request = {0};
	char client[INET6_ADDRSTRLEN];
	read_headers(server, connection, &request, client);
	bool may = server->source.may_send == NULL ||
		   server->source.may_send(server->source.context, &request);
	return may || server->most < STRANGER_BYTES ? server->most : STRANGER_BYTES;
}

/* True when more is announced than may be sent: it is refused before it is. */
static bool
announces_too_much(const struct upload *upload, struct MHD_Connection *connection)
{
	const char *length = header(connection, MHD_HTTP_HEADER_CONTENT_LENGTH);
	return upload->most > 0 && length != NULL &&
	       strtoull(length, NULL, 10) > upload->most;
}

static enum MHD_Result
refuse_length(const struct server *server, struct MHD_Connection *connection)
{
	struct web_answer answer = {0};
	web_say(&answer, MHD_HTTP_CONTENT_TOO_LARGE,
	    server->too_much == NULL ? "That is more than may be sent.\n"
				     : server->too_much);
	return send_answer(connection, &answer);
}

/* Keeps what has come of a body, where bodies are kept. */
static void
keep_upload(struct upload *upload, const char *bytes, size_t *size)
{
	bool fits = upload->body.length + *size <= upload->most;
	upload->too_long = upload->too_long || (upload->most > 0 && !fits);
	if (fits && !upload->too_long) {
		text_add_bytes(&upload->body, bytes, *size);
	}
	*size = 0;
}

/* The library asks once before the body of a request, with each piece of it, and once after. */
static enum MHD_Result
handle(void *context, struct MHD_Connection *connection, const char *path,
    const char *method, const char *version, const char *bytes, size_t *size,
    void **connection_context)
{
	struct server *server = context;
	struct upload *upload = *connection_context;
	(void)version;
	if (upload == NULL) {
		upload = memory_zeroed(1, sizeof *upload);
		upload->most = most_of(server, connection);
		*connection_context = upload;
		return announces_too_much(upload, connection)
			   ? refuse_length(server, connection)
			   : MHD_YES;
	}
	if (*size != 0) {
		keep_upload(upload, bytes, size);
		return MHD_YES;
	}
	if (upload->too_long) {
		return refuse_length(server, connection);
	}
	struct web_request request = {
	    .method = method, .path = path, .body = &upload->body};
	return answer_request(server, connection, &request);
}

/* Paths are compared as they are sent: a feed's has nothing to be unescaped. */
static size_t
leave_escaped(void *context, struct MHD_Connection *connection, char *string)
{
	(void)context;
	(void)connection;
	return strlen(string);
}

/* Called by the library when a connection begins, and before its socket is closed. */
static void
note_connection(void *context, struct MHD_Connection *connection, void **unused,
    enum MHD_ConnectionNotificationCode code)
{
	struct reaper *reaper = context;
	const union MHD_ConnectionInfo *info =
	    MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
	(void)unused;
	if (info == NULL) {
		return;
	}
	(void)pthread_mutex_lock(&reaper->lock);
	for (size_t i = 0; i < reaper->count; i++) {
		if (reaper->items[i].socket == info->connect_fd) {
			reaper->items[i] = reaper->items[--reaper->count];
			break;
		}
	}
	if (code == MHD_CONNECTION_NOTIFY_STARTED && reaper->count < reaper->most) {
		reaper->items[reaper->count++] =
		    (struct waiting){info->connect_fd, clock_now()};
	}
	(void)pthread_mutex_unlock(&reaper->lock);
}

/* Called when a request was answered: the next one has its own time. */
static void
note_answered(void *context, struct MHD_Connection *connection, void **upload_at,
    enum MHD_RequestTerminationCode code)
{
	struct upload *upload = *upload_at;
	(void)code;
	if (upload != NULL) {
		text_clear(&upload->body);
		free(upload);
		*upload_at = NULL;
	}
	note_connection(context, connection, upload_at, MHD_CONNECTION_NOTIFY_STARTED);
}

/* Shuts what is late; the library then closes it. A socket that is in the list is still open,
 * for it is taken out under the lock before it is closed. */
static void *
reap(void *context)
{
	struct reaper *reaper = context;
	(void)pthread_mutex_lock(&reaper->lock);
	while (!reaper->stop) {
		struct timespec until = {0};
		time_t now = clock_now();
		for (size_t i = 0; i < reaper->count; i++) {
			if (now - reaper->items[i].since >= DEADLINE_SECONDS) {
				(void)shutdown(reaper->items[i].socket, SHUT_RDWR);
			}
		}
		(void)clock_gettime(CLOCK_MONOTONIC, &until);
		until.tv_sec += 1;
		(void)pthread_cond_timedwait(&reaper->wake, &reaper->lock, &until);
	}
	(void)pthread_mutex_unlock(&reaper->lock);
	return NULL;
}

static bool
reaper_start(struct reaper *reaper, size_t most, struct fault *fault)
{
	pthread_condattr_t monotonic;
	reaper->items = memory_zeroed(most, sizeof *reaper->items);
	reaper->most = most;
	(void)pthread_mutex_init(&reaper->lock, NULL);
	(void)pthread_condattr_init(&monotonic);
	(void)pthread_condattr_setclock(&monotonic, CLOCK_MONOTONIC);
	(void)pthread_cond_init(&reaper->wake, &monotonic);
	(void)pthread_condattr_destroy(&monotonic);
	if (pthread_create(&reaper->thread, NULL, reap, reaper) != 0) {
		free(reaper->items);
		return fault_set(fault, FAULT_FILE, "the machine gives no thread");
	}
	return true;
}

/* After the library has stopped: no connection is left. */
static void
reaper_stop(struct reaper *reaper)
{
	(void)pthread_mutex_lock(&reaper->lock);
	reaper->stop = true;
	(void)pthread_cond_signal(&reaper->wake);
	(void)pthread_mutex_unlock(&reaper->lock);
	(void)pthread_join(reaper->thread, NULL);
	(void)pthread_cond_destroy(&reaper->wake);
	(void)pthread_mutex_destroy(&reaper->lock);
	free(reaper->items);
}

static bool
start_daemon(
    struct server *server, const struct server_options *options, struct fault *fault)
{
	union address address;
	if (!read_address(options->listen, options->port, &address)) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s\" is no address to listen at; expected one as 127.0.0.1 or ::1",
		    options->listen);
	}
	unsigned flags = MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_AUTO;
	flags |= address.any.sa_family == AF_INET6 ? MHD_USE_IPv6 : 0;
	server->daemon = MHD_start_daemon(flags, (uint16_t)options->port, NULL, NULL,
	    handle, server, MHD_OPTION_SOCK_ADDR, &address.any,
	    MHD_OPTION_CONNECTION_LIMIT, (unsigned)(options->each + CONNECTIONS_OTHERS),
	    MHD_OPTION_PER_IP_CONNECTION_LIMIT, (unsigned)options->each,
	    MHD_OPTION_NOTIFY_CONNECTION, note_connection, &server->reaper,
	    MHD_OPTION_NOTIFY_COMPLETED, note_answered, &server->reaper,
	    MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)TIMEOUT_SECONDS,
	    MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)HEADER_BYTES,
	    MHD_OPTION_UNESCAPE_CALLBACK, leave_escaped, NULL, MHD_OPTION_END);
	if (server->daemon == NULL) {
		return fault_set(fault, FAULT_FILE,
		    "can't listen at %.60s, port %d: another program may have it, or the "
		    "address is not this machine's; try --port with another number",
		    options->listen, options->port);
	}
	const union MHD_DaemonInfo *bound =
	    MHD_get_daemon_info(server->daemon, MHD_DAEMON_INFO_BIND_PORT);
	server->port = bound == NULL ? options->port : bound->port;
	return true;
}

bool
server_start(const struct server_options *options, const struct web_source *source,
    struct server **server_out, struct fault *fault)
{
	struct server *server = memory_zeroed(1, sizeof *server);
	server->source = *source;
	server->most = options->most;
	server->too_much = options->too_much;
	server->proxy = options->proxy;
	server->log = options->log;
	server->log_context = options->log_context;
	if (!reaper_start(&server->reaper,
		(size_t)options->each + (size_t)CONNECTIONS_OTHERS, fault)) {
		free(server);
		return false;
	}
	if (!start_daemon(server, options, fault)) {
		reaper_stop(&server->reaper);
		free(server);
		return false;
	}
	*server_out = server;
	return true;
}

int
server_port(const struct server *server)
{
	return server->port;
}

void
server_stop(struct server *server)
{
	if (server != NULL) {
		MHD_stop_daemon(server->daemon);
		reaper_stop(&server->reaper);
		free(server);
	}
}
