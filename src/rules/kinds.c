#include "rules/kinds.h"

#include "base/memory.h"
#include "base/text.h"
#include "rules/sheet_inside.h"
#include "rules/yaml_inside.h"

#include <stdatomic.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

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

/* Every way to write the kinds, folded: few commands guess at words. */
struct spellings {
	struct arena arena;
	struct spelling *items; /* sorted by words */
	size_t count;
};

struct kinds {
	struct arena arena;
	struct kind *items;        /* as the file has them */
	const struct kind **by_id; /* the same, sorted by id */
	size_t count;
	struct spellings *_Atomic
	    *spellings; /* in the arena; folded when first asked for */
	const char *carry[HAZARD_COUNT];
	const char *dispose[HAZARD_COUNT];
};

static int
compare_ids(const void *a, const void *b)
{
	const struct kind *const *one = a;
	const struct kind *const *other = b;
	return strcmp((*one)->id, (*other)->id);
}

static int
compare_spellings(const void *a, const void *b)
{
	const struct spelling *one = a;
	const struct spelling *other = b;
	return strcmp(one->words, other->words);
}

static void
add_spelling(struct spellings *spellings, const char *words, const struct kind *kind)
{
	char comparable[SPELLING_SIZE];
	if (kind_words_fold(words, comparable)) { /* as check_spelling had it */
		spellings->items[spellings->count++] = (struct spelling){
		    .words = arena_string(&spellings->arena, comparable), .kind = kind};
	}
}

static struct spellings *
fold_all(const struct kinds *kinds)
{
	struct spellings *spellings = memory_zeroed(1, sizeof *spellings);
	size_t most = 0;
	for (size_t i = 0; i < kinds->count; i++) {
		most += 2 + kinds->items[i].synonym_count;
	}
	spellings->items =
	    arena_alloc(&spellings->arena, most * sizeof *spellings->items);
	for (size_t i = 0; i < kinds->count; i++) {
		const struct kind *kind = &kinds->items[i];
		add_spelling(spellings, kind->id, kind);
		add_spelling(spellings, kind->name, kind);
		for (size_t j = 0; j < kind->synonym_count; j++) {
			add_spelling(spellings, kind->synonyms[j], kind);
		}
	}
	qsort(spellings->items, spellings->count, sizeof *spellings->items,
	    compare_spellings);
	return spellings;
}

static void
free_spellings(struct spellings *spellings)
{
	if (spellings != NULL) {
		arena_clear(&spellings->arena);
		free(spellings);
	}
}

/* Threads may ask at once: who comes second throws its own away. */
static const struct spellings *
spellings_of(const struct kinds *kinds)
{
	struct spellings *there = atomic_load(kinds->spellings);
	if (there != NULL) {
		return there;
	}
	struct spellings *folded = fold_all(kinds);
	if (atomic_compare_exchange_strong(kinds->spellings, &there, folded)) {
		return folded;
	}
	free_spellings(folded);
	return there;
}

/* Whether a spelling can be folded. What is short can: a byte grows to four at most. */
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
	qsort(kinds->by_id, kinds->count, sizeof(const struct kind *), compare_ids);
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
	void *loaded = NULL;
	if (!yaml_source_load(&source, &CATALOGUE_SCHEMA, &loaded, fault)) {
		return false;
	}
	struct kinds *kinds = memory_zeroed(1, sizeof *kinds);
	bool done = convert_catalogue(&source, loaded, kinds, fault);
	yaml_source_free(&CATALOGUE_SCHEMA, loaded);
	if (!done) {
		kinds_free(kinds);
		return false;
	}
	*kinds_out = kinds;
	return true;
}

void
kinds_free(struct kinds *kinds)
{
	if (kinds != NULL) {
		free_spellings(
		    kinds->spellings == NULL ? NULL : atomic_load(kinds->spellings));
		arena_clear(&kinds->arena);
		free(kinds);
	}
}

const struct kind *
kinds_find(const struct kinds *kinds, const char *id)
{
	struct kind wanted = {.id = id};
	const struct kind *key = &wanted;
	const struct kind *const *found = bsearch(
	    &key, kinds->by_id, kinds->count, sizeof(const struct kind *), compare_ids);
	return found == NULL ? NULL : *found;
}

bool
kinds_work_together(const struct kinds *kinds, const char *parent, const char *part)
{
	const struct kind *kind = kinds_find(kinds, parent);
	for (size_t i = 0; kind != NULL && i < kind->working_part_count; i++) {
		if (strcmp(kind->working_parts[i], part) == 0) {
			return true;
		}
	}
	return false;
}

/* What stands before "in", "inside" or "for" says what a thing is, and the rest where it
 * belongs: painkillers in a first-aid kit are medicine. Cuts a folded text there. */
