/* becket land */
#include "cli/at_station.h"
#include "cli/command.h"
#include "cli/giving_up.h"
#include "cli/life_plan.h"
#include "cli/ranges.h"
#include "gear/going.h"
#include "life/family.h"
#include "report/tags.h"
#include "report/words.h"
#include "winter/asked.h"

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
    {.name = "for",
	.argument = "service|inspect|weigh|test|renew",
	.help = "what is asked of the station; as the winter's list has it when not told",
	.repeatable = true},
    {.name = "note", .argument = "WORDS", .help = "anything else"},
};

/* What is being landed. */
struct landing {
	const char *to;
	const struct station *station; /* NULL when it is not in the book */
	day_t on;
	const bool *stays; /* parts that stay aboard */
	unsigned told;     /* what is asked, as a set of tasks; 0 as the list has it */
	/* of each vessel of the book, made when first asked for; NULL before */
	struct shore_list **lists;
	struct arena scratch; /* owned */
};

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

/* The shore list of a vessel by herself: the trips that boats share change nothing of what is
 * asked. */
static bool
list_of(struct context *context, struct landing *landing, size_t vessel,
    const struct shore_list **out, struct fault *fault)
{
	const struct book_contents *contents = &context->desk.contents;
	if (landing->lists == NULL) {
		landing->lists = arena_alloc(&context->desk.arena,
		    contents->inventory.vessel_count * sizeof *landing->lists);
	}
	struct shore_list **list = &landing->lists[vessel];
	if (*list == NULL) {
		*list = arena_alloc(&context->desk.arena, sizeof **list);
		if (!winter_plan(&context->desk.engine, vessel, contents->stations,
			contents->station_count, 0, landing->on, &context->desk.arena,
			*list, fault)) {
			return false;
		}
	}
	*out = *list;
	return true;
}

/* What is asked of the station: as told of the item itself, else as the list has it. */
static bool
find_asked(struct context *context, struct landing *landing, size_t index, bool inside,
    unsigned *out, struct fault *fault)
{
	const struct shore_list *list = NULL;
	if (landing->told != 0) {
		*out = inside ? 0 : landing->told;
		return true;
	}
	arena_reset(&landing->scratch);
	return desk_engine(&context->desk, NULL, fault) &&
	       list_of(context, landing,
		   context->desk.contents.inventory.items[index].vessel, &list, fault) &&
	       asked_of_station(&context->desk.engine, list, index, inside, landing->on,
		   &landing->scratch, out, fault);
}

static bool
land_one(struct context *context, struct landing *landing, size_t index, bool inside,
    struct life_plan *plan, struct fault *fault)
{
	struct life_step step = {.item = index, .moves = true};
	step.movement = life_movement(MOVE_LANDED, landing->on, life_note(context));
	step.movement.station = landing->to;
	if (!find_asked(context, landing, index, inside, &step.movement.asked, fault)) {
		return false;
	}
	step.change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON,
	    .state = PLACE_LANDED,
	    .landed_to = landing->to,
	    .landed_on = landing->on,
	};
	life_add(context, plan, &step);
	return true;
}

/* The item and those of its parts that are aboard with it. */
static bool
land_family(struct context *context, struct landing *landing, size_t index,
    struct life_plan *plan, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct family family = {0};
	if (!check_state(&inventory->items[index], fault)) {
		return false;
	}
	family_of(inventory, index, &context->desk.arena, &family);
	note_station(context, landing->station, index);
	for (size_t i = 0; i < family.count; i++) {
		size_t at = family.items[i];
		bool goes = i == 0 || (inventory->items[at].state == PLACE_ABOARD &&
					  !landing->stays[at]);
		if (goes && !life_has(plan, at) &&
		    !land_one(context, landing, at, i > 0, plan, fault)) {
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
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct going going =
	    going_of(inventory, inventory->items[items[0]].vessel, landing->on);
	day_t collect = going_collect(&going, station, landing->on);
	if (collect != DAY_NEVER) {
		text_add_format(
		    &context->out, "; to be collected from %s", day_words(collect, on));
	}
	text_add(&context->out, "\n");
}

/* "Asked for: service of LJ-1 to LJ-3; renewal of FH-1". */
static void
say_asked(struct context *context, const struct life_plan *plan)
{
	bool any = false;
	for (int task = 0; task < TASK_COUNT; task++) {
		struct tag_list list = {.out = &context->out};
		bool begun = false;
		for (size_t i = 0; i < plan->count; i++) {
			const struct life_step *step = &plan->items[i];
			if ((step->movement.asked & 1U << task) == 0) {
				continue;
			}
			if (!begun) {
				text_add_format(&context->out, "%s%s of ",
				    any ? "; " : "Asked for: ",
				    task_noun((enum task)task));
			}
			begun = any = true;
			tag_list_add(&list,
			    context->desk.contents.inventory.items[step->item].tag);
		}
		tag_list_end(&list);
	}
	text_add(&context->out, any ? "\n" : "");
}

static bool
land_all(struct context *context, struct landing *landing, const size_t *items,
    size_t count, struct life_plan *plan, struct fault *fault)
{
	for (size_t i = 0; i < count; i++) {
		if (!land_family(context, landing, items[i], plan, fault)) {
			return false;
		}
	}
	return true;
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
	if (!tasks_told(context, &landing.told, fault) ||
	    !life_day(context, &landing.on, fault) || !life_begin(context, fault) ||
	    !range_items(context, 0, &items, &count, fault) ||
	    !life_parts(context, "without", items, count, &stays, fault) ||
	    !station_by_name(context, "to", landing.to, &landing.station, fault)) {
		return false;
	}
	landing.stays = stays;
	bool landed = land_all(context, &landing, items, count, &plan, fault);
	arena_clear(&landing.scratch);
	if (!landed) {
		return false;
	}
	if (landing.station != NULL && station_said_closed(landing.station, landing.on)) {
		desk_note(&context->desk, "%s is closed on that day", landing.to);
	}
	if (!given_up_landed(context, landing.to, items, count, fault) ||
	    !life_write(context, &plan, fault)) {
		return fault_prefix(fault, "landing");
	}
	say(context, &landing, items, count, &plan);
	say_asked(context, &plan);
	return true;
}

const struct command COMMAND_LAND = {
    .name = "land",
    .summary = "record that gear went ashore to a station",
    .details =
	"Its parts go with it, but for those named with --without. Gear that is ashore "
	"counts in no muster, and the winter's list no longer asks for it to be handed in. "
	"What is asked of the station is kept with the landing: what --for names, else what "
	"the winter's list has a station do, and whatever of its work is not in date. "
	"\"becket ashore\" shows what is away, \"becket return\" brings it back.",
    .examples = "land LR-1 --to \"Varne Sound Raft Loft\"\n"
		"the raft is handed in today\n"
		"land LJ-1..LJ-3 --to \"Holm Quay Safety Service\" --on yesterday\n"
		"three jackets were, yesterday\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
