#include "calendar/reminders_inside.h"

#include <string.h>

static const struct item *
item_of(const struct wording *wording, const struct shore_line *line)
{
	return &wording->inventory->items[line->item];
}

/* True when an earlier line speaks of the same item. */
static bool
said_before(const struct shore_lines *lines, size_t index)
{
	for (size_t i = index; i > 0; i--) {
		if (lines->items[i - 1].item == lines->items[index].item) {
			return true;
		}
	}
	return false;
}

static const char *
kind_name(const struct wording *wording, const struct item *item)
{
	const struct kind *kind = kinds_find(wording->kinds, item->kind);
	return kind == NULL ? item->kind : kind->name;
}

void
wording_things(
    const struct wording *wording, const struct shore_lines *lines, struct text *out)
{
	size_t count = shore_pieces(wording->inventory, lines);
	bool one_item = true;
	bool one_kind = true;
	const struct item *first =
	    lines->count == 0 ? NULL : item_of(wording, &lines->items[0]);
	for (size_t i = 0; i < lines->count; i++) {
		const struct item *item = item_of(wording, &lines->items[i]);
		one_item = one_item && item == first;
		one_kind = one_kind && strcmp(item->kind, first->kind) == 0;
	}
	if (first == NULL) {
		return;
	}
	if (one_kind && count > 1) {
		text_add_format(out, "%zu x %s", count, kind_name(wording, first));
	} else {
		text_add(out, kind_name(wording, first));
	}
	if (one_item) {
		text_add_format(out, " %s", first->tag);
	} else if (!one_kind) {
		text_add_format(out, " and %zu more", count - (size_t)first->quantity);
	}
}

void
wording_boat(const struct wording *wording, const char *vessel, struct text *out)
{
	size_t boats = wording->of_several ? 2 : 0;
	for (size_t i = 0; i < wording->inventory->vessel_count; i++) {
		boats += wording->inventory->vessels[i].store ? 0 : 1;
	}
	if (boats > 1) {
		text_add_format(out, " (%s)", vessel);
	}
}

/* How many digits a currency's minor unit takes: ISO 4217, its list of active codes (from
 * memory). */
static int
minor_digits(const char *currency)
{
	static const char NONE[] = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND "
				   "VUV XAF XOF XPF";
	static const char THREE[] = "BHD IQD JOD KWD LYD OMR TND";
	if (strlen(currency) != 3) {
		return 2;
	}
	return strstr(NONE, currency) != NULL    ? 0
	       : strstr(THREE, currency) != NULL ? 3
						 : 2;
}

static void
add_amount(int64_t minor, const char *currency, struct text *out)
{
	int digits = minor_digits(currency);
	int64_t scale = digits == 0 ? 1 : digits == 2 ? 100 : 1000;
	text_add_format(out, "%lld", (long long)(minor / scale));
	if (digits > 0) {
		text_add_format(out, ".%0*lld", digits, (long long)(minor % scale));
	}
	text_add_format(out, " %s", currency);
}

/* "LR-1 valise liferaft (port locker)", with the number of pieces of a lot. */
static void
add_item(const struct wording *wording, const struct item *item, struct text *out)
{
	const struct kind *kind = kinds_find(wording->kinds, item->kind);
	text_add_format(out, "%s ", item->tag);
	if (item->quantity > 1) {
		text_add_format(out, "%d x ", item->quantity);
	}
	text_add(out, kind == NULL ? item->kind : kind->name);
	if (item->description[0] != '\0') {
		text_add(out, ", ");
		wording_words(item->description, out);
	}
	if (item->place[0] != '\0') {
		text_add(out, " (");
		wording_words(item->place, out);
		text_add_byte(out, ')');
	}
}

