/* becket vessel: a vessel that leaves the fleet, or comes back */
#include "cli/parts.h"

static void
tell(struct context *context, const struct leave_request *request, size_t aboard)
{
	static const char *const ONE[] = {
	    "", "goes with her", "is among the spares of her base", "is withdrawn"};
	static const char *const MORE[] = {
	    "", "go with her", "are among the spares of her base", "are withdrawn"};
	char day[DAY_WORDS_SIZE];
	bool later = request->left > context->desk.today;
	bool said = request->because != BECAUSE_NOT_SAID;
	text_add_format(&context->out, "%s %s on %s%s%s", request->name,
	    later ? "leaves" : "left", day_words(request->left, day), said ? ": " : "",
	    said ? because_word(request->because) : "");
	if (aboard > 0) {
		text_add_format(&context->out, "; %zu piece%s of gear, which %s", aboard,
		    aboard == 1 ? "" : "s",
		    aboard == 1 ? ONE[request->gear] : MORE[request->gear]);
	}
	text_add_format(&context->out, "\n\"becket vessel '%s' --back\" takes it back.\n",
	    request->name);
}

/* Has a person say what becomes of her gear, where the desk asks it and there is a terminal. */
static bool
ask_fate(struct context *context, struct leave_request *request, struct fault *fault)
{
	int choice = 0;
	if (!context_chosen(context, "hsw", &choice, fault)) {
		return false;
	}
	request->gear = (enum fate)(FATE_WITH_HER + choice);
	return true;
}

bool
vessel_leave(struct context *context, struct leave_request *request, struct fault *fault)
{
	size_t aboard = 0;
	bool done = false;
	do {
		done = desk_leave(&context->desk, request, &aboard, fault);
	} while (!done && ask_fate(context, request, fault));
	if (done && request->left != DAY_NONE) {
		tell(context, request, aboard);
	} else if (done) {
		text_add_format(&context->out,
		    "%s is back in the fleet; what was moved or withdrawn when she left "
		    "stays as it is\n",
		    request->name);
	}
	return done;
}
