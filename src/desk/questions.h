/* Questions, each one function: it takes what is asked and gives an answer. A face turns
 * words or a form into what is asked, and shows the answer; it reckons nothing.
 *
 * Each question reads the book anew, with the gear of boats that have left as far as it
 * matters. So an answer, and what it borrows from desk->contents and desk->engine, holds
 * until the next question to the same desk, or desk_clear; for two answers at once take
 * two desks. A question writes nothing, and gives no hand-in day out. A fault or remark
 * about a field names it as base/fault.h has it. An empty book is no fault:
 * desk->contents then has no vessel, and the answer is empty. */
#ifndef BECKET_DESK_QUESTIONS_H
#define BECKET_DESK_QUESTIONS_H

#include "desk/bookings.h"
#include "desk/plans.h"
#include "due/suppose.h"
#include "gear/paper.h"
#include "life/history.h"
#include "life/spending.h"
#include "life/whereabouts.h"
#include "report/survey.h"
#include "rota/rota.h"
#include "rules/compare.h"
#include "winter/agenda.h"
#include "winter/dockets.h"

/* How many winters the years are planned over where nobody says how many. */
enum { YEARS_WINTERS = 8 };

/* What comes ashore this winter, to whom, by when, and what can wait. */
struct winter_answer {
	struct shore_list *lists; /* one a vessel, in the inventory's order */
	size_t count;
	/* the same by station and day, for all these vessels together */
	struct dockets going;  /* to be handed in */
	struct dockets landed; /* ashore already */
};

/* Answers for the vessels wished for. Where no more than 50 boats are asked about, a
 * boat's list of the winter she is in, or else the next, also says where the cheapest
 * plan of her coming YEARS_WINTERS winters differs from it; not with anything supposed,
 * or a winter named. FAULT_INPUT where no vessel, base or station has that name. */
MUST_CHECK bool desk_winter(struct desk *desk, const struct plans_wish *asked,
    struct winter_answer *out, struct fault *fault);

/* The same without the comparison with the coming years, which takes most of the time. */
MUST_CHECK bool desk_hand_ins(struct desk *desk, const struct plans_wish *asked,
    struct winter_answer *out, struct fault *fault);

/* Takes the lists of some boats, which hold until it returns, as desk->contents does; they
 * have no dockets. `places` as muster_taker has it. NULL for `some` where what it took
 * before is void, and it comes again: few boats of a large fleet go ashore. */
typedef void winter_taker(
    const struct winter_answer *some, const size_t *places, void *context);

/* The same as desk_winter, handed out base by base, so that only the boats that have to do
 * with each other are loaded at a time; all at once where a station's weekly limit ties all
 * boats. There is no answer before this returns true. */
MUST_CHECK bool desk_winter_by_bases(struct desk *desk, const struct plans_wish *asked,
    winter_taker *take, void *context, struct fault *fault);

/* Fills the dockets of an answer from its lists; these need not come from a question. */
void desk_dockets(struct desk *desk, struct winter_answer *answer);

/* Which gear is asked about; all of it where nothing is said. */
struct gear_wish {
	const char *vessel; /* NULL for any */
	const char *base;   /* NULL for any; today's */
	const char *kind;   /* in a person's words, or a group of kinds; NULL for any */
};

/* Which gear there is. */
struct list_asked {
	struct gear_wish gear;
	int state; /* an enum place_state; -1 for any but withdrawn */
	bool all;  /* what was withdrawn, too, and gear of boats that have left */
};

struct list_answer {
	const struct kinds *kinds;
	const size_t *items; /* in the inventory's order */
	size_t count;
};

MUST_CHECK bool desk_list(struct desk *desk, const struct list_asked *asked,
    struct list_answer *out, struct fault *fault);

/* The same, handed out for some boats at a time, as desk_due_by_boats does. */
MUST_CHECK bool desk_list_by_boats(struct desk *desk, const struct list_asked *asked,
    void (*take)(const struct list_answer *some, void *context), void *context,
    struct fault *fault);

/* What is due, and when. */
struct due_asked {
	struct gear_wish gear;
	int state;       /* an enum state; -1 for any */
	int within_days; /* what is in date only where it is due by then; -1 for any day */
	bool
	    all; /* else, and where neither of the above is said, what is in date and not due
		   * within twelve months is counted only */
	bool routine; /* routines, too */
};

/* Of what does not work for want of a part the first row is there whenever it is due, but for
 * gear in reserve. */
struct due_answer {
	struct agenda agenda;
	size_t later; /* tasks left out, for they are due after `until` */
	day_t until;  /* twelve months from today */
	bool
	    wrong; /* something in it that is not in reserve is not in date, or does not work */
};

