#include "desk/giving_out.h"

#include "desk/inside.h"
#include "desk/plans.h"
#include "desk/ranges.h"
#include "desk/reminding.h"

/* ---- papers and rotas ---- */

bool
desk_paper_lists(struct desk *desk, const struct plans_wish *wish,
    const struct word_list *tags, struct shore_list **lists_out, size_t *count_out,
    struct fault *fault)
{
	if (tags->count > 0) {
		*lists_out = NULL;
		*count_out = 0;
		if (!ask_about(desk, range_part(desk, tags, NULL), LEFT_ASHORE, fault) ||
		    !desk_engine(desk, NULL, fault)) {
			return false;
		}
		desk_see_winter(desk, 0);
		return true;
	}
	return ask_planned(desk,
		   boats_part(desk, wish->vessel, wish->base, wish->boats, REACH_BASES),
		   LEFT_ASHORE, fault) &&
	       plans_make(desk, wish, lists_out, count_out, fault);
}

struct papers_by_bases {
	const struct plans_wish *wish;
	papers_taker *take;
	void *context;
};

static bool
papers_of_bases(
    struct desk *desk, const size_t *places, void *question, struct fault *fault)
{
	const struct papers_by_bases *by = question;
	struct winter_answer some = {0};
	return plans_make(desk, by->wish, &some.lists, &some.count, fault) &&
	       by->take(&some, places, by->context, fault);
}

bool
desk_papers_by_bases(struct desk *desk, const struct plans_wish *wish, papers_taker *take,
    void *context, struct fault *fault)
{
	static const struct word_list NO_TAGS = {0};
	struct papers_by_bases by = {wish, take, context};
	struct fault first = {0};
	struct winter_answer whole;
	if (ask_together(desk, LEFT_ASHORE,
		&(struct together_asked){
		    .answer = papers_of_bases, .question = &by, .plans = true},
		&first)) {
		return true;
	}
	/* a fault is that of the first boat of all */
	if (desk_paper_lists(desk, wish, &NO_TAGS, &whole.lists, &whole.count, fault)) {
		*fault = first;
	}
	return false;
}

struct hand_ins_act {
	struct settling_which which;
	struct shore_list *lists;
	size_t count;
};

static bool
plan_hand_ins(struct desk *desk, void *of, struct fault *fault)
{
	struct hand_ins_act *act = of;
	if (desk->about != NULL && plans_are_one(desk)) {
		desk_forget(desk); /* every vessel's plan hangs on every other's */
		desk->about = NULL;
	}
	return reminding_plans(desk, &act->lists, &act->count, fault);
}

static bool
write_hand_ins(struct desk *desk, void *of, struct fault *fault)
{
	const struct hand_ins_act *act = of;
	return settling_keep(desk, act->lists, act->count, &act->which, fault);
}

/* What is given out of all boats. */
struct fleet_act {
	struct settling_which which;
	struct arena arena;
	struct placed_hand_ins placed;
};

static bool
find_of_bases(struct desk *desk, const size_t *places, void *of, struct fault *fault)
{
	struct fleet_act *act = of;
	struct shore_list *lists = NULL;
	size_t count = 0;
	return reminding_plans(desk, &lists, &count, fault) &&
	       placing_find(desk, lists, count, &act->which, places, &act->arena,
		   &act->placed, fault);
}

/* With the book in the same state: what is loaded tells of which revision all this is. */
static bool
load_stations(struct desk *desk, void *of, struct fault *fault)
{
	(void)of;
	return desk->loaded || ask_about(desk, &STATIONS_PART, LEFT_ASHORE, fault);
}

static bool
plan_fleet(struct desk *desk, void *of, struct fault *fault)
{
	struct fleet_act *act = of;
	arena_clear(&act->arena);
	act->placed = (struct placed_hand_ins){0};
	return ask_together(desk, LEFT_ASHORE,
	    &(struct together_asked){.answer = find_of_bases,
		.then = load_stations,
		.question = act,
		.plans = true},
	    fault);
}

static bool
write_fleet(struct desk *desk, void *of, struct fault *fault)
{
	struct fleet_act *act = of;
	return placing_write(desk, &act->placed, fault);
}

static bool
give_fleet(struct desk *desk, struct fault *fault)
{
	struct fleet_act act = {.which = {.by = GIVEN_BY_PAPERS}};
	bool done = act_run_about(
	    desk, &STATIONS_PART, NULL, plan_fleet, write_fleet, &act, fault);
	arena_clear(&act.arena);
	return done;
}

