#include "outlook_scene.h"

#include "becket_test.h"

#include <string.h>

void
open_station(struct asked *asked, int64_t service_minor, int64_t trip_minor)
{
	*asked = (struct asked){
	    .prices = {{.kind = "liferaft-canister",
			   .every_task = true,
			   .minor = service_minor},
		{.kind = "lifejacket-auto", .every_task = true, .minor = service_minor}},
	    .station = {.weekdays = WEEKDAYS_ALL,
		.name = "Loft",
		.base = "",
		.turn_round_days = 10,
		.price_count = 2,
		.trip_minor = trip_minor},
	};
	asked->station.prices = asked->prices;
}

void
list_price(
    struct asked *asked, const char *kind, enum task task, int from_years, int64_t minor)
{
	assert_true(asked->station.price_count < ASKED_PRICES);
	asked->prices[asked->station.price_count++] = (struct station_price){
	    .kind = kind, .task = task, .minor = minor, .from_years = from_years};
}

void
ask_plan(struct scene *scene, struct asked *asked, const char *today, size_t winters)
{
	struct fault fault = {0};
	scene_engine(scene);
	memcpy(asked->copy, scene->items, sizeof asked->copy);
	asked->ask = (struct outlook_ask){
	    .engine = &scene->engine,
	    .copy = asked->copy,
	    .stations = &asked->station,
	    .station_count = 1,
	    .today = day_of(today),
	    .winters = winters,
	    .vessels = &asked->vessel,
	    .vessel_count = 1,
	    .least = GRADE_PRACTICE,
	    .renew_now = NO_ITEM,
	    .most_looks = YEARS_LOOKS,
	    .most_states = YEARS_STATES,
	};
	if (!outlook_make(&asked->ask, &scene->arena, &asked->plan, &fault)) {
		fail_msg("%s", fault.text);
	}
	assert_memory_equal(asked->copy, scene->items, sizeof asked->copy);
}

size_t
count_lines(const struct outlook *plan, enum task task)
{
	size_t count = 0;
	for (size_t i = 0; i < plan->line_count; i++) {
		count += plan->lines[i].task == task ? 1 : 0;
	}
	return count;
}
