#include "report/markup.h"

#include "base/memory.h"
#include "report/parts_inside.h"
#include "report/table.h"
#include "report/writer_calls.h"

#include <assert.h>
#include <ctype.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#define NO_BREAK_SPACE "\xc2\xa0"

struct markup {
	xmlBufferPtr buffer;     /* owned; what was written */
	xmlTextWriterPtr writer; /* owned */
	struct text clean;       /* what may be written of a text */
	struct text format;      /* formatted words */
	int depth;               /* open elements */
	int still;        /* the one in which nothing can be filled in; 0 for none */
	int left_out;     /* the one inside it that is left out; 0 for none */
	bool is_void[64]; /* of each open element: HTML gives it no end tag */
};

static const xmlChar *
xml(const char *string)
{
	return (const xmlChar *)string;
}

/* A call of the writer fails only when memory runs out: what it is given is well formed. */
static void
note(int written)
{
	if (written < 0) {
		memory_ended();
	}
}

/* What XML can't carry: controls but tab and line feed, and U+FFFE and U+FFFF. */
static bool
can_be_written(const char *bytes, size_t length)
{
	unsigned char first = (unsigned char)bytes[0];
	if (first < 0x20 || first == 0x7f) {
		return first == '\t' || first == '\n';
	}
	bool control = length == 2 && first == 0xc2 && (unsigned char)bytes[1] < 0xa0;
	bool no_character = length == 3 && (memcmp(bytes, "\xef\xbf\xbe", 3) == 0 ||
					       memcmp(bytes, "\xef\xbf\xbf", 3) == 0);
	return utf8_valid(bytes, length) && !control && !no_character;
}

/* The text without what can't be written; borrowed until the next call. */
static const xmlChar *
cleaned(struct markup *markup, const char *text)
{
	size_t length = strlen(text);
	text_reset(&markup->clean);
	for (size_t at = 0; at < length;) {
		size_t step = utf8_size(text[at]);
		if (text[at] == GLUE) {
			text_add(&markup->clean, NO_BREAK_SPACE);
			at++;
			continue;
		}
		if (step > length - at || !can_be_written(text + at, step)) {
			at++;
			continue;
		}
		text_add_bytes(&markup->clean, text + at, step);
		at += step;
	}
	return xml(text_string(&markup->clean));
}

static bool
is_void_element(const char *name)
{
	static const char *const NAMES[] = {
	    "meta", "link", "br", "hr", "img", "col", "input"};
	return words_have(NAMES, sizeof NAMES / sizeof NAMES[0], name);
}

/* True for what a person fills in or presses, and for what only names such a thing. */
static bool
is_of_a_form(const char *name, const char *class_name)
{
	static const char *const NAMES[] = {
	    "input", "button", "select", "textarea", "fieldset"};
	bool named = class_name != NULL && class_name[0] != '\0';
	return words_have(NAMES, sizeof NAMES / sizeof NAMES[0], name) ||
	       (strcmp(name, "label") == 0 && !named);
}

void
markup_begin_class(struct markup *markup, const char *name, const char *class_name)
{
	assert(
	    (size_t)markup->depth < sizeof markup->is_void / sizeof markup->is_void[0]);
	markup->is_void[markup->depth++] = is_void_element(name);
	bool still = markup->still > 0;
	if (still && markup->left_out == 0 && is_of_a_form(name, class_name)) {
		markup->left_out = markup->depth;
	}
	if (markup->left_out == 0) {
		bool label = still && strcmp(name, "label") == 0;
		note(xmlTextWriterStartElement(
		    markup->writer, xml(label ? "span" : name)));
		markup_attribute(markup, "class", class_name);
	}
}

void
markup_begin(struct markup *markup, const char *name)
{
	markup_begin_class(markup, name, NULL);
}

void
markup_begin_still(struct markup *markup)
{
	markup_begin(markup, "div");
	markup->still = markup->depth;
}

void
markup_end(struct markup *markup)
{
	assert(markup->depth > 0);
	bool left_out = markup->left_out > 0;
	if (markup->left_out == markup->depth) {
		markup->left_out = 0;
	}
	if (markup->still == markup->depth) {
		markup->still = 0;
	}
	bool is_void = markup->is_void[--markup->depth];
	if (left_out) {
		return;
	}
	/* An HTML parser takes <td/> for a tag that is left open. */
	note(is_void ? xmlTextWriterEndElement(markup->writer)
		     : xmlTextWriterFullEndElement(markup->writer));
}

void
markup_ends(struct markup *markup, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		markup_end(markup);
	}
}

size_t
markup_depth(const struct markup *markup)
{
	return (size_t)markup->depth;
}

void
markup_attribute(struct markup *markup, const char *name, const char *value)
{
	if (value != NULL && value[0] != '\0' && markup->left_out == 0) {
		note(xmlTextWriterWriteAttribute(
		    markup->writer, xml(name), cleaned(markup, value)));
	}
}

void
markup_begin_with(struct markup *markup, const char *name, const char *class_name,
    const char *const *attributes)
{
	markup_begin_class(markup, name, class_name);
	for (size_t i = 0; attributes[i] != NULL; i += 2) {
		markup_attribute(markup, attributes[i], attributes[i + 1]);
	}
}

void
markup_text(struct markup *markup, const char *text)
{
	if (markup->left_out == 0) {
		note(xmlTextWriterWriteString(markup->writer, cleaned(markup, text)));
	}
}

static const char *formatted(struct markup *markup, const char *format, va_list arguments)
    FORMAT_LIKE(2, 0);

/* Formats into the markup's own text; borrowed until the next call. */
static const char *
formatted(struct markup *markup, const char *format, va_list arguments)
{
	text_reset(&markup->format);
	text_add_arguments(&markup->format, format, arguments);
	return text_string(&markup->format);
}

