/* The survey file of a boat: a page to print and to sign. */
#include "desk/questions.h"
#include "page/routes.h"
#include "page/shell.h"

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
	shell_printed(visit->answer);
	return true;
}
