#include "desk/keeping.h"

#include "base/leftovers.h"
#include "book/check.h"
#include "desk/copied.h"
#include "desk/files.h"
#include "gear/money.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* A sheet on its way to its place. */
struct moving {
	const struct own_sheet *sheet;
	const char *path; /* of its place */
	struct new_file file;
	bool there; /* something stands in its place */
	bool same;
};

static const char *
place_of(struct desk *desk, const char *name)
{
	return arena_format(&desk->arena, "%s/%s.yaml", desk->shelf.folder, name);
}

/* All sheets of a person's own, read whole. */
static bool
own_sheets(
    struct desk *desk, struct own_sheet **out, size_t *count_out, struct fault *fault)
{
	const char *const *names = NULL;
	size_t count = 0;
	shelf_names(&desk->shelf, &desk->arena, &names, &count);
	struct own_sheet *sheets =
	    arena_alloc(&desk->arena, (count + 1) * sizeof *sheets);
	*count_out = 0;
	for (size_t i = 0; i < count; i++) {
		SCOPED_TEXT yaml = {0};
		const char *path = place_of(desk, names[i]);
		if (!file_is_plain(path)) {
			continue;
		}
		if (!file_read(path, &yaml, fault)) {
			return false;
		}
		char *bytes = arena_alloc(&desk->arena, yaml.length + 1);
		memcpy(bytes, text_string(&yaml), yaml.length);
		sheets[(*count_out)++] = (struct own_sheet){names[i], bytes, yaml.length};
	}
	*out = sheets;
	return true;
}

/* What becket did not write is told before the copy is all that is left: it takes the
 * place of no other. */
static bool
look_at_values(struct desk *desk, const char *path, bool over, bool *as_written_out,
    struct fault *fault)
{
	if (!book_is_as_written(desk->book, as_written_out, fault)) {
		return false;
	}
	if (!*as_written_out && over && access(path, F_OK) == 0) {
		return fault_set(fault, FAULT_BOOK,
		    "the book has a value that becket did not write, and %s may be a copy "
		    "that has none; \"becket book check\" says which, and another name "
		    "takes a copy of the book as it is",
		    path);
	}
	if (!*as_written_out) {
		desk_note(desk,
		    "the book, and so this copy, has a value that becket did not write; "
		    "\"becket book check\" says which. Keep the copies you had before");
	}
	return true;
}

bool
desk_backup(struct desk *desk, const char *path, bool over,
    const struct progress *progress, struct keeping *out, struct fault *fault)
{
	struct own_sheet *sheets = NULL;
	size_t count = 0;
	bool as_written = true;
	if (!desk_open(desk, BOOK_READ, fault) ||
	    !own_sheets(desk, &sheets, &count, fault) ||
	    !look_at_values(desk, path, over, &as_written, fault) ||
	    !book_backup(desk->book, path, over, sheets, count, progress, fault)) {
		return false;
	}
	if (as_written) {
		copied_note(desk);
	}
	*out = (struct keeping){.kept = ""};
	out->sheets = arena_alloc(&desk->arena, (count + 1) * sizeof *out->sheets);
	out->sheet_count = count;
	for (size_t i = 0; i < count; i++) {
		out->sheets[i] = (struct kept_sheet){sheets[i].name, ""};
	}
	return true;
}

/* A folder beside the book that only its owner can look into, for the time of a call;
 * those that killed runs left are cleared. */
static bool
make_folder(const struct desk *desk, struct text *out, struct fault *fault)
{
	leftover_folders_remove(desk->book_path);
	text_add_format(out, "%s" LEFTOVER_FOLDER, desk->book_path);
	if (mkdtemp(out->bytes) == NULL) {
		return fault_set(fault, FAULT_FILE, "can't make the folder %s: %s",
		    text_string(out), strerror(errno));
	}
	return true;
}

