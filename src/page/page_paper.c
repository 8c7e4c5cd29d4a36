/* A paper as it is kept: a picture of a label, a scanned certificate. */
#include "desk/questions.h"
#include "page/routes.h"

#include <stdlib.h>
#include <string.h>

/* The book's number of it; 0 for what is none. */
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
	/* a type of the table alone: what the book holds is never run as a page */
	const struct paper_type *type = paper_type_find(paper.media_type);
	bool picture = strncmp(paper.media_type, "image/", 6) == 0;
	answer->status = 200;
	answer->is_page = true;
	answer->content_type =
	    type == NULL ? "application/octet-stream" : type->media_type;
	answer->file_name = picture ? NULL : "paper";
	return true;
}
