/* becket shore-papers */
#include "cli/command.h"
#include "cli/parts.h"
#include "desk/giving_out.h"
#include "desk/plans.h"
#include "exchange/answers.h"
#include "report/shore_papers.h"

#include <string.h>

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

/* True when a station would do it ashore if there were a day for it. */
static bool
wants_station(const struct context *context, const struct shore_line *line)
{
	const struct item *item = &context->desk.contents.inventory.items[line->item];
	const struct kind *kind = kinds_find(context->desk.engine.kinds, item->kind);
	return line->task == TASK_SERVICE && kind != NULL && kind->service_ashore;
}

/* The first trip of a list that is given out from a later day on; NULL for none. */
static const struct trip *
given_later(const struct shore_list *list)
{
	const struct trips *trips = &list->hand_in;
	for (size_t i = 0; i < trips->count; i++) {
		if (trips->items[i].held_back) {
			return &trips->items[i];
		}
	}
	return NULL;
}

/* Says of each base, under the first of its boats, that its next hand-ins are on no paper yet. */
static void
note_later(struct context *context, const struct shore_list *lists, size_t count)
{
	const struct vessel *vessels = context->desk.contents.inventory.vessels;
	char from[DAY_WORDS_SIZE];
	for (size_t i = 0; i < count; i++) {
		const char *base = vessels[lists[i].vessel].base;
		const struct trip *trip = given_later(&lists[i]);
		bool said = false;
		for (size_t j = 0; j < i && !said; j++) {
			said = given_later(&lists[j]) != NULL &&
			       strcmp(vessels[lists[j].vessel].base, base) == 0;
		}
		if (trip != NULL && !said) {
			desk_note(&context->desk,
			    "hand-ins of %s in the winter of %d are on paper from %s on, "
			    "when its boats have all fitted out; --year %d shows them",
			    base, trip->year, day_words(trip->given_from, from),
			    trip->year);
		}
	}
}

/* Names what belongs ashore and is on no paper, so that nobody takes the papers for complete. */
static void
note_missing(struct context *context, const struct shore_list *lists, size_t count)
{
	const struct item *items = context->desk.contents.inventory.items;
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < lists[i].cannot.count; j++) {
			desk_note(&context->desk,
			    "%s can't be done in time and is on no paper; see \"becket "
			    "winter\"",
			    items[lists[i].cannot.items[j].item].tag);
		}
		for (size_t j = 0; j < lists[i].now.count; j++) {
			const struct shore_line *line = &lists[i].now.items[j];
			if (wants_station(context, line)) {
				desk_note(&context->desk,
				    "%s is to be serviced now, not in a winter, and is on "
				    "no paper",
				    items[line->item].tag);
			}
		}
	}
}

/* All that can be written of. */
struct stock {
	struct dockets going;  /* what is to be handed in */
	struct dockets coming; /* that, and what is ashore already */
	struct report_style style;
	const struct kinds *kinds;
	const struct inventory *inventory;
};

/* The dockets of a paper: what is ashore already must still come back. */
static const struct dockets *
dockets_of(const struct stock *stock, enum shore_paper paper)
{
	return paper == SHORE_RETURN_LIST ? &stock->coming : &stock->going;
}

static void
make_paper(const struct stock *stock, enum shore_paper paper, bool html, struct text *out)
{
	const struct shore_papers papers = {.style = &stock->style,
	    .kinds = stock->kinds,
	    .inventory = stock->inventory,
	    .dockets = dockets_of(stock, paper)};
	if (html) {
		shore_paper_page(&papers, paper, out);
		return;
	}
	shore_paper_text(&papers, paper, out);
}

static bool
add_file(struct context *context, const struct stock *stock, enum shore_paper paper,
    bool html, struct folder *folder, struct fault *fault)
{
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT name = {0};
	text_add_format(&name, "%s.%s", FILE_NAMES[paper], html ? "html" : "txt");
	make_paper(stock, paper, html, &bytes);
	if (!folder_add(folder, text_string(&name), &bytes, fault)) {
		return false;
	}
	text_add_format(&context->out, "%s/%s\n", folder->path, text_string(&name));
	return true;
}

/* Writes each paper that was asked for and has something to say. */
static bool
write_folder(struct context *context, const struct stock *stock, const struct wish *wish,
    struct fault *fault)
{
	SCOPED_FOLDER folder = {0};
	if (!folder_begin(wish->folder, wish->over, &folder, fault)) {
		return false;
	}
	for (int i = 0; i < SHORE_PAPER_COUNT; i++) {
		enum shore_paper paper = (enum shore_paper)i;
		bool asked = !wish->one || paper == wish->paper;
		if (!asked || dockets_of(stock, paper)->count == 0) {
			continue;
		}
		if ((wish->html &&
			!add_file(context, stock, paper, true, &folder, fault)) ||
		    (wish->text &&
			!add_file(context, stock, paper, false, &folder, fault))) {
			return false;
		}
	}
	return folder_keep(&folder, fault);
}

/* Both kinds of dockets in one list, what is ashore first. */
static void
join(struct context *context, const struct dockets *landed, struct stock *stock)
{
	size_t count = landed->count + stock->going.count;
	struct docket *both =
	    arena_alloc(&context->desk.arena, (count + 1) * sizeof *both);
	for (size_t i = 0; i < count; i++) {
		both[i] = i < landed->count ? landed->items[i]
					    : stock->going.items[i - landed->count];
	}
	stock->coming = (struct dockets){both, count};
}

/* The winter's dockets of the vessels that were named. */
static bool
gather(struct context *context, const struct papers_said *said, struct stock *out,
    struct fault *fault)
{
	struct winter_answer answer = {0};
	if (!desk_paper_lists(&context->desk, &said->plans, &said->named.tags,
		&answer.lists, &answer.count, fault)) {
		return false;
	}
	if (papers_are_named(&said->named)) {
		if (!papers_named(context, &said->named, answer.lists, answer.count,
			&answer.lists, &answer.count, fault)) {
			return false;
		}
	} else {
		note_missing(context, answer.lists, answer.count);
		note_later(context, answer.lists, answer.count);
	}
	out->inventory = &context->desk.contents.inventory;
	out->kinds = context->desk.engine.kinds;
	desk_dockets(&context->desk, &answer);
	out->going = answer.going;
	join(context, &answer.landed, out);
	return true;
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

static bool
run(struct context *context, struct fault *fault)
{
	struct papers_said said = {.named.on = DAY_NONE};
	struct wish wish = {0};
	struct stock stock = {0};
	if (!options_into(context->given, &said, fault) ||
	    !read_wish(context, &said, &wish, fault) ||
	    !gather(context, &said, &stock, fault)) {
		return false;
	}
	if (context->json) {
		answer_dockets(stock.inventory, &stock.coming, &context->out);
		return true;
	}
	if (context_is_empty(context)) {
		return true;
	}
	size_t count =
	    wish.one ? dockets_of(&stock, wish.paper)->count : stock.coming.count;
	if (count == 0) {
		text_add(
		    &context->out, "Nothing goes ashore: there is no paper to write.\n");
		return true;
	}
	stock.style = context->style;
	stock.style.colour = stock.style.colour && wish.folder == NULL;
	if (wish.folder == NULL) {
		make_paper(&stock, wish.paper, wish.html, &context->out);
	} else if (!write_folder(context, &stock, &wish, fault)) {
		return false;
	}
	return settle(context, &said, fault);
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
