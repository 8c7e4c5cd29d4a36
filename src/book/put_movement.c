/* Writing where gear has been. */
#include "book/putting.h"
#include "book/rows.h"

bool
movement_write(
    struct book *book, int64_t item, const struct movement *movement, struct fault *fault)
{
	SCOPED_CALL call = {0};
	int64_t id = 0;
	if (movement->on < DAY_MIN || movement->on > DAY_MAX) {
		return fault_set(fault, FAULT_INPUT, "the day is not known");
	}
	if (!call_open(book, MOVEMENT_ADD, &call, fault) ||
	    !number_give(&call, NUMBERED_MOVEMENT, &id, fault)) {
		return false;
	}
	give_int(&call, item);
	give_code(&call, &MOVE_CODES, movement->move);
	give_day(&call, movement->on);
	give_text(&call, text_or_empty(movement->vessel));
	give_text(&call, text_or_empty(movement->station));
	give_text(&call, text_or_empty(movement->stands_for));
	give_text(&call, text_or_empty(movement->certificate));
	give_code(&call, &BECAUSE_CODES, movement->because);
	give_code(&call, &RESULT_CODES, movement->result);
	give_int(&call, movement->price_minor < 0 ? -1 : movement->price_minor);
	give_text(&call, text_or_empty(movement->note));
	give_codes(&call, &TASK_CODES, movement->asked);
	return call_run(&call, fault);
}

static bool
write_movement(struct book *book, const char *tag, const struct movement *movement,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	int64_t item = 0;
	return writing_begin(book, &writing, fault) &&
	       item_need(book, tag, &item, fault) &&
	       movement_write(book, item, movement, fault) &&
	       writing_keep(&writing, fault);
}

bool
book_add_movement(struct book *book, const char *tag, const struct movement *movement,
    struct fault *fault)
{
	return write_movement(book, tag, movement, fault) ||
	       fault_prefix(fault, "recording that \"%.60s\" was %s", text_or_empty(tag),
		   MOVE_CODES.words[movement->move]);
}
