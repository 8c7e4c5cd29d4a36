#include "desk/inside.h"
#include "desk/ranges.h"
#include "life/planning.h"

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct gear_act *act = of;
	const struct withdraw_request *request = act->request;
	struct life_planning planning;
	bool *kept = NULL;
	desk_note_future(desk, "on", stamp_of_day(request->on));
	if (!gear_find(desk, &request->tags, act->out, &planning, fault) ||
	    !gear_parts(desk, "keep", &request->keep, act->out, &kept, fault)) {
		return false;
	}
	const struct withdrawing how = {
	    .because = request->because,
	    .on = request->on,
	    .certificate = request->certificate,
	    .note = request->note,
	    .price_minor = request->price_minor,
	    .kept = kept,
	};
	for (size_t i = 0; i < act->out->count; i++) {
		if (!withdraw(&planning, &how, act->out->items[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_withdraw(struct desk *desk, const struct withdraw_request *request,
    struct gear_outcome *out, struct fault *fault)
{
	struct gear_act act = {request, out};
	return act_run_about(desk, range_part(desk, &request->tags, NULL), "withdrawing",
	    plan, gear_write, &act, fault);
}
