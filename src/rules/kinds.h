/* The kinds catalogue: what an item can be. Read from data/kinds.yaml. */
#ifndef BECKET_RULES_KINDS_H
#define BECKET_RULES_KINDS_H

#include "base/fault.h"

#include <stddef.h>

/* Why a kind needs care when it is carried, posted or got rid of. */
enum hazard {
	HAZARD_NONE,
	HAZARD_PYROTECHNIC,
	HAZARD_GAS,     /* gas cylinders and self-inflating gear */
	HAZARD_LITHIUM, /* lithium batteries; a beacon is deregistered first */
	HAZARD_MEDICINE,
};

enum { HAZARD_COUNT = HAZARD_MEDICINE + 1 };

/* One kind. Strings are borrowed from the catalogue. */
struct kind {
	const char *id;    /* "flare-red-hand" */
	const char *name;  /* "red hand flare" */
	const char *group; /* heading it is listed under: "Flares and smokes" */
	enum hazard hazard;
	bool inside; /* packed inside its parent: only who opens the parent gets at it */
	bool service_ashore; /* a station services it; names a kind a station may list */
	const char *const *synonyms; /* other spellings met in inventories, lower case */
	size_t synonym_count;
};

/* The catalogue, sorted by id. Opaque; free with kinds_free. */
struct kinds;

/* Reads a catalogue from YAML text. `name` is the file's name for messages. On failure the
 * message names file, line and field. */
MUST_CHECK bool kinds_read(const char *name, const char *yaml, size_t length,
    struct kinds **kinds_out, struct fault *fault);
void kinds_free(struct kinds *kinds);

/* The kind with this id, or NULL. Borrowed from the catalogue. */
const struct kind *kinds_find(const struct kinds *kinds, const char *id);

/* The kind a person most likely means: the id itself, its name or a synonym, letter case,
 * hyphens, plurals in -s and repeated blanks ignored; NULL when none or more than one fit. */
const struct kind *kinds_guess(const struct kinds *kinds, const char *words);

/* All kinds in the catalogue's order (by group as the file has them, for listings). */
size_t kinds_count(const struct kinds *kinds);
const struct kind *kinds_at(const struct kinds *kinds, size_t index);

/* The caution for a hazard when an item is carried or posted, and when it is got rid of;
 * "" where there is none. Borrowed from the catalogue. */
const char *kinds_carry_caution(const struct kinds *kinds, enum hazard hazard);
const char *kinds_disposal_caution(const struct kinds *kinds, enum hazard hazard);

#endif
