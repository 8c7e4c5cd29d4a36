#include "cli/options.h"

#include "becket_test.h"
#include "dates/stamp.h"

#include <stdio.h>
#include <string.h>

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "whose"},
    {.name = "closed", .argument = "DAYS", .help = "shut", .repeatable = true},
    {.name = "part-of", .argument = "TAG", .help = "parent"},
    {.name = "use", .argument = "private|commercial", .help = "use"},
    {.name = "strict", .help = "strictly"},
    {.name = "secret", .help = "not shown", .hidden = true},
};

static const struct option_spec NEEDED[] = {
    {.name = "on", .argument = "DATE", .help = "the day", .required = true},
};

static const struct word_spec WORDS[] = {
    {.name = "TASK", .choices = "service|inspect", .help = "task", .required = true},
    {.name = "TAG", .help = "items", .required = true, .repeatable = true},
};

static const struct word_spec ONE_WORD[] = {
    {.name = "NAME", .help = "name"},
};

static const struct option_table PLAIN = {
    .options = OPTIONS,
    .option_count = sizeof OPTIONS / sizeof OPTIONS[0],
    .words = ONE_WORD,
    .word_count = 1,
};

static const struct option_table RECORD = {
    .options = NEEDED,
    .option_count = 1,
    .words = WORDS,
    .word_count = 2,
};

/* What a command has of its options. */
struct typed {
	const char *base;
	day_t on;
	int within;
	int state;
	bool strict;
	struct stamp made;
	struct word_list parts;
	unsigned tasks;
	int64_t price;
};

static const struct option_spec TYPED_OPTIONS[] = {
    {.name = "base",
	.argument = "PLACE",
	.help = "where",
	.not_with = "strict",
	.type = OPTION_WORDS,
	.at = offsetof(struct typed, base)},
    {.name = "on",
	.argument = "DATE",
	.help = "the day",
	.needs = "within state",
	.type = OPTION_DAY,
	.at = offsetof(struct typed, on)},
    {.name = "within",
	.argument = "DAYS",
	.help = "days",
	.type = OPTION_COUNT,
	.at = offsetof(struct typed, within),
	.least = 1,
	.most = 9},
    {.name = "state",
	.argument = "good|bad|ugly",
	.help = "how",
	.needs = "within",
	.type = OPTION_CHOICE,
	.at = offsetof(struct typed, state)},
    {.name = "strict",
	.help = "strictly",
	.type = OPTION_FLAG,
	.at = offsetof(struct typed, strict)},
};

static const struct option_table TYPED = {
    .options = TYPED_OPTIONS,
    .option_count = sizeof TYPED_OPTIONS / sizeof TYPED_OPTIONS[0],
};

/* Parses and completes a line that ends in NULL. */
static bool
read_line(const struct option_table *table, const char *const *words,
    struct given_options *given, struct fault *fault)
{
	struct command_line line = {words, 0};
	while (words[line.count] != NULL) {
		line.count++;
	}
	given->tables = table;
	given->table_count = 1;
	return options_parse("becket try", &line, false, given, fault) &&
	       options_complete("becket try", given, fault);
}

#define LINE(...)                                                                        \
	(const char *const[])                                                            \
	{                                                                                \
		__VA_ARGS__, NULL                                                        \
	}

/* Expects a usage fault with exactly these words before the pointer to help. */
static void
expect_fault(const struct option_table *table, const char *const *words, const char *text)
{
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	assert_false(read_line(table, words, &given, &fault));
	assert_int_equal(fault.kind, FAULT_USAGE);
	char expected[512];
	(void)snprintf(expected, sizeof expected, "%s; try \"becket try --help\"", text);
	assert_string_equal(fault.text, expected);
}

TEST(a_value_follows_its_option_or_an_equals_sign)
{
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	assert_true(read_line(&PLAIN,
	    LINE("--vessel", "Two Words", "--use=private", "here"), &given, &fault));
	assert_string_equal(options_value(&given, "vessel"), "Two Words");
	assert_string_equal(options_value(&given, "use"), "private");
	assert_string_equal(options_word(&given, 0), "here");
	assert_null(options_word(&given, 1));
	assert_false(options_has(&given, "strict"));
}

TEST(an_empty_value_is_a_value)
{
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	assert_true(
	    read_line(&PLAIN, LINE("--vessel=", "--part-of", ""), &given, &fault));
	assert_string_equal(options_value(&given, "vessel"), "");
	assert_string_equal(options_value(&given, "part-of"), "");
}

