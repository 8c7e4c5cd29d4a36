#include "base/numbers.h"
#include "base/words.h"
#include "book/putting.h"
#include "desk/inside.h"
#include "desk/naming.h"
#include "desk/ranges.h"

#include <string.h>

/* What is due of a piece, of the one task asked about or of all. */
static void
find_why(struct desk *desk, const struct pieces_asked *asked, struct known_piece *piece)
{
	size_t count = 0;
	due_of_item(&desk->engine, piece->item, desk->today, &desk->arena,
	    &piece->obligations, &count);
	for (size_t i = 0; i < count; i++) {
		if (asked->task < 0 || (int)piece->obligations[i].task == asked->task) {
			piece->obligations[piece->obligation_count++] =
			    piece->obligations[i];
		}
	}
}

/* Says once of which entries lines are missing: of the first by number. */
static void
note_damaged(struct desk *desk, const struct journal *journal)
{
	enum { NAMED_MOST = 10 };

	SCOPED_TEXT words = {0};
	size_t named = LESSER(journal->damaged_count, NAMED_MOST);
	text_add_format(&words, "the journal's lines are damaged: what %s ",
	    journal->damaged_count == 1 ? "entry" : "entries");
	for (size_t i = 0; i < named; i++) {
		text_add_format(
		    &words, "%s%lld", i == 0 ? "" : ", ", (long long)journal->damaged[i]);
	}
	if (journal->damaged_count > named) {
		text_add_format(&words, " and %zu more", journal->damaged_count - named);
	}
	text_add(&words, " told may be missing here; \"becket book check\" says more");
	if (named > 0 && strstr(text_string(&desk->notes), text_string(&words)) == NULL) {
		desk_note(desk, "%s", text_string(&words));
	}
}

/* What is loaded of the past that words mean. */
static bool
find_past(
    struct desk *desk, const char *words, struct history_answer *out, struct fault *fault)
{
	const struct journal_query query = {.about = words, .since = DAY_NONE};
	history_find(&desk->contents.inventory, words, &desk->arena, &out->history);
	return desk_kinds(desk, &out->kinds, fault) &&
	       book_journal(desk->book, &query, &desk->arena, &out->journal, fault);
}

static bool
find_piece(struct desk *desk, const struct pieces_asked *asked, struct known_piece *piece,
    struct fault *fault)
{
	const struct item *item = &desk->contents.inventory.items[piece->item];
	if ((asked->wants & PIECE_PAPERS) != 0 &&
	    !book_load_papers(desk->book, item->tag, &desk->arena, &piece->papers,
		&piece->paper_count, fault)) {
		return false;
	}
	if ((asked->wants & PIECE_WHY) != 0) {
		find_why(desk, asked, piece);
	}
	return true;
}

bool
desk_pieces(struct desk *desk, const struct pieces_asked *asked,
    struct pieces_answer *out, struct fault *fault)
{
	size_t *items = NULL;
	*out = (struct pieces_answer){0};
	if (!desk_kinds(desk, &out->kinds, fault) ||
	    !ask_about(desk, range_part(desk, asked->tags, NULL), LEFT_ALL, fault) ||
	    ((asked->wants & PIECE_WHY) != 0 && !desk_engine(desk, NULL, fault)) ||
	    !range_items(desk, asked->tags, &items, &out->count, fault)) {
		return false;
	}
	out->items = arena_alloc(&desk->arena, (out->count + 1) * sizeof *out->items);
	for (size_t i = 0; i < out->count; i++) {
		out->items[i].item = items[i];
		if (!find_piece(desk, asked, &out->items[i], fault)) {
			return false;
		}
	}
	return true;
}

