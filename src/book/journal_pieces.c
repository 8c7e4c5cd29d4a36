/* The bytes of an entry; those of many rows are kept in pieces, each a row of its own. */
#include "book/check_inside.h"
#include "book/journal_inside.h"

/* A piece is written once it has so many bytes. */
enum { PIECE_SIZE = 1 << 16 };

/* ---- writing ---- */

bool
pieces_write(struct entry_pieces *pieces, struct fault *fault)
{
	SCOPED_CALL call = {0};
	const struct text *bytes = &pieces->bytes;
	if (bytes->length == 0) {
		return true;
	}
	if (!call_open(pieces->book, JOURNAL_PIECE_ADD, &call, fault)) {
		return false;
	}
	give_int(&call, pieces->number);
	give_int(&call, pieces->position);
	give_bytes(&call, bytes->bytes, bytes->length);
	if (!call_run(&call, fault)) {
		return false;
	}
	struct row_sum row = row_sum_of("journal_piece");
	row_sum_key(&row, 0, pieces->number);
	row_sum_key(&row, 1, pieces->position++);
	row_sum_bytes(&row, 2, bytes->bytes, bytes->length);
	pieces->book->sum += row.seed + row.values;
	text_reset(&pieces->bytes);
	return true;
}

void
pieces_begin(struct entry_pieces *pieces, struct book *book, int64_t number)
{
	*pieces = (struct entry_pieces){.book = book, .number = number};
	changes_add_head(&pieces->bytes, collected_tables(&book->told));
}

bool
pieces_add(
    struct entry_pieces *pieces, const struct row_change *change, struct fault *fault)
{
	if (pieces->table != change->table) {
		pieces->table = change->table;
		changes_add_table(&pieces->bytes, change,
		    collected_rows(&pieces->book->told, change->table));
	}
	changes_add_row(&pieces->bytes, change);
	return pieces->bytes.length < PIECE_SIZE || pieces_write(pieces, fault);
}

/* ---- reading ---- */

/* Goes to the next row, if there is one, and takes the number of its entry. */
static bool
step_on(struct entries_reading *reading, struct fault *fault)
{
	if (!call_row(&reading->call, &reading->more, fault)) {
		return false;
	}
	reading->coming = reading->more ? take_int(&reading->call) : 0;
	return true;
}

bool
entries_read(
    struct book *book, int64_t after, struct entries_reading *out, struct fault *fault)
{
	if (!call_open(book, JOURNAL_LATER, &out->call, fault)) {
		return false;
	}
	give_int(&out->call, after);
	return step_on(out, fault);
}

/* Takes the row at hand as the beginning of an entry, or the next piece of the same. */
static void
take_piece(struct entries_reading *reading)
{
	reading->number = reading->coming;
	reading->undoes = take_int(&reading->call);
	take_bytes(&reading->call, &reading->changes);
}

bool
entries_next(struct entries_reading *reading, bool *found_out, struct fault *fault)
{
	text_reset(&reading->changes);
	*found_out = reading->more;
	for (bool same = reading->more; same; same = reading->coming == reading->number) {
		take_piece(reading);
		if (!step_on(reading, fault)) {
			return false;
		}
	}
	return true;
}

void
entries_clear(struct entries_reading *reading)
{
	call_close(&reading->call);
	text_clear(&reading->changes);
}

bool
entry_changes(struct book *book, int64_t number, struct text *out, bool *found_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, JOURNAL_CHANGES, &call, fault)) {
		return false;
	}
	give_int(&call, number);
	for (*found_out = false; call_row(&call, &row, fault) && row; *found_out = true) {
		take_bytes(&call, out);
	}
	return !row;
}
