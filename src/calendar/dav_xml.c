#include "base/memory.h"
#include "calendar/caldav_inside.h"
#include "calendar/dom_calls.h"

#include <stdlib.h>
#include <string.h>

static const size_t MOST_BYTES = (size_t)64 * 1024 * 1024;

enum {
	HOW_TO_READ =
	    XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING | XML_PARSE_NOCDATA
};

static const char DAV[] = "DAV:";
static const char CALDAV[] = "urn:ietf:params:xml:ns:caldav";

const char DAV_ASK_PLACE[] =
    "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
    "<D:propfind xmlns:D=\"DAV:\" xmlns:C=\"urn:ietf:params:xml:ns:caldav\"><D:prop>"
    "<D:resourcetype/><D:displayname/><D:current-user-principal/>"
    "<C:calendar-home-set/><C:supported-calendar-component-set/>"
    "</D:prop></D:propfind>\n";

const char DAV_ASK_ETAGS[] =
    "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
    "<D:propfind xmlns:D=\"DAV:\"><D:prop><D:getetag/><D:resourcetype/></D:prop>"
    "</D:propfind>\n";

static void
document_clear(xmlDocPtr *document)
{
	xmlFreeDoc(*document);
}

static void
reader_clear(xmlTextReaderPtr *reader)
{
	xmlFreeTextReader(*reader);
}

static void
words_clear(xmlChar **words)
{
	free(*words); /* libxml2 uses malloc unless it is told otherwise */
}

#define SCOPED_DOCUMENT __attribute__((cleanup(document_clear))) xmlDoc
#define SCOPED_READER __attribute__((cleanup(reader_clear))) xmlTextReader
#define SCOPED_WORDS __attribute__((cleanup(words_clear))) xmlChar

/* True for an element of this name in this namespace. */
static bool
is(const xmlNode *node, const char *space, const char *name)
{
	return node->type == XML_ELEMENT_NODE && node->ns != NULL &&
	       xmlStrEqual(node->ns->href, (const xmlChar *)space) != 0 &&
	       xmlStrEqual(node->name, (const xmlChar *)name) != 0;
}

static const xmlNode *
child(const xmlNode *parent, const char *space, const char *name)
{
	for (const xmlNode *node = parent->children; node != NULL; node = node->next) {
		if (is(node, space, name)) {
			return node;
		}
	}
	return NULL;
}

/* The text in an element, less blanks at its ends, in the arena. */
static const char *
text_in(const xmlNode *node, struct arena *arena)
{
	SCOPED_WORDS *content = xmlNodeGetContent(node);
	if (content == NULL) {
		return "";
	}
	char *start = (char *)content;
	start += strspn(start, " \t\r\n");
	size_t length = strlen(start);
	while (length > 0 && strchr(" \t\r\n", start[length - 1]) != NULL) {
		length--;
	}
	start[length] = '\0';
	return arena_string(arena, start);
}

/* The text of a child, "" when there is none. */
static void
take(const xmlNode *node, struct arena *arena, const char **out)
{
	*out = node == NULL ? "" : text_in(node, arena);
}

/* The number in "HTTP/1.1 200 OK"; 0 for anything else. */
static int
status_number(const char *line)
{
	const char *blank = strchr(line, ' ');
	int status = 0;
	if (strncmp(line, "HTTP/", 5) != 0 || blank == NULL) {
		return 0;
	}
	for (const char *at = blank + 1; *at >= '0' && *at <= '9' && status < 1000;
	     at++) {
		status = status * 10 + (*at - '0');
	}
	return status;
}

/* The status in an element's own status line, or `otherwise` when it has none. */
static void
take_status(const xmlNode *node, struct arena *arena, int otherwise, int *out)
{
	const char *line = NULL;
	const xmlNode *status = child(node, DAV, "status");
	take(status, arena, &line);
	*out = status == NULL ? otherwise : status_number(line);
}

