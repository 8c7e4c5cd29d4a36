#include "cli/years.h"

#include "cli/command.h"
#include "cli/values.h"
#include "desk/plans.h"
#include "due/suppose.h"
#include "years/tips.h"

#include <string.h>

bool
years_changes_given(const struct given_options *given)
{
	static const char *const CHANGES[] = {
	    "price", "without-station", "renew-now", "skip-winter", "if"};
	for (size_t i = 0; i < COUNT_OF(CHANGES); i++) {
		if (options_has(given, CHANGES[i])) {
			return true;
		}
	}
	return false;
}

/* Reads the age between "@" and "=": from new where `at` is NULL. A new one's price has none. */
static bool
read_age(
    const char *at, const char *equals, struct outlook_price *out, struct fault *fault)
{
	SCOPED_TEXT age = {0};
	out->from_years = 0;
	if (at == NULL) {
		return true;
	}
	if (out->task == TASK_RENEW) {
		return fault_set(fault, FAULT_INPUT,
		    "the price of a new one does not depend on an age; leave the \"@\" out");
	}
	text_add_bytes(&age, at + 1, (size_t)(equals - at - 1));
	return age_read(text_string(&age), STATION_AGE_MOST, &out->from_years, fault);
}

/* Reads "liferaft-valise:service=249.00", perhaps with "@10y" before the "=". */
static bool
read_price(struct context *context, const char *value, struct outlook_price *out,
    struct fault *fault)
{
	const struct kinds *kinds = NULL;
	const char *colon = strchr(value, ':');
	const char *equals = colon == NULL ? NULL : strchr(colon, '=');
	if (equals == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "--price: expected KIND:TASK=PRICE, as liferaft-valise:service=249.00 or "
		    "liferaft-valise:service@10y=349.00, found \"%.80s\"",
		    value);
	}
	SCOPED_TEXT kind = {0};
	SCOPED_TEXT task = {0};
	text_add_bytes(&kind, value, (size_t)(colon - value));
	const char *at = memchr(colon, '@', (size_t)(equals - colon));
	text_add_bytes(
	    &task, colon + 1, (size_t)((at == NULL ? equals : at) - colon - 1));
	if (!desk_kinds(&context->desk, &kinds, fault)) {
		return false;
	}
	const struct kind *found = kinds_find(kinds, text_string(&kind));
	if (found == NULL) {
		return kinds_tell(kinds, text_string(&kind), fault) != NULL
			   ? fault_set(fault, FAULT_INPUT,
				 "--price: expected a kind's id, found \"%.60s\"",
				 text_string(&kind))
			   : fault_prefix(fault, "--price");
	}
	out->kind = found->id;
	return (task_parse(text_string(&task), &out->task, fault) &&
		   read_age(at, equals, out, fault) &&
		   price_read(context, equals + 1, &out->minor, fault)) ||
	       fault_prefix(fault, "--price");
}

static bool
read_prices(struct years_run *run, struct fault *fault)
{
	struct context *context = run->context;
	struct outlook_price *prices = arena_alloc(
	    &context->desk.arena, (context->given->count + 1) * sizeof *prices);
	size_t cursor = 0;
	for (const char *value = options_next(context->given, "price", &cursor);
	     value != NULL; value = options_next(context->given, "price", &cursor)) {
		if (!read_price(context, value, &prices[run->price_count], fault)) {
			return false;
		}
		run->price_count++;
	}
	run->prices = prices;
	return true;
}

static bool
find_station(
    const struct context *context, const char *name, size_t *out, struct fault *fault)
{
	const struct station *stations = context->desk.contents.stations;
	const struct station *named =
	    station_named(stations, context->desk.contents.station_count, name);
	if (named != NULL) {
		*out = (size_t)(named - stations);
		return true;
	}
	return fault_set(fault, FAULT_INPUT,
	    "--without-station: there is no station \"%.80s\" in the book; \"becket station\" "
	    "shows them all",
	    name);
}

static bool
read_shunned(struct years_run *run, struct fault *fault)
{
	struct context *context = run->context;
	bool *shunned =
	    arena_alloc(&context->desk.arena, context->desk.contents.station_count + 1);
	size_t cursor = 0;
	for (const char *value = options_next(context->given, "without-station", &cursor);
	     value != NULL;
	     value = options_next(context->given, "without-station", &cursor)) {
		size_t station = 0;
		if (!find_station(context, value, &station, fault)) {
			return false;
		}
		shunned[station] = true;
	}
	run->shunned = shunned;
	return true;
}

