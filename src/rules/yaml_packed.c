#include "base/memory.h"
#include "rules/yaml_inside.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

enum { FIELDS_MOST = 64 };

struct packed_rest {
	const char *at;
	const char *end;
	struct arena *arena; /* of what is filled */
};

/* The text of the next value of this sort; NULL when there is none. */
static const char *
take(struct packed_rest *from, char sort)
{
	const char *zero = from->at < from->end && *from->at == sort
			       ? memchr(from->at, '\0', (size_t)(from->end - from->at))
			       : NULL;
	if (zero == NULL) {
		return NULL;
	}
	const char *text = from->at + 1;
	from->at = zero + 1;
	return text;
}

/* How many entries or keys; what is packed has a byte or more for each. */
static bool
take_count(struct packed_rest *from, char sort, size_t *out)
{
	const char *text = take(from, sort);
	*out = text == NULL ? 0 : strtoul(text, NULL, 10);
	return text != NULL && *out <= (size_t)(from->end - from->at);
}

static bool
is_pointer(const cyaml_schema_value_t *schema)
{
	return (schema->flags & CYAML_FLAG_POINTER) != 0;
}

/* What one value takes up where it is put. */
static size_t
size_in_place(const cyaml_schema_value_t *schema)
{
	return is_pointer(schema) ? sizeof(void *) : schema->data_size;
}

static bool fill_field(
    struct packed_rest *from, const cyaml_schema_field_t *field, char *structure);

static bool
fill_mapping(
    struct packed_rest *from, const cyaml_schema_field_t *fields, char *structure)
{
	bool seen[FIELDS_MOST] = {false};
	size_t count = 0;
	bool fits = take_count(from, 'm', &count);
	for (size_t i = 0; i < count && fits; i++) {
		const char *key = take(from, 's');
		size_t at = 0;
		while (key != NULL && at < FIELDS_MOST && fields[at].key != NULL &&
		       strcmp(fields[at].key, key) != 0) {
			at++;
		}
		fits = key != NULL && at < FIELDS_MOST && fields[at].key != NULL &&
		       !seen[at] && fill_field(from, &fields[at], structure);
		if (fits) {
			seen[at] = true;
		}
	}
	for (size_t at = 0; at < FIELDS_MOST && fields[at].key != NULL && fits; at++) {
		fits = seen[at] || (fields[at].value.flags & CYAML_FLAG_OPTIONAL) != 0;
	}
	return fits;
}

/* Fills a value that is no list: a text behind a pointer, or a mapping in place or behind one. */
static bool
fill_single(struct packed_rest *from, const cyaml_schema_value_t *schema, char *place)
{
	if (schema->type == CYAML_STRING && is_pointer(schema)) {
		const char *text = take(from, 's');
		if (text != NULL) {
			memcpy(place, &text, sizeof text);
		}
		return text != NULL;
	}
	if (schema->type != CYAML_MAPPING) {
		return false;
	}
	if (is_pointer(schema)) {
		char *structure = arena_alloc(from->arena, schema->data_size);
		*(char **)(void *)place = structure;
		place = structure;
	}
	return fill_mapping(from, schema->mapping.fields, place);
}

static bool
fill_list(struct packed_rest *from, const cyaml_schema_field_t *field, char *structure)
{
	const cyaml_schema_value_t *entry = field->value.sequence.entry;
	size_t size = size_in_place(entry);
	size_t count = 0;
	bool fits = is_pointer(&field->value) && field->count_size == sizeof(unsigned) &&
		    take_count(from, 'l', &count) && count <= UINT_MAX;
	if (!fits || count == 0) {
		return fits;
	}
	char *items = arena_alloc(from->arena, count * size);
	*(char **)(void *)(structure + field->data_offset) = items;
	*(unsigned *)(void *)(structure + field->count_offset) = (unsigned)count;
	for (size_t i = 0; i < count && fits; i++) {
		fits = fill_single(from, entry, items + i * size);
	}
	return fits;
}

static bool
fill_field(struct packed_rest *from, const cyaml_schema_field_t *field, char *structure)
{
	return field->value.type == CYAML_SEQUENCE
		   ? fill_list(from, field, structure)
		   : fill_single(from, &field->value, structure + field->data_offset);
}

bool
yaml_packed_load(const struct yaml_source *source, const cyaml_schema_value_t *schema,
    struct yaml_loaded *out)
{
	struct yaml_loaded loaded = {.packed = true};
	if (source->packed == NULL) {
		return false;
	}
	struct packed_rest from = {
	    source->packed, source->packed + source->packed_length, &loaded.arena};
	if (!fill_single(&from, schema, (char *)&loaded.values) || from.at != from.end) {
		arena_clear(&loaded.arena);
		return false;
	}
	*out = loaded;
	return true;
}
