#include "book/rows.h"

/* Loads all that is wanted; nothing where that is not there. */
static bool
load_all(struct loading *loading, const struct book_part *part,
    struct book_contents *contents, bool *there_out, struct fault *fault)
{
	if (!load_counts(loading, part, there_out, fault)) {
		return false;
	}
	if (!*there_out) {
		return true;
	}
	bool stations = part == NULL || !part->without_stations;
	bool gear = part == NULL || !part->without_gear;
	load_take(loading, part);
	if (!load_vessels(loading, fault) ||
	    (stations && !load_stations(loading, fault)) ||
	    (gear && !load_items(loading, fault))) {
		return false;
	}
	contents->inventory.currency =
	    arena_string(loading->arena, book_currency(loading->book));
	contents->inventory.vessels = loading->vessels;
	contents->inventory.vessel_count = loading->vessel_count;
	contents->inventory.items = loading->items;
	contents->inventory.item_count = loading->item_count;
	contents->read_vessels = loading->vessels;
	contents->read_vessel_count = loading->vessel_count;
	contents->read_items = loading->items;
	contents->read_item_count = loading->item_count;
	contents->with_withdrawn = loading->with_withdrawn;
	contents->with_stations = stations;
	contents->parts_elsewhere = loading->parts_elsewhere;
	contents->revision = loading->revision;
	contents->within =
	    loading->book->begun ? database_changes(loading->book->database) : -1;
	bool same = stations && (loading->taken & LOADS_STATIONS) != 0;
	contents->stations = same ? loading->before->stations : loading->stations;
	contents->station_count =
	    same ? loading->before->station_count : loading->station_count;
	return true;
}

/* All statements must see the same book: they share one transaction. */
static bool
load_consistent(struct loading *loading, const struct book_part *part,
    struct book_contents *contents, bool *there_out, struct fault *fault)
{
	struct book *book = loading->book;
	if (book->begun) {
		return load_all(loading, part, contents, there_out, fault);
	}
	if (!call_plain(book, BEGIN_READING, fault)) {
		return false;
	}
	struct fault ignored = {0};
	bool loaded = load_all(loading, part, contents, there_out, fault);
	/* nothing was written; committed all the same, for after a rollback SQLite reads
	 * the schema again */
	if (!call_plain(book, COMMIT, &ignored)) {
		(void)!call_plain(book, ROLLBACK, &ignored);
	}
	return loaded;
}

bool
book_load_part(struct book *book, const struct book_part *part, bool with_withdrawn,
    struct book_contents *out, bool *there_out, struct fault *fault)
{
	struct book_contents contents = {0};
	struct loading loading = {
	    .book = book,
	    .arena = &contents.arena,
	    .with_withdrawn = with_withdrawn,
	};
	bool there = false;
	if (!load_consistent(&loading, part, &contents, &there, fault)) {
		arena_clear(&contents.arena);
		return fault_prefix(fault, "reading the book");
	}
	*there_out = there;
	if (there) {
		*out = contents;
	} else {
		arena_clear(&contents.arena);
	}
	return true;
}

bool
book_load(struct book *book, const char *vessel, bool with_withdrawn,
    struct book_contents *out, struct fault *fault)
{
	const struct book_part part = {.vessels = &vessel, .vessel_count = 1};
	bool there = false;
	if (!book_load_part(book, vessel == NULL ? NULL : &part, with_withdrawn, out,
		&there, fault)) {
		return false;
	}
	return there ||
	       fault_set(fault, FAULT_INPUT,
		   "reading the book: there is no vessel \"%.80s\" in the book", vessel);
}

bool
book_is_as_read(const struct book *book, const struct book_contents *contents)
{
	return book->begun && contents->within == database_changes(book->database);
}

void
book_contents_clear(struct book_contents *contents)
{
	if (contents == NULL) {
		return;
	}
	arena_clear(&contents->arena);
	*contents = (struct book_contents){0};
}
