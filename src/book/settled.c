/* Hand-ins that were given out, as the book remembers them. */
#include "base/numbers.h"
#include "book/reminders.h"
#include "book/rows.h"

/* A row and its number in the table. */
struct settled_row {
	int64_t id;
	struct settled_hand_in of;
};

/* The tag of a piece, and the row it belongs to. */
struct settled_piece {
	int64_t id;
	const char *tag;
	day_t due;
};

static void
take_settled(struct call *call, struct arena *arena, void *out)
{
	struct settled_row *row = out;
	row->id = take_int(call);
	row->of = (struct settled_hand_in){.planned = DAY_NONE};
	row->of.of_base = take_int(call) != 0;
	row->of.owner = take_text(call, arena);
	row->of.winter = (int)take_int(call);
	row->of.station = take_text(call, arena);
	row->of.number = (size_t)take_int(call);
	row->of.day = take_day(call);
	row->of.chosen = take_int(call) != 0;
	row->of.missed = take_int(call) != 0;
	row->of.given_on = take_day(call);
	row->of.given_by = (enum given_by)take_code(call, &GIVEN_BY_CODES);
}

static void
take_piece(struct call *call, struct arena *arena, void *out)
{
	struct settled_piece *piece = out;
	piece->id = take_int(call);
	piece->tag = take_text(call, arena);
	piece->due = take_day(call);
}

static bool
load_rows(struct book *book, struct arena *arena, const struct settled_row **out,
    size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, LOAD_SETTLED, &call, fault) &&
	       call_rows(&call, arena, take_settled, sizeof **out, out, count_out, fault);
}

static bool
load_pieces(struct book *book, struct arena *arena, const struct settled_piece **out,
    size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, LOAD_SETTLED_PIECES, &call, fault) &&
	       call_rows(&call, arena, take_piece, sizeof **out, out, count_out, fault);
}

/* Gives each row its pieces; both come by the row's number. */
static void
join(const struct settled_row *rows, size_t count, const struct settled_piece *pieces,
    size_t piece_count, struct arena *arena, struct settled_hand_in *out)
{
	const char **tags = arena_alloc(arena, (piece_count + 1) * sizeof *tags);
	day_t *dues = arena_alloc(arena, (piece_count + 1) * sizeof *dues);
	size_t at = 0;
	for (size_t i = 0; i < piece_count; i++) {
		tags[i] = pieces[i].tag;
		dues[i] = pieces[i].due;
	}
	for (size_t i = 0; i < count; i++) {
		out[i] = rows[i].of;
		out[i].tags = tags + at;
		out[i].dues = dues + at;
		for (; at < piece_count && pieces[at].id == rows[i].id; at++) {
			out[i].tag_count++;
		}
	}
}

bool
book_load_settled(struct book *book, struct arena *arena, struct settled_hand_in **out,
    size_t *count_out, struct fault *fault)
{
	const struct settled_row *rows = NULL;
	const struct settled_piece *pieces = NULL;
	size_t count = 0;
	size_t piece_count = 0;
	if (!load_rows(book, arena, &rows, &count, fault) ||
	    (count > 0 && !load_pieces(book, arena, &pieces, &piece_count, fault))) {
		return fault_prefix(fault, "reading the hand-ins");
	}
	struct settled_hand_in *made = arena_alloc(arena, (count + 1) * sizeof *made);
	join(rows, count, pieces, piece_count, arena, made);
	*out = made;
	*count_out = count;
	return true;
}

/* Rows of several owners, gathered. */
struct settled_rows {
	struct settled_row *items; /* in the arena */
	size_t count;
	size_t capacity;
};

