/* The part of a shore list about what is ashore already. */
#include "report/parts_inside.h"
#include "report/words.h"

#include <string.h>

static const struct reply_column ASHORE_COLUMNS[] = {
    {.heading = "Tag", .type = CELL_TAG, .most = 20},
    {.heading = "What", .flexible = true},
    {.heading = "Tasks", .most = 24},
    {.heading = "Due", .type = CELL_STATE},
};

/* True when both go under one heading. */
static bool
same_trip(const struct ashore_line *a, const struct ashore_line *b)
{
	return a->collect == b->collect && a->since == b->since &&
	       strcmp(a->station, b->station) == 0;
}

/* "Ashore at Holm Quay Safety Service since 25 Nov 2026; collect from 9 Dec 2026" */
static void
write_heading(const struct shore_page *page, const struct ashore_line *line)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "Ashore at %s",
	    line->station[0] == '\0' ? "a station that is not told" : line->station);
	if (line->since != DAY_NONE) {
		text_add(&words, " since ");
		add_day(line->since, "", &words);
	}
	if (line->collect != DAY_NONE) {
		bool over = line->collect <= page->style->today;
		text_add(&words, line->assumed ? "; collect about "
				 : over        ? "; to be collected since "
					       : "; collect from ");
		add_day(line->collect, "", &words);
		text_add(&words, line->assumed ? " (ask)" : "");
	}
	reply_heading(page->reply, 3, text_string(&words));
}

static void
add_line(const struct shore_page *page, const struct ashore_line *line,
    struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	bool any = false;
	shore_tick(page, line->item, table);
	reply_item(table, page->kinds, page->inventory, line->item, "");
	for (int task = 0; task < TASK_COUNT; task++) {
		if ((line->tasks & 1U << task) != 0) {
			text_add_format(
			    &words, "%s%s", any ? ", " : "", task_word((enum task)task));
			any = true;
		}
	}
	reply_cell(table, HUE_NONE, text_string(&words));
	text_reset(&words);
	struct standing_now plain = {line->state, DAY_NONE, DAY_NONE, ""};
	add_day(line->due, "", &words);
	if (any && line->state != STATE_IN_DATE) {
		text_add(&words, line->due == DAY_NONE ? "" : ", ");
		add_state_words(&plain, 0, &words);
	}
	reply_cell(table, any ? state_hue(line->state) : HUE_NONE, text_string(&words));
}

void
write_ashore(const struct shore_page *page)
{
	const struct ashore_lines *lines = &page->list->ashore;
	for (size_t first = 0, end = 0; first < lines->count; first = end) {
		write_heading(page, &lines->items[first]);
		struct reply_table *table =
		    REPLY_TABLE(page->reply, ASHORE_COLUMNS, SHORE_LOOK);
		for (end = first; end < lines->count &&
				  same_trip(&lines->items[first], &lines->items[end]);
		     end++) {
			add_line(page, &lines->items[end], table);
		}
	}
}
