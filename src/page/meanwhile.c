#include "desk/questions.h"
#include "page/pieces.h"

void
meanwhile_entry(const struct journal_entry *entry, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	int minute = (int)(entry->at / 60 % 1440);
	text_add_format(out, "changed on %s at %02d:%02d UTC by %s",
	    day_words((day_t)(entry->at / 86400), day), minute / 60, minute % 60,
	    entry->who[0] != '\0' ? entry->who : "somebody");
}

bool
meanwhile_last(struct desk *desk, const char *tag, struct text *out, struct fault *fault)
{
	struct journal journal = {0};
	const struct journal_query query = {.about = tag, .since = DAY_NONE};
	if (!desk_journal(desk, &query, &journal, fault)) {
		return false;
	}
	if (journal.count == 0) {
		text_add(out, "changed");
		return true;
	}
	meanwhile_entry(&journal.entries[journal.count - 1], out);
	return true;
}
