#include "base/alike.h"
#include "desk/inside.h"
#include "desk/remind.h"
#include "desk/reminding.h"

#include <assert.h>
#include <string.h>
#include <strings.h>

static const char *const FIELDS[] = {
    [SAID_PLAN] = "plan", [SAID_CONFIRMED] = "confirmed", [SAID_GIVE_UP] = "give-up"};

/* The hand-in still to come at a station, or whose identity starts so; how many there are. */
static size_t
count_hand_ins(struct desk *desk, const struct reminders *reminders, const char *name,
    const struct reminder **found)
{
	size_t count = 0;
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		struct settled_hand_in of = {0};
		bool is_one = false;
		hand_in_of_key(reminder->key, &desk->arena, &of, &is_one);
		if (is_one && !reminder->last_chance &&
		    (names_alike(of.station, name) >= ALIKE_CASE ||
			strncasecmp(reminder->uid, name, strlen(name)) == 0)) {
			*found = reminder;
			count++;
		}
	}
	return count;
}

/* The one hand-in still to come at a station, or whose identity starts so. */
static bool
find_hand_in(struct desk *desk, const struct reminders *reminders,
    const struct said_day *said, const struct reminder **out, struct fault *fault)
{
	size_t count = count_hand_ins(desk, reminders, said->of, out);
	return count == 1 ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "%s: %s hand-in at \"%s\" is to come; \"becket remind\" shows "
			 "them, and its identity may stand in the station's place",
		   FIELDS[said->what], count == 0 ? "no" : "more than one", said->of);
}

/* The one reminder whose identity starts so, or the hand-in at a station of that name. */
static bool
find_reminder(struct desk *desk, const struct reminders *reminders,
    const struct said_day *said, const struct reminder **out, struct fault *fault)
{
	const struct reminder *found = NULL;
	size_t count = 0;
	for (size_t i = 0; i < reminders->count; i++) {
		if (strncasecmp(reminders->items[i].uid, said->of, strlen(said->of)) ==
		    0) {
			found = &reminders->items[i];
			count++;
		}
	}
	*out = found;
	if (count == 0 && count_hand_ins(desk, reminders, said->of, &found) > 0) {
		return find_hand_in(desk, reminders, said, out, fault);
	}
	return count == 1 ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "plan: %s reminder's identity starts with \"%s\"; \"becket "
			 "remind\" shows them",
		   count == 0 ? "no" : "more than one", said->of);
}

/* A boat in use all year has no winter for which a hand-in could be given up. */
static bool
check_winters(const struct desk *desk, const struct reminder *reminder, const char *name,
    struct fault *fault)
{
	for (size_t i = 0; i < reminder->vessel_count; i++) {
		const struct vessel *vessel =
		    &desk->contents.inventory.vessels[reminder->vessels[i]];
		struct winter winter;
		if (!winter_at(vessel, desk->today, &winter)) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD "give-up %s: %s is in use all year and has no winter "
				  "for which it could be given up; put it on another "
				  "day with " FIELD "plan",
			    name, vessel->name);
		}
	}
	return true;
}

static bool
check_day(const struct desk *desk, const struct said_day *said, struct fault *fault)
{
	char words[DAY_WORDS_SIZE];
	return said->day == DAY_NONE || said->day >= desk->today ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "%s %s: %s is past; expected today or a day to come",
		   FIELDS[said->what], said->of, day_words(said->day, words));
}

/* The key of what is planned. What was given up has no reminder, and is found as what is to be
 * taken back. */