bool
desk_backup_file(struct desk *desk, int *file_out, struct fault *fault)
{
	SCOPED_TEXT folder = {0};
	SCOPED_TEXT path = {0};
	struct keeping keeping = {0};
	const struct progress silent = {NULL, NULL};
	if (!make_folder(desk, &folder, fault)) {
		return false;
	}
	text_add_format(&path, "%s/book.db", text_string(&folder));
	bool done =
	    desk_backup(desk, text_string(&path), false, &silent, &keeping, fault);
	if (done) {
		*file_out = open(text_string(&path), O_RDONLY | O_CLOEXEC);
		done = *file_out > 0 ||
		       fault_set(fault, FAULT_FILE, "can't read the copy %s: %s",
			   text_string(&path), strerror(errno));
	}
	(void)unlink(text_string(&path));
	(void)rmdir(text_string(&folder));
	return done;
}

bool
brought_write(struct desk *desk, const char *bytes, size_t length, struct brought *out,
    struct fault *fault)
{
	struct new_file file = {0};
	if (!folders_make(desk->book_path, fault) ||
	    !make_folder(desk, &out->folder, fault)) {
		return false;
	}
	text_add_format(&out->path, "%s/book.db", text_string(&out->folder));
	bool done =
	    new_file_write(text_string(&out->path), bytes, length, &file, fault) &&
	    new_file_keep(&file, fault);
	new_file_clear(&file);
	return done;
}

void
brought_clear(struct brought *brought)
{
	if (brought->path.length > 0) {
		database_remove(text_string(&brought->path));
	}
	if (brought->folder.length > 0) {
		(void)rmdir(text_string(&brought->folder));
	}
	text_clear(&brought->path);
	text_clear(&brought->folder);
}

/* Writes a sheet beside its place, unless the same stands there. */
static bool
begin_moving(struct desk *desk, const struct own_sheet *sheet, struct moving *moving,
    struct fault *fault)
{
	SCOPED_TEXT present = {0};
	moving->sheet = sheet;
	if (!shelf_name_is_plain(sheet->name)) {
		return fault_set(fault, FAULT_INPUT,
		    "it carries a rule sheet \"%.60s\", which is no name of a sheet",
		    sheet->name);
	}
	moving->path = place_of(desk, sheet->name);
	moving->there = access(moving->path, F_OK) == 0;
	if (moving->there && !file_read(moving->path, &present, fault)) {
		return false;
	}
	moving->same = moving->there && present.length == sheet->length &&
		       memcmp(text_string(&present), sheet->bytes, sheet->length) == 0;
	return moving->same || (folders_make(moving->path, fault) &&
				   new_file_write(moving->path, sheet->bytes,
				       sheet->length, &moving->file, fault));
}

/* Gives what stands at `path` a second name that is free: it is not lost when the first is
 * taken. */
static bool
keep_present(
    struct desk *desk, const char *path, const char **kept_out, struct fault *fault)
{
	enum { MOST_KEPT = 1000 };

	errno = 0;
	for (int number = 1; number <= MOST_KEPT; number++) {
		SCOPED_TEXT name = {0};
		text_add_format(&name, "%s.before-restore", path);
		if (number > 1) {
			text_add_format(&name, "-%d", number);
		}
		if (link(path, text_string(&name)) == 0) {
			*kept_out = arena_string(&desk->arena, text_string(&name));
			return true;
		}
		if (errno != EEXIST) {
			break;
		}
	}
	return fault_file(fault, "keeping", path);
}

static bool
end_moving(
    struct desk *desk, struct moving *moving, struct kept_sheet *out, struct fault *fault)
{
	*out = (struct kept_sheet){moving->sheet->name, ""};
	return moving->same ||
	       ((!moving->there || keep_present(desk, moving->path, &out->kept, fault)) &&
		   new_file_keep(&moving->file, fault)) ||
	       fault_prefix(
		   fault, "the book is restored, but not all of its rule sheets are");
}