/* The same by a tag in another case or with accents left out, where nothing is known just so. */
static bool
find_past_near(
    struct desk *desk, const char *words, struct history_answer *out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t count = inventory->item_count;
	size_t found = 0;
	const char **tags = arena_alloc(&desk->arena, (count + 1) * sizeof *tags);
	for (size_t i = 0; i < count; i++) {
		tags[i] = inventory->items[i].tag;
	}
	if (!naming_among(desk, NAMED_TAG, words, tags, count, &found, fault)) {
		return false;
	}
	if (found < count) {
		return find_past(desk, tags[found], out, fault);
	}
	const char *near = nearest_word(words, tags, count);
	const char *where = out->journal.damaged_count > 0
				? ", as far as its damaged journal can be read,"
				: "";
	return near == NULL
		   ? fault_set(fault, FAULT_INPUT,
			 "nothing in the book%s has or had the serial number or tag "
			 "\"%.80s\"; \"becket where\" finds things by words",
			 where, words)
		   : fault_set(fault, FAULT_INPUT,
			 "nothing in the book%s has or had the serial number or tag "
			 "\"%.80s\"; did you mean %s?",
			 where, words, near);
}

bool
desk_history(
    struct desk *desk, const char *words, struct history_answer *out, struct fault *fault)
{
	*out = (struct history_answer){0};
	if (!ask_about(desk, bearers_part(desk, words, true), LEFT_ALL, fault) ||
	    !find_past(desk, words, out, fault)) {
		return false;
	}
	note_damaged(desk, &out->journal);
	return out->history.bearer_count > 0 || out->journal.count > 0 ||
	       find_past_near(desk, words, out, fault);
}

bool
desk_papers_of(
    struct desk *desk, const char *tag, struct papers_answer *out, struct fault *fault)
{
	return desk_book(desk, fault) && book_load_papers(desk->book, tag, &desk->arena,
					     &out->papers, &out->count, fault);
}

/* Puts the papers of these items, as they were named, in the place of all there are. */
static void
keep_papers(
    struct desk *desk, const size_t *items, size_t count, struct papers_answer *out)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct paper *kept = arena_alloc(&desk->arena, (out->count + 1) * sizeof *kept);
	size_t used = 0;
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < out->count; j++) {
			const struct paper *paper = &out->papers[j];
			if (strcmp(paper->tag, inventory->items[items[i]].tag) == 0) {
				kept[used++] = *paper;
			}
		}
	}
	*out = (struct papers_answer){kept, used};
}

bool
desk_papers(struct desk *desk, const struct word_list *tags, struct papers_answer *out,
    struct fault *fault)
{
	size_t *items = NULL;
	size_t count = 0;
	*out = (struct papers_answer){0};
	if (!ask_about(desk, range_part(desk, tags, NULL), LEFT_ALL, fault) ||
	    !range_items(desk, tags, &items, &count, fault)) {
		return false;
	}
	const char *one =
	    count == 1 ? desk->contents.inventory.items[items[0]].tag : NULL;
	if (!desk_papers_of(desk, one, out, fault)) {
		return false;
	}
	if (count > 1) {
		keep_papers(desk, items, count, out);
	}
	return true;
}

bool
desk_paper(struct desk *desk, int64_t number, struct paper *out, struct text *bytes,
    struct fault *fault)
{
	struct papers_answer all;
	const struct word_list none = {0};
	if (!desk_papers(desk, &none, &all, fault)) {
		return false;
	}
	for (size_t i = 0; i < all.count; i++) {
		if (all.papers[i].number == number) {
			*out = all.papers[i];
			return book_read_paper(desk->book, out, bytes, fault);
		}
	}
	return fault_set(
	    fault, FAULT_INPUT, "there is no paper %lld in the book", (long long)number);
}

bool
desk_journal(struct desk *desk, const struct journal_query *query, struct journal *out,
    struct fault *fault)
{
	*out = (struct journal){0};
	if (!desk_book(desk, fault) ||
	    !book_journal(desk->book, query, &desk->arena, out, fault)) {
		return false;
	}
	note_damaged(desk, out);
	return out->count > 0 || query->number == 0 ||
	       fault_set(fault, FAULT_INPUT, "the journal has no such entry %lld",
		   (long long)query->number);
}
