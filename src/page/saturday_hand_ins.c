/* Saturday: what is handed in within the week after it. */
#include "desk/questions.h"
#include "page/planning.h"
#include "page/shell.h"

/* Days after the one that is looked at. */
enum { HAND_IN_DAYS = 7 };

static void
write_hand_in(const struct saturday *day, const struct docket *docket)
{
	struct markup *markup = day->visit->markup;
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_begin(markup, "b");
	shell_weekday(day->visit, docket->hand_in);
	markup_ends(markup, 2);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	markup_element(markup, "b", NULL, station_words(docket->station));
	markup_text_format(markup, ": %zu piece%s of %zu boat%s", docket->piece_count,
	    docket->piece_count == 1 ? "" : "s", docket->vessel_count,
	    docket->vessel_count == 1 ? "" : "s");
	markup_end(markup);
	SCOPED_TEXT path = {0};
	text_add(&path, "/winter?vessel=");
	base_choice_add(&day->choice, &path);
	shell_link(day->visit, "go", "Tags and dockets", "%s", text_string(&path));
	markup_ends(markup, 2);
}

bool
write_hand_ins(const struct saturday *day, struct fault *fault)
{
	struct markup *markup = day->visit->markup;
	const struct plans_wish wish = base_choice_wish(&day->choice);
	struct winter_answer answer = {0};
	SCOPED_DESK desk = {0};
	bool begun = false;
	if (day->count == 0) {
		return true;
	}
	page_look(day->visit, &desk);
	bool done = desk_hand_ins(&desk, &wish, &answer, fault);
	for (size_t i = 0; done && i < answer.going.count; i++) {
		const struct docket *docket = &answer.going.items[i];
		if (docket->hand_in <= day->on ||
		    docket->hand_in > day->on + HAND_IN_DAYS) {
			continue;
		}
		if (!begun) {
			shell_rows(day->visit, "the week after", "To hand in next");
			begun = true;
		}
		write_hand_in(day, docket);
	}
	if (begun) {
		markup_ends(markup, 2);
	}
	return done;
}
