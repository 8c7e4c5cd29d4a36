#include "base/alike.h"
#include "desk/inside.h"

#include <string.h>
#include <strings.h>

/* The identity of a reminder that is not made now. */
static bool
identity_of(struct desk *desk, const char *key, const char **out, struct fault *fault)
{
	const struct book_reminder *stored = NULL;
	if (!book_find_reminder(desk->book, key, &desk->arena, &stored, fault)) {
		return false;
	}
	if (stored != NULL) {
		*out = stored->uid;
		return true;
	}
	*out = reminder_identity(book_identity(desk->book), key, &desk->arena);
	return true;
}

bool
given_up_find(struct desk *desk, const char *name, struct planned_day *out,
    bool *found_out, struct fault *fault)
{
	struct reminder_choices choices = {0};
	size_t count = 0;
	if (!book_load_choices(desk->book, &desk->arena, &choices, fault)) {
		return false;
	}
	for (size_t i = 0; i < choices.planned_count; i++) {
		struct settled_hand_in of = {0};
		const char *uid = NULL;
		bool is_one = false;
		if (choices.planned[i].given_up == NULL) {
			continue;
		}
		hand_in_of_key(choices.planned[i].key, &desk->arena, &of, &is_one);
		if (!identity_of(desk, choices.planned[i].key, &uid, fault)) {
			return false;
		}
		if (names_alike(of.station, name) >= ALIKE_CASE ||
		    strncasecmp(uid, name, strlen(name)) == 0) {
			*out = choices.planned[i];
			count++;
		}
	}
	*found_out = count == 1;
	return count < 2 ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD
		   "plan: more than one hand-in at \"%s\" was given up; \"becket remind\" "
		   "shows them with their identity",
		   name);
}

/* True when a winter of its owner's that it was given up for is not over, and the owner
 * is wished for. */
static bool
still_counts(const struct desk *desk, const struct plans_wish *whose,
    const struct settled_hand_in *of)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		struct winter winter;
		if (settled_is_of(of, vessel) && plans_want(whose, vessel) &&
		    winter_at(vessel, desk->today, &winter) &&
		    winter.year <= of->winter) {
			return true;
		}
	}
	return false;
}

bool
given_up_list(struct desk *desk, const struct plans_wish *whose,
    const struct reminder_choices *choices, struct given_up **out, size_t *count_out,
    struct fault *fault)
{
	struct given_up *list =
	    arena_alloc(&desk->arena, (choices->planned_count + 1) * sizeof *list);
	size_t count = 0;
	for (size_t i = 0; i < choices->planned_count; i++) {
		const struct planned_day *planned = &choices->planned[i];
		struct settled_hand_in of = {0};
		bool is_one = false;
		hand_in_of_key(planned->key, &desk->arena, &of, &is_one);
		if (planned->given_up == NULL || !still_counts(desk, whose, &of)) {
			continue;
		}
		list[count] = (struct given_up){.of = *planned};
		if (!identity_of(desk, planned->key, &list[count].uid, fault)) {
			return false;
		}
		count++;
	}
	*out = list;
	*count_out = count;
	return true;
}
