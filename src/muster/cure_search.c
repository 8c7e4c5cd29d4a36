/* The search for the fewest spares that meet what is short. */
#include "muster/cure_search.h"

#include <string.h>

/* How many choices are looked at for the fewest before the most useful are taken instead. */
enum { CHOICES_MOST = 200000 };

/* More lines than any set of sheets has. */
enum { SHORTAGES_TRIED = 256 };

static bool
is_covered(const struct search *search, size_t shortage)
{
	return search->gained[shortage] >= search->shortages[shortage].most;
}

/* True when the shortage is met with all that is needed together with it. */
static bool
way_is_covered(const struct search *search, size_t shortage)
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
is_cured(const struct search *search, size_t shortage)
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
next_shortage(const struct search *search)
{
	size_t i = 0;
	while (
	    i < search->shortage_count && (search->hopeless[i] || is_cured(search, i))) {
		i++;
	}
	return i;
}

static void
use(struct search *search, struct spare *spare, bool used)
{
	spare->used = used;
	for (size_t i = 0; i < search->shortage_count; i++) {
		search->gained[i] += used ? spare->worth[i] : -spare->worth[i];
	}
}

/* True when the spare helps with the shortage or with an alternative to it. */
static bool
helps(const struct search *search, const struct spare *spare, size_t shortage)
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

/* True when an earlier spare that is not used is of the same sort: then trying that one was
 * enough. */
static bool
is_twin(const struct search *search, size_t at)
{
	const struct item *items = search->engine->inventory->items;
	const struct item *item = &items[search->spares[at].item];
	size_t size = search->shortage_count * sizeof(int);
	for (size_t i = 0; i < at; i++) {
		const struct spare *spare = &search->spares[i];
		const struct item *other = &items[spare->item];
		if (!spare->used && strcmp(other->kind, item->kind) == 0 &&
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
place_of(const struct search *search, const struct carriage *line)
{
	size_t i = 0;
	while (i < search->shortage_count && search->shortages[i].line != line) {
		i++;
	}
	return i;
}

/* Musters her with what is in use. `short_out`, one a shortage, tells what is short then. */
static bool
muster_trial(struct search *search, bool *short_out)
{
	struct arena arena = {0};
	struct muster with = {0};
	size_t count = 0;
	for (size_t i = 0; i < search->spare_count; i++) {
		if (search->spares[i].used) {
			search->tried[count++] = search->spares[i].item;
		}
	}
	bool done = muster_with(search->engine, search->muster->vessel,
	    search->muster->days, (struct muster_items){search->tried, count}, &arena,
	    &with, search->fault);
	for (size_t i = 0; done && i < with.shortage_count; i++) {
		size_t at = place_of(search, with.shortages[i].line);
		if (at < search->shortage_count) {
			short_out[at] = true;
		}
	}
	arena_clear(&arena);
	search->failed = search->failed || !done;
	return done;
}

/* Whether what is in use really does: always where pieces simply add up, else by trial. A
 * trial costs as much as many choices. */
static bool
is_proven(struct search *search)
{
	enum { TRIAL_COST = 200 };

	bool trial = false;
	bool found_short[SHORTAGES_TRIED] = {false};
	for (size_t i = 0; i < search->shortage_count; i++) {
		trial = trial || (search->limited[i] && !search->hopeless[i]);
	}
	if (!trial) {
		return true;
	}
	search->choices += TRIAL_COST;
	if (search->shortage_count > SHORTAGES_TRIED ||
	    !muster_trial(search, found_short)) {
		return false;
	}
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (found_short[i] && !search->hopeless[i]) {
			return false;
		}
	}
	return true;
}

/* True when the spare helps with a shortage whose pieces don't simply add up. */
static bool
helps_limited(const struct search *search, const struct spare *spare)
{
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (search->limited[i] && !search->hopeless[i] && spare->worth[i] > 0) {
			return true;
		}
	}
	return false;
}

/* Whether `left` more spares can meet what is still short; those that do stay in use. */
static bool
try_with(struct search *search, size_t left)
{
	size_t shortage = next_shortage(search);
	bool seems_done = shortage == search->shortage_count;
	if (seems_done && is_proven(search)) {
		return true;
	}
	if (left == 0) {
		return false;
	}
	for (size_t i = 0; i < search->spare_count; i++) {
		struct spare *spare = &search->spares[i];
		bool useful = seems_done ? helps_limited(search, spare)
					 : helps(search, spare, shortage);
		if (spare->used || !useful || is_twin(search, i)) {
			continue;
		}
		if (search->failed || search->choices++ >= CHOICES_MOST) {
			return false;
		}
		use(search, spare, true);
		if (try_with(search, left - 1)) {
			return true;
		}
		use(search, spare, false);
	}
	return false;
}

/* What of its worth is still wanted, over all shortages. */
static int
usefulness(const struct search *search, const struct spare *spare)
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
take_greedily(struct search *search)
{
	while (!search->failed &&
	       (next_shortage(search) < search->shortage_count || !is_proven(search))) {
		struct spare *best = NULL;
		int most = -1;
		for (size_t i = 0; i < search->spare_count; i++) {
			struct spare *spare = &search->spares[i];
			int useful = usefulness(search, spare);
			bool helpful = useful > 0 || helps_limited(search, spare);
			if (!spare->used && helpful && useful > most) {
				best = spare;
				most = useful;
			}
		}
		if (best == NULL) {
			return;
		}
		use(search, best, true);
	}
}

/* Finds out, by mustering her with them, what all spares together can't meet; false when
 * that is all there is. */
static bool
find_hopeless(struct search *search)
{
	for (size_t i = 0; i < search->spare_count; i++) {
		use(search, &search->spares[i], true);
	}
	bool done = search->spare_count > 0 && muster_trial(search, search->hopeless);
	bool hope = false;
	for (size_t i = 0; i < search->shortage_count; i++) {
		search->hopeless[i] = search->hopeless[i] || !done;
		hope = hope || !search->hopeless[i];
	}
	for (size_t i = 0; i < search->spare_count; i++) {
		use(search, &search->spares[i], false);
	}
	return hope;
}

bool
cure_find_fewest(struct search *search)
{
	if (!find_hopeless(search)) {
		return true;
	}
	for (size_t left = 1; left <= search->spare_count; left++) {
		if (try_with(search, left)) {
			return true;
		}
		if (search->choices >= CHOICES_MOST) {
			break;
		}
	}
	take_greedily(search);
	return false;
}
