/* What the pages fetch beside themselves: becket.svg, page.css and page.js, put in the program at build.
 * Inside the page room only. */
#ifndef BECKET_PAGE_PAGE_FILES_H
#define BECKET_PAGE_PAGE_FILES_H

#include "base/embedded.h"

extern const struct embedded_file PAGE_ASSETS[];
extern const size_t PAGE_ASSETS_COUNT;

#endif
