#include "cli/scope_option.h"

#include "cli/command.h"
#include "desk/reminding.h"

bool
scope_given(struct context *context, struct scope *out, struct fault *fault)
{
	static const struct {
		const char *option;
		enum scope_kind kind;
	} SCOPES[] = {
	    {"vessel", SCOPE_VESSEL}, {"base", SCOPE_BASE}, {"station", SCOPE_STATION}};
	struct scope scope = {SCOPE_FLEET, ""};
	for (size_t i = 0; i < COUNT_OF(SCOPES); i++) {
		const char *name = options_value(context->given, SCOPES[i].option);
		if (name != NULL) {
			scope = (struct scope){SCOPES[i].kind, name};
		}
	}
	*out = scope;
	context->desk.left_gear = LEFT_ASHORE;
	return desk_engine(&context->desk, NULL, fault) &&
	       reminding_check_scope(&context->desk, &scope, fault);
}
