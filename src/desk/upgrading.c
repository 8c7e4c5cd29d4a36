#include "desk/upgrading.h"

#include "book/journal.h"
#include "desk/reckoning.h"
#include "due/meanings.h"
#include "report/report.h"

#include <stdlib.h>
#include <string.h>

/* Dates that are told in a remark; the journal has all. */
enum { MOST_REMARKS = 12 };

/* What is being found, all but `now` in desk->arena. */
struct finding_moved {
	struct desk now;       /* the whole book, and the engine of today's figures */
	struct reckoned_by by; /* what the dates kept were reckoned by */
	struct reckoned_dates dates;
	day_t
	    *seen; /* by vessel: the day of her dates; DAY_NONE where it can't be told */

	struct moved_dates {
		struct moved_date *items; /* in an arena */
		size_t count;
		size_t capacity;
	} moved;
	struct reckoned_rows rows; /* of the item at hand; owned */
};

static int
compare_seen(const void *key, const void *element)
{
	return strcmp(key, ((const struct reckoned_vessel *)element)->name);
}

/* Which vessels have gear that has dates; by vessel. */
static bool *
find_gear(const struct inventory *inventory, struct arena *arena)
{
	size_t size = inventory->vessel_count + 1;
	bool *has = arena_alloc(arena, size * sizeof *has);
	if (has != NULL) {
		memset(has, 0, size * sizeof *has);
	}
	for (size_t i = 0; i < inventory->item_count && has != NULL; i++) {
		const struct item *item = &inventory->items[i];
		has[item->vessel] = has[item->vessel] || item->state != PLACE_WITHDRAWN;
	}
	return has;
}

/* Fills `seen`, and names the vessels that were touched since. */
static void
find_days(struct desk *desk, struct finding_moved *finding, struct upgrade *upgrade)
{
	const struct inventory *inventory = &finding->now.contents.inventory;
	const struct reckoned_dates *dates = &finding->dates;
	const struct touched_vessel *touched = finding->by.touched;
	size_t count = finding->by.touched_count;
	const char **names =
	    arena_alloc(&desk->arena, (inventory->vessel_count + 1) * sizeof *names);
	finding->seen = arena_alloc(
	    &desk->arena, (inventory->vessel_count + 1) * sizeof *finding->seen);
	const bool *has_gear = find_gear(inventory, &desk->arena);
	upgrade->not_told = names;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const char *name = inventory->vessels[i].name;
		const struct reckoned_vessel *kept = bsearch(name, dates->vessels,
		    dates->vessel_count, sizeof *dates->vessels, compare_seen);
		bool changed = kept == NULL;
		for (size_t j = 0; j < count && !changed; j++) {
			changed = strcmp(touched[j].name, name) == 0;
		}
		finding->seen[i] = changed ? DAY_NONE : kept->seen;
		if (changed && has_gear[i]) {
			names[upgrade->not_told_count++] =
			    arena_string(&desk->arena, name);
		}
	}
}

static int
compare_tags(const void *key, const void *element)
{
	return strcmp(key, ((const struct reckoned *)element)->tag);
}

/* The row kept of a task of an item; NULL for none. */
static const struct reckoned *
find_kept(const struct reckoned_dates *dates, const char *tag, enum task task)
{
	const struct reckoned *end = dates->rows + dates->row_count;
	const struct reckoned *row = bsearch(
	    tag, dates->rows, dates->row_count, sizeof *dates->rows, compare_tags);
	while (row != NULL && row > dates->rows && strcmp(row[-1].tag, tag) == 0) {
		row--;
	}
	for (; row != NULL && row < end && strcmp(row->tag, tag) == 0; row++) {
		if (row->task == task) {
			return row;
		}
	}
	return NULL;
}

static const struct reckoned *
find_now(const struct reckoned_rows *rows, enum task task)
{
	for (size_t i = 0; i < rows->count; i++) {
		if (rows->items[i].task == task) {
			return &rows->items[i];
		}
	}
	return NULL;
}

static bool
same_date(const struct reckoned *a, const struct reckoned *b)
{
	return a->state == b->state && a->due == b->due &&
	       a->good_through == b->good_through;
}

/* A copy whose strings outlive the rulebooks. */
static struct reckoned
copy(struct arena *arena, const struct reckoned *row)
{
	struct reckoned copy = *row;
	copy.vessel = arena_string(arena, row->vessel);
	copy.tag = arena_string(arena, row->tag);
	copy.rule = arena_string(arena, row->rule);
	copy.sheet = arena_string(arena, row->sheet);
	return copy;
}

