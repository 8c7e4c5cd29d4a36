/* The plan of a push: nothing done twice, nothing of a person's undone unasked. */
#include "calendar/caldav_plan.h"

#include "becket_test.h"
#include "draw.h"

enum { TODAY = 20000, DAY = 20100, LATER = 20110 };

/* Sides with one UID at most, and what is to come of them. */
struct expected {
	const char *note;
	const char *ours; /* digest, NULL when it is not wanted */
	day_t our_day;
	day_t pushed_day;
	const char *pushed; /* digest, NULL when nothing was pushed */
	const char *theirs; /* digest, NULL when nothing is there */
	const char *etag;   /* the server's; "1" is the one remembered */
	day_t their_day;
	enum caldav_act ask, keep_theirs, keep_ours;
	enum caldav_finding finding; /* when asking */
	bool kept;
};

/* Each line by hand from the table in caldav_plan.h. */
static const struct expected CASES[] = {
    {"wanted only", "a", DAY, 0, NULL, NULL, "", 0, CALDAV_CREATE, CALDAV_CREATE,
	CALDAV_CREATE, CALDAV_FOUND_NOTHING, false},
    {"all agree", "a", DAY, DAY, "a", "a", "1", DAY, CALDAV_NOTHING, CALDAV_NOTHING,
	CALDAV_NOTHING, CALDAV_FOUND_NOTHING, false},
    {"agree, touched there without a visible change", "a", DAY, DAY, "a", "a", "2", DAY,
	CALDAV_NOTE, CALDAV_NOTE, CALDAV_NOTE, CALDAV_FOUND_NOTHING, false},
    {"there already as wanted, and never pushed", "a", DAY, 0, NULL, "a", "2", DAY,
	CALDAV_NOTE, CALDAV_NOTE, CALDAV_NOTE, CALDAV_FOUND_NOTHING, false},
    {"there otherwise, and never pushed", "a", DAY, 0, NULL, "b", "2", DAY, CALDAV_LEAVE,
	CALDAV_ACCEPT, CALDAV_CHANGE, CALDAV_FOUND_STRANGE, false},
    {"our day changed", "a", LATER, DAY, "a", "a", "1", DAY, CALDAV_CHANGE, CALDAV_CHANGE,
	CALDAV_CHANGE, CALDAV_FOUND_NOTHING, false},
    {"our words changed", "b", DAY, DAY, "a", "a", "1", DAY, CALDAV_CHANGE, CALDAV_CHANGE,
	CALDAV_CHANGE, CALDAV_FOUND_NOTHING, false},
    {"both came to the same", "b", LATER, DAY, "a", "b", "2", LATER, CALDAV_NOTE,
	CALDAV_NOTE, CALDAV_NOTE, CALDAV_FOUND_NOTHING, false},
    {"moved there", "a", DAY, DAY, "a", "a", "2", LATER, CALDAV_PLAN, CALDAV_PLAN,
	CALDAV_CHANGE, CALDAV_FOUND_MOVED, false},
    {"moved there, and to another day here", "a", DAY + 5, DAY, "a", "a", "2", LATER,
	CALDAV_LEAVE, CALDAV_PLAN, CALDAV_CHANGE, CALDAV_FOUND_MOVED, false},
    {"moved there to a day that is past", "a", DAY, DAY, "a", "a", "2", TODAY - 1,
	CALDAV_LEAVE, CALDAV_ACCEPT, CALDAV_CHANGE, CALDAV_FOUND_MOVED, false},
    {"moved there while our words changed", "b", DAY, DAY, "a", "a", "2", LATER,
	CALDAV_PLAN, CALDAV_PLAN, CALDAV_CHANGE, CALDAV_FOUND_MOVED, false},
    {"reworded there", "a", DAY, DAY, "a", "c", "2", DAY, CALDAV_LEAVE, CALDAV_ACCEPT,
	CALDAV_CHANGE, CALDAV_FOUND_EDITED, false},
    {"moved and reworded there", "a", DAY, DAY, "a", "c", "2", LATER, CALDAV_LEAVE,
	CALDAV_ACCEPT, CALDAV_CHANGE, CALDAV_FOUND_EDITED, false},
    {"can't be read there", "a", DAY, DAY, "a", "unreadable", "2", DAY_NONE, CALDAV_LEAVE,
	CALDAV_ACCEPT, CALDAV_CHANGE, CALDAV_FOUND_EDITED, false},
    {"reworded there, and accepted", "a", DAY, DAY, "a", "c", "1", DAY, CALDAV_LEAVE,
	CALDAV_ACCEPT, CALDAV_CHANGE, CALDAV_FOUND_EDITED, true},
    {"removed there", "a", DAY, DAY, "a", NULL, "", 0, CALDAV_LEAVE, CALDAV_ACCEPT,
	CALDAV_CREATE, CALDAV_FOUND_REMOVED, false},
    {"no longer wanted, untouched there", NULL, 0, DAY, "a", "a", "1", DAY, CALDAV_REMOVE,
	CALDAV_REMOVE, CALDAV_REMOVE, CALDAV_FOUND_NOTHING, false},
    {"no longer wanted, moved there", NULL, 0, DAY, "a", "a", "2", LATER, CALDAV_LEAVE,
	CALDAV_ACCEPT, CALDAV_REMOVE, CALDAV_FOUND_MOVED, false},
    {"no longer wanted, reworded there", NULL, 0, DAY, "a", "c", "2", DAY, CALDAV_LEAVE,
	CALDAV_ACCEPT, CALDAV_REMOVE, CALDAV_FOUND_EDITED, false},
    {"gone on both sides", NULL, 0, DAY, "a", NULL, "", 0, CALDAV_FORGET, CALDAV_FORGET,
	CALDAV_FORGET, CALDAV_FOUND_NOTHING, false},
    {"this book's, and nobody knows more", NULL, 0, 0, NULL, "a", "2", DAY, CALDAV_LEAVE,
	CALDAV_ACCEPT, CALDAV_REMOVE, CALDAV_FOUND_STRANGE, false},
};

