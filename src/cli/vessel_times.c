#include "cli/vessel_times.h"

#include "cli/ask.h"

#include <string.h>

/* What may be said of a vessel from a day on. */
enum subject {
	OF_USE,
	OF_AREA,
	OF_PERSONS,
	OF_SEASON,
	OF_FREEZING,
	OF_DRY,
	OF_BASE,
	OF_LAY_UP,
	OF_SHEETS,
	SUBJECT_COUNT,
};

static const struct subject_row {
	unsigned says;
	const char *words;
} SUBJECTS[SUBJECT_COUNT] = {
    [OF_USE] = {SAYS_USE, "use"},
    [OF_AREA] = {SAYS_AREA, "area"},
    [OF_PERSONS] = {SAYS_PERSONS, "persons"},
    [OF_SEASON] = {SAYS_SEASON, "season-months"},
    [OF_FREEZING] = {SAYS_SEASON, "above-freezing"},
    [OF_DRY] = {SAYS_SEASON, "dry-storage"},
    [OF_BASE] = {SAYS_BASE, "base"},
    [OF_LAY_UP] = {SAYS_LAY_UP, "lay-up"},
    [OF_SHEETS] = {SAYS_SHEETS, "sheets"},
};

/* Takes one subject of what was said over into `out`, and out of `all`; false when it was not
 * said. */
