/* becket calendar read: what was done in a calendar program, taken on a yes. */
#include "cli/calendar_acts.h"
#include "cli/command.h"
#include "cli/terminal.h"
#include "cli/values.h"
#include "desk/files.h"
#include "desk/giving_out.h"
#include "exchange/json_object.h"
#include "report/reply.h"

static const char WHO[] = "becket calendar read";

/* The most that is read: what a calendar program keeps for years is smaller. */
enum { MOST_BYTES = 8 * 1024 * 1024 };

/* What is taken of a file that is read back. All in the context's arena. */
struct taking {
	struct read_back back;
	bool *taken; /* one a proposal */
	size_t taken_count;
};

/* Reads the file that the second word names. */
static bool
read_file(struct context *context, struct text *out, struct fault *fault)
{
	const char *path = options_word(context->given, 1);
	if (path == NULL) {
		return usage_fault(fault, WHO, "FROM is missing: the file to read");
	}
	return file_read_most(path, MOST_BYTES, out, fault);
}

static bool
compare(struct context *context, const struct text *bytes, struct taking *taking,
    struct fault *fault)
{
	struct calendar_read read = {0};
	if (!desk_read_calendar(&context->desk, bytes, &read, fault)) {
		return fault_prefix(fault, "reading %s", options_word(context->given, 1));
	}
	taking->back = read.back;
	return true;
}

/* Which proposals --take names, by the numbers they are shown with. */
static bool
read_taken(
    struct context *context, const char *take, struct taking *taking, struct fault *fault)
{
	const char *const *words = NULL;
	size_t count = 0;
	taking->taken = arena_alloc(&context->desk.arena, taking->back.count + 1);
	bool all = take != NULL && text_same_letters(take, "all");
	for (size_t i = 0; i < taking->back.count; i++) {
		/* where both sides changed, a person says which, one by one */
		taking->taken[i] = all && !taking->back.proposals[i].both;
		taking->taken_count += taking->taken[i];
	}
	if (take == NULL || all) {
		return true;
	}
	if (!value_list(&context->desk.arena, "take", take, &words, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		long number = 0;
		if (!number_read(words[i], 1, (long)taking->back.count, &number)) {
			return fault_set(fault, FAULT_INPUT,
			    "--take: expected \"all\" or numbers from 1 to %zu, found \"%s\"",
			    taking->back.count, words[i]);
		}
		taking->taken_count += taking->taken[number - 1] ? 0 : 1;
		taking->taken[number - 1] = true;
	}
	return true;
}

/* Where both sides moved something, and nothing was told, a person at the terminal says which
 * holds. */
static bool
ask_taken(struct context *context, struct taking *taking, struct fault *fault)
{
	bool ask = !context->json && ask_is_possible();
	for (size_t i = 0; i < taking->back.count && ask; i++) {
		const struct proposal *proposal = &taking->back.proposals[i];
		enum caldav_keep which = CALDAV_ASK;
		if (proposal->both &&
		    !calendar_keep_ask(proposal->reminder->summary, proposal->day,
			proposal->reminder->day, &which, fault)) {
			return false;
		}
		taking->taken[i] = which == CALDAV_KEEP_THEIRS;
		taking->taken_count += taking->taken[i];
	}
	return true;
}

static void
add_words(const struct proposal *proposal, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	char was[DAY_WORDS_SIZE];
	char iso[DAY_ISO_SIZE];
	(void)day_words(proposal->day, day);
	if (proposal->kind == PROPOSAL_MOVED) {
		text_add_format(out, "moved from %s to %s: plan it for that day",
		    day_words(proposal->given, was), day);
		if (proposal->both) {
			text_add_format(out,
			    " in place of %s, to which the book has moved it since; taken "
			    "by its number alone",
			    day_words(proposal->reminder->day, was));
		}
		return;
	}
	text_add_format(out, "ticked off on %s%s: becket record %s %s --on %s%s", day,
	    proposal->day_assumed ? " (not said when, so today)" : "",
	    task_word(proposal->todo.task), proposal->todo.tag,
	    day_iso(proposal->day, iso),
	    proposal->todo.task == TASK_RENEW ? RENEWAL_REST : "");
}

static void
add_rest(const struct read_back *rest, struct text *out)
{
	static const char *const WORDS[] = {"as they were given out",
	    "of an older file: as they were given out before the book changed",
	    "of things that are no longer to be done", "not from this book, passed over",
	    ("that can't be taken: repeated, cancelled, without a day, on a day "
	     "past, or a last day moved")};
	const size_t counts[] = {
	    rest->same, rest->older, rest->old, rest->foreign, rest->odd};
	for (size_t i = 0; i < COUNT_OF(counts); i++) {
		if (counts[i] > 0) {
			text_add_format(out, "%zu %s.\n", counts[i], WORDS[i]);
		}
	}
}

static void
say(struct context *context, const struct taking *taking)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "", .type = CELL_NUMBER, .most = 4}, {.heading = "", .most = 6},
	    {.heading = "", .flexible = true}};
	SCOPED_TEXT words = {0};
	struct reply reply = {.arena = &context->desk.arena};
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH | LOOK_BARE);
	for (size_t i = 0; i < taking->back.count; i++) {
		bool taken = taking->taken[i];
		reply_number(table, HUE_STRONG, (int64_t)i + 1, "");
		reply_cell(table, taken ? HUE_GOOD : HUE_NONE, taken ? "taken" : "");
		text_add_format(
		    &words, "%s ", taking->back.proposals[i].reminder->summary);
		add_words(&taking->back.proposals[i], &words);
		reply_take(table, HUE_NONE, &words);
	}
	reply_text(&reply, context->style.colour, &context->out);
	add_rest(&taking->back, &context->out);
	if (taking->taken_count < taking->back.count) {
		text_add(&context->out,
		    "Nothing else was changed. --take all, or --take 1,3, does what these "
		    "say;\na station's certificate says more than a tick, so record that "
		    "with its next date.\n");
	}
}

