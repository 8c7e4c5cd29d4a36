#include "exchange/answer_parts.h"
#include "exchange/answers.h"
#include "exchange/json_object.h"

static ANSWER_KEYS(ROTA_KEYS, "the answer", "from: the first day asked about",
    "to: the last", "holds: all is in time and no boat is short for its sake",
    "holds_through: the last day before something planned is due again",
    "boats: how many were mustered", "not_told: how many of these could not be in full",
    "stand_ins_that_do: of each sort, with which all would be in time; null where they are no help",
    "groups", "shorts");

static ANSWER_KEYS(GROUP_KEYS, "a group", "base", "kind", "rating", "quantity: in a lot",
    "possible: all pieces are in time",
    "proven: that no fewer spares do, or that it is not possible", "spares_needed",
    "fewest_spares: fewer are proven not to do", "spares: of the base's stores",
    "failed: the first piece that can't be in time", "fixes: what would help", "lines");

static ANSWER_KEYS(ROTA_LINE_KEYS, "a line", "vessel", "tag", "tasks",
    "state: of the task that is due first", "due", "not_before",
    "not_after: to be in time", "station", "hand_in", "collect",
    "in_its_place: spare, hired, none needed or none", "spare: its tag",
    "hired: its number", "late", "due_again: when done then");

static ANSWER_KEYS(
    SPARE_KEYS, "a spare", "tag", "counts: on the first day", "counts_through", "used");

static ANSWER_KEYS(FAILED_KEYS, "what failed", "vessel", "tag",
    "on: the first day on which it is out of date");

static ANSWER_KEYS(FIX_KEYS, "a fix",
    "fix: spares, station, turn-round, earlier, away, weekly or start",
    "number: how many of these", "station", "day: from which on");

static ANSWER_KEYS(SHORT_KEYS, "a shortage", "vessel", "from", "line: its id",
    "anyway: without the rota, too");

const struct answer_keys *const KEYS_OF_ROTA[] = {&ROTA_KEYS, &GROUP_KEYS,
    &ROTA_LINE_KEYS, &SPARE_KEYS, &FAILED_KEYS, &FIX_KEYS, &SHORT_KEYS, NULL};

static struct json
line_object(const struct rota_view *view, const struct rota_line *line)
{
	const struct item *item = &view->inventory->items[line->item];
	bool spare = line->cover == ROTA_SPARE;
	bool hired = line->cover == ROTA_HIRED;
	return JSON_OF(&ROTA_LINE_KEYS,
	    json_text(view->inventory->vessels[item->vessel].name), json_text(item->tag),
	    json_tasks(line->tasks), json_text(state_word(line->state)),
	    json_day(line->due), json_day(line->first), json_day(line->last),
	    json_station(view->stations, line->station), json_day(line->hand_in),
	    json_day(line->collect), json_text(rota_cover_word(line->cover)),
	    json_words(spare ? view->inventory->items[line->cover_item].tag : ""),
	    json_number(hired ? (int64_t)line->cover_item : 0, 0), json_flag(line->late),
	    json_day(line->again));
}

static struct json
spares_array(const struct rota_view *view, const struct rota_group *group)
{
	struct json array = json_list();
	for (size_t i = 0; i < group->spare_count; i++) {
		const struct rota_spare *spare = &group->spares[i];
		json_push(
		    array, JSON_OF(&SPARE_KEYS,
			       json_text(view->inventory->items[spare->item].tag),
			       json_flag(spare->counts_through != DAY_NONE),
			       json_day(spare->counts_through), json_flag(spare->used)));
	}
	return array;
}

static struct json
fixes_array(const struct rota_view *view, const struct rota_group *group)
{
	struct json array = json_list();
	for (size_t i = 0; i < group->fix_count; i++) {
		const struct rota_fix *fix = &group->fixes[i];
		json_push(array,
		    JSON_OF(&FIX_KEYS, json_text(rota_fix_word(fix->kind)),
			json_number(fix->number, 0),
			json_station(view->stations, fix->station), json_day(fix->day)));
	}
	return array;
}

static struct json
failed_object(const struct rota_view *view, const struct rota_group *group)
{
	if (group->failed == SLOT_NONE) {
		return json_none();
	}
	const struct rota_line *line = &group->lines[group->failed];
	const struct item *item = &view->inventory->items[line->item];
	return JSON_OF(&FAILED_KEYS,
	    json_text(view->inventory->vessels[item->vessel].name), json_text(item->tag),
	    json_day(rota_fails_on(view->rota, line)));
}

static struct json
group_object(const struct rota_view *view, const struct rota_group *group)
{
	struct json lines = json_list();
	for (size_t i = 0; i < group->line_count; i++) {
		json_push(lines, line_object(view, &group->lines[i]));
	}
	return JSON_OF(&GROUP_KEYS, json_words(group->base), json_text(group->kind),
	    json_words(group->rating), json_whole(group->quantity),
	    json_flag(group->possible), json_flag(group->proven),
	    json_count(group->stood_in), json_count(group->least_spares),
	    spares_array(view, group), failed_object(view, group),
	    fixes_array(view, group), lines);
}

static struct json
shorts_array(const struct rota_view *view)
{
	struct json array = json_list();
	for (size_t i = 0; i < view->rota->short_count; i++) {
		const struct rota_short *found = &view->rota->shorts[i];
		json_push(
		    array, JSON_OF(&SHORT_KEYS,
			       json_text(view->inventory->vessels[found->vessel].name),
			       json_day(found->from), json_text(found->line->id),
			       json_flag(found->anyway)));
	}
	return array;
}

void
answer_rota(const struct rota_view *view, struct text *out)
{
	const struct rota *rota = view->rota;
	struct json groups = json_list();
	for (size_t i = 0; i < rota->group_count; i++) {
		json_push(groups, group_object(view, &rota->groups[i]));
	}
	answer_value(out,
	    JSON_OF(&ROTA_KEYS, json_day(rota->days.first), json_day(rota->days.last),
		json_flag(rota->holds), json_day(rota->holds_through),
		json_count(rota->boats), json_count(rota->untold),
		json_number(rota->stand_ins_that_do, -1), groups, shorts_array(view)));
}
