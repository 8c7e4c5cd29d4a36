#include "cli/asking.h"
#include "cli/terminal.h"
#include "desk/naming.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One question: what is asked, then the answer. False with a fault at "stop" and the end. */
static bool
ask(const struct text *question, struct text *answer, struct fault *fault)
{
	bool there = false;
	SCOPED_TEXT shown = {0};
	/* it quotes the list */
	add_shown(&shown, text_string(question), question->length);
	if (!ask_line(text_string(&shown), answer, &there, fault)) {
		return false;
	}
	if (!there || text_same_letters(text_string(answer), "stop")) {
		return fault_set(fault, FAULT_INPUT, "stopped, and nothing is written");
	}
	return true;
}

/* Adds a mapping to an array that is not to be changed in place. */
static void
add_mapping(struct arena *arena, const struct csv_mapping **items, size_t *count,
    struct csv_mapping one)
{
	struct csv_mapping *more = arena_alloc(arena, (*count + 1) * sizeof *more);
	for (size_t i = 0; i < *count; i++) {
		more[i + 1] = (*items)[i];
	}
	more[0] = one;
	*items = more;
	*count += 1;
}

static void
keep(struct asked_doubts *asked, bool of_words, const char *theirs, const char *ours)
{
	struct arena *arena = &asked->context->desk.arena;
	struct import_answers *answers = &asked->answers;
	ARENA_ADD(arena, answers,
	    (struct import_answer){
		of_words, arena_string(arena, theirs), arena_string(arena, ours)});
}

static void
add_examples(const struct csv_doubt *doubt, const char *before, struct text *out)
{
	for (size_t i = 0; i < doubt->example_count; i++) {
		text_add_format(
		    out, "%s\"%.40s\"", i == 0 ? before : ", ", doubt->examples[i]);
	}
}

static void
list_columns(void)
{
	for (size_t i = 0; i < CSV_COLUMN_COUNT; i++) {
		(void)fprintf(stderr, "%s%s", i % 8 == 0 ? "\n  " : " ", CSV_COLUMNS[i]);
	}
	(void)fputs("\n", stderr);
}

/* The answer as a mapping has it; NULL when it names no column. Its own words stay, since "use by"
 * says more of the dates than "expires". */
static const char *
column_named(const char *answer)
{
	if (*answer == '\0' || text_same_letters(answer, "notes")) {
		return "notes";
	}
	if (text_same_letters(answer, "ignore")) {
		return "ignore";
	}
	return csv_column_meant(answer) == NULL ? NULL : answer;
}

static bool
ask_header(struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	SCOPED_TEXT question = {0};
	SCOPED_TEXT answer = {0};
	const char *column = NULL;
	text_add_format(&question, "\nColumn \"%.60s\"%s%s", doubt->theirs,
	    *doubt->hint == '\0' ? " is none that is known" : " ", doubt->hint);
	add_examples(doubt, "; in it: ", &question);
	text_add(&question,
	    ".\nWhich is it? A column (? lists them), notes keeps its words, ignore leaves "
	    "it. [notes] ");
	while (column == NULL) {
		if (!ask(&question, &answer, fault)) {
			return false;
		}
		column = column_named(text_string(&answer));
		if (column == NULL) {
			list_columns();
		}
	}
	add_mapping(&asked->context->desk.arena, &asked->options->mappings,
	    &asked->options->mapping_count,
	    (struct csv_mapping){
		doubt->theirs, arena_string(&asked->context->desk.arena, column), false});
	keep(asked, false, doubt->theirs, column);
	return true;
}

static void
list_kinds(const struct kinds *kinds)
{
	for (size_t i = 0; i < kinds_count(kinds); i++) {
		(void)fprintf(
		    stderr, "%s%-25s ", i % 3 == 0 ? "\n  " : "", kinds_at(kinds, i)->id);
	}
	(void)fputs("\n", stderr);
}

