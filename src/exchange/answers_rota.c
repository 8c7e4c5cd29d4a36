#include "exchange/answers.h"
#include "exchange/json_object.h"

static const struct answer_key ROTA_KEYS[] = {{"from", "the first day asked about"},
    {"to", "the last"}, {"holds", "all is in time and no boat is short for its sake"},
    {"holds_through", "the last day before something planned is due again"},
    {"boats", "how many were mustered"},
    {"not_told", "how many of these could not be in full"},
    {"stand_ins_that_do",
	"of each sort, with which all would be in time; null where they are no help"},
    {"groups", NULL}, {"shorts", NULL}};

static const struct answer_key GROUP_KEYS[] = {{"base", NULL}, {"kind", NULL},
    {"rating", NULL}, {"quantity", "in a lot"}, {"possible", "all pieces are in time"},
    {"proven", "that no fewer spares do, or that it is not possible"},
    {"spares_needed", NULL}, {"fewest_spares", "fewer are proven not to do"},
    {"spares", "of the base's stores"},
    {"failed", "the first piece that can't be in time"}, {"fixes", "what would help"},
    {"lines", NULL}};

static const struct answer_key ROTA_LINE_KEYS[] = {{"vessel", NULL}, {"tag", NULL},
    {"tasks", NULL}, {"state", "of the task that is due first"}, {"due", NULL},
    {"not_before", NULL}, {"not_after", "to be in time"}, {"station", NULL},
    {"hand_in", NULL}, {"collect", NULL},
    {"in_its_place", "spare, hired, none needed or none"}, {"spare", "its tag"},
    {"hired", "its number"}, {"late", NULL}, {"due_again", "when done then"}};

static const struct answer_key SPARE_KEYS[] = {{"tag", NULL},
    {"counts", "on the first day"}, {"counts_through", NULL}, {"used", NULL}};

static const struct answer_key FAILED_KEYS[] = {
    {"vessel", NULL}, {"tag", NULL}, {"on", "the first day on which it is out of date"}};

static const struct answer_key FIX_KEYS[] = {
    {"fix", "spares, station, turn-round, earlier, away, weekly or start"},
    {"number", "how many of these"}, {"station", NULL}, {"day", "from which on"}};

static const struct answer_key SHORT_KEYS[] = {{"vessel", NULL}, {"from", NULL},
    {"line", "its id"}, {"anyway", "without the rota, too"}};

enum { ROTA, GROUP, ROTA_LINE, SPARE, FAILED, FIX, SHORT };

const struct answer_keys KEYS_OF_ROTA[] = {[ROTA] = KEYS("the answer", ROTA_KEYS),
    [GROUP] = KEYS("a group", GROUP_KEYS),
    [ROTA_LINE] = KEYS("a line", ROTA_LINE_KEYS),
    [SPARE] = KEYS("a spare", SPARE_KEYS),
    [FAILED] = KEYS("what failed", FAILED_KEYS),
    [FIX] = KEYS("a fix", FIX_KEYS),
    [SHORT] = KEYS("a shortage", SHORT_KEYS),
    {0}};

static json_t *
tasks_array(unsigned tasks)
{
	json_t *array = json_array();
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		if ((tasks >> task & 1U) != 0) {
			json_push(array, json_string(task_word((enum task)task)));
		}
	}
	return array;
}

static json_t *
line_object(const struct rota_view *view, const struct rota_line *line)
{
	const struct item *item = &view->inventory->items[line->item];
	bool spare = line->cover == ROTA_SPARE;
	bool hired = line->cover == ROTA_HIRED;
	json_t *object = json_object();
	json_put_string(object, "vessel", view->inventory->vessels[item->vessel].name);
	json_put_string(object, "tag", item->tag);
	json_put(object, "tasks", tasks_array(line->tasks));
	json_put_string(object, "state", state_word(line->state));
	json_put_day(object, "due", line->due);
	json_put_day(object, "not_before", line->first);
	json_put_day(object, "not_after", line->last);
	json_put_words(object, "station",
	    line->station == NO_STATION ? "" : view->stations[line->station].name);
	json_put_day(object, "hand_in", line->hand_in);
	json_put_day(object, "collect", line->collect);
	json_put_string(object, "in_its_place", rota_cover_word(line->cover));
	json_put_words(
	    object, "spare", spare ? view->inventory->items[line->cover_item].tag : "");
	json_put_number(object, "hired", hired ? (int64_t)line->cover_item : 0, 0);
	json_put_bool(object, "late", line->late);
	json_put_day(object, "due_again", line->again);
	return json_keyed(object, &KEYS_OF_ROTA[ROTA_LINE]);
}

