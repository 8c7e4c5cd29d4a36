/* Coming years: what each winter asks and costs at the least, and what something else would. */
#include "desk/questions.h"
#include "gear/money.h"
#include "page/draw.h"
#include "page/routes.h"
#include "page/shell.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

/* A sum stands by itself where it is this part of the largest, at the least. */
enum { SINGLY = 40 };

/* The page of one boat. */
struct years_leaf {
	struct visit *visit;
	const char *boat;
	struct years_asked asked;
	struct supposition use;
	struct years_answer answer;
	const struct outlook *plan; /* as the book has it */
	bool other;                 /* something else is tried beside it */
	const char *wrong;          /* the day that can't be read; NULL for none */
	struct word_list boats;     /* all there are */
};

static void
add_money(const struct years_leaf *leaf, int64_t minor, struct text *out)
{
	money_add(minor, leaf->visit->desk.contents.inventory.currency, out);
}

/* What a winter costs in whole units of the currency. */
static void
add_whole_money(const struct years_leaf *leaf, int64_t minor, struct text *out)
{
	const char *currency = leaf->visit->desk.contents.inventory.currency;
	int64_t unit = 1;
	for (int i = money_decimals(currency); i > 0; i--) {
		unit *= 10;
	}
	text_add_format(out, "%lld", (long long)((minor + unit / 2) / unit));
}

static int64_t
sum_of(const struct outlook *plan, size_t winter)
{
	struct outlook_sum sum = outlook_sum_of(plan, winter);
	return sum.trips + sum.work + sum.new_gear;
}

/* Adds the answer: what it costs, whether less could do, what is not known. */
static void
add_answer(const struct years_leaf *leaf, struct text *out)
{
	const struct outlook *plan = leaf->plan;
	const char *currency = leaf->visit->desk.contents.inventory.currency;
	if (plan->gap_count == 0) {
		text_add(out, "Nothing lapses in a season for ");
	} else {
		text_add_format(out, "%zu %s in a season whatever is done; all else for ",
		    plan->gap_count,
		    plan->gap_count == 1 ? "thing lapses" : "things lapse");
	}
	text_add_format(out, "%s ", currency);
	add_money(leaf, plan->minor, out);
	text_add_format(out, " over %zu %s.", plan->winters,
	    plan->all_year       ? "years"
	    : plan->winters == 1 ? "winter"
				 : "winters");
	if (plan->proven) {
		text_add(out, " No plan costs less, for the prices known.");
	} else {
		text_add_format(out, " No plan costs less than %s ", currency);
		add_money(leaf, plan->bound, out);
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

static void
write_bars(const struct years_leaf *leaf)
{
	struct markup *markup = leaf->visit->markup;
	const struct outlook *plan = leaf->plan;
	struct money_bar bars[OUTLOOK_WINTERS_MOST];
	for (size_t i = 0; i < plan->winters; i++) {
		struct outlook_sum sum = outlook_sum_of(plan, i);
		SCOPED_TEXT words = {0};
		add_whole_money(leaf, sum_of(plan, i), &words);
		bars[i] = (struct money_bar){plan->first_year + (int)i, sum.new_gear,
		    sum.work, sum.trips,
		    arena_string(&leaf->visit->arena, text_string(&words))};
	}
	markup_begin_class(markup, "div", "entry");
	markup_begin_class(markup, "div", "m");
	markup_text(markup, leaf->visit->desk.contents.inventory.currency);
	markup_end(markup);
	markup_begin_class(markup, "figure", "t");
	draw_money(markup, bars, plan->winters,
	    "Money by winter; the table below says the same in figures");
	markup_end(markup);
	markup_end(markup);
}

static const struct item *
item_of(const struct years_leaf *leaf, const struct outlook_line *line)
{
	return &leaf->visit->desk.contents.inventory.items[line->item];
}

/* The largest price of a line in the plan. */
static int64_t
largest(const struct outlook *plan)
{
	int64_t most = 0;
	for (size_t i = 0; i < plan->line_count; i++) {
		most = plan->lines[i].minor > most ? plan->lines[i].minor : most;
	}
	return most;
}

static void
add_tag(struct markup *markup, const char *between, const char *tag)
{
	markup_text(markup, between);
	markup_element(markup, "span", "nb", tag);
}

/* Lines of a winter's renewals: those with a sum of their own, those that cost little beside it, those
 * without a known price. */
enum weight { LARGE, SMALL, NO_PRICE };

static enum weight
weight_of(const struct outlook_line *line, int64_t most)
{
	return line->minor < 0 ? NO_PRICE : line->minor * SINGLY < most ? SMALL : LARGE;
}

static bool
is_renewal(
    const struct outlook_line *line, size_t winter, enum weight weight, int64_t most)
{
	return line->winter == winter && line->task == TASK_RENEW &&
	       weight_of(line, most) == weight;
}

/* The renewals of one weight together: "4 small things for 92 in all: FL-2, GR-1, ...". */
static void
write_together(
    const struct years_leaf *leaf, size_t winter, enum weight weight, const char *between)
{
	struct markup *markup = leaf->visit->markup;
	const struct outlook *plan = leaf->plan;
	int64_t most = largest(plan);
	int64_t sum = 0;
	size_t count = 0;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < plan->line_count; i++) {
		bool one = is_renewal(&plan->lines[i], winter, weight, most);
		sum += one ? plan->lines[i].minor : 0;
		count += one;
	}
	text_add_format(&words, "%s%zu ", between, count);
	if (weight == NO_PRICE) {
		text_add(&words, "without a known price: ");
	} else {
		text_add_format(&words, "small thing%s for ", count == 1 ? "" : "s");
		add_whole_money(leaf, sum, &words);
		text_add(&words, count == 1 ? ": " : " in all: ");
	}
	const char *next = text_string(&words);
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		if (is_renewal(line, winter, weight, most)) {
			add_tag(markup, next, item_of(leaf, line)->tag);
			next = ", ";
		}
	}
}

