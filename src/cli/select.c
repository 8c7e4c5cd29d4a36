#include "cli/select.h"

#include "cli/item_options.h"

#include <string.h>

bool
selection_read(struct context *context, struct selection *out, struct fault *fault)
{
	const char *words = options_value(context->given, "kind");
	const struct kind *kind = NULL;
	if (words != NULL && !kind_from_words(context, words, &kind, fault)) {
		return fault_prefix(fault, "--kind");
	}
	*out = (struct selection){options_value(context->given, "base"), kind};
	return true;
}

bool
selection_has(const struct selection *selection, const struct inventory *inventory,
    const struct item *item)
{
	const struct vessel *vessel = &inventory->vessels[item->vessel];
	return (selection->base == NULL || strcmp(vessel->base, selection->base) == 0) &&
	       (selection->kind == NULL || strcmp(item->kind, selection->kind->id) == 0);
}
