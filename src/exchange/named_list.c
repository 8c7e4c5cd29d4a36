#include "exchange/csv_inside.h"
#include "exchange/list_inside.h"

static bool
take_row(const struct csv_cells *cells, void *context, struct fault *fault)
{
	struct named_list *list = context;
	(void)fault;
	if (!list->has_header) {
		list->has_header = true;
		list->columns = csv_names_read(cells, &list->names, &list->complaints);
		list->column_count = cells->count;
		list->usable = list->complaints.count == 0;
		return true;
	}
	if (!list->usable) {
		return true;
	}
	if (cells->count > list->column_count ||
	    (cells->count < list->column_count && !cells->open_ended)) {
		complain(&list->complaints, cells->line, "",
		    "it has %zu cell%s, and the header has %zu", cells->count,
		    cells->count == 1 ? "" : "s", list->column_count);
		return true;
	}
	list->rows++;
	list->take(list->reader, cells);
	return true;
}

static bool
read_all(struct named_list *list, struct csv_notes *notes, struct fault *fault)
{
	const struct list_source *source = list->source;
	struct complaints *complaints = &list->complaints;
	struct csv_stop stop = {0};
	struct csv_taker taker = {take_row, list};
	if (!list_scan(source->file, &source->how, complaints->arena, taker, notes, &stop,
		fault)) {
		return false;
	}
	if (stop.why != NULL) {
		complain(complaints, stop.line, "", "%s; nothing after it could be read",
		    stop.why);
	} else if (list->rows == 0 && complaints->count == 0) {
		complain(complaints, 1, "", "%s", list->nothing);
	}
	return complaints_none(complaints, source->file->name, fault);
}

bool
named_list_read(struct named_list *list, struct fault *fault)
{
	struct csv_notes notes = {.arena = list->source->arena};
	list->complaints = (struct complaints){.arena = list->source->arena};
	bool done = read_all(list, &notes, fault);
	text_add(list->source->notes, text_string(&notes.text));
	csv_notes_clear(&notes);
	complaints_clear(&list->complaints);
	return done;
}

bool
named_list_day(
    const struct named_list *list, const char *word, day_t *out, struct fault *fault)
{
	struct stamp stamp = {0};
	if (!csv_stamp(word, list->source->order, &stamp, fault)) {
		return false;
	}
	if (stamp.precision != STAMP_DAY || stamp.wording != WORDING_PLAIN) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no day; expected one as 2026-12-09", word);
	}
	*out = stamp_first(stamp);
	return true;
}
