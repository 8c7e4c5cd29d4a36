/* A booking is entered, changed or taken out. What it asks of the boat is shown first,
 * and the booking is written only if that has not changed since. */
#include "desk/bookings.h"
#include "page/pieces.h"
#include "page/planning.h"
#include "page/shell.h"

#include <string.h>

/* What to do with a booking that is there. */
static const char CHANGE[] = "change";
static const char TAKE_OUT[] = "out";

struct booking_form {
	struct tried tried;
	struct booking_request request;
	struct booking
	    old; /* the one that is changed; days from DAY_NONE on: a new one */
	bool takes_out;
};

static bool
is_new(const struct booking_form *form)
{
	return form->request.was == DAY_NONE;
}

/* The value of a field in the book; "" for a new booking, and for no number. */
static const char *
now_day(const struct booking_form *form, day_t day)
{
	char words[DAY_WORDS_SIZE];
	return is_new(form)
		   ? ""
		   : arena_string(&form->tried.visit->arena, day_words(day, words));
}

static const char *
now_count(const struct booking_form *form, int count)
{
	return is_new(form) || count == 0
		   ? ""
		   : arena_format(&form->tried.visit->arena, "%d", count);
}

static const char *
now_note(const struct booking_form *form)
{
	return is_new(form) ? "" : form->old.note;
}

static bool
read_day(struct booking_form *form, const char *name, day_t now, day_t *out,
    struct fault *fault)
{
	struct tried *tried = &form->tried;
	tried->wrong = name;
	return day_typed(tried_chosen(tried, name, now_day(form, now)),
	    tried->visit->desk.today, out, fault);
}

/* Reads a number of people; 0 when nothing is typed. */
static bool
read_count(
    struct booking_form *form, const char *name, int now, int *out, struct fault *fault)
{
	const char *typed = tried_chosen(&form->tried, name, now_count(form, now));
	form->tried.wrong = name;
	*out = 0;
	return typed[0] == '\0' || text_figures(typed, BOOKING_PERSONS_MOST, out) ||
	       fault_set(fault, FAULT_INPUT,
		   "found \"%.40s\", expected how many, in figures", typed);
}

