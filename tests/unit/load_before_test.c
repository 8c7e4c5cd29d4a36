/* What a load takes from what was loaded before is what a load of its own would give:
 * both are told value by value, after anything that an act may write. */
#include "book_scratch.h"
#include "draw.h"
#include "gear/fields.h"

/* ---- contents as text ---- */

static void
add_fields(const struct field *fields, size_t count, const void *of, struct text *out)
{
	for (size_t i = 0; i < count; i++) {
		text_add(out, "|");
		if (!fields[i].link) {
			field_add(&fields[i], of, "EUR", out);
		}
	}
}

static void
add_records(
    const char *what, const struct record *records, size_t count, struct text *out)
{
	for (size_t i = 0; i < count; i++) {
		text_add_format(out, "  %s %lld", what, (long long)records[i].entered);
		add_fields(RECORD_FIELDS, RECORD_FIELD_COUNT, &records[i], out);
		text_add(out, "\n");
	}
}

static void
add_events(const char *what, const struct event *events, size_t count, struct text *out)
{
	for (size_t i = 0; i < count; i++) {
		text_add_format(out, "  %s %d %d %lld\n", what, (int)events[i].kind,
		    (int)events[i].on, (long long)events[i].entered);
	}
}

static void
add_lists(const struct item *item, struct text *out)
{
	add_records("past record", item->past_records, item->past_record_count, out);
	add_records("record", item->records, item->record_count, out);
	add_events("past event", item->past_events, item->past_event_count, out);
	add_events("event", item->events, item->event_count, out);
	for (size_t i = 0; i < item->extension_count; i++) {
		const struct extension *of = &item->extensions[i];
		text_add_format(out, "  extension %d %d %s %d %lld\n", (int)of->task,
		    (int)of->until, of->paper, (int)of->given, (long long)of->entered);
	}
	for (size_t i = 0; i < item->interval_count; i++) {
		const struct interval *of = &item->intervals[i];
		text_add_format(out, "  interval %d %d %d %d %s\n", (int)of->task,
		    (int)of->on, of->months, of->first_months, of->paper);
	}
	for (size_t i = 0; i < item->movement_count; i++) {
		const struct movement *of = &item->movements[i];
		text_add_format(out, "  movement %d %d %d %s %s %s\n", (int)of->move,
		    (int)of->on, (int)of->was, of->vessel, of->was_vessel, of->station);
	}
}

static void
add_items(const struct inventory *inventory, struct text *out)
{
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		text_add_format(out, "item %lld %s on %s in %s from %s",
		    (long long)item->id, item->tag, inventory->vessels[item->vessel].name,
		    item->parent == ITEM_NO_PARENT ? "-"
						   : inventory->items[item->parent].tag,
		    item->split_from);
		const struct item_change values = {.values = item->values};
		add_fields(ITEM_FIELDS, FIELD_COUNT, &values, out);
		text_add(out, "\n");
		add_lists(item, out);
	}
}

static void
add_vessels(const struct inventory *inventory, struct text *out)
{
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		text_add_format(out, "vessel %lld %s %s\n", (long long)vessel->id,
		    vessel->name, vessel->base);
		for (size_t k = 0; k < vessel->period_count; k++) {
			const struct period *period = &vessel->periods[k];
			text_add_format(out, "  period %d %s %s %u\n", (int)period->from,
			    period->area, period->base, period->says);
		}
		for (size_t k = 0; k < vessel->booking_count; k++) {
			text_add_format(
			    out, "  booking %d\n", (int)vessel->bookings[k].days.first);
		}
		for (size_t k = 0; k < vessel->sheet_count; k++) {
			text_add_format(out, "  sheet %s\n", vessel->sheets[k]);
		}
	}
}

static void
add_contents(const struct book_contents *contents, struct text *out)
{
	add_vessels(&contents->inventory, out);
	for (size_t i = 0; i < contents->station_count; i++) {
		const struct station *station = &contents->stations[i];
		text_add_format(out, "station %lld %s %d\n", (long long)station->id,
		    station->name, (int)station->turn_round_days);
	}
	add_items(&contents->inventory, out);
}

/* ---- anything that is written ---- */

static unsigned seed;

static int
drawn(unsigned below)
{
	return (int)draw(&seed, below);
}

static const char *const VESSELS[] = {"Amber Tern", "Grey Heron", "Red Knot"};
static const char *const TAGS[] = {"A-1", "A-2", "B-1", "B-2", "C-1", "C-2", "D-1"};

enum { VESSEL_COUNT = 3, TAG_COUNT = 7 };

static day_t
some_day(void)
{
	return day_from_civil(2018 + drawn(8), 1 + drawn(12), 1 + drawn(28));
}

static void
put_item(struct scratch *scratch)
{
	const char *part_of = drawn(2) == 0 ? "" : TAGS[drawn(TAG_COUNT)];
	const struct item_change change = {
	    .set = 1U << FIELD_VESSEL | 1U << FIELD_KIND | 1U << FIELD_PLACE |
		   (drawn(3) == 0 ? 1U << FIELD_PART_OF : 0U),
	    .tag = TAGS[drawn(TAG_COUNT)],
	    .vessel = VESSELS[drawn(VESSEL_COUNT)],
	    .kind = "liferaft-canister",
	    .place = drawn(2) == 0 ? "deck" : "locker",
	    .part_of = part_of,
	};
	(void)!book_put_items(scratch->book, &change, 1, NULL, &scratch->fault);
}