static const char URL[] = "https://calendar.example/safety/one.ics";

static struct caldav_deed
plan_one(const struct expected *expected, enum caldav_keep keep, struct arena *arena)
{
	const bool accepted = expected->kept;
	struct caldav_ours ours = {.uid = "one",
	    .summary = "x",
	    .day = expected->our_day,
	    .rest = expected->ours};
	struct book_pushed pushed = {.uid = "one",
	    .url = URL,
	    .etag = "1",
	    .summary = "x",
	    /* accepted while ours was another */
	    .our_day = expected->pushed_day + (accepted ? 1 : 0),
	    .our_rest = expected->pushed,
	    .their_day = expected->pushed_day,
	    .their_rest = accepted ? expected->theirs : expected->pushed,
	    .kept = accepted};
	struct caldav_theirs theirs = {.uid = "one",
	    .url = URL,
	    .etag = expected->etag,
	    .summary = "x",
	    .status = "",
	    .day = expected->their_day,
	    .rest = expected->theirs};
	const struct caldav_sides sides = {
	    .ours = &ours,
	    .our_count = expected->ours == NULL ? 0 : 1,
	    .before = &pushed,
	    .before_count = expected->pushed == NULL ? 0 : 1,
	    .theirs = &theirs,
	    .their_count = expected->theirs == NULL ? 0 : 1,
	    .today = TODAY,
	};
	struct caldav_deed *deeds = NULL;
	size_t count = 0;
	caldav_plan(&sides, keep, arena, &deeds, &count);
	assert_int_equal(count, 1);
	assert_int_equal(deeds[0].outdated, expected->ours == NULL);
	return deeds[0];
}

TEST(every_case_of_the_table_is_decided_as_it_says)
{
	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		struct arena arena = {0};
		const struct expected *expected = &CASES[i];
		struct caldav_deed asked = plan_one(expected, CALDAV_ASK, &arena);
		struct caldav_deed theirs =
		    plan_one(expected, CALDAV_KEEP_THEIRS, &arena);
		struct caldav_deed ours = plan_one(expected, CALDAV_KEEP_OURS, &arena);
		if (asked.act != expected->ask || asked.finding != expected->finding ||
		    theirs.act != expected->keep_theirs ||
		    ours.act != expected->keep_ours) {
			fail_msg("%s: act %d, finding %d, theirs %d, ours %d",
			    expected->note, (int)asked.act, (int)asked.finding,
			    (int)theirs.act, (int)ours.act);
		}
		arena_clear(&arena);
	}
}

