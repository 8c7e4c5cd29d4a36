/* The acts of `becket calendar` that are not a few lines, each in the file named. */
#ifndef BECKET_CLI_CALENDAR_ACTS_H
#define BECKET_CLI_CALENDAR_ACTS_H

#include "cli/context.h"

/* cmd_calendar_push.c */
MUST_CHECK bool calendar_act_push(struct context *context, struct fault *fault);
MUST_CHECK bool calendar_act_pull(struct context *context, struct fault *fault);
MUST_CHECK bool calendar_act_forget(struct context *context, struct fault *fault);

/* cmd_calendar_read.c */
MUST_CHECK bool calendar_act_read(struct context *context, struct fault *fault);

#endif