static void
write_singly(
    const struct years_leaf *leaf, const struct outlook_line *line, const char *between)
{
	struct markup *markup = leaf->visit->markup;
	SCOPED_TEXT words = {0};
	SCOPED_TEXT money = {0};
	text_add_format(&words, "%s%s ", between,
	    kind_name(leaf->visit->desk.engine.kinds, item_of(leaf, line)->kind));
	add_tag(markup, text_string(&words), item_of(leaf, line)->tag);
	text_add_byte(&money, ' ');
	add_whole_money(leaf, line->minor, &money);
	markup_element(markup, "b", NULL, text_string(&money));
}

/* What is renewed in a winter: large sums by name, small ones together, and what has no price. */
static void
write_renewals(const struct years_leaf *leaf, size_t winter)
{
	const struct outlook *plan = leaf->plan;
	int64_t most = largest(plan);
	const char *between = "renew: ";
	markup_begin(leaf->visit->markup, "p");
	for (enum weight weight = LARGE; weight <= NO_PRICE; weight++) {
		for (size_t i = 0; i < plan->line_count; i++) {
			if (!is_renewal(&plan->lines[i], winter, weight, most)) {
				continue;
			}
			if (weight != LARGE) {
				write_together(leaf, winter, weight, between);
				between = "; ";
				break;
			}
			write_singly(leaf, &plan->lines[i], between);
			between = "; ";
		}
	}
	markup_end(leaf->visit->markup);
}

/* What goes to stations in a winter, each tag once. */
static void
write_station_work(const struct years_leaf *leaf, size_t winter)
{
	struct markup *markup = leaf->visit->markup;
	const struct outlook *plan = leaf->plan;
	const char *between = "to stations: ";
	size_t last = NO_ITEM;
	markup_begin(markup, "p");
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		if (line->winter == winter && line->doer == DOER_STATION &&
		    line->task != TASK_RENEW && line->item != last) {
			add_tag(markup, between, item_of(leaf, line)->tag);
			between = ", ";
			last = line->item;
		}
	}
	markup_end(markup);
}