/* The kind that an answer means: one of the numbers, or words for it. NULL for none. */
static const struct kind *
kind_answered(const struct kinds *kinds, const struct kind *const *near, size_t count,
    const char *answer)
{
	char *end = NULL;
	unsigned long number = strtoul(answer, &end, 10);
	if (end != answer && *end == '\0') {
		return number >= 1 && number <= count ? near[number - 1] : NULL;
	}
	const struct kind *kind = kinds_find(kinds, answer);
	return kind != NULL || *answer == '\0' ? kind : kinds_guess(kinds, answer);
}

static void
word_kind_question(const struct csv_doubt *doubt, const struct kind *const *near,
    size_t near_count, struct text *out)
{
	text_add_format(out, "\n\"%.60s\" (", doubt->theirs);
	if (doubt->rows > 1) {
		text_add_format(out, "%zu rows, first ", doubt->rows);
	}
	text_add_format(out, "line %zu", doubt->line);
	add_examples(doubt, ": ", out);
	text_add(out, doubt->about == DOUBT_KIND ? ") is no kind that is known.\n"
						 : ") seems to be a heading or a sum.\n");
	for (size_t i = 0; i < near_count; i++) {
		text_add_format(out, "  %zu %s\n", i + 1, near[i]->id);
	}
	text_add_format(out,
	    "Which kind? %s kind (? lists them), or none where it is no gear: ",
	    near_count > 0 ? "A number, a" : "A");
}

/* Lines that are passed over. */
static void
leave_out(struct asked_doubts *asked, const struct csv_doubt *doubt)
{
	struct csv_options *options = asked->options;
	size_t count = options->left_out_count + doubt->lines.count;
	struct csv_lines *lines =
	    arena_alloc(&asked->context->desk.arena, (count + 1) * sizeof *lines);
	for (size_t i = 0; i < options->left_out_count; i++) {
		lines[i] = options->left_out[i];
	}
	for (size_t i = 0; i < doubt->lines.count; i++) {
		size_t line = strtoul(doubt->lines.items[i], NULL, 10);
		lines[options->left_out_count + i] = (struct csv_lines){line, line};
	}
	options->left_out = lines;
	options->left_out_count = count;
}

static void
take_meaning(struct asked_doubts *asked, const struct csv_doubt *doubt, const char *ours)
{
	add_mapping(&asked->context->desk.arena, &asked->options->meanings,
	    &asked->options->meaning_count,
	    (struct csv_mapping){doubt->theirs, ours, false});
	keep(asked, true, doubt->theirs, ours);
}

static bool
ask_kind(struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	SCOPED_TEXT question = {0};
	SCOPED_TEXT answer = {0};
	const struct kinds *kinds = NULL;
	const struct kind *near[KINDS_FIT_MOST];
	if (!desk_kinds(&asked->context->desk, &kinds, fault)) {
		return false;
	}
	size_t count = kinds_fitting(kinds, doubt->theirs, near);
	count = count > 0 ? count : kinds_nearest(kinds, doubt->theirs, near);
	word_kind_question(doubt, near, count, &question);
	for (;;) {
		if (!ask(&question, &answer, fault)) {
			return false;
		}
		const char *said = text_string(&answer);
		const struct kind *kind = kind_answered(kinds, near, count, said);
		if (text_same_letters(said, "none")) {
			if (doubt->about == DOUBT_NO_GEAR) {
				leave_out(asked, doubt);
			} else {
				take_meaning(asked, doubt, CSV_NO_GEAR);
			}
			return true;
		}
		if (kind != NULL) {
			take_meaning(asked, doubt, kind->id);
			return true;
		}
		if (strcmp(said, "?") == 0) {
			list_kinds(kinds);
		} else {
			(void)fprintf(stderr, "\"%s\" is no kind that is known.\n", said);
		}
	}
}

/* What a list is refused for that has to be mended first. */
static const char MENDED[] = "the list has to be mended, so nothing is written";

