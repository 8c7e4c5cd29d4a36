/* Opening the book of a desk. */
#include "desk/desk.h"

#include "desk/files.h"
#include "desk/upgrading.h"

static bool
open_anew(struct desk *desk, enum book_mode mode, struct fault *fault)
{
	/* what is to be tried is never written, however an act asks for the book */
	mode = desk->mode == BOOK_TRIAL ? BOOK_TRIAL : mode;
	bool there = desk_has_book(desk);
	if (!there && mode != BOOK_CREATE && mode != BOOK_TRIAL) {
		return fault_set(fault, FAULT_BOOK,
		    "there is no book at %s; \"becket vessel NAME\" or \"becket import "
		    "FILE\" begins one, " FIELD "book FILE names another",
		    desk->book_path);
	}
	if (!there && mode == BOOK_CREATE && !desk->book_named &&
	    !folders_make(desk->book_path, fault)) {
		return false;
	}
	return book_open(desk->book_path, mode, &desk->book, fault);
}

bool
desk_open(struct desk *desk, enum book_mode mode, struct fault *fault)
{
	bool goes_on = desk->lent && mode != BOOK_READ;
	if (goes_on && !book_may_write(desk->book)) { /* open for reading alone */
		book_close(desk->book);
		desk->book = NULL;
	}
	desk->lent = desk->lent && !goes_on;
	if (desk->book != NULL && !goes_on) {
		return true;
	}
	if (desk->book == NULL && !open_anew(desk, mode, fault)) {
		return false;
	}
	desk->writing = mode != BOOK_READ;
	if (book_older_kept(desk->book) != NULL) {
		desk_note(desk,
		    "the book was of an older program and is brought up to date; as it was, "
		    "it is kept in %s",
		    book_older_kept(desk->book));
	}
	if (desk->writing) {
		upgrading_open(desk);
		desk->opened_with = book_entries_made(desk->book);
	}
	return !desk->writing || book_sign(desk->book, &desk->signature, fault);
}

bool
desk_book(struct desk *desk, struct fault *fault)
{
	return desk_open(desk, desk->mode, fault);
}

bool
desk_currency(struct desk *desk, const char **out, struct fault *fault)
{
	if (desk->book == NULL && !desk_has_book(desk)) {
		*out = BOOK_NEW_CURRENCY;
		return true;
	}
	if (!desk_book(desk, fault)) {
		return false;
	}
	*out = book_currency(desk->book);
	return true;
}

bool
desk_load(struct desk *desk, const char *vessel, bool with_withdrawn, struct fault *fault)
{
	return desk->loaded || (desk_book(desk, fault) &&
				   load_open_book(desk, vessel, with_withdrawn, fault));
}

bool
desk_engine(struct desk *desk, const char *vessel, struct fault *fault)
{
	return desk->rulebooks != NULL || (desk_load(desk, vessel, true, fault) &&
					      engine_of_open_book(desk, vessel, fault));
}

void
desk_drop_fresh(struct desk *desk)
{
	book_drop_fresh(desk->book);
}
