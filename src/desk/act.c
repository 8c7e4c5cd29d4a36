#include "book/putting.h"
#include "desk/inside.h"
#include "desk/ranges.h"
#include "desk/reckoning.h"
#include "life/family.h"

enum { MOST_RUNS = 5 };

static bool
write_at_once(struct desk *desk, act_part *write, void *act, struct fault *fault)
{
	bool written = write(desk, act, fault);
	desk->as_written = written && desk->loaded && desk->left_gear == LEFT_ALL &&
			   desk->contents.with_withdrawn &&
			   book_is_as_read(desk->book, &desk->contents);
	if (written && book_enter(desk->book, fault)) {
		bool kept = reckoning_keep_within(desk);
		desk->as_written = false;
		if (book_commit(desk->book, fault)) {
			desk->kept_with = kept ? book_entries_made(desk->book) : 0;
			return true;
		}
	}
	book_rollback(desk->book);
	return desk->doing == NULL ? false : fault_prefix(fault, "%s", desk->doing);
}

/* Plans from what is loaded, where that is the whole book; if it is out of date, this is
 * found before anything is written. Otherwise loads it anew and plans. What fails with a
 * part of the book is planned again with all of it, so that the fault can name what the
 * part does not hold. */
static bool
plan_anew(
    struct desk *desk, const char *doing, act_part *plan, void *act, struct fault *fault)
{
	size_t notes = desk->notes.length;
	if (!desk->whole || desk->whole_with != desk->left_gear) {
		desk_forget(desk);
	}
	desk->question = (struct question){0};
	desk->doing = doing;
	if (desk_load(desk, NULL, true, fault) && plan(desk, act, fault)) {
		return true;
	}
	if (desk->about == NULL || desk->about->sufficient) {
		return false;
	}
	*fault = (struct fault){0};
	desk->about = NULL;
	text_cut(&desk->notes, notes);
	return plan_anew(desk, doing, plan, act, fault);
}

bool
act_plan_about(struct desk *desk, const struct book_part *about, act_part *plan,
    void *act, struct fault *fault)
{
	desk->about = about;
	bool done = plan_anew(desk, NULL, plan, act, fault);
	desk->about = NULL;
	return done;
}

static bool
run_until_fresh(struct desk *desk, const char *doing, act_part *plan, act_part *write,
    void *act, struct fault *fault)
{
	size_t notes = desk->notes.length;
	for (int run = 0; run < MOST_RUNS; run++) {
		bool stale = false;
		text_cut(&desk->notes, notes);
		if (!plan_anew(desk, doing, plan, act, fault)) {
			/* with the answer to a question it is run again from the top */
			if (desk->question.words != NULL) {
				text_cut(&desk->notes, notes);
			}
			return false;
		}
		if (!book_begin_as_of(
			desk->book, desk->contents.revision, &stale, fault)) {
			return false;
		}
		if (!stale) {
			return write_at_once(desk, write, act, fault);
		}
		desk_forget(desk);
	}
	return fault_set(fault, FAULT_BOOK,
	    "others wrote to the book %d times while this was being worked out; nothing is "
	    "written, so try again",
	    (int)MOST_RUNS);
}

bool
act_run_about(struct desk *desk, const struct book_part *about, const char *doing,
    act_part *plan, act_part *write, void *act, struct fault *fault)
{
	desk->about = about;
	bool done = run_until_fresh(desk, doing, plan, write, act, fault);
	desk->about = NULL; /* what is loaded after this act is all of the book */
	return done;
}

bool
act_run(struct desk *desk, const char *doing, act_part *plan, act_part *write, void *act,
    struct fault *fault)
{
	return act_run_about(desk, NULL, doing, plan, write, act, fault);
}

bool
gear_find(struct desk *desk, const struct word_list *tags, struct gear_outcome *out,
    struct life_planning *planning_out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	*out = (struct gear_outcome){0};
	*planning_out =
	    (struct life_planning){inventory, &desk->arena, &desk->notes, &out->plan};
	if (!range_items(desk, tags, &out->items, &out->count, fault)) {
		return false;
	}
	out->tags = arena_alloc(&desk->arena, (out->count + 1) * sizeof *out->tags);
	for (size_t i = 0; i < out->count; i++) {
		out->tags[i] = inventory->items[out->items[i]].tag;
	}
	return true;
}

bool
gear_parts(struct desk *desk, const char *field, const struct word_list *tags,
    const struct gear_outcome *named, bool **marks_out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	bool *marks =
	    arena_alloc(&desk->arena, (inventory->item_count + 1) * sizeof *marks);
	for (size_t k = 0; k < tags->count; k++) {
		size_t part = 0;
		bool inside = false;
		if (!desk_find_tag(desk, tags->items[k], &part, fault)) {
			return fault_prefix(fault, FIELD "%s", field);
		}
		for (size_t i = 0; i < named->count; i++) {
			inside = inside || family_has(inventory, named->items[i], part);
		}
		if (!inside) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD "%s: %s is no part of what is named", field,
			    tags->items[k]);
		}
		marks[part] = true;
	}
	*marks_out = marks;
	return true;
}

static bool
write_change(struct desk *desk, const struct item_change *change, const char *tag,
    struct fault *fault)
{
	struct item_change tagged = *change;
	tagged.tag = tag;
	return change->set == 0 || book_put_items(desk->book, &tagged, 1, NULL, fault);
}

static bool
write_row(struct desk *desk, const struct life_row *row, struct fault *fault)
{
	const char *tag =
	    row->tag != NULL ? row->tag : desk->contents.inventory.items[row->item].tag;
	if (row->moves && !book_add_movement(desk->book, tag, &row->movement, fault)) {
		return false;
	}
	bool past = false;
	for (size_t i = 0; i < row->record_count; i++) {
		const struct record *record = &row->records[i];
		bool of_before = false;
		if (!book_is_past_renewal(desk->book, tag, record, &of_before, fault) ||
		    !book_add_record(desk->book, tag, record, fault)) {
			return false;
		}
		past = past || of_before;
	}
	/* after a renewal, which takes what was known of the old thing */
	return write_change(desk, &row->change, tag, fault) &&
	       (past || write_change(desk, &row->renewed, tag, fault));
}

bool
plan_write(struct desk *desk, const struct life_plan *plan, struct fault *fault)
{
	for (size_t i = 0; i < plan->count; i++) {
		if (!write_row(desk, &plan->items[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
gear_write(struct desk *desk, void *gear_act, struct fault *fault)
{
	const struct gear_act *act = gear_act;
	return plan_write(desk, &act->out->plan, fault);
}
