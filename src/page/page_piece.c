/* The forms about one piece: shown, tried, and written if what was shown is still
 * true. */
#include "desk/questions.h"
#include "page/draw.h"
#include "page/pieces.h"
#include "page/shell.h"
#include "report/journal_terms.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

/* Finds the piece, and copies its tags, as the book is loaded again when it is
 * written. */
static bool
find_piece(struct piece_form *form, struct fault *fault)
{
	struct desk *desk = &form->visit->desk;
	const struct item *items = NULL;
	form->tag = "";
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	if (form->visit->rest[0] == '\0') {
		return true;
	}
	if (!desk_find_tag(desk, form->visit->rest, &form->item, fault)) {
		return false;
	}
	items = desk->contents.inventory.items;
	form_keep_tag(form, &form->own, items[form->item].tag);
	form->tag = form->own.items[0];
	if (desk->engine.first_part == NULL) {
		return true;
	}
	for (size_t part = desk->engine.first_part[form->item]; part != ITEM_NO_PARENT;
	     part = desk->engine.next_part[part]) {
		if (items[part].state != PLACE_WITHDRAWN) {
			form_keep_tag(form, &form->own, items[part].tag);
		}
	}
	return true;
}

/* Replaces GLUE by plain blanks, which is how browsers send the words back. */
static void
unglue(struct text *text)
{
	for (size_t i = 0; i < text->length; i++) {
		if (text->bytes[i] == GLUE) {
			text->bytes[i] = ' ';
		}
	}
}

/* True when the words sent are those that were asked, apart from marks that a page does
 * not show. */
static bool
is_said(const char *sent, const char *asked)
{
	SCOPED_TEXT words = {0};
	page_words(asked, &words);
	unglue(&words);
	return strcmp(sent, text_string(&words)) == 0;
}

/* Answers the desk's question with yes if the person said yes to it. True when it did. */
static bool
is_answered(const struct piece_form *form, struct desk *desk)
{
	const struct form *sent = &form->visit->sent;
	for (size_t i = 0; i < sent->count && desk->question.words != NULL; i++) {
		if (strcmp(sent->items[i].name, "yes") == 0 &&
		    is_said(sent->items[i].value, desk->question.words)) {
			desk_answer(desk);
			return true;
		}
	}
	return false;
}

static bool
run_act(struct piece_form *form, struct desk *desk, struct fault *fault)
{
	bool done = false;
	do {
		form->tags.count = 0;
		*fault = (struct fault){0};
		done = form->act->run(form, desk, fault);
	} while (!done && is_answered(form, desk));
	return done;
}

/* Finds the field that a fault is about, and the reason. */
static void
keep_fault(struct piece_form *form, const struct desk *desk, const struct fault *fault)
{
	struct arena *arena = &form->visit->arena;
	const char *mark = strchr(fault->text, FIELD[0]);
	SCOPED_TEXT words = {0};
	page_words(fault->text, &words);
	form->why = arena_string(arena, text_string(&words));
	if (mark != NULL) {
		SCOPED_TEXT name = {0};
		text_add_bytes(&name, mark + 1, strcspn(mark + 1, ": "));
		form->wrong = arena_string(arena, text_string(&name));
	}
	if (desk->question.words != NULL) {
		text_reset(&words);
		page_words(desk->question.words, &words);
		unglue(&words);
		form->question = arena_string(arena, text_string(&words));
		form->no = arena_string(arena, desk->question.no);
		form->why = NULL;
		form->wrong = "";
	}
}

/* Tries the act on a copy of the book and says what would change. False only for a
 * failure of the book itself: if the act can't be done, the reason is kept with the
 * form. */
static bool
try_act(struct piece_form *form, struct fault *fault)
{
	SCOPED_DESK trial = {0};
	struct fault refused = {0};
	bool done = true;
	page_try(form->visit, &trial);
	form->sent = true;
	if (!run_act(form, &trial, &refused)) {
		keep_fault(form, &trial, &refused);
		done = refused.kind != FAULT_BOOK && refused.kind != FAULT_FILE;
		if (!done) {
			*fault = refused;
		}
	} else {
		text_add(&form->notes, text_string(&trial.notes));
		desk_forget(&trial);
		done = desk_engine(&trial, NULL, fault);
		if (done) {
			add_effect(form, &form->visit->desk, &trial, &form->said);
		}
		unglue(&form->said);
	}
	return done;
}

