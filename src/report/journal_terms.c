#include "report/journal_terms.h"

#include "dates/stamp.h"
#include "gear/money.h"
#include "report/words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* How the value of a column is told. */
enum term_value {
	TERM_AS_IS,
	TERM_AMOUNT, /* kept in minor units */
	TERM_METRES, /* kept in centimetres */
	TERM_NUMBER,
	TERM_DAYS,
	TERM_MONTHS,
	TERM_YES_OR_NO,
	TERM_STAMP,
	TERM_DAY_OF_YEAR, /* 11-01; or a day */
	TERM_KIND,
};

/* What the book calls a thing, and what the trade calls it. */
struct term {
	const char *book;
	const char *trade;
	enum term_value value;
};

static const struct term TERMS[] = {
    {"above freezing", "kept above freezing", TERM_YES_OR_NO},
    {"bought", "bought", TERM_STAMP},
    {"built", "built", TERM_NUMBER},
    {"carriage (minor units)", "carriage", TERM_AMOUNT},
    {"choice routines", "weekly and monthly looks", TERM_YES_OR_NO},
    {"choice singles", "a reminder for each piece", TERM_YES_OR_NO},
    {"choice weekday", "your day of the week", TERM_AS_IS},
    {"confirmed", "said by the station", TERM_YES_OR_NO},
    {"days", "before", TERM_DAYS},
    {"dry storage", "stored dry", TERM_YES_OR_NO},
    {"expires", "expires", TERM_STAMP},
    {"first months", "the first after", TERM_MONTHS},
    {"first", "from", TERM_DAY_OF_YEAR},
    {"fitted", "fitted", TERM_STAMP},
    {"from years", "from an age in years of", TERM_NUMBER},
    {"from", "from", TERM_STAMP},
    {"given up", "given up because", TERM_AS_IS},
    {"given", "given", TERM_STAMP},
    {"goes weekdays", "goes on", TERM_AS_IS},
    {"hired until", "hired until", TERM_STAMP},
    {"kind", "kind", TERM_KIND},
    {"landed on", "landed", TERM_STAMP},
    {"landed to", "landed at", TERM_AS_IS},
    {"laid up", "laid up", TERM_YES_OR_NO},
    {"last", "to", TERM_DAY_OF_YEAR},
    {"lay up first", "lay-up from", TERM_DAY_OF_YEAR},
    {"lay up last", "lay-up to", TERM_DAY_OF_YEAR},
    {"left because", "left because", TERM_AS_IS},
    {"left", "left", TERM_STAMP},
    {"length cm", "length", TERM_METRES},
    {"made", "made", TERM_STAMP},
    {"margin days", "margin", TERM_DAYS},
    {"months", "every", TERM_MONTHS},
    {"most trips", "trips at most", TERM_NUMBER},
    {"next", "next", TERM_STAMP},
    {"not before", "nothing before", TERM_STAMP},
    {"on", "on", TERM_STAMP},
    {"packed", "packed", TERM_STAMP},
    {"parent", "part of", TERM_AS_IS},
    {"price (minor units)", "price", TERM_AMOUNT},
    {"season months", "a season of", TERM_MONTHS},
    {"split from", "taken from the lot", TERM_AS_IS},
    {"stands for", "stands in for", TERM_AS_IS},
    {"store", "keeps spares", TERM_YES_OR_NO},
    {"trip (minor units)", "trip", TERM_AMOUNT},
    {"turn round days", "turn-round", TERM_DAYS},
    {"until", "until", TERM_STAMP},
    {"vessel", "boat", TERM_AS_IS},
    {"weekly pieces", "pieces a week", TERM_NUMBER},
};

/* What a line is about, or what of it, where that has a table of its own. */
static const struct term PARTS[] = {
    {"closure", "closed every year", TERM_AS_IS},
    {"item", "piece", TERM_AS_IS},
    {"kind", "gear taken", TERM_AS_IS},
    {"make", "make taken", TERM_AS_IS},
    {"notice", "notice", TERM_AS_IS},
    {"pace", "turn-round by month", TERM_AS_IS},
    {"period", "use", TERM_AS_IS},
    {"period sheet", "use, its rule sheet", TERM_AS_IS},
    {"planned", "day", TERM_AS_IS},
    {"price step", "price by age", TERM_AS_IS},
    {"sheet", "rule sheet", TERM_AS_IS},
    {"vessel", "boat", TERM_AS_IS},
    {"winter", "one winter", TERM_AS_IS},
};

