/* Acts that give hand-ins and reminders out: from then on each keeps its day, until that
 * is past or no longer serves (winter/settled.h). Looking gives nothing out. */
#ifndef BECKET_DESK_GIVING_OUT_H
#define BECKET_DESK_GIVING_OUT_H

#include "base/spool.h"
#include "book/caldav.h"
#include "calendar/read_back.h"
#include "desk/questions.h"

/* The shore lists that papers are written from; what of a vessel that has left is at a
 * station stays to be collected. Loads the vessel or base that is wished for and what it
 * is planned with. Where gear is named by its tags (none: it is not) there are no lists:
 * that gear's boats are loaded. Readies the engine. As plans_make, and FAULT_INPUT for
 * tags that can't be read. */
MUST_CHECK bool desk_paper_lists(struct desk *desk, const struct plans_wish *wish,
    const struct word_list *tags, struct shore_list **lists_out, size_t *count_out,
    struct fault *fault);

/* The same of all boats, handed out base by base, so that only the boats that have to do with each
 * other are loaded at a time; all at once where a station's weekly limit ties all boats. What is
 * handed out holds until `take` returns, as desk->contents does; it has no dockets. `places` as
 * muster_taker has it. There is no answer before this returns true. */
typedef bool papers_taker(
    struct winter_answer *some, const size_t *places, void *context, struct fault *fault);
MUST_CHECK bool desk_papers_by_bases(struct desk *desk, const struct plans_wish *wish,
    papers_taker *take, void *context, struct fault *fault);

/* Gives out the hand-ins of this winter's shore lists, as papers do that were written
 * from them: those with gear of a vessel, or of the vessels of a base, where one is not
 * NULL. */
MUST_CHECK bool desk_give_hand_ins(
    struct desk *desk, const char *vessel, const char *base, struct fault *fault);

/* Gives out the hand-ins of a rota that was made from the book as it is loaded,
 * `*count_out` of them, and those that a rota gave out before as they are now. FAULT_BOOK
 * where that has been written to since. */
MUST_CHECK bool desk_give_rota(struct desk *desk, const struct rota_answer *answer,
    size_t *count_out, struct fault *fault);

struct calendar_request {
	struct scope scope; /* whose reminders */
	bool todos;         /* to-dos; else events */
	const char *name;   /* of the calendar; NULL: as reminding_calendar_name has it */
	const char *path;   /* where to; NULL: its bytes are wanted, no file */
};

struct calendar_outcome {
	struct spool ics; /* free with spool_clear */
	size_t count;     /* of reminders in it */
};

/* Writes an iCalendar file. It is ready before the book notes it, and put in its place
 * afterwards: whatever fails, there is never a calendar that the book does not know
 * of. */
MUST_CHECK bool desk_calendar(struct desk *desk, const struct calendar_request *request,
    struct calendar_outcome *out, struct fault *fault);

/* The reminders that an account's calendar is to show, as of now. They and the account
 * are kept before any is sent; where it is only tried, nothing is kept. */
MUST_CHECK bool desk_push_reminders(struct desk *desk, const struct book_account *account,
    bool todos, bool trying, struct reminders *out, struct fault *fault);

/* Forgets what was given out to a calendar, which is empty: it was just made. */
MUST_CHECK bool desk_forget_pushed(
    struct desk *desk, const char *calendar, struct fault *fault);

/* Forgets the accounts. `*url_out` is the server's, NULL when none is known. */
MUST_CHECK bool desk_forget_account(
    struct desk *desk, const char **url_out, struct fault *fault);

/* What a calendar program gave out, as proposals. */
struct calendar_read {
	struct reminders reminders; /* as they are now, events and to-dos both */
	struct read_back back;
};

/* Compares a file's bytes with what was given out; nothing is written. */
MUST_CHECK bool desk_read_calendar(struct desk *desk, const struct text *bytes,
    struct calendar_read *out, struct fault *fault);

/* Takes some of the proposals of such a file, `taken` one each: a ticked to-do is
 * recorded as done, a reminder that was moved is planned for its day. FAULT_INPUT where
 * the proposals are no longer those that were seen, and for a renewal, of which a tick
 * does not say what is printed on the new thing. */
MUST_CHECK bool desk_take_calendar(struct desk *desk, const struct text *bytes,
    const struct read_back *seen, const bool *taken, struct fault *fault);

#endif