/* Adds what another person changed in one thing of the piece. */
static void
add_meanwhile(struct piece_form *form, const struct journal_line *line)
{
	const struct desk *desk = &form->visit->desk;
	const struct journal_speech speech = {
	    desk->contents.inventory.currency, desk->engine.kinds};
	struct text *out = &form->meanwhile;
	journal_term(line, out);
	text_add(out, " ");
	if (line->became[0] != '\0') {
		journal_term_value(&speech, line, line->became, out);
	} else {
		text_add(out, "gone");
	}
}

/* Adds what others wrote about the piece after the last entry that this person had
 * seen. */
static bool
look_meanwhile(struct piece_form *form, struct fault *fault)
{
	struct journal journal = {0};
	const char *seen = form_typed(form, "seen", "");
	int64_t last = seen[0] == '\0' ? INT64_MAX : strtoll(seen, NULL, 10);
	if (form->item == ITEM_NO_PARENT) {
		return true;
	}
	const struct journal_query query = {.about = form->tag, .since = DAY_NONE};
	if (!page_journal(&form->visit->desk, &query, &journal, fault)) {
		return false;
	}
	for (size_t i = 0; i < journal.count; i++) {
		const struct journal_entry *entry = &journal.entries[i];
		form->last_change = entry->number;
		if (entry->number <= last) {
			continue;
		}
		meanwhile_entry(entry, &form->meanwhile);
		text_add(&form->meanwhile, ":");
		for (size_t j = 0; j < entry->line_count; j++) {
			text_add(&form->meanwhile, j > 0 ? "; " : " ");
			add_meanwhile(form, &entry->lines[j]);
		}
		text_add(&form->meanwhile, "\n");
	}
	return true;
}

/* Writes lines as items of a list. */
static void
write_lines(struct visit *visit, const char *lines)
{
	markup_begin(visit->markup, "ul");
	while (*lines != '\0') {
		size_t length = strcspn(lines, "\n");
		SCOPED_TEXT raw = {0};
		SCOPED_TEXT line = {0};
		text_add_bytes(&raw, lines, length);
		page_words(text_string(&raw), &line);
		markup_element(visit->markup, "li", NULL, text_string(&line));
		lines += length + (lines[length] == '\n' ? 1 : 0);
	}
	markup_end(visit->markup);
}

static void
write_question(struct piece_form *form)
{
	struct markup *markup = form->visit->markup;
	if (form->question == NULL) {
		return;
	}
	markup_begin_class(markup, "div", "choice");
	shell_tick(form->visit, "checkbox", "yes", form->question, false, form->question);
	markup_end(markup);
	if (form->no != NULL) {
		markup_element(markup, "p", "small soft", form->no);
	}
}

/* Sends what was answered with yes before again with the next form. */
static void
keep_answers(struct piece_form *form)
{
	const struct form *sent = &form->visit->sent;
	for (size_t i = 0; i < sent->count; i++) {
		if (strcmp(sent->items[i].name, "yes") == 0) {
			shell_hidden(form->visit, "yes", sent->items[i].value);
		}
	}
}

static bool
can_save(const struct piece_form *form)
{
	return form->sent && form->why == NULL && form->question == NULL;
}

static void
write_change_box(struct piece_form *form)
{
	struct visit *visit = form->visit;
	struct markup *markup = visit->markup;
	SCOPED_TEXT save = {0};
	MARKUP_BEGIN(markup, "div", "change", "id", "change");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, "What saving changes");
	markup_end(markup);
	if (form->meanwhile.length > 0) {
		markup_element(markup, "p", NULL,
		    "Another wrote about it since you saw it. Nothing of yours is saved yet:");
		write_lines(visit, text_string(&form->meanwhile));
		if (can_save(form)) {
			markup_element(markup, "p", NULL, "Yours, on top of that:");
		}
	}
	if (form->why != NULL) {
		markup_element(markup, "p", "caution", form->why);
	} else if (can_save(form)) {
		write_lines(
		    visit, form->said.length > 0 ? text_string(&form->said) : "nothing");
		if (form->notes.length > 0) {
			markup_element(markup, "p", "soft", "Look twice:");
			write_lines(visit, text_string(&form->notes));
		}
	} else if (form->question == NULL) {
		markup_element(
		    markup, "p", "soft", "Nothing is written before you have seen it.");
	}
	write_question(form);
	keep_answers(form);
	markup_begin_class(markup, "div", "acts");
	if (can_save(form)) {
		shell_hidden(visit, "shown", text_string(&form->said));
		text_add_format(&save, "Save: %s", form->act->saving);
		shell_button(visit, true, "save", "yes", text_string(&save));
		shell_button(visit, false, "look", "yes", "Reckon again");
	} else {
		shell_button(visit, true, "look", "yes", "See what it changes");
	}
	markup_ends(markup, 2);
}

