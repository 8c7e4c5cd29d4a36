#include "desk/inside.h"

#include <string.h>

/* What may be said of a vessel from a day on, in the order in which it is told. */
static const struct subject_row {
	enum vessel_field field;
	const char *words;
} SUBJECTS[] = {
    {VESSEL_USE, "use"},
    {VESSEL_AREA, "area"},
    {VESSEL_PERSONS, "persons"},
    {VESSEL_SEASON, "season-months"},
    {VESSEL_FREEZING, "above-freezing"},
    {VESSEL_DRY, "dry-storage"},
    {VESSEL_BASE, "base"},
    {VESSEL_LAY_UP, "lay-up"},
    {VESSEL_SHEETS, "sheets"},
};

enum { SUBJECT_COUNT = sizeof SUBJECTS / sizeof SUBJECTS[0] };

/* Takes one subject of what was said over into `out`, and out of `all`; false when it was not
 * said. */
static bool
take(struct vessel_change *all, enum vessel_field field, struct vessel_change *out)
{
	*out = *all;
	out->set &= 1U << field;
	out->from = DAY_NONE;
	all->set &= ~(1U << field);
	return out->set != 0;
}

static bool
same_sheets(const struct vessel *vessel, const struct vessel_change *change)
{
	if (vessel->sheet_count != change->sheet_count) {
		return false;
	}
	for (size_t i = 0; i < change->sheet_count; i++) {
		if (strcmp(vessel->sheets[i], change->sheets[i]) != 0) {
			return false;
		}
	}
	return true;
}

static bool
same_yearly(struct yearly a, struct yearly b)
{
	return a.first_month == b.first_month && a.first_day == b.first_day &&
	       a.last_month == b.last_month && a.last_day == b.last_day;
}

/* How what is told compares with what the book has today. */
enum news { AS_IT_WAS, FIRST_TOLD, OTHERWISE };

/* A word or a number that was not known is told for the first time; she always had a use, a
 * lay-up and sheets. */
static enum news
news_of(const struct vessel *vessel, day_t today, enum vessel_field field,
    const struct vessel_change *said)
{
	const struct period *period = vessel_period_on(vessel, today);
	const struct vessel_change now = {.timed = period->timed};
	const struct field *row = &VESSEL_FIELDS[field];
	bool same = false;
	bool known = true;
	if (field == VESSEL_BASE) {
		same = strcmp(vessel->base, said->base) == 0;
		known = vessel->base[0] != '\0';
	} else if (field == VESSEL_LAY_UP) {
		same = vessel->laid_up == said->laid_up &&
		       (!said->laid_up || same_yearly(vessel->lay_up, said->lay_up));
	} else if (field == VESSEL_SHEETS) {
		same = same_sheets(vessel, said);
	} else {
		same = field_same(row, &now, said);
		known = !field_is_empty(row, &now);
	}
	return same ? AS_IT_WAS : known ? OTHERWISE : FIRST_TOLD;
}

/* The day from which today's value holds; DAY_NONE: from the beginning. */
static day_t
said_since(const struct vessel *vessel, day_t today, unsigned says)
{
	day_t since = DAY_NONE;
	for (size_t i = 1; i < vessel->period_count; i++) {
		const struct period *period = &vessel->periods[i];
		if (period->from <= today && (period->says & says) != 0) {
			since = period->from;
		}
	}
	return since;
}

/* Whether what is told otherwise was wrong before: as the request says, else it is asked. */
static bool
settle_otherwise(struct desk *desk, const struct vessel_request *request,
    const char *subjects, bool *correction_out, struct fault *fault)
{
	static const char *const CHOICES[] = {"wrong", "today"};
	const char *name = request->change.name;
	char today[DAY_WORDS_SIZE];
	*correction_out = request->otherwise == OTHERWISE_WRONG;
	if (request->otherwise == OTHERWISE_SAY) {
		desk_note(desk,
		    "%s: what is said of her %s holds from today, %s; " FIELD
		    "from DATE says another day, " FIELD
		    "correction that it was wrong before",
		    name, subjects, day_words(desk->today, today));
	}
	if (request->otherwise != OTHERWISE_ASK) {
		return true;
	}
	desk->question = (struct question){
	    .words = arena_format(&desk->arena,
		"%s: the book has her %s otherwise. Was that wrong (w), or does it change "
		"from today (t)? ",
		name, subjects),
	    .no = "nothing is written: expected the answer w or t",
	    .choices = CHOICES,
	    .choice_count = sizeof CHOICES / sizeof CHOICES[0],
	};
	return fault_set(fault, FAULT_INPUT,
	    "%s: the book has her %s otherwise; expected " FIELD "from DATE or " FIELD
	    "correction",
	    name, subjects);
}

/* One subject of what was said, as it will be written. */
struct told {
	struct vessel_change change;
	const struct subject_row *subject;
	enum news news;
};

static size_t
take_all(const struct vessel *known, day_t today, struct vessel_change *all,
    struct told told[SUBJECT_COUNT], struct text *otherwise)
{
	size_t count = 0;
	for (int i = 0; i < SUBJECT_COUNT; i++) {
		struct told *one = &told[count];
		one->subject = &SUBJECTS[i];
		if (!take(all, one->subject->field, &one->change)) {
			continue;
		}
		one->news = news_of(known, today, one->subject->field, &one->change);
		if (one->news == OTHERWISE) {
			text_add_format(otherwise, "%s%s",
			    otherwise->length == 0 ? "" : ", ", one->subject->words);
		}
		count++;
	}
	return count;
}

static bool
settle_days(struct desk *desk, const struct vessel *known,
    const struct vessel_request *request, struct vessel_change *changes, size_t *count,
    struct fault *fault)
{
	struct told told[SUBJECT_COUNT];
	SCOPED_TEXT otherwise = {0};
	bool correction = false;
	size_t told_count = take_all(known, desk->today, &changes[0], told, &otherwise);
	if (otherwise.length > 0 && !settle_otherwise(desk, request,
					text_string(&otherwise), &correction, fault)) {
		return false;
	}
	for (size_t i = 0; i < told_count; i++) {
		if (told[i].news == AS_IT_WAS) {
			continue;
		}
		bool today = told[i].news == OTHERWISE && !correction;
		told[i].change.set |= SET_FROM;
		told[i].change.from =
		    today ? desk->today
			  : said_since(known, desk->today, 1U << told[i].subject->field);
		changes[(*count)++] = told[i].change;
	}
	return true;
}

bool
vessel_times(struct desk *desk, const struct vessel *known,
    const struct vessel_request *request, const struct vessel_change **out,
    size_t *count_out, struct fault *fault)
{
	struct vessel_change *changes =
	    arena_alloc(&desk->arena, (SUBJECT_COUNT + 1) * sizeof *changes);
	size_t count = 1;
	changes[0] = request->change;
	changes[0].set |= request->from_given ? SET_FROM : 0;
	if (known != NULL && !request->from_given &&
	    !settle_days(desk, known, request, changes, &count, fault)) {
		return false;
	}
	*out = changes;
	*count_out = count;
	return true;
}
