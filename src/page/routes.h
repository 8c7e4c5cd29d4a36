/* The table of all pages, and their handlers by the file they are in. */
#ifndef BECKET_PAGE_ROUTES_H
#define BECKET_PAGE_ROUTES_H

#include "base/embedded.h"
#include "base/text.h"
#include "page/page.h"

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
/* page_calendar.c; and the sections of the page of reminders on the ways into a calendar, and on the
 * addresses of feeds, for whoever keeps the book */
page_handler page_calendar;
page_handler page_addresses;
MUST_CHECK bool page_calendar_section(struct visit *visit, struct fault *fault);
MUST_CHECK bool page_feeds_section(struct visit *visit, struct fault *fault);

/* page_reminders.c, page_safe.c */
page_handler page_reminders;
page_handler page_safe;
page_handler page_take_back;
page_handler page_taken_back;

/* page_copy.c; and the sections of the page of safe-keeping on a copy and how old the last one is, and on
 * putting one back here or on another machine */
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

/* What the pages fetch beside themselves: becket.svg, page.css and page.js, put in the program at build.
 * Inside the page room only. */

extern const struct embedded_file PAGE_ASSETS[];
extern const size_t PAGE_ASSETS_COUNT;

/* ---- compressing what is sent, through zlib ---- */

/* Adds the bytes as one gzip member (RFC 1952) without time and name, so that the same bytes
 * give the same member. */
void gzip_add(const char *bytes, size_t length, struct text *out);

#endif
