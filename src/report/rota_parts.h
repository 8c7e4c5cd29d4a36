/* Inside the report room: what the files that compose a rota share. Not for other rooms. */
#ifndef BECKET_REPORT_ROTA_PARTS_H
#define BECKET_REPORT_ROTA_PARTS_H

#include "report/reply.h"
#include "report/report.h"

/* A rota being composed. All borrowed. */
struct rota_page {
	const struct rota_view *view;
	struct reply *reply;
};

/* Adds "1 spare", "2 spares". */
void rota_add_count(size_t count, const char *one, struct text *words);

/* Adds one group: its title, its spares, what fails, and the days of its pieces. */
void rota_add_group(const struct rota_page *page, const struct rota_group *group);

#endif
