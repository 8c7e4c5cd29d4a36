#include "cli/leaving.h"

#include "cli/ask.h"
#include "cli/stores.h"
#include "cli/values.h"
#include "cli/withdrawing.h"

#include <string.h>

/* What becomes of her gear. */
enum fate { WITH_HER, TO_SPARES, GONE };

static const char *const FATE_WORDS[] = {"with-her", "spares", "withdrawn"};

enum { FATE_COUNT = sizeof FATE_WORDS / sizeof FATE_WORDS[0] };

static bool
fate_parse(const char *word, enum fate *out)
{
	for (int i = 0; i < FATE_COUNT; i++) {
		if (text_same_letters(word, FATE_WORDS[i])) {
			*out = (enum fate)i;
			return true;
		}
	}
	return false;
}

/* Her gear aboard, and what is lent to her. What is at a station stays hers. */
static size_t
count_aboard(const struct inventory *inventory, size_t vessel)
{
	size_t count = 0;
	size_t first = inventory_aboard(inventory, vessel, &count);
	size_t aboard = 0;
	for (size_t i = first; i < first + count; i++) {
		enum place_state state = inventory->items[i].state;
		aboard += state != PLACE_WITHDRAWN && state != PLACE_LANDED ? 1 : 0;
	}
	return aboard;
}

/* What is hired is not hers to go with her. */
static bool
check_stand_ins(const struct inventory *inventory, size_t vessel, struct fault *fault)
{
	size_t count = 0;
	size_t first = inventory_aboard(inventory, vessel, &count);
	for (size_t i = first; i < first + count; i++) {
		const struct item *item = &inventory->items[i];
		if (item->state == PLACE_STAND_IN) {
			return fault_set(fault, FAULT_INPUT,
			    "%s stands in aboard %s; \"becket withdraw %s --because "
			    "given-back\" or \"becket move %s --vessel NAME\" first",
			    item->tag, inventory->vessels[vessel].name, item->tag,
			    item->tag);
		}
	}
	return true;
}

static bool
ask_fate(const char *name, size_t aboard, enum fate *out, struct fault *fault)
{
	SCOPED_TEXT question = {0};
	SCOPED_TEXT answer = {0};
	bool there = false;
	if (!ask_is_possible()) {
		return fault_set(fault, FAULT_USAGE,
		    "%s has %zu piece%s of gear aboard; expected --gear with-her, --gear "
		    "spares or --gear withdrawn",
		    name, aboard, aboard == 1 ? "" : "s");
	}
	text_add_format(&question,
	    "%s has %zu piece%s of gear aboard. What becomes of it: with-her (h), spares (s) "
	    "or withdrawn (w)? ",
	    name, aboard, aboard == 1 ? "" : "s");
	if (!ask_line(text_string(&question), &answer, &there, fault)) {
		return false;
	}
	int choice =
	    there ? ask_choice(text_string(&answer), "with-her|spares|withdrawn", "hsw")
		  : -1;
	*out = choice < 0 ? *out : (enum fate)choice;
	return choice >= 0 ||
	       fault_set(fault, FAULT_INPUT,
		   "nothing is written: expected with-her, spares or withdrawn, found "
		   "\"%.40s\"",
		   text_string(&answer));
}

static bool
read_fate(struct context *context, size_t vessel, enum fate *out, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const char *word = options_value(context->given, "gear");
	size_t aboard = count_aboard(inventory, vessel);
	*out = WITH_HER;
	if (aboard == 0 || !check_stand_ins(inventory, vessel, fault)) {
		return aboard == 0;
	}
	if (word != NULL) {
		return fate_parse(word, out) ||
		       fault_set(fault, FAULT_USAGE,
			   "--gear: expected with-her, spares or withdrawn, found "
			   "\"%.40s\"",
			   word);
	}
	return ask_fate(inventory->vessels[vessel].name, aboard, out, fault);
}

/* What the gear is withdrawn for when she leaves for this reason: given-back is said of what was
 * hired. */
static enum because
gear_because(enum because because)
{
	return because == BECAUSE_GIVEN_BACK ? BECAUSE_NOT_SAID : because;
}

static bool
plan_gear(struct context *context, size_t vessel, enum fate fate,
    const struct vessel_change *change, struct life_plan *plan, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct carrying carrying = {.on = change->left, .note = "", .with_whole = true};
	struct withdrawing how = {.on = change->left,
	    .because = gear_because(change->left_because),
	    .note = "",
	    .price_minor = -1};
	size_t count = 0;
	size_t first = inventory_aboard(inventory, vessel, &count);
	how.kept =
	    arena_alloc(&context->desk.arena, (inventory->item_count + 1) * sizeof(bool));
	if (fate == TO_SPARES &&
	    !store_need(context, inventory->vessels[vessel].base, &carrying.to, fault)) {
		return fault_prefix(fault, "--gear spares");
	}
	for (size_t i = first; i < first + count; i++) {
		enum place_state state = inventory->items[i].state;
		bool aboard = state != PLACE_WITHDRAWN && state != PLACE_LANDED;
		if (!aboard || life_has(plan, i)) {
			continue;
		}
		bool planned = fate == TO_SPARES
				   ? carry(context, &carrying, i, plan, fault)
				   : withdraw(context, &how, i, plan, fault);
		if (!planned) {
			return false;
		}
	}
	return true;
}

