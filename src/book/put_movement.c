/* Writing where gear has been. */
#include "book/call.h"

static const char *
text_or_empty(const char *text)
{
	return text == NULL ? "" : text;
}

/* How an item stands, and on which vessel, before what is about to be told. */
struct stands {
	enum place_state state;
	const char *vessel; /* in the arena */
};

static bool
read_stands(struct book *book, int64_t item, struct arena *arena, struct stands *out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, ITEM_STANDS, &call, fault)) {
		return false;
	}
	give_int(&call, item);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	if (!row) {
		return fault_set(fault, FAULT_BOOK, "item number %lld is on no vessel",
		    (long long)item);
	}
	out->state = (enum place_state)take_code(&call, &PLACE_CODES);
	out->vessel = take_text(&call, arena);
	return call_row(&call, &row, fault);
}

static bool
write_row(struct book *book, int64_t item, const struct movement *movement,
    const struct stands *stands, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, MOVEMENT_ADD, &call, fault)) {
		return false;
	}
	const char *vessel = text_or_empty(movement->vessel);
	give_int(&call, item);
	give_code(&call, &MOVE_CODES, movement->move);
	give_day(&call, movement->on);
	give_code(&call, &PLACE_CODES, stands->state);
	give_text(&call, vessel[0] == '\0' ? stands->vessel : vessel);
	give_text(&call, stands->vessel);
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

bool
movement_write(
    struct book *book, int64_t item, const struct movement *movement, struct fault *fault)
{
	struct arena arena = {0};
	struct stands stands = {0};
	if (movement->on < DAY_MIN || movement->on > DAY_MAX) {
		return fault_set(fault, FAULT_INPUT, "the day is not known");
	}
	bool written = read_stands(book, item, &arena, &stands, fault) &&
		       write_row(book, item, movement, &stands, fault);
	arena_clear(&arena);
	return written;
}

static bool
write_movement(struct book *book, const char *tag, const struct movement *movement,
    struct fault *fault)
{
	SCOPED_STEP step = {0};
	int64_t item = 0;
	return step_begin(book, &step, fault) && item_need(book, tag, &item, fault) &&
	       movement_write(book, item, movement, fault) && step_keep(&step, fault);
}

bool
book_add_movement(struct book *book, const char *tag, const struct movement *movement,
    struct fault *fault)
{
	return write_movement(book, tag, movement, fault) ||
	       fault_prefix(fault, "recording that \"%.60s\" was %s", text_or_empty(tag),
		   MOVE_CODES.words[movement->move]);
}
