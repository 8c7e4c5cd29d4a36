/* The search for the fewest spares that meet what is short. */
#include "muster/inside.h"

#include <stdint.h>
#include <string.h>

/* How many choices are looked at for the fewest before the most useful are taken instead. */
enum { CHOICES_MOST = 200000 };

static bool
is_covered(const struct cure_search *search, size_t shortage)
{
	return search->gained[shortage] >= search->shortages[shortage].most;
}

/* True when the shortage is met with all that is needed together with it. */
static bool
way_is_covered(const struct cure_search *search, size_t shortage)
{
	const struct carriage *line = search->shortages[shortage].line;
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (lines_together(line, search->shortages[i].line) &&
		    !is_covered(search, i)) {
			return false;
		}
	}
	return true;
}

/* True when the shortage, or an alternative to it, is met. */
static bool
is_cured(const struct cure_search *search, size_t shortage)
{
	const struct carriage *line = search->shortages[shortage].line;
	for (size_t i = 0; i < search->shortage_count; i++) {
		if ((i == shortage || lines_alternate(line, search->shortages[i].line)) &&
		    way_is_covered(search, i)) {
			return true;
		}
	}
	return false;
}

/* The first shortage that is still to be met; shortage_count when there is none. */
static size_t
next_shortage(const struct cure_search *search)
{
	size_t i = 0;
	while (
	    i < search->shortage_count && (search->hopeless[i] || is_cured(search, i))) {
		i++;
	}
	return i;
}

/* Uses so many more units of a spare, or fewer. What is gained stays far inside an int: the
 * worth of a lot and the pieces looked at are bounded. */
static void
use(struct cure_search *search, struct spare *spare, int units)
{
	spare->used += units;
	for (size_t i = 0; i < search->shortage_count; i++) {
		search->gained[i] += units * spare->worth[i];
	}
}

static bool
is_used_up(const struct spare *spare)
{
	return spare->used == spare->units;
}

/* True when the spare helps with the shortage or with an alternative to it. */
static bool
helps(const struct cure_search *search, const struct spare *spare, size_t shortage)
{
	const struct carriage *line = search->shortages[shortage].line;
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (spare->worth[i] > 0 &&
		    (i == shortage || lines_alternate(line, search->shortages[i].line))) {
			return true;
		}
	}
	return false;
}

/* True when an earlier spare that is not used up is of the same sort: then trying that one was
 * enough. */
static bool
is_twin(const struct cure_search *search, size_t at)
{
	const struct item *items = search->engine->inventory->items;
	const struct item *item = &items[search->spares[at].item];
	size_t size = search->shortage_count * sizeof(int);
	for (size_t i = 0; i < at; i++) {
		const struct spare *spare = &search->spares[i];
		const struct item *other = &items[spare->item];
		if (!is_used_up(spare) && strcmp(other->kind, item->kind) == 0 &&
		    strcmp(other->rating, item->rating) == 0 &&
		    other->capacity == item->capacity &&
		    memcmp(spare->worth, search->spares[at].worth, size) == 0) {
			return true;
		}
	}
	return false;
}

/* The place of a line among the shortages; shortage_count when it is none of them. */
static size_t
place_of(const struct cure_search *search, const struct carriage *line)
{
	size_t i = 0;
	while (i < search->shortage_count && search->shortages[i].line != line) {
		i++;
	}
	return i;
}

size_t
cure_moves(const struct cure_search *search, struct muster_move *moves)
{
	size_t count = 0;
	for (size_t i = 0; i < search->spare_count; i++) {
		const struct spare *spare = &search->spares[i];
		if (spare->used > 0) {
			moves[count++] =
			    (struct muster_move){spare->item, spare->used * spare->unit};
		}
	}
	return count;
}

/* Musters her with what is in use. search->missing tells how much each line is short of then. */
static void
muster_trial(struct cure_search *search)
{
	struct arena arena = {0};
	struct muster with = {0};
	size_t given = search->given.count;
	if (given > 0) {
		memcpy(search->tried, search->given.moves, given * sizeof *search->tried);
	}
	const struct cure_given tried = {
	    search->tried, given + cure_moves(search, search->tried + given)};
	muster_with(search->engine, search->muster->vessel, search->muster->days, tried,
	    &arena, &with);
	memset(search->missing, 0, search->shortage_count * sizeof *search->missing);
	for (size_t i = 0; i < with.shortage_count; i++) {
		size_t at = place_of(search, with.shortages[i].line);
		if (at < search->shortage_count) {
			search->missing[at] = with.shortages[i].most;
		}
	}
	arena_clear(&arena);
}

/* Whether what is in use really does: always where pieces simply add up, else by trial. A
 * trial costs as much as many choices. */
static bool
is_proven(struct cure_search *search)
{
	enum { TRIAL_COST = 200 };

	bool trial = false;
	for (size_t i = 0; i < search->shortage_count; i++) {
		trial = trial || (search->limited[i] && !search->hopeless[i]);
	}
	if (!trial) {
		return true;
	}
	search->choices += TRIAL_COST;
	muster_trial(search);
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (search->missing[i] > 0 && !search->hopeless[i]) {
			return false;
		}
	}
	return true;
}

