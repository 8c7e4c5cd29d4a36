/* One sort of gear in a rota: its spares, the days of its pieces, and what fails. */
#include "report/rota_parts.h"
#include "report/table.h"
#include "report/tags.h"
#include "report/words.h"

#include <string.h>

void
rota_add_count(size_t count, const char *one, struct text *words)
{
	text_add_format(words, "%zu %s%s", count, one, count == 1 ? "" : "s");
}

void
rota_write(const struct rota_text *text, struct text *words, size_t first, size_t rest)
{
	paragraph(text_string(words), first, rest, text->out);
	text_reset(words);
}

static const struct item *
item_at(const struct rota_text *text, size_t item)
{
	return &text->view->inventory->items[item];
}

static const char *
vessel_of(const struct rota_text *text, const struct item *item)
{
	return text->view->inventory->vessels[item->vessel].name;
}

static void
add_title(
    const struct rota_text *text, const struct rota_group *group, struct text *words)
{
	text_add_format(words, "%s: %s", group->base[0] == '\0' ? "No base" : group->base,
	    kind_name(text->view->kinds, group->kind));
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

/* Whether a spare is for fewer persons than some piece of the group. */
static bool
is_small(const struct rota_text *text, const struct rota_group *group, size_t spare)
{
	int capacity = item_at(text, group->spares[spare].item)->capacity;
	for (size_t i = 0; i < group->line_count; i++) {
		if (item_at(text, group->lines[i].item)->capacity > capacity) {
			return true;
		}
	}
	return false;
}

/* What keeps a spare from being used for all, to the end of the rota. */
static void
add_limits(const struct rota_text *text, const struct rota_group *group, size_t spare,
    struct text *words)
{
	day_t last = group->spares[spare].counts_through;
	if (is_small(text, group, spare)) {
		int capacity = item_at(text, group->spares[spare].item)->capacity;
		text_add(words, " (too small for some");
		if (capacity > 0) {
			text_add_format(words, ": for %d persons)", capacity);
		} else {
			text_add(words, ", as its capacity is not known)");
		}
	}
	if (last == DAY_NONE) {
		text_add(words, " (not in date, so not used)");
	} else if (last < text->view->rota->days.last) {
		text_add(words, " (in date through ");
		add_day_of(last, true, words);
		text_add(words, ")");
	}
}

/* Whether there is the same to be said of two spares. */
static bool
spares_alike(
    const struct rota_text *text, const struct rota_group *group, size_t a, size_t b)
{
	return group->spares[a].counts_through == group->spares[b].counts_through &&
	       item_at(text, group->spares[a].item)->capacity ==
		   item_at(text, group->spares[b].item)->capacity;
}

/* The spares in the order of the inventory, those in a row that are alike together. */
static void
add_spares(
    const struct rota_text *text, const struct rota_group *group, struct text *words)
{
	size_t next = 0;
	text_add(words, "In store: ");
	for (size_t i = 0; i < group->spare_count; i = next) {
		struct tag_list list = {.out = words};
		text_add(words, i == 0 ? "" : "; ");
		for (next = i;
		     next < group->spare_count && spares_alike(text, group, i, next);
		     next++) {
			tag_list_add(&list, item_at(text, group->spares[next].item)->tag);
		}
		tag_list_end(&list);
		add_limits(text, group, i, words);
	}
	text_add(words, group->spare_count == 0 ? "none of this sort." : ".");
}

static void
add_due_cell(const struct rota_line *line, struct table *table)
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
	table_add(table, line->late || line->state != STATE_IN_DATE ? HUE_BAD : HUE_NONE,
	    text_string(&words));
}

static void
add_cover_cell(
    const struct rota_text *text, const struct rota_line *line, struct table *table)
{
	SCOPED_TEXT words = {0};
	enum hue hue = HUE_NONE;
	switch (line->cover) {
	case ROTA_BARE:
		text_add(&words, "not needed");
		break;
	case ROTA_SPARE:
		text_add(&words, item_at(text, line->cover_item)->tag);
		break;
	case ROTA_HIRED:
		text_add_format(&words, "hired %zu", line->cover_item);
		break;
	case ROTA_NOT:
		text_add(&words, "nothing");
		hue = HUE_BAD;
		break;
	}
	table_add(table, hue, text_string(&words));
}

static void
add_day_cell(day_t day, bool year, struct table *table)
{
	SCOPED_TEXT words = {0};
	if (day != DAY_NONE) {
		add_day_of(day, year, &words);
	}
	table_add(table, HUE_NONE, text_string(&words));
}

static const char *
station_name(const struct rota_text *text, const struct rota_line *line)
{
	if (!line->planned) {
		return "";
	}
	return line->station == NO_STATION ? "an approved station"
					   : text->view->stations[line->station].name;
}

/* The one station that all of a group goes to; "" where there are several. */
static const char *
only_station(const struct rota_text *text, const struct rota_group *group)
{
	const char *only = station_name(text, &group->lines[0]);
	for (size_t i = 1; i < group->line_count; i++) {
		if (strcmp(station_name(text, &group->lines[i]), only) != 0) {
			return "";
		}
	}
	return only;
}

