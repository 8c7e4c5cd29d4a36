#include "page/shell.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* The first segment of a path: "/winter" of "/winter/2026". */
static size_t
first_segment(const char *path)
{
	return path[0] == '\0' ? 0 : 1 + strcspn(path + 1, "/");
}

static bool
is_here(const struct visit *visit, const struct route *route)
{
	size_t length = first_segment(visit->request->path);
	return length == strlen(route->path) &&
	       strncmp(visit->request->path, route->path, length) == 0;
}

/* The pages of the index that the reader may open; none for who has not come in, and none
 * before there is a book, when each would lead back to the page that begins one. */
static void
thumb_index(struct visit *visit)
{
	struct markup *markup = visit->markup;
	if (visit->right == RIGHT_NONE || !desk_has_book(&visit->desk)) {
		return;
	}
	MARKUP_BEGIN(markup, "nav", "thumb", "aria-label", "Pages of the book");
	markup_begin(markup, "ul");
	for (size_t i = 0; i < visit->route_count; i++) {
		if (visit->routes[i].index == NULL ||
		    visit->routes[i].right > visit->right) {
			continue;
		}
		markup_begin(markup, "li");
		MARKUP_BEGIN(markup, "a", NULL, "href", visit->routes[i].path);
		if (is_here(visit, &visit->routes[i])) {
			markup_attribute(markup, "aria-current", "page");
		}
		markup_text(markup, visit->routes[i].index);
		markup_ends(markup, 2);
	}
	markup_ends(markup, 2);
}

static void
head_box(struct markup *markup, const char *word, const char *entry)
{
	markup_begin(markup, "div");
	markup_element(markup, "dt", NULL, word);
	markup_element(markup, "dd", NULL, entry);
	markup_end(markup);
}

static void
leaf_head(struct visit *visit, const struct shell *shell)
{
	struct markup *markup = visit->markup;
	char day[DAY_WORDS_SIZE];
	char seen[DAY_WORDS_SIZE + 8];
	day_t today = visit->desk.today;
	(void)snprintf(seen, sizeof seen, "%.3s %s", weekday_name(day_of_week(today)),
	    day_words(today, day));
	markup_begin(markup, "header");
	markup_begin_class(markup, "dl", "leafhead");
	for (size_t i = 0; i < shell->box_count; i++) {
		head_box(markup, shell->boxes[i].word, shell->boxes[i].entry);
	}
	head_box(markup, "Seen on", seen);
	if (visit->session != NULL && visit->session->who != NULL) {
		head_box(markup, "By", visit->session->who);
	}
	markup_ends(markup, 2);
}

static bool
is_said(const char *words)
{
	return words != NULL && words[0] != '\0';
}

/* Writes the margin, and begins the part right of it. */
static void
margin(struct markup *markup, const char *bold, const char *soft)
{
	markup_begin_class(markup, "div", "m");
	if (is_said(bold)) {
		markup_element(markup, "b", NULL, bold);
	}
	if (is_said(soft)) {
		markup_text(markup, soft);
	}
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
}

static void
first_section(struct visit *visit, const struct shell *shell)
{
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "section", "entry");
	margin(markup, shell->margin, shell->under);
	markup_element(markup, "h1", NULL, shell->title);
	if (is_said(shell->say)) {
		markup_element(markup, "p", "say", shell->say);
	}
	markup_ends(markup, 2);
}

void
shell_entry(struct visit *visit)
{
	markup_begin_class(visit->markup, "div", "entry");
	margin(visit->markup, NULL, NULL);
}

void
shell_note(struct visit *visit, bool wrong, const char *words)
{
	struct markup *markup = visit->markup;
	shell_entry(visit);
	MARKUP_BEGIN(
	    markup, "p", wrong ? "caution" : "done", "role", wrong ? "alert" : "status");
	if (wrong) {
		markup_element(markup, "b", NULL, "Nothing was written. ");
	}
	markup_text(markup, words);
	markup_ends(markup, 3);
}

/* Shows the result of the last act, once. */
static void
tell_said(struct visit *visit)
{
	if (visit->session == NULL) {
		return;
	}
	struct text *said = &visit->session->said;
	for (const char *at = text_string(said); *at != '\0';) {
		size_t length = strcspn(at, "\n");
		SCOPED_TEXT line = {0};
		text_add_bytes(&line, at, length);
		shell_note(visit, false, text_string(&line));
		at += length + (at[length] == '\n' ? 1 : 0);
	}
	text_reset(said);
}

