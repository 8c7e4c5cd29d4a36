/* Stamps read from what people write and lists hold. */
#include "base/text.h"
#include "dates/stamp.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { YEAR_FIRST = 1900, YEAR_LAST = 2199, INPUT_MOST = 60 };

/* A stamp being read: what is left of the text, and the whole for messages. */
struct stamp_reading {
	const char *whole;
	const char *at;
	enum date_order order;
};

static bool
refuse(const struct stamp_reading *reading, struct fault *fault, const char *why)
{
	return fault_set(fault, FAULT_INPUT, "\"%.*s\" is no date: %s", INPUT_MOST,
	    reading->whole, why);
}

static void
skip_blanks(struct stamp_reading *reading)
{
	reading->at += strspn(reading->at, " \t");
}

/* True, and moves past it, when the text goes on with this word (any case of letters). */
static bool
take_word(struct stamp_reading *reading, const char *word)
{
	size_t length = strlen(word);
	if (strncasecmp(reading->at, word, length) != 0 ||
	    isalnum((unsigned char)reading->at[length])) {
		return false;
	}
	reading->at += length;
	skip_blanks(reading);
	return true;
}

static enum stamp_wording
take_wording(struct stamp_reading *reading)
{
	static const struct {
		const char *word;
		enum stamp_wording wording;
	} WORDS[] = {
	    {"use before", WORDING_BEFORE},
	    {"before", WORDING_BEFORE},
	    {"use by", WORDING_USE_BY},
	    {"expires", WORDING_PLAIN},
	    {"expiry", WORDING_PLAIN},
	    {"exp.", WORDING_PLAIN},
	    {"exp", WORDING_PLAIN},
	};

	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		if (take_word(reading, WORDS[i].word)) {
			if (*reading->at == ':') {
				reading->at++;
				skip_blanks(reading);
			}
			return WORDS[i].wording;
		}
	}
	return WORDING_PLAIN;
}

/* One run of digits or letters of a date. */
struct stamp_piece {
	int number; /* its value, or the month's number when it is a month's name */
	int digits; /* how many digits; 0 for a name */
};

static const struct stamp_piece NO_PIECE = {0};

/* Reads one piece; false when there is none here or it is too long to be one. */
static bool
take_piece(struct stamp_reading *reading, struct stamp_piece *piece_out)
{
	const char *start = reading->at;
	int digits = 0, number = 0;
	while (digits <= 8 && start[digits] >= '0' && start[digits] <= '9') {
		number = number * 10 + (start[digits++] - '0');
	}
	if (digits > 0 && digits <= 8) {
		*piece_out = (struct stamp_piece){number, digits};
		reading->at += digits;
		return true;
	}
	size_t letters = 0;
	int month = digits == 0 ? month_at(start, &letters) : 0;
	if (month == 0) {
		return false;
	}
	*piece_out = (struct stamp_piece){month, 0};
	reading->at += letters;
	return true;
}

/* Moves past blanks and "de" or "del", as in "28 de noviembre de 2026"; true for such a word. */
static bool
skip_joint(struct stamp_reading *reading)
{
	skip_blanks(reading);
	return take_word(reading, "de") || take_word(reading, "del");
}

/* The separator between two pieces: one of / . - or blanks, 0 when there is none. */
static char
take_separator(struct stamp_reading *reading)
{
	char separator = *reading->at;
	if (separator == '/' || separator == '.' || separator == '-') {
		reading->at++;
		if (separator == '.' && skip_joint(reading)) { /* "28. Nov." */
			return ' '; /* "5. de 2026" is no month */
		}
		return separator;
	}
	/* "November 28, 2026" */
	if (separator == ' ' || (separator == ',' && reading->at[1] == ' ')) {
		reading->at++;
		(void)skip_joint(reading);
		return ' ';
	}
	return 0;
}

/* Moves past one of these words, in any case; false where none stands there. */
static bool
take_one_of(struct stamp_reading *reading, const char *const *words, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		size_t length = strlen(words[i]);
		if (text_lower(*reading->at) == text_lower(words[i][0]) &&
		    strncasecmp(reading->at, words[i], length) == 0) {
			reading->at += length;
			skip_blanks(reading);
			return true;
		}
	}
	return false;
}

#define TAKE_ONE_OF(reading, words)                                                      \
	take_one_of((reading), (words), sizeof(words) / sizeof((words)[0]))

/* Words before a date that make it an estimate, the longer ones first. */
static bool
take_about(struct stamp_reading *reading)
{
	static const char *const WORDS[] = {"circa ", "approx. ", "approx ", "about ",
	    "around ", "ca. ", "ca ", "c. ", "~"};
	return TAKE_ONE_OF(reading, WORDS);
}

/* The same after it, as stamp_text and stamp_words write them and as people do. */
static bool
take_estimated(struct stamp_reading *reading)
{
	static const char *const WORDS[] = {"~", "(estimated)", "(estimate)", "(est.)",
	    "(est)", "(approx.)", "(approx)", "(ca.)", "(circa)", "estimated", "est.",
	    "est", "approx.", "approx"};
	return TAKE_ONE_OF(reading, WORDS);
}

