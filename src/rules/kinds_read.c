/* The catalogue of kinds, read from YAML. */
#include "base/memory.h"
#include "rules/sheet_inside.h"

#include <stdlib.h>
#include <string.h>

static const char *const HAZARD_WORDS[] = {
    [HAZARD_NONE] = "none",
    [HAZARD_PYROTECHNIC] = "pyrotechnic",
    [HAZARD_GAS] = "gas",
    [HAZARD_LITHIUM] = "lithium",
    [HAZARD_MEDICINE] = "medicine",
};

static const struct yaml_words HAZARDS = {HAZARD_WORDS, HAZARD_COUNT};

/* The catalogue as it stands in YAML. */
struct yaml_hazard {
	char *hazard;
	char *carry;
	char *dispose;
};

struct yaml_kind {
	char *id;
	char *name;
	char *group;
	char *subject;
	char *hazard;
	char *inside;
	char *service_ashore;
	struct yaml_list working_parts;
	struct yaml_list synonyms;
};

struct yaml_kinds {
	struct yaml_hazard *hazards;
	unsigned hazards_count;
	struct yaml_kind *kinds;
	unsigned kinds_count;
};

static const cyaml_schema_value_t WORD = YAML_WORD_ENTRY;

static const cyaml_schema_field_t HAZARD_FIELDS[] = {
    YAML_MUST("hazard", struct yaml_hazard, hazard),
    YAML_MUST("carry", struct yaml_hazard, carry),
    YAML_MUST("dispose", struct yaml_hazard, dispose),
    CYAML_FIELD_END,
};

static const cyaml_schema_value_t HAZARD = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_DEFAULT, struct yaml_hazard, HAZARD_FIELDS),
};

static const cyaml_schema_field_t KIND_FIELDS[] = {
    YAML_MUST("id", struct yaml_kind, id),
    YAML_MUST("name", struct yaml_kind, name),
    YAML_MUST("group", struct yaml_kind, group),
    YAML_MAY("subject", struct yaml_kind, subject),
    YAML_MAY("hazard", struct yaml_kind, hazard),
    YAML_MAY("inside", struct yaml_kind, inside),
    YAML_MAY("service-ashore", struct yaml_kind, service_ashore),
    YAML_WORDS("working-parts", CYAML_FLAG_OPTIONAL, struct yaml_kind,
	working_parts.items, working_parts.count, &WORD),
    YAML_WORDS("synonyms", CYAML_FLAG_OPTIONAL, struct yaml_kind, synonyms.items,
	synonyms.count, &WORD),
    CYAML_FIELD_END,
};

static const cyaml_schema_value_t KIND = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_DEFAULT, struct yaml_kind, KIND_FIELDS),
};

static const cyaml_schema_field_t CATALOGUE_FIELDS[] = {
    CYAML_FIELD_SEQUENCE("hazards", CYAML_FLAG_POINTER, struct yaml_kinds, hazards,
	&HAZARD, 0, CYAML_UNLIMITED),
    CYAML_FIELD_SEQUENCE(
	"kinds", CYAML_FLAG_POINTER, struct yaml_kinds, kinds, &KIND, 0, CYAML_UNLIMITED),
    CYAML_FIELD_END,
};

static const cyaml_schema_value_t CATALOGUE_SCHEMA = {
    CYAML_VALUE_MAPPING(CYAML_FLAG_POINTER, struct yaml_kinds, CATALOGUE_FIELDS),
};

/* Whether a spelling can be folded. A short one can, for folding makes at most four bytes
 * of one. */
static bool
check_spelling(const char *words, const struct yaml_spot *spot, struct fault *fault)
{
	char comparable[SPELLING_SIZE];
	if (strlen(words) < SPELLING_SIZE / 4 || kind_words_fold(words, comparable)) {
		return true;
	}
	return yaml_spot_bad(spot, "id", words, "no more than 120 letters", fault);
}

static bool
check_spellings(
    const struct kind *kind, const struct yaml_spot *spot, struct fault *fault)
{
	bool fit = check_spelling(kind->id, spot, fault) &&
		   check_spelling(kind->name, spot, fault);
	for (size_t i = 0; i < kind->synonym_count && fit; i++) {
		fit = check_spelling(kind->synonyms[i], spot, fault);
	}
	return fit;
}

static bool
convert_kind(const struct yaml_spot *spot, const struct yaml_kind *yaml,
    struct arena *arena, struct kind *kind, struct fault *fault)
{
	static const struct yaml_words SUBJECTS = {
	    GEAR_SUBJECT_WORDS, GEAR_SUBJECT_COUNT};
	unsigned hazard = HAZARD_NONE;
	unsigned subject = 0;
	if (!yaml_read_text(spot, "id", yaml->id, arena, &kind->id, fault) ||
	    !yaml_read_text(spot, "name", yaml->name, arena, &kind->name, fault) ||
	    !yaml_read_text(spot, "group", yaml->group, arena, &kind->group, fault) ||
	    !yaml_read_word(spot, "subject", yaml->subject, SUBJECTS, &subject, fault) ||
	    !yaml_read_word(spot, "hazard", yaml->hazard, HAZARDS, &hazard, fault) ||
	    !yaml_read_bool(spot, "inside", yaml->inside, &kind->inside, fault) ||
	    !yaml_read_bool(spot, "service-ashore", yaml->service_ashore,
		&kind->service_ashore, fault) ||
	    !yaml_read_texts(spot, "working-parts", &yaml->working_parts, arena,
		&kind->working_parts, fault) ||
	    !yaml_read_texts(
		spot, "synonyms", &yaml->synonyms, arena, &kind->synonyms, fault)) {
		return false;
	}
	kind->hazard = (enum hazard)hazard;
	kind->subject = yaml->subject == NULL ? 0 : 1U << subject;
	kind->working_part_count = yaml->working_parts.count;
	kind->synonym_count = yaml->synonyms.count;
	return true;
}