/* Asks until one of the letters of `letters` is the answer; its place. */
static bool ask_letter(const char *choices, const char *letters, int *out,
    struct fault *fault, const char *format, ...) FORMAT_LIKE(5, 6);

static bool
ask_letter(const char *choices, const char *letters, int *out, struct fault *fault,
    const char *format, ...)
{
	SCOPED_TEXT question = {0};
	SCOPED_TEXT answer = {0};
	va_list args;
	va_start(args, format);
	text_add_arguments(&question, format, args);
	va_end(args);
	*out = -1;
	while (*out < 0) {
		if (!ask(&question, &answer, fault)) {
			return false;
		}
		*out = ask_choice(text_string(&answer), choices, letters);
	}
	return true;
}

/* Rows without a kind: only a person can tell a total from gear. */
static bool
ask_no_kind(
    struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	SCOPED_TEXT words = {0};
	int said = 0;
	text_add_format(&words, "\n%zu row%s no kind of thing (line", doubt->rows,
	    doubt->rows == 1 ? " says" : "s say");
	for (size_t i = 0; i < doubt->lines.count && i < 8; i++) {
		text_add_format(
		    &words, "%s %s", i == 0 ? "" : ",", doubt->lines.items[i]);
	}
	text_add(&words, doubt->lines.count > 8 ? " and more" : "");
	add_examples(doubt, ": ", &words);
	text_add(&words, ").\nAre they no gear, and left out (l), or is the list to be "
			 "mended first (m)? ");
	if (!ask_letter(
		"left-out|mended", "lm", &said, fault, "%s", text_string(&words))) {
		return false;
	}
	leave_out(asked, doubt);
	return said == 0 || fault_set(fault, FAULT_INPUT, MENDED);
}

static bool
ask_quantities(
    struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	int said = 0;
	if (!ask_letter("quantities|one", "qo", &said, fault,
		"\n\"%.60s\" (line %zu) seems to say how many there are, and no column does.\n"
		"Are such numbers quantities (q), or is each row one piece (o)? ",
		doubt->theirs, doubt->line)) {
		return false;
	}
	asked->options->quantities = said == 0 ? QUANTITIES_FROM_WORDS : QUANTITIES_ONE;
	return true;
}

static bool
ask_next_alone(
    struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	int said = 0;
	if (!ask_letter("notes|mended", "nm", &said, fault,
		"\n%zu row%s a next date, as %s (line %zu), without the day the work was done.\n"
		"A date counts from that day alone. Keep it as words in the notes (n), or is "
		"the\nlist to be mended first (m)? ",
		doubt->rows, doubt->rows == 1 ? " has" : "s have", doubt->theirs,
		doubt->line)) {
		return false;
	}
	asked->options->next_alone = NEXT_ALONE_NOTES;
	return said == 0 || fault_set(fault, FAULT_INPUT, MENDED);
}

/* A date as it is read in an order, in words. */
static const char *
read_in(const char *text, enum date_order order, char out[STAMP_TEXT_SIZE])
{
	struct stamp stamp;
	struct fault ignored = {0};
	return stamp_parse(text, order, &stamp, &ignored) ? stamp_words(stamp, out)
							  : "no date";
}

static bool
ask_order(struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	char day_first[STAMP_TEXT_SIZE];
	char month_first[STAMP_TEXT_SIZE];
	int said = 0;
	if (!ask_letter("day|month", "dm", &said, fault,
		"\nDates such as \"%.40s\" could be either%s%s.\n"
		"Is the day first in this list (d: %s) or the month (m: %s)? ",
		doubt->theirs, *doubt->hint == '\0' ? "" : "; ", doubt->hint,
		read_in(doubt->theirs, ORDER_DAY_FIRST, day_first),
		read_in(doubt->theirs, ORDER_MONTH_FIRST, month_first))) {
		return false;
	}
	asked->options->order = said == 0 ? ORDER_DAY_FIRST : ORDER_MONTH_FIRST;
	return true;
}