static void
add_moved(struct desk *desk, struct finding_moved *finding, const struct item *item,
    enum task task)
{
	const struct reckoned *was = find_kept(&finding->dates, item->tag, task);
	const struct reckoned *is = find_now(&finding->rows, task);
	if ((was == NULL && is == NULL) ||
	    (was != NULL && is != NULL && same_date(was, is))) {
		return;
	}
	ARENA_ROOM(&desk->arena, &finding->moved);
	const char *vessel = finding->now.contents.inventory.vessels[item->vessel].name;
	const struct reckoned none = {
	    .vessel = vessel, .tag = item->tag, .task = task, .rule = "", .sheet = ""};
	finding->moved.items[finding->moved.count++] = (struct moved_date){
	    .kind = arena_string(&desk->arena, item->kind),
	    .serial = arena_string(&desk->arena, item->serial),
	    .seen = finding->seen[item->vessel],
	    .was_asked = was != NULL,
	    .is_asked = is != NULL,
	    .was = was != NULL ? *was : none,
	    .is = copy(&desk->arena, is != NULL ? is : &none),
	};
}

/* Compares what is kept of each item with what it is now, seen from the same day. */
static void
find_moved(struct desk *desk, struct finding_moved *finding)
{
	const struct inventory *inventory = &finding->now.contents.inventory;
	struct arena scratch = {0};
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		const struct vessel *vessel = &inventory->vessels[item->vessel];
		bool gone =
		    !vessel_is_here(vessel, desk->today) && item->state != PLACE_LANDED;
		if (gone || finding->seen[item->vessel] == DAY_NONE) {
			continue;
		}
		finding->rows.count = 0;
		reckon_item(&finding->now.engine, i, finding->seen[item->vessel],
		    &scratch, &finding->rows);
		for (int task = 0; task < TASK_COUNT; task++) {
			add_moved(desk, finding, item, (enum task)task);
		}
		arena_reset(&scratch);
	}
	arena_clear(&scratch);
}

/* The meanings that came since those of this number. */
static void
add_meanings(int since, struct upgrade *upgrade)
{
	size_t known = since < 0 ? 0 : (size_t)since;
	known = known > DUE_MEANING_COUNT ? DUE_MEANING_COUNT : known;
	upgrade->meanings = DUE_MEANINGS + known;
	upgrade->meaning_count = DUE_MEANING_COUNT - known;
}

static bool
compare(struct desk *desk, struct finding_moved *finding, const char *figures,
    struct upgrade *upgrade, struct fault *fault)
{
	upgrade->kept = true;
	upgrade->figures = strcmp(finding->by.figures, figures) != 0;
	add_meanings(finding->by.meanings, upgrade);
	if (!book_load_reckoned(desk->book, &desk->arena, &finding->dates, fault)) {
		return false;
	}
	find_days(desk, finding, upgrade);
	find_moved(desk, finding);
	upgrade->moved = finding->moved.items;
	upgrade->moved_count = finding->moved.count;
	return true;
}

bool
upgrading_find(struct desk *desk, const struct upgrade **out, struct fault *fault)
{
	struct finding_moved finding = {0};
	const char *figures = NULL;
	*out = NULL;
	if (!book_load_reckoned_by(desk->book, &desk->arena, &finding.by, fault) ||
	    !reckoning_figures(desk, &finding.by, &desk->arena, &figures, fault)) {
		return false;
	}
	if (finding.by.figures != NULL && strcmp(finding.by.figures, figures) == 0 &&
	    finding.by.meanings == (int)DUE_MEANING_COUNT) {
		return true;
	}
	struct upgrade *upgrade = arena_alloc(&desk->arena, sizeof *upgrade);
	*upgrade = (struct upgrade){0};
	bool found = reckoning_desk(desk, NULL, &finding.now, fault);
	bool empty = finding.now.contents.inventory.item_count == 0;
	if (found && finding.by.figures == NULL) {
		add_meanings(0, upgrade);
	} else if (found) {
		found = compare(desk, &finding, figures, upgrade, fault);
	}
	free(finding.rows.items);
	reckoning_desk_clear(&finding.now, desk);
	if (found && !(finding.by.figures == NULL && empty)) {
		*out = upgrade;
	}
	return found;
}

/* "2027-06-15 in-date, by jacket-service of practice", as the journal writes days. */
static const char *
journal_words(struct desk *desk, bool asked, const struct reckoned *date)
{
	SCOPED_TEXT words = {0};
	char day[DAY_ISO_SIZE];
	if (!asked) {
		return "";
	}
	if (date->due != DAY_NONE) {
		text_add_format(&words, "%s ", day_iso(date->due, day));
	}
	text_add(&words, state_word(date->state));
	if (date->good_through != date->due && date->good_through != DAY_NONE) {
		text_add_format(
		    &words, ", window to %s", day_iso(date->good_through, day));
	}
	if (date->rule[0] != '\0') {
		text_add_format(&words, ", by %s%s%s", date->rule,
		    date->sheet[0] != '\0' ? " of " : "", date->sheet);
	}
	return arena_string(&desk->arena, text_string(&words));
}

