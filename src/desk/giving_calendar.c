/* A calendar file, kept out of memory until it is written. */
#include "calendar/ics.h"
#include "desk/files.h"
#include "desk/giving_out.h"
#include "desk/reminding.h"

struct calendar_act {
	const struct calendar_request *request;
	struct calendar_outcome *out;
	struct giving giving;
	struct new_file file;
};

static bool
add_event(const struct reminder *reminder, void *of, struct fault *fault)
{
	struct calendar_outcome *out = of;
	SCOPED_TEXT event = {0};
	if (!ics_add(reminder, &event, fault)) {
		return false;
	}
	spool_add(&out->ics, text_string(&event), event.length);
	return true;
}

static bool
put_together(struct desk *desk, void *of, struct fault *fault)
{
	struct calendar_act *act = of;
	struct calendar_outcome *out = act->out;
	const struct calendar_request *request = act->request;
	const char *name = request->name != NULL
			       ? request->name
			       : reminding_calendar_name(&request->scope);
	SCOPED_TEXT head = {0};
	SCOPED_TEXT end = {0};
	(void)desk;
	ics_end(&end);
	spool_clear(&out->ics);
	out->count = act->giving.count;
	if (!ics_begin(name, false, &head, fault)) {
		return false;
	}
	spool_add(&out->ics, text_string(&head), head.length);
	if (!giving_show(&act->giving, add_event, out, fault)) {
		return false;
	}
	spool_add(&out->ics, text_string(&end), end.length);
	return true;
}

static bool
write_calendar(struct desk *desk, void *of, struct fault *fault)
{
	struct calendar_act *act = of;
	const char *path = act->request->path;
	return (path == NULL ||
		   new_file_write_kept(path, &act->out->ics, &act->file, fault)) &&
	       giving_keep(desk, &act->giving, fault);
}

bool
desk_calendar(struct desk *desk, const struct calendar_request *request,
    struct calendar_outcome *out, struct fault *fault)
{
	struct calendar_act act = {.request = request, .out = out};
	act.giving = (struct giving){.by = GIVEN_BY_FILE,
	    .scope = request->scope,
	    .todos = request->todos,
	    .then = put_together,
	    .write = write_calendar,
	    .act = &act};
	bool done = giving_run(desk, &act.giving, fault) &&
		    (request->path == NULL || new_file_keep(&act.file, fault));
	new_file_clear(&act.file);
	giving_clear(&act.giving);
	return done;
}
