/* Locker: the gear by place aboard, and one piece opened under its row. */
#include "page/draw.h"
#include "page/pieces.h"
#include "page/shell.h"

#include <string.h>

/* The boat's name in an address that stands for any boat. */
#define ANY_BOAT "*"

/* Adds the address of the locker as it is shown now, with a piece opened unless `tag` is
 * NULL. */
static void
add_address(const struct locker_asked *asked, const char *tag, struct text *out)
{
	const char *const names[] = {"boat", "by", "q"};
	const char *const values[] = {
	    asked->any ? ANY_BOAT : asked->boat, asked->by, asked->words};
	const char *between = "?";
	text_add(out, "/locker");
	if (tag != NULL) {
		text_add_byte(out, '/');
		form_escape(tag, out);
	}
	for (size_t i = 0; i < 3; i++) {
		if (values[i][0] != '\0') {
			text_add_format(out, "%s%s=", between, names[i]);
			form_escape(values[i], out);
			between = "&";
		}
	}
	text_add(out, tag != NULL ? "#piece" : "");
}

/* The right end of a row: where the piece is, if not in use, or what falls due first. */
static void
row_due(struct visit *visit, const struct locker_row *row)
{
	const struct item *item = &visit->desk.contents.inventory.items[row->item];
	struct markup *markup = visit->markup;
	markup_begin(markup, "span");
	if (item->state == PLACE_RESERVE) {
		markup_element(markup, "span", "soft", "an extra, never counted");
	} else if (item->state == PLACE_WITHDRAWN) {
		markup_element(markup, "span", "soft", "gone for good");
	} else if (!row->first.any) {
		markup_element(markup, "span", "soft", "no day set by any rule");
	} else {
		markup_text_format(markup, "%s ", task_word(row->first.task));
		draw_state(visit, row->first.state, row->first.due);
	}
	if (row->trouble != PART_FINE && item->state != PLACE_WITHDRAWN) {
		markup_begin(markup, "br");
		markup_end(markup);
		markup_begin_class(markup, "span", "state");
		draw_mark(markup, MARK_SHORT);
		markup_text_format(markup, "does not work: %s %s",
		    visit->desk.contents.inventory.items[row->part].tag,
		    part_trouble_words(row->trouble));
		markup_end(markup);
	}
	if (item->state == PLACE_LANDED) {
		markup_begin(markup, "br");
		markup_end(markup);
		draw_mark(markup, MARK_ASHORE);
		markup_text_format(markup, "ashore%s%s",
		    item->landed_to[0] != '\0' ? " with " : "", item->landed_to);
	}
	markup_end(markup);
}

static void
write_row(struct visit *visit, const struct locker_asked *asked,
    const struct locker_row *row, bool open)
{
	SCOPED_TEXT address = {0};
	SCOPED_TEXT also = {0};
	const struct item *item = &visit->desk.contents.inventory.items[row->item];
	struct markup *markup = visit->markup;
	add_address(asked, open ? NULL : item->tag, &address);
	text_add_format(&also, "%s %s %s %s", item->serial, item->make, item->place,
	    item->description);
	MARKUP_BEGIN(markup, "li", row->item == row->root ? "row" : "row inside",
	    "data-also", text_string(&also)); /* page.js searches this, too */
	markup_begin_class(markup, "div", "k");
	MARKUP_BEGIN(markup, "a", "tag", "href", text_string(&address), "aria-expanded",
	    open ? "true" : "false");
	markup_text(markup, item->tag);
	markup_ends(markup, 2);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	text_what(markup, visit->desk.engine.kinds, item);
	markup_end(markup);
	row_due(visit, row);
	markup_ends(markup, 2);
}

static bool
write_card(struct visit *visit, const struct locker_asked *asked, size_t item,
    struct fault *fault)
{
	SCOPED_TEXT back = {0};
	struct locker_piece piece;
	if (!locker_piece(&visit->desk, item, &piece, fault)) {
		return false;
	}
	add_address(asked, NULL, &back);
	markup_begin_class(visit->markup, "li", "row open");
	if (!draw_card(visit, &piece, text_string(&back), fault)) {
		return false;
	}
	markup_end(visit->markup);
	return true;
}

