/* One carriage line from its YAML to the struct the muster counts by. */
#include "base/text.h"
#include "rules/rating.h"
#include "rules/sheet_inside.h"

#include <stdint.h>
#include <string.h>

/* Conditions about the vessel alone: where there is no item that could have an age, a
 * mark or a rating. */
static bool
vessel_when_read(const struct yaml_spot *spot, const struct yaml_when *yaml,
    struct arena *arena, struct conditions *when, struct fault *fault)
{
	if (yaml == NULL) {
		return sheet_when_read(spot, NULL, arena, when, fault);
	}

	const struct {
		const char *key;
		const char *value;
	} others[] = {
	    {"age-from", yaml->age_from},
	    {"age-until", yaml->age_until},
	    {"marked", yaml->marked},
	    {"made-from", yaml->made_from},
	    {"made-until", yaml->made_until},
	    {"test-valid", yaml->test_valid},
	    {"ratings", yaml->ratings.count == 0 ? NULL : yaml->ratings.items[0]},
	};
	struct yaml_spot inner = yaml_spot_in(spot, "when", SIZE_MAX);
	for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
		if (others[i].value != NULL) {
			return yaml_spot_bad(&inner, others[i].key, others[i].value,
			    "conditions about the vessel only", fault);
		}
	}
	return sheet_when_read(spot, yaml, arena, when, fault);
}

static bool
read_need(const struct yaml_spot *spot, const struct yaml_need *yaml,
    struct carriage *line, struct fault *fault)
{
	static const struct yaml_range POINTS = {1, 999, "points"};
	static const struct yaml_range PERCENT = {1, 100, "per cent"};
	struct yaml_spot inner = yaml_spot_in(spot, "need", SIZE_MAX);
	const char *by_persons =
	    yaml->per_person != NULL ? yaml->per_person : yaml->percent;
	if (yaml->points == NULL && by_persons == NULL) {
		return yaml_spot_bad(
		    spot, "need", NULL, "points, per-person or percent", fault);
	}
	if (yaml->points != NULL && by_persons != NULL) {
		return yaml_spot_bad(&inner,
		    yaml->per_person != NULL ? "per-person" : "percent", by_persons,
		    "either points, or per-person and percent", fault);
	}
	return yaml_read_int(
		   &inner, "points", yaml->points, POINTS, &line->points, fault) &&
	       yaml_read_int(&inner, "per-person", yaml->per_person, POINTS,
		   &line->per_person, fault) &&
	       yaml_read_int(
		   &inner, "percent", yaml->percent, PERCENT, &line->percent, fault) &&
	       yaml_read_int(&inner, "plus", yaml->plus, POINTS, &line->plus, fault) &&
	       yaml_read_bool(&inner, "without-largest", yaml->without_largest,
		   &line->without_largest, fault);
}

/* A kind in two servings would be worth two things at once, but where they differ in the
 * rating they ask for: none of serves[index] may be in an earlier one of the same rating. */
static bool
check_once(const struct yaml_spot *spot, const struct serving *serves, size_t index,
    struct fault *fault)
{
	const struct serving *last = &serves[index];
	for (size_t k = 0; k < last->kind_count; k++) {
		for (size_t i = 0; i < index; i++) {
			if (words_have(
				serves[i].kinds, serves[i].kind_count, last->kinds[k]) &&
			    strcmp(serves[i].rating, last->rating) == 0) {
				return yaml_entry_bad(spot, "kinds", k, last->kinds[k],
				    "each kind once in a line, or once for each rating",
				    fault);
			}
		}
	}
	return true;
}

/* What one piece is worth: points, or the persons it is for. */
static bool
read_worth(const struct yaml_spot *spot, const struct yaml_serves *yaml,
    struct arena *arena, struct serving *out, struct fault *fault)
{
	static const struct yaml_range POINTS = {1, 999, "points (or capacity)"};
	static const struct yaml_range PERSONS = {1, 999, "persons"};
	out->by_capacity = strcmp(yaml->points, "capacity") == 0;
	yaml_read_optional_text(yaml->rating, arena, &out->rating);
	if (yaml->rating != NULL && !rating_is_one(out->rating)) {
		return yaml_spot_bad(spot, "rating", yaml->rating,
		    "a rating as labels have it, as 20-B", fault);
	}
	return yaml_read_int(spot, "points", out->by_capacity ? NULL : yaml->points,
		   POINTS, &out->points, fault) &&
	       yaml_read_int(spot, "capacity-from", yaml->capacity_from, PERSONS,
		   &out->capacity_from, fault) &&
	       yaml_read_int(
		   spot, "at-most", yaml->at_most, POINTS, &out->at_most, fault);
}

