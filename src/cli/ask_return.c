/* Asking, item by item, what came back. */
#include "base/memory.h"
#include "cli/asking.h"
#include "cli/terminal.h"
#include "gear/money.h"
#include "report/words.h"

#include <stdio.h>
#include <string.h>

/* What is being asked, and of what. */
struct return_asking {
	struct context *context;
	size_t item;
	struct text answer; /* owned; the last line */
};

/* Asks for a line; the end of the input ends everything. */
static bool
ask(struct return_asking *asking, const char *question, struct fault *fault)
{
	bool there = false;
	if (!ask_line(question, &asking->answer, &there, fault)) {
		return false;
	}
	return there || fault_set(fault, FAULT_INPUT,
			    "the answers ended before the last question; nothing is "
			    "written");
}

/* Says what is wrong with an answer, before the question is asked again. */
static void
say_again(const struct fault *wrong)
{
	(void)fprintf(stderr, "  %s\n", wrong->text);
}

/* Reads one kind of answer into a homecoming. */
typedef bool read_answer(struct return_asking *asking, const char *answer,
    struct homecoming *home, struct fault *fault);

/* Asks until the answer can be read. */
static bool
ask_until(struct return_asking *asking, const char *question, read_answer *read,
    struct homecoming *home, struct fault *fault)
{
	struct fault wrong = {0};
	for (;;) {
		if (!ask(asking, question, fault)) {
			return false;
		}
		if (read(asking, text_string(&asking->answer), home, &wrong)) {
			return true;
		}
		say_again(&wrong);
		wrong = (struct fault){0};
	}
}

/* The tag marks an item that came back; it stays NULL for one that is still ashore. */
static bool
read_result(struct return_asking *asking, const char *answer, struct homecoming *home,
    struct fault *fault)
{
	if (answer[0] == '\0') {
		return true;
	}
	/* A copy: the book is read again before it is written. */
	home->tag = arena_string(&asking->context->desk.arena,
	    asking->context->desk.contents.inventory.items[asking->item].tag);
	int letter =
	    ask_choice(answer, "passed|passed-shorter|condemned|not-done", "pscn");
	home->result =
	    letter < 0 ? RESULT_NOT_SAID : (enum result)(RESULT_PASSED + letter);
	return letter >= 0 || result_parse(answer, &home->result, fault);
}

/* An empty answer means what was asked of the station, where that is known: the person
 * has read it and is asked once more before it is written. */
static bool
read_tasks(struct return_asking *asking, const char *answer, struct homecoming *home,
    struct fault *fault)
{
	struct homecoming told = *home;
	char word[16];
	told.tasks = 0;
	told.as_asked = answer[0] == '\0' &&
			desk_return_facts(&asking->context->desk, asking->item).asked;
	for (const char *at = answer + strspn(answer, " ,");
	     *at != '\0' && !text_same_letters(answer, "none"); at += strspn(at, " ,")) {
		enum task task = TASK_SERVICE;
		size_t length = strcspn(at, " ,");
		(void)snprintf(word, sizeof word, "%.*s", (int)length, at);
		at += length;
		if (!task_parse(word, &task, fault)) {
			return false;
		}
		told.tasks |= 1U << task;
	}
	if (told.result == RESULT_PASSED_SHORTER &&
	    desk_return_work(&asking->context->desk, &told).tasks == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "the shorter time belongs to a task; name what was done, as service");
	}
	*home = told;
	return true;
}

/* "service, test; test of CY-1": the work a homecoming records, of the item and of its parts. */
static void
add_work(struct desk *desk, const struct homecoming *home, struct text *out)
{
	const struct return_work work = desk_return_work(desk, home);
	add_task_nouns(work.tasks, out);
	for (size_t i = 0; i < work.part_count; i++) {
		text_add_format(out, "%s", out->length == 0 ? "" : "; ");
		add_task_nouns(work.parts[i].tasks, out);
		text_add_format(out, " of %s", work.parts[i].tag);
	}
}