static bool
take(struct vessel_change *all, enum subject subject, struct vessel_change *out)
{
	*out = (struct vessel_change){.name = all->name,
	    .use = all->use,
	    .area = all->area,
	    .persons = all->persons,
	    .season_months = all->season_months,
	    .above_freezing = all->above_freezing,
	    .dry_storage = all->dry_storage,
	    .base = all->base,
	    .laid_up = all->laid_up,
	    .lay_up = all->lay_up,
	    .from = DAY_NONE};
	bool *const said[] = {&all->set_use, &all->set_area, &all->set_persons,
	    &all->set_season, &all->set_freezing, &all->set_dry, &all->set_base,
	    &all->set_lay_up};
	bool *const takes[] = {&out->set_use, &out->set_area, &out->set_persons,
	    &out->set_season, &out->set_freezing, &out->set_dry, &out->set_base,
	    &out->set_lay_up};
	if (subject == OF_SHEETS) {
		out->sheets = all->sheets;
		out->sheet_count = all->sheet_count;
		all->sheet_count = 0;
		return out->sheet_count > 0;
	}
	*takes[subject] = *said[subject];
	*said[subject] = false;
	return *takes[subject];
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

/* How what is said stands to what the book has today. */
enum news { AS_IT_WAS, FIRST_TOLD, OTHERWISE };

static enum news
news_of_number(int known, int said)
{
	return known == said ? AS_IT_WAS : known == 0 ? FIRST_TOLD : OTHERWISE;
}

static enum news
news_of_word(const char *known, const char *said)
{
	return strcmp(known, said) == 0 ? AS_IT_WAS
	       : known[0] == '\0'       ? FIRST_TOLD
					: OTHERWISE;
}

static enum news
news_of(const struct vessel *vessel, day_t today, enum subject subject,
    const struct vessel_change *said)
{
	const struct period *now = vessel_period_on(vessel, today);
	bool same = false;
	switch (subject) {
	case OF_USE:
		same = now->use == said->use;
		break;
	case OF_AREA:
		return news_of_word(now->area, said->area);
	case OF_PERSONS:
		return news_of_number(now->persons, said->persons);
	case OF_SEASON:
		return news_of_number(now->season_months, said->season_months);
	case OF_FREEZING:
		return news_of_number(now->above_freezing, said->above_freezing);
	case OF_DRY:
		return news_of_number(now->dry_storage, said->dry_storage);
	case OF_BASE:
		return news_of_word(vessel->base, said->base);
	case OF_LAY_UP:
		same = vessel->laid_up == said->laid_up &&
		       (!said->laid_up || same_yearly(vessel->lay_up, said->lay_up));
		break;
	case OF_SHEETS:
		same = same_sheets(vessel, said);
		break;
	case SUBJECT_COUNT:
		break;
	}
	return same ? AS_IT_WAS : OTHERWISE;
}

/* The day since which what holds today was said: DAY_NONE since ever. */
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

/* Asks whether what is told otherwise was always so. */
static bool
ask_correction(struct context *context, const char *name, const char *subjects,
    bool *correction_out, struct fault *fault)
{
	SCOPED_TEXT question = {0};
	SCOPED_TEXT answer = {0};
	char today[DAY_WORDS_SIZE];
	bool there = false;
	if (!ask_is_possible()) {
		desk_note(&context->desk,
		    "%s: what is said of her %s holds from today, %s; --from DATE says "
		    "another day, --correction that it was wrong before",
		    name, subjects, day_words(context->desk.today, today));
		return true;
	}
	text_add_format(&question,
	    "%s: the book has her %s otherwise. Was that wrong (w), or does it change "
	    "from today (t)? ",
	    name, subjects);
	if (!text_check(&question, fault) ||
	    !ask_line(text_string(&question), &answer, &there, fault)) {
		return false;
	}
	const char *word = text_string(&answer);
	*correction_out = there && text_same_letters(word, "w");
	return *correction_out || (there && text_same_letters(word, "t")) ||
	       fault_set(fault, FAULT_INPUT,
		   "nothing is written: expected the answer w or t, found \"%.40s\"",
		   word);
}

/* One subject of what was said, as it will be written. */
struct told {
	struct vessel_change change;
	enum subject subject;
	enum news news;
};

static size_t
take_all(const struct vessel *known, day_t today, struct vessel_change *all,
    struct told told[SUBJECT_COUNT], struct text *otherwise)
{
	size_t count = 0;
	for (int i = 0; i < SUBJECT_COUNT; i++) {
		struct told *one = &told[count];
		if (!take(all, (enum subject)i, &one->change)) {
			continue;
		}
		one->subject = (enum subject)i;
		one->news = news_of(known, today, one->subject, &one->change);
		if (one->news == OTHERWISE) {
			text_add_format(otherwise, "%s%s",
			    otherwise->length == 0 ? "" : ", ", SUBJECTS[i].words);
		}
		count++;
	}
	return count;
}

static bool
settle_days(struct context *context, const struct vessel *known,
    const struct vessel_words *words, struct vessel_change *changes, size_t *count,
    struct fault *fault)
{
	struct told told[SUBJECT_COUNT];
	SCOPED_TEXT otherwise = {0};
	bool correction = words->correction;
	size_t told_count =
	    take_all(known, context->desk.today, &changes[0], told, &otherwise);
	if (!text_check(&otherwise, fault) ||
	    (otherwise.length > 0 && !correction &&
		!ask_correction(
		    context, known->name, text_string(&otherwise), &correction, fault))) {
		return false;
	}
	for (size_t i = 0; i < told_count; i++) {
		if (told[i].news == AS_IT_WAS) {
			continue;
		}
		bool today = told[i].news == OTHERWISE && !correction;
		told[i].change.from = today ? context->desk.today
					    : said_since(known, context->desk.today,
						  SUBJECTS[told[i].subject].says);
		changes[(*count)++] = told[i].change;
	}
	return true;
}

bool
vessel_times(struct context *context, const struct vessel *known,
    const struct vessel_words *words, const struct vessel_change **out, size_t *count_out,
    struct fault *fault)
{
	struct vessel_change *changes =
	    arena_alloc(&context->desk.arena, (SUBJECT_COUNT + 1) * sizeof *changes);
	size_t count = 1;
	if (changes == NULL) {
		return fault_memory(fault);
	}
	changes[0] = words->change;
	if (!words->from_given) {
		changes[0].from = DAY_NONE;
	}
	if (known != NULL && !words->from_given &&
	    !settle_days(context, known, words, changes, &count, fault)) {
		return false;
	}
	*out = changes;
	*count_out = count;
	return true;
}
