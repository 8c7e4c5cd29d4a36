/* Safe-keeping: a copy of the book, and how old the last one is. */
#include "desk/copied.h"
#include "desk/keeping.h"
#include "page/shell.h"
#include "page/site.h"

/* After so many days a copy is called old, if something was changed since. */
enum { COPY_OLD_DAYS = 30 };

/* How many entries are not in the last copy. An entry that came with a restored book may
 * have the same number as one in the copy: then all are counted as not in it. */
static size_t
entries_since(const struct copied *copied, const struct journal *journal)
{
	size_t count = 0;
	bool goes_on = journal->count > 0 &&
		       journal->entries[journal->count - 1].number >= copied->number;
	for (size_t i = 0; i < journal->count; i++) {
		count += !goes_on || journal->entries[i].number > copied->number;
	}
	return count;
}

/* How old the last copy is, and whether that is too old. */
static void
write_age(struct visit *visit, const struct journal *journal)
{
	struct copied copied = {0};
	SCOPED_TEXT words = {0};
	char day[DAY_WORDS_SIZE];
	copied_read(&visit->desk, &copied);
	size_t since = entries_since(&copied, journal);
	day_t on = (day_t)(copied.at / 86400);
	bool old = since > 0 && visit->desk.today - on > COPY_OLD_DAYS;
	if (copied.at == 0) {
		text_add(&words, "No copy of it is known of: if this disk is lost, so is "
				 "the book.");
	} else {
		text_add_format(
		    &words, "The last copy was made on %s; ", day_words(on, day));
		if (since == 0) {
			text_add(&words, "nothing was changed since.");
		} else {
			text_add_format(&words, "%zu change%s since then %s not in it.%s",
			    since, since == 1 ? "" : "s", since == 1 ? "is" : "are",
			    old ? " It is old: save another." : "");
		}
	}
	markup_element(visit->markup, "p", copied.at == 0 || old ? "caution" : "say",
	    text_string(&words));
}

/* What is rarely done is folded. */
void
page_move_section(struct visit *visit)
{
	struct markup *markup = visit->markup;
	shell_entry(visit);
	markup_begin(markup, "details");
	markup_element(
	    markup, "summary", NULL, "Put a copy back, or move to another machine");
	markup_element(markup, "p", NULL,
	    "A copy takes the place of the book; what is here now is kept beside it first. What "
	    "that changes is told before.");
	page_restore_form(visit);
	markup_element(markup, "p", NULL,
	    "To move, save a copy here, install becket on the other machine, open the page there "
	    "and put the copy back. Gear, records, papers, reminders and your own rule sheets are "
	    "all in it; the people who may log in are not, nor the passwords of a calendar server: "
	    "say those again. Then leave the old book alone: two that are both written in can't be "
	    "joined.");
	markup_begin(markup, "p");
	markup_text_format(markup,
	    "The page takes a copy of up to %d MB. At a terminal the same is ",
	    SITE_BODY_MOST / (1024 * 1024));
	markup_element(markup, "code", NULL, "becket book restore FILE");
	markup_text(markup, ", which takes a copy of any size.");
	markup_ends(markup, 4);
}

void
page_copy_section(struct visit *visit, const struct journal *journal)
{
	struct markup *markup = visit->markup;
	shell_section(visit, NULL, NULL, "A copy of the book");
	write_age(visit, journal);
	markup_element(markup, "p", NULL,
	    "The copy is made whole and checked, with your own rule sheets in it; the browser asks "
	    "where to put it, or puts it with what it saves. Keep it on another disk.");
	shell_form(visit, "/copy", NULL);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, true, NULL, NULL, "Save a copy of the book");
	markup_ends(markup, 4);
}

bool
page_copy(struct visit *visit, struct fault *fault)
{
	if (!desk_backup_file(&visit->desk, &visit->answer->file, fault)) {
		return false;
	}
	web_file(visit->answer, "application/vnd.sqlite3", "becket-book.db");
	return true;
}
