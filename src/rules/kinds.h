/* The kinds catalogue: what an item can be. Read from data/kinds.yaml. */
#ifndef BECKET_RULES_KINDS_H
#define BECKET_RULES_KINDS_H

#include "base/fault.h"
#include "gear/words.h"

#include <stddef.h>

/* The kinds and sheets that the program carries, packed at build by pack_main.c: the
 * values of the YAML without its syntax, for reading the syntax takes most of the time.
 *
 * A value is "s" and its text; "l" and how many entries, then the entries; or "m" and how
 * many keys, then a value ("s") for each key and one for what it has. Texts and numbers
 * end in a zero byte.
 */

/* A file as the program carries it; all borrowed. */
struct packed_file {
	const char *name; /* for messages */
	const char *yaml; /* what was packed: faults name its lines */
	size_t length;
	const char *packed; /* NULL when there is none: the YAML is read */
	size_t packed_length;
};

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
	/* bit 1 << enum carriage_subject of what must be carried that it is of; 0 for none, as of a
	 * part, which is carried with what it is part of */
	unsigned subject;
	bool service_ashore; /* a station services it; names a kind a station may list */
	/* ids of the kinds of parts without which it does not work: one in it that has lapsed,
	 * or is not there, takes it out of the count */
	const char *const *working_parts;
	size_t working_part_count;
	const char *const *synonyms; /* other spellings met in inventories, lower case */
	size_t synonym_count;
};

/* The catalogue, sorted by id. Opaque; free with kinds_free. */
struct kinds;

/* Reads a catalogue from YAML text. `name` is the file's name for messages. On failure the
 * message names file, line and field. */
MUST_CHECK bool kinds_read(const char *name, const char *yaml, size_t length,
    struct kinds **kinds_out, struct fault *fault);
/* The same of a catalogue that the program carries; all of `file` is borrowed for the call. */
MUST_CHECK bool kinds_read_packed(
    const struct packed_file *file, struct kinds **kinds_out, struct fault *fault);
void kinds_free(struct kinds *kinds);

/* The kind with this id, or NULL. Borrowed from the catalogue. */
const struct kind *kinds_find(const struct kinds *kinds, const char *id);

enum { KINDS_FIT_MOST = 8, KINDS_NEAR_MOST = 3 };

/* The kinds a person's words could mean; returns how many, at most KINDS_FIT_MOST, in the
 * catalogue's order. Letter case, punctuation, plurals in -s and repeated blanks are
 * ignored. When the words are as a whole an id, a name or a synonym, the kinds it belongs
 * to. Otherwise the kinds with an id, name or synonym whose words all stand among them
 * ("EPIRB Quorl", "Powder fire extinguisher 2kg"), except for one of which another takes
 * in all and more; none when the only one left stands beside a word that may make it
 * something else ("bracket for EPIRB"). Pointers are borrowed from the catalogue. */
size_t kinds_fitting(const struct kinds *kinds, const char *words,
    const struct kind *fits[KINDS_FIT_MOST]);

/* The kinds with the spellings most like the words, the most alike first: for "did you
 * mean". Returns how many, which may be none. */
size_t kinds_nearest(const struct kinds *kinds, const char *words,
    const struct kind *nearest[KINDS_NEAR_MOST]);

/* The group that words mean: its name, or its first word where no other group's is the same,
 * whatever their case ("flares" is "Flares and smokes"). NULL when none is meant. */
const char *kinds_group(const struct kinds *kinds, const char *words);

/* The one kind that fits the words; NULL when none or more than one does. */
const struct kind *kinds_guess(const struct kinds *kinds, const char *words);

/* The same, and where it is NULL the fault says why: which kinds fit, or that none does and
 * which are near. Borrowed. */
MUST_CHECK const struct kind *kinds_tell(
    const struct kinds *kinds, const char *words, struct fault *fault);

/* All kinds in the catalogue's order (by group as the file has them, for listings). */
size_t kinds_count(const struct kinds *kinds);
const struct kind *kinds_at(const struct kinds *kinds, size_t index);

/* True where a part of the one kind is a working part of the other. Ids not in the catalogue
 * are none. */
bool kinds_work_together(const struct kinds *kinds, const char *parent, const char *part);

/* The caution for a hazard when an item is carried or posted, and when it is got rid of;
 * "" where there is none. Borrowed from the catalogue. */
const char *kinds_carry_caution(const struct kinds *kinds, enum hazard hazard);
const char *kinds_disposal_caution(const struct kinds *kinds, enum hazard hazard);

#endif
