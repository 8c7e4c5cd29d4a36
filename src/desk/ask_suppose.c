#include "desk/inside.h"
#include "desk/naming.h"
#include "desk/stores.h"

/* The boats as they would be. */
struct supposing {
	const struct suppose_asked *asked;
	struct gear_sieve sieve;
	struct inventory inventory;
	const struct rulebook **rulebooks; /* in the desk's arena */
	struct rulebook **owned; /* of the sheets supposed, one a vessel; NULL without */
};

static bool
settle_sheets(struct desk *desk, struct supposition *words, struct fault *fault)
{
	const char **names =
	    arena_alloc(&desk->arena, (words->sheet_count + 1) * sizeof *names);
	for (size_t i = 0; i < words->sheet_count; i++) {
		const struct sheet *sheet = NULL;
		if (!naming_sheet(desk, words->sheets[i], &names[i], fault) ||
		    !shelf_sheet(&desk->shelf, names[i], &desk->notes, &sheet, fault)) {
			return fault_prefix(fault, FIELD "if sheet");
		}
	}
	words->sheets = names;
	return true;
}

/* Puts the area as the sheets have it that are supposed, else those of the first of the boats that
 * have it. */
static bool
settle_area(struct desk *desk, struct supposition *words, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct vessel told = {
	    .sheets = words->sheets, .sheet_count = words->sheet_count};
	size_t count = words->sheet_count > 0 ? 1 : inventory->vessel_count;
	for (size_t i = 0; i < count && (words->says & SAYS_AREA) != 0; i++) {
		const struct vessel *follows =
		    words->sheet_count > 0 ? &told : &inventory->vessels[i];
		if (!areas_settle(desk, follows, &words->area, fault)) {
			return fault_prefix(fault, FIELD "if area");
		}
	}
	return true;
}

/* Makes the rulebooks of boats that follow other sheets from the day on. */
static bool
suppose_sheets(struct desk *desk, struct supposing *supposing, struct fault *fault)
{
	size_t count = supposing->inventory.vessel_count;
	supposing->owned =
	    arena_alloc(&desk->arena, (count + 1) * sizeof(struct rulebook *));
	for (size_t i = 0; i < count; i++) {
		if (!desk_rulebook(desk, &supposing->inventory.vessels[i],
			&supposing->owned[i], fault)) {
			return false;
		}
		supposing->rulebooks[i] = supposing->owned[i];
	}
	return true;
}

static bool
suppose_vessels(struct desk *desk, struct supposing *supposing, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct supposition *words = &supposing->asked->supposed.supposition;
	size_t count = inventory->vessel_count;
	struct vessel *vessels = arena_alloc(&desk->arena, (count + 1) * sizeof *vessels);
	supposing->rulebooks =
	    arena_alloc(&desk->arena, (count + 1) * sizeof(const struct rulebook *));
	for (size_t i = 0; i < count; i++) {
		vessel_suppose(&inventory->vessels[i], words, &desk->arena, &vessels[i]);
		supposing->rulebooks[i] = desk->engine.rulebooks[i];
	}
	supposing->inventory = *inventory;
	supposing->inventory.vessels = vessels;
	return words->sheet_count == 0 || suppose_sheets(desk, supposing, fault);
}

static void
gather(struct desk *desk, const struct supposing *supposing, struct change_rows *rows)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct due_engine then = desk->engine;
	then.inventory = &supposing->inventory;
	then.rulebooks = supposing->rulebooks;
	const struct what_if what_if = {.now = &desk->engine,
	    .then = &then,
	    .from = supposing->asked->supposed.supposition.from,
	    .today = desk->today};
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (gear_passes(&supposing->sieve, inventory, &inventory->items[i])) {
			changes_add(
			    &what_if, i, supposing->asked->routine, &desk->arena, rows);
		}
	}
}

bool
desk_suppose(struct desk *desk, struct suppose_asked *asked, struct change_rows *out,
    struct fault *fault)
{
	struct supposing supposing = {.asked = asked};
	*out = (struct change_rows){0};
	struct supposition *words = &asked->supposed.supposition;
	bool done = settle_sheets(desk, words, fault) &&
		    gear_sieve(desk, &asked->gear, &supposing.sieve, fault) &&
		    ask_engine(desk, asked->gear.vessel, LEFT_NONE, fault) &&
		    left_check_named(desk, asked->gear.vessel, fault) &&
		    settle_area(desk, words, fault) &&
		    suppose_vessels(desk, &supposing, fault);
	if (done) {
		gather(desk, &supposing, out);
	}
	for (size_t i = 0;
	     supposing.owned != NULL && i < supposing.inventory.vessel_count; i++) {
		rulebook_free(supposing.owned[i]);
	}
	return done;
}
