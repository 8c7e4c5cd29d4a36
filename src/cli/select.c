#include "cli/select.h"

#include "cli/item_options.h"

#include <string.h>

bool
selection_settle(
    struct context *context, struct selection *selection, struct fault *fault)
{
	return selection->words == NULL ||
	       kind_from_words(context, selection->words, &selection->kind, fault) ||
	       fault_prefix(fault, "--kind");
}

bool
selection_has(const struct selection *selection, const struct inventory *inventory,
    const struct item *item)
{
	const struct vessel *vessel = &inventory->vessels[item->vessel];
	return (selection->base == NULL || strcmp(vessel->base, selection->base) == 0) &&
	       (selection->kind == NULL || strcmp(item->kind, selection->kind->id) == 0);
}
