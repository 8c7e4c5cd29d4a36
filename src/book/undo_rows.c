/* Taking back the rows of an entry, in the order in which they refer to each other: what
 * was taken out comes back first, and of that what others refer to; then the changed
 * rows, which may refer to it; then what was put in goes, what refers to others first. So
 * no reference points to nothing in between. What a constraint still holds back (a piece
 * of which another in the same table is a part; a name that another row has yet) waits
 * for the next round, until all is done or a round does nothing more. */
#include "book/journal_inside.h"

#include <stdlib.h>
#include <string.h>

/* Tables that refer to tables that refer to tables, and so on: the schema has four. */
enum { RANKS = 8 };

/* When a change's turn is: one for each rank of what comes back, one for the changed
 * rows, and one for each rank of what goes. A change that was taken back has none. */
enum {
	TURN_NONE,
	TURN_BACK,
	TURN_CHANGED = TURN_BACK + RANKS,
	TURN_GONE,
	TURNS = TURN_GONE + RANKS
};

struct taking_back {
	struct row_wording wording;
	struct applying applying;

	struct turns_of_changes {
		unsigned char *items; /* by change; owned */
		size_t count;
		size_t capacity;
	} turns;

	size_t waiting[TURNS]; /* changes of each turn */
	int turn;              /* whose it is */
	size_t at;             /* the change at hand */
	bool otherwise;        /* a row is not as the entry left it */
};

/* 0 for a table that refers to no other, else one more than the greatest of those. */
static int
rank_of(const struct table_shape *shape, int most)
{
	int rank = 0;
	for (size_t i = 0; i < shape->count && rank < most; i++) {
		const char *refers = shape->columns[i].refers;
		if (refers != NULL && strcmp(refers, shape->name) != 0) {
			int above = 1 + rank_of(shape_known(refers), most - 1);
			rank = above > rank ? above : rank;
		}
	}
	return rank;
}

static int
turn_of(const struct table_shape *shape, const struct row_change *change)
{
	switch (change->act) {
	case JOURNAL_REMOVED:
		return TURN_BACK + rank_of(shape, RANKS - 1);
	case JOURNAL_CHANGED:
		return TURN_CHANGED;
	case JOURNAL_ADDED:
		break;
	}
	return TURNS - 1 - rank_of(shape, RANKS - 1);
}

/* A table may have got columns since; it may not have lost any, or have another key. */
static bool
prepare(const struct row_change *change, void *context, struct fault *fault)
{
	struct taking_back *taking = context;
	struct book *book = taking->wording.book;
	const struct table_shape *shape = shape_find(&taking->wording, change->table);
	if (!change_fits(change, shape)) {
		return fault_set(fault, FAULT_INPUT,
		    "it is of an older program, and its table %s is another now",
		    change->table);
	}
	collected_foresee(&book->told, shape, change);
	int turn = turn_of(shape, change);
	ARRAY_ADD(&taking->turns, (unsigned char)turn);
	taking->waiting[turn]++;
	return true;
}

static bool
take_back(const struct row_change *change, void *context, struct fault *fault)
{
	struct taking_back *taking = context;
	unsigned char *turn = &taking->turns.items[taking->at++];
	enum applied applied = APPLIED;
	if (*turn != taking->turn || taking->otherwise) {
		return true;
	}
	const struct table_shape *shape = shape_find(&taking->wording, change->table);
	if (!change_apply(&taking->applying, shape, change, &applied, fault)) {
		return false;
	}
	if (applied == APPLIED) {
		taking->waiting[*turn]--;
		*turn = TURN_NONE;
	}
	taking->otherwise = applied == APPLIED_OTHERWISE;
	return true;
}

static size_t
left_of(const struct taking_back *taking)
{
	size_t left = 0;
	for (size_t i = 0; i < TURNS; i++) {
		left += taking->waiting[i];
	}
	return left;
}

static bool
take_round(struct taking_back *taking, const struct text *changes, struct fault *fault)
{
	for (int turn = TURN_BACK; turn < TURNS; turn++) {
		taking->turn = turn;
		taking->at = 0;
		if (taking->waiting[turn] > 0 &&
		    !changes_each(changes->bytes, changes->length,
			&taking->wording.passing, take_back, taking, fault)) {
			return false;
		}
	}
	return true;
}

bool
changes_take_back(
    struct book *book, const struct text *changes, bool *done_out, struct fault *fault)
{
	struct taking_back taking = {
	    .wording = {.book = book}, .applying = {.book = book, .back = true}};
	bool went = changes_each(changes->bytes, changes->length, &taking.wording.passing,
	    prepare, &taking, fault);
	size_t left = left_of(&taking);
	for (bool further = went && left > 0; further;) {
		size_t before = left;
		went = take_round(&taking, changes, fault);
		left = left_of(&taking);
		further = went && !taking.otherwise && left > 0 && left < before;
	}
	*done_out = left == 0;
	free(taking.turns.items);
	applying_clear(&taking.applying);
	wording_clear(&taking.wording);
	return went;
}
