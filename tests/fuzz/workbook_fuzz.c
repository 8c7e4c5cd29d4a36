/* Any parts of a spreadsheet file: refused with words, or handed out as rows of whole
 * texts. A line "== NAME" begins the part of that name; they are packed here, since
 * hardly a change to a packed file gets past its check sums. What has no such line is
 * tried as the file itself. */
#include "exchange/list_inside.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <zip.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static bool
look(const struct csv_cells *cells, void *context, struct fault *fault)
{
	(void)context;
	(void)fault;
	for (size_t i = 0; i < cells->count; i++) {
		if (strlen(cells->items[i].text) != cells->items[i].length) {
			abort();
		}
	}
	return true;
}

static void
scan(const char *bytes, size_t length)
{
	struct arena arena = {0};
	struct csv_notes notes = {.arena = &arena};
	struct fault fault = {0};
	const struct csv_source source = {
	    .name = "fuzz", .bytes = bytes, .length = length};
	if (!workbook_scan(
		&source, NULL, &arena, (struct csv_taker){look, NULL}, &notes, &fault) &&
	    (fault.kind == FAULT_NONE || fault.text[0] == '\0')) {
		abort();
	}
	csv_notes_clear(&notes);
	arena_clear(&arena);
}

/* Adds the parts of `text`, which stays until the archive is closed. */
static void
add_parts(zip_t *zip, char *text)
{
	char *next = text;
	while (next != NULL) {
		char *name = next + strlen("== ");
		char *content = strchr(name, '\n');
		if (content == NULL) {
			return;
		}
		*content++ = '\0';
		next = strstr(content, "\n== ");
		size_t length = next == NULL ? strlen(content) : (size_t)(next - content);
		zip_source_t *part = zip_source_buffer(zip, content, length, 0);
		if (zip_file_add(zip, name, part, ZIP_FL_OVERWRITE) < 0) {
			zip_source_free(part);
		}
		next = next == NULL ? NULL : next + 1;
	}
}

/* Packs them and reads what was packed. */
static void
scan_packed(char *text)
{
	zip_error_t error;
	zip_stat_t status;
	zip_error_init(&error);
	zip_source_t *file = zip_source_buffer_create(NULL, 0, 0, &error);
	zip_source_keep(file);
	zip_t *zip = zip_open_from_source(file, ZIP_TRUNCATE, &error);
	add_parts(zip, text);
	if (zip_close(zip) < 0) {
		zip_discard(zip);
	} else if (zip_source_open(file) == 0) {
		zip_stat_init(&status);
		(void)zip_source_stat(file, &status);
		char *bytes = malloc((size_t)status.size + 1);
		zip_int64_t got = zip_source_read(file, bytes, status.size);
		if (got > 0) {
			scan(bytes, (size_t)got);
		}
		free(bytes);
		(void)zip_source_close(file);
	}
	zip_source_free(file);
	zip_error_fini(&error);
}

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	char *text = calloc(size + 1, 1);
	memcpy(text, data, size);
	if (strncmp(text, "== ", strlen("== ")) == 0) {
		scan_packed(text);
	} else {
		scan(text, size);
	}
	free(text);
	return 0;
}
