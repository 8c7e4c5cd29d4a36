/* Which base of a fleet a page is about. */
#include "page/planning.h"
#include "page/shell.h"

#include <stdlib.h>
#include <string.h>

/* With more boats than this a page looks at them base by base: no screen has room for so many, and
 * reckoning them takes longer than a person waits. */
enum { BOATS_AT_ONCE = 200 };

/* What is sent for all bases. */
static const char ALL_BASES[] = "all";
/* What is sent for boats without a base, before the number of the first of them. */
static const char NO_BASE[] = "none-";

/* Looks at the boats without a base from one on, counted from 1; the first ones for any other
 * word. */
static void
choose_baseless(struct visit *visit, const char *asked, struct base_choice *out)
{
	struct arena *arena = &visit->arena;
	size_t count = out->baseless.count;
	bool named = strncmp(asked, NO_BASE, strlen(NO_BASE)) == 0;
	size_t first = named ? strtoul(asked + strlen(NO_BASE), NULL, 10) : 1;
	first = first == 0 || first > count ? 1 : first;
	size_t rest = count - (first - 1);
	struct word_list *boats = arena_alloc(arena, sizeof *boats);
	*boats = (struct word_list){.items = out->baseless.items + first - 1,
	    .count = rest < BOATS_AT_ONCE ? rest : BOATS_AT_ONCE};
	out->boats = boats;
	out->sent = arena_format(arena, "%s%zu", NO_BASE, first);
}

bool
base_choice_read(struct visit *visit, struct base_choice *out, struct fault *fault)
{
	struct desk *desk = &visit->desk;
	struct word_list boats = {0};
	const char *asked = page_value(visit, "base");
	*out = (struct base_choice){.sent = ""};
	if (!desk_book(desk, fault) ||
	    !book_names(desk->book, BOOK_BERTHS, &desk->arena, &out->berths, fault) ||
	    !book_names(desk->book, BOOK_VESSELS, &desk->arena, &boats, fault)) {
		return false;
	}
	out->large = boats.count > BOATS_AT_ONCE;
	if (out->large &&
	    !book_names(desk->book, BOOK_BASELESS, &desk->arena, &out->baseless, fault)) {
		return false;
	}
	for (size_t i = 0; i < out->berths.count; i++) {
		if (strcmp(out->berths.items[i], asked) == 0) {
			out->base = out->berths.items[i];
		}
	}
	bool without =
	    strncmp(asked, NO_BASE, strlen(NO_BASE)) == 0 || out->berths.count == 0;
	if (out->base == NULL && out->baseless.count > 0 && without) {
		choose_baseless(visit, asked, out);
	} else if (out->base == NULL && out->large && out->berths.count > 0) {
		out->base = out->berths.items[0];
	}
	out->sent = out->base != NULL ? out->base : out->sent;
	return true;
}

/* True when there is a choice. */
static bool
any_choice(const struct base_choice *choice)
{
	return choice->berths.count + (choice->baseless.count > 0 ? 1 : 0) > 1 ||
	       choice->baseless.count > BOATS_AT_ONCE;
}

bool
base_choice_has(const struct base_choice *choice, const char *vessel, const char *base)
{
	if (choice->boats != NULL) {
		return base[0] == '\0' &&
		       words_have(choice->boats->items, choice->boats->count, vessel);
	}
	return choice->base == NULL || strcmp(base, choice->base) == 0;
}

struct plans_wish
base_choice_wish(const struct base_choice *choice)
{
	return (struct plans_wish){.base = choice->base,
	    .offered = choice->base != NULL,
	    .boats = choice->boats};
}

/* "no base: 201 to 400 of 1000". */
static void
write_baseless(struct visit *visit, const struct base_choice *choice)
{
	SCOPED_TEXT value = {0};
	SCOPED_TEXT words = {0};
	size_t count = choice->baseless.count;
	for (size_t first = 1; first <= count; first += BOATS_AT_ONCE) {
		size_t rest = count - (first - 1);
		size_t last = rest < BOATS_AT_ONCE ? count : first + BOATS_AT_ONCE - 1;
		text_reset(&value);
		text_reset(&words);
		text_add_format(&value, "%s%zu", NO_BASE, first);
		text_add_format(&words, "no base: %zu to %zu of %zu", first, last, count);
		shell_option(visit, text_string(&value), text_string(&words),
		    strcmp(choice->sent, text_string(&value)) == 0);
	}
}

void
base_choice_write(struct visit *visit, const struct base_choice *choice)
{
	if (!any_choice(choice)) {
		return;
	}
	shell_choice(visit, "base", "Boats of");
	if (!choice->large) {
		shell_option(visit, ALL_BASES, "all bases", choice->base == NULL);
	}
	for (size_t i = 0; i < choice->berths.count; i++) {
		const char *base = choice->berths.items[i];
		shell_option(visit, base, base, strcmp(choice->sent, base) == 0);
	}
	write_baseless(visit, choice);
	markup_ends(visit->markup, 2);
}

void
base_choice_form(struct visit *visit, const struct base_choice *choice, const char *path,
    const char *words)
{
	struct markup *markup = visit->markup;
	if (!any_choice(choice)) {
		return;
	}
	shell_entry(visit);
	shell_asking_form(visit, path);
	markup_begin_class(markup, "div", "acts");
	base_choice_write(visit, choice);
	shell_button(visit, false, NULL, NULL, words);
	markup_ends(markup, 4);
}

void
base_choice_add(const struct base_choice *choice, struct text *out)
{
	if (choice->sent[0] != '\0') {
		text_add(
		    out, strchr(text_string(out), '?') == NULL ? "?base=" : "&base=");
		form_escape(choice->sent, out);
	}
}

void
base_choice_hide(struct visit *visit, const struct base_choice *choice)
{
	if (choice->sent[0] != '\0') {
		shell_hidden(visit, "base", choice->sent);
	}
}

bool
base_choice_told(struct visit *visit, struct base_choice *out, struct fault *fault)
{
	*out = (struct base_choice){.sent = ""};
	return page_value(visit, "base")[0] == '\0' ||
	       base_choice_read(visit, out, fault);
}
