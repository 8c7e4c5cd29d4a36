/* Parts of the survey file. Inside the report room only. */
#ifndef BECKET_REPORT_SURVEY_PARTS_H
#define BECKET_REPORT_SURVEY_PARTS_H

#include "report/markup.h"
#include "report/survey.h"

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

#endif
