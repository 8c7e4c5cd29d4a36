#include "book/journal.h"
#include "cli/command.h"
#include "cli/parts.h"

#include <pwd.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Adds words from the command line; bytes that are not UTF-8 become question marks. */
static void
add_words(struct text *out, const char *words)
{
	size_t from = out->length;
	text_add(out, words);
	text_mend_utf8(out, from);
}

/* Adds a word as it would be typed: in quotes when it is empty or has blanks. */
static void
add_typed(struct text *out, const char *word)
{
	bool quoted = word[0] == '\0' || strpbrk(word, " \t\n\"'") != NULL;
	text_add(out, quoted ? "'" : "");
	add_words(out, word);
	text_add(out, quoted ? "'" : "");
}

static const char *
login(void)
{
	const char *name = getenv("LOGNAME"); // NOLINT(concurrency-mt-unsafe)
	if (name != NULL && name[0] != '\0') {
		return name;
	}
	const struct passwd *user = getpwuid(getuid()); // NOLINT(concurrency-mt-unsafe)
	return user == NULL ? "" : user->pw_name;
}

bool
context_signature(struct context *context, struct signature *out, struct fault *fault)
{
	SCOPED_TEXT who = {0};
	SCOPED_TEXT act = {0};
	const char *given = options_value(context->given, "signed");
	if (given != NULL && given[strspn(given, " \t")] == '\0') {
		return fault_set(
		    fault, FAULT_INPUT, "--signed: expected a name, found nothing");
	}
	add_words(&who, given != NULL ? given : login());
	text_add(&act, context->command->name);
	for (size_t i = 0; i < context->words.count; i++) {
		text_add(&act, " ");
		add_typed(&act, context->words.items[i]);
	}
	*out = (struct signature){
	    .who = arena_string(&context->desk.arena, text_string(&who)),
	    .act = arena_string(&context->desk.arena, text_string(&act)),
	    .at = context->desk.now,
	    .told = context->desk.today_given,
	};
	return true;
}
