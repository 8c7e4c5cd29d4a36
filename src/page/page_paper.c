/* A paper as it is kept: a picture of a label, a scanned certificate. */
#include "desk/acts.h"
#include "desk/questions.h"
#include "page/shell.h"

#include <stdlib.h>
#include <string.h>

/* The number of the paper in the book; 0 when the text is no number. */
static int64_t
number_of(const char *words)
{
	bool digits = strspn(words, "0123456789") == strlen(words);
	return digits && strlen(words) < 19 ? strtoll(words, NULL, 10) : 0;
}

bool
page_paper(struct visit *visit, struct fault *fault)
{
	struct paper paper = {0};
	struct web_answer *answer = visit->answer;
	if (!desk_paper(
		&visit->desk, number_of(visit->rest), &paper, &answer->body, fault)) {
		return false;
	}
	/* only types of the table are served: what the book holds is never run as a
	 * page */
	const struct paper_type *type = paper_type_find(paper.media_type);
	bool picture = strncmp(paper.media_type, "image/", 6) == 0;
	web_file(answer, type == NULL ? "application/octet-stream" : type->media_type,
	    picture ? NULL : "paper");
	return true;
}

/* Keeps a picture or a paper with a piece. It changes no date and can be taken back, so
 * it is written at once. */
bool
page_attach(struct visit *visit, struct fault *fault)
{
	const struct form_field *file = form_file(&visit->sent, "paper");
	const char *tag = arena_string(&visit->arena, visit->rest);
	struct attach_outcome out = {0};
	SCOPED_DESK desk = {0};
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT escaped = {0};
	SCOPED_TEXT words = {0};
	form_escape(tag, &escaped);
	page_go(visit, "/locker/%s#piece", text_string(&escaped));
	if (file == NULL) {
		page_say(visit, "No file was chosen, so none is kept.");
		return true;
	}
	text_add_bytes(&bytes, file->bytes, file->length);
	const struct paper_said paper = {file->file_name, &bytes};
	const struct attach_request request = {.tags = {&tag, 1, 1},
	    .papers = &paper,
	    .count = 1,
	    .note = page_value(visit, "note")};
	page_write(visit, &desk, "%s kept with %s", file->file_name, tag);
	bool done = desk_attach(&desk, &request, &out, fault);
	if (!done && fault->kind == FAULT_INPUT) {
		page_words(fault->text, &words);
		page_say(visit, "It is not kept: %s", text_string(&words));
		*fault = (struct fault){0};
		return true;
	}
	if (done) {
		page_say(
		    visit, "%s is kept with %s.", out.items[0].name, out.items[0].tag);
	}
	page_done(visit, &desk);
	return done;
}
