/* The state of a task as it stands in rows and lanes. */
#include "page/draw.h"
#include "page/pieces.h"
#include "page/shell.h"

void
draw_state(struct visit *visit, enum state state, day_t due)
{
	static const enum state_mark MARKS[] = {
	    [STATE_OVERDUE] = MARK_OVERDUE,
	    [STATE_EXPIRED] = MARK_EXPIRED,
	    [STATE_LIFE_EXPIRED] = MARK_LIFE_EXPIRED,
	    [STATE_DATE_UNKNOWN] = MARK_DATE_UNKNOWN,
	};

	bool dated = due != DAY_NONE && due != DAY_NEVER;
	if (state == STATE_IN_DATE) {
		if (dated) {
			shell_day(visit, due);
		}
		return;
	}
	markup_begin_class(visit->markup, "span", "state");
	draw_mark(visit->markup, MARKS[state]);
	markup_text(visit->markup,
	    state == STATE_DATE_UNKNOWN ? "date unknown" : state_word(state));
	markup_end(visit->markup);
	if (dated) {
		markup_text(visit->markup, " ");
		markup_begin_class(visit->markup, "span", "small");
		shell_day(visit, due);
		markup_end(visit->markup);
	}
}