static bool
read_serves(const struct yaml_spot *spot, const struct yaml_carriage *yaml,
    const struct kinds *kinds, struct arena *arena, struct carriage *line,
    struct fault *fault)
{
	size_t count = yaml->serves_count;
	if (count == 0) {
		return yaml_spot_bad(spot, "serves", NULL, "at least one entry", fault);
	}
	struct serving *serves = arena_alloc(arena, count * sizeof *serves);
	for (size_t i = 0; i < count; i++) {
		struct yaml_spot inner = yaml_spot_in(spot, "serves", i);
		if (!sheet_kinds_read(&inner, &yaml->serves[i].kinds, kinds, arena,
			&serves[i].kinds, fault) ||
		    !read_worth(&inner, &yaml->serves[i], arena, &serves[i], fault)) {
			return false;
		}
		serves[i].kind_count = yaml->serves[i].kinds.count;
		for (size_t k = 0; k < serves[i].kind_count; k++) {
			line->about |= kinds_find(kinds, serves[i].kinds[k])->subject;
		}
		if (!check_once(&inner, serves, i, fault)) {
			return false;
		}
	}
	line->serves = serves;
	line->serve_count = count;
	return true;
}

/* A line of a group is a way to meet it by itself, unless it names one. */
static bool
read_way(const struct yaml_spot *spot, const struct yaml_carriage *yaml,
    struct arena *arena, struct carriage *line, struct fault *fault)
{
	line->way = line->id;
	if (yaml->way == NULL) {
		return true;
	}
	if (yaml->any_of == NULL) {
		return yaml_spot_bad(
		    spot, "way", yaml->way, "way only with any-of", fault);
	}
	return sheet_id_read(spot, "way", yaml->way, arena, &line->way, fault);
}

bool
sheet_carriage_convert(const struct yaml_spot *spot, const struct yaml_carriage *yaml,
    const struct kinds *kinds, struct arena *arena, struct carriage *out,
    struct fault *fault)
{
	static const struct yaml_words STANDINGS = {
	    STANDING_WORDS, STANDING_NOT_VERIFIED + 1};
	struct carriage line = {.any_of = "", .place_count = yaml->places.count};
	unsigned standing = 0;
	if (!sheet_id_read(spot, "id", yaml->id, arena, &line.id, fault) ||
	    !yaml_read_text(spot, "title", yaml->title, arena, &line.title, fault) ||
	    !vessel_when_read(spot, yaml->when, arena, &line.when, fault) ||
	    !read_need(spot, &yaml->need, &line, fault) ||
	    !read_serves(spot, yaml, kinds, arena, &line, fault) ||
	    (yaml->any_of != NULL && !sheet_id_read(spot, "any-of", yaml->any_of, arena,
					 &line.any_of, fault)) ||
	    !read_way(spot, yaml, arena, &line, fault) ||
	    !yaml_read_texts(spot, "places", &yaml->places, arena, &line.places, fault) ||
	    !yaml_read_text(spot, "source", yaml->source, arena, &line.source, fault) ||
	    !yaml_read_word(
		spot, "standing", yaml->standing, STANDINGS, &standing, fault)) {
		return false;
	}
	line.standing = (enum standing)standing;
	if (line.standing == STANDING_NOT_VERIFIED) {
		return yaml_spot_bad(spot, "standing", yaml->standing,
		    "a standing that may carry a figure", fault);
	}
	*out = line;
	return true;
}

bool
sheet_not_stated_convert(const struct yaml_spot *spot, const struct yaml_not_stated *yaml,
    const struct kinds *kinds, struct arena *arena, struct not_stated *out,
    struct fault *fault)
{
	static const struct yaml_words SUBJECTS = {
	    GEAR_SUBJECT_WORDS, GEAR_SUBJECT_COUNT};
	struct not_stated entry = {.kind_count = yaml->kinds.count};
	if (!sheet_id_read(spot, "id", yaml->id, arena, &entry.id, fault) ||
	    !yaml_read_text(
		spot, "subject", yaml->subject, arena, &entry.subject, fault) ||
	    !yaml_read_text(spot, "ask", yaml->ask, arena, &entry.ask, fault) ||
	    !vessel_when_read(spot, yaml->when, arena, &entry.when, fault) ||
	    (yaml->kinds.count > 0 && !sheet_kinds_read(spot, &yaml->kinds, kinds, arena,
					  &entry.kinds, fault)) ||
	    !yaml_read_bool(spot, "carriage", yaml->carriage, &entry.carriage, fault) ||
	    !yaml_read_bits(spot, "about", &yaml->about, SUBJECTS, &entry.about, fault)) {
		return false;
	}
	*out = entry;
	return true;
}
