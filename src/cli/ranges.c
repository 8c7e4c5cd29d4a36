#include "cli/ranges.h"

#include "cli/values.h"

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
append(struct arena *arena, struct word_range *range, const char *word)
{
	ARENA_ROOM(arena, range);
	range->items[range->count++] = word;
}

static void
add_range(struct arena *arena, const struct ends *ends, struct word_range *range)
{
	SCOPED_TEXT word = {0};
	for (long number = ends->first; number <= ends->last; number++) {
		text_reset(&word);
		text_add_bytes(&word, ends->from, ends->head);
		text_add_format(&word, "%0*ld", (int)ends->digits, number);
		const char *copy = arena_string(arena, text_string(&word));
		append(arena, range, copy);
	}
}

static bool
add_word(struct arena *arena, const char *what, const char *word,
    struct word_range *range, struct fault *fault)
{
	if (strstr(word, "..") != NULL) {
		struct ends ends = {0};
		if (!read_ends(what, word, &ends, fault)) {
			return false;
		}
		add_range(arena, &ends, range);
		return true;
	}
	append(arena, range, word);
	return true;
}

bool
range_words(struct arena *arena, const char *what, const char *value,
    struct word_range *out, struct fault *fault)
{
	const char *const *words = NULL;
	size_t count = 0;
	struct word_range range = {0};
	const char *name = strncmp(what, "--", 2) == 0 ? what + 2 : what;
	if (!value_list(arena, name, value, &words, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (!add_word(arena, what, words[i], &range, fault)) {
			return false;
		}
	}
	*out = range;
	return true;
}

/* The tag as it stands when there is such an item, whatever dots are in it; else a range. */
static bool
add_tags(struct context *context, const char *word, struct word_range *range,
    struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (strcmp(inventory->items[i].tag, word) == 0) {
			append(&context->desk.arena, range, word);
			return true;
		}
	}
	return add_word(&context->desk.arena, "TAG", word, range, fault);
}

bool
range_items(struct context *context, size_t first, size_t **items_out, size_t *count_out,
    struct fault *fault)
{
	const struct word_list *words = &context->given->words;
	struct word_range range = {0};
	size_t *ends =
	    arena_alloc(&context->desk.arena, (words->count + 1) * sizeof *ends);
	for (size_t i = first; i < words->count; i++) {
		if (!add_tags(context, words->items[i], &range, fault)) {
			return false;
		}
		ends[i] = range.count;
	}
	size_t *items =
	    arena_alloc(&context->desk.arena, (range.count + 1) * sizeof *items);
	size_t word = first;
	for (size_t i = 0; i < range.count; i++) {
		word += i == ends[word] ? 1 : 0;
		if (!desk_find_tag(&context->desk, range.items[i], &items[i], fault)) {
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
range_answer(struct context *context, const size_t *items, size_t count,
    bool (*each)(
	struct context *context, size_t item, const void *asked, struct fault *fault),
    const void *asked, struct fault *fault)
{
	bool array = context->json && count > 1;
	for (size_t i = 0; i < count; i++) {
		text_add(&context->out, array ? i == 0 ? "[" : "," : i == 0 ? "" : "\n");
		if (!each(context, items[i], asked, fault)) {
			return false;
		}
	}
	text_add(&context->out, array ? "]\n" : "");
	return true;
}
