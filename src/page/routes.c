/* All pages there are. */
#include "page/routes.h"

const struct route ROUTES[] = {
    {"GET", "/", RIGHT_LOOK, page_first, NULL},
    {"GET", "/enter/*", RIGHT_NONE, page_enter, NULL},
    {"GET", "/page/*", RIGHT_NONE, page_asset, NULL},
    {"GET", "/begin", RIGHT_LOOK, page_begin, NULL},
    {"POST", "/begin", RIGHT_MANAGE, page_begin_sent, NULL},
    {"GET", "/winter", RIGHT_LOOK, page_winter, "This winter"},
    {"POST", "/winter", RIGHT_RECORD, page_winter_sent, NULL},
    {"GET", "/back", RIGHT_LOOK, page_back, "It came back"},
    {"POST", "/back", RIGHT_RECORD, page_back_sent, NULL},
    {"GET", "/shore-papers/*", RIGHT_LOOK, page_shore_papers, NULL},
    {"GET", "/locker", RIGHT_LOOK, page_locker, "Locker"},
    {"GET", "/locker/*", RIGHT_LOOK, page_locker, NULL},
    {"GET", "/paper/*", RIGHT_LOOK, page_paper, NULL},
};

const size_t ROUTE_COUNT = sizeof ROUTES / sizeof ROUTES[0];