static void
add_record(struct scratch *scratch, const char *tag)
{
	const struct record record = {.task = drawn(2) == 0 ? TASK_RENEW : TASK_SERVICE,
	    .on = stamp_of_day(some_day()),
	    .station = "Cove Rafts",
	    .certificate = "",
	    .price_minor = -1};
	(void)!book_add_record(scratch->book, tag, &record, &scratch->fault);
}

static void
add_movement(struct scratch *scratch, const char *tag)
{
	const struct movement movement = {
	    .move = MOVE_LANDED, .on = some_day(), .station = "Cove Rafts"};
	(void)!book_add_movement(scratch->book, tag, &movement, &scratch->fault);
}

static void
put_vessel(struct scratch *scratch)
{
	const struct vessel_change change = {.name = VESSELS[drawn(VESSEL_COUNT)],
	    .set = 1U << VESSEL_AREA | (drawn(2) == 0 ? SET_FROM : 0U),
	    .from = some_day(),
	    .area = drawn(2) == 0 ? "coastal" : "offshore"};
	(void)!book_put_vessel(scratch->book, &change, &scratch->fault);
}

static void
put_station(struct scratch *scratch)
{
	const struct station_change change = {
	    .name = drawn(2) == 0 ? "Cove Rafts" : "Depot",
	    .set = 1U << STATION_TURN_ROUND,
	    .turn_round_days = drawn(30)};
	(void)!book_put_station(scratch->book, &change, &scratch->fault);
}

static void
write_something(struct scratch *scratch)
{
	const char *tag = TAGS[drawn(TAG_COUNT)];
	const struct event event = {.kind = EVENT_USED, .on = some_day()};
	const struct extension extension = {
	    .task = TASK_SERVICE, .until = some_day(), .paper = "X", .given = some_day()};
	const struct interval interval = {
	    .task = TASK_SERVICE, .on = some_day(), .months = 24, .paper = "M"};
	switch (drawn(13)) {
	case 0:
	case 1:
		put_item(scratch);
		break;
	case 2:
	case 10:
	case 11:
		add_record(scratch, tag);
		break;
	case 3:
		(void)!book_add_event(scratch->book, tag, &event, &scratch->fault);
		break;
	case 4:
	case 12:
		(void)!book_add_extension(
		    scratch->book, tag, &extension, &scratch->fault);
		break;
	case 5:
		(void)!book_put_interval(scratch->book, tag, &interval, &scratch->fault);
		break;
	case 6:
		(void)!book_drop_interval(
		    scratch->book, tag, TASK_SERVICE, &scratch->fault);
		break;
	case 7:
		add_movement(scratch, tag);
		break;
	case 8:
		put_vessel(scratch);
		break;
	default:
		put_station(scratch);
		break;
	}
}

static void
compare(struct scratch *scratch, const struct book_contents *before, int round)
{
	const char *wanted[VESSEL_COUNT];
	struct book_part part = {.vessels = wanted, .reach = (enum book_reach)drawn(2)};
	struct book_part taking;
	bool there = false;
	bool taken = false;
	SCOPED_CONTENTS alone = {0};
	SCOPED_CONTENTS from = {0};
	SCOPED_TEXT anew = {0};
	SCOPED_TEXT again = {0};
	for (size_t i = 0; i < VESSEL_COUNT; i++) {
		wanted[part.vessel_count] = VESSELS[i];
		part.vessel_count += drawn(2) == 0;
	}
	taking = part;
	taking.before = before;
	assert_done(scratch,
	    book_load_part(scratch->book, &part, true, &alone, &there, &scratch->fault));
	assert_done(scratch,
	    book_load_part(scratch->book, &taking, true, &from, &taken, &scratch->fault));
	assert_int_equal(taken, there);
	if (!there) {
		return;
	}
	add_contents(&alone, &anew);
	add_contents(&from, &again);
	if (strcmp(text_string(&anew), text_string(&again)) != 0) {
		fail_msg("round %d: loaded\n%s\ntaken\n%s", round, text_string(&anew),
		    text_string(&again));
	}
}

SCRATCH_TEST(what_is_taken_from_before_is_what_a_load_would_give)
{
	int rounds = scaled(300);
	seed = 7;
	for (int i = 0; i < 60; i++) {
		write_something(scratch);
	}
	for (int round = 0; round < rounds; round++) {
		SCOPED_CONTENTS before = scratch_load(scratch);
		bool stale = true;
		assert_done(scratch, book_begin_as_of(scratch->book, before.revision,
					 &stale, &scratch->fault));
		assert_false(stale);
		for (int i = drawn(4); i > 0; i--) {
			write_something(scratch);
			compare(scratch, &before, round);
		}
		/* what a refusal spoilt goes; so does some of the rest */
		struct fault ignored = {0};
		if (drawn(4) == 0 || !book_commit(scratch->book, &ignored)) {
			book_rollback(scratch->book);
		}
	}
}

SCRATCH_TEST(contents_of_another_moment_are_passed_over)
{
	scratch_put(scratch, "LR-1");
	SCOPED_CONTENTS before = scratch_load(scratch);
	scratch_put(scratch, "LR-2");
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	const char *vessel = "Amber Tern";
	const struct book_part part = {
	    .vessels = &vessel, .vessel_count = 1, .before = &before};
	SCOPED_CONTENTS now = {0};
	bool there = false;
	assert_done(scratch,
	    book_load_part(scratch->book, &part, true, &now, &there, &scratch->fault));
	assert_int_equal(now.inventory.item_count, 2);
	book_rollback(scratch->book);
}

RUN_TESTS(NULL, NULL)
