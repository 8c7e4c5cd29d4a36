#include "cli/shelf.h"

#include "cli/files.h"
#include "cli/options.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char SUFFIX[] = ".yaml";
static const char KINDS_FILE[] = "kinds.yaml";

void
shelf_clear(struct shelf *shelf)
{
	for (size_t i = 0; i < shelf->count; i++) {
		sheet_free(shelf->items[i].sheet);
	}
	free(shelf->items);
	kinds_free(shelf->kinds);
	*shelf = (struct shelf){0};
}

static const struct embedded_file *
find_embedded(const char *name, size_t length)
{
	for (size_t i = 0; i < EMBEDDED_DATA_COUNT; i++) {
		const struct embedded_file *file = &EMBEDDED_DATA[i];
		if (strlen(file->name) == length &&
		    memcmp(file->name, name, length) == 0) {
			return file;
		}
	}
	return NULL;
}

bool
shelf_kinds(struct shelf *shelf, const struct kinds **out, struct fault *fault)
{
	if (shelf->kinds == NULL) {
		const struct embedded_file *file =
		    find_embedded(KINDS_FILE, sizeof KINDS_FILE - 1);
		if (file == NULL) {
			return fault_set(fault, FAULT_INPUT,
			    "%s is not built into this program", KINDS_FILE);
		}
		if (!kinds_read(
			file->name, file->bytes, file->length, &shelf->kinds, fault)) {
			return false;
		}
	}
	*out = shelf->kinds;
	return true;
}

/* True for a name that can be a file's name and nothing more. */
static bool
plain_name(const char *name)
{
	return name[0] != '\0' && name[0] != '.' && strchr(name, '/') == NULL &&
	       strlen(name) <= 100;
}

/* The sheet's name when a file name is that of a sheet, its length; 0 otherwise. */
static size_t
sheet_name_length(const char *file)
{
	size_t length = strlen(file);
	size_t suffix = sizeof SUFFIX - 1;
	if (length <= suffix || file[0] == '.' || strcmp(file, KINDS_FILE) == 0 ||
	    strcmp(file + length - suffix, SUFFIX) != 0) {
		return 0;
	}
	return length - suffix;
}

static bool
add_name(struct arena *arena, const char *file, size_t length, struct word_list *names,
    struct fault *fault)
{
	char *name = arena_alloc(arena, length + 1);
	if (name == NULL) {
		return fault_memory(fault);
	}
	memcpy(name, file, length);
	for (size_t i = 0; i < names->count; i++) {
		if (strcmp(names->items[i], name) == 0) {
			return true;
		}
	}
	if (!ARRAY_ROOM(names, fault)) {
		return false;
	}
	names->items[names->count++] = name;
	return true;
}

static bool
add_own_names(
    const char *folder, struct arena *arena, struct word_list *names, struct fault *fault)
{
	DIR *open_folder = folder[0] == '\0' ? NULL : opendir(folder);
	if (open_folder == NULL) {
		return true;
	}
	bool done = true;
	for (struct dirent *entry = readdir(open_folder); done && entry != NULL;
	     entry = readdir(open_folder)) {
		size_t length = sheet_name_length(entry->d_name);
		if (length > 0) {
			done = add_name(arena, entry->d_name, length, names, fault);
		}
	}
	(void)closedir(open_folder);
	return done;
}

