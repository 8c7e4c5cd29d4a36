/* One sort of gear in a rota: its spares, the days of its pieces, and what fails. */
#include "report/parts_inside.h"
#include "report/tags.h"
#include "report/words.h"

#include <string.h>

void
rota_add_count(size_t count, const char *one, struct text *words)
{
	text_add_format(words, "%zu %s%s", count, one, count == 1 ? "" : "s");
}

/* Adds words below the group's title, then empties `words`. */
static void
add_below(const struct rota_page *page, struct text *words)
{
	reply_block(page->reply, 2, text_string(words));
	text_reset(words);
}

static const struct item *
item_at(const struct rota_page *page, size_t item)
{
	return &page->view->inventory->items[item];
}

static const char *
vessel_of(const struct rota_page *page, const struct item *item)
{
	return page->view->inventory->vessels[item->vessel].name;
}

static void
add_title(
    const struct rota_page *page, const struct rota_group *group, struct text *words)
{
	text_add_format(words, "%s: %s", group->base[0] == '\0' ? "No base" : group->base,
	    kind_name(page->view->kinds, group->kind));
	if (group->rating[0] != '\0') {
		text_add_format(words, " %s", group->rating);
	}
	if (group->quantity > 1) {
		text_add_format(words, ", in lots of %d", group->quantity);
	}
}

static void
add_need(const struct rota_group *group, struct text *words)
{
	if (!group->possible) {
		return;
	}
	if (group->stood_in == 0) {
		text_add(words, "No spare is needed.");
		return;
	}
	rota_add_count(group->stood_in, "spare", words);
	text_add(words, group->stood_in == 1 ? " is needed; " : " are needed; ");
	if (group->proven) {
		text_add(words, group->stood_in == 1 ? "without, some day would not hold "
						       "(proven)."
						     : "fewer would not do (proven).");
	} else {
		text_add_format(words,
		    "fewer were not found to do, but only fewer than %zu is proven not to.",
		    group->least_spares);
	}
}

/* True when a spare is for fewer persons than some piece of the group. */
static bool
is_small(const struct rota_page *page, const struct rota_group *group, size_t spare)
{
	int capacity = item_at(page, group->spares[spare].item)->capacity;
	for (size_t i = 0; i < group->line_count; i++) {
		if (item_at(page, group->lines[i].item)->capacity > capacity) {
			return true;
		}
	}
	return false;
}

/* Adds why a spare can't replace every piece of the group up to the end of the rota. */
static void
add_limits(const struct rota_page *page, const struct rota_group *group, size_t spare,
    struct text *words)
{
	day_t last = group->spares[spare].counts_through;
	if (is_small(page, group, spare)) {
		int capacity = item_at(page, group->spares[spare].item)->capacity;
		text_add(words, " (too small for some");
		if (capacity > 0) {
			text_add_format(words, ": for %d persons)", capacity);
		} else {
			text_add(words, ", as its capacity is not known)");
		}
	}
	if (last == DAY_NONE) {
		text_add(words, " (not in date, so not used)");
	} else if (last < page->view->rota->days.last) {
		text_add(words, " (in date through ");
		add_day_of(last, true, words);
		text_add(words, ")");
	}
}

/* True when the same is said of two spares. */
static bool
spares_alike(
    const struct rota_page *page, const struct rota_group *group, size_t a, size_t b)
{
	return group->spares[a].counts_through == group->spares[b].counts_through &&
	       item_at(page, group->spares[a].item)->capacity ==
		   item_at(page, group->spares[b].item)->capacity;
}

/* The spares in the inventory's order; neighbours that are alike are written together. */
static void
add_spares(
    const struct rota_page *page, const struct rota_group *group, struct text *words)
{
	size_t next = 0;
	text_add(words, "In store: ");
	for (size_t i = 0; i < group->spare_count; i = next) {
		struct tag_list list = {.out = words};
		text_add(words, i == 0 ? "" : "; ");
		for (next = i;
		     next < group->spare_count && spares_alike(page, group, i, next);
		     next++) {
			tag_list_add(&list, item_at(page, group->spares[next].item)->tag);
		}
		tag_list_end(&list);
		add_limits(page, group, i, words);
	}
	text_add(words, group->spare_count == 0 ? "none of this sort." : ".");
}

