#include "web/serve.h"

#include <arpa/inet.h>
#include <microhttpd.h>
#include <netinet/in.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>

/* Limits on what a client may take up. A feed's request has no body. */
enum {
	CONNECTIONS = 32,
	CONNECTIONS_EACH = 8,
	TIMEOUT_SECONDS = 15,
	HEADER_BYTES = 16384
};

struct server {
	struct MHD_Daemon *daemon; /* owned */
	struct feed_source source;
	void (*log)(void *context, const char *words);
	void *log_context;
	int port;
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

/* The answer as the library sends it, owning its bytes; NULL when memory ran out. To a HEAD
 * and with a 304 the library sends the length without the body. */
static struct MHD_Response *
response_of(const struct web_answer *answer)
{
	struct MHD_Response *response = MHD_create_response_from_buffer(
	    answer->body.length, answer->body.bytes, MHD_RESPMEM_MUST_COPY);
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
	if (answer->gzip && answer->status == MHD_HTTP_OK) {
		add_header(response, MHD_HTTP_HEADER_CONTENT_ENCODING, "gzip");
	}
	if (answer->only_get) {
		add_header(response, MHD_HTTP_HEADER_ALLOW, "GET, HEAD");
	}
	add_header(response, "X-Content-Type-Options", "nosniff");
	add_header(response, "Referrer-Policy", "no-referrer");
	return response;
}

static enum MHD_Result
handle(void *context, struct MHD_Connection *connection, const char *path,
    const char *method, const char *version, const char *upload, size_t *upload_size,
    void **connection_context)
{
	struct server *server = context;
	(void)version;
	(void)upload;
	if (*connection_context == NULL) {
		/* The library asks once before the body of a request and once after it. */
		*connection_context = server;
		return MHD_YES;
	}
	if (*upload_size != 0) {
		*upload_size = 0; /* no request of ours has a body: not kept */
		return MHD_YES;
	}
	struct web_request request = {.method = method,
	    .path = path,
	    .if_none_match = MHD_lookup_connection_value(
		connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_IF_NONE_MATCH),
	    .if_modified_since = MHD_lookup_connection_value(
		connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_IF_MODIFIED_SINCE),
	    .accept_encoding = MHD_lookup_connection_value(
		connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_ACCEPT_ENCODING)};
	struct web_answer answer = {0};
	struct fault fault = {0};
	if (!web_answer_make(&request, &server->source, &answer, &fault) &&
	    server->log != NULL) {
		server->log(server->log_context, fault.text);
	}
	struct MHD_Response *response = response_of(&answer);
	enum MHD_Result result = MHD_NO;
	if (response != NULL) {
		result =
		    MHD_queue_response(connection, (unsigned int)answer.status, response);
		MHD_destroy_response(response);
	}
	web_answer_clear(&answer);
	return result;
}

/* Paths are compared as they are sent: a feed's has nothing to be unescaped. */
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
	    MHD_OPTION_CONNECTION_LIMIT, (unsigned)CONNECTIONS,
	    MHD_OPTION_PER_IP_CONNECTION_LIMIT, (unsigned)CONNECTIONS_EACH,
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
server_start(const struct server_options *options, const struct feed_source *source,
    struct server **server_out, struct fault *fault)
{
	struct server *server = calloc(1, sizeof *server);
	if (server == NULL) {
		return fault_memory(fault);
	}
	server->source = *source;
	server->log = options->log;
	server->log_context = options->log_context;
	if (!start_daemon(server, options, fault)) {
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
		free(server);
	}
}
