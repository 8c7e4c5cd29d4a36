/* A day in a column such as "last service", of gear that nothing asks a service of. */
#include "base/text.h"
#include "exchange/csv_inside.h"
#include "exchange/inventory_csv.h"
#include "exchange/tag_index.h"

/* A file being looked over. All borrowed. */
struct services {
	const struct inventory *inventory;
	const struct csv_rulebooks *rulebooks;
	const char *served_cell;
	struct tag_index index;
	struct complaints *complaints;
};

/* The tasks, as bits 1 << enum task, that a record of is of use to gear of a kind. */
static unsigned
tasks_asked(const struct rulebook *rulebook, const char *kind)
{
	size_t count = 0;
	unsigned tasks = 0;
	const struct rule *const *rules = rulebook_for(rulebook, kind, &count);
	for (size_t i = 0; i < count; i++) {
		tasks |= 1U << rules[i]->task | rules[i]->counts;
	}
	return tasks;
}

/* The rulebook of a row's boat, of which the book may know nothing yet. */
static const struct rulebook *
rulebook_of(
    const struct services *services, const struct csv_row *row, const struct item *item)
{
	const struct inventory *inventory = services->inventory;
	const char *name = row->change.vessel == NULL ? "" : row->change.vessel;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		bool hers = name[0] == '\0'
				? item != NULL && item->vessel == i
				: text_same_letters(inventory->vessels[i].name, name);
		if (hers) {
			return services->rulebooks->of[i];
		}
	}
	return services->rulebooks->fresh;
}

static void
add_tasks(unsigned tasks, struct text *words)
{
	for (unsigned i = 0; i < TASK_COUNT; i++) {
		if ((tasks & 1U << i) != 0) {
			text_add_format(words, "%s%s", words->length == 0 ? " (" : ", ",
			    task_word((enum task)i));
		}
	}
	text_add(words, words->length == 0 ? "" : ")");
}

static bool
check_row(struct csv_row *row, void *context, struct fault *fault)
{
	const struct services *services = context;
	(void)fault;
	if (!row->implied) {
		return true;
	}
	size_t at = tag_index_find(
	    &services->index, row->change.tag == NULL ? "" : row->change.tag);
	const struct item *item =
	    at == ITEM_NO_PARENT ? NULL : &services->inventory->items[at];
	const char *kind = row->change.kind;
	if (kind == NULL || kind[0] == '\0') {
		kind = item == NULL ? "" : item->kind;
	}
	unsigned tasks = tasks_asked(rulebook_of(services, row, item), kind);
	/* The next date that its paper states counts, whatever the sheets ask. */
	if ((tasks & 1U << TASK_SERVICE) != 0 ||
	    stamp_first(row->record.next) != DAY_NONE) {
		return true;
	}
	SCOPED_TEXT words = {0};
	add_tasks(tasks, &words);
	complain(services->complaints, row->line, services->served_cell,
	    "her sheets ask for no service of a %s, so this day would count for nothing; "
	    "say in a column task what was done%s, or keep it as a service with "
	    "--services-are-right",
	    kind, text_string(&words));
	return true;
}

bool
csv_check_services(const char *name, const struct csv_rows *rows,
    const struct inventory *inventory, const struct csv_rulebooks *rulebooks,
    struct arena *arena, struct fault *fault)
{
	SCOPED_COMPLAINTS complaints = {.arena = arena, .all = rows->complaints};
	struct services services = {
	    inventory, rulebooks, rows->served_cell, {0}, &complaints};
	tag_index_make(inventory, &services.index);
	bool done = csv_rows_each(rows, check_row, &services, fault);
	tag_index_clear(&services.index);
	return done && complaints_none(&complaints, name, fault);
}
