/* It came back: a bag is chosen, and what is said of it is read, tried and written. */
#include "page/pieces.h"
#include "page/shell.h"
#include "page/taking_in.h"

#include <string.h>

/* The pieces that are ashore at a station, or all with "". */
static bool
load_pieces(
    struct visit *visit, const char *station, struct back_page *out, struct fault *fault)
{
	const struct word_list none = {0};
	struct desk *desk = &visit->desk;
	size_t *items = NULL;
	size_t count = 0;
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	if (!desk_ashore(desk, &none, station, &items, &count, fault)) {
		*fault = (struct fault){0}; /* there is nothing ashore */
	}
	out->visit = visit;
	out->station = station;
	out->pieces = arena_alloc(&visit->arena, (count + 1) * sizeof *out->pieces);
	out->count = count;
	for (size_t i = 0; i < count; i++) {
		out->pieces[i] = (struct back_piece){.item = items[i]};
	}
	return true;
}

/* The station if only one bag was found; NULL if there are several. */
static const char *
only_station(const struct back_page *page)
{
	const char *station = NULL;
	for (size_t i = 0; i < page->count; i++) {
		const char *there = back_item(page, &page->pieces[i])->landed_to;
		if (station != NULL && strcmp(station, there) != 0) {
			return NULL;
		}
		station = there;
	}
	return station;
}

/* True when an earlier piece is at the same station. */
static bool
is_told(const struct back_page *page, size_t index)
{
	const char *there = back_item(page, &page->pieces[index])->landed_to;
	for (size_t i = 0; i < index; i++) {
		if (strcmp(back_item(page, &page->pieces[i])->landed_to, there) == 0) {
			return true;
		}
	}
	return false;
}

/* Asks which bag, when several are ashore; or says that there is none. */
static void
choose_bag(struct back_page *page)
{
	struct visit *visit = page->visit;
	SHELL_OPEN(visit, .title = "It came back",
	    .say = page->count == 0
		       ? "Nothing is ashore. What is handed in under This winter "
			 "stands here until it is back."
		       : "Which bag came back?");
	if (page->count == 0) {
		shell_close(visit);
		return;
	}
	shell_section(visit, NULL, NULL, "Bags ashore");
	markup_begin(visit->markup, "ul");
	for (size_t i = 0; i < page->count; i++) {
		const char *there = back_item(page, &page->pieces[i])->landed_to;
		SCOPED_TEXT path = {0};
		if (is_told(page, i)) {
			continue;
		}
		text_add(&path, "/back?station=");
		form_escape(there, &path);
		markup_begin(visit->markup, "li");
		shell_link(visit, "go",
		    there[0] == '\0' ? "a station that was not told" : there, "%s",
		    text_string(&path));
		markup_end(visit->markup);
	}
	markup_ends(visit->markup, 3);
	shell_close(visit);
}

bool
page_back(struct visit *visit, struct fault *fault)
{
	struct back_page page = {0};
	char today[DAY_WORDS_SIZE];
	const char *named = form_value(&visit->asked, "station");
	if (!load_pieces(visit, named == NULL ? "" : named, &page, fault)) {
		return false;
	}
	const char *station = named != NULL ? named : only_station(&page);
	if (station == NULL || page.count == 0) {
		choose_bag(&page);
		return true;
	}
	page.station = station;
	/* the initial value of a field is treated as if it had been typed */
	const struct form_field day = {.name = "on",
	    .value = arena_string(&visit->arena, day_words(visit->desk.today, today))};
	if (!form_add(&visit->asked, day, &visit->arena, fault)) {
		return false;
	}
	back_write(&page);
	return true;
}

