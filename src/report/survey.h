/* The survey file of a vessel: what a surveyor wants to see on paper. */
#ifndef BECKET_REPORT_SURVEY_H
#define BECKET_REPORT_SURVEY_H

#include "report/report.h"

/* One item aboard, with its tasks as seen on the day of the survey. */
struct survey_gear {
	size_t item; /* index in the inventory */
	const struct obligation *tasks;
	size_t task_count;
};

/* What goes into one file. All borrowed. */
struct survey {
	const struct muster *muster;
	const struct survey_gear *gear; /* all gear of the vessel that is not withdrawn */
	size_t gear_count;
	const struct sheet *const *sheets; /* the sheets that the vessel follows */
	size_t sheet_count;
};

/* Adds a page of HTML, made for A4: the vessel, the answer of the muster, what must be
 * carried, what counts for it and what is short; all gear by place aboard with serials,
 * dates and certificates, each with a box to tick; lines to sign; and in small print the
 * cautions and the rules that bind, grouped when they have the same source. Fifty pieces
 * take two sheets. Each sheet has the boat, the day and its number. */
void report_survey(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct survey *survey, struct text *out);

#endif
