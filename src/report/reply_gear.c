#include "report/parts_inside.h"
#include "report/words.h"

void
reply_item(struct reply_table *table, const struct kinds *kinds,
    const struct inventory *inventory, size_t item, const char *note)
{
	SCOPED_TEXT name = {0};
	SCOPED_TEXT extra = {0};
	add_item_parts(kinds, inventory, item, note, &name, &extra);
	reply_extra(table, HUE_NONE, text_string(&name), text_string(&extra));
}
