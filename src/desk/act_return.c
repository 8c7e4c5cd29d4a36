#include "desk/inside.h"
#include "desk/ranges.h"
#include "exchange/returns_csv.h"
#include "life/family.h"
#include "report/tags.h"
#include "report/words.h"

#include <string.h>

struct act {
	const struct return_request *request;
	struct return_outcome *out;
};

/* The renewed parts of all that is named, each given to the item it is inside of. */
static void
share_renewed(struct desk *desk, const struct homecoming *common, const size_t *items,
    struct return_outcome *bag)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; i < bag->count; i++) {
		struct homecoming *home = &bag->homes[i];
		struct renewed_part *own =
		    arena_alloc(&desk->arena, (common->renewed_count + 1) * sizeof *own);
		home->renewed = own;
		home->renewed_count = 0;
		for (size_t j = 0; j < common->renewed_count; j++) {
			size_t part = inventory_tagged(inventory, common->renewed[j].tag);
			if (part != ITEM_NO_PARENT &&
			    family_has(inventory, items[i], part)) {
				own[home->renewed_count++] = common->renewed[j];
			}
		}
	}
}

/* The kept parts, likewise. */
static void
share_kept(struct desk *desk, const struct homecoming *common, const size_t *items,
    struct return_outcome *bag)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; i < bag->count; i++) {
		struct homecoming *home = &bag->homes[i];
		const char **own =
		    arena_alloc(&desk->arena, (common->kept_count + 1) * sizeof *own);
		home->kept = own;
		home->kept_count = 0;
		for (size_t j = 0; j < common->kept_count; j++) {
			size_t part = inventory_tagged(inventory, common->kept[j]);
			if (part != ITEM_NO_PARENT &&
			    family_has(inventory, items[i], part)) {
				own[home->kept_count++] = common->kept[j];
			}
		}
	}
}

/* Every part that was named must be inside something that was. */
static bool
check_parts(struct desk *desk, const struct homecoming *common, const size_t *items,
    size_t count, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t j = 0; j < common->renewed_count + common->kept_count; j++) {
		bool renewed = j < common->renewed_count;
		const char *tag = renewed ? common->renewed[j].tag
					  : common->kept[j - common->renewed_count];
		size_t part = inventory_tagged(inventory, tag);
		bool inside = false;
		for (size_t i = 0; part != ITEM_NO_PARENT && i < count; i++) {
			inside = inside || family_has(inventory, items[i], part);
		}
		if (!inside) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD "%s: %s is no part of what is named",
			    renewed ? "renewed" : "keep", tag);
		}
	}
	return true;
}

static bool
bag_of_tags(struct desk *desk, const struct return_request *request,
    struct return_outcome *bag, struct fault *fault)
{
	const struct homecoming *common = &request->common;
	size_t *items = NULL;
	size_t count = 0;
	if (!range_items(desk, &request->tags, &items, &count, fault) ||
	    !check_parts(desk, common, items, count, fault)) {
		return false;
	}
	bag->homes = arena_alloc(&desk->arena, (count + 1) * sizeof *bag->homes);
	for (size_t i = 0; i < count; i++) {
		bag->homes[i] = *common;
		bag->homes[i].tag = desk->contents.inventory.items[items[i]].tag;
	}
	bag->count = count;
	share_renewed(desk, common, items, bag);
	share_kept(desk, common, items, bag);
	return true;
}

/* A renewed part that may be the same one still is taken to be that, which makes no date later,
 * unless what is told of it is of another one. Its tag is added to the list. */
static bool
settle_part(struct desk *desk, struct renewed_part *part, struct tag_list *refitted,
    struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t at = inventory_tagged(inventory, part->tag);
	bool told = part->serial[0] != '\0' || part->made.precision != STAMP_NONE;
	if (at == ITEM_NO_PARENT || told) {
		return true;
	}
	const struct item *item = &inventory->items[at];
	if (!may_be_refitted(desk, item->kind, item->vessel, &part->refit, fault)) {
		return false;
	}
	if (!part->refit) {
		return true;
	}
	tag_list_add(refitted, part->tag);
	return refit_check_mark(
	    item, part->expires.precision != STAMP_NONE, "renewed", fault);
}