enum {
	TERM_COUNT = sizeof TERMS / sizeof TERMS[0],
	PART_COUNT = sizeof PARTS / sizeof PARTS[0]
};

/* The part of that name; NULL for none. */
static const struct term *
part_of(const char *name)
{
	for (size_t i = 0; i < PART_COUNT; i++) {
		if (strcmp(PARTS[i].book, name) == 0) {
			return &PARTS[i];
		}
	}
	return NULL;
}

/* The term that a field's name is, or ends in as a word: the longest. NULL for none. */
static const struct term *
term_ending(const char *field)
{
	const struct term *found = NULL;
	size_t length = strlen(field);
	for (size_t i = 0; i < TERM_COUNT; i++) {
		size_t own = strlen(TERMS[i].book);
		bool ends = own <= length &&
			    strcmp(field + length - own, TERMS[i].book) == 0 &&
			    (own == length || field[length - own - 1] == ' ');
		if (ends && (found == NULL || own > strlen(found->book))) {
			found = &TERMS[i];
		}
	}
	return found;
}

/* The term that words begin with, a blank after it: the longest. NULL for none. */
static const struct term *
term_beginning(const char *words)
{
	const struct term *found = NULL;
	for (size_t i = 0; i < TERM_COUNT; i++) {
		size_t own = strlen(TERMS[i].book);
		bool begins =
		    strncmp(words, TERMS[i].book, own) == 0 && words[own] == ' ';
		if (begins && (found == NULL || own > strlen(found->book))) {
			found = &TERMS[i];
		}
	}
	return found;
}

static bool
is_number(const char *value)
{
	size_t length = strlen(value);
	return length > 0 && length < 18 && strspn(value, "0123456789") == length;
}

/* A day of the year as "1 Nov"; a whole day as it is named. */
static bool
add_day_of_year(const char *value, struct text *out)
{
	char in_a_year[] = "2000-00-00"; /* a leap year: it has every day */
	char words[DAY_WORDS_SIZE];
	struct fault none = {0};
	day_t day = DAY_NONE;
	if (day_parse(value, &day, &none)) {
		text_add(out, day_words(day, words));
		return true;
	}
	(void)snprintf(
	    in_a_year + 5, sizeof in_a_year - 5, "%.5s", strlen(value) == 5 ? value : "");
	if (!day_parse(in_a_year, &day, &none)) {
		return false;
	}
	const char *year = strrchr(day_words(day, words), ' ');
	text_add_bytes(out, words, (size_t)(year - words));
	return true;
}

static bool
add_stamp_words(const char *value, struct text *out)
{
	struct stamp stamp = {0};
	struct fault none = {0};
	char words[STAMP_TEXT_SIZE];
	if (!stamp_parse(value, ORDER_ISO, &stamp, &none) ||
	    stamp.precision == STAMP_NONE) {
		return false;
	}
	text_add(out, stamp_words(stamp, words));
	return true;
}

static void
add_counted(const char *number, const char *one, struct text *out)
{
	text_add_format(out, "%s %s%s", number, one, strcmp(number, "1") == 0 ? "" : "s");
}

/* Adds the value as it is told; false where it can't be read so. */
static bool
add_read(const struct journal_speech *speech, enum term_value as, const char *value,
    struct text *out)
{
	char amount[MONEY_WORDS_SIZE];
	bool number = is_number(value);
	const struct kind *kind =
	    speech->kinds == NULL ? NULL : kinds_find(speech->kinds, value);
	switch (as) {
	case TERM_AS_IS:
		text_add(out, value);
		return true;
	case TERM_AMOUNT:
		text_add(out, number ? money_words(strtoll(value, NULL, 10),
					   speech->currency, amount)
				     : "");
		return number;
	case TERM_METRES:
		if (number) {
			text_add_format(
			    out, "%.2f m", (double)strtoll(value, NULL, 10) / 100);
		}
		return number;
	case TERM_NUMBER:
		text_add(out, number ? value : "");
		return number;
	case TERM_DAYS:
	case TERM_MONTHS:
		if (number) {
			add_counted(value, as == TERM_DAYS ? "day" : "month", out);
		}
		return number;
	case TERM_YES_OR_NO:
		text_add(out, number ? (value[0] == '0' ? "no" : "yes") : "");
		return number;
	case TERM_STAMP:
		return add_stamp_words(value, out);
	case TERM_DAY_OF_YEAR:
		return add_day_of_year(value, out);
	case TERM_KIND:
		text_add(out, kind != NULL ? kind_name(speech->kinds, value) : "");
		return kind != NULL;
	}
	return false;
}