/* The card of a piece that is in none of the rows: gone for good, or not among what was
 * searched for. */
static bool
write_apart(struct visit *visit, const struct locker_asked *asked,
    const struct locker_rows *rows, size_t open, struct fault *fault)
{
	const struct item *items = visit->desk.contents.inventory.items;
	for (size_t i = 0; i < rows->count; i++) {
		if (rows->items[i].item == open) {
			return true;
		}
	}
	if (open == ITEM_NO_PARENT) {
		return true;
	}
	shell_rows(visit, NULL,
	    items[open].state == PLACE_WITHDRAWN ? "Gone for good"
						 : "Not among what is shown below");
	if (!write_card(visit, asked, open, fault)) {
		return false;
	}
	markup_ends(visit->markup, 2);
	return true;
}

/* "3 pieces, 2 parts" of the rows of one group from `*at` on; `*at` becomes the row after
 * them. */
static void
add_group_count(const struct locker_rows *rows, size_t *at, struct text *out)
{
	const char *group = rows->items[*at].group;
	size_t pieces = 0;
	size_t parts = 0;
	for (; *at < rows->count && strcmp(rows->items[*at].group, group) == 0; (*at)++) {
		bool part = rows->items[*at].item != rows->items[*at].root;
		pieces += part ? 0 : 1;
		parts += part ? 1 : 0;
	}
	if (pieces > 0) {
		text_add_format(out, "%zu piece%s", pieces, pieces == 1 ? "" : "s");
	}
	if (parts > 0) {
		text_add_format(out, "%s%zu part%s", pieces > 0 ? ", " : "", parts,
		    parts == 1 ? "" : "s");
	}
}

/* `open` is the index of the piece whose card is open. */
static bool
write_groups(struct visit *visit, const struct locker_asked *asked,
    const struct locker_rows *rows, size_t open, struct fault *fault)
{
	for (size_t at = 0; at < rows->count;) {
		SCOPED_TEXT count = {0};
		size_t end = at;
		const char *group = rows->items[at].group;
		add_group_count(rows, &end, &count);
		shell_rows(visit, text_string(&count),
		    group[0] != '\0' ? group : "Where it is kept is not written");
		for (; at < end; at++) {
			bool is_open = rows->items[at].item == open;
			write_row(visit, asked, &rows->items[at], is_open);
			if (is_open && !write_card(visit, asked, open, fault)) {
				return false;
			}
		}
		markup_ends(visit->markup, 2);
	}
	return true;
}

static void
write_choice(struct visit *visit, const struct locker_asked *asked)
{
	static const char *const VALUES[] = {"place", "kind", "wrong"};
	static const char *const WORDS[] = {
	    "by place aboard", "by kind", "only what is not in date"};
	struct markup *markup = visit->markup;
	MARKUP_BEGIN(
	    markup, "div", "choice", "role", "radiogroup", "aria-labelledby", "show");
	MARKUP_BEGIN(markup, "span", "l", "id", "show");
	markup_text(markup, "Show");
	markup_end(markup);
	for (size_t i = 0; i < 3; i++) {
		bool none = i == 0 && strcmp(asked->by, "kind") != 0 &&
			    strcmp(asked->by, "wrong") != 0;
		shell_tick(visit, "radio", "by", VALUES[i],
		    none || strcmp(asked->by, VALUES[i]) == 0, WORDS[i]);
	}
	markup_end(markup);
}

/* The field for the boat, when there are several; a search covers all boats unless one is
 * chosen. */
static void
write_boats(struct visit *visit, const struct locker_asked *asked)
{
	const struct inventory *inventory = &visit->desk.contents.inventory;
	struct markup *markup = visit->markup;
	shell_choice(visit, "boat", "Boat, or spares");
	shell_option(visit, ANY_BOAT, "any", asked->any);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const char *name = inventory->vessels[i].name;
		shell_option(visit, name, name, strcmp(name, asked->boat) == 0);
	}
	markup_ends(markup, 2);
}