/* Settles which of the renewed parts are refitted, and says so. */
static bool
settle_renewed(struct desk *desk, struct return_outcome *bag, struct fault *fault)
{
	SCOPED_TEXT tags = {0};
	struct tag_list refitted = {.out = &tags};
	for (size_t i = 0; i < bag->count; i++) {
		struct homecoming *home = &bag->homes[i];
		struct renewed_part *own =
		    arena_alloc(&desk->arena, (home->renewed_count + 1) * sizeof *own);
		for (size_t j = 0; j < home->renewed_count; j++) {
			own[j] = home->renewed[j];
			if (!settle_part(desk, &own[j], &refitted, fault)) {
				return false;
			}
		}
		home->renewed = own;
	}
	tag_list_end(&refitted);
	if (tags.length > 0) {
		desk_note(desk,
		    "%s: recorded as refitted, the same one with something new in it, as a "
		    "battery, whose age, service and tests go on; if it is another one, "
		    "\"becket book undo\" takes this back, and it is returned with its serial "
		    "number, " FIELD "renewed TAG=DATE,serial:NUMBER, or without " FIELD
		    "renewed and then \"becket record renew TAG " FIELD "on DAY " FIELD
		    "new " FIELD "expires DATE\"",
		    text_string(&tags));
	}
	return true;
}

/* Tasks on record since the item was landed. */
static unsigned
recorded_ashore(const struct item *item)
{
	unsigned tasks = 0;
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		tasks |= item->landed_on != DAY_NONE &&
				 stamp_first(record->on) >= item->landed_on
			     ? 1U << record->task
			     : 0;
	}
	return tasks;
}

/* What was asked of the station and is not recorded as done; nothing for what did not
 * come back. */
static unsigned
left_open(const struct desk *desk, const struct life_row *row)
{
	const struct item *item = &desk->contents.inventory.items[row->item];
	bool back = row->moves && row->movement.move == MOVE_RETURNED;
	unsigned done = life_recorded(row) | recorded_ashore(item);
	return back ? homecoming_asked(item) & ~done : 0;
}

/* "LJ-1 to LJ-3: the station was asked for service ...", a remark a task. What a station renewed
 * of a thing that it services is mostly what is in it. */
static bool
note_open(struct desk *desk, const struct life_plan *plan, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (!desk_kinds(desk, &kinds, fault)) {
		return false;
	}
	for (int task = 0; task < TASK_COUNT; task++) {
		SCOPED_TEXT tags = {0};
		struct tag_list list = {.out = &tags};
		bool serviced = false;
		for (size_t i = 0; i < plan->count; i++) {
			const struct life_row *row = &plan->items[i];
			const struct item *item =
			    &desk->contents.inventory.items[row->item];
			if ((left_open(desk, row) & 1U << task) != 0) {
				const struct kind *kind = kinds_find(kinds, item->kind);
				serviced =
				    serviced || (kind != NULL && kind->service_ashore);
				tag_list_add(&list, item->tag);
			}
		}
		tag_list_end(&list);
		if (tags.length > 0) {
			desk_note(desk,
			    "%s was asked of the station and is not recorded as done, so it "
			    "stays open: %s; if it was done, \"becket record %s\" enters it%s",
			    task_noun((enum task)task), text_string(&tags),
			    task_word((enum task)task),
			    task == TASK_RENEW && serviced
				? ", with " FIELD
				  "refit and the new mark for the same one "
				  "with a new battery or the like, with " FIELD
				  "serial for another one"
				: "");
		}
	}
	return true;
}

/* What passed with nothing asked for and nothing recorded: a person might think it was
 * serviced. */
static void
note_nothing(struct desk *desk, const struct life_plan *plan)
{
	SCOPED_TEXT tags = {0};
	struct tag_list list = {.out = &tags};
	for (size_t i = 0; i < plan->count; i++) {
		const struct life_row *row = &plan->items[i];
		bool passed = row->movement.result == RESULT_PASSED ||
			      row->movement.result == RESULT_PASSED_SHORTER;
		const struct item *item = &desk->contents.inventory.items[row->item];
		if (passed && row->record_count == 0 && homecoming_asked(item) == 0) {
			tag_list_add(&list, item->tag);
		}
	}
	tag_list_end(&list);
	if (tags.length > 0) {
		desk_note(desk,
		    "nothing is recorded as done to %s; if something was, \"becket record\" "
		    "enters it",
		    text_string(&tags));
	}
}

