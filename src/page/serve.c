#include "page/serve.h"

#include "base/memory.h"
#include "page/serve_inside.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/socket.h>

/* Limits on what a client may use. */
enum {
	CONNECTIONS_OTHERS = 24, /* besides those that one address may have */
	TIMEOUT_SECONDS = 15,
	HEADER_BYTES = 16384,
	STRANGER_BYTES = 16384 /* of a body from somebody who may not send a long one */
};

struct server {
	struct MHD_Daemon *daemon; /* owned */
	size_t most;
	const char *too_much;
	const char *proxy; /* as in server_options */
	struct web_source source;
	void (*log)(void *context, const char *words);
	void *log_context;
	int port;
	struct reaper reaper;
};

/* A socket address to listen at, IPv4 or IPv6. */
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

static const char *
header(struct MHD_Connection *connection, const char *name)
{
	return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

/* Adds a field of the address as it was sent; the library has turned "+" into blanks. */
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

/* Writes an address as text. IPv6: only the first half, which is the network of one
 * client; the whole address when it is for a comparison. */
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

/* Takes the last of several headers with the same name: the one that the nearest proxy
 * has added. */
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

/* The client that the proxy names: the last in its list, the only one that the proxy has
 * seen itself. */
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

/* Finds who asks, and whether by https. What a proxy says of that is believed only of the
 * proxy that was configured. */
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

/* Reads the headers and who asks; the strings live as long as the connection and
 * `client`. */
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
	request->seconds = monotonic_now();
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

/* The greatest length of a body that this sender may send. */
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

/* True when the announced length is more than may be sent: the request is then refused
 * before its body comes. */
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

/* Keeps a piece of a body, if bodies are kept. */
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

/* Called by the library once before the body of a request, once for each piece of it, and
 * once after. */
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

/* Paths are compared as they are sent: a feed's path has nothing to unescape. */
static size_t
leave_escaped(void *context, struct MHD_Connection *connection, char *string)
{
	(void)context;
	(void)connection;
	return strlen(string);
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
	    MHD_OPTION_NOTIFY_CONNECTION, reaper_note, &server->reaper,
	    MHD_OPTION_NOTIFY_COMPLETED, reaper_note_answered, &server->reaper,
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