static bool
read_hazards(const struct yaml_spot *top, const struct yaml_kinds *yaml,
    struct kinds *kinds, struct fault *fault)
{
	for (size_t i = 0; i < yaml->hazards_count; i++) {
		const struct yaml_hazard *item = &yaml->hazards[i];
		struct yaml_spot spot = yaml_spot_in(top, "hazards", i);
		unsigned hazard = 0;
		if (!yaml_read_word(
			&spot, "hazard", item->hazard, HAZARDS, &hazard, fault)) {
			return false;
		}
		if (kinds->carry[hazard] != NULL || hazard == HAZARD_NONE) {
			return yaml_spot_bad(&spot, "hazard", item->hazard,
			    "each hazard once, and none left out", fault);
		}
		if (!yaml_read_text(&spot, "carry", item->carry, &kinds->arena,
			&kinds->carry[hazard], fault) ||
		    !yaml_read_text(&spot, "dispose", item->dispose, &kinds->arena,
			&kinds->dispose[hazard], fault)) {
			return false;
		}
	}
	return true;
}

/* Room for all kinds. */
static void
make_room(struct kinds *kinds, const struct yaml_kinds *yaml)
{
	kinds->items =
	    arena_alloc(&kinds->arena, yaml->kinds_count * sizeof *kinds->items);
	kinds->by_id =
	    arena_alloc(&kinds->arena, yaml->kinds_count * sizeof(const struct kind *));
	kinds->spellings = arena_alloc(&kinds->arena, sizeof *kinds->spellings);
	atomic_init(kinds->spellings, NULL);
}

/* A kind must be new, and its hazard one the catalogue has a caution for. */
static bool
check_kind(const struct yaml_spot *spot, const struct kinds *kinds,
    const struct kind *kind, struct fault *fault)
{
	for (size_t i = 0; i < kinds->count; i++) {
		if (strcmp(kinds->items[i].id, kind->id) == 0) {
			return yaml_spot_bad(
			    spot, "id", kind->id, "an id that no kind above has", fault);
		}
	}
	if (kind->hazard != HAZARD_NONE && kinds->carry[kind->hazard] == NULL) {
		return yaml_spot_bad(spot, "hazard", HAZARD_WORDS[kind->hazard],
		    "a hazard listed under hazards", fault);
	}
	return true;
}

/* A working part is of a kind of the catalogue, and of another than its whole. */
static bool
check_parts(const struct yaml_spot *top, const struct kinds *kinds, struct fault *fault)
{
	for (size_t i = 0; i < kinds->count; i++) {
		const struct kind *kind = &kinds->items[i];
		struct yaml_spot spot = yaml_spot_in(top, "kinds", i);
		for (size_t j = 0; j < kind->working_part_count; j++) {
			const char *part = kind->working_parts[j];
			if (kinds_find(kinds, part) == NULL ||
			    strcmp(part, kind->id) == 0) {
				return yaml_entry_bad(&spot, "working-parts", j, part,
				    "another kind of the catalogue", fault);
			}
		}
	}
	return true;
}

static bool
convert_catalogue(const struct yaml_source *source, const struct yaml_kinds *yaml,
    struct kinds *kinds, struct fault *fault)
{
	struct yaml_spot top = {.source = source};
	if (yaml->kinds_count == 0) {
		return yaml_spot_bad(&top, "kinds", NULL, "at least one kind", fault);
	}
	make_room(kinds, yaml);
	if (!read_hazards(&top, yaml, kinds, fault)) {
		return false;
	}
	for (size_t i = 0; i < yaml->kinds_count; i++) {
		struct yaml_spot spot = yaml_spot_in(&top, "kinds", i);
		struct kind *kind = &kinds->items[i];
		if (!convert_kind(&spot, &yaml->kinds[i], &kinds->arena, kind, fault) ||
		    !check_kind(&spot, kinds, kind, fault) ||
		    !check_spellings(kind, &spot, fault)) {
			return false;
		}
		kinds->by_id[i] = kind;
		kinds->count++;
	}
	qsort(kinds->by_id, kinds->count, sizeof(const struct kind *), kinds_compare_ids);
	return check_parts(&top, kinds, fault);
}

bool
kinds_read(const char *name, const char *yaml, size_t length, struct kinds **kinds_out,
    struct fault *fault)
{
	const struct packed_file file = {.name = name, .yaml = yaml, .length = length};
	return kinds_read_packed(&file, kinds_out, fault);
}

bool
kinds_read_packed(
    const struct packed_file *file, struct kinds **kinds_out, struct fault *fault)
{
	struct yaml_source source = yaml_source_of(file);
	struct yaml_loaded loaded = {0};
	if (!yaml_source_load(&source, &CATALOGUE_SCHEMA, &loaded, fault)) {
		return false;
	}
	struct kinds *kinds = memory_zeroed(1, sizeof *kinds);
	bool done = convert_catalogue(&source, loaded.values, kinds, fault);
	yaml_loaded_free(&CATALOGUE_SCHEMA, &loaded);
	if (!done) {
		kinds_free(kinds);
		return false;
	}
	*kinds_out = kinds;
	return true;
}
