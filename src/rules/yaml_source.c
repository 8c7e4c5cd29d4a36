#include "base/memory.h"
#include "base/text.h"
#include "rules/yaml_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { STEP_SIZE = 64, STEPS_MAX = 12 };

/* What libcyaml said: one line of complaint, then where, innermost first. */
struct yaml_complaint {
	char words[200];
	char steps[STEPS_MAX][STEP_SIZE];
	size_t step_count;
	bool
	    innermost_is_field; /* the first place is a field, not an entry or a mapping */
	size_t place_count;     /* places named, with or without a step of their own */
};

/* Takes the step between the quotes of "in mapping field 'months' (line: 6 ...". */
static void
take_place(struct yaml_complaint *complaint, const char *line)
{
	const char *open = strchr(line, '\'');
	const char *close = open == NULL ? NULL : strchr(open + 1, '\'');
	if (complaint->place_count == 0) {
		complaint->innermost_is_field = strstr(line, "mapping field") != NULL;
	}
	complaint->place_count++;
	if (close == NULL || complaint->step_count == STEPS_MAX) {
		return;
	}
	(void)snprintf(complaint->steps[complaint->step_count], STEP_SIZE, "%.*s",
	    (int)(close - open - 1), open + 1);
	complaint->step_count++;
}

static void hear(cyaml_log_t level, void *context, const char *format, va_list args)
    FORMAT_LIKE(3, 0);

static void
hear(cyaml_log_t level, void *context, const char *format, va_list args)
{
	struct yaml_complaint *complaint = context;
	char line[256];
	if (level < CYAML_LOG_ERROR || vsnprintf(line, sizeof line, format, args) < 0) {
		return;
	}
	line[strcspn(line, "\n")] = '\0';
	const char *words = strncmp(line, "Load: ", 6) == 0 ? line + 6 : line;
	if (strncmp(words, "  in ", 5) == 0) {
		take_place(complaint, words);
	} else if (strcmp(words, "Backtrace:") != 0 && complaint->words[0] == '\0') {
		(void)snprintf(
		    complaint->words, sizeof complaint->words, "%.190s", words);
	}
}

/* Writes the path of the complaint, outermost first, without its `skip` innermost steps. */
static void
write_path(const struct yaml_complaint *complaint, size_t skip, char path[YAML_PATH_SIZE])
{
	size_t used = 0;
	path[0] = '\0';
	for (size_t i = complaint->step_count; i-- > skip;) {
		int written = snprintf(path + used, YAML_PATH_SIZE - used, "%s%s",
		    used == 0 ? "" : "/", complaint->steps[i]);
		if (written < 0 || (size_t)written >= YAML_PATH_SIZE - used) {
			path[used] = '\0';
			return;
		}
		used += (size_t)written;
	}
}

/* The schema of the value at a path, or NULL. */
static const cyaml_schema_value_t *
schema_at(const cyaml_schema_value_t *schema, const char *path)
{
	while (schema != NULL && *path != '\0') {
		size_t length = strcspn(path, "/");
		const cyaml_schema_value_t *next = NULL;
		if (schema->type == CYAML_SEQUENCE) {
			next = schema->sequence.entry;
		} else if (schema->type == CYAML_MAPPING) {
			const cyaml_schema_field_t *field = schema->mapping.fields;
			while (field->key != NULL &&
			       (strlen(field->key) != length ||
				   strncmp(field->key, path, length) != 0)) {
				field++;
			}
			next = field->key == NULL ? NULL : &field->value;
		}
		schema = next;
		path += length + (path[length] == '/' ? 1 : 0);
	}
	return schema;
}

static const char *
type_words(const cyaml_schema_value_t *schema)
{
	if (schema != NULL && schema->type == CYAML_MAPPING) {
		return "keys with values";
	}
	if (schema != NULL && schema->type == CYAML_SEQUENCE) {
		return "a list";
	}
	return "a single value";
}

