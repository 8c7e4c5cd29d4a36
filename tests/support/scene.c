#include "scene.h"

#include "base/text.h"
#include "becket_test.h"
#include "blank_item.h"
#include "data_file.h"

#include <stdio.h>
#include <string.h>

static void
read_sheet(struct scene *scene, const char *rules, struct fault *fault)
{
	SCOPED_TEXT yaml = {0};
	size_t length = strlen(rules);
	if (length > 5 && strcmp(rules + length - 5, ".yaml") == 0) {
		char name[128];
		(void)snprintf(name, sizeof name, "sheets/%s", rules);
		data_file_read(name, &yaml);
	} else {
		text_add(&yaml,
		    "sheet: test\ntitle: Test\nfor: tests\ncompiled: 2026-11-25\n"
		    "cautions: [test data]\nrules:\n");
		text_add(&yaml, rules);
	}
	if (!sheet_read("test.yaml", text_string(&yaml), yaml.length, scene->kinds, NULL,
		&scene->sheet, fault)) {
		fail_msg("%s", fault->text);
	}
}

void
scene_open(struct scene *scene, const char *rules)
{
	*scene = (struct scene){0};
	struct fault fault = {0};
	scene->kinds = data_file_kinds();
	read_sheet(scene, rules, &fault);
	const struct sheet *sheets[] = {scene->sheet};
	if (!rulebook_new(sheets, 1, &scene->rulebook, &fault)) {
		fail_msg("%s", fault.text);
	}
	scene->rulebooks[0] = scene->rulebook;
	scene->periods[0] =
	    (struct period){.from = DAY_NONE, .use = USE_PRIVATE, .area = ""};
	scene->vessel = (struct vessel){
	    .name = "Test",
	    .base = "",
	    .periods = scene->periods,
	    .period_count = 1,
	    .laid_up = true,
	    .lay_up = {11, 1, 3, 31},
	};
	scene->inventory = (struct inventory){&scene->vessel, 1, scene->items, 0, "EUR"};
}

void
scene_close(void *of)
{
	struct scene *scene = of;
	arena_clear(&scene->arena);
	rulebook_free(scene->rulebook);
	sheet_free(scene->sheet);
	kinds_free(scene->kinds);
}

struct item *
scene_item(struct scene *scene, const char *kind)
{
	size_t index = scene->item_count++;
	assert_true(index < SCENE_MOST);
	scene->items[index] = blank_item(kind, kind);
	scene->items[index].records = scene->records[index];
	scene->inventory.item_count = scene->item_count;
	return &scene->items[index];
}

void
scene_record(struct scene *scene, struct item *item, enum task task, const char *on,
    const char *next)
{
	struct record *records = scene->records[item - scene->items];
	records[item->record_count++] = (struct record){
	    .task = task,
	    .on = stamp_of(on),
	    .next = stamp_of(next == NULL ? "" : next),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1,
	};
}

void
scene_engine(struct scene *scene)
{
	scene->engine = (struct due_engine){.kinds = scene->kinds,
	    .rulebooks = scene->rulebooks,
	    .inventory = &scene->inventory};
	due_index_parts(&scene->inventory, &scene->arena, &scene->engine.first_part,
	    &scene->engine.next_part);
}

struct obligation
scene_due(struct scene *scene, const struct item *item, enum task task, const char *today)
{
	struct obligation *obligations = NULL;
	size_t count = 0;
	scene_engine(scene);
	due_of_item(&scene->engine, (size_t)(item - scene->items), day_of(today),
	    &scene->arena, &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].task == task && !obligations[i].routine) {
			return obligations[i];
		}
	}
	fail_msg("%s has no task %s", item->tag, task_word(task));
	return (struct obligation){0};
}

const char *
scene_due_day(
    struct scene *scene, const struct item *item, enum task task, const char *today)
{
	char *buffer = arena_alloc(&scene->arena, DAY_ISO_SIZE);
	assert_non_null(buffer);
	return day_iso(scene_due(scene, item, task, today).due, buffer);
}

const char *
scene_state(
    struct scene *scene, const struct item *item, enum task task, const char *today)
{
	return state_word(scene_due(scene, item, task, today).state);
}
