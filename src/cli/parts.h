/* Parts of commands that are in separate files; each file is named after its part. */
#ifndef BECKET_CLI_PARTS_H
#define BECKET_CLI_PARTS_H

#include "base/memory.h"
#include "base/spool.h"
#include "book/journal.h"
#include "cli/command.h"
#include "desk/acts.h"
#include "desk/files.h"
#include "winter/winter.h"

/* ---- The acts of `becket book`, in the files cmd_book_*.c ---- */

/* What the options say. */
struct book_said {
	const char *identity; /* NULL when not told, as the next */
	const char *currency;
	bool over;
	day_t since; /* DAY_NONE when not told */
	int number;  /* 0 when not told */
};

/* cmd_book_keep.c */
MUST_CHECK bool book_act_backup(
    struct context *context, const struct book_said *said, struct fault *fault);
MUST_CHECK bool book_act_restore(
    struct context *context, const struct book_said *said, struct fault *fault);

/* cmd_book_check.c */
MUST_CHECK bool book_act_check(
    struct context *context, const struct book_said *said, struct fault *fault);
MUST_CHECK bool book_act_accept(
    struct context *context, const struct book_said *said, struct fault *fault);

/* cmd_book_journal.c */
MUST_CHECK bool book_act_journal(
    struct context *context, const struct book_said *said, struct fault *fault);
MUST_CHECK bool book_act_undo(
    struct context *context, const struct book_said *said, struct fault *fault);

/* cmd_book_upgrade.c */
MUST_CHECK bool book_act_upgrade(
    struct context *context, const struct book_said *said, struct fault *fault);

/* ---- Several files written into one folder: all of them or none ---- */

/* Files on their way into a folder. */
struct folder {
	const char *path;       /* borrowed */
	bool over;              /* files that are there may be written over */
	bool made;              /* the folder was not there */
	struct new_file *items; /* owned */
	size_t count;
	size_t capacity;
};

/* Begins to fill a folder; makes it where it is not there (its parent must be).
 * FAULT_FILE. */
MUST_CHECK bool folder_begin(
    const char *path, bool over, struct folder *out, struct fault *fault);

/* Writes a file next to its final place. A file of that name that is already there is
 * FAULT_FILE, unless `over`. The names within one folder must differ. */
MUST_CHECK bool folder_add(struct folder *folder, const char *name,
    const struct text *bytes, struct fault *fault);

/* The same of bytes that were kept out of memory. */
MUST_CHECK bool folder_add_kept(struct folder *folder, const char *name,
    const struct spool *bytes, struct fault *fault);

/* Moves all files to their final places. When one fails, those moved before it are
 * removed again (with `over`, the files they replaced are lost). */
MUST_CHECK bool folder_keep(struct folder *folder, struct fault *fault);

/* Removes what was not kept, and the folder if it was made here and is empty. Accepts a
 * zeroed one. */
void folder_clear(struct folder *folder);

#define SCOPED_FOLDER __attribute__((cleanup(folder_clear))) struct folder

/* ---- Papers for gear that is handed in outside the winters: gear named, or due now
 * ---- */

struct papers_remarks;

/* What the options say. */
struct named_said {
	struct word_list tags; /* the gear; or */
	bool due_now;          /* what is due now */
	const char *station;   /* NULL when not told */
	day_t on;              /* DAY_NONE when not told */
	unsigned tasks;        /* bit 1 << enum task for each; 0 when not told */
};

/* True when the options ask for such papers. */
bool papers_are_named(const struct named_said *said);

/* The shore lists of the gear asked for, in place of the winters of the vessels concerned. In the
 * context's arena. What is to be remarked of the station is said; or, where `places` has for each
 * vessel of the inventory her place in the whole book, kept to be said once all is known. */
MUST_CHECK bool papers_named(struct papers_remarks *remarks,
    const struct named_said *said, const size_t *places, struct winter_answer *answer,
    struct fault *fault);

/* ---- What is remarked beside shore papers (papers_notes.c) ---- */

/* Starts with its context; its runs are freed with runs_clear. */
struct papers_remarks {
	struct context *context;
	struct runs kept; /* by the places of their boats */
	bool begun;       /* what is remarked of no boat is kept */
};

/* Keeps what was remarked after `from` in place of saying it: under a boat's place, or before or
 * behind all of them, which is kept once. */
enum { REMARKED_FIRST = -1, REMARKED_LAST = -2 };

void papers_remark_kept(struct papers_remarks *remarks, size_t from, int64_t place);

/* Keeps what of some boats' lists belongs ashore and is on no paper. `places` has for each
 * vessel of the inventory her place in the whole book; NULL where these are all. */
void papers_remark(struct papers_remarks *remarks, const struct shore_list *lists,
    size_t count, const size_t *places);

/* Says them all. FAULT_FILE where they can't be read back. */
MUST_CHECK bool papers_remarks_say(
    const struct papers_remarks *remarks, struct fault *fault);

/* `becket muster --survey`: a page of HTML for each vessel, to print and to sign. */

/* Writes a file for each muster into a folder, "NAME-survey.html", all or none. Existing
 * files are overwritten only when `over`. Adds a line to the notes. FAULT_FILE. */
MUST_CHECK bool survey_write(struct context *context, const char *path, bool over,
    const struct muster *musters, size_t count, struct fault *fault);

/* ---- `becket due --if`: what would change if something else were true of a vessel
 * ---- */

/* What the options say. */
struct suppose_said {
	struct word_list what; /* none: nothing is supposed */
	day_t from;            /* DAY_NONE when not told */
};

/* The options, as entries of an option table, into the member `said` of a struct. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define SUPPOSE_OPTIONS(structure, said)                                                 \
	OPTION("if", "WHAT=WORD", WORDS, structure, said.what,                           \
	    "what would change if use, area, persons or sheet were this",                \
	    .repeatable = true, .not_with = "within state strict"),                      \
	    OPTION("if-from", "DATE", DAY, structure, said.from,                         \
		"with --if: from this day on; today if left out", .needs = "if")
/* NOLINTEND(bugprone-macro-parentheses) */

/* Answers for the gear of `wish`, also its routines where `routine` is set; writes
 * nothing to the book. */
MUST_CHECK bool suppose_run(struct context *context, const struct suppose_said *said,
    const struct gear_wish *gear, bool routine, struct fault *fault);

/* becket sheet compare: two sets of sheets, applied to the gear of a boat or to kinds. */

/* Compares two sheets, or several named with commas between them. */
MUST_CHECK bool sheet_compare(
    struct context *context, const char *a, const char *b, struct fault *fault);

/* ---- A vessel that leaves the fleet, sold or given up, and comes back ---- */

/* Has a vessel of the book leave, or come back. Her gear goes with her, to the spares of
 * her base, or is withdrawn: asked about at a terminal, FAULT_USAGE without one when the
 * request does not say. What is at a station stays hers, to be collected. One
 * transaction. */
MUST_CHECK bool vessel_leave(
    struct context *context, struct leave_request *request, struct fault *fault);

/* ---- The signature under which a command's changes are kept in the journal ---- */

/* The signature, its strings in the context's arena: --signed, else the login (LOGNAME,
 * else the system's name of the user), the command's words, and the time. With --today
 * the time is the start of that day and is marked as given by the user, so that the same
 * book can be made again. A blank --signed is FAULT_INPUT. */
MUST_CHECK bool context_signature(
    struct context *context, struct signature *out, struct fault *fault);

#endif