void
markup_attribute_format(struct markup *markup, const char *name, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	const char *value = formatted(markup, format, arguments);
	va_end(arguments);
	markup_attribute(markup, name, value);
}

void
markup_text_format(struct markup *markup, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	const char *text = formatted(markup, format, arguments);
	va_end(arguments);
	markup_text(markup, text);
}

void
markup_element(
    struct markup *markup, const char *name, const char *class_name, const char *text)
{
	markup_begin_class(markup, name, class_name);
	markup_text(markup, text);
	markup_end(markup);
}

void
markup_element_format(struct markup *markup, const char *name, const char *class_name,
    const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	const char *text = formatted(markup, format, arguments);
	va_end(arguments);
	markup_element(markup, name, class_name, text);
}

void
markup_table_head(
    struct markup *markup, const char *const *columns, size_t count, size_t figures)
{
	markup_begin(markup, "thead");
	markup_begin(markup, "tr");
	for (size_t i = 0; i < count; i++) {
		markup_begin_class(markup, "th", i + figures < count ? NULL : "num");
		markup_attribute(markup, "scope", "col");
		markup_text(markup, columns[i]);
		markup_end(markup);
	}
	markup_ends(markup, 2);
}

/* The head except its style, left open. */
static void
begin_head(struct markup *markup, const char *title)
{
	note(xmlTextWriterWriteDTD(markup->writer, xml("html"), NULL, NULL, NULL));
	markup_begin(markup, "html");
	markup_attribute(markup, "lang", "en");
	markup_begin(markup, "head");
	markup_begin(markup, "meta");
	markup_attribute(markup, "charset", "utf-8");
	markup_end(markup);
	MARKUP_BEGIN(
	    markup, "meta", NULL, "name", "viewport", "content", "width=device-width");
	markup_end(markup);
	markup_element(markup, "title", NULL, title);
}

static void
end_head(struct markup *markup)
{
	markup_end(markup);
	markup_begin(markup, "body");
}

static struct markup *
new_markup(void)
{
	struct markup *markup = memory_zeroed(1, sizeof *markup);
	markup->buffer = memory_held(xmlBufferCreate());
	markup->writer = memory_held(xmlNewTextWriterMemory(markup->buffer, 0));
	return markup;
}

/* Adds words as the inside of a CSS string: all but plain letters and digits as their code
 * points, so that no character has a meaning in CSS or is escaped as markup. */
static void
add_css_words(const char *words, struct text *out)
{
	for (const char *at = words; *at != '\0';) {
		unsigned char lead = (unsigned char)*at;
		size_t size = utf8_size(*at);
		if (strnlen(at, size) < size || !utf8_valid(at, size)) {
			at++;
			continue;
		}
		bool plain = isalnum(lead) != 0 || lead == ' ' || lead >= 0x80;
		if (*at == GLUE) {
			text_add_byte(out, ' ');
		} else if (plain) {
			text_add_bytes(out, at, size);
		} else if (lead >= ' ') {
			text_add_format(out, "\\%x ", (unsigned)lead);
		}
		at += size;
	}
}

/* What stands at the foot of each printed sheet. */
static void
add_sheet_foot(const char *foot, struct text *style)
{
	text_add(style,
	    "@page { margin: 10mm 10mm 13mm; @bottom-left { font: 8pt DejaVu Sans, Verdana, sans-serif; "
	    "content: '");
	add_css_words(foot, style);
	text_add(style,
	    "'; } @bottom-right { font: 8pt DejaVu Sans, Verdana, sans-serif; "
	    "content: 'page ' counter(page) ' of ' counter(pages); } }\n");
}

void
markup_open(const char *title, const char *foot, struct markup **markup_out)
{
	struct markup *markup = new_markup();
	SCOPED_TEXT style = {0};
	text_add(&style, PAGE_FILES[0].bytes);
	if (foot != NULL) {
		add_sheet_foot(foot, &style);
	}
	begin_head(markup, title);
	markup_element(markup, "style", NULL, text_string(&style));
	end_head(markup);
	*markup_out = markup;
}

void
markup_open_linked(
    const char *title, const struct markup_links *links, struct markup **markup_out)
{
	struct markup *markup = new_markup();
	begin_head(markup, title);
	MARKUP_BEGIN(
	    markup, "meta", NULL, "name", "color-scheme", "content", "light dark");
	markup_end(markup);
	MARKUP_BEGIN(markup, "link", NULL, "rel", "stylesheet", "href", links->style);
	markup_end(markup);
	MARKUP_BEGIN(markup, "link", NULL, "rel", "icon", "href", links->icon);
	markup_end(markup);
	markup_begin(markup, "script");
	markup_attribute(markup, "src", links->script);
	markup_attribute(markup, "defer", "defer");
	markup_end(markup);
	end_head(markup);
	*markup_out = markup;
}

void
markup_take(struct markup *markup, struct text *out)
{
	if (markup->depth > 0) {
		markup_text(markup, ""); /* ends its start tag */
	}
	note(xmlTextWriterFlush(markup->writer));
	text_add_bytes(out, (const char *)xmlBufferContent(markup->buffer),
	    (size_t)xmlBufferLength(markup->buffer));
	xmlBufferEmpty(markup->buffer);
}

void
markup_close(struct markup *markup, struct text *out)
{
	while (markup->depth > 0) {
		markup_end(markup);
	}
	markup_take(markup, out);
	text_add_byte(out, '\n');
	markup_free(markup);
}

void
markup_free(struct markup *markup)
{
	if (markup == NULL) {
		return;
	}
	xmlFreeTextWriter(markup->writer);
	xmlBufferFree(markup->buffer);
	text_clear(&markup->clean);
	text_clear(&markup->format);
	free(markup);
}