static void
write_winter(const struct years_leaf *leaf, size_t winter)
{
	struct markup *markup = leaf->visit->markup;
	SCOPED_TEXT sum = {0};
	text_add_format(&sum, "%s ", leaf->visit->desk.contents.inventory.currency);
	add_money(leaf, sum_of(leaf->plan, winter), &sum);
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_begin(markup, "b");
	markup_text_format(markup, "%s %d", leaf->plan->all_year ? "year" : "winter",
	    leaf->plan->first_year + (int)winter);
	markup_end(markup);
	markup_begin(markup, "br");
	markup_end(markup);
	markup_text(markup, text_string(&sum));
	markup_end(markup);
	markup_begin_class(markup, "div", "w yr");
	write_renewals(leaf, winter);
	write_station_work(leaf, winter);
	markup_end(markup);
	markup_end(markup);
}

static void
write_winters(const struct years_leaf *leaf)
{
	shell_section(leaf->visit, NULL, "by name", "What each winter asks");
	markup_end(leaf->visit->markup);
	markup_begin_class(leaf->visit->markup, "ul", "rows");
	for (size_t i = 0; i < leaf->plan->winters; i++) {
		write_winter(leaf, i);
	}
	markup_end(leaf->visit->markup);
	markup_end(leaf->visit->markup);
}

/* A row of a table of money: its head, then a cell for each sum. */
static void
write_sums(const struct years_leaf *leaf, const char *head, const int64_t *sums,
    size_t count, bool signed_last)
{
	struct markup *markup = leaf->visit->markup;
	markup_begin(markup, "tr");
	markup_begin(markup, "th");
	markup_attribute(markup, "scope", "row");
	markup_text(markup, head);
	markup_end(markup);
	for (size_t i = 0; i < count; i++) {
		SCOPED_TEXT words = {0};
		bool sign = signed_last && i + 1 == count;
		text_add(&words, !sign || sums[i] == 0 ? ""
				 : sums[i] > 0         ? "+"
						       : "\u2212");
		add_money(leaf, sums[i] < 0 ? -sums[i] : sums[i], &words);
		markup_element(markup, "td", "num", text_string(&words));
	}
	markup_end(markup);
}

/* The row of all winters, and the end of the table. */
static void
end_money_table(
    const struct years_leaf *leaf, const int64_t *sums, size_t count, bool signed_last)
{
	struct markup *markup = leaf->visit->markup;
	markup_end(markup);
	markup_begin(markup, "tfoot");
	write_sums(leaf, "all", sums, count, signed_last);
	markup_end(markup);
	markup_end(markup);
	markup_end(markup);
}

static void
write_table(const struct years_leaf *leaf)
{
	static const char *const COLUMNS[] = {
	    "Winter", "Trips", "Stations", "New gear", "Together"};
	static const struct shell_table TABLE = {.label = "Money by winter",
	    .class_name = "money",
	    .columns = COLUMNS,
	    .count = 5,
	    .figures = 4};
	int64_t all[4] = {0};
	SCOPED_TEXT margin = {0};
	text_add_format(&margin, "in %s", leaf->visit->desk.contents.inventory.currency);
	shell_section(leaf->visit, NULL, text_string(&margin), "Money by winter");
	shell_table(leaf->visit, &TABLE);
	markup_begin(leaf->visit->markup, "tbody");
	for (size_t i = 0; i < leaf->plan->winters; i++) {
		struct outlook_sum sum = outlook_sum_of(leaf->plan, i);
		const int64_t sums[] = {
		    sum.trips, sum.work, sum.new_gear, sum_of(leaf->plan, i)};
		SCOPED_TEXT year = {0};
		for (size_t j = 0; j < 4; j++) {
			all[j] += sums[j];
		}
		text_add_format(&year, "%d", leaf->plan->first_year + (int)i);
		write_sums(leaf, text_string(&year), sums, 4, false);
	}
	end_money_table(leaf, all, 4, false);
	markup_end(leaf->visit->markup);
	markup_end(leaf->visit->markup);
}

/* A choice of the form below; `none` is the first. */
static void
begin_choice(struct visit *visit, const char *name, const char *label, const char *none)
{
	shell_choice(visit, name, label);
	shell_option(visit, "-", none, false);
}

static void
add_choice(struct visit *visit, const char *name, const char *value, const char *words)
{
	shell_option(visit, value, words, strcmp(page_value(visit, name), value) == 0);
}

