/* What is around every page: skip link, thumb index, head, leaf, foot; the building
 * blocks of all pages; and the table of all pages, with their handlers by file. */
#ifndef BECKET_PAGE_SHELL_H
#define BECKET_PAGE_SHELL_H

#include "base/embedded.h"
#include "base/text.h"
#include "gear/item.h"
#include "page/page.h"
#include "report/markup.h"
#include "rules/kinds.h"

/* A ruled box of the head: a small word above, the entry below. */
struct head_box {
	const char *word;
	const char *entry;
};

struct shell {
	const char *title; /* h1 */
	const char *about; /* after the title in the window's name; NULL or "" for none */
	const char *margin; /* bold in the margin beside h1; NULL or "" for none */
	const char *under;  /* below it */
	const char *say;    /* the answer in one sentence; NULL or "" for none */
	const struct head_box *boxes;
	size_t box_count;
	int status; /* 0 for 200 */
};

/* Begins the answer: everything up to the end of the first section, with h1, the sentence
 * and the result of the last act. The leaf is open. "Seen on" with the desk's day follows
 * the boxes. */
void shell_open(struct visit *visit, const struct shell *shell);
#define SHELL_OPEN(visit, ...) shell_open((visit), &(const struct shell){__VA_ARGS__})

/* Ends the page: writes the foot, and makes the page the answer. */
void shell_close(struct visit *visit);

/* Begins a section with its margin (`bold` over `soft`, either may be NULL) and its
 * heading of level 2, and leaves the part right of the margin open; markup_end twice ends
 * it. */
void shell_section(
    struct visit *visit, const char *bold, const char *soft, const char *heading);

/* The same, but what is left open is a list of rows below the heading; markup_end twice
 * ends it. */
void shell_rows(struct visit *visit, const char *soft, const char *heading);

/* A section without a heading, right of an empty margin. */
void shell_entry(struct visit *visit);

/* A table that scrolls sideways by itself when it is wider than the page. */
struct shell_table {
	const char *label; /* its name for screen readers */
	const char *class_name;
	const char *const *columns;
	size_t count;
	size_t figures; /* so many of the last columns are numbers */
	bool full;      /* as wide as the page, including the margin */
};

/* Begins it with its head; markup_end twice ends it. */
void shell_table(struct visit *visit, const struct shell_table *table);
#define SHELL_TABLE(visit, ...)                                                          \
	shell_table((visit), &(const struct shell_table){__VA_ARGS__})

/* Begins a form that is sent to a path of this site, with the token in it; markup_end
 * ends it. A reader who may not send it sees its content, without fields and buttons. */
void shell_form(struct visit *visit, const char *path, const char *id);

/* The same for a form that may send files. */
void shell_file_form(struct visit *visit, const char *path, const char *id);

/* Begins a form that asks for a page and writes nothing. Further attributes may
 * follow. */
void shell_asking_form(struct visit *visit, const char *path);

/* A hidden field. */
void shell_hidden(struct visit *visit, const char *name, const char *value);

/* A button that sends the form. The main one of a form is filled. `name` and `value` may
 * be NULL. */
void shell_button(struct visit *visit, bool chief, const char *name, const char *value,
    const char *words);

/* What was done, or why it was not: a paragraph right of the margin that screen readers
 * say at once. `wrong` shows it as a caution, after the words that nothing was written. */
void shell_note(struct visit *visit, bool wrong, const char *words);

/* What the return key pressed in a field of the form sends as "act": a hidden first
 * button, so that the key writes nothing for which no button was pressed. */
void shell_default(struct visit *visit, const char *act);

/* A text field with its label above. What is wrong with it, if not NULL, is shown below
 * and said by screen readers. */
struct shell_field {
	const char *name; /* its id too */
	const char *label;
	const char *value;
	const char *wrong;
	const char *mode;       /* inputmode: "numeric", "decimal"; NULL for text */
	const char *class_name; /* beside "f"; NULL for none */
	/* what a browser may fill in, as HTML's autocomplete has it: what ends in
	 * "-password" is typed unseen; NULL for nothing */
	const char *filled;
};

void shell_field(struct visit *visit, const struct shell_field *field);
#define SHELL_FIELD(visit, ...)                                                          \
	shell_field((visit), &(const struct shell_field){__VA_ARGS__})

/* Begins a field whose value is chosen from a list, with its label above; shell_option
 * adds the choices, and markup_end twice ends it. An option without a value stands for
 * its words; the value for nothing chosen is " ". */
