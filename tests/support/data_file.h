/* Files of the source tree, for tests that read the catalogue and the sheets as shipped. */
#ifndef BECKET_DATA_FILE_H
#define BECKET_DATA_FILE_H

#include "base/text.h"
#include "becket_test.h"
#include "rules/sheet.h"

#include <stdio.h>
#include <string.h>

/* Reads data/<name> into `out`. */
static inline void
data_file_read(const char *name, struct text *out)
{
	char path[512];
	(void)snprintf(path, sizeof path, "%s/%s", BECKET_DATA, name);
	FILE *file = fopen(path, "rb");
	if (file == NULL) {
		fail_msg("can't open %s", path);
	}
	char buffer[4096];
	size_t got = 0;
	while ((got = fread(buffer, 1, sizeof buffer, file)) > 0) {
		text_add_bytes(out, buffer, got);
	}
	(void)fclose(file);
}

/* The catalogue as shipped. The caller frees it. */
static inline struct kinds *
data_file_kinds(void)
{
	SCOPED_TEXT yaml = {0};
	struct kinds *kinds = NULL;
	struct fault fault = {0};
	data_file_read("kinds.yaml", &yaml);
	if (!kinds_read("kinds.yaml", text_string(&yaml), yaml.length, &kinds, &fault)) {
		fail_msg("%s", fault.text);
	}
	return kinds;
}

/* The same as a test's state. */
static inline int
data_file_open_kinds(void **state)
{
	*state = data_file_kinds();
	return 0;
}

static inline int
data_file_close_kinds(void **state)
{
	kinds_free(*state);
	return 0;
}

/* A sheet as shipped: "practice". The caller frees it. */
static inline struct sheet *
data_file_sheet(const char *name, const struct kinds *kinds)
{
	SCOPED_TEXT yaml = {0};
	struct sheet *sheet = NULL;
	struct fault fault = {0};
	char path[128];
	(void)snprintf(path, sizeof path, "sheets/%s.yaml", name);
	data_file_read(path, &yaml);
	if (!sheet_read(
		path, text_string(&yaml), yaml.length, kinds, NULL, &sheet, &fault)) {
		fail_msg("%s", fault.text);
	}
	return sheet;
}

#endif
