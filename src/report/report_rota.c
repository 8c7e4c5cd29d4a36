/* A rota in words: whether it holds, who goes when, what stands in, and what would help. */
#include "report/parts_inside.h"
#include "report/words.h"

/* ---- how good it is ---- */

static size_t
count_pieces(const struct rota *rota, bool late)
{
	size_t count = 0;
	for (size_t i = 0; i < rota->group_count; i++) {
		for (size_t j = 0; j < rota->groups[i].line_count; j++) {
			count += !late || rota->groups[i].lines[j].late;
		}
	}
	return count;
}

static size_t
count_shorts(const struct rota *rota, bool anyway)
{
	size_t count = 0;
	for (size_t i = 0; i < rota->short_count; i++) {
		count += rota->shorts[i].anyway == anyway;
	}
	return count;
}

static void
add_verdict(const struct rota *rota, struct text *words)
{
	size_t late = count_pieces(rota, true);
	size_t made = count_shorts(rota, false);
	rota_add_count(count_pieces(rota, false), "piece", words);
	text_add(words, count_pieces(rota, false) == 1 ? " goes" : " go");
	text_add(words, " ashore in turn. ");
	if (late > 0) {
		rota_add_count(late, "piece", words);
		text_add(words, late == 1 ? " is late or without a day. "
					  : " are late or without a day. ");
	}
	if (made > 0) {
		text_add(words, "The rota makes ");
		rota_add_count(made, "boat", words);
		text_add(words, " short; see below.");
	} else if (late > 0) {
		text_add(words,
		    "No boat is found short for it, but what is late is out of "
		    "date.");
	} else {
		text_add(words, "Mustered on every day, no boat is short for it.");
	}
}

/* Adds words as a paragraph, and empties them. */
static void
add_words(const struct rota_page *page, bool apart, struct text *words)
{
	reply_words(page->reply, VOICE_PLAIN, apart, 0, text_string(words));
	text_reset(words);
}

static void
add_answer(const struct rota_page *page)
{
	const struct rota *rota = page->view->rota;
	SCOPED_TEXT words = {0};
	text_add(&words, "Rota from ");
	add_day_of(rota->days.first, true, &words);
	text_add(&words, " to ");
	add_day_of(rota->days.last, true, &words);
	reply_heading(page->reply, 2, text_string(&words));
	text_reset(&words);
	add_verdict(rota, &words);
	add_words(page, true, &words);
	if (rota->stand_ins_that_do > 0) {
		text_add_format(&words,
		    "With --stand-ins %d, so many of each sort to be hired or "
		    "lent, all would be in time.",
		    rota->stand_ins_that_do);
		add_words(page, false, &words);
	}
	if (rota->holds_through < rota->days.last) {
		text_add(&words, "It holds through ");
		add_day_of(rota->holds_through, true, &words);
		text_add(&words,
		    ": then something serviced early in it is due again. Make "
		    "it anew before that, or end it there with --to.");
		add_words(page, false, &words);
	}
	if (rota->untold > 0) {
		rota_add_count(rota->untold, "boat", &words);
		text_add(&words,
		    " can't be mustered in full: the sheets have no carriage lines, "
		    "or one can't be told (see becket muster). In doubt a spare is "
		    "taken to be needed.");
		add_words(page, false, &words);
	}
}

static void
add_shorts(const struct rota_page *page, bool anyway)
{
	const struct rota *rota = page->view->rota;
	if (count_shorts(rota, anyway) == 0) {
		return;
	}
	reply_heading(page->reply, 3,
	    anyway ? "Short whatever goes ashore (see becket muster):"
		   : "Short because of the rota:");
	for (size_t i = 0; i < rota->short_count; i++) {
		const struct rota_short *found = &rota->shorts[i];
		SCOPED_TEXT words = {0};
		if (found->anyway != anyway) {
			continue;
		}
		text_add_format(&words, "%s from ",
		    page->view->inventory->vessels[found->vessel].name);
		add_day_of(found->from, true, &words);
		text_add_format(&words, ": %s", found->line->title);
		reply_remark(page->reply, VOICE_PLAIN, 2, text_string(&words));
	}
}

static void
compose(const struct rota_page *page)
{
	const struct rota *rota = page->view->rota;
	SCOPED_TEXT words = {0};
	if (rota->boats == 0) {
		text_add(&words,
		    "No boat is in use all year. One that is laid up has \"becket "
		    "winter\"; \"becket vessel NAME --lay-up none\" enters one that "
		    "is not.");
		add_words(page, false, &words);
		return;
	}
	if (rota->group_count == 0) {
		text_add(&words, "Nothing must go to a station by ");
		add_day_of(rota->days.last, true, &words);
		text_add(&words, ".");
		add_words(page, false, &words);
	} else {
		add_answer(page);
	}
	for (size_t i = 0; i < rota->group_count; i++) {
		rota_add_group(page, &rota->groups[i]);
	}
	add_shorts(page, false);
	add_shorts(page, true);
	reply_caution(page->reply);
}

void
report_rota(
    const struct report_style *style, const struct rota_view *view, struct text *out)
{
	SCOPED_REPLY(reply);
	compose(&(struct rota_page){view, &reply});
	reply_text(&reply, style->colour, out);
}
