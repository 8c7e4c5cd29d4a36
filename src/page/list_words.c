/* Bring a list: the words of the list's reader as the page has them. */
#include "page/shell.h"
#include "page/taking_in.h"

#include <string.h>

const char *
list_column_words(const char *column)
{
	static const char *const WORDS[][2] = {
	    {"vessel", "boat"},
	    {"kind", "what it is"},
	    {"serial", "serial number"},
	    {"capacity", "for how many persons"},
	    {"quantity", "how many"},
	    {"place", "where aboard it is kept"},
	    {"packed", "packed or filled"},
	    {"fitted", "fitted or put into service"},
	    {"expires", "good until, as marked on it"},
	    {"served", "day of the last service or other work"},
	    {"task", "which work that was"},
	    {"next", "next date on the paper of it"},
	    {"station", "who did it"},
	    {"certificate", "number of the paper of it"},
	    {"paid", "what it cost"},
	    {"state", "aboard, an extra, ashore or gone"},
	    {"landed_to", "station it is ashore at"},
	    {"landed_on", "day it went ashore"},
	    {"hired_until", "last day of a hired one"},
	    {"because", "why it is gone"},
	    {"stands_for", "tag of what it stands in for"},
	    {"to_buy", "what to buy, in your words"},
	    {"part_of", "tag of what it is inside or fixed to"},
	    {"price", "price of a new one"},
	};
	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		if (strcmp(WORDS[i][0], column) == 0) {
			return WORDS[i][1];
		}
	}
	return column;
}

/* What an option does stands in a field of the page, or can't be said there. */
static const char *const OPTIONS[][2] = {
    {"; --ask-again asks anew", ""},
    {", and \"becket export --for-spreadsheet\" disarms it", ""},
    {" (becket import --help lists them)", ""},
    {": --worksheet NAME reads another", ""},
    {"--vessel NAME", "\"The boat of rows that name none\""},
    {"--leave-out", "\"Lines to pass over\""},
    {"say --services-are-right", "say so"},
    {"--map \"HEADER=kind\"", "choose \"what it is\" for it below"},
    {"--map ", "below, "},
};

void
list_words(const char *words, struct text *out)
{
	SCOPED_TEXT clean = {0};
	page_words(words, &clean);
	text_in_place(
	    text_string(&clean), OPTIONS, sizeof OPTIONS / sizeof OPTIONS[0], out);
}
