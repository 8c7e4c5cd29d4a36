#include "base/memory.h"
#include "report/report.h"
#include "report/words.h"

static const struct table_column DUE_COLUMNS[] = {
    {"Tag", 14, ALIGN_LEFT, false},
    {"What", 0, ALIGN_LEFT, true},
    {"Task", 0, ALIGN_LEFT, false},
    {"Due", 0, ALIGN_LEFT, false},
    {"State", 25, ALIGN_LEFT, false},
};

enum { STATE_COUNT = STATE_DATE_UNKNOWN + 1 };

/* Rows in the order they are to be shown: by vessel, then as they came. */
struct order {
	const size_t *rows;  /* indices of rows */
	const size_t *start; /* where each vessel's rows start; one more than vessels */
};

/* Sorts the rows by vessel by counting them, which keeps their order within one. */
static void
order_rows(const struct inventory *inventory, const struct agenda_row *rows, size_t count,
    struct arena *arena, struct order *out)
{
	size_t vessels = inventory->vessel_count;
	size_t *start = arena_alloc(arena, (vessels + 1) * sizeof *start);
	size_t *next = arena_alloc(arena, (vessels + 1) * sizeof *next);
	size_t *order = arena_alloc(arena, (count + 1) * sizeof *order);
	for (size_t i = 0; i < count; i++) {
		start[inventory->items[rows[i].item].vessel + 1]++;
	}
	for (size_t v = 0; v < vessels; v++) {
		start[v + 1] += start[v];
		next[v] = start[v];
	}
	for (size_t i = 0; i < count; i++) {
		order[next[inventory->items[rows[i].item].vessel]++] = i;
	}
	*out = (struct order){order, start};
}

/* Aboard as an extra, counted for nothing. */
static bool
is_reserve(const struct inventory *inventory, const struct agenda_row *row)
{
	return inventory->items[row->item].state == PLACE_RESERVE;
}

static void
add_row(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct agenda_row *row, struct table *table,
    struct text *words)
{
	table_add(table, HUE_STRONG, inventory->items[row->item].tag);
	text_reset(words);
	if (row->not_working != NULL && row->not_working[0] != '\0') {
		text_add_format(words, ": does not work, for %s", row->not_working);
	}
	add_item_cell(kinds, inventory, row->item, text_string(words), table);
	bool hire = row->rule[0] != '\0' && row->clock == ANCHOR_HIRE;
	table_add(table, HUE_NONE, hire ? "give back" : task_word(row->task));
	text_reset(words);
	add_day(row->due, row->state == STATE_DATE_UNKNOWN ? "not known" : "none", words);
	table_add(table, HUE_NONE, text_string(words));
	text_reset(words);
	struct standing_now standing = {
	    row->state, row->due, row->good_through, row->missing};
	bool reserve = is_reserve(inventory, row);
	bool ashore = inventory->items[row->item].state == PLACE_LANDED;
	text_add(words, reserve ? "in reserve; " : ashore ? "ashore; " : "");
	if (hire && row->state == STATE_EXPIRED) {
		text_add(words, "its hire is over");
	} else {
		add_state_words(&standing, style->today, words);
	}
	table_add(table, reserve ? HUE_NONE : state_hue(row->state), text_string(words));
}

/* How many tasks are shown. */
struct due_sums {
	size_t states[STATE_COUNT]; /* of gear that counts */
	size_t reserve;             /* of gear in reserve, in whatever state */
};

static size_t
sums_shown(const struct due_sums *sums)
{
	size_t shown = sums->reserve;
	for (size_t i = 0; i < STATE_COUNT; i++) {
		shown += sums->states[i];
	}
	return shown;
}

/* How many tasks are in each state, and how many were left out. */
static void
add_sum(const struct due_sums *sums, size_t left_out, struct text *out)
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
	if (sums->reserve > 0) {
		text_add_format(&words, "%s%zu in reserve, not counted",
		    words.length == 0 ? "" : "; ", sums->reserve);
	}
	text_add(&words, words.length == 0 ? "" : ".");
	if (left_out > 0) {
		text_add_format(&words, "%s%zu routine %s not shown.",
		    words.length == 0 ? "" : " ", left_out,
		    left_out == 1 ? "task" : "tasks");
	}
	if (words.length > 0) {
		text_add_byte(out, '\n');
		paragraph(text_string(&words), 0, 0, out);
	}
}

/* "31 more tasks are not due by 25 Nov 2027; --all shows them." */
static void
add_later(const struct due_shown *shown, struct text *out)
{
	SCOPED_TEXT words = {0};
	if (shown->later == 0) {
		return;
	}
	text_add_format(&words, "%zu more %s not due by ", shown->later,
	    shown->later == 1 ? "task is" : "tasks are");
	add_day(shown->until, "", &words);
	text_add_format(&words, "; --all shows %s.", shown->later == 1 ? "it" : "them");
	paragraph(text_string(&words), 0, 0, out);
}

/* One vessel's rows under her name; nothing when all of them are left out. */
static void
write_vessel(const char *name, const struct table *table, struct text *out)
{
	if (table_rows(table) > 0) {
		text_add_byte(out, '\n');
		paragraph(name, 0, 0, out);
	}
	table_write(table, out);
}

void
report_due(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct agenda_row *rows, size_t count,
    const struct due_shown *shown, struct text *out)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT words = {0};
	struct order order = {0};
	order_rows(inventory, rows, count, &arena, &order);
	text_add(&words, "What is due, as seen on ");
	add_day(style->today, "", &words);
	text_add(&words, ".");
	paragraph(text_string(&words), 0, 2, out);
	struct due_sums sums = {0};
	for (size_t v = 0; v < inventory->vessel_count; v++) {
		SCOPED_TABLE table = {0};
		table_init(&table, DUE_COLUMNS,
		    sizeof DUE_COLUMNS / sizeof DUE_COLUMNS[0], 0, style->colour);
		for (size_t i = order.start[v]; i < order.start[v + 1]; i++) {
			const struct agenda_row *row = &rows[order.rows[i]];
			if (row->routine && !shown->routine) {
				continue;
			}
			add_row(style, kinds, inventory, row, &table, &words);
			if (is_reserve(inventory, row)) {
				sums.reserve++;
			} else {
				sums.states[row->state]++;
			}
		}
		write_vessel(inventory->vessels[v].name, &table, out);
	}
	size_t written = sums_shown(&sums);
	if (written == 0) {
		text_add(out, shown->later > 0 ? "Nothing is due within a year.\n"
					       : "Nothing is due.\n");
	}
	add_sum(&sums, count - written, out);
	add_later(shown, out);
	add_caution(out);
}
