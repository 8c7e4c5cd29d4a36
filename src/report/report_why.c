#include "report/reply.h"
#include "report/why.h"
#include "report/words.h"
#include "rules/meets.h"

#include <string.h>

static void
add_known(const char *before, const char *name, struct stamp stamp, struct text *out)
{
	if (stamp.precision != STAMP_NONE) {
		text_add_format(
		    out, "%s%s%s ", out->length == 0 ? "Known: " : ", ", before, name);
		add_stamp(stamp, out);
	}
}

/* The last record of its task that is of today or before: what is entered of a day to come has
 * not been done yet. */
static bool
is_last_done(const struct item *item, size_t index, day_t today)
{
	const struct record *records = item->records;
	bool last = stamp_first(records[index].on) <= today;
	for (size_t i = index + 1; i < item->record_count && last; i++) {
		last = records[i].task != records[index].task ||
		       stamp_first(records[i].on) > today;
	}
	return last;
}

/* What the clocks could start from, in one paragraph. */
static void
tell_known(const struct item *item, day_t today, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	add_known("", "made", item->made, &words);
	add_known("", "packed", item->packed, &words);
	add_known("", "bought", item->bought, &words);
	add_known("", "fitted", item->fitted, &words);
	add_known("", "marked expiry", item->expires, &words);
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (is_last_done(item, i, today)) {
			add_known("last ", record_noun(record), record->on, &words);
		}
	}
	for (size_t i = 0; i < item->event_count; i++) {
		const struct event *event = &item->events[i];
		if (event->on <= today) {
			add_known(
			    "", event_word(event->kind), stamp_of_day(event->on), &words);
		}
	}
	text_add(&words, words.length == 0 ? "No date is known." : ".");
	reply_words(reply, VOICE_PLAIN, false, 0, text_string(&words));
}

static void
add_reading(const struct obligation *obligation, const struct reading *reading,
    day_t today, struct reply_table *table, struct text *words)
{
	enum clock_role role = clock_role_of(reading);
	reply_cell(
	    table, role == ROLE_BINDS ? HUE_STRONG : HUE_NONE, clock_role_word(role));
	add_clock_in_full(obligation, reading, today, words);
	reply_take(table, HUE_NONE, words);
}

/* "Service: due 20 May 2026, overdue since 21 May 2026. To do: hand in for service." */
static void
tell_heading(const struct obligation *obligation, day_t today, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	text_add_capital(&words, task_noun(obligation->task));
	bool dated = obligation->due != DAY_NONE && obligation->due != DAY_NEVER;
	text_add(&words, dated ? ": due " : ": ");
	add_day(obligation->due, "", &words);
	bool unknown = obligation->state == STATE_DATE_UNKNOWN;
	if (!dated && !unknown) {
		text_add(&words, "no day by which it falls due");
	}
	text_add(&words, unknown && !dated ? "" : ", ");
	struct standing_now standing = {obligation->state, obligation->due,
	    obligation->good_through, unknown ? obligation_missing(obligation) : ""};
	add_state_words(&standing, today, &words);
	text_add_byte(&words, '.');
	text_add_format(&words, " Who may do it: %s.", doer_word(obligation->doer));
	const struct reading *binding = obligation->binding;
	if (binding != NULL && binding->rule != NULL && binding->rule->what[0] != '\0') {
		text_add_format(&words, " To do: %s.", binding->rule->what);
	}
	reply_say(reply, true, &words);
}

static void
tell_obligation(const struct obligation *obligation, day_t today, struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "", .most = 12}, {.heading = "", .flexible = true}};
	SCOPED_TEXT words = {0};
	tell_heading(obligation, today, reply);
	struct reply_table *table = REPLY_TABLE(reply, COLUMNS, LOOK_BARE);
	for (int role = 0; role < ROLE_IDLE; role++) {
		for (size_t i = 0; i < obligation->reading_count; i++) {
			const struct reading *reading = &obligation->readings[i];
			if (clock_role_of(reading) == (enum clock_role)role) {
				add_reading(obligation, reading, today, table, &words);
			}
		}
	}
}