static void
end_choice(struct visit *visit)
{
	markup_end(visit->markup);
	markup_end(visit->markup);
}

/* The things of the plan that go to stations: what could be bought new instead. */
static void
choose_renewal(const struct years_leaf *leaf)
{
	struct visit *visit = leaf->visit;
	const struct inventory *inventory = &visit->desk.contents.inventory;
	begin_choice(visit, "renew", "Renew now", "nothing");
	for (size_t i = 0; i < inventory->item_count; i++) {
		bool there = false;
		for (size_t j = 0; j < leaf->plan->line_count && !there; j++) {
			const struct outlook_line *line = &leaf->plan->lines[j];
			there = line->item == i && line->doer == DOER_STATION;
		}
		if (there) {
			SCOPED_TEXT words = {0};
			text_add_format(&words, "%s, ", inventory->items[i].tag);
			add_item_name(visit->desk.engine.kinds, inventory, i, &words);
			add_choice(
			    visit, "renew", inventory->items[i].tag, text_string(&words));
		}
	}
	end_choice(visit);
}

static void
write_form(const struct years_leaf *leaf)
{
	struct visit *visit = leaf->visit;
	struct markup *markup = visit->markup;
	const struct book_contents *contents = &visit->desk.contents;
	shell_asking_form(visit, "/years");
	shell_hidden(visit, "boat", leaf->boat);
	markup_begin_class(markup, "div", "fields");
	choose_renewal(leaf);
	begin_choice(visit, "skip", "Skip a winter", "none");
	for (size_t i = 0; i < leaf->plan->winters; i++) {
		SCOPED_TEXT year = {0};
		text_add_format(&year, "%d", leaf->plan->first_year + (int)i);
		add_choice(visit, "skip", text_string(&year), text_string(&year));
	}
	end_choice(visit);
	begin_choice(visit, "without", "Without a station", "none");
	for (size_t i = 0; i < contents->station_count; i++) {
		const char *name = contents->stations[i].name;
		add_choice(visit, "without", name, name);
	}
	end_choice(visit);
	const struct shell_field let = {.name = "let",
	    .label = "Let from a day on",
	    .value = page_value(visit, "let"),
	    .wrong = leaf->wrong};
	shell_field(visit, &let);
	markup_end(markup);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, true, NULL, NULL, "Set it beside the plan");
	markup_end(markup);
	markup_end(markup);
}

static void
write_beside(const struct years_leaf *leaf)
{
	static const char *const COLUMNS[] = {"Winter", "As it is", "So", "Difference"};
	static const struct shell_table TABLE = {.label = "Two plans side by side",
	    .class_name = "money",
	    .columns = COLUMNS,
	    .count = 4,
	    .figures = 3};
	struct markup *markup = leaf->visit->markup;
	const struct outlook *changed = &leaf->answer.view.plans[0].plan;
	int64_t more = changed->minor - leaf->plan->minor;
	int64_t all[3] = {leaf->plan->minor, changed->minor, more};
	SCOPED_TEXT head = {0};
	if (more == 0) {
		text_add(&head, "It costs the same");
	} else {
		text_add_format(
		    &head, "%s ", leaf->visit->desk.contents.inventory.currency);
		add_money(leaf, more < 0 ? -more : more, &head);
		text_add(&head, more > 0 ? " more" : " less");
	}
	markup_begin_class(markup, "div", "beside");
	markup_attribute(markup, "id", "else");
	markup_element(markup, "h3", NULL, text_string(&head));
	markup_begin(markup, "p");
	markup_text_format(markup, "%zu trip%s to stations instead of %zu. ",
	    changed->trip_count, changed->trip_count == 1 ? "" : "s",
	    leaf->plan->trip_count);
	if (changed->gap_count == 0) {
		markup_text(markup, "Nothing lapses in a season. ");
	} else {
		markup_text_format(markup, "%zu %s in a season. ", changed->gap_count,
		    changed->gap_count == 1 ? "thing lapses" : "things lapse");
	}
	markup_text(markup, "Nothing is changed in your book.");
	markup_end(markup);
	shell_table(leaf->visit, &TABLE);
	markup_begin(leaf->visit->markup, "tbody");
	for (size_t i = 0; i < leaf->plan->winters && i < changed->winters; i++) {
		int64_t was = sum_of(leaf->plan, i);
		int64_t is = sum_of(changed, i);
		SCOPED_TEXT year = {0};
		text_add_format(&year, "%d", leaf->plan->first_year + (int)i);
		write_sums(
		    leaf, text_string(&year), (int64_t[]){was, is, is - was}, 3, true);
	}
	end_money_table(leaf, all, 3, true);
	markup_end(markup);
}