/* "  Done (asked: service, test; empty: as asked, else the tasks, or none): " */
static bool
ask_tasks(struct return_asking *asking, struct homecoming *home, struct fault *fault)
{
	SCOPED_TEXT question = {0};
	SCOPED_TEXT work = {0};
	struct homecoming asked = *home;
	asked.as_asked = true;
	add_work(&asking->context->desk, &asked, &work);
	if (work.length > 0) {
		text_add_format(&question,
		    "  Done (asked: %s; empty: as asked, else the tasks, or none): ",
		    text_string(&work));
	} else {
		text_add(&question, "  Done (as service test; empty: none): ");
	}
	return ask_until(asking, text_string(&question), read_tasks, home, fault);
}

static bool
read_next(struct return_asking *asking, const char *answer, struct homecoming *home,
    struct fault *fault)
{
	(void)asking;
	struct stamp next = {0};
	if (!stamp_parse(answer, ORDER_ISO, &next, fault)) {
		return false;
	}
	if (home->result == RESULT_PASSED_SHORTER && next.precision == STAMP_NONE) {
		return fault_set(fault, FAULT_INPUT,
		    "the shorter time's next date is needed, as 2027-12-09 or 2027-12");
	}
	home->next = next;
	return true;
}

static bool
read_certificate(struct return_asking *asking, const char *answer,
    struct homecoming *home, struct fault *fault)
{
	(void)fault;
	home->certificate = arena_string(&asking->context->desk.arena, answer);
	return true;
}

static bool
read_price(struct return_asking *asking, const char *answer, struct homecoming *home,
    struct fault *fault)
{
	const char *currency = NULL;
	return answer[0] == '\0' ||
	       (desk_currency(&asking->context->desk, &currency, fault) &&
		   money_parse(answer, currency, &home->price_minor, fault));
}

static bool
read_parts(struct return_asking *asking, const char *answer, struct homecoming *home,
    struct fault *fault)
{
	struct arena *arena = &asking->context->desk.arena;
	size_t most = strlen(answer) / 2 + 1;
	struct renewed_part *parts = arena_alloc(arena, most * sizeof *parts);
	const char *copy = arena_string(arena, answer);
	size_t count = 0;
	for (const char *at = copy + strspn(copy, " "); *at != '\0';
	     at += strspn(at, " ")) {
		size_t length = strcspn(at, " ");
		char *word = arena_alloc(arena, length + 1);
		memcpy(word, at, length);
		at += length;
		if (!renewed_parse(arena, word, ORDER_ISO, &parts[count++], fault)) {
			return false;
		}
	}
	home->renewed = parts;
	home->renewed_count = count;
	return desk_return_check(&asking->context->desk, home, fault);
}

/* With the parts that were to be put in new. */
static bool
ask_parts(struct return_asking *asking, const struct word_list *renew,
    struct homecoming *home, struct fault *fault)
{
	SCOPED_TEXT question = {0};
	text_add(&question, "  Parts put in new, as TAG=EXPIRES with blanks between (");
	for (size_t i = 0; i < renew->count; i++) {
		text_add_format(
		    &question, "%s%s", i == 0 ? "asked: " : ", ", renew->items[i]);
	}
	text_add_format(&question, "%sempty: none): ", renew->count > 0 ? "; " : "");
	return ask_until(asking, text_string(&question), read_parts, home, fault);
}

/* "LJ-1, lifejacket-auto, serial C-18, ashore since 25 Nov 2026" */
static void
introduce(const struct return_asking *asking)
{
	SCOPED_TEXT words = {0};
	char since[DAY_WORDS_SIZE];
	const struct item *item =
	    &asking->context->desk.contents.inventory.items[asking->item];
	text_add_format(&words, "%s, %s", item->tag,
	    item->description[0] != '\0' ? item->description : item->kind);
	if (item->serial[0] != '\0') {
		text_add_format(&words, ", serial %s", item->serial);
	}
	if (item->landed_on != DAY_NONE) {
		text_add_format(
		    &words, ", ashore since %s", day_words(item->landed_on, since));
	}
	(void)fprintf(stderr, "%s\n", text_string(&words));
}

