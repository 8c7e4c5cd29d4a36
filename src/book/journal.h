/* The journal: what was changed, from what to what, by whom and when. It is only ever
 * added to, which triggers in the schema hold.
 *
 * One entry is one transaction that changed something, so one command. What is collected
 * of it (of every table but those that tables.h excepts: the journal itself, and what the
 * program remembers of reminders, feeds and calendar servers) is kept in the entry as
 * bytes (value.h), those of many rows in pieces, by which it can be taken back. Triggers
 * on each table would say the same, but each new table and column would need its own;
 * this way a new table is watched without further code. It needs a PRIMARY KEY. Beside
 * the bytes an entry has lines for people, worded when it is written, because names and
 * tags may be others by the time it is read. */
#ifndef BECKET_BOOK_JOURNAL_H
#define BECKET_BOOK_JOURNAL_H

#include "base/memory.h"
#include "gear/journal.h"

struct book;

/* With whose name, and for what command, a change is written down. */
struct signature {
	const char *who; /* a person; "" not known */
	const char *act; /* the command's words */
	int64_t at;      /* seconds since 1970, UTC */
	bool told;       /* the day was told, and `at` is its start */
};

/* Signs what is changed from now on. The strings are copied. Text that is no UTF-8 is
 * FAULT_INPUT. A book that was not signed writes blanks. */
MUST_CHECK bool book_sign(
    struct book *book, const struct signature *signature, struct fault *fault);

/* Which entries are wanted. */
struct journal_query {
	/* a tag, a serial number, or a vessel's or station's name; NULL for
	 * everything. Of a tag, what happened to the same kind and serial number
	 * under other tags, on other boats, counts too */
	const char *about;
	day_t since;    /* DAY_NONE: from the first one on */
	int64_t number; /* 0: every one */
	/* of each entry only so many lines are read, the first ones, and the others counted:
	 * an import has as many as it has rows; 0: all are read */
	size_t lines_most;
};

/* Reads entries into `arena`; with `about` only the lines that are about it, and only the
 * entries that have any. Lines that are damaged are left out, and their entries named. */
MUST_CHECK bool book_journal(struct book *book, const struct journal_query *query,
    struct arena *arena, struct journal *out, struct fault *fault);

/* Takes back what an entry changed, as one transaction that is itself an entry, and can
 * be taken back in turn. `number` 0 means the last one that changed something, is no
 * taking back, and was not taken back. FAULT_INPUT, and nothing changed, when there is no
 * such entry, when it has been taken back, or when what it changed has been changed again
 * or is needed by what came later; these later entries are named. Must not be called
 * inside a transaction. `*undone_out` and `*entry_out` get the numbers of the two
 * entries. */
MUST_CHECK bool book_undo(struct book *book, int64_t number, int64_t *undone_out,
    int64_t *entry_out, struct fault *fault);

/* How many entries were written and committed through this open book. */
size_t book_entries_made(const struct book *book);

#endif
