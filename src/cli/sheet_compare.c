#include "cli/sheet_compare.h"

#include "cli/values.h"
#include "due/suppose.h"
#include "exchange/answers.h"

/* Two sets of sheets. */
struct pair {
	const char *names[2];
	struct rulebook *rulebooks[2]; /* owned */
};

/* Gathers the sheets of a list with commas. */
static bool
read_side(struct context *context, const char *words, struct rulebook **out,
    struct fault *fault)
{
	const char *const *names = NULL;
	size_t count = 0;
	struct fault blank = {0};
	if (!value_list(&context->desk.arena, "", words, &names, &count, &blank)) {
		return fault_set(fault, blank.kind,
		    "compare: found \"%.60s\", expected the name of a sheet, or several "
		    "with commas between them",
		    words);
	}
	const struct sheet **sheets =
	    arena_alloc(&context->desk.arena, count * sizeof(const struct sheet *));
	for (size_t i = 0; i < count; i++) {
		if (!shelf_sheet(&context->desk.shelf, names[i], &context->desk.notes,
			&sheets[i], fault)) {
			return false;
		}
	}
	return rulebook_new(sheets, count, out, fault);
}

static bool
compare_gear(struct context *context, const struct pair *pair, const char *vessel,
    struct fault *fault)
{
	context->desk.left_gear = LEFT_NONE;
	if (!desk_open(&context->desk, BOOK_READ, fault) ||
	    !desk_engine(&context->desk, vessel, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	const struct rulebook *const first[] = {pair->rulebooks[0]};
	const struct rulebook *const second[] = {pair->rulebooks[1]};
	struct due_engine engines[2] = {context->desk.engine, context->desk.engine};
	const struct supposition either = {
	    .from = context->desk.today, .says = SAYS_SHEETS};
	struct vessel seen = {0};
	struct inventory over = *inventory;
	vessel_suppose(&inventory->vessels[0], &either, &context->desk.arena, &seen);
	over.vessels = &seen;
	engines[0].inventory = &over;
	engines[1].inventory = &over;
	engines[0].rulebooks = first;
	engines[1].rulebooks = second;
	const struct what_if what_if = {.now = &engines[0],
	    .then = &engines[1],
	    .from = context->desk.today,
	    .today = context->desk.today};
	struct change_rows rows = {0};
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (!changes_add(&what_if, i, true, &context->desk.arena, &rows, fault)) {
			return false;
		}
	}
	if (context->json) {
		answer_compare_gear(inventory, pair->names, &rows, &context->out);
	} else {
		report_compare_gear(
		    context_style(context), inventory, pair->names, &rows, &context->out);
	}
	return true;
}

static bool
compare_kinds(struct context *context, const struct pair *pair, const char *words,
    struct fault *fault)
{
	const struct kinds *kinds = NULL;
	const struct rulebook *const sides[2] = {pair->rulebooks[0], pair->rulebooks[1]};
	struct comparison comparison = {0};
	struct line_list lines[2] = {{0}, {0}};
	const char *kind = NULL;
	if (!desk_kinds(&context->desk, &kinds, fault)) {
		return false;
	}
	if (words != NULL) {
		const struct kind *meant = kinds_tell(kinds, words, fault);
		if (meant == NULL) {
			return fault_prefix(fault, "--kind");
		}
		kind = meant->id;
	}
	for (size_t i = 0; i < 2 && kind != NULL; i++) {
		lines_for_kind(sides[i], kind, &context->desk.arena, &lines[i]);
	}
	compare_rules(sides, kinds, kind, &context->desk.arena, &comparison);
	if (context->json) {
		answer_compare_rules(pair->names, &comparison, lines, &context->out);
		return true;
	}
	report_compare_rules(
	    context_style(context), pair->names, &comparison, kind, lines, &context->out);
	return true;
}

bool
sheet_compare(struct context *context, const char *a, const char *b, struct fault *fault)
{
	const char *vessel = options_value(context->given, "vessel");
	const char *kind = options_value(context->given, "kind");
	struct pair pair = {{a, b}, {NULL, NULL}};
	if (vessel != NULL && kind != NULL) {
		return usage_fault(fault, "becket sheet",
		    "found --kind with --vessel; expected one of them");
	}
	bool done = read_side(context, a, &pair.rulebooks[0], fault) &&
		    read_side(context, b, &pair.rulebooks[1], fault) &&
		    (vessel != NULL ? compare_gear(context, &pair, vessel, fault)
				    : compare_kinds(context, &pair, kind, fault));
	rulebook_free(pair.rulebooks[0]);
	rulebook_free(pair.rulebooks[1]);
	return done;
}