TEST(the_same_uid_at_two_addresses_is_spoken_of_and_the_known_one_stays)
{
	struct arena arena = {0};
	const struct caldav_ours ours = {"one", "x", DAY, "a", false};
	const struct book_pushed pushed = {
	    "one", URL, "1", "x", "a", "a", DAY, DAY, false};
	const struct caldav_theirs theirs[] = {
	    {"one", "https://calendar.example/safety/imported.ics", "9", "x", "", LATER,
		"b", DAY_NONE, 0},
	    {"one", URL, "1", "x", "", DAY, "a", DAY_NONE, 0},
	};
	const struct caldav_sides sides = {.ours = &ours,
	    .our_count = 1,
	    .before = &pushed,
	    .before_count = 1,
	    .theirs = theirs,
	    .their_count = 2,
	    .today = TODAY};
	struct caldav_deed *deeds = NULL;
	size_t count = 0;
	caldav_plan(&sides, CALDAV_KEEP_OURS, &arena, &deeds, &count);
	assert_int_equal(count, 2);
	assert_int_equal(deeds[0].act, CALDAV_LEAVE);
	assert_int_equal(deeds[0].finding, CALDAV_FOUND_TWICE);
	assert_ptr_equal(deeds[0].theirs, &theirs[0]);
	assert_int_equal(deeds[1].act, CALDAV_NOTHING);
	arena_clear(&arena);
}

TEST(what_was_ticked_there_and_is_done_here_too_is_at_rest)
{
	struct arena arena = {0};
	const struct book_pushed pushed = {
	    "one", URL, "1", "x", "a", "a", DAY, DAY, false};
	const struct caldav_ours ours = {"one", "x", DAY, "a", false};
	const struct caldav_theirs ticked = {.uid = "one",
	    .url = URL,
	    .etag = "2",
	    .summary = "x",
	    .status = "COMPLETED",
	    .day = DAY,
	    .rest = "ticked",
	    .done_on = TODAY};
	struct caldav_sides sides = {.before = &pushed,
	    .before_count = 1,
	    .theirs = &ticked,
	    .their_count = 1,
	    .today = TODAY};
	struct caldav_deed *deeds = NULL;
	size_t count = 0;
	caldav_plan(&sides, CALDAV_ASK, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_ACCEPT);
	caldav_plan(&sides, CALDAV_KEEP_OURS, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_REMOVE);
	/* still to be done here: that has to be spoken of */
	sides.ours = &ours;
	sides.our_count = 1;
	caldav_plan(&sides, CALDAV_ASK, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_LEAVE);
	assert_int_equal(deeds[0].finding, CALDAV_FOUND_EDITED);
	arena_clear(&arena);
}

/* Two reminders, pushed for DAY, moved to LATER there and to DAY + 5 here. */
struct moved {
	struct caldav_ours ours[2];
	struct book_pushed before[2];
	struct caldav_theirs theirs[2];
	struct caldav_sides sides;
};

static void
move_both(struct moved *moved)
{
	static const char *const UIDS_OF_TWO[] = {"one", "two"};
	for (size_t i = 0; i < 2; i++) {
		const char *uid = UIDS_OF_TWO[i];
		moved->ours[i] = (struct caldav_ours){uid, "x", DAY + 5, "a", false};
		moved->before[i] =
		    (struct book_pushed){uid, uid, "1", "x", "a", "a", DAY, DAY, false};
		moved->theirs[i] = (struct caldav_theirs){.uid = uid,
		    .url = uid,
		    .etag = "2",
		    .status = "",
		    .summary = "x",
		    .day = LATER,
		    .rest = "a",
		    .done_on = DAY_NONE,
		    .sequence = 1};
	}
	moved->sides = (struct caldav_sides){.ours = moved->ours,
	    .our_count = 2,
	    .before = moved->before,
	    .before_count = 2,
	    .theirs = moved->theirs,
	    .their_count = 2,
	    .today = TODAY};
}

TEST(what_was_moved_on_both_sides_is_marked_and_chosen_one_by_one)
{
	struct arena arena = {0};
	struct moved moved;
	struct caldav_deed *deeds = NULL;
	size_t count = 0;
	move_both(&moved);
	caldav_plan(&moved.sides, CALDAV_ASK, &arena, &deeds, &count);
	assert_int_equal(count, 2);
	assert_true(deeds[0].both && deeds[1].both);
	assert_int_equal(deeds[0].act, CALDAV_LEAVE);
	const struct caldav_choice choices[] = {
	    {"two", CALDAV_KEEP_THEIRS}, {"one", CALDAV_KEEP_OURS}};
	moved.sides.choices = choices;
	moved.sides.choice_count = 1;
	caldav_plan(&moved.sides, CALDAV_ASK, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_LEAVE);
	assert_int_equal(deeds[1].act, CALDAV_PLAN);
	moved.sides.choice_count = 2;
	caldav_plan(&moved.sides, CALDAV_ASK, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_CHANGE);
	assert_int_equal(deeds[1].act, CALDAV_PLAN);
	arena_clear(&arena);
}

