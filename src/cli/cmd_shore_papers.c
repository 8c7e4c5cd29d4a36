/* becket shore-papers */
#include "cli/command.h"
#include "cli/parts.h"
#include "desk/giving_out.h"
#include "desk/plans.h"
#include "exchange/answers.h"
#include "report/shore_papers.h"

static const struct word_spec WORDS[] = {
    {.name = "DIR", .help = "the folder they are written into"},
};

struct papers_said {
	struct plans_wish plans;
	struct named_said named;
	bool html;
	bool text;
	bool papers[SHORE_PAPER_COUNT]; /* this one only; one of them, or none */
	bool over;
};

static const struct option_spec OPTIONS[] = {
    OPTION("vessel", "NAME", VESSEL, struct papers_said, plans.vessel, "this vessel only",
	.not_with = "base"),
    OPTION("base", "PLACE", WORDS, struct papers_said, plans.base,
	"vessels of this base only"),
    OPTION("year", "YEAR", COUNT, struct papers_said, plans.year,
	"the winter that starts in this year; else the one she is in, or the next",
	.least = 1901, .most = 2190),
    OPTION("without-station", "STATION", STATION, struct papers_said,
	plans.without_station, "send nothing to it", .not_with = "only-station"),
    OPTION("only-station", "STATION", STATION, struct papers_said, plans.only_station,
	"send nothing elsewhere"),
    OPTION("tag", "TAG", TAG, struct papers_said, named.tags,
	"not the winter's: this gear, LJ-1..LJ-8 for eight, on one day",
	.repeatable = true,
	.not_with = "due-now year without-station only-station vessel base"),
    FLAG_OPTION("due-now", struct papers_said, named.due_now,
	"not the winter's: what a station is to see to now, in no winter",
	.not_with = "year without-station only-station"),
    OPTION("station", "STATION", STATION, struct papers_said, named.station,
	"where to; else where it went last, or the first that may service it",
	.needs = "tag due-now"),
    OPTION("on", "DATE", DAY, struct papers_said, named.on,
	"the day; the first a week ahead when not told", .needs = "tag due-now"),
    OPTION("task", "service|inspect|weigh|test|renew", CHOICE, struct papers_said,
	named.tasks, "what is wanted; what is on record when not told", .also = "for",
	.repeatable = true, .needs = "tag due-now"),
    FLAG_OPTION("html", struct papers_said, html, "pages for print only",
	.not_with = "text json"),
    FLAG_OPTION("text", struct papers_said, text, "plain text only", .not_with = "json"),
    FLAG_OPTION("tags", struct papers_said, papers[SHORE_TAGS],
	"the tie-on tags only; without DIR to standard output",
	.not_with = "docket return-list json"),
    FLAG_OPTION("docket", struct papers_said, papers[SHORE_DOCKETS],
	"the dockets for the stations only; so, too", .not_with = "return-list json"),
    FLAG_OPTION("return-list", struct papers_said, papers[SHORE_RETURN_LIST],
	"the list to tick on return only; so, too", .not_with = "json"),
    FLAG_OPTION(
	"over", struct papers_said, over, "write over what is in DIR from before"),
};

/* The name of each paper's files. */
static const char *const FILE_NAMES[SHORE_PAPER_COUNT] = {
    [SHORE_TAGS] = "tags",
    [SHORE_DOCKETS] = "dockets",
    [SHORE_RETURN_LIST] = "return-list",
};

/* What was asked for. */
struct wish {
	const char *folder; /* NULL for standard output */
	bool one;           /* only `paper` */
	enum shore_paper paper;
	bool html;
	bool text;
	bool over;
};

static bool
read_wish(const struct context *context, const struct papers_said *said, struct wish *out,
    struct fault *fault)
{
	static const char WHO[] = "becket shore-papers";
	struct wish wish = {
	    .folder = options_word(context->given, 0), .over = said->over};
	for (int i = 0; i < SHORE_PAPER_COUNT; i++) {
		wish.paper = said->papers[i] ? (enum shore_paper)i : wish.paper;
		wish.one = wish.one || said->papers[i];
	}
	wish.html = said->html || (!said->text && wish.folder != NULL);
	wish.text = said->text || !said->html;
	if (wish.folder == NULL && !wish.one && !context->json) {
		return usage_fault(fault, WHO,
		    "found no DIR; expected one, or --tags, --docket or --return-list");
	}
	if (context->json && wish.folder != NULL) {
		return usage_fault(fault, WHO, "--json and DIR exclude each other");
	}
	*out = wish;
	return true;
}