/* Reads "use=commercial" or "use=commercial@2027-06-01". */
static bool
read_if(struct years_run *run, const char *value, struct supposition *out,
    struct fault *fault)
{
	const char *at = strchr(value, '@');
	size_t length = at == NULL ? strlen(value) : (size_t)(at - value);
	SCOPED_TEXT words = {0};
	text_add_bytes(&words, value, length);
	*out = (struct supposition){
	    .from = run->context->desk.today, .says = SAYS_USE, .area = ""};
	if (strncmp(text_string(&words), "use=", 4) != 0) {
		return fault_set(fault, FAULT_INPUT,
		    "--if: expected use=private or use=commercial, with @DATE behind it where "
		    "it is not from today on, found \"%.60s\"",
		    value);
	}
	return (use_parse(text_string(&words) + 4, &out->use, fault) &&
		   (at == NULL ||
		       day_typed(at + 1, run->context->desk.today, &out->from, fault))) ||
	       fault_prefix(fault, "--if");
}

/* The engine as the book has it, or with the use that is supposed. */
static bool
suppose(struct years_run *run, struct fault *fault)
{
	struct context *context = run->context;
	const char *value = options_value(context->given, "if");
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct supposition supposition = {0};
	run->supposed = context->desk.engine;
	if (value == NULL) {
		return true;
	}
	struct vessel *vessels = arena_alloc(
	    &context->desk.arena, (inventory->vessel_count + 1) * sizeof *vessels);
	struct inventory *changed = arena_alloc(&context->desk.arena, sizeof *changed);
	if (!read_if(run, value, &supposition, fault)) {
		return false;
	}
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		vessel_suppose(&inventory->vessels[i], &supposition, &context->desk.arena,
		    &vessels[i]);
	}
	*changed = *inventory;
	changed->vessels = vessels;
	run->supposed.inventory = changed;
	return true;
}

/* A vessel's base when vessels of a base go together; NULL when each goes alone. A base that
 * is not known is shared with nobody. */
static const char *
shared_base(const struct years_run *run, const struct vessel *vessel)
{
	const struct given_options *given = run->context->given;
	bool shared = options_has(given, "fleet") || options_has(given, "base");
	return shared && vessel->base[0] != '\0' ? vessel->base : NULL;
}

/* The group of a vessel: her base's, where there is one already, or a new one. */
static size_t
group_of(struct years_run *run, struct group *groups, size_t vessel)
{
	const struct vessel *boat =
	    &run->context->desk.contents.inventory.vessels[vessel];
	const char *base = shared_base(run, boat);
	for (size_t i = 0; i < run->group_count && base != NULL; i++) {
		if (groups[i].shared && strcmp(groups[i].name, base) == 0) {
			return i;
		}
	}
	groups[run->group_count] = (struct group){
	    .name = base != NULL ? base : boat->name, .shared = base != NULL};
	return run->group_count++;
}

/* Counts the vessels of every group, then puts them in: vessels of one base need not stand
 * side by side. */
static void
fill_groups(struct years_run *run, struct group *groups, const size_t *of_vessel)
{
	struct context *context = run->context;
	size_t most = context->desk.contents.inventory.vessel_count;
	size_t *room = arena_alloc(&context->desk.arena, (most + 1) * sizeof *room);
	for (size_t i = 0; i < run->group_count; i++) {
		groups[i].vessels = room;
		room += groups[i].count;
		groups[i].count = 0;
	}
	for (size_t i = 0; i < most; i++) {
		if (of_vessel[i] != SIZE_MAX) {
			struct group *group = &groups[of_vessel[i]];
			group->vessels[group->count++] = i;
		}
	}
	run->groups = groups;
}

static bool
read_groups(struct years_run *run, struct fault *fault)
{
	struct context *context = run->context;
	const struct inventory *inventory = &context->desk.contents.inventory;
	const char *base = options_value(context->given, "base");
	size_t most = inventory->vessel_count;
	struct group *groups =
	    arena_alloc(&context->desk.arena, (most + 1) * sizeof *groups);
	size_t *of_vessel =
	    arena_alloc(&context->desk.arena, (most + 1) * sizeof *of_vessel);
	for (size_t i = 0; i < most; i++) {
		bool there =
		    (base == NULL || strcmp(inventory->vessels[i].base, base) == 0) &&
		    vessel_is_here(&inventory->vessels[i], context->desk.today);
		of_vessel[i] = there ? group_of(run, groups, i) : SIZE_MAX;
		if (there) {
			groups[of_vessel[i]].count++;
		}
	}
	if (base != NULL && run->group_count == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "--base: there is no vessel with the base \"%.80s\"", base);
	}
	fill_groups(run, groups, of_vessel);
	return true;
}