static bool
restore_all(struct desk *desk, const char *from, const struct progress *progress,
    const struct own_sheet *sheets, struct moving *moving, struct keeping *out,
    struct fault *fault)
{
	for (size_t i = 0; i < out->sheet_count; i++) {
		if (!begin_moving(desk, &sheets[i], &moving[i], fault)) {
			return fault_prefix(fault, "restoring from %s", from);
		}
	}
	if (!book_restore(desk->book_path, from, &desk->signature, progress, &desk->arena,
		&out->kept, fault)) {
		return false;
	}
	for (size_t i = 0; i < out->sheet_count; i++) {
		if (!end_moving(desk, &moving[i], &out->sheets[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_restore(struct desk *desk, const char *from, const struct progress *progress,
    struct keeping *out, struct fault *fault)
{
	const struct own_sheet *sheets = NULL;
	size_t count = 0;
	bool at_home = !desk_has_book(desk) && !desk->book_named;
	*out = (struct keeping){.kept = ""};
	if ((at_home && !folders_make(desk->book_path, fault)) ||
	    !book_backup_sheets(from, &desk->arena, &sheets, &count, fault)) {
		return fault_prefix(fault, "restoring from %s", from);
	}
	if (!book_backup_is_as_written(from)) {
		desk_note(desk,
		    "%s has a value that becket did not write; \"becket book check\" "
		    "says which. Put back another copy, if you have one",
		    from);
	}
	struct moving *moving = arena_alloc(&desk->arena, (count + 1) * sizeof *moving);
	out->sheets = arena_alloc(&desk->arena, (count + 1) * sizeof *out->sheets);
	out->sheet_count = count;
	bool done = restore_all(desk, from, progress, sheets, moving, out, fault);
	for (size_t i = 0; i < count; i++) {
		new_file_clear(&moving[i].file);
	}
	return done;
}

bool
desk_begin_book(
    struct desk *desk, const char *identity, const char *currency, struct fault *fault)
{
	if (desk_has_book(desk)) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is there already, and no book is written over", desk->book_path);
	}
	return desk_open(desk, BOOK_CREATE, fault) && book_begin(desk->book, fault) &&
	       (identity == NULL || book_set_identity(desk->book, identity, fault)) &&
	       (currency == NULL || book_set_currency(desk->book, currency, fault)) &&
	       book_commit(desk->book, fault);
}

/* Prices that are there are not converted: other decimals would make hundreds of ones. */
static bool
check_decimals(const char *before, const char *currency, int64_t prices, const char *path,
    struct fault *fault)
{
	int had = money_decimals(before);
	int has = money_decimals(currency);
	return prices == 0 || had == has ||
	       fault_set(fault, FAULT_INPUT,
		   "%s holds %" PRId64
		   " price%s in %s, which has %d decimals, and %s has %d: "
		   "its figures would be other prices. \"becket book new " FIELD
		   "book FILE " FIELD
		   "currency %s\" begins another book, to import what \"becket export\" writes",
		   path, prices, prices == 1 ? "" : "s", before, had, currency, has,
		   currency);
}

bool
desk_set_currency(struct desk *desk, const char *currency, struct fault *fault)
{
	int64_t prices = 0;
	if (!desk_open(desk, BOOK_WRITE, fault) ||
	    !book_count_prices(desk->book, &prices, fault)) {
		return false;
	}
	const char *before = arena_string(&desk->arena, book_currency(desk->book));
	if (!check_decimals(before, currency, prices, desk->book_path, fault) ||
	    !book_set_currency(desk->book, currency, fault)) {
		return false;
	}
	if (prices > 0 && strcmp(before, currency) != 0) {
		desk_note(desk,
		    "%" PRId64
		    " price%s in the book keep%s the same figures, in %s now and "
		    "no more in %s: nothing is converted; \"becket book undo\" takes this "
		    "back",
		    prices, prices == 1 ? "" : "s", prices == 1 ? "s" : "", currency,
		    before);
	}
	return true;
}

bool
desk_accept(struct desk *desk, bool *differed_out, struct fault *fault)
{
	return desk_open(desk, BOOK_WRITE, fault) &&
	       book_accept(desk->book, differed_out, fault);
}

bool
desk_undo(struct desk *desk, int64_t wanted, int64_t *undone_out, int64_t *entry_out,
    struct fault *fault)
{
	return desk_open(desk, BOOK_WRITE, fault) &&
	       book_undo(desk->book, wanted, undone_out, entry_out, fault);
}
