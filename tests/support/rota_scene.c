#include "rota_scene.h"

#include <string.h>

static const char SHEET[] =
    "  - id: raft\n    kinds: [liferaft-valise]\n    task: service\n    doer: station\n"
    "    grade: law\n    contents-bind: yes\n    clocks:\n      - from: [last, packed]\n"
    "        months: 12\n    source: invented\n    standing: memory\n"
    "  - id: inside\n    kinds: [raft-contents]\n    task: renew\n    doer: station\n"
    "    grade: maker\n    clocks:\n      - from: [marked]\n    source: invented\n"
    "    standing: memory\n"
    "  - id: jacket\n    kinds: [lifejacket-auto]\n    task: service\n    doer: station\n"
    "    grade: law\n    clocks:\n      - from: [last, made]\n        months: 12\n"
    "    source: invented\n    standing: memory\n"
    "carriage:\n"
    "  - id: rafts\n    title: Rafts\n    need: {per-person: 1}\n    serves:\n"
    "      - {kinds: [liferaft-valise], points: capacity}\n"
    "    source: invented\n    standing: memory\n"
    "  - id: jackets\n    title: Jackets\n    need: {per-person: 1}\n    serves:\n"
    "      - {kinds: [lifejacket-auto], points: 1}\n"
    "    source: invented\n    standing: memory\n";

void
base_open_of(struct base *base, const char *sheet)
{
	static const char *const NAMES[] = {"Boat", "Other", "Spares"};
	static const size_t BOATS[] = {BOAT, OTHER};
	scene_open(&base->scene, sheet);
	base->scene.periods[0].persons = 4;
	for (int i = 0; i < VESSELS; i++) {
		base->vessels[i] = base->scene.vessel;
		base->vessels[i].name = NAMES[i];
		base->vessels[i].base = "Holm Quay";
		base->vessels[i].laid_up = false;
		base->vessels[i].store = i == STORE;
		base->rulebooks[i] = base->scene.rulebook;
	}
	base->scene.inventory.vessels = base->vessels;
	base->scene.inventory.vessel_count = VESSELS;
	base->scene.engine = (struct due_engine){.kinds = base->scene.kinds,
	    .rulebooks = base->rulebooks,
	    .inventory = &base->scene.inventory};
	base->station = (struct station){
	    .weekdays = WEEKDAYS_ALL, .name = "Loft", .base = "", .turn_round_days = 10};
	base->ask = (struct rota_ask){
	    .engine = &base->scene.engine,
	    .stations = &base->station,
	    .station_count = 1,
	    .today = day_of("2026-11-25"),
	    .days = {day_of("2026-11-25"), day_of("2027-11-24")},
	    .vessels = BOATS,
	    .vessel_count = 2,
	    .most_looks = SLOT_LOOKS,
	};
}

void
base_open(struct base *base)
{
	base_open_of(base, SHEET);
}

struct item *
base_add(struct base *base, size_t vessel, const char *kind, const char *served)
{
	struct item *item = scene_item(&base->scene, kind);
	item->vessel = vessel;
	item->packed = stamp_of("2023-03-01");
	item->made = stamp_of("2023-03-01");
	item->capacity = strcmp(kind, "liferaft-valise") == 0 ? 6 : 0;
	scene_record(&base->scene, item, TASK_SERVICE, served, NULL);
	return item;
}

void
base_add_jackets(struct base *base, size_t vessel, int count, const char *served)
{
	for (int i = 0; i < count; i++) {
		(void)base_add(base, vessel, "lifejacket-auto", served);
	}
}

struct rota
base_rota(struct base *base)
{
	struct rota rota = {0};
	struct scene *scene = &base->scene;
	due_index_parts(&scene->inventory, &scene->arena, &scene->engine.first_part,
	    &scene->engine.next_part);
	rota_make(&base->ask, &scene->arena, &rota);
	return rota;
}
