/* What the desk remarks on, and what it has to ask. */
#include "desk/desk.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

void
desk_note(struct desk *desk, const char *format, ...)
{
	char line[1024];
	va_list args;
	va_start(args, format);
	(void)vsnprintf(line, sizeof line, format, args);
	va_end(args);
	text_add_format(&desk->notes, "%s\n", line);
}

bool
desk_ask(struct desk *desk, const char *words, const char *unasked, const char *no,
    struct fault *fault)
{
	for (size_t i = 0; i < desk->answered.count; i++) {
		if (strcmp(desk->answered.items[i], words) == 0) {
			return true;
		}
	}
	desk->question.words = arena_string(&desk->arena, words);
	desk->question.no = arena_string(&desk->arena, no);
	return fault_set(fault, FAULT_INPUT, "%s", unasked);
}

void
desk_answer(struct desk *desk)
{
	struct word_list *answered = &desk->answered;
	ARENA_ROOM(&desk->arena, answered);
	answered->items[answered->count++] = desk->question.words;
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