static void
add_form_path(const struct piece_form *form, const char *tag, struct text *out)
{
	text_add(out, form->act->path);
	form_escape(tag, out);
}

static void
write_page(struct piece_form *form)
{
	struct visit *visit = form->visit;
	const struct inventory *inventory = &visit->desk.contents.inventory;
	bool known = form->item != ITEM_NO_PARENT;
	const char *tag = form->tag;
	SCOPED_TEXT path = {0};
	SCOPED_TEXT what = {0};
	SCOPED_TEXT number = {0};
	if (known) {
		text_add_format(&what, "%s: ", tag);
		add_item_words(visit->desk.engine.kinds, inventory, form->item, &what);
		text_add_byte(&what, '.');
	}
	if (form->why != NULL) {
		text_add(&what, " One thing is to be mended before it can be written.");
	}
	const struct head_box boxes[] = {{"Boat",
	    known ? inventory->vessels[inventory->items[form->item].vessel].name : NULL}};
	SHELL_OPEN(visit, .title = form->act->title, .about = tag, .margin = tag,
	    .say = text_string(&what), .boxes = boxes, .box_count = known ? 1 : 0,
	    .status = form->why != NULL || form->meanwhile.length > 0 ? 409 : 200);
	draw_defs(visit->markup);
	shell_entry(visit);
	add_form_path(form, tag, &path);
	shell_form(visit, text_string(&path), "form");
	if (known) {
		text_add_format(&number, "%lld", (long long)form->last_change);
		shell_hidden(visit, "seen", text_string(&number));
	}
	markup_begin_class(visit->markup, "div", "fields");
	form->act->fields(form);
	markup_end(visit->markup);
	write_change_box(form);
	markup_end(visit->markup);
	markup_begin(visit->markup, "p");
	shell_link(visit, "go", "Back to the locker, nothing changed",
	    known ? "/locker/%s" : "/locker%s", tag);
	markup_ends(visit->markup, 3);
	shell_close(visit);
}

/* Writes what was tried, and shows the piece. */
static bool
save(struct piece_form *form, struct fault *fault)
{
	struct desk desk = {0};
	SCOPED_TEXT tag = {0};
	page_write(form->visit, &desk, "%s %s", form->act->title, form->tag);
	bool done = run_act(form, &desk, fault);
	if (done) {
		page_say(form->visit, "%s", text_string(&form->said));
		form_escape(form->tags.items[0], &tag);
		page_go(form->visit, "/locker/%s#piece", text_string(&tag));
	}
	page_done(form->visit, &desk);
	return done;
}

/* True when the form may be written as it is: what was shown is still true. */
static bool
is_as_told(const struct piece_form *form)
{
	const char *shown = form_value(&form->visit->sent, "shown");
	return page_has(form->visit, "save") && can_save(form) &&
	       form->meanwhile.length == 0 && form->said.length > 0 && shown != NULL &&
	       strcmp(shown, text_string(&form->said)) == 0;
}

static const struct piece_act *
act_of(const struct visit *visit)
{
	static const struct piece_act *const ACTS[] = {&PIECE_DONE, &PIECE_MEND,
	    &PIECE_MOVE, &PIECE_WITHDRAW, &PIECE_SET_ASIDE, &PIECE_BUY, &PIECE_NEW};
	for (size_t i = 0; i < sizeof ACTS / sizeof ACTS[0]; i++) {
		if (strncmp(visit->route->path, ACTS[i]->path, strlen(ACTS[i]->path)) ==
		    0) {
			return ACTS[i];
		}
	}
	return &PIECE_NEW;
}

static bool
answer(struct piece_form *form, struct fault *fault)
{
	struct visit *visit = form->visit;
	bool post = strcmp(visit->route->method, "POST") == 0;
	/* an address may ask for an immediate try, which writes nothing */
	bool tries = post || form_value(&visit->asked, "look") != NULL;
	if (!find_piece(form, fault) || !look_meanwhile(form, fault) ||
	    (tries && !try_act(form, fault))) {
		return false;
	}
	if (is_as_told(form)) {
		return save(form, fault);
	}
	write_page(form);
	return true;
}

bool
page_piece(struct visit *visit, struct fault *fault)
{
	struct piece_form form = {
	    .visit = visit, .act = act_of(visit), .item = ITEM_NO_PARENT, .wrong = ""};
	bool answered = answer(&form, fault);
	text_clear(&form.said);
	text_clear(&form.notes);
	text_clear(&form.meanwhile);
	return answered;
}
