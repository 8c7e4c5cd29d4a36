/* A booking entered: what it asks of the boat is shown first, and written where that is still what was
 * shown. */
#include "desk/bookings.h"
#include "page/page_text.h"
#include "page/routes.h"
#include "page/saturday.h"
#include "page/shell.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

struct booking_form {
	struct visit *visit;
	struct booking_request request;
	const char *wrong; /* the field that can't be as it is; "" for none of them */
	const char *why;   /* what is wrong; NULL for nothing */
	struct text said; /* what saving comes to, a line each; empty: it was not tried */
	struct text notes; /* remarks, a line each */
};

static bool
read_day(struct booking_form *form, const char *name, day_t *out, struct fault *fault)
{
	form->wrong = name;
	return day_typed(
	    page_value(form->visit, name), form->visit->desk.today, out, fault);
}

/* A number of people; 0 where nothing is typed. */
static bool
read_count(struct booking_form *form, const char *name, int *out, struct fault *fault)
{
	const char *typed = page_value(form->visit, name);
	bool digits = strspn(typed, "0123456789") == strlen(typed) && strlen(typed) < 6;
	long number = digits ? strtol(typed, NULL, 10) : -1;
	form->wrong = name;
	if (number < 0 || number > BOOKING_PERSONS_MOST) {
		return fault_set(fault, FAULT_INPUT,
		    "found \"%.40s\", expected how many, in figures", typed);
	}
	*out = (int)number;
	return true;
}

static bool
read_form(struct booking_form *form, struct fault *fault)
{
	struct booking *booking = &form->request.booking;
	form->request.vessel = page_value(form->visit, "vessel");
	form->request.was = DAY_NONE;
	booking->note = page_value(form->visit, "note");
	if (!read_day(form, "from", &booking->days.first, fault) ||
	    !read_day(form, "to", &booking->days.last, fault) ||
	    !read_count(form, "persons", &booking->persons, fault) ||
	    !read_count(form, "children", &booking->children, fault)) {
		return false;
	}
	form->wrong = "";
	return true;
}

/* What the booking asks of the boat, as the muster has it. */
static void
add_verdict(const struct booked *booked, struct text *out)
{
	SCOPED_TEXT short_of = {0};
	add_shortages(&booked->muster, &short_of);
	switch (booked_rank(booked)) {
	case BOOKED_FINE:
		text_add(out, "She may sail on all days of it.\n");
		break;
	case BOOKED_CURED:
		text_add_format(out, "She is short of %s; spares of her base cure it.\n",
		    text_string(&short_of));
		break;
	case BOOKED_SHORT:
		text_add_format(out,
		    "She is short of %s, and no spares there are cure it.\n",
		    text_string(&short_of));
		break;
	case BOOKED_NOT_TOLD:
		text_add_format(out, "Whether she may sail can’t be told: %s.\n",
		    text_string(&short_of));
		break;
	}
}

/* Says what was entered on this desk, and what that asks. */
static bool
add_outcome(struct booking_form *form, struct desk *trial, struct fault *fault)
{
	const struct booking *booking = &form->request.booking;
	const struct bookings_asked asked = {
	    .days = booking->days, .vessel = form->request.vessel};
	struct booked *all = NULL;
	size_t count = 0;
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	text_add_format(&form->said, "%s is let from %s to %s", form->request.vessel,
	    day_words(booking->days.first, first), day_words(booking->days.last, last));
	if (booking->persons > 0) {
		text_add_format(&form->said, ", %d %s", booking->persons,
		    booking->persons == 1 ? "person" : "persons");
	}
	text_add(&form->said, ".\n");
	desk_forget(trial);
	if (!bookings_muster(trial, &asked, &all, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (all[i].booking->days.first == booking->days.first) {
			add_verdict(&all[i], &form->said);
		}
	}
	return true;
}

/* Tries it on a copy of the book. False for a failure of the book alone. */
static bool
try_booking(struct booking_form *form, struct fault *fault)
{
	struct desk trial = {0};
	SCOPED_TEXT words = {0};
	page_try(form->visit, &trial);
	bool done =
	    read_form(form, fault) && bookings_put(&trial, &form->request, 1, fault);
	if (done) {
		text_add(&form->notes, text_string(&trial.notes));
		done = add_outcome(form, &trial, fault);
	}
	desk_clear(&trial);
	if (done || fault->kind == FAULT_BOOK || fault->kind == FAULT_FILE) {
		return done;
	}
	page_words(fault->text, &words);
	form->why = arena_string(&form->visit->arena, text_string(&words));
	*fault = (struct fault){0};
	return true;
}

static void
write_field(const struct booking_form *form, const char *name, const char *label,
    const char *mode)
{
	const struct shell_field field = {.name = name,
	    .label = label,
	    .value = page_value(form->visit, name),
	    .mode = mode,
	    .wrong =
		form->why != NULL && strcmp(form->wrong, name) == 0 ? form->why : NULL};
	shell_field(form->visit, &field);
}

static void
write_fields(const struct booking_form *form)
{
	struct visit *visit = form->visit;
	const struct inventory *inventory = &visit->desk.contents.inventory;
	const char *chosen = page_value(visit, "vessel");
	markup_begin_class(visit->markup, "div", "fields");
	shell_choice(visit, "vessel", "Boat");
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		if (!vessel->store && vessel_is_here(vessel, visit->desk.today)) {
			shell_option(visit, vessel->name, vessel->name,
			    strcmp(vessel->name, chosen) == 0);
		}
	}
	markup_end(visit->markup);
	markup_end(visit->markup);
	write_field(form, "from", "The day they come aboard", NULL);
	write_field(form, "to", "The day they leave", NULL);
	write_field(
	    form, "persons", "How many aboard; as entered if left out", "numeric");
	write_field(form, "children", "How many of them are children", "numeric");
	write_field(form, "note", "Whose it is, or a note", NULL);
	markup_end(visit->markup);
}

