/* A rota in words: whether it holds, who goes when, what stands in, and what would help. */
#include "report/report.h"
#include "report/rota_parts.h"
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

static void
write_verdict(const struct rota_text *text)
{
	const struct rota *rota = text->view->rota;
	SCOPED_TEXT words = {0};
	text_add(&words, "Rota from ");
	add_day_of(rota->days.first, true, &words);
	text_add(&words, " to ");
	add_day_of(rota->days.last, true, &words);
	text_add(&words, ".");
	rota_write(text, &words, 0, 0);
	text_add(text->out, "\n");
	add_verdict(rota, &words);
	rota_write(text, &words, 0, 0);
	if (rota->stand_ins_that_do > 0) {
		text_add_format(&words,
		    "With --stand-ins %d, so many of each sort to be hired or "
		    "lent, all would be in time.",
		    rota->stand_ins_that_do);
		rota_write(text, &words, 0, 0);
	}
	if (rota->holds_through < rota->days.last) {
		text_add(&words, "It holds through ");
		add_day_of(rota->holds_through, true, &words);
		text_add(&words,
		    ": then something serviced early in it is due again. Make "
		    "it anew before that, or end it there with --to.");
		rota_write(text, &words, 0, 0);
	}
	if (rota->untold > 0) {
		rota_add_count(rota->untold, "boat", &words);
		text_add(&words,
		    " can't be mustered in full: the sheets have no carriage lines, "
		    "or one can't be told (see becket muster). In doubt a spare is "
		    "taken to be needed.");
		rota_write(text, &words, 0, 0);
	}
}

static void
write_shorts(const struct rota_text *text, bool anyway)
{
	const struct rota *rota = text->view->rota;
	SCOPED_TEXT words = {0};
	if (count_shorts(rota, anyway) == 0) {
		return;
	}
	text_add(text->out, anyway ? "\nShort whatever goes ashore (see becket muster):\n"
				   : "\nShort because of the rota:\n");
	for (size_t i = 0; i < rota->short_count; i++) {
		const struct rota_short *found = &rota->shorts[i];
		if (found->anyway != anyway) {
			continue;
		}
		text_add_format(&words, "%s from ",
		    text->view->inventory->vessels[found->vessel].name);
		add_day_of(found->from, true, &words);
		text_add_format(&words, ": %s", found->line->title);
		rota_write(text, &words, 2, 4);
	}
}

void
report_rota(
    const struct report_style *style, const struct rota_view *view, struct text *out)
{
	const struct rota_text text = {style, view, out};
	const struct rota *rota = view->rota;
	SCOPED_TEXT words = {0};
	if (rota->boats == 0) {
		text_add(&words,
		    "No boat is in use all year. One that is laid up has \"becket "
		    "winter\"; \"becket vessel NAME --lay-up none\" enters one that "
		    "is not.");
		rota_write(&text, &words, 0, 0);
		return;
	}
	if (rota->group_count == 0) {
		text_add(&words, "Nothing must go to a station by ");
		add_day_of(rota->days.last, true, &words);
		text_add(&words, ".");
		rota_write(&text, &words, 0, 0);
		write_shorts(&text, true);
		add_caution(out);
		return;
	}
	write_verdict(&text);
	for (size_t i = 0; i < rota->group_count; i++) {
		rota_write_group(&text, &rota->groups[i]);
	}
	write_shorts(&text, false);
	write_shorts(&text, true);
	add_caution(out);
}
