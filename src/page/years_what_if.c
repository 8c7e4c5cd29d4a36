/* Coming years: an alternative compared with the plan. */
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

/* A choice in the form below; its first option is `none`. */
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
	markup_ends(visit->markup, 2);
}

/* The gear that the plan sends to stations, which could be bought new instead. */
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
	SHELL_FIELD(visit, .name = "let", .label = "Let from a day on",
	    .value = page_value(visit, "let"), .wrong = leaf->wrong);
	markup_end(markup);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, true, NULL, NULL, "Set it beside the plan");
	markup_ends(markup, 2);
}

/* The sums of both plans, winter by winter. */
static void
write_sums(const struct years_leaf *leaf, const struct outlook *changed)
{
	static const char *const COLUMNS[] = {"Winter", "As it is", "So", "Difference"};
	static const struct shell_table TABLE = {.label = "Two plans side by side",
	    .class_name = "money",
	    .columns = COLUMNS,
	    .count = 4,
	    .figures = 3};
	int64_t all[3] = {
	    leaf->plan->minor, changed->minor, changed->minor - leaf->plan->minor};
	shell_table(leaf->visit, &TABLE);
	markup_begin(leaf->visit->markup, "tbody");
	for (size_t i = 0; i < leaf->plan->winters && i < changed->winters; i++) {
		int64_t was = outlook_minor_of(leaf->plan, i);
		int64_t is = outlook_minor_of(changed, i);
		SCOPED_TEXT year = {0};
		text_add_format(&year, "%d", leaf->plan->first_year + (int)i);
		years_sums(
		    leaf, text_string(&year), (int64_t[]){was, is, is - was}, 3, true);
	}
	years_end_sums(leaf, all, 3, true);
}

static void
write_beside(const struct years_leaf *leaf)
{
	struct markup *markup = leaf->visit->markup;
	const struct outlook *changed = &leaf->answer.view.plans[0].plan;
	int64_t more = changed->minor - leaf->plan->minor;
	SCOPED_TEXT head = {0};
	bool priceless = years_priceless(leaf) && changed->minor == 0;
	if (priceless) {
		text_add(&head, "What it costs can't be told");
	} else if (more == 0) {
		text_add(&head, "It costs the same");
	} else {
		text_add_format(
		    &head, "%s ", leaf->visit->desk.contents.inventory.currency);
		years_money(leaf, more < 0 ? -more : more, &head);
		text_add(&head, more > 0 ? " more" : " less");
	}
	MARKUP_BEGIN(markup, "div", "beside", "id", "else");
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
	if (!priceless) {
		write_sums(leaf, changed);
	}
	markup_end(markup);
}

void
years_what_if(const struct years_leaf *leaf)
{
	shell_section(leaf->visit, "what if", NULL, "Try something else");
	write_form(leaf);
	if (leaf->other) {
		write_beside(leaf);
	}
	markup_ends(leaf->visit->markup, 2);
}

/* What was chosen in the form; NULL for nothing. */
static const char *
chosen(struct visit *visit, const char *name)
{
	const char *value = page_value(visit, name);
	return value[0] == '\0' || strcmp(value, "-") == 0 ? NULL : value;
}

void
years_read_other(struct years_leaf *leaf)
{
	struct visit *visit = leaf->visit;
	struct fault fault = {0};
	const char *skip = chosen(visit, "skip");
	const char *without = chosen(visit, "without");
	const char *let = chosen(visit, "let");
	leaf->asked.renew_now = chosen(visit, "renew");
	leaf->asked.skip_year = skip == NULL ? 0 : (int)strtol(skip, NULL, 10);
	if (without != NULL) {
		ARENA_ADD(&visit->arena, &leaf->asked.without_stations, without);
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
