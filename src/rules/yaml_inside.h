/* Inside the rules: reading YAML into structs, with the place of what is wrong. Not for other
 * rooms. */
#ifndef BECKET_RULES_YAML_INSIDE_H
#define BECKET_RULES_YAML_INSIDE_H

#include "base/fault.h"
#include "base/memory.h"
#include "dates/day.h"
#include "rules/kinds.h"

#include <cyaml/cyaml.h>

/* YAML text with a name, loaded through libcyaml; and the one way in which this room reports
 * what is wrong in it: file, line, field, what was found, what was expected.
 * 
 * A place in the text is a path of keys and entry numbers, counted from 1, with slashes:
 * "rules/3/clocks/1/months". */

/* All borrowed. */
struct yaml_source {
	const char *name; /* the file's name, for messages */
	const char *bytes;
	size_t length;
	const char *packed; /* the same as in struct packed_file; NULL for none */
	size_t packed_length;
};

enum { YAML_PATH_SIZE = 256 };

struct yaml_source yaml_source_of(const struct packed_file *file);

/* What was loaded by a schema. Starts as `{ 0 }`. */
struct yaml_loaded {
	void *values; /* NULL for nothing; of libcyaml's memory, or of the arena */
	bool packed;  /* in the arena, but for its texts, which are the packed form's */
	struct arena arena; /* owned */
};

/* Loads the text by a schema whose top value is a pointer to a mapping. An unknown key, a
 * missing one, one given twice, a list where a single value belongs, an empty text: each is
 * a failure. Free what it gives with yaml_loaded_free. */
MUST_CHECK bool yaml_source_load(const struct yaml_source *source,
    const cyaml_schema_value_t *schema, struct yaml_loaded *out, struct fault *fault);

/* Frees what yaml_source_load gave for the same schema. Accepts one that holds nothing. */
void yaml_loaded_free(const cyaml_schema_value_t *schema, struct yaml_loaded *loaded);

/* Reports a value that is not acceptable. `path` is its place; the line is that of the
 * place, or of the nearest one around it that is in the text. `found` is the value as
 * written, NULL when there is none. Returns false. */
bool yaml_source_bad(const struct yaml_source *source, const char *path,
    const char *found, const char *expected, struct fault *fault);

/* Single values out of a loaded YAML text, each checked. libcyaml hands every value over as
 * it is written, so that "012" is no octal and every complaint has the same shape.
 * 
 * Each reader leaves its output as it is when the value is absent (NULL), so an output
 * starts as the default. */

/* A mapping in the text. */
struct yaml_spot {
	const struct yaml_source *source; /* borrowed */
	/* what it is in, which outlives it, and where: a key, and the number of an entry
	 * from 0 on or SIZE_MAX; NULL for the top. Its path is only written where
	 * something is wrong */
	const struct yaml_spot *outer;
	const char *key; /* borrowed */
	size_t index;
};

/* A list of values as libcyaml fills it. */
struct yaml_list {
	char **items;
	unsigned count;
};

/* The spot at entry `index` (from 0) of a list under `key`, or of the mapping under `key`
 * where index is SIZE_MAX. */
struct yaml_spot yaml_spot_in(
    const struct yaml_spot *spot, const char *key, size_t index);

/* Reports the value under `key`, or under entry `index` (from 0) of the list there. */
bool yaml_spot_bad(const struct yaml_spot *spot, const char *key, const char *found,
    const char *expected, struct fault *fault);
bool yaml_entry_bad(const struct yaml_spot *spot, const char *key, size_t index,
    const char *found, const char *expected, struct fault *fault);

/* Puts file, line and field before what a fault says. Returns false. */
bool yaml_spot_prefix(const struct yaml_spot *spot, const char *key, struct fault *fault);

/* A whole number from `least` to `most`, in decimal digits. */
struct yaml_range {
	int least;
	int most;
	const char *unit; /* "months", for messages */
};

MUST_CHECK bool yaml_read_int(const struct yaml_spot *spot, const char *key,
    const char *value, struct yaml_range range, int *out, struct fault *fault);

/* A decimal number of metres up to 500 with at most two places, as centimetres. */
MUST_CHECK bool yaml_read_metres(const struct yaml_spot *spot, const char *key,
    const char *value, int *cm_out, struct fault *fault);

/* `yes` or `no`. */
MUST_CHECK bool yaml_read_bool(const struct yaml_spot *spot, const char *key,
    const char *value, bool *out, struct fault *fault);

/* `YYYY-MM-DD`. */
MUST_CHECK bool yaml_read_day(const struct yaml_spot *spot, const char *key,
    const char *value, day_t *out, struct fault *fault);

/* Words an enum is spelt with, in its order. */
struct yaml_words {
	const char *const *words;
	unsigned count;
};

/* One of some words; gives its index. */
MUST_CHECK bool yaml_read_word(const struct yaml_spot *spot, const char *key,
    const char *value, struct yaml_words words, unsigned *out, struct fault *fault);

/* The index of each word of a list, into `out`, which has room for as many; a word given
 * twice is a failure. */
MUST_CHECK bool yaml_read_indices(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct yaml_words words, unsigned *out,
    struct fault *fault);

/* A list of words as bits, 1 << index; a word given twice is a failure. */
MUST_CHECK bool yaml_read_bits(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct yaml_words words, unsigned *out,
    struct fault *fault);

/* A copy of words that may not be blank; of words that may be absent (then ""). */
MUST_CHECK bool yaml_read_text(const struct yaml_spot *spot, const char *key,
    const char *value, struct arena *arena, const char **out, struct fault *fault);
void yaml_read_optional_text(const char *value, struct arena *arena, const char **out);

/* Copies of a list's words, none of which may be blank. NULL and 0 for none. */
MUST_CHECK bool yaml_read_texts(const struct yaml_spot *spot, const char *key,
    const struct yaml_list *list, struct arena *arena, const char *const **out,
    struct fault *fault);

/* Packed YAML put into the structs of a libcyaml schema, as libcyaml would. */

/* Fills what `schema` describes, a pointer to a mapping, from the source's packed form.
 * False when there is none, or it is not of that shape: then the YAML itself is to be
 * loaded, which says what is wrong in it, and nothing is given. */
bool yaml_packed_load(const struct yaml_source *source,
    const cyaml_schema_value_t *schema, struct yaml_loaded *out);

/* Where a path leads in a YAML text. Used once something is wrong, so it parses the text
 * again rather than keeping lines of everything. */

enum yaml_found {
	YAML_WHERE_FOUND,  /* the line is the place's own, or the nearest around it */
	YAML_WHERE_BROKEN, /* the text is no YAML at all; `problem` says why */
};

struct yaml_where {
	enum yaml_found found;
	unsigned long line; /* from 1 */
	char problem[120];  /* "" unless broken */
};

/* Finds the line of a path. Where a key is given more than once, `occurrence` says which is
 * meant, from 1. */
struct yaml_where yaml_where_find(
    const struct yaml_source *source, const char *path, int occurrence);

/* ---- The few kinds of field our schemas are made of ---- */

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