/* Where a reading stands among those of all obligations. */
struct reading_at {
	size_t obligation;
	size_t reading;
};

/* True when a rule has a clock that is shown, or one that stands before `at`. */
static bool
rule_is_named(const struct obligation *obligations, size_t count, struct reading_at at)
{
	const char *id = obligations[at.obligation].readings[at.reading].rule_id;
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < obligations[i].reading_count; j++) {
			const struct reading *other = &obligations[i].readings[j];
			bool before =
			    i < at.obligation || (i == at.obligation && j < at.reading);
			if ((before || clock_role_of(other) != ROLE_IDLE) &&
			    strcmp(id, other->rule_id) == 0) {
				return true;
			}
		}
	}
	return false;
}

/* The rules of which no clock counts, each named once. */
static void
tell_idle_rules(const struct obligation *obligations, size_t count, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < obligations[i].reading_count; j++) {
			const struct reading *reading = &obligations[i].readings[j];
			if (clock_role_of(reading) != ROLE_IDLE ||
			    rule_is_named(
				obligations, count, (struct reading_at){i, j})) {
				continue;
			}
			text_add_format(&words, "%s%s",
			    words.length == 0 ? "Other rules that do not apply now: "
					      : ", ",
			    reading->rule_id);
		}
	}
	text_add(&words, words.length > 0 ? "." : "");
	reply_say(reply, true, &words);
}

/* That it does not work, and for which of its parts. */
static void
tell_working(
    const struct due_engine *engine, size_t item, day_t today, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	struct working working = {0};
	const struct item *items = engine->inventory->items;
	due_working(engine, item, items[item].vessel, today, reply->arena, &working);
	if (working.trouble == PART_FINE) {
		return;
	}
	text_add_format(&words,
	    "It does not work and is not counted: its part %s, %s, %s; \"becket why %s\" "
	    "says why.",
	    items[working.part].tag, kind_name(engine->kinds, items[working.part].kind),
	    part_trouble_words(working.trouble), items[working.part].tag);
	reply_say(reply, true, &words);
}

/* What her sheets carry no figure for, and whom to ask. */
static void
tell_not_stated(const struct due_engine *engine, const struct item *item, day_t today,
    struct reply *reply)
{
	const struct vessel *vessel = &engine->inventory->vessels[item->vessel];
	SCOPED_TEXT words = {0};
	size_t count = 0;
	const struct not_stated *const *subjects =
	    rulebook_not_stated(engine->rulebooks[item->vessel], &count);
	for (size_t i = 0; i < count; i++) {
		if (!subject_concerns(subjects[i], item->kind, vessel, today)) {
			continue;
		}
		text_add_format(&words, "Not stated in the sheet %s: %s; ask %s.",
		    subjects[i]->sheet, subjects[i]->subject, subjects[i]->ask);
		reply_say(reply, true, &words);
	}
}

void
report_why(const struct report_style *style, const struct due_engine *engine, size_t item,
    const struct obligation *obligations, size_t count, struct text *out)
{
	const struct inventory *inventory = engine->inventory;
	const struct item *it = &inventory->items[item];
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	text_add_format(&words, "%s: ", it->tag);
	add_item_words(engine->kinds, inventory, item, &words);
	text_add_format(
	    &words, ", on %s, as seen on ", inventory->vessels[it->vessel].name);
	add_day(style->today, "", &words);
	text_add_byte(&words, '.');
	reply_say(&reply, false, &words);
	tell_known(it, style->today, &reply);
	tell_working(engine, item, style->today, &reply);
	for (size_t i = 0; i < count; i++) {
		tell_obligation(&obligations[i], style->today, &reply);
	}
	if (count == 0) {
		reply_words(&reply, VOICE_PLAIN, false, 0,
		    it->state == PLACE_WITHDRAWN ? "It is withdrawn: nothing falls due."
						 : "No rule asks anything of it.");
	}
	tell_idle_rules(obligations, count, &reply);
	tell_not_stated(engine, it, style->today, &reply);
	reply_caution(&reply);
	reply_write(&reply, style, out);
}
