/* Packed YAML put into the structs of a libcyaml schema, as libcyaml would. */
#ifndef BECKET_RULES_YAML_PACKED_H
#define BECKET_RULES_YAML_PACKED_H

#include "rules/yaml_source.h"

/* Fills what `schema` describes, a pointer to a mapping, from the source's packed form. False when
 * there is none, or it is not of that shape: then the YAML itself is to be loaded, which says what is
 * wrong in it. What it gives is freed with yaml_source_free, and so is what it gives of a shape that
 * does not fit: part of it, or NULL. */
bool yaml_packed_load(const struct yaml_source *source,
    const cyaml_schema_value_t *schema, void **loaded_out);

#endif