MUST_CHECK bool desk_due(struct desk *desk, const struct due_asked *asked,
    struct due_answer *out, struct fault *fault);

/* The same, handed out some boats at a time in the inventory's order, so that no more of
 * them are loaded with their gear, however many there are. `take` is called at least
 * once, each time with the rows of some boats; what it gets, desk->contents too, holds
 * until it returns. Its rows are final, but a later part may fail: there is no answer
 * before this returns true. `out` then has no agenda, but all the rest, for all boats
 * together; the desk still has the last of them loaded. */
MUST_CHECK bool desk_due_by_boats(struct desk *desk, const struct due_asked *asked,
    void (*take)(const struct due_answer *some, void *context), void *context,
    struct due_answer *out, struct fault *fault);

/* How what is due would change if something else held of a vessel from a day on. */
struct suppose_asked {
	struct gear_wish gear;
	struct supposed supposed;
	bool routine;
};

/* Rows by item. The names of supposed sheets and of the area are replaced by their proper
 * spelling. FAULT_INPUT for a sheet that is not there. */
MUST_CHECK bool desk_suppose(struct desk *desk, struct suppose_asked *asked,
    struct change_rows *out, struct fault *fault);

/* What is wanted of some pieces of gear, as bits. The items themselves are in the
 * inventory. */
enum {
	PIECE_PAPERS = 1, /* kept with them */
	PIECE_WHY =
	    2, /* why each of their tasks is due when it is; reads kinds and sheets */
};

struct pieces_asked {
	const struct word_list *tags; /* ranges of them, too */
	unsigned wants;
	int task; /* with PIECE_WHY, an enum task: this one alone; -1 for all */
};

/* The past of a serial number, or of what has a tag. */
struct history_answer {
	const struct kinds *kinds;
	struct history history;
	struct journal journal; /* what it says of it */
};

struct known_piece {
	size_t item; /* index in the inventory */
	const struct paper *papers;
	size_t paper_count;
	struct obligation *obligations;
	size_t obligation_count;
};

struct pieces_answer {
	const struct kinds *kinds;
	struct known_piece *items; /* as they were named */
	size_t count;
};

/* All that is known of pieces of gear, or what is wanted of it. FAULT_INPUT for a tag
 * that is not there, and for one named twice. */
MUST_CHECK bool desk_pieces(struct desk *desk, const struct pieces_asked *asked,
    struct pieces_answer *out, struct fault *fault);

/* The past of a thing by its serial number; where no such number is known, by its tag,
 * found as names are (desk/naming.h). FAULT_INPUT where nothing is on record, with the
 * nearest tag. */
MUST_CHECK bool desk_history(struct desk *desk, const char *words,
    struct history_answer *out, struct fault *fault);

/* The papers kept with some gear, by its tags or ranges of them, or with all where none
 * is named; their bytes are not read. */
struct papers_answer {
	const struct paper *papers; /* by item, as they were named, and number */
	size_t count;
};

MUST_CHECK bool desk_papers(struct desk *desk, const struct word_list *tags,
    struct papers_answer *out, struct fault *fault);

/* The papers of an item, without reading the book anew: an answer that is being shown
 * stays valid. */
MUST_CHECK bool desk_papers_of(
    struct desk *desk, const char *tag, struct papers_answer *out, struct fault *fault);

/* A paper and its bytes, in place of what `bytes` held. FAULT_INPUT where there is none
 * of that number. */
MUST_CHECK bool desk_paper(struct desk *desk, int64_t number, struct paper *out,
    struct text *bytes, struct fault *fault);

/* Where the gear is that some words mean. */
struct where_answer {
	struct known_gear known; /* what it was looked for in */
	struct whereabouts_list list;
	const char *words; /* what was looked for, together; NULL of gear ashore */
	const char
	    *near; /* where there is nothing: a tag that is near the words, or NULL */
};

/* Takes what was found on some boats, in the inventory's order, which holds until it returns. */
typedef void where_taker(const struct where_answer *some, void *context);

/* The gear that the words mean together (life/whereabouts.h), handed out for some boats
 * at a time. Where there is none and each word is a tag or a range of tags, the gear of
 * those tags. A range with a tag that is not in the book is FAULT_INPUT. `out` has how
 * many were found and none of them; there is no answer before this returns true. */
MUST_CHECK bool desk_where(struct desk *desk, const struct word_list *words,
    where_taker *take, void *context, struct where_answer *out, struct fault *fault);

