/* Papers kept with the gear. */
#include "report/reply.h"
#include "report/words.h"

/* Adds a size as a person says it: "412 bytes", "48 KiB", "1.2 MiB"; never as less. */
static void
add_size(int64_t size, struct text *out)
{
	enum { KIB = 1024, MIB = KIB * KIB };

	if (size < KIB) {
		text_add_format(out, "%lld bytes", (long long)size);
	} else if (size < MIB) {
		text_add_format(out, "%lld KiB", (long long)((size + KIB - 1) / KIB));
	} else {
		long long tenths = (long long)((size * 10 + MIB - 1) / MIB);
		text_add_format(out, "%lld.%lld MiB", tenths / 10, tenths % 10);
	}
}

static const char *
type_words(const struct paper *paper)
{
	const struct paper_type *type = paper_type_find(paper->media_type);
	return type == NULL ? paper->media_type : type->words;
}

/* Adds "service on 20 May 2025 (certificate C 12)" where it belongs to a record. */
static void
add_owner(const struct paper *paper, struct text *out)
{
	if (!paper->of_record) {
		return;
	}
	text_add_format(out, "%s on ", task_noun(paper->task));
	add_stamp(paper->on, out);
	if (paper->certificate[0] != '\0') {
		text_add_format(out, " (certificate %s)", paper->certificate);
	}
}

void
add_paper_words(const struct paper *paper, struct text *out)
{
	text_add_format(out, "%lld: %s, %s, ", (long long)paper->number, paper->name,
	    type_words(paper));
	add_size(paper->size, out);
	text_add(out, ", put here on ");
	add_day(paper->added, "a day not known", out);
	if (paper->of_record) {
		text_add(out, ", of the ");
		add_owner(paper, out);
	}
	if (paper->note[0] != '\0') {
		text_add_format(out, ", %s", paper->note);
	}
}

void
report_papers(const struct report_style *style, const struct paper *papers, size_t count,
    struct text *out)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Number", .type = CELL_NUMBER},
	    {.heading = "Tag", .type = CELL_TAG, .most = 12},
	    {.heading = "Name", .most = 24}, {.heading = "What"},
	    {.heading = "Size", .type = CELL_NUMBER},
	    {.heading = "Put here", .type = CELL_DAY},
	    {.heading = "About", .flexible = true}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < count; i++) {
		const struct paper *paper = &papers[i];
		reply_number(table, HUE_NONE, paper->number, "");
		reply_cell(table, HUE_STRONG, paper->tag);
		reply_cell(table, HUE_NONE, paper->name);
		reply_cell(table, HUE_NONE, type_words(paper));
		add_size(paper->size, &words);
		reply_take(table, HUE_NONE, &words);
		reply_day(table, HUE_NONE, paper->added, "");
		add_owner(paper, &words);
		if (paper->note[0] != '\0') {
			text_add_format(
			    &words, "%s%s", words.length > 0 ? "; " : "", paper->note);
		}
		reply_take(table, HUE_NONE, &words);
	}
	reply_words(
	    &reply, VOICE_PLAIN, false, 0, count == 0 ? "No papers to show." : "");
	reply_write(&reply, style, out);
}
