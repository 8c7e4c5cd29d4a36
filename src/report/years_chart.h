/* Inside the report room: the years ahead drawn. */
#ifndef BECKET_REPORT_YEARS_CHART_H
#define BECKET_REPORT_YEARS_CHART_H

#include "report/markup.h"
#include "report/years_words.h"

/* Draws a plan: winters across; the money of each as a column of trips, stations and new gear;
 * the trips; and for every item what a station does to it and when it is renewed. Shapes and
 * fillings tell things apart, never colour alone. `number` tells the drawings of one page
 * apart. */
void draw_years(struct markup *markup, const struct years_page *page,
    const struct outlook *plan, size_t number);

#endif