static void
take_components(const xmlNode *set, struct dav_said *said)
{
	said->tells_components = true;
	for (const xmlNode *node = set->children; node != NULL; node = node->next) {
		if (!is(node, CALDAV, "comp")) {
			continue;
		}
		SCOPED_WORDS *name = xmlGetNoNsProp(node, (const xmlChar *)"name");
		said->takes_events |= xmlStrEqual(name, (const xmlChar *)"VEVENT") != 0;
		said->takes_todos |= xmlStrEqual(name, (const xmlChar *)"VTODO") != 0;
	}
}

/* The address within an element such as current-user-principal. */
static void
take_href(const xmlNode *node, struct arena *arena, const char **out)
{
	const xmlNode *href = child(node, DAV, "href");
	if (href != NULL) {
		take(href, arena, out);
	}
}

static void
take_property(const xmlNode *node, struct arena *arena, struct dav_said *said)
{
	if (is(node, DAV, "resourcetype")) {
		said->is_collection |= child(node, DAV, "collection") != NULL;
		said->is_calendar |= child(node, CALDAV, "calendar") != NULL;
	} else if (is(node, CALDAV, "supported-calendar-component-set")) {
		take_components(node, said);
	} else if (is(node, DAV, "displayname")) {
		take(node, arena, &said->name);
		return;
	} else if (is(node, DAV, "getetag")) {
		take(node, arena, &said->etag);
		return;
	} else if (is(node, DAV, "current-user-principal")) {
		take_href(node, arena, &said->principal);
		return;
	} else if (is(node, CALDAV, "calendar-home-set")) {
		take_href(node, arena, &said->home);
		return;
	} else if (is(node, CALDAV, "calendar-data")) {
		take(node, arena, &said->data);
		return;
	}
}

static void
take_properties(const xmlNode *propstat, struct arena *arena, struct dav_said *said)
{
	int status = 0;
	const xmlNode *properties = child(propstat, DAV, "prop");
	take_status(propstat, arena, 200, &status);
	if (status != 200 || properties == NULL) {
		return;
	}
	for (const xmlNode *node = properties->children; node != NULL;
	     node = node->next) {
		take_property(node, arena, said);
	}
}

static void
take_response(const xmlNode *response, struct arena *arena, struct dav_said *said)
{
	*said = (struct dav_said){
	    .name = "", .etag = "", .principal = "", .home = "", .data = ""};
	take(child(response, DAV, "href"), arena, &said->href);
	take_status(response, arena, 200, &said->status);
	for (const xmlNode *node = response->children; node != NULL; node = node->next) {
		if (is(node, DAV, "propstat")) {
			take_properties(node, arena, said);
		}
	}
}

/* Reads an answer's XML; NULL when it is none, or has a document type. */
static xmlDocPtr
parse(const char *bytes, size_t length)
{
	if (length == 0 || length > MOST_BYTES) {
		return NULL;
	}
	xmlDocPtr document = xmlReadMemory(bytes, (int)length, NULL, NULL, HOW_TO_READ);
	if (document != NULL && document->intSubset != NULL) {
		xmlFreeDoc(document);
		return NULL;
	}
	return document;
}

/* What a server sent is not repeated to the user. */
static void
pass_over(void *context, xmlErrorPtr error)
{
	(void)context;
	(void)error;
}

/* Goes on to the next node that stands beside what was read, or to the end of what it is in. */
static const xmlNode *
next_beside(xmlTextReaderPtr reader)
{
	return xmlTextReaderNext(reader) == 1 ? xmlTextReaderCurrentNode(reader) : NULL;
}

/* The root of what is read; NULL when there is none, or a document type. */
static const xmlNode *
read_root(xmlTextReaderPtr reader)
{
	const xmlNode *node = NULL;
	do {
		node = next_beside(reader);
	} while (node != NULL && node->type != XML_ELEMENT_NODE);
	return node == NULL || node->doc->intSubset != NULL ? NULL : node;
}