/* Keeps the photo of the paper with each piece that came back, if one was sent. */
static bool
keep_photo(struct back_page *page, struct desk *desk, struct fault *fault)
{
	const struct form_field *photo = form_file(&page->visit->sent, "photo");
	struct attach_outcome out = {0};
	SCOPED_TEXT bytes = {0};
	if (photo == NULL) {
		return true;
	}
	text_add_bytes(&bytes, photo->bytes, photo->length);
	const struct paper_said paper = {photo->file_name, &bytes};
	struct attach_request request = {.papers = &paper, .count = 1, .note = ""};
	for (size_t i = 0; i < page->count; i++) {
		if (!page->pieces[i].stays) {
			ARENA_ADD(&desk->arena, &request.tags, page->pieces[i].home.tag);
		}
	}
	return desk_attach(desk, &request, &out, fault);
}

/* Tries everything, with the photo, before it is written, so that all of it is written or
 * nothing. */
static bool
try_photo(struct back_page *page, struct fault *fault)
{
	SCOPED_DESK trial = {0};
	page_try(page->visit, &trial);
	return back_return(page, &trial, fault) && keep_photo(page, &trial, fault);
}

static bool
save(struct back_page *page, struct fault *fault)
{
	struct visit *visit = page->visit;
	SCOPED_DESK desk = {0};
	SCOPED_TEXT words = {0};
	if (!try_photo(page, fault)) {
		page_words(fault->text, &words);
		page->problem = arena_string(&visit->arena, text_string(&words));
		*fault = (struct fault){0};
		back_write(page);
		return true;
	}
	page_write(visit, &desk, "came back from %s", page->station);
	if (!back_return(page, &desk, fault)) {
		return false;
	}
	desk_forget(&desk);
	if (!keep_photo(page, &desk, fault)) {
		return false;
	}
	page_say(visit, "It is written: %zu back aboard, %zu gone for good.", page->back,
	    page->gone);
	page_done(visit, &desk);
	page_go(visit, "/back");
	return true;
}

/* Names the typed pieces that are no longer ashore there, and who changed them: what was
 * typed of those is not written. `*gone_out` is how many there are. */
static bool
tell_gone(struct back_page *page, size_t *gone_out, struct fault *fault)
{
	struct visit *visit = page->visit;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < visit->sent.count; i++) {
		const char *tag = form_rest(&visit->sent.items[i], "r.");
		bool there =
		    tag == NULL || strcmp(visit->sent.items[i].value, "stays") == 0;
		for (size_t j = 0; j < page->count && !there; j++) {
			there = strcmp(back_item(page, &page->pieces[j])->tag, tag) == 0;
		}
		if (there) {
			continue;
		}
		text_add_format(&words,
		    "%s%s is not ashore there any more: ", *gone_out > 0 ? " " : "", tag);
		if (!meanwhile_last(&visit->desk, tag, &words, fault)) {
			return false;
		}
		text_add(&words, ". What you typed of it is not written.");
		(*gone_out)++;
	}
	if (*gone_out > 0) {
		page->problem = arena_string(&visit->arena, text_string(&words));
	}
	return true;
}

bool
page_back_sent(struct visit *visit, struct fault *fault)
{
	struct back_page page = {0};
	char digest[PAGE_DIGEST_SIZE];
	if (!load_pieces(visit, page_value(visit, "station"), &page, fault)) {
		return false;
	}
	size_t gone = 0;
	if (!tell_gone(&page, &gone, fault)) {
		return false;
	}
	if (page.count == 0) {
		page_say(visit, "Nothing is ashore there any more. %s",
		    page.problem == NULL ? "It came back meanwhile." : page.problem);
		page_go(visit, "/back");
		return true;
	}
	back_read(&page);
	if (page.wrong_count == 0 && !back_reckon(&page, fault)) {
		return false;
	}
	bool as_shown = page.changes != NULL && strcmp(page_digest(page.changes, digest),
						    page_value(visit, "seen")) == 0;
	if (strcmp(page_value(visit, "act"), "save") == 0 && as_shown && gone == 0) {
		return save(&page, fault);
	}
	back_write(&page);
	return true;
}
