/* Words that several pages share. Only for files of this room. */
#ifndef BECKET_PAGE_PAGE_TEXT_H
#define BECKET_PAGE_PAGE_TEXT_H

#include "gear/item.h"
#include "report/markup.h"
#include "rules/kinds.h"

/* Adds what an item is to the open element: "2 × red hand flare", its description in second words. */
void text_what(struct markup *markup, const struct kinds *kinds, const struct item *item);

/* Adds a number in words up to twelve: "eight"; with a capital. */
void text_number(size_t number, struct text *out);
void text_capital_number(size_t number, struct text *out);

/* A list of the lines of some words. */
void text_lines(struct markup *markup, const char *lines);

/* Adds words with each of some others in them replaced, the first of the table that fits: what a command
 * says of itself is told as the page has it. */
void text_in_place(
    const char *words, const char *const table[][2], size_t count, struct text *out);

/* Adds a fault's words as a sentence: with a capital, unless what begins it is a name, and a full stop. */
void text_sentence(const char *words, struct text *out);

/* Reads a number in figures from 0 to `most`, nothing else beside it. False where it is none. */
bool text_figures(const char *typed, int most, int *out);

#endif