static bool
find_to_plan(struct desk *desk, const struct reminders *reminders,
    const struct said_day *said, struct planned_day *out, struct fault *fault)
{
	const struct reminder *reminder = NULL;
	bool found = false;
	if (said->what == SAID_PLAN &&
	    !given_up_find(desk, said->of, out, &found, fault)) {
		return false;
	}
	if (found) {
		return true;
	}
	if (!(said->what == SAID_PLAN
		    ? find_reminder(desk, reminders, said, &reminder, fault)
		    : find_hand_in(desk, reminders, said, &reminder, fault))) {
		return false;
	}
	assert(reminder != NULL);
	*out = (struct planned_day){.key = reminder->key,
	    .day = reminder->day,
	    .summary = reminder->summary,
	    .confirmed = said->what == SAID_CONFIRMED};
	if (said->what == SAID_GIVE_UP) {
		return check_winters(desk, reminder, said->of, fault);
	}
	return !reminder->last_chance ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "plan %s: that is the last day that serves, and can't be put "
			 "off; plan the day of the hand-in itself",
		   said->of);
}

static bool
plan_day(struct desk *desk, const struct reminders *reminders,
    const struct said_day *said, struct planned_day *out, struct fault *fault)
{
	if (!find_to_plan(desk, reminders, said, out, fault)) {
		return false;
	}
	if (said->what == SAID_GIVE_UP) {
		out->given_up = said->why[0] == '\0' ? "no reason was said" : said->why;
		return true;
	}
	out->day = said->day;
	out->given_up = NULL;
	return check_day(desk, said, fault);
}

struct act {
	const struct remind_request *request;
	struct reminders_made made; /* before */
	struct choices_change change;
};

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct remind_request *request = act->request;
	struct planned_day *planned =
	    arena_alloc(&desk->arena, (request->day_count + 1) * sizeof *planned);
	act->made = (struct reminders_made){0};
	if (request->day_count > 0 && !reminding_make(desk, &act->made, fault)) {
		return false;
	}
	reminders_keep_form(&act->made.reminders, false);
	for (size_t i = 0; i < request->day_count; i++) {
		if (!plan_day(desk, &act->made.reminders, &request->days[i], &planned[i],
			fault)) {
			return false;
		}
	}
	act->change = (struct choices_change){.set_weekday = request->set_weekday,
	    .set_routines = request->set_routines,
	    .set_singles = request->set_singles,
	    .weekday = request->weekday,
	    .routines = request->routines,
	    .singles = request->singles,
	    .notices = request->notices,
	    .notice_count = request->notice_count,
	    .planned = planned,
	    .planned_count = request->day_count};
	return true;
}

/* Keeps the hand-ins of what was planned as these lists have them. */
static bool
keep_planned(struct desk *desk, const struct act *act, const struct shore_list *lists,
    size_t count, struct fault *fault)
{
	for (size_t i = 0; i < act->change.planned_count; i++) {
		const struct settling_which which = {
		    .key = act->change.planned[i].key, .by = GIVEN_BY_PERSON};
		if (!settling_keep(desk, lists, count, &which, fault)) {
			return false;
		}
	}
	return true;
}

/* What is on a hand-in is kept first, so that it stays together, and then its day. */
static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	struct shore_list *lists = NULL;
	size_t count = 0;
	if (!keep_planned(desk, act, act->made.lists, act->made.list_count, fault) ||
	    !book_put_choices(desk->book, &act->change, fault)) {
		return false;
	}
	return act->change.planned_count == 0 ||
	       (reminding_plans(desk, &lists, &count, fault) &&
		   keep_planned(desk, act, lists, count, fault));
}

bool
desk_remind(struct desk *desk, const struct remind_request *request, struct fault *fault)
{
	struct act act = {.request = request};
	const struct book_part *part = NULL;
	if (!reminding_part(desk, request->whose, &part, fault)) {
		return false;
	}
	desk->left_gear = LEFT_ASHORE;
	return act_run_about(desk, part, NULL, plan, write, &act, fault);
}

