/* A rota's hand-ins, to be given out as a winter's are. */
#include "rota/rota.h"
#include "winter/reach.h"

#include <string.h>

/* The hand-ins being gathered. All arrays in the arena. */
struct hand_in_giving {
	const struct rota_ask *ask;
	struct settled_hand_in *rows;
	const char ***tags; /* those of each row, to be written to, as the next */
	day_t **dues;
	size_t count;
	size_t room; /* lines of the rota */
	struct arena *arena;
};

static bool
same_owner(const struct settled_hand_in *a, const struct settled_hand_in *b)
{
	return a->of_base == b->of_base && strcmp(a->owner, b->owner) == 0 &&
	       strcmp(a->station, b->station) == 0;
}

/* The hand-in that a line of the rota goes on, without pieces and number. */
static struct settled_hand_in
hand_in_of(const struct rota_ask *ask, const struct rota_line *line)
{
	const struct inventory *inventory = ask->engine->inventory;
	const struct vessel *vessel =
	    &inventory->vessels[inventory->items[line->item].vessel];
	bool of_base = vessel->base[0] != '\0';
	return (struct settled_hand_in){.of_base = of_base,
	    .owner = of_base ? vessel->base : vessel->name,
	    .winter = day_to_civil(line->hand_in).year,
	    .station =
		line->station == NO_STATION ? "" : ask->stations[line->station].name,
	    .day = line->hand_in,
	    .given_on = ask->today,
	    .given_by = GIVEN_BY_ROTA,
	    .planned = DAY_NONE};
}

/* One that was given out to the same place for the same day; NULL for none. */
static const struct settled_hand_in *
known_on(const struct rota_ask *ask, const struct settled_hand_in *of)
{
	for (size_t i = 0; i < ask->settled_count; i++) {
		const struct settled_hand_in *known = &ask->settled[i];
		if (same_owner(known, of) && known->day == of->day) {
			return known;
		}
	}
	return NULL;
}

/* True when a piece was given out for this work, on whatever day: it stays there. */
static bool
is_given(const struct rota_ask *ask, const struct settled_hand_in *of, const char *tag,
    day_t due)
{
	for (size_t i = 0; i < ask->settled_count; i++) {
		const struct settled_hand_in *known = &ask->settled[i];
		if (known->of_base == of->of_base &&
		    strcmp(known->owner, of->owner) == 0 &&
		    settled_has_work(known, tag, due)) {
			return true;
		}
	}
	return false;
}

/* A number that none of the owner's to that station in that year has had. */
static size_t
free_number(const struct hand_in_giving *giving, const struct settled_hand_in *of)
{
	const struct rota_ask *ask = giving->ask;
	size_t number = 0;
	for (size_t i = 0; i < ask->settled_count + giving->count; i++) {
		const struct settled_hand_in *other =
		    i < ask->settled_count ? &ask->settled[i]
					   : &giving->rows[i - ask->settled_count];
		bool taken = same_owner(other, of) && other->winter == of->winter;
		number = taken && other->number > number ? other->number : number;
	}
	return number + 1;
}

/* Finds the row of a line, or begins it: one known for that day is gone on with. */
static void
row_of(struct hand_in_giving *giving, const struct settled_hand_in *of, size_t *at_out)
{
	size_t at = 0;
	while (at < giving->count &&
	       !(same_owner(&giving->rows[at], of) && giving->rows[at].day == of->day)) {
		at++;
	}
	*at_out = at;
	if (at < giving->count) {
		return;
	}
	const struct settled_hand_in *known = known_on(giving->ask, of);
	size_t before = known == NULL ? 0 : known->tag_count;
	size_t room = before + giving->room;
	giving->tags[at] = arena_alloc(giving->arena, room * sizeof(const char *));
	giving->dues[at] = arena_alloc(giving->arena, room * sizeof(day_t));
	if (before > 0) {
		memcpy(giving->tags[at], known->tags, before * sizeof(const char *));
		memcpy(giving->dues[at], known->dues, before * sizeof(day_t));
	}
	giving->rows[at] = known == NULL ? *of : *known;
	if (known == NULL) {
		giving->rows[at].number = free_number(giving, of);
	}
	giving->rows[at].tags = giving->tags[at];
	giving->rows[at].dues = giving->dues[at];
	giving->count++;
}

/* Puts a line's piece on its hand-in, unless it was given out so before. */
static void
add_line(struct hand_in_giving *giving, const struct rota_line *line)
{
	const struct settled_hand_in of = hand_in_of(giving->ask, line);
	const char *tag = giving->ask->engine->inventory->items[line->item].tag;
	size_t at = 0;
	if (is_given(giving->ask, &of, tag, line->due)) {
		return;
	}
	row_of(giving, &of, &at);
	struct settled_hand_in *row = &giving->rows[at];
	size_t place = 0;
	while (place < row->tag_count && strcmp(row->tags[place], tag) != 0) {
		place++;
	}
	giving->tags[at][place] = tag;
	giving->dues[at][place] = line->due_last;
	row->tag_count += place == row->tag_count;
}

void
rota_hand_ins(const struct rota_ask *ask, const struct rota *rota, struct arena *arena,
    struct settled_hand_in **out, size_t *count_out)
{
	struct hand_in_giving giving = {.ask = ask, .room = 1, .arena = arena};
	for (size_t i = 0; i < rota->group_count; i++) {
		giving.room += rota->groups[i].line_count;
	}
	giving.rows = ARENA_MANY(arena, struct settled_hand_in, giving.room);
	giving.tags = arena_alloc(arena, giving.room * sizeof *giving.tags);
	giving.dues = arena_alloc(arena, giving.room * sizeof *giving.dues);
	for (size_t i = 0; i < rota->group_count; i++) {
		for (size_t k = 0; k < rota->groups[i].line_count; k++) {
			const struct rota_line *line = &rota->groups[i].lines[k];
			if (line->planned) {
				add_line(&giving, line);
			}
		}
	}
	*out = giving.rows;
	*count_out = giving.count;
}
