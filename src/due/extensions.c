/* More time that an authority has given. */
#include "due/inside.h"

/* True while the period is running in which the extension was given: its task, or one of those
 * that count as it (bits 1 << enum task), may not have been done after that day. A coarse record in
 * doubt was. A refit counts as no other task. */
static bool
still_runs(
    const struct assess *assess, const struct extension *extension, unsigned counts)
{
	const struct item *item = assess->item;
	if (extension->given > assess->today) {
		return false;
	}
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		bool done = record->task == extension->task ||
			    (!record->refit && (counts >> record->task & 1U) != 0);
		if (done && stamp_last(record->on) > extension->given) {
			return false;
		}
	}
	return true;
}

void
reading_extend(const struct assess *assess, enum task task, unsigned counts,
    int most_months, struct reading *reading)
{
	const struct item *item = assess->item;
	day_t most =
	    most_months == 0 ? DAY_NEVER : day_add_months(reading->due, most_months);
	if (reading->anchor == ANCHOR_MARKED) {
		return;
	}
	for (size_t i = 0; i < item->extension_count; i++) {
		const struct extension *extension = &item->extensions[i];
		day_t until = day_min(extension->until, most);
		if (extension->task == task && until > reading->good_through &&
		    still_runs(assess, extension, counts)) {
			reading->good_through = until;
			reading->extension = extension;
		}
	}
}
