#include "exchange/csv_doubts.h"

#include "base/alike.h"

#include <stdio.h>
#include <string.h>

static struct csv_doubt *
find(struct csv_doubts *doubts, enum csv_doubt_about about, const char *theirs)
{
	/* of these one answer is for the whole list, whatever the first one is */
	bool whole = about >= DOUBT_NO_KIND;
	for (size_t i = 0; i < doubts->count; i++) {
		struct csv_doubt *doubt = &doubts->items[i];
		if (doubt->about == about &&
		    (whole || names_alike(doubt->theirs, theirs) >= ALIKE_CASE)) {
			return doubt;
		}
	}
	return NULL;
}

static void
add_example(struct csv_doubts *doubts, struct csv_doubt *doubt, const char *example)
{
	bool there = *example == '\0' || doubt->example_count == DOUBT_EXAMPLES_MOST;
	for (size_t i = 0; i < doubt->example_count; i++) {
		there = there || strcmp(doubt->examples[i], example) == 0;
	}
	if (!there) {
		doubt->examples[doubt->example_count++] =
		    arena_string(doubts->arena, example);
	}
}

void
csv_doubt(struct csv_doubts *doubts, enum csv_doubt_about about, const char *theirs,
    size_t line, const char *example)
{
	if (doubts == NULL) {
		return;
	}
	struct csv_doubt *doubt = find(doubts, about, theirs);
	if (doubt == NULL) {
		ARENA_ROOM(doubts->arena, doubts);
		doubt = &doubts->items[doubts->count++];
		*doubt = (struct csv_doubt){.about = about,
		    .theirs = arena_string(doubts->arena, theirs),
		    .line = line,
		    .hint = ""};
	}
	doubt->rows++;
	add_example(doubts, doubt, example);
	if (about == DOUBT_NO_GEAR || about == DOUBT_NO_KIND) {
		char words[24];
		struct word_list *lines = &doubt->lines;
		(void)snprintf(words, sizeof words, "%zu", line);
		ARENA_ADD(doubts->arena, lines, arena_string(doubts->arena, words));
	}
}

void
csv_doubt_example(struct csv_doubts *doubts, const char *header, const char *example)
{
	struct csv_doubt *doubt =
	    doubts == NULL ? NULL : find(doubts, DOUBT_HEADER, header);
	if (doubt != NULL) {
		add_example(doubts, doubt, example);
	}
}

void
csv_doubt_hint(struct csv_doubts *doubts, enum csv_doubt_about about, const char *theirs,
    const char *hint)
{
	struct csv_doubt *doubt = doubts == NULL ? NULL : find(doubts, about, theirs);
	if (doubt != NULL) {
		doubt->hint = arena_string(doubts->arena, hint);
	}
}

void
csv_words_are(struct csv_doubts *doubts, const char *theirs, const char *ours)
{
	for (size_t i = 0; doubts != NULL && i < doubts->words.count; i++) {
		struct csv_words_read *words = &doubts->words.items[i];
		if (strcmp(words->theirs, theirs) == 0) {
			words->rows++;
			words->ours = strcmp(words->ours, ours) == 0 ? words->ours : "";
			return;
		}
	}
	if (doubts == NULL) {
		return;
	}
	struct csv_all_words_read *all = &doubts->words;
	if (all->count == CSV_WORDS_MOST) {
		all->unlisted++;
		return;
	}
	ARENA_ADD(doubts->arena, all,
	    (struct csv_words_read){arena_string(doubts->arena, theirs),
		arena_string(doubts->arena, ours), 1});
}
