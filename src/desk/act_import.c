#include "desk/inside.h"
#include "exchange/tag_index.h"

#include <stdlib.h>
#include <string.h>

struct act {
	const struct import_request *request;
	struct import_outcome *out;
	/* owned: what was read, which a run changes, and its words, which are given back once
	 * all is written, before the journal is */
	struct csv_rows rows;
	struct arena words;
	bool fresh; /* as they were read */
};

static void
forget_rows(struct act *act)
{
	csv_rows_clear(&act->rows);
	arena_clear(&act->words);
}

/* Asks about a doubt on the list as a whole; it passes when a person said that the list
 * is right. */
static bool
ask_all_the_same(struct desk *desk, bool passed, struct fault *fault)
{
	const struct fault doubted = *fault;
	if (passed || doubted.kind != FAULT_INPUT) {
		return passed;
	}
	*fault = (struct fault){0};
	return desk_ask(desk, doubted.text, doubted.text,
	    "the list has to be mended, so nothing is written", fault);
}

/* A "last service" of gear that is not serviced is refused, not kept to no purpose. */
static bool
check_services(struct desk *desk, const struct import_request *request,
    const struct csv_rows *rows, struct fault *fault)
{
	static const char *const FIRST[] = {"practice"};
	const struct vessel vessel = {.name = "", .sheets = FIRST, .sheet_count = 1};
	struct rulebook *fresh = NULL;
	if (request->services_right || !rows->implying) {
		return true;
	}
	bool loaded = desk->contents.inventory.vessel_count > 0;
	if ((loaded && !desk_engine(desk, NULL, fault)) ||
	    !desk_rulebook(desk, &vessel, &fresh, fault)) {
		return false;
	}
	const struct csv_rulebooks rulebooks = {desk->engine.rulebooks, fresh};
	bool done = csv_check_services(request->name, rows, &desk->contents.inventory,
	    &rulebooks, &desk->arena, fault);
	rulebook_free(fresh);
	return ask_all_the_same(desk, done, fault);
}

static bool
read_rows(struct desk *desk, struct act *act, struct fault *fault)
{
	const struct import_request *request = act->request;
	const struct kinds *kinds = NULL;
	const struct text *bytes = request->bytes;
	const struct csv_source source = {.name = request->name,
	    .bytes = bytes == NULL ? NULL : text_string(bytes),
	    .spool = request->spool,
	    .length = bytes == NULL ? request->spool->length : bytes->length};
	forget_rows(act);
	if (request->options.complaints != NULL) {
		text_reset(request->options.complaints);
	}
	act->fresh = true;
	return desk_kinds(desk, &kinds, fault) &&
	       csv_read_inventory(
		   &source, kinds, &request->options, &act->words, &act->rows, fault);
}

/* Compares the rows with the book, with nothing where there is no book. */
static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct import_request *request = act->request;
	const struct inventory *inventory = &desk->contents.inventory;
	struct csv_rows *rows = &act->rows;
	const struct serial_answers answers = {
	    .right = request->said.right, .again = request->said.again};
	spool_clear(&act->out->words);
	act->out->effect = (struct csv_effect){0};
	if (!act->fresh && !read_rows(desk, act, fault)) {
		return false;
	}
	act->fresh = false;
	text_add(&desk->notes, text_string(&rows->notes));
	if (!import_remarks(desk, rows, fault) ||
	    !csv_find_tags(request->name, rows, inventory, &act->words, fault) ||
	    !import_names(desk, request, rows, fault) ||
	    !import_renewals(desk, request, rows, fault) ||
	    !ask_all_the_same(desk,
		csv_check_serials(
		    request->name, rows, inventory, answers, &act->words, fault),
		fault) ||
	    !check_services(desk, request, rows, fault)) {
		return false;
	}
	return csv_compare(rows, inventory, request->options.currency, &act->out->effect,
	    &act->out->words, fault);
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct import_answers *answers = act->request->answers;
	bool written = import_write(desk, &act->rows, fault) &&
		       (answers == NULL || import_answers_write(desk, answers, fault));
	arena_clear(&act->words);
	return written;
}

bool
desk_import(struct desk *desk, const struct import_request *request,
    struct import_outcome *out, struct fault *fault)
{
	struct import_request whole = *request;
	struct act act = {.request = &whole, .out = out};
	SCOPED_TEXT doing = {0};
	text_add_format(&doing, "importing %s", request->name);
	if (!request->ask_again && !import_answers_use(desk, &whole.options, fault)) {
		return false;
	}
	/* read before the book is made: a bad file begins no book */
	bool done = read_rows(desk, &act, fault);
	const struct book_part *about =
	    done ? import_part(desk, &whole, &act.rows) : NULL;
	/* where it is read again, what it says is not told twice */
	whole.options.doubts = NULL;
	if (done && request->dry) {
		done = desk_has_book(desk)
			   ? act_plan_about(desk, about, plan, &act, fault)
			   : plan(desk, &act, fault);
	} else if (done) {
		done = act_run_about(
		    desk, about, text_string(&doing), plan, write, &act, fault);
	}
	desk->written = NULL;
	forget_rows(&act);
	return done;
}