static bool
cut_to_head(char *folded)
{
	static const char *const JOINTS[] = {" in ", " inside ", " for "};
	char *first = NULL;
	for (size_t i = 0; i < sizeof JOINTS / sizeof JOINTS[0]; i++) {
		char *found = strstr(folded, JOINTS[i]);
		first = found != NULL && (first == NULL || found < first) ? found : first;
	}
	if (first != NULL) {
		*first = '\0';
	}
	return first != NULL;
}

/* True for the whole of a spelling, such as "liferaft in a canister". */
static bool
is_spelling(const struct spellings *spellings, const char *folded)
{
	const struct spelling wanted = {.words = folded};
	return bsearch(&wanted, spellings->items, spellings->count,
		   sizeof *spellings->items, compare_spellings) != NULL;
}

size_t
kinds_fitting(
    const struct kinds *kinds, const char *words, const struct kind *fits[KINDS_FIT_MOST])
{
	char whole[SPELLING_SIZE];
	char head[SPELLING_SIZE];
	/* most lists that come back have the ids themselves */
	fits[0] = kinds_find(kinds, words);
	if (fits[0] != NULL) {
		return 1;
	}
	if (!kind_words_fold(words, whole)) {
		return 0;
	}
	const struct spellings *known = spellings_of(kinds);
	memcpy(head, whole, sizeof head);
	size_t fit = !is_spelling(known, whole) && cut_to_head(head)
			 ? kind_words_fit(known->items, known->count, head, fits)
			 : 0;
	return fit > 0 ? fit : kind_words_fit(known->items, known->count, whole, fits);
}

size_t
kinds_nearest(const struct kinds *kinds, const char *words,
    const struct kind *nearest[KINDS_NEAR_MOST])
{
	char folded[SPELLING_SIZE];
	const struct spellings *known = spellings_of(kinds);
	return kind_words_fold(words, folded)
		   ? kind_words_near(known->items, known->count, folded, nearest)
		   : 0;
}

const struct kind *
kinds_guess(const struct kinds *kinds, const char *words)
{
	const struct kind *fits[KINDS_FIT_MOST];
	return kinds_fitting(kinds, words, fits) == 1 ? fits[0] : NULL;
}

/* "a, b or c". */
static void
add_list(struct text *out, const struct kind *const *kinds, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		const char *joint = i == 0 ? "" : i + 1 < count ? ", " : " or ";
		text_add_format(out, "%s%s", joint, kinds[i]->id);
	}
}

const struct kind *
kinds_tell(const struct kinds *kinds, const char *words, struct fault *fault)
{
	const struct kind *fits[KINDS_FIT_MOST];
	const struct kind *nearest[KINDS_NEAR_MOST];
	size_t fit = kinds_fitting(kinds, words, fits);
	if (fit == 1) {
		return fits[0];
	}
	SCOPED_TEXT said = {0};
	text_add_format(&said, "\"%.60s\" ", words);
	size_t near = fit > 0 ? 0 : kinds_nearest(kinds, words, nearest);
	if (fit > 0) {
		text_add(&said, "could be ");
		add_list(&said, fits, fit);
		text_add(&said, "; say which");
	} else if (near > 0) {
		text_add(&said, "is no kind in the catalogue; did you mean ");
		add_list(&said, nearest, near);
		text_add(&said, "?");
	} else {
		text_add(&said,
		    "is no kind in the catalogue, nor near one; \"becket help kinds\" "
		    "lists them, and other-gear stands for gear no rule speaks of");
	}
	(void)fault_set(fault, FAULT_INPUT, "%s", text_string(&said));
	return NULL;
}

size_t
kinds_count(const struct kinds *kinds)
{
	return kinds->count;
}

const struct kind *
kinds_at(const struct kinds *kinds, size_t index)
{
	return &kinds->items[index];
}

const char *
kinds_carry_caution(const struct kinds *kinds, enum hazard hazard)
{
	return kinds->carry[hazard] == NULL ? "" : kinds->carry[hazard];
}

const char *
kinds_disposal_caution(const struct kinds *kinds, enum hazard hazard)
{
	return kinds->dispose[hazard] == NULL ? "" : kinds->dispose[hazard];
}

/* True when the words are the first ones of a group's name, which is one word long or more. */
static bool
begins_group(const char *group, const char *words)
{
	size_t length = strlen(words);
	return strncasecmp(group, words, length) == 0 && group[length] == ' ' &&
	       strchr(words, ' ') == NULL;
}

const char *
kinds_group(const struct kinds *kinds, const char *words)
{
	const char *found = NULL;
	bool several = false;
	for (size_t i = 0; i < kinds->count; i++) {
		const char *group = kinds->items[i].group;
		if (strcasecmp(group, words) == 0) {
			return group;
		}
		if (begins_group(group, words)) {
			several = several || (found != NULL && strcmp(found, group) != 0);
			found = group;
		}
	}
	return several ? NULL : found;
}
