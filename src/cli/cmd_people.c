/* becket people */
#include "cli/command.h"
#include "cli/terminal.h"
#include "desk/people.h"
#include "exchange/answers.h"
#include "report/reply.h"

#include <string.h>

static const char WHO[] = "becket people";

static const struct word_spec WORDS[] = {
    {.name = "WHAT",
	.choices = "add|change|remove",
	.help =
	    "add: let somebody in; change: another right, another password; remove: let "
	    "them in no more. Without a word: who is let in"},
    {.name = "NAME", .help = "the person's name, as it is to stand in the journal"},
};

struct people_said {
	int right; /* an enum right */
	bool password;
	const char *password_file; /* NULL for none */
};

static const struct option_spec OPTIONS[] = {
    OPTION("right", "look|record|manage", CHOICE, struct people_said, right,
	"add, change: what they may do: look at all; record what was done, too; manage "
	"all",
	.least = RIGHT_LOOK),
    FLAG_OPTION("password", struct people_said, password,
	"change: ask for another password at the terminal", .not_with = "password-file"),
    OPTION("password-file", "FILE", WORDS, struct people_said, password_file,
	"add, change: the password is the first line of this file, which only you can "
	"read; else it is asked for at the terminal"),
};

static bool
list(struct context *context, const char *path, struct fault *fault)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Name", .flexible = true}, {.heading = "May"}};
	struct people people = {0};
	struct reply reply = {.arena = &context->desk.arena};
	if (!people_read(path, reply.arena, &people, fault)) {
		return false;
	}
	const char *(*words)[2] =
	    arena_alloc(reply.arena, (people.count + 1) * sizeof *words);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < people.count; i++) {
		words[i][0] = people.items[i].name;
		words[i][1] = right_word(people.items[i].right);
		reply_cell(table, HUE_NONE, words[i][0]);
		reply_cell(table, HUE_NONE, words[i][1]);
	}
	if (context->json) {
		answer_people(
		    (const char *const(*)[2])words, people.count, &context->out);
		return true;
	}
	if (people.count == 0) {
		reply_words(&reply, VOICE_PLAIN, false, 0,
		    "Nobody is let in to the page from elsewhere. Begin with somebody "
		    "who may do all:");
		reply_block(&reply, 2, "becket people add NAME --right manage");
	}
	reply_text(&reply, context->style.colour, &context->out);
	return true;
}

/* Reads the password from a file; where that is NULL it is typed twice at a terminal, unseen. */
static bool
read_password(const char *file, struct text *out, struct fault *fault)
{
	SCOPED_SECRET again = {0};
	if (!secret_read(
		file, NULL, "The new password (it is not shown): ", out, fault)) {
		return false;
	}
	if (file != NULL) {
		return true;
	}
	return secret_read(NULL, NULL, "The same again: ", &again, fault) &&
	       (strcmp(text_string(out), text_string(&again)) == 0 ||
		   fault_set(fault, FAULT_INPUT,
		       "the two passwords are not the same; nothing was changed"));
}

static bool
add(struct context *context, const struct people_said *said, const char *path,
    const char *name, struct fault *fault)
{
	SCOPED_SECRET password = {0};
	struct person_change change = {.name = name, .right = (enum right)said->right};
	if (change.right == RIGHT_NONE) {
		return usage_fault(fault, WHO, "--right is missing after add");
	}
	if (!read_password(said->password_file, &password, fault)) {
		return false;
	}
	change.password = text_string(&password);
	if (!people_add(path, &change, fault)) {
		return false;
	}
	text_add_format(&context->out,
	    "%s is let in, to %s. What they change on the page stands in the journal under "
	    "this name.\n",
	    name, right_word(change.right));
	return true;
}

static bool
change(struct context *context, const struct people_said *said, const char *path,
    const char *name, struct fault *fault)
{
	SCOPED_SECRET password = {0};
	struct person_change change = {.name = name, .right = (enum right)said->right};
	bool another = said->password || said->password_file != NULL;
	if (change.right == RIGHT_NONE && !another) {
		return usage_fault(
		    fault, WHO, "--right or --password is missing after change");
	}
	if (another && !read_password(said->password_file, &password, fault)) {
		return false;
	}
	change.password = another ? text_string(&password) : NULL;
	if (!people_change(path, &change, fault)) {
		return false;
	}
	if (change.right != RIGHT_NONE) {
		text_add_format(&context->out, "%s is let in to %s, from now on.\n", name,
		    right_word(change.right));
	}
	if (another) {
		text_add_format(&context->out,
		    "%s has another password; what was open under the one before is closed.\n",
		    name);
	}
	return true;
}

static bool
take_out(struct context *context, const struct people_said *said, const char *path,
    const char *name, struct fault *fault)
{
	if (said->right != RIGHT_NONE || said->password || said->password_file != NULL) {
		return usage_fault(fault, WHO, "remove takes a NAME and no option");
	}
	if (!people_remove(path, name, fault)) {
		return false;
	}
	text_add_format(
	    &context->out, "%s is let in no more, and what was open is closed.\n", name);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *what = options_word(context->given, 0);
	const char *name = options_word(context->given, 1);
	struct people_said said = {.right = RIGHT_NONE};
	SCOPED_TEXT path = {0};
	if (what != NULL && name == NULL) {
		return usage_fault(fault, WHO, "NAME is missing after %s", what);
	}
	if (what != NULL && context->json) {
		return usage_fault(fault, WHO, "--json does not go with %s", what);
	}
	if (!options_into(context->given, &said, fault) ||
	    !desk_book(&context->desk, fault)) {
		return false;
	}
	people_path(context->desk.book_path, &path);
	const char *file = text_string(&path);
	if (what == NULL) {
		return list(context, file, fault);
	}
	if (strcmp(what, "add") == 0) {
		return add(context, &said, file, name, fault);
	}
	return strcmp(what, "change") == 0 ? change(context, &said, file, name, fault)
					   : take_out(context, &said, file, name, fault);
}

const struct command COMMAND_PEOPLE = {
    .name = "people",
    .summary = "who is let in to the page from elsewhere, and what they may do",
    .details =
	"For \"becket page --people\". Who may look sees all of the book and gets no form; who "
	"may record writes down what was packed, handed in, done and came back, and takes back "
	"their own entries; who may manage does all else too: gear, lists, boats and stations. A "
	"password has 8 letters or more. "
	"The people stand beside the book, in BOOK.people, which only you can read, and not in "
	"it: no copy of the book and no journal carries what tells of a password, and neither "
	"taking an entry back nor an old copy brings anybody back in. On another machine add "
	"them again. Passwords are kept as argon2id digests.",
    .examples = "people\n"
		"who is let in, and what they may do\n"
		"people add Skipper --right manage --password-file word.txt\n"
		"a first person, who may do all\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_PEOPLE),
    .run = run,
};
