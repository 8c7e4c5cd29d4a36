/* Acts on gear, each one function: it takes a plain request and gives an outcome. All of
 * a request is written, or nothing. Strings of a request are borrowed. An outcome lives
 * in the desk; its indices are those of the book as it was loaded for the act, until that
 * is forgotten (desk_forget). A day after today brings a remark: most often it is a
 * typing mistake. As that of a record it is FAULT_INPUT, but for some of an import.
 *
 * When an act fails and the desk has a question (desk.h), the act is run again with the
 * answer. */
#ifndef BECKET_DESK_ACTS_H
#define BECKET_DESK_ACTS_H

#include "desk/desk.h"
#include "desk/import_answers.h"
#include "desk/serial_check.h"
#include "exchange/inventory_csv.h"
#include "life/homecoming.h"

/* What came of an act on gear. */
struct gear_outcome {
	struct life_plan plan; /* what was written */
	size_t *items;         /* those named, in the order they were */
	const char **tags;     /* theirs; a piece that was split off has its own */
	size_t count;
};

struct land_request {
	struct word_list tags; /* or ranges of them */
	const char *to;        /* the station */
	day_t on;
	struct word_list without; /* parts that stay aboard */
	unsigned asked; /* bit 1 << enum task for each; 0: as the winter's list has it */
	const char *note;
};

struct land_outcome {
	struct gear_outcome gear;
	day_t collect; /* from which it is to be collected; DAY_NEVER not known */
};

/* Lands gear at a station, its parts with it. FAULT_INPUT for what is ashore or
 * withdrawn, and for a station whose name is nearly one of the book's: most often a
 * typing mistake. What the station is not known to service brings a remark. */
MUST_CHECK bool desk_land(struct desk *desk, const struct land_request *request,
    struct land_outcome *out, struct fault *fault);

struct return_request {
	struct word_list tags;    /* of what came back; none with `bag` */
	struct homecoming common; /* what is said of each of them */
	/* or: each return by itself, with its tag */
	const struct homecoming *bag;
	size_t bag_count;
	/* or: the rows of a file, read as `how` says, with dates in this order; NULL for
	 * none */
	const struct csv_source *csv;
	struct list_how how;
	enum date_order order;
};

/* What came back, item by item, as it was written. Each row of the plan has its tag
 * set. */
struct return_outcome {
	struct life_plan plan;
	struct homecoming *homes;
	size_t count;
	struct word_list recorded[TASK_COUNT]; /* tags, by the task recorded as done */
};

/* A request that says only what came back: passed, and back today. */
struct return_request desk_returning(const struct desk *desk, struct word_list tags);

/* Brings gear back from ashore and records what its papers say. Remarks name what was
 * asked of the station and is not recorded as done, and what came back and is still not
 * in date. */
MUST_CHECK bool desk_return(struct desk *desk, const struct return_request *request,
    struct return_outcome *out, struct fault *fault);

/* Loads the gear that is named, or what is ashore where none is named, and what belongs
 * together with it. */
MUST_CHECK bool desk_load_ashore(
    struct desk *desk, const struct word_list *tags, struct fault *fault);

/* The items that are ashore in their own right, of those named or of all, those at the
 * station `by` alone unless it is "". The book is loaded. FAULT_INPUT when there is
 * none. */
MUST_CHECK bool desk_ashore(struct desk *desk, const struct word_list *tags,
    const char *by, size_t **items_out, size_t *count_out, struct fault *fault);

/* What a person is to be asked about a thing that came back. */
struct return_facts {
	bool asked;             /* it is known what the station was to do */
	bool has_parts;         /* there may be new ones in it */
	struct word_list renew; /* tags of those that were to be put in new */
};

/* What to ask about an item of the inventory. The book must be loaded; for the next two
 * functions, too. */
struct return_facts desk_return_facts(struct desk *desk, size_t item);

/* What a return would record as done: of the thing itself, and of parts that were ashore
 * in it. */
struct return_work {
	unsigned tasks; /* 1 << enum task */

	struct part_work {
		const char *tag;
		unsigned tasks; /* some */
	} * parts;

	size_t part_count;
};

/* What this return would record as done; its tag must be in the book. */
struct return_work desk_return_work(struct desk *desk, const struct homecoming *home);

/* Checks a return: FAULT_INPUT for what contradicts itself or the book, as
 * life/homecoming.h has it. */
MUST_CHECK bool desk_return_check(
    const struct desk *desk, const struct homecoming *home, struct fault *fault);

