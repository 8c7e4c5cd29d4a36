/* Any bytes as a request to the page: a line with method and address, headers, a blank
 * line, a body, as HTTP has them (RFC 9112 section 2.1, with bare line feeds). The
 * headers are those the server hands on; the cookie and the token of who came in are
 * fixed, so that a seed can hold them: forms are then read, urlencoded or in parts, and
 * do what they say to a book that is as before with each request.
 *
 * The page must answer with a status it has, lead on within the site, and tell and change nothing
 * without the cookie. */
#include "desk/acts.h"
#include "desk/acts_fleet.h"
#include "page/site.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { PORT = 4711, DAY = 20782 /* 25 Nov 2026 */ };

#define COOKIE "cccccccccccccccccccccccccccccccccccccccccc1"
#define TOKEN "tttttttttttttttttttttttttttttttttttttttttt1"
#define BOAT "Fuzzling"

/* The book as it is before each request, and the site that has it. */
struct house {
	struct site site;
	char folder[64];
	char path[96];
	char sheets[96];
	struct text book;
};

static void
make_desk(void *context, struct desk *out)
{
	struct house *house = context;
	*out = (struct desk){.book_path = house->path,
	    .book_named = true,
	    .shelf = {.folder = house->sheets},
	    .signature = {.who = "somebody", .act = "fuzz", .at = 0, .told = true},
	    .today = DAY,
	    .today_given = true,
	    .now = (int64_t)DAY * 86400};
}

static void
entered(void *context)
{
	(void)context;
}

/* Ends the search where what must be is not. */
static void
must(bool holds, const char *what, const char *why)
{
	if (!holds) {
		(void)fprintf(stderr, "%s: %.300s\n", what, why);
		abort();
	}
}

static void
read_book(const struct house *house, struct text *out)
{
	char piece[4096];
	FILE *file = fopen(house->path, "rb");
	must(file != NULL, "opening", house->path);
	for (size_t got = fread(piece, 1, sizeof piece, file); got > 0;
	     got = fread(piece, 1, sizeof piece, file)) {
		text_add_bytes(out, piece, got);
	}
	(void)fclose(file);
}

/* Takes away what SQLite keeps beside a book. */
static void
remove_beside(const struct house *house)
{
	static const char *const ENDINGS[] = {"-wal", "-shm"};
	for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++) {
		char path[128];
		(void)snprintf(path, sizeof path, "%s%s", house->path, ENDINGS[i]);
		(void)unlink(path);
	}
}

static void
write_book(const struct house *house)
{
	remove_beside(house);
	FILE *file = fopen(house->path, "wb");
	must(file != NULL &&
		 fwrite(house->book.bytes, 1, house->book.length, file) ==
		     house->book.length &&
		 fclose(file) == 0,
	    "writing", house->path);
}

/* A boat with two things aboard, one of which can be handed in. */
static void
begin_book(struct house *house)
{
	static const char LIST[] =
	    "tag,kind,made,served,place\nLJ-1,lifejacket-auto,2020-05,2025-05-10,saloon\n"
	    "FL-1,flare-red-hand,2024-02,,grab bag\n";
	const struct vessel_request boat = {
	    .change = {.name = BOAT, .left = DAY_NONE}, .otherwise = OTHERWISE_WRONG};
	const struct station_change station = {.name = "Reed Loft"};
	struct fault fault = {0};
	struct import_outcome out = {0};
	struct desk desk = {0};
	SCOPED_TEXT list = {0};
	text_add(&list, LIST);
	const struct import_request import = {
	    .name = "list.csv", .bytes = &list, .options = {.vessel = BOAT}};
	make_desk(house, &desk);
	desk.mode = BOOK_CREATE;
	must(desk_vessel(&desk, &boat, &fault) && desk_station(&desk, &station, &fault) &&
		 desk_import(&desk, &import, &out, &fault),
	    "beginning the book", fault.text);
	spool_clear(&out.words);
	desk_clear(&desk);
	read_book(house, &house->book);
}

static struct house *the_house;

static void
leave(void)
{
	remove_beside(the_house);
	(void)unlink(the_house->path);
	(void)rmdir(the_house->folder);
	access_end(&the_house->site.access);
	text_clear(&the_house->book);
	free(the_house);
}

