/* Pages for print and screen, written through libxml2's text writer: what is given as text
 * or as a value is always escaped, and raw markup can't be given. Every page is one file of
 * its own: no script, nothing fetched from elsewhere, one house style (page.css).
 *
 * Use: markup_open; then elements, attributes before the text of their element;
 * markup_close. Failures are kept until the close, so that a writer tests once. The
 * markup is read by HTML and by XML parsers alike. Control characters and bytes that are
 * no UTF-8 are left out, except for GLUE (report/table.h), which becomes a no-break
 * space. */
#ifndef BECKET_REPORT_MARKUP_H
#define BECKET_REPORT_MARKUP_H

#include "base/text.h"

struct markup; /* a page being written; end with markup_close or markup_free */

/* Begins a page: the head with its title (borrowed for the call) and the house style, and an
 * open `body`. Paper whose sheets may part has `foot` on each of them, with its number and how many
 * there are, where the browser prints such margins; NULL for none. */
void markup_open(const char *title, const char *foot, struct markup **markup_out);

/* The same for a page that is served: its style, script and icon are fetched from these
 * addresses. */
struct markup_links {
	const char *style;
	const char *script;
	const char *icon;
};

void markup_open_linked(
    const char *title, const struct markup_links *links, struct markup **markup_out);

/* Begins and ends an element. SVG needs no more than `markup_begin(markup, "svg")`. The name
 * is a word of the program's own, never of the data. */
void markup_begin(struct markup *markup, const char *name);
void markup_end(struct markup *markup);

/* Ends that many elements. */
void markup_ends(struct markup *markup, size_t count);

/* How many elements are begun and not ended. */
size_t markup_depth(const struct markup *markup);

/* Begins an element of a class; NULL for none. */
void markup_begin_class(struct markup *markup, const char *name, const char *class_name);

/* The same with attributes: names and values in turn, as for markup_attribute, with NULL
 * at the end. */
void markup_begin_with(struct markup *markup, const char *name, const char *class_name,
    const char *const *attributes);
#define MARKUP_BEGIN(markup, name, class_name, ...)                                      \
	markup_begin_with(                                                               \
	    (markup), (name), (class_name), (const char *const[]){__VA_ARGS__, NULL})

/* Begins a `div` in which nothing can be filled in or pressed, in place of a form: fields, buttons,
 * and the labels that name a field alone (those of no class) are left out with all in them; a label
 * of a class, which names a row, is a `span`. It ends as any element. */
void markup_begin_still(struct markup *markup);

/* An attribute of the element just begun, before any text or element inside it. NULL and ""
 * write nothing. */
void markup_attribute(struct markup *markup, const char *name, const char *value);
void markup_attribute_format(
    struct markup *markup, const char *name, const char *format, ...) FORMAT_LIKE(3, 4);

/* Text inside the open element. */
void markup_text(struct markup *markup, const char *text);
void markup_text_format(struct markup *markup, const char *format, ...) FORMAT_LIKE(2, 3);

/* A whole element: begin, class (NULL for none), text, end. */
void markup_element(
    struct markup *markup, const char *name, const char *class_name, const char *text);
void markup_element_format(struct markup *markup, const char *name,
    const char *class_name, const char *format, ...) FORMAT_LIKE(4, 5);

/* A table's head row with these columns, in a `thead`, so that print repeats it on each
 * page; the last `figures` of them are numbers, class "num". */
void markup_table_head(
    struct markup *markup, const char *const *columns, size_t count, size_t figures);

/* Adds what was written so far to `out`, and holds it no longer. An element that has just been
 * begun gets no more attributes. */
void markup_take(struct markup *markup, struct text *out);

/* Ends all that is open, adds the page, or what was not yet taken of it, to `out` and frees
 * the markup. */
void markup_close(struct markup *markup, struct text *out);

/* Gives up a page. Accepts NULL. */
void markup_free(struct markup *markup);

#endif
