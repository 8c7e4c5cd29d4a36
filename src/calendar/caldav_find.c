#include "calendar/caldav.h"
#include "calendar/caldav_inside.h"

#include <string.h>

/* What an address turned out to be. */
struct address_looking {
	struct http *http;
	struct arena *arena;
	int status;      /* of the last question */
	const char *url; /* where its answer came from */
	struct dav_answer answer;
};

static bool
look(struct address_looking *looking, const char *url, const char *depth,
    struct fault *fault)
{
	const struct dav_question question = {
	    .method = "PROPFIND", .url = url, .depth = depth, .body = DAV_ASK_PLACE};
	struct dav_reply reply = {0};
	if (!dav_ask(looking->http, &question, looking->arena, &reply, fault)) {
		return false;
	}
	looking->status = reply.status;
	looking->url = reply.url;
	looking->answer = reply.answer;
	return true;
}

static bool
resolve(const struct address_looking *looking, const char *href, const char **out,
    struct fault *fault)
{
	SCOPED_TEXT url = {0};
	if (!http_resolve(looking->url, href, &url, fault)) {
		return fault_prefix(fault, "what the server points to");
	}
	const char *kept = arena_string(looking->arena, text_string(&url));
	*out = kept;
	return true;
}

/* The last part of an address, for a calendar that has no name. */
static void
last_part(const char *url, struct arena *arena, const char **out)
{
	size_t end = strlen(url);
	while (end > 0 && url[end - 1] == '/') {
		end--;
	}
	size_t start = end;
	while (start > 0 && url[start - 1] != '/') {
		start--;
	}
	SCOPED_TEXT part = {0};
	text_add_bytes(&part, url + start, end - start);
	*out = arena_string(arena, text_string(&part));
}

static bool
take_calendar(const struct address_looking *looking, const struct dav_said *said,
    struct caldav_calendar *out, struct fault *fault)
{
	struct caldav_calendar calendar = {
	    .url = "",
	    .name = said->name,
	    .takes_events = said->takes_events || !said->tells_components,
	    .takes_todos = said->takes_todos || !said->tells_components,
	};
	if (!resolve(looking, said->href, &calendar.url, fault)) {
		return false;
	}
	if (calendar.name[0] == '\0') {
		last_part(calendar.url, looking->arena, &calendar.name);
	}
	*out = calendar;
	return true;
}

/* The calendars that the last answer tells of. */
static bool
take_calendars(const struct address_looking *looking, struct caldav_calendars *out,
    struct fault *fault)
{
	size_t total = looking->answer.count;
	struct caldav_calendar *calendars =
	    arena_alloc(looking->arena, (total + 1) * sizeof *calendars);
	size_t count = 0;
	for (size_t i = 0; i < total; i++) {
		const struct dav_said *said = &looking->answer.items[i];
		if (said->status == 200 && said->is_calendar &&
		    !take_calendar(looking, said, &calendars[count++], fault)) {
			return false;
		}
	}
	out->calendars = calendars;
	out->count = count;
	return true;
}

/* Lists the calendars in a home. */
static bool
look_into(struct address_looking *looking, const char *home, struct caldav_calendars *out,
    struct fault *fault)
{
	if (!look(looking, home, "1", fault)) {
		return false;
	}
	if (looking->status != 207) {
		return dav_unexpected(looking->status, home, fault);
	}
	out->home = looking->url;
	return take_calendars(looking, out, fault);
}

/* From the person's own page to the home it names. Leaves `out` alone when it names none. */
static bool
look_from_principal(struct address_looking *looking, const char *principal,
    struct caldav_calendars *out, struct fault *fault)
{
	const char *home = NULL;
	if (!look(looking, principal, "0", fault)) {
		return false;
	}
	if (looking->status != 207 || looking->answer.count == 0 ||
	    looking->answer.items[0].home[0] == '\0') {
		return true;
	}
	return resolve(looking, looking->answer.items[0].home, &home, fault) &&
	       look_into(looking, home, out, fault);
}

/* Follows one address to calendars. `out` keeps `home` NULL when it leads nowhere. */
static bool
follow(struct address_looking *looking, const char *url, struct caldav_calendars *out,
    struct fault *fault)
{
	const char *next = NULL;
	if (!look(looking, url, "0", fault)) {
		return false;
	}
	if (looking->status != 207 || looking->answer.count == 0) {
		return true;
	}
	const struct dav_said said = looking->answer.items[0];
	if (said.is_calendar) {
		out->home = "";
		return take_calendars(looking, out, fault);
	}
	if (said.home[0] != '\0') {
		return resolve(looking, said.home, &next, fault) &&
		       look_into(looking, next, out, fault);
	}
	if (said.principal[0] != '\0' &&
	    !resolve(looking, said.principal, &next, fault)) {
		return false;
	}
	struct caldav_calendars here = {0};
	if (said.is_collection) {
		if (!look_into(looking, looking->url, &here, fault)) {
			return false;
		}
		if (here.count > 0 || next == NULL) {
			*out = here;
			return true;
		}
	}
	return next == NULL || look_from_principal(looking, next, out, fault);
}

