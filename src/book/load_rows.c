/* What the loading of every table needs: a statement, its rows, and room for them. */
#include "base/memory.h"
#include "base/numbers.h"
#include "book/rows.h"

#include <string.h>

const struct place_of_id *
place_find(const struct place_of_id *places, size_t count, int64_t id)
{
	size_t low = 0;
	size_t high = count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (places[middle].id < id) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	return low < count && places[low].id == id ? &places[low] : NULL;
}

bool
load_open(struct loading *loading, enum statement statement, size_t room,
    struct call *call_out, struct fault *fault)
{
	enum statement which = loading->wanted != NULL ? statement + 1 : statement;
	if (room == 0) {
		return true;
	}
	if (!call_open(loading->book, which, call_out, fault)) {
		return false;
	}
	if (statement == LOAD_ITEMS) {
		give_int(call_out, loading->with_withdrawn);
	}
	if (loading->wanted != NULL) {
		give_text(call_out, loading->wanted);
	}
	return true;
}

bool
load_next(struct call *call, bool room, bool *done_out, struct fault *fault)
{
	bool row = false;
	*done_out = call->prepared == NULL || call_row(call, &row, fault);
	return *done_out && row && room;
}

void
load_room(struct loading *loading, size_t count, size_t size, void *out)
{
	if (count > SIZE_MAX / 2 / size) {
		memory_ended();
	}
	void *room = arena_alloc(loading->arena, (count == 0 ? 1 : count) * size);
	/* `out` is the address of a typed pointer. */
	memcpy(out, &room, sizeof room);
}

/* Rows for which room is made at a time, and more for an owner who has more. */
enum { SLOTS = 256 };

void *
load_slot(struct loading *loading, struct load_slots *slots, size_t size, void *first_out,
    size_t *count, struct fault *fault)
{
	if (*count > 0 && slots->count != count) {
		(void)fault_set(fault, FAULT_BOOK,
		    "what is on record of a piece does not stand together; \"becket book "
		    "check\" says more");
		return NULL;
	}
	if (slots->left == 0) {
		char *room = NULL;
		void *before = NULL;
		size_t more = GREATER(*count, (size_t)SLOTS);
		load_room(loading, *count + more, size, &room);
		memcpy(&before, first_out, sizeof before);
		if (*count > 0) {
			memcpy(room, before, *count * size);
			memcpy(first_out, &room, sizeof room);
		}
		*slots = (struct load_slots){.next = room + *count * size, .left = more};
	}
	if (*count == 0) {
		memcpy(first_out, &slots->next, sizeof slots->next);
	}
	void *slot = slots->next;
	slots->next += size;
	slots->left--;
	slots->count = count;
	++*count;
	return slot;
}

void
load_take_days(const struct load_row *row)
{
	struct span *days = row->into;
	days->first = take_day(row->call);
	days->last = take_day(row->call);
}

static bool
load_list(struct loading *loading, const struct load_list *list, load_owner *owner_of,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct load_slots slots = {0};
	bool done = true;
	size_t room = 0;
	size_t at = 0;
	memcpy(&room, (const char *)&loading->counts + list->room, sizeof room);
	room = (loading->taken & list->table) != 0 ? 0 : room;
	if (list->table == LOADS_NOTHING) { /* so many come, and no more */
		load_room(loading, room, list->size, &slots.next);
		slots.left = room;
	}
	if (room > 0 && list->whole
		? !call_open(loading->book, list->statement, &call, fault)
		: !load_open(loading, list->statement, room, &call, fault)) {
		return false;
	}
	while (load_next(
	    &call, list->table != LOADS_NOTHING || slots.left > 0, &done, fault)) {
		struct load_row row = {.loading = loading, .call = &call};
		char *owner = owner_of(loading, &at, take_int(&call));
		if (owner == NULL) {
			continue;
		}
		row.owner = owner;
		row.into = load_slot(loading, &slots, list->size, owner + list->first,
		    (size_t *)(void *)(owner + list->count), fault);
		if (row.into == NULL) {
			return false;
		}
		list->take(&row);
	}
	return done;
}

bool
load_lists(struct loading *loading, const struct load_list *lists, size_t count,
    load_owner *owner_of, struct fault *fault)
{
	bool done = true;
	for (size_t i = 0; i < count && done; i++) {
		done = load_list(loading, &lists[i], owner_of, fault);
	}
	return done;
}
