/* What is read of a book: its contents in one pass, all or a part, and what is told of it by names
 * alone: which there are, who has to do with whom, what marks gear has. */
#ifndef BECKET_BOOK_CONTENTS_H
#define BECKET_BOOK_CONTENTS_H

#include "base/words.h"
#include "book/book.h"
#include "gear/station.h"

/* Everything a reading command needs, loaded in one pass of few statements. */
struct book_contents {
	struct arena arena; /* owns all below */
	struct inventory inventory;
	const struct station *stations; /* sorted by name */
	size_t station_count;
	int64_t revision; /* of the book that this was read from */
	/* vessels and items as they were read, for a later load to reuse: those of the
	 * inventory may since have been set to another day, and narrowed */
	const struct vessel *read_vessels;
	size_t read_vessel_count;
	const struct item *read_items;
	size_t read_item_count;
	bool with_withdrawn, with_stations;
	/* where one vessel was loaded alone: a part of her gear, gone by now, belongs to
	 * another vessel, and so is not among these */
	bool parts_elsewhere;
	int64_t
	    within; /* database_changes when read in an open transaction; -1 outside it */
};

/* True when these contents were read in the open transaction, and it has changed nothing
 * since. */
bool book_is_as_read(const struct book *book, const struct book_contents *contents);

/* Loads the whole book, or one vessel and its gear when `vessel` is not NULL (every station
 * in either case). A vessel's own base, lay-up and sheets are those since ever; vessel_set_day
 * has those of a day. Withdrawn items are left out unless asked for. An unknown vessel is
 * FAULT_INPUT. Clear with book_contents_clear. */
MUST_CHECK bool book_load(struct book *book, const char *vessel, bool with_withdrawn,
    struct book_contents *out, struct fault *fault);
void book_contents_clear(struct book_contents *contents);

/* What a person answered about a list: which of our columns a header stands for, or which
 * kind some words mean. `ours` may also be "notes", "ignore" or "no-gear", as an import
 * has them. */
struct import_answer {
	bool of_words; /* else of a header */
	const char *theirs;
	const char *ours;
};

/* All import answers, in the arena. Putting one replaces an earlier one about the same
 * header or words. */
MUST_CHECK bool book_load_import_answers(struct book *book, struct arena *arena,
    const struct import_answer **out, size_t *count_out, struct fault *fault);
MUST_CHECK bool book_put_import_answer(
    struct book *book, const struct import_answer *answer, struct fault *fault);

/* How far loading goes beyond what is named. A vessel counts for every base that she
 * has at any time. Every station, and all that belongs to no vessel, is loaded with
 * any part. */
enum book_reach {
	REACH_ALONE, /* the vessels themselves, with all their gear */
	REACH_FAMILIES, /* and vessels with wholes or parts of that gear or with what stands in for
			 * it, as far as gear hangs together */
	REACH_STORES, /* and, so, the stores of their bases */
	REACH_BASES,  /* and, so, all vessels of their bases */
};

/* A part of the book: the vessels named, those of a base and those of the items named,
 * with the others that `reach` adds. */
struct book_part {
	const char *const *vessels;
	size_t vessel_count;
	const char *base; /* all that lie there at any time; NULL for none */
	const char *const *tags;
	size_t tag_count;
	enum book_reach reach;
	bool without_stations;
	bool without_gear;
	/* above 0: the part was made up from a book of this revision. For a desk, which takes
	 * all of the book where that was written since */
	int64_t as_of;
	/* what an act refuses with the part it refuses with all of the book, in the same words. For
	 * a desk, which otherwise asks all of the book, too */
	bool sufficient;
	/* contents from whose revision the open transaction was begun: what it has not
	 * written to since is taken from them, and they still own it; NULL for none.
	 * Contents that are of another revision, or lack something that is wanted, are
	 * not used */
	const struct book_contents *before;
};

/* Loads a part of the book, or the whole when `part` is NULL, as book_load does. The cost
 * grows with that part, not with the book. Where one of its vessels or tags is not in the
 * book, nothing is loaded, and `*there_out` is false. */
MUST_CHECK bool book_load_part(struct book *book, const struct book_part *part,
    bool with_withdrawn, struct book_contents *out, bool *there_out, struct fault *fault);

/* The names of everything of one sort, each once, sorted by their bytes; strings in
 * the arena. Berths are the bases at which a vessel lies at any time; bases are these,
 * and those that only a station has. The baseless are the boats whose base is not
 * known at some time. Boats are all vessels but the stores. Landed are the tags of
 * what is ashore, split those of lots of which pieces went.
 * The unwintered are the boats that are in use all year at some time. */
enum book_names {
	BOOK_TAGS,
	BOOK_VESSELS,
	BOOK_STATIONS,
	BOOK_BASES,
	BOOK_BERTHS,
	BOOK_BASELESS,
	BOOK_BOATS,
	BOOK_LANDED,
	BOOK_SPLIT,
	BOOK_UNWINTERED
};

MUST_CHECK bool book_names(struct book *book, enum book_names names, struct arena *arena,
    struct word_list *out, struct fault *fault);

/* Whether something of that sort has exactly this name. Not for the last five sorts. */
MUST_CHECK bool book_has_name(struct book *book, enum book_names names, const char *name,
    bool *out, struct fault *fault);

/* What a vessel has to do with another: they lie at one base at some time, or gear of
 * hers is a part of the other's or stands in for it. */
struct book_tie {
	const char *vessel;
	const char *to; /* a base, "" for one that is not known; or a vessel */
	bool by_gear;   /* it is a vessel */
};

/* All ties in the book, at least one a vessel, sorted by her name's bytes; in `arena`. */
MUST_CHECK bool book_ties(struct book *book, struct arena *arena,
    const struct book_tie **out, size_t *count_out, struct fault *fault);

/* The tags of all lots that the gear with these tags was split from, and of all that was
 * split from those lots, this gear included; sorted, in `arena`. */
MUST_CHECK bool book_lots(struct book *book, const char *const *tags, size_t count,
    struct arena *arena, struct word_list *out, struct fault *fault);

/* What tells one piece of gear from another; all borrowed. */
struct book_mark {
	const char *tag;
	const char *kind;
	const char *serial; /* "" for none */
	bool past; /* the serial is from a movement: of what has or had that tag */
};

typedef void book_mark_taker(void *context, const struct book_mark *mark);

/* Calls `take` for all gear in the book, in the order in which it is loaded; with `past`
 * then also for the serial numbers of all movements. Reads every row, and keeps none in
 * memory. */
MUST_CHECK bool book_marks(struct book *book, bool past, book_mark_taker *take,
    void *context, struct fault *fault);

#endif
