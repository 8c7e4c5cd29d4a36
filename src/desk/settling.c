#include "base/numbers.h"
#include "base/text.h"
#include "calendar/reminders.h"
#include "desk/inside.h"
#include "desk/reminding.h"

#include <stdlib.h>
#include <string.h>

/* True when both are the same hand-in: of one owner, winter, station and number. */
static bool
settling_is_same(const struct settled_hand_in *a, const struct settled_hand_in *b)
{
	return a->of_base == b->of_base && a->winter == b->winter &&
	       a->number == b->number && strcmp(a->owner, b->owner) == 0 &&
	       strcmp(a->station, b->station) == 0;
}

/* Whose hand-ins: vessels, and bases. In the desk's arena. */
struct owners {
	struct hand_in_owner *items; /* as compare_owners sorts them, each once */
	size_t count;
	size_t capacity;
};

static int
compare_owners(const void *left, const void *right)
{
	const struct hand_in_owner *a = left;
	const struct hand_in_owner *b = right;
	int order = ORDER(a->of_base, b->of_base);
	return order != 0 ? order : strcmp(a->name, b->name);
}

/* Those whose hand-ins a vessel that is loaded may have gear on. */
static struct owners
owners_loaded(struct desk *desk)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct arena *arena = &desk->arena;
	struct owners owners = {0};
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		ARENA_ADD(arena, &owners, (struct hand_in_owner){false, vessel->name});
		ARENA_ADD(arena, &owners, (struct hand_in_owner){true, vessel->base});
		for (size_t k = 0; k < vessel->period_count; k++) {
			ARENA_ADD(arena, &owners,
			    (struct hand_in_owner){true, vessel->periods[k].base});
		}
	}
	ARRAY_SORT(owners.items, owners.count, compare_owners);
	size_t kept = 0;
	for (size_t i = 0; i < owners.count; i++) {
		if (kept == 0 ||
		    compare_owners(&owners.items[kept - 1], &owners.items[i]) != 0) {
			owners.items[kept++] = owners.items[i];
		}
	}
	owners.count = kept;
	return owners;
}

/* Adds the planned days to what was given out; with `owners` theirs alone. */
static void
add_planned(struct desk *desk, const struct reminder_choices *choices,
    const struct owners *owners, struct settled_hand_in *rows, size_t *count)
{
	for (size_t i = 0; i < choices->planned_count; i++) {
		struct settled_hand_in asked = {0};
		bool is_one = false;
		size_t at = 0;
		hand_in_of_key(choices->planned[i].key, &desk->arena, &asked, &is_one);
		const struct hand_in_owner owner = {asked.of_base, asked.owner};
		if (!is_one ||
		    (owners != NULL && bsearch(&owner, owners->items, owners->count,
					   sizeof owner, compare_owners) == NULL)) {
			continue;
		}
		while (at < *count && !settling_is_same(&rows[at], &asked)) {
			at++;
		}
		if (at == *count) {
			asked.day = DAY_NONE;
			rows[(*count)++] = asked;
		}
		rows[at].given_up = choices->planned[i].given_up;
		rows[at].planned =
		    rows[at].given_up != NULL ? DAY_NONE : choices->planned[i].day;
		rows[at].confirmed = choices->planned[i].confirmed;
	}
}

static bool
load_settled(struct desk *desk, const struct owners *owners, struct settled_hand_in **out,
    size_t *count_out, struct fault *fault)
{
	return owners == NULL
		   ? book_load_settled(desk->book, &desk->arena, out, count_out, fault)
		   : book_load_settled_of(desk->book, owners->items, owners->count,
			 &desk->arena, out, count_out, fault);
}

static bool
load_with_planned(struct desk *desk, const struct owners *owners,
    const struct reminder_choices *choices, struct settled_hand_in **out,
    size_t *count_out, struct fault *fault)
{
	struct reminder_choices read = {0};
	struct settled_hand_in *loaded = NULL;
	size_t count = 0;
	if (!load_settled(desk, owners, &loaded, &count, fault) ||
	    (choices == NULL &&
		!book_load_choices(desk->book, &desk->arena, &read, fault))) {
		return false;
	}
	choices = choices == NULL ? &read : choices;
	struct settled_hand_in *rows = ARENA_MANY(
	    &desk->arena, struct settled_hand_in, count + choices->planned_count);
	if (count > 0) {
		memcpy(rows, loaded, count * sizeof *rows);
	}
	add_planned(desk, choices, owners, rows, &count);
	*out = rows;
	*count_out = count;
	return true;
}

bool
settling_load(struct desk *desk, struct settled_hand_in **out, size_t *count_out,
    struct fault *fault)
{
	return load_with_planned(desk, NULL, NULL, out, count_out, fault);
}

bool
settling_load_theirs(struct desk *desk, const struct reminder_choices *choices,
    struct settled_hand_in **out, size_t *count_out, struct fault *fault)
{
	const struct owners owners = owners_loaded(desk);
	return load_with_planned(desk, &owners, choices, out, count_out, fault);
}

