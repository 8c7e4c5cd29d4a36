/* What is found wrong in sheets that can be read, and what differs between two. */
#include "rules/sheet_check.h"

#include "becket_test.h"
#include "data_file.h"
#include "rules/compare.h"

#include <string.h>

/* Five lines; a rule has six more, its id on the first. */
#define HEAD "sheet: m\ntitle: T\nfor: f\ncompiled: 2026-11-25\nrules:\n"
#define RULE(id, kinds, task, clocks, more)                                              \
	"- id: " id "\n  kinds: [" kinds "]\n  task: " task "\n  clocks: [" clocks "]\n" \
	"  doer: owner\n  grade: practice\n  source: s\n  standing: memory\n" more
#define MADE(months) "{from: [made], months: " months "}"
#define FIRST(months) "{from: [made], months: " months ", holds: first}"
#define AGAIN(months) "{from: [last], months: " months ", holds: again}"
#define LINE(id, more)                                                                   \
	"- id: " id "\n  title: L\n  need: {points: 4}\n  source: s\n"                   \
	"  standing: memory\n  serves: [{kinds: [tether], points: 1}]\n" more

/* The sheet of a text, with what was found in it. */
struct looked_over {
	struct sheet *sheet;
	struct sheet_findings findings;
	struct arena arena;
};

/* What is found in it as one of the program's, or as one's own. */
static struct looked_over
look_over_as(const struct kinds *kinds, const char *text, bool built_in)
{
	struct looked_over over = {0};
	struct fault fault = {0};
	SCOPED_TEXT yaml = {0};
	text_add(&yaml, text);
	if (!sheet_read("m.yaml", text, strlen(text), kinds, NULL, &over.sheet, &fault)) {
		fail_msg("%s", fault.text);
	}
	sheet_check(over.sheet, &yaml, built_in, &over.arena, &over.findings);
	return over;
}

/* As one's own, and without the remark on what it does not speak of, which is the last. */
static struct looked_over
look_over(const struct kinds *kinds, const char *text)
{
	struct looked_over over = look_over_as(kinds, text, false);
	over.findings.count = sheet_findings_wrong(&over.findings);
	return over;
}

static void
put_away(struct looked_over *over)
{
	sheet_findings_clear(&over->findings);
	sheet_free(over->sheet);
	arena_clear(&over->arena);
}

