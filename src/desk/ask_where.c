/* Where the gear is that some words mean, looked for on some boats at a time. */
#include "base/words.h"
#include "desk/inside.h"
#include "desk/ranges.h"

#include <string.h>

/* What is looked for. */
struct looking_for {
	const struct word_list *words;
	const struct kinds *kinds;
	struct word_list split; /* tags of what lots were split from */
	where_taker *take;
	void *context;
	struct where_answer *out;
};

static struct where_answer
as_loaded(const struct desk *desk, const struct looking_for *looking)
{
	return (struct where_answer){.known = {.inventory = &desk->contents.inventory,
					 .kinds = looking->kinds,
					 .stations = desk->contents.stations,
					 .station_count = desk->contents.station_count},
	    .words = looking->out->words};
}

static void
hand_out(const struct looking_for *looking, const struct where_answer *some)
{
	if (some->list.count > 0) {
		looking->take(some, looking->context);
		looking->out->list.count += some->list.count;
	}
}

/* Finds the gear on some boats, NULL for all that are loaded. */
static void
find_on(const struct desk *desk, const struct word_list *boats, struct arena *arena,
    struct where_answer *out)
{
	struct whereabouts_list *list = &out->list;
	size_t kept = 0;
	whereabouts_find(&out->known, out->words, arena, list);
	for (size_t i = 0; i < list->count; i++) {
		const struct item *item =
		    &out->known.inventory->items[list->items[i].item];
		if (ask_is_theirs(desk, boats, item)) {
			list->items[kept++] = list->items[i];
		}
	}
	list->count = kept;
}

/* Adds the tags of what was found that are of lots; *ashore_out true where some of it is ashore. */
static void
look_over(const struct looking_for *looking, const struct where_answer *found,
    struct arena *arena, struct word_list *of_lots, bool *ashore_out)
{
	for (size_t i = 0; i < found->list.count; i++) {
		const struct whereabouts *where = &found->list.items[i];
		const struct item *item = &found->known.inventory->items[where->item];
		*ashore_out = *ashore_out || where->state == PLACE_LANDED;
		if (item->split_from[0] != '\0' ||
		    words_among(&looking->split, item->tag)) {
			ARENA_ADD(arena, of_lots, arena_string(arena, item->tag));
		}
	}
}

/* Loads the boats again with what tells all of what was found, and finds it again: of
 * what is ashore the stations, for when it can be fetched, and of pieces of lots the
 * others, which may have the same serial number. */
static bool
find_with_all(struct desk *desk, const struct looking_for *looking,
    const struct word_list *boats, struct arena *arena, struct where_answer *found,
    struct fault *fault)
{
	struct word_list of_lots = {0};
	struct word_list lots = {0};
	bool ashore = false;
	look_over(looking, found, arena, &of_lots, &ashore);
	if (!ashore && of_lots.count == 0) {
		return true;
	}
	if (!book_lots(desk->book, of_lots.items, of_lots.count, arena, &lots, fault)) {
		return false;
	}
	const struct book_part part = {.vessels = boats->items,
	    .vessel_count = boats->count,
	    .tags = lots.items,
	    .tag_count = lots.count,
	    .reach = REACH_FAMILIES};
	if (!ask_about(desk, &part, LEFT_ALL, fault)) {
		return false;
	}
	*found = as_loaded(desk, looking);
	find_on(desk, boats, arena, found);
	return true;
}

/* Keeps the first tag on some boats that is near the words. */
static void
find_near(
    const struct desk *desk, const struct word_list *boats, struct where_answer *out)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; out->near == NULL && i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		out->near = ask_is_theirs(desk, boats, item)
				? nearest_word(out->words, &item->tag, 1)
				: NULL;
	}
}

static bool
where_on_boats(
    struct desk *desk, const struct word_list *boats, void *question, struct fault *fault)
{
	struct looking_for *looking = question;
	struct where_answer *out = looking->out;
	struct where_answer some = as_loaded(desk, looking);
	SCOPED_ARENA arena = {0};
	find_on(desk, boats, &arena, &some);
	if (out->list.count + some.list.count == 0 && out->near == NULL) {
		find_near(desk, boats, out);
		out->near =
		    out->near == NULL ? NULL : arena_string(&desk->arena, out->near);
	}
	if (boats != NULL && !find_with_all(desk, looking, boats, &arena, &some, fault)) {
		return false;
	}
	hand_out(looking, &some);
	return true;
}

/* Finds what has the words as its tag, or else as its serial number. */
static bool
find_bearers(struct desk *desk, const struct looking_for *looking, struct fault *fault)
{
	const struct book_part *part = bearers_part(desk, looking->out->words, false);
	if (part == NULL) {
		return true;
	}
	if (!ask_about(desk, part, LEFT_ALL, fault)) {
		return false;
	}
	struct where_answer found = as_loaded(desk, looking);
	whereabouts_find(&found.known, found.words, &desk->arena, &found.list);
	hand_out(looking, &found);
	return true;
}

/* True where each word may be a tag or a range of them; *range_out where one can only be a
 * range. */
static bool
may_be_tags(struct desk *desk, const struct word_list *words, bool *range_out)
{
	bool tags = true;
	for (size_t i = 0; i < words->count; i++) {
		bool range = strstr(words->items[i], "..") != NULL;
		*range_out = *range_out || range;
		tags = tags && (range || desk_has_tag(desk, words->items[i]));
	}
	return tags || *range_out;
}

/* Finds the gear whose tags the words are, ranges among them. Words that are no tags are no fault,
 * unless one can only be a range. */
static bool
find_tags(struct desk *desk, const struct looking_for *looking, struct fault *fault)
{
	const struct word_list *words = looking->words;
	struct fault no_tags = {0};
	size_t *items = NULL;
	size_t count = 0;
	bool range = false;
	if (!may_be_tags(desk, words, &range)) {
		return true;
	}
	if (!ask_about(desk, range_part(desk, words, NULL), LEFT_ALL, fault)) {
		return false;
	}
	if (!range_items(desk, words, &items, &count, range ? fault : &no_tags)) {
		return !range;
	}
	struct where_answer found = as_loaded(desk, looking);
	found.list.items = ARENA_MANY(&desk->arena, struct whereabouts, count);
	for (size_t i = 0; i < count; i++) {
		found.list.items[i] = whereabouts_of(&found.known, items[i]);
	}
	found.list.count = count;
	hand_out(looking, &found);
	return true;
}

bool
desk_where(struct desk *desk, const struct word_list *words, where_taker *take,
    void *context, struct where_answer *out, struct fault *fault)
{
	SCOPED_TEXT together = {0};
	struct looking_for looking = {
	    .words = words, .take = take, .context = context, .out = out};
	for (size_t i = 0; i < words->count; i++) {
		text_add_format(&together, "%s%s", i == 0 ? "" : " ", words->items[i]);
	}
	*out = (struct where_answer){
	    .words = arena_string(&desk->arena, text_string(&together))};
	if (!desk_kinds(desk, &looking.kinds, fault) || !desk_book(desk, fault) ||
	    !find_bearers(desk, &looking, fault)) {
		return false;
	}
	return out->list.count > 0 ||
	       (book_names(desk->book, BOOK_SPLIT, &desk->arena, &looking.split, fault) &&
		   ask_by_boats(desk, LEFT_ALL, true, where_on_boats, &looking, fault) &&
		   (out->list.count > 0 || find_tags(desk, &looking, fault)));
}
