/* It came back: what saving would change, worked out on a copy of the book. */
#include "gear/money.h"
#include "life/family.h"
#include "page/taking_in.h"
#include "report/words.h"

/* The two books side by side: as it is, and as it would be. */
struct sides {
	struct back_page *page;
	struct desk *before;
	struct desk *after;
	struct text then;     /* of the piece at hand */
	struct text paper;    /* tags whose paper binds */
	struct text not_good; /* what is not in date though it came back */
	size_t moved;         /* how many dates change */
	day_t nearest;
};

bool
back_return(const struct back_page *page, struct desk *desk, struct fault *fault)
{
	struct return_outcome out = {0};
	struct homecoming *bag =
	    arena_alloc(&desk->arena, (page->count + 1) * sizeof *bag);
	struct return_request request = {.common = homecoming_on(page->on), .bag = bag};
	for (size_t i = 0; i < page->count; i++) {
		if (!page->pieces[i].stays) {
			bag[request.bag_count++] = page->pieces[i].home;
		}
	}
	if (request.bag_count == 0) {
		return fault_set(
		    fault, FAULT_INPUT, "All stay there, so there is nothing to write.");
	}
	return desk_return(desk, &request, &out, fault);
}

static void
add_tag(struct text *tags, const char *tag)
{
	text_add_format(tags, "%s%s", tags->length > 0 ? ", " : "", tag);
}

/* The day the rules alone would allow, where a certificate's date binds; DAY_NONE for none. */
static day_t
without_paper(const struct obligation *task)
{
	day_t first = DAY_NONE;
	for (size_t i = 0; i < task->reading_count; i++) {
		const struct reading *reading = &task->readings[i];
		bool counts = reading->state == READING_RUNS &&
			      reading->anchor != ANCHOR_CERTIFICATE &&
			      reading->due != DAY_NONE;
		first = counts && (first == DAY_NONE || reading->due < first)
			    ? reading->due
			    : first;
	}
	return first;
}

/* "Next service 8 Dec 2027: the paper binds. The rule alone would allow 8 Dec 2028." */
static void
add_task(struct sides *sides, const struct obligation *task, const char *tag)
{
	char day[DAY_WORDS_SIZE];
	const char *noun = task_noun(task->task);
	struct text *out = &sides->then;
	if (task->state != STATE_IN_DATE) {
		text_add_format(out, "Not in date: %s %s. ", noun,
		    task->state == STATE_DATE_UNKNOWN ? "has no date"
						      : state_word(task->state));
		text_add_format(&sides->not_good, "%s%s",
		    sides->not_good.length > 0 ? ", " : "", tag);
		return;
	}
	if (task->due == DAY_NONE) {
		return;
	}
	bool paper = task->binding != NULL && task->binding->anchor == ANCHOR_CERTIFICATE;
	text_add_format(out, "Next %s %s%s. ", noun, day_words(task->due, day),
	    paper ? ": the paper binds" : "");
	day_t allowed = paper ? without_paper(task) : DAY_NONE;
	if (allowed != DAY_NONE && allowed > task->due) {
		text_add_format(
		    out, "The rule alone would allow %s. ", day_words(allowed, day));
	}
	if (paper) {
		add_tag(&sides->paper, tag);
	}
}

/* The obligations of an item on one side. */
static bool
tasks_of(struct desk *desk, const char *tag, struct obligation **out, size_t *count_out,
    struct fault *fault)
{
	size_t item = 0;
	if (!desk_find_tag(desk, tag, &item, fault)) {
		return false;
	}
	due_of_item(&desk->engine, item, desk->today, &desk->arena, out, count_out);
	return true;
}