/* "end of" a month or a year, which is good through its last day as it stands. */
static bool
take_end(struct stamp_reading *reading)
{
	static const char *const WORDS[] = {"end of ", "end ", "ende ", "fin "};
	return TAKE_ONE_OF(reading, WORDS);
}

/* The pieces of a date and what stands between them. */
struct stamp_pieces {
	struct stamp_piece piece[3];
	char separator[2];
	int count;
};

static bool
take_pieces(struct stamp_reading *reading, struct stamp_pieces *pieces)
{
	pieces->count = 0;
	while (pieces->count < 3) {
		if (!take_piece(reading, &pieces->piece[pieces->count])) {
			return false;
		}
		pieces->count++;
		skip_blanks(reading);
		struct stamp_reading rest = *reading;
		if (*reading->at == '\0' || pieces->count == 3 || take_estimated(&rest)) {
			break;
		}
		if (reading->at[-1] == ' ') {
			reading->at--;
		}
		pieces->separator[pieces->count - 1] = take_separator(reading);
		if (pieces->separator[pieces->count - 1] == 0) {
			return false;
		}
	}
	return true;
}

static bool
is_year(struct stamp_piece piece)
{
	return piece.digits == 4;
}

static bool
is_name(struct stamp_piece piece)
{
	return piece.digits == 0;
}

static bool
is_short(struct stamp_piece piece)
{
	return piece.digits == 1 || piece.digits == 2;
}

static bool
set_parts(struct stamp *stamp, struct stamp_piece year, struct stamp_piece month,
    struct stamp_piece day)
{
	stamp->year = (int16_t)year.number;
	stamp->month = (int8_t)month.number;
	stamp->day = (int8_t)day.number;
	return true;
}

/* 30/04/2021 and the like: two short numbers, then a year, in the order that was told.
 * Without one, a number above 12 can only be the day, and of two alike it does not matter. */
static bool
read_day_month_year(const struct stamp_reading *reading, const struct stamp_piece *piece,
    struct stamp *stamp, struct fault *fault)
{
	int first = piece[0].number;
	int second = piece[1].number;
	bool month_first = reading->order == ORDER_MONTH_FIRST;
	if (reading->order == ORDER_ISO) {
		if (first <= 12 && second <= 12 && first != second) {
			return refuse(reading, fault,
			    "day and month could be either way round; expected 2021-04-30 or "
			    "30 Apr 2021");
		}
		month_first = second > 12;
	}
	return set_parts(stamp, piece[2], piece[!month_first], piece[month_first]);
}

static bool
read_three(const struct stamp_reading *reading, const struct stamp_pieces *pieces,
    struct stamp *stamp, struct fault *fault)
{
	const struct stamp_piece *piece = pieces->piece;
	bool year_first = is_year(piece[0]) && is_short(piece[1]) && is_short(piece[2]) &&
			  pieces->separator[0] != ' ' &&
			  pieces->separator[0] == pieces->separator[1];
	stamp->precision = STAMP_DAY;
	if (year_first) {
		return set_parts(stamp, piece[0], piece[1], piece[2]);
	}
	if (!is_year(piece[2])) {
		return refuse(reading, fault,
		    "expected a year of four digits, as in 2021-04-30 or 30 Apr 2021");
	}
	if (is_short(piece[0]) && is_name(piece[1])) {
		return set_parts(stamp, piece[2], piece[1], piece[0]);
	}
	if (is_name(piece[0]) && is_short(piece[1])) {
		return set_parts(stamp, piece[2], piece[0], piece[1]);
	}
	if (is_short(piece[0]) && is_short(piece[1]) &&
	    pieces->separator[0] == pieces->separator[1]) {
		return read_day_month_year(reading, piece, stamp, fault);
	}
	return refuse(reading, fault, "expected a date like 2021-04-30 or 30 Apr 2021");
}

static bool
read_two(const struct stamp_reading *reading, const struct stamp_pieces *pieces,
    struct stamp *stamp, struct fault *fault)
{
	struct stamp_piece first = pieces->piece[0];
	struct stamp_piece second = pieces->piece[1];
	char separator = pieces->separator[0];
	stamp->precision = STAMP_MONTH;
	if (is_year(first) && is_short(second) && separator != ' ') {
		return set_parts(stamp, first, second, NO_PIECE);
	}
	bool named = is_name(first) && is_year(second);
	bool slashed = is_short(first) && is_year(second) && separator != ' ';
	if (named || slashed) {
		return set_parts(stamp, second, first, NO_PIECE);
	}
	if (is_short(first) || is_short(second)) {
		return refuse(reading, fault,
		    "two digits could be a day or a year; expected the year with four, "
		    "as in 04/2021, Apr 2021 or 2021-04");
	}
	return refuse(
	    reading, fault, "expected a month like 2021-04, 04/2021 or April 2021");
}

