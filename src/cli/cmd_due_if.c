/* becket due --if */
#include "cli/command.h"
#include "cli/parts.h"
#include "desk/questions.h"
#include "exchange/answers.h"

#include <string.h>
#include <strings.h>

static bool
twice(const char *what, struct fault *fault)
{
	return usage_fault(fault, "becket due",
	    "found %s= more than once in --if; expected it once", what);
}

static bool
read_persons(const char *word, struct supposition *words, struct fault *fault)
{
	long persons = 0;
	if (!number_read(word, 0, 10000, &persons)) {
		return fault_set(fault, FAULT_INPUT,
		    "--if persons: expected a whole number from 0 to 10000, found "
		    "\"%.40s\"",
		    word);
	}
	words->persons = (int)persons;
	return true;
}

/* What can be supposed, by the word in front of the "=". */
enum subject { SUBJECT_USE, SUBJECT_AREA, SUBJECT_PERSONS, SUBJECT_SHEET, SUBJECT_NONE };

static enum subject
subject_of(const char *value)
{
	static const char *const WORDS[] = {"use=", "area=", "persons=", "sheet="};
	for (size_t i = 0; i < COUNT_OF(WORDS); i++) {
		if (strncasecmp(value, WORDS[i], strlen(WORDS[i])) == 0) {
			return (enum subject)i;
		}
	}
	return SUBJECT_NONE;
}

/* Reads one "use=commercial"; a sheet's name joins `sheets`. */
static bool
read_one(const char *value, struct supposition *words, const char **sheets,
    struct fault *fault)
{
	static const unsigned SAYS[] = {
	    SAYS_USE, SAYS_AREA, SAYS_PERSONS, SAYS_SHEETS, 0};
	enum subject subject = subject_of(value);
	const char *word = strchr(value, '=');
	word = word == NULL ? "" : word + 1;
	if (subject != SUBJECT_SHEET && (words->says & SAYS[subject]) != 0) {
		return twice(subject == SUBJECT_USE    ? "use"
			     : subject == SUBJECT_AREA ? "area"
						       : "persons",
		    fault);
	}
	words->says |= SAYS[subject];
	switch (subject) {
	case SUBJECT_USE:
		return use_parse(word, &words->use, fault) ||
		       fault_prefix(fault, "--if use");
	case SUBJECT_AREA:
		words->area = word;
		return true;
	case SUBJECT_PERSONS:
		return read_persons(word, words, fault);
	case SUBJECT_SHEET:
		sheets[words->sheet_count++] = word;
		return true;
	case SUBJECT_NONE:
		break;
	}
	return fault_set(fault, FAULT_INPUT,
	    "--if: expected use=private|commercial, area=AREA, persons=N or sheet=NAME, found "
	    "\"%.60s\"",
	    value);
}

static bool
read_supposition(struct context *context, const struct suppose_said *said,
    struct supposition *out, struct fault *fault)
{
	const char **sheets =
	    arena_alloc(&context->desk.arena, (said->what.count + 1) * sizeof *sheets);
	out->sheets = sheets;
	out->from = said->from == DAY_NONE ? context->desk.today : said->from;
	for (size_t i = 0; i < said->what.count; i++) {
		if (!read_one(said->what.items[i], out, sheets, fault)) {
			return false;
		}
	}
	return true;
}

bool
suppose_run(struct context *context, const struct suppose_said *said,
    const struct gear_wish *gear, bool routine, struct fault *fault)
{
	struct suppose_asked asked = {.gear = *gear, .routine = routine};
	struct change_rows rows = {0};
	if (!read_supposition(context, said, &asked.supposed.supposition, fault) ||
	    !desk_suppose(&context->desk, &asked, &rows, fault)) {
		return false;
	}
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (context->json) {
		answer_suppose(inventory, context->desk.today, &asked.supposed, &rows,
		    &context->out);
	} else if (!context_is_empty(context)) {
		report_suppose(context_style(context), context->desk.engine.kinds,
		    inventory, &asked.supposed, &rows, &context->out);
	}
	return true;
}
