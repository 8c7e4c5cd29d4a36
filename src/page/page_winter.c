/* This winter. */
#include "page/routes.h"
#include "page/shell.h"

bool
page_winter(struct visit *visit, struct fault *fault)
{
	if (!desk_load(&visit->desk, NULL, false, fault)) {
		return false;
	}
	const struct shell shell = {.title = "This winter"};
	shell_open(visit, &shell);
	shell_close(visit);
	return true;
}