struct withdraw_request {
	struct word_list tags;
	struct word_list keep; /* parts that stay, and are no parts after that */
	enum because because;
	day_t on;
	const char *certificate; /* NULL for none */
	const char *note;
	int64_t price_minor; /* -1 not known */
};

/* Takes gear out of the book's count for good, its parts with it. */
MUST_CHECK bool desk_withdraw(struct desk *desk, const struct withdraw_request *request,
    struct gear_outcome *out, struct fault *fault);

struct reserve_request {
	struct word_list tags;
	bool aboard; /* the way back: counted again */
	bool again;  /* though it was condemned */
	day_t on;
	const char *note;
};

/* Sets gear aside as extras that are never counted, or counts it again. */
MUST_CHECK bool desk_reserve(struct desk *desk, const struct reserve_request *request,
    struct gear_outcome *out, struct fault *fault);

struct move_request {
	struct word_list tags;
	const char *vessel; /* or */
	const char *spares; /* the base to whose spares it goes */
	int quantity;       /* only so many of the one lot named; 0 all */
	day_t on;
	const char *place; /* where aboard it is kept there; NULL when not told */
	bool alone;        /* a part may go without its whole */
	const char *note;
};

struct move_outcome {
	struct gear_outcome gear;
	const char *to; /* the vessel, which may be spares */
	const char
	    *lot; /* the tag of the lot that a piece was split off; NULL for none */
	const char *piece; /* its tag */
};

/* Moves gear to another vessel, or to and from the spares at a base, its parts with
 * it. */
MUST_CHECK bool desk_move(struct desk *desk, const struct move_request *request,
    struct move_outcome *out, struct fault *fault);

/* What is recorded of each item: an event, or else a record. */
struct record_request {
	struct word_list tags;
	bool is_event;
	struct event event;
	struct record record;
	struct item_change renewed; /* the new thing's dates, or of a refit the new mark;
				     * `set` is 0 when there are none */
	bool is_new; /* a renewal is said to be of the whole thing; see below */
	struct serial_said said;
};

/* Records that a task was done, or that something happened.
 *
 * A renewal puts another thing in the old one's place, or its record is a refit: what is in the
 * thing is new. Of gear that a station services, or of which a rule says that what is in it is
 * renewed, it must be told which it was: `record.refit`; or `is_new`, or a date of manufacture or
 * packing, or a serial number. Where none is, FAULT_INPUT says both commands. A refit of what is in
 * place now needs the new mark where the old one is in the book. */
MUST_CHECK bool desk_record(struct desk *desk, const struct record_request *request,
    struct gear_outcome *out, struct fault *fault);

struct enter_request {
	struct item_change like; /* what all have in common; it has vessel and kind */
	/* each piece has its own of these; where several of them, or `count`, are given,
	 * their numbers must agree */
	struct word_list tags;    /* fresh ones where none are named */
	struct word_list serials; /* may be none */
	struct word_list wholes;  /* what they are parts of, where it is several things */
	int count;                /* 0 when not told */
	const struct record *record;     /* of each; NULL for none */
	const struct movement *movement; /* of each; NULL for none */
	struct serial_said said;
};

struct enter_outcome {
	struct item_change *items; /* as written; at least one */
	size_t count;
};

/* Enters gear: one piece, or several that differ in tag and serial number. A tag that is
 * in the book is FAULT_INPUT. */
MUST_CHECK bool desk_enter(struct desk *desk, const struct enter_request *request,
    struct enter_outcome *out, struct fault *fault);

struct amend_request {
	struct word_list tags;
	struct item_change change;   /* of each of them; its tag is not read */
	const struct record *record; /* of each; NULL for none */
	struct serial_said said;
};

/* Changes what is known of gear. Its parts go where it goes. The items are loaded as they
 * were before. FAULT_INPUT for a serial number of several. */
MUST_CHECK bool desk_amend(struct desk *desk, const struct amend_request *request,
    struct gear_outcome *out, struct fault *fault);

struct extend_request {
	struct word_list tags;
	struct extension extension; /* `entered` is not read */
};

/* For each item: its tag, and the day through which the task may now wait. It may be
 * earlier than the paper says; a remark then says why. */
struct extend_outcome {
	const char **tags;
	day_t *through;
	size_t count;
};

/* Records more time that an authority has given for a task. FAULT_INPUT for a paper
 * without a number, one given after today, and one that would change nothing for any of
 * the items. */
MUST_CHECK bool desk_extend(struct desk *desk, const struct extend_request *request,
    struct extend_outcome *out, struct fault *fault);