bool
caldav_find(struct http *http, const char *url, struct arena *arena,
    struct caldav_calendars *out, struct fault *fault)
{
	struct address_looking looking = {.http = http, .arena = arena};
	struct caldav_calendars place = {0};
	SCOPED_TEXT known = {0};
	if (!follow(&looking, url, &place, fault)) {
		return false;
	}
	int status = looking.status;
	if (place.home == NULL || (place.count == 0 && place.home[0] == '\0')) {
		if (!http_resolve(url, "/.well-known/caldav", &known, fault) ||
		    !follow(&looking, text_string(&known), &place, fault)) {
			return false;
		}
	}
	if (place.home == NULL) {
		return fault_set(fault, FAULT_FILE,
		    "%.300s: no calendar is to be found from there (status %d); expected "
		    "the address of a CalDAV server, of your home on it, or of a calendar",
		    url, status);
	}
	*out = place;
	return true;
}

static bool
takes(const struct caldav_calendar *calendar, bool todos)
{
	return todos ? calendar->takes_todos : calendar->takes_events;
}

static const char *
form_word(bool todos)
{
	return todos ? "to-dos" : "events";
}

/* Adds the names there are, a line each. */
static void
add_names(const struct caldav_calendars *place, bool todos, struct text *out)
{
	for (size_t i = 0; i < place->count; i++) {
		text_add_format(out, "\n  %s", place->calendars[i].name);
		if (!takes(&place->calendars[i], todos)) {
			text_add_format(out, " (takes no %s)", form_word(todos));
		}
	}
	if (place->count == 0) {
		text_add(out, "\n  (none)");
	}
}

bool
caldav_choose(const struct caldav_calendars *place, const char *name, bool todos,
    bool make, const struct caldav_calendar **out, struct fault *fault)
{
	const struct caldav_calendar *chosen = NULL;
	size_t fitting = 0;
	SCOPED_TEXT names = {0};
	bool itself = place->count == 1 && place->home[0] == '\0';
	for (size_t i = 0; i < place->count; i++) {
		const struct caldav_calendar *calendar = &place->calendars[i];
		if (name != NULL ? strcmp(calendar->name, name) == 0
				 : itself || takes(calendar, todos)) {
			chosen = calendar;
			fitting++;
		}
	}
	add_names(place, todos, &names);
	if (fitting == 0 && name != NULL && make) {
		*out = NULL;
		return true;
	}
	if (fitting != 1) {
		return fault_set(fault, FAULT_INPUT,
		    "%s calendar%s%.100s%s on the server that takes %s; expected one, named "
		    "by --calendar, or --create to make it. There are:%s",
		    fitting == 0 ? "no" : "more than one", name == NULL ? "" : " \"",
		    name == NULL ? "" : name, name == NULL ? "" : "\"", form_word(todos),
		    text_string(&names));
	}
	if (!takes(chosen, todos)) {
		return fault_set(fault, FAULT_INPUT,
		    "the calendar \"%.100s\" takes no %s; expected another of:%s",
		    chosen->name, form_word(todos), text_string(&names));
	}
	*out = chosen;
	return true;
}

/* Adds what a name looks like in an address. */
static void
add_slug(const char *name, struct text *out)
{
	size_t start = out->length;
	for (const char *at = name; *at != '\0' && out->length - start < 40; at++) {
		int letter = text_lower(*at);
		bool plain =
		    (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9');
		if (plain) {
			text_add_byte(out, (char)letter);
		} else if (out->length > start && out->bytes[out->length - 1] != '-') {
			text_add_byte(out, '-');
		}
	}
	if (out->length == start) {
		text_add(out, "becket");
	}
}

bool
caldav_make(struct http *http, const struct caldav_calendars *place, const char *name,
    bool todos, struct arena *arena, struct caldav_calendar *out, struct fault *fault)
{
	SCOPED_TEXT url = {0};
	SCOPED_TEXT body = {0};
	struct dav_reply reply = {0};
	size_t length = strlen(place->home);
	if (length == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "the address is a calendar's own; to make another, give the server's "
		    "address or that of your home on it");
	}
	text_add(&url, place->home);
	text_add(&url, place->home[length - 1] == '/' ? "" : "/");
	add_slug(name, &url);
	text_add(&url, "/");
	dav_ask_make(name, todos, &body);
	const struct dav_question question = {
	    .method = "MKCALENDAR", .url = text_string(&url), .body = text_string(&body)};
	if (!dav_ask(http, &question, arena, &reply, fault)) {
		return false;
	}
	if (reply.status != 201 && reply.status != 200) {
		return fault_set(fault, FAULT_INPUT,
		    "the server makes no calendar at %.300s (status %d); make it in your "
		    "calendar app, then name it by --calendar",
		    text_string(&url), reply.status);
	}
	out->url = arena_string(arena, text_string(&url));
	out->name = arena_string(arena, name);
	out->takes_events = !todos;
	out->takes_todos = todos;
	return true;
}
