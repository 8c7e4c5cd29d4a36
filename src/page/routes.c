/* All pages there are. */
#include "page/routes.h"

const struct route ROUTES[] = {
    {"GET", "/", RIGHT_LOOK, page_first, NULL, NULL},
    {"GET", "/enter/*", RIGHT_NONE, page_enter, NULL, NULL},
    {"GET", "/page/*", RIGHT_NONE, page_asset, NULL, NULL},
    {"GET", "/winter", RIGHT_LOOK, page_winter, NULL, "This winter"},
};

const size_t ROUTE_COUNT = sizeof ROUTES / sizeof ROUTES[0];