/* Papers being made, of dockets that come some boats at a time. */
struct papers_making {
	struct context *context;
	const struct papers_said *said;
	struct report_style style;
	struct shore_kept kept;
	struct dockets_kept json; /* with --json, in place of them */
	struct papers_remarks remarks;
	bool any; /* there are boats */
};

static void
making_clear(struct papers_making *making)
{
	shore_kept_clear(&making->kept);
	dockets_kept_clear(&making->json);
	runs_clear(&making->remarks.kept);
}

/* ---- taken ---- */

/* Both kinds of dockets in one list, what is ashore first: it must still come back. */
static struct dockets
join(struct context *context, const struct winter_answer *some)
{
	size_t landed = some->landed.count;
	size_t count = landed + some->going.count;
	struct docket *both = ARENA_MANY(&context->desk.arena, struct docket, count);
	for (size_t i = 0; i < count; i++) {
		both[i] =
		    i < landed ? some->landed.items[i] : some->going.items[i - landed];
	}
	return (struct dockets){both, count};
}

static void
take_dockets(
    struct papers_making *making, const struct winter_answer *some, const size_t *places)
{
	struct context *context = making->context;
	const struct inventory *inventory = &context->desk.contents.inventory;
	const struct dockets dockets = join(context, some);
	const struct shore_papers papers = {.style = &making->style,
	    .kinds = context->desk.engine.kinds,
	    .inventory = inventory,
	    .dockets = &dockets};
	making->any = making->any || inventory->vessel_count > 0;
	if (context->json) {
		answer_dockets_keep(&making->json, inventory, &dockets, places);
	} else {
		shore_papers_keep(&making->kept, &papers, places);
	}
}

/* Takes the dockets of some boats: of the winters, with remarks on what is not in them, or of what
 * goes beside these. */
static bool
take_some(struct winter_answer *some, const size_t *places, void *of, struct fault *fault)
{
	struct papers_making *making = of;
	const struct named_said *named = &making->said->named;
	if (!papers_are_named(named)) {
		papers_remark(&making->remarks, some->lists, some->count, places);
	} else if (!papers_named(&making->remarks, named, places, some, fault)) {
		return false;
	}
	desk_dockets(&making->context->desk, some);
	take_dockets(making, some, places);
	return true;
}

/* Takes all dockets that were asked for, at once. */
static bool
gather_whole(struct papers_making *making, struct fault *fault)
{
	const struct papers_said *said = making->said;
	struct winter_answer answer = {0};
	return desk_paper_lists(&making->context->desk, &said->plans, &said->named.tags,
		   &answer.lists, &answer.count, fault) &&
	       take_some(&answer, NULL, making, fault);
}

/* The same, of all boats some at a time. */
static bool
gather(struct papers_making *making, struct fault *fault)
{
	const struct papers_said *said = making->said;
	struct fault ignored = {0};
	if (said->plans.vessel != NULL || said->plans.base != NULL ||
	    said->named.tags.count > 0) {
		return gather_whole(making, fault);
	}
	if (desk_papers_by_bases(
		&making->context->desk, &said->plans, take_some, making, fault)) {
		return true;
	}
	/* a fault is that of the first piece of all, behind its remarks */
	if (said->named.due_now && !gather_whole(making, &ignored)) {
		*fault = ignored;
	}
	return false;
}

/* ---- written ---- */

/* How many dockets a paper is made of; 0 when it has nothing to say. */
static size_t
count_of(const struct shore_kept *kept, enum shore_paper paper)
{
	return paper == SHORE_RETURN_LIST ? kept->count : kept->going;
}

static bool
add_file(struct papers_making *making, enum shore_paper paper, enum shore_form form,
    struct folder *folder, struct fault *fault)
{
	SCOPED_SPOOL bytes = {0};
	SCOPED_TEXT name = {0};
	text_add_format(
	    &name, "%s.%s", FILE_NAMES[paper], form == SHORE_PAGE ? "html" : "txt");
	if (!shore_paper_write(&making->kept, paper, form, &bytes, fault) ||
	    !folder_add_kept(folder, text_string(&name), &bytes, fault)) {
		return false;
	}
	text_add_format(
	    &making->context->out, "%s/%s\n", folder->path, text_string(&name));
	return true;
}

