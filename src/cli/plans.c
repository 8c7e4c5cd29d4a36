#include "cli/plans.h"

bool
plans_make(struct context *context, int year, struct shore_list **lists_out,
    size_t *count_out, struct fault *fault)
{
	const struct inventory *inventory = &context->contents.inventory;
	size_t count = inventory->vessel_count;
	struct shore_list *lists =
	    arena_alloc(&context->arena, (count + 1) * sizeof *lists);
	if (lists == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < count; i++) {
		if (!winter_plan(&context->engine, i, context->contents.stations,
			context->contents.station_count, year, context->today,
			&context->arena, &lists[i], fault)) {
			return fault_prefix(
			    fault, "the winter of %s", inventory->vessels[i].name);
		}
	}
	*lists_out = lists;
	*count_out = count;
	return true;
}
