/* Where a path leads in a YAML text. Used once something is wrong, so it parses the text
 * again rather than keeping lines of everything. */
#ifndef BECKET_RULES_YAML_PLACE_H
#define BECKET_RULES_YAML_PLACE_H

#include "rules/yaml_source.h"

enum yaml_found {
	YAML_PLACE_FOUND,  /* the line is the place's own, or the nearest around it */
	YAML_PLACE_BROKEN, /* the text is no YAML at all; `problem` says why */
};

struct yaml_place {
	enum yaml_found found;
	unsigned long line; /* from 1 */
	char problem[120];  /* "" unless broken */
};

/* Finds the line of a path. Where a key is given more than once, `occurrence` says which is
 * meant, from 1. */
struct yaml_place yaml_place_find(
    const struct yaml_source *source, const char *path, int occurrence);

#endif
