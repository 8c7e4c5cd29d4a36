#include "base/text.h"
#include "rules/yaml_inside.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* Joins a path and a key, and the number of an entry unless it is SIZE_MAX. A path that
 * outgrows its room is cut, which costs a message its exact line and nothing else. */
static void
join(const char *path, const char *key, size_t index, char out[YAML_PATH_SIZE])
{
	const char *slash = path[0] == '\0' ? "" : "/";
	if (index == SIZE_MAX) {
		(void)snprintf(out, YAML_PATH_SIZE, "%.160s%s%.60s", path, slash, key);
	} else {
		(void)snprintf(out, YAML_PATH_SIZE, "%.160s%s%.60s/%zu", path, slash, key,
		    index + 1);
	}
}

struct yaml_spot
yaml_spot_in(const struct yaml_spot *spot, const char *key, size_t index)
{
	return (struct yaml_spot){spot->source, spot, key, index};
}

/* Writes the path of what is under a key of a spot, by way of what that is in. */
static void
path_in(
    const struct yaml_spot *spot, const char *key, size_t index, char out[YAML_PATH_SIZE])
{
	char outer[YAML_PATH_SIZE] = "";
	if (spot->outer != NULL) {
		path_in(spot->outer, spot->key, spot->index, outer);
	}
	join(outer, key, index, out);
}

bool
yaml_spot_bad(const struct yaml_spot *spot, const char *key, const char *found,
    const char *expected, struct fault *fault)
{
	return yaml_entry_bad(spot, key, SIZE_MAX, found, expected, fault);
}

bool
yaml_entry_bad(const struct yaml_spot *spot, const char *key, size_t index,
    const char *found, const char *expected, struct fault *fault)
{
	char path[YAML_PATH_SIZE];
	path_in(spot, key, index, path);
	return yaml_source_bad(spot->source, path, found, expected, fault);
}

bool
yaml_spot_prefix(const struct yaml_spot *spot, const char *key, struct fault *fault)
{
	char path[YAML_PATH_SIZE];
	path_in(spot, key, SIZE_MAX, path);
	return fault_prefix(fault, "%s: line %lu, field %s", spot->source->name,
	    yaml_where_find(spot->source, path, 1).line, key);
}

/* Reads up to six decimal digits; false on anything else. */
static bool
read_digits(const char *digits, size_t length, int *out)
{
	int number = 0;
	if (length == 0 || length > 6) {
		return false;
	}
	for (size_t i = 0; i < length; i++) {
		if (digits[i] < '0' || digits[i] > '9') {
			return false;
		}
		number = number * 10 + (digits[i] - '0');
	}
	*out = number;
	return true;
}

bool
yaml_read_int(const struct yaml_spot *spot, const char *key, const char *value,
    struct yaml_range range, int *out, struct fault *fault)
{
	int number = 0;
	if (value == NULL) {
		return true;
	}
	if (!read_digits(value, strlen(value), &number) || number < range.least ||
	    number > range.most) {
		char expected[100];
		(void)snprintf(expected, sizeof expected,
		    "a whole number of %s, %d to %d", range.unit, range.least,
		    range.most);
		return yaml_spot_bad(spot, key, value, expected, fault);
	}
	*out = number;
	return true;
}

bool
yaml_read_metres(const struct yaml_spot *spot, const char *key, const char *value,
    int *cm_out, struct fault *fault)
{
	if (value == NULL) {
		return true;
	}
	size_t whole_length = strcspn(value, ".");
	const char *places = value[whole_length] == '.' ? value + whole_length + 1 : "0";
	size_t place_count = strlen(places);
	int whole = 0;
	int part = 0;
	if (!read_digits(value, whole_length, &whole) || place_count > 2 ||
	    !read_digits(places, place_count, &part) || whole > 500) {
		return yaml_spot_bad(
		    spot, key, value, "metres up to 500 with at most two places", fault);
	}
	*cm_out = whole * 100 + (place_count == 1 ? part * 10 : part);
	return true;
}

