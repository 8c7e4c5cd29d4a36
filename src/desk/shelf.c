#include "desk/shelf.h"

#include "base/text.h"
#include "base/words.h"
#include "desk/files.h"

#include <dirent.h>
#include <sodium.h>
#include <stdlib.h>
#include <string.h>

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

/* A built-in file to be read. */
static struct packed_file
built_in_file(const struct embedded_file *file)
{
	const struct embedded_file *packed = &EMBEDDED_PACKED[file - EMBEDDED_DATA];
	return (struct packed_file){
	    file->name, file->bytes, file->length, packed->bytes, packed->length};
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
		const struct packed_file packed = built_in_file(file);
		if (!kinds_read_packed(&packed, &shelf->kinds, fault)) {
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

bool
shelf_built_in(const char *name)
{
	for (size_t i = 0; i < EMBEDDED_DATA_COUNT; i++) {
		size_t length = sheet_name_length(EMBEDDED_DATA[i].name);
		if (length > 0 && strlen(name) == length &&
		    memcmp(EMBEDDED_DATA[i].name, name, length) == 0) {
			return true;
		}
	}
	return false;
}

static void
add_name(struct arena *arena, const char *file, size_t length, struct word_list *names)
{
	char *name = arena_alloc(arena, length + 1);
	memcpy(name, file, length);
	if (!words_have(names->items, names->count, name)) {
		ARRAY_ADD(names, name);
	}
}

/* Reading a pipe would wait for ever. */
static bool
is_plain_in(const char *folder, const char *file)
{
	SCOPED_TEXT path = {0};
	text_add_format(&path, "%s/%s", folder, file);
	return file_is_plain(text_string(&path));
}

bool
shelf_name_is_plain(const char *name)
{
	SCOPED_TEXT file = {0};
	text_add_format(&file, "%s%s", name, SUFFIX);
	return plain_name(name) && sheet_name_length(text_string(&file)) > 0;
}

static void
add_own_names(const char *folder, struct arena *arena, struct word_list *names)
{
	DIR *open_folder = folder[0] == '\0' ? NULL : opendir(folder);
	if (open_folder == NULL) {
		return;
	}
	for (struct dirent *entry = readdir(open_folder); entry != NULL;
	     entry = readdir(open_folder)) {
		size_t length = sheet_name_length(entry->d_name);
		if (length > 0 && is_plain_in(folder, entry->d_name)) {
			add_name(arena, entry->d_name, length, names);
		}
	}
	(void)closedir(open_folder);
}

/* All names into a list with memory of its own. */
static void
gather_names(const struct shelf *shelf, struct arena *arena, struct word_list *names)
{
	for (size_t i = 0; i < EMBEDDED_DATA_COUNT; i++) {
		const char *file = EMBEDDED_DATA[i].name;
		size_t length = sheet_name_length(file);
		if (length > 0) {
			add_name(arena, file, length, names);
		}
	}
	add_own_names(shelf->folder, arena, names);
}

void
shelf_names(const struct shelf *shelf, struct arena *arena, const char *const **names_out,
    size_t *count_out)
{
	struct word_list names = {0};
	const char **kept = NULL;
	gather_names(shelf, arena, &names);
	if (names.count > 0) {
		qsort(names.items, names.count, sizeof *names.items, text_order);
		kept = arena_alloc(arena, names.count * sizeof *kept);
	}
	if (kept != NULL) {
		memcpy(kept, names.items, names.count * sizeof *kept);
	}
	*names_out = kept;
	*count_out = names.count;
	free(names.items);
}

static bool
unknown_sheet(const struct shelf *shelf, const char *name, struct fault *fault)
{
	struct arena arena = {0};
	const char *const *names = NULL;
	size_t count = 0;
	shelf_names(shelf, &arena, &names, &count);
	SCOPED_TEXT list = {0};
	for (size_t i = 0; i < count; i++) {
		text_add_format(&list, "%s%s", i == 0 ? "" : ", ", names[i]);
	}
	(void)fault_set(fault, FAULT_INPUT,
	    "there is no rule sheet \"%s\"; known are: %s", name, text_string(&list));
	arena_clear(&arena);
	return false;
}

/* Keeps a sheet that was read. */
static void
keep(struct shelf *shelf, struct sheet *sheet, bool hidden, const struct sheet **out)
{
	ARRAY_ADD(shelf, (struct shelved){sheet, hidden});
	*out = sheet;
}

/* A sheet being read, and those that wait for it because they extend it. */
struct reading_sheet {
	struct shelf *shelf;
	struct text *notes;
	const char *name;
	bool built_in; /* the built-in one of that name is meant */
	const struct reading_sheet *below;
};

static bool read_sheet(const struct reading_sheet *reading,
    const struct packed_file *file, struct sheet **out, struct fault *fault);

static const struct sheet *
find_read(const struct shelf *shelf, const char *name, bool hidden)
{
	for (size_t i = 0; i < shelf->count; i++) {
		const struct shelved *shelved = &shelf->items[i];
		if (shelved->hidden == hidden &&
		    strcmp(shelved->sheet->name, name) == 0) {
			return shelved->sheet;
		}
	}
	return NULL;
}

/* Whether a person has a sheet of that name, whose path is added to `path`. */
static bool
has_own(const struct shelf *shelf, const char *name, struct text *path)
{
	text_add_format(path, "%s/%s%s", shelf->folder, name, SUFFIX);
	return shelf->folder[0] != '\0' && file_is_plain(text_string(path));
}

static bool
read_own(const struct reading_sheet *reading, const char *path, struct sheet **out,
    struct fault *fault)
{
	SCOPED_TEXT yaml = {0};
	if (!file_read(path, &yaml, fault)) {
		return false;
	}
	const struct packed_file file = {
	    .name = reading->name, .yaml = text_string(&yaml), .length = yaml.length};
	return read_sheet(reading, &file, out, fault) ||
	       fault_prefix(fault, "reading %s", path);
}

static bool
read_built_in(const struct reading_sheet *reading, const struct embedded_file *built_in,
    struct sheet **out, struct fault *fault)
{
	struct packed_file file = built_in_file(built_in);
	file.name = reading->name;
	return read_sheet(reading, &file, out, fault);
}

/* Reads a sheet that is not on the shelf yet, and keeps it there. */
static bool
fetch(const struct reading_sheet *reading, const struct sheet **out, struct fault *fault)
{
	struct shelf *shelf = reading->shelf;
	SCOPED_TEXT file_name = {0};
	SCOPED_TEXT path = {0};
	struct sheet *sheet = NULL;
	text_add_format(&file_name, "%s%s", reading->name, SUFFIX);
	bool own = has_own(shelf, reading->name, &path) && !reading->built_in;
	const struct embedded_file *built_in =
	    sheet_name_length(text_string(&file_name)) == 0
		? NULL
		: find_embedded(text_string(&file_name), file_name.length);
	if (own && built_in != NULL) {
		text_add_format(reading->notes,
		    "the rule sheet %s is your own, %s, not the built-in one\n",
		    reading->name, text_string(&path));
	}
	if (reading->built_in && built_in == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "found \"%.60s\", expected another sheet: none of that name is built in",
		    reading->name);
	}
	if (!own && built_in == NULL) {
		return unknown_sheet(shelf, reading->name, fault);
	}
	if (own ? !read_own(reading, text_string(&path), &sheet, fault)
		: !read_built_in(reading, built_in, &sheet, fault)) {
		return false;
	}
	keep(shelf, sheet, reading->built_in, out);
	return true;
}

/* What a sheet extends: the library's side of sheet_read. A round would be endless, and so
 * may be a chain. */
static bool
find_extended(
    void *context, const char *name, const struct sheet **out, struct fault *fault)
{
	enum { LONGEST = 8 };

	const struct reading_sheet *reading = context;
	struct shelf *shelf = reading->shelf;
	SCOPED_TEXT path = {0};
	bool same = strcmp(name, reading->name) == 0 && !reading->built_in;
	struct reading_sheet next = {shelf, reading->notes, name, same, reading};
	size_t length = 0;
	for (const struct reading_sheet *at = reading; at != NULL; at = at->below) {
		bool again = strcmp(at->name, name) == 0 && at->built_in == same;
		if (again || length++ == LONGEST) {
			return fault_set(fault, FAULT_INPUT,
			    again ? "found \"%.60s\", expected a sheet that does not "
				    "itself extend this one"
				  : "found \"%.60s\", expected sheets that extend one "
				    "another at most eight deep",
			    name);
		}
	}
	*out = find_read(shelf, name, same && has_own(shelf, name, &path));
	if (*out != NULL) {
		return true;
	}
	return plain_name(name) ? fetch(&next, out, fault)
				: unknown_sheet(shelf, name, fault);
}

static bool
read_sheet(const struct reading_sheet *reading, const struct packed_file *file,
    struct sheet **out, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	struct reading_sheet context = *reading;
	struct sheet_library library = {find_extended, &context};
	return shelf_kinds(reading->shelf, &kinds, fault) &&
	       sheet_read_packed(file, kinds, &library, out, fault);
}

bool
shelf_sheet(struct shelf *shelf, const char *name, struct text *notes,
    const struct sheet **out, struct fault *fault)
{
	const struct sheet *sheet = find_read(shelf, name, false);
	if (sheet != NULL) {
		*out = sheet;
		return true;
	}
	if (!plain_name(name)) {
		return unknown_sheet(shelf, name, fault);
	}
	struct reading_sheet reading = {shelf, notes, name, false, NULL};
	return fetch(&reading, out, fault);
}

static void
mix(crypto_generichash_state *state, const char *bytes, size_t length)
{
	(void)crypto_generichash_update(state, (const unsigned char *)bytes, length);
}

/* Mixes in the person's own sheets, by name. */
static void
mix_own(const struct shelf *shelf, crypto_generichash_state *state)
{
	SCOPED_ARENA arena = {0};
	const char *const *names = NULL;
	size_t count = 0;
	shelf_names(shelf, &arena, &names, &count);
	for (size_t i = 0; i < count; i++) {
		SCOPED_TEXT path = {0};
		SCOPED_TEXT yaml = {0};
		struct fault unreadable = {0};
		if (!has_own(shelf, names[i], &path)) {
			continue;
		}
		bool read = file_read(text_string(&path), &yaml, &unreadable);
		mix(state, names[i], strlen(names[i]) + 1);
		mix(state, text_string(&yaml), read ? yaml.length + 1 : 0);
	}
}

bool
shelf_digest(const struct shelf *shelf, const char *const *followed, size_t count,
    struct text *out, struct fault *fault)
{
	crypto_generichash_state state;
	unsigned char bytes[32];
	char digits[2 * sizeof bytes + 1];
	bool own = false;
	for (size_t i = 0; i < count; i++) {
		SCOPED_TEXT path = {0};
		own = own || !shelf_built_in(followed[i]) ||
		      has_own(shelf, followed[i], &path);
	}
	if (!own) {
		text_add(out, EMBEDDED_DIGEST);
		return true;
	}
	if (sodium_init() < 0 ||
	    crypto_generichash_init(&state, NULL, 0, sizeof bytes) != 0) {
		return fault_set(fault, FAULT_FILE, "a digest can't be made");
	}
	for (size_t i = 0; i < EMBEDDED_DATA_COUNT; i++) {
		mix(&state, EMBEDDED_DATA[i].name, strlen(EMBEDDED_DATA[i].name) + 1);
		mix(&state, EMBEDDED_DATA[i].bytes, EMBEDDED_DATA[i].length);
	}
	mix_own(shelf, &state);
	(void)crypto_generichash_final(&state, bytes, sizeof bytes);
	text_add(out, sodium_bin2hex(digits, sizeof digits, bytes, sizeof bytes));
	return true;
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
shelf_check(struct shelf *shelf, const char *path, const struct text *yaml,
    struct text *notes, struct sheet **out, struct fault *fault)
{
	SCOPED_TEXT name = {0};
	name_of_file(path, &name);
	struct reading_sheet reading = {shelf, notes, text_string(&name), false, NULL};
	const struct packed_file file = {
	    .name = path, .yaml = text_string(yaml), .length = yaml->length};
	return read_sheet(&reading, &file, out, fault);
}