static bool
add_rows_of(struct book *book, const struct hand_in_owner *owner, struct arena *arena,
    struct settled_rows *rows, struct fault *fault)
{
	const struct settled_row *own = NULL;
	size_t count = 0;
	SCOPED_CALL call = {0};
	if (!call_open(book, LOAD_SETTLED_OF, &call, fault)) {
		return false;
	}
	give_int(&call, owner->of_base);
	give_text(&call, owner->name);
	if (!call_rows(&call, arena, take_settled, sizeof *own, &own, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		ARENA_ADD(arena, rows, own[i]);
	}
	return true;
}

static bool
load_pieces_of(
    struct book *book, struct settled_row *row, struct arena *arena, struct fault *fault)
{
	const struct settled_piece *pieces = NULL;
	size_t count = 0;
	SCOPED_CALL call = {0};
	if (!call_open(book, LOAD_SETTLED_PIECES_OF, &call, fault)) {
		return false;
	}
	give_int(&call, row->id);
	if (!call_rows(
		&call, arena, take_piece, sizeof *pieces, &pieces, &count, fault)) {
		return false;
	}
	const struct settled_row alone = *row;
	join(&alone, 1, pieces, count, arena, &row->of);
	return true;
}

static int
compare_ids(const void *left, const void *right)
{
	const struct settled_row *a = left;
	const struct settled_row *b = right;
	return ORDER(a->id, b->id);
}

bool
book_load_settled_of(struct book *book, const struct hand_in_owner *owners,
    size_t owner_count, struct arena *arena, struct settled_hand_in **out,
    size_t *count_out, struct fault *fault)
{
	struct settled_rows rows = {0};
	bool done = true;
	for (size_t i = 0; i < owner_count && done; i++) {
		done = add_rows_of(book, &owners[i], arena, &rows, fault);
	}
	ARRAY_SORT(rows.items, rows.count, compare_ids);
	struct settled_hand_in *made =
	    ARENA_MANY(arena, struct settled_hand_in, rows.count);
	for (size_t i = 0; i < rows.count && done; i++) {
		done = load_pieces_of(book, &rows.items[i], arena, fault);
		made[i] = rows.items[i].of;
	}
	if (!done) {
		return fault_prefix(fault, "reading the hand-ins");
	}
	*out = made;
	*count_out = rows.count;
	return true;
}

/* What makes it the hand-in that it is. */
static void
give_key(struct call *call, const struct settled_hand_in *hand_in)
{
	give_int(call, hand_in->of_base);
	give_text(call, hand_in->owner);
	give_int(call, hand_in->winter);
	give_text(call, hand_in->station);
	give_int(call, (int64_t)hand_in->number);
}

static bool
put_row(struct book *book, const struct settled_hand_in *hand_in, struct fault *fault)
{
	SCOPED_CALL call = {0};
	int64_t id = 0;
	if (!call_open(book, SETTLED_PUT, &call, fault) ||
	    !number_give(&call, NUMBERED_HAND_IN, &id, fault)) {
		return false;
	}
	give_key(&call, hand_in);
	give_day(&call, hand_in->day);
	give_int(&call, hand_in->chosen);
	give_int(&call, hand_in->missed);
	give_day(&call, hand_in->given_on);
	give_code(&call, &GIVEN_BY_CODES, hand_in->given_by);
	return call_run(&call, fault);
}

static bool
put_pieces(struct book *book, const struct settled_hand_in *hand_in, struct fault *fault)
{
	SCOPED_CALL drop = {0};
	if (!call_open(book, SETTLED_PIECES_DROP, &drop, fault)) {
		return false;
	}
	give_key(&drop, hand_in);
	if (!call_run(&drop, fault)) {
		return false;
	}
	SCOPED_CALL add = {0};
	if (!call_open(book, SETTLED_PIECE_ADD, &add, fault)) {
		return false;
	}
	for (size_t i = 0; i < hand_in->tag_count; i++) {
		give_text(&add, hand_in->tags[i]);
		give_day(&add, hand_in->dues[i]);
		give_key(&add, hand_in);
		if (!call_run(&add, fault)) {
			return false;
		}
	}
	return true;
}

bool
book_put_settled(struct book *book, const struct settled_hand_in *hand_ins, size_t count,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	bool put = writing_begin(book, &writing, fault);
	for (size_t i = 0; i < count && put; i++) {
		put = put_row(book, &hand_ins[i], fault) &&
		      put_pieces(book, &hand_ins[i], fault);
	}
	return (put && writing_keep(&writing, fault)) ||
	       fault_prefix(fault, "keeping the hand-ins");
}