void
shell_open(struct visit *visit, const struct shell *shell)
{
	char title[160];
	static const struct markup_links LINKS = {
	    "/page/page.css", "/page/page.js", "/page/becket.svg"};
	bool about = is_said(shell->about);
	(void)snprintf(title, sizeof title, "%s%s%s", shell->title, about ? ": " : "",
	    about ? shell->about : "");
	visit->answer->status = shell->status == 0 ? 200 : shell->status;
	visit->answer->is_page = true;
	visit->answer->content_type = "text/html; charset=utf-8";
	markup_open_linked(title, &LINKS, &visit->markup);
	struct markup *markup = visit->markup;
	MARKUP_BEGIN(markup, "a", "skip", "href", "#leaf");
	markup_text(markup, "To what is written on this page");
	markup_end(markup);
	markup_begin_class(markup, "div", "book");
	thumb_index(visit);
	leaf_head(visit, shell);
	MARKUP_BEGIN(markup, "main", NULL, "id", "leaf");
	first_section(visit, shell);
	tell_said(visit);
}

void
shell_close(struct visit *visit)
{
	struct markup *markup = visit->markup;
	markup_end(markup);
	/* html, body and the book: everything else that the page began is ended */
	assert(markup_depth(markup) == 3);
	markup_begin_class(markup, "footer", "foot");
	markup_element(markup, "p", NULL,
	    "Advice only. The label on the gear, the maker’s manual, the station’s "
	    "certificate, the local authority and the surveyor decide.");
	if (visit->session != NULL && visit->session->who != NULL) {
		markup_begin(markup, "p");
		shell_link(visit, NULL, "You: your password, log out", "/you");
		markup_end(markup);
	}
	markup_end(markup);
	text_reset(&visit->answer->body);
	markup_close(markup, &visit->answer->body);
	visit->markup = NULL;
}

void
shell_section(
    struct visit *visit, const char *bold, const char *soft, const char *heading)
{
	markup_begin_class(visit->markup, "section", "entry");
	margin(visit->markup, bold, soft);
	markup_element(visit->markup, "h2", NULL, heading);
}

void
shell_rows(struct visit *visit, const char *soft, const char *heading)
{
	shell_section(visit, NULL, soft, heading);
	markup_end(visit->markup);
	markup_begin_class(visit->markup, "ul", "rows");
}

void
shell_table(struct visit *visit, const struct shell_table *table)
{
	struct markup *markup = visit->markup;
	MARKUP_BEGIN(markup, "section", table->full ? "full scroll" : "scroll",
	    "aria-label", table->label, "tabindex", "0");
	markup_begin_class(markup, "table", table->class_name);
	markup_table_head(markup, table->columns, table->count, table->figures);
}

void
shell_hidden(struct visit *visit, const char *name, const char *value)
{
	MARKUP_BEGIN(
	    visit->markup, "input", NULL, "type", "hidden", "name", name, "value", value);
	markup_end(visit->markup);
}

static void
begin_form(struct visit *visit, const char *path, const char *id, const char *type)
{
	if (!page_may(visit, "POST", path)) {
		markup_begin_still(visit->markup);
		markup_attribute(visit->markup, "id", id);
		return;
	}
	MARKUP_BEGIN(visit->markup, "form", NULL, "method", "post", "action", path,
	    "enctype", type, "id", id);
	shell_hidden(visit, "token",
	    visit->session == NULL ? visit->site->access.form : visit->session->form);
}

void
shell_form(struct visit *visit, const char *path, const char *id)
{
	begin_form(visit, path, id, NULL);
}

void
shell_file_form(struct visit *visit, const char *path, const char *id)
{
	begin_form(visit, path, id, "multipart/form-data");
}

void
shell_asking_form(struct visit *visit, const char *path)
{
	MARKUP_BEGIN(visit->markup, "form", NULL, "method", "get", "action", path);
}

void
shell_button(struct visit *visit, bool chief, const char *name, const char *value,
    const char *words)
{
	MARKUP_BEGIN(visit->markup, "button", chief ? "do" : NULL, "type", "submit",
	    "name", name, "value", value);
	markup_text(visit->markup, words);
	markup_end(visit->markup);
}

void
shell_default(struct visit *visit, const char *act)
{
	MARKUP_BEGIN(visit->markup, "button", "vh", "type", "submit", "name", "act",
	    "value", act, "tabindex", "-1", "aria-hidden", "true");
	markup_end(visit->markup);
}

