/* A rota as rows for a spreadsheet: one for each piece. */
#include "report/reply.h"
#include "report/report.h"

static void
add_tasks(unsigned tasks, struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		if ((tasks >> task & 1U) != 0) {
			text_add(&words, words.length == 0 ? "" : " ");
			text_add(&words, task_word((enum task)task));
		}
	}
	reply_cell(table, HUE_NONE, text_string(&words));
}

static void
add_row(const struct rota_view *view, const struct rota_group *group,
    const struct rota_line *line, struct reply_table *table)
{
	const struct item *items = view->inventory->items;
	const struct item *item = &items[line->item];
	reply_cell(table, HUE_NONE, group->base);
	reply_cell(table, HUE_NONE, group->kind);
	reply_cell(table, HUE_NONE, group->rating);
	reply_cell(table, HUE_NONE, view->inventory->vessels[item->vessel].name);
	reply_cell(table, HUE_NONE, item->tag);
	add_tasks(line->tasks, table);
	reply_cell(table, HUE_NONE, state_word(line->state));
	reply_day(table, HUE_NONE, line->due, "");
	reply_day(table, HUE_NONE, line->first, "");
	reply_day(table, HUE_NONE, line->last, "");
	reply_cell(table, HUE_NONE,
	    line->station == NO_STATION ? "" : view->stations[line->station].name);
	reply_day(table, HUE_NONE, line->hand_in, "");
	reply_day(table, HUE_NONE, line->collect, "");
	reply_cell(table, HUE_NONE, rota_cover_word(line->cover));
	reply_cell(table, HUE_NONE,
	    line->cover == ROTA_SPARE ? items[line->cover_item].tag : "");
	reply_cell(table, HUE_NONE, line->late ? "yes" : "no");
	reply_day(table, HUE_NONE, line->again, "");
}

void
report_rota_csv(const struct rota_view *view, struct text *out)
{
	static const struct reply_column COLUMNS[] = {{.key = "base"}, {.key = "kind"},
	    {.key = "rating"}, {.key = "vessel"}, {.key = "tag", .type = CELL_TAG},
	    {.key = "tasks"}, {.key = "state", .type = CELL_STATE},
	    {.key = "due", .type = CELL_DAY}, {.key = "not_before", .type = CELL_DAY},
	    {.key = "not_after", .type = CELL_DAY}, {.key = "station"},
	    {.key = "hand_in", .type = CELL_DAY}, {.key = "collect", .type = CELL_DAY},
	    {.key = "in_its_place"}, {.key = "spare", .type = CELL_TAG}, {.key = "late"},
	    {.key = "due_again", .type = CELL_DAY}};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, 0);
	for (size_t i = 0; i < view->rota->group_count; i++) {
		const struct rota_group *group = &view->rota->groups[i];
		for (size_t j = 0; j < group->line_count; j++) {
			add_row(view, group, &group->lines[j], table);
		}
	}
	reply_csv(&reply, out);
}
