/* Spares counted by pieces and given out over a fleet: in the order of need, whole boats first. */
#include "becket_test.h"
#include "draw.h"
#include "muster/muster.h"
#include "scene.h"

/* Two rockets each, which lapse by their mark, and a tether for a boat in charter, which lasts
 * 12 months. */
static const char SHEET[] =
    "  - id: m\n    kinds: [flare-red-parachute]\n"
    "    task: renew\n    doer: owner\n    grade: law\n"
    "    clocks:\n      - from: [marked]\n    source: invented\n    standing: memory\n"
    "  - id: a\n    kinds: [tether]\n    task: renew\n    doer: owner\n"
    "    grade: law\n    clocks:\n      - from: [made]\n        months: 12\n"
    "    source: invented\n    standing: memory\n"
    "carriage:\n"
    "  - id: r\n    title: Rockets\n    need: {points: 2}\n    serves:\n"
    "      - {kinds: [flare-red-parachute], points: 1}\n"
    "    source: invented\n    standing: memory\n"
    "  - id: t\n    title: Tethers\n    when: {use: commercial}\n"
    "    need: {points: 1}\n    serves:\n      - {kinds: [tether], points: 1}\n"
    "    source: invented\n    standing: memory\n";

enum { BOATS = 3, STORE = BOATS, VESSELS };

static const char DAY[] = "2026-11-25";

/* Three boats and the store of their base. */
struct fleet {
	struct scene scene;
	struct period use[VESSELS];
	struct vessel vessels[VESSELS];
	const struct rulebook *rulebooks[VESSELS];
	struct muster musters[BOATS];
};

static void
open_fleet(struct fleet *fleet)
{
	static const char *const NAMES[] = {"Avocet", "Bittern", "Curlew", "Loft"};
	scene_open(&fleet->scene, SHEET);
	for (int i = 0; i < VESSELS; i++) {
		fleet->vessels[i] = fleet->scene.vessel;
		fleet->use[i] = fleet->scene.periods[0];
		fleet->vessels[i].periods = &fleet->use[i];
		fleet->vessels[i].period_count = 1;
		fleet->vessels[i].name = NAMES[i];
		fleet->vessels[i].base = "Holm Quay";
		fleet->vessels[i].store = i == STORE;
		fleet->rulebooks[i] = fleet->scene.rulebook;
	}
	fleet->scene.inventory.vessels = fleet->vessels;
	fleet->scene.inventory.vessel_count = VESSELS;
}

/* Items must come in the order of the vessels. */
static struct item *
add_rockets(struct fleet *fleet, size_t vessel, int quantity, const char *expires)
{
	struct item *item = scene_item(&fleet->scene, "flare-red-parachute");
	item->vessel = vessel;
	item->quantity = quantity;
	item->expires = stamp_of(expires);
	return item;
}

static struct item *
add_tethers(struct fleet *fleet, size_t vessel, int quantity)
{
	struct item *item = scene_item(&fleet->scene, "tether");
	item->vessel = vessel;
	item->quantity = quantity;
	item->made = stamp_of("2026-10");
	return item;
}

static void
muster_fleet(struct fleet *fleet, const char *from, const char *to)
{
	struct scene *scene = &fleet->scene;
	scene_engine(scene);
	scene->engine.rulebooks = fleet->rulebooks;
	for (size_t i = 0; i < BOATS; i++) {
		muster_vessel(&scene->engine, i, (struct span){day_of(from), day_of(to)},
		    &scene->arena, &fleet->musters[i]);
	}
	muster_cure(&scene->engine, fleet->musters, BOATS, &scene->arena);
}

/* So many pieces of an item go to a boat; 0 when none. */
static int
moved(const struct fleet *fleet, size_t boat, size_t item)
{
	const struct muster_cure *cure = &fleet->musters[boat].cure;
	for (size_t i = 0; i < cure->count; i++) {
		if (cure->moves[i].item == item) {
			return cure->moves[i].quantity;
		}
	}
	return 0;
}

TEST(a_lot_of_six_rockets_cures_three_boats_that_lack_two_each)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	add_rockets(&fleet, STORE, 6, "2029-03");
	muster_fleet(&fleet, DAY, DAY);
	for (size_t i = 0; i < BOATS; i++) {
		assert_true(fleet.musters[i].cure.cures);
		assert_true(fleet.musters[i].cure.fewest);
		assert_int_equal(fleet.musters[i].cure.count, 1);
		assert_int_equal(moved(&fleet, i, 0), 2);
	}
}

/* Two each for two boats; the fifth makes less missing on the third. */
TEST(five_rockets_make_two_boats_whole_and_the_third_in_part)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	add_rockets(&fleet, STORE, 5, "2029-03");
	muster_fleet(&fleet, DAY, DAY);
	assert_true(fleet.musters[0].cure.cures && fleet.musters[1].cure.cures);
	assert_false(fleet.musters[2].cure.cures);
	assert_int_equal(moved(&fleet, 0, 0), 2);
	assert_int_equal(moved(&fleet, 1, 0), 2);
	assert_int_equal(moved(&fleet, 2, 0), 1);
}