static void
add_due_cell(const struct rota_line *line, struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	if (line->state == STATE_IN_DATE) {
		add_day_of(line->due, true, &words);
	} else {
		text_add(&words, state_word(line->state));
	}
	if (line->late) {
		text_add(&words, line->planned ? ", late" : ", no day");
	}
	reply_cell(table, line->late || line->state != STATE_IN_DATE ? HUE_BAD : HUE_NONE,
	    text_string(&words));
}

static void
add_cover_cell(
    const struct rota_page *page, const struct rota_line *line, struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	enum hue hue = HUE_NONE;
	switch (line->cover) {
	case ROTA_BARE:
		text_add(&words, "not needed");
		break;
	case ROTA_SPARE:
		text_add(&words, item_at(page, line->cover_item)->tag);
		break;
	case ROTA_HIRED:
		text_add_format(&words, "hired %zu", line->cover_item);
		break;
	case ROTA_NOT:
		text_add(&words, "nothing");
		hue = HUE_BAD;
		break;
	}
	reply_cell(table, hue, text_string(&words));
}

static void
add_day_cell(day_t day, bool year, struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	if (day != DAY_NONE) {
		add_day_of(day, year, &words);
	}
	reply_cell(table, HUE_NONE, text_string(&words));
}

static const char *
station_name(const struct rota_page *page, const struct rota_line *line)
{
	if (!line->planned) {
		return "";
	}
	return line->station == NO_STATION ? "an approved station"
					   : page->view->stations[line->station].name;
}

/* The station to which all of a group goes; "" when there are several. */
static const char *
only_station(const struct rota_page *page, const struct rota_group *group)
{
	const char *only = station_name(page, &group->lines[0]);
	for (size_t i = 1; i < group->line_count; i++) {
		if (strcmp(station_name(page, &group->lines[i]), only) != 0) {
			return "";
		}
	}
	return only;
}

/* True when two lines differ only in their piece. */
static bool
goes_along(
    const struct rota_page *page, const struct rota_line *a, const struct rota_line *b)
{
	return item_at(page, a->item)->vessel == item_at(page, b->item)->vessel &&
	       a->planned == b->planned && a->hand_in == b->hand_in &&
	       a->station == b->station && a->due == b->due && a->state == b->state &&
	       a->cover == ROTA_BARE && b->cover == ROTA_BARE && a->late == b->late;
}

/* Writes one row: line `at` and those after it that differ only in their piece. */
static size_t
add_row(const struct rota_page *page, const struct rota_group *group, size_t from,
    const char *only, struct reply_table *table)
{
	const struct rota_line *line = &group->lines[from];
	SCOPED_TEXT tags = {0};
	struct tag_list list = {.out = &tags};
	size_t end = from;
	while (end < group->line_count && goes_along(page, line, &group->lines[end])) {
		end++;
	}
	end = end == from ? from + 1 : end;
	for (size_t i = from; i < end; i++) {
		tag_list_add(&list, item_at(page, group->lines[i].item)->tag);
	}
	tag_list_end(&list);
	add_day_cell(line->hand_in, true, table);
	add_day_cell(line->collect, false, table);
	reply_cell(table, HUE_NONE, vessel_of(page, item_at(page, line->item)));
	reply_cell(table, HUE_STRONG, text_string(&tags));
	add_due_cell(line, table);
	add_cover_cell(page, line, table);
	reply_cell(table, HUE_NONE, only[0] == '\0' ? station_name(page, line) : "");
	return end;
}