TEST(an_underline_counts_as_a_hyphen)
{
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	assert_true(read_line(&PLAIN, LINE("--part_of", "LJ-1"), &given, &fault));
	assert_string_equal(options_value(&given, "part-of"), "LJ-1");
}

TEST(a_repeatable_option_keeps_its_order)
{
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	assert_true(read_line(
	    &PLAIN, LINE("--closed", "a", "--strict", "--closed=b"), &given, &fault));
	assert_int_equal(given.count, 3);
	assert_string_equal(given.items[0].value, "a");
	assert_string_equal(given.items[2].value, "b");
	assert_true(options_has(&given, "strict"));
}

TEST(two_hyphens_end_the_options_and_one_is_a_word)
{
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	assert_true(read_line(&PLAIN, LINE("--", "--vessel"), &given, &fault));
	assert_string_equal(options_word(&given, 0), "--vessel");
	assert_false(options_has(&given, "vessel"));

	SCOPED_OPTIONS dash = {0};
	assert_true(read_line(&PLAIN, LINE("-"), &dash, &fault));
	assert_string_equal(options_word(&dash, 0), "-");
}

TEST(leading_options_end_before_the_first_word)
{
	SCOPED_OPTIONS given = {.tables = &PLAIN, .table_count = 1};
	struct fault fault = {0};
	struct command_line line = {LINE("--vessel", "A", "due", "--strict"), 4};
	assert_true(options_parse("becket", &line, true, &given, &fault));
	assert_int_equal(line.count, 2);
	assert_string_equal(line.items[0], "due");
	assert_int_equal(given.words.count, 0);
}

TEST(an_unknown_option_is_named_with_the_nearest)
{
	expect_fault(&PLAIN, LINE("--vesel", "A"),
	    "there is no option --vesel (did you mean --vessel?)");
	expect_fault(&PLAIN, LINE("--vesel=A"),
	    "there is no option --vesel=A (did you mean --vessel?)");
	expect_fault(&PLAIN, LINE("--colour"), "there is no option --colour");
	expect_fault(&PLAIN, LINE("-x"), "there is no option -x");
	/* hidden ones are not suggested */
	expect_fault(&PLAIN, LINE("--secrte"), "there is no option --secrte");
}

TEST(a_doubled_option_is_refused)
{
	expect_fault(&PLAIN, LINE("--vessel", "A", "--vessel", "A"),
	    "--vessel is there twice, expected once");
	expect_fault(&PLAIN, LINE("--strict", "--strict"),
	    "--strict is there twice, expected once");
}

TEST(a_missing_value_is_refused)
{
	expect_fault(
	    &PLAIN, LINE("--vessel"), "--vessel expects NAME, found nothing after it");
	expect_fault(&PLAIN, LINE("--vessel", "--strict"),
	    "--vessel expects NAME, found the option --strict (a value that starts so is "
	    "written --vessel=--strict)");
}

TEST(a_switch_takes_no_value)
{
	expect_fault(
	    &PLAIN, LINE("--strict=yes"), "--strict takes no value, found \"yes\"");
}

TEST(a_choice_is_one_of_its_words)
{
	expect_fault(&PLAIN, LINE("--use", "pleasure"),
	    "--use expects one of private|commercial, found \"pleasure\"");
	expect_fault(&PLAIN, LINE("--use", "priv"),
	    "--use expects one of private|commercial, found \"priv\"");
	expect_fault(&RECORD, LINE("polish", "LJ-1", "--on", "2026-01-01"),
	    "expected one of service|inspect, found \"polish\"");
	assert_true(options_is_choice("private|commercial"));
	assert_false(options_is_choice("MM-DD..MM-DD|none"));
	assert_false(options_is_choice("service"));
}

TEST(what_is_required_must_be_there)
{
	expect_fault(&RECORD, LINE("--on", "2026-01-01"), "TASK is missing");
	expect_fault(&RECORD, LINE("service", "--on", "2026-01-01"), "TAG is missing");
	expect_fault(&RECORD, LINE("service", "LJ-1"), "--on DATE is missing");
}

TEST(only_a_repeatable_word_may_come_again)
{
	expect_fault(&PLAIN, LINE("one", "two"), "\"two\" is a word too many");
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	assert_true(read_line(&RECORD,
	    LINE("service", "LJ-1", "LJ-2", "LJ-3", "--on", "x"), &given, &fault));
	assert_int_equal(given.words.count, 4);
	assert_string_equal(options_word(&given, 3), "LJ-3");
}

