/* Bring a list: a list is taken, read, cleared up and written. */
#include "page/shell.h"
#include "page/taking_in.h"

#include <string.h>

static bool
show(struct list_page *page, struct fault *fault)
{
	struct visit *visit = page->visit;
	bool done = true;
	if (visit->session->list_name != NULL) {
		done = desk_load(&visit->desk, NULL, true, fault) &&
		       list_options(page, fault) && list_try(page, fault);
	}
	if (done) {
		list_write(page);
	}
	return done;
}

bool
page_list(struct visit *visit, struct fault *fault)
{
	struct list_page page = {.visit = visit};
	bool done = show(&page, fault);
	list_clear(&page);
	return done;
}

static bool
write(struct list_page *page, struct fault *fault)
{
	struct visit *visit = page->visit;
	const struct csv_effect *effect = &page->out.effect;
	struct import_outcome out = {0};
	SCOPED_DESK desk = {0};
	page_write(visit, &desk, "list %s", visit->session->list_name);
	list_answered(page, &desk);
	bool done = desk_import(&desk, &page->request, &out, fault);
	spool_clear(&out.words);
	if (!done) {
		return false;
	}
	page_say(visit, "It is written: %zu added, %zu changed.", effect->added,
	    effect->changed);
	/* how it was read was shown before it was written */
	if (strcmp(text_string(&desk.notes), text_string(&page->trial.notes)) == 0) {
		text_reset(&desk.notes);
	}
	page_done(visit, &desk);
	session_put_list_away(visit->session);
	page_go(visit, "/");
	return true;
}

static bool
answer(struct list_page *page, struct fault *fault)
{
	struct visit *visit = page->visit;
	char digest[PAGE_DIGEST_SIZE];
	const struct form_field *file = form_file(&visit->sent, "list");
	if (file != NULL) {
		session_hold_list(
		    visit->session, file->file_name, file->bytes, file->length);
	} else if (strcmp(page_value(visit, "act"), "away") == 0) {
		session_put_list_away(visit->session);
		page_go(visit, "/list");
		return true;
	}
	if (strcmp(page_value(visit, "act"), "write") != 0 ||
	    visit->session->list_name == NULL) {
		return show(page, fault);
	}
	if (!desk_load(&visit->desk, NULL, true, fault) || !list_options(page, fault) ||
	    !list_try(page, fault)) {
		return false;
	}
	bool as_shown =
	    page->read && strcmp(page_digest(text_string(&page->words), digest),
			      page_value(visit, "seen")) == 0;
	if (as_shown) {
		return write(page, fault);
	}
	list_write(page);
	return true;
}

bool
page_list_sent(struct visit *visit, struct fault *fault)
{
	struct list_page page = {.visit = visit};
	bool done = answer(&page, fault);
	list_clear(&page);
	return done;
}
