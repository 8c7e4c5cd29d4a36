/* Names that may be another one's, mistyped: of a boat, a station, a tag. Pure. */
#ifndef BECKET_LIFE_NAMES_H
#define BECKET_LIFE_NAMES_H

#include "gear/item.h"
#include "gear/station.h"

/* True when two words are the same except for one letter, whatever their case: another,
 * one more, one less. Digits tell boats and tags apart on purpose, so they are no
 * letters; and so does a letter that stands alone, as in B-1 beside A-1, or in a word of
 * two. */
bool name_one_letter_apart(const char *a, const char *b);

/* True when two names of boats are the same, or differ in capitals or accents alone
 * (base/alike.h) or in one letter. */
bool vessel_names_near(const char *known, const char *name);

/* Each of these: the known name that a new one may be meant for, since it differs in
 * capitals or accents alone or in one letter; NULL when the name is known, and when none
 * is near. A tag that differs in a letter is near among things of the same kind only.
 * Borrowed from what is searched. */
const char *vessel_name_near(const struct inventory *inventory, const char *name);
const char *station_name_near(
    const struct station *stations, size_t count, const char *name);
const char *tag_near(
    const struct inventory *inventory, const char *tag, const char *kind);

#endif
