#include "report/parts_inside.h"
#include "report/report.h"
#include "report/words.h"

/* The rows by vessel, as they came within one: sorted by counting. */
static const struct agenda_row **
by_vessel(const struct inventory *inventory, const struct agenda_row *rows, size_t count,
    struct arena *arena)
{
	size_t *next = arena_alloc(arena, (inventory->vessel_count + 1) * sizeof *next);
	const struct agenda_row **sorted =
	    arena_alloc(arena, (count + 1) * sizeof(const struct agenda_row *));
	for (size_t i = 0; i < count; i++) {
		next[inventory->items[rows[i].item].vessel + 1]++;
	}
	for (size_t v = 0; v < inventory->vessel_count; v++) {
		next[v + 1] += next[v];
	}
	for (size_t i = 0; i < count; i++) {
		sorted[next[inventory->items[rows[i].item].vessel]++] = &rows[i];
	}
	return sorted;
}

/* Aboard as an extra, counted for nothing. */
static bool
is_reserve(const struct inventory *inventory, const struct agenda_row *row)
{
	return inventory->items[row->item].state == PLACE_RESERVE;
}

/* "in reserve; overdue since 1 Nov 2026"; `words` are empty before and after, as in the next. */
static void
add_state_cell(const struct report_style *style, const struct inventory *inventory,
    const struct agenda_row *row, bool hire, struct text *words,
    struct reply_table *table)
{
	struct standing_now standing = {
	    row->state, row->due, row->good_through, row->missing};
	bool reserve = is_reserve(inventory, row);
	bool ashore = inventory->items[row->item].state == PLACE_LANDED;
	text_add(words, reserve ? "in reserve; " : ashore ? "ashore; " : "");
	if (hire && row->state == STATE_EXPIRED) {
		text_add(words, "its hire is over");
	} else if (agenda_lacks_part(row)) {
		text_add(words, "does not work");
	} else {
		add_state_words(&standing, style->today, words);
	}
	reply_take(table,
	    reserve                  ? HUE_NONE
	    : agenda_lacks_part(row) ? HUE_BAD
				     : state_hue(row->state),
	    words);
}

static void
add_row(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct agenda_row *row, struct text *words,
    struct reply_table *table)
{
	bool hire = row->rule[0] != '\0' && row->clock == ANCHOR_HIRE;
	if (row->trouble != PART_FINE) {
		text_add_format(words, ":%s %s %s",
		    agenda_lacks_part(row) ? "" : " does not work, for", row->not_working,
		    part_trouble_words(row->trouble));
	}
	reply_cell(table, HUE_STRONG, inventory->items[row->item].tag);
	reply_item(table, kinds, inventory, row->item, text_string(words));
	text_reset(words);
	reply_cell(table, HUE_NONE, hire ? "give back" : agenda_task_word(row));
	reply_day(table, HUE_NONE, row->due,
	    row->state == STATE_DATE_UNKNOWN ? "not known" : "none");
	add_state_cell(style, inventory, row, hire, words, table);
}

/* How many tasks are in each state, and how many were left out. */
static void
add_sum(const struct due_report *sums, struct reply *reply)
{
	static const enum state ORDER[] = {STATE_OVERDUE, STATE_EXPIRED,
	    STATE_LIFE_EXPIRED, STATE_DATE_UNKNOWN, STATE_IN_DATE};

	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < sizeof ORDER / sizeof ORDER[0]; i++) {
		if (sums->states[ORDER[i]] == 0) {
			continue;
		}
		struct standing_now plain = {ORDER[i], DAY_NONE, DAY_NONE, ""};
		text_add_format(&words, "%s%zu ", words.length == 0 ? "" : ", ",
		    sums->states[ORDER[i]]);
		add_state_words(&plain, 0, &words);
	}
	if (sums->broken > 0) {
		text_add_format(&words, "%s%zu of what does not work",
		    words.length == 0 ? "" : ", ", sums->broken);
	}
	if (sums->reserve > 0) {
		text_add_format(&words, "%s%zu in reserve, not counted",
		    words.length == 0 ? "" : "; ", sums->reserve);
	}
	text_add(&words, words.length == 0 ? "" : ".");
	if (sums->left_out > 0) {
		text_add_format(&words, "%s%zu routine %s not shown.",
		    words.length == 0 ? "" : " ", sums->left_out,
		    sums->left_out == 1 ? "task" : "tasks");
	}
	reply_words(reply, VOICE_PLAIN, true, 0, text_string(&words));
}