static void
tell(struct context *context, const struct vessel_change *change, size_t aboard,
    enum fate fate)
{
	static const char *const ONE[] = {
	    "goes with her", "is among the spares of her base", "is withdrawn"};
	static const char *const MORE[] = {
	    "go with her", "are among the spares of her base", "are withdrawn"};
	char day[DAY_WORDS_SIZE];
	bool later = change->left > context->desk.today;
	bool said = change->left_because != BECAUSE_NOT_SAID;
	text_add_format(&context->out, "%s %s on %s%s%s", change->name,
	    later ? "leaves" : "left", day_words(change->left, day), said ? ": " : "",
	    said ? because_word(change->left_because) : "");
	if (aboard > 0) {
		text_add_format(&context->out, "; %zu piece%s of gear, which %s", aboard,
		    aboard == 1 ? "" : "s", aboard == 1 ? ONE[fate] : MORE[fate]);
	}
	text_add_format(&context->out, "\n\"becket vessel '%s' --back\" takes it back.\n",
	    change->name);
}

static void
note_ashore(struct context *context, size_t vessel)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	size_t count = 0;
	size_t first = inventory_aboard(inventory, vessel, &count);
	for (size_t i = first; i < first + count; i++) {
		const struct item *item = &inventory->items[i];
		if (item->state == PLACE_LANDED) {
			desk_note(&context->desk,
			    "%s is ashore%s%s, and stays to be collected", item->tag,
			    item->landed_to[0] == '\0' ? "" : " at ", item->landed_to);
		}
	}
}

/* Her bookings that end later: a party counts on her. */
static void
note_bookings(struct context *context, const struct vessel *vessel, day_t left)
{
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	const struct booking *next =
	    booking_next(vessel->bookings, vessel->booking_count, left);
	size_t count = 0;
	for (size_t i = 0; i < vessel->booking_count; i++) {
		count += vessel->bookings[i].days.last >= left ? 1 : 0;
	}
	if (count == 0) {
		return;
	}
	desk_note(&context->desk,
	    "%zu booking%s of %s end%s on that day or later, the first of %s to %s: still in "
	    "\"becket booking\", but not mustered from that day on",
	    count, count == 1 ? "" : "s", vessel->name, count == 1 ? "s" : "",
	    day_words(next->days.first, first), day_words(next->days.last, last));
}

static bool
leave(struct context *context, size_t vessel, struct vessel_change *change,
    struct fault *fault)
{
	struct life_plan plan = {0};
	enum fate fate = WITH_HER;
	size_t aboard = count_aboard(&context->desk.contents.inventory, vessel);
	if (!read_fate(context, vessel, &fate, fault)) {
		return false;
	}
	if (fate != WITH_HER && change->left > context->desk.today) {
		return fault_set(fault, FAULT_INPUT,
		    "--left: gear is moved or withdrawn on the day, which is still to come; "
		    "say --gear with-her, or enter it then");
	}
	if (!life_begin_again(context, fault) ||
	    !desk_find_vessel(&context->desk, change->name, &vessel, fault) ||
	    (fate != WITH_HER &&
		!plan_gear(context, vessel, fate, change, &plan, fault)) ||
	    !book_put_vessel(context->desk.book, change, fault) ||
	    !life_write(context, &plan, fault)) {
		return false;
	}
	tell(context, change, aboard, fate);
	note_ashore(context, vessel);
	note_bookings(
	    context, &context->desk.contents.inventory.vessels[vessel], change->left);
	return true;
}

static bool
come_back(struct context *context, const struct vessel *vessel,
    const struct vessel_change *change, struct fault *fault)
{
	if (!vessel->leaves) {
		return fault_set(fault, FAULT_INPUT,
		    "%s has not left: nothing to take back", vessel->name);
	}
	text_add_format(&context->out,
	    "%s is back in the fleet; what was moved or withdrawn "
	    "when she left stays as it is\n",
	    vessel->name);
	return book_put_vessel(context->desk.book, change, fault);
}

bool
vessel_leave(struct context *context, const char *name, struct fault *fault)
{
	struct vessel_change change = {
	    .name = name, .set = 1U << VESSEL_LEFT, .left = DAY_NONE};
	const char *because = options_value(context->given, "because");
	bool left = false;
	size_t vessel = 0;
	if (!value_day(context->given, "left", &change.left, &left, fault) ||
	    (because != NULL && !because_parse(because, &change.left_because, fault)) ||
	    !desk_load(&context->desk, NULL, true, fault) ||
	    !desk_find_vessel(&context->desk, name, &vessel, fault)) {
		return false;
	}
	const struct vessel *known = &context->desk.contents.inventory.vessels[vessel];
	return left ? leave(context, vessel, &change, fault)
		    : come_back(context, known, &change, fault);
}

bool
left_check_on(const struct vessel *vessel, day_t day, struct fault *fault)
{
	char left[DAY_WORDS_SIZE];
	return vessel_is_here(vessel, day) ||
	       fault_set(fault, FAULT_INPUT,
		   "%s left on %s; if she did not, \"becket vessel '%s' --back\" first",
		   vessel->name, day_words(vessel->left, left), vessel->name);
}

bool
left_check(
    const struct context *context, const struct vessel *vessel, struct fault *fault)
{
	return left_check_on(vessel, context->desk.today, fault);
}

bool
left_check_named(const struct context *context, const char *vessel, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; vessel != NULL && i < inventory->vessel_count; i++) {
		if (strcmp(inventory->vessels[i].name, vessel) == 0) {
			return left_check(context, &inventory->vessels[i], fault);
		}
	}
	return true;
}