/* How the item stands: when in doubt, not in date. */
static void
add_state(const struct wording *wording, const struct shore_line *line, struct text *out)
{
	char due[DAY_WORDS_SIZE];
	(void)day_words(line->due, due);
	if (line->gone) {
		text_add(out, ", GONE, with none in its place");
		return;
	}
	if (line->state == STATE_DATE_UNKNOWN || due[0] == '\0') {
		text_add(out, ", date unknown: not counted as in date");
		return;
	}
	enum state state = line->state;
	if (wording->day != DAY_NONE && line->due >= wording->day) {
		state = STATE_IN_DATE;
	} else if (wording->day != DAY_NONE && state == STATE_IN_DATE) {
		state = line->task == TASK_RENEW ? STATE_EXPIRED : STATE_OVERDUE;
	}
	switch (state) {
	case STATE_IN_DATE:
	case STATE_DATE_UNKNOWN:
		text_add_format(out, ", due %s", due);
		break;
	case STATE_OVERDUE:
		text_add_format(out, ", OVERDUE, was due %s", due);
		break;
	case STATE_EXPIRED:
		text_add_format(out, ", EXPIRED, was good until %s", due);
		break;
	case STATE_LIFE_EXPIRED:
		text_add_format(out, ", PAST ITS MAXIMUM AGE, was good until %s", due);
		break;
	}
}

static void
add_day(const char *words, day_t day, struct text *out)
{
	char buffer[DAY_WORDS_SIZE];
	if (day_words(day, buffer)[0] != '\0') {
		text_add_format(out, "; %s %s", words, buffer);
	}
}

/* Adds "; price 620.00 EUR (from 10 years old), or 900.00 EUR if handed in on or after 1 Mar
 * 2027". */
static void
add_price(const struct shore_line *line, const char *currency, struct text *out)
{
	char buffer[DAY_WORDS_SIZE];
	text_add(out, "; price ");
	add_amount(line->price_minor, currency, out);
	if (line->price_age_missed) {
		text_add(out, " (the dearest there is for it: its age is not known)");
	} else if (line->price_from_years > 0) {
		text_add_format(out, " (from %d %s old)", line->price_from_years,
		    line->price_from_years == 1 ? "year" : "years");
	}
	if (line->later_years > 0) {
		text_add(out, ", or ");
		add_amount(line->later_minor, currency, out);
		text_add_format(out, " if handed in on or after %s",
		    day_words(line->later_from, buffer));
	}
}

/* What all lines of a list have in common, said once above it. */
struct shared {
	bool not_before, not_after, what, practice;
};

static struct shared
shared_by(const struct shore_lines *lines)
{
	struct shared shared = {true, true, true, true};
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		const struct shore_line *first = &lines->items[0];
		shared.not_before =
		    shared.not_before && line->not_before == first->not_before;
		shared.not_after =
		    shared.not_after && line->not_after == first->not_after;
		shared.what = shared.what && strcmp(line->what, first->what) == 0;
		shared.practice = shared.practice && line->grade == GRADE_PRACTICE;
	}
	return lines->count > 1 ? shared : (struct shared){false, false, false, false};
}

/* Adds "not before ...; not after ...; ..." of a line, only those parts that `which` has. */
static void
add_terms(const struct shore_line *line, struct shared which, struct text *out)
{
	if (which.not_before) {
		add_day("not before", line->not_before, out);
	}
	if (which.not_after) {
		add_day("not after", line->not_after, out);
	}
	if (which.what && line->what[0] != '\0') {
		text_add_format(out, "; %s", line->what);
	}
	if (which.practice && line->grade == GRADE_PRACTICE) {
		text_add(out, "; common practice");
	}
}

/* One line without its dash, and without what all of them share. */
static void
add_line(const struct wording *wording, const struct shore_line *line,
    struct shared shared, struct text *out)
{
	const struct shared own = {
	    !shared.not_before, !shared.not_after, !shared.what, !shared.practice};
	add_item(wording, item_of(wording, line), out);
	text_add_format(out, ": %s", shore_line_word(line));
	add_state(wording, line, out);
	add_terms(line, own, out);
	if (line->with_parent) {
		text_add(out, "; while what it is packed in is open");
	}
	if (!line->carries) {
		add_day(
		    "even so it is due again in the season, on", line->due_again, out);
	}
	if (line->counted) {
		text_add_format(
		    out, "; the %s counts as this", task_word(line->counted_by));
	} else if (line->price_minor >= 0) {
		add_price(line, wording->currency, out);
	}
}

