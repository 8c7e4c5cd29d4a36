/* becket attach */
#include "cli/command.h"
#include "desk/acts.h"
#include "desk/files.h"
#include "gear/paper.h"

static const struct word_spec WORDS[] = {
    {.name = "TAG",
	.help = "the item; LJ-1..LJ-8 is eight of them, which have it each",
	.required = true},
    {.name = "FILE",
	.help = "the files: a photograph of its label, a scanned certificate",
	.required = true,
	.repeatable = true},
};

static const struct option_spec OPTIONS[] = {
    OPTION("to-record", "CERTIFICATE", WORDS, struct attach_request, to_record,
	"the record they belong to: its certificate's number, or its number in "
	"\"becket show\""),
    OPTION("note", "WORDS", WORDS, struct attach_request, note,
	"what there is to say about them"),
};

/* A pipe that nobody writes to would be waited for, for ever. */
static bool
read_paper(const char *path, struct text *out, struct fault *fault)
{
	if (file_rights(path) != 0 && !file_is_plain(path)) {
		return fault_set(fault, FAULT_FILE,
		    "%s is no ordinary file; expected a picture or a document", path);
	}
	return file_read_most(path, PAPER_LARGEST, out, fault);
}

/* Reads the files named after the tag; `bytes` has room for one each, which are the
 * caller's. */
static bool
read_files(struct context *context, struct attach_request *request, struct text *bytes,
    struct fault *fault)
{
	const struct word_list *words = &context->given->words;
	struct paper_said *papers =
	    arena_alloc(&context->desk.arena, words->count * sizeof *papers);
	for (size_t i = 1; i < words->count; i++) {
		papers[i - 1] = (struct paper_said){words->items[i], &bytes[i - 1]};
		if (!read_paper(words->items[i], &bytes[i - 1], fault)) {
			return fault_prefix(fault, "attaching to %s", words->items[0]);
		}
	}
	request->papers = papers;
	return true;
}

static bool
attach(struct context *context, struct text *bytes, struct fault *fault)
{
	const struct word_list *words = &context->given->words;
	struct attach_request request = {.tags = {.items = words->items, .count = 1},
	    .count = words->count - 1,
	    .note = ""};
	struct attach_outcome done = {0};
	if (!options_into(context->given, &request, fault) ||
	    !read_files(context, &request, bytes, fault) ||
	    !desk_attach(&context->desk, &request, &done, fault)) {
		return false;
	}
	for (size_t i = 0; i < done.count; i++) {
		const struct attached *paper = &done.items[i];
		text_add_format(&context->out, "Paper %lld of %s: %s, %s, %zu bytes%s.\n",
		    (long long)paper->number, paper->tag, paper->name, paper->type,
		    paper->size, paper->known ? "; it was there already" : "");
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	size_t count = context->given->words.count;
	struct text *bytes = arena_alloc(&context->desk.arena, count * sizeof *bytes);
	bool done = attach(context, bytes, fault);
	for (size_t i = 0; i < count; i++) {
		text_clear(&bytes[i]);
	}
	return done;
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
    .examples = "attach LR-1 certificate.pdf --note \"from the loft\"\n"
		"the raft's certificate, kept in the book\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .quiet = true,
    .run = run,
};
