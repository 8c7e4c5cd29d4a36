/* This winter: what is ashore already. */
#include "page/planning.h"
#include "page/shell.h"

/* One station's gear that is ashore, with the day it can be fetched. */
static void
write_away(const struct winter_page *page, const struct docket *docket)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct inventory *inventory = &visit->desk.contents.inventory;
	SCOPED_TEXT path = {0};
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	winter_day(visit, docket->collect, docket->assumed);
	markup_end(markup);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	markup_element(markup, "b", NULL,
	    docket->station[0] == '\0' ? "a station not told" : docket->station);
	markup_text(markup, ": ");
	for (size_t i = 0; i < docket->piece_count; i++) {
		markup_text(markup, i > 0 ? ", " : "");
		markup_element(
		    markup, "span", "nb", inventory->items[docket->pieces[i].item].tag);
	}
	markup_end(markup);
	markup_begin(markup, "span");
	text_add(&path, "/back?station=");
	form_escape(docket->station, &path);
	shell_link(visit, "go", "It came back", "%s", text_string(&path));
	markup_ends(markup, 3);
}

void
winter_ashore(struct winter_page *page)
{
	const struct dockets *landed = &page->answer.landed;
	if (landed->count == 0) {
		return;
	}
	shell_rows(page->visit, "to fetch", "Ashore already");
	for (size_t i = 0; i < landed->count; i++) {
		write_away(page, &landed->items[i]);
	}
	markup_ends(page->visit->markup, 2);
}
