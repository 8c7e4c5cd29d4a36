#include "cli/suppose.h"

#include "cli/command.h"
#include "cli/select.h"
#include "cli/values.h"
#include "desk/stores.h"
#include "exchange/answers.h"

#include <stdlib.h>
#include <string.h>

/* A question being answered. */
struct asking {
	struct context *context;
	struct selection selection;
	struct supposed supposed;
	const char **sheets;     /* in the context's arena; room for all */
	struct rulebook **owned; /* of her sheets and the supposed ones; NULL without */
	struct vessel *vessels;  /* as they would be; in the context's arena */
	struct inventory inventory; /* with those vessels */
	const struct rulebook **rulebooks;
};

static bool
twice(const char *what, struct fault *fault)
{
	return usage_fault(fault, "becket due",
	    "found %s= more than once in --if; expected it once", what);
}

static bool
read_persons(const char *word, struct asking *asking, struct fault *fault)
{
	long persons = 0;
	if (!number_read(word, 0, 10000, &persons)) {
		return fault_set(fault, FAULT_INPUT,
		    "--if persons: expected a whole number from 0 to 10000, found "
		    "\"%.40s\"",
		    word);
	}
	asking->supposed.supposition.persons = (int)persons;
	return true;
}

static bool
read_sheet(const char *word, struct asking *asking, struct fault *fault)
{
	struct context *context = asking->context;
	const struct sheet *sheet = NULL;
	if (!shelf_sheet(
		&context->desk.shelf, word, &context->desk.notes, &sheet, fault)) {
		return fault_prefix(fault, "--if sheet");
	}
	asking->sheets[asking->supposed.supposition.sheet_count++] = word;
	return true;
}

/* What can be supposed, by the word in front of the "=". */
enum subject { SUBJECT_USE, SUBJECT_AREA, SUBJECT_PERSONS, SUBJECT_SHEET, SUBJECT_NONE };

static enum subject
subject_of(const char *value)
{
	static const char *const WORDS[] = {"use=", "area=", "persons=", "sheet="};
	for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
		if (strncmp(value, WORDS[i], strlen(WORDS[i])) == 0) {
			return (enum subject)i;
		}
	}
	return SUBJECT_NONE;
}

/* Reads one "use=commercial". */
static bool
read_one(const char *value, struct asking *asking, struct fault *fault)
{
	static const unsigned SAYS[] = {
	    SAYS_USE, SAYS_AREA, SAYS_PERSONS, SAYS_SHEETS, 0};
	struct supposition *words = &asking->supposed.supposition;
	enum subject subject = subject_of(value);
	const char *word = strchr(value, '=');
	word = word == NULL ? "" : word + 1;
	if (subject != SUBJECT_SHEET && (words->says & SAYS[subject]) != 0) {
		return twice(subject == SUBJECT_USE    ? "use"
			     : subject == SUBJECT_AREA ? "area"
						       : "persons",
		    fault);
	}
	words->says |= SAYS[subject];
	switch (subject) {
	case SUBJECT_USE:
		return use_parse(word, &words->use, fault) ||
		       fault_prefix(fault, "--if use");
	case SUBJECT_AREA:
		words->area = word;
		return true;
	case SUBJECT_PERSONS:
		return read_persons(word, asking, fault);
	case SUBJECT_SHEET:
		return read_sheet(word, asking, fault);
	case SUBJECT_NONE:
		break;
	}
	return fault_set(fault, FAULT_INPUT,
	    "--if: expected use=private|commercial, area=AREA, persons=N or sheet=NAME, found "
	    "\"%.60s\"",
	    value);
}

static bool
read_question(struct asking *asking, struct fault *fault)
{
	struct context *context = asking->context;
	const struct given_options *given = context->given;
	asking->sheets = arena_alloc(
	    &context->desk.arena, (given->count + 1) * sizeof *asking->sheets);
	struct supposed *supposed = &asking->supposed;
	supposed->supposition.sheets = asking->sheets;
	supposed->supposition.from = context->desk.today;
	size_t cursor = 0;
	for (const char *value = options_next(given, "if", &cursor); value != NULL;
	     value = options_next(given, "if", &cursor)) {
		if (!read_one(value, asking, fault)) {
			return false;
		}
	}
	asking->selection = (struct selection){
	    .base = options_value(given, "base"), .words = options_value(given, "kind")};
	return selection_settle(context, &asking->selection, fault) &&
	       value_day(given, "if-from", &supposed->supposition.from, NULL, fault);
}