/* ---- keeping ---- */

/* The hand-ins of some lists, being gathered. */
struct settling_run {
	struct desk *desk;
	struct settled_hand_in *rows;
	const char ***tags; /* those of each row, to be written to, as the next */
	day_t **dues;
	bool *wanted;    /* one a row */
	size_t *vessels; /* one a row: the first with gear on it */
	const struct settling_which *which;
	size_t count;
};

/* Adds a tag to a row unless it is there, with the day its work is due; of several works the
 * last. */
static void
add_tag(struct settling_run *keeping, size_t at, const char *tag, day_t due)
{
	struct settled_hand_in *row = &keeping->rows[at];
	struct arena *arena = &keeping->desk->arena;
	size_t count = row->tag_count;
	for (size_t k = 0; k < count; k++) {
		if (strcmp(row->tags[k], tag) == 0) {
			keeping->dues[at][k] = day_max(keeping->dues[at][k], due);
			return;
		}
	}
	if ((count & (count + 1)) == 0) { /* full at 0, 1, 3, 7 and so on */
		const char **more = arena_alloc(arena, (2 * count + 1) * sizeof *more);
		day_t *days = arena_alloc(arena, (2 * count + 1) * sizeof *days);
		if (count > 0) {
			memcpy(more, keeping->tags[at], count * sizeof *more);
			memcpy(days, keeping->dues[at], count * sizeof *days);
		}
		keeping->tags[at] = more;
		keeping->dues[at] = days;
		row->tags = more;
		row->dues = days;
	}
	keeping->dues[at][row->tag_count] = due;
	keeping->tags[at][row->tag_count++] = tag;
}

/* Adds what a vessel has on a trip. */
static void
add_trip(
    struct settling_run *keeping, const struct shore_list *list, const struct trip *trip)
{
	const struct inventory *inventory = &keeping->desk->contents.inventory;
	const struct vessel *vessel = &inventory->vessels[list->vessel];
	const struct settled_hand_in asked = {.of_base = trip->of_base,
	    .owner = trip->of_base ? vessel->base : vessel->name,
	    .winter = trip->year,
	    .station = trip->name,
	    .number = trip->number,
	    .day = trip->hand_in,
	    .given_on = keeping->desk->today,
	    .given_by = trip->chosen ? GIVEN_BY_PERSON : keeping->which->by,
	    .chosen = trip->chosen,
	    .missed = trip->missed};
	size_t at = 0;
	while (at < keeping->count && !settling_is_same(&keeping->rows[at], &asked)) {
		at++;
	}
	if (at == keeping->count) {
		keeping->vessels[at] = list->vessel;
		keeping->rows[keeping->count++] = asked;
	}
	const struct settling_which *which = keeping->which;
	if ((which->vessel == NULL || strcmp(which->vessel, vessel->name) == 0) &&
	    (which->base == NULL || strcmp(which->base, vessel->base) == 0)) {
		keeping->wanted[at] = true;
	}
	for (size_t i = 0; i < trip->lines.count; i++) {
		const struct shore_line *line = &trip->lines.items[i];
		day_t due = list->has_winter ? DAY_NONE : line->due;
		if (!line->with_parent) {
			add_tag(keeping, at, inventory->items[line->item].tag, due);
		}
	}
}

/* True when the book has it so already. `row` gets when and by what it was given out for its
 * day, where that was before. */
static bool
is_kept(
    struct settled_hand_in *row, const struct settled_hand_in *known, size_t known_count)
{
	for (size_t i = 0; i < known_count; i++) {
		const struct settled_hand_in *old = &known[i];
		if (!settling_is_same(old, row)) {
			continue;
		}
		bool same = old->day == row->day && old->chosen == row->chosen;
		if (same) {
			row->given_on = old->given_on;
			row->given_by = old->given_by;
		}
		same = same && old->missed == row->missed &&
		       old->tag_count == row->tag_count;
		for (size_t k = 0; k < row->tag_count && same; k++) {
			bool there = false;
			for (size_t j = 0; j < old->tag_count && !there; j++) {
				there = strcmp(old->tags[j], row->tags[k]) == 0;
			}
			same = there;
		}
		return same;
	}
	return false;
}

/* Leaves out what is not asked for, and what the book has so already. */
static bool
narrow(struct settling_run *keeping, struct fault *fault)
{
	const char *key = keeping->which->key;
	struct settled_hand_in *known = NULL;
	struct settled_hand_in asked = {0};
	size_t known_count = 0;
	size_t kept = 0;
	bool is_one = true;
	const struct owners owners = owners_loaded(keeping->desk);
	if (!load_settled(keeping->desk, &owners, &known, &known_count, fault)) {
		return false;
	}
	if (key != NULL) {
		hand_in_of_key(key, &keeping->desk->arena, &asked, &is_one);
	}
	for (size_t i = 0; i < keeping->count; i++) {
		bool wanted = key == NULL ||
			      (is_one && settling_is_same(&keeping->rows[i], &asked));
		if (wanted && keeping->wanted[i] &&
		    !is_kept(&keeping->rows[i], known, known_count)) {
			keeping->vessels[kept] = keeping->vessels[i];
			keeping->rows[kept++] = keeping->rows[i];
		}
	}
	keeping->count = kept;
	return true;
}