/* Writes each paper that was asked for and has something to say, its page first. */
static bool
write_folder(struct papers_making *making, const struct wish *wish, struct fault *fault)
{
	SCOPED_FOLDER folder = {0};
	if (!folder_begin(wish->folder, wish->over, &folder, fault)) {
		return false;
	}
	for (int i = 0; i < SHORE_PAPER_COUNT; i++) {
		enum shore_paper paper = (enum shore_paper)i;
		const bool *wanted = making->kept.wanted[paper];
		if (count_of(&making->kept, paper) == 0) {
			continue;
		}
		if ((wanted[SHORE_PAGE] &&
			!add_file(making, paper, SHORE_PAGE, &folder, fault)) ||
		    (wanted[SHORE_TEXT] &&
			!add_file(making, paper, SHORE_TEXT, &folder, fault))) {
			return false;
		}
	}
	return folder_keep(&folder, fault);
}

/* What was written for this winter is given out, and stays on its days. A supposed choice of
 * stations, another winter, and what goes beside them are only looked at. */
static bool
settle(struct context *context, const struct papers_said *said, struct fault *fault)
{
	const struct plans_wish *plans = &said->plans;
	if (plans->without_station != NULL || plans->only_station != NULL ||
	    plans->year != 0 || papers_are_named(&said->named)) {
		return true;
	}
	return desk_give_hand_ins(&context->desk, plans->vessel, plans->base, fault);
}

/* Begins to make what is wished for. */
static struct papers_making
begin_making(
    struct context *context, const struct papers_said *said, const struct wish *wish)
{
	struct papers_making making = {.context = context,
	    .said = said,
	    .style = context->style,
	    .remarks.context = context};
	bool folder = wish->folder != NULL;
	making.style.colour = making.style.colour && !folder;
	making.kept.columns = folder ? 0 : context->out.columns;
	for (int i = 0; i < SHORE_PAPER_COUNT; i++) {
		bool asked = !wish->one || (enum shore_paper)i == wish->paper;
		making.kept.wanted[i][SHORE_PAGE] = asked && wish->html;
		making.kept.wanted[i][SHORE_TEXT] =
		    asked && wish->text && (folder || !wish->html);
	}
	return making;
}

/* Writes the papers, and gives out what is on them. */
static bool
write_papers(struct papers_making *making, const struct wish *wish, struct fault *fault)
{
	struct context *context = making->context;
	const struct papers_said *said = making->said;
	SCOPED_SPOOL paper = {0};
	if ((wish->one ? count_of(&making->kept, wish->paper) : making->kept.count) ==
	    0) {
		text_add(
		    &context->out, "Nothing goes ashore: there is no paper to write.\n");
		return true;
	}
	if (wish->folder != NULL) {
		return write_folder(making, wish, fault) && settle(context, said, fault);
	}
	return shore_paper_write(&making->kept, wish->paper,
		   wish->html ? SHORE_PAGE : SHORE_TEXT, &paper, fault) &&
	       settle(context, said, fault) && context_tell(context, &paper, fault);
}

/* Says what was made. */
static bool
say(struct papers_making *making, const struct wish *wish, struct fault *fault)
{
	struct context *context = making->context;
	if (!gather(making, fault) || !papers_remarks_say(&making->remarks, fault)) {
		return false;
	}
	if (context->json) {
		context_write_as_made(context);
		return answer_dockets_kept(&making->json, &context->out, fault);
	}
	return (!making->any && context_is_empty(context)) ||
	       write_papers(making, wish, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct papers_said said = {.named.on = DAY_NONE};
	struct wish wish = {0};
	if (!options_into(context->given, &said, fault) ||
	    !read_wish(context, &said, &wish, fault)) {
		return false;
	}
	struct papers_making making = begin_making(context, &said, &wish);
	bool done = say(&making, &wish, fault);
	making_clear(&making);
	return done;
}

const struct command COMMAND_SHORE_PAPERS = {
    .name = "shore-papers",
    .summary = "write the tags, dockets and return lists that go ashore with the gear",
    .details =
	"From the same plan as \"becket winter\": a tag to tie on each piece, eight on a page "
	"with lines to cut along; for each station and hand-in day a docket that says what "
	"is handed in, what is wanted, and who signed for it, all vessels together; and the "
	"list to tick when it comes back, with what is ashore already. Into DIR go tags, "
	"dockets and return-list, each as a page for print (.html) and as text (.txt): all "
	"of them or none, and none over another without --over. \"becket land\" and "
	"\"becket return\" enter that it went and that it came back. A hand-in that was printed "
	"keeps its day from then on, as one in a calendar does. --tag and --due-now write the same "
	"papers for gear that goes beside the winter; --task says what is wanted where nothing on record "
	"is. No plan is kept of these.",
    .examples = "shore-papers to-print\n"
		"tags, dockets and return lists of this winter, in that folder\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .answers = ONE_ANSWER(KEYS_OF_DOCKETS),
    .quiet = true,
    .run = run,
};