/* Takes what a multistatus says response after response, so that no more of it than one of them
 * is a tree. False where it is none, or not all of it can be read. */
static bool
take_multistatus(xmlTextReaderPtr reader, struct arena *arena, struct dav_answer *out)
{
	const xmlNode *root = read_root(reader);
	if (root == NULL || !is(root, DAV, "multistatus")) {
		return false;
	}
	int more = xmlTextReaderRead(reader);
	while (more == 1) {
		const xmlNode *node = xmlTextReaderCurrentNode(reader);
		bool within = xmlTextReaderDepth(reader) == 1;
		if (within && is(node, DAV, "response")) {
			struct dav_said said;
			node = xmlTextReaderExpand(reader);
			if (node == NULL) {
				return false;
			}
			take_response(node, arena, &said);
			ARENA_ADD(arena, out, said);
		}
		more = xmlTextReaderNext(reader);
	}
	return more == 0;
}

bool
dav_read(const char *bytes, size_t length, struct arena *arena, struct dav_answer *out,
    struct fault *fault)
{
	struct dav_answer answer = {0};
	SCOPED_READER *reader = NULL;
	if (length > 0 && length <= MOST_BYTES) {
		reader = memory_held(
		    xmlReaderForMemory(bytes, (int)length, NULL, NULL, HOW_TO_READ));
		xmlTextReaderSetStructuredErrorHandler(reader, pass_over, NULL);
	}
	if (reader == NULL || !take_multistatus(reader, arena, &answer)) {
		return fault_set(fault, FAULT_FILE,
		    "the server's answer is no WebDAV multistatus; is there a calendar "
		    "server at that address?");
	}
	*out = answer;
	return true;
}

void
dav_read_condition(const char *bytes, size_t length, struct text *out)
{
	SCOPED_DOCUMENT *document = parse(bytes, length);
	const xmlNode *root = document == NULL ? NULL : xmlDocGetRootElement(document);
	if (root == NULL || !is(root, DAV, "error")) {
		return;
	}
	const xmlNode *node = root->children;
	while (node != NULL && node->type != XML_ELEMENT_NODE) {
		node = node->next;
	}
	if (node != NULL && xmlStrlen(node->name) < 60) {
		text_add(out, (const char *)node->name);
	}
}

/* Adds text with what XML reads as markup escaped. */
static void
add_escaped(const char *string, struct text *out)
{
	SCOPED_WORDS *escaped =
	    memory_held(xmlEncodeSpecialChars(NULL, (const xmlChar *)string));
	text_add(out, (const char *)escaped);
}

void
dav_ask_contents(const char *const *hrefs, size_t count, struct text *out)
{
	text_add(out, "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
		      "<C:calendar-multiget xmlns:D=\"DAV:\" "
		      "xmlns:C=\"urn:ietf:params:xml:ns:caldav\"><D:prop><D:getetag/>"
		      "<C:calendar-data/></D:prop>");
	for (size_t i = 0; i < count; i++) {
		text_add(out, "<D:href>");
		add_escaped(hrefs[i], out);
		text_add(out, "</D:href>");
	}
	text_add(out, "</C:calendar-multiget>\n");
}

void
dav_ask_make(const char *name, bool todos, struct text *out)
{
	text_add(out,
	    "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
	    "<C:mkcalendar xmlns:D=\"DAV:\" xmlns:C=\"urn:ietf:params:xml:ns:caldav\">"
	    "<D:set><D:prop><D:displayname>");
	add_escaped(name, out);
	text_add(out, "</D:displayname><C:supported-calendar-component-set>"
		      "<C:comp name=\"");
	text_add(out, todos ? "VTODO" : "VEVENT");
	text_add(out, "\"/></C:supported-calendar-component-set>"
		      "</D:prop></D:set></C:mkcalendar>\n");
}
