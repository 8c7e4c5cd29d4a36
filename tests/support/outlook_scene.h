/* A scene with a station, and the outlook asked about it. */
#ifndef BECKET_TESTS_OUTLOOK_SCENE_H
#define BECKET_TESTS_OUTLOOK_SCENE_H

#include "scene.h"
#include "years/outlook.h"

#define SOURCE "    source: test\n    standing: common practice\n"

/* Serviced every three years, every year once ten years old. */
#define RAFT_RULES                                                                       \
	"  - id: service\n    kinds: [liferaft-canister]\n    task: service\n"           \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last, packed, made], months: 36 }\n" SOURCE                    \
	"  - id: aged\n    kinds: [liferaft-canister]\n    when: {age-from: 120}\n"      \
	"    task: service\n    doer: station\n    grade: practice\n    clocks:\n"       \
	"      - { from: [last, packed, made], months: 12 }\n" SOURCE

enum { ASKED_PRICES = 8 };

/* A station, and the scene's questions to the outlook. */
struct asked {
	struct station_price prices[ASKED_PRICES];
	struct station station;
	struct item copy[SCENE_MOST];
	size_t vessel;
	struct outlook_ask ask;
	struct outlook plan;
};

/* Opens a station of ten days, for which back by 31 March means handed in by 21 March; it asks
 * one price for whatever is done to a raft or a lifejacket. */
void open_station(struct asked *asked, int64_t service_minor, int64_t trip_minor);

/* Adds a price of the station's from an age on. */
void list_price(
    struct asked *asked, const char *kind, enum task task, int from_years, int64_t minor);

/* Makes the plan of the scene's vessel; the test fails where it can't be made, or where the
 * items it was made with are not as they were. */
void ask_plan(
    struct scene *scene, struct asked *asked, const char *today, size_t winters);

/* How many lines of a plan are of a task. */
size_t count_lines(const struct outlook *plan, enum task task);

#endif
