#include "base/memory.h"
#include "report/report.h"
#include "report/why.h"
#include "report/words.h"
#include "rules/meets.h"

#include <string.h>

static const struct table_column WHY_COLUMNS[] = {
    {"", 12, ALIGN_LEFT, false},
    {"", 0, ALIGN_LEFT, true},
};

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
write_known(const struct item *item, day_t today, struct text *out)
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
			add_known("last ", task_noun(record->task), record->on, &words);
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
	paragraph(text_string(&words), 0, 0, out);
}

static void
add_reading(const struct obligation *obligation, const struct reading *reading,
    day_t today, struct table *table, struct text *words)
{
	enum clock_role role = clock_role_of(reading);
	text_reset(words);
	add_clock_in_full(obligation, reading, today, words);
	table_add(
	    table, role == ROLE_BINDS ? HUE_STRONG : HUE_NONE, clock_role_word(role));
	table_add(table, HUE_NONE, text_string(words));
}

/* "Service: due 20 May 2026, overdue since 21 May 2026. To do: hand in for service." */
static void
write_heading(const struct obligation *obligation, day_t today, struct text *out)
{
	SCOPED_TEXT words = {0};
	const char *noun = task_noun(obligation->task);
	text_add_byte(&words, (char)(noun[0] - 'a' + 'A'));
	text_add(&words, noun + 1);
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
	text_add_byte(out, '\n');
	paragraph(text_string(&words), 0, 2, out);
}

static void
write_obligation(const struct report_style *style, const struct obligation *obligation,
    struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	write_heading(obligation, style->today, out);
	table_init(&table, WHY_COLUMNS, 2, 2, style->colour);
	for (int role = 0; role < ROLE_IDLE; role++) {
		for (size_t i = 0; i < obligation->reading_count; i++) {
			const struct reading *reading = &obligation->readings[i];
			if (clock_role_of(reading) == (enum clock_role)role) {
				add_reading(
				    obligation, reading, style->today, &table, &words);
			}
		}
	}
	table_write(&table, out);
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
write_idle_rules(const struct obligation *obligations, size_t count, struct text *out)
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
	if (words.length > 0) {
		text_add_byte(&words, '.');
		text_add_byte(out, '\n');
		paragraph(text_string(&words), 0, 2, out);
	}
}

/* That it does not work, and for which of its parts. */
static bool
write_working(const struct due_engine *engine, size_t item, day_t today, struct text *out,
    struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT words = {0};
	struct working working = {0};
	const struct item *items = engine->inventory->items;
	if (!due_working(
		engine, item, items[item].vessel, today, &arena, &working, fault)) {
		return false;
	}
	if (working.trouble == PART_FINE) {
		return true;
	}
	text_add_format(&words,
	    "It does not work and is not counted: its part %s, %s, %s; \"becket why %s\" "
	    "says why.",
	    items[working.part].tag, kind_name(engine->kinds, items[working.part].kind),
	    part_trouble_words(working.trouble), items[working.part].tag);
	text_add_byte(out, '\n');
	paragraph(text_string(&words), 0, 2, out);
	return true;
}

/* What her sheets carry no figure for, and whom to ask. */
static void
write_not_stated(const struct due_engine *engine, const struct item *item, day_t today,
    struct text *out)
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
		text_reset(&words);
		text_add_format(&words, "Not stated in the sheet %s: %s; ask %s.",
		    subjects[i]->sheet, subjects[i]->subject, subjects[i]->ask);
		text_add_byte(out, '\n');
		paragraph(text_string(&words), 0, 2, out);
	}
}

bool
report_why(const struct report_style *style, const struct due_engine *engine, size_t item,
    const struct obligation *obligations, size_t count, struct text *out,
    struct fault *fault)
{
	const struct inventory *inventory = engine->inventory;
	const struct item *it = &inventory->items[item];
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: ", it->tag);
	add_item_words(engine->kinds, inventory, item, &words);
	text_add_format(
	    &words, ", on %s, as seen on ", inventory->vessels[it->vessel].name);
	add_day(style->today, "", &words);
	text_add_byte(&words, '.');
	paragraph(text_string(&words), 0, 2, out);
	write_known(it, style->today, out);
	if (!write_working(engine, item, style->today, out, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		write_obligation(style, &obligations[i], out);
	}
	if (count == 0) {
		text_add(out, it->state == PLACE_WITHDRAWN
				  ? "It is withdrawn: nothing falls due.\n"
				  : "No rule asks anything of it.\n");
	}
	write_idle_rules(obligations, count, out);
	write_not_stated(engine, it, style->today, out);
	add_caution(out);
	return true;
}
