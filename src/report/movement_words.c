#include "gear/money.h"
#include "report/words.h"

/* ", word thing" where there is a thing. */
static void
add_if(const char *word, const char *thing, struct text *out)
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
		add_if("at ", movement->station, out);
		if (movement->asked != 0) {
			text_add(out, ", for ");
			add_task_nouns(movement->asked, out);
		}
		break;
	case MOVE_RETURNED:
		add_if("from ", movement->station, out);
		add_if("", result_word(movement->result), out);
		break;
	case MOVE_CARRIED:
		add_if("from ", movement->was_vessel, out);
		text_add_format(out, " to %s", movement->vessel);
		break;
	case MOVE_WITHDRAWN:
		add_if("", because_word(movement->because), out);
		add_if("by ", movement->station, out);
		break;
	case MOVE_STOOD_IN:
		add_if("for ", movement->stands_for, out);
		add_if("on ", movement->vessel, out);
		break;
	case MOVE_RENEWED:
		add_if("the one with serial ", movement->serial, out);
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
	add_if("certificate ", movement->certificate, out);
	add_if("", money_words(movement->price_minor, style->currency, money), out);
	add_if("", movement->note, out);
}

void
add_movement_words(
    const struct report_style *style, const struct movement *movement, struct text *out)
{
	add_day(movement->on, "day not known", out);
	add_movement_particulars(style, movement, out);
}