/* The option's words are checked by its table. */
static void
read_grade(struct years_run *run)
{
	const char *word = options_value(run->context->given, "grade");
	for (int grade = GRADE_LAW; grade <= GRADE_PRACTICE && word != NULL; grade++) {
		if (strcmp(grade_word((enum grade)grade), word) == 0) {
			run->least = (enum grade)grade;
		}
	}
}

/* A copy of all items, for the plans to be made with. */
static void
copy_items(struct years_run *run)
{
	const struct inventory *inventory = &run->context->desk.contents.inventory;
	size_t size = inventory->item_count * sizeof *run->copy;
	run->copy = arena_alloc(&run->context->desk.arena, size + 1);
	if (size > 0) {
		memcpy(run->copy, inventory->items, size);
	}
}

bool
years_read(struct years_run *run, struct fault *fault)
{
	struct context *context = run->context;
	const char *tag = options_value(context->given, "renew-now");
	run->renew_now = NO_ITEM;
	if (tag != NULL && !desk_find_tag(&context->desk, tag, &run->renew_now, fault)) {
		return fault_prefix(fault, "--renew-now");
	}
	if (tag != NULL && context->desk.contents.inventory.items[run->renew_now].state ==
			       PLACE_WITHDRAWN) {
		return fault_set(fault, FAULT_INPUT, "--renew-now: %s is withdrawn", tag);
	}
	read_grade(run);
	if (!read_prices(run, fault) || !read_shunned(run, fault) ||
	    !value_number(context->given, "skip-winter", (struct range){1901, 2190},
		&run->skip_year, NULL, fault) ||
	    !suppose(run, fault) || !read_groups(run, fault)) {
		return false;
	}
	copy_items(run);
	return true;
}

/* What is asked for one group, as the book has it. */
static struct outlook_ask
ask_for(const struct years_run *run, const struct group *group)
{
	const struct desk *desk = &run->context->desk;
	return (struct outlook_ask){
	    .engine = &desk->engine,
	    .copy = run->copy,
	    .stations = desk->contents.stations,
	    .station_count = desk->contents.station_count,
	    .today = desk->today,
	    .winters = run->winters,
	    .vessels = group->vessels,
	    .vessel_count = group->count,
	    .least = run->least,
	    .renew_now = NO_ITEM,
	    .most_looks = YEARS_LOOKS,
	};
}

bool
years_plan(const struct years_run *run, bool changed, struct outlook_view *out,
    struct fault *fault)
{
	struct context *context = run->context;
	struct named_outlook *plans =
	    arena_alloc(&context->desk.arena, (run->group_count + 1) * sizeof *plans);
	for (size_t i = 0; i < run->group_count; i++) {
		struct outlook_ask ask = ask_for(run, &run->groups[i]);
		if (changed) {
			ask.engine = &run->supposed;
			ask.shunned = run->shunned;
			ask.prices = run->prices;
			ask.price_count = run->price_count;
			ask.skip_year = run->skip_year;
			ask.renew_now = run->renew_now;
		}
		plans[i] = (struct named_outlook){.name = run->groups[i].name};
		if (!outlook_make(&ask, &context->desk.arena, &plans[i].plan, fault)) {
			return fault_prefix(fault, "the years of %s", plans[i].name);
		}
	}
	*out = (struct outlook_view){.inventory = &context->desk.contents.inventory,
	    .stations = context->desk.contents.stations,
	    .station_count = context->desk.contents.station_count,
	    .currency = context->desk.contents.inventory.currency,
	    .plans = plans,
	    .count = run->group_count};
	return true;
}

bool
years_add_asides(
    const struct years_run *run, struct outlook_view *view, struct fault *fault)
{
	struct context *context = run->context;
	struct arena *arena = &context->desk.arena;
	struct shore_list *lists = NULL;
	size_t count = 0;
	if (view->count != 1 || run->groups[0].count != 1) {
		return true;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	const struct outlook_ask ask = ask_for(run, &run->groups[0]);
	const struct plans_wish wish = {
	    .vessel = inventory->vessels[run->groups[0].vessels[0]].name};
	struct named_outlook *named = arena_alloc(arena, sizeof *named);
	*named = view->plans[0];
	if (!outlook_tips_find(&ask, arena, &named->tips, fault) ||
	    !plans_make(&context->desk, &wish, &lists, &count, fault)) {
		return false;
	}
	if (count == 1) {
		outlook_clashes_find(
		    inventory, &named->plan, &lists[0], arena, &named->clashes);
	}
	view->plans = named;
	return true;
}