bool
desk_give_hand_ins(
    struct desk *desk, const char *vessel, const char *base, struct fault *fault)
{
	struct hand_ins_act act = {
	    .which = {.vessel = vessel, .base = base, .by = GIVEN_BY_PAPERS}};
	desk->left_gear = LEFT_ASHORE;
	if (vessel == NULL && base == NULL) {
		return give_fleet(desk, fault);
	}
	return act_run_about(desk, boats_part(desk, vessel, base, NULL, REACH_BASES),
	    NULL, plan_hand_ins, write_hand_ins, &act, fault);
}

bool
desk_give_rota(struct desk *desk, const struct rota_answer *answer, size_t *count_out,
    struct fault *fault)
{
	bool stale = false;
	struct settled_hand_in *hand_ins = NULL;
	rota_hand_ins(&answer->ask, &answer->rota, &desk->arena, &hand_ins, count_out);
	if (!book_begin_as_of(desk->book, desk->contents.revision, &stale, fault)) {
		return false;
	}
	if (stale) {
		return fault_set(fault, FAULT_BOOK,
		    "others wrote to the book while the rota was made; nothing is given "
		    "out, so make it again");
	}
	const struct settling_which moved = {.rotas = true, .by = GIVEN_BY_ROTA};
	struct shore_list *lists = NULL;
	size_t list_count = 0;
	const struct plans_wish everyone = {0};
	if (plans_make(desk, &everyone, &lists, &list_count, fault) &&
	    settling_keep(desk, lists, list_count, &moved, fault) &&
	    book_put_settled(desk->book, hand_ins, *count_out, fault) &&
	    book_commit(desk->book, fault)) {
		return true;
	}
	book_rollback(desk->book);
	return false;
}

/* ---- a calendar server ---- */

struct push_act {
	const struct book_account *account;
	struct giving giving;
	struct reminders *out;
	struct arena *arena;
};

static bool
copy_shown(const struct reminder *reminder, void *of, struct fault *fault)
{
	struct push_act *act = of;
	struct arena *arena = act->arena;
	struct reminder copy = *reminder;
	(void)fault;
	copy.key = arena_string(arena, copy.key);
	copy.summary = arena_string(arena, copy.summary);
	copy.description = arena_string(arena, copy.description);
	copy.category = arena_string(arena, copy.category);
	copy.uid = arena_string(arena, copy.uid);
	copy.about_uid = arena_string(arena, copy.about_uid);
	copy.shape = arena_string(arena, copy.shape);
	ARENA_ADD(arena, act->out, copy);
	return true;
}

static bool
take_shown(struct desk *desk, void *of, struct fault *fault)
{
	struct push_act *act = of;
	*act->out = (struct reminders){0};
	act->arena = &desk->arena;
	return giving_show(&act->giving, copy_shown, act, fault);
}

static bool
write_push(struct desk *desk, void *of, struct fault *fault)
{
	struct push_act *act = of;
	return giving_keep(desk, &act->giving, fault) &&
	       book_store_account(desk->book, act->account, fault);
}

bool
desk_push_reminders(struct desk *desk, const struct book_account *account, bool todos,
    bool trying, struct reminders *out, struct fault *fault)
{
	struct push_act act = {.account = account, .out = out};
	act.giving = (struct giving){.by = GIVEN_BY_PUSH,
	    .scope = account->scope,
	    .todos = todos,
	    .then = take_shown,
	    .write = write_push,
	    .act = &act};
	bool done = trying ? giving_plan(desk, &act.giving, fault)
			   : giving_run(desk, &act.giving, fault);
	giving_clear(&act.giving);
	return done;
}

bool
desk_forget_pushed(struct desk *desk, const char *calendar, struct fault *fault)
{
	const struct book_pushed *pushed = NULL;
	size_t count = 0;
	if (!book_load_pushed(
		desk->book, calendar, &desk->arena, &pushed, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (!book_drop_pushed(desk->book, calendar, pushed[i].uid, fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_forget_account(struct desk *desk, const char **url_out, struct fault *fault)
{
	struct book_account account = {0};
	for (int todos = 0; todos < 2 && account.url == NULL; todos++) {
		if (!desk_book(desk, fault) || !book_load_account(desk->book, todos == 1,
						   &desk->arena, &account, fault)) {
			return false;
		}
	}
	*url_out = account.url;
	return account.url == NULL || book_forget_account(desk->book, fault);
}
