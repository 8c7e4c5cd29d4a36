#include "cli/survey.h"

#include "cli/folder.h"
#include "exchange/paper_file.h"
#include "report/survey.h"

#include <string.h>

/* Gathers her gear with its tasks as on the first day asked about. */
static bool
gather_gear(struct context *context, const struct muster *muster, struct arena *arena,
    struct survey *survey, struct fault *fault)
{
	size_t count = 0;
	size_t first =
	    inventory_aboard(&context->desk.contents.inventory, muster->vessel, &count);
	struct survey_gear *gear = arena_alloc(arena, (count + 1) * sizeof *gear);
	for (size_t i = 0; i < count; i++) {
		struct obligation *tasks = NULL;
		if (!due_of_item(&context->desk.engine, first + i, muster->days.first,
			arena, &tasks, &gear[i].task_count, fault)) {
			return false;
		}
		gear[i].item = first + i;
		gear[i].tasks = tasks;
	}
	survey->gear = gear;
	survey->gear_count = count;
	return true;
}

static bool
gather_sheets(struct context *context, const struct muster *muster, struct arena *arena,
    struct survey *survey, struct fault *fault)
{
	const struct vessel *vessel =
	    &context->desk.contents.inventory.vessels[muster->vessel];
	const struct sheet **sheets =
	    arena_alloc(arena, (vessel->sheet_count + 1) * sizeof(const struct sheet *));
	for (size_t i = 0; i < vessel->sheet_count; i++) {
		if (!shelf_sheet(&context->desk.shelf, vessel->sheets[i],
			&context->desk.notes, &sheets[i], fault)) {
			return false;
		}
	}
	survey->sheets = sheets;
	survey->sheet_count = vessel->sheet_count;
	return true;
}

static bool
write_page(struct context *context, const struct muster *muster, struct text *page,
    struct fault *fault)
{
	struct arena arena = {0};
	struct survey survey = {.muster = muster};
	bool done = gather_gear(context, muster, &arena, &survey, fault) &&
		    gather_sheets(context, muster, &arena, &survey, fault);
	if (done) {
		report_survey(context_style(context), context->desk.engine.kinds,
		    &context->desk.contents.inventory, &survey, page);
	}
	arena_clear(&arena);
	return done;
}

/* A file name of its own for each vessel: names may differ in no more than what a file name
 * can't have. Numbered from the second one on. */
static void
name_file(const char *vessel, struct folder *folder, struct text *name)
{
	SCOPED_TEXT raw = {0};
	for (int number = 1;; number++) {
		text_reset(&raw);
		text_reset(name);
		for (const char *at = vessel; *at != '\0'; at++) {
			text_add_byte(&raw, (char)(*at == '/' ? '_' : *at));
		}
		if (number > 1) {
			text_add_format(&raw, "-%d", number);
		}
		text_add(&raw, "-survey.html");
		paper_file_name(text_string(&raw), name);
		bool taken = false;
		for (size_t i = 0; i < folder->count && !taken; i++) {
			const char *slash = strrchr(folder->items[i].path, '/');
			taken = strcmp(slash + 1, text_string(name)) == 0;
		}
		if (!taken) {
			return;
		}
	}
}

bool
survey_write(struct context *context, const char *path, bool over,
    const struct muster *musters, size_t count, struct fault *fault)
{
	SCOPED_FOLDER folder = {0};
	SCOPED_TEXT page = {0};
	SCOPED_TEXT name = {0};
	if (!folder_begin(path, over, &folder, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		const struct inventory *inventory = &context->desk.contents.inventory;
		text_reset(&page);
		if (!write_page(context, &musters[i], &page, fault)) {
			return false;
		}
		name_file(inventory->vessels[musters[i].vessel].name, &folder, &name);
		if (!folder_add(&folder, text_string(&name), &page, fault)) {
			return false;
		}
	}
	if (!folder_keep(&folder, fault)) {
		return false;
	}
	desk_note(&context->desk, "%zu survey %s written to %s", count,
	    count == 1 ? "file" : "files", path);
	return true;
}