bool
desk_hand_in_uid(struct desk *desk, const struct hand_in_named *named,
    const char **uid_out, struct fault *fault)
{
	struct reminders reminders = {0};
	if (!reminding_seen(desk, &reminders, fault)) {
		return false;
	}
	for (size_t i = 0; i < reminders.count; i++) {
		const struct reminder *reminder = &reminders.items[i];
		struct settled_hand_in of = {0};
		bool is_one = false;
		hand_in_of_key(reminder->key, &desk->arena, &of, &is_one);
		if (is_one && !reminder->last_chance &&
		    strcmp(of.station, named->station) == 0 &&
		    strcmp(of.owner, named->owner) == 0 && of.winter == named->year &&
		    of.number == named->number) {
			*uid_out = reminder->uid;
			return true;
		}
	}
	return fault_set(fault, FAULT_INPUT,
	    "no hand-in at \"%s\" is to come that could be put on another day",
	    named->station);
}

/* Keeps those that are of a vessel wished for. */
static void
keep_wanted(
    const struct desk *desk, const struct plans_wish *whose, struct reminders *reminders)
{
	const struct vessel *vessels = desk->contents.inventory.vessels;
	size_t kept = 0;
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		bool wanted = false;
		for (size_t v = 0; v < reminder->vessel_count; v++) {
			wanted =
			    wanted || plans_want(whose, &vessels[reminder->vessels[v]]);
		}
		if (wanted) {
			reminders->items[kept++] = *reminder;
		}
	}
	reminders->count = kept;
}

bool
reminding_see(struct desk *desk, const struct plans_wish *whose,
    struct reminders_made *made, struct reminders_seen *out, struct fault *fault)
{
	*out = (struct reminders_seen){
	    .reminders = made->reminders, .choices = made->basis->choices};
	reminders_keep_form(&out->reminders, false);
	keep_wanted(desk, whose, &out->reminders);
	return given_up_list(
	    desk, whose, &out->choices, &out->given_up, &out->given_up_count, fault);
}

bool
desk_reminders(struct desk *desk, const struct plans_wish *whose,
    struct reminders_seen *out, struct fault *fault)
{
	static const struct plans_wish EVERYONE = {0};
	struct reminders_made made = {0};
	const struct book_part *part = NULL;
	*out = (struct reminders_seen){0};
	whose = whose == NULL ? &EVERYONE : whose;
	if (!reminding_part(desk, whose, &part, fault) ||
	    !reminding_make(desk, &made, fault)) {
		return false;
	}
	return reminding_see(desk, whose, &made, out, fault);
}

static bool
is_planned(const struct reminder_choices *choices, const struct reminder *reminder)
{
	for (size_t i = 0; i < choices->planned_count; i++) {
		if (strcmp(choices->planned[i].key, reminder->key) == 0) {
			return choices->planned[i].day == reminder->day;
		}
	}
	return false;
}

size_t
desk_reminder_rows(
    struct desk *desk, const struct reminders_seen *seen, struct reminder_row **rows_out)
{
	size_t count = seen->reminders.count;
	struct reminder_row *rows =
	    arena_alloc(&desk->arena, (count + seen->given_up_count + 1) * sizeof *rows);
	for (size_t i = 0; i < count; i++) {
		const struct reminder *reminder = &seen->reminders.items[i];
		rows[i] = (struct reminder_row){.uid = reminder->uid,
		    .key = reminder->key,
		    .day = reminder->day,
		    .summary = reminder->summary,
		    .description = reminder->description,
		    .station = reminder->station,
		    .planned = is_planned(&seen->choices, reminder),
		    .given_up_day = DAY_NONE};
	}
	for (size_t i = 0; i < seen->given_up_count; i++) {
		const struct given_up *given_up = &seen->given_up[i];
		rows[count + i] = (struct reminder_row){.uid = given_up->uid,
		    .key = given_up->of.key,
		    .day = DAY_NONE,
		    .summary = given_up->of.summary,
		    .description = "",
		    .station = "",
		    .given_up = given_up->of.given_up,
		    .given_up_day = given_up->of.day};
	}
	*rows_out = rows;
	return count + seen->given_up_count;
}