static bool
ask_papers(struct return_asking *asking, struct homecoming *home, struct fault *fault)
{
	struct desk *desk = &asking->context->desk;
	bool worked =
	    home->result == RESULT_PASSED || home->result == RESULT_PASSED_SHORTER;
	if (worked && !ask_tasks(asking, home, fault)) {
		return false;
	}
	if (desk_return_work(desk, home).tasks != 0 &&
	    !ask_until(asking, "  Next date on its paper (empty: none): ", read_next,
		home, fault)) {
		return false;
	}
	if (home->result != RESULT_NOT_DONE &&
	    !ask_until(
		asking, "  Certificate (empty: none): ", read_certificate, home, fault)) {
		return false;
	}
	if (!ask_until(asking, "  Price (empty: not known): ", read_price, home, fault)) {
		return false;
	}
	const struct return_facts facts = desk_return_facts(desk, asking->item);
	return home->result == RESULT_CONDEMNED || !facts.has_parts ||
	       ask_parts(asking, &facts.renew, home, fault);
}

static bool
ask_one(struct return_asking *asking, struct homecoming *home, struct fault *fault)
{
	struct fault wrong = {0};
	introduce(asking);
	if (!ask_until(asking,
		"  passed, passed-shorter, condemned, not-done (p, s, c, n; empty: still "
		"ashore): ",
		read_result, home, fault)) {
		return false;
	}
	if (home->tag == NULL) {
		return true;
	}
	if (!ask_papers(asking, home, fault)) {
		return false;
	}
	/* What only all answers together can contradict ends it; nothing was written. */
	if (!desk_return_check(&asking->context->desk, home, &wrong)) {
		*fault = wrong;
		return false;
	}
	return true;
}

static bool
confirm(struct desk *desk, const struct homecoming *homes, size_t count, bool *yes_out,
    struct fault *fault)
{
	SCOPED_TEXT words = {0};
	text_add(&words, "To be written:");
	for (size_t i = 0; i < count; i++) {
		SCOPED_TEXT work = {0};
		add_work(desk, &homes[i], &work);
		text_add_format(
		    &words, "\n  %s: %s", homes[i].tag, result_word(homes[i].result));
		if (work.length > 0) {
			text_add_format(&words, "; done: %s", text_string(&work));
		}
	}
	return ask_yes(text_string(&words), yes_out, fault);
}

static bool
ask_all(struct return_asking *asking, const struct homecoming *common,
    const size_t *items, size_t count, struct homecoming *homes, size_t *count_out,
    struct fault *fault)
{
	bool yes = false;
	size_t used = 0;
	for (size_t i = 0; i < count; i++) {
		asking->item = items[i];
		homes[used] = *common;
		homes[used].tag = NULL;
		if (!ask_one(asking, &homes[used], fault)) {
			return false;
		}
		used += homes[used].tag == NULL ? 0 : 1;
	}
	if (used > 0 && !confirm(&asking->context->desk, homes, used, &yes, fault)) {
		return false;
	}
	*count_out = yes ? used : 0;
	return true;
}

/* What to ask about. A person who names neither gear nor station says which station first. */
static bool
find_ashore(struct context *context, struct return_request *request, size_t **items,
    size_t *count, struct fault *fault)
{
	struct desk *desk = &context->desk;
	const char **by = &request->common.by;
	if (!desk_ashore(desk, &request->tags, *by, items, count, fault)) {
		return false;
	}
	if (request->tags.count > 0 || (*by)[0] != '\0' || !ask_is_possible()) {
		return true;
	}
	return ask_station(context, *items, *count, by, fault) &&
	       desk_ashore(desk, &request->tags, *by, items, count, fault);
}

bool
ask_homecomings(
    struct context *context, struct return_request *request, struct fault *fault)
{
	struct return_asking asking = {.context = context};
	size_t *items = NULL;
	size_t count = 0;
	if (!desk_load_ashore(&context->desk, &request->tags, fault) ||
	    !find_ashore(context, request, &items, &count, fault)) {
		return false;
	}
	struct homecoming *homes =
	    arena_alloc(&context->desk.arena, (count + 1) * sizeof *homes);
	bool asked = ask_all(
	    &asking, &request->common, items, count, homes, &request->bag_count, fault);
	text_clear(&asking.answer);
	request->bag = homes;
	return asked;
}
