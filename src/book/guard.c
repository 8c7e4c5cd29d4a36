/* The guard: before a transaction is kept, what it touched is compared with the rules of `book
 * check`. An act that makes something wrong is refused; what was wrong before is left alone, so
 * that it can be mended piece by piece. Undo and import pass here like any other act.
 *
 * Only the items that were touched, and their parts, are looked at, so that an act costs the same
 * in a large book as in a small one. What was there before is read only when something is wrong,
 * through a second connection, which sees the book as it was before the transaction. */

#include "base/numbers.h"
#include "book/check_inside.h"

#include <stdlib.h>
#include <string.h>

/* More items than this are looked at in one go, from the first number to the last. */
enum { ONE_BY_ONE = 200 };

/* What was found wrong, each in words. */
struct findings {
	struct guard_finding {
		const struct check_rule *rule;
		const char *what;
	} * items; /* owned */

	size_t count;
	size_t capacity;
};

void
guard_clear(struct guarding *guarding)
{
	free(guarding->items);
	*guarding = (struct guarding){0};
}

static int
compare_numbers(const void *a, const void *b)
{
	int64_t one = *(const int64_t *)a;
	int64_t other = *(const int64_t *)b;
	return ORDER(one, other);
}

static void
sort(struct guarding *guarding)
{
	qsort(guarding->items, guarding->count, sizeof *guarding->items, compare_numbers);
}

/* Notes the item that a row has the number of in a column; it may have none. Of many only the
 * first and the last are of use. */
static void
touch(struct guarding *guarding, const struct value *row, size_t column)
{
	if (row[column].held != HELD_INTEGER) {
		return;
	}
	int64_t number = row[column].number;
	if (guarding->count <= ONE_BY_ONE) {
		ARRAY_ADD(guarding, number);
		if (guarding->count > ONE_BY_ONE) {
			sort(guarding);
		}
		return;
	}
	int64_t *first = &guarding->items[0];
	int64_t *last = &guarding->items[guarding->count - 1];
	*first = LESSER(*first, number);
	*last = GREATER(*last, number);
}

static void
begin_table(struct guarding *guarding, const struct table_shape *shape)
{
	guarding->of = shape;
	guarding->item = strcmp(shape->name, "item") == 0;
	guarding->record = strcmp(shape->name, "record") == 0;
	guarding->columns[0] =
	    shape_column(shape, guarding->item ? "landed_to" : "item_id");
	guarding->columns[1] =
	    shape_column(shape, guarding->item ? "stands_for" : "next_day");
}

/* False for the empty text and 0, which say nothing. */
static bool
says(const struct value *value)
{
	return !(value->held == HELD_TEXT && value->length == 0) &&
	       !(value->held == HELD_INTEGER && value->number == 0);
}

void
guard_note(struct guarding *guarding, const struct table_shape *shape,
    const struct row_change *change)
{
	const struct value *row = change_row(change);
	const size_t *columns = guarding->columns;
	bool added = change->act == JOURNAL_ADDED;
	if (guarding->of != shape) {
		begin_table(guarding, shape);
	}
	if (guarding->item) {
		guarding->removed = guarding->removed || change->act == JOURNAL_REMOVED;
		guarding->standing = guarding->standing || !added ||
				     says(&row[columns[0]]) || says(&row[columns[1]]);
		touch(guarding, row, 0);
	} else if (guarding->record) {
		guarding->dated = guarding->dated || !added || says(&row[columns[1]]);
		if (change->act != JOURNAL_CHANGED) {
			touch(guarding, row, columns[0]);
		}
	}
}

/* `*out` is true when anything is wrong with some items: one query for all the rules. */
static bool
is_amiss(struct book *book, const struct guarding *guarding, int64_t first, int64_t last,
    bool *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, CHECK_ITEMS, &call, fault)) {
		return false;
	}
	give_int(&call, first);
	give_int(&call, last);
	give_int(&call, guarding->standing);
	give_int(&call, guarding->dated);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*out = take_int(&call) != 0;
	return true;
}

