#include "desk/ranges.h"

#include "life/serials.h"

#include <stdlib.h>
#include <string.h>

/* The word up to its last digits: "LJ-" of "LJ-10". */
static size_t
head_length(const char *word, size_t length)
{
	while (length > 0 && word[length - 1] >= '0' && word[length - 1] <= '9') {
		length--;
	}
	return length;
}

/* The two ends of a range, as text. */
struct ends {
	const char *from;
	size_t from_length;
	const char *to;
	size_t head;   /* letters before the digits */
	size_t digits; /* of the first end */
	long first;
	long last;
};

static bool
read_ends(const char *what, const char *word, struct ends *ends, struct fault *fault)
{
	const char *dots = strstr(word, "..");
	ends->from = word;
	ends->from_length = (size_t)(dots - word);
	ends->to = dots + 2;
	size_t to_length = strlen(ends->to);
	ends->head = head_length(word, ends->from_length);
	ends->digits = ends->from_length - ends->head;
	size_t to_digits = to_length - head_length(ends->to, to_length);
	bool shaped = ends->digits > 0 && to_digits > 0 && ends->digits <= 9 &&
		      to_digits <= 9 && to_length - to_digits == ends->head &&
		      strncmp(word, ends->to, ends->head) == 0;
	if (!shaped) {
		return fault_set(fault, FAULT_INPUT,
		    "%s: \"%.60s\" is no range; expected two ends that differ in their "
		    "number alone, as LJ-1..LJ-10",
		    what, word);
	}
	ends->first = strtol(word + ends->head, NULL, 10);
	ends->last = strtol(ends->to + ends->head, NULL, 10);
	if (ends->last < ends->first || ends->last - ends->first >= RANGE_MOST) {
		return fault_set(fault, FAULT_INPUT,
		    "%s: \"%.60s\" runs from %ld to %ld; expected a range that goes up, "
		    "over at most %d",
		    what, word, ends->first, ends->last, (int)RANGE_MOST);
	}
	return true;
}

static void
add_range(struct arena *arena, const struct ends *ends, struct word_list *range)
{
	SCOPED_TEXT word = {0};
	for (long number = ends->first; number <= ends->last; number++) {
		text_reset(&word);
		text_add_bytes(&word, ends->from, ends->head);
		text_add_format(&word, "%0*ld", (int)ends->digits, number);
		ARENA_ADD(arena, range, arena_string(arena, text_string(&word)));
	}
}

static bool
add_word(struct arena *arena, const char *what, const char *word, struct word_list *range,
    struct fault *fault)
{
	if (strstr(word, "..") != NULL) {
		struct ends ends = {0};
		if (!read_ends(what, word, &ends, fault)) {
			return false;
		}
		add_range(arena, &ends, range);
		return true;
	}
	ARENA_ADD(arena, range, word);
	return true;
}

bool
range_words(struct arena *arena, const char *what, const char *value,
    struct word_list *out, struct fault *fault)
{
	struct word_list words = {0};
	struct word_list range = *out;
	if (!words_cut(arena, value, &words, fault)) {
		return fault_prefix(fault, "%s", what);
	}
	for (size_t i = 0; i < words.count; i++) {
		if (!add_word(arena, what, words.items[i], &range, fault)) {
			return false;
		}
	}
	*out = range;
	return true;
}

const struct book_part *
range_part(struct desk *desk, const struct word_list *words, const char *vessel)
{
	struct fault ignored = {0};
	struct word_list tags = {0};
	struct word_list vessels = {0};
	struct book_part *part = arena_alloc(&desk->arena, sizeof *part);
	if (!desk_book(desk, &ignored)) {
		return NULL;
	}
	for (size_t i = 0; i < words->count; i++) {
		const char *word = words->items[i];
		/* what is no range stands for itself, whether it is in the book or not */
		bool one = strstr(word, "..") == NULL && strchr(word, ',') == NULL;
		if ((!one &&
			!book_has_name(desk->book, BOOK_TAGS, word, &one, &ignored)) ||
		    (!one && !range_words(&desk->arena, "TAG", word, &tags, &ignored))) {
			return NULL;
		}
		if (one) {
			ARENA_ADD(&desk->arena, &tags, word);
		}
	}
	if (vessel != NULL) {
		ARENA_ADD(&desk->arena, &vessels, vessel);
	}
	*part = (struct book_part){.vessels = (const char *const *)vessels.items,
	    .vessel_count = vessels.count,
	    .tags = (const char *const *)tags.items,
	    .tag_count = tags.count,
	    .reach = REACH_FAMILIES};
	return tags.count == 0 ? NULL : part;
}

