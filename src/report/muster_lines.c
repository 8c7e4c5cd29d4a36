/* What a boat is short of, what can't be told and what is remarked on, a paragraph a line. */
#include "report/parts_inside.h"
#include "report/tags.h"

#include <string.h>

/* Adds "; lapsed: FL-1 to FL-3"; nothing for an empty list. */
static void
add_tags(const char *what, const struct inventory *inventory,
    const struct muster_items *items, struct text *words)
{
	struct tag_list list = {.out = words};
	if (items->count == 0) {
		return;
	}
	text_add_format(words, "; %s: ", what);
	for (size_t i = 0; i < items->count; i++) {
		tag_list_add(&list, inventory->items[items->items[i]].tag);
	}
	tag_list_end(&list);
}

/* Adds "; not counted until its rating is known: EX-1" for each thing that is asked. */
static void
add_untold_pieces(
    const struct inventory *inventory, const struct muster_line *line, struct text *words)
{
	static const char *const ASKS[] = {"rating", "capacity", "place"};
	for (size_t i = 0; i < sizeof ASKS / sizeof ASKS[0]; i++) {
		struct tag_list list = {.out = words};
		bool any = false;
		for (size_t j = 0; j < line->untold_count; j++) {
			if (strcmp(line->untold[j].asks, ASKS[i]) != 0) {
				continue;
			}
			if (!any) {
				text_add_format(words,
				    "; not counted until the %s is entered (becket amend "
				    "TAG --%s): ",
				    ASKS[i], ASKS[i]);
			}
			any = true;
			tag_list_add(&list, inventory->items[line->untold[j].item].tag);
		}
		tag_list_end(&list);
	}
}

static void
add_shortage(const struct inventory *inventory, const struct muster_line *line,
    struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "short of %d: %s (%s); needs %d, has %d", line->missing,
	    line->line->title, line->line->id, line->need, line->have);
	if (line->line->any_of[0] != '\0') {
		text_add_format(
		    &words, "; or another way to meet %s", line->line->any_of);
	}
	add_tags("counted", inventory, &line->counted, &words);
	add_tags("lapsed", inventory, &line->lapsed, &words);
	add_tags("date not known", inventory, &line->unknown, &words);
	add_untold_pieces(inventory, line, &words);
	text_add_byte(&words, '.');
	reply_remark(reply, VOICE_CARE, 2, text_string(&words));
}

static void
add_untold(const struct muster_line *line, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	/* The year she was built is an option of the vessel, not a column of an item. */
	text_add_format(&words, "not told: %s; enter the vessel's %s.", line->line->title,
	    line->asks[0] == 'b' ? "year built" : line->asks);
	reply_remark(reply, VOICE_CARE, 2, text_string(&words));
}

static void
add_remarks(const struct inventory *inventory, const struct muster_line *line,
    struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (line->remarks.count == 0 && line->parts.count == 0) {
		return;
	}
	text_add_format(&words, "remark: %s", line->line->title);
	add_tags("counted though lapsed by common practice", inventory, &line->remarks,
	    &words);
	add_tags("counted though a part has lapsed", inventory, &line->parts, &words);
	text_add_byte(&words, '.');
	reply_remark(reply, VOICE_PLAIN, 2, text_string(&words));
}

void
muster_add_lines(const struct inventory *inventory, const struct muster *muster,
    bool remarks, struct reply *reply)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		const struct muster_line *line = &muster->lines[i];
		if (line->missing > 0) {
			add_shortage(inventory, line, reply);
		} else if (line->asks[0] != '\0') {
			add_untold(line, reply);
		}
		if (remarks) {
			add_remarks(inventory, line, reply);
		}
	}
	muster_add_later(muster, reply);
}

bool
muster_has_remarks(const struct muster *muster)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (muster->lines[i].remarks.count > 0 ||
		    muster->lines[i].parts.count > 0) {
			return true;
		}
	}
	return false;
}