/* Gathers the hand-ins of some lists. */
static struct settling_run
gather(struct desk *desk, const struct shore_list *lists, size_t count,
    const struct settling_which *which)
{
	struct settling_run keeping = {.desk = desk, .which = which};
	size_t trips = 0;
	for (size_t i = 0; i < count; i++) {
		trips += lists[i].hand_in.count;
	}
	keeping.rows = arena_alloc(&desk->arena, (trips + 1) * sizeof *keeping.rows);
	keeping.tags = arena_alloc(&desk->arena, (trips + 1) * sizeof(const char **));
	keeping.dues = arena_alloc(&desk->arena, (trips + 1) * sizeof *keeping.dues);
	keeping.wanted = arena_alloc(&desk->arena, trips + 1);
	keeping.vessels = ARENA_MANY(&desk->arena, size_t, trips);
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < lists[i].hand_in.count; j++) {
			const struct trip *trip = &lists[i].hand_in.items[j];
			bool rotas = trip->settled && !lists[i].has_winter;
			if (!trip->held_back && (!which->rotas || rotas)) {
				add_trip(&keeping, &lists[i], trip);
			}
		}
	}
	return keeping;
}

void
settling_as_listed(struct desk *desk, const struct shore_list *lists, size_t count,
    struct settled_hand_in *rows, size_t row_count)
{
	const struct settling_which which = {.rotas = true};
	const struct settling_run listed = gather(desk, lists, count, &which);
	for (size_t i = 0; i < listed.count; i++) {
		for (size_t k = 0; k < row_count; k++) {
			if (settling_is_same(&listed.rows[i], &rows[k])) {
				rows[k].day = listed.rows[i].day;
				rows[k].tags = listed.rows[i].tags;
				rows[k].dues = listed.rows[i].dues;
				rows[k].tag_count = listed.rows[i].tag_count;
			}
		}
	}
}

bool
settling_find(struct desk *desk, const struct shore_list *lists, size_t count,
    const struct settling_which *which, struct settled_found *out, struct fault *fault)
{
	struct settling_run keeping = gather(desk, lists, count, which);
	if (!narrow(&keeping, fault)) {
		return false;
	}
	*out = (struct settled_found){keeping.rows, keeping.vessels, keeping.count};
	return true;
}

bool
settling_keep(struct desk *desk, const struct shore_list *lists, size_t count,
    const struct settling_which *which, struct fault *fault)
{
	struct settled_found found = {0};
	return settling_find(desk, lists, count, which, &found, fault) &&
	       book_put_settled(desk->book, found.rows, found.count, fault);
}

/* ---- landed after all ---- */

static bool
has_any(const struct desk *desk, const struct settled_hand_in *of, const size_t *items,
    size_t count)
{
	for (size_t i = 0; i < count; i++) {
		const char *tag = desk->contents.inventory.items[items[i]].tag;
		if (words_have(of->tags, of->tag_count, tag)) {
			return true;
		}
	}
	return false;
}

static bool
take_back(struct desk *desk, const struct settled_hand_in *of, struct fault *fault)
{
	struct reminder_choices choices = {0};
	if (!book_load_choices(desk->book, &desk->arena, &choices, fault)) {
		return false;
	}
	for (size_t i = 0; i < choices.planned_count; i++) {
		struct settled_hand_in planned = {0};
		bool is_one = false;
		hand_in_of_key(choices.planned[i].key, &desk->arena, &planned, &is_one);
		if (!is_one || !settling_is_same(of, &planned)) {
			continue;
		}
		const struct planned_day none = {
		    .key = choices.planned[i].key, .day = DAY_NONE};
		const struct choices_change change = {
		    .planned = &none, .planned_count = 1};
		desk_note(desk,
		    "the hand-in there was given up for this winter; with this it is taken "
		    "back");
		return book_put_choices(desk->book, &change, fault);
	}
	return true;
}

bool
settling_landed(struct desk *desk, const char *station, const size_t *items, size_t count,
    struct fault *fault)
{
	struct settled_hand_in *rows = NULL;
	size_t row_count = 0;
	if (!settling_load(desk, &rows, &row_count, fault)) {
		return false;
	}
	for (size_t i = 0; i < row_count; i++) {
		if (rows[i].given_up != NULL && strcmp(rows[i].station, station) == 0 &&
		    has_any(desk, &rows[i], items, count) &&
		    !take_back(desk, &rows[i], fault)) {
			return false;
		}
	}
	return true;
}