/* Or it would be said to be planned, and then be put back. */
TEST(the_last_day_that_serves_is_left_where_a_person_moved_it)
{
	struct arena arena = {0};
	struct moved moved;
	struct caldav_deed *deeds = NULL;
	size_t count = 0;
	move_both(&moved);
	moved.ours[0].day = DAY;
	moved.ours[0].fixed = true;
	caldav_plan(&moved.sides, CALDAV_ASK, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_LEAVE);
	assert_int_equal(deeds[0].finding, CALDAV_FOUND_MOVED);
	caldav_plan(&moved.sides, CALDAV_KEEP_THEIRS, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_ACCEPT);
	arena_clear(&arena);
}

TEST(an_older_copy_that_was_put_back_there_is_no_persons_move)
{
	struct arena arena = {0};
	struct moved moved;
	struct caldav_deed *deeds = NULL;
	size_t count = 0;
	move_both(&moved);
	/* under SEQUENCE 1 the first was given out for LATER; the second never was */
	const struct book_given given[] = {
	    {"one", 0, DAY - 1}, {"one", 1, LATER}, {"one", 2, DAY}, {"two", 1, DAY}};
	moved.sides.given = given;
	moved.sides.given_count = 4;
	caldav_plan(&moved.sides, CALDAV_ASK, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_CHANGE);
	assert_int_equal(deeds[0].finding, CALDAV_FOUND_NOTHING);
	assert_int_equal(deeds[1].act, CALDAV_LEAVE);
	/* moved to that day by hand, from the last given out */
	moved.theirs[0].sequence = 2;
	caldav_plan(&moved.sides, CALDAV_ASK, &arena, &deeds, &count);
	assert_int_equal(deeds[0].act, CALDAV_LEAVE);
	assert_true(deeds[0].both);
	arena_clear(&arena);
}

/* A server, a book and a person, for as many UIDs as fit a small world. */
enum { UIDS = 5, ROUNDS = 4000 };

struct thing {
	bool there;
	day_t day;
	int rest; /* letter */
};

struct world {
	struct thing ours[UIDS];
	struct thing theirs[UIDS];
	struct thing pushed[UIDS]; /* ours when last agreed */
	struct thing seen[UIDS];   /* theirs when last agreed */
	bool kept[UIDS];
	int etag[UIDS];
	int seen_etag[UIDS];
	bool by_hand[UIDS]; /* a person changed it since it was last pushed */
};

static const char *const NAMES[UIDS] = {"a", "b", "c", "d", "e"};
static const char *const LETTERS[] = {"p", "q", "r"};
static const char *const NUMBERS[] = {"0", "1", "2", "3", "4", "5", "6", "7", "8", "9"};

static bool
same_thing(const struct thing *a, const struct thing *b)
{
	return a->there == b->there &&
	       (!a->there || (a->day == b->day && a->rest == b->rest));
}

/* What the server, the book and the plan do to one UID; kept as plain as can be. */
static void
carry_out(struct world *world, const struct caldav_deed *step, int i)
{
	switch (step->act) {
	case CALDAV_NOTHING:
	case CALDAV_LEAVE:
		return;
	case CALDAV_CREATE:
	case CALDAV_CHANGE:
		world->theirs[i] = world->ours[i];
		world->etag[i] = (world->etag[i] + 1) % 10;
		world->by_hand[i] = false;
		world->kept[i] = false;
		break;
	case CALDAV_REMOVE:
		world->theirs[i].there = false;
		world->by_hand[i] = false;
		world->kept[i] = false;
		break;
	case CALDAV_FORGET:
		world->kept[i] = false;
		world->by_hand[i] = false;
		break;
	case CALDAV_PLAN:
		/* the book's reminder follows; its words are pushed next time */
		world->ours[i].day = world->theirs[i].day;
		world->pushed[i].day = world->theirs[i].day;
		world->seen[i] = world->theirs[i];
		world->seen_etag[i] = world->etag[i];
		world->by_hand[i] = world->kept[i];
		return;
	case CALDAV_NOTE:
		world->kept[i] = step->finding != CALDAV_FOUND_NOTHING && world->kept[i];
		world->by_hand[i] = world->kept[i];
		break;
	case CALDAV_ACCEPT:
		world->kept[i] = true;
		break;
	}
	world->pushed[i] = world->ours[i];
	world->seen[i] = world->theirs[i];
	world->seen_etag[i] = world->etag[i];
}

/* The world as the plan is told of it. */
struct told {
	struct caldav_ours ours[UIDS];
	struct book_pushed before[UIDS];
	struct caldav_theirs theirs[UIDS];
	struct caldav_sides sides;
};