/* "entry 2 of kinds" or "months", for a path. */
static void
write_field(const char *path, char field[YAML_PATH_SIZE])
{
	const char *last = strrchr(path, '/');
	last = last == NULL ? path : last + 1;
	if (*last < '0' || *last > '9') {
		(void)snprintf(field, YAML_PATH_SIZE, "%s", last);
		return;
	}
	size_t head = last == path ? 0 : (size_t)(last - path) - 1;
	size_t start = head;
	while (start > 0 && path[start - 1] != '/') {
		start--;
	}
	(void)snprintf(field, YAML_PATH_SIZE, "%.*s, entry %s", (int)(head - start),
	    path + start, last);
}

/* The report every other one ends in. `found` comes with its quotes, if any. */
static bool
report(const struct yaml_source *source, const char *path, int occurrence,
    const char *found, const char *expected, struct fault *fault)
{
	struct yaml_where place = yaml_where_find(source, path, occurrence);
	char field[YAML_PATH_SIZE];
	write_field(path, field);
	if (field[0] == '\0') {
		return fault_set(fault, FAULT_INPUT,
		    "%s: line %lu: found %s, expected %s", source->name, place.line,
		    found, expected);
	}
	return fault_set(fault, FAULT_INPUT,
	    "%s: line %lu, field %s: found %s, expected %s", source->name, place.line,
	    field, found, expected);
}

bool
yaml_source_bad(const struct yaml_source *source, const char *path, const char *found,
    const char *expected, struct fault *fault)
{
	char quoted[100];
	(void)snprintf(quoted, sizeof quoted, "\"%.80s\"", found == NULL ? "" : found);
	return report(
	    source, path, 1, found == NULL ? "nothing" : quoted, expected, fault);
}

/* The word after the colon of libcyaml's complaint, when it starts with `start`. */
static const char *
word_after(const struct yaml_complaint *complaint, const char *start)
{
	size_t length = strlen(start);
	return strncmp(complaint->words, start, length) == 0 ? complaint->words + length
							     : NULL;
}

static bool
report_key(const struct yaml_source *source, const cyaml_schema_value_t *schema,
    const struct yaml_complaint *complaint, const char *key, struct fault *fault)
{
	char around[YAML_PATH_SIZE];
	write_path(complaint, complaint->innermost_is_field ? 1 : 0, around);
	SCOPED_TEXT path = {0};
	text_add_format(&path, "%s%s%s", around, around[0] == '\0' ? "" : "/", key);
	if (word_after(complaint, "Mapping field already seen: ") != NULL) {
		return report(source, text_string(&path), 2, "it a second time",
		    "each key once", fault);
	}
	if (word_after(complaint, "Missing") != NULL) {
		return report(source, text_string(&path), 1, "nothing",
		    type_words(schema_at(schema, text_string(&path))), fault);
	}
	SCOPED_TEXT expected = {0};
	const cyaml_schema_value_t *mapping = schema_at(schema, around);
	if (mapping != NULL && mapping->type == CYAML_MAPPING) {
		const cyaml_schema_field_t *field = mapping->mapping.fields;
		for (; field->key != NULL; field++) {
			text_add_format(&expected, "%s%s",
			    expected.length == 0 ? "one of: " : ", ", field->key);
		}
	}
	return report(source, text_string(&path), 1, "an unknown key",
	    text_string(&expected), fault);
}

