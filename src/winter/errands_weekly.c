/* Trips within weekly limits. */
#include "winter/errands_inside.h"

bool
errands_weekly(const struct errand_table *table, size_t most_nodes, struct arena *scratch,
    size_t *column_of, struct errand_found *found, struct fault *fault)
{
	/* The best plan without limits costs no more than any with them. */
	errands_open(table, scratch, found);
	errands_singles(table, most_nodes, scratch, column_of, found);
	return found->proven || errands_limits(table, scratch, column_of, found, fault);
}