static void
write_find(struct visit *visit, const struct locker_asked *asked)
{
	struct markup *markup = visit->markup;
	shell_entry(visit);
	shell_asking_form(visit, "/locker");
	markup_attribute(markup, "role", "search");
	markup_begin_class(markup, "div", "find");
	markup_begin_class(markup, "div", "f");
	MARKUP_BEGIN(markup, "label", NULL, "for", "q");
	markup_text(markup, "Find by tag, word, serial or place");
	markup_end(markup);
	MARKUP_BEGIN(markup, "input", NULL, "id", "q", "name", "q", "type", "search",
	    "autocomplete", "off", "value", asked->words);
	markup_ends(markup, 2);
	if (visit->desk.contents.inventory.vessel_count > 1) {
		write_boats(visit, asked);
	}
	shell_button(visit, false, NULL, NULL, "Find");
	markup_end(markup);
	write_choice(visit, asked);
	markup_ends(markup, 3);
}

static void
write_enter(struct visit *visit, const struct locker_asked *asked)
{
	SCOPED_TEXT query = {0};
	struct markup *markup = visit->markup;
	if (asked->boat[0] != '\0') {
		text_add(&query, "?vessel=");
		form_escape(asked->boat, &query);
	}
	shell_entry(visit);
	markup_begin_class(markup, "div", "acts");
	shell_link(visit, "button", "Enter a piece", "/new%s", text_string(&query));
	shell_link(visit, "button", "Enter ten alike", "/new%s%scount=10",
	    text_string(&query), query.length == 0 ? "?" : "&");
	markup_ends(markup, 3);
}

/* The boat that is shown when none is asked for: that of the open piece, or without a
 * search the first that is no store. */
static void
choose_boat(const struct visit *visit, struct locker_asked *asked, size_t open)
{
	const struct inventory *inventory = &visit->desk.contents.inventory;
	asked->any = strcmp(asked->boat, ANY_BOAT) == 0 || inventory->vessel_count < 2 ||
		     (asked->boat[0] == '\0' && asked->words[0] != '\0');
	if (asked->any) {
		asked->boat = "";
		return;
	}
	for (size_t i = 0; i < inventory->vessel_count && asked->boat[0] == '\0'; i++) {
		if (open != ITEM_NO_PARENT ? inventory->items[open].vessel == i
					   : !inventory->vessels[i].store) {
			asked->boat = inventory->vessels[i].name;
		}
	}
}

static bool
write_page(struct visit *visit, const struct locker_asked *asked,
    const struct locker_rows *rows, size_t open, struct fault *fault)
{
	SCOPED_TEXT count = {0};
	const struct inventory *inventory = &visit->desk.contents.inventory;
	const char *boat = asked->boat[0] != '\0'         ? asked->boat
			   : inventory->vessel_count == 1 ? inventory->vessels[0].name
							  : "all";
	const struct head_box boxes[] = {{"Boat", boat}};
	text_add_format(&count, "%zu piece%s", rows->count, rows->count == 1 ? "" : "s");
	SHELL_OPEN(visit, .title = "Locker", .about = asked->boat,
	    .margin = text_string(&count), .under = rows->count == 1 ? NULL : "and parts",
	    .say = rows->count > 0           ? NULL
		   : asked->words[0] != '\0' ? "Nothing is called that, by tag, word, "
					       "serial or place."
					     : "Nothing to show.",
	    .boxes = boxes, .box_count = 1);
	draw_defs(visit->markup);
	write_find(visit, asked);
	if (!write_apart(visit, asked, rows, open, fault) ||
	    !write_groups(visit, asked, rows, open, fault)) {
		return false;
	}
	write_enter(visit, asked);
	shell_close(visit);
	return true;
}

bool
page_locker(struct visit *visit, struct fault *fault)
{
	struct locker_asked asked = {page_value(visit, "boat"), page_value(visit, "q"),
	    page_value(visit, "by"), false};
	struct locker_rows rows = {0};
	size_t open = ITEM_NO_PARENT;
	visit->desk.left_gear = LEFT_NONE;
	if (!desk_engine(&visit->desk, NULL, fault) ||
	    (visit->rest[0] != '\0' &&
		!desk_find_tag(&visit->desk, visit->rest, &open, fault))) {
		return false;
	}
	choose_boat(visit, &asked, open);
	locker_find(&visit->desk, &asked, &rows);
	return write_page(visit, &asked, &rows, open, fault);
}
