#include "book/check.h"

#include "book/check_inside.h"
#include "book/putting.h"
#include "book/rows.h"

#include <stdlib.h>

void
book_check_clear(struct check_result *result)
{
	free(result->items);
	*result = (struct check_result){0};
}

static void
add_finding(struct check_result *result, struct arena *arena,
    const struct check_rule *rule, const char *what)
{
	const char *copy = arena_string(arena, what);
	ARRAY_ADD(result, (struct finding){rule->rule, copy, rule->to_do});
}

static bool
is_known(const struct book_known *known, enum check_asked asked, const char *word)
{
	if (known == NULL) {
		return false;
	}
	switch (asked) {
	case ASKED_NO_ONE:
		return false;
	case ASKED_KIND:
		return known->kind(known->context, word);
	case ASKED_SHEET:
		return known->sheet(known->context, word);
	}
	return false;
}

static bool
check_rule(struct book *book, const struct check_rule *rule,
    const struct book_known *known, struct arena *arena, struct check_result *result,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_TEXT what = {0};
	bool row = true;
	if (!check_open(book, rule, 0, INT64_MAX, &call, fault)) {
		return false;
	}
	for (;;) {
		if (!call_row(&call, &row, fault) || !row) {
			return !row;
		}
		const char *name = take_text(&call, arena);
		const char *detail = take_text(&call, arena);
		if (is_known(known, rule->asked, detail)) {
			continue;
		}
		text_reset(&what);
		check_words(rule, name, detail, &what);
		add_finding(result, arena, rule, text_string(&what));
	}
}

/* What no statement finds: a value that loading refuses. */
static void
check_values(struct book *book, struct arena *arena, struct held *held,
    struct check_result *result)
{
	static const struct check_rule VALUES = {.rule = "value",
	    .holds = "every value makes sense",
	    .to_do =
		"someone has changed the file with another program; restore a backup "
		"with \"becket book restore FILE\""};
	struct book_contents contents = {0};
	struct fault found = {0};
	*held = (struct held){VALUES.rule, VALUES.holds, 0};
	if (book_load(book, NULL, true, &contents, &found)) {
		book_contents_clear(&contents);
		return;
	}
	held->found = 1;
	add_finding(result, arena, &VALUES, found.text);
}

