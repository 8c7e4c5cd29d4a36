/* The part of the book that a list has to do with: the boats and the gear that it names,
 * and what may be mistaken for what it brings. */
#include "base/numbers.h"
#include "book/putting.h"
#include "desk/inside.h"
#include "exchange/tag_index.h"
#include "life/lookout.h"
#include "life/names.h"

#include <string.h>

/* A list with more rows than one to so many pieces of the book is compared with all of
 * it, and so is one near which there are more tags than MET_MOST. */
enum { PIECES_A_ROW = 4, MET_MOST = 1000 };

/* All words are in the desk's arena. */
struct part_gathering {
	struct desk *desk;
	const struct import_request *request;
	struct word_list
	    vessels; /* the list's; then those of the book that are meant, or near */
	struct word_list tags; /* the list's; then those of what the part is made of */
	const struct inventory *known; /* the gear that has them */
	struct tag_index index;        /* owned; of that */
	struct lookout lookout;        /* owned; the list's new tags and numbers */
	struct last_tags last;         /* owned; of kinds of which the list has no tags */
	size_t met;
};

static void
gathering_clear(struct part_gathering *gathering)
{
	tag_index_clear(&gathering->index);
	lookout_clear(&gathering->lookout);
	last_tags_clear(&gathering->last);
}

static const char *
keep(struct part_gathering *gathering, const char *word)
{
	return arena_string(&gathering->desk->arena, word);
}

static void
add_tag(struct part_gathering *gathering, const char *tag)
{
	if (tag != NULL && tag[0] != '\0') {
		ARENA_ADD(
		    &gathering->desk->arena, &gathering->tags, keep(gathering, tag));
	}
}

static bool
gather_row(struct csv_row *row, void *context, struct fault *fault)
{
	struct part_gathering *gathering = context;
	struct word_list *vessels = &gathering->vessels;
	const char *vessel = row->change.vessel;
	(void)fault;
	if (vessel[0] != '\0' &&
	    (vessels->count == 0 ||
		strcmp(vessels->items[vessels->count - 1], vessel) != 0)) {
		ARENA_ADD(&gathering->desk->arena, vessels, keep(gathering, vessel));
	}
	add_tag(gathering, row->change.tag);
	add_tag(gathering, row->change.part_of);
	return true;
}

/* Puts in the place of the list's boats those of the book that have these names, or ones
 * that may be meant. */
static bool
find_vessels(struct part_gathering *gathering, struct fault *fault)
{
	struct arena *arena = &gathering->desk->arena;
	struct word_list *wanted = &gathering->vessels;
	struct word_list names = {0};
	struct word_list found = {0};
	if (!book_names(gathering->desk->book, BOOK_VESSELS, arena, &names, fault)) {
		return false;
	}
	ARRAY_SORT(wanted->items, wanted->count, text_order);
	for (size_t i = 0; i < wanted->count; i++) {
		const char *name = wanted->items[i];
		bool again = i > 0 && strcmp(wanted->items[i - 1], name) == 0;
		bool there = words_among(&names, name);
		for (size_t j = 0; j < names.count && !again; j++) {
			if (there ? text_same_letters(names.items[j], name)
				  : vessel_names_near(names.items[j], name)) {
				ARENA_ADD(arena, &found, names.items[j]);
			}
		}
	}
	*wanted = found;
	return true;
}

/* Leaves of the tags those that are in the book, with the lots that they are of. */
static bool
find_tags(struct part_gathering *gathering, struct fault *fault)
{
	struct desk *desk = gathering->desk;
	struct word_list lots = {0};
	bool done = book_lots(desk->book, gathering->tags.items, gathering->tags.count,
	    &desk->arena, &lots, fault);
	gathering->tags = lots;
	gathering->tags.capacity = lots.count; /* more are added */
	return done;
}