static bool
ask_two_digits(
    struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	int said = 0;
	if (!ask_letter("yes|no", "yn", &said, fault,
		"\n\"%.40s\" (line %zu) has a year of two digits. Is it %s, and so on: 00 to 68 "
		"are\n2000 to 2068, 69 to 99 are 1969 to 1999 (y, or n to stop)? ",
		doubt->theirs, doubt->line, doubt->examples[0])) {
		return false;
	}
	asked->options->two_digit_years = said == 0;
	return said == 0 || fault_set(fault, FAULT_INPUT,
				"the years need four digits, so nothing is written");
}

static bool
ask_decimals(
    struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	int said = 0;
	if (!ask_letter("comma|point", "cp", &said, fault,
		"\n\"%.40s\" (line %zu): what parts the decimals in the prices of this list, a "
		"comma (c)\nor a point (p)? ",
		doubt->theirs, doubt->line)) {
		return false;
	}
	asked->options->decimals = said == 0 ? DECIMALS_COMMA : DECIMALS_POINT;
	return true;
}

static bool
ask_vessel(struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	struct desk *desk = &asked->context->desk;
	SCOPED_TEXT words = {0};
	SCOPED_TEXT answer = {0};
	struct word_list boats = {0};
	SCOPED_NAME_BOOK book = {.desk = desk};
	size_t found = 0;
	naming_all(&book, NAMED_VESSEL, &boats);
	text_add_format(&words, "\nThe list does not say whose its gear is (line %zu). ",
	    doubt->line);
	for (size_t i = 0; i < boats.count && i < 8; i++) {
		text_add_format(
		    &words, "%s%s", i == 0 ? "In the book: " : ", ", boats.items[i]);
	}
	text_add(&words, boats.count > 8   ? " and more.\nWhich boat's is it? "
			 : boats.count > 0 ? ".\nWhich boat's is it? "
					   : "\nWhat is the boat called? ");
	while (answer.length == 0) {
		if (!ask(&words, &answer, fault)) {
			return false;
		}
	}
	const char *name = text_string(&answer);
	if (!naming_among(
		desk, NAMED_VESSEL, name, boats.items, boats.count, &found, fault)) {
		return false;
	}
	asked->options->vessel =
	    found < boats.count ? boats.items[found] : arena_string(&desk->arena, name);
	return true;
}

bool
doubt_ask(struct asked_doubts *asked, const struct csv_doubt *doubt, struct fault *fault)
{
	struct csv_doubts *before = &asked->before;
	ARENA_ADD(&asked->context->desk.arena, before, *doubt);
	switch (doubt->about) {
	case DOUBT_HEADER:
		return ask_header(asked, doubt, fault);
	case DOUBT_KIND:
	case DOUBT_NO_GEAR:
		return ask_kind(asked, doubt, fault);
	case DOUBT_NO_KIND:
		return ask_no_kind(asked, doubt, fault);
	case DOUBT_QUANTITIES:
		return ask_quantities(asked, doubt, fault);
	case DOUBT_NEXT_ALONE:
		return ask_next_alone(asked, doubt, fault);
	case DOUBT_ORDER:
		return ask_order(asked, doubt, fault);
	case DOUBT_TWO_DIGITS:
		return ask_two_digits(asked, doubt, fault);
	case DOUBT_DECIMALS:
		return ask_decimals(asked, doubt, fault);
	case DOUBT_VESSEL:
		return ask_vessel(asked, doubt, fault);
	}
	return true;
}

bool
doubts_came_back(const struct asked_doubts *asked, const struct csv_doubts *doubts)
{
	for (size_t i = 0; i < doubts->count; i++) {
		for (size_t j = 0; j < asked->before.count; j++) {
			const struct csv_doubt *before = &asked->before.items[j];
			if (before->about == doubts->items[i].about &&
			    strcmp(before->theirs, doubts->items[i].theirs) == 0) {
				return true;
			}
		}
	}
	return false;
}
