/* becket muster --survey */
#include "cli/parts.h"
#include "exchange/paper_file.h"

#include <string.h>

static bool
write_page(struct context *context, const struct muster *muster, struct text *page,
    struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct survey survey = {0};
	if (!desk_survey(&context->desk, muster, &arena, &survey, fault)) {
		return false;
	}
	report_survey(context_style(context), context->desk.engine.kinds,
	    &context->desk.contents.inventory, &survey, page);
	return true;
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