static bool
look_at(struct book *book, const struct guarding *guarding, int64_t first, int64_t last,
    struct arena *arena, struct findings *out, struct fault *fault)
{
	bool amiss = false;
	if (!is_amiss(book, guarding, first, last, &amiss, fault)) {
		return false;
	}
	if (!amiss) {
		return true;
	}
	for (size_t i = 0; i < CHECK_RULE_COUNT; i++) {
		const struct check_rule *rule = &CHECK_RULES[i];
		SCOPED_CALL call = {0};
		SCOPED_TEXT what = {0};
		bool row = true;
		if (rule->statement < CHECK_LOOPS || rule->statement > CHECK_NEXT_DAYS) {
			continue;
		}
		if (!check_open(book, rule, first, last, &call, fault)) {
			return false;
		}
		while (call_row(&call, &row, fault) && row) {
			const char *name = take_text(&call, arena);
			text_reset(&what);
			check_words(rule, name, take_text(&call, arena), &what);
			const char *kept = arena_string(arena, text_string(&what));
			ARRAY_ADD(out, (struct guard_finding){rule, kept});
		}
		if (row) {
			return false;
		}
	}
	return true;
}

static bool
look(struct book *book, const struct guarding *guarding, struct arena *arena,
    struct findings *out, struct fault *fault)
{
	const int64_t *numbers = guarding->items;
	if (guarding->removed) {
		return look_at(book, guarding, 0, INT64_MAX, arena, out, fault);
	}
	if (guarding->count > ONE_BY_ONE) {
		return look_at(book, guarding, numbers[0], numbers[guarding->count - 1],
		    arena, out, fault);
	}
	for (size_t i = 0; i < guarding->count; i++) {
		bool again = i > 0 && numbers[i] == numbers[i - 1];
		if (!again &&
		    !look_at(book, guarding, numbers[i], numbers[i], arena, out, fault)) {
			return false;
		}
	}
	return true;
}

static bool
has(const struct findings *findings, const struct guard_finding *finding)
{
	for (size_t i = 0; i < findings->count; i++) {
		if (findings->items[i].rule == finding->rule &&
		    strcmp(findings->items[i].what, finding->what) == 0) {
			return true;
		}
	}
	return false;
}

/* What was wrong with the same items before the transaction. */
static bool
look_before(struct book *book, const struct guarding *guarding, struct arena *arena,
    struct findings *out, struct fault *fault)
{
	const char *path = database_path(book->database);
	struct book *before = NULL;
	struct guarding whole =
	    *guarding; /* what was wrong before is asked of all rules */
	whole.standing = true;
	whole.dated = true;
	if (path[0] == '\0' || !book_open(path, BOOK_READ, &before, fault)) {
		return false;
	}
	bool looked = look(before, &whole, arena, out, fault);
	book_close(before);
	return looked;
}

static bool
refuse_new(const struct findings *now, const struct findings *before, struct fault *fault)
{
	for (size_t i = 0; i < now->count; i++) {
		const struct guard_finding *finding = &now->items[i];
		if (!has(before, finding)) {
			return fault_set(fault, FAULT_INPUT,
			    "nothing is written, for after it %s; %s", finding->what,
			    finding->rule->to_do);
		}
	}
	return true;
}

bool
guard(struct book *book, struct guarding *guarding, struct fault *fault)
{
	struct findings now = {0};
	struct findings before = {0};
	struct arena arena = {0};
	bool right = true;
	if (guarding->count > 0) {
		sort(guarding);
		right = look(book, guarding, &arena, &now, fault);
	}
	if (right && now.count > 0) {
		right = look_before(book, guarding, &arena, &before, fault) &&
			refuse_new(&now, &before, fault);
	}
	free(now.items);
	free(before.items);
	arena_clear(&arena);
	return right;
}