static bool
read_pieces(const struct stamp_reading *reading, const struct stamp_pieces *pieces,
    struct stamp *stamp, struct fault *fault)
{
	for (int i = 0; i < pieces->count; i++) {
		if (pieces->piece[i].digits == 5) {
			return refuse(reading, fault,
			    "a year has four digits, and this looks like a spreadsheet's "
			    "day number; give the column a date format there, as in "
			    "2021-04-30, and save it again");
		}
		if (pieces->piece[i].digits > 4) {
			return refuse(reading, fault,
			    "a year has four digits; expected a date like 2021-04-30");
		}
	}
	if (pieces->count > 1) {
		return pieces->count == 3 ? read_three(reading, pieces, stamp, fault)
					  : read_two(reading, pieces, stamp, fault);
	}
	if (!is_year(pieces->piece[0])) {
		return refuse(reading, fault,
		    "expected a year of four digits, a month like 2021-04 or a day like "
		    "2021-04-30");
	}
	stamp->precision = STAMP_YEAR;
	return set_parts(stamp, pieces->piece[0], NO_PIECE, NO_PIECE);
}

/* Moves past a midnight, which spreadsheets write after a day that has no time of day. */
static void
take_midnight(struct stamp_reading *reading)
{
	static const char *const MIDNIGHTS[] = {"00:00:00", "00:00", "0:00:00", "0:00"};
	struct stamp_reading rest = *reading;
	rest.at += *rest.at == 'T';
	if (TAKE_ONE_OF(&rest, MIDNIGHTS)) {
		*reading = rest;
	}
}

/* Checks that the parts exist in the calendar and lie in the accepted years. */
static bool
check_parts(const struct stamp_reading *reading, struct stamp stamp, struct fault *fault)
{
	char why[96];
	if (stamp.year < YEAR_FIRST || stamp.year > YEAR_LAST) {
		(void)snprintf(why, sizeof why, "year %d is not between %d and %d",
		    stamp.year, YEAR_FIRST, YEAR_LAST);
		return refuse(reading, fault, why);
	}
	if (stamp.precision >= STAMP_MONTH && (stamp.month < 1 || stamp.month > 12)) {
		(void)snprintf(why, sizeof why, "there is no month %d", stamp.month);
		return refuse(reading, fault, why);
	}
	if (stamp.precision == STAMP_DAY &&
	    (stamp.day < 1 || stamp.day > days_in_month(stamp.year, stamp.month))) {
		(void)snprintf(why, sizeof why, "%s %d has no day %d",
		    month_name(stamp.month), stamp.year, stamp.day);
		return refuse(reading, fault, why);
	}
	return true;
}

/* Reads "2021", "2021-04" and "2021-04-30", as most dates of a list and all of a book are,
 * without a look for the words that others have; false for any other. What it reads need not
 * be in the calendar. */
static bool
read_plain(struct stamp_reading reading, struct stamp *out)
{
	static const enum stamp_precision PRECISIONS[] = {
	    STAMP_YEAR, STAMP_MONTH, STAMP_DAY};
	struct stamp_piece part[3] = {0};
	for (size_t i = 0; i < 3; i++) {
		if (!take_piece(&reading, &part[i]) ||
		    part[i].digits != (i == 0 ? 4 : 2)) {
			return false;
		}
		if (*reading.at == '\0') {
			*out = (struct stamp){.precision = PRECISIONS[i]};
			return set_parts(out, part[0], part[1], part[2]);
		}
		if (*reading.at++ != '-') {
			return false;
		}
	}
	return false;
}

bool
stamp_parse(const char *string, enum date_order order, struct stamp *stamp_out,
    struct fault *fault)
{
	struct stamp_reading reading = {.whole = string, .at = string, .order = order};
	struct stamp stamp;
	if (read_plain(reading, &stamp)) {
		if (!check_parts(&reading, stamp, fault)) {
			return false;
		}
		*stamp_out = stamp;
		return true;
	}
	skip_blanks(&reading);
	if (*reading.at == '\0') {
		*stamp_out = (struct stamp){0};
		return true;
	}
	stamp = (struct stamp){.wording = take_wording(&reading)};
	struct stamp_pieces pieces = {0};
	bool end = take_end(&reading);
	stamp.estimated = take_about(&reading);
	end = take_end(&reading) || end;
	if (!take_pieces(&reading, &pieces)) {
		return refuse(
		    &reading, fault, "expected a date like 2021-04-30, 2021-04 or 2021");
	}
	skip_blanks(&reading);
	if (pieces.count == 3) {
		take_midnight(&reading);
	}
	stamp.estimated = take_estimated(&reading) || stamp.estimated;
	if (*reading.at != '\0') {
		return refuse(&reading, fault, "there is more after the date");
	}
	if (end && (pieces.count == 3 || stamp.wording != WORDING_PLAIN)) {
		return refuse(&reading, fault,
		    "\"end\" goes with a month or a year that a thing is good through, as in "
		    "end of Jun 2027");
	}
	if (!read_pieces(&reading, &pieces, &stamp, fault) ||
	    !check_parts(&reading, stamp, fault)) {
		return false;
	}
	*stamp_out = stamp;
	return true;
}