/* Adds a row's tag and number to what is looked out for, unless the book has them so. */
static bool
look_for_row(struct csv_row *row, void *context, struct fault *fault)
{
	struct part_gathering *gathering = context;
	const struct import_request *request = gathering->request;
	const struct item_change *change = &row->change;
	(void)fault;
	if (row->further) {
		return true;
	}
	bool tagged = change->tag != NULL;
	size_t at =
	    tagged ? tag_index_find(&gathering->index, change->tag) : ITEM_NO_PARENT;
	const struct item *item =
	    at == ITEM_NO_PARENT ? NULL : &gathering->known->items[at];
	const char *kind =
	    change->kind[0] == '\0' && item != NULL ? item->kind : change->kind;
	if (!tagged) {
		last_tags_want(&gathering->last, kind);
	} else if (item == NULL && !request->names_right) {
		lookout_tag(&gathering->lookout, keep(gathering, kind),
		    keep(gathering, change->tag));
	}
	/* what was condemned may be coming back */
	bool same = item != NULL && strcmp(item->serial, change->serial) == 0 &&
		    strcmp(item->kind, kind) == 0 && item->because != BECAUSE_CONDEMNED;
	bool right = request->said.right && request->said.again;
	if (change->serial[0] != '\0' && !same && !(tagged && right)) {
		lookout_serial(&gathering->lookout, keep(gathering, kind),
		    keep(gathering, change->serial), !request->said.right);
	}
	return true;
}

static void
take_mark(void *context, const struct book_mark *mark)
{
	struct part_gathering *gathering = context;
	const struct lookout *lookout = &gathering->lookout;
	if (!mark->past) {
		last_tags_see(&gathering->last, mark->tag);
	}
	bool met = lookout->count > 0 && gathering->met < MET_MOST &&
		   ((!mark->past && lookout_meets_tag(lookout, mark->kind, mark->tag)) ||
		       lookout_meets_serial(lookout, mark->kind, mark->serial));
	if (met) {
		gathering->met++;
		add_tag(gathering, mark->tag);
	}
}

/* Finds what is near what the list brings, and what fresh tags follow. Reads every tag
 * and number of the book, and the past ones, where the list brings any. */
static bool
find_near(
    struct part_gathering *gathering, const struct csv_rows *rows, struct fault *fault)
{
	const struct last_tags *last = &gathering->last;
	tag_index_make(gathering->known, &gathering->index);
	if (!csv_rows_each(rows, look_for_row, gathering, fault)) {
		return false;
	}
	bool looks = gathering->lookout.count > 0;
	lookout_begin(&gathering->lookout);
	if (!looks && last->count == 0) {
		return true;
	}
	if (!book_marks(gathering->desk->book, looks, take_mark, gathering, fault)) {
		return false;
	}
	for (size_t i = 0; i < last->count; i++) {
		add_tag(gathering, text_string(&last->items[i].tag));
	}
	return gathering->met < MET_MOST && find_tags(gathering, fault);
}

/* Gathers what the part is made of; the contents hold the gear that the list names. */
static bool
gather(struct part_gathering *gathering, const struct csv_rows *rows,
    struct book_contents *contents, struct fault *fault)
{
	struct book_part part = {.without_stations = true};
	bool there = false;
	if (!csv_rows_each(rows, gather_row, gathering, fault) ||
	    !find_vessels(gathering, fault) || !find_tags(gathering, fault)) {
		return false;
	}
	part.tags = (const char *const *)gathering->tags.items;
	part.tag_count = gathering->tags.count;
	if (!book_load_part(
		gathering->desk->book, &part, true, contents, &there, fault)) {
		return false;
	}
	gathering->known = &contents->inventory;
	return there && find_near(gathering, rows, fault);
}

const struct book_part *
import_part(
    struct desk *desk, const struct import_request *request, const struct csv_rows *rows)
{
	struct part_gathering gathering = {.desk = desk, .request = request};
	struct book_contents contents = {0};
	struct fault ignored = {0};
	size_t most = 0;
	int64_t as_of =
	    0; /* before the first question: what is entered meanwhile is noticed */
	if (!desk_has_book(desk) || !desk_book(desk, &ignored) ||
	    !book_revision(desk->book, &as_of, &ignored) ||
	    !book_items_most(desk->book, &most, &ignored) ||
	    rows->count > most / PIECES_A_ROW) {
		return NULL;
	}
	struct book_part *part = NULL;
	if (gather(&gathering, rows, &contents, &ignored)) {
		part = arena_alloc(&desk->arena, sizeof *part);
		*part = (struct book_part){
		    .vessels = (const char *const *)gathering.vessels.items,
		    .vessel_count = gathering.vessels.count,
		    .tags = (const char *const *)gathering.tags.items,
		    .tag_count = gathering.tags.count,
		    .reach = REACH_FAMILIES,
		    .without_stations = true,
		    .as_of = as_of,
		    .sufficient = true,
		};
	}
	book_contents_clear(&contents);
	gathering_clear(&gathering);
	return part;
}