/* "" where nothing is found; else there is one finding, at that line, whose words start so. */
static const struct {
	const char *yaml;
	unsigned long line;
	const char *what;
} ROWS[] = {
    {HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "tether, jackstay", "renew", MADE("24"), ""),
	14, "its figures contradict those of a: tether, renew"},
    /* the earlier day wins on purpose, or one stands instead of the other */
    {HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "tether", "renew", MADE("24"), "  beside: [a]\n"),
	0, ""},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "  beside: [b]\n")
	    RULE("b", "tether", "renew", MADE("24"), ""),
	0, ""},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "  when: {use: private}\n")
	    RULE("b", "tether", "renew", MADE("24"),
		"  instead-of: [a]\n  when: "
		"{use: private, areas: [x]}\n"),
	0, ""},
    /* no contradiction: other conditions, kinds, task, anchor, times, or the same */
    {HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "tether", "renew", MADE("24"), "  when: {age-from: 60}\n"),
	0, ""},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "jackstay", "renew", MADE("24"), ""),
	0, ""},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "tether", "inspect", MADE("24"), ""),
	0, ""},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "tether", "renew", "{from: [fitted], months: 24}", ""),
	0, ""},
    {HEAD RULE("a", "tether", "renew", FIRST("12"), "")
	    RULE("b", "tether", "renew", AGAIN("24"), ""),
	0, ""},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "tether", "renew", MADE("12"), ""),
	0, ""},
    /* the same conditions in another order */
    {HEAD RULE("a", "tether", "renew", MADE("12"), "  when: {areas: [x, y]}\n")
	    RULE("b", "tether", "renew", MADE("24"), "  when: {areas: [y, x]}\n"),
	15, "its figures contradict those of a"},
    /* never in force */
    {HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "tether", "renew", MADE("24"), "  instead-of: [a]\n"),
	6, "it never holds: b always stands instead of it"},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "  instead-of: [b]\n")
	    RULE("b", "tether", "renew", MADE("24"), ""),
	15, "it never holds: a always stands instead of it"},
    {HEAD RULE("a", "tether, jackstay", "renew", MADE("12"), "")
	    RULE("b", "tether", "renew", MADE("24"), "  instead-of: [a]\n"),
	0, ""},
    {HEAD RULE(
	 "a", "tether", "renew", MADE("12"), "  when: {areas: [x], areas-except: [x]}\n"),
	6, "it never holds: each of its areas is excepted too"},
    {HEAD RULE("a", "tether", "renew", "{from: [marked]}", "  when: {marked: no}\n"), 6,
	"it never gives a day"},
    /* names nothing it could displace */
    {HEAD RULE("a", "tether", "renew", MADE("12"), "") RULE("b", "jackstay", "renew",
	 MADE("24"), "  instead-of: [a]\n  when: {use: private}\n"),
	14, "it stands instead of a, but they share no kind"},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "") RULE("b", "tether", "inspect",
	 MADE("24"), "  instead-of: [a]\n  when: {use: private}\n"),
	14, "it stands instead of a, which is another task (renew)"},
    /* carriage */
    {HEAD RULE("a", "tether", "renew", MADE("12"), "") "carriage:\n" LINE(
	 "l", "  any-of: g\n"),
	15, "it is the only way of the group g"},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "") "carriage:\n" LINE(
	 "l", "  any-of: g\n") LINE("k", "  any-of: g\n"),
	0, ""},
    {HEAD RULE("a", "tether", "renew", MADE("12"), "") "carriage:\n" LINE(
	 "l", "  when: {areas: [x], areas-except: [x]}\n"),
	15, "it never holds"},
    {HEAD RULE("a", "tether", "renew", MADE("12"),
	 "") "carriage:\n- id: l\n  title: L\n  need: {points: 4}\n  source: s\n"
	     "  standing: memory\n"
	     "  serves: [{kinds: [tether], points: 1, at-most: 3}]\n",
	15, "nothing can meet it: it needs 4, and its kinds count 3 at most"},
    /* an interval of nothing, but of what is registered at once */
    {HEAD RULE("a", "tether", "renew", "{from: [made], months: 0}", ""), 6,
	"its interval is 0 months"},
    {HEAD RULE("a", "epirb", "register", FIRST("0"), ""), 0, ""},
    /* a rating that no label has, of a rule and of a line */
    {HEAD RULE(
	 "a", "tether", "renew", MADE("12"), "  when: {ratings: [ISO 9650, strong]}\n"),
	6, "no piece can be told to have the rating \"strong\""},
    {HEAD RULE("a", "tether", "renew", MADE("12"),
	 "") "carriage:\n"
	     "- id: l\n  title: L\n  need: {points: 4}\n  source: s\n  standing: memory\n"
	     "  serves: [{kinds: [epirb], points: 1, rating: 5-X}]\n",
	15, "no piece can be told to have the rating \"5-X\""},
};

TEST(each_slip_is_found_at_its_line)
{
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct looked_over over = look_over(*state, ROWS[i].yaml);
		size_t count = ROWS[i].what[0] == '\0' ? 0 : 1;
		const struct sheet_finding *finding =
		    over.findings.count == 0 ? NULL : over.findings.items;
		if (over.findings.count != count ||
		    (count == 1 && (finding->line != ROWS[i].line ||
				       strstr(finding->what, ROWS[i].what) == NULL))) {
			fail_msg("row %zu: %zu found; line %lu: %s", i,
			    over.findings.count, finding == NULL ? 0 : finding->line,
			    finding == NULL ? "" : finding->what);
		}
		assert_true(count == 0 || finding->todo[0] != '\0');
		put_away(&over);
	}
}

/* A boat may lack a subject of which its sheets have no line, and be short of nothing. */
TEST(a_sheet_that_says_nothing_of_a_subject_is_told_so)
{
	static const char ABOUT[] =
	    "not-stated:\n- id: n\n  subject: s\n  ask: a\n"
	    "  about: [raft, lifejackets, beacons, visual-signals, extinguishers, lifebuoy, "
	    "first-aid, sound-radio]\n";
	static const char LINES[] =
	    HEAD RULE("a", "tether", "renew", MADE("12"), "") "carriage:\n";
	SCOPED_TEXT whole = {0};
	SCOPED_TEXT some = {0};
	text_add_format(
	    &whole, "%s%s%s", LINES, LINE("l", "  when: {use: private}\n"), ABOUT);
	text_add_format(
	    &some, "%s%s%s", LINES, LINE("l", "  when: {areas: [x]}\n"), ABOUT);

	struct looked_over over = look_over_as(*state, text_string(&whole), true);
	assert_int_equal(over.findings.count, 0);
	put_away(&over);
	/* in another area than x nothing is said of tethers */
	over = look_over_as(*state, text_string(&some), true);
	assert_int_equal(sheet_findings_wrong(&over.findings), 1);
	assert_int_equal(over.findings.items[0].line, 0);
	assert_string_equal(
	    over.findings.items[0].what, "not for every boat does it speak of: tethers");
	put_away(&over);
	over = look_over_as(*state, text_string(&some), false);
	assert_int_equal(over.findings.count, 1);
	assert_true(over.findings.items[0].remark);
	assert_int_equal(sheet_findings_wrong(&over.findings), 0);
	put_away(&over);
}