bool
yaml_read_bool(const struct yaml_spot *spot, const char *key, const char *value,
    bool *out, struct fault *fault)
{
	static const char *const WORDS[] = {"no", "yes"};
	unsigned index = *out ? 1 : 0;
	if (!yaml_read_word(
		spot, key, value, (struct yaml_words){WORDS, 2}, &index, fault)) {
		return false;
	}
	*out = index == 1;
	return true;
}

bool
yaml_read_day(const struct yaml_spot *spot, const char *key, const char *value,
    day_t *out, struct fault *fault)
{
	struct fault why = {0};
	if (value == NULL || day_parse(value, out, &why)) {
		return true;
	}
	return yaml_spot_bad(spot, key, value, "a day as YYYY-MM-DD", fault);
}

/* Looks a word up; false when it is none of them. */
static bool
find_word(const char *value, struct yaml_words words, unsigned *out)
{
	for (unsigned i = 0; i < words.count; i++) {
		if (strcmp(value, words.words[i]) == 0) {
			*out = i;
			return true;
		}
	}
	return false;
}

static bool
word_bad(const struct yaml_spot *spot, const char *key, size_t index, const char *value,
    struct yaml_words words, struct fault *fault)
{
	SCOPED_TEXT expected = {0};
	for (unsigned i = 0; i < words.count; i++) {
		text_add_format(
		    &expected, "%s%s", i == 0 ? "one of: " : ", ", words.words[i]);
	}
	return yaml_entry_bad(spot, key, index, value, text_string(&expected), fault);
}

bool
yaml_read_word(const struct yaml_spot *spot, const char *key, const char *value,
    struct yaml_words words, unsigned *out, struct fault *fault)
{
	if (value == NULL || find_word(value, words, out)) {
		return true;
	}
	return word_bad(spot, key, SIZE_MAX, value, words, fault);
}

bool
yaml_read_indices(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct yaml_words words, unsigned *out,
    struct fault *fault)
{
	unsigned bits = 0;
	for (size_t i = 0; i < list->count; i++) {
		unsigned index = 0;
		if (!find_word(list->items[i], words, &index)) {
			return word_bad(spot, key, i, list->items[i], words, fault);
		}
		if ((bits & 1U << index) != 0) {
			return yaml_entry_bad(
			    spot, key, i, list->items[i], "each word once", fault);
		}
		bits |= 1U << index;
		out[i] = index;
	}
	return true;
}

bool
yaml_read_bits(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct yaml_words words, unsigned *out,
    struct fault *fault)
{
	unsigned indices[16] = {0};
	if (list->count > words.count) {
		return yaml_spot_bad(spot, key, list->items[words.count],
		    "no more words than there are", fault);
	}
	if (!yaml_read_indices(spot, key, list, words, indices, fault)) {
		return false;
	}
	for (size_t i = 0; i < list->count; i++) {
		*out |= 1U << indices[i];
	}
	return true;
}

static bool
is_blank(const char *value)
{
	return value == NULL || value[strspn(value, " \t\r\n")] == '\0';
}

bool
yaml_read_text(const struct yaml_spot *spot, const char *key, const char *value,
    struct arena *arena, const char **out, struct fault *fault)
{
	if (is_blank(value)) {
		return yaml_spot_bad(spot, key, value, "some words", fault);
	}
	yaml_read_optional_text(value, arena, out);
	return true;
}

void
yaml_read_optional_text(const char *value, struct arena *arena, const char **out)
{
	const char *copy = arena_string(arena, value == NULL ? "" : value);
	*out = copy;
}

bool
yaml_read_texts(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct arena *arena, const char *const **out,
    struct fault *fault)
{
	if (list->count == 0) {
		*out = NULL;
		return true;
	}
	const char **copies = arena_alloc(arena, list->count * sizeof *copies);
	for (size_t i = 0; i < list->count; i++) {
		if (is_blank(list->items[i])) {
			return yaml_entry_bad(
			    spot, key, i, list->items[i], "some words", fault);
		}
		copies[i] = arena_string(arena, list->items[i]);
	}
	*out = copies;
	return true;
}