/* The first is in want of a tether too, of which there is none: with both rockets she would
 * still be short, so those make the second whole, and the one that is left is hers. */
TEST(who_can_be_made_whole_comes_before_who_cant)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	fleet.use[0].use = USE_COMMERCIAL;
	add_rockets(&fleet, 2, 2, "2029-03");
	add_rockets(&fleet, STORE, 3, "2029-03");
	muster_fleet(&fleet, DAY, DAY);
	assert_false(fleet.musters[0].cure.cures);
	assert_true(fleet.musters[1].cure.cures);
	assert_int_equal(moved(&fleet, 0, 1), 1);
	assert_int_equal(moved(&fleet, 1, 1), 2);
	assert_true(fleet.musters[2].ok);
}

/* Over a season: the first boat's rockets are good to the end of May 2027, the second's to the
 * end of February, the third's to the end of April. There are spares for two. */
TEST(who_is_first_short_is_served_first)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	add_rockets(&fleet, 0, 2, "2027-05");
	add_rockets(&fleet, 1, 2, "2027-02");
	add_rockets(&fleet, 2, 2, "2027-04");
	add_rockets(&fleet, STORE, 4, "2029-03");
	muster_fleet(&fleet, DAY, "2027-08-01");
	assert_int_equal(moved(&fleet, 0, 3), 0);
	assert_int_equal(moved(&fleet, 1, 3), 2);
	assert_int_equal(moved(&fleet, 2, 3), 2);
	assert_false(fleet.musters[0].cure.cures);
	assert_true(fleet.musters[1].cure.cures && fleet.musters[2].cure.cures);
}

/* The same, but the first boat is booked for May; the second, who is first to fall short, is not
 * booked. Then the third has a booking that is running. */
TEST(who_is_booked_soonest_is_served_before_who_is_first_short)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	add_rockets(&fleet, 0, 2, "2027-05");
	add_rockets(&fleet, 1, 2, "2027-02");
	add_rockets(&fleet, 2, 2, "2027-04");
	add_rockets(&fleet, STORE, 2, "2029-03");
	const struct booking may = {
	    {day_of("2027-05-01"), day_of("2027-05-08")}, 2, 0, ""};
	/* It is running on the first day asked about. */
	const struct booking now = {
	    {day_of("2026-11-20"), day_of("2026-11-25")}, 2, 0, ""};
	fleet.vessels[0].bookings = &may;
	fleet.vessels[0].booking_count = 1;
	muster_fleet(&fleet, DAY, "2027-08-01");
	assert_int_equal(moved(&fleet, 0, 3), 2);
	assert_int_equal(moved(&fleet, 1, 3), 0);
	fleet.vessels[2].bookings = &now;
	fleet.vessels[2].booking_count = 1;
	muster_fleet(&fleet, DAY, "2027-08-01");
	assert_int_equal(moved(&fleet, 0, 3), 0);
	assert_int_equal(moved(&fleet, 2, 3), 2);
	/* A day later it is over. */
	muster_fleet(&fleet, "2026-11-26", "2027-08-01");
	assert_int_equal(moved(&fleet, 0, 3), 2);
}

/* Avocet lies at Holm Quay until 31 December and at Varne Head from 1 January on; the store is
 * at Holm Quay. */
TEST(a_store_cures_the_boats_that_lie_at_its_base_on_the_day_asked_about)
{
	CLOSES_SCENE struct fleet fleet;
	struct period moving[2];
	open_fleet(&fleet);
	moving[0] = fleet.use[0];
	moving[0].base = "Holm Quay";
	moving[1] = moving[0];
	moving[1].from = day_of("2027-01-01");
	moving[1].base = "Varne Head";
	moving[1].says = SAYS_BASE;
	fleet.vessels[0].periods = moving;
	fleet.vessels[0].period_count = 2;
	add_rockets(&fleet, STORE, 2, "2029-03");
	add_rockets(&fleet, STORE, 4, "2029-03");
	muster_fleet(&fleet, "2026-12-31", "2026-12-31");
	assert_true(fleet.musters[0].cure.cures);
	muster_fleet(&fleet, "2027-01-01", "2027-01-01");
	assert_false(fleet.musters[0].cure.cures);
	assert_int_equal(fleet.musters[0].cure.count, 0);
	assert_true(fleet.musters[1].cure.cures);
}

/* Whose cylinder goes with which jacket of a lot is not known: all or none. Here tethers with a
 * part stand for it; two boats want one each and the lot has two. */
