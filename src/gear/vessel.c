#include "gear/vessel.h"

#include <assert.h>

const struct period *
vessel_period_on(const struct vessel *vessel, day_t day)
{
	assert(vessel->period_count > 0);
	size_t i = vessel->period_count - 1;
	while (i > 0 && vessel->periods[i].from > day) {
		i--;
	}
	return &vessel->periods[i];
}
