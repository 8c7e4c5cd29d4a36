/* Reads an inventory CSV from standard input and writes it again on standard output, as an
 * import into an empty book and an export would. The argument is the order of dates:
 * iso, day-first or month-first. Exit status 2 with the fault when it is refused. */
#include "csv_scene.h"

#include <stdio.h>
#include <string.h>

static void
read_input(struct text *bytes)
{
	char buffer[4096];
	size_t got = fread(buffer, 1, sizeof buffer, stdin);
	while (got > 0) {
		text_add_bytes(bytes, buffer, got);
		got = fread(buffer, 1, sizeof buffer, stdin);
	}
}

static bool
convert(const struct text *in, enum date_order order, struct arena *arena,
    struct text *out, struct fault *fault)
{
	const struct csv_source source = {
	    .name = "input", .bytes = text_string(in), .length = in->length};
	const struct csv_options options = {.order = order, .currency = "EUR"};
	const struct inventory empty = {0};
	struct kinds *kinds = csv_scene_kinds();
	struct csv_rows rows = {0};
	struct csv_batch all = {0};
	struct inventory inventory = {0};
	bool done = kinds != NULL &&
		    csv_read_inventory(&source, kinds, &options, arena, &rows, fault) &&
		    csv_find_tags(source.name, &rows, &empty, arena, fault) &&
		    csv_scene_all(&rows, &all, fault);
	if (done) {
		csv_scene_inventory(&all, arena, &inventory);
	}
	if (done) {
		csv_scene_write(&inventory, false, out);
	}
	csv_batch_clear(&all);
	csv_rows_clear(&rows);
	kinds_free(kinds);
	return done;
}

int
main(int count, char **arguments)
{
	enum date_order order = ORDER_ISO;
	if (count > 1 && strcmp(arguments[1], "day-first") == 0) {
		order = ORDER_DAY_FIRST;
	} else if (count > 1 && strcmp(arguments[1], "month-first") == 0) {
		order = ORDER_MONTH_FIRST;
	}
	SCOPED_TEXT in = {0};
	SCOPED_TEXT out = {0};
	struct arena arena = {0};
	struct fault fault = {0};
	read_input(&in);
	bool done = convert(&in, order, &arena, &out, &fault);
	if (done) {
		(void)fwrite(text_string(&out), 1, out.length, stdout);
	} else {
		(void)fprintf(stderr, "%s\n", fault.text);
	}
	arena_clear(&arena);
	return done ? 0 : 2;
}