void
wording_list(
    const struct wording *wording, const struct shore_lines *lines, struct text *out)
{
	struct shared shared = shared_by(lines);
	SCOPED_TEXT all = {0};
	if (lines->count > 1) {
		add_terms(&lines->items[0], shared, &all);
	}
	if (all.length > 0) {
		text_add_format(out, "All: %s.\n", text_string(&all) + 2);
	}
	for (size_t i = 0; i < lines->count; i++) {
		text_add(out, "- ");
		add_line(wording, &lines->items[i], shared, out);
		text_add_byte(out, '\n');
	}
}

void
wording_pieces(
    const struct wording *wording, const struct shore_lines *lines, struct text *out)
{
	for (size_t i = 0; i < lines->count; i++) {
		if (!said_before(lines, i)) {
			text_add(out, "- ");
			add_item(wording, item_of(wording, &lines->items[i]), out);
			text_add_byte(out, '\n');
		}
	}
}

/* Adds what `caution_of` says of each hazard among the lines, once. */
static void
add_cautions(const struct wording *wording, const struct shore_lines *lines,
    const char *(*caution_of)(const struct kinds *, enum hazard), struct text *out)
{
	bool met[HAZARD_COUNT] = {false};
	for (size_t i = 0; i < lines->count; i++) {
		const struct kind *kind =
		    kinds_find(wording->kinds, item_of(wording, &lines->items[i])->kind);
		if (kind != NULL) {
			met[kind->hazard] = true;
		}
	}
	for (size_t i = 0; i < HAZARD_COUNT; i++) {
		const char *caution =
		    met[i] ? caution_of(wording->kinds, (enum hazard)i) : "";
		if (caution[0] != '\0') {
			text_add_format(out, "%s\n", caution);
		}
	}
}

void
wording_carry(
    const struct wording *wording, const struct shore_lines *lines, struct text *out)
{
	add_cautions(wording, lines, kinds_carry_caution, out);
}

void
wording_dispose(
    const struct wording *wording, const struct shore_lines *lines, struct text *out)
{
	add_cautions(wording, lines, kinds_disposal_caution, out);
}

void
wording_short(const struct muster_line *lines, size_t count, struct text *summary,
    struct text *description)
{
	const char *between = "";
	for (size_t i = 0; i < count; i++) {
		const struct muster_line *line = &lines[i];
		bool told = line->asks[0] == '\0';
		if (told && line->missing == 0) {
			continue;
		}
		text_add_format(summary, "%s%s", between, line->line->title);
		between = ", ";
		text_add_format(description, "- %s: ", line->line->title);
		if (told) {
			text_add_format(
			    description, "%d of %d\n", line->have, line->need);
		} else {
			text_add_format(description,
			    "can't be told, %s is not known; not counted as enough\n",
			    line->asks);
		}
	}
}

void
wording_assumed(struct text *out)
{
	text_add_format(out,
	    "No station in the book takes these: %d days are assumed, ask the station.\n",
	    ASSUMED_TURN_ROUND_DAYS);
}

void
wording_too_late(day_t last, struct text *out)
{
	char words[DAY_WORDS_SIZE];
	text_add_format(out,
	    "TOO LATE: this day was chosen, but the last day that works is %s.\n",
	    day_words(last, words));
}

void
wording_caution(struct text *out)
{
	static const char CAUTION[] =
	    "This is a reminder, not advice to rely on: the label on the gear, the "
	    "maker's manual, the approved station's certificate, the local authority and "
	    "the surveyor decide.";
	wording_fit(out, WORDING_MOST - (sizeof CAUTION - 1));
	text_add(out, CAUTION);
}
