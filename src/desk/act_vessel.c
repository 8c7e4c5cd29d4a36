#include "book/putting.h"
#include "desk/inside.h"
#include "desk/naming.h"
#include "life/names.h"

#include <string.h>

struct act {
	struct vessel_request request;       /* its sheets and area as they are called */
	const struct vessel_change *changes; /* to be written one after the other */
	size_t count;
};

/* Replaces the sheets by their proper names, and checks that they exist. */
static bool
settle_sheets(struct desk *desk, struct vessel_change *change, struct fault *fault)
{
	const char **names =
	    arena_alloc(&desk->arena, (change->sheet_count + 1) * sizeof *names);
	for (size_t i = 0; i < change->sheet_count; i++) {
		const struct sheet *sheet = NULL;
		if (!naming_sheet(desk, change->sheets[i], &names[i], fault) ||
		    !shelf_sheet(&desk->shelf, names[i], &desk->notes, &sheet, fault)) {
			return fault_prefix(fault, FIELD "sheet");
		}
		if (words_have(names, i, names[i])) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD "sheet: %s is named twice; expected each sheet once",
			    names[i]);
		}
	}
	change->sheets = names;
	return true;
}

/* The same for the area, by the sheets she is to follow. */
static bool
settle_area(struct desk *desk, const struct vessel *known, struct vessel_change *change,
    struct fault *fault)
{
	const struct vessel told = {
	    .sheets = change->sheets, .sheet_count = change->sheet_count};
	const struct vessel *follows =
	    known == NULL || change->sheet_count > 0 ? &told : known;
	return (change->set & SAYS_AREA) == 0 ||
	       areas_settle(desk, follows, &change->area, fault) ||
	       fault_prefix(fault, FIELD "area");
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct inventory *inventory = &desk->contents.inventory;
	const char *name = act->request.change.name;
	const struct vessel *known = NULL;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		bool her = strcmp(inventory->vessels[i].name, name) == 0;
		known = her ? &inventory->vessels[i] : known;
	}
	desk_note_near(desk, "vessel", name, vessel_name_near(inventory, name));
	return settle_area(desk, known, &act->request.change, fault) &&
	       vessel_times(
		   desk, known, &act->request, &act->changes, &act->count, fault);
}

/* Reads her as she is afterwards, before the transaction is kept. */
static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	for (size_t i = 0; i < act->count; i++) {
		if (!book_put_vessel(desk->book, &act->changes[i], fault)) {
			return false;
		}
	}
	desk_read_again(desk);
	return desk_load(desk, act->request.change.name, true, fault);
}

/* The vessel, if the book has her, and those that her name may be a typing mistake
 * for. */
static const struct book_part *
known_part(struct desk *desk, const char *name)
{
	struct fault ignored = {0};
	struct word_list names = {0};
	struct book_part *part = arena_alloc(&desk->arena, sizeof *part);
	if (!desk_book(desk, &ignored) ||
	    !book_names(desk->book, BOOK_VESSELS, &desk->arena, &names, &ignored)) {
		return NULL;
	}
	size_t kept = 0;
	for (size_t i = 0; i < names.count; i++) {
		if (vessel_names_near(names.items[i], name)) {
			names.items[kept++] = names.items[i];
		}
	}
	*part = (struct book_part){.vessels = names.items, .vessel_count = kept};
	return part;
}

bool
desk_vessel(struct desk *desk, const struct vessel_request *request, struct fault *fault)
{
	struct act act = {.request = *request};
	struct vessel_change *change = &act.request.change;
	SCOPED_TEXT doing = {0};
	if (change->name[0] == '\0') {
		return fault_set(fault, FAULT_INPUT, "a vessel's name can't be blank");
	}
	text_add_format(&doing, "vessel %s", change->name);
	if (!settle_sheets(desk, change, fault) ||
	    !act_run_about(desk, known_part(desk, change->name), text_string(&doing),
		plan, write, &act, fault)) {
		return false;
	}
	return (change->set & SAYS_AREA) == 0 || change->area[0] == '\0' ||
	       areas_note(desk, desk->contents.inventory.vessels, change->area, fault);
}
