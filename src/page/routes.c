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
    {"GET", "/list", RIGHT_MANAGE, page_list, "Bring a list"},
    {"POST", "/list", RIGHT_MANAGE, page_list_sent, NULL},
    {"GET", "/shore-papers/*", RIGHT_LOOK, page_shore_papers, NULL},
    {"GET", "/locker", RIGHT_LOOK, page_locker, "Locker"},
    {"GET", "/locker/*", RIGHT_LOOK, page_locker, NULL},
    {"GET", "/saturday", RIGHT_LOOK, page_saturday, "Saturday"},
    {"GET", "/years", RIGHT_LOOK, page_coming_years, "Coming years"},
    {"GET", "/safe", RIGHT_LOOK, page_safe, "Safe-keeping"},
    {"GET", "/safe/*", RIGHT_MANAGE, page_take_back, NULL},
    {"POST", "/safe/*", RIGHT_MANAGE, page_taken_back, NULL},
    {"POST", "/copy", RIGHT_MANAGE, page_copy, NULL},
    {"GET", "/survey/*", RIGHT_LOOK, page_survey, NULL},
    {"GET", "/paper/*", RIGHT_LOOK, page_paper, NULL},
    {"GET", "/done/*", RIGHT_RECORD, page_piece, NULL},
    {"POST", "/done/*", RIGHT_RECORD, page_piece, NULL},
    {"GET", "/mend/*", RIGHT_MANAGE, page_piece, NULL},
    {"POST", "/mend/*", RIGHT_MANAGE, page_piece, NULL},
    {"GET", "/move/*", RIGHT_RECORD, page_piece, NULL},
    {"POST", "/move/*", RIGHT_RECORD, page_piece, NULL},
    {"GET", "/gone/*", RIGHT_MANAGE, page_piece, NULL},
    {"POST", "/gone/*", RIGHT_MANAGE, page_piece, NULL},
    {"GET", "/new", RIGHT_MANAGE, page_piece, NULL},
    {"POST", "/new", RIGHT_MANAGE, page_piece, NULL},
};

const size_t ROUTE_COUNT = sizeof ROUTES / sizeof ROUTES[0];
