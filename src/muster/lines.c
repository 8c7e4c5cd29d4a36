/* Carriage lines: whether one holds, and how much it needs. */
#include "base/text.h"
#include "muster/inside.h"
#include "rules/meets.h"
#include "rules/rating.h"

#include <stdint.h>
#include <string.h>

bool
line_takes(const struct carriage *line, const char *kind)
{
	for (size_t i = 0; i < line->serve_count; i++) {
		const struct serving *serving = &line->serves[i];
		if (words_have(serving->kinds, serving->kind_count, kind)) {
			return true;
		}
	}
	return false;
}

static bool
is_word_end(char byte)
{
	int lower = text_lower(byte);
	return !(lower >= 'a' && lower <= 'z') && !(byte >= '0' && byte <= '9');
}

/* True when the words of `wanted` stand in `words`, whole and in any case. */
static bool
has_whole(const char *words, const char *wanted)
{
	size_t length = strlen(wanted);
	for (const char *at = words; *at != '\0'; at++) {
		size_t same = 0;
		while (same < length && at[same] != '\0' &&
		       text_lower(at[same]) == text_lower(wanted[same])) {
			same++;
		}
		if (same == length && is_word_end(at[length]) &&
		    (at == words || is_word_end(at[-1]))) {
			return true;
		}
	}
	return false;
}

/* Whether the piece is where the line wants it: 1 it is, 0 not, -1 its place is not known. */
static int
is_placed(const struct carriage *line, const struct item *item)
{
	if (line->place_count == 0) {
		return 1;
	}
	for (size_t i = 0; i < line->place_count; i++) {
		if (has_whole(item->place, line->places[i])) {
			return 1;
		}
	}
	return item->place[0] == '\0' ? -1 : 0;
}

/* What one piece is worth by an entry that names its kind; 0 nothing. Where that can't be
 * told, `*asks` names what must be known. */
static int
worth_by(const struct serving *serving, const struct item *item, const char **asks)
{
	bool sized = serving->by_capacity || serving->capacity_from > 0;
	bool rated = serving->rating[0] != '\0';
	if (rated && item->rating[0] == '\0') {
		*asks = "rating";
		return 0;
	}
	if (rated && !rating_reaches(item->rating, serving->rating)) {
		return 0;
	}
	if (sized && item->capacity == 0) {
		*asks = "capacity";
		return 0;
	}
	if (item->capacity < serving->capacity_from) {
		return 0;
	}
	return serving->by_capacity ? item->capacity : serving->points;
}

/* The entry by which a piece is worth most, by its place; serve_count when it is worth nothing.
 * `*points_out` is what one such piece is worth, `*asks` what must be known of it. */
static size_t
best_entry(const struct carriage *line, const struct item *item, int *points_out,
    const char **asks)
{
	size_t best = line->serve_count;
	int most = 0;
	*points_out = 0;
	*asks = "";
	int placed = is_placed(line, item);
	for (size_t i = 0; i < line->serve_count && placed != 0; i++) {
		const struct serving *serving = &line->serves[i];
		if (!words_have(serving->kinds, serving->kind_count, item->kind)) {
			continue;
		}
		int points = worth_by(serving, item, asks);
		if (points > most) {
			best = i;
			most = points;
		}
	}
	if (best == line->serve_count) {
		return best;
	}
	if (placed == -1) {
		*asks = "place";
		return line->serve_count;
	}
	*asks = "";
	*points_out = most;
	return best;
}

/* What a lot of pieces is worth. More than any need can be is not told apart, so that no
 * number typed for a quantity or a capacity outgrows an int. */
static int
lot_worth(int points, int quantity)
{
	enum { MOST = 100000000 };

	int64_t worth = (int64_t)points * quantity;
	return worth > MOST ? MOST : (int)worth;
}

/* The sum of two such, likewise. */
static int
add_worth(int a, int b)
{
	return lot_worth(1, a + b);
}

int
line_worth_each(const struct carriage *line, const struct item *item, const char **asks)
{
	int points = 0;
	(void)best_entry(line, item, &points, asks);
	return points;
}

int
line_worth(const struct carriage *line, const struct item *item, const char **asks)
{
	return lot_worth(line_worth_each(line, item, asks), item->quantity);
}

bool
line_is_limited(const struct carriage *line)
{
	for (size_t i = 0; i < line->serve_count; i++) {
		if (line->serves[i].at_most > 0) {
			return true;
		}
	}
	return line->without_largest;
}

int
line_total(const struct carriage *line, const struct item *items, const size_t *counted,
    const int *quantities, size_t count)
{
	int total = 0;
	int largest = 0;
	for (size_t i = 0; i < line->serve_count; i++) {
		int at_most = line->serves[i].at_most;
		int by_entry = 0;
		for (size_t j = 0; j < count; j++) {
			const struct item *item = &items[counted[j]];
			int points = 0;
			const char *asks = "";
			if (best_entry(line, item, &points, &asks) == i) {
				by_entry =
				    add_worth(by_entry, lot_worth(points, quantities[j]));
				largest = points > largest ? points : largest;
			}
		}
		total = add_worth(
		    total, at_most > 0 && by_entry > at_most ? at_most : by_entry);
	}
	return line->without_largest ? total - largest : total;
}

bool
lines_alternate(const struct carriage *a, const struct carriage *b)
{
	return a->any_of[0] != '\0' && strcmp(a->any_of, b->any_of) == 0 &&
	       strcmp(a->sheet, b->sheet) == 0;
}

bool
lines_together(const struct carriage *a, const struct carriage *b)
{
	return a == b || (lines_alternate(a, b) && strcmp(a->way, b->way) == 0);
}

int
line_holds(const struct vessel *vessel, const struct carriage *line, day_t day,
    const char **asks)
{
	if (!period_follows(vessel_period_on(vessel, day), line->sheet)) {
		return 0;
	}
	int holds = vessel_meets(vessel, &line->when, day, asks);
	bool by_persons = line->per_person > 0 || line->percent > 0;
	if (holds == 1 && by_persons && vessel_period_on(vessel, day)->persons == 0) {
		*asks = "persons";
		return -1;
	}
	return holds;
}

int
line_need(const struct carriage *line, int persons)
{
	int each = line->per_person * persons;
	int of = line->per_person > 0 ? each : persons;
	return line->points + each + (of * line->percent + 99) / 100 + line->plus;
}
