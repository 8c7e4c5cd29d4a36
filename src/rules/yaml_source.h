/* YAML text with a name, loaded through libcyaml; and the one way in which this room reports
 * what is wrong in it: file, line, field, what was found, what was expected.
 *
 * A place in the text is a path of keys and entry numbers, counted from 1, with slashes:
 * "rules/3/clocks/1/months". */
#ifndef BECKET_RULES_YAML_SOURCE_H
#define BECKET_RULES_YAML_SOURCE_H

#include "base/fault.h"
#include "rules/packed.h"

#include <cyaml/cyaml.h>

/* All borrowed. */
struct yaml_source {
	const char *name; /* the file's name, for messages */
	const char *bytes;
	size_t length;
	const char *packed; /* the same as packed.h has it; NULL for none */
	size_t packed_length;
};

enum { YAML_PATH_SIZE = 256 };

struct yaml_source yaml_source_of(const struct packed_file *file);

/* Loads the text by a schema whose top value is a pointer to a mapping. An unknown key, a
 * missing one, one given twice, a list where a single value belongs, an empty text: each is
 * a failure. What it gives belongs to the caller; free with yaml_source_free. */
MUST_CHECK bool yaml_source_load(const struct yaml_source *source,
    const cyaml_schema_value_t *schema, void **loaded_out, struct fault *fault);

/* Frees what yaml_source_load gave for the same schema. Accepts NULL. */
void yaml_source_free(const cyaml_schema_value_t *schema, void *loaded);

/* Reports a value that is not acceptable. `path` is its place; the line is that of the
 * place, or of the nearest one around it that is in the text. `found` is the value as
 * written, NULL when there is none. Returns false. */
bool yaml_source_bad(const struct yaml_source *source, const char *path,
    const char *found, const char *expected, struct fault *fault);

#endif