TEST(a_lot_with_parts_goes_as_a_whole)
{
	CLOSES_SCENE struct fleet fleet;
	open_fleet(&fleet);
	fleet.use[0].use = USE_COMMERCIAL;
	fleet.use[1].use = USE_COMMERCIAL;
	for (size_t i = 0; i < BOATS; i++) {
		add_rockets(&fleet, i, 2, "2029-03");
	}
	add_tethers(&fleet, STORE, 2);
	add_tethers(&fleet, STORE, 1)->parent = 3;
	muster_fleet(&fleet, DAY, DAY);
	assert_int_equal(moved(&fleet, 0, 3), 2);
	assert_int_equal(moved(&fleet, 1, 3), 0);
	assert_true(fleet.musters[0].cure.cures);
	assert_false(fleet.musters[1].cure.cures);
	/* a part that is gone holds none of them back */
	fleet.scene.items[4].state = PLACE_WITHDRAWN;
	muster_fleet(&fleet, DAY, DAY);
	assert_int_equal(moved(&fleet, 0, 3), 1);
	assert_int_equal(moved(&fleet, 1, 3), 1);
}

/* Pieces left in each lot while the fleet is gone through by hand. */
enum { LOTS = 3 };

struct drawn {
	size_t first_lot; /* the lots are the last items */
	int left[LOTS];
	int rockets[BOATS]; /* she has */
	bool tether[BOATS]; /* she wants one */
};

static struct drawn
draw_fleet(struct fleet *fleet, unsigned *seed)
{
	struct drawn drawn = {0};
	for (size_t i = 0; i < BOATS; i++) {
		drawn.rockets[i] = (int)draw(seed, 3);
		drawn.tether[i] = draw(seed, 2) == 0;
		fleet->use[i].use = drawn.tether[i] ? USE_COMMERCIAL : USE_PRIVATE;
		if (drawn.rockets[i] > 0) {
			add_rockets(fleet, i, drawn.rockets[i], "2029-03");
		}
	}
	drawn.first_lot = fleet->scene.item_count;
	for (size_t i = 0; i < LOTS; i++) {
		drawn.left[i] = 1 + (int)draw(seed, 3);
		if (i < 2) {
			add_rockets(fleet, STORE, drawn.left[i], "2029-03");
		} else {
			add_tethers(fleet, STORE, drawn.left[i]);
		}
	}
	return drawn;
}

/* Takes what a boat was given from what is left, and checks that it is `rockets` and
 * `tethers`. */
static void
expect_given(
    const struct fleet *fleet, struct drawn *drawn, size_t boat, int rockets, int tethers)
{
	int given[LOTS] = {0};
	for (size_t i = 0; i < LOTS; i++) {
		given[i] = moved(fleet, boat, drawn->first_lot + i);
		drawn->left[i] -= given[i];
		assert_true(drawn->left[i] >= 0);
	}
	assert_int_equal(given[0] + given[1], rockets);
	assert_int_equal(given[2], tethers);
}

/* Two sums, and the least of each: rockets and tethers serve no line of the other's, so who is
 * whole and who gets what can be counted in one's head. All are short from the first day on, so
 * the order is that of the list. */
TEST(drawn_fleets_are_served_as_one_would_by_hand)
{
	unsigned seed = 20261128;
	int whole = 0;
	int in_part = 0;
	for (int round = 0; round < 400; round++) {
		CLOSES_SCENE struct fleet fleet;
		bool done[BOATS] = {false};
		open_fleet(&fleet);
		struct drawn drawn = draw_fleet(&fleet, &seed);
		muster_fleet(&fleet, DAY, DAY);
		for (int pass = 0; pass < 2; pass++) {
			for (size_t i = 0; i < BOATS; i++) {
				int rockets = 2 - drawn.rockets[i];
				int tethers = drawn.tether[i] ? 1 : 0;
				int there = drawn.left[0] + drawn.left[1];
				bool can = rockets <= there && tethers <= drawn.left[2];
				if (done[i] || (pass == 0 && !can)) {
					continue;
				}
				done[i] = true;
				bool wants = rockets + tethers > 0;
				assert_int_equal(
				    fleet.musters[i].cure.cures, wants && pass == 0);
				rockets = rockets < there ? rockets : there;
				tethers =
				    tethers < drawn.left[2] ? tethers : drawn.left[2];
				expect_given(&fleet, &drawn, i, rockets, tethers);
				whole += wants && pass == 0 ? 1 : 0;
				in_part += pass == 1 && rockets + tethers > 0 ? 1 : 0;
			}
		}
	}
	assert_true(whole > 200 && in_part > 50);
}

TEST(words_that_move_pieces_can_be_typed)
{
	CLOSES_SCENE struct fleet fleet;
	SCOPED_TEXT words = {0};
	open_fleet(&fleet);
	fleet.vessels[0].name = "Avocet II";
	add_rockets(&fleet, STORE, 6, "2029-03")->tag = "FL-1";
	muster_move_words(&fleet.scene.inventory, &(struct muster_move){0, 2}, 0, &words);
	assert_string_equal(
	    text_string(&words), "becket move FL-1 --quantity 2 --vessel 'Avocet II'");
	text_reset(&words);
	muster_move_words(&fleet.scene.inventory, &(struct muster_move){0, 6}, 1, &words);
	assert_string_equal(text_string(&words), "becket move FL-1 --vessel Bittern");
}

RUN_TESTS(NULL, NULL)