static void
write_change_box(const struct booking_form *form)
{
	struct visit *visit = form->visit;
	struct markup *markup = visit->markup;
	char digest[PAGE_DIGEST_SIZE];
	bool can = form->said.length > 0;
	markup_begin_class(markup, "div", "change");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, "What saving changes");
	markup_end(markup);
	if (form->why != NULL) {
		markup_element(markup, "p", "caution", form->why);
	} else if (can) {
		text_lines(markup, text_string(&form->said));
		if (form->notes.length > 0) {
			markup_element(markup, "p", "soft", "Look twice:");
			text_lines(markup, text_string(&form->notes));
		}
		shell_hidden(
		    visit, "seen", page_digest(text_string(&form->said), digest));
	} else {
		markup_element(
		    markup, "p", "soft", "Nothing is written before you have seen it.");
	}
	markup_begin_class(markup, "div", "acts");
	if (can) {
		shell_button(visit, true, "act", "save", "Save: enter the booking");
	}
	shell_button(
	    visit, !can, "act", "look", can ? "Reckon again" : "See what it changes");
	markup_end(markup);
	markup_end(markup);
}

static void
write_page(const struct booking_form *form)
{
	struct visit *visit = form->visit;
	const struct shell shell = {.title = "Enter a booking",
	    .say = form->why != NULL
		       ? "One thing is to be mended before it can be written."
		       : NULL,
	    .status = form->why != NULL ? 400 : 0};
	shell_open(visit, &shell);
	shell_entry(visit);
	shell_form(visit, "/booking", "form");
	shell_default(visit, "act", "look");
	write_fields(form);
	write_change_box(form);
	markup_end(visit->markup);
	markup_begin(visit->markup, "p");
	shell_link(visit, "go", "Back to Saturday, nothing changed", "/saturday");
	markup_end(visit->markup);
	markup_end(visit->markup);
	markup_end(visit->markup);
	shell_close(visit);
}

static bool
save(struct booking_form *form, struct fault *fault)
{
	struct desk desk = {0};
	char iso[DAY_ISO_SIZE];
	page_write(form->visit, &desk, "booking of %s", form->request.vessel);
	bool done = bookings_put(&desk, &form->request, 1, fault);
	if (done) {
		page_say(form->visit, "%s", text_string(&form->said));
		page_go(form->visit, "/saturday?on=%s",
		    day_iso(form->request.booking.days.first, iso));
	}
	page_done(form->visit, &desk);
	return done;
}

bool
page_booking(struct visit *visit, struct fault *fault)
{
	struct booking_form form = {.visit = visit, .wrong = ""};
	char digest[PAGE_DIGEST_SIZE];
	bool post = strcmp(visit->route->method, "POST") == 0;
	bool done = desk_load(&visit->desk, NULL, false, fault) &&
		    (!post || try_booking(&form, fault));
	bool seen = done && form.said.length > 0 &&
		    strcmp(page_digest(text_string(&form.said), digest),
			page_value(visit, "seen")) == 0;
	if (seen && strcmp(page_value(visit, "act"), "save") == 0) {
		done = save(&form, fault);
	} else if (done) {
		write_page(&form);
	}
	text_clear(&form.said);
	text_clear(&form.notes);
	return done;
}
