/* Which reminders no longer apply: those that are stored, held beside those that are wanted. */
#include "book/call.h"
#include "book/reminders.h"

#include <string.h>

/* So many keys are read at once. */
enum { KEYS_AT_ONCE = 512 };

static void
take_key(struct call *call, struct arena *arena, void *out)
{
	*(const char **)out = take_text(call, arena);
}

/* Reads the keys that come after those at hand, which are done with. */
static bool
read_page(struct gone_reminders *gone, struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_TEXT after = {0};
	if (gone->page_count > 0) {
		text_add(&after, gone->page[gone->page_count - 1]);
	}
	arena_reset(&gone->paging);
	gone->at = 0;
	if (!call_open(gone->book, REMINDER_KEYS, &call, fault)) {
		return false;
	}
	give_text(&call, text_string(&after));
	give_int(&call, KEYS_AT_ONCE);
	return call_rows(&call, &gone->paging, take_key, sizeof *gone->page, &gone->page,
	    &gone->page_count, fault);
}

/* The next stored key; NULL after the last. */
static bool
next_key(struct gone_reminders *gone, const char **out, struct fault *fault)
{
	if (gone->at == gone->page_count && !gone->ended) {
		if (!read_page(gone, fault)) {
			return fault_prefix(fault, "reading the reminders");
		}
		gone->ended = gone->page_count == 0;
	}
	*out = gone->ended ? NULL : gone->page[gone->at];
	return true;
}

bool
book_gone_before(struct gone_reminders *gone, const char *wanted, struct fault *fault)
{
	const char *key = NULL;
	for (;; gone->at++) {
		if (!next_key(gone, &key, fault)) {
			return false;
		}
		int order = key == NULL ? 1 : wanted == NULL ? -1 : strcmp(key, wanted);
		if (order > 0) {
			return true;
		}
		if (order < 0) {
			ARENA_ADD(&gone->arena, gone, arena_string(&gone->arena, key));
		}
	}
}

void
book_gone_clear(struct gone_reminders *gone)
{
	arena_clear(&gone->arena);
	arena_clear(&gone->paging);
	*gone = (struct gone_reminders){0};
}