/* Lines of the journal: a date each; for a book in which none were kept, what is read otherwise. */
static bool
tell_journal(struct desk *desk, struct upgrade *upgrade, struct fault *fault)
{
	static const char *const FIELDS[] = {
	    [TASK_SERVICE] = "service due",
	    [TASK_INSPECT] = "inspect due",
	    [TASK_WEIGH] = "weigh due",
	    [TASK_TEST] = "test due",
	    [TASK_RENEW] = "renew due",
	    [TASK_REGISTER] = "register due",
	};
	size_t count = upgrade->moved_count + upgrade->meaning_count;
	struct journal_line *lines =
	    arena_alloc(&desk->arena, (count + 1) * sizeof *lines);
	for (size_t i = 0; i < upgrade->moved_count; i++) {
		const struct moved_date *moved = &upgrade->moved[i];
		lines[i] = (struct journal_line){"item", moved->is.tag, moved->kind,
		    moved->serial, JOURNAL_CHANGED, FIELDS[moved->is.task],
		    journal_words(desk, moved->was_asked, &moved->was),
		    journal_words(desk, moved->is_asked, &moved->is)};
	}
	for (size_t i = 0; i < upgrade->meaning_count; i++) {
		lines[upgrade->moved_count + i] = (struct journal_line){"book", "", "",
		    "", JOURNAL_CHANGED, "meaning", "", upgrade->meanings[i]};
	}
	return book_tell(desk->book, lines, count, &upgrade->entry, fault);
}

/* Signs what follows as an upgrade, not as the command that happened to be the first. */
static bool
sign(struct desk *desk, struct fault *fault)
{
	struct signature signature = desk->signature;
	signature.act = "book upgrade";
	return book_sign(desk->book, &signature, fault);
}

/* Whether there is anything to tell: sheets may differ and move nothing. */
static bool
says_anything(const struct upgrade *upgrade)
{
	return upgrade->moved_count > 0 || upgrade->meaning_count > 0 ||
	       upgrade->not_told_count > 0;
}

static bool
upgrade_all(struct desk *desk, struct fault *fault)
{
	const struct upgrade *found = NULL;
	if (!upgrading_find(desk, &found, fault) || found == NULL) {
		return found == NULL && fault->kind == FAULT_NONE;
	}
	struct upgrade *upgrade = arena_alloc(&desk->arena, sizeof *upgrade);
	*upgrade = *found;
	if (says_anything(upgrade) &&
	    (!sign(desk, fault) || !tell_journal(desk, upgrade, fault))) {
		return false;
	}
	desk->upgrade = upgrade;
	struct reckoned_by by = {0};
	return book_load_reckoned_by(desk->book, &desk->arena, &by, fault) &&
	       reckoning_put(desk, &by, true, NULL, 0, fault);
}

/* True when the dates kept are of other figures or meanings, or none are. */
static bool
is_other(struct desk *desk, bool *out, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct reckoned_by by = {0};
	const char *figures = NULL;
	if (!book_load_reckoned_by(desk->book, &arena, &by, fault) ||
	    !reckoning_figures(desk, &by, &arena, &figures, fault)) {
		return false;
	}
	*out = by.figures == NULL || strcmp(by.figures, figures) != 0 ||
	       by.meanings != (int)DUE_MEANING_COUNT;
	return true;
}

void
upgrading_open(struct desk *desk)
{
	struct fault fault = {0};
	bool other = false;
	if (!is_other(desk, &other, &fault) || !other) {
		desk->behind = fault.kind != FAULT_NONE;
		return;
	}
	if (!book_begin(desk->book, &fault) || !upgrade_all(desk, &fault) ||
	    !book_commit(desk->book, &fault)) {
		book_rollback(desk->book);
		desk->upgrade = NULL;
		desk->behind = true;
		return;
	}
	if (desk->upgrade != NULL && says_anything(desk->upgrade) &&
	    !desk->upgrade_quiet) {
		report_upgrade_remarks(desk->upgrade, MOST_REMARKS, &desk->notes);
	}
}

void
upgrading_remark(struct desk *desk)
{
	struct fault ignored = {0};
	bool other = false;
	if (is_other(desk, &other, &ignored) && other) {
		desk_note(desk,
		    "this becket, or a sheet of your own, reckons otherwise than when "
		    "something was last written in this book; \"becket book upgrade\" "
		    "says which dates moved");
	}
}