static void
add_lines(const struct rota_page *page, const struct rota_group *group)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Hand in", .type = CELL_DAY},
	    {.heading = "Back", .type = CELL_DAY}, {.heading = "Boat", .most = 14},
	    {.heading = "Gear", .type = CELL_TAG, .flexible = true},
	    {.heading = "Due", .type = CELL_STATE},
	    {.heading = "In its place", .most = 12}, {.heading = "Station", .most = 14}};
	const char *only = only_station(page, group);
	if (only[0] != '\0') {
		SCOPED_TEXT words = {0};
		text_add_format(&words, "All to %s.", only);
		add_below(page, &words);
	}
	struct reply_table *table = REPLY_TABLE(page->reply, COLUMNS, 0);
	for (size_t i = 0; i < group->line_count;) {
		i = add_row(page, group, i, only, table);
	}
}

/* ---- what fails ---- */

static void
add_failure(
    const struct rota_page *page, const struct rota_group *group, struct text *words)
{
	const struct rota_line *line = &group->lines[group->failed];
	const struct item *item = item_at(page, line->item);
	text_add_format(words, "It can't be done in time%s. The first to fail is %s: ",
	    group->proven ? "" : ", as far as was searched", vessel_of(page, item));
	if (line->planned && line->cover == ROTA_NOT) {
		text_add_format(words, "%s goes in on ", item->tag);
		add_day_of(line->hand_in, true, words);
		text_add(words, ", as it was given out, and nothing is left to stand in "
				"for it.");
		return;
	}
	text_add_format(words, "%s is out of date from ", item->tag);
	add_day_of(rota_fails_on(page->view->rota, line), true, words);
	if (line->planned) {
		text_add(words, ", and the first day left for it is ");
		add_day_of(line->hand_in, true, words);
	} else {
		text_add(words, ", and no day is left for it");
	}
	text_add(words, ".");
}

static void
add_fix(const struct rota_page *page, const struct rota_fix *fix, struct text *words)
{
	switch (fix->kind) {
	case FIX_SPARES:
		text_add_format(words,
		    "%d more spare%s or hired stand-in%s (--stand-ins)", fix->number,
		    fix->number == 1 ? "" : "s", fix->number == 1 ? "" : "s");
		break;
	case FIX_STATION:
		text_add_format(words, "sending some to %s as well",
		    page->view->stations[fix->station].name);
		break;
	case FIX_TURN_ROUND:
		text_add_format(words, "a turn-round of %d day%s at most", fix->number,
		    fix->number == 1 ? "" : "s");
		break;
	case FIX_EARLIER:
		text_add(
		    words, "handing in earlier, though it is due again within the rota");
		break;
	case FIX_AWAY:
		text_add_format(words, "up to %d ashore at once (--away)", fix->number);
		break;
	case FIX_WEEKLY:
		text_add_format(
		    words, "stations that take in %d pieces a week", fix->number);
		break;
	case FIX_START:
		text_add(words, "a rota from ");
		add_day_of(fix->day, true, words);
		text_add(words, " on, or earlier (--from)");
		break;
	}
}

static void
add_help(const struct rota_page *page, const struct rota_group *group)
{
	SCOPED_TEXT words = {0};
	if (group->failed == SLOT_NONE) {
		return;
	}
	add_failure(page, group, &words);
	add_below(page, &words);
	text_add(&words,
	    group->fix_count == 0
		? "Of more spares, other stations, a faster turn-round and earlier days "
		  "nothing by itself was found to help"
	    : group->fix_count == 1 ? "This would do: "
				    : "Any one of these would do: ");
	for (size_t i = 0; i < group->fix_count; i++) {
		text_add(&words, i == 0 ? "" : "; ");
		add_fix(page, &group->fixes[i], &words);
	}
	text_add(&words, ".");
	add_below(page, &words);
}

void
rota_add_group(const struct rota_page *page, const struct rota_group *group)
{
	SCOPED_TEXT words = {0};
	add_title(page, group, &words);
	reply_heading(page->reply, 3, text_string(&words));
	text_reset(&words);
	add_need(group, &words);
	add_below(page, &words);
	if (group->stood_in > 0 || group->spare_count > 0 || !group->possible) {
		add_spares(page, group, &words);
		add_below(page, &words);
	}
	add_help(page, group);
	add_lines(page, group);
}
