/* Inside the report: parts of answers, each in the file named. Not for other rooms. */
#ifndef BECKET_REPORT_PARTS_INSIDE_H
#define BECKET_REPORT_PARTS_INSIDE_H

#include "base/embedded.h"
#include "base/text.h"
#include "due/due.h"
#include "muster/muster.h"
#include "report/markup.h"
#include "report/reply.h"
#include "report/report.h"
#include "report/survey.h"
#include "rules/kinds.h"

/* ---- Parts of the muster's report ---- */

/* What is told of a boat; in the report's arena. */
struct boat_told {
	size_t place;
	const char *name;
	const char *days;   /* her season, or what lapses first */
	const char *answer; /* "short from 1 May 2027" */
	day_t good_through;
	const char *short_of; /* of one that is not all right */
	struct reply under;   /* what there is to say under her name */
	bool ok;
	bool has_lines; /* her sheets have carriage lines, and */
	bool counted;   /* one of them holds */
	bool remarked;
	struct muster silent; /* its subjects and silences, and no more */
};

/* Adds the table for a spreadsheet, and one boat's rows to it. */
struct reply_table *muster_table(struct reply *reply);
void muster_add_rows(const struct inventory *inventory, const struct muster *muster,
    struct reply_table *table);

/* The points a line is short of on the day that is shown. */
int muster_missing(const struct muster *muster, const struct carriage *line);

/* Adds what falls short, or shorter, later in the days asked about. */
void muster_add_later(const struct muster *muster, struct reply *reply);

/* Adds what she is short of on the day that is shown, what can't be told and what is remarked
 * on (where `remarks`), a paragraph a line, and what falls short later. */
void muster_add_lines(const struct inventory *inventory, const struct muster *muster,
    bool remarks, struct reply *reply);

/* True where something is counted though common practice, or a part, has lapsed. */
bool muster_has_remarks(const struct muster *muster);

/* Adds what of the carriage the sheets have no figure for; each once, whoever follows them. */
void muster_add_subjects(const struct muster *musters, size_t count, struct reply *reply);

/* Adds what the stores of her base could do about it, with the command that does. */
void muster_add_spares(const struct kinds *kinds, const struct inventory *inventory,
    const struct muster *muster, struct reply *reply);

/* Adds, for boats told the same at once, the subjects no line of hers is of, with whom to
 * ask: a boat may lack all of that and be short of nothing. `names` are of the boat of each
 * muster. */
void muster_add_silences(const char *const *names, const struct muster *musters,
    size_t count, struct reply *reply);

/* True when two boats are told the same there. */
bool muster_same_silences(const struct muster *a, const struct muster *b);

/* Adds the same words of one boat, "No line is of these, so they are not
 * counted: tethers (ask ...).", to
 * `words`; nothing where a line is of every subject. */
void muster_add_silence_words(const struct muster *muster, struct text *words);

/* A rota being composed. All borrowed. */
struct rota_page {
	const struct rota_view *view;
	struct reply *reply;
};

/* Adds "1 spare", "2 spares". */
void rota_add_count(size_t count, const char *one, struct text *words);

/* Adds one group: its title, its spares, what fails, and the days of its pieces. */
void rota_add_group(const struct rota_page *page, const struct rota_group *group);

/* The parts of a shore list: each adds its heading and its lines to the answer, or nothing when it
 * has none. */

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

/* ---- Parts of the survey file ---- */

/* A page being written. All borrowed. */
struct survey_page {
	const struct report_style *style;
	const struct kinds *kinds;
	const struct inventory *inventory;
	const struct survey *survey;
	struct markup *markup;
	struct text *words; /* scratch */
};

/* A cell of a table: an element with a class (NULL for none) and text. */
void survey_cell(struct survey_page *page, const char *class_name, const char *text);

/* The same with a box to tick. */
void survey_box(struct survey_page *page);

/* All gear by place aboard, a row a piece with its tasks. */
void survey_gear_table(struct survey_page *page);

/* The rules that bind it as entries of the list that is open: an entry for each sheet, grade and
 * source with all its rules. */
void survey_rules_list(struct survey_page *page);

/* ---- Cells about gear ---- */

/* Adds a cell with what an item is, in full where there is room. */
void reply_item(struct reply_table *table, const struct kinds *kinds,
    const struct inventory *inventory, size_t item, const char *note);

/* The tables of the first word. */
enum { FIRST_WORD_CELLS = 4 };
extern const struct reply_column FIRST_WORD_COLUMNS[FIRST_WORD_CELLS];

/* The house style of pages, put in the program at build. */

/* One file: page.css. */
extern const struct embedded_file PAGE_FILES[];
extern const size_t PAGE_FILES_COUNT;

#endif