static void
write_what_if(const struct years_leaf *leaf)
{
	shell_section(leaf->visit, "what if", NULL, "Try something else");
	write_form(leaf);
	if (leaf->other) {
		write_beside(leaf);
	}
	markup_end(leaf->visit->markup);
	markup_end(leaf->visit->markup);
}

/* Whose years are looked at, of several boats. */
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
	markup_end(markup);
	markup_end(markup);
	shell_button(visit, false, NULL, NULL, "Look at her years");
	markup_end(markup);
	markup_end(markup);
	markup_end(markup);
	markup_end(markup);
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
	const struct shell shell = {.title = "Coming years",
	    .about = leaf->boat,
	    .margin = text_string(&winters),
	    .under = text_string(&span),
	    .say = text_string(&say),
	    .boxes = boxes,
	    .box_count = 2};
	shell_open(visit, &shell);
	draw_defs(visit->markup);
	write_boats(leaf);
	write_bars(leaf);
	write_winters(leaf);
	write_table(leaf);
	write_what_if(leaf);
	shell_close(visit);
}

/* What was chosen in the form; NULL for nothing. */
static const char *
chosen(struct visit *visit, const char *name)
{
	const char *value = page_value(visit, name);
	return value[0] == '\0' || strcmp(value, "-") == 0 ? NULL : value;
}

/* Reads what is to be tried. */
static void
read_other(struct years_leaf *leaf)
{
	struct visit *visit = leaf->visit;
	struct fault fault = {0};
	const char *skip = chosen(visit, "skip");
	const char *without = chosen(visit, "without");
	const char *let = chosen(visit, "let");
	leaf->asked.renew_now = chosen(visit, "renew");
	leaf->asked.skip_year = skip == NULL ? 0 : (int)strtol(skip, NULL, 10);
	if (without != NULL) {
		struct word_list *list = &leaf->asked.without_stations;
		ARENA_ROOM(&visit->arena, list);
		list->items[list->count++] = without;
	}
	if (let != NULL) {
		leaf->use = (struct supposition){
		    .says = SAYS_USE, .use = USE_COMMERCIAL, .area = ""};
		if (day_typed(let, visit->desk.today, &leaf->use.from, &fault)) {
			leaf->asked.use = &leaf->use;
		} else {
			SCOPED_TEXT words = {0};
			page_words(fault.text, &words);
			leaf->wrong = arena_string(&visit->arena, text_string(&words));
		}
	}
	leaf->other = leaf->asked.renew_now != NULL || leaf->asked.skip_year != 0 ||
		      without != NULL || leaf->asked.use != NULL;
	leaf->asked.compare = leaf->other;
}

/* The boat asked for, or the first that is no store; "" where there is none. */
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

/* The boats there are, while the whole book is loaded: the plan loads one alone. */
static void
note_boats(struct years_leaf *leaf)
{
	const struct inventory *inventory = &leaf->visit->desk.contents.inventory;
	struct word_list *boats = &leaf->boats;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (!inventory->vessels[i].store) {
			ARENA_ROOM(&leaf->visit->arena, boats);
			boats->items[boats->count++] =
			    arena_string(&leaf->visit->arena, inventory->vessels[i].name);
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
	read_other(&leaf);
	if (!desk_years(&visit->desk, &leaf.asked, &leaf.answer, fault)) {
		return false;
	}
	leaf.plan = leaf.other ? &leaf.answer.as_is.plans[0].plan
			       : &leaf.answer.view.plans[0].plan;
	write_page(&leaf);
	return true;
}
