#include "exchange/rota_csv.h"

#include "exchange/csv_quote.h"
#include "gear/words.h"

static const char *const ROTA_COLUMNS[] = {"base", "kind", "rating", "vessel", "tag",
    "tasks", "state", "due", "not_before", "not_after", "station", "hand_in", "collect",
    "in_its_place", "spare", "late", "due_again"};

static void
add_tasks(unsigned tasks, struct csv_line *row)
{
	SCOPED_TEXT words = {0};
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		if ((tasks >> task & 1U) != 0) {
			text_add(&words, words.length == 0 ? "" : " ");
			text_add(&words, task_word((enum task)task));
		}
	}
	csv_line_cell(row, text_string(&words));
}

static const char *
spare_tag(const struct rota_view *view, const struct rota_line *line)
{
	return line->cover == ROTA_SPARE ? view->inventory->items[line->cover_item].tag
					 : "";
}

static void
write_row(const struct rota_view *view, const struct rota_group *group,
    const struct rota_line *line, struct text *out)
{
	const struct item *item = &view->inventory->items[line->item];
	struct csv_line row = {
	    .out = out, .columns = sizeof ROTA_COLUMNS / sizeof ROTA_COLUMNS[0]};
	csv_line_cell(&row, group->base);
	csv_line_cell(&row, group->kind);
	csv_line_cell(&row, group->rating);
	csv_line_cell(&row, view->inventory->vessels[item->vessel].name);
	csv_line_cell(&row, item->tag);
	add_tasks(line->tasks, &row);
	csv_line_cell(&row, state_word(line->state));
	csv_line_day(&row, line->due);
	csv_line_day(&row, line->first);
	csv_line_day(&row, line->last);
	csv_line_cell(
	    &row, line->station == NO_STATION ? "" : view->stations[line->station].name);
	csv_line_day(&row, line->hand_in);
	csv_line_day(&row, line->collect);
	csv_line_cell(&row, rota_cover_word(line->cover));
	csv_line_cell(&row, spare_tag(view, line));
	csv_line_cell(&row, line->late ? "yes" : "no");
	csv_line_day(&row, line->again);
	csv_line_end(&row);
}

void
csv_write_rota(const struct rota_view *view, struct text *out)
{
	csv_header(ROTA_COLUMNS, sizeof ROTA_COLUMNS / sizeof ROTA_COLUMNS[0], out);
	for (size_t i = 0; i < view->rota->group_count; i++) {
		const struct rota_group *group = &view->rota->groups[i];
		for (size_t j = 0; j < group->line_count; j++) {
			write_row(view, group, &group->lines[j], out);
		}
	}
}
