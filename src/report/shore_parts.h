/* The parts of a shore list: each adds its heading and its lines to the answer, or nothing when it
 * has none. */
#ifndef BECKET_REPORT_SHORE_PARTS_H
#define BECKET_REPORT_SHORE_PARTS_H

#include "report/reply.h"
#include "report/report.h"

/* What all parts need; all borrowed. */
struct shore_page {
	const struct report_style *style;
	const struct kinds *kinds;
	const struct inventory *inventory;
	const struct shore_list *list;
	struct reply *reply;
	bool trips_above; /* the trips that her base shares stand on a page before */
};

/* How the tables of a shore list look: a paper to tick needs no headings. */
enum { SHORE_LOOK = LOOK_BARE | LOOK_FLUSH };

/* Which columns a part shows beside the tick box, the tag and what it is. */
struct part_shape {
	bool task;
	bool due;
	bool window; /* what all lines share in the heading, the rest in a column */
	bool price;
};

/* True when both ends of a window are inside the winter, so that their years go without
 * saying. */
bool page_in_winter(const struct shore_page *page, struct span window);

/* The days on which a line can be done, as far as they are still to come. */
struct span page_window(const struct shore_page *page, const struct shore_line *line);

/* A paragraph below the part's lines. */
void shore_words(const struct shore_page *page, const struct text *words);

/* The cell that ticks off a piece: "[ ] LR-1". */
void shore_tick(const struct shore_page *page, size_t item, struct reply_table *table);

/* The word for what is to be done: the task's, or "give back" for what is hired. */
const char *line_task_word(const struct shore_line *line);

/* Lines with tick boxes under a heading, and below them what to do about dates that are not
 * known. */
void write_part(const struct shore_page *page, const char *heading,
    const struct shore_lines *lines, const struct part_shape *shape);

/* The trips that vessels of one base share, each once with the gear of all of them: the lists
 * of that base alone. Nothing when no list has a trip of the base. */
void write_base_trips(
    const struct shore_page *page, const struct shore_list *const *lists, size_t count);

/* Hand in, by day and station, with the days on which the whole trip is possible and the
 * caution for each hazard carried. */
void write_hand_in(const struct shore_page *page);

/* What is ashore already: by station and the day it can be fetched, with the work it is there
 * for. */
void write_ashore(const struct shore_page *page);

/* What can't be done in time, with the reason and the first day it could be. */
void write_cannot(const struct shore_page *page);

/* What a person put on the list to buy, in their words. */
void write_wanted(const struct shore_page *page);

/* What is to be got rid of, with the caution for each hazard once; by its tag alone where the
 * part above says what it is. */
void write_dispose(const struct shore_page *page);

/* What waits: the next two winters one by one and the rest together, task by task; for a
 * vessel in use all year twelve months day by day, then the rest. */
void write_waits(const struct shore_page *page);

/* Routine tasks, in one paragraph right below what waits. */
void write_habits(const struct shore_page *page);

#endif