static struct book_pushed
remembered(const struct world *world, int i)
{
	const struct thing *seen = &world->seen[i];
	const struct thing *pushed = &world->pushed[i];
	return (struct book_pushed){NAMES[i], seen->there ? URL : "",
	    NUMBERS[world->seen_etag[i]], "", pushed->there ? LETTERS[pushed->rest] : "",
	    LETTERS[seen->rest], pushed->there ? pushed->day : DAY_NONE, seen->day,
	    world->kept[i]};
}

static void
tell(const struct world *world, struct told *told)
{
	struct caldav_sides *sides = &told->sides;
	*sides = (struct caldav_sides){.ours = told->ours,
	    .before = told->before,
	    .theirs = told->theirs,
	    .today = TODAY};
	for (int i = 0; i < UIDS; i++) {
		const struct thing *ours = &world->ours[i];
		const struct thing *theirs = &world->theirs[i];
		if (ours->there) {
			told->ours[sides->our_count++] = (struct caldav_ours){
			    NAMES[i], "", ours->day, LETTERS[ours->rest], false};
		}
		if (world->seen[i].there || world->kept[i]) {
			told->before[sides->before_count++] = remembered(world, i);
		}
		if (theirs->there) {
			told->theirs[sides->their_count++] =
			    (struct caldav_theirs){NAMES[i], URL, NUMBERS[world->etag[i]],
				"", "", theirs->day, LETTERS[theirs->rest], DAY_NONE, 0};
		}
	}
}

/* One push; gives how many things it did. */
static size_t
push(struct world *world, enum caldav_keep keep)
{
	struct arena arena = {0};
	struct told told;
	struct caldav_deed *deeds = NULL;
	size_t count = 0;
	size_t acts = 0;
	tell(world, &told);
	caldav_plan(&told.sides, keep, &arena, &deeds, &count);
	for (size_t k = 0; k < count; k++) {
		int i = deeds[k].uid[0] - 'a';
		enum caldav_act act = deeds[k].act;
		bool writes =
		    act == CALDAV_CREATE || act == CALDAV_CHANGE || act == CALDAV_REMOVE;
		if (writes && world->by_hand[i]) {
			/* nothing of a person's is undone unasked */
			assert_int_equal(keep, CALDAV_KEEP_OURS);
		}
		acts += act == CALDAV_NOTHING || act == CALDAV_LEAVE ? 0 : 1;
		carry_out(world, &deeds[k], i);
	}
	arena_clear(&arena);
	return acts;
}

static void
change_ours(struct world *world, unsigned *seed)
{
	int i = (int)draw(seed, UIDS);
	world->ours[i] = (struct thing){
	    draw(seed, 4) != 0, TODAY + (day_t)draw(seed, 3), (int)draw(seed, 3)};
}

static void
change_theirs(struct world *world, unsigned *seed)
{
	int i = (int)draw(seed, UIDS);
	struct thing was = world->theirs[i];
	if (!was.there) {
		return;
	}
	switch (draw(seed, 3)) {
	case 0:
		world->theirs[i].there = false;
		break;
	case 1:
		world->theirs[i].day = TODAY + (day_t)draw(seed, 3);
		break;
	default:
		world->theirs[i].rest = (int)draw(seed, 3);
		break;
	}
	world->etag[i] = (world->etag[i] + 1) % 10;
	world->by_hand[i] =
	    world->kept[i] || !same_thing(&world->theirs[i], &world->seen[i]);
}

/* Invariants that hold whatever is done in whatever order. */
TEST(no_order_of_changes_makes_a_push_undo_a_person_or_do_a_thing_twice)
{
	unsigned seed = 20261125;
	struct world world = {0};
	for (int round = 0; round < ROUNDS; round++) {
		for (unsigned n = draw(&seed, 4); n > 0; n--) {
			if (draw(&seed, 2) == 0) {
				change_ours(&world, &seed);
			} else {
				change_theirs(&world, &seed);
			}
		}
		enum caldav_keep keep = (enum caldav_keep)draw(&seed, 3);
		(void)push(&world, keep);
		/* what was planned may have to be pushed once more; then all is quiet */
		(void)push(&world, keep);
		assert_int_equal(push(&world, keep), 0);
		if (keep == CALDAV_KEEP_OURS) {
			for (int i = 0; i < UIDS; i++) {
				assert_true(same_thing(&world.ours[i], &world.theirs[i]));
			}
		}
	}
}

RUN_TESTS(NULL, NULL)
