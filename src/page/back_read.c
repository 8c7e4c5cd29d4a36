/* It came back: what was typed. */
#include "gear/money.h"
#include "life/family.h"
#include "page/taking_in.h"

#include <string.h>

const struct item *
back_item(const struct back_page *page, const struct back_piece *piece)
{
	return &page->visit->desk.contents.inventory.items[piece->item];
}

const char *
piece_field(const struct back_page *page, const char *prefix, const char *tag)
{
	return arena_format(&page->visit->arena, "%s.%s", prefix, tag);
}

bool
is_new_part(const struct back_page *page, const struct back_piece *piece, size_t part)
{
	const struct inventory *inventory = &page->visit->desk.contents.inventory;
	const struct item *item = &inventory->items[part];
	return part != piece->item && item->state == PLACE_LANDED &&
	       (homecoming_asked(item) & 1U << TASK_RENEW) != 0 &&
	       family_has(inventory, piece->item, part);
}

static void
field_is_wrong(struct back_page *page, const char *name, const char *words)
{
	SCOPED_TEXT clean = {0};
	page_words(words, &clean);
	arena_reserve(&page->visit->arena, &page->items, &page->wrong_room,
	    sizeof *page->items, page->wrong_count + 1);
	page->items[page->wrong_count++] = (struct field_fault){
	    name, arena_string(&page->visit->arena, text_string(&clean))};
}

const char *
field_wrong(const struct back_page *page, const char *name)
{
	for (size_t i = 0; i < page->wrong_count; i++) {
		if (strcmp(page->items[i].name, name) == 0) {
			return page->items[i].words;
		}
	}
	return NULL;
}

static day_t
read_day(struct back_page *page, const char *name)
{
	const char *typed = page_value(page->visit, name);
	struct fault fault = {0};
	day_t day = DAY_NONE;
	if (typed[0] != '\0' &&
	    !day_typed(typed, page->visit->desk.today, &day, &fault)) {
		field_is_wrong(page, name, fault.text);
	}
	return day;
}

static struct stamp
read_stamp(struct back_page *page, const char *name)
{
	const char *typed = page_value(page->visit, name);
	struct fault fault = {0};
	struct stamp stamp = {0};
	if (typed[0] != '\0' &&
	    !stamp_typed(typed, page->visit->desk.today, &stamp, &fault)) {
		field_is_wrong(page, name, fault.text);
	}
	return stamp;
}

static int64_t
read_price(struct back_page *page, const char *name)
{
	const char *typed = page_value(page->visit, name);
	const char *currency = page->visit->desk.contents.inventory.currency;
	struct fault fault = {0};
	int64_t minor = -1;
	if (typed[0] != '\0' && !money_parse(typed, currency, &minor, &fault)) {
		field_is_wrong(page, name, fault.text);
	}
	return minor;
}

/* The marks of the parts that the station put in new. */
static void
read_parts(struct back_page *page, struct back_piece *piece)
{
	const struct inventory *inventory = &page->visit->desk.contents.inventory;
	struct arena *arena = &page->visit->arena;
	struct renewed_part *parts = NULL;
	size_t count = 0;
	size_t room = 0;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const char *tag = inventory->items[i].tag;
		if (!is_new_part(page, piece, i)) {
			continue;
		}
		struct stamp mark = read_stamp(page, piece_field(page, "m", tag));
		if (mark.precision == STAMP_NONE) {
			continue;
		}
		arena_reserve(arena, &parts, &room, sizeof *parts, count + 1);
		parts[count++] =
		    (struct renewed_part){.tag = tag, .expires = mark, .serial = ""};
	}
	piece->home.renewed = parts;
	piece->home.renewed_count = count;
}

/* What became of it; false where that was not said. */
static bool
read_result(const struct back_page *page, struct back_piece *piece)
{
	static const struct {
		const char *word;
		enum result result;
	} RESULTS[] = {
	    {"passed", RESULT_PASSED},
	    {"shorter", RESULT_PASSED_SHORTER},
	    {"condemned", RESULT_CONDEMNED},
	    {"undone", RESULT_NOT_DONE},
	};

	const char *all = page_value(page->visit, "act");
	const char *tag = back_item(page, piece)->tag;
	const char *word = page_value(page->visit, piece_field(page, "r", tag));
	bool unsaid = word[0] == '\0';
	piece->stays = strcmp(word, "stays") == 0;
	if (unsaid && strcmp(all, "all") == 0) {
		word = "passed";
	}
	for (size_t i = 0; i < sizeof RESULTS / sizeof RESULTS[0]; i++) {
		if (strcmp(RESULTS[i].word, word) == 0) {
			piece->home.result = RESULTS[i].result;
			return true;
		}
	}
	return piece->stays;
}

static void
read_piece(struct back_page *page, struct back_piece *piece)
{
	struct visit *visit = page->visit;
	const char *tag = back_item(page, piece)->tag;
	const char *next = piece_field(page, "n", tag);
	piece->home = homecoming_on(page->on);
	piece->home.tag = tag;
	piece->home.done = page->done;
	piece->home.by = page_value(visit, "by");
	piece->home.certificate = page_value(visit, piece_field(page, "c", tag));
	piece->home.note = page_value(visit, piece_field(page, "y", tag));
	piece->home.next = read_stamp(page, next);
	piece->home.price_minor = read_price(page, piece_field(page, "p", tag));
	piece->said = read_result(page, piece);
	bool worked = piece->home.result == RESULT_PASSED ||
		      piece->home.result == RESULT_PASSED_SHORTER;
	piece->home.as_asked =
	    worked && homecoming_knows(&visit->desk.contents.inventory, piece->item);
	if (worked) {
		read_parts(page, piece);
	}
	if (!piece->said) {
		field_is_wrong(page, piece_field(page, "r", tag),
		    "Say what became of it, or that it stays there.");
	} else if (!piece->stays && piece->home.result == RESULT_PASSED_SHORTER &&
		   piece->home.next.precision == STAMP_NONE &&
		   field_wrong(page, next) == NULL) {
		field_is_wrong(page, next,
		    "The date its paper gives is wanted here, for it is shorter than usual.");
	}
}

void
back_read(struct back_page *page)
{
	page->on = read_day(page, "on");
	page->done = read_day(page, "done");
	if (page_value(page->visit, "on")[0] == '\0') {
		field_is_wrong(page, "on", "The day they came back is wanted here.");
	}
	for (size_t i = 0; i < page->count; i++) {
		read_piece(page, &page->pieces[i]);
	}
}
