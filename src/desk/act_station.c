#include "book/putting.h"
#include "desk/acts_fleet.h"
#include "desk/inside.h"
#include "life/names.h"

/* No boat and no gear: the stations alone are read. */
static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	const struct station_change *change = of;
	const struct book_contents *contents = &desk->contents;
	(void)fault;
	desk_note_near(desk, "station", change->name,
	    station_name_near(contents->stations, contents->station_count, change->name));
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct station_change *change = of;
	return book_put_station(desk->book, change, fault);
}

bool
desk_station(struct desk *desk, const struct station_change *change, struct fault *fault)
{
	struct station_change act = *change;
	SCOPED_TEXT doing = {0};
	if (change->name[0] == '\0') {
		return fault_set(fault, FAULT_INPUT, "a station's name can't be blank");
	}
	text_add_format(&doing, "station %s", change->name);
	if (!act_run_about(
		desk, &STATIONS_PART, text_string(&doing), plan, write, &act, fault)) {
		return false;
	}
	desk_forget(desk);
	return part_load(desk, &STATIONS_PART, false, fault);
}
