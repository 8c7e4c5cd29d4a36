#include "cli/calendar_acts.h"
#include "cli/command.h"
#include "cli/terminal.h"
#include "cli/values.h"

#include <string.h>
#include <strings.h>

static const char WHO[] = "becket calendar";

bool
calendar_keep_add(struct context *context, struct calendar_keep *keep, const char *uid,
    enum caldav_keep which, struct fault *fault)
{
	struct caldav_choice *grown =
	    arena_alloc(&context->desk.arena, (keep->count + 1) * sizeof *grown);
	for (size_t i = 0; i < keep->count; i++) {
		grown[i] = keep->choices[i];
		if (strcmp(grown[i].uid, uid) == 0 && grown[i].keep != which) {
			return fault_set(fault, FAULT_INPUT,
			    "--keep: \"%.8s\" is told to be ours and theirs", uid);
		}
	}
	grown[keep->count++] = (struct caldav_choice){uid, which};
	keep->choices = grown;
	return true;
}

/* Finds the one identity that starts so. FAULT_INPUT where there is not one. */
static bool
find_uid(
    struct context *context, const char *id, const char **uid_out, struct fault *fault)
{
	const struct book_reminder *known = NULL;
	size_t known_count = 0;
	size_t found = 0;
	if (!book_load_reminders(
		context->desk.book, &context->desk.arena, &known, &known_count, fault)) {
		return false;
	}
	for (size_t i = 0; i < known_count; i++) {
		if (strncasecmp(known[i].uid, id, strlen(id)) == 0) {
			*uid_out = known[i].uid;
			found++;
		}
	}
	return found == 1 || fault_set(fault, FAULT_INPUT,
				 "--keep: %s reminder's identity starts with \"%s\"; "
				 "\"becket remind\" shows them",
				 found == 0 ? "no" : "more than one", id);
}

/* Takes the identities after "ours=" or "theirs=". */
static bool
take_ids(struct context *context, const char *list, enum caldav_keep which,
    struct calendar_keep *keep, struct fault *fault)
{
	const char *const *words = NULL;
	size_t count = 0;
	if (!value_list(&context->desk.arena, "keep", list, &words, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		const char *uid = "";
		if (!find_uid(context, words[i], &uid, fault) ||
		    !calendar_keep_add(context, keep, uid, which, fault)) {
			return false;
		}
	}
	return true;
}

static bool
take_word(struct context *context, const char *word, struct calendar_keep *keep,
    struct fault *fault)
{
	size_t length = strcspn(word, "=");
	bool ours = length == 4 && strncasecmp(word, "ours", length) == 0;
	bool theirs = length == 6 && strncasecmp(word, "theirs", length) == 0;
	enum caldav_keep which = ours ? CALDAV_KEEP_OURS : CALDAV_KEEP_THEIRS;
	if (!ours && !theirs) {
		return usage_fault(fault, WHO,
		    "--keep: expected ours or theirs, or one of them with =ID,ID for single "
		    "reminders, found \"%s\"",
		    word);
	}
	if (word[length] == '=') {
		return take_ids(context, word + length + 1, which, keep, fault);
	}
	if (keep->usual != CALDAV_ASK && keep->usual != which) {
		return usage_fault(fault, WHO, "--keep: all can't be ours and theirs");
	}
	keep->usual = which;
	return true;
}

bool
calendar_keep_read(struct context *context, const struct word_list *words,
    struct calendar_keep *out, struct fault *fault)
{
	struct calendar_keep keep = {.usual = CALDAV_ASK};
	for (size_t i = 0; i < words->count; i++) {
		if (!take_word(context, words->items[i], &keep, fault)) {
			return false;
		}
	}
	*out = keep;
	return true;
}

bool
calendar_keep_ask(const char *summary, day_t theirs, day_t ours, enum caldav_keep *out,
    struct fault *fault)
{
	SCOPED_TEXT question = {0};
	SCOPED_TEXT answer = {0};
	bool there = false;
	char their_day[DAY_WORDS_SIZE];
	char our_day[DAY_WORDS_SIZE];
	text_add_format(&question,
	    "%s: moved there to %s, and here to %s.\nWhich holds? [t]heirs or [o]urs; blank "
	    "leaves it: ",
	    summary, day_words(theirs, their_day), day_words(ours, our_day));
	if (!ask_line(text_string(&question), &answer, &there, fault)) {
		return false;
	}
	int choice = there ? ask_choice(text_string(&answer), "theirs|ours", "to") : -1;
	*out = choice == 0   ? CALDAV_KEEP_THEIRS
	       : choice == 1 ? CALDAV_KEEP_OURS
			     : CALDAV_ASK;
	return true;
}