/* What is ashore, at a station, or anywhere where that is NULL. FAULT_INPUT for a name
 * that is nearly that of a station of the book, or that neither the book nor its gear
 * has. */
MUST_CHECK bool desk_gear_ashore(struct desk *desk, const char *station,
    struct where_answer *out, struct fault *fault);

/* What came back, the latest first. */
struct back_asked {
	const char *station; /* NULL for any */
	day_t since;         /* DAY_NONE: ever */
};

struct back_answer {
	struct known_gear known;
	struct came_back_list list; /* what just passed, too */
};

MUST_CHECK bool desk_came_back(struct desk *desk, const struct back_asked *asked,
    struct back_answer *out, struct fault *fault);

/* What gear has cost in a year (0: in all years) on a vessel (NULL: on all). */
MUST_CHECK bool desk_spent(struct desk *desk, int year, const char *vessel,
    struct spending *out, struct fault *fault);

/* What is aboard, counted against what must be carried. */
struct muster_asked {
	const char *vessel; /* NULL for all boats */
	const char *base; /* NULL for any; where she lies on the first day asked about */
	day_t on;         /* counted on this day, */
	day_t from;       /* or, where this is none, on every day from here to there */
	day_t to;
	bool
	    season; /* or each boat over her season: what is left of it, or else the next, */
	int year; /* or the one that starts in this year; 0 not said */
};

struct muster_answer {
	struct muster_question question;
	struct muster
	    *musters; /* one a boat, in the inventory's order, with their cures */
	size_t count;
	bool ok; /* all of them are */
};

/* FAULT_INPUT for a vessel or base that is not there, and for a season that a boat does
 * not have; FAULT_USAGE where `to` lies before `from`. */
MUST_CHECK bool desk_muster(struct desk *desk, const struct muster_asked *asked,
    struct muster_answer *out, struct fault *fault);

/* Takes the musters of some boats, which hold until it returns, as desk->contents does.
 * `places` has for each vessel of the inventory her place in that of the whole book; NULL
 * where that is her index, or boats were chosen. */
typedef void muster_taker(
    const struct muster_answer *some, const size_t *places, void *context);

/* The same, handed out base by base, so that only the boats that have to do with each other
 * are loaded at a time, however many bases there are: those of one base share its spares.
 * The boats of bases among which some have moved, or their gear has, come together. `take`
 * is called at least once; there is no answer before this returns true. Where all boats are
 * asked about `out` then has no musters, but all the rest, for all boats together. */
MUST_CHECK bool desk_muster_by_bases(struct desk *desk, const struct muster_asked *asked,
    muster_taker *take, void *context, struct muster_answer *out, struct fault *fault);

/* Fills what a survey file of a mustered boat says beside the muster, in `arena`. */
MUST_CHECK bool desk_survey(struct desk *desk, const struct muster *muster,
    struct arena *arena, struct survey *out, struct fault *fault);

/* Why a line of the muster is met or not. */
struct line_asked {
	const char *vessel;
	const char *line; /* its id */
	day_t on;
};

/* FAULT_INPUT where the vessel has no line of that id; it names those she has. */
MUST_CHECK bool desk_line(struct desk *desk, const struct line_asked *asked,
    struct line_why *out, struct fault *fault);

/* The coming winters at least cost. */
struct years_asked {
	const char *vessel; /* NULL for all, each for herself, */
	const char *base;   /* or the vessels of a base as one, */
	bool fleet;         /* or of every base as one */
	size_t winters;     /* 1 to OUTLOOK_WINTERS_MOST */
	enum grade least;   /* what is of this grade or more binding may not lapse */
	/* what replaces the book's own facts */
	const struct outlook_price *prices; /* with a kind's id */
	size_t price_count;
	struct word_list without_stations;
	const char *renew_now; /* a tag; NULL for none */
	int skip_year; /* the winter in which nobody goes to a station; 0 for none */
	const struct supposition *use; /* NULL for none */
	bool compare;                  /* the plan without all that, too */
	/* also where the shore lists differ, and what of a single boat's first winter
	 * depends on how many winters are looked at; not with any of the above. For one
	 * boat this is some twenty times the work */
	bool asides;
};

struct years_answer {
	struct outlook_view view;
	struct outlook_view as_is; /* with `compare` */
};

/* FAULT_INPUT for a kind, station, tag, vessel or base that is not there, and for a
 * withdrawn thing that is to be renewed. */
MUST_CHECK bool desk_years(struct desk *desk, const struct years_asked *asked,
    struct years_answer *out, struct fault *fault);