/* What it takes over was its writer's: only what a sheet says itself is looked at, but that is
 * held against the rest. */
static bool
find_base(void *context, const char *name, const struct sheet **out, struct fault *fault)
{
	(void)fault;
	assert_string_equal(name, "base");
	*out = context;
	return true;
}

TEST(what_is_taken_over_is_held_against_what_is_new)
{
	static const char BASE[] = HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "tether", "renew", MADE("24"), "");
	static const char MORE[] =
	    "sheet: m\ntitle: T\nfor: f\ncompiled: 2026-11-25\nextends: base\n"
	    "strikes: [b]\nrules:\n" RULE("c", "tether", "renew", MADE("36"), "");
	struct looked_over base = look_over(*state, BASE);
	struct looked_over more = {0};
	struct fault fault = {0};
	const struct sheet_library library = {find_base, base.sheet};
	SCOPED_TEXT yaml = {0};
	text_add(&yaml, MORE);
	assert_int_equal(base.findings.count, 1);
	assert_true(sheet_read(
	    "m.yaml", MORE, strlen(MORE), *state, &library, &more.sheet, &fault));
	sheet_check(more.sheet, &yaml, false, &more.arena, &more.findings);
	assert_int_equal(sheet_findings_wrong(&more.findings), 1);
	assert_int_equal(more.findings.items[0].line, 8);
	assert_non_null(strstr(more.findings.items[0].what, "contradict those of a:"));
	put_away(&more);
	put_away(&base);
}

/* A sheet of the program that says two things at once says so by `beside`. */
TEST(the_sheets_of_the_program_are_in_order)
{
	static const char *const NAMES[] = {"australia", "canada-private",
	    "france-private", "germany-private", "italy-private", "offshore-racing",
	    "practice", "solas-convention", "spain-recreational", "uk-private",
	    "uk-small-commercial", "us-recreational", "us-small-passenger",
	    "us-uninspected-passenger"};

	for (size_t i = 0; i < sizeof NAMES / sizeof NAMES[0]; i++) {
		char path[128];
		SCOPED_TEXT yaml = {0};
		(void)snprintf(path, sizeof path, "sheets/%s.yaml", NAMES[i]);
		data_file_read(path, &yaml);
		struct looked_over over = look_over_as(*state, text_string(&yaml), true);
		if (over.findings.count > 0) {
			fail_msg("%s: %s: %s", NAMES[i], over.findings.items[0].about,
			    over.findings.items[0].what);
		}
		put_away(&over);
	}
}

static struct rulebook *
rulebook_of(const struct sheet *sheet)
{
	struct rulebook *book = NULL;
	struct fault fault = {0};
	const struct sheet *sheets[] = {sheet};
	assert_true(rulebook_new(sheets, 1, &book, &fault));
	return book;
}

TEST(two_sheets_are_laid_side_by_side_by_kind_and_task)
{
	static const char A[] = HEAD RULE("a", "tether", "renew", MADE("12"), "")
	    RULE("b", "jackstay", "renew", MADE("24"), "")
		RULE("c", "jackstay", "inspect", MADE("1"), "");
	static const char B[] = HEAD RULE("x", "tether", "renew", MADE("12"), "")
	    RULE("y", "jackstay", "renew", MADE("36"), "");
	struct looked_over a = look_over(*state, A);
	struct looked_over b = look_over(*state, B);
	struct rulebook *books[2] = {rulebook_of(a.sheet), rulebook_of(b.sheet)};
	const struct rulebook *const sides[2] = {books[0], books[1]};
	struct comparison all = {0};
	struct comparison one = {0};
	compare_rules(sides, *state, NULL, &a.arena, &all);
	compare_rules(sides, *state, "tether", &a.arena, &one);
	assert_int_equal(all.count, 3);
	assert_int_equal(one.count, 1);
	assert_true(one.items[0].same);
	assert_string_equal(one.items[0].sides[1].items[0]->id, "x");
	for (size_t i = 0; i < all.count; i++) {
		const struct task_compared *row = &all.items[i];
		bool tether = strcmp(row->kind, "tether") == 0;
		assert_int_equal(row->same, tether);
		assert_int_equal(row->sides[0].count, 1);
		assert_int_equal(row->sides[1].count, row->task == TASK_RENEW ? 1 : 0);
	}
	rulebook_free(books[0]);
	rulebook_free(books[1]);
	put_away(&a);
	put_away(&b);
}