static int
by_name(const void *a, const void *b)
{
	return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* All names into a list with memory of its own. */
static bool
gather_names(const struct shelf *shelf, struct arena *arena, struct word_list *names,
    struct fault *fault)
{
	for (size_t i = 0; i < EMBEDDED_DATA_COUNT; i++) {
		const char *file = EMBEDDED_DATA[i].name;
		size_t length = sheet_name_length(file);
		if (length > 0 && !add_name(arena, file, length, names, fault)) {
			return false;
		}
	}
	return add_own_names(shelf->folder, arena, names, fault);
}

bool
shelf_names(const struct shelf *shelf, struct arena *arena, const char *const **names_out,
    size_t *count_out, struct fault *fault)
{
	struct word_list names = {0};
	const char **kept = NULL;
	bool done = gather_names(shelf, arena, &names, fault);
	if (done && names.count > 0) {
		qsort(names.items, names.count, sizeof *names.items, by_name);
		kept = arena_alloc(arena, names.count * sizeof *kept);
		done = kept != NULL || fault_memory(fault);
	}
	if (done) {
		if (kept != NULL) {
			memcpy(kept, names.items, names.count * sizeof *kept);
		}
		*names_out = kept;
		*count_out = names.count;
	}
	free(names.items);
	return done;
}

static bool
unknown_sheet(const struct shelf *shelf, const char *name, struct fault *fault)
{
	struct arena arena = {0};
	const char *const *names = NULL;
	size_t count = 0;
	bool known = shelf_names(shelf, &arena, &names, &count, fault);
	if (known) {
		SCOPED_TEXT list = {0};
		for (size_t i = 0; i < count; i++) {
			text_add_format(&list, "%s%s", i == 0 ? "" : ", ", names[i]);
		}
		(void)fault_set(fault, FAULT_INPUT,
		    "there is no rule sheet \"%s\"; known are: %s", name,
		    text_string(&list));
	}
	arena_clear(&arena);
	return false;
}

/* Keeps a sheet that was read. */
static bool
keep(struct shelf *shelf, struct sheet *sheet, const struct sheet **out,
    struct fault *fault)
{
	if (!ARRAY_ROOM(shelf, fault)) {
		sheet_free(sheet);
		return false;
	}
	shelf->items[shelf->count++].sheet = sheet;
	*out = sheet;
	return true;
}

static bool
read_own(struct shelf *shelf, const char *name, const char *path,
    const struct kinds *kinds, const struct sheet **out, struct fault *fault)
{
	SCOPED_TEXT yaml = {0};
	struct sheet *sheet = NULL;
	if (!file_read(path, &yaml, fault)) {
		return false;
	}
	if (!sheet_read(name, text_string(&yaml), yaml.length, kinds, &sheet, fault)) {
		return fault_prefix(fault, "reading %s", path);
	}
	return keep(shelf, sheet, out, fault);
}

/* Reads a sheet that is not on the shelf yet. */
static bool
fetch(struct shelf *shelf, const char *name, struct text *notes, const struct sheet **out,
    struct fault *fault)
{
	const struct kinds *kinds = NULL;
	SCOPED_TEXT file_name = {0};
	SCOPED_TEXT path = {0};
	text_add_format(&file_name, "%s%s", name, SUFFIX);
	text_add_format(&path, "%s/%s%s", shelf->folder, name, SUFFIX);
	if (!text_check(&file_name, fault) || !text_check(&path, fault) ||
	    !shelf_kinds(shelf, &kinds, fault)) {
		return false;
	}
	const struct embedded_file *built_in =
	    find_embedded(text_string(&file_name), file_name.length);
	const char *own = text_string(&path);
	if (shelf->folder[0] != '\0' && access(own, F_OK) == 0) {
		if (built_in != NULL) {
			text_add_format(notes,
			    "the rule sheet %s is your own, %s, not the built-in one\n",
			    name, own);
		}
		return read_own(shelf, name, own, kinds, out, fault);
	}
	if (built_in == NULL || sheet_name_length(built_in->name) == 0) {
		return unknown_sheet(shelf, name, fault);
	}
	struct sheet *sheet = NULL;
	if (!sheet_read(name, built_in->bytes, built_in->length, kinds, &sheet, fault)) {
		return false;
	}
	return keep(shelf, sheet, out, fault);
}

bool
shelf_sheet(struct shelf *shelf, const char *name, struct text *notes,
    const struct sheet **out, struct fault *fault)
{
	for (size_t i = 0; i < shelf->count; i++) {
		if (strcmp(shelf->items[i].sheet->name, name) == 0) {
			*out = shelf->items[i].sheet;
			return true;
		}
	}
	if (!plain_name(name)) {
		return unknown_sheet(shelf, name, fault);
	}
	return fetch(shelf, name, notes, out, fault);
}

/* The name a file gives its sheet: without folder and suffix. */
static void
name_of_file(const char *path, struct text *out)
{
	const char *slash = strrchr(path, '/');
	const char *file = slash == NULL ? path : slash + 1;
	size_t length = sheet_name_length(file);
	text_add_bytes(out, file, length > 0 ? length : strlen(file));
}

bool
shelf_check(
    struct shelf *shelf, const char *path, struct sheet **out, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	SCOPED_TEXT yaml = {0};
	SCOPED_TEXT name = {0};
	name_of_file(path, &name);
	if (!text_check(&name, fault) || !shelf_kinds(shelf, &kinds, fault) ||
	    !file_read(path, &yaml, fault)) {
		return false;
	}
	if (!sheet_read(
		text_string(&name), text_string(&yaml), yaml.length, kinds, out, fault)) {
		return fault_prefix(fault, "reading %s", path);
	}
	return true;
}
