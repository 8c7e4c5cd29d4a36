/* becket attach */
#include "cli/command.h"
#include "cli/values.h"
#include "desk/files.h"
#include "exchange/paper_file.h"

#include <limits.h>
#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "TAG", .help = "the item", .required = true},
    {.name = "FILE",
	.help = "the files: a photograph of its label, a scanned certificate",
	.required = true,
	.repeatable = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "to-record",
	.argument = "CERTIFICATE",
	.help = "the record they belong to: its certificate's number, or its number in "
		"\"becket show\""},
    {.name = "note", .argument = "WORDS", .help = "what there is to say about them"},
};

/* The item's only record with that certificate; NULL when there is none. */
static bool
by_certificate(const struct item *item, const char *certificate,
    const struct record **out, struct fault *fault)
{
	*out = NULL;
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (strcmp(record->certificate, certificate) != 0) {
			continue;
		}
		if (*out != NULL) {
			return fault_set(fault, FAULT_INPUT,
			    "--to-record: certificate %s is on records %d and %d of %s; "
			    "give the record's number",
			    certificate, (int)(*out - item->records) + 1, (int)i + 1,
			    item->tag);
		}
		*out = record;
	}
	return true;
}

/* The record that was named; NULL when none was. */
static bool
find_record(const struct context *context, const struct item *item,
    const struct record **out, struct fault *fault)
{
	const char *named = options_value(context->given, "to-record");
	long number = 0;
	if (named == NULL) {
		*out = NULL;
		return true;
	}
	if (named[0] != '\0' && !by_certificate(item, named, out, fault)) {
		return false;
	}
	if (named[0] != '\0' && *out != NULL) {
		return true;
	}
	if (!number_read(named, 1, (long)item->record_count, &number)) {
		return fault_set(fault, FAULT_INPUT,
		    "--to-record: \"%s\" is no certificate on record of %s, and no number "
		    "of one of its %zu records",
		    named, item->tag, item->record_count);
	}
	*out = &item->records[number - 1];
	return true;
}

/* Reads, checks and keeps one file. */
static bool
attach(struct context *context, const char *path, const struct item *item,
    const struct record *record, struct fault *fault)
{
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT name = {0};
	const struct paper_type *type = NULL;
	const char *note = options_value(context->given, "note");
	struct paper_put put = {0};
	paper_file_name(path, &name);
	if (!file_read_most(path, PAPER_LARGEST, &bytes, fault)) {
		return false;
	}
	if (!paper_file_type(text_string(&name), &bytes, &type, fault)) {
		return fault_prefix(fault, "%s", path);
	}
	const struct paper paper = {
	    .tag = item->tag,
	    .name = text_string(&name),
	    .media_type = type->media_type,
	    .note = note == NULL ? "" : note,
	    .added = context->desk.today,
	};
	if (!book_put_paper(context->desk.book, &paper, record, &bytes, &put, fault)) {
		return false;
	}
	text_add_format(&context->out, "Paper %lld of %s: %s, %s, %zu bytes%s.\n",
	    (long long)put.number, item->tag, paper.name, type->words, bytes.length,
	    put.known ? "; it was there already" : "");
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct word_list *words = &context->given->words;
	const struct record *record = NULL;
	size_t index = 0;
	if (!desk_load(&context->desk, NULL, true, fault) ||
	    !desk_find_tag(&context->desk, words->items[0], &index, fault)) {
		return false;
	}
	const struct item *item = &context->desk.contents.inventory.items[index];
	if (!find_record(context, item, &record, fault) ||
	    !book_begin(context->desk.book, fault)) {
		return false;
	}
	for (size_t i = 1; i < words->count; i++) {
		if (!attach(context, words->items[i], item, record, fault)) {
			return fault_prefix(fault, "attaching to %s", item->tag);
		}
	}
	return book_commit(context->desk.book, fault);
}

const struct command COMMAND_ATTACH = {
    .name = "attach",
    .summary = "keep papers with a piece of gear: a label's picture, a certificate",
    .details =
	"JPEG, PNG, WebP, HEIC and TIFF pictures, PDF and plain text, of at most 10 MiB "
	"each, are copied into the book bit for bit. What a file is, its content says; a "
	"name that says something else is refused. The same file twice on one item is one "
	"paper. \"becket papers\" lists them, brings them out again and removes them. What is "
	"printed in a paper is not read: enter its dates with \"becket record\".",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
