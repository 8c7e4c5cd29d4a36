/* Coming years: what each winter asks and the least that it costs, and what an
 * alternative would. */
#include "desk/questions.h"
#include "page/draw.h"
#include "page/planning.h"
#include "page/shell.h"

#include <string.h>

/* Adds the answer: what it costs, whether less is possible, what is not known. */
static void
add_answer(const struct years_leaf *leaf, struct text *out)
{
	const struct outlook *plan = leaf->plan;
	const char *currency = leaf->visit->desk.contents.inventory.currency;
	bool priceless = years_priceless(leaf);
	if (plan->gap_count == 0) {
		text_add(out, "Nothing lapses in a season");
	} else {
		text_add_format(out, "%zu %s in a season whatever is done%s",
		    plan->gap_count,
		    plan->gap_count == 1 ? "thing lapses" : "things lapse",
		    priceless ? "" : "; all else");
	}
	if (!priceless) {
		text_add_format(out, " for %s ", currency);
		years_money(leaf, plan->minor, out);
	}
	text_add_format(out, " over %zu %s.", plan->winters,
	    plan->all_year       ? "years"
	    : plan->winters == 1 ? "winter"
				 : "winters");
	if (priceless) {
		text_add(out,
		    " Of none of it a price is known, so what it costs can't be told.");
		return;
	}
	if (plan->proven) {
		text_add(out, " No plan costs less, for the prices known.");
	} else {
		text_add_format(out, " No plan costs less than %s ", currency);
		years_money(leaf, plan->bound, out);
		text_add(out,
		    ", for the prices known; that this one costs least is not proven.");
	}
	if (plan->unpriced > 0) {
		text_add_format(out,
		    " Of %zu line%s no price is known: they count as nothing.",
		    plan->unpriced, plan->unpriced == 1 ? "" : "s");
	}
	if (plan->supposed > 0) {
		text_add_format(out,
		    " %zu line%s counted at the highest price known for the same work.",
		    plan->supposed, plan->supposed == 1 ? " is" : "s are");
	}
}

/* The choice of the boat, when there are several. */
static void
write_boats(const struct years_leaf *leaf)
{
	struct visit *visit = leaf->visit;
	struct markup *markup = visit->markup;
	if (leaf->boats.count < 2) {
		return;
	}
	shell_entry(visit);
	shell_asking_form(visit, "/years");
	markup_begin_class(markup, "div", "acts");
	shell_choice(visit, "boat", "Boat");
	for (size_t i = 0; i < leaf->boats.count; i++) {
		const char *name = leaf->boats.items[i];
		shell_option(visit, name, name, strcmp(name, leaf->boat) == 0);
	}
	markup_ends(markup, 2);
	shell_button(visit, false, NULL, NULL, "Look at her years");
	markup_ends(markup, 4);
}

static void
write_page(const struct years_leaf *leaf)
{
	struct visit *visit = leaf->visit;
	SCOPED_TEXT say = {0};
	SCOPED_TEXT winters = {0};
	SCOPED_TEXT span = {0};
	const struct outlook *plan = leaf->plan;
	add_answer(leaf, &say);
	text_add_format(
	    &winters, "%zu %s", plan->winters, plan->all_year ? "years" : "winters");
	text_add_format(&span, "%d to %d", plan->first_year,
	    plan->first_year + (int)plan->winters - 1);
	const struct head_box boxes[] = {{"Boat", leaf->boat},
	    {plan->all_year ? "Years" : "Winters", text_string(&span)}};
	SHELL_OPEN(visit, .title = "Coming years", .about = leaf->boat,
	    .margin = text_string(&winters), .under = text_string(&span),
	    .say = text_string(&say), .boxes = boxes, .box_count = 2);
	draw_defs(visit->markup);
	write_boats(leaf);
	if (!years_priceless(leaf)) {
		years_bars(leaf);
	}
	years_winters(leaf);
	if (!years_priceless(leaf)) {
		years_table(leaf);
	}
	years_what_if(leaf);
	shell_close(visit);
}

/* The boat asked for, or the first that is no store; "" when there is none. */
static const char *
boat_of(struct visit *visit)
{
	const struct inventory *inventory = &visit->desk.contents.inventory;
	const char *asked = page_value(visit, "boat");
	for (size_t i = 0; i < inventory->vessel_count && asked[0] == '\0'; i++) {
		if (!inventory->vessels[i].store) {
			asked = inventory->vessels[i].name;
		}
	}
	return arena_string(&visit->arena, asked);
}

/* The boats, listed while the whole book is loaded: the plan then loads only one. */
static void
note_boats(struct years_leaf *leaf)
{
	const struct inventory *inventory = &leaf->visit->desk.contents.inventory;
	struct word_list *boats = &leaf->boats;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (!inventory->vessels[i].store) {
			ARENA_ADD(&leaf->visit->arena, boats,
			    arena_string(
				&leaf->visit->arena, inventory->vessels[i].name));
		}
	}
}

bool
page_coming_years(struct visit *visit, struct fault *fault)
{
	struct years_leaf leaf = {.visit = visit};
	visit->desk.left_gear = LEFT_NONE;
	if (!desk_engine(&visit->desk, NULL, fault)) {
		return false;
	}
	leaf.boat = boat_of(visit);
	if (leaf.boat[0] == '\0') {
		shell_words(visit, 200, "Coming years", "No boat is in the book yet.");
		return true;
	}
	note_boats(&leaf);
	leaf.asked = (struct years_asked){
	    .vessel = leaf.boat, .winters = YEARS_WINTERS, .least = GRADE_PRACTICE};
	years_read_other(&leaf);
	if (!desk_years(&visit->desk, &leaf.asked, &leaf.answer, fault)) {
		return false;
	}
	leaf.plan = leaf.other ? &leaf.answer.as_is.plans[0].plan
			       : &leaf.answer.view.plans[0].plan;
	write_page(&leaf);
	return true;
}