/* Counts the dates of one item that are others after than before. */
static bool
count_moved(struct sides *sides, const char *tag, const struct obligation *after,
    size_t after_count, struct fault *fault)
{
	struct obligation *before = NULL;
	size_t count = 0;
	if (!tasks_of(sides->before, tag, &before, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < after_count; i++) {
		for (size_t k = 0; k < count; k++) {
			bool moved = before[k].task == after[i].task &&
				     before[k].due != after[i].due;
			sides->moved += moved;
			if (moved && after[i].due != DAY_NONE &&
			    (sides->nearest == DAY_NONE ||
				after[i].due < sides->nearest)) {
				sides->nearest = after[i].due;
			}
		}
	}
	return true;
}

/* What follows for the piece itself. */
static bool
add_own(struct sides *sides, const struct item *item, struct fault *fault)
{
	struct obligation *tasks = NULL;
	size_t count = 0;
	unsigned asked = homecoming_asked(item);
	if (!tasks_of(sides->after, item->tag, &tasks, &count, fault) ||
	    !count_moved(sides, item->tag, tasks, count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		bool told =
		    (asked & 1U << tasks[i].task) != 0 || tasks[i].state != STATE_IN_DATE;
		if (told && !tasks[i].routine) {
			add_task(sides, &tasks[i], item->tag);
		}
	}
	return true;
}

/* What follows for a part that went with it: "Automatic firing head good through 30 Jun 2029." */
static bool
add_part(struct sides *sides, size_t part, struct fault *fault)
{
	const struct item *item = &sides->before->contents.inventory.items[part];
	struct obligation *tasks = NULL;
	size_t count = 0;
	char day[DAY_WORDS_SIZE];
	if (!tasks_of(sides->after, item->tag, &tasks, &count, fault) ||
	    !count_moved(sides, item->tag, tasks, count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (tasks[i].task != TASK_RENEW) {
			continue;
		}
		const char *name = kind_name(sides->before->engine.kinds, item->kind);
		if (tasks[i].state != STATE_IN_DATE) {
			text_add_format(&sides->then,
			    "Inside it %s, %s, is not in date. ", item->tag, name);
			add_tag(&sides->not_good, item->tag);
		} else if (tasks[i].due != DAY_NONE) {
			text_add_format(&sides->then,
			    "Inside it %s, %s, good through %s. ", item->tag, name,
			    day_words(tasks[i].due, day));
		}
	}
	return true;
}

static bool
add_back(struct sides *sides, const struct back_piece *piece, struct fault *fault)
{
	const struct back_page *page = sides->page;
	const struct inventory *inventory = &sides->before->contents.inventory;
	const struct item *item = back_item(page, piece);
	if (!add_own(sides, item, fault)) {
		return false;
	}
	for (size_t i = 0; i < inventory->item_count; i++) {
		bool inside = i != piece->item &&
			      inventory->items[i].state == PLACE_LANDED &&
			      family_has(inventory, piece->item, i);
		if (inside && !add_part(sides, i, fault)) {
			return false;
		}
	}
	if (homecoming_asked(item) == 0 && piece->home.result != RESULT_NOT_DONE) {
		text_add(&sides->then,
		    "Nothing is on record as asked of the station, so no "
		    "work is written down. ");
	}
	if (item->place[0] != '\0') {
		text_add_format(&sides->then, "Back to: %s.", item->place);
	} else {
		text_add(&sides->then, "Back aboard.");
	}
	return true;
}

/* What follows for one piece. */
static bool
reckon_piece(struct sides *sides, struct back_piece *piece, struct fault *fault)
{
	struct back_page *page = sides->page;
	struct text *then = &sides->then;
	char day[DAY_WORDS_SIZE];
	text_reset(then);
	if (piece->stays) {
		page->stay++;
		text_add(then, "It stays there; nothing is written of it.");
	} else if (piece->home.result == RESULT_CONDEMNED) {
		page->gone++;
		text_add_format(then, "Gone for good from %s, with its parts.",
		    day_words(page->on, day));
	} else {
		page->back++;
		if (!add_back(sides, piece, fault)) {
			return false;
		}
	}
	piece->then = arena_string(&page->visit->arena, text_string(then));
	return true;
}

/* The tags of the pieces that stay, or of those that are gone for good. */
static void
add_tags(const struct back_page *page, bool stays, struct text *out)
{
	SCOPED_TEXT tags = {0};
	for (size_t i = 0; i < page->count; i++) {
		const struct back_piece *piece = &page->pieces[i];
		bool here = stays
				? piece->stays
				: !piece->stays && piece->home.result == RESULT_CONDEMNED;
		if (here) {
			add_tag(&tags, back_item(page, piece)->tag);
		}
	}
	text_add(out, text_string(&tags));
}

static void
add_money(const struct back_page *page, struct text *out)
{
	char money[MONEY_WORDS_SIZE];
	int64_t sum = 0;
	for (size_t i = 0; i < page->count; i++) {
		const struct back_piece *piece = &page->pieces[i];
		sum += piece->stays || piece->home.price_minor < 0
			   ? 0
			   : piece->home.price_minor;
	}
	if (sum > 0) {
		text_add_format(out, "%s is written as spent.\n",
		    money_words(
			sum, page->visit->desk.contents.inventory.currency, money));
	}
}

/* All that saving changes, a line each. */
static void
add_changes(const struct sides *sides, struct text *out)
{
	const struct back_page *page = sides->page;
	char day[DAY_WORDS_SIZE];
	if (page->back > 0) {
		text_add_format(out, "%zu %s aboard again.\n", page->back,
		    page->back == 1 ? "piece stands" : "pieces stand");
	}
	if (page->gone > 0) {
		text_add_format(out, "%zu %s gone for good: ", page->gone,
		    page->gone == 1 ? "is" : "are");
		add_tags(page, false, out);
		text_add(out, ".\n");
	}
	if (page->stay > 0) {
		text_add_format(out, "%zu %s at %s: ", page->stay,
		    page->stay == 1 ? "stays" : "stay", page->station);
		add_tags(page, true, out);
		text_add(out, ".\n");
	}
	if (sides->moved > 0) {
		text_add_format(out, "%zu %s", sides->moved,
		    sides->moved == 1 ? "date moves" : "dates move");
		text_add_format(out,
		    sides->nearest == DAY_NONE ? ".\n" : "; the nearest is now %s.\n",
		    day_words(sides->nearest, day));
	}
	if (sides->paper.length > 0) {
		text_add_format(out, "The paper’s date binds, not the rule’s: %s.\n",
		    text_string(&sides->paper));
	}
	if (sides->not_good.length > 0) {
		text_add_format(out, "Back, and still not in date: %s.\n",
		    text_string(&sides->not_good));
	}
	add_money(page, out);
	page_words(text_string(&sides->after->notes), out);
}

static bool
reckon(struct back_page *page, struct desk *trial, struct fault *fault)
{
	struct sides sides = {.page = page,
	    .before = &page->visit->desk,
	    .after = trial,
	    .nearest = DAY_NONE};
	SCOPED_TEXT changes = {0};
	bool done = back_return(page, trial, fault);
	desk_forget(trial);
	done = done && desk_engine(trial, NULL, fault);
	for (size_t i = 0; done && i < page->count; i++) {
		done = reckon_piece(&sides, &page->pieces[i], fault);
	}
	if (done) {
		add_changes(&sides, &changes);
		page->changes = arena_string(&page->visit->arena, text_string(&changes));
	}
	text_clear(&sides.then);
	text_clear(&sides.paper);
	text_clear(&sides.not_good);
	return done;
}

bool
back_reckon(struct back_page *page, struct fault *fault)
{
	SCOPED_DESK trial = {0};
	SCOPED_TEXT words = {0};
	page_try(page->visit, &trial);
	bool done = reckon(page, &trial, fault);
	if (done || fault->kind == FAULT_BOOK || fault->kind == FAULT_FILE) {
		return done;
	}
	page_words(fault->text, &words);
	page->problem = arena_string(&page->visit->arena, text_string(&words));
	*fault = (struct fault){0};
	return true;
}
