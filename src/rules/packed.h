/* The kinds and sheets that the program carries, packed at build by pack_main.c: YAML's values
 * without its spelling, which costs most of what reading them does.
 *
 * A value is "s" and its text; "l" and how many entries, then the entries; or "m" and how many keys,
 * then a value ("s") for each key and one for what it has. Texts and numbers end in a zero byte. */
#ifndef BECKET_RULES_PACKED_H
#define BECKET_RULES_PACKED_H

#include <stddef.h>

/* A file as the program carries it; all borrowed. */
struct packed_file {
	const char *name; /* for messages */
	const char *yaml; /* what was packed: faults name its lines */
	size_t length;
	const char *packed; /* NULL when there is none: the YAML is read */
	size_t packed_length;
};

#endif