static struct house *
house_begun(void)
{
	struct fault fault = {0};
	if (the_house != NULL) {
		return the_house;
	}
	struct house *house = memory_zeroed(1, sizeof *house);
	const char *memory = access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp";
	(void)snprintf(
	    house->folder, sizeof house->folder, "%s/becket-fuzz-XXXXXX", memory);
	must(mkdtemp(house->folder) != NULL, "making", house->folder);
	(void)snprintf(house->path, sizeof house->path, "%s/book.db", house->folder);
	(void)snprintf(house->sheets, sizeof house->sheets, "%s/sheets", house->folder);
	house->site =
	    (struct site){.desk = make_desk, .entered = entered, .context = house};
	must(access_begin(PORT, NULL, NULL, &house->site.access, &fault), "beginning",
	    fault.text);
	(void)strcpy(house->site.access.sessions[0]->cookie, COOKIE);
	(void)strcpy(house->site.access.sessions[0]->form, TOKEN);
	begin_book(house);
	the_house = house;
	(void)atexit(leave);
	return house;
}

/* Cuts the next line off the text; NULL at its end. */
static char *
next_line(char **at)
{
	char *line = *at;
	char *end = line == NULL ? NULL : strchr(line, '\n');
	*at = end == NULL ? NULL : end + 1;
	if (end != NULL) {
		*end = '\0';
	}
	return line;
}

static void
read_header(char *line, struct web_request *request)
{
	const struct {
		const char *name;
		const char **value;
	} HEADERS[] = {
	    {"Host: ", &request->host},
	    {"Origin: ", &request->origin},
	    {"Cookie: ", &request->cookie},
	    {"Content-Type: ", &request->content_type},
	    {"If-None-Match: ", &request->if_none_match},
	};

	for (size_t i = 0; i < sizeof HEADERS / sizeof HEADERS[0]; i++) {
		size_t length = strlen(HEADERS[i].name);
		if (strncasecmp(line, HEADERS[i].name, length) == 0) {
			*HEADERS[i].value = line + length;
		}
	}
}

/* Reads a request whose strings point into `words`, zero-terminated; the body is what is behind the
 * blank line, whatever bytes they are. False where it has no address. */
static bool
read_request(char *words, struct web_request *request, char **body_out)
{
	char *at = words;
	char *line = next_line(&at);
	char *blank = strchr(line, ' ');
	if (blank == NULL || blank[1] != '/') {
		return false;
	}
	*blank = '\0';
	char *query = strchr(blank + 1, '?');
	request->method = line;
	request->path = blank + 1;
	request->query = query == NULL ? "" : query + 1;
	if (query != NULL) {
		*query = '\0';
	}
	for (line = next_line(&at); line != NULL && line[0] != '\0';
	     line = next_line(&at)) {
		read_header(line, request);
	}
	*body_out = at;
	return true;
}

static void
check_answer(const struct house *house, const struct web_answer *answer, bool came_in)
{
	static const int STATUSES[] = {
	    200, 303, 304, 400, 403, 404, 405, 409, 413, 421, 503};
	const char *location = text_string(&answer->location);
	const char *body = text_string(&answer->body);
	bool known = false;
	for (size_t i = 0; i < sizeof STATUSES / sizeof STATUSES[0]; i++) {
		known = known || STATUSES[i] == answer->status;
	}
	must(known, "a status that is none of the page's", body);
	must(location[0] == '\0' || (location[0] == '/' && location[1] != '/' &&
					strpbrk(location, "\r\n") == NULL),
	    "leads elsewhere", location);
	must(strpbrk(text_string(&answer->set_cookie), "\r\n") == NULL,
	    "two headers in one", text_string(&answer->set_cookie));
	if (!came_in) {
		SCOPED_TEXT now = {0};
		read_book(house, &now);
		must(strstr(body, BOAT) == NULL, "told to a stranger", body);
		must(now.length == house->book.length &&
			 memcmp(now.bytes, house->book.bytes, now.length) == 0,
		    "written by a stranger", body);
	}
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct house *house = house_begun();
	struct web_request request = {0};
	struct web_answer answer = {0};
	struct fault fault = {0};
	SCOPED_TEXT body = {0};
	char *behind = NULL;
	char *words = memory_zeroed(size + 1, 1);
	memcpy(words, data, size);
	if (read_request(words, &request, &behind)) {
		if (behind != NULL) {
			text_add_bytes(&body, behind, size - (size_t)(behind - words));
		}
		request.body = &body;
		write_book(house);
		bool came_in =
		    request.cookie != NULL && strstr(request.cookie, COOKIE) != NULL;
		(void)site_answer(&house->site, &request, &answer, &fault);
		check_answer(house, &answer, came_in);
		text_reset(&house->site.access.sessions[0]->said);
		session_put_list_away(house->site.access.sessions[0]);
	}
	web_answer_clear(&answer);
	free(words);
	return 0;
}