struct interval_request {
	struct word_list tags;
	bool
	    none; /* the interval of this task is taken away: the rules alone hold again */
	struct interval interval; /* with `none` its task alone counts */
};

/* Enters the maker's interval of a task for some pieces, or takes it away. FAULT_INPUT
 * for a day before the thing in place was put there, and where there is none to take
 * away. */
MUST_CHECK bool desk_interval(struct desk *desk, const struct interval_request *request,
    struct gear_outcome *out, struct fault *fault);

/* A file that is to be kept with gear. */
struct paper_said {
	const char *path; /* its name, perhaps behind folders; borrowed */
	const struct text *bytes;
};

struct attach_request {
	struct word_list tags;
	const struct paper_said *papers;
	size_t count;
	const char
	    *to_record; /* of each item: the record's certificate, or its number from
				* 1; NULL for none */
	const char *note;
};

/* Takes papers of an item out of the book, by their numbers: all of them or none. */
MUST_CHECK bool desk_detach(struct desk *desk, const char *tag, const int64_t *numbers,
    size_t count, struct fault *fault);

/* A paper as it was kept. */
struct attached {
	const char *tag;
	const char *name;
	const char *type; /* what it is, in words */
	size_t size;      /* bytes */
	int64_t number;
	bool known; /* it was there already */
};

struct attach_outcome {
	struct attached *items; /* by item, in the order of the request */
	size_t count;
};

/* Keeps papers with gear, bit for bit. FAULT_INPUT for a record that is not there, and
 * for bytes that are none of the types that are kept, or not what the name says. */
MUST_CHECK bool desk_attach(struct desk *desk, const struct attach_request *request,
    struct attach_outcome *out, struct fault *fault);

struct stand_in_request {
	struct word_list tags;  /* of what is in the book */
	const char *stands_for; /* the own item's tag; NULL when not told */
	const char *vessel;     /* NULL: the own item's */
	day_t on;
	day_t until; /* the last day of its hire; DAY_NONE not told */
	const char *note;
	const struct enter_request
	    *hired; /* of what is new to the book: kind and all else */
};

struct stand_in_outcome {
	struct gear_outcome gear;     /* what is in the book */
	struct enter_outcome entered; /* what is new to it */
	const char *vessel;
};

/* Records that gear of the book stands in for other gear; the second one enters hired
 * gear that does. */
MUST_CHECK bool desk_stand_in(struct desk *desk, const struct stand_in_request *request,
    struct stand_in_outcome *out, struct fault *fault);
MUST_CHECK bool desk_stand_in_hired(struct desk *desk,
    const struct stand_in_request *request, struct stand_in_outcome *out,
    struct fault *fault);

/* What becomes of a vessel's gear when she leaves. */
enum fate { FATE_NOT_SAID, FATE_WITH_HER, FATE_SPARES, FATE_WITHDRAWN, FATE_COUNT };

struct leave_request {
	const char *name;
	day_t
	    left; /* the first day on which she is not in the fleet; DAY_NONE: she is back */
	enum because because; /* sold, lost, condemned, given back, or not said */
	enum fate gear;
};

/* Takes a vessel out of the fleet, or back into it. Her gear goes with her, to the spares
 * of her base, or is withdrawn; where she has gear and the request does not say which,
 * that is the desk's question, and FAULT_USAGE. What is at a station stays hers, to be
 * collected. `*aboard_out` counts her gear. */
MUST_CHECK bool desk_leave(struct desk *desk, const struct leave_request *request,
    size_t *aboard_out, struct fault *fault);

struct import_request {
	const char *name;         /* of the file, for messages */
	const struct text *bytes; /* what is in it; NULL where a spool has it */
	const struct spool *spool;
	struct csv_options options;
	bool dry; /* nothing is written, and there need be no book */
	/* the person has already said that what would be doubted is right */
	bool services_right, names_right, lots_right;
	struct serial_said said;
	bool ask_again; /* what was answered about earlier lists is not used */
	const struct import_answers
	    *answers; /* kept with what is written; NULL for none */
};

struct import_outcome {
	struct csv_effect effect;
	/* a line a row that is added or changed; free with spool_clear */
	struct spool words;
};

/* Reads an inventory from CSV into the book: all rows or none. Doubtful serial numbers
 * and services are the desk's question. What was answered about earlier lists is used for
 * this one, too (desk/import_answers.h). */
MUST_CHECK bool desk_import(struct desk *desk, const struct import_request *request,
    struct import_outcome *out, struct fault *fault);

#endif