/* Takes the plans of some boats, which hold until it returns, as desk->contents does. `places`
 * has for each plan, which ascend, that of her first boat in the inventory of the whole book;
 * NULL where these are all plans there are. NULL for `some` where what it took before is void,
 * and it comes again. */
typedef void years_taker(
    const struct years_answer *some, const size_t *places, void *context);

/* The same as desk_years, handed out base by base where all boats are asked about, so
 * that only those that have to do with each other are loaded at a time; all at once where
 * the shore lists stand beside the plans and a station has a weekly limit: that counts
 * what all boats hand in there, and ties them to each other. There is no answer before
 * this returns true. */
MUST_CHECK bool desk_years_by_bases(struct desk *desk, const struct years_asked *asked,
    years_taker *take, void *context, struct fault *fault);

/* The services of boats in use all year, staggered. */
struct rota_asked {
	const char *base;              /* NULL for any */
	const struct word_list *boats; /* names; none for all */
	struct word_list kinds;        /* ids; none for every kind */
	day_t from;                    /* today or later */
	day_t to;                      /* DAY_NONE for twelve months on */
	int stand_ins, most_away;      /* as struct rota_ask has them, as the next */
	int together_days;             /* ROTA_TOGETHER_DAYS where nobody says */
};

enum { ROTA_TOGETHER_DAYS = 7 };

struct rota_answer {
	struct rota_ask ask;
	struct rota rota;
	struct rota_view view; /* of that rota */
};

/* FAULT_INPUT for what is not there, and for a named boat that has winters; FAULT_USAGE
 * for days that are past, in the wrong order or more than ten years. */
MUST_CHECK bool desk_rota(struct desk *desk, const struct rota_asked *asked,
    struct rota_answer *out, struct fault *fault);

/* What some boats add to a summary for one screen, each thing of one of them once; the number of
 * boats is not known yet. `ashore` is in its order. */
typedef void now_taker(const struct first_word *word, const struct known_gear *known,
    const struct first_word_part *part, const struct whereabouts_list *ashore,
    void *context);

/* A summary for one screen: what is not in date, what comes next, and what is ashore, of
 * the boat named, or of the only one there is, or of the fleet. Loads at a time only the boats
 * that have to do with each other, at the end all that have gear of lots ashore, and calls `take`
 * after each load. FAULT_INPUT for a boat that is not there, where there are any. */
MUST_CHECK bool desk_now(struct desk *desk, const char *vessel, now_taker *take,
    void *context, struct first_word *out, struct fault *fault);

/* What was changed, by whom and when. FAULT_INPUT where an entry was asked for by a
 * number that does not exist. Loads nothing. */
MUST_CHECK bool desk_journal(struct desk *desk, const struct journal_query *query,
    struct journal *out, struct fault *fault);

/* A rule sheet, and the gear and boats of the book that it is for. */
struct sheet_asked {
	const char *name; /* one's own, or one that comes with the program */
	const char *base; /* the boats that lie there at any time; NULL for all */
	const struct word_list *boats; /* else these alone; NULL for all */
};

struct sheet_answer {
	const struct sheet *sheet;
	/* for each of its rules the tags of the pieces for which it is in force today,
	 * also where that can't be decided; in the desk's arena */
	const struct word_list *pieces;
	struct word_list followed_by; /* the boats that follow it today */
};

/* Opens and loads the book. FAULT_INPUT for a sheet that is not there. */
MUST_CHECK bool desk_sheet(struct desk *desk, const struct sheet_asked *asked,
    struct sheet_answer *out, struct fault *fault);

struct sheet_list {
	const struct sheet **sheets; /* by name, in the desk's arena */
	size_t count;
};

/* All sheets there are. One that can't be read is left out, and the desk notes why. */
void desk_sheets(struct desk *desk, struct sheet_list *out);

/* Two sets of rule sheets, each given as names with commas between them. */
struct compare_asked {
	const char *sides[2];
	const char *vessel; /* of gear: hers */
	const char *kind; /* of rules: those for it, in a person's words; NULL for all */
};

/* How the tasks of the vessel's gear stand under both sets. */
MUST_CHECK bool desk_compare_gear(struct desk *desk, const struct compare_asked *asked,
    struct change_rows *out, struct fault *fault);

/* The rules of both sets side by side. */
struct compare_answer {
	const char *kind;          /* its id; NULL for all */
	struct line_list lines[2]; /* of carriage that the kind may serve */
	struct comparison comparison;
};

/* Compares the rules; opens no book. */
MUST_CHECK bool desk_compare_rules(struct desk *desk, const struct compare_asked *asked,
    struct compare_answer *out, struct fault *fault);

#endif