/* "31 more tasks are not due by 25 Nov 2027; --all shows them." */
static void
add_later(const struct due_shown *shown, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (shown->later == 0) {
		return;
	}
	text_add_format(&words, "%zu more %s not due by ", shown->later,
	    shown->later == 1 ? "task is" : "tasks are");
	add_day(shown->until, "", &words);
	text_add_format(&words, "; --all shows %s.", shown->later == 1 ? "it" : "them");
	reply_words(reply, VOICE_PLAIN, false, 0, text_string(&words));
}

static struct reply_table *
add_vessel(const struct vessel *vessel, struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Tag", .type = CELL_TAG, .most = 14},
	    {.heading = "What", .flexible = true}, {.heading = "Task"},
	    {.heading = "Due", .type = CELL_DAY},
	    {.heading = "State", .type = CELL_STATE, .most = 25}};
	reply_words(reply, VOICE_PLAIN, true, 0, vessel->name);
	return REPLY_TABLE(reply, COLUMNS, LOOK_FLUSH);
}

/* A table a vessel, of the rows that are shown; sums these. */
static void
add_rows(struct due_report *report, const struct inventory *inventory,
    const struct agenda_row *const *rows, size_t count, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	struct reply_table *table = NULL;
	size_t vessel = 0;
	for (size_t i = 0; i < count; i++) {
		size_t hers = inventory->items[rows[i]->item].vessel;
		if (rows[i]->routine && !report->routine) {
			report->left_out++;
			continue;
		}
		if (table == NULL || hers != vessel) {
			table = add_vessel(&inventory->vessels[hers], reply);
			vessel = hers;
		}
		add_row(report->style, report->kinds, inventory, rows[i], &words, table);
		if (is_reserve(inventory, rows[i])) {
			report->reserve++;
		} else if (agenda_lacks_part(rows[i])) {
			report->broken++;
		} else {
			report->states[rows[i]->state]++;
		}
	}
}

static void
add_heading(struct due_report *report, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (report->begun) {
		return;
	}
	report->begun = true;
	text_add(&words, "What is due, as seen on ");
	add_day(report->style->today, "", &words);
	reply_heading(reply, 2, text_string(&words));
}

void
report_due_some(struct due_report *report, const struct inventory *inventory,
    const struct agenda_row *rows, size_t count)
{
	SCOPED_REPLY(reply);
	const struct agenda_row **sorted = by_vessel(inventory, rows, count, reply.arena);
	add_heading(report, &reply);
	add_rows(report, inventory, sorted, count, &reply);
	reply_write(&reply, report->style, report->out);
	text_hand_on(report->out);
}

/* True where no task is shown. */
static bool
has_none(const struct due_report *report)
{
	size_t shown = report->reserve + report->broken;
	for (size_t i = 0; i < DUE_STATES; i++) {
		shown += report->states[i];
	}
	return shown == 0;
}

void
report_due_end(struct due_report *report, const struct due_shown *shown)
{
	SCOPED_REPLY(reply);
	add_heading(report, &reply);
	if (has_none(report)) {
		reply_words(&reply, VOICE_PLAIN, false, 0,
		    shown->later > 0 ? "Nothing is due within a year."
				     : "Nothing is due.");
	}
	add_sum(report, &reply);
	add_later(shown, &reply);
	reply_caution(&reply);
	reply_write(&reply, report->style, report->out);
}