void shell_choice(struct visit *visit, const char *name, const char *label);
void shell_option(struct visit *visit, const char *value, const char *words, bool chosen);

/* A box to tick ("checkbox"), or one of several choices ("radio"), with its words beside it
 * as its label. */
void shell_tick(struct visit *visit, const char *type, const char *name,
    const char *value, bool ticked, const char *words);

/* A field for a file, of the types in `accept` (HTML's attribute). */
void shell_file(
    struct visit *visit, const char *name, const char *label, const char *accept);

/* A day as a `time` element: "5 Dec 2026", with its class; shell_weekday "Wed 9 Dec". */
void shell_day(struct visit *visit, day_t day);
void shell_weekday(struct visit *visit, day_t day);

/* A link to a page of this site; nothing for a reader who may not open it. */
void shell_link(struct visit *visit, const char *class_name, const char *words,
    const char *format, ...) FORMAT_LIKE(4, 5);

/* A page of words only: something was not found, is not allowed, or went wrong. */
void shell_words(struct visit *visit, int status, const char *title, const char *say);

/* ---- words that several pages share, only for files of this room ---- */

/* Adds an item's name to the open element: "2 × red hand flare", its description in a
 * weaker style. */
void text_what(struct markup *markup, const struct kinds *kinds, const struct item *item);

/* Adds a number in words up to twelve: "eight"; with a capital. */
void text_number(size_t number, struct text *out);
void text_capital_number(size_t number, struct text *out);

/* Writes the lines of some words as a list. */
void text_lines(struct markup *markup, const char *lines);

/* Adds words, replacing those in a table by others (the first entry that fits): what a
 * command says of itself becomes what the page calls it. */
void text_in_place(
    const char *words, const char *const table[][2], size_t count, struct text *out);

/* Adds a fault's words as a sentence: with a capital, unless it begins with a name, and a
 * full stop. */
void text_sentence(const char *words, struct text *out);

/* Reads a number in digits from 0 to `most`, with nothing else beside it. False when it
 * is none. */
bool text_figures(const char *typed, int most, int *out);

/* ---- all pages ---- */

/* All pages there are: routes.c. */
extern const struct route ROUTES[];
extern const size_t ROUTE_COUNT;

/* page_enter.c */
page_handler page_first;
page_handler page_enter;
page_handler page_asset;

/* page_people.c */
page_handler page_log_in;
page_handler page_log_in_sent;
page_handler page_you;
page_handler page_you_sent;

/* page_winter.c */
page_handler page_winter;

/* winter_acts.c */
page_handler page_winter_sent;

/* page_back.c */
page_handler page_back;
page_handler page_back_sent;

/* page_begin.c */
page_handler page_begin;
page_handler page_begin_sent;

/* page_list.c */
page_handler page_list;
page_handler page_list_sent;

/* page_papers.c */
page_handler page_shore_papers;
page_handler page_survey;

/* page_calendar.c; and the sections of the page of reminders on the ways into a calendar,
 * and on the addresses of feeds, for whoever keeps the book */
page_handler page_calendar;
page_handler page_addresses;
MUST_CHECK bool page_calendar_section(struct visit *visit, struct fault *fault);
MUST_CHECK bool page_feeds_section(struct visit *visit, struct fault *fault);

/* page_reminders.c, page_safe.c */
page_handler page_reminders;
page_handler page_safe;
page_handler page_take_back;
page_handler page_taken_back;

/* page_copy.c; and the sections of the page of safe-keeping on a copy and how old the
 * last one is, and on putting one back here or on another machine */
page_handler page_copy;
void page_copy_section(struct visit *visit, const struct journal *journal);
void page_move_section(struct visit *visit);

/* page_restore.c; the form that brings a copy, for a page that is being written */
page_handler page_restore;
void page_restore_form(struct visit *visit);

/* page_saturday.c, page_years.c */
page_handler page_saturday;
page_handler page_coming_years;

/* page_locker.c, page_paper.c */
page_handler page_locker;
page_handler page_piece;
page_handler page_paper;
page_handler page_attach;

/* page_sheet.c */
page_handler page_sheet;
page_handler page_sheets;

/* page_choices.c, page_reminder_day.c */
page_handler page_choices;
page_handler page_reminder_day;

/* page_booking.c */
page_handler page_booking;

/* The files that the pages fetch: becket.svg, page.css and page.js, embedded in the
 * program when it is built. */
extern const struct embedded_file PAGE_ASSETS[];
extern const size_t PAGE_ASSETS_COUNT;

#endif