/* Whether two lines differ in their piece alone. */
static bool
goes_along(
    const struct rota_text *text, const struct rota_line *a, const struct rota_line *b)
{
	return item_at(text, a->item)->vessel == item_at(text, b->item)->vessel &&
	       a->planned == b->planned && a->hand_in == b->hand_in &&
	       a->station == b->station && a->due == b->due && a->state == b->state &&
	       a->cover == ROTA_BARE && b->cover == ROTA_BARE && a->late == b->late;
}

/* A row: the lines from one on that differ in their piece alone. */
static size_t
add_row(const struct rota_text *text, const struct rota_group *group, size_t from,
    const char *only, struct table *table)
{
	const struct rota_line *line = &group->lines[from];
	SCOPED_TEXT tags = {0};
	struct tag_list list = {.out = &tags};
	size_t end = from;
	while (end < group->line_count && goes_along(text, line, &group->lines[end])) {
		end++;
	}
	end = end == from ? from + 1 : end;
	for (size_t i = from; i < end; i++) {
		tag_list_add(&list, item_at(text, group->lines[i].item)->tag);
	}
	tag_list_end(&list);
	add_day_cell(line->hand_in, true, table);
	add_day_cell(line->collect, false, table);
	table_add(table, HUE_NONE, vessel_of(text, item_at(text, line->item)));
	table_add(table, HUE_STRONG, text_string(&tags));
	add_due_cell(line, table);
	add_cover_cell(text, line, table);
	table_add(table, HUE_NONE, only[0] == '\0' ? station_name(text, line) : "");
	return end;
}

static void
write_lines(const struct rota_text *text, const struct rota_group *group)
{
	static const struct table_column COLUMNS[] = {{.heading = "Hand in"},
	    {.heading = "Back"}, {.heading = "Boat", .most = 14},
	    {.heading = "Gear", .flexible = true}, {.heading = "Due"},
	    {.heading = "In its place", .most = 12}, {.heading = "Station", .most = 14}};
	const char *only = only_station(text, group);
	SCOPED_TABLE table = {0};
	table_init(
	    &table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2, text->style->colour);
	if (only[0] != '\0') {
		SCOPED_TEXT words = {0};
		text_add_format(&words, "All to %s.", only);
		rota_write(text, &words, 2, 2);
	}
	for (size_t i = 0; i < group->line_count;) {
		i = add_row(text, group, i, only, &table);
	}
	table_write(&table, text->out);
}

/* ---- what fails ---- */

static void
add_failure(
    const struct rota_text *text, const struct rota_group *group, struct text *words)
{
	const struct rota_line *line = &group->lines[group->failed];
	const struct item *item = item_at(text, line->item);
	text_add_format(words, "It can't be done in time%s. The first to fail is %s: ",
	    group->proven ? "" : ", as far as was searched", vessel_of(text, item));
	text_add_format(words, "%s is out of date from ", item->tag);
	add_day_of(rota_fails_on(text->view->rota, line), true, words);
	if (line->planned) {
		text_add(words, ", and the first day left for it is ");
		add_day_of(line->hand_in, true, words);
	} else {
		text_add(words, ", and no day is left for it");
	}
	text_add(words, ".");
}

static void
add_fix(const struct rota_text *text, const struct rota_fix *fix, struct text *words)
{
	switch (fix->kind) {
	case FIX_SPARES:
		text_add_format(words,
		    "%d more spare%s or hired stand-in%s (--stand-ins)", fix->number,
		    fix->number == 1 ? "" : "s", fix->number == 1 ? "" : "s");
		break;
	case FIX_STATION:
		text_add_format(words, "sending some to %s as well",
		    text->view->stations[fix->station].name);
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
write_failure(const struct rota_text *text, const struct rota_group *group)
{
	SCOPED_TEXT words = {0};
	if (group->failed == SLOT_NONE) {
		return;
	}
	add_failure(text, group, &words);
	rota_write(text, &words, 2, 2);
	if (group->fix_count == 0) {
		text_add(&words,
		    "Of more spares, other stations, a faster turn-round and "
		    "earlier days nothing by itself was found to help.");
		rota_write(text, &words, 2, 2);
		return;
	}
	text_add(&words,
	    group->fix_count == 1 ? "This would do: " : "Any one of these would do: ");
	for (size_t i = 0; i < group->fix_count; i++) {
		text_add(&words, i == 0 ? "" : "; ");
		add_fix(text, &group->fixes[i], &words);
	}
	text_add(&words, ".");
	rota_write(text, &words, 2, 2);
}

void
rota_write_group(const struct rota_text *text, const struct rota_group *group)
{
	SCOPED_TEXT words = {0};
	text_add(text->out, "\n");
	add_title(text, group, &words);
	rota_write(text, &words, 0, 2);
	add_need(group, &words);
	rota_write(text, &words, 2, 2);
	if (group->stood_in > 0 || group->spare_count > 0 || !group->possible) {
		add_spares(text, group, &words);
		rota_write(text, &words, 2, 2);
	}
	write_failure(text, group);
	write_lines(text, group);
}