TEST(the_nearest_word_is_a_slip_away_or_there_is_none)
{
	static const char *const NAMES[] = {"winter", "why", "due", "liferaft-canister"};
	assert_string_equal(nearest_word("wintre", NAMES, 4), "winter");
	assert_string_equal(nearest_word("winer", NAMES, 4), "winter");
	assert_string_equal(nearest_word("deu", NAMES, 4), "due");
	assert_string_equal(
	    nearest_word("liferaft-cannister", NAMES, 4), "liferaft-canister");
	assert_string_equal(nearest_word("WINTRE", NAMES, 4), "winter");
	assert_null(nearest_word("summer", NAMES, 4));
	assert_null(nearest_word("xy", NAMES, 4));
	assert_null(nearest_word("", NAMES, 4));
}

/* By hand: the letters to add, drop or change, two neighbours swapped counting as one. */
TEST(a_word_is_near_by_its_letters_and_its_beginning)
{
	static const struct {
		const char *typed;
		const char *word;
		bool near;
		size_t off;
	} ROWS[] = {
	    {"vessel", "vessel", true, 0},
	    {"Vesle", "vessel", false, 2}, /* two of five */
	    {"vesle", "vesel", true, 1},   /* one, swapped */
	    {"stations", "station", true, 1},
	    {"sttaino", "station", true, 2}, /* two of seven */
	    {"sttaion", "station", true, 1},
	    {"essel", "vessel", true, 1}, /* begins otherwise: one of four or more */
	    {"ue", "due", false, 1},      /* of two letters */
	    {"fue", "due", false, 1},     /* of three */
	    {"du", "due", true, 1},       /* the same beginning */
	    {"mordant", "pendant", false, 3},
	    {"fordent", "pendant", false, 4},
	    {"wendent", "pendant", false, 2}, /* two of seven, but no beginning */
	    {"holm quay rafts", "Holm Quay Loft", true, 3},
	    {"the holm quai", "Holm Quay", false, 5},
	    {"ham quay", "Holm Quay", true, 2}, /* two of eight, alike from the start */
	    {"tie quay", "rye quay", true, 2},  /* a word in common */
	    {"sextant", "extinguisher", false, 9},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		size_t off = 99;
		assert_int_equal(
		    word_is_near(ROWS[i].typed, ROWS[i].word, &off), ROWS[i].near);
		assert_int_equal(off, ROWS[i].off);
	}
	assert_true(words_in_common("tether hook", "safety HOOK"));
	assert_true(words_in_common("flare-red", "Red lamp"));
	assert_false(words_in_common("a raft", "a boat")); /* one letter is no word */
	assert_false(words_in_common("raft", "rafts"));
}

TEST(words_that_are_all_in_a_text_add_nothing_to_it)
{
	assert_true(words_all_in("First aid kit", "first-aid kit"));
	assert_true(words_all_in("Smoke orange", "buoyant orange smoke"));
	assert_true(words_all_in("", "raft"));
	assert_false(words_all_in("automatic lifejacket (Anna)", "automatic lifejacket"));
	assert_false(words_all_in("raft 4", "raft"));
	assert_true(words_all_in("Red hand flares", "red hand flare"));
	assert_false(words_all_in("raftss", "raft"));
	assert_false(words_all_in("s", "raft"));
	assert_false(words_all_in("glas", "glass"));
}

/* A fixed word stands as its table has it, in the options and in the words. */
TEST(a_choice_is_found_in_any_case_and_without_accents)
{
	SCOPED_OPTIONS given = {0};
	SCOPED_OPTIONS record = {0};
	struct fault fault = {0};
	assert_true(read_line(&PLAIN, LINE("--use", "Commércial"), &given, &fault));
	assert_string_equal(options_value(&given, "use"), "commercial");
	assert_true(
	    read_line(&RECORD, LINE("SERVICE", "LJ-1", "--on", "x"), &record, &fault));
	assert_string_equal(options_word(&record, 0), "service");
	assert_string_equal(options_word(&record, 1), "LJ-1");
}

TEST(the_usage_shows_required_before_optional)
{
	SCOPED_TEXT record = {0};
	options_usage(&RECORD, &record);
	assert_string_equal(text_string(&record), "TASK TAG... --on DATE");
	SCOPED_TEXT plain = {0};
	options_usage(&PLAIN, &plain);
	assert_string_equal(text_string(&plain),
	    "[NAME] [--vessel NAME] [--closed DAYS]... [--part-of TAG] "
	    "[--use private|commercial] [--strict]");
}

