/* One rule from its YAML to the struct the engine reads, each value checked on the way. */
#ifndef BECKET_RULES_SHEET_RULE_H
#define BECKET_RULES_SHEET_RULE_H

#include "rules/sheet.h"
#include "rules/sheet_yaml.h"

/* Converts one rule. Everything it points to goes into `arena`; kinds only have to be
 * known. `spot` is where it stands. */
MUST_CHECK bool sheet_rule_convert(const struct yaml_spot *spot,
    const struct yaml_rule *yaml, const struct kinds *kinds, struct arena *arena,
    struct rule *rule_out, struct fault *fault);

/* Converts the pieces rules and carriage lines share: an id; a list of kinds, each known and
 * given once; conditions (`yaml` may be NULL). */
MUST_CHECK bool sheet_id_read(const struct yaml_spot *spot, const char *key,
    const char *value, struct arena *arena, const char **out, struct fault *fault);
MUST_CHECK bool sheet_kinds_read(const struct yaml_spot *spot,
    const struct yaml_list *list, const struct kinds *kinds, struct arena *arena,
    const char *const **out, struct fault *fault);
MUST_CHECK bool sheet_when_read(const struct yaml_spot *spot,
    const struct yaml_when *yaml, struct arena *arena, struct conditions *when,
    struct fault *fault);

/* Conditions about the vessel alone: where there is no item that could have an age, a mark
 * or a rating. */
MUST_CHECK bool sheet_vessel_when_read(const struct yaml_spot *spot,
    const struct yaml_when *yaml, struct arena *arena, struct conditions *when,
    struct fault *fault);

/* Converts one carriage line, as sheet_rule_convert does a rule. */
MUST_CHECK bool sheet_carriage_convert(const struct yaml_spot *spot,
    const struct yaml_carriage *yaml, const struct kinds *kinds, struct arena *arena,
    struct carriage *out, struct fault *fault);

/* Converts one subject that carries no figure, likewise. */
MUST_CHECK bool sheet_not_stated_convert(const struct yaml_spot *spot,
    const struct yaml_not_stated *yaml, const struct kinds *kinds, struct arena *arena,
    struct not_stated *out, struct fault *fault);

/* Takes over into `sheet` what `base` says, less what the sheet strikes out and with what it
 * says itself in the place of what has the same id. The sheet's lists are its own alone
 * before, whole afterwards. `top` is the top of its text. */
MUST_CHECK bool sheet_extend(const struct yaml_spot *top, const struct sheet *base,
    struct sheet *sheet, struct arena *arena, struct fault *fault);

/* Converts a rule's clocks into `rule`, whose task is set already. */
MUST_CHECK bool sheet_clocks_convert(const struct yaml_spot *spot,
    const struct yaml_rule *yaml, struct arena *arena, struct rule *rule,
    struct fault *fault);

#endif