/* A rule that has all there is, and others of which each differs from it in one thing alone. */
#define ALL(months, more) "{from: [packed, made], months: " months more "}"
#define MOST                                                                             \
	"  lapse: life-expired\n  window: {early: 2, late: 1, next: from-due}\n"         \
	"  contents-bind: yes\n  refit: yes\n  extension: 5\n"
static const char ONE_RULE[] = HEAD RULE("a", "tether", "renew", ALL("12", ""), MOST);

static bool
same_as_one(const struct kinds *kinds, const char *text)
{
	struct arena arena = {0};
	struct comparison compared = {0};
	struct fault fault = {0};
	struct sheet *sheets[2] = {NULL, NULL};
	struct rulebook *books[2] = {NULL, NULL};
	const char *const texts[] = {ONE_RULE, text};
	for (size_t i = 0; i < 2; i++) {
		if (!sheet_read("m.yaml", texts[i], strlen(texts[i]), kinds, NULL,
			&sheets[i], &fault) ||
		    !rulebook_new(
			(const struct sheet *const *)&sheets[i], 1, &books[i], &fault)) {
			fail_msg("%s\n%s", fault.text, texts[i]);
		}
	}
	const struct rulebook *const sides[] = {books[0], books[1]};
	compare_rules(sides, kinds, "tether", &arena, &compared);
	assert_int_equal(compared.count, 1);
	bool same = compared.items[0].same;
	for (size_t i = 0; i < 2; i++) {
		rulebook_free(books[i]);
		sheet_free(sheets[i]);
	}
	arena_clear(&arena);
	return same;
}

TEST(rules_that_differ_in_one_thing_are_not_the_same)
{
#define WITH(clocks) HEAD RULE("a", "tether", "renew", clocks, MOST)
#define HAS(more) HEAD RULE("a", "tether", "renew", ALL("12", ""), more)
	static const char *const OTHERS[] = {WITH(ALL("13", "")),
	    WITH(ALL("12", ", through: month-end")), WITH(ALL("12", ", before: yes")),
	    WITH(ALL("12", ", stamp: end")), WITH("{from: [packed, made], days: 12}"),
	    WITH("{from: [made, packed], months: 12}"),
	    WITH("{from: [packed], months: 12}"),
	    WITH("{from: [packed, made, bought], months: 12}"),
	    WITH(ALL("12", ", holds: first")), WITH(ALL("12", "") ", " MADE("60")),
	    HAS("  window: {early: 2, late: 1, next: from-due}\n"
		"  contents-bind: yes\n  refit: yes\n  extension: 5\n"),
	    HAS("  lapse: life-expired\n  window: {early: 3, late: 1, next: from-due}\n"
		"  contents-bind: yes\n  refit: yes\n  extension: 5\n"),
	    HAS("  lapse: life-expired\n  window: {early: 2, late: 2, next: from-due}\n"
		"  contents-bind: yes\n  refit: yes\n  extension: 5\n"),
	    HAS("  lapse: life-expired\n  window: {early: 2, late: 1, next: from-done}\n"
		"  contents-bind: yes\n  refit: yes\n  extension: 5\n"),
	    HAS("  lapse: life-expired\n  window: {early: 2, late: 1, next: from-due}\n"
		"  refit: yes\n  extension: 5\n"),
	    HAS("  lapse: life-expired\n  window: {early: 2, late: 1, next: from-due}\n"
		"  contents-bind: yes\n  extension: 5\n"),
	    HAS("  lapse: life-expired\n  window: {early: 2, late: 1, next: from-due}\n"
		"  contents-bind: yes\n  refit: yes\n  extension: 6\n"),
	    HAS("  when: {use: commercial}\n" MOST)};

	assert_true(same_as_one(*state, ONE_RULE));
	for (size_t i = 0; i < sizeof OTHERS / sizeof OTHERS[0]; i++) {
		if (same_as_one(*state, OTHERS[i])) {
			fail_msg("taken for the same:\n%s", OTHERS[i]);
		}
	}
}

RUN_TESTS(data_file_open_kinds, data_file_close_kinds)