/* Tags of gear that a word may mean. */
struct bearing {
	struct desk *desk;
	const char *word;
	struct word_list tags;
};

static void
take_bearer(void *context, const struct book_mark *mark)
{
	struct bearing *bearing = context;
	if (strcmp(mark->tag, bearing->word) == 0 ||
	    serial_same(mark->serial, bearing->word)) {
		ARENA_ADD(&bearing->desk->arena, &bearing->tags,
		    arena_string(&bearing->desk->arena, mark->tag));
	}
}

const struct book_part *
lots_part(struct desk *desk, const struct word_list *tags)
{
	struct fault ignored = {0};
	struct word_list lots = {0};
	struct book_part *part = arena_alloc(&desk->arena, sizeof *part);
	if (!book_lots(
		desk->book, tags->items, tags->count, &desk->arena, &lots, &ignored)) {
		return NULL;
	}
	*part = (struct book_part){.tags = (const char *const *)lots.items,
	    .tag_count = lots.count,
	    .reach = REACH_FAMILIES};
	return lots.count == 0 ? NULL : part;
}

const struct book_part *
bearers_part(struct desk *desk, const char *word, bool past)
{
	struct fault ignored = {0};
	struct bearing bearing = {.desk = desk, .word = word};
	if (!past && desk_has_tag(desk, word)) {
		ARENA_ADD(&desk->arena, &bearing.tags, word);
	} else if (!desk_book(desk, &ignored) ||
		   !book_marks(desk->book, past, take_bearer, &bearing, &ignored)) {
		return NULL;
	}
	return lots_part(desk, &bearing.tags);
}

/* The tag as it stands when there is such an item, whatever dots are in it; else a range. */
static bool
add_tags(
    struct desk *desk, const char *word, struct word_list *range, struct fault *fault)
{
	if (inventory_tagged(&desk->contents.inventory, word) != ITEM_NO_PARENT) {
		ARENA_ADD(&desk->arena, range, word);
		return true;
	}
	return add_word(&desk->arena, "TAG", word, range, fault);
}

bool
range_items(struct desk *desk, const struct word_list *words, size_t **items_out,
    size_t *count_out, struct fault *fault)
{
	struct word_list range = {0};
	size_t *ends = arena_alloc(&desk->arena, (words->count + 1) * sizeof *ends);
	for (size_t i = 0; i < words->count; i++) {
		if (!add_tags(desk, words->items[i], &range, fault)) {
			return false;
		}
		ends[i] = range.count;
	}
	size_t *items = arena_alloc(&desk->arena, (range.count + 1) * sizeof *items);
	size_t word = 0;
	for (size_t i = 0; i < range.count; i++) {
		word += i == ends[word] ? 1 : 0;
		if (!desk_find_tag(desk, range.items[i], &items[i], fault)) {
			return strcmp(words->items[word], range.items[i]) != 0 &&
			       fault_prefix(fault, "%s", words->items[word]);
		}
		for (size_t j = 0; j < i; j++) {
			if (items[j] == items[i]) {
				return fault_set(fault, FAULT_INPUT, "%s is named twice",
				    range.items[i]);
			}
		}
	}
	*items_out = items;
	*count_out = range.count;
	return true;
}

bool
desk_has_tag(struct desk *desk, const char *tag)
{
	struct fault ignored = {0};
	bool there = false;
	return desk_book(desk, &ignored) &&
	       book_has_name(desk->book, BOOK_TAGS, tag, &there, &ignored) && there;
}
