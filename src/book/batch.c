#include "book/batch.h"

enum {
	ONE_BY_ONE = 8, /* a table to wait in is not worth its making for fewer */
	AT_ONCE = 1000, /* so many wait at most, which bounds the memory */
};

static bool
begin_staging(struct batch *batch, struct fault *fault)
{
	call_close(&batch->call);
	batch->staging = true;
	return call_plain(batch->book, batch->kind->table, fault) &&
	       call_plain(batch->book, batch->kind->clear, fault) &&
	       call_open(batch->book, batch->kind->stage, &batch->call, fault);
}

bool
batch_row(struct batch *batch, struct call **call_out, struct fault *fault)
{
	*call_out = &batch->call;
	if (batch->added == ONE_BY_ONE && !batch->staging) {
		return begin_staging(batch, fault);
	}
	return batch->call.stmt != NULL ||
	       call_open(batch->book, batch->kind->add, &batch->call, fault);
}

bool
batch_add(struct batch *batch, struct fault *fault)
{
	if (!call_run(&batch->call, fault)) {
		return false;
	}
	if (!batch->staging) {
		batch->added++;
		return true;
	}
	return ++batch->waiting < AT_ONCE || batch_move(batch, fault);
}

bool
batch_move(struct batch *batch, struct fault *fault)
{
	int moved = batch->waiting;
	batch->waiting = 0;
	if (moved == 0) {
		return true;
	}
	/* what waits, and no longer does, is no change of the book */
	batch->book->total += 2 * moved;
	return call_plain(batch->book, batch->kind->move, fault) &&
	       call_plain(batch->book, batch->kind->clear, fault);
}

void
batch_close(struct batch *batch)
{
	call_close(&batch->call);
}
