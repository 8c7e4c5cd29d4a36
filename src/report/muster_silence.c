/* What no line is of: "nothing short" is said only of the subjects that have lines. */
#include "report/parts_inside.h"

#include <string.h>

static bool
same_asks(const struct muster_silence *a, const struct muster_silence *b)
{
	if (a->ask_count != b->ask_count) {
		return false;
	}
	for (size_t i = 0; i < a->ask_count; i++) {
		if (strcmp(a->ask[i], b->ask[i]) != 0) {
			return false;
		}
	}
	return true;
}

bool
muster_same_silences(const struct muster *a, const struct muster *b)
{
	if (a->silence_count != b->silence_count) {
		return false;
	}
	for (size_t i = 0; i < a->silence_count; i++) {
		if (a->silences[i].subject != b->silences[i].subject ||
		    !same_asks(&a->silences[i], &b->silences[i])) {
			return false;
		}
	}
	return true;
}

/* "tethers, first aid (ask the Coast Guard)": subjects with the same to ask stand together. */
static void
add_by_asks(const struct muster *muster, struct text *words)
{
	for (size_t i = 0; i < muster->silence_count; i++) {
		const struct muster_silence *first = &muster->silences[i];
		size_t before = 0;
		while (!same_asks(&muster->silences[before], first)) {
			before++;
		}
		if (before < i) {
			continue;
		}
		text_add_format(
		    words, "%s%s", i == 0 ? "" : "; ", subject_name(first->subject));
		for (size_t j = i + 1; j < muster->silence_count; j++) {
			if (same_asks(&muster->silences[j], first)) {
				text_add_format(words, ", %s",
				    subject_name(muster->silences[j].subject));
			}
		}
		text_add(words, " (ask ");
		for (size_t j = 0; j < first->ask_count; j++) {
			text_add_format(words, "%s%s", j == 0 ? "" : "; ", first->ask[j]);
		}
		text_add(
		    words, first->ask_count == 0 ? "the authority of her flag)" : ")");
	}
	text_add_byte(words, '.');
}

/* True when the boat was named for one of her other musters. */
static bool
is_named(const struct muster *musters, size_t first, size_t at)
{
	size_t i = first;
	while (i < at && (musters[i].vessel != musters[at].vessel ||
			     !muster_same_silences(&musters[i], &musters[first]))) {
		i++;
	}
	return i < at;
}

/* The names of the boats that are told the same as the one at `first`; none where there is
 * but one boat. */
static void
add_names(const char *const *names, const struct muster *musters, size_t count,
    size_t first, struct text *words)
{
	size_t alike = 0;
	for (size_t i = first; i < count; i++) {
		alike += muster_same_silences(&musters[i], &musters[first]) ? 1 : 0;
	}
	if (count == 1 || alike == count) {
		text_add(words, count == 1 ? "No" : "All boats: no");
		return;
	}
	bool any = false;
	for (size_t i = first; i < count; i++) {
		if (muster_same_silences(&musters[i], &musters[first]) &&
		    !is_named(musters, first, i)) {
			text_add_format(words, "%s%s", any ? ", " : "", names[i]);
			any = true;
		}
	}
	text_add(words, ": no");
}

void
muster_add_silence_words(const struct muster *muster, struct text *words)
{
	if (muster->silence_count > 0) {
		text_add(words, "No line is of these, so they are not counted: ");
		add_by_asks(muster, words);
	}
}

void
muster_add_silences(const char *const *names, const struct muster *musters, size_t count,
    struct reply *reply)
{
	bool any = false;
	for (size_t i = 0; i < count; i++) {
		size_t before = 0;
		while (!muster_same_silences(&musters[before], &musters[i])) {
			before++;
		}
		if (before < i || musters[i].silence_count == 0) {
			continue;
		}
		SCOPED_TEXT words = {0};
		add_names(names, musters, count, i, &words);
		text_add(&words, " line is of these, so they are not counted: ");
		add_by_asks(&musters[i], &words);
		reply_words(reply, VOICE_QUIET, !any, 2, text_string(&words));
		any = true;
	}
}

void
muster_add_subjects(const struct muster *musters, size_t count, struct reply *reply)
{
	SCOPED_ARENA arena = {0};
	size_t most = 0;
	for (size_t i = 0; i < count; i++) {
		most += musters[i].subject_count;
	}
	const struct not_stated **told =
	    arena_alloc(&arena, (most + 1) * sizeof(const struct not_stated *));
	size_t told_count = 0;
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < musters[i].subject_count; j++) {
			const struct not_stated *subject = musters[i].subjects[j];
			SCOPED_TEXT words = {0};
			size_t at = 0;
			while (at < told_count && told[at] != subject) {
				at++;
			}
			if (at < told_count) {
				continue;
			}
			told[told_count++] = subject;
			text_add_format(&words, "Not stated in the sheet %s: %s; ask %s.",
			    subject->sheet, subject->subject, subject->ask);
			reply_words(
			    reply, VOICE_QUIET, told_count == 1, 2, text_string(&words));
		}
	}
}
