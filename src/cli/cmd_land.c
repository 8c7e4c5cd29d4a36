/* becket land */
#include "cli/command.h"
#include "cli/life_plan.h"
#include "cli/ranges.h"
#include "life/family.h"
#include "winter/winter.h"

#include <string.h>

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static const struct option_spec OPTIONS[] = {
    {.name = "to",
	.argument = "STATION",
	.help = "where they are handed in",
	.required = true},
    {.name = "on", .argument = "DATE", .help = "the day; today when not told"},
    {.name = "without",
	.argument = "TAG",
	.help = "a part that stays aboard",
	.repeatable = true},
    {.name = "note", .argument = "WORDS", .help = "anything else"},
};

/* What is being landed. */
struct landing {
	const char *to;
	const struct station *station; /* NULL when it is not in the book */
	day_t on;
	const bool *stays; /* parts that stay aboard */
};

/* The station of that name; NULL, with a remark, when the book has none like it. A name that
 * is nearly one of the book's is FAULT_INPUT: it is a slip more often than a new station. */
static bool
find_station(struct context *context, const char *name, const struct station **out,
    struct fault *fault)
{
	const struct book_contents *contents = &context->contents;
	const char **names =
	    arena_alloc(&context->arena, (contents->station_count + 1) * sizeof *names);
	if (names == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < contents->station_count; i++) {
		names[i] = contents->stations[i].name;
		if (strcmp(names[i], name) == 0) {
			*out = &contents->stations[i];
			return true;
		}
	}
	const char *nearest = nearest_word(name, names, contents->station_count);
	if (nearest != NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "--to: there is no station \"%s\"; did you mean %s?", name, nearest);
	}
	context_note(context,
	    "there is no station \"%s\" in the book, so its turn-round is taken to be %d "
	    "days; \"becket station\" enters it",
	    name, (int)ASSUMED_TURN_ROUND_DAYS);
	return true;
}

/* Remarks on what a careful person would ask at the counter: approval is never assumed. */
static void
note_station(struct context *context, const struct landing *landing, size_t index)
{
	const struct item *item = &context->contents.inventory.items[index];
	if (landing->station == NULL) {
		return;
	}
	switch (station_fit(landing->station, item->kind, item->make)) {
	case FIT_NO:
		context_note(context,
		    "%s is not known to service %s, which %s is; \"becket station\" says "
		    "what it takes",
		    landing->to, item->kind, item->tag);
		break;
	case FIT_OTHER_MAKE:
		context_note(context,
		    "%s is not known to service %s of the make %s, which %s is",
		    landing->to, item->kind, item->make, item->tag);
		break;
	case FIT_ASK:
		context_note(context,
		    "%s services %s of some makes alone; ask whether it may service %s",
		    landing->to, item->kind, item->tag);
		break;
	case FIT_YES:
		break;
	}
}

static bool
check_state(const struct item *item, struct fault *fault)
{
	char since[DAY_WORDS_SIZE];
	switch (item->state) {
	case PLACE_ABOARD:
	case PLACE_RESERVE:
	case PLACE_STAND_IN:
		return true;
	case PLACE_LANDED:
		return fault_set(fault, FAULT_INPUT,
		    "%s is ashore already%s%s%s%s; \"becket return\" brings it back",
		    item->tag, item->landed_to[0] == '\0' ? "" : ", at ", item->landed_to,
		    item->landed_on == DAY_NONE ? "" : " since ",
		    day_words(item->landed_on, since));
	case PLACE_WITHDRAWN:
		return fault_set(fault, FAULT_INPUT, "%s is withdrawn%s%s", item->tag,
		    item->because == BECAUSE_NOT_SAID ? "" : ": ",
		    because_word(item->because));
	}
	return false;
}

static bool
land_one(struct context *context, const struct landing *landing, size_t index,
    struct life_plan *plan, struct fault *fault)
{
	struct life_step step = {.item = index, .moves = true};
	step.movement = life_movement(MOVE_LANDED, landing->on, life_note(context));
	step.movement.station = landing->to;
	step.change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON,
	    .state = PLACE_LANDED,
	    .landed_to = landing->to,
	    .landed_on = landing->on,
	};
	return life_add(context, plan, &step, fault);
}

/* The item and those of its parts that are aboard with it. */
static bool
land_family(struct context *context, const struct landing *landing, size_t index,
    struct life_plan *plan, struct fault *fault)
{
	const struct inventory *inventory = &context->contents.inventory;
	struct family family = {0};
	if (!check_state(&inventory->items[index], fault) ||
	    !family_of(inventory, index, &context->arena, &family, fault)) {
		return false;
	}
	note_station(context, landing, index);
	for (size_t i = 0; i < family.count; i++) {
		size_t at = family.items[i];
		bool goes = i == 0 || (inventory->items[at].state == PLACE_ABOARD &&
					  !landing->stays[at]);
		if (goes && !life_has(plan, at) &&
		    !land_one(context, landing, at, plan, fault)) {
			return false;
		}
	}
	return true;
}

static void
say(struct context *context, const struct landing *landing, const size_t *items,
    size_t count, const struct life_plan *plan)
{
	char on[DAY_WORDS_SIZE];
	struct station taken = {.name = "", .turn_round_days = ASSUMED_TURN_ROUND_DAYS};
	const struct station *station =
	    landing->station == NULL ? &taken : landing->station;
	life_add_tags(context, items, count, plan, &context->out);
	text_add_format(&context->out, " landed at %s on %s", landing->to,
	    day_words(landing->on, on));
	day_t collect = station_collect(station, landing->on);
	if (collect != DAY_NEVER) {
		text_add_format(
		    &context->out, "; to be collected from %s", day_words(collect, on));
	}
	text_add(&context->out, "\n");
}

static bool
run(struct context *context, struct fault *fault)
{
	struct landing landing = {.to = options_value(context->given, "to")};
	struct life_plan plan = {0};
	size_t *items = NULL;
	bool *stays = NULL;
	size_t count = 0;
	if (landing.to[0] == '\0') {
		return fault_set(
		    fault, FAULT_INPUT, "--to: expected a station, found nothing");
	}
	if (!life_day(context, &landing.on, fault) || !life_begin(context, fault) ||
	    !range_items(context, 0, &items, &count, fault) ||
	    !life_parts(context, "without", items, count, &stays, fault) ||
	    !find_station(context, landing.to, &landing.station, fault)) {
		return false;
	}
	landing.stays = stays;
	for (size_t i = 0; i < count; i++) {
		if (!land_family(context, &landing, items[i], &plan, fault)) {
			return false;
		}
	}
	if (landing.station != NULL && !station_open(landing.station, landing.on)) {
		context_note(context, "%s is closed on that day", landing.to);
	}
	if (!life_write(context, &plan, fault)) {
		return fault_prefix(fault, "landing");
	}
	say(context, &landing, items, count, &plan);
	return true;
}

const struct command COMMAND_LAND = {
    .name = "land",
    .summary = "record that gear went ashore to a station",
    .details =
	"Its parts go with it, but for those named with --without. Gear that is ashore "
	"counts in no muster, and the winter's list no longer asks for it to be handed in. "
	"\"becket ashore\" shows what is away, \"becket return\" brings it back.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