TEST(values_go_where_their_types_say)
{
	SCOPED_OPTIONS given = {.today = 20000};
	struct fault fault = {0};
	struct typed typed = {.within = -1, .state = -1};
	assert_true(read_line(&TYPED,
	    LINE("--state", "ugly", "--on", "yesterday", "--within=9", "--base", "Quay"),
	    &given, &fault));
	assert_true(options_into(&given, &typed, &fault));
	assert_string_equal(typed.base, "Quay");
	assert_int_equal(typed.on, 19999);
	assert_int_equal(typed.within, 9);
	assert_int_equal(typed.state, 2);
	assert_false(typed.strict);
}

static const struct option_spec LISTED_OPTIONS[] = {
    {.name = "made",
	.argument = "DATE",
	.help = "made",
	.type = OPTION_STAMP,
	.at = offsetof(struct typed, made)},
    {.name = "part",
	.argument = "TAG",
	.help = "parts",
	.repeatable = true,
	.type = OPTION_TAG,
	.at = offsetof(struct typed, parts)},
    {.name = "for",
	.argument = "service|inspect|weigh",
	.help = "tasks",
	.repeatable = true,
	.type = OPTION_CHOICE,
	.at = offsetof(struct typed, tasks)},
    {.name = "price",
	.argument = "PRICE",
	.help = "price",
	.type = OPTION_PRICE,
	.at = offsetof(struct typed, price)},
};

static const struct option_table LISTED = {.options = LISTED_OPTIONS, .option_count = 4};

/* Stands for a book: a price of as many units as the words are long. */
static bool
read_length(void *of, const struct option_spec *spec, const char *value, void *at,
    struct fault *fault)
{
	(void)of;
	(void)fault;
	assert_int_equal(spec->type, OPTION_PRICE);
	*(int64_t *)at = (int64_t)strlen(value);
	return true;
}

TEST(repeatable_values_make_lists_and_sets)
{
	struct arena arena = {0};
	SCOPED_OPTIONS given = {.reader = {.read = read_length, .arena = &arena}};
	struct fault fault = {0};
	struct typed typed = {.price = -1};
	assert_true(read_line(&LISTED,
	    LINE("--for", "weigh", "--part", "A-1", "--made", "2021-04", "--part", "B-2",
		"--for", "service", "--price", "45.00"),
	    &given, &fault));
	assert_true(options_into(&given, &typed, &fault));
	assert_int_equal(typed.parts.count, 2);
	assert_string_equal(typed.parts.items[0], "A-1");
	assert_string_equal(typed.parts.items[1], "B-2");
	assert_int_equal(typed.tasks, 1U << 0 | 1U << 2);
	assert_int_equal(typed.made.precision, STAMP_MONTH);
	assert_int_equal(typed.price, 5);
	arena_clear(&arena);
}

/* An option of some acts goes with those first words alone; FILE stands for any other. */
TEST(an_option_goes_with_its_acts)
{
	static const struct word_spec ACT_WORDS[] = {
	    {.name = "FILE|push|pull", .help = "act", .required = true}};
	static const struct option_spec ACT_OPTIONS[] = {
	    {.name = "make", .help = "make", .acts = "push"},
	    {.name = "url", .argument = "ADDRESS", .help = "url", .acts = "push pull"},
	    {.name = "name", .argument = "WORDS", .help = "name", .acts = "FILE"},
	};
	static const struct option_table ACTS = {.options = ACT_OPTIONS,
	    .option_count = 3,
	    .words = ACT_WORDS,
	    .word_count = 1};
	static const struct word_spec MAYBE_WORDS[] = {
	    {.name = "WHAT", .choices = "new|list", .help = "act"}};
	static const struct option_spec MAYBE_OPTIONS[] = {
	    {.name = "all", .help = "all", .acts = "new"}};
	static const struct option_table MAYBE = {.options = MAYBE_OPTIONS,
	    .option_count = 1,
	    .words = MAYBE_WORDS,
	    .word_count = 1};
	expect_fault(
	    &ACTS, LINE("pull", "--make"), "--make goes with push, not with pull");
	expect_fault(&ACTS, LINE("a.ics", "--url", "x"),
	    "--url goes with push or pull, not with FILE");
	expect_fault(
	    &ACTS, LINE("push", "--name", "x"), "--name goes with FILE, not with push");
	expect_fault(&MAYBE, LINE("--all"), "--all goes with new, which is not there");
	const char *const *const taken[] = {LINE("push", "--make", "--url", "x"),
	    LINE("pull", "--url", "x"), LINE("a.ics", "--name", "x")};
	for (size_t i = 0; i < sizeof taken / sizeof taken[0]; i++) {
		SCOPED_OPTIONS given = {0};
		struct fault fault = {0};
		assert_true(read_line(&ACTS, taken[i], &given, &fault));
	}
}

