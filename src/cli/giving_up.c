#include "cli/giving_up.h"

#include "report/table.h"

#include <string.h>
#include <strings.h>

/* So much of an identity is shown; it names a reminder. */
enum { SHORT_ID = 8 };

static const char NO_REASON[] = "no reason was said";

bool
hand_in_to_come(struct context *context, const struct reminders *reminders,
    const char *option, const char *name, const struct reminder **out,
    struct fault *fault)
{
	const struct reminder *found = NULL;
	size_t count = 0;
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		struct settled_hand_in of = {0};
		bool is_one = false;
		hand_in_of_key(reminder->key, &context->desk.arena, &of, &is_one);
		if (is_one && !reminder->last_chance &&
		    (strcmp(of.station, name) == 0 ||
			strncasecmp(reminder->uid, name, strlen(name)) == 0)) {
			found = reminder;
			count++;
		}
	}
	if (count != 1) {
		return fault_set(fault, FAULT_INPUT,
		    "--%s: %s hand-in at \"%s\" is to come; \"becket remind\" shows "
		    "them, and its identity may stand in the station's place",
		    option, count == 0 ? "no" : "more than one", name);
	}
	*out = found;
	return true;
}

/* A boat in use all year has no winter for which a hand-in could be given up. */
static bool
check_winters(const struct context *context, const struct reminder *reminder,
    const char *name, struct fault *fault)
{
	for (size_t i = 0; i < reminder->vessel_count; i++) {
		const struct vessel *vessel =
		    &context->desk.contents.inventory.vessels[reminder->vessels[i]];
		struct winter winter;
		if (!winter_at(vessel, context->desk.today, &winter)) {
			return fault_set(fault, FAULT_INPUT,
			    "--give-up %s: %s is in use all year and has no winter for which "
			    "it could be given up; put it on another day with --plan",
			    name, vessel->name);
		}
	}
	return true;
}

bool
giving_up_read(struct context *context, const struct reminders *reminders,
    const char *words, struct planned_day *out, struct fault *fault)
{
	const struct reminder *reminder = NULL;
	const char *sign = strchr(words, '=');
	const char *why = sign == NULL || sign[1] == '\0' ? NO_REASON : sign + 1;
	size_t length = sign == NULL ? strlen(words) : (size_t)(sign - words);
	char *name = arena_alloc(&context->desk.arena, length + 1);
	memcpy(name, words, length);
	name[length] = '\0';
	if (length == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "--give-up: expected STATION=REASON, found \"%s\"", words);
	}
	if (!hand_in_to_come(context, reminders, "give-up", name, &reminder, fault) ||
	    !check_winters(context, reminder, name, fault)) {
		return false;
	}
	*out = (struct planned_day){.key = reminder->key,
	    .day = reminder->day,
	    .summary = reminder->summary,
	    .given_up = why};
	return true;
}

/* ---- what was given up ---- */

/* The identity of a reminder that is not made now. */
static bool
identity_of(
    struct context *context, const char *key, const char **out, struct fault *fault)
{
	const struct book_reminder *stored = NULL;
	size_t count = 0;
	if (!book_load_reminders(
		context->desk.book, &context->desk.arena, &stored, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (strcmp(stored[i].key, key) == 0) {
			*out = stored[i].uid;
			return true;
		}
	}
	*out = reminder_identity(
	    book_identity(context->desk.book), key, &context->desk.arena);
	return true;
}

bool
given_up_find(struct context *context, const char *name, struct planned_day *out,
    bool *found_out, struct fault *fault)
{
	struct reminder_choices choices = {0};
	size_t count = 0;
	if (!book_load_choices(
		context->desk.book, &context->desk.arena, &choices, fault)) {
		return false;
	}
	for (size_t i = 0; i < choices.planned_count; i++) {
		struct settled_hand_in of = {0};
		const char *uid = NULL;
		bool is_one = false;
		if (choices.planned[i].given_up == NULL) {
			continue;
		}
		hand_in_of_key(
		    choices.planned[i].key, &context->desk.arena, &of, &is_one);
		if (!identity_of(context, choices.planned[i].key, &uid, fault)) {
			return false;
		}
		if (strcmp(of.station, name) == 0 ||
		    strncasecmp(uid, name, strlen(name)) == 0) {
			*out = choices.planned[i];
			count++;
		}
	}
	*found_out = count == 1;
	return count < 2 ||
	       fault_set(fault, FAULT_INPUT,
		   "--plan: more than one hand-in at \"%s\" was given up; \"becket remind\" "
		   "shows them with their identity",
		   name);
}

/* True when a winter of its owner's that it was given up for is not over. */
static bool
still_counts(const struct context *context, const struct settled_hand_in *of)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		const char *owner = of->of_base ? vessel->base : vessel->name;
		struct winter winter;
		if (strcmp(owner, of->owner) == 0 &&
		    winter_at(vessel, context->desk.today, &winter) &&
		    winter.year <= of->winter) {
			return true;
		}
	}
	return false;
}

bool
given_up_say(struct context *context, const struct reminder_choices *choices,
    struct text *out, struct fault *fault)
{
	for (size_t i = 0; i < choices->planned_count; i++) {
		const struct planned_day *planned = &choices->planned[i];
		struct settled_hand_in of = {0};
		const char *uid = NULL;
		char day[DAY_WORDS_SIZE];
		bool is_one = false;
		SCOPED_TEXT words = {0};
		hand_in_of_key(planned->key, &context->desk.arena, &of, &is_one);
		if (planned->given_up == NULL || !still_counts(context, &of)) {
			continue;
		}
		if (!identity_of(context, planned->key, &uid, fault)) {
			return false;
		}
		text_add_format(&words,
		    "Given up for its winter: %s, planned for %s: %s. Taken back with "
		    "--plan %.*s=DATE, or =none for a day that is found for it.",
		    planned->summary, day_words(planned->day, day), planned->given_up,
		    SHORT_ID, uid);
		text_add(out, "\n");
		paragraph(text_string(&words), 0, 0, out);
	}
	return true;
}