/* What came back and is still not in date must not be taken for done. */
static bool
note_not_in_date(struct desk *desk, const char *tag, struct fault *fault)
{
	struct obligation *obligations = NULL;
	size_t count = 0;
	size_t item = 0;
	if (!desk_find_tag(desk, tag, &item, fault)) {
		return false;
	}
	due_of_item(&desk->engine, item, desk->today, &desk->arena, &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].state != STATE_IN_DATE && !obligations[i].routine) {
			desk_note(desk,
			    "%s is not in date: %s %s; \"becket why %s\" "
			    "says why",
			    tag, task_word(obligations[i].task),
			    state_word(obligations[i].state), tag);
		}
	}
	return true;
}

/* What came back: named one by one, read from a file, or all as the request says. */
static bool
gather(struct desk *desk, const struct return_request *request,
    struct return_outcome *out, struct fault *fault)
{
	if (request->csv != NULL) {
		const struct list_source source = {.file = request->csv,
		    .how = request->how,
		    .order = request->order,
		    .inventory = &desk->contents.inventory,
		    .arena = &desk->arena,
		    .notes = &desk->notes};
		return csv_read_returns(
		    &source, &request->common, &out->homes, &out->count, fault);
	}
	if (request->bag_count == 0) {
		return bag_of_tags(desk, request, out, fault);
	}
	out->count = request->bag_count;
	out->homes = arena_alloc(&desk->arena, out->count * sizeof *out->homes);
	memcpy(out->homes, request->bag, out->count * sizeof *out->homes);
	return true;
}

/* Tags that outlive the loaded book, which is read again once it is written. */
static void
keep_tags(struct desk *desk, struct return_outcome *out)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; i < out->count; i++) {
		out->homes[i].tag = arena_string(&desk->arena, out->homes[i].tag);
	}
	for (size_t i = 0; i < out->plan.count; i++) {
		struct life_row *row = &out->plan.items[i];
		row->tag = arena_string(&desk->arena, inventory->items[row->item].tag);
		for (int task = 0; task < TASK_COUNT; task++) {
			struct word_list *tags = &out->recorded[task];
			if ((life_recorded(row) & 1U << task) != 0) {
				ARENA_ADD(&desk->arena, tags, row->tag);
			}
		}
	}
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	struct return_outcome *out = act->out;
	*out = (struct return_outcome){0};
	struct life_planning planning = {
	    &desk->contents.inventory, &desk->arena, &desk->notes, &out->plan};
	desk_note_future(desk, "on", stamp_of_day(act->request->common.on));
	if (!gather(desk, act->request, out, fault) ||
	    !settle_renewed(desk, out, fault)) {
		return false;
	}
	for (size_t i = 0; i < out->count; i++) {
		size_t item = 0;
		if (!desk_find_tag(desk, out->homes[i].tag, &item, fault) ||
		    !come_back(&planning, &out->homes[i], item, fault)) {
			return false;
		}
	}
	keep_tags(desk, out);
	return true;
}

/* The book is read again and remarked on before the transaction is kept: nothing can fail
 * after that. */
static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	const struct return_outcome *out = act->out;
	if (!plan_write(desk, &out->plan, fault)) {
		return false;
	}
	if (!note_open(desk, &out->plan, fault)) {
		return false;
	}
	note_nothing(desk, &out->plan);
	desk_read_again(desk);
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	for (size_t i = 0; i < out->count; i++) {
		if (!note_not_in_date(desk, out->homes[i].tag, fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_return(struct desk *desk, const struct return_request *request,
    struct return_outcome *out, struct fault *fault)
{
	struct act act = {request, out};
	struct word_list tags = {0};
	for (size_t i = 0; i < request->bag_count; i++) {
		ARENA_ADD(&desk->arena, &tags, request->bag[i].tag);
	}
	/* what a file names is not among the tags */
	return act_run_about(desk,
	    request->csv != NULL
		? NULL
		: range_part(desk, request->bag_count > 0 ? &tags : &request->tags, NULL),
	    "returning", plan, write, &act, fault);
}
