/* The house style of pages, put in the program at build. Inside the report room only. */
#ifndef BECKET_REPORT_PAGE_H
#define BECKET_REPORT_PAGE_H

#include "base/embedded.h"

/* One file: page.css. */
extern const struct embedded_file PAGE_FILES[];
extern const size_t PAGE_FILES_COUNT;

#endif
