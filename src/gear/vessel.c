#include "gear/vessel.h"

#include "base/text.h"

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

bool
vessel_is_here(const struct vessel *vessel, day_t day)
{
	return !vessel->leaves || day < vessel->left;
}

bool
period_follows(const struct period *period, const char *sheet)
{
	return period->sheet_count == 0 ||
	       words_have(period->sheets, period->sheet_count, sheet);
}

bool
vessel_changes(const struct vessel *vessel, unsigned says)
{
	for (size_t i = 1; i < vessel->period_count; i++) {
		if ((vessel->periods[i].says & says) != 0) {
			return true;
		}
	}
	return false;
}

const char *
vessel_base_on(const struct vessel *vessel, day_t day)
{
	return vessel_changes(vessel, SAYS_BASE) ? vessel_period_on(vessel, day)->base
						 : vessel->base;
}

void
vessel_set_day(struct vessel *vessel, day_t day)
{
	const struct period *period = vessel_period_on(vessel, day);
	vessel->base = vessel_base_on(vessel, day);
	if (vessel_changes(vessel, SAYS_LAY_UP)) {
		vessel->laid_up = period->laid_up;
		vessel->lay_up = period->lay_up;
	}
	if (period->sheet_count > 0) {
		vessel->sheets = period->sheets;
		vessel->sheet_count = period->sheet_count;
	}
}
