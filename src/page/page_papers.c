/* The papers that go ashore with the gear, to print. They are whole pages of their own,
 * in the house style for print. */
#include "desk/questions.h"
#include "page/feed_address.h"
#include "page/shell.h"
#include "report/shore_papers.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

static const struct {
	const char *name; /* in the address */
	const char *words;
} PAPERS[SHORE_PAPER_COUNT] = {
    [SHORE_TAGS] = {"tags", "Tags to tie on, eight on a sheet"},
    [SHORE_DOCKETS] = {"docket", "Docket for the station, to be signed"},
    [SHORE_RETURN_LIST] = {"return-list", "List to tick when it comes back"},
};

/* The style that such a page contains: the house style, and what some papers add to
 * it. */
static const char *
own_style(const struct text *page, size_t *length_out)
{
	const char *from = strstr(text_string(page), "<style>");
	const char *to = from == NULL ? NULL : strstr(from, "</style>");
	if (to == NULL) {
		*length_out = 0;
		return "";
	}
	from += strlen("<style>");
	*length_out = (size_t)(to - from);
	return from;
}

/* Completes an answer whose body is a whole page for print: its policy then allows the one
 * style in that page, by its digest in the form of Content Security Policy level 3, section
 * 2.3.1. */
static void
answer_printed(struct web_answer *answer)
{
	unsigned char digest[crypto_hash_sha256_BYTES];
	char base64[sodium_base64_ENCODED_LEN(
	    crypto_hash_sha256_BYTES, sodium_base64_VARIANT_ORIGINAL)];
	size_t length = 0;
	const char *style = own_style(&answer->body, &length);
	answer->status = 200;
	answer->is_page = true;
	answer->content_type = "text/html; charset=utf-8";
	(void)crypto_hash_sha256(digest, (const unsigned char *)style, length);
	(void)sodium_bin2base64(
	    base64, sizeof base64, digest, sizeof digest, sodium_base64_VARIANT_ORIGINAL);
	(void)snprintf(
	    answer->own_style, sizeof answer->own_style, "'sha256-%s'", base64);
}

/* The dockets that the address is about: of one station on one day, or all. */
static void
choose(struct visit *visit, const struct winter_answer *answer, struct dockets *out)
{
	const char *station = form_value(&visit->asked, "station");
	const char *day = page_value(visit, "hand-in");
	size_t most = answer->going.count + answer->landed.count;
	struct docket *items = arena_alloc(&visit->arena, (most + 1) * sizeof *items);
	size_t count = 0;
	for (size_t i = 0; i < answer->going.count; i++) {
		const struct docket *docket = &answer->going.items[i];
		char words[DAY_ISO_SIZE];
		if (station == NULL ||
		    (strcmp(docket->station, station) == 0 &&
			strcmp(day_iso(docket->hand_in, words), day) == 0)) {
			items[count++] = *docket;
		}
	}
	*out = (struct dockets){items, count};
}

/* The papers there are, each as a link. */
static void
list_papers(struct visit *visit, const struct dockets *dockets)
{
	SHELL_OPEN(visit, .title = "Papers to take along",
	    .about = page_value(visit, "vessel"),
	    .say = dockets->count == 0
		       ? "Nothing is to be handed in there on that day."
		       : "Each opens as a page to print. What is printed keeps "
			 "its day.",
	    .boxes = (const struct head_box[]){{"Boat", page_value(visit, "vessel")}},
	    .box_count = page_value(visit, "vessel")[0] == '\0' ? 0 : 1);
	struct markup *markup = visit->markup;
	shell_section(visit, NULL, NULL, "Print");
	markup_begin(markup, "ul");
	for (int i = 0; dockets->count > 0 && i < SHORE_PAPER_COUNT; i++) {
		SCOPED_TEXT path = {0};
		text_add_format(&path, "/shore-papers/%s?vessel=", PAPERS[i].name);
		form_escape(page_value(visit, "vessel"), &path);
		text_add(&path, "&station=");
		form_escape(page_value(visit, "station"), &path);
		text_add(&path, "&hand-in=");
		form_escape(page_value(visit, "hand-in"), &path);
		if (page_value(visit, "base")[0] != '\0') {
			text_add(&path, "&base=");
			form_escape(page_value(visit, "base"), &path);
		}
		markup_begin(markup, "li");
		shell_link(visit, "go", PAPERS[i].words, "%s", text_string(&path));
		markup_end(markup);
	}
	markup_ends(markup, 3);
	shell_close(visit);
}

/* The address at which others open a piece. */
static void
add_piece_address(const void *context, const char *tag, struct text *out)
{
	const struct access *access = context;
	text_add_format(out, "%s/locker/", access->at);
	form_escape(tag, out);
}

/* True when a phone that opens an address of this page is let in, by the name of a
 * person. */
static bool
phones_come(const struct access *access)
{
	return access->people != NULL && access->at != NULL &&
	       origin_in_reach(access->at);
}

static bool
give_paper(struct visit *visit, enum shore_paper paper, const struct dockets *dockets,
    struct fault *fault)
{
	const struct report_style style = {.today = visit->desk.today,
	    .currency = visit->desk.contents.inventory.currency};
	const struct access *access = &visit->site->access;
	const struct shore_papers papers = {.style = &style,
	    .kinds = visit->desk.engine.kinds,
	    .inventory = &visit->desk.contents.inventory,
	    .dockets = dockets,
	    .address = phones_come(access) ? add_piece_address : NULL,
	    .address_context = access};
	if (!shore_paper_whole(&papers, paper, SHORE_PAGE, &visit->answer->body, fault)) {
		return false;
	}
	answer_printed(visit->answer);
	return true;
}

bool
page_shore_papers(struct visit *visit, struct fault *fault)
{
	struct winter_answer answer = {0};
	struct dockets dockets = {0};
	const char *vessel = page_value(visit, "vessel");
	const char *base = page_value(visit, "base");
	const struct plans_wish wish = {.vessel = vessel[0] == '\0' ? NULL : vessel,
	    .base = base[0] == '\0' ? NULL : base};
	if (!desk_hand_ins(&visit->desk, &wish, &answer, fault)) {
		return false;
	}
	choose(visit, &answer, &dockets);
	for (int i = 0; i < SHORE_PAPER_COUNT; i++) {
		if (strcmp(PAPERS[i].name, visit->rest) == 0) {
			return give_paper(visit, (enum shore_paper)i, &dockets, fault);
		}
	}
	list_papers(visit, &dockets);
	return true;
}

bool
page_survey(struct visit *visit, struct fault *fault)
{
	struct muster_asked asked = {
	    .vessel = visit->rest, .on = visit->desk.today, .from = DAY_NONE};
	struct muster_answer answer = {0};
	struct survey survey = {0};
	const char *typed = page_value(visit, "on");
	if ((typed[0] != '\0' &&
		!day_typed(typed, visit->desk.today, &asked.on, fault)) ||
	    !desk_muster(&visit->desk, &asked, &answer, fault) ||
	    !desk_survey(
		&visit->desk, &answer.musters[0], &visit->desk.arena, &survey, fault)) {
		return false;
	}
	const struct report_style style = {.today = visit->desk.today,
	    .currency = visit->desk.contents.inventory.currency};
	report_survey(&style, visit->desk.engine.kinds, &visit->desk.contents.inventory,
	    &survey, &visit->answer->body);
	answer_printed(visit->answer);
	return true;
}