static ANSWER_KEYS(READ_BACK_KEYS, "a proposal", "number: that --take knows it by",
    "what: done or moved", "summary", "tag: of what was ticked, as the next", "task",
    "day: in the calendar", "was: given out for", "book: the day that has now",
    "both: it was changed there and here", "taken");

const struct answer_keys *const KEYS_OF_READ_BACK[] = {&READ_BACK_KEYS, NULL};

static void
say_json(struct context *context, const struct taking *taking)
{
	struct answer answer = {.out = &context->out};
	for (size_t i = 0; i < taking->back.count; i++) {
		const struct proposal *proposal = &taking->back.proposals[i];
		bool done = proposal->kind == PROPOSAL_DONE;
		day_t book = proposal->reminder->day;
		answer_element(
		    &answer, JSON_OF(&READ_BACK_KEYS, json_count(i + 1),
				 json_text(done ? "done" : "moved"),
				 json_text(proposal->reminder->summary),
				 json_words(done ? proposal->todo.tag : NULL),
				 json_words(done ? task_word(proposal->todo.task) : NULL),
				 json_day(proposal->day),
				 json_day(done ? book : proposal->given), json_day(book),
				 json_flag(proposal->both), json_flag(taking->taken[i])));
	}
	answer_end(&answer);
}

bool
calendar_act_read(
    struct context *context, const struct calendar_said *said, struct fault *fault)
{
	struct taking taking = {0};
	SCOPED_TEXT bytes = {0};
	if (!read_file(context, &bytes, fault) ||
	    !compare(context, &bytes, &taking, fault) ||
	    !read_taken(context, said->take, &taking, fault) ||
	    (said->take == NULL && !ask_taken(context, &taking, fault))) {
		return false;
	}
	if (taking.taken_count > 0 && !desk_take_calendar(&context->desk, &bytes,
					  &taking.back, taking.taken, fault)) {
		return false;
	}
	if (context->json) {
		say_json(context, &taking);
	} else {
		say(context, &taking);
	}
	return true;
}
