/* Papers kept with the gear. */
#include "report/report.h"
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

static const struct table_column COLUMNS[] = {
    {"Number", 0, ALIGN_RIGHT, false},
    {"Tag", 12, ALIGN_LEFT, false},
    {"Name", 24, ALIGN_LEFT, false},
    {"What", 0, ALIGN_LEFT, false},
    {"Size", 0, ALIGN_RIGHT, false},
    {"Put here", 0, ALIGN_LEFT, false},
    {"About", 0, ALIGN_LEFT, true},
};

void
report_papers(const struct report_style *style, const struct paper *papers, size_t count,
    struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 0, style->colour);
	for (size_t i = 0; i < count; i++) {
		const struct paper *paper = &papers[i];
		text_reset(&words);
		text_add_format(&words, "%lld", (long long)paper->number);
		table_add(&table, HUE_NONE, text_string(&words));
		table_add(&table, HUE_STRONG, paper->tag);
		table_add(&table, HUE_NONE, paper->name);
		table_add(&table, HUE_NONE, type_words(paper));
		text_reset(&words);
		add_size(paper->size, &words);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		add_day(paper->added, "", &words);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		add_owner(paper, &words);
		if (paper->note[0] != '\0') {
			text_add_format(
			    &words, "%s%s", words.length > 0 ? "; " : "", paper->note);
		}
		table_add(&table, HUE_NONE, text_string(&words));
	}
	if (count == 0) {
		text_add(out, "No papers to show.\n");
	}
	table_write(&table, out);
}
