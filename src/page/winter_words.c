/* This winter: what the parts of its page share. */
#include "page/planning.h"

#include <string.h>

const char *
station_words(const char *name)
{
	return name[0] == '\0' ? "An approved station" : name;
}

void
winter_day(struct visit *visit, day_t day, bool assumed)
{
	if (day == DAY_NONE || day == DAY_NEVER) {
		markup_text(visit->markup, "ask");
		return;
	}
	markup_text(visit->markup, assumed ? "about " : "");
	shell_weekday(visit, day);
}

void
add_count(size_t count, const char *one, const char *many, struct text *out)
{
	text_add_format(out, "%zu %s", count, count == 1 ? one : many);
}

void
add_whose(const struct winter_page *page, struct text *out)
{
	if (page->several) {
		text_add(out, "?vessel=");
		form_escape(page->vessel->name, out);
	}
}

const char *
trip_owner(const struct winter_page *page, const struct trip *trip)
{
	return trip->of_base ? page->vessel->base : page->vessel->name;
}

day_t
trip_last_day(const struct trip *trip)
{
	day_t last = DAY_NONE;
	for (size_t i = 0; i < trip->lines.count; i++) {
		day_t day = trip->lines.items[i].not_after;
		if (day != DAY_NONE && (last == DAY_NONE || day < last)) {
			last = day;
		}
	}
	return last;
}

const struct docket *
docket_of(const struct winter_page *page, const struct trip *trip)
{
	const struct dockets *going = &page->answer.going;
	for (size_t i = 0; i < going->count; i++) {
		if (going->items[i].hand_in == trip->hand_in &&
		    strcmp(going->items[i].station, trip->name) == 0) {
			return &going->items[i];
		}
	}
	return NULL;
}