/* Makes the rulebooks of boats that follow other sheets from the day on. */
static bool
suppose_sheets(struct asking *asking, struct fault *fault)
{
	struct context *context = asking->context;
	size_t count = context->desk.contents.inventory.vessel_count;
	asking->owned =
	    arena_alloc(&context->desk.arena, (count + 1) * sizeof(struct rulebook *));
	for (size_t i = 0; i < count; i++) {
		if (!desk_rulebook(
			&context->desk, &asking->vessels[i], &asking->owned[i], fault)) {
			return false;
		}
		asking->rulebooks[i] = asking->owned[i];
	}
	return true;
}

/* Makes the vessels as they would be. */
static bool
suppose_vessels(struct asking *asking, struct fault *fault)
{
	struct context *context = asking->context;
	const struct inventory *inventory = &context->desk.contents.inventory;
	size_t count = inventory->vessel_count;
	const struct supposed *supposed = &asking->supposed;
	asking->vessels =
	    arena_alloc(&context->desk.arena, (count + 1) * sizeof *asking->vessels);
	asking->rulebooks = arena_alloc(
	    &context->desk.arena, (count + 1) * sizeof(const struct rulebook *));
	for (size_t i = 0; i < count; i++) {
		vessel_suppose(&inventory->vessels[i], &supposed->supposition,
		    &context->desk.arena, &asking->vessels[i]);
		asking->rulebooks[i] = context->desk.engine.rulebooks[i];
	}
	if (supposed->supposition.sheet_count > 0 && !suppose_sheets(asking, fault)) {
		return false;
	}
	asking->inventory = *inventory;
	asking->inventory.vessels = asking->vessels;
	return true;
}

static bool
add_item(const struct asking *asking, const struct what_if *what_if, size_t item,
    struct arena *scratch, struct change_rows *rows, struct fault *fault)
{
	bool routine = options_has(asking->context->given, "routine");
	struct changes changes = {0};
	if (!changes_of_item(what_if, item, scratch, &changes, fault)) {
		return false;
	}
	for (size_t i = 0; i < changes.count; i++) {
		if (changes.items[i].routine && !routine) {
			continue;
		}
		ARRAY_ROOM(rows);
		rows->items[rows->count++] = changes.items[i];
	}
	return true;
}

static bool
gather(const struct asking *asking, struct change_rows *rows, struct fault *fault)
{
	const struct context *context = asking->context;
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct due_engine then = context->desk.engine;
	struct arena scratch = {0};
	then.inventory = &asking->inventory;
	then.rulebooks = asking->rulebooks;
	const struct what_if what_if = {.now = &context->desk.engine,
	    .then = &then,
	    .from = asking->supposed.supposition.from,
	    .today = context->desk.today};
	bool done = true;
	for (size_t i = 0; i < inventory->item_count && done; i++) {
		if (selection_has(&asking->selection, inventory, &inventory->items[i])) {
			done = add_item(asking, &what_if, i, &scratch, rows, fault);
			arena_reset(&scratch);
		}
	}
	arena_clear(&scratch);
	return done;
}

static bool
answer(struct asking *asking, struct fault *fault)
{
	struct context *context = asking->context;
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct change_rows rows = {0};
	bool done = gather(asking, &rows, fault);
	if (done && context->json) {
		answer_suppose(inventory, context->desk.today, &asking->supposed, &rows,
		    &context->out);
	} else if (done && !context_is_empty(context)) {
		report_suppose(context_style(context), context->desk.engine.kinds,
		    inventory, &asking->supposed, &rows, &context->out);
	}
	change_rows_clear(&rows);
	return done;
}

bool
suppose_run(struct context *context, struct fault *fault)
{
	struct asking asking = {.context = context};
	const char *vessel = options_value(context->given, "vessel");
	bool done = read_question(&asking, fault) &&
		    desk_engine(&context->desk, vessel, fault) &&
		    left_check_named(&context->desk, vessel, fault) &&
		    suppose_vessels(&asking, fault) && answer(&asking, fault);
	for (size_t i = 0;
	     asking.owned != NULL && i < context->desk.contents.inventory.vessel_count;
	     i++) {
		rulebook_free(asking.owned[i]);
	}
	return done;
}
