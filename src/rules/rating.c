#include "rules/rating.h"

#include "base/text.h"

#include <string.h>

/* One mark of a rating. */
struct rating_mark {
	long number; /* 0 where it has none */
	const char *letters;
	size_t length;
};

static bool
is_digit(char byte)
{
	return byte >= '0' && byte <= '9';
}

static bool
is_letter(char byte)
{
	int lower = text_lower(byte);
	return lower >= 'a' && lower <= 'z';
}

/* Takes the next mark off `*at`; false at the end. */
static bool
next_mark(const char **at, struct rating_mark *out)
{
	enum { LARGEST = 100000 };

	const char *here = *at;
	while (*here != '\0' && !is_digit(*here) && !is_letter(*here)) {
		here++;
	}
	struct rating_mark mark = {0};
	bool numbered = is_digit(*here);
	while (is_digit(*here)) {
		mark.number = mark.number * 10 + (*here++ - '0');
		mark.number = mark.number > LARGEST ? LARGEST : mark.number;
	}
	const char *letters = numbered ? here + strspn(here, " -") : here;
	while (is_letter(letters[mark.length])) {
		mark.length++;
	}
	mark.letters = letters;
	*at = mark.length > 0 ? letters + mark.length : here;
	*out = mark;
	return numbered || mark.length > 0;
}

static bool
same_letters(const struct rating_mark *a, const struct rating_mark *b)
{
	if (a->length != b->length) {
		return false;
	}
	for (size_t i = 0; i < a->length; i++) {
		if (text_lower(a->letters[i]) != text_lower(b->letters[i])) {
			return false;
		}
	}
	return true;
}

/* "10BC" is for fires of class B and of class C. */
static bool
has_class(const struct rating_mark *mark, char wanted)
{
	bool found = false;
	for (size_t i = 0; i < mark->length; i++) {
		int letter = text_lower(mark->letters[i]);
		if (letter > 'f') {
			return false;
		}
		found = found || letter == text_lower(wanted);
	}
	return found;
}

static bool
has_mark(const char *rating, const struct rating_mark *wanted)
{
	struct rating_mark mark;
	while (next_mark(&rating, &mark)) {
		bool enough = wanted->length == 0 ? mark.number == wanted->number
						  : mark.number >= wanted->number;
		bool classes = wanted->length == 1 && mark.number > 0 &&
			       has_class(&mark, wanted->letters[0]);
		if (enough && (classes || same_letters(&mark, wanted))) {
			return true;
		}
	}
	return false;
}

bool
rating_reaches(const char *rating, const char *wanted)
{
	struct rating_mark mark;
	while (next_mark(&wanted, &mark)) {
		if (!has_mark(rating, &mark)) {
			return false;
		}
	}
	return true;
}

bool
rating_same(const char *a, const char *b)
{
	for (;;) {
		a += strspn(a, " -");
		b += strspn(b, " -");
		if (text_lower(*a) != text_lower(*b)) {
			return false;
		}
		if (*a == '\0') {
			return true;
		}
		a++;
		b++;
	}
}

bool
rating_is_one(const char *rating)
{
	struct rating_mark mark;
	return next_mark(&rating, &mark);
}

static bool
is_word(const struct rating_mark *mark, const char *const *words)
{
	for (size_t i = 0; words[i] != NULL; i++) {
		const struct rating_mark word = {
		    .letters = words[i], .length = strlen(words[i])};
		if (mark->number == 0 && same_letters(mark, &word)) {
			return true;
		}
	}
	return false;
}

/* "B", "BC": classes of fires, to F, and K for those of fat. */
static bool
has_fire_letters(const struct rating_mark *mark)
{
	for (size_t i = 0; i < mark->length; i++) {
		int letter = text_lower(mark->letters[i]);
		if (letter > 'f' && letter != 'k') {
			return false;
		}
	}
	return mark->length > 0;
}

/* Words that a number or a letter follows. */
static const char *const NAMED[] = {"iso", "category", "type", "class", NULL};

static bool
is_known_mark(const struct rating_mark *before, const struct rating_mark *mark)
{
	static const char *const WORDS[] = {
	    "solas", "orc", "adult", "child", "infant", NULL};
	static const char *const PACKS[] = {"a", "b", NULL};
	static const char *const TYPES[] = {"i", "ii", "iii", "iv", "v", "a", "b", NULL};
	static const char *const SOLAS[] = {"solas", NULL};
	const struct rating_mark newton = {.letters = "n", .length = 1};
	if (mark->number > 0 && mark->length > 0) {
		return has_fire_letters(mark) || same_letters(mark, &newton);
	}
	if (mark->number > 0) {
		return is_word(before, NAMED) ||
		       (before->number > 0 && before->length == 0);
	}
	return is_word(mark, WORDS) || is_word(mark, NAMED) ||
	       (is_word(before, NAMED) && is_word(mark, TYPES)) ||
	       (is_word(before, SOLAS) && is_word(mark, PACKS)) ||
	       (before->number > 0 && has_fire_letters(before) && has_fire_letters(mark));
}

bool
rating_is_known(const char *rating)
{
	struct rating_mark before = {.letters = ""};
	struct rating_mark mark;
	while (next_mark(&rating, &mark)) {
		if (!is_known_mark(&before, &mark)) {
			return false;
		}
		before = mark;
	}
	return !is_word(&before, NAMED);
}