/* True when the spare helps with a shortage whose pieces don't simply add up. */
static bool
helps_limited(const struct cure_search *search, const struct spare *spare)
{
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (search->limited[i] && !search->hopeless[i] && spare->worth[i] > 0) {
			return true;
		}
	}
	return false;
}

/* Whether `left` more units can meet what is still short; those that do stay in use. The last
 * one was of the spare at `at`, for the shortage `for_shortage`: those for one shortage are
 * taken in the order of the spares, for another order would be the same choice. */
static bool
try_with(struct cure_search *search, size_t left, size_t for_shortage, size_t at)
{
	size_t shortage = next_shortage(search);
	bool seems_done = shortage == search->shortage_count;
	if (seems_done && is_proven(search)) {
		return true;
	}
	if (left == 0) {
		return false;
	}
	for (size_t i = shortage == for_shortage ? at : 0; i < search->spare_count; i++) {
		struct spare *spare = &search->spares[i];
		bool useful = seems_done ? helps_limited(search, spare)
					 : helps(search, spare, shortage);
		if (is_used_up(spare) || !useful || is_twin(search, i)) {
			continue;
		}
		if (search->choices++ >= CHOICES_MOST) {
			return false;
		}
		use(search, spare, 1);
		if (try_with(search, left - 1, shortage, i)) {
			return true;
		}
		use(search, spare, -1);
	}
	return false;
}

/* What of its worth is still wanted, over all shortages. */
static int
usefulness(const struct cure_search *search, const struct spare *spare)
{
	int sum = 0;
	for (size_t i = 0; i < search->shortage_count; i++) {
		int wanted = search->shortages[i].most - search->gained[i];
		if (!search->hopeless[i] && !is_cured(search, i) && wanted > 0) {
			sum += spare->worth[i] < wanted ? spare->worth[i] : wanted;
		}
	}
	return sum;
}

/* Takes the most useful spare, again and again; where none seems to be wanted any more and
 * yet it does not do, one that helps where pieces don't simply add up. */
static void
take_greedily(struct cure_search *search)
{
	while (next_shortage(search) < search->shortage_count || !is_proven(search)) {
		struct spare *best = NULL;
		int most = -1;
		for (size_t i = 0; i < search->spare_count; i++) {
			struct spare *spare = &search->spares[i];
			int useful = usefulness(search, spare);
			bool helpful = useful > 0 || helps_limited(search, spare);
			if (!is_used_up(spare) && helpful && useful > most) {
				best = spare;
				most = useful;
			}
		}
		if (best == NULL) {
			return;
		}
		use(search, best, 1);
	}
}

bool
cure_has_hope(struct cure_search *search)
{
	for (size_t i = 0; i < search->spare_count; i++) {
		search->spares[i].used = search->spares[i].units;
	}
	if (search->spare_count > 0) {
		muster_trial(search);
	}
	bool hope = false;
	for (size_t i = 0; i < search->shortage_count; i++) {
		search->hopeless[i] = search->spare_count == 0 || search->missing[i] > 0;
		hope = hope || !search->hopeless[i];
	}
	for (size_t i = 0; i < search->spare_count; i++) {
		search->spares[i].used = 0;
	}
	return hope;
}

/* True when something is gained by a part of what the shortage wants: it can't be met, and is
 * no alternative, half of which is worth no more than none. */
static bool
takes_a_part(const struct cure_search *search, size_t shortage)
{
	return search->hopeless[shortage] &&
	       search->shortages[shortage].line->any_of[0] == '\0';
}

static bool
helps_in_part(const struct cure_search *search, const struct spare *spare)
{
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (spare->worth[i] > 0 && takes_a_part(search, i)) {
			return true;
		}
	}
	return false;
}

/* What is missing, with what is in use, in the lines that can't be met. */
static int64_t
missing_still(struct cure_search *search)
{
	int64_t sum = 0;
	muster_trial(search);
	for (size_t i = 0; i < search->shortage_count; i++) {
		sum += takes_a_part(search, i) ? search->missing[i] : 0;
	}
	return sum;
}

bool
cure_take_parts(struct cure_search *search)
{
	bool any = false;
	for (size_t i = 0; i < search->spare_count; i++) {
		if (helps_in_part(search, &search->spares[i])) {
			use(search, &search->spares[i], search->spares[i].units);
			any = true;
		}
	}
	int64_t least = any ? missing_still(search) : 0;
	for (size_t i = search->spare_count; any && i > 0; i--) {
		struct spare *spare = &search->spares[i - 1];
		while (spare->used > 0) {
			use(search, spare, -1);
			if (missing_still(search) > least) {
				use(search, spare, 1);
				break;
			}
		}
	}
	return any;
}

bool
cure_find_fewest(struct cure_search *search)
{
	size_t units = 0;
	for (size_t i = 0; i < search->spare_count; i++) {
		units += (size_t)search->spares[i].units;
	}
	for (size_t left = 0; left <= units; left++) {
		if (try_with(search, left, search->shortage_count + 1, 0)) {
			return true;
		}
		if (search->choices >= CHOICES_MOST) {
			break;
		}
	}
	take_greedily(search);
	return false;
}