/* The number of the first word may be another than 0, for an enum that begins with "not told". */
TEST(a_choice_counts_from_its_least)
{
	static const struct option_spec DATES_OPTIONS[] = {{.name = "dates",
	    .argument = "day-first|month-first",
	    .help = "order",
	    .type = OPTION_CHOICE,
	    .at = offsetof(struct typed, state),
	    .least = 1}};
	static const struct option_table DATES = {
	    .options = DATES_OPTIONS, .option_count = 1};
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	struct typed typed = {0};
	assert_true(read_line(&DATES, LINE("--dates", "Month-First"), &given, &fault));
	assert_true(options_into(&given, &typed, &fault));
	assert_int_equal(typed.state, 2);
}

TEST(an_older_spelling_is_taken_and_not_shown)
{
	static const struct option_spec RENAMED_OPTIONS[] = {{.name = "station",
	    .also = "to",
	    .argument = "STATION",
	    .help = "where to",
	    .type = OPTION_STATION,
	    .at = offsetof(struct typed, base)}};
	static const struct option_table RENAMED = {
	    .options = RENAMED_OPTIONS, .option_count = 1};
	SCOPED_OPTIONS given = {0};
	SCOPED_TEXT usage = {0};
	struct fault fault = {0};
	struct typed typed = {0};
	assert_true(read_line(&RENAMED, LINE("--to", "Depot"), &given, &fault));
	assert_true(options_into(&given, &typed, &fault));
	assert_string_equal(typed.base, "Depot");
	assert_string_equal(options_value(&given, "station"), "Depot");
	options_usage(&RENAMED, &usage);
	assert_string_equal(text_string(&usage), "[--station STATION]");
	/* both are one option */
	SCOPED_OPTIONS twice = {0};
	assert_false(read_line(
	    &RENAMED, LINE("--to", "Depot", "--station", "Loft"), &twice, &fault));
	assert_non_null(strstr(fault.text, "--station is there twice"));
}

TEST(what_was_not_given_is_left_as_it_is)
{
	SCOPED_OPTIONS given = {0};
	struct fault fault = {0};
	struct typed typed = {.base = "kept", .within = -1, .state = -1};
	assert_true(read_line(&TYPED, LINE("--strict"), &given, &fault));
	assert_true(options_into(&given, &typed, &fault));
	assert_true(typed.strict);
	assert_string_equal(typed.base, "kept");
	assert_int_equal(typed.within, -1);
	assert_int_equal(typed.state, -1);
}

TEST(a_value_of_another_type_is_refused_by_its_option)
{
	static const char *const WRONG[][2] = {
	    {"--within=0", "--within: \"0\" is no whole number from 1 to 9"},
	    {"--within=10", "--within: \"10\" is no whole number from 1 to 9"},
	    {"--within=+3", "--within: \"+3\" is no whole number from 1 to 9"},
	};
	for (size_t i = 0; i < sizeof WRONG / sizeof WRONG[0]; i++) {
		SCOPED_OPTIONS given = {0};
		struct fault fault = {0};
		struct typed typed = {.within = -1};
		assert_true(read_line(&TYPED, LINE(WRONG[i][0]), &given, &fault));
		assert_false(options_into(&given, &typed, &fault));
		assert_int_equal(fault.kind, FAULT_INPUT);
		assert_string_equal(fault.text, WRONG[i][1]);
		assert_int_equal(typed.within, -1);
	}
}

TEST(an_option_says_what_it_needs_and_what_it_does_not_go_with)
{
	expect_fault(&TYPED, LINE("--state", "bad"),
	    "--state goes with --within, which is not there");
	expect_fault(&TYPED, LINE("--on", "today"),
	    "--on goes with one of --within, --state; none of them is there");
	expect_fault(&TYPED, LINE("--strict", "--base", "Quay"),
	    "--base and --strict exclude each other");
}

RUN_TESTS(NULL, NULL)