/* Adds one of the things that a line says whole: its name and its value. */
static void
add_said(const struct journal_speech *speech, const char *words, struct text *out)
{
	const struct term *term = term_beginning(words);
	SCOPED_TEXT value = {0};
	if (term == NULL ||
	    !add_read(speech, term->value, words + strlen(term->book) + 1, &value)) {
		text_add(out, words);
		return;
	}
	text_add_format(out, "%s%s%s", term->value == TERM_KIND ? "" : term->trade,
	    term->value == TERM_KIND ? "" : " ", text_string(&value));
}

/* Adds a column's name: what it is of, where that is another thing than the line's, and the
 * column. */
static void
add_column(const char *field, struct text *out)
{
	const struct term *term = term_ending(field);
	SCOPED_TEXT before = {0};
	if (term == NULL) {
		text_add(out, field);
		return;
	}
	size_t length = strlen(field) - strlen(term->book);
	if (length > 0) {
		text_add_bytes(&before, field, length - 1);
		const struct term *part = part_of(text_string(&before));
		text_add_format(
		    out, "%s ", part == NULL ? text_string(&before) : part->trade);
	}
	text_add(out, term->trade);
}

void
journal_term(const struct journal_line *line, struct text *out)
{
	const char *what = line->field[0] != '\0' ? line->field : line->about;
	const struct term *part = part_of(what);
	if (line->act == JOURNAL_CHANGED) {
		add_column(line->field, out);
	} else {
		text_add(out, part == NULL ? what : part->trade);
	}
}

/* Adds all that was said of a thing: names and values with commas between them. */
static void
add_whole(const struct journal_speech *speech, const char *value, struct text *out)
{
	for (const char *at = value; *at != '\0';) {
		const char *next = strstr(at, ", ");
		size_t length = next == NULL ? strlen(at) : (size_t)(next - at);
		SCOPED_TEXT words = {0};
		text_add_bytes(&words, at, length);
		add_said(speech, text_string(&words), out);
		text_add(out, next == NULL ? "" : ", ");
		at += length + (next == NULL ? 0 : strlen(", "));
	}
}

void
journal_term_value(const struct journal_speech *speech, const struct journal_line *line,
    const char *value, struct text *out)
{
	const struct term *term = term_ending(line->field);
	if (line->act != JOURNAL_CHANGED) {
		add_whole(speech, value, out);
	} else if (term == NULL || !add_read(speech, term->value, value, out)) {
		text_add(out, value);
	}
}

void
journal_line_words(const struct journal_speech *speech, const struct journal_line *line,
    struct text *out)
{
	SCOPED_TEXT became = {0};
	SCOPED_TEXT was = {0};
	journal_term_value(speech, line, line->became, &became);
	journal_term_value(speech, line, line->was, &was);
	text_add_format(out, "%s%s", line->name, line->name[0] != '\0' ? ": " : "");
	journal_term(line, out);
	switch (line->act) {
	case JOURNAL_ADDED:
		text_add_format(out, " written%s%s", became.length > 0 ? ": " : "",
		    text_string(&became));
		break;
	case JOURNAL_CHANGED:
		text_add_format(out, " became %s; it was %s",
		    became.length > 0 ? text_string(&became) : "not known",
		    was.length > 0 ? text_string(&was) : "not known");
		break;
	case JOURNAL_REMOVED:
		text_add_format(
		    out, " taken out%s%s", was.length > 0 ? ": " : "", text_string(&was));
		break;
	}
}