/* A paper's bytes must have the digest they came with, which no statement can work out. */
static bool
check_papers(struct book *book, struct arena *arena, struct held *held,
    struct check_result *result, struct fault *fault)
{
	static const struct check_rule PAPERS = {.rule = "paper",
	    .holds = "every paper is what was put in",
	    .to_do =
		"take it out with \"becket papers TAG --remove\" and attach it again"};
	const struct paper *papers = NULL;
	size_t count = 0;
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT what = {0};
	*held = (struct held){PAPERS.rule, PAPERS.holds, 0};
	if (!book_load_papers(book, NULL, arena, &papers, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		struct fault found = {0};
		if (book_read_paper(book, &papers[i], &bytes, &found)) {
			continue;
		}
		text_reset(&what);
		text_add_format(
		    &what, "%s: %s: %s", papers[i].tag, papers[i].name, found.text);
		held->found++;
		add_finding(result, arena, &PAPERS, text_string(&what));
	}
	return true;
}

/* Names the values that differ, where they can be found; in a book too damaged for that,
 * only that something does. */
static void
tell_differing(struct book *book, uint64_t off, struct arena *arena,
    struct check_result *result, const struct check_rule *rule)
{
	struct differing differing = {0};
	struct fault ignored = {0};
	if (!differing_find(book, off, arena, &differing, &ignored) ||
	    differing.count == 0) {
		add_finding(result, arena, rule,
		    "a value in the book is not as becket wrote it (the sum of all "
		    "differs; which one can't be told)");
		return;
	}
	for (size_t i = 0; i < differing.count; i++) {
		add_finding(result, arena, rule, differing.items[i].words);
	}
}

/* What neither the schema nor a rule can tell from a value that was meant: one that the
 * program did not write. */
static bool
check_contents(struct book *book, struct arena *arena, struct held *held,
    struct check_result *result, struct fault *fault)
{
	static const struct check_rule CONTENTS = {.rule = "contents",
	    .holds = "every value is as becket wrote it",
	    .to_do =
		"a fault of the disk or another program did that: any date may be wrong. "
		"Restore a backup with \"becket book restore FILE\"; where you changed it "
		"yourself, \"becket book accept\" takes it as it is"};
	int64_t found = 0;
	int64_t carried = 0;
	*held = (struct held){CONTENTS.rule, CONTENTS.holds, 0};
	if (!sums_find(book, &found, &carried, fault)) {
		return false;
	}
	bool off = false;
	if (!numbers_renew(book, &off, fault)) {
		return false;
	}
	size_t before = result->count;
	if (off) {
		add_finding(result, arena, &CONTENTS,
		    "the next numbers of the book's rows are not as becket wrote them");
		held->found = 1;
	}
	if (found == carried) {
		return true;
	}
	tell_differing(
	    book, (uint64_t)found - (uint64_t)carried, arena, result, &CONTENTS);
	held->found = result->count - before;
	return true;
}

/* A file may be so damaged that the check of it breaks off: that is a finding, too. */
static bool
check_file_rule(struct book *book, struct arena *arena, struct check_result *result,
    struct fault *fault)
{
	const struct check_rule *rule = &CHECK_RULES[0];
	size_t before = result->count;
	if (check_rule(book, rule, NULL, arena, result, fault)) {
		return true;
	}
	if (fault->kind != FAULT_BOOK) {
		return false;
	}
	if (result->count <= before) {
		add_finding(result, arena, rule, fault->text);
	}
	return true;
}

static bool
check_all(struct book *book, const struct book_known *known, struct arena *arena,
    struct check_result *result, struct fault *fault)
{
	struct held *rules = arena_alloc(arena, (CHECK_RULE_COUNT + 3) * sizeof *rules);
	result->rules = rules;
	for (size_t i = 0; i < CHECK_RULE_COUNT; i++) {
		size_t before = result->count;
		bool checked = i == 0 ? check_file_rule(book, arena, result, fault)
				      : check_rule(book, &CHECK_RULES[i], known, arena,
					    result, fault);
		if (!checked) {
			return false;
		}
		rules[i] = (struct held){
		    CHECK_RULES[i].rule, CHECK_RULES[i].holds, result->count - before};
		result->rule_count = i + 1;
		/* what is read from a damaged file proves nothing */
		if (i == 0 && rules[i].found > 0) {
			return true;
		}
	}
	result->rule_count = CHECK_RULE_COUNT + 3;
	if (!check_papers(book, arena, &rules[CHECK_RULE_COUNT], result, fault) ||
	    !check_contents(book, arena, &rules[CHECK_RULE_COUNT + 2], result, fault)) {
		return false;
	}
	check_values(book, arena, &rules[CHECK_RULE_COUNT + 1], result);
	return true;
}

bool
book_check(struct book *book, const struct book_known *known, struct arena *arena,
    struct check_result *out, struct fault *fault)
{
	struct check_result result = {0};
	if (!book_begin(book, fault)) {
		return false;
	}
	bool checked = check_all(book, known, arena, &result, fault);
	book_rollback(book);
	if (!checked) {
		book_check_clear(&result);
		return fault_prefix(fault, "checking the book");
	}
	*out = result;
	return true;
}

bool
book_check_file(struct book *book, struct fault *fault)
{
	struct check_result result = {0};
	struct arena arena = {0};
	bool checked = true;
	for (size_t i = 0; i < 2 && checked; i++) {
		checked = check_rule(book, &CHECK_RULES[i], NULL, &arena, &result, fault);
	}
	if (checked && result.count > 0) {
		checked = fault_set(fault, FAULT_BOOK, "%s", result.items[0].what);
	}
	book_check_clear(&result);
	arena_clear(&arena);
	return checked;
}

bool
book_is_as_written(struct book *book, bool *out, struct fault *fault)
{
	int64_t found = 0;
	int64_t carried = 0;
	if (!book_begin(book, fault)) {
		return false;
	}
	bool done = sums_find(book, &found, &carried, fault);
	book_rollback(book);
	*out = found == carried;
	return done;
}

bool
book_accept(struct book *book, bool *differed_out, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	int64_t found = 0;
	int64_t carried = 0;
	bool off = false;
	if (!writing_begin(book, &writing, fault) || !book_check_file(book, fault) ||
	    !sums_find(book, &found, &carried, fault) ||
	    !numbers_renew(book, &off, fault)) {
		return fault_prefix(fault, "accepting the book");
	}
	*differed_out = off || found != carried;
	/* the entry adds to the sum when it is written, like any other */
	return !*differed_out ||
	       (sums_renew(book, 0, fault) && journal_note_too(book, fault) &&
		   writing_keep(&writing, fault)) ||
	       fault_prefix(fault, "accepting the book");
}
