/* What the desk remarks on, and what it has to ask. */
#include "base/text.h"
#include "desk/desk.h"
#include "life/names.h"

#include <stdarg.h>
#include <unistd.h>

void
desk_note(struct desk *desk, const char *format, ...)
{
	va_list args;
	va_start(args, format);
	text_add_arguments(&desk->notes, format, args);
	va_end(args);
	text_add_byte(&desk->notes, '\n');
}

bool
desk_ask(struct desk *desk, const char *words, const char *unasked, const char *no,
    struct fault *fault)
{
	if (words_have(desk->answered.items, desk->answered.count, words)) {
		return true;
	}
	desk->question.words = arena_string(&desk->arena, words);
	desk->question.no = arena_string(&desk->arena, no);
	return fault_set(fault, FAULT_INPUT, "%s", unasked);
}

void
desk_answer(struct desk *desk)
{
	struct word_list *answered = &desk->answered;
	ARENA_ADD(&desk->arena, answered, desk->question.words);
	desk->question = (struct question){0};
}

void
desk_note_future(struct desk *desk, const char *field, struct stamp stamp)
{
	char words[STAMP_TEXT_SIZE];
	char today[DAY_WORDS_SIZE];
	if (stamp.precision != STAMP_NONE && stamp_first(stamp) > desk->today) {
		desk_note(desk, FIELD "%s %s is after today, %s", field,
		    stamp_words(stamp, words), day_words(desk->today, today));
	}
}

bool
desk_check_done(
    const struct desk *desk, const char *field, struct stamp on, struct fault *fault)
{
	char words[STAMP_TEXT_SIZE];
	char today[DAY_WORDS_SIZE];
	return stamp_first(on) <= desk->today ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "%s: %s is after today, %s; record it once it is done", field,
		   stamp_words(on, words), day_words(desk->today, today));
}

void
desk_note_near(struct desk *desk, const char *what, const char *name, const char *near)
{
	if (near != NULL) {
		desk_note(desk,
		    "there was no %s \"%s\" in the book, but there is %s: if that was "
		    "meant, \"becket book undo\" takes this back",
		    what, name, near);
	}
}

bool
desk_has_book(const struct desk *desk)
{
	return access(desk->book_path, F_OK) == 0;
}

/* A remark on a day before the thing was made, as an import has it, where the day or that of its
 * making is new. */
static void
remark_impossible(struct desk *desk, const struct item_change *change,
    const struct item *known, const struct record *record)
{
	char words[STAMP_TEXT_SIZE];
	bool made_set = (change->set & 1U << FIELD_MADE) != 0;
	bool marked = (change->set & 1U << FIELD_EXPIRES) != 0;
	const struct stamp none = {0};
	const struct stamp *made = known != NULL ? &known->made : &none;
	const struct stamp *mark = known != NULL ? &known->expires : &none;
	day_t first = stamp_first(made_set ? change->made : *made);
	day_t last = stamp_good_through(marked ? change->expires : *mark);
	if (first != DAY_NONE && record != NULL && stamp_last(record->on) < first) {
		desk_note(desk, FIELD "served %s is before it was made",
		    stamp_words(record->on, words));
	}
	if (first != DAY_NONE && last != DAY_NONE && last < first &&
	    (made_set || marked)) {
		desk_note(desk, FIELD "expires %s is before it was made",
		    stamp_words(marked ? change->expires : *mark, words));
	}
}

void
desk_note_item(struct desk *desk, const struct item_change *change,
    const struct item *known, const struct record *record)
{
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		if (field->type == VALUE_STAMP && !field->mark) {
			const struct stamp *stamp = field_of(field, change);
			desk_note_future(desk, field->name, *stamp);
		}
	}
	if (record != NULL) {
		const struct book_contents *contents = &desk->contents;
		desk_note_near(desk, "station", record->station,
		    station_name_near(
			contents->stations, contents->station_count, record->station));
	}
	remark_impossible(desk, change, known, record);
}
