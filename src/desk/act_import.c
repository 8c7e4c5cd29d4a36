#include "desk/inside.h"
#include "exchange/tag_index.h"

#include <stdlib.h>
#include <string.h>

struct act {
	const struct import_request *request;
	struct import_outcome *out;
	/* owned: what was read, which a run changes, and its words. Given back once all is
	 * written, before the journal is */
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

static int
by_day(const void *a, const void *b)
{
	const struct csv_row *row_a = *(const struct csv_row *const *)a;
	const struct csv_row *row_b = *(const struct csv_row *const *)b;
	day_t day_a = stamp_first(row_a->record.on);
	day_t day_b = stamp_first(row_b->record.on);
	if (day_a != day_b) {
		return day_a < day_b ? -1 : 1;
	}
	return row_a->line < row_b->line ? -1 : 1;
}

static bool
has_renewals(const struct csv_rows *rows)
{
	for (size_t i = 0; i < rows->count; i++) {
		if (rows->items[i].has_record &&
		    rows->items[i].record.task == TASK_RENEW) {
			return true;
		}
	}
	return false;
}

/* Adds the rows' records, the oldest first. */
static bool
write_records(struct desk *desk, const struct csv_rows *rows, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	const struct csv_row **dated =
	    arena_alloc(&arena, (rows->count + 1) * sizeof(const struct csv_row *));
	struct tagged_record *told =
	    arena_alloc(&arena, (rows->count + 1) * sizeof *told);
	size_t count = 0;
	for (size_t i = 0; i < rows->count; i++) {
		if (rows->items[i].has_record) {
			dated[count++] = &rows->items[i];
		}
	}
	qsort(dated, count, sizeof(const struct csv_row *), by_day);
	for (size_t i = 0; i < count; i++) {
		told[i] = (struct tagged_record){dated[i]->change.tag, &dated[i]->record};
	}
	size_t wrong = count;
	if (book_add_records(desk->book, told, count, &wrong, fault)) {
		return true;
	}
	return wrong == count ? false
			      : fault_prefix(fault, "line %zu", dated[wrong]->line);
}

/* A row that says another boat or another state than the book tells of a movement, on the
 * day the book learns of it. */
static bool
write_movement(struct desk *desk, const struct csv_row *row, const struct item *item,
    struct fault *fault)
{
	const struct item_change *change = &row->change;
	const char *vessel = desk->contents.inventory.vessels[item->vessel].name;
	enum move move = MOVE_CARRIED;
	bool carried = (change->set & 1U << FIELD_VESSEL) != 0 &&
		       strcmp(change->vessel, vessel) != 0;
	struct movement movement = life_movement(MOVE_CARRIED, desk->today, "");
	movement.vessel = carried ? change->vessel : vessel;
	if (carried && !book_add_movement(desk->book, change->tag, &movement, fault)) {
		return false;
	}
	if (!life_state_move(item, change, &move)) {
		return true;
	}
	movement.move = move;
	movement.because = change->because;
	movement.station = move == MOVE_LANDED ? change->landed_to : item->landed_to;
	return book_add_movement(desk->book, change->tag, &movement, fault);
}

static bool
write_movements(struct desk *desk, const struct csv_rows *rows, struct fault *fault)
{
	struct tag_index index = {0};
	tag_index_make(&desk->contents.inventory, &index);
	bool written = true;
	for (size_t i = 0; written && i < rows->count; i++) {
		const struct csv_row *row = &rows->items[i];
		size_t at = tag_index_find(&index, row->change.tag);
		if (at != ITEM_NO_PARENT && !row->further) {
			written = write_movement(
			    desk, row, &desk->contents.inventory.items[at], fault);
		}
	}
	tag_index_clear(&index);
	return written;
}

static bool
put_items(
    struct desk *desk, const struct csv_rows *rows, size_t *wrong, struct fault *fault)
{
	return book_put_items_apart(desk->book, &rows->items[0].change,
	    sizeof rows->items[0], rows->count, wrong, fault);
}

/* Takes the serial numbers out of the rows that set one; `held` is set to which these are. */
static void
hold_serials(struct csv_rows *rows, bool *held)
{
	for (size_t i = 0; i < rows->count; i++) {
		unsigned *set = &rows->items[i].change.set;
		held[i] = (*set & 1U << FIELD_SERIAL) != 0;
		*set &= ~(1U << FIELD_SERIAL);
	}
}

/* Puts them back. */
static void
give_serials(struct csv_rows *rows, const bool *held)
{
	for (size_t i = 0; i < rows->count; i++) {
		rows->items[i].change.set |= held[i] ? 1U << FIELD_SERIAL : 0;
	}
}

/* Writes all items, then their records; then, where a renewal has put a new thing in an
 * old place, that row's dates and serial number again, for a renewal clears them. The
 * number of the new thing is not written before that, so that it is not kept as the old
 * one's. */
static bool
write_rows(struct desk *desk, struct csv_rows *rows, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	size_t wrong = 0;
	if (rows->count == 0) {
		return true;
	}
	bool renewals = has_renewals(rows);
	bool *held = arena_alloc(&arena, renewals ? rows->count : 1);
	if (renewals) {
		hold_serials(rows, held);
	}
	bool put = put_items(desk, rows, &wrong, fault);
	if (renewals) {
		give_serials(rows, held);
	}
	if (!put) {
		size_t line = wrong < rows->count ? rows->items[wrong].line : 0;
		return fault_prefix(fault, "line %zu", line);
	}
	return write_records(desk, rows, fault) &&
	       (!renewals || put_items(desk, rows, NULL, fault));
}

static bool
write_all(struct desk *desk, struct csv_rows *rows, struct fault *fault)
{
	return write_movements(desk, rows, fault) && write_rows(desk, rows, fault);
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
	if (request->services_right || !csv_implies_services(rows)) {
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
	const struct csv_source source = {
	    request->name, text_string(request->bytes), request->bytes->length};
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
	text_reset(&act->out->words);
	act->out->effect = (struct csv_effect){0};
	if (!act->fresh && !read_rows(desk, act, fault)) {
		return false;
	}
	act->fresh = false;
	text_add(&desk->notes, text_string(&rows->notes));
	import_remarks(desk, rows);
	if (!csv_find_tags(request->name, rows, inventory, &act->words, fault) ||
	    !import_names(desk, request, rows, fault) ||
	    !ask_all_the_same(desk,
		csv_check_serials(
		    request->name, rows, inventory, answers, &act->words, fault),
		fault) ||
	    !check_services(desk, request, rows, fault)) {
		return false;
	}
	csv_compare(rows, inventory, request->options.currency, &act->out->effect,
	    &act->out->words);
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct import_answers *answers = act->request->answers;
	bool written = write_all(desk, &act->rows, fault) &&
		       (answers == NULL || import_answers_write(desk, answers, fault));
	forget_rows(act);
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
	if (done && request->dry) {
		done = (!desk_has_book(desk) || desk_load(desk, NULL, true, fault)) &&
		       plan(desk, &act, fault);
	} else if (done) {
		done = act_run(desk, text_string(&doing), plan, write, &act, fault);
	}
	forget_rows(&act);
	return done;
}