static json_t *
spares_array(const struct rota_view *view, const struct rota_group *group)
{
	json_t *array = json_array();
	for (size_t i = 0; i < group->spare_count; i++) {
		const struct rota_spare *spare = &group->spares[i];
		json_t *object = json_object();
		json_put_string(object, "tag", view->inventory->items[spare->item].tag);
		json_put_bool(object, "counts", spare->counts_through != DAY_NONE);
		json_put_day(object, "counts_through", spare->counts_through);
		json_put_bool(object, "used", spare->used);
		json_push(array, json_keyed(object, &KEYS_OF_ROTA[SPARE]));
	}
	return array;
}

static json_t *
fixes_array(const struct rota_view *view, const struct rota_group *group)
{
	json_t *array = json_array();
	for (size_t i = 0; i < group->fix_count; i++) {
		const struct rota_fix *fix = &group->fixes[i];
		json_t *object = json_object();
		json_put_string(object, "fix", rota_fix_word(fix->kind));
		json_put_number(object, "number", fix->number, 0);
		json_put_words(object, "station",
		    fix->station == NO_STATION ? "" : view->stations[fix->station].name);
		json_put_day(object, "day", fix->day);
		json_push(array, json_keyed(object, &KEYS_OF_ROTA[FIX]));
	}
	return array;
}

static json_t *
failed_object(const struct rota_view *view, const struct rota_group *group)
{
	if (group->failed == SLOT_NONE) {
		return json_null();
	}
	const struct rota_line *line = &group->lines[group->failed];
	const struct item *item = &view->inventory->items[line->item];
	json_t *object = json_object();
	json_put_string(object, "vessel", view->inventory->vessels[item->vessel].name);
	json_put_string(object, "tag", item->tag);
	json_put_day(object, "on", rota_fails_on(view->rota, line));
	return json_keyed(object, &KEYS_OF_ROTA[FAILED]);
}

static json_t *
group_object(const struct rota_view *view, const struct rota_group *group)
{
	json_t *object = json_object();
	json_t *lines = json_array();
	for (size_t i = 0; i < group->line_count; i++) {
		json_push(lines, line_object(view, &group->lines[i]));
	}
	json_put_words(object, "base", group->base);
	json_put_string(object, "kind", group->kind);
	json_put_words(object, "rating", group->rating);
	json_put(object, "quantity", json_integer(group->quantity));
	json_put_bool(object, "possible", group->possible);
	json_put_bool(object, "proven", group->proven);
	json_put(object, "spares_needed", json_integer((json_int_t)group->stood_in));
	json_put(object, "fewest_spares", json_integer((json_int_t)group->least_spares));
	json_put(object, "spares", spares_array(view, group));
	json_put(object, "failed", failed_object(view, group));
	json_put(object, "fixes", fixes_array(view, group));
	json_put(object, "lines", lines);
	return json_keyed(object, &KEYS_OF_ROTA[GROUP]);
}

static json_t *
shorts_array(const struct rota_view *view)
{
	json_t *array = json_array();
	for (size_t i = 0; i < view->rota->short_count; i++) {
		const struct rota_short *found = &view->rota->shorts[i];
		json_t *object = json_object();
		json_put_string(
		    object, "vessel", view->inventory->vessels[found->vessel].name);
		json_put_day(object, "from", found->from);
		json_put_string(object, "line", found->line->id);
		json_put_bool(object, "anyway", found->anyway);
		json_push(array, json_keyed(object, &KEYS_OF_ROTA[SHORT]));
	}
	return array;
}

void
answer_rota(const struct rota_view *view, struct text *out)
{
	const struct rota *rota = view->rota;
	json_t *object = json_object();
	json_t *groups = json_array();
	for (size_t i = 0; i < rota->group_count; i++) {
		json_push(groups, group_object(view, &rota->groups[i]));
	}
	json_put_day(object, "from", rota->days.first);
	json_put_day(object, "to", rota->days.last);
	json_put_bool(object, "holds", rota->holds);
	json_put_day(object, "holds_through", rota->holds_through);
	json_put(object, "boats", json_integer((json_int_t)rota->boats));
	json_put(object, "not_told", json_integer((json_int_t)rota->untold));
	json_put_number(object, "stand_ins_that_do", rota->stand_ins_that_do, -1);
	json_put(object, "groups", groups);
	json_put(object, "shorts", shorts_array(view));
	answer_value(out, json_keyed(object, &KEYS_OF_ROTA[ROTA]));
}
