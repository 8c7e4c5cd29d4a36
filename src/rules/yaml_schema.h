/* The few kinds of field our schemas are made of. */
#ifndef BECKET_RULES_YAML_SCHEMA_H
#define BECKET_RULES_YAML_SCHEMA_H

#include <cyaml/cyaml.h>

/* The entry of a list of words. */
#define YAML_WORD_ENTRY                                                                  \
	{                                                                                \
		CYAML_VALUE_STRING(CYAML_FLAG_POINTER, char, 0, CYAML_UNLIMITED)         \
	}

/* A value that must be there; that may be absent; a list of words, which may be too. */
#define YAML_MUST(key, structure, member)                                                \
	CYAML_FIELD_STRING_PTR(                                                          \
	    key, CYAML_FLAG_POINTER, structure, member, 0, CYAML_UNLIMITED)
#define YAML_MAY(key, structure, member)                                                 \
	CYAML_FIELD_STRING_PTR(key, CYAML_FLAG_POINTER | CYAML_FLAG_OPTIONAL, structure, \
	    member, 0, CYAML_UNLIMITED)
#define YAML_WORDS(key, flags, structure, list_items, list_count, entry)                 \
	CYAML_FIELD_SEQUENCE_COUNT(key, CYAML_FLAG_POINTER | (flags), structure,         \
	    list_items, list_count, entry, 0, CYAML_UNLIMITED)

#endif
