/* What is wrong in a sheet that can be read: rules that contradict one another, that can
 * never hold, that are always displaced; carriage lines nothing can meet. A sheet may
 * have any of these and still be followed; it is hardly what its writer meant. */
#ifndef BECKET_RULES_SHEET_CHECK_H
#define BECKET_RULES_SHEET_CHECK_H

#include "base/memory.h"
#include "base/text.h"
#include "rules/sheet.h"

/* One thing that is wrong. Words in the arena; about a rule, a line or a subject. */
struct sheet_finding {
	unsigned long line; /* in the file, from 1; 0 where it is about all of it */
	const char *about;  /* its id */
	const char *what;   /* what is wrong */
	const char *todo;   /* what to do about it */
	bool remark;        /* said, but the sheet is in order with it */
};

struct sheet_findings {
	struct sheet_finding *items; /* owned; in the order of the file's lists */
	size_t count;
	size_t capacity;
};

/* A file with a sheet that was looked over. */
struct checked_sheet {
	const char *path;
	/* NULL when it can't be read; then that is the finding */
	const struct sheet *sheet;
	struct sheet_findings findings;
};

void sheet_findings_clear(struct sheet_findings *findings);

/* Adds what is wrong in what the sheet says itself; what it takes over is passed over.
 * `yaml` is the text it was read from. A sheet that says nothing of a subject, by no
 * carriage line and no entry of not-stated, leaves a boat that lacks all of it with
 * "nothing short": wrong in a sheet that is built in, a remark in one's own. */
void sheet_check(const struct sheet *sheet, const struct text *yaml, bool built_in,
    struct arena *arena, struct sheet_findings *out);

/* How many of them are wrong: all but the remarks. */
size_t sheet_findings_wrong(const struct sheet_findings *findings);

#endif
