#include "cli/scope_option.h"

#include "desk/reminding.h"

bool
scope_of(struct context *context, const struct scope_said *said, struct scope *out,
    struct fault *fault)
{
	struct scope scope = {SCOPE_FLEET, ""};
	if (said->vessel != NULL) {
		scope = (struct scope){SCOPE_VESSEL, said->vessel};
	} else if (said->base != NULL) {
		scope = (struct scope){SCOPE_BASE, said->base};
	} else if (said->station != NULL) {
		scope = (struct scope){SCOPE_STATION, said->station};
	}
	*out = scope;
	context->desk.left_gear = LEFT_ASHORE;
	return desk_engine(&context->desk, NULL, fault) &&
	       reminding_check_scope(&context->desk, &scope, fault);
}