/* Says in our words what libcyaml complained of. */
static bool
explain(const struct yaml_source *source, const cyaml_schema_value_t *schema,
    const struct yaml_complaint *complaint, struct fault *fault)
{
	static const char *const KEYED[] = {
	    "Unexpected key: ",
	    "Missing required mapping field: ",
	    "Mapping field already seen: ",
	};
	struct yaml_where place = yaml_where_find(source, "", 1);
	if (place.found == YAML_WHERE_BROKEN) {
		return fault_set(fault, FAULT_INPUT,
		    "%s: line %lu: found no valid YAML (%s), expected YAML", source->name,
		    place.line, place.problem);
	}
	for (size_t i = 0; i < sizeof KEYED / sizeof KEYED[0]; i++) {
		const char *key = word_after(complaint, KEYED[i]);
		if (key != NULL) {
			return report_key(source, schema, complaint, key, fault);
		}
	}
	char path[YAML_PATH_SIZE];
	write_path(complaint, 0, path);
	const char *got = strstr(complaint->words, "got event: ");
	const char *found = got == NULL                       ? complaint->words
			    : strstr(got, "SEQUENCE") != NULL ? "a list"
			    : strstr(got, "MAPPING") != NULL  ? "keys with values"
							      : "a single value";
	return report(source, path, 1, found, type_words(schema_at(schema, path)), fault);
}

static cyaml_config_t
configuration(struct yaml_complaint *complaint)
{
	return (cyaml_config_t){
	    .log_fn = complaint == NULL ? NULL : hear,
	    .log_ctx = complaint,
	    .mem_fn = cyaml_mem,
	    .log_level = CYAML_LOG_ERROR,
	    .flags = CYAML_CFG_NO_ALIAS,
	};
}

/* Refuses brackets opened far deeper than any sheet has them: libyaml's time grows with the
 * square of their depth, to many seconds for a file of brackets. Brackets in words count too,
 * which does no harm: there are never so many left open. */
static bool
check_depth(const struct yaml_source *source, struct fault *fault)
{
	enum { DEEPEST = 500 };

	int depth = 0;
	unsigned long line = 1;
	for (size_t i = 0; i < source->length; i++) {
		char byte = source->bytes[i];
		line += byte == '\n' ? 1 : 0;
		if (byte == '[' || byte == '{') {
			depth++;
		} else if ((byte == ']' || byte == '}') && depth > 0) {
			depth--;
		}
		if (depth > DEEPEST) {
			return fault_set(fault, FAULT_INPUT,
			    "%s: line %lu: found brackets more than %d deep, fewer expected",
			    source->name, line, DEEPEST);
		}
	}
	return true;
}

struct yaml_source
yaml_source_of(const struct packed_file *file)
{
	return (struct yaml_source){
	    file->name, file->yaml, file->length, file->packed, file->packed_length};
}

bool
yaml_source_load(const struct yaml_source *source, const cyaml_schema_value_t *schema,
    struct yaml_loaded *out, struct fault *fault)
{
	struct yaml_complaint complaint = {0};
	cyaml_config_t config = configuration(&complaint);
	cyaml_data_t *loaded = NULL;
	if (yaml_packed_load(source, schema, out)) {
		return true;
	}
	if (!check_depth(source, fault)) {
		return false;
	}
	cyaml_err_t error = cyaml_load_data((const uint8_t *)source->bytes,
	    source->length, &config, schema, &loaded, NULL);
	if (error == CYAML_ERR_OOM || error == CYAML_ERR_LIBYAML_PARSER_INIT) {
		memory_ended();
	}
	if (error != CYAML_OK) {
		if (complaint.words[0] == '\0') {
			(void)snprintf(complaint.words, sizeof complaint.words, "%s",
			    cyaml_strerror(error));
		}
		return explain(source, schema, &complaint, fault);
	}
	if (loaded == NULL) {
		return yaml_source_bad(source, "", NULL, type_words(schema), fault);
	}
	*out = (struct yaml_loaded){.values = loaded};
	return true;
}

void
yaml_loaded_free(const cyaml_schema_value_t *schema, struct yaml_loaded *loaded)
{
	cyaml_config_t config = configuration(NULL);
	if (loaded->values != NULL && !loaded->packed) {
		(void)cyaml_free(&config, schema, loaded->values, 0);
	}
	arena_clear(&loaded->arena);
	*loaded = (struct yaml_loaded){0};
}