static bool
read_form(struct booking_form *form, struct fault *fault)
{
	struct booking *booking = &form->request.booking;
	const struct booking *old = &form->old;
	booking->note = tried_chosen(&form->tried, "note", now_note(form));
	if (!read_day(form, "from", old->days.first, &booking->days.first, fault) ||
	    !read_day(form, "to", old->days.last, &booking->days.last, fault) ||
	    !read_count(form, "persons", old->persons, &booking->persons, fault) ||
	    !read_count(form, "children", old->children, &booking->children, fault)) {
		return false;
	}
	form->tried.wrong = "";
	return is_new(form) || booking->days.first != old->days.first ||
	       booking->days.last != old->days.last || booking->persons != old->persons ||
	       booking->children != old->children ||
	       strcmp(booking->note, old->note) != 0 ||
	       fault_set(fault, FAULT_INPUT,
		   "Nothing is typed otherwise than it is: there is nothing to save.");
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

/* Adds "3 Apr 2027 to 10 Apr 2027, 6 persons, 2 of them children, Ann". */
static void
add_booking(const struct booking *booking, struct text *out)
{
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	text_add_format(out, "%s to %s", day_words(booking->days.first, first),
	    day_words(booking->days.last, last));
	if (booking->persons > 0) {
		text_add_format(out, ", %d %s", booking->persons,
		    booking->persons == 1 ? "person" : "persons");
	}
	if (booking->children > 0) {
		text_add_format(out, ", %d of them children", booking->children);
	}
	if (booking->note[0] != '\0') {
		text_add_format(out, ", %s", booking->note);
	}
}

/* Says what was entered or changed on this desk, and what that asks. */
static bool
add_outcome(struct booking_form *form, struct desk *trial, struct fault *fault)
{
	const struct booking *booking = &form->request.booking;
	const struct bookings_asked asked = {
	    .days = booking->days, .vessel = form->request.vessel};
	struct text *out = &form->tried.said;
	struct booked *all = NULL;
	size_t count = 0;
	text_add_format(out, "%s is let from ", form->request.vessel);
	add_booking(booking, out);
	if (!is_new(form)) {
		text_add(out, "; it was ");
		add_booking(&form->old, out);
	}
	text_add(out, ".\n");
	desk_forget(trial);
	if (!bookings_muster(trial, &asked, &all, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (all[i].booking->days.first == booking->days.first) {
			add_verdict(&all[i], out);
		}
	}
	return true;
}

static bool
take_out(struct booking_form *form, struct desk *desk, struct fault *fault)
{
	return desk_load(desk, NULL, false, fault) &&
	       bookings_drop(desk, form->request.vessel, form->request.was, fault);
}

/* Tries it on a copy of the book. False only for a failure of the book itself. */
static bool
try_booking(struct booking_form *form, struct fault *fault)
{
	SCOPED_DESK trial = {0};
	struct tried *tried = &form->tried;
	page_try(tried->visit, &trial);
	bool done = false;
	if (form->takes_out) {
		done = take_out(form, &trial, fault);
		text_add_format(
		    &tried->said, "%s is not let any more from ", form->request.vessel);
		add_booking(&form->old, &tried->said);
		text_add(&tried->said, ".\n");
	} else {
		done = read_form(form, fault) &&
		       bookings_put(&trial, &form->request, 1, fault);
		text_add(&tried->notes, done ? text_string(&trial.notes) : "");
		done = done && add_outcome(form, &trial, fault);
	}
	return done || tried_refused(tried, fault);
}

/* Which boat: one that is here, or the one whose booking it is. */
static void
write_boat(const struct booking_form *form)
{
	struct visit *visit = form->tried.visit;
	const struct inventory *inventory = &visit->desk.contents.inventory;
	char iso[DAY_ISO_SIZE];
	if (!is_new(form)) {
		shell_hidden(visit, "vessel", form->request.vessel);
		shell_hidden(visit, "first", day_iso(form->request.was, iso));
		shell_choice(visit, "what", "What is to become of it");
		shell_option(visit, CHANGE, "changed as typed", !form->takes_out);
		shell_option(visit, TAKE_OUT, "taken out", form->takes_out);
	} else {
		shell_choice(visit, "vessel", "Boat");
		for (size_t i = 0; i < inventory->vessel_count; i++) {
			const struct vessel *vessel = &inventory->vessels[i];
			if (!vessel->store && vessel_is_here(vessel, visit->desk.today)) {
				shell_option(visit, vessel->name, vessel->name,
				    strcmp(vessel->name, form->request.vessel) == 0);
			}
		}
	}
	markup_ends(visit->markup, 2);
}

static void
write_fields(const struct booking_form *form)
{
	const struct tried *tried = &form->tried;
	const struct booking *old = &form->old;
	markup_begin_class(tried->visit->markup, "div", "fields");
	write_boat(form);
	tried_kept_field(tried, "from", "The day they come aboard", NULL,
	    now_day(form, old->days.first));
	tried_kept_field(
	    tried, "to", "The day they leave", NULL, now_day(form, old->days.last));
	tried_kept_field(tried, "persons", "How many aboard; as entered if left out",
	    "numeric", now_count(form, old->persons));
	tried_kept_field(tried, "children", "How many of them are children", "numeric",
	    now_count(form, old->children));
	tried_kept_field(tried, "note", "Whose it is, or a note", NULL, now_note(form));
	markup_end(tried->visit->markup);
}

static void
write_page(const struct booking_form *form)
{
	struct visit *visit = form->tried.visit;
	const struct tried *tried = &form->tried;
	SCOPED_TEXT say = {0};
	if (!is_new(form)) {
		text_add_format(&say, "%s, ", form->request.vessel);
		add_booking(&form->old, &say);
		text_add(&say, ". ");
	}
	text_add(&say, tried->why != NULL
			   ? "One thing is to be mended before it can be written."
			   : "");
	SHELL_OPEN(visit, .title = is_new(form) ? "Enter a booking" : "Change a booking",
	    .say = text_string(&say), .status = tried_status(tried));
	shell_entry(visit);
	shell_form(visit, "/booking", "form");
	shell_default(visit, "look");
	write_fields(form);
	tried_box(tried, is_new(form)      ? "enter the booking"
			 : form->takes_out ? "take it out"
					   : "change the booking");
	markup_end(visit->markup);
	tried_close(tried, "Saturday", "/saturday");
}

static bool
save(struct booking_form *form, struct fault *fault)
{
	struct visit *visit = form->tried.visit;
	struct desk desk = {0};
	char iso[DAY_ISO_SIZE];
	page_write(visit, &desk, "booking of %s%s", form->request.vessel,
	    form->takes_out ? " taken out" : "");
	bool done = form->takes_out ? take_out(form, &desk, fault)
				    : bookings_put(&desk, &form->request, 1, fault);
	if (done) {
		page_say(visit, "%s", text_string(&form->tried.said));
		page_go(visit, "/saturday?on=%s",
		    day_iso(form->takes_out ? form->request.was
					    : form->request.booking.days.first,
			iso));
	}
	page_done(visit, &desk);
	return done;
}

/* The booking that is to be changed, as it stands in the book. */
static bool
find_old(struct booking_form *form, struct fault *fault)
{
	struct visit *visit = form->tried.visit;
	const struct booking *found = NULL;
	const char *first = tried_typed(&form->tried, "first", "");
	form->request.was = DAY_NONE;
	if (first[0] == '\0') {
		return true;
	}
	if (!day_parse(first, &form->request.was, fault)) {
		return false;
	}
	if (bookings_find(
		&visit->desk, form->request.vessel, form->request.was, &found, fault) &&
	    found->days.first == form->request.was) {
		form->old = *found;
		return true;
	}
	form->old =
	    (struct booking){.days = {form->request.was, form->request.was}, .note = ""};
	return tried_refused(&form->tried, fault);
}

bool
page_booking(struct visit *visit, struct fault *fault)
{
	struct booking_form form = {.tried = {.visit = visit, .wrong = ""}};
	struct tried *tried = &form.tried;
	bool post = strcmp(visit->route->method, "POST") == 0;
	form.request.vessel = tried_typed(tried, "vessel", "");
	form.takes_out = strcmp(tried_typed(tried, "what", CHANGE), TAKE_OUT) == 0;
	const struct tried_about about = {form.request.vessel, "vessel", "booking"};
	bool done = desk_load(&visit->desk, NULL, false, fault) &&
		    find_old(&form, fault) &&
		    (is_new(&form) || tried_look(tried, &about, 1, fault)) &&
		    (!post || tried->why != NULL || try_booking(&form, fault));
	if (done && tried_holds(tried)) {
		done = save(&form, fault);
	} else if (done) {
		write_page(&form);
	}
	tried_clear(tried);
	return done;
}