static void
write_label(struct markup *markup, const char *name, const char *label)
{
	MARKUP_BEGIN(markup, "label", NULL, "for", name);
	markup_text(markup, label);
	markup_end(markup);
}

void
shell_choice(struct visit *visit, const char *name, const char *label)
{
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "div", "f");
	write_label(markup, name, label);
	MARKUP_BEGIN(markup, "select", NULL, "id", name, "name", name);
}

void
shell_option(struct visit *visit, const char *value, const char *words, bool chosen)
{
	struct markup *markup = visit->markup;
	MARKUP_BEGIN(markup, "option", NULL, "value", value, "selected",
	    chosen ? "selected" : NULL);
	markup_text(markup, words);
	markup_end(markup);
}

void
shell_tick(struct visit *visit, const char *type, const char *name, const char *value,
    bool ticked, const char *words)
{
	struct markup *markup = visit->markup;
	markup_begin(markup, "label");
	MARKUP_BEGIN(markup, "input", NULL, "type", type, "name", name, "value", value,
	    "checked", ticked ? "checked" : NULL);
	markup_end(markup);
	markup_text(markup, words);
	markup_end(markup);
}

void
shell_file(struct visit *visit, const char *name, const char *label, const char *accept)
{
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "div", "f");
	write_label(markup, name, label);
	MARKUP_BEGIN(markup, "input", NULL, "type", "file", "id", name, "name", name,
	    "accept", accept);
	markup_ends(markup, 2);
}

static bool
is_unseen(const struct shell_field *field)
{
	return field->filled != NULL && strstr(field->filled, "-password") != NULL;
}

void
shell_field(struct visit *visit, const struct shell_field *field)
{
	struct markup *markup = visit->markup;
	bool wrong = is_said(field->wrong);
	markup_begin(markup, "div");
	markup_attribute_format(markup, "class", "f%s%s",
	    field->class_name == NULL ? "" : " ",
	    field->class_name == NULL ? "" : field->class_name);
	write_label(markup, field->name, field->label);
	MARKUP_BEGIN(markup, "input", wrong ? "wrong" : NULL, "type",
	    is_unseen(field) ? "password" : "text", "id", field->name, "name",
	    field->name, "value", field->value, "inputmode", field->mode, "autocomplete",
	    field->filled == NULL ? "off" : field->filled);
	if (wrong) {
		markup_attribute(markup, "aria-invalid", "true");
		/* the focus is on the first field that is wrong */
		markup_attribute(markup, "autofocus", visit->focused ? "" : "autofocus");
		visit->focused = true;
		markup_attribute_format(
		    markup, "aria-describedby", "%s.wrong", field->name);
	}
	markup_end(markup);
	if (wrong) {
		markup_begin_class(markup, "p", "fault");
		markup_attribute_format(markup, "id", "%s.wrong", field->name);
		markup_text(markup, field->wrong);
		markup_end(markup);
	}
	markup_end(markup);
}

static void
add_time(struct visit *visit, day_t day, const char *words)
{
	char iso[DAY_ISO_SIZE];
	MARKUP_BEGIN(visit->markup, "time", "day", "datetime", day_iso(day, iso));
	markup_text(visit->markup, words);
	markup_end(visit->markup);
}

void
shell_day(struct visit *visit, day_t day)
{
	char words[DAY_WORDS_SIZE];
	add_time(visit, day, day_words(day, words));
}

void
shell_weekday(struct visit *visit, day_t day)
{
	char words[32];
	struct civil civil = day_to_civil(day);
	(void)snprintf(words, sizeof words, "%.3s %d %s", weekday_name(day_of_week(day)),
	    civil.day, month_short_name(civil.month));
	add_time(visit, day, words);
}

void
shell_link(struct visit *visit, const char *class_name, const char *words,
    const char *format, ...)
{
	SCOPED_TEXT path = {0};
	va_list arguments;
	va_start(arguments, format);
	text_add_arguments(&path, format, arguments);
	va_end(arguments);
	if (!page_may(visit, "GET", text_string(&path))) {
		return;
	}
	MARKUP_BEGIN(visit->markup, "a", class_name, "href", text_string(&path));
	markup_text(visit->markup, words);
	markup_end(visit->markup);
}

void
shell_words(struct visit *visit, int status, const char *title, const char *say)
{
	SHELL_OPEN(visit, .title = title, .say = say, .status = status);
	shell_close(visit);
}
