#include "gear/money.h"
#include "report/words.h"

void
add_where_any(const char *word, const char *thing, struct text *out)
{
	if (thing != NULL && thing[0] != '\0') {
		text_add_format(out, ", %s%s", word, thing);
	}
}

/* Adds what only this sort of movement has. */
static void
add_particulars(const struct movement *movement, struct text *out)
{
	switch (movement->move) {
	case MOVE_LANDED:
		add_where_any("at ", movement->station, out);
		if (movement->asked != 0) {
			text_add(out, ", for ");
			add_task_nouns(movement->asked, out);
		}
		break;
	case MOVE_RETURNED:
		add_where_any("from ", movement->station, out);
		add_where_any("", result_word(movement->result), out);
		break;
	case MOVE_CARRIED:
		add_where_any("from ", movement->was_vessel, out);
		text_add_format(out, " to %s", movement->vessel);
		break;
	case MOVE_WITHDRAWN:
		add_where_any("", because_word(movement->because), out);
		add_where_any("by ", movement->station, out);
		break;
	case MOVE_STOOD_IN:
		add_where_any("for ", movement->stands_for, out);
		add_where_any("on ", movement->vessel, out);
		break;
	case MOVE_RENEWED:
		add_where_any("the one with serial ", movement->serial, out);
		break;
	case MOVE_RESERVED:
	case MOVE_ABOARD:
		break;
	}
}

void
add_movement_particulars(
    const struct report_style *style, const struct movement *movement, struct text *out)
{
	char money[MONEY_WORDS_SIZE];
	add_particulars(movement, out);
	add_where_any("certificate ", movement->certificate, out);
	add_where_any(
	    "", money_words(movement->price_minor, style->currency, money), out);
	add_where_any("", movement->note, out);
}

void
add_movement_words(
    const struct report_style *style, const struct movement *movement, struct text *out)
{
	add_day(movement->on, "day not known", out);
	add_movement_particulars(style, movement, out);
}
