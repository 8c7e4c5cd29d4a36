/* What is remarked beside shore papers: what is on none of them. */
#include "cli/parts.h"

#include <stdarg.h>
#include <string.h>

/* True when a station would do it ashore if there were a day for it. */
static bool
wants_station(const struct context *context, const struct shore_line *line)
{
	const struct item *item = &context->desk.contents.inventory.items[line->item];
	const struct kind *kind = kinds_find(context->desk.engine.kinds, item->kind);
	return line->task == TASK_SERVICE && kind != NULL && kind->service_ashore;
}

/* The first trip of a list that is given out from a later day on; NULL for none. */
static const struct trip *
given_later(const struct shore_list *list)
{
	const struct trips *trips = &list->hand_in;
	for (size_t i = 0; i < trips->count; i++) {
		if (trips->items[i].held_back) {
			return &trips->items[i];
		}
	}
	return NULL;
}

/* What is remarked of bases comes after all that is of boats. */
static const int64_t OF_BASES = INT64_C(1) << 40;

static void keep_note(struct papers_remarks *remarks, int64_t key, const char *format,
    ...) FORMAT_LIKE(3, 4);

static void
keep_note(struct papers_remarks *remarks, int64_t key, const char *format, ...)
{
	SCOPED_TEXT words = {0};
	va_list arguments;
	va_start(arguments, format);
	text_add_arguments(&words, format, arguments);
	va_end(arguments);
	runs_add(&remarks->kept,
	    &(struct run_piece){key, text_string(&words), words.length + 1, NULL});
}

static int64_t
place_of(const struct shore_list *list, const size_t *places)
{
	return (int64_t)(places == NULL ? list->vessel : places[list->vessel]);
}

/* Says of each base, under the first of its boats, that its next hand-ins are on no paper yet. */
static void
note_later(struct papers_remarks *remarks, const struct shore_list *lists, size_t count,
    const size_t *places)
{
	const struct vessel *vessels = remarks->context->desk.contents.inventory.vessels;
	char from[DAY_WORDS_SIZE];
	for (size_t i = 0; i < count; i++) {
		const char *base = vessels[lists[i].vessel].base;
		const struct trip *trip = given_later(&lists[i]);
		bool said = false;
		for (size_t j = 0; j < i && trip != NULL && !said; j++) {
			said = given_later(&lists[j]) != NULL &&
			       strcmp(vessels[lists[j].vessel].base, base) == 0;
		}
		if (trip != NULL && !said) {
			keep_note(remarks, OF_BASES + place_of(&lists[i], places),
			    "hand-ins of %s in the winter of %d are on paper from %s on, "
			    "when its boats have all fitted out; --year %d shows them",
			    base, trip->year, day_words(trip->given_from, from),
			    trip->year);
		}
	}
}

/* Names what belongs ashore and is on no paper, so that nobody takes the papers for complete. */
static void
note_missing(struct papers_remarks *remarks, const struct shore_list *list, int64_t place)
{
	const struct item *items = remarks->context->desk.contents.inventory.items;
	for (size_t j = 0; j < list->cannot.count; j++) {
		keep_note(remarks, place,
		    "%s can't be done in time and is on no paper; see \"becket winter\"",
		    items[list->cannot.items[j].item].tag);
	}
	for (size_t j = 0; j < list->now.count; j++) {
		const struct shore_line *line = &list->now.items[j];
		if (wants_station(remarks->context, line)) {
			keep_note(remarks, place,
			    "%s is to be serviced now, not in a winter, and is on no paper",
			    items[line->item].tag);
		}
	}
}

void
papers_remark(struct papers_remarks *remarks, const struct shore_list *lists,
    size_t count, const size_t *places)
{
	for (size_t i = 0; i < count; i++) {
		note_missing(remarks, &lists[i], place_of(&lists[i], places));
	}
	note_later(remarks, lists, count, places);
	runs_end(&remarks->kept);
}

void
papers_remark_kept(struct papers_remarks *remarks, size_t from, int64_t place)
{
	struct context *context = remarks->context;
	const struct text *notes = &context->desk.notes;
	int64_t key = place == REMARKED_LAST ? INT64_MAX : place;
	if (notes->length > from && (place >= 0 || !remarks->begun)) {
		SCOPED_TEXT words = {0};
		text_add_bytes(&words, notes->bytes + from, notes->length - from - 1);
		runs_add(&remarks->kept, &(struct run_piece){key, text_string(&words),
					     words.length + 1, NULL});
	}
	context_forget_notes(context, from);
	if (place == REMARKED_LAST) {
		remarks->begun = true;
		runs_end(&remarks->kept);
	}
}

static void
say_note(const struct run_piece *piece, void *of)
{
	struct context *context = of;
	desk_note(&context->desk, "%s", piece->bytes);
}

bool
papers_remarks_say(const struct papers_remarks *remarks, struct fault *fault)
{
	return runs_merge(&remarks->kept, say_note, remarks->context, fault);
}
