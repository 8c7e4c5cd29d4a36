/* A person's own rule sheets in a copy of the book. */
#include "book/backup.h"
#include "book/copy.h"

static bool
add_sheet(struct book *copy, const struct own_sheet *sheet, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(copy, OWN_SHEET_ADD, &call, fault)) {
		return false;
	}
	give_text(&call, sheet->name);
	give_bytes(&call, sheet->bytes, sheet->length);
	return call_run(&call, fault);
}

static bool
put_all(
    struct book *copy, const struct own_sheet *sheets, size_t count, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(copy, OWN_SHEETS_DROP, &call, fault) || !call_run(&call, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (!add_sheet(copy, &sheets[i], fault)) {
			return fault_prefix(fault, "rule sheet %s", sheets[i].name);
		}
	}
	return true;
}

bool
own_sheets_put(
    const char *path, const struct own_sheet *sheets, size_t count, struct fault *fault)
{
	struct book *copy = NULL;
	bool damaged = false;
	bool done = file_open(path, BOOK_WRITE, &copy, &damaged, fault) &&
		    book_begin(copy, fault) && put_all(copy, sheets, count, fault) &&
		    book_commit(copy, fault);
	book_close(copy);
	return done;
}

static bool
carries_sheets(struct book *copy, bool *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(copy, OWN_SHEETS_THERE, &call, fault) ||
	    !call_row(&call, &row, fault)) {
		return false;
	}
	*out = row && take_int(&call) > 0;
	return true;
}

struct carried {
	struct own_sheet *items;
	size_t count;
	size_t capacity;
};

static bool
load_sheets(
    struct book *copy, struct arena *arena, struct carried *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = true;
	if (!call_open(copy, OWN_SHEETS_LOAD, &call, fault)) {
		return false;
	}
	for (;;) {
		SCOPED_TEXT yaml = {0};
		if (!call_row(&call, &row, fault) || !row) {
			return !row;
		}
		const char *name = take_text(&call, arena);
		take_bytes(&call, &yaml);
		char *bytes = arena_alloc(arena, yaml.length + 1);
		for (size_t i = 0; i < yaml.length; i++) {
			bytes[i] = yaml.bytes[i];
		}
		ARENA_ADD(arena, out, (struct own_sheet){name, bytes, yaml.length});
	}
}

bool
book_backup_sheets(const char *path, struct arena *arena, const struct own_sheet **out,
    size_t *count_out, struct fault *fault)
{
	struct book *copy = NULL;
	struct carried carried = {0};
	bool damaged = false;
	bool carries = false;
	bool done = file_open(path, BOOK_READ, &copy, &damaged, fault) &&
		    carries_sheets(copy, &carries, fault) &&
		    (!carries || load_sheets(copy, arena, &carried, fault));
	book_close(copy);
	*out = carried.items;
	*count_out = carried.count;
	return done;
}
