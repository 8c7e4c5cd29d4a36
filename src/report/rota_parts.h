/* Inside the report room: what the files that write a rota share. Not for other rooms. */
#ifndef BECKET_REPORT_ROTA_PARTS_H
#define BECKET_REPORT_ROTA_PARTS_H

#include "report/report.h"

/* A rota being written. All borrowed. */
struct rota_text {
	const struct report_style *style;
	const struct rota_view *view;
	struct text *out;
};

/* Adds "1 spare", "2 spares". */
void rota_add_count(size_t count, const char *one, struct text *words);

/* Writes the words as a paragraph, as `paragraph` does, and empties them. */
void rota_write(
    const struct rota_text *text, struct text *words, size_t first, size_t rest);

/* Writes one group after an empty line. */
void rota_write_group(const struct rota_text *text, const struct rota_group *group);

#endif
